/** Circles with a piece taken off: flats, keyways, chords, and a radius from what is left of it. */
import {
  choice,
  degrees,
  field,
  length,
  mm,
  must,
  notNegative,
  optional,
  positive,
  quantity,
  radians,
  shown,
} from './build';
import type { Condition, Formula, Given, Parameter } from './formula';

const DIAMETER = length('diameter', 'diameter of the round');
const WIDTH = length('width', 'width of the flat or of the key');
const DEPTH = length('depth', 'depth of the flat below the crown of the round');
const SHAFT = length('shaft', 'diameter of the shaft');
const KEY = length('key_width', 'width of the keyway');
const KEY_DEPTH = length(
  'key_depth',
  'depth of the keyway: from the crown, t1 of ISO 773 and DIN 6885; from the side, half the key as in inch practice',
);
const DEPTH_FROM = optional(
  choice(
    'depth_from',
    ['crown', 'side'],
    'where that depth counts from: the `crown`, or the edge of the keyway at its `side`; the crown when left out',
  ),
);
const ANGLE = quantity('angle', '°', 'angle that the chord takes up at the middle');
const CHORD = length('chord', 'distance of two points of the rim, straight across');
const HEIGHT = length('height', 'height of the rim over the middle of that chord');

/** Height of the piece of a circle that a chord of this width cuts off. */
function segment(diameter: number, width: number): number {
  return (diameter - Math.sqrt(diameter ** 2 - width ** 2)) / 2;
}

/** A width that fits across a round. */
function across(width: Parameter, round: Parameter): Condition {
  return must(
    width.name,
    `the ${width.name} is no more than the ${round.name}`,
    (given) => given.number(width.name) <= given.number(round.name),
    (given) =>
      `A width of ${mm(given.number(width.name))} does not fit across ${mm(given.number(round.name))}: give at most ` +
      `${mm(given.number(round.name))}.`,
  );
}

const segmentHeight: Formula = {
  name: 'segment_height',
  family: 'geometry',
  title: 'Depth of a flat from its width',
  parameters: [DIAMETER, WIDTH],
  result: [
    field('height', 'mm', 'depth of the flat below the crown'),
    field('over_flat', 'mm', 'what a micrometer shows over the flat and the round opposite'),
  ],
  compute: (given) => {
    const height = segment(given.number('diameter'), given.number('width'));
    return { height, over_flat: given.number('diameter') - height };
  },
  working: () => [
    {
      name: 'height',
      expression: '(diameter - sqrt(diameter^2 - width^2)) / 2',
      words: 'half the difference of the diameter and the other short side over it',
    },
    { name: 'over_flat', expression: 'diameter - height', words: 'what is left of the diameter' },
  ],
  why:
    'The width of the flat, the diameter and the distance of the flat from the middle make a right triangle. A width is hard to ' +
    'measure at its sharp edges; the size over flat and round is not, so cut to that.',
  conditions: [...positive(DIAMETER), ...notNegative(WIDTH), across(WIDTH, DIAMETER)],
  source: 'theorem of Pythagoras, as in any handbook',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'segment_height(25 mm, 8 mm)',
      expect: { height: 0.657280717673, over_flat: 24.342719282327 },
      tolerance: 1e-9,
      source: 'root found by bracketing on the circle',
    },
    {
      call: 'segment_height(2 in, 0.5 in)',
      expect: { height: 0.806555751583, over_flat: 49.993444248417 },
      tolerance: 1e-9,
      source: 'root found by bracketing on the circle',
    },
  ],
};

const flatWidth: Formula = {
  name: 'flat_width',
  family: 'geometry',
  title: 'Width of a flat from its depth',
  parameters: [DIAMETER, DEPTH],
  result: [
    field('flat', 'mm', 'width of the flat'),
    field('over_flat', 'mm', 'what a micrometer shows over the flat and the round opposite'),
  ],
  compute: (given) => {
    const [diameter, depth] = [given.number('diameter'), given.number('depth')];
    return { flat: 2 * Math.sqrt(depth * (diameter - depth)), over_flat: diameter - depth };
  },
  working: () => [
    {
      name: 'flat',
      expression: '2 * sqrt(depth * (diameter - depth))',
      words: 'twice the middle height of the two pieces of the diameter',
    },
    { name: 'over_flat', expression: 'diameter - depth', words: 'what is left of the diameter' },
  ],
  why:
    'Near the crown a little depth makes a wide flat: a tenth of a millimetre on a 25 mm shaft is already more than 3 mm wide. ' +
    'The first touch on a round therefore says little; set zero by the size over the flat.',
  conditions: [
    ...positive(DIAMETER),
    ...notNegative(DEPTH),
    must(
      'depth',
      'the depth is no more than the diameter',
      (given) => given.number('depth') <= given.number('diameter'),
      (given) =>
        `A flat ${mm(given.number('depth'))} deep leaves nothing of ${mm(given.number('diameter'))}: give at most ` +
        `${mm(given.number('diameter'))}.`,
    ),
  ],
  source: 'theorem of Pythagoras, as in any handbook',
  cautions: [],
  picture: null,
  // Widest where the flat passes through the middle.
  extremes: { depth: (given) => [given.number('diameter') / 2] },
  checks: [
    {
      call: 'flat_width(25 mm, 0.657280717673 mm)',
      expect: { flat: 8, over_flat: 24.342719282327 },
      tolerance: 1e-9,
      source: 'depth found from a width of 8 mm by bracketing on the circle',
    },
    {
      call: 'flat_width(10 mm, 2 mm)',
      expect: { flat: 8, over_flat: 8 },
      tolerance: 1e-12,
      source: 'triangle of sides 3, 4 and 5',
    },
  ],
};

