/** What a worn part was: the sizes behind a measured one, by how usual they are and how well wear explains it. */
import { choice, field, firstItems, length, listed, mm, must, optional, positive, shown } from './build';
import { inchFraction } from './fraction';
import { LETTER_DRILLS, NUMBER_DRILLS } from './drill-table';
import type { Formula, Given, Refusal } from './formula';
import { unifiedName } from './thread';
import { COARSE, UNIFIED } from './thread-table';
import { crestRoom } from './thread-zones';

const MEASURED = length('measured', 'size measured where it is least worn');
const PART = optional(
  choice(
    'part',
    ['shaft', 'hole', 'screw'],
    'what was measured: a `shaft`, a `hole`, or a `screw` over its crests; a shaft when left out',
  ),
);
const WEAR = optional(length('wear', 'most that may be worn off, on diameter; 0.2 mm when left out'));

const USUAL_WEAR = 0.2;
const INCH = 25.4;

/**
 * How usual a size is beside others, the most usual 1. A weighing of our own, from what drawings hold; no count of parts.
 * Metric after the order of ISO 3 and of bar and bearing sizes: tens, fives, whole, halves, tenths.
 */
const METRIC: readonly (readonly [step: number, weight: number])[] = [
  [10, 1],
  [5, 0.9],
  [2, 0.8],
  [1, 0.6],
  [0.5, 0.25],
  [0.1, 0.04],
];
/** Inches by the denominator of their fraction. */
const FRACTIONS: readonly (readonly [parts: number, weight: number])[] = [
  [1, 1],
  [2, 1],
  [4, 0.9],
  [8, 0.8],
  [16, 0.6],
  [32, 0.25],
  [64, 0.1],
];
const DRILL = 0.15;
/** A screw over its crests is one of these; a plain shaft was seldom meant to be one. */
const THREAD = 1;
const UNCUT_THREAD = 0.1;

/** Wear grows rarer by half with each quarter of the most that may be. */
const HALVES_PER_WEAR = 4;
/** What wear does not explain, as a shaft over its size: half as likely at this many mm, and falling away fast. */
const SLIP = 0.02;
/** Beyond this many of those a size is no longer one of those in question. */
const MOST_SLIPS = 3;
/** Sizes told, the likeliest first. */
const MOST_TOLD = 6;

interface Size {
  readonly called: string;
  readonly size: number;
  readonly weight: number;
  /** How far under its size it may measure when new. */
  readonly room: number;
}

/** Rounding alone leaves out no size. */
const SLACK = 1e-9;

/** Multiples of a step between two sizes. */
function multiples(step: number, low: number, high: number): readonly number[] {
  const [first, last] = [Math.ceil(low / step - SLACK), Math.floor(high / step + SLACK)];
  return Array.from({ length: last - first + 1 }, (_, i) => first + i);
}

function metric(low: number, high: number): readonly Size[] {
  return METRIC.flatMap(([step, weight]) =>
    multiples(step, low, high).map((n) => {
      const size = Number((n * step).toFixed(6));
      return { called: `${size} mm`, size, weight, room: 0 };
    }),
  );
}

function inches(low: number, high: number): readonly Size[] {
  return FRACTIONS.flatMap(([of, weight]) =>
    multiples(INCH / of, low, high).map((n) => ({
      called: inchFraction(n, of),
      size: (n * INCH) / of,
      weight,
      room: 0,
    })),
  );
}

function drills(): readonly Size[] {
  return [
    ...NUMBER_DRILLS.map((size, i) => ({
      called: `drill ${i + 1}`,
      size: size * INCH,
      weight: DRILL,
      room: 0,
    })),
    ...LETTER_DRILLS.map((size, i) => ({
      called: `drill ${String.fromCharCode('A'.charCodeAt(0) + i)}`,
      size: size * INCH,
      weight: DRILL,
      room: 0,
    })),
  ];
}

/** The coarse pitch of a size has the widest limits, and so holds those of the fine ones. */
function screws(weight: number, roomOf: (callOut: string) => number): readonly Size[] {
  // UNC stands before UNF: of each size the coarse one is kept.
  const inch = UNIFIED.filter(({ size }, i) => UNIFIED.findIndex((row) => row.size === size) === i);
  return [
    ...COARSE.map(([size]) => ({ called: `M${size}`, size, weight, room: roomOf(`M${size}`) })),
    ...inch.map((row) => ({
      called: `${row.size} UN thread`,
      size: row.diameter * INCH,
      weight,
      room: roomOf(unifiedName(row)),
    })),
  ];
}

/** One size for all that are called differently and are the same to a micrometre; the most usual name leads. */
function together(sizes: readonly Size[]): readonly Size[] {
  const found = new Map<number, Size[]>();
  for (const one of sizes) {
    const key = Math.round(one.size * 1000);
    const same = found.get(key) ?? [];
    if (!same.some(({ called }) => called === one.called)) found.set(key, [...same, one]);
  }
  return [...found.values()].flatMap((same) => {
    const [first, ...rest] = same.sort((a, b) => b.weight - a.weight);
    if (!first) return [];
    const others = rest.map(({ called }) => called).join(', ');
    return [{ ...first, called: others === '' ? first.called : `${first.called} (${others})` }];
  });
}

