/** How much metal a cut takes away in a minute, and in how many passes. */
import { field, length, must, positive, quantity, shown, single } from './build';
import type { Formula } from './formula';
import { SPINDLE_SPEED } from './speeds';

const CUTTING_SPEED = quantity('cutting_speed', 'm/min', 'speed of the cut at the outside of the work');
const FEED_PER_REV = quantity('feed_per_rev', 'mm/rev', 'feed for each turn of the spindle');
const FEED_RATE = quantity('feed_rate', 'mm/min', 'feed of the table for each minute');
const DEPTH = length('depth_of_cut', 'depth of cut, on the radius');
const AXIAL_DEPTH = length('depth_of_cut', 'depth of cut along the axis of the cutter');
const WIDTH = length('width_of_cut', 'width of cut square to the axis and to the feed');
const WORK = length('diameter', 'diameter of the work before the cut');
const DRILL = length('diameter', 'diameter of the drill');
const STOCK = length('stock', 'stock to take off, measured as the depth of cut is: on the radius in turning');
const DEEPEST = length('depth_of_cut', 'deepest cut of one pass');

const MM3_PER_CM3 = 1000;

/** A pass that rounding alone asks for is none. */
const ROUNDING = 1e-9;

const turningRemoval: Formula = {
  name: 'turning_removal',
  family: 'cutting',
  title: 'Metal removed in a minute of turning',
  parameters: [CUTTING_SPEED, DEPTH, FEED_PER_REV, WORK],
  result: [
    field('rate', 'cm^3/min', 'metal removed in a minute, taken at the middle of the depth'),
    field('usual_rate', 'cm^3/min', 'the usual figure, taken at the outside: too large by the share below'),
    field('excess', '%', 'what the usual figure has too much, as a part of itself'),
  ],
  compute: (given) => {
    // m/min times mm times mm is cm³/min: a thousand either way.
    const usual = given.number('cutting_speed') * given.number('depth_of_cut') * given.number('feed_per_rev');
    const excess = given.number('depth_of_cut') / given.number('diameter');
    return { rate: usual * (1 - excess), usual_rate: usual, excess: 100 * excess };
  },
  working: () => [
    {
      name: 'usual_rate',
      expression: 'cutting_speed * depth_of_cut * feed_per_rev * 1 rev',
      words: 'the area of the chip times the speed at the outside',
    },
    {
      name: 'rate',
      expression: 'usual_rate * (diameter - depth_of_cut) / diameter',
      words: 'the same at the middle of the depth, on a circle that is smaller by one depth',
    },
    {
      name: 'excess',
      expression: 'depth_of_cut / diameter',
      words: 'the part by which that circle is smaller',
    },
  ],
  why:
    'The work is a ring of metal that shrinks: its outside passes the edge faster than its inside, and the mean is at ' +
    'the middle of the depth. The usual product forgets that; on large work it does not matter, on slender work it does.',
  conditions: [
    ...positive(CUTTING_SPEED, DEPTH, FEED_PER_REV, WORK),
    must(
      'depth_of_cut',
      'the depth of cut does not go past the centre',
      (given) => given.number('depth_of_cut') <= given.number('diameter') / 2,
      (given) =>
        `The work is cut away at a depth of ${shown(given.number('diameter') / 2, 'mm')}: give no more than that; the depth ` +
        'is on the radius.',
    ),
  ],
  source: 'volume of a ring; the usual product as in handbooks',
  cautions: ['speeds', 'swarf'],
  picture: null,
  checks: [
    {
      call: 'turning_removal(90 m/min, 2 mm, 0.2 mm/rev, 25 mm)',
      expect: { rate: 33.12, usual_rate: 36, excess: 8 },
      tolerance: 1e-9,
      source: 'ring of 25 mm outside and 21 mm inside, 0.2 mm long, times 1145.91559 turns, worked by hand',
    },
    {
      call: 'turning_removal(27 m/min, 1.5 mm, 0.15 mm/rev, 22 mm)',
      expect: { rate: 5.66079545454, usual_rate: 6.075 },
      tolerance: 1e-9,
      source:
        'ring of 22 mm outside and 19 mm inside, 0.15 mm long, times the turns in a minute, worked by hand',
    },
  ],
};

