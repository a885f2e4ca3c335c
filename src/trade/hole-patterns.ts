/** Holes on a circle and on a part of one, as coordinates for the readout. */
import {
  count,
  field,
  firstItems,
  length,
  listed,
  must,
  numbered,
  optional,
  positive,
  quantity,
  radians,
  shown,
} from './build';
import type { Condition, Formula, Given, Outcome, Parameter, Step } from './formula';

const DIAMETER = length('diameter', 'diameter of the circle that the holes lie on');
const HOLES = count('holes', 'how many holes');
const CENTRE_X = optional(length('centre_x', 'readout of X over the centre; zero when left out'));
const CENTRE_Y = optional(length('centre_y', 'readout of Y over the centre; zero when left out'));
const START = quantity('start', '°', 'where the first hole lies, from the X axis towards Y');
const END = quantity('end', '°', 'where the last hole lies, the same way round');

/** A longer list is no longer read at the machine. */
const MOST_HOLES = 400;

export interface Place {
  readonly x: number;
  readonly y: number;
}

/** Where the holes of a circle lie: how far from the start to the first and from each to the next, in degrees. */
interface Ring {
  readonly holes: number;
  readonly start: number;
  readonly step: number;
}

const angleOf = ({ start, step }: Ring, i: number): number => start + i * step;

/** A hole that ends a round to within this, in degrees, begins the next: the limits of its angle stay on one side. */
const NEAR = 0.5;
/** Whole rounds that a hole's angle is shown without. */
const roundsOf = (ring: Ring, i: number): number => Math.max(0, Math.floor((angleOf(ring, i) + NEAR) / 360));

function ringPlaces(given: Given, ring: Ring): readonly Place[] {
  const [x, y] = [given.numberOr('centre_x', 0), given.numberOr('centre_y', 0)];
  const radius = given.number('diameter') / 2;
  return Array.from({ length: ring.holes }, (_, i) => {
    const angle = radians(angleOf(ring, i));
    return { x: x + radius * Math.cos(angle), y: y + radius * Math.sin(angle) };
  });
}

function ringAnswer(given: Given, ring: Ring): Readonly<Record<string, Outcome>> {
  const places = ringPlaces(given, ring);
  return {
    hole: places.map((_, i) => i + 1),
    angle: places.map((_, i) => angleOf(ring, i) - 360 * roundsOf(ring, i)),
    x: places.map(({ x }) => x),
    y: places.map(({ y }) => y),
    chord: given.number('diameter') * Math.abs(Math.sin(radians(ring.step) / 2)),
  };
}

/** The steps of a circle's list; `step` is what the notation writes for the angle from hole to hole. */
function ringWorking(given: Given, ring: Ring, step: string, start: string): readonly Step[] {
  const holes = given.number('holes');
  const axis = (name: 'x' | 'y', turn: 'cos' | 'sin') => ({
    name,
    expression: firstItems(
      holes,
      (i) =>
        `${given.has(`centre_${name}`) ? `centre_${name} + ` : ''}diameter / 2 * ${turn}(${start} + ${i} * step)`,
    ),
    words: `half the diameter times the ${turn === 'cos' ? 'cosine' : 'sine'} of each angle, from the centre`,
  });
  return [
    { name: 'step', expression: step, words: 'angle from one hole to the next' },
    { name: 'hole', expression: firstItems(holes, (i) => String(i + 1)), words: 'hole by hole' },
    {
      name: 'angle',
      expression: firstItems(holes, (i) => {
        const rounds = roundsOf(ring, i);
        return `${start} + ${i} * step${rounds > 0 ? ` - ${360 * rounds}°` : ''}`;
      }),
      words: 'so many steps from the first, below 360°',
    },
    axis('x', 'cos'),
    axis('y', 'sin'),
    {
      name: 'chord',
      expression: 'diameter * abs(sin(step / 2))',
      words: 'twice half the chord, from the half triangle between two neighbours',
    },
  ];
}

const RING_FIELDS = [
  numbered('hole', 'number of the hole'),
  listed('angle', '°', 'where it lies, from the X axis towards Y'),
  listed('x', 'mm', 'readout of X over it'),
  listed('y', 'mm', 'readout of Y over it'),
  field('chord', 'mm', 'straight distance from a hole to the next, to measure'),
];

/** Angles near the one given at which a hole crosses an axis, where its coordinate turns round. */
export function crossings(angle: number, offsets: readonly number[]): readonly number[] {
  return offsets.flatMap((offset) => {
    const quarter = Math.floor((angle + offset) / 90);
    return [-1, 0, 1, 2].map((more) => (quarter + more) * 90 - offset);
  });
}

export const enough = (
  parameter: string,
  name: Parameter['name'],
  product: (given: Given) => number,
): Condition =>
  must(
    parameter,
    `no more than ${MOST_HOLES} holes`,
    (given) => product(given) <= MOST_HOLES,
    (given) =>
      `A list of ${product(given)} holes is no longer read at the machine: give ${name} for ${MOST_HOLES} or fewer.`,
  );

function wholeRing(given: Given): Ring {
  return {
    holes: given.number('holes'),
    start: given.numberOr('start', 0),
    step: 360 / given.number('holes'),
  };
}

const WHY_RING =
  'Half the diameter, turned to each angle, has the cosine of it along X and the sine along Y. All coordinates come from ' +
  'the centre, so an error at one hole does not add to the next. Before drilling, go to each place and mark it, and measure ' +
  'a chord or two when the first holes are through.';

