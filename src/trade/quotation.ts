/** The quotation: what a job costs and what is asked for it, as lines of quantity, rate and amount. */
import { field, firstItems, listed, notNegative, optional, quantity, shown } from './build';
import type { Formula, Given, Step } from './formula';
import { QUANTITY, WHOLE, belowWhole } from './price';

const SETUP_COST = quantity('setup_cost', '¤', 'cost of all set-ups, once for the job');
const PIECE_COST = quantity('piece_cost', '¤', 'cost of the work on each piece');
const MATERIAL = quantity('material', '¤', 'cost of the material of each piece');
const OTHER = optional(
  quantity('other', '¤', 'bought in once for the job: heat treatment, a cutter, freight'),
);
const MARKUP = quantity('percent', '%', 'what is to be earned, as a markup and as a margin');

const costOf = (given: Given, pieces: number): number =>
  given.number('setup_cost') +
  given.numberOr('other', 0) +
  pieces * (given.number('piece_cost') + given.number('material'));

interface Line {
  readonly item: string;
  readonly quantity: number;
  readonly rate: number;
  /** Quantity and rate in the notation. */
  readonly texts: readonly [quantity: string, rate: string];
}

/**
 * What is paid, the cost it comes to, and the price by markup and by margin: for the lot, and for one piece alone. Each
 * line is a quantity at a rate.
 */
function linesOf(given: Given): readonly Line[] {
  const [pieces, percent] = [given.number('pieces'), `${shown(given.number('percent'), '')}%`];
  const share = given.number('percent') / WHOLE;
  const [cost, one] = [costOf(given, pieces), costOf(given, 1)];
  const once = (item: string, rate: number, text: string): Line => ({
    item,
    quantity: 1,
    rate,
    texts: ['1', text],
  });
  const each = (item: string, rate: number, text: string): Line => ({
    item,
    quantity: pieces,
    rate,
    texts: ['pieces', text],
  });
  return [
    once('set-ups', given.number('setup_cost'), 'setup_cost'),
    ...(given.has('other') ? [once('bought in', given.number('other'), 'other')] : []),
    each('work', given.number('piece_cost'), 'piece_cost'),
    each('material', given.number('material'), 'material'),
    once('cost of the job', cost, 'cost'),
    each(`by ${percent} markup`, (cost * (1 + share)) / pieces, 'each_by_markup'),
    each(`by ${percent} margin`, cost / (1 - share) / pieces, 'each_by_margin'),
    once(`one by ${percent} markup`, one * (1 + share), 'one_off_by_markup'),
    once(`one by ${percent} margin`, one / (1 - share), 'one_off_by_margin'),
  ];
}

function tableSteps(lines: readonly Line[]): readonly Step[] {
  const list = (item: (line: Line) => string): string =>
    firstItems(lines.length, (i) => {
      const line = lines[i];
      return line ? item(line) : '';
    });
  return [
    { name: 'quantities', expression: list(({ texts }) => texts[0]), words: 'once, or as many as pieces' },
    { name: 'rates', expression: list(({ texts }) => texts[1]), words: 'what one of them is' },
    {
      name: 'amounts',
      expression: list(({ texts: [count, rate] }) => `${count} * ${rate}`),
      words: 'the quantity at the rate',
    },
  ];
}

