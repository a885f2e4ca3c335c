/** A taper nobody asked for: found from readings along the work, taken out with the tailstock, saved by file or cut. */
import { field, length, list, mm, must, positive, should } from './build';
import type { Condition, Formula, Given, Step } from './formula';
import { type Line, bestLine, mean } from './least-squares';

const SIZES = list('sizes', 'mm', 'diameters along the work, in the order measured, such as neck.readings');
const PLACES = list(
  'places',
  'mm',
  'where each was taken, from the chuck or the head towards the tailstock, such as neck.positions',
);
const BETWEEN = length('between_centres', 'whole length between the centres');
const LOW = length('smallest', 'smallest diameter that is allowed');
const HIGH = length('largest', 'largest diameter that is allowed');

const MM_PER_M = 1000;

/** Over this on the diameter a spring cut, or a file, is no longer enough: common practice, from memory. */
const SPRING_CUT = 0.02;
const FILE = 0.05;
/** Part of the taper by which readings may miss the line before it is a bow rather than a taper. */
const BOWED = 1 / 2;
/** Misses up to this, in mm, are what a micrometer leaves in doubt: common practice, from memory. */
const SEEN = 0.003;

/** The line through the readings; conditions have seen to it that there is one. */
function lineOf(given: Given): Line {
  return bestLine(given.list('places'), given.list('sizes')) ?? { slope: NaN, at_zero: NaN };
}

/** How far the reading lies off the line that lies off most. */
function offLine(given: Given, { slope, at_zero }: Line): number {
  const places = given.list('places');
  return Math.max(
    ...given.list('sizes').map((size, i) => Math.abs(size - at_zero - slope * (places[i] ?? NaN))),
  );
}

/** How far the places reach. */
function reach(given: Given): number {
  const places = given.list('places');
  return Math.max(...places) - Math.min(...places);
}

const paired: readonly Condition[] = [
  must(
    'places',
    'each size has its place',
    (given) => given.list('sizes').length === given.list('places').length,
    (given) =>
      `There are ${given.list('sizes').length} sizes and ${given.list('places').length} places: give each size its place, in ` +
      'the same order.',
  ),
  must(
    'places',
    'the sizes were taken at two places at least',
    (given) => reach(given) > 0,
    () => 'One place shows no taper: measure at two places or more, as far apart as the work allows.',
  ),
];

/** Whether the readings lie along a bow rather than a taper. */
function bowed(given: Given): boolean {
  const line = lineOf(given);
  const off = offLine(given, line);
  return off > SEEN && off > BOWED * Math.abs(line.slope) * reach(given);
}

/** A bow cannot be taken out by moving the tailstock. */
const straight = should(
  'sizes',
  'the readings lie along a straight taper',
  (given) => !bowed(given),
  (given) =>
    `The readings miss a straight line by ${mm(offLine(given, lineOf(given)))}, more than half of the taper of ` +
    `${mm(Math.abs(lineOf(given).slope) * reach(given))}: the work is bowed. The tailstock will not cure that; cut lighter or ` +
    'put a steady to it.',
);

/** The sums that make the slope, as figures, since a list may be long. */
function slopeSteps(given: Given): readonly Step[] {
  const [places, sizes] = [given.list('places'), given.list('sizes')];
  const [middle, size] = [mean(places), mean(sizes)];
  const sum = (term: (place: number, size: number) => number): number =>
    places.reduce((total, place, i) => total + term(place - middle, (sizes[i] ?? NaN) - size), 0);
  return [
    {
      name: 'lean',
      expression: `${sum((place, off) => place * off)} mm^2`,
      words: 'each place from the middle of all places times its size from the mean size, added up',
    },
    {
      name: 'spread',
      expression: `${sum((place) => place * place)} mm^2`,
      words: 'each place from the middle, times itself, added up',
    },
    {
      name: 'per_metre',
      expression: 'lean / spread',
      words:
        places.length > 2
          ? 'the slope that misses all readings least'
          : 'difference of the sizes over the distance between them',
    },
  ];
}

function shapeOf(slope: number): string {
  if (slope === 0) return 'no taper';
  return slope > 0 ? 'larger towards the tailstock' : 'smaller towards the tailstock';
}

