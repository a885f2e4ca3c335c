/** Readings as values, and readings against the limits that were asked for. */
import type { List, Quantity } from '../quantity/value';
import { plain, quantity } from '../quantity/arithmetic';
import { LENGTH } from '../quantity/dimension';
import { ONE } from '../quantity/unit';
import { systemOf } from '../quantity/units';
import type { ReadingNode } from '../notation/syntax';
import type { Entry, Problem, Recorded, Records } from './graph';
import type { Node } from './node';
import type { Asked, ReadingResult } from './results';

/** Lines that record something about a name, in the order of the note. */
export function inOrder(records: Records): readonly Node[] {
  records.ordered ??= records.lines.slice().sort((a, b) => a.line - b.line);
  return records.ordered;
}

/**
 * `reading` (the last), `readings`, their `positions` and `mean` (of the last stage, since a mean over stages would mix sizes before and
 * after a cut) or `used` (the last); null when there is none.
 */
export function recordOf(entry: Entry, field: string): Quantity | List | null {
  const { records } = entry;
  if (!records) return null;
  const { readings, positions, mean, used, reading } = (records.recorded ??= recordedIn(inOrder(records)));
  switch (field) {
    case 'readings':
      return readings;
    case 'positions':
      return positions;
    case 'mean':
      return mean;
    case 'used':
      return used;
    default:
      return reading;
  }
}

function recordedIn(lines: readonly Node[]): Recorded {
  const last = (kind: 'reading' | 'used'): Node | undefined =>
    [...lines].reverse().find((node) => node.statement.kind === kind && node.outcome.readings.length > 0);
  const line = last('reading');
  const [stage, used] = [line?.outcome.readings ?? [], last('used')?.outcome.readings ?? []];
  return {
    reading: stage.at(-1) ?? null,
    readings: stage.length > 0 ? { kind: 'list', items: stage } : null,
    positions: line ? positionsOf(line) : null,
    mean: stage.length > 0 ? mean(stage) : null,
    used: used.at(-1) ?? null,
  };
}

/** Where the readings of a line were taken: `at 10 mm`. Null where one does not say, or they are of different kinds. */
function positionsOf({ statement }: Node): List | null {
  if (statement.kind !== 'reading') return null;
  const items: Quantity[] = [];
  for (const { at } of statement.readings) {
    const kind = items[0]?.dimension ?? at?.unit.dimension;
    if (!at || at.unit.dimension !== kind) return null;
    items.push(quantity(at.value, at.unit));
  }
  return { kind: 'list', items };
}

/** Arithmetic mean in the unit of the first; null when the kinds differ. */
function mean(readings: readonly Quantity[]): Quantity | null {
  const first = readings[0] ?? plain(0);
  if (!readings.every((r) => r.dimension === first.dimension)) return null;
  const total = readings.reduce((sum, r) => sum + r.value, 0);
  return { ...first, value: readings.length === 1 ? first.value : total / readings.length, spread: null };
}

/** Places that are only a number: 45 may be a place along the work as well as how warm it was. */
export function barePlaces(readings: readonly ReadingNode[]): readonly Problem[] {
  return readings.flatMap(({ value: { unit }, at }): Problem[] => {
    if (at?.unit !== ONE || unit === ONE) return [];
    const units = unit.dimension === LENGTH ? [systemOf(unit) === 'in' ? 'in' : 'mm', '°C'] : [];
    const data = { at: at.value, offers: units.map((each) => `${at.value} ${each}`) };
    return [{ code: 'place-unit', start: at.start, end: at.end, data, related: [] }];
  });
}

/** A gauge shows a size to its last digit: differences below this part of the size are rounding, not metal. */
const ROUNDING = 1e-9;

export interface Judged {
  readonly result: ReadingResult;
  /** The reading that broke a limit, for the finding: how, and by how much (base units, positive). */
  readonly broken: {
    readonly code: 'metal-gone' | 'outside-limits' | 'readings-apart' | 'side-unknown';
    readonly index: number;
    readonly by: number;
  } | null;
}

/** Judges one line of readings against its figure's plan and asked limits. */
export function judgeReadings(
  how: 'measured' | 'final',
  path: string,
  readings: readonly Quantity[],
  positions: readonly (Quantity | null)[],
  plan: Quantity | null,
  asked: Asked | null | undefined,
): Judged {
  const last = readings.at(-1);
  const towards = asked?.sense === 'hole' ? -1 : 1;
  const toNominal = plan && last ? towards * (last.value - plan.value) + 0 : null;
  const base = { how, path, readings, positions, toNominal };
  if (!asked) return { result: { ...base, inside: null, left: null }, broken: null };

  const slack = ROUNDING * Math.max(Math.abs(asked.low), Math.abs(asked.high));
  let stock = 0;
  let gone: { index: number; by: number } | null = null;
  let outside: { index: number; by: number } | null = null;
  readings.forEach((reading, index) => {
    const [over, under] = [reading.value - asked.high, asked.low - reading.value];
    const by = Math.max(over, under);
    if (by <= slack) return;
    if (!outside || by > outside.by) outside = { index, by };
    const metalLeft = (asked.sense === 'shaft' && over > 0) || (asked.sense === 'hole' && under > 0);
    if (metalLeft) stock = Math.max(stock, by);
    else if (asked.sense && (!gone || by > gone.by)) gone = { index, by };
  });
  const inside = outside === null;
  const lost = gone as { index: number; by: number } | null;
  const off = outside as { index: number; by: number } | null;
  const left = lost ? -lost.by : asked.sense || inside ? stock : null;
  const sizes = readings.map(({ value }) => value);
  const apart = Math.max(...sizes) - Math.min(...sizes);
  const remains = lost === null && stock > 0;
  const uneven = remains && apart > asked.high - asked.low + slack;
  // A slip is ten times or 25.4 times. Bar may be thrice the size that is turned from it, and a hole is drilled small first.
  const far = remains ? 5 : 2;
  const slip = asked.low > 0 && sizes.some((size) => size > far * asked.high || size < asked.low / far);
  const result: ReadingResult = { ...base, inside, left, ...(slip ? { slip } : uneven && { apart }) };
  if (off === null) return { result, broken: null };
  if (how === 'final') return { result, broken: { code: 'outside-limits', ...(lost ?? off) } };
  if (lost) return { result, broken: { code: 'metal-gone', ...lost } };
  if (asked.sense) return { result, broken: result.apart ? { code: 'readings-apart', ...off } : null };
  return { result, broken: { code: 'side-unknown', ...off } };
}