interface Likely extends Size {
  /** Measured less the size: below nothing for a worn shaft. */
  readonly off: number;
  /** Not yet shared out. */
  readonly share: number;
}

const isHole = (given: Given): boolean => given.has('part') && given.code('part') === 'hole';
const isScrew = (given: Given): boolean => given.has('part') && given.code('part') === 'screw';

/** How much metal wear would have taken: a shaft shrinks, a hole grows. */
const worn = (given: Given, size: number): number =>
  isHole(given) ? given.number('measured') - size : size - given.number('measured');

function candidates(given: Given): { told: readonly Likely[]; total: number } {
  const [measured, wear] = [given.number('measured'), given.numberOr('wear', USUAL_WEAR)];
  const [low, high] = [
    measured - Math.max(wear, SLIP * MOST_SLIPS),
    measured + Math.max(wear, SLIP * MOST_SLIPS),
  ];
  const all = isScrew(given)
    ? screws(THREAD, crestRoom)
    : [
        ...metric(low, high),
        ...inches(low, high),
        ...(isHole(given) ? drills() : screws(UNCUT_THREAD, () => 0)),
      ];
  const likely = together(all)
    .filter(({ size, room }) => worn(given, size) <= wear + room && worn(given, size) >= -SLIP * MOST_SLIPS)
    .map((one): Likely => {
      const lost = worn(given, one.size);
      const fits =
        lost >= 0
          ? 0.5 ** ((HALVES_PER_WEAR * Math.max(0, lost - one.room)) / wear)
          : 0.5 ** ((lost / SLIP) ** 2);
      return { ...one, off: measured - one.size, share: one.weight * fits };
    })
    .sort((a, b) => b.share - a.share || a.size - b.size);
  return {
    told: likely.slice(0, MOST_TOLD),
    total: likely.reduce((sum, { share }) => sum + share, 0),
  };
}

function noSize(given: Given): Refusal {
  const wear = given.numberOr('wear', USUAL_WEAR);
  return {
    refused:
      `No usual size lies within ${mm(wear)} of wear from ${mm(given.number('measured'))}: allow more \`wear\`, or measure where ` +
      `it is less worn.${isScrew(given) ? ' Pipe threads and old 55° inch threads are not in the list.' : ''}`,
    parameter: 'measured',
  };
}

const percent = (share: number, total: number): number => (share / total) * 100;

/** Outside diameters alone tell no thread: sizes of several systems overlap. */
const GAUGE = 'check the pitch with a gauge';

function ranking(given: Given, told: readonly Likely[], total: number): string {
  const sizes = told
    .map(({ called, off, share }) => {
      const way = off === 0 ? 'exactly' : `${mm(Math.abs(off))} ${off < 0 ? 'under' : 'over'}`;
      const likely = percent(share, total);
      return `${called}: ${way}, ${likely < 0.5 ? 'under 1' : Math.round(likely)} %`;
    })
    .join('; ');
  return isScrew(given) ? `${sizes}; ${GAUGE}` : sizes;
}

