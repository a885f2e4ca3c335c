/**
 * Setting up to cut a ball with a ring cutter: the work turns in a tilted dividing head, the cutter's tip runs in a
 * circle (the ring) about a vertical axis, and the two axes meet in the ball's centre.
 */
import { degrees, field, length, mm, must, notNegative, optional, positive, should } from './build';
import type { Condition, Formula, Given, Step } from './formula';

const BALL = length('ball', 'diameter of the ball');
const NECK = length('neck', 'diameter of the shank where it meets the ball or its fillet');
const FILLET = optional(length('fillet', 'radius between shank and ball; none when left out'));
const NOSE = optional(length('nose_radius', "radius at the cutter's tip; a sharp tip when left out"));

const OWN = 'own derivation, plane and sphere geometry';

const MOUNT = ['ball_on_mill', 'by_hand_first', 'boring_head', 'knee', 'crank', 'measuring'];

/** Half the angle that the neck takes up at the ball's centre, in radians; the fillet's if there is one. */
function joint(given: Given): number {
  const fillet = given.numberOr('fillet', 0);
  return Math.asin((given.number('neck') / 2 + fillet) / (given.number('ball') / 2 + fillet));
}

function onShank(given: Given): { tilt: number; ring: number; height: number; neck_to_end: number } {
  const ball = given.number('ball');
  const nose = given.numberOr('nose_radius', 0);
  const neckAngle = joint(given);
  const tilt = neckAngle / 2;
  return {
    tilt: degrees(tilt),
    ring: ball * Math.cos(tilt) - 2 * nose * (1 - Math.cos(tilt)),
    height: (ball / 2) * Math.sin(tilt) - nose * (1 - Math.sin(tilt)),
    neck_to_end: (ball / 2) * (1 + Math.cos(neckAngle)),
  };
}

function onShankWorking(given: Given): readonly Step[] {
  const fillet = given.has('fillet');
  const nose = given.has('nose_radius');
  return [
    {
      name: 'joint',
      expression: fillet ? 'asin((neck / 2 + fillet) / (ball / 2 + fillet))' : 'asin(neck / ball)',
      words: fillet
        ? "the angle at the ball's centre, off the bar's axis, at which the fillet touches the ball"
        : "the angle at the ball's centre, off the bar's axis, at which the ball meets the neck",
    },
    {
      name: 'tilt',
      expression: 'joint / 2',
      words: 'half of it, so that ring reaches from neck to free end',
    },
    {
      name: 'ring',
      expression: 'ball * cos(tilt)' + (nose ? ' - 2 * nose_radius * (1 - cos(tilt))' : ''),
      words: 'the chord from free end to neck' + (nose ? ', less what the round tip reaches in' : ''),
    },
    {
      name: 'height',
      expression: 'ball / 2 * sin(tilt)' + (nose ? ' - nose_radius * (1 - sin(tilt))' : ''),
      words: "the chord's distance from the centre" + (nose ? ', less what the round tip reaches down' : ''),
    },
    {
      name: 'neck_to_end',
      expression: 'ball / 2 * (1 + cos(joint))',
      words: 'centre to free end, and centre to neck',
    },
  ];
}

/**
 * With a fillet blunter than the tip the height has a least value at one ball size: where the tangent of half the
 * tilt satisfies a cubic, solved here in closed form.
 */
function ballOfLeastHeight(given: Given): readonly number[] {
  const fillet = given.numberOr('fillet', 0);
  const beyond = fillet - given.numberOr('nose_radius', 0);
  if (beyond <= 0) return [];
  const reach = given.number('neck') / 2 + fillet;
  const third = Math.asinh((3 * Math.sqrt(3) * beyond) / reach) / 3;
  return [2 * ((3 * beyond) / (4 * Math.sinh(third) ** 2) - fillet)];
}

/** How deep a tip rounder than the fillet cuts into the shank as it leaves the ball, in mm. */
function noseGouge(given: Given): number {
  const nose = given.numberOr('nose_radius', 0);
  const lowest = (given.number('ball') / 2 + nose) * Math.sin(joint(given)) - nose;
  return given.number('neck') / 2 - lowest;
}

const neckBelowBall: Condition = must(
  'neck',
  'the neck is smaller than the ball',
  (given) => given.number('neck') < given.number('ball'),
  (given) =>
    `A neck of ${mm(given.number('neck'))} leaves nothing of a ball of ${mm(given.number('ball'))}: ` +
    `give a neck below ${mm(given.number('ball'))}.`,
);

