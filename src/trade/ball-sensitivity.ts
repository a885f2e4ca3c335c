/** What a small error of knee, ring or tilt does to a ball, and what stands on its end. */
import { degrees, field, length, mm, must, positive, quantity, radians, shown, single } from './build';
import { notNegative } from './build';
import type { Formula, Given } from './formula';

const BALL = length('ball', 'diameter of the ball');
const NECK = length('neck', 'diameter of the shank where it meets the ball or its fillet');

const ONE_DEGREE = radians(1);

function tiltOf(given: Given): number {
  return Math.asin(given.number('neck') / given.number('ball')) / 2;
}

const sensitivity: Formula = {
  name: 'ball_sensitivity',
  family: 'ball',
  title: 'What an error of knee, ring or tilt does to a ball on one shank',
  parameters: [BALL, NECK],
  result: [
    field('ball_by_raise', '', 'taken off the diameter for each mm the knee goes up, near the finish'),
    field('ball_by_ring', '', 'added to the diameter for each mm of ring, at the same height'),
    field('end_by_tilt', 'mm', 'foot of what is left on the end for 1° of tilt wrong, with the ball to size'),
    field('neck_by_tilt', 'mm', 'change of the neck for 1° of tilt, with the ball to size'),
    field(
      'end_by_ring',
      '',
      'foot of what is left on the end for each mm the ring is wrong, with the ball to size',
    ),
    field('pip_by_ring', '', 'height of the pip for each mm the ring is too small'),
    field('cone_by_ring', '', 'height of the cone for each mm the ring is too large'),
  ],
  compute: (given) => {
    const [ball, tilt] = [given.number('ball'), tiltOf(given)];
    const [sin, cos] = [Math.sin(tilt), Math.cos(tilt)];
    return {
      ball_by_raise: 2 * sin,
      ball_by_ring: cos,
      end_by_tilt: ball * ONE_DEGREE,
      neck_by_tilt: ball * Math.cos(2 * tilt) * ONE_DEGREE,
      end_by_ring: 1 / sin,
      pip_by_ring: cos / (2 * sin ** 2),
      cone_by_ring: 1 / (2 * cos),
    };
  },
  working: () => [
    { name: 'tilt', expression: 'asin(neck / ball) / 2', words: 'the tilt for this ball and neck' },
    { name: 'ball_by_raise', expression: '2 * sin(tilt)', words: 'the knee moves the ring along its height' },
    {
      name: 'ball_by_ring',
      expression: 'cos(tilt)',
      words: 'the ring is the long side, as seen from the centre',
    },
    {
      name: 'end_by_tilt',
      expression: 'ball * (1° / 1 rad)',
      words: 'an arc of 1° on the ball, twice its radius',
    },
    {
      name: 'neck_by_tilt',
      expression: 'ball * cos(2 * tilt) * (1° / 1 rad)',
      words: 'the same arc, seen square to the bar',
    },
    {
      name: 'end_by_ring',
      expression: '1 / sin(tilt)',
      words: "the ring's edge runs along the ball at that slope",
    },
    {
      name: 'pip_by_ring',
      expression: 'cos(tilt) / (2 * sin(tilt)^2)',
      words: "a pip under the ring's flat plane",
    },
    { name: 'cone_by_ring', expression: '1 / (2 * cos(tilt))', words: "a cone inside the ring's steep wall" },
  ],
  why:
    'The knee corrects the diameter gently, by less than half of the raise. The tilt changes neither diameter nor roundness: ' +
    'it moves the neck and opens the end. The end is what tells on the ring, several times magnified, and a ring too small ' +
    'leaves a pip many times taller than the cone of one too large by as much: when in doubt err on the large side.',
  conditions: [
    ...positive(BALL, NECK),
    must(
      'neck',
      'the neck is smaller than the ball',
      (given) => given.number('neck') < given.number('ball'),
      (given) => `Give a neck below the ball's ${mm(given.number('ball'))}.`,
    ),
  ],
  source: 'own derivation, plane and sphere geometry, for small errors; confirmed by central differences',
  cautions: ['measuring'],
  picture: null,
  checks: [
    {
      call: 'ball_sensitivity(40 mm, 12.7 mm)',
      expect: {
        ball_by_raise: 0.321688446547,
        ball_by_ring: 0.986979802775,
        end_by_tilt: 0.698131700818,
        end_by_ring: 6.21719560279,
      },
      tolerance: 1e-5,
      source: 'central differences',
    },
    {
      call: 'ball_sensitivity(30 mm, 12 mm)',
      expect: {
        ball_by_raise: 0.40861929,
        end_by_tilt: 0.5235772,
        neck_by_tilt: 0.4798862,
        end_by_ring: 4.89434,
        pip_by_ring: 11.72555,
        cone_by_ring: 0.5107741,
      },
      tolerance: 0.003,
      source:
        'differences of ends and necks of a sampled ring, and of steps along the axis until inside the cutter',
    },
  ],
};

