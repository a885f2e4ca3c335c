/** Spindle speeds: from a cutting speed, back to one, and to a step the machine has. */
import { TURN_RATE } from '../quantity/dimension';
import type { CardView, List, Quantity, Text } from '../quantity/value';
import { length, positive, quantity, should, shown, single } from './build';
import type { Formula, Given, Refusal } from './formula';

const CUTTING_SPEED = quantity('cutting_speed', 'm/min', 'speed of the cut past the edge');
const DIAMETER = length(
  'diameter',
  'diameter being cut: the work on the lathe, the cutter or the ring on the mill',
);
export const SPINDLE_SPEED = quantity('spindle_speed', 'rpm', 'turns of the spindle per minute');

const MM_PER_M = 1000;

const spindleSpeed: Formula = {
  name: 'spindle_speed',
  family: 'cutting',
  title: 'Spindle speed for a cutting speed',
  parameters: [CUTTING_SPEED, DIAMETER],
  result: [single('rpm', 'turns of the spindle per minute')],
  compute: (given) => (MM_PER_M * given.number('cutting_speed')) / (Math.PI * given.number('diameter')),
  working: () => [
    {
      name: 'path_per_turn',
      expression: 'pi * diameter / 1 rev',
      words: 'in one turn the cut runs once round the diameter',
    },
    {
      name: '',
      expression: 'cutting_speed / path_per_turn',
      words: 'as many turns as the cutting speed holds paths',
    },
  ],
  why:
    'Tool life depends on how fast the metal passes the edge, not on the turns. A large diameter passes more metal in ' +
    'a turn and must turn slower. For a ring cutter the diameter is that of the ring.',
  conditions: positive(CUTTING_SPEED, DIAMETER),
  source: 'ISO 3002: cutting speed as path per time',
  cautions: ['speeds', 'general'],
  picture: null,
  checks: [
    {
      call: 'spindle_speed(90 m/min, 25 mm)',
      expect: { '': 1145.91559026 },
      tolerance: 1e-6,
      source: 'worked with a units library',
    },
    {
      call: 'spindle_speed(90 ft/min, 1 in)',
      expect: { '': 343.774677078 },
      tolerance: 1e-6,
      source: 'worked with a units library',
    },
  ],
};

const cuttingSpeed: Formula = {
  name: 'cutting_speed',
  family: 'cutting',
  title: 'Cutting speed at a spindle speed',
  parameters: [SPINDLE_SPEED, DIAMETER],
  result: [single('m/min', 'speed of the cut past the edge')],
  compute: (given) => (Math.PI * given.number('diameter') * given.number('spindle_speed')) / MM_PER_M,
  working: () => [
    {
      name: 'path_per_turn',
      expression: 'pi * diameter / 1 rev',
      words: 'in one turn the cut runs once round the diameter',
    },
    { name: '', expression: 'path_per_turn * spindle_speed', words: 'that many times in a minute' },
  ],
  why:
    'The geared head seldom has the speed worked out, so look back at what the step chosen does to the edge. On a ' +
    'facing cut the cutting speed falls to nothing at the centre.',
  conditions: positive(SPINDLE_SPEED, DIAMETER),
  source: 'ISO 3002: cutting speed as path per time',
  cautions: ['speeds', 'general'],
  picture: null,
  checks: [
    {
      call: 'cutting_speed(45 rpm, 100 mm)',
      expect: { '': 14.1371669412 },
      tolerance: 1e-6,
      source: 'worked with a units library',
    },
    {
      call: 'cutting_speed(2000 rpm, 12 mm)',
      expect: { '': 75.3982236862 },
      tolerance: 1e-6,
      source: 'worked with a units library',
    },
  ],
};

/** What a machine can turn at, in rpm: steps in rising order, or a range with either end open. */
type Speeds = { readonly steps: readonly number[] } | { readonly low: number; readonly high: number };

type CardField = Quantity | List | Text | undefined;

const isSpeed = (value: CardField): value is Quantity =>
  value?.kind === 'number' && value.dimension === TURN_RATE;

function speedsOf(card: CardView): Speeds | null {
  const listed = card.fields.get('speeds');
  if (listed?.kind === 'list' && listed.items.length !== 0 && listed.items.every(isSpeed))
    return { steps: listed.items.map((item) => item.value).sort((a, b) => a - b) };
  const [low, high] = [card.fields.get('min_speed'), card.fields.get('max_speed')];
  if (!isSpeed(low) && !isSpeed(high)) return null;
  return { low: isSpeed(low) ? low.value : 0, high: isSpeed(high) ? high.value : Infinity };
}

