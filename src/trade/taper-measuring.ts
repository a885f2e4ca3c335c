/** Measuring tapers: over rollers outside, over balls inside, by how far a gauge stands off. */
import { degrees, field, length, mm, must, positive } from './build';
import type { Formula, Given } from './formula';
import { TAPER, coneOf } from './taper-callout';

const OVER_LOW = length('over_low', 'size over two rollers that stand on the plate, against the small end');
const OVER_HIGH = length('over_high', 'size over the same rollers raised on blocks');
const HEIGHT = length('raised', 'height of the blocks under the rollers');
const ROLLER = length('roller', 'diameter of the rollers, both alike');
const LARGE_BALL = length('large_ball', 'diameter of the larger ball, nearer the mouth');
const SMALL_BALL = length('small_ball', 'diameter of the smaller ball, deeper in the hole');
const LARGE_DEPTH = length('large_depth', 'depth of the top of the larger ball below the face');
const SMALL_DEPTH = length('small_depth', 'depth of the top of the smaller ball below the face');
const STAND_OFF = length('stand_off', 'how far the gauge stands off from where it should come to');

const MM_PER_M = 1000;

/** Half angle in radians of an outside taper. */
function overHalf(given: Given): number {
  return Math.atan((given.number('over_high') - given.number('over_low')) / (2 * given.number('raised')));
}

const overRollers: Formula = {
  name: 'taper_over_rollers',
  family: 'taper',
  title: 'Outside taper measured over rollers',
  parameters: [OVER_LOW, OVER_HIGH, HEIGHT, ROLLER],
  result: [
    field('half_angle', '°', 'angle between flank and axis'),
    field('per_metre', 'mm/m', 'change of the diameter for each metre of length'),
    field('small_end', 'mm', 'diameter of the small end, at the plate'),
  ],
  compute: (given) => {
    const half = overHalf(given);
    const roller = given.number('roller');
    return {
      half_angle: degrees(half),
      per_metre: 2 * MM_PER_M * Math.tan(half),
      small_end: given.number('over_low') - roller * (1 + 1 / Math.tan(Math.PI / 4 - half / 2)),
    };
  },
  working: () => [
    {
      name: 'per_metre',
      expression: '(over_high - over_low) / raised',
      words: 'what the size grew for the height raised; the rollers themselves fall out',
    },
    { name: 'half_angle', expression: 'atan(per_metre / 2)', words: 'half of it on either side' },
    {
      name: 'small_end',
      expression: 'over_low - roller * (1 + 1 / tan((90° - half_angle) / 2))',
      words:
        'a roller sits in the corner of plate and flank: its middle is that far from the corner, and half more over it',
    },
  ],
  why:
    'Rollers touch the flank at the same height of themselves both times, so the growth of the size between them is the ' +
    'taper over the height of the blocks, whatever their diameter. Stand the work on its small end, square on the plate.',
  conditions: [
    ...positive(OVER_LOW, HEIGHT, ROLLER),
    must(
      'over_high',
      'the size grows as the rollers are raised',
      (given) => given.number('over_high') > given.number('over_low'),
      (given) =>
        `Over the raised rollers it is ${mm(given.number('over_high'))}, not more than the ${mm(given.number('over_low'))} below: ` +
        'stand the work on its small end, or change the two sizes round.',
    ),
    must(
      'roller',
      'two rollers leave room for work between them',
      (given) =>
        given.number('over_low') >
        given.number('roller') * (1 + 1 / Math.tan(Math.PI / 4 - overHalf(given) / 2)),
      (given) =>
        `Rollers of ${mm(given.number('roller'))} alone are as wide as ${mm(given.number('over_low'))} over both: give ` +
        `rollers below ${mm(given.number('over_low') / (1 + 1 / Math.tan(Math.PI / 4 - overHalf(given) / 2)))}.`,
    ),
  ],
  source: 'tangent circles, as in any handbook',
  cautions: ['measuring'],
  picture: null,
  checks: [
    {
      call: 'taper_over_rollers(40.263638 mm, 42.866163 mm, 50 mm, 10 mm)',
      expect: { half_angle: 1.4908, small_end: 20 },
      tolerance: 1e-5,
      source:
        'a part built from the answer: small end 20 mm, half angle 1.4908°, rollers of 10 mm laid against it',
    },
    {
      call: 'taper_over_rollers(47.251265 mm, 58.917725 mm, 40 mm, 8 mm)',
      expect: { half_angle: 8.297, small_end: 30 },
      tolerance: 1e-5,
      source:
        'a part built from the answer: small end 30 mm, half angle 8.297°, rollers of 8 mm laid against it',
    },
  ],
};

/** Sine of the half angle of an inside taper. */
function ballSine(given: Given): number {
  const [r, s] = [given.number('large_ball') / 2, given.number('small_ball') / 2];
  return (r - s) / (given.number('small_depth') + s - given.number('large_depth') - r);
}

