/** Ring, height and ball: any two give the third. What a measured ball says about the knee. */
import { length, mm, must, notNegative, optional, positive, should, single } from './build';
import type { Formula, Given } from './formula';

const RING = length('ring', "diameter of the tip's circle, as a boss cut with it measures");
const HEIGHT = length('height', "lowest point of the cutter above the ball's centre");
const BALL = length('ball', 'diameter of the ball');
const MEASURED = length('measured_ball', 'diameter the part-made ball measures');
const WANTED = length('wanted_ball', 'diameter it is to have');
const NOSE = optional(length('nose_radius', "radius at the cutter's tip; a sharp tip when left out"));

const OWN = 'own derivation, plane and sphere geometry';

/** Diameter of the ball a ring makes, in mm. A round tip touches it from the centre of its rounding. */
export function ballFrom(ring: number, height: number, nose: number): number {
  return 2 * (Math.hypot(ring / 2 + nose, height + nose) - nose);
}

/** Height of the cutter's lowest point above the centre for a ball, in mm. */
export function heightFor(ball: number, ring: number, nose: number): number {
  return Math.sqrt((ball / 2 + nose) ** 2 - (ring / 2 + nose) ** 2) - nose;
}

const nose = (given: Given): number => given.numberOr('nose_radius', 0);

/** The condition that a ring can make a ball at all. */
export const ringFits = (name: string) =>
  must(
    name,
    `${name} is no smaller than the ring`,
    (given) => given.number(name) >= given.number('ring'),
    (given) =>
      `A ring of ${mm(given.number('ring'))} makes no ball smaller than itself: for ` +
      `${mm(given.number(name))} set a ring below that.`,
  );

const ballFromRing: Formula = {
  name: 'ball_from_ring',
  family: 'ball',
  title: 'The ball a ring makes at a height',
  parameters: [RING, HEIGHT, NOSE],
  result: [single('mm', 'diameter of the ball')],
  compute: (given) => ballFrom(given.number('ring'), given.number('height'), nose(given)),
  working: (given) => [
    given.has('nose_radius')
      ? {
          name: '',
          expression: '2 * (hypot(ring / 2 + nose_radius, height + nose_radius) - nose_radius)',
          words: "twice the distance from the ball's centre to the tip's rounding",
        }
      : {
          name: '',
          expression: 'hypot(ring, 2 * height)',
          words: 'the long side of a right triangle on the ring and twice the height',
        },
  ],
  why:
    "The tip is as far from the ball's centre all round, so that distance is the ball's radius whatever the tilt. " +
    'Lowering the cutter (or raising the knee) makes the ball smaller, but never smaller than the ring. A round tip ' +
    'treated as sharp predicts the ball too small: give its `nose_radius`.',
  conditions: [
    ...positive(RING),
    ...notNegative(NOSE),
    must(
      'height',
      "the tip's rounding, or the sharp tip, is not below the ball's centre",
      (given) => given.number('height') + nose(given) >= 0,
      (given) =>
        `At ${mm(given.number('height'))} the ring is below the ball's centre and cuts into its sides: give a height ` +
        `of ${mm(0 - nose(given))} or more.`,
    ),
  ],
  source: `${OWN}: Pythagoras; confirmed by sampled tip circles`,
  cautions: ['knee', 'measuring'],
  picture: null,
  checks: [
    {
      call: 'ball_from_ring(24 mm, 5 mm)',
      expect: { '': 26 },
      tolerance: 1e-9,
      source: 'right triangle of 5, 12 and 13',
    },
    {
      call: 'ball_from_ring(21.2 mm, 2.94 mm)',
      expect: { '': 22.0003272703 },
      tolerance: 1e-6,
      source: "distance of sampled tip points from the ball's centre",
    },
    {
      call: 'ball_from_ring(29.37 mm, 3.06 mm, nose_radius: 0.4 mm)',
      expect: { '': 30.153437612 },
      tolerance: 1e-6,
      source: "nearest point of a sampled nose arc to the ball's centre",
    },
  ],
};