const millingRemoval: Formula = {
  name: 'milling_removal',
  family: 'cutting',
  title: 'Metal removed in a minute of milling',
  parameters: [WIDTH, AXIAL_DEPTH, FEED_RATE],
  result: [single('cm^3/min', 'metal removed in a minute')],
  compute: (given) =>
    (given.number('width_of_cut') * given.number('depth_of_cut') * given.number('feed_rate')) / MM3_PER_CM3,
  working: () => [
    {
      name: '',
      expression: 'width_of_cut * depth_of_cut * feed_rate',
      words: 'the cross-section of the cut, pushed on by the feed',
    },
  ],
  why:
    'The table pushes the cross-section of the cut through the cutter. Power follows this figure closely, so it tells ' +
    'whether a wide shallow cut and a narrow deep one ask the same of the motor.',
  conditions: positive(WIDTH, AXIAL_DEPTH, FEED_RATE),
  source: 'volume of the slot cut in a minute; handbooks',
  cautions: ['speeds', 'swarf'],
  picture: null,
  checks: [
    {
      call: 'milling_removal(12 mm, 2 mm, 150 mm/min)',
      expect: { '': 3.6 },
      tolerance: 1e-9,
      source: 'worked with a units library',
    },
    {
      call: 'milling_removal(40 mm, 1.5 mm, 90 mm/min)',
      expect: { '': 5.4 },
      tolerance: 1e-9,
      source: 'worked with a units library',
    },
  ],
};

const drillingRemoval: Formula = {
  name: 'drilling_removal',
  family: 'cutting',
  title: 'Metal removed in a minute of drilling',
  parameters: [DRILL, FEED_PER_REV, SPINDLE_SPEED],
  result: [single('cm^3/min', 'metal removed in a minute')],
  compute: (given) =>
    ((Math.PI * given.number('diameter') ** 2) / 4) *
    ((given.number('feed_per_rev') * given.number('spindle_speed')) / MM3_PER_CM3),
  working: () => [
    { name: 'area', expression: 'pi * diameter^2 / 4', words: 'the area of the hole' },
    {
      name: '',
      expression: 'area * feed_per_rev * spindle_speed',
      words: 'times the depth gained in a minute',
    },
  ],
  why:
    'Twice the drill at the same feed and speed takes out four times the metal: that is why large holes are opened in ' +
    'steps. In solid metal all of it must come up the flutes.',
  conditions: positive(DRILL, FEED_PER_REV, SPINDLE_SPEED),
  source: 'volume of the hole drilled in a minute; handbooks',
  cautions: ['speeds', 'drilling', 'swarf'],
  picture: null,
  checks: [
    {
      call: 'drilling_removal(10 mm, 0.15 mm/rev, 800 rpm)',
      expect: { '': 9.42477796077 },
      tolerance: 1e-9,
      source: 'worked with a units library',
    },
    {
      call: 'drilling_removal(6.8 mm, 0.1 mm/rev, 1200 rpm)',
      expect: { '': 4.35801732906 },
      tolerance: 1e-9,
      source: 'worked with a units library',
    },
  ],
};

const cuttingPasses: Formula = {
  name: 'cutting_passes',
  family: 'cutting',
  title: 'Passes for a stock',
  parameters: [STOCK, DEEPEST],
  result: [
    { ...field('passes', '', 'number of passes, none deeper than asked'), choice: true },
    field('even_depth', 'mm', 'depth of each pass when all are alike'),
    field('last_depth', 'mm', 'what is left for the last pass when the others are as deep as asked'),
  ],
  compute: (given) => {
    const [stock, depth] = [given.number('stock'), given.number('depth_of_cut')];
    const passes = Math.ceil((stock / depth) * (1 - ROUNDING));
    return { passes, even_depth: stock / passes, last_depth: stock - (passes - 1) * depth };
  },
  working: () => [
    {
      name: 'passes',
      expression: 'round_up(stock / depth_of_cut, 1)',
      words: 'as many as the stock holds depths, begun ones counted',
    },
    { name: 'even_depth', expression: 'stock / passes', words: 'the stock shared out evenly' },
    {
      name: 'last_depth',
      expression: 'stock - (passes - 1) * depth_of_cut',
      words: 'what the full passes leave',
    },
  ],
  why:
    'Even passes bend work and tool alike, so the size follows the dial; a thin last pass after full ones comes out ' +
    'too large by the spring that the full ones left, and may only rub. Leave a finishing pass apart from these and measure before it.',
  conditions: positive(STOCK, DEEPEST),
  source: 'common practice',
  cautions: ['speeds', 'measuring'],
  picture: null,
  checks: [
    {
      call: 'cutting_passes(3 mm, 0.8 mm)',
      expect: { passes: 4, even_depth: 0.75, last_depth: 0.6 },
      tolerance: 1e-9,
      source: 'counted by hand: 0.8, 1.6, 2.4, 3.0 mm',
    },
    {
      call: 'cutting_passes(3 mm, 0.3 mm)',
      expect: { passes: 10, even_depth: 0.3, last_depth: 0.3 },
      tolerance: 1e-9,
      source: 'counted by hand: ten times 0.3 mm, with nothing over',
    },
  ],
};

export const REMOVAL_FORMULAS: readonly Formula[] = [
  turningRemoval,
  millingRemoval,
  drillingRemoval,
  cuttingPasses,
];
