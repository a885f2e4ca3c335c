/** A hole or a boss found from three or more touches round it. */
import { choice, field, list, must, shown, should } from './build';
import type { Formula, Given, Refusal, Step } from './formula';
import { type Circle, bestCircle } from './least-squares';
import { STYLUS, stylusFits } from './probing';

const X = list('x', 'mm', 'readout of X at each touch, in order');
const Y = list('y', 'mm', 'readout of Y at each touch, in the same order');
const SHAPE = choice('shape', ['hole', 'boss'], 'whether a `hole` or a `boss` was touched');

/** A working of more touches than this no longer fits a line of the notation. */
const MOST_TOUCHES = 24;
const FEWEST_TOUCHES = 3;
/** Touches all within half the round give a centre that small errors throw far off. */
const HALF_ROUND = 180;

const touches = (given: Given): number => given.list('x').length;

function circleOf(given: Given): Circle | Refusal {
  const found = bestCircle(given.list('x'), given.list('y'));
  return (
    found ?? {
      refused:
        'No circle fits these touches: they lie on one line or on one spot, or one is a slip of the pen. Look them ' +
        'through, and take them well round the whole.',
      parameter: 'x',
    }
  );
}

/** Distance of each touch from the centre. */
function distances(given: Given, { x, y }: Circle): readonly number[] {
  const ys = given.list('y');
  return given.list('x').map((px, i) => Math.hypot(px - x, (ys[i] ?? NaN) - y));
}

/** The widest part of the round without a touch, in degrees. */
function widestGap(given: Given): number {
  const circle = circleOf(given);
  if ('refused' in circle) return 0;
  const ys = given.list('y');
  const at = given
    .list('x')
    .map((x, i) => (Math.atan2((ys[i] ?? NaN) - circle.y, x - circle.x) * 180) / Math.PI)
    .sort((a, b) => a - b);
  return Math.max(...at.map((angle, i) => (at[i + 1] ?? (at[0] ?? NaN) + 360) - angle));
}

const isHole = (given: Given): boolean => given.code('shape') === 'hole';

/** As many digits as a fit holds: a step of the working must come to the last one again. */
const exact = (value: number): string => value.toFixed(12).replace(/\.?0+$/, '');
const sum = (count: number, term: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => term(i)).join(' + ');

/** The fit cannot be written as one expression, but that it is the best one can: the centre comes out again. */
function working(given: Given): readonly Step[] {
  const circle = circleOf(given);
  if ('refused' in circle) return [];
  const [xs, ys, count] = [given.list('x'), given.list('y'), touches(given)];
  const far = Array.from({ length: count }, (_, i) => ({
    name: `far_${i + 1}`,
    expression: `hypot(${exact(xs[i] ?? NaN)} mm - found_x, ${exact(ys[i] ?? NaN)} mm - found_y)`,
    words: `distance of touch ${i + 1} from the middle`,
  }));
  const all = far.map(({ name }) => name).join(', ');
  const centre = (axis: 'x' | 'y', at: readonly number[]): Step => ({
    name: `centre_${axis}`,
    expression:
      `(${sum(count, (i) => `${exact(at[i] ?? NaN)} mm`)}) / ${count} - middling / ${count} * ` +
      `(${sum(count, (i) => `(${exact(at[i] ?? NaN)} mm - found_${axis}) / far_${i + 1}`)})`,
    words:
      'each touch, less the radius in its direction, on the average: the best middle comes out where it was put in',
  });
  return [
    {
      name: 'found_x',
      expression: `${exact(circle.x)} mm`,
      words: 'middle of the best circle, found in rounds',
    },
    {
      name: 'found_y',
      expression: `${exact(circle.y)} mm`,
      words: 'middle of the best circle, found in rounds',
    },
    ...far,
    {
      name: 'middling',
      expression: `(${sum(count, (i) => `far_${i + 1}`)}) / ${count}`,
      words: 'their mean',
    },
    centre('x', xs),
    centre('y', ys),
    {
      name: 'diameter',
      expression: `2 * middling ${isHole(given) ? '+' : '-'} stylus`,
      words: isHole(given)
        ? 'twice that, and the stylus, half of which stood inside the wall at each end'
        : 'twice that, less the stylus, half of which stood outside the wall at each end',
    },
    {
      name: 'out_of_round',
      expression: `max(${all}) - min(${all})`,
      words: 'between the touch that lies furthest out and the one furthest in',
    },
  ];
}

