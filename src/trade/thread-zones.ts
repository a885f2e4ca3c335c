/** What a tolerance class leaves between the limits of a thread: metric grade 6 by table, unified by its formulas. In mm. */
import { shown } from './build';
import type { Refusal } from './formula';
import { INCH, type Thread, threadCalled } from './thread';
import {
  DISAGREES,
  MAJOR_6,
  MINOR_6,
  NUT_PITCH_6,
  POSITION_G,
  SCREW_PITCH_6,
  SMALLEST_TOLERATED,
} from './thread-table';

/** How the limits of a screw or a nut lie to its basic sizes, in mm: away by `allowance` into the metal's absence. */
export interface Zone {
  readonly tolerance: string;
  readonly allowance: number;
  /** Width for the outside diameter of a screw or the bore of a nut. */
  readonly crest: number;
  readonly pitchDiameter: number;
  readonly checked: string;
}

type Side = 'screw' | 'nut';

const PER_MM = 1000;

const refuse = (refused: string, offers: readonly string[] = []): Refusal => ({
  refused,
  parameter: 'thread',
  offers,
});

/** The classes that are held, the usual one first. */
const CLASSES = {
  metric: { screw: ['6g', '6h'], nut: ['6H', '6G'] },
  unified: { screw: ['2A', '3A'], nut: ['2B'] },
} as const;

const FORMULA = { screw: 'screw_limits', nut: 'nut_limits' } as const;

/** The zone of a thread's class, the usual one where the call-out names none. */
export function zoneOf(thread: Thread, side: Side): Zone | Refusal {
  const held: Readonly<Record<Side, readonly string[]>> = CLASSES[thread.row ? 'unified' : 'metric'];
  const tolerance = thread.tolerance ?? held[side][0] ?? '';
  const other = side === 'screw' ? 'nut' : 'screw';
  if (/[a-h]|A$/.test(tolerance) !== (side === 'screw')) {
    return refuse(
      `\`${tolerance}\` is a class of ${other}s: for a ${side} write ${held[side].join(' or ')}, for a ${other} take ` +
        `\`${FORMULA[other]}\`.`,
      held[side].map((each) => `${thread.name}-${each}`),
    );
  }
  if (!held[side].includes(tolerance)) {
    return refuse(
      `\`${tolerance}\` is not among the classes held here: ${held.screw.join(', ')} for screws and ` +
        `${held.nut.join(', ')} for nuts. Write one of these, or look the limits up in the standard.`,
      held[side].map((each) => `${thread.name}-${each}`),
    );
  }
  return thread.row ? unified(thread, side, tolerance) : metric(thread, side, tolerance);
}

/** How far under its size a new screw of the usual class may measure over its crests, in mm; none where no class is held. */
export function crestRoom(callOut: string): number {
  const thread = threadCalled(callOut);
  const zone = 'refused' in thread ? thread : zoneOf(thread, 'screw');
  return 'refused' in zone ? 0 : zone.allowance + zone.crest;
}

function metric(thread: Thread, side: Side, tolerance: string): Zone | Refusal {
  const { diameter, pitch } = thread;
  const rows = side === 'screw' ? SCREW_PITCH_6 : NUT_PITCH_6;
  const row = diameter > SMALLEST_TOLERATED ? rows.find(([upto]) => diameter <= upto) : undefined;
  if (!row) {
    return refuse(
      `The tolerances are for threads above M${SMALLEST_TOLERATED} up to M${rows.at(-1)?.[0] ?? 0}: ${thread.name} needs ` +
        'the standard itself.',
    );
  }
  const width = row[1].get(pitch);
  const crest = (side === 'screw' ? MAJOR_6 : MINOR_6).get(pitch);
  const position = /g/i.test(tolerance) ? POSITION_G.get(pitch) : 0;
  if (width === undefined || crest === undefined || position === undefined) {
    const below = rows[rows.indexOf(row) - 1]?.[0] ?? SMALLEST_TOLERATED;
    return refuse(
      `Above ${below} mm and up to ${row[0]} mm the table has tolerances for the pitches ${[...row[1].keys()].join(', ')} mm, ` +
        `not ${shown(pitch, 'mm')}. Take one of these, or look the limits up in the standard.`,
      [...row[1].keys()].map((each) => `M${diameter}x${each}`),
    );
  }
  return {
    tolerance,
    allowance: position / PER_MM,
    crest: crest / PER_MM,
    pitchDiameter: width / PER_MM,
    checked: howChecked(thread, tolerance),
  };
}

function howChecked({ name, series }: Thread, tolerance: string): string {
  const others = (DISAGREES.get(name) ?? []).filter(([what]) => what.startsWith(tolerance));
  if (others.length > 0)
    return `an open table has ${others.map(([what, max, min]) => `${what} ${max} to ${min} mm`).join(', ')}; kept is the standard's, from memory`;
  const listed = series !== 'not in the list' && (tolerance === '6g' || tolerance === '6H');
  return listed
    ? 'from memory, agrees with an open table of ISO 965-2'
    : 'by the rule of ISO 965-1, from memory';
}

/**
 * ASME B1.1, in inches: the tolerance of a class 2A pitch diameter over the diameter D, the length engaged (D for these
 * series) and the pitch P is 0.0015 of each of their roots, 0.015 for the last; others are parts of it.
 */
const ROOTS = 0.0015;
const PITCH_PART = 0.015;
const ALLOWANCE = 0.3;
const OF_2A: ReadonlyMap<string, number> = new Map([
  ['2A', 1],
  ['3A', 0.75],
  ['2B', 1.3],
]);
/** Outside diameter of screws of both classes, times P^(2/3). */
const MAJOR = 0.06;
/** From here on, in inches, a nut's bore has the simpler rule. */
const LARGE = 0.25;

function unified(thread: Thread, side: Side, tolerance: string): Zone {
  const [D, P] = [thread.diameter / INCH, thread.pitch / INCH];
  const root = P ** (2 / 3);
  const full = ROOTS * (Math.cbrt(D) + Math.sqrt(D)) + PITCH_PART * root;
  const crest = side === 'screw' ? MAJOR * root : boreTolerance(D, P);
  return {
    tolerance,
    allowance: tolerance === '2A' ? ALLOWANCE * full * INCH : 0,
    crest: crest * INCH,
    pitchDiameter: full * (OF_2A.get(tolerance) ?? NaN) * INCH,
    checked: 'by the formulas of ASME B1.1, from memory; they meet handbook limits of common sizes',
  };
}

/** Tolerance of the bore of a class 2B nut, in inches. */
function boreTolerance(D: number, P: number): number {
  const simple = 0.25 * P - 0.4 * P * P;
  if (D >= LARGE) return simple;
  const small = 0.05 * P ** (2 / 3) + (0.03 * P) / D - 0.002;
  return Math.min(Math.max(small, simple), 0.394 * P);
}
