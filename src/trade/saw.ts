/** Pieces out of bars: how many one gives, and how a list of lengths shares out over several. */
import { field, firstItems, length, list, listed, mm, must, notNegative, optional, positive } from './build';
import type { Formula, Given } from './formula';

const BAR = length('bar', 'length of a bar');
const PIECE = length('piece', 'length of a piece, with what is faced off');
const KERF = length('kerf', 'width of the saw cut');
const TRIM = optional(length('trim', 'cut off the end of the bar first; nothing when left out'));

/** Rounding alone does not lose a piece that fits exactly. */
const SLACK = 1e-9;

const usable = (given: Given): number => given.number('bar') - given.numberOr('trim', 0);

/** Pieces where the last may be the end of the bar itself, and where each is cut off. */
function pieces(given: Given): { most: number; cut: number } {
  const [rest, kerf] = [usable(given), given.number('kerf')];
  const each = given.number('piece') + kerf;
  return { most: Math.floor((rest + kerf) / each + SLACK), cut: Math.floor(rest / each + SLACK) };
}

const fits = must(
  'piece',
  'a piece is no longer than the bar',
  (given) => given.number('piece') <= usable(given),
  (given) =>
    `A bar of ${mm(usable(given))} gives no piece of ${mm(given.number('piece'))}: take a longer bar.`,
);

const piecesFromBar: Formula = {
  name: 'pieces_from_bar',
  family: 'stock',
  title: 'How many pieces a bar gives, with the saw cuts',
  parameters: [BAR, PIECE, KERF, TRIM],
  result: [
    { ...field('pieces', '', 'pieces where the end of the bar may be the last'), choice: true },
    {
      ...field('all_cut', '', 'pieces where each is cut off, so that a stub stays in the vice'),
      choice: true,
    },
    field('left', 'mm', 'what is left after the pieces that are all cut off'),
  ],
  compute: (given) => {
    const { most, cut } = pieces(given);
    return {
      pieces: most,
      all_cut: cut,
      left: usable(given) - cut * (given.number('piece') + given.number('kerf')),
    };
  },
  working: (given) => {
    const rest = given.has('trim') ? '(bar - trim)' : 'bar';
    return [
      {
        name: 'pieces',
        expression: `round_down((${rest} + kerf) / (piece + kerf) + ${SLACK.toFixed(9)}, 1)`,
        words: 'each piece with its cut; the last needs none, as if the bar were a cut longer',
      },
      {
        name: 'all_cut',
        expression: `round_down(${rest} / (piece + kerf) + ${SLACK.toFixed(9)}, 1)`,
        words: 'each piece with its cut',
      },
      { name: 'left', expression: `${rest} - all_cut * (piece + kerf)`, words: 'the bar less all of them' },
    ];
  },
  why:
    'Each cut turns its width into chips, and twenty cuts of 2.5 mm are a piece lost. The saw must still grip what is left, ' +
    'so the last piece counts only where it may be held by itself.',
  conditions: [...positive(BAR, PIECE), ...notNegative(KERF, TRIM), fits],
  source: 'counting; common practice',
  cautions: ['saw'],
  picture: null,
  checks: [
    {
      call: 'pieces_from_bar(600 mm, 58 mm, 3 mm)',
      expect: { pieces: 9, all_cut: 9, left: 51 },
      tolerance: 1e-9,
      source: 'sawn piece by piece in exact fractions',
    },
    {
      call: 'pieces_from_bar(915 mm, 30.5 mm, 2.5 mm, trim: 5 mm)',
      expect: { pieces: 27, all_cut: 27, left: 19 },
      tolerance: 1e-9,
      source: 'sawn piece by piece in exact fractions',
    },
    {
      call: 'pieces_from_bar(98 mm, 18 mm, 2 mm)',
      expect: { pieces: 5, all_cut: 4, left: 18 },
      tolerance: 1e-9,
      source: 'sawn piece by piece on paper: the fifth piece is what the bar ends in',
    },
  ],
};

const PIECES = list('pieces', 'mm', 'length of every piece, each as often as it is wanted');

/** A longer list is no longer read at the saw. */
const MOST_PIECES = 100;

interface Bars {
  /** Pieces, the longest first, and the bar each is cut from, counted from one. */
  readonly order: readonly number[];
  readonly from: readonly number[];
  /** What each bar has left. */
  readonly left: readonly number[];
}

