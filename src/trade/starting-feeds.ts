/** Where to begin with drills and reamers. Customs of the trade, not calculations. */
import { field, length, must, positive, should, shown } from './build';
import type { Formula, Given, Parameter, Refusal, Step } from './formula';
import { cardNumber, lacksOnCard, material } from './material';

export const MATERIAL = material('`hss_speed`, the speed for turning with high-speed steel');
const DRILL = length('diameter', 'diameter of the drill');
const REAMER = length('diameter', 'diameter of the reamer');

export const SOURCE = 'common practice, from memory';

const MM_PER_M = 1000;

/** Feed of a drill for each turn, as a part of its diameter: hard steel, usual, soft metals. */
const FEED_LOW = 0.01;
const FEED_USUAL = 0.015;
const FEED_HIGH = 0.02;
/** Cutting speeds, each as a part of another: drilling of turning, reaming of drilling. */
const DRILLING = 0.8;
const REAMING = 1 / 2;
/** A reamer feeds so many times what a drill does. */
const REAMING_FEED = 2;
/** Stock for a reamer, on diameter, in mm. */
const REAMING_STOCK_LOW = 0.1;
const REAMING_STOCK_HIGH = 0.3;
/** Drills in mm that the feeds hold for. */
const SMALLEST_DRILL = 3;
const LARGEST_DRILL = 25;

const turningSpeed = (given: Given): number | null => {
  const turning = cardNumber(given.card('material'), 'hss_speed', 'm/min');
  return turning !== null && turning > 0 ? turning : null;
};

export const drillingSpeed = (given: Given): number | null => {
  const turning = turningSpeed(given);
  return turning === null ? null : turning * DRILLING;
};

export const noSpeed = (given: Given): Refusal =>
  lacksOnCard(given.card('material'), 'an `hss_speed` above zero, such as `hss_speed = 22 m/min`');

export const spindle = (speed: number, diameter: number): number => (MM_PER_M * speed) / (Math.PI * diameter);

/** The speed of a drill and then the other steps; none where the card has no speed. */
export function stepsFrom(given: Given, steps: readonly Step[]): readonly Step[] {
  const turning = turningSpeed(given);
  if (turning === null) return [];
  const drilling = {
    name: 'drilling_speed',
    expression: `${DRILLING} * ${turning} m/min`,
    words: 'a drill runs at four fifths of the speed for turning',
  };
  return [drilling, ...steps];
}

export const spindleStep = (name: string, speed: string): Step => ({
  name,
  expression: `${speed} / (pi * diameter / 1 rev)`,
  words: 'as many turns as the speed holds ways round',
});

const sized = (parameter: Parameter) =>
  should(
    parameter.name,
    `the diameter is between ${SMALLEST_DRILL} mm and ${LARGEST_DRILL} mm`,
    (given) =>
      given.number(parameter.name) >= SMALLEST_DRILL && given.number(parameter.name) <= LARGEST_DRILL,
    (given) =>
      given.number(parameter.name) < SMALLEST_DRILL
        ? `These feeds are for ${SMALLEST_DRILL} mm and more: a tool of ${shown(given.number(parameter.name), 'mm')} breaks ` +
          'first. Feed by feel and withdraw often.'
        : `These feeds are for up to ${LARGEST_DRILL} mm: with ${shown(given.number(parameter.name), 'mm')} begin at the ` +
          'feed for that, and open the hole in steps.',
  );

export const CHANGES = 'Go lower for a long overhang, weak clamping or a worn machine.';

const drillingStart: Formula = {
  name: 'drilling_start',
  family: 'cutting',
  title: 'Feed and speed to begin drilling with',
  parameters: [DRILL, MATERIAL],
  result: [
    field('feed', 'mm/rev', 'usual feed for each turn'),
    field('feed_low', 'mm/rev', 'feed for tough steel and deep holes'),
    field('feed_high', 'mm/rev', 'feed for brass, aluminium and cast iron'),
    field('cutting_speed', 'm/min', 'speed at the outside of an HSS drill'),
    field('spindle_speed', 'rpm', 'turns of the spindle for that'),
  ],
  compute: (given) => {
    const [diameter, speed] = [given.number('diameter'), drillingSpeed(given)];
    if (speed === null) return noSpeed(given);
    return {
      feed: FEED_USUAL * diameter,
      feed_low: FEED_LOW * diameter,
      feed_high: FEED_HIGH * diameter,
      cutting_speed: speed,
      spindle_speed: spindle(speed, diameter),
    };
  },
  working: (given) =>
    stepsFrom(given, [
      { name: 'feed', expression: `${FEED_USUAL} * diameter / 1 rev`, words: 'a usual part of the diameter' },
      {
        name: 'feed_low',
        expression: `${FEED_LOW} * diameter / 1 rev`,
        words: 'a hundredth of the diameter',
      },
      {
        name: 'feed_high',
        expression: `${FEED_HIGH} * diameter / 1 rev`,
        words: 'a fiftieth of the diameter',
      },
      { name: 'cutting_speed', expression: 'drilling_speed', words: 'at the outside of the drill' },
      spindleStep('spindle_speed', 'cutting_speed'),
    ]),
  why:
    'A larger drill is stiffer and takes a thicker chip, so its feed grows with its diameter. The chip is shut in the ' +
    `hole and coolant hardly reaches the edge, so the speed is lower than in turning. ${CHANGES}`,
  conditions: [...positive(DRILL), sized(DRILL)],
  source: SOURCE,
  cautions: ['speeds', 'drilling'],
  picture: null,
  checks: [
    {
      call: 'drilling_start(10 mm, steel_C45)',
      expect: {
        feed: 0.15,
        feed_low: 0.1,
        feed_high: 0.2,
        cutting_speed: 17.6,
        spindle_speed: 560.225399674,
      },
      tolerance: 1e-6,
      source: 'common practice, from memory; worked with a units library',
    },
    {
      call: 'drilling_start(6 mm, aluminium_6082)',
      expect: { feed: 0.09, cutting_speed: 72, spindle_speed: 3819.71863421 },
      tolerance: 1e-6,
      source: 'common practice, from memory; worked with a units library',
    },
  ],
};

