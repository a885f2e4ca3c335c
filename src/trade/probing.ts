/** Touching off with an edge finder or a stylus: where an edge is, and the middle between two. */
import { choice, field, length, mm, must, notNegative, single } from './build';
import type { Condition, Formula, Given } from './formula';

export const STYLUS = length('stylus', 'diameter of the stylus or of the edge finder where it touches');
const READING = length('reading', 'readout at the touch, for the middle of the spindle');
const MOVING = choice(
  'moving',
  ['plus', 'minus'],
  'the way the stylus went to the edge: `plus` where the readout counted up',
);
const FIRST = length('first', 'readout at the first touch');
const SECOND = length('second', 'readout at the touch on the other side');
const SIDES = choice(
  'sides',
  ['outside', 'inside'],
  'whether the touches are `outside` or `inside` the work',
);

/** A stylus of nothing touches as an edge that is set by eye does. */
export const stylusFits: readonly Condition[] = notNegative(STYLUS);

const counting = (given: Given): boolean => given.code('moving') === 'plus';

const edge: Formula = {
  name: 'edge_from_touch',
  family: 'probing',
  title: 'Where an edge is, from the reading at a touch',
  parameters: [READING, STYLUS, MOVING],
  result: [single('mm', 'readout at which the middle of the spindle stands over the edge')],
  compute: (given) => given.number('reading') + ((counting(given) ? 1 : -1) * given.number('stylus')) / 2,
  working: (given) => [
    {
      name: '',
      expression: `reading ${counting(given) ? '+' : '-'} stylus / 2`,
      words: 'the edge lies half the stylus further on than the middle of the spindle',
    },
  ],
  why:
    'The side of the stylus touches, but the readout follows the middle of the spindle, which is still half a stylus ' +
    'short of the edge. Set the readout to half the stylus with its sign there, or work out the edge as here. Touch with ' +
    'the spindle turning slowly, so that a bent stylus counts on both sides alike.',
  conditions: stylusFits,
  source: 'arithmetic; common practice',
  cautions: ['probing', 'measuring'],
  picture: null,
  checks: [
    {
      call: 'edge_from_touch(-3 mm, 6 mm, plus)',
      expect: { '': 0 },
      tolerance: 1e-12,
      source: 'common practice: half the stylus before the edge the readout is set to half the stylus, minus',
    },
    {
      call: 'edge_from_touch(104.12 mm, 10 mm, minus)',
      expect: { '': 99.12 },
      tolerance: 1e-9,
      source: 'counted on a drawing of the touch from the right, half of 10 back towards the work',
    },
    {
      call: 'edge_from_touch(1.25 in, 0.2 in, plus)',
      expect: { '': 34.29 },
      tolerance: 1e-9,
      source: 'in inches by hand: 1.250 and 0.100 are 1.350 in',
    },
  ],
};

const apart = (given: Given): number => Math.abs(given.number('second') - given.number('first'));
const inside = (given: Given): boolean => given.code('sides') === 'inside';

const middle: Formula = {
  name: 'middle_of_touches',
  family: 'probing',
  title: 'Middle and width between two opposite touches',
  parameters: [FIRST, SECOND, STYLUS, SIDES],
  result: [
    field('middle', 'mm', 'readout half way between the two touches'),
    field('width', 'mm', 'width of the work, or of the slot, that was touched'),
  ],
  compute: (given) => ({
    middle: (given.number('first') + given.number('second')) / 2,
    width: apart(given) + (inside(given) ? 1 : -1) * given.number('stylus'),
  }),
  working: (given) => [
    {
      name: 'middle',
      expression: '(first + second) / 2',
      words: 'half way: the stylus stands off as much on both sides, so its size falls out',
    },
    {
      name: 'width',
      expression: `abs(second - first) ${inside(given) ? '+' : '-'} stylus`,
      words: inside(given)
        ? 'the stylus stood inside at both ends: half of it is missing at each'
        : 'the stylus stood outside at both ends: half of it is too much at each',
    },
  ],
  why:
    'Two touches with one stylus give the middle whatever its size, so an unknown or worn stylus does no harm there. The ' +
    'width needs its size, and is a check: a width that is wrong says that one touch was not square or caught a chip.',
  conditions: [
    ...stylusFits,
    must(
      'second',
      'the two touches lie further apart than an outside stylus is thick',
      (given) => inside(given) || apart(given) > given.number('stylus'),
      (given) =>
        `Touches ${mm(apart(given))} apart leave no work between a stylus of ${mm(given.number('stylus'))}: touch the other ` +
        'side too, or say `inside`.',
    ),
  ],
  source: 'arithmetic; common practice',
  cautions: ['probing', 'measuring'],
  picture: null,
  checks: [
    {
      call: 'middle_of_touches(-8 mm, 58 mm, 6 mm, outside)',
      expect: { middle: 25, width: 60 },
      tolerance: 1e-9,
      source: 'drawn to scale: a block from -5 to 55 with 3 mm of stylus outside it at each end',
    },
    {
      call: 'middle_of_touches(41.3 mm, 12.7 mm, 4 mm, inside)',
      expect: { middle: 27, width: 32.6 },
      tolerance: 1e-9,
      source: 'drawn to scale: a slot from 10.7 to 43.3 with 2 mm of stylus inside it at each end',
    },
  ],
  extremes: {
    first: (given) => [given.number('second')],
    second: (given) => [given.number('first')],
  },
};

export const PROBING_FORMULAS: readonly Formula[] = [edge, middle];