const fromSide = (given: Given): boolean => given.has('depth_from') && given.code('depth_from') === 'side';
/** What the crown adds to the depth given. */
const added = (given: Given): number =>
  fromSide(given) ? segment(given.number('shaft'), given.number('key_width')) : 0;

const keyway: Formula = {
  name: 'keyway',
  family: 'geometry',
  title: 'Depths of a keyway in a shaft',
  parameters: [SHAFT, KEY, KEY_DEPTH, DEPTH_FROM],
  result: [
    field(
      'over_bottom',
      'mm',
      'size over the bottom of the keyway and the round opposite, its depth from the crown unless from the `side`',
    ),
    field('crown', 'mm', 'height of the crown over the edges of the keyway'),
    field('side_depth', 'mm', 'depth of its walls, at the edges'),
  ],
  compute: (given) => {
    const [shaft, deep] = [given.number('shaft'), given.number('key_depth') + added(given)];
    const crown = segment(shaft, given.number('key_width'));
    return { over_bottom: shaft - deep, crown, side_depth: deep - crown };
  },
  working: (given) => [
    {
      name: 'crown',
      expression: '(shaft - sqrt(shaft^2 - key_width^2)) / 2',
      words: 'the piece of the circle that the width of the key cuts off',
    },
    ...(fromSide(given)
      ? [
          {
            name: 'over_bottom',
            expression: 'shaft - crown - key_depth',
            words: 'the depth is counted from the side, below the crown',
          },
          { name: 'side_depth', expression: 'key_depth', words: 'as given' },
        ]
      : [
          {
            name: 'over_bottom',
            expression: 'shaft - key_depth',
            words: 'the depth is counted from the crown',
          },
          { name: 'side_depth', expression: 'key_depth - crown', words: 'what is left at the edges' },
        ]),
  ],
  why:
    'Metric tables (ISO 773, DIN 6885) count the depth from the crown, which the first chip takes away. Inch practice ' +
    '(ASME B17.1) sinks half the key below the edge at the side: write `side`, or the key stands proud by the crown and the hub ' +
    'does not go on. Measure over the bottom and the round opposite.',
  conditions: [
    ...positive(SHAFT, KEY),
    across(KEY, SHAFT),
    must(
      'key_depth',
      'the keyway has walls and leaves some of the shaft',
      (given) =>
        given.number('key_width') > given.number('shaft') ||
        (given.number('key_depth') + added(given) >
          segment(given.number('shaft'), given.number('key_width')) &&
          given.number('key_depth') + added(given) < given.number('shaft')),
      (given) =>
        `A keyway ${mm(given.number('key_depth'))} deep has no walls in ${mm(given.number('shaft'))}: give more than ` +
        `${mm(segment(given.number('shaft'), given.number('key_width')) - added(given))} and less than ` +
        `${mm(given.number('shaft') - added(given))}.`,
    ),
  ],
  source: 'theorem of Pythagoras; where ISO 773, DIN 6885 and ASME B17.1 count the depth from: from memory',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'keyway(25 mm, 8 mm, 4 mm)',
      expect: { over_bottom: 21, crown: 0.657280717673, side_depth: 3.342719282327 },
      tolerance: 1e-9,
      source: 'root found by bracketing on the circle',
    },
    {
      call: 'keyway(10 mm, 6 mm, 3 mm)',
      expect: { over_bottom: 7, crown: 1, side_depth: 2 },
      tolerance: 1e-12,
      source: 'triangle of sides 3, 4 and 5',
    },
    {
      call: 'keyway(1 in, 1/4 in, 1/8 in, side)',
      expect: { over_bottom: 21.8186, side_depth: 3.175 },
      tolerance: 0.013,
      source: '0.859 in: half of D - H + root of D^2 - W^2, by hand, as inch handbooks print it',
    },
    {
      call: 'keyway(2 in, 1/2 in, 1/4 in, side)',
      expect: { over_bottom: 43.6372 },
      tolerance: 0.013,
      source: '1.718 in by a handbook, from memory',
    },
  ],
};