/** A speed short of a step by less than rounding in a long calculation still counts as that step. */
const ROUNDING = 1e-9;

function stepBelow(speed: number, speeds: Speeds): number {
  if (!('steps' in speeds)) return Math.min(Math.max(speed, speeds.low), speeds.high);
  const [lowest = speed] = speeds.steps;
  return speeds.steps.reduce((best, step) => (step * (1 - ROUNDING) <= speed ? step : best), lowest);
}

function stepWorking(given: Given, speeds: Speeds): { expression: string; words: string } {
  if ('steps' in speeds)
    return {
      expression: `${stepBelow(given.number('spindle_speed'), speeds)} rpm`,
      words: `the next at or below, of ${speeds.steps.join(', ')} rpm`,
    };
  const low = `max(spindle_speed, ${speeds.low} rpm)`;
  return {
    expression: speeds.high === Infinity ? low : `min(${low}, ${speeds.high} rpm)`,
    words: 'the wanted speed, kept within what the machine turns',
  };
}

/** The slowest the machine turns, and the fastest of a variable drive; open where the card does not say. */
function ends(given: Given): { low: number; high: number } {
  const speeds = speedsOf(given.card('machine')) ?? { low: 0, high: Infinity };
  return 'steps' in speeds ? { low: Math.min(...speeds.steps), high: Infinity } : speeds;
}

const noSpeeds = (card: CardView): Refusal => ({
  refused:
    `The card of \`${card.name}\` gives no spindle speeds: add a line such as \`speeds = [70, 115, 190] rpm\`, ` +
    'or `min_speed` and `max_speed`.',
  parameter: 'machine',
});

const speedStep: Formula = {
  name: 'speed_step',
  family: 'cutting',
  title: 'The speed of the machine at or below a wanted one',
  parameters: [
    SPINDLE_SPEED,
    {
      name: 'machine',
      kind: 'machine',
      unit: '',
      meaning: 'machine card with `speeds`, or `min_speed` and `max_speed`',
    },
  ],
  result: [{ ...single('rpm', 'a speed the machine has'), choice: true }],
  compute: (given) => {
    const speeds = speedsOf(given.card('machine'));
    return speeds === null
      ? noSpeeds(given.card('machine'))
      : stepBelow(given.number('spindle_speed'), speeds);
  },
  working: (given) => {
    const speeds = speedsOf(given.card('machine'));
    return speeds === null ? [] : [{ name: '', ...stepWorking(given, speeds) }];
  },
  why:
    'Cutting too slowly costs time, cutting too fast costs the edge: so take the step below. When the step above is ' +
    'only two or three in a hundred faster, many would take it; then write down what was used.',
  conditions: [
    ...positive(SPINDLE_SPEED),
    should(
      'spindle_speed',
      "the wanted speed is not below the machine's slowest",
      (given) => given.number('spindle_speed') >= ends(given).low * (1 - ROUNDING),
      (given) =>
        `\`${given.card('machine').name}\` turns no slower than ${shown(ends(given).low, 'rpm')}: the cut runs ` +
        `faster than the ${shown(given.number('spindle_speed'), 'rpm')} wanted. Take a tool that bears it, or a smaller diameter.`,
    ),
    should(
      'spindle_speed',
      "the wanted speed is not above a variable drive's fastest",
      (given) => given.number('spindle_speed') * (1 - ROUNDING) <= ends(given).high,
      (given) =>
        `\`${given.card('machine').name}\` turns no faster than ${shown(ends(given).high, 'rpm')}: ` +
        `the ${shown(given.number('spindle_speed'), 'rpm')} wanted are out of its reach.`,
    ),
  ],
  source: 'common practice',
  cautions: ['speeds'],
  picture: null,
  checks: [
    {
      call: 'speed_step(63.662 rpm, lathe)',
      expect: { '': 45 },
      tolerance: 0,
      source: 'sorted list of steps; 20 m/min on 100 mm',
    },
    {
      call: 'speed_step(2387.32 rpm, lathe)',
      expect: { '': 2000 },
      tolerance: 0,
      source: 'sorted list of steps; 90 m/min on 12 mm',
    },
    {
      call: 'speed_step(35.81 rpm, lathe)',
      expect: { '': 45 },
      tolerance: 0,
      source: 'sorted list of steps; 9 m/min on 80 mm, below the slowest',
    },
  ],
};

export const SPEED_FORMULAS: readonly Formula[] = [spindleSpeed, cuttingSpeed, speedStep];
