/** Time and price: what operations take, what they cost, and how markup and margin differ. */
import { count, field, missingSign, must, notNegative, positive, quantity, shown, single } from './build';
import type { Condition, Formula, Given } from './formula';

export const QUANTITY = count('pieces', 'how many pieces');
const SETUP = quantity('setup', 'min', 'time to set up, once for all pieces');
const CUTTING = quantity('cutting', 'min', 'time under the tool for each piece');
const HANDLING = quantity('handling', 'min', 'time to load, measure and unload each piece');

const operationTime: Formula = {
  name: 'operation_time',
  family: 'price',
  title: 'Time of an operation, for the lot and for each piece',
  parameters: [QUANTITY, SETUP, CUTTING, HANDLING],
  result: [
    field('total', 'h', 'time for all pieces with the set-up'),
    field('each', 'min', 'time for each piece with its share of the set-up'),
    field('one_off', 'min', 'time if there were only one'),
    field('under_tool', 'h', 'of the total, the machine cuts'),
  ],
  compute: (given) => {
    const [pieces, setup] = [given.number('pieces'), given.number('setup')];
    const [cutting, piece] = [given.number('cutting'), given.number('cutting') + given.number('handling')];
    return {
      total: (setup + pieces * piece) / MINUTES,
      each: setup / pieces + piece,
      one_off: setup + piece,
      under_tool: (pieces * cutting) / MINUTES,
    };
  },
  working: () => [
    {
      name: 'total',
      expression: 'setup + pieces * (cutting + handling)',
      words: 'the set-up once, the rest for each piece',
    },
    { name: 'each', expression: 'total / pieces', words: 'shared out' },
    {
      name: 'one_off',
      expression: 'setup + cutting + handling',
      words: 'a single piece carries the set-up alone',
    },
    { name: 'under_tool', expression: 'pieces * cutting', words: 'the cutting alone' },
  ],
  why:
    'In a small shop the set-up is often longer than the cutting, which is why one piece costs so much and ten cost so little ' +
    'more. Write down what it really took: the next quotation starts from that.',
  conditions: notNegative(SETUP, CUTTING, HANDLING),
  source: 'arithmetic; common practice',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'operation_time(10, 45 min, 6 min, 1.5 min)',
      expect: { total: 2, each: 12, one_off: 52.5, under_tool: 1 },
      tolerance: 1e-9,
      source: 'added up on paper: 45 and ten times 7.5 are 120 minutes',
    },
    {
      call: 'operation_time(1, 90 min, 40 min, 20 min)',
      expect: { total: 2.5, each: 150, one_off: 150, under_tool: 0.666666667 },
      tolerance: 1e-8,
      source: 'added up on paper',
    },
  ],
};

const MINUTES = 60;

const TIME = quantity('time', 'h', 'time on the machine');
const RATE = quantity('rate', '¤/h', "what an hour costs: a machine card's `rate`, as in `lathe.rate`");

const operationCost: Formula = {
  name: 'operation_cost',
  family: 'price',
  title: 'What a time on a machine costs',
  parameters: [TIME, RATE],
  result: [single('¤', 'cost of the time')],
  compute: (given) => given.number('time') * given.number('rate'),
  working: () => [{ name: '', expression: 'time * rate', words: 'the hours, each at the rate' }],
  why:
    'The rate of a machine holds its share of rent, power, tools and the hand that runs it. Kept on the card, all jobs use ' +
    'the same one, and a change of it shows in every open quotation.',
  conditions: notNegative(TIME, RATE),
  source: 'arithmetic; common practice',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'operation_cost(2.5 h, 62 AUD/h)',
      expect: { '': 155 },
      tolerance: 1e-9,
      source: 'multiplied on paper',
    },
    {
      call: 'operation_cost(0.5 h, 54 EUR/h)',
      expect: { '': 27 },
      tolerance: 1e-9,
      source: 'half of 54, on paper',
    },
  ],
};

const COST = quantity('cost', '¤', 'what it costs the shop');
const PERCENT = quantity('percent', '%', 'what is to be earned on it');

export const WHOLE = 100;

/** A margin is a part of the price, and can never be all of it. */
export const belowWhole: Condition = must(
  'percent',
  'the percentage is below 100 %, since a margin is a part of the price',
  (given) => given.number('percent') < WHOLE,
  (given) =>
    `A margin of ${shown(given.number('percent'), '%')} leaves no price that holds its cost: give one below 100 %, or work out ` +
    `a markup of that by hand: \`cost * ${shown(1 + given.number('percent') / WHOLE, '')}\`.${missingSign(given.number('percent'))}`,
);