const chordLength: Formula = {
  name: 'chord_length',
  family: 'geometry',
  title: 'Chord across part of a circle',
  parameters: [DIAMETER, ANGLE],
  result: [
    field('across', 'mm', 'distance of the two points, straight across'),
    field('rise', 'mm', 'height of the rim over the middle of the chord'),
  ],
  compute: (given) => {
    const half = radians(given.number('angle')) / 2;
    const diameter = given.number('diameter');
    return { across: diameter * Math.sin(half), rise: (diameter / 2) * (1 - Math.cos(half)) };
  },
  working: () => [
    { name: 'across', expression: 'diameter * sin(angle / 2)', words: 'half the angle has half the chord' },
    {
      name: 'rise',
      expression: 'diameter / 2 * (1 - cos(angle / 2))',
      words: 'the radius less how far the chord lies from the middle',
    },
  ],
  why:
    'Calipers measure straight across, not along the rim. Halved, the angle makes a right triangle with the radius as its long ' +
    'side, whose sine is half the chord.',
  conditions: [
    ...positive(DIAMETER),
    must(
      'angle',
      'the angle is from 0° to 360°',
      (given) => given.number('angle') >= 0 && given.number('angle') <= 360,
      (given) => `${shown(given.number('angle'), '°')} is no part of one turn: give 0° to 360°.`,
    ),
  ],
  source: 'right triangle, as in any handbook',
  cautions: [],
  picture: null,
  // Straight across the middle a chord is longest.
  extremes: { angle: () => [180] },
  checks: [
    {
      call: 'chord_length(80 mm, 60°)',
      expect: { across: 40, rise: 5.35898384862 },
      tolerance: 1e-9,
      source: 'triangle of equal sides',
    },
    {
      call: 'chord_length(50 mm, 35°)',
      expect: { across: 15.0352899752, rise: 1.15707623129 },
      tolerance: 1e-9,
      source: 'distance of two points turned as complex numbers',
    },
  ],
};

const radiusFromChord: Formula = {
  name: 'radius_from_chord',
  family: 'geometry',
  title: 'Radius of a broken pulley from chord and height',
  parameters: [CHORD, HEIGHT],
  result: [
    field('radius', 'mm', 'radius of the whole circle'),
    field('whole_diameter', 'mm', 'its diameter'),
    field('arc', '°', 'angle that the piece takes up'),
  ],
  compute: (given) => {
    const [chord, height] = [given.number('chord'), given.number('height')];
    const radius = chord ** 2 / (8 * height) + height / 2;
    return { radius, whole_diameter: 2 * radius, arc: 4 * degrees(Math.atan((2 * height) / chord)) };
  },
  working: () => [
    {
      name: 'radius',
      expression: 'chord^2 / (8 * height) + height / 2',
      words: 'the rest of the diameter times the height is half the chord times itself',
    },
    { name: 'whole_diameter', expression: '2 * radius', words: 'both halves' },
    {
      name: 'arc',
      expression: '4 * atan(2 * height / chord)',
      words: 'the chord from the end to the top leans by a quarter of it',
    },
  ],
  why:
    'Three points make a circle, so a piece of the rim is enough. A shallow piece is a poor witness: the height is small, and ' +
    'the radius goes the other way with it. Take the longest chord there is, and state the limits of both readings to see what ' +
    'they leave open.',
  conditions: positive(CHORD, HEIGHT),
  source: 'chords that cross in a circle, as in any handbook',
  cautions: ['measuring'],
  picture: null,
  // The radius is smallest, and the piece a half circle, where the height is half the chord.
  extremes: { height: (given) => [given.number('chord') / 2] },
  checks: [
    {
      call: 'radius_from_chord(120 mm, 18 mm)',
      expect: { radius: 109, whole_diameter: 218, arc: 66.7969769359 },
      tolerance: 1e-9,
      source: 'circle through three points, from its equations',
    },
    {
      call: 'radius_from_chord(8 mm, 2 mm)',
      expect: { radius: 5, whole_diameter: 10, arc: 106.260204708 },
      tolerance: 1e-9,
      source: 'triangle of sides 3, 4 and 5',
    },
  ],
};

export const SHOP_GEOMETRY_FORMULAS: readonly Formula[] = [
  segmentHeight,
  flatWidth,
  keyway,
  chordLength,
  radiusFromChord,
];
