/** A thread as its call-out names it: `M30x1.5-6g`, `M10`, `3/8-16 UNC-2A`, `10-32 UNF`. Lengths in mm. */
import type { Given, Parameter, Refusal, Step } from './formula';
import { COARSE, FINE, UNIFIED, type UnifiedRow } from './thread-table';

export const THREAD: Parameter = {
  name: 'thread',
  kind: 'code',
  unit: '',
  meaning: 'call-out of the thread as the drawing writes it, such as M30x1.5-6g or 3/8-16 UNC-2A',
  codesOf: (length) => [
    ...COARSE.filter(([diameter]) => isSame(diameter, length)).map(([diameter]) => `M${diameter}`),
    ...UNIFIED.filter(({ diameter }) => isSame(diameter * INCH, length)).map(unifiedName),
  ],
};

export const INCH = 25.4;
/** Sizes of threads lie further apart than this, in mm. */
const isSame = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6;

export interface Thread {
  /** Without its tolerance class: `M30x1.5`, `3/8-16 UNC`. */
  readonly name: string;
  readonly diameter: number;
  readonly pitch: number;
  readonly series: 'coarse' | 'fine' | 'not in the list' | 'UNC' | 'UNF';
  /** As written after the size: `6g`, `2A`; null when left out. */
  readonly tolerance: string | null;
  /** The row of the table, for unified threads. */
  readonly row: UnifiedRow | null;
  /** Diameter and pitch as the notation writes them, for a working. */
  readonly texts: readonly [diameter: string, pitch: string];
}

const METRIC = /^M(\d+(?:\.\d+)?)(?:x(\d+(?:\.\d+)?))?(?:-(.+))?$/;
const UNIFIED_CALLOUT = /^(?:(\d+) )?(\d+)(?:\/(\d+)|(\.\d+))?-(\d+(?:\.\d+)?) ?(UN[A-Z]*)(?:-(.+))?$/;
/** Metric sizes that are read: beyond, no table of this shop's threads reaches. */
const LARGEST = 200;
/** A basic profile of more than this part of the diameter leaves no core; M1 has a quarter. */
const COARSEST = 0.3;

const refuse = (refused: string, offers: readonly string[] = []): Refusal => ({
  refused,
  parameter: 'thread',
  offers,
});

/** The thread of an argument, or why there is none, with the nearest that there are. */
export const threadOf = (given: Given): Thread | Refusal => threadCalled(given.code('thread'));

export function threadCalled(text: string): Thread | Refusal {
  const metric = METRIC.exec(text);
  if (metric) return metricThread(metric);
  const unified = UNIFIED_CALLOUT.exec(text);
  if (unified) return unifiedThread(text, unified);
  return refuse(
    `\`${text}\` is no call-out of a thread. Write it as drawings do: \`M10\`, \`M30x1.5-6g\`, \`3/8-16 UNC-2A\`, ` +
      '`10-32 UNF`.',
  );
}

function metricThread([, size = '', fine, written]: readonly (string | undefined)[]): Thread | Refusal {
  const diameter = Number(size);
  const coarse = COARSE.find(([d]) => d === diameter);
  const pitch = fine === undefined ? coarse?.[1] : Number(fine);
  if (pitch === undefined) return noCoarse(diameter);
  if (!(diameter >= 1 && diameter <= LARGEST && pitch > 0 && pitch <= COARSEST * diameter))
    return refuse(
      `\`M${size}x${pitch}\` is outside what is read here: diameters from 1 mm to ${LARGEST} mm, pitches up to ` +
        `${COARSEST} of the diameter. Change the size or the pitch.`,
    );
  const listed = FINE.get(diameter)?.includes(pitch) ? 'fine' : 'not in the list';
  const isCoarse = pitch === coarse?.[1];
  return {
    name: isCoarse ? `M${diameter}` : `M${diameter}x${pitch}`,
    diameter,
    pitch,
    series: isCoarse ? 'coarse' : listed,
    tolerance: written ?? null,
    row: null,
    texts: [`${diameter} mm`, `${pitch} mm`],
  };
}

function noCoarse(diameter: number): Refusal {
  const below = COARSE.filter(([d]) => d < diameter).at(-1);
  const above = COARSE.find(([d]) => d > diameter);
  const near = [below, above].flatMap((row) => (row ? [`M${row[0]}`] : []));
  const first = COARSE[0]?.[0] ?? 0;
  return refuse(
    `There is no coarse pitch for M${diameter}: the list has coarse threads from M${first} to M${COARSE.at(-1)?.[0] ?? 0}, ` +
      `nearest ${near.join(' and ')}. Write one of these, or the pitch too: \`M${diameter}x1.5\`.`,
    near,
  );
}

/** A unified thread's call-out from its row. A number's size has no sign: the notation would read a comment. */
export const unifiedName = ({ series, size, threads }: UnifiedRow): string =>
  `${size.replace('#', '')}-${threads} ${series}`;

function unifiedThread(
  text: string,
  [, whole = '0', above = '', below, decimals, threads = '', series = '', written]: readonly (
    string | undefined
  )[],
): Thread | Refusal {
  const plain = below === undefined && decimals === undefined;
  const size = Number(whole) + Number(above + (decimals ?? '')) / Number(below ?? 1);
  const sized = UNIFIED.filter(
    (row) => Math.abs(row.diameter - size) < 1e-9 || (plain && whole === '0' && row.size === `#${above}`),
  );
  const row = sized.find((each) => each.series === series && each.threads === Number(threads));
  if (row) {
    return {
      name: unifiedName(row),
      diameter: row.diameter * INCH,
      pitch: INCH / row.threads,
      series: row.series,
      tolerance: written ?? null,
      row,
      texts: [`${row.diameter} in`, `1 in / ${row.threads}`],
    };
  }
  const names = sized.map(unifiedName);
  return refuse(
    names.length > 0
      ? `\`${text}\` is not in the table of unified threads; this size has ${names.join(' and ')}. Write one of these.`
      : `\`${text}\`: the table of unified threads has UNC from 1 to 12 by number and from 1/4 to 2 in, and UNF from 0 to ` +
          '12 and to 1 1/2 in. Write one of these sizes.',
    names,
  );
}

/** What a formula makes of its thread, or why there is none. */
export function withThread<T>(given: Given, make: (thread: Thread) => T): T | Refusal {
  const thread = threadOf(given);
  return 'refused' in thread ? thread : make(thread);
}

/** The size and pitch of the call-out, and the steps that follow from them; none where it is refused. */
export function stepsOf(given: Given, make: (thread: Thread) => readonly Step[]): readonly Step[] {
  const thread = threadOf(given);
  if ('refused' in thread) return [];
  const [diameter, pitch] = thread.texts;
  return [
    { name: 'diameter', expression: diameter, words: `outside diameter of ${thread.name}` },
    {
      name: 'pitch',
      expression: pitch,
      words: thread.row ? 'an inch over the threads per inch' : `pitch of ${thread.name}`,
    },
    ...make(thread),
  ];
}
