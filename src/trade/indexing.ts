/** Turning the work by the crank of a dividing head and the hole circles of its plates. Whole numbers, so exact. */
import { NUMBER } from '../quantity/dimension';
import type { CardView, List, Quantity, Text } from '../quantity/value';
import { field, must, quantity, shown } from './build';
import type { Formula, Given, Parameter, Refusal } from './formula';

const HEAD: Parameter = {
  name: 'head',
  kind: 'machine',
  unit: '',
  meaning:
    'machine card of the dividing head: `ratio`, turns of the crank for one of the work, and `plates`, its hole circles',
};
const DIVISIONS: Parameter = {
  name: 'divisions',
  kind: 'count',
  unit: '',
  meaning: 'equal parts of a full turn',
};
const ANGLE = quantity('angle', '°', 'angle to turn the work through');

/** No dividing head or plate goes beyond; keeps the search for other numbers short. */
const MOST = 1000;

interface Head {
  readonly ratio: number;
  /** Hole circles, the smallest first, each once. */
  readonly circles: readonly number[];
}

function isWhole(x: Quantity | List | Text | undefined): x is Quantity {
  return (
    x?.kind === 'number' &&
    x.dimension === NUMBER &&
    Number.isInteger(x.value) &&
    x.value >= 1 &&
    x.value <= MOST
  );
}

function headOf(card: CardView): Head | Refusal {
  const [ratio, plates] = [card.fields.get('ratio'), card.fields.get('plates')];
  if (!isWhole(ratio)) return lacks(card, `a whole \`ratio\` from 1 to ${MOST}, such as \`ratio = 40\``);
  const circles = plates?.kind === 'list' ? plates.items : [];
  if (circles.length === 0 || !circles.every(isWhole))
    return lacks(
      card,
      `\`plates\` with whole numbers of holes up to ${MOST}, such as \`plates = [15, 16, 17, 18, 19, 20]\``,
    );
  return {
    ratio: ratio.value,
    circles: [...new Set(circles.map((circle) => circle.value))].sort((a, b) => a - b),
  };
}

const lacks = (card: CardView, what: string): Refusal => ({
  refused: `The card of \`${card.name}\` needs ${what}.`,
  parameter: 'head',
});

/** A move of the crank: whole turns, and holes on a circle. */
interface Move {
  readonly circle: number;
  readonly turns: number;
  readonly holes: number;
}

function move(circle: number, total: number): Move {
  return { circle, turns: Math.floor(total / circle), holes: total % circle };
}

/** All circles that divide exactly, the smallest first. */
function exact(divisions: number, { ratio, circles }: Head): readonly Move[] {
  return circles
    .filter((circle) => (ratio * circle) % divisions === 0)
    .map((circle) => move(circle, (ratio * circle) / divisions));
}

function divisor(a: number, b: number): number {
  return b === 0 ? a : divisor(b, a % b);
}

/** The nearest numbers of divisions below and above that this head does index. */
function neighbours(divisions: number, { ratio, circles }: Head): readonly number[] {
  const works = new Set<number>();
  for (const circle of circles) {
    const all = ratio * circle;
    for (let n = 1; n * n <= all; n++) if (all % n === 0) works.add(n).add(all / n);
  }
  const below = Math.max(...[...works].filter((n) => n < divisions));
  const above = Math.min(...[...works].filter((n) => n > divisions));
  return [below, above].filter(Number.isFinite);
}

const turns = (count: number): string => (count === 1 ? '1 turn' : `${count} turns`);

function words({ circle, turns: count, holes }: Move): string {
  const part = `${holes === 1 ? '1 hole' : `${holes} holes`} on ${circle}`;
  return count === 0 ? part : `${turns(count)} + ${part}`;
}

function none(divisions: number, head: Head, name: string): Refusal {
  const near = neighbours(divisions, head);
  const holes = divisions / divisor(head.ratio, divisions);
  return {
    refused:
      `No circle of \`${name}\` indexes ${divisions} divisions plainly: it takes ${holes} holes or a multiple of that. ` +
      `Nearest that do: ${near.join(' and ')}.`,
    parameter: 'divisions',
    offers: near.map(String),
    code: 'no-plain-indexing',
  };
}

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
  picture: null,
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
  picture: null,
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