const ballHeight: Formula = {
  name: 'ball_height',
  family: 'ball',
  title: 'The height for the ring really set',
  parameters: [BALL, RING, NOSE],
  result: [single('mm', "lowest point of the cutter above the ball's centre when the ball is to size")],
  compute: (given) => heightFor(given.number('ball'), given.number('ring'), nose(given)),
  working: (given) => [
    given.has('nose_radius')
      ? {
          name: '',
          expression: 'sqrt((ball / 2 + nose_radius)^2 - (ring / 2 + nose_radius)^2) - nose_radius',
          words: "the short side of the triangle to the middle of the tip's rounding, less the rounding",
        }
      : {
          name: '',
          expression: 'sqrt(ball^2 - ring^2) / 2',
          words: 'half the short side of a right triangle with the ball as its long side and the ring',
        },
  ],
  why:
    'A ring that came out a little off still makes the ball to size at another height; what it then misses is the ' +
    'free end and the neck. So set the ring, measure a boss cut with it, and work out the height afresh.',
  conditions: [...positive(BALL, RING), ...notNegative(NOSE), ringFits('ball')],
  source: `${OWN}: Pythagoras; confirmed by a numeric root`,
  cautions: ['knee', 'measuring'],
  picture: null,
  checks: [
    {
      call: 'ball_height(34 mm, 24.6 mm)',
      expect: { '': 11.7349904133 },
      tolerance: 1e-8,
      source: 'numeric root of the distance from centre to tip',
    },
    {
      call: 'ball_height(25.4 mm, 24.6 mm)',
      expect: { '': 3.16227766017 },
      tolerance: 1e-9,
      source: 'numeric root of the distance from centre to tip',
    },
    {
      call: 'ball_height(30.153437612 mm, 29.37 mm, nose_radius: 0.4 mm)',
      expect: { '': 3.06 },
      tolerance: 1e-6,
      source: "nearest point of a sampled nose arc to the ball's centre, read backwards",
    },
  ],
};

const kneeRaise: Formula = {
  name: 'knee_raise',
  family: 'ball',
  title: 'Knee raise left, from a measured ball',
  parameters: [MEASURED, WANTED, RING, NOSE],
  result: [single('mm', 'how much further the knee goes up')],
  compute: (given) => {
    const [ring, tip] = [given.number('ring'), nose(given)];
    return (
      heightFor(given.number('measured_ball'), ring, tip) - heightFor(given.number('wanted_ball'), ring, tip)
    );
  },
  working: (given) => {
    const height = (ball: string): string =>
      given.has('nose_radius')
        ? `sqrt((${ball} / 2 + nose_radius)^2 - (ring / 2 + nose_radius)^2) - nose_radius`
        : `sqrt(${ball}^2 - ring^2) / 2`;
    return [
      {
        name: 'height_now',
        expression: height('measured_ball'),
        words: 'the height that made the measured ball',
      },
      { name: 'height_then', expression: height('wanted_ball'), words: 'the height for the wanted ball' },
      { name: '', expression: 'height_now - height_then', words: 'the difference' },
    ];
  },
  why:
    'The measured ball says at what height the ring really stands, whatever the dial says. Near the finish a raise ' +
    'takes off less than half of itself on the diameter: twice the raise times the sine of the tilt. Raise half of ' +
    'what is left, measure again, and the last raise is known.',
  conditions: [
    ...positive(MEASURED, WANTED, RING),
    ...notNegative(NOSE),
    ringFits('measured_ball'),
    ringFits('wanted_ball'),
    should(
      'measured_ball',
      'the measured ball is not yet below the wanted one',
      (given) => given.number('measured_ball') >= given.number('wanted_ball'),
      (given) =>
        `The ball is ${mm(given.number('wanted_ball') - given.number('measured_ball'))} under size already: ` +
        'no raise of the knee puts that back.',
    ),
  ],
  source: `${OWN}; confirmed by numeric roots`,
  cautions: ['knee', 'measuring', 'crank'],
  picture: null,
  checks: [
    {
      call: 'knee_raise(22.05 mm, 22 mm, 21.450935 mm)',
      expect: { '': 0.110243058357 },
      tolerance: 1e-8,
      source: 'difference of two numeric roots',
    },
    {
      call: 'knee_raise(25.12 mm, 25 mm, 24.6 mm)',
      expect: { '': 0.315255362185 },
      tolerance: 1e-8,
      source: 'difference of two numeric roots',
    },
  ],
};

export const KNEE_FORMULAS: readonly Formula[] = [ballFromRing, ballHeight, kneeRaise];