const overBalls: Formula = {
  name: 'taper_over_balls',
  family: 'taper',
  title: 'Inside taper measured with two balls',
  parameters: [LARGE_BALL, LARGE_DEPTH, SMALL_BALL, SMALL_DEPTH],
  result: [
    field('half_angle', '°', 'angle between flank and axis'),
    field('per_metre', 'mm/m', 'change of the diameter for each metre of length'),
    field('mouth', 'mm', 'diameter of the taper at the face'),
  ],
  compute: (given) => {
    const half = Math.asin(ballSine(given));
    const r = given.number('large_ball') / 2;
    const deep = given.number('large_depth') + r;
    return {
      half_angle: degrees(half),
      per_metre: 2 * MM_PER_M * Math.tan(half),
      mouth: 2 * (r / Math.cos(half) + deep * Math.tan(half)),
    };
  },
  working: () => [
    {
      name: 'apart',
      expression: '(small_depth + small_ball / 2) - (large_depth + large_ball / 2)',
      words: 'distance of the middles of the balls, along the axis',
    },
    {
      name: 'half_angle',
      expression: 'asin((large_ball - small_ball) / 2 / apart)',
      words: 'the radii stand square on the flank, so their difference over the distance is a sine',
    },
    { name: 'per_metre', expression: '2 * tan(half_angle)', words: 'both sides together' },
    {
      name: 'mouth',
      expression: 'large_ball / cos(half_angle) + 2 * (large_depth + large_ball / 2) * tan(half_angle)',
      words: 'diameter at the middle of the large ball, and its growth from there to the face',
    },
  ],
  why:
    'A ball touches the cone where its radius stands square on the flank, a little below its middle. The line through both ' +
    'middles is the axis, so radii and distance make a triangle whose sine is that of the half angle: not the tangent, as ' +
    'with rollers.',
  conditions: [
    ...positive(LARGE_BALL, SMALL_BALL),
    must(
      'large_ball',
      'the larger ball is larger than the smaller one',
      (given) => given.number('large_ball') > given.number('small_ball'),
      (given) =>
        `\`large_ball\` is ${mm(given.number('large_ball'))} and \`small_ball\` ${mm(given.number('small_ball'))}: change them round.`,
    ),
    must(
      'small_depth',
      'the smaller ball goes in deeper than the larger',
      (given) => ballSine(given) > 0 && ballSine(given) < 1,
      (given) =>
        `With its top at ${mm(given.number('small_depth'))} the smaller ball would lie in the larger one: give more than ` +
        `${mm(given.number('large_depth') + given.number('large_ball') - given.number('small_ball'))}.`,
    ),
  ],
  source: 'tangent circles, as in any handbook',
  cautions: ['measuring'],
  picture: null,
  checks: [
    {
      call: 'taper_over_balls(20 mm, 2 mm, 16 mm, 80.87449 mm)',
      expect: { half_angle: 1.4908, mouth: 20.6313778 },
      tolerance: 1e-5,
      source: 'a cone built from the answer: middles of the balls at radius over sine from its point',
    },
    {
      call: 'taper_over_balls(12.7 mm, 2 mm, 10 mm, 29.144886 mm)',
      expect: { half_angle: 3, mouth: 13.5926387 },
      tolerance: 1e-5,
      source: 'a cone built from the answer: middles of the balls at radius over sine from its point',
    },
  ],
};

const gaugeStandOff: Formula = {
  name: 'gauge_stand_off',
  family: 'taper',
  title: 'What a taper gauge that stands off still asks for',
  parameters: [TAPER, STAND_OFF],
  result: [
    field('on_diameter', 'mm', 'what is still to come off the diameter'),
    field('on_radius', 'mm', 'what the tool is still to move in, square to the axis'),
  ],
  compute: (given) => {
    const cone = coneOf(given);
    if ('refused' in cone) return cone;
    const on_diameter = cone.ratio * given.number('stand_off');
    return { on_diameter, on_radius: on_diameter / 2 };
  },
  working: (given) => {
    const cone = coneOf(given);
    if ('refused' in cone) return [];
    return [
      { name: 'ratio', expression: cone.expression, words: cone.words },
      {
        name: 'on_diameter',
        expression: 'ratio * stand_off',
        words: 'what the diameter changes over the distance the gauge stands off',
      },
      { name: 'on_radius', expression: 'on_diameter / 2', words: 'half of it on the side of the tool' },
    ];
  },
  why:
    'A gauge stops where the diameters agree, so the distance it stands off tells how much is left, and a slow taper makes ' +
    'little metal into a long distance: 1 mm at 1:20 is only 0.05 mm on the diameter. It holds once the angle is right; rock ' +
    'the gauge first, and use blue.',
  conditions: [
    must(
      'stand_off',
      'the stand-off is zero or more',
      (given) => given.number('stand_off') >= 0,
      (given) =>
        `A stand-off of ${mm(given.number('stand_off'))} means that the gauge goes too far and the metal is gone: give zero ` +
        'or more, or face the end back by as much where the length allows it.',
    ),
  ],
  source: 'right triangle; common practice',
  cautions: ['measuring'],
  picture: null,
  checks: [
    {
      call: 'gauge_stand_off(1:20, 3.2 mm)',
      expect: { on_diameter: 0.16, on_radius: 0.08 },
      tolerance: 1e-12,
      source: 'exact fractions',
    },
    {
      call: 'gauge_stand_off(MT3, 2 mm)',
      expect: { on_diameter: 0.100391527, on_radius: 0.0501957635 },
      tolerance: 1e-6,
      source: '1:19.922, from memory',
    },
  ],
};

export const TAPER_MEASURING_FORMULAS: readonly Formula[] = [overRollers, overBalls, gaugeStandOff];