const circleFromTouches: Formula = {
  name: 'circle_from_touches',
  family: 'probing',
  title: 'Centre and diameter of a hole or boss from three or more touches',
  parameters: [X, Y, STYLUS, SHAPE],
  result: [
    field('centre_x', 'mm', 'readout of X over the centre'),
    field('centre_y', 'mm', 'readout of Y over the centre'),
    field('diameter', 'mm', 'diameter of the hole or boss itself'),
    field(
      'out_of_round',
      'mm',
      'how much further out one touch lies than another; always nothing with three',
    ),
  ],
  compute: (given) => {
    const circle = circleOf(given);
    if ('refused' in circle) return circle;
    const far = distances(given, circle);
    return {
      centre_x: circle.x,
      centre_y: circle.y,
      diameter: 2 * circle.radius + (isHole(given) ? 1 : -1) * given.number('stylus'),
      out_of_round: Math.max(...far) - Math.min(...far),
    };
  },
  working,
  why:
    'Three touches always lie on some circle, so three never tell a slip. With four or more the circle is laid so that the ' +
    'squared misses are least, and what is left over shows a chip under the stylus, a hole out of round, or a slip of the ' +
    'pen. Touch all round: from a short arc the centre is a guess.',
  conditions: [
    ...stylusFits,
    must(
      'y',
      'every touch has its X and its Y',
      (given) => touches(given) === given.list('y').length,
      (given) =>
        `There are ${touches(given)} readings of X and ${given.list('y').length} of Y: give one of each for every touch.`,
    ),
    must(
      'x',
      'three touches or more, 24 at most',
      (given) => touches(given) >= FEWEST_TOUCHES && touches(given) <= MOST_TOUCHES,
      (given) =>
        touches(given) < FEWEST_TOUCHES
          ? `${touches(given)} touches fit many circles: take ${FEWEST_TOUCHES} or more, well round the whole.`
          : `${touches(given)} touches are more than this works out: give ${MOST_TOUCHES} at most.`,
    ),
    must(
      'stylus',
      'the stylus is thinner than a boss so touched is thick',
      (given) => {
        const circle = circleOf(given);
        return 'refused' in circle || isHole(given) || 2 * circle.radius > given.number('stylus');
      },
      (given) =>
        `With a stylus of ${shown(given.number('stylus'), 'mm')} nothing is left of a boss: was a \`hole\` touched, or is the stylus smaller?`,
    ),
    should(
      'x',
      'the touches go more than half way round',
      (given) => widestGap(given) < HALF_ROUND,
      (given) =>
        `No touch lies in ${Math.round(widestGap(given))}° of the round, so a small error throws the centre far off: take one there.`,
    ),
  ],
  source: 'least-squares reference circle as in ISO 12181-1, fitted by rounds of linear least squares',
  cautions: ['probing', 'measuring'],
  picture: null,
  checks: [
    {
      call: 'circle_from_touches([25, 10, -5] mm, [12, 27, 12] mm, 6 mm, hole)',
      expect: { centre_x: 10, centre_y: 12, diameter: 36, out_of_round: 0 },
      tolerance: 1e-9,
      source: 'drawn with a compass: three quarter points of a circle of 15 mm radius about 10, 12',
    },
    {
      call: 'circle_from_touches([62.013, 50.004, 38.001, 49.991, 58.49] mm, [40.002, 51.989, 40.011, 28.012, 48.47] mm, 4 mm, hole)',
      expect: {
        centre_x: 50.00497557,
        centre_y: 39.99847813,
        diameter: 27.9916431653,
        out_of_round: 0.0215386733,
      },
      tolerance: 1e-8,
      source: 'scipy.optimize.least_squares on the distances themselves',
    },
    {
      call: 'circle_from_touches([112.71, 87.68, 99.4, 104.1, 91.2, 95.03] mm, [60.02, 58.1, 72.75, 47.95, 69.33, 48.3] mm, 3 mm, boss)',
      expect: {
        centre_x: 100.06815405,
        centre_y: 60.05476591,
        diameter: 22.4254006704,
        out_of_round: 0.2911114301,
      },
      tolerance: 1e-7,
      source: 'scipy.optimize.least_squares on the distances themselves',
    },
    {
      call: 'circle_from_touches([1.2, 1.9, 1.4] in, [0.5, 1.1, 1.75] in, 0.2 in, hole)',
      expect: { centre_x: 32.178940397, centre_y: 28.709569536, diameter: 37.278926393 },
      tolerance: 1e-8,
      source: 'circle through three points in exact fractions of an inch, then times 25.4',
    },
  ],
};

export const PROBING_CIRCLE_FORMULAS: readonly Formula[] = [circleFromTouches];
