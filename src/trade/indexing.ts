/** Turning the work by the crank of a dividing head and the hole circles of its plates. Whole numbers, so exact. */
import { field, must, quantity, shown } from './build';
import type { Formula, Given, Refusal } from './formula';
import { DIVISIONS, HEAD, type Head, exact, headOf, move, none, turns, words } from './indexing-head';

const ANGLE = quantity('angle', '°', 'angle to turn the work through');

const plainIndexing: Formula = {
  name: 'plain_indexing',
  family: 'indexing',
  title: 'Turns and holes of the crank for equal divisions',
  parameters: [DIVISIONS, HEAD],
  result: [
    field('turns', '', 'whole turns of the crank for each division'),
    field('holes', '', 'holes beyond the whole turns'),
    {
      ...field(
        'circle',
        '',
        'hole circle: the smallest that divides exactly, so that the fewest holes are stepped',
      ),
      choice: true,
    },
    field('sector_holes', '', "holes between the sector arms, counting the pin's own"),
    { ...field('others', '', 'all other circles that divide exactly'), words: true },
  ],
  compute: (given) => {
    const [head, divisions] = [headOf(given.card('head')), given.number('divisions')];
    if ('refused' in head) return head;
    const [first, ...others] = exact(divisions, head);
    if (!first) return none(divisions, head, given.card('head').name);
    return {
      turns: first.turns,
      holes: first.holes,
      circle: first.circle,
      sector_holes: first.holes + 1,
      others:
        first.holes === 0
          ? 'any circle: whole turns'
          : others.length === 0
            ? 'none'
            : others.map(words).join('; '),
    };
  },
  working: (given) => {
    const head = headOf(given.card('head'));
    if ('refused' in head) return [];
    const [first] = exact(given.number('divisions'), head);
    if (!first) return [];
    return [
      {
        name: 'crank',
        expression: `${head.ratio} / divisions`,
        words: `${turns(head.ratio)} for the whole work, shared out`,
      },
      { name: 'turns', expression: 'round_down(crank, 1)', words: 'the whole turns' },
      {
        name: 'circle',
        expression: String(first.circle),
        words: 'the smallest circle on which the rest comes to whole holes',
      },
      { name: 'holes', expression: '(crank - turns) * circle', words: 'the rest, in holes of that circle' },
      { name: 'sector_holes', expression: 'holes + 1', words: 'with the hole the pin stands in' },
    ];
  },
  why:
    'The worm turns the work once for so many turns of the crank, so one division takes that many turns shared by the ' +
    'divisions. A circle serves when the part turn comes to whole holes on it. All circles that serve are equally exact.',
  conditions: [],
  source: 'exact arithmetic; common practice of dividing-head work',
  cautions: ['indexing'],
  picture: 'hole_circle',
  checks: [
    {
      call: 'plain_indexing(7, head)',
      expect: { turns: 5, holes: 15, circle: 21, sector_holes: 16, others: '5 turns + 35 holes on 49' },
      tolerance: 0,
      source: 'every hole of every circle tried with exact fractions',
    },
    {
      call: 'plain_indexing(96, head_b)',
      expect: { turns: 0, holes: 10, circle: 24, sector_holes: 11, others: 'none' },
      tolerance: 0,
      source: 'every hole of every circle tried with exact fractions',
    },
    {
      call: 'plain_indexing(40, head)',
      expect: { turns: 1, holes: 0, sector_holes: 1 },
      tolerance: 0,
      source: 'common practice: forty turns of the crank turn the work once',
    },
  ],
};

/** Degrees in a turn. */
const TURN = 360;

/** How far the work is turned beyond the angle asked, in degrees. */
function beyond(angle: number, total: number, circle: number, ratio: number): number {
  return (total * TURN - angle * ratio * circle) / (ratio * circle);
}

/** A number of holes on a circle, and how far it turns the work beyond the angle asked. */
interface Try {
  readonly circle: number;
  readonly total: number;
  readonly error: number;
}