/** The longest piece first, each from the first bar that still has it: seldom a bar more than the fewest. */
function share(given: Given): Bars {
  const kerf = given.number('kerf');
  const order = [...given.list('pieces')].sort((a, b) => b - a);
  const left: number[] = [];
  const from = order.map((piece) => {
    let at = left.findIndex((rest) => rest >= piece - SLACK);
    if (at < 0) at = left.push(usable(given)) - 1;
    left[at] = Math.max(0, (left[at] ?? NaN) - piece - kerf);
    return at + 1;
  });
  return { order, from, left };
}

const cutList: Formula = {
  name: 'cut_list',
  family: 'stock',
  title: 'Pieces of different lengths out of bars of one length',
  parameters: [PIECES, BAR, KERF, TRIM],
  result: [
    { ...field('bars', '', 'how many bars it takes'), choice: true },
    listed('order', 'mm', 'pieces in the order to saw, the longest first'),
    listed('from_bar', '', 'number of the bar that each is cut from'),
    listed('left', 'mm', 'what each bar has left'),
    field('waste', 'mm', 'all that is left together'),
  ],
  compute: (given) => {
    const { order, from, left } = share(given);
    const waste = left.reduce((sum, rest) => sum + rest, 0);
    return { bars: left.length, order, from_bar: from, left, waste };
  },
  working: (given) => {
    const { order, from, left } = share(given);
    const parts = (bar: number): string =>
      order.flatMap((piece, i) => (from[i] === bar + 1 ? [` - ${piece} mm - kerf`] : [])).join('');
    const start = given.has('trim') ? 'bar - trim' : 'bar';
    const rest = (bar: number): string => `max(0 mm, ${start}${parts(bar)})`;
    return [
      {
        name: 'bars',
        expression: String(left.length),
        words: 'each piece from the first bar that still has it',
      },
      {
        name: 'order',
        expression: firstItems(order.length, (i) => `${order[i]} mm`),
        words: 'the longest first',
      },
      { name: 'from_bar', expression: firstItems(from.length, (i) => String(from[i])), words: 'bar by bar' },
      {
        name: 'left',
        expression: firstItems(left.length, rest),
        words: 'the bar less its pieces and their cuts',
      },
      {
        name: 'waste',
        expression: left.map((one) => `${Number(one.toFixed(9))} mm`).join(' + '),
        words: 'what all bars have left',
      },
    ];
  },
  why:
    'Long pieces are hard to place and short ones fill gaps, so the longest are sawn first. Another way to share them out may ' +
    'save a bar now and then; look at what is left before buying one more.',
  conditions: [
    ...positive(BAR),
    ...notNegative(KERF, TRIM),
    must(
      'pieces',
      `one piece to ${MOST_PIECES}, each more than nothing`,
      (given) => {
        const all = given.list('pieces');
        return all.length >= 1 && all.length <= MOST_PIECES && all.every((piece) => piece > 0);
      },
      () => `Give from 1 to ${MOST_PIECES} pieces, each longer than nothing.`,
    ),
    must(
      'pieces',
      'no piece is longer than a bar',
      (given) => given.list('pieces').every((piece) => piece <= usable(given)),
      (given) =>
        `The longest piece is ${mm(Math.max(...given.list('pieces')))}, and a bar gives ${mm(usable(given))}: take longer bars.`,
    ),
  ],
  source: 'first fit, longest first; counting',
  cautions: ['saw'],
  picture: null,
  checks: [
    {
      call: 'cut_list([400, 250, 700, 250, 300] mm, 1000 mm, 3 mm)',
      expect: {
        bars: 2,
        order: [700, 400, 300, 250, 250],
        from_bar: [1, 2, 2, 1, 2],
        left: [44, 41],
        waste: 85,
      },
      tolerance: 1e-9,
      source: 'laid out with strips of squared paper: 700 and 250; 400, 300 and 250, three cuts of 3 mm',
    },
    {
      call: 'cut_list([600, 600, 600] mm, 1200 mm, 2 mm, trim: 10 mm)',
      expect: { bars: 3, from_bar: [1, 2, 3], left: [588, 588, 588], waste: 1764 },
      tolerance: 1e-9,
      source: 'laid out with strips of squared paper: a second 600 no longer fits into 588',
    },
  ],
};

export const SAW_FORMULAS: readonly Formula[] = [piecesFromBar, cutList];
