/** Drills of all four ways of sizing: the nearest one, the next up and the next down; and how deep a point reaches. */
import {
  choice,
  field,
  length,
  mm,
  must,
  optional,
  positive,
  quantity,
  radians,
  shown,
  single,
} from './build';
import { LETTER_DRILLS, NUMBER_DRILLS } from './drill-table';
import type { Formula, Given } from './formula';
import { inchFraction } from './fraction';

const INCH = 25.4;

export interface Drill {
  /** In mm. */
  readonly size: number;
  readonly called: string;
}

/** Metric drills: so many from a size, by steps, in tenths of a millimetre. Common practice, from memory. */
const METRIC_STEPS: readonly (readonly [first: number, step: number, last: number])[] = [
  [3, 1, 139],
  [140, 5, 315],
  [320, 10, 500],
];
const TENTHS = 10;
/** Fractions: by 64ths to one inch, by 32nds to two. Common practice, from memory. */
const FINE = 64;
const LAST_FRACTION = 128;

/** A drill's size to a millionth of a micrometre, so that inches are written as the notation writes them. */
const drill = (size: number, called: string): Drill => ({ size: Number(size.toFixed(9)), called });

const metric = (): readonly Drill[] =>
  METRIC_STEPS.flatMap(([first, step, last]) =>
    Array.from({ length: (last - first) / step + 1 }, (_, i) => (first + i * step) / TENTHS),
  ).map((size) => drill(size, mm(size)));

const fractions = (): readonly Drill[] =>
  Array.from({ length: LAST_FRACTION }, (_, i) => i + 1)
    .filter((parts) => parts <= FINE || parts % 2 === 0)
    .map((parts) => drill((parts * INCH) / FINE, inchFraction(parts, FINE)));

const numbers = (): readonly Drill[] =>
  NUMBER_DRILLS.map((size, i) => drill(size * INCH, `No. ${i + 1}`)).reverse();

const letters = (): readonly Drill[] =>
  LETTER_DRILLS.map((size, i) => drill(size * INCH, `letter ${String.fromCharCode('A'.charCodeAt(0) + i)}`));

const KINDS = new Map([
  ['metric', metric],
  ['fraction', fractions],
  ['number', numbers],
  ['letter', letters],
]);

/** All drills of a kind, or of all, the smallest first; one size called two ways is one drill with both names. */
function drillsOf(kind: string): readonly Drill[] {
  const own = KINDS.get(kind);
  if (own) return own();
  const all = new Map<number, string>();
  for (const make of KINDS.values())
    for (const { size, called } of make()) {
      const same = all.get(size);
      all.set(size, same === undefined ? called : `${same}, ${called}`);
    }
  return [...all].map(([size, called]) => ({ size, called })).sort((a, b) => a.size - b.size);
}

const kindOf = (given: Given): string => (given.has('kind') ? given.code('kind') : 'any');

const SIZE = length('size', 'size of hole that is looked for');
const KIND = optional(
  choice('kind', [...KINDS.keys(), 'any'], 'which drills are in the drawer; any when left out'),
);

interface Found {
  readonly nearest: Drill;
  readonly up: Drill;
  readonly down: Drill;
}

/** The drills about a size; null where it is not between two. */
function about(size: number, kind: string): Found | null {
  const all = drillsOf(kind);
  const up = all.find((each) => each.size > size + SAME);
  const down = all.filter((each) => each.size < size - SAME).at(-1);
  if (!up || !down) return null;
  const nearest = all.reduce((best, each) =>
    Math.abs(each.size - size) < Math.abs(best.size - size) ? each : best,
  );
  return { nearest, up, down };
}
/** A size is a drill's own within this many mm. */
const SAME = 1e-6;

const found = (given: Given): Found | null => about(given.number('size'), kindOf(given));

/** Sizes between which drills of a kind are known, with the names of the ends. */
function ends(kind: string): readonly [first: Drill, last: Drill] {
  const all = drillsOf(kind);
  const [first, last] = [all[0], all.at(-1)];
  if (!first || !last) throw new Error(`no drills ${kind}`);
  return [first, last];
}

