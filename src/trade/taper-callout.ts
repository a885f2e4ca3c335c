/** Tapers as drawings call them out: `1:10`, `7:24`, `MT3`. */
import { field, length, mm, positive, shown } from './build';
import type { Field, Formula, Given, Parameter, Refusal, Step } from './formula';
import { MORSE, type MorseRow } from './taper-table';

export const TAPER: Parameter = {
  name: 'taper',
  kind: 'code',
  unit: '',
  meaning: 'taper as the drawing writes it, such as 1:10 or 7:24, or a Morse taper such as MT3',
};

const DIAMETER = length('diameter', 'diameter at one place of the taper');
const DISTANCE = length('distance', 'distance from that place, along the axis');
const LARGE = length('large', 'diameter at the large end');
const SMALL = length('small', 'diameter at the small end');

const INCHES_PER_FOOT = 12;
const MM_PER_M = 1000;

/** How a diameter changes along a taper. */
export interface Cone {
  /** Change of the diameter for each unit of length. */
  readonly ratio: number;
  /** The same in the notation, and in words. */
  readonly expression: string;
  readonly words: string;
}

const RATIO = /^(\d+):(\d+(?:\.\d+)?)$/;
const MORSE_NAME = /^MT([0-6])$/;

/** The row of a Morse taper by its name, or null. */
export function morseOf(name: string): MorseRow | null {
  const number = MORSE_NAME.exec(name)?.[1];
  return number === undefined ? null : (MORSE[Number(number)] ?? null);
}

/** The cone of the `taper` argument, or why it is none. */
export function coneOf(given: Given): Cone | Refusal {
  const text = given.code('taper');
  const morse = morseOf(text);
  if (morse)
    return {
      ratio: morse.per_foot / INCHES_PER_FOOT,
      expression: `${morse.per_foot} in/ft`,
      words: `the taper of ${text}, from the table`,
    };
  const [, over = '', under = ''] = RATIO.exec(text) ?? [];
  if (Number(over) > 0 && Number(under) > 0)
    return {
      ratio: Number(over) / Number(under),
      expression: `${over} / ${under}`,
      words: `${over} on the diameter for each ${under} of length`,
    };
  return {
    refused:
      `\`${text}\` is no call-out of a taper. Write it as drawings do, such as \`1:10\` or \`7:24\`, or name a Morse taper ` +
      'from `MT0` to `MT6`.',
    parameter: 'taper',
  };
}

/** The figures that describe one and the same taper. */
export const SLOPES: readonly Field[] = [
  field('half_angle', '°', 'angle between flank and axis: what a compound slide is set to'),
  field('included_angle', '°', 'angle between the two flanks'),
  field('per_metre', 'mm/m', 'change of the diameter for each metre of length'),
  field('per_foot', 'in/ft', 'the same in inches for each foot'),
  field('one_in', '', 'length in which the diameter changes by one: the x of 1:x'),
];

export function slopes(ratio: number): Record<string, number> {
  const half_angle = (Math.atan(ratio / 2) * 180) / Math.PI;
  return {
    half_angle,
    included_angle: 2 * half_angle,
    per_metre: MM_PER_M * ratio,
    per_foot: INCHES_PER_FOOT * ratio,
    one_in: 1 / ratio,
  };
}

/** Their working, from a step or expression that gives the taper as a plain number. */
export function slopeSteps(ratio: string, words: string): readonly Step[] {
  return [
    { name: 'per_metre', expression: ratio, words },
    { name: 'per_foot', expression: 'per_metre', words: 'the same in other units' },
    { name: 'one_in', expression: '1 / per_metre', words: 'the length for a change of one' },
    {
      name: 'half_angle',
      expression: 'atan(per_metre / 2)',
      words: 'half the change lies on either side of the axis: tangent of the half angle',
    },
    { name: 'included_angle', expression: '2 * half_angle', words: 'both sides together' },
  ];
}

const WHY =
  'A taper is stated on the diameter, but the slide cuts one side only: the tangent belongs to half the change. Taking the ' +
  'angle of the whole change and halving it is a little wrong, and wrong by more the steeper the taper.';

const HANDBOOK = 'ISO 3040 for the call-out; right triangle, as in any handbook';

const taper: Formula = {
  name: 'taper',
  family: 'taper',
  title: 'Taper and angles from two diameters',
  parameters: [LARGE, SMALL, length('taper_length', 'distance between the two diameters, along the axis')],
  result: SLOPES,
  compute: (given) => slopes((given.number('large') - given.number('small')) / given.number('taper_length')),
  working: () => slopeSteps('(large - small) / taper_length', 'the change of the diameter over the length'),
  why: WHY,
  conditions: [
    ...positive(LARGE, SMALL, length('taper_length', '')),
    {
      range: 'the large end is larger than the small one',
      severity: 'error',
      parameter: 'large',
      holds: (given) => given.number('large') > given.number('small'),
      says: (given) =>
        `The large end is ${mm(given.number('large'))} and the small end ${mm(given.number('small'))}: give \`large\` the ` +
        'larger diameter.',
    },
  ],
  source: HANDBOOK,
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'taper(25 mm, 20 mm, 80 mm)',
      expect: {
        half_angle: 1.78991060825,
        included_angle: 3.57982121649,
        per_metre: 62.5,
        per_foot: 0.75,
        one_in: 16,
      },
      tolerance: 1e-9,
      source: 'argument of a complex number; exact fractions',
    },
    {
      call: 'taper(40 mm, 30 mm, 50 mm)',
      expect: { half_angle: 5.7105931375, per_foot: 2.4, one_in: 5 },
      tolerance: 1e-9,
      source: 'argument of a complex number; exact fractions',
    },
  ],
};

