/** Holes that screws go through, and the seats of their heads. */
import { field, length, mm, must, positive } from './build';
import type { Formula, Given, Refusal, Step } from './formula';
import { THREAD, threadOf } from './thread';

/** ISO 273, from memory, in mm: thread, then holes of the fine, medium and coarse series. */
const CLEARANCE =
  '1.6 1.7 1.8 2;2 2.2 2.4 2.6;2.5 2.7 2.9 3.1;3 3.2 3.4 3.6;4 4.3 4.5 4.8;5 5.3 5.5 5.8;6 6.4 6.6 7;8 8.4 9 10;' +
  '10 10.5 11 12;12 13 13.5 14.5;14 15 15.5 16.5;16 17 17.5 18.5;18 19 20 21;20 21 22 24;22 23 24 26;24 25 26 28;' +
  '27 28 30 32;30 31 33 35;33 34 36 38;36 37 39 42';
/** DIN 974-1, first row, from memory, in mm: thread of a socket head cap screw (ISO 4762), then the counterbore. */
const COUNTERBORES =
  '3 6.5;4 8;5 10;6 11;8 15;10 18;12 20;14 24;16 26;18 30;20 33;22 36;24 40;27 46;30 50;33 54;36 58';
/** DIN 974-2, from memory: a counterbore is deeper than the head by so many mm, for threads up to so many. */
const DEEPER: readonly (readonly [upto: number, by: number])[] = [
  [6, 0.4],
  [20, 0.6],
  [27, 0.8],
  [36, 1],
];

const rows = (table: string): readonly (readonly number[])[] =>
  table.split(';').map((row) => row.split(' ').map(Number));

type Row = readonly number[];

/** The row of a metric thread, or what there is. */
function rowOf(given: Given, table: string, called: string): Row | Refusal {
  const thread = threadOf(given);
  if ('refused' in thread) return thread;
  const all = rows(table);
  const found = all.find(([size]) => size === thread.diameter);
  if (found) return found;
  const [first, last] = [all[0]?.[0] ?? 0, all.at(-1)?.[0] ?? 0];
  const near = [
    all.filter(([size = 0]) => size < thread.diameter).at(-1),
    all.find(([size = 0]) => size > thread.diameter),
  ];
  const offers = thread.row ? [] : near.flatMap((row) => (row ? [`M${row[0] ?? 0}`] : []));
  return {
    refused: thread.row
      ? `${called} is for metric screws, M${first} to M${last}: for ${thread.name} (${mm(thread.diameter)}) take a drill by \`drill_size\`.`
      : `${called} has sizes from M${first} to M${last}, and none for ${thread.name}. Give one that it has: ${offers.join(' or ')}.`,
    parameter: 'thread',
    offers,
  };
}

const isRow = (row: Row | Refusal): row is Row => Array.isArray(row);

const CLEARED = 'ISO 273 as held here';

const clearanceHole: Formula = {
  name: 'clearance_hole',
  family: 'holes',
  title: 'Hole that a screw goes through: fine, medium and coarse',
  parameters: [THREAD],
  result: [
    field('fine', 'mm', 'fine series, for parts that locate'),
    field('medium', 'mm', 'medium series, the usual one'),
    field('coarse', 'mm', 'coarse series, for rough or welded parts'),
    field('play', 'mm', 'what the medium hole is larger than the screw'),
  ],
  compute: (given) => {
    const row = rowOf(given, CLEARANCE, CLEARED);
    if (!isRow(row)) return row;
    const [thread = NaN, fine = NaN, medium = NaN, coarse = NaN] = row;
    return { fine, medium, coarse, play: medium - thread };
  },
  working: (given) => {
    const row = rowOf(given, CLEARANCE, CLEARED);
    if (!isRow(row)) return [];
    const [thread = NaN, fine = NaN, medium = NaN, coarse = NaN] = row;
    const listed = (name: string, size: number): Step => ({
      name,
      expression: `${size} mm`,
      words: `the ${name} series of ISO 273 for M${thread}`,
    });
    return [
      listed('fine', fine),
      listed('medium', medium),
      listed('coarse', coarse),
      { name: 'play', expression: `medium - ${thread} mm`, words: 'the hole less the screw' },
    ];
  },
  why:
    'Holes in two parts never line up exactly, so the screw gets room. Two parts with their holes off by half the play each ' +
    'way still go together. A screw does not locate: where position counts, use dowels.',
  conditions: [],
  source: 'ISO 273, from memory',
  cautions: ['drilling', 'breaking_through'],
  picture: null,
  checks: [
    {
      call: 'clearance_hole(M6)',
      expect: { fine: 6.4, medium: 6.6, coarse: 7, play: 0.6 },
      tolerance: 1e-9,
      source:
        'plain washers of M6 (ISO 7089) have the fine hole, 6.4 mm; medium and coarse as on drawings, from memory',
    },
    {
      call: 'clearance_hole(M12x1.5)',
      expect: { fine: 13, medium: 13.5, coarse: 14.5, play: 1.5 },
      tolerance: 1e-9,
      source:
        'plain washers of M12 (ISO 7089) have the fine hole, 13 mm; medium and coarse as on drawings, from memory',
    },
  ],
};

const BORED = 'The list of counterbores (DIN 974-1)';

const deeper = (thread: number): number => DEEPER.find(([upto]) => thread <= upto)?.[1] ?? NaN;