/** The move nearest to the angle; of circles that come out alike, the smallest. */
function nearest(angle: number, { ratio, circles }: Head): Try {
  const tries = circles.map((circle): Try => {
    const total = Math.round((angle * ratio * circle) / TURN);
    return { circle, total, error: beyond(angle, total, circle, ratio) };
  });
  return tries.reduce((best, next) => {
    // The same part of a turn on a larger circle is no better; only rounding could make it look so.
    const same = next.total * best.circle === best.total * next.circle;
    return !same && Math.abs(next.error) < Math.abs(best.error) ? next : best;
  });
}

const angularIndexing: Formula = {
  name: 'angular_indexing',
  family: 'indexing',
  title: 'Turns and holes of the crank for an angle',
  parameters: [ANGLE, HEAD],
  result: [
    { ...field('turns', '', 'whole turns of the crank'), choice: true },
    { ...field('holes', '', 'holes beyond the whole turns'), choice: true },
    { ...field('circle', '', 'hole circle that comes nearest; of those alike, the smallest'), choice: true },
    field('error', '°', 'angle turned less the angle asked: positive when turned too far'),
  ],
  compute: (given) => {
    const head = headOf(given.card('head'));
    if ('refused' in head) return head;
    const { circle, total, error } = nearest(given.number('angle'), head);
    return total === 0 ? tooSmall(given, head) : { ...move(circle, total), error };
  },
  working: (given) => {
    const head = headOf(given.card('head'));
    if ('refused' in head) return [];
    const { circle } = nearest(given.number('angle'), head);
    return [
      {
        name: 'moves',
        expression: `round(angle * ${head.ratio} * ${circle} / 360°, 1)`,
        words: `the crank's turns on the circle of ${circle}, to the nearest hole`,
      },
      { name: 'circle', expression: String(circle), words: 'the circle that comes nearest' },
      { name: 'turns', expression: 'round_down(moves / circle, 1)', words: 'the whole turns' },
      { name: 'holes', expression: 'moves - turns * circle', words: 'the holes beyond' },
      {
        name: 'error',
        expression: `(moves * 360° - angle * ${head.ratio} * circle) / (${head.ratio} * circle)`,
        words: 'what is really turned, less what was asked',
      },
    ];
  },
  why:
    'One turn of the crank turns the work by 360° over the ratio, and one hole by that over the circle. The nearest ' +
    'hole is never more than half a hole off. Moves repeated one after another add their errors up: for equal ' +
    'divisions use plain indexing instead.',
  conditions: [
    must(
      'angle',
      'the angle is more than 0° and at most 360°',
      (given) => given.number('angle') > 0 && given.number('angle') <= TURN,
      (given) =>
        given.number('angle') > TURN
          ? `${shown(given.number('angle'), '°')} is more than a full turn: give ${shown(given.number('angle') % TURN, '°')}.`
          : `${shown(given.number('angle'), '°')} turns nothing forwards: give a positive angle and mind the side the backlash is taken up on.`,
    ),
  ],
  source: 'exact arithmetic; common practice of dividing-head work',
  cautions: ['indexing'],
  picture: 'hole_circle',
  checks: [
    {
      call: 'angular_indexing(17°30′, head_b)',
      expect: { turns: 1, holes: 51, circle: 54, error: 0 },
      tolerance: 1e-9,
      source: 'every circle tried with exact fractions',
    },
    {
      call: 'angular_indexing(12.8276°, head)',
      expect: { turns: 1, holes: 20, circle: 47, error: 0.00218723404 },
      tolerance: 1e-9,
      source: 'every circle tried with exact fractions',
    },
  ],
};

function tooSmall(given: Given, { ratio, circles }: Head): Refusal {
  const hole = TURN / (ratio * Math.max(...circles));
  return {
    refused:
      `${shown(given.number('angle'), '°')} is less than half a hole on every circle of \`${given.card('head').name}\`: ` +
      `its smallest move is ${shown(hole, '°')}.`,
    parameter: 'angle',
  };
}

export const INDEXING_FORMULAS: readonly Formula[] = [plainIndexing, angularIndexing];