const boltCircle: Formula = {
  name: 'bolt_circle',
  family: 'probing',
  title: 'Coordinates of holes spaced evenly round a circle',
  parameters: [DIAMETER, HOLES, CENTRE_X, CENTRE_Y, optional(START)],
  result: RING_FIELDS,
  compute: (given) => ringAnswer(given, wholeRing(given)),
  working: (given) =>
    ringWorking(given, wholeRing(given), '360° / holes', given.has('start') ? 'start' : '0°'),
  why: WHY_RING,
  conditions: [
    ...positive(DIAMETER),
    enough('holes', '`holes`', (given) => given.number('holes')),
    must(
      'holes',
      'two holes or more',
      (given) => given.number('holes') >= 2,
      () => 'One hole is not spaced from any other: give 2 or more, or its place by itself.',
    ),
  ],
  source: 'geometry: polar to rectangular coordinates',
  cautions: ['drilling', 'measuring'],
  picture: 'bolt_circle',
  checks: [
    {
      call: 'bolt_circle(60 mm, 6)',
      expect: {
        hole: [1, 2, 3, 4, 5, 6],
        angle: [0, 60, 120, 180, 240, 300],
        x: [30, 15, -15, -30, -15, 15],
        y: [0, 25.9807621135, 25.9807621135, 0, -25.9807621135, -25.9807621135],
        chord: 30,
      },
      tolerance: 1e-9,
      source: 'powers of a complex sixth root of one',
    },
    {
      call: 'bolt_circle(80 mm, 4, centre_x: 120 mm, centre_y: 75.5 mm, start: 45°)',
      expect: {
        x: [148.284271247, 91.7157287525, 91.7157287525, 148.284271247],
        y: [103.784271247, 103.784271247, 47.2157287525, 47.2157287525],
        chord: 56.5685424949,
      },
      tolerance: 1e-8,
      source: 'corners of a square whose side is 80 over the root of two, by hand',
    },
  ],
  extremes: {
    start: (given) =>
      crossings(
        given.numberOr('start', 0),
        Array.from({ length: given.number('holes') }, (_, i) => (i * 360) / given.number('holes')),
      ),
  },
};

function partRing(given: Given): Ring {
  const [holes, start, end] = [given.number('holes'), given.number('start'), given.number('end')];
  return { holes, start, step: (end - start) / (holes - 1) };
}

/** Where moving one end takes a hole across an axis, or neighbours to opposite sides of the circle. */
function turningEnds(given: Given, moved: 'start' | 'end'): readonly number[] {
  const { holes, start, step } = partRing(given);
  const still = given.number(moved === 'start' ? 'end' : 'start');
  const across = [0, 180, -180].map((half) => still + half * (holes - 1));
  return Array.from({ length: holes }, (_, i) => {
    const part = moved === 'start' ? 1 - i / (holes - 1) : i / (holes - 1);
    if (part === 0) return [];
    return crossings(start + i * step, [0]).map((angle) => (angle - still * (1 - part)) / part);
  })
    .flat()
    .concat(across);
}

const span = (given: Given): number => Math.abs(given.number('end') - given.number('start'));

const boltArc: Formula = {
  name: 'bolt_arc',
  family: 'probing',
  title: 'Coordinates of holes spaced evenly along a part of a circle',
  parameters: [DIAMETER, HOLES, START, END, CENTRE_X, CENTRE_Y],
  result: RING_FIELDS,
  compute: (given) => ringAnswer(given, partRing(given)),
  working: (given) => ringWorking(given, partRing(given), '(end - start) / (holes - 1)', 'start'),
  why:
    'Holes along a part of a circle have one space less than there are holes, as fence posts have. Where the last hole ' +
    'would fall on the first again, the circle is whole and `bolt_circle` is meant.',
  conditions: [
    ...positive(DIAMETER),
    enough('holes', '`holes`', (given) => given.number('holes')),
    must(
      'holes',
      'two holes or more',
      (given) => given.number('holes') >= 2,
      () => 'One hole has no space to share out: give 2 or more.',
    ),
    must(
      'end',
      'the last hole lies elsewhere than the first, less than once round',
      (given) => span(given) > 0 && span(given) < 360,
      (given) =>
        `From the first hole to the last it is ${shown(span(given), '°')}: give an end less than 360° from the start, or ` +
        'use `bolt_circle` for the whole round.',
    ),
  ],
  source: 'geometry: polar to rectangular coordinates',
  cautions: ['drilling', 'measuring'],
  picture: 'bolt_circle',
  checks: [
    {
      call: 'bolt_arc(100 mm, 3, 0°, 90°)',
      expect: {
        hole: [1, 2, 3],
        angle: [0, 45, 90],
        x: [50, 35.3553390593, 0],
        y: [0, 35.3553390593, 50],
        chord: 38.2683432365,
      },
      tolerance: 1e-9,
      source: 'by hand with 50 over the root of two; the chord by the half-angle formula',
    },
    {
      call: 'bolt_arc(140 mm, 4, 200°, 110°, centre_x: 10 mm, centre_y: -5 mm)',
      expect: {
        angle: [200, 170, 140, 110],
        x: [-55.778483455, -58.9365427109, -43.6231110184, -13.9414100327],
        y: [-28.9414100327, 7.1553724367, 39.995132678, 60.778483455],
        chord: 36.2346663143,
      },
      tolerance: 1e-8,
      source: 'complex exponentials, numpy',
    },
  ],
  extremes: {
    start: (given) => turningEnds(given, 'start'),
    end: (given) => turningEnds(given, 'end'),
  },
};

export const PATTERN_FORMULAS: readonly Formula[] = [boltCircle, boltArc];
