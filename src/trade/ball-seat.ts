/** A hollow ball: the seat cut by a tool that faces outward on a bar. */
import { degrees, field, length, mm, must, notNegative, optional, positive } from './build';
import type { Formula, Given } from './formula';

const BALL = length('ball', 'diameter of the ball that sits in it');
const MOUTH = length('mouth', 'diameter of the seat at its mouth');
const HOLE = optional(length('hole', 'diameter of a hole at the bottom; none when left out'));

function seat(given: Given): { tilt: number; ring: number; height: number; depth: number } {
  const ball = given.number('ball');
  const mouth = Math.asin(given.number('mouth') / ball);
  const hole = Math.asin(given.numberOr('hole', 0) / ball);
  return {
    tilt: degrees(mouth + hole) / 2,
    ring: ball * Math.sin((mouth - hole) / 2),
    height: (ball / 2) * Math.cos((mouth - hole) / 2),
    depth: (ball / 2) * (Math.cos(hole) - Math.cos(mouth)),
  };
}

const ballSeat: Formula = {
  name: 'ball_seat',
  family: 'ball',
  title: 'Tilt, ring and depth for a hollow seat of a ball',
  parameters: [BALL, MOUTH, HOLE],
  result: [
    field('tilt', '°', "angle between the cutter's axis and the work's, which turns on its own"),
    field('ring', 'mm', "diameter of the outward tip's circle"),
    field('height', 'mm', "plane of the ring below the ball's centre when the seat is to size"),
    field('depth', 'mm', 'from the mouth to the bottom, or to the edge of the hole'),
  ],
  compute: seat,
  working: (given) => {
    const hole = given.has('hole');
    const half = hole ? '(mouth_angle - hole_angle) / 2' : 'mouth_angle / 2';
    return [
      {
        name: 'mouth_angle',
        expression: 'asin(mouth / ball)',
        words: "the angle off the work's axis, at the ball's centre, of the edge of the mouth",
      },
      ...(hole
        ? [{ name: 'hole_angle', expression: 'asin(hole / ball)', words: 'the same of the edge of the hole' }]
        : []),
      {
        name: 'tilt',
        expression: hole ? '(mouth_angle + hole_angle) / 2' : 'mouth_angle / 2',
        words: 'halfway between the edges of the seat',
      },
      { name: 'ring', expression: `ball * sin(${half})`, words: 'the chord from edge to edge' },
      {
        name: 'height',
        expression: `ball / 2 * cos(${half})`,
        words: "the chord's distance from the centre",
      },
      {
        name: 'depth',
        expression: hole
          ? 'ball / 2 * (cos(hole_angle) - cos(mouth_angle))'
          : 'ball / 2 * (1 - cos(mouth_angle))',
        words: 'between the edges along the work',
      },
    ];
  },
  why:
    'It is the ball inside out: every point of the ring is as far from the point where the axes cross, so the hollow is round ' +
    'whatever the tilt. The ring reaches from the bottom of the seat to its mouth. The bar that carries the tool must be ' +
    'thinner than the ring, or it rubs on the mouth.',
  conditions: [
    ...positive(BALL, MOUTH),
    ...notNegative(HOLE),
    must(
      'mouth',
      'the mouth is no larger than the ball',
      (given) => given.number('mouth') <= given.number('ball'),
      (given) =>
        `A seat of ${mm(given.number('ball'))} opens no wider than that: give a mouth of ${mm(given.number('ball'))} or less.`,
    ),
    must(
      'hole',
      'the hole is smaller than the mouth',
      (given) => given.numberOr('hole', 0) < given.number('mouth'),
      (given) =>
        `A hole of ${mm(given.numberOr('hole', 0))} leaves no seat: give one below ${mm(given.number('mouth'))}.`,
    ),
  ],
  source: 'own derivation, plane and sphere geometry; confirmed by coordinates of chord and middle',
  cautions: ['by_hand_first', 'boring_head', 'crank'],
  picture: null,
  checks: [
    {
      call: 'ball_seat(30 mm, 20 mm)',
      expect: { tilt: 20.9051574479, ring: 10.7046626932, height: 14.0125853844, depth: 3.8196601125 },
      tolerance: 1e-8,
      source: 'chord from bottom to rim and its middle, by coordinates',
    },
    {
      call: 'ball_seat(25.4 mm, 3/4 in)',
      expect: { tilt: 24.2951889454, ring: 10.4505208253, height: 11.5752604126, depth: 4.29973958737 },
      tolerance: 1e-8,
      source: 'chord from bottom to rim and its middle, by coordinates',
    },
    {
      call: 'ball_seat(30 mm, 20 mm, hole: 5 mm)',
      expect: { tilt: 25.7021915613, ring: 8.3235260627, height: 14.4110974069, depth: 3.6098595703 },
      tolerance: 1e-8,
      source: 'chord from bottom to rim and its middle, by coordinates',
    },
  ],
};

export const SEAT_FORMULAS: readonly Formula[] = [ballSeat];