const quotation: Formula = {
  name: 'quotation',
  family: 'price',
  title: 'A quotation: costs, prices by markup and by margin, for the lot and for one',
  parameters: [QUANTITY, SETUP_COST, PIECE_COST, MATERIAL, MARKUP, OTHER],
  result: [
    field('once', '¤', 'what is paid once for the job'),
    field('for_pieces', '¤', 'work and material of all pieces'),
    field('cost', '¤', 'cost of the job'),
    field('by_markup', '¤', 'price of the job with the percentage on top of the cost'),
    field('by_margin', '¤', 'price of the job of which the percentage is left over'),
    field('each_by_markup', '¤', 'for each piece, by markup'),
    field('each_by_margin', '¤', 'for each piece, by margin'),
    field('one_off_by_markup', '¤', 'if there were only one, by markup'),
    field('one_off_by_margin', '¤', 'if there were only one, by margin'),
    { ...field('items', '', 'what is paid, and what is asked for it'), words: true, perItem: true },
    listed('quantities', '', 'how many'),
    listed('rates', '¤', 'for each of them'),
    listed('amounts', '¤', 'for all of them'),
  ],
  compute: (given) => {
    const [pieces, share] = [given.number('pieces'), given.number('percent') / WHOLE];
    const [cost, one] = [costOf(given, pieces), costOf(given, 1)];
    const lines = linesOf(given);
    return {
      once: costOf(given, 0),
      for_pieces: cost - costOf(given, 0),
      cost,
      by_markup: cost * (1 + share),
      by_margin: cost / (1 - share),
      each_by_markup: (cost * (1 + share)) / pieces,
      each_by_margin: cost / (1 - share) / pieces,
      one_off_by_markup: one * (1 + share),
      one_off_by_margin: one / (1 - share),
      items: lines.map(({ item }) => item).join(', '),
      quantities: lines.map((line) => line.quantity),
      rates: lines.map(({ rate }) => rate),
      amounts: lines.map((line) => line.quantity * line.rate),
    };
  },
  working: (given) => [
    {
      name: 'once',
      expression: `setup_cost${given.has('other') ? ' + other' : ''}`,
      words: 'paid once for the job',
    },
    { name: 'for_pieces', expression: 'pieces * (piece_cost + material)', words: 'paid for each piece' },
    { name: 'cost', expression: 'once + for_pieces', words: 'both together' },
    { name: 'by_markup', expression: 'cost * (100% + percent)', words: 'the percentage of the cost on top' },
    {
      name: 'by_margin',
      expression: 'cost / (100% - percent)',
      words: 'the cost is what the percentage leaves of the price',
    },
    { name: 'each_by_markup', expression: 'by_markup / pieces', words: 'shared out' },
    { name: 'each_by_margin', expression: 'by_margin / pieces', words: 'shared out' },
    {
      name: 'one_off_by_markup',
      expression: '(once + piece_cost + material) * (100% + percent)',
      words: 'one piece carries it alone',
    },
    {
      name: 'one_off_by_margin',
      expression: '(once + piece_cost + material) / (100% - percent)',
      words: 'one piece carries it alone',
    },
    ...tableSteps(linesOf(given)),
  ],
  why:
    'What is paid once is shared by the pieces, so the price of each falls with their number: show the customer the price of ' +
    'one beside the price of several. Markup and margin are two things; choose one, and name it.',
  conditions: [...notNegative(SETUP_COST, PIECE_COST, MATERIAL, MARKUP, OTHER), belowWhole],
  source: 'arithmetic; definition of markup and margin, common practice of accounts',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'quotation(4, 90 AUD, 45 AUD, 12.5 AUD, 35%, other: 30 AUD)',
      expect: {
        once: 120,
        for_pieces: 230,
        cost: 350,
        by_markup: 472.5,
        by_margin: 538.461538462,
        each_by_markup: 118.125,
        each_by_margin: 134.615384615,
        one_off_by_markup: 239.625,
        one_off_by_margin: 273.076923077,
        items:
          'set-ups, bought in, work, material, cost of the job, by 35% markup, by 35% margin, one by 35% markup, one by 35% margin',
        quantities: [1, 1, 4, 4, 1, 4, 4, 1, 1],
        rates: [90, 30, 45, 12.5, 350, 118.125, 134.615384615, 239.625, 273.076923077],
        amounts: [90, 30, 180, 50, 350, 472.5, 538.461538462, 239.625, 273.076923077],
      },
      tolerance: 1e-8,
      source: 'exact fractions on paper: 350 by 27/20 and 20/13; 177.50 by the same',
    },
    {
      call: 'quotation(1, 60 EUR, 30 EUR, 10 EUR, 20%)',
      expect: {
        cost: 100,
        by_markup: 120,
        by_margin: 125,
        each_by_margin: 125,
        one_off_by_markup: 120,
        rates: [60, 30, 10, 100, 120, 125, 120, 125],
      },
      tolerance: 1e-9,
      source: 'on paper: a fifth of 100 on top; 100 is four fifths of 125',
    },
    {
      call: 'quotation(1, 60 AUD, 30 AUD, 10 AUD, 35%)',
      expect: {
        by_markup: 135,
        by_margin: 153.846153846,
        amounts: [60, 30, 10, 100, 135, 153.846153846, 135, 153.846153846],
      },
      tolerance: 1e-8,
      source: 'exact fractions on paper: 100 by 27/20 and by 20/13',
    },
  ],
};

export const QUOTATION_FORMULAS: readonly Formula[] = [quotation];