const taperFound: Formula = {
  name: 'taper_found',
  family: 'taper',
  title: 'Taper of a piece from readings along it',
  parameters: [SIZES, PLACES],
  result: [
    field(
      'per_metre',
      'mm/m',
      'change of the diameter for each metre towards the tailstock; negative when it gets smaller',
    ),
    field('over_places', 'mm', 'change of the diameter from the first place to the last along the work'),
    field('at_zero', 'mm', 'diameter that the line has at place 0'),
    field('off_line', 'mm', 'most that a reading lies off the line; zero for two readings'),
    { ...field('shape', '', 'which end is the larger'), words: true, choice: true },
  ],
  compute: (given) => {
    const line = lineOf(given);
    return {
      per_metre: MM_PER_M * line.slope,
      over_places: line.slope * reach(given),
      at_zero: line.at_zero,
      off_line: offLine(given, line),
      shape: shapeOf(line.slope),
    };
  },
  working: (given) => {
    const [places, sizes] = [given.list('places'), given.list('sizes')];
    const line = lineOf(given);
    const misses = sizes.map((size, i) => Math.abs(size - line.at_zero - line.slope * (places[i] ?? NaN)));
    const far = misses.indexOf(Math.max(...misses));
    return [
      ...slopeSteps(given),
      {
        name: 'over_places',
        expression: `per_metre * (${Math.max(...places)} mm - ${Math.min(...places)} mm)`,
        words: 'over the whole reach of the readings',
      },
      {
        name: 'at_zero',
        expression: `${mean(sizes)} mm - per_metre * ${mean(places)} mm`,
        words: 'the line passes through the mean size at the middle of the places',
      },
      {
        name: 'off_line',
        expression: `abs(${sizes[far] ?? 0} mm - at_zero - per_metre * ${places[far] ?? 0} mm)`,
        words: 'the reading that lies off the line most',
      },
    ];
  },
  why:
    'Two readings give a line and nothing to doubt it by. With more, the line that misses them all least evens out the slips of ' +
    'each, and what still lies off it tells a taper from a barrel or a hollow.',
  conditions: [...paired, straight],
  source:
    'least squares, as in any text on statistics; half of the taper as most off the line, and 0.003 mm as what a micrometer leaves in doubt: own rule',
  cautions: ['measuring'],
  picture: 'taper_readings',
  checks: [
    {
      call: 'taper_found([12.76, 12.73] mm, [10, 70] mm)',
      expect: {
        per_metre: -0.5,
        over_places: -0.03,
        at_zero: 12.765,
        off_line: 0,
        shape: 'smaller towards the tailstock',
      },
      tolerance: 1e-9,
      source: 'exact fractions',
    },
    {
      call: 'taper_found([25.012, 25.019, 25.023, 25.03] mm, [20, 80, 140, 200] mm)',
      expect: {
        per_metre: 0.0966666667,
        over_places: 0.0174,
        at_zero: 25.0103666667,
        off_line: 0.0009,
        shape: 'larger towards the tailstock',
      },
      tolerance: 1e-9,
      source: 'least-squares polynomial of degree one, by singular values',
    },
  ],
};

const tailstockCorrection: Formula = {
  name: 'tailstock_correction',
  family: 'taper',
  title: 'Tailstock move that takes a taper out',
  parameters: [SIZES, PLACES, BETWEEN],
  result: [
    field('per_metre', 'mm/m', 'change of the diameter for each metre towards the tailstock'),
    field('shift', 'mm', 'how far to move the tailstock; positive is towards the operator and the tool'),
    { ...field('direction', '', 'which way to move it'), words: true, choice: true },
  ],
  compute: (given) => {
    const { slope } = lineOf(given);
    return {
      per_metre: MM_PER_M * slope,
      shift: (slope / 2) * given.number('between_centres'),
      direction: slope === 0 ? 'leave it' : slope > 0 ? 'towards the operator' : 'away from the operator',
    };
  },
  working: (given) => [
    ...slopeSteps(given),
    {
      name: 'shift',
      expression: 'per_metre / 2 * between_centres',
      words: 'half of it lies on the side of the tool, over the whole length between centres',
    },
  ],
  why:
    'A piece that is larger at the tailstock was too far from the tool there, so its centre goes towards the tool, by half of ' +
    'what the diameter is out over the whole length between centres. Tool at the front; places counted from the head. Set an ' +
    'indicator against the tailstock barrel to see it move, then cut and measure again, for the clamp moves it too.',
  conditions: [
    ...paired,
    ...positive(BETWEEN),
    must(
      'between_centres',
      'the readings lie between the centres',
      (given) => given.number('between_centres') >= reach(given),
      (given) =>
        `The readings reach over ${mm(reach(given))}, but there are ${mm(given.number('between_centres'))} between the centres: ` +
        `give the whole length, ${mm(reach(given))} or more.`,
    ),
    straight,
  ],
  source: 'textbook rule: half the difference for each length, over the length between centres',
  cautions: ['lathe', 'between_centres', 'measuring'],
  picture: 'taper_readings',
  checks: [
    {
      call: 'tailstock_correction([24.96, 25.02] mm, [0, 150] mm, 300 mm)',
      expect: { per_metre: 0.4, shift: 0.06, direction: 'towards the operator' },
      tolerance: 1e-9,
      source: 'line fitted and extrapolated to the tailstock',
    },
    {
      call: 'tailstock_correction([19.985, 19.98, 19.973, 19.968] mm, [10, 90, 170, 250] mm, 280 mm)',
      expect: { per_metre: -0.0725, shift: -0.01015, direction: 'away from the operator' },
      tolerance: 1e-9,
      source: 'least-squares polynomial of degree one, by singular values',
    },
  ],
};