const byMarkup = (given: Given): number => given.number('cost') * (1 + given.number('percent') / WHOLE);
const byMargin = (given: Given): number => given.number('cost') / (1 - given.number('percent') / WHOLE);

const markupAndMargin: Formula = {
  name: 'markup_and_margin',
  family: 'price',
  title: 'Price by markup and by margin, side by side',
  parameters: [COST, PERCENT],
  result: [
    field('by_markup', '¤', 'price with the percentage of the cost put on top'),
    field('by_margin', '¤', 'price of which the percentage is left over'),
    field('margin_of_markup', '%', 'margin that the price by markup has'),
    field('markup_of_margin', '%', 'markup that the price by margin has'),
  ],
  compute: (given) => {
    const share = given.number('percent') / WHOLE;
    return {
      by_markup: byMarkup(given),
      by_margin: byMargin(given),
      margin_of_markup: (share / (1 + share)) * WHOLE,
      markup_of_margin: (share / (1 - share)) * WHOLE,
    };
  },
  working: () => [
    {
      name: 'by_markup',
      expression: 'cost * (100% + percent)',
      words: 'the cost, and the percentage of the cost',
    },
    {
      name: 'by_margin',
      expression: 'cost / (100% - percent)',
      words: 'the cost is what the percentage leaves of the price',
    },
    {
      name: 'margin_of_markup',
      expression: 'percent / (100% + percent)',
      words: 'what was put on top, as a part of that price',
    },
    {
      name: 'markup_of_margin',
      expression: 'percent / (100% - percent)',
      words: 'what is left over, as a part of the cost',
    },
  ],
  why:
    'A markup counts from the cost, a margin from the price, and the same percentage is far less as a markup. Whoever means ' +
    'a margin and puts on a markup gives the difference away on every job.',
  conditions: [...notNegative(COST, PERCENT), belowWhole],
  source: 'definition of markup and margin, common practice of accounts',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'markup_and_margin(100 AUD, 35%)',
      expect: {
        by_markup: 135,
        by_margin: 153.846153846,
        margin_of_markup: 25.9259259259,
        markup_of_margin: 53.8461538462,
      },
      tolerance: 1e-8,
      source: 'exact fractions: 100 by 27/20 and by 20/13; 7/27 and 7/13',
    },
    {
      call: 'markup_and_margin(80 EUR, 20%)',
      expect: { by_markup: 96, by_margin: 100, margin_of_markup: 16.6666666667, markup_of_margin: 25 },
      tolerance: 1e-8,
      source: 'on paper: a fifth of 80 on top; 80 is four fifths of 100',
    },
  ],
};

const TURNS = quantity('turns', 'rev', 'turns of the crank for a piece');
const CRANK_SPEED = quantity('crank_speed', 'rev/min', 'turns of the crank in a minute, all day long');

const crankTime: Formula = {
  name: 'crank_time',
  family: 'price',
  title: 'Time spent turning a crank',
  parameters: [TURNS, CRANK_SPEED],
  result: [single('min', 'time at the crank')],
  compute: (given) => given.number('turns') / given.number('crank_speed'),
  working: () => [{ name: '', expression: 'turns / crank_speed', words: 'all turns, so many in a minute' }],
  why:
    'A ball or a gear is cranked by hand through a dividing head, forty turns for one of the work, and pass by pass. Nobody ' +
    'cranks as fast in the third hour as in the first minute: price by what is kept up.',
  conditions: positive(TURNS, CRANK_SPEED),
  source: 'arithmetic; common practice',
  cautions: ['crank'],
  picture: null,
  checks: [
    {
      call: 'crank_time(240 rev, 20 rev/min)',
      expect: { '': 12 },
      tolerance: 1e-9,
      source: 'six turns of a 40:1 head, on paper',
    },
    {
      call: 'crank_time(90 rev, 15 rev/min)',
      expect: { '': 6 },
      tolerance: 1e-9,
      source: 'on paper, six times fifteen',
    },
  ],
};

export const PRICE_FORMULAS: readonly Formula[] = [operationTime, crankTime, operationCost, markupAndMargin];