const drillSize: Formula = {
  name: 'drill_size',
  family: 'holes',
  title: 'Nearest drill to a size, the next up and the next down',
  parameters: [SIZE, KIND],
  result: [
    { ...field('nearest', 'mm', 'size of the nearest drill; of two as near, the smaller'), choice: true },
    { ...field('called', '', 'what it is called'), words: true },
    field('off', 'mm', 'by how much it is larger than the size'),
    { ...field('up', 'mm', 'size of the next larger drill'), choice: true },
    { ...field('up_called', '', 'what that is called'), words: true },
    field('up_off', 'mm', 'by how much that is larger'),
    { ...field('down', 'mm', 'size of the next smaller drill'), choice: true },
    { ...field('down_called', '', 'what that is called'), words: true },
    field('down_off', 'mm', 'by how much that is larger: less than nothing'),
  ],
  compute: (given) => {
    const drills = found(given);
    if (!drills) return { refused: beyond(given), parameter: 'size' };
    const { nearest, up, down } = drills;
    const size = given.number('size');
    return {
      nearest: nearest.size,
      called: nearest.called,
      off: nearest.size - size,
      up: up.size,
      up_called: up.called,
      up_off: up.size - size,
      down: down.size,
      down_called: down.called,
      down_off: down.size - size,
    };
  },
  working: (given) => {
    const drills = found(given);
    if (!drills) return [];
    const step = (name: string, { size, called }: Drill, words: string) => ({
      name,
      expression: `${size} mm`,
      words: `${words}: ${called}`,
    });
    return [
      step('nearest', drills.nearest, 'the nearest in the lists'),
      { name: 'off', expression: 'nearest - size', words: 'the drill less the size' },
      step('up', drills.up, 'the next larger'),
      { name: 'up_off', expression: 'up - size', words: 'the drill less the size' },
      step('down', drills.down, 'the next smaller'),
      { name: 'down_off', expression: 'down - size', words: 'the drill less the size' },
    ];
  },
  why:
    'Inch drills come in fractions, numbers and letters, which fill each other’s gaps; metric ones go by tenths. A drill ' +
    'cuts a little larger than it measures, so for a hole that must not be too large take the next down and open it up.',
  conditions: [
    ...positive(SIZE),
    must(
      'size',
      'there is a drill on either side of the size: 0.3 mm to 2 in, by number No. 80 to No. 1, by letter A to Z',
      (given) => found(given) !== null,
      (given) => beyond(given),
    ),
  ],
  source:
    'number and letter drills: ASME B94.11M, from memory; fractions by 64ths to 1 in and 32nds to 2 in, metric by 0.1 mm to ' +
    '14 mm, 0.5 mm to 32 mm, 1 mm to 50 mm: common practice, from memory',
  cautions: ['drilling', 'breaking_through'],
  picture: null,
  checks: [
    {
      call: 'drill_size(5.1 mm)',
      expect: {
        nearest: 5.1,
        called: '5.1 mm',
        off: 0,
        up: 5.1054,
        up_called: 'No. 7',
        down: 5.0546,
        down_called: 'No. 8',
        down_off: -0.0454,
      },
      tolerance: 1e-9,
      source:
        'drill chart read across, from memory: No. 8 is 0.1990 in, 5.1 mm is 0.2008 in, No. 7 is 0.2010 in',
    },
    {
      call: 'drill_size(0.4 in, letter)',
      expect: {
        nearest: 10.0838,
        called: 'letter X',
        off: -0.0762,
        up: 10.2616,
        up_called: 'letter Y',
        down: 10.0838,
      },
      tolerance: 1e-9,
      source: 'letters of 0.397 and 0.404 in from a drill chart, subtracted and multiplied by 25.4 on paper',
    },
    {
      call: 'drill_size(6.35 mm)',
      expect: { nearest: 6.35, called: '1/4 in, letter E', off: 0, up: 6.4, down: 6.3, up_off: 0.05 },
      tolerance: 1e-9,
      source: 'letter E is a quarter of an inch on every drill chart; 6.35 mm exactly',
    },
  ],
};

function beyond(given: Given): string {
  const kind = kindOf(given);
  const [first, last] = ends(kind);
  return (
    `${mm(given.number('size'))} is not between two ${kind === 'any' ? '' : `${kind} `}drills: they go from ${first.called} ` +
    `(${mm(first.size)}) to ${last.called} (${mm(last.size)}). Give a size between${kind === 'any' ? '; a larger hole is bored' : ', or leave `kind` out'}.`
  );
}

const DIAMETER = length('diameter', 'diameter of the drill');
const POINT = optional(quantity('point', '°', 'angle of the point over both lips; 118° when left out'));
/** The usual point of a twist drill, in degrees. */
const USUAL_POINT = 118;
const FLAT = 180;

const pointOf = (given: Given): number => given.numberOr('point', USUAL_POINT);

const pointDepth: Formula = {
  name: 'drill_point_depth',
  family: 'holes',
  title: 'How much deeper the point of a drill reaches than its full diameter',
  parameters: [DIAMETER, POINT],
  result: [single('mm', 'height of the point: add it to the depth asked for')],
  compute: (given) => given.number('diameter') / 2 / Math.tan(radians(pointOf(given) / 2)),
  working: (given) => [
    {
      name: '',
      expression: `diameter / 2 / tan(${given.has('point') ? 'point' : `${USUAL_POINT}°`} / 2)`,
      words: 'half the diameter over the tangent of half the angle of the point',
    },
  ],
  why:
    'A drawing gives the depth of the full diameter. The digital readout counts from where the tip touches, so the point has ' +
    'to be added: about three tenths of the diameter at 118°, two tenths at 135°. Mind what the tip reaches below.',
  conditions: [
    ...positive(DIAMETER),
    must(
      'point',
      'the angle of the point is more than 0° and less than 180°',
      (given) => pointOf(given) > 0 && pointOf(given) < FLAT,
      (given) =>
        `A point of ${shown(pointOf(given), '°')} is none: give the angle over both lips, as 118° or 135°; a flat bottom needs ` +
        'nothing added.',
    ),
  ],
  source: 'geometry of a cone; 118° for the usual twist drill is common practice',
  cautions: ['drilling', 'breaking_through'],
  picture: null,
  checks: [
    {
      call: 'drill_point_depth(10 mm)',
      expect: { '': 3.00430309514 },
      tolerance: 1e-9,
      source: 'worked with a computer algebra system',
    },
    {
      call: 'drill_point_depth(8.5 mm, point: 135°)',
      expect: { '': 1.76040764009 },
      tolerance: 1e-9,
      source: 'worked with a computer algebra system',
    },
    {
      call: 'drill_point_depth(6 mm, point: 90°)',
      expect: { '': 3 },
      tolerance: 1e-9,
      source: 'a right angle: half the diameter, drawn',
    },
  ],
};

export const DRILL_FORMULAS: readonly Formula[] = [drillSize, pointDepth];