const taperCallout: Formula = {
  name: 'taper_callout',
  family: 'taper',
  title: 'Angles of a taper as the drawing calls it out',
  parameters: [TAPER],
  result: SLOPES,
  compute: (given) => {
    const cone = coneOf(given);
    return 'refused' in cone ? cone : slopes(cone.ratio);
  },
  working: (given) => {
    const cone = coneOf(given);
    return 'refused' in cone ? [] : slopeSteps(cone.expression, cone.words);
  },
  why: `1:10 means that the diameter changes by 1 mm in 10 mm, or by 1 in in 10 in: it has no unit. ${WHY}`,
  conditions: [],
  source: `${HANDBOOK}; Morse tapers: ISO 296, from printed tables of shanks, checked against 1:x from memory`,
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'taper_callout(1:10)',
      expect: { half_angle: 2.86240522611, included_angle: 5.72481045222, per_metre: 100, per_foot: 1.2 },
      tolerance: 1e-9,
      source: 'argument of a complex number; exact fractions',
    },
    {
      call: 'taper_callout(7:24)',
      expect: { half_angle: 8.29714496984, included_angle: 16.5942899397, per_foot: 3.5, one_in: 24 / 7 },
      tolerance: 1e-9,
      source: 'argument of a complex number; exact fractions',
    },
    {
      call: 'taper_callout(MT3)',
      expect: { half_angle: 1.4377, per_foot: 0.602349161731, one_in: 19.922 },
      tolerance: 5e-5,
      source: '1:19.922, from memory, against the printed taper for each foot',
    },
  ],
};

const taperEnd: Formula = {
  name: 'taper_end',
  family: 'taper',
  title: 'Diameter further along a taper',
  parameters: [TAPER, DIAMETER, DISTANCE],
  result: [
    field('smaller', 'mm', 'diameter that far towards the small end'),
    field('larger', 'mm', 'diameter that far towards the large end'),
  ],
  compute: (given) => {
    const cone = coneOf(given);
    if ('refused' in cone) return cone;
    const change = cone.ratio * given.number('distance');
    const from = given.number('diameter');
    if (change >= from)
      return {
        refused:
          `A taper of ${given.code('taper')} comes to a point ${mm(from / cone.ratio)} from where it is ${mm(from)}: give a ` +
          `\`distance\` below that.`,
        parameter: 'distance',
      };
    return { smaller: from - change, larger: from + change };
  },
  working: (given) => {
    const cone = coneOf(given);
    if ('refused' in cone) return [];
    return [
      { name: 'ratio', expression: cone.expression, words: cone.words },
      {
        name: 'smaller',
        expression: 'diameter - ratio * distance',
        words: 'less the change over the distance',
      },
      { name: 'larger', expression: 'diameter + ratio * distance', words: 'or more, the other way' },
    ];
  },
  why:
    'The call-out is the change of the whole diameter over the length, not of the radius, so nothing is doubled. The ' +
    'distance runs along the axis; along the flank it is a little longer.',
  conditions: positive(DIAMETER, DISTANCE),
  source: HANDBOOK,
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'taper_end(1:10, 40 mm, 55 mm)',
      expect: { smaller: 34.5, larger: 45.5 },
      tolerance: 1e-12,
      source: 'exact fractions',
    },
    {
      call: 'taper_end(7:24, 44.45 mm, 60 mm)',
      expect: { smaller: 26.95, larger: 61.95 },
      tolerance: 1e-12,
      source: 'exact fractions',
    },
  ],
};

const taperLength: Formula = {
  name: 'taper_length',
  family: 'taper',
  title: 'Length of a taper between two diameters',
  parameters: [TAPER, LARGE, SMALL],
  result: [
    field('along_axis', 'mm', 'length along the axis'),
    field('along_flank', 'mm', 'length along the flank: the travel of a compound slide'),
  ],
  compute: (given) => {
    const cone = coneOf(given);
    if ('refused' in cone) return cone;
    const change = given.number('large') - given.number('small');
    return { along_axis: change / cone.ratio, along_flank: Math.hypot(change / cone.ratio, change / 2) };
  },
  working: (given) => {
    const cone = coneOf(given);
    if ('refused' in cone) return [];
    return [
      { name: 'ratio', expression: cone.expression, words: cone.words },
      { name: 'along_axis', expression: '(large - small) / ratio', words: 'the change over the taper' },
      {
        name: 'along_flank',
        expression: 'hypot(along_axis, (large - small) / 2)',
        words: 'long side of the triangle of length and half the change',
      },
    ];
  },
  why:
    'How long the taper must be for its two ends follows from the call-out. A compound slide travels along the flank: see ' +
    'that it has that much travel before the first cut.',
  conditions: [
    ...positive(LARGE, SMALL),
    {
      range: 'the large end is larger than the small one',
      severity: 'error',
      parameter: 'large',
      holds: (given) => given.number('large') > given.number('small'),
      says: (given) =>
        `The large end is ${mm(given.number('large'))} and the small end ${shown(given.number('small'), 'mm')}: give ` +
        '`large` the larger diameter.',
    },
  ],
  source: HANDBOOK,
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'taper_length(1:10, 40 mm, 34.5 mm)',
      expect: { along_axis: 55, along_flank: 55.0687070849 },
      tolerance: 1e-9,
      source: 'exact fractions; distance of two points of the flank',
    },
    {
      call: 'taper_length(7:24, 61.95 mm, 44.45 mm)',
      expect: { along_axis: 60, along_flank: 60.6346641782 },
      tolerance: 1e-9,
      source: 'exact fractions; distance of two points of the flank',
    },
  ],
};

export const TAPER_FORMULAS: readonly Formula[] = [taper, taperCallout, taperEnd, taperLength];