/** Largest reading over the largest allowed, and smallest over the smallest. */
function margins(given: Given): { over: number; spare: number; between: number } {
  const sizes = given.list('sizes');
  const [most, least] = [Math.max(...sizes), Math.min(...sizes)];
  return {
    over: most - given.number('largest'),
    spare: least - given.number('smallest'),
    between: most - least,
  };
}

/** A gauge shows no difference below this, in mm. */
const ROUNDING = 1e-9;

function verdict(given: Given): string {
  const { over, spare, between } = margins(given);
  if (spare < -ROUNDING) return 'too late: the smallest place is below the limit';
  if (over <= ROUNDING) return 'inside the limits everywhere';
  if (over <= SPRING_CUT + ROUNDING) return 'a spring cut can bring it in';
  if (over <= FILE + ROUNDING) return 'a file or a strip can bring the large places in';
  if (between <= given.number('largest') - given.number('smallest') + ROUNDING)
    return 'one more cut, with the tailstock left as it is';
  return 'take the taper out first, then one more cut';
}

const taperRescue: Formula = {
  name: 'taper_rescue',
  family: 'taper',
  title: 'Whether a spring cut or a file can still bring a tapered piece in',
  parameters: [SIZES, LOW, HIGH],
  result: [
    field('over', 'mm', 'what the largest place is over the largest allowed; negative is below it'),
    field('spare', 'mm', 'what the smallest place is over the smallest allowed; negative is metal gone'),
    { ...field('verdict', '', 'what can still bring it in'), words: true, choice: true },
  ],
  compute: (given) => {
    const { over, spare } = margins(given);
    return { over, spare, verdict: verdict(given) };
  },
  working: (given) => [
    {
      name: 'over',
      expression: `${Math.max(...given.list('sizes'))} mm - largest`,
      words: 'the largest reading against the largest allowed',
    },
    {
      name: 'spare',
      expression: `${Math.min(...given.list('sizes'))} mm - smallest`,
      words: 'the smallest reading against the smallest allowed',
    },
  ],
  why:
    `A spring cut, the tool left where it was, takes what the work sprang away: a hundredth or two where it gave most. A file ` +
    `or a strip of cloth takes up to ${FILE} mm off the large places and leaves the small ones alone, but its work is never round ` +
    'for a bearing. More than that wants the tool, and a piece that differs by more than its limits wants the taper out first.',
  conditions: [
    ...positive(LOW, HIGH),
    must(
      'largest',
      'the largest allowed is more than the smallest',
      (given) => given.number('largest') > given.number('smallest'),
      (given) =>
        `\`smallest\` is ${mm(given.number('smallest'))} and \`largest\` ${mm(given.number('largest'))}: change them round.`,
    ),
  ],
  source: `up to ${SPRING_CUT} mm by a spring cut, up to ${FILE} mm by a file: common practice, from memory`,
  cautions: ['filing', 'lathe', 'measuring'],
  picture: null,
  checks: [
    {
      call: 'taper_rescue([12.76, 12.73] mm, 12.7 mm, 12.72 mm)',
      expect: { over: 0.04, spare: 0.03, verdict: 'a file or a strip can bring the large places in' },
      tolerance: 1e-9,
      source: 'worked by hand from the limits',
    },
    {
      call: 'taper_rescue([12.735, 12.73] mm, 12.7 mm, 12.72 mm)',
      expect: { over: 0.015, spare: 0.03, verdict: 'a spring cut can bring it in' },
      tolerance: 1e-9,
      source: 'worked by hand from the limits',
    },
    {
      call: 'taper_rescue([12.86, 12.73] mm, 12.7 mm, 12.72 mm)',
      expect: { over: 0.14, spare: 0.03, verdict: 'take the taper out first, then one more cut' },
      tolerance: 1e-9,
      source: 'worked by hand from the limits',
    },
  ],
};

export const TAPER_FOUND_FORMULAS: readonly Formula[] = [taperFound, tailstockCorrection, taperRescue];