const counterbore: Formula = {
  name: 'counterbore',
  family: 'holes',
  title: 'Counterbore for a socket head cap screw',
  parameters: [THREAD],
  result: [
    field('bore', 'mm', 'diameter of the counterbore'),
    field('deep', 'mm', 'depth: the head and a little more, so that it lies below the face'),
    field('through', 'mm', 'hole through, medium series'),
  ],
  compute: (given) => {
    const row = rowOf(given, COUNTERBORES, BORED);
    const hole = rowOf(given, CLEARANCE, CLEARED);
    if (!isRow(row)) return row;
    if (!isRow(hole)) return hole;
    const [thread = NaN, bore = NaN] = row;
    return { bore, deep: thread + deeper(thread), through: hole[2] ?? NaN };
  },
  working: (given) => {
    const row = rowOf(given, COUNTERBORES, BORED);
    const hole = rowOf(given, CLEARANCE, CLEARED);
    if (!isRow(row) || !isRow(hole)) return [];
    const [thread = NaN, bore = NaN] = row;
    return [
      { name: 'bore', expression: `${bore} mm`, words: `DIN 974-1 for M${thread}` },
      {
        name: 'deep',
        expression: `${thread} mm + ${deeper(thread)} mm`,
        words: 'the head is as high as the screw is thick, and lies below the face by this much',
      },
      { name: 'through', expression: `${hole[2] ?? NaN} mm`, words: `medium hole of ISO 273 for M${thread}` },
    ];
  },
  why:
    'The head of a socket screw is as high as its thread is thick. The counterbore leaves room round the head for holes that ' +
    'do not line up; washers or other heads need more, so measure the screw in hand.',
  conditions: [],
  source:
    'DIN 974-1, first row, and DIN 974-2 for heads of ISO 4762, from memory; through hole: ISO 273, from memory',
  cautions: ['drilling', 'breaking_through'],
  picture: null,
  checks: [
    {
      call: 'counterbore(M6)',
      expect: { bore: 11, deep: 6.4, through: 6.6 },
      tolerance: 1e-9,
      source: 'head of 10 mm by 6 mm (ISO 4762) with 0.5 mm about it and 0.4 mm above, from memory',
    },
    {
      call: 'counterbore(M10)',
      expect: { bore: 18, deep: 10.6, through: 11 },
      tolerance: 1e-9,
      source: 'head of 16 mm by 10 mm (ISO 4762) with 1 mm about it and 0.6 mm above, from memory',
    },
  ],
};

const REAMED = length('diameter', 'diameter of the reamed hole');
/** Stock on diameter for holes up to so many mm. */
const ALLOWANCES: readonly (readonly [upto: number, allowance: number])[] = [
  [5, 0.1],
  [20, 0.2],
  [50, 0.3],
];
const SMALLEST_REAMED = 1;
const LARGEST_REAMED = 50;
/** Drills before reaming go by tenths. */
const TENTHS = 10;
const SLACK = 1e-9;

const allowanceOf = (given: Given): number =>
  ALLOWANCES.find(([upto]) => given.number('diameter') <= upto)?.[1] ?? NaN;
const drillBefore = (given: Given): number =>
  Math.floor((given.number('diameter') - allowanceOf(given)) * TENTHS + SLACK) / TENTHS;

const reamingAllowance: Formula = {
  name: 'reaming_allowance',
  family: 'holes',
  title: 'What to leave for the reamer, and the drill before it',
  parameters: [REAMED],
  result: [
    { ...field('allowance', 'mm', 'least to leave, on diameter'), choice: true },
    { ...field('drill', 'mm', 'largest drill by tenths that leaves it'), choice: true },
    field('left', 'mm', 'what that drill leaves, on diameter, where it cuts its own size'),
  ],
  compute: (given) => ({
    allowance: allowanceOf(given),
    drill: drillBefore(given),
    left: given.number('diameter') - drillBefore(given),
  }),
  working: (given) => [
    {
      name: 'allowance',
      expression: `${allowanceOf(given)} mm`,
      words: 'by custom: 0.1 mm to 5 mm, 0.2 mm to 20 mm, 0.3 mm to 50 mm',
    },
    {
      name: 'drill',
      expression: `round_down(diameter - allowance + ${SLACK} mm, 0.1 mm)`,
      words: 'down to the next tenth',
    },
    { name: 'left', expression: 'diameter - drill', words: 'the reamer less the drill' },
  ],
  why:
    'A reamer must cut: with too little it rubs and burnishes, with too much it follows the drill and chips. A drill cuts ' +
    'larger than it measures, by a tenth or so, which comes off what is left. Soft metals want more than this, up to double.',
  conditions: [
    ...positive(REAMED),
    must(
      'diameter',
      'reamed holes from 1 mm to 50 mm',
      (given) => given.number('diameter') >= SMALLEST_REAMED && given.number('diameter') <= LARGEST_REAMED,
      (given) =>
        `The custom is for reamers from ${SMALLEST_REAMED} mm to ${LARGEST_REAMED} mm: give a diameter in this range; ` +
        `${mm(given.number('diameter'))} is ${given.number('diameter') < SMALLEST_REAMED ? 'broached or lapped' : 'bored'}.`,
    ),
  ],
  source: 'common practice, from memory',
  cautions: ['drilling', 'breaking_through'],
  picture: null,
  checks: [
    {
      call: 'reaming_allowance(10 mm)',
      expect: { allowance: 0.2, drill: 9.8, left: 0.2 },
      tolerance: 1e-9,
      source: 'a 9.8 mm drill before a 10 mm reamer is sold as a set; common practice',
    },
    {
      call: 'reaming_allowance(1/4 in)',
      expect: { allowance: 0.2, drill: 6.1, left: 0.25 },
      tolerance: 1e-9,
      source:
        'on paper: 6.35 less 0.2, down to a tenth; handbooks leave 0.010 in at this size, common practice',
    },
  ],
};

export const SCREW_HOLE_FORMULAS: readonly Formula[] = [clearanceHole, counterbore, reamingAllowance];