const ballOnShank: Formula = {
  name: 'ball_on_shank',
  family: 'ball',
  title: 'Tilt, ring and height for a ball on one shank',
  parameters: [BALL, NECK, FILLET, NOSE],
  result: [
    field('tilt', '°', 'tilt of the work above level, free end up'),
    field('ring', 'mm', "diameter of the tip's circle, as a boss cut with it measures"),
    field('height', 'mm', "lowest point of the cutter above the ball's centre when the ball is to size"),
    field('neck_to_end', 'mm', 'along the bar, from where ball meets neck or fillet to the free end'),
  ],
  compute: onShank,
  working: onShankWorking,
  why:
    'Every point of a circle is equally far from any point of its axis, so a ring whose axis crosses the work in one ' +
    'point cuts a ball about that point. It must reach from the free end to the neck and no further: one edge of the ' +
    'ring passes the end, the other the neck, which fixes tilt, ring and height together.',
  conditions: [
    ...positive(BALL, NECK),
    ...notNegative(FILLET, NOSE),
    neckBelowBall,
    must(
      'nose_radius',
      'the tip is small enough to leave a ring',
      (given) => onShank(given).ring > 0,
      (given) =>
        `A tip of ${mm(given.numberOr('nose_radius', 0))} radius closes the ring: give a smaller \`nose_radius\`.`,
    ),
    should(
      'nose_radius',
      'the fillet is at least as large as the nose radius',
      (given) => given.numberOr('nose_radius', 0) <= given.numberOr('fillet', 0),
      (given) =>
        `A tip of ${mm(given.numberOr('nose_radius', 0))} radius cannot leave a sharper corner at the neck: it cuts ` +
        `${mm(noseGouge(given))} into the shank. Give \`fillet: ${mm(given.numberOr('nose_radius', 0))}\` or more.`,
    ),
  ],
  source: `${OWN}; confirmed by sampled tip circles and by cutting a solid model`,
  cautions: MOUNT,
  picture: 'ball_setup',
  checks: [
    {
      call: 'ball_on_shank(25 mm, 10 mm)',
      expect: { tilt: 11.7890892391, ring: 24.4726578233, height: 2.55387054612 },
      tolerance: 1e-6,
      source: 'chord from the free end to the neck by coordinates in the plane of tilt',
    },
    {
      call: 'ball_on_shank(50.8 mm, 3/4 in)',
      expect: { tilt: 11.0121564185, ring: 49.8646032169, height: 4.8518384664 },
      tolerance: 1e-6,
      source: 'chord from the free end to the neck by coordinates in the plane of tilt',
    },
    {
      call: 'ball_on_shank(30 mm, 12 mm, fillet: 2 mm)',
      expect: { tilt: 14.0362434679 },
      tolerance: 1e-9,
      source: 'point where two circles touch, by coordinates',
    },
    {
      call: 'ball_on_shank(30 mm, 12 mm, nose_radius: 0.8 mm)',
      expect: { ring: 29.3334394886, height: 2.42809237029 },
      tolerance: 1e-6,
      source: 'sampled nose arc: its nearest point to the centre lies at the free end, half a ball away',
    },
  ],
  extremes: { ball: ballOfLeastHeight },
};

const FREE = length('neck_free_side', 'diameter of the neck on the raised side');
const HEAD = length('neck_head_side', 'diameter of the neck on the side of the dividing head');

function neckAngle(given: Given, name: string): number {
  return Math.asin(given.number(name) / given.number('ball'));
}

const ballBetweenNecks: Formula = {
  name: 'ball_between_necks',
  family: 'ball',
  title: 'Tilt, ring and height for a ball in the middle of a bar',
  parameters: [BALL, FREE, HEAD],
  result: [
    field('tilt', '°', 'tilt of the work above level, free side up; negative when that side goes down'),
    field('ring', 'mm', "diameter of the tip's circle, as a boss cut with it measures"),
    field('height', 'mm', "plane of the ring above the ball's centre when the ball is to size"),
  ],
  compute: (given) => {
    const [free, head] = [neckAngle(given, 'neck_free_side'), neckAngle(given, 'neck_head_side')];
    const mean = (free + head) / 2;
    const ball = given.number('ball');
    return {
      tilt: degrees(head - free) / 2,
      ring: ball * Math.cos(mean),
      height: (ball / 2) * Math.sin(mean),
    };
  },
  working: () => [
    {
      name: 'free_angle',
      expression: 'asin(neck_free_side / ball)',
      words: "the angle off the bar's axis at which the ball meets the raised neck",
    },
    { name: 'head_angle', expression: 'asin(neck_head_side / ball)', words: 'the same at the other neck' },
    { name: 'tilt', expression: '(head_angle - free_angle) / 2', words: 'half their difference' },
    {
      name: 'ring',
      expression: 'ball * cos((free_angle + head_angle) / 2)',
      words: 'chord from neck to neck',
    },
    {
      name: 'height',
      expression: 'ball / 2 * sin((free_angle + head_angle) / 2)',
      words: "the chord's distance from the centre",
    },
  ],
  why:
    'The ring runs from neck to neck, so the necks fix tilt and ring together; equal necks need no tilt. With equal ' +
    'necks the plane of the ring ends up touching the top of the bar: a cutter with a flat underside has no clearance ' +
    'there. With unequal necks it cuts down what stands behind the smaller neck at full size.',
  conditions: [
    ...positive(BALL),
    ...notNegative(FREE, HEAD),
    ...[FREE, HEAD].map(({ name }) =>
      must(
        name,
        `${name} is smaller than the ball`,
        (given) => given.number(name) < given.number('ball'),
        (given) =>
          `A neck of ${mm(given.number(name))} leaves nothing of a ball of ${mm(given.number('ball'))}: ` +
          `give \`${name}\` below ${mm(given.number('ball'))}.`,
      ),
    ),
    must(
      'neck_head_side',
      'there is a neck on at least one side',
      (given) => given.number('neck_free_side') + given.number('neck_head_side') > 0,
      () => 'Without any neck nothing holds the ball: give the neck on the side of the dividing head.',
    ),
  ],
  source: `${OWN}; confirmed by coordinates and by cutting a solid model`,
  cautions: MOUNT,
  picture: null,
  checks: [
    {
      call: 'ball_between_necks(30 mm, 8 mm, 12 mm)',
      expect: { tilt: 4.05608, ring: 28.2754, height: 5.01255 },
      tolerance: 5e-5,
      source: 'chord between the two neck points by coordinates in the plane of tilt',
    },
    {
      call: 'ball_between_necks(25 mm, 15 mm, 15 mm)',
      expect: { tilt: 0, ring: 20, height: 7.5 },
      tolerance: 1e-9,
      source: 'right triangle of 15, 20 and 25: necks, ring and ball',
    },
  ],
};

export const BALL_FORMULAS: readonly Formula[] = [ballOnShank, ballBetweenNecks];