const reamingStart: Formula = {
  name: 'reaming_start',
  family: 'cutting',
  title: 'Hole, feed and speed to begin reaming with',
  parameters: [REAMER, MATERIAL],
  result: [
    field('hole_low', 'mm', 'smallest hole to ream from'),
    field('hole_high', 'mm', 'largest hole to ream from'),
    field('feed', 'mm/rev', 'usual feed for each turn: twice that of a drill'),
    field('feed_low', 'mm/rev', 'feed for tough steel and a fine finish'),
    field('feed_high', 'mm/rev', 'feed for brass, aluminium and cast iron'),
    field('cutting_speed', 'm/min', 'speed at the outside of an HSS reamer: half that of a drill'),
    field('spindle_speed', 'rpm', 'turns of the spindle for that'),
  ],
  compute: (given) => {
    const [diameter, drilling] = [given.number('diameter'), drillingSpeed(given)];
    if (drilling === null) return noSpeed(given);
    const speed = drilling * REAMING;
    return {
      hole_low: diameter - REAMING_STOCK_HIGH,
      hole_high: diameter - REAMING_STOCK_LOW,
      feed: REAMING_FEED * FEED_USUAL * diameter,
      feed_low: REAMING_FEED * FEED_LOW * diameter,
      feed_high: REAMING_FEED * FEED_HIGH * diameter,
      cutting_speed: speed,
      spindle_speed: spindle(speed, diameter),
    };
  },
  working: (given) =>
    stepsFrom(given, [
      { name: 'hole_low', expression: `diameter - ${REAMING_STOCK_HIGH} mm`, words: 'with the most stock' },
      { name: 'hole_high', expression: `diameter - ${REAMING_STOCK_LOW} mm`, words: 'with the least stock' },
      {
        name: 'feed',
        expression: `${REAMING_FEED} * ${FEED_USUAL} * diameter / 1 rev`,
        words: 'twice the usual feed of a drill',
      },
      {
        name: 'feed_low',
        expression: `${REAMING_FEED} * ${FEED_LOW} * diameter / 1 rev`,
        words: 'twice its lowest',
      },
      {
        name: 'feed_high',
        expression: `${REAMING_FEED} * ${FEED_HIGH} * diameter / 1 rev`,
        words: 'twice its highest',
      },
      {
        name: 'cutting_speed',
        expression: `${REAMING} * drilling_speed`,
        words: 'half the speed of a drill',
      },
      spindleStep('spindle_speed', 'cutting_speed'),
    ]),
  why:
    'A reamer has many edges that each take a thin chip, so it may feed faster, but must turn slowly or it chatters and ' +
    'cuts large. Too little stock lets it rub and glaze, too much makes it cut like a bad drill. Never turn it ' +
    `backwards: the chips then dull its edges. ${CHANGES}`,
  conditions: [
    ...positive(REAMER),
    must(
      'diameter',
      'the reamer is larger than the stock it takes',
      (given) => given.number('diameter') > REAMING_STOCK_HIGH,
      (given) =>
        `A reamer of ${shown(given.number('diameter'), 'mm')} leaves no hole to ream from: give one of more than ` +
        `${REAMING_STOCK_HIGH} mm.`,
    ),
    sized(REAMER),
  ],
  source: SOURCE,
  cautions: ['speeds', 'drilling'],
  picture: null,
  checks: [
    {
      call: 'reaming_start(12 mm, steel_C45)',
      expect: {
        hole_low: 11.7,
        hole_high: 11.9,
        feed: 0.36,
        feed_low: 0.24,
        feed_high: 0.48,
        cutting_speed: 8.8,
        spindle_speed: 233.427249864,
      },
      tolerance: 1e-6,
      source: 'common practice, from memory; worked with a units library',
    },
    {
      call: 'reaming_start(8 mm, brass_CuZn39Pb3)',
      expect: { hole_low: 7.7, feed: 0.24, cutting_speed: 24, spindle_speed: 954.929658551 },
      tolerance: 1e-6,
      source: 'common practice, from memory; worked with a units library',
    },
  ],
};

export const STARTING_FORMULAS: readonly Formula[] = [drillingStart, reamingStart];