const RING = length('ring', "diameter of the tip's circle, as a boss cut with it measures; sharp tip");
const HEIGHT = length('height', "plane of the ring above the ball's centre at the end");
const TILT = quantity('tilt', '°', 'tilt of the work above level, free end up');
const AT = length('from_centre', "along the bar, from the ball's centre towards the free end");

function left(given: Given): { under: number; inside: number } {
  const tilt = radians(given.number('tilt'));
  const at = given.number('from_centre');
  return {
    under: (2 * (given.number('height') - at * Math.sin(tilt))) / Math.cos(tilt),
    inside: (given.number('ring') - 2 * at * Math.cos(tilt)) / Math.sin(tilt),
  };
}

const endLeft: Formula = {
  name: 'end_left_at',
  family: 'ball',
  title: 'How thick a pip or cone stands at a distance from the centre',
  parameters: [RING, HEIGHT, TILT, AT],
  result: [single('mm', 'diameter of what the ring leaves standing there; zero where nothing stands')],
  compute: (given) => {
    const { under, inside } = left(given);
    return Math.max(0, under, inside);
  },
  working: () => [
    {
      name: 'under_plane',
      expression: '2 * (height - from_centre * sin(tilt)) / cos(tilt)',
      words: 'what turns without ever reaching up to the plane of the ring',
    },
    {
      name: 'inside_wall',
      expression: '(ring - 2 * from_centre * cos(tilt)) / sin(tilt)',
      words: "what turns without ever reaching out to the ring's wall",
    },
    { name: '', expression: 'max(0 mm, under_plane, inside_wall)', words: 'the larger of these, if any' },
  ],
  why:
    'Stock at the end is left where the ring never gets to it: a pip stays below the plane of a ring that falls short, a low ' +
    'cone stays inside the wall of one that goes round the end. What stands there, and how steep it is, says which of the two ' +
    'the set-up has: a sharp pip asks for a larger ring or more tilt, a flat cone for a smaller ring or less.',
  conditions: [
    ...positive(RING),
    ...notNegative(HEIGHT),
    must(
      'tilt',
      'the tilt is more than 0° and less than 90°',
      (given) => given.number('tilt') > 0 && given.number('tilt') < 90,
      (given) =>
        `At ${shown(given.number('tilt'), '°')} there is no free end under the ring: give a tilt between 0° and 90°.`,
    ),
    must(
      'from_centre',
      'the place lies at the foot of what is left, or beyond',
      (given) => given.number('from_centre') >= foot(given),
      (given) =>
        `Within ${mm(foot(given))} of the centre stands the ball itself: give \`from_centre\` of that or more.`,
    ),
  ],
  source: 'own derivation, plane and sphere geometry; confirmed by a numeric envelope of the ring',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'end_left_at(21.35 mm, 2.654124 mm, 12.8276°, 11.477267 mm)',
      expect: { '': 0.217348 },
      tolerance: 0.0001,
      source: 'numeric envelope: largest radius that a sampled turn keeps out of the cutter',
    },
    {
      call: 'end_left_at(22 mm, 0 mm, 15.5°, 11.2 mm)',
      expect: { '': 1.551715 },
      tolerance: 1e-5,
      source: 'numeric envelope: largest radius that a sampled turn keeps out of the cutter',
    },
  ],
  extremes: { tilt: steepest },
};

/** Along the bar, to where the ring's upper edge runs, in mm. */
function foot(given: Given): number {
  const tilt = radians(given.number('tilt'));
  return (given.number('ring') / 2) * Math.cos(tilt) + given.number('height') * Math.sin(tilt);
}

/** Least is left at the tilt at which the ring passes through the free end. */
function steepest(given: Given): readonly number[] {
  return [degrees(Math.atan2(2 * given.number('height'), given.number('ring')))];
}

export const SENSITIVITY_FORMULAS: readonly Formula[] = [sensitivity, endLeft];