const likelySize: Formula = {
  name: 'likely_size',
  family: 'worn',
  title: 'Sizes that a worn part may have had, the likeliest first',
  parameters: [MEASURED, PART, WEAR],
  result: [
    { ...field('best', 'mm', 'likeliest size'), choice: true },
    { ...field('called', '', 'what that is called'), words: true },
    field('off', 'mm', 'measured less that size'),
    { ...field('names', '', 'what each size in question is called'), words: true, perItem: true },
    listed('sizes', 'mm', 'sizes in question, the likeliest first'),
    listed('offs', 'mm', 'measured less each'),
    listed('likelihoods', '%', 'how likely each is among all in question, by weights of practice'),
    { ...field('ranking', '', 'the same in words'), words: true },
  ],
  compute: (given) => {
    const { told, total } = candidates(given);
    const [first] = told;
    if (!first) return noSize(given);
    return {
      best: first.size,
      called: first.called,
      off: first.off,
      // A comma parts the names of the list from each other.
      names: told.map(({ called }) => called.replaceAll(', ', ' or ')).join(', '),
      sizes: told.map(({ size }) => size),
      offs: told.map(({ off }) => off),
      likelihoods: told.map(({ share }) => percent(share, total)),
      ranking: ranking(given, told, total),
    };
  },
  working: (given) => {
    const { told, total } = candidates(given);
    const wear = given.has('wear') ? 'wear' : `${USUAL_WEAR} mm`;
    const size = (i: number): string => `${Number((told[i]?.size ?? NaN).toFixed(9))} mm`;
    const item = (i: number): string => {
      const lost = isHole(given) ? `measured - ${size(i)}` : `${size(i)} - measured`;
      const [left, room] = [worn(given, told[i]?.size ?? NaN), told[i]?.room ?? 0];
      const beyond = room > 0 ? `max(${lost} - ${Number(room.toFixed(9))} mm, 0 mm)` : `(${lost})`;
      const halves =
        left >= 0 ? `(${HALVES_PER_WEAR} * ${beyond} / ${wear})` : `(((${lost}) / ${SLIP} mm)^2)`;
      return `100% * ${told[i]?.weight ?? NaN} * 0.5^${halves} / all_shares`;
    };
    return [
      {
        name: 'best',
        expression: size(0),
        words: `the likeliest: ${told[0]?.called ?? ''}${isScrew(given) ? `; ${GAUGE}` : ''}`,
      },
      { name: 'off', expression: 'measured - best', words: 'what it is off' },
      { name: 'sizes', expression: firstItems(told.length, size), words: 'sizes that wear can explain' },
      {
        name: 'offs',
        expression: firstItems(told.length, (i) => `measured - ${size(i)}`),
        words: 'what each is off',
      },
      {
        name: 'all_shares',
        expression: total.toFixed(15),
        words: 'the shares of all sizes in question together',
      },
      {
        name: 'likelihoods',
        expression: firstItems(told.length, item),
        words:
          'how usual the size is, halved for each quarter of the wear that it would take' +
          `${isScrew(given) ? ' below the limits of a new screw' : ''}, as a part of all`,
      },
    ];
  },
  why:
    'A shaft wears thin and a hole wears wide, so the size was on the other side of what is measured, and seldom by much. ' +
    'Round sizes are more usual than odd ones. Where two sizes are about as likely, look at the mating part, at the rest of the ' +
    'machine, metric or inch, and at a place that never rubbed. A new screw measures under its size over the crests, so what its ' +
    'usual class allows (6g, 2A) counts before any wear. Several threads are then as likely: check pitch and angle with a gauge. ' +
    'Old 55° inch threads are not in the list; many have the size of a UN thread.',
  conditions: [
    ...positive(MEASURED, WEAR),
    must(
      'measured',
      'sizes from 0.3 mm to 1000 mm',
      (given) => given.number('measured') >= 0.3 && given.number('measured') <= 1000,
      (given) =>
        `${shown(given.number('measured'), 'mm')} is beyond the sizes known here: measure one from 0.3 to 1000 mm.`,
    ),
    must(
      'wear',
      'wear of less than a tenth of the size, 5 mm at most',
      (given) => given.numberOr('wear', 0) <= Math.min(5, given.number('measured') / 10),
      (given) =>
        `With ${mm(given.number('wear'))} of wear it may have been nearly any size: allow ${mm(Math.min(5, given.number('measured') / 10))} at most.`,
    ),
  ],
  source:
    'fractions and metric steps: arithmetic; threads: ISO 261, ISO 965-1, ASME B1.1; drills: ASME B94.11M, from memory; weights: our own, ' +
    'from practice and not from counting',
  cautions: ['measuring'],
  picture: null,
  checks: [
    {
      call: 'likely_size(12.68 mm)',
      expect: {
        best: 12.7,
        called: '1/2 in (1/2 UN thread, 12.7 mm)',
        off: -0.02,
        names: '1/2 in (1/2 UN thread or 12.7 mm), 12.8 mm',
        sizes: [12.7, 12.8],
        offs: [-0.02, -0.12],
        likelihoods: [99.00990099, 0.99009901],
        ranking: '1/2 in (1/2 UN thread, 12.7 mm): 0.02 mm under, 99 %; 12.8 mm: 0.12 mm under, 1 %',
      },
      tolerance: 1e-7,
      source: 'every size weighed by a second program, by brute force',
    },
    {
      call: 'likely_size(6.79 mm, hole, wear: 0.1 mm)',
      expect: {
        best: 6.7564,
        called: 'drill H',
        sizes: [6.7564, 6.8, 6.746875, 6.7],
        likelihoods: [46.79448345, 26.6373002, 23.95581608, 2.61240027],
      },
      tolerance: 1e-7,
      source: 'every size weighed by a second program, by brute force',
    },
    {
      call: 'likely_size(29.93 mm, shaft, wear: 0.25 mm)',
      expect: {
        best: 30,
        off: -0.07,
        sizes: [30, 30.1625, 29.9, 30.1],
        likelihoods: [88.46153699, 8.75442734, 1.61677869, 1.16725698],
      },
      tolerance: 1e-7,
      source: 'every size weighed by a second program, by brute force',
    },
    {
      call: 'likely_size(11.86 mm, screw)',
      expect: {
        best: 12,
        called: 'M12',
        off: -0.14,
        sizes: [12],
        likelihoods: [100],
        ranking: 'M12: 0.14 mm under, 100 %; check the pitch with a gauge',
      },
      tolerance: 1e-9,
      source: 'every size weighed by a second program, by brute force',
    },
    {
      call: 'likely_size(15.7 mm, screw)',
      expect: { names: '5/8 UN thread, M16', sizes: [15.875, 16], likelihoods: [50, 50] },
      tolerance: 1e-9,
      source:
        'new screws of both: M16-6g from 15.682 to 15.962 mm by an open table of ISO 965-2, 5/8-11 UNC-2A from 0.6113 to ' +
        '0.6234 in by a handbook, from memory',
    },
  ],
};

export const WORN_FORMULAS: readonly Formula[] = [likelySize];
