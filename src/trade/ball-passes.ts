/** The passes of the knee: from first touch to size, by the knee's dial, and what to raise after a reading. */
import type { CardView } from '../quantity/value';
import { BALL, BLANK, CHAMFER, END, RING, SHOULDER, TILT } from './ball-touch';
import { TOUCH_CONDITIONS, finalHeight, turningTilts, touch, touchWorking } from './ball-touch';
import { ballFrom, heightFor, ringFits } from './ball-knee';
import { field, firstItems, length, listed, mm, must, notNegative, optional, positive, shown } from './build';
import { type Dial, dialOn } from './dial';
import type { Formula, Given, Parameter, Refusal } from './formula';

const STEP = length('step', 'raise of the knee for each pass');
const RAISE = length('raise', 'how far the knee is to go up');
const MILL: Parameter = {
  name: 'machine',
  kind: 'machine',
  unit: '',
  meaning:
    'machine card of the mill: `knee_per_turn`, travel for a turn of the handle, and `knee_divisions` of its dial',
};

/** A schedule of more raises than this is a step typed wrong. */
const MOST_RAISES = 200;
/** Rounding alone neither adds a raise nor moves the dial on by a turn. */
const SLACK = 1e-9;

const dialOf = (card: CardView): Dial | Refusal =>
  dialOn(card, 'knee_per_turn', 'knee_divisions') ?? {
    refused:
      `The card of \`${card.name}\` needs \`knee_per_turn\`, such as \`knee_per_turn = 2.5 mm\`, and ` +
      '`knee_divisions`, such as `knee_divisions = 125`.',
    parameter: 'machine',
  };

function onDial(raise: number, { perTurn, divisions }: Dial): { turns: number; divisions: number } {
  const turns = Math.floor(raise / perTurn + SLACK);
  return { turns, divisions: (raise / perTurn - turns) * divisions };
}

/** Turns and divisions to a tenth of a division: `1 + 25.4`. */
function dialWords(raise: number, dial: Dial): string {
  const tenths = Math.round((raise / dial.perTurn) * dial.divisions * 10);
  const turn = dial.divisions * 10;
  return `${Math.floor(tenths / turn)} + ${(tenths % turn) / 10}`;
}

/** Raised from first touch after each pass: whole steps, then what is left in two halves. */
function raises(travel: number, step: number): number[] {
  const full = Math.max(0, Math.ceil(travel / step - SLACK) - 1);
  const steps = Array.from({ length: full }, (_, i) => (i + 1) * step);
  return [...steps, (full * step + travel) / 2, travel];
}

function schedule(given: Given): { height: number; travel: number; raised: readonly number[] } {
  const { height } = touch(given);
  const travel = height - finalHeight(given);
  return { height, travel, raised: raises(travel, given.number('step')) };
}

function travelOf(given: Given): number {
  return touch(given).height - finalHeight(given);
}

const kneeSchedule: Formula = {
  name: 'knee_schedule',
  family: 'ball',
  title: 'Knee raises from first touch to size, with the ball after each',
  parameters: [BALL, RING, TILT, BLANK, END, STEP, CHAMFER, SHOULDER, optional(MILL)],
  result: [
    field('height', 'mm', "plane of the ring above the ball's centre at first touch"),
    field('travel', 'mm', 'how far the knee goes up in all'),
    { ...field('raises', '', 'how many raises that is, the last two halves of what is left'), choice: true },
    listed('raised', 'mm', 'raised from first touch after each'),
    listed('balls', 'mm', 'diameter of the ball after each; larger than the blank it shows on corners only'),
    {
      ...field('dial', '', "turns and divisions of the knee's dial after each, from zero at first touch"),
      words: true,
      perItem: true,
    },
  ],
  compute: (given) => {
    const { height, travel, raised } = schedule(given);
    const dial = given.has('machine') ? dialOf(given.card('machine')) : null;
    if (dial && 'refused' in dial) return dial;
    return {
      height,
      travel,
      raises: raised.length,
      raised,
      balls: raised.map((raise) => ballFrom(given.number('ring'), height - raise, 0)),
      dial: dial
        ? raised.map((raise) => dialWords(raise, dial)).join(', ')
        : "name the mill's card, as in `machine: mill`, for turns and divisions",
    };
  },
  working: (given) => {
    const { raised } = schedule(given);
    const full = raised.length - 2;
    const at = (i: number): string =>
      i < full
        ? i === 0
          ? 'step'
          : `${i + 1} * step`
        : i === full
          ? `(${full} * step + travel) / 2`
          : 'travel';
    return [
      ...touchWorking(given),
      {
        name: 'raises',
        expression: full > 0 ? 'round_up(travel / step, 1) + 1' : '2',
        words: 'whole steps, and what is left in two halves',
      },
      {
        name: 'raised',
        expression: firstItems(raised.length, at),
        words: 'added up from first touch, and so on',
      },
      {
        name: 'balls',
        expression: firstItems(raised.length, (i) => `2 * hypot(ring / 2, height - ${at(i)})`),
        words: 'the ball of this ring at each height, and so on',
      },
    ];
  },
  why:
    'Each raise lowers the ring towards the centre, and ring and height make the ball. At first a raise takes off much of ' +
    'the corners and little elsewhere; near the end less than half of itself on the diameter. Early on the ring falls short ' +
    'of end and neck, so a pip and a collar stand until the last raise: that is as it should be. Measure before the last ' +
    'two, and trust the reading rather than the list.',
  conditions: [
    ...TOUCH_CONDITIONS,
    ...positive(STEP),
    must(
      'step',
      `the step makes no more than ${MOST_RAISES} raises`,
      (given) => travelOf(given) / given.number('step') <= MOST_RAISES - 1,
      (given) =>
        `Raising ${mm(travelOf(given))} by ${mm(given.number('step'))} takes more than ${MOST_RAISES} raises: give a ` +
        `step of ${mm(Math.ceil((travelOf(given) / (MOST_RAISES - 1)) * 1000) / 1000)} or more.`,
    ),
  ],
  source:
    'own derivation, plane and sphere geometry; confirmed by brute force over the surface of the blank and numeric roots. ' +
    'The last two raises as halves: common practice',
  cautions: ['ball_on_mill', 'by_hand_first', 'interrupted_cut', 'knee', 'crank', 'measuring'],
  picture: 'knee_passes',
  checks: [
    {
      call: 'knee_schedule(30 mm, 29.367189 mm, 11.789089°, 30 mm, 15 mm, 2 mm, machine: knee)',
      expect: {
        travel: 12.2452,
        raises: 8,
        raised: [2.0, 4.0, 6.0, 8.0, 10.0, 12.0, 12.1226, 12.2452],
        balls: [39.6363, 37.0686, 34.7724, 32.8049, 31.2283, 30.104, 30.051, 30.0],
        dial: '0 + 100, 1 + 75, 2 + 50, 3 + 25, 4 + 0, 4 + 100, 4 + 106.1, 4 + 112.3',
      },
      tolerance: 0.003,
      source:
        'first touch by brute force over the blank; balls as the distance from ring to centre; dial counted out by hand',
    },
    {
      call: 'knee_schedule(30 mm, 29.367189 mm, 11.789089°, 32 mm, 15.5 mm, 1.5 mm, chamfer: 6 mm, shoulder: 11 mm)',
      expect: { height: 12.704, raises: 8 },
      tolerance: 0.002,
      source: "brute force: every place of a sampled blank, at every part of a turn, above the ring's edge",
    },
  ],
  extremes: { tilt: turningTilts },
};

const MEASURED = length('measured_ball', 'diameter the part-made ball measures');
const WANTED = length('wanted_ball', 'diameter it is to have');
const NOSE = optional(length('nose_radius', "radius at the cutter's tip; a sharp tip when left out"));

function halves(given: Given): { left: number; half: number; ball_after: number } {
  const [ring, nose] = [given.number('ring'), given.numberOr('nose_radius', 0)];
  const now = heightFor(given.number('measured_ball'), ring, nose);
  const left = now - heightFor(given.number('wanted_ball'), ring, nose);
  return { left, half: left / 2, ball_after: ballFrom(ring, now - left / 2, nose) };
}

const halfRaise: Formula = {
  name: 'half_raise',
  family: 'ball',
  title: 'What to raise next, from a measured ball: half of what is left',
  parameters: [MEASURED, WANTED, RING, NOSE],
  result: [
    field('left', 'mm', 'knee raise left to the wanted ball'),
    field('half', 'mm', 'what to raise now, before measuring again'),
    field('ball_after', 'mm', 'what the ball should measure then'),
  ],
  compute: halves,
  working: (given) => {
    const [plus, minus] = given.has('nose_radius') ? [' + nose_radius', ' - nose_radius'] : ['', ''];
    const height = (ball: string): string => `sqrt((${ball} / 2${plus})^2 - (ring / 2${plus})^2)${minus}`;
    return [
      {
        name: 'height_now',
        expression: height('measured_ball'),
        words: 'the height that made the measured ball',
      },
      { name: 'height_then', expression: height('wanted_ball'), words: 'the height for the wanted ball' },
      { name: 'left', expression: 'height_now - height_then', words: 'the difference' },
      { name: 'half', expression: 'left / 2', words: 'half of it' },
      {
        name: 'ball_after',
        expression: `2 * (hypot(ring / 2${plus}, height_now - half${plus})${minus})`,
        words: 'the ball of this ring at the height in between',
      },
    ];
  },
  why:
    'A ball that measures other than it should after half of what is left tells how far the set-up differs from what was ' +
    'written down: a ring set a little off, a dial that lost its zero, work that sprang. There is still stock to put it right ' +
    'with the other half, worked out afresh from the new reading. A full raise that turns out too large cannot be taken back.',
  conditions: [
    ...positive(MEASURED, WANTED, RING),
    ...notNegative(NOSE),
    ringFits('measured_ball'),
    ringFits('wanted_ball'),
    must(
      'measured_ball',
      'the measured ball is not yet below the wanted one',
      (given) => given.number('measured_ball') >= given.number('wanted_ball'),
      (given) =>
        `The ball is ${mm(given.number('wanted_ball') - given.number('measured_ball'))} under size already: ` +
        'raise no further, no raise of the knee puts that back.',
    ),
  ],
  source:
    'own derivation, plane and sphere geometry; confirmed by numeric roots. Half of what is left: common practice',
  cautions: ['knee', 'measuring', 'crank'],
  picture: null,
  checks: [
    {
      call: 'half_raise(25.12 mm, 25 mm, 24.6 mm)',
      expect: { left: 0.31525536218451533, half: 0.15762768109225767, ball_after: 25.05808879497026 },
      tolerance: 1e-8,
      source: 'difference of two numeric roots, and the distance from ring to centre halfway',
    },
    {
      call: 'half_raise(22.05 mm, 22 mm, 21.450935 mm)',
      expect: { left: 0.11024305835713921, ball_after: 22.024738283759103 },
      tolerance: 1e-8,
      source: 'difference of two numeric roots, and the distance from ring to centre halfway',
    },
    {
      call: 'half_raise(30.3 mm, 30 mm, 29.37 mm, nose_radius: 0.4 mm)',
      expect: { left: 0.6754568659, ball_after: 30.1429920664 },
      tolerance: 1e-6,
      source: 'numeric roots on the nearest point of a sampled nose arc',
    },
  ],
};

const kneeDial: Formula = {
  name: 'knee_dial',
  family: 'ball',
  title: "A raise in turns and divisions of the knee's dial",
  parameters: [RAISE, MILL],
  result: [
    { ...field('turns', '', 'whole turns of the handle'), choice: true },
    field('divisions', '', 'divisions of the dial beyond them'),
  ],
  compute: (given) => {
    const dial = dialOf(given.card('machine'));
    return 'refused' in dial ? dial : onDial(given.number('raise'), dial);
  },
  working: (given) => {
    const dial = dialOf(given.card('machine'));
    if ('refused' in dial) return [];
    return [
      {
        name: 'turns',
        expression: `round_down(raise / ${dial.perTurn} mm, 1)`,
        words: 'travel of one turn, as often as it goes in whole',
      },
      {
        name: 'divisions',
        expression: `(raise / ${dial.perTurn} mm - turns) * ${dial.divisions}`,
        words: 'the part of a turn that is left, in divisions',
      },
    ];
  },
  why:
    'The dial counts from where it was last turned the same way. Come up to the reading from below, and take up the ' +
    'backlash before the zero is set: a knee that was let down a little stands elsewhere at the same reading.',
  conditions: [
    ...notNegative(RAISE),
    must(
      'raise',
      'the raise is within the reach of a knee',
      (given) => given.number('raise') <= 1000,
      (given) =>
        `No knee goes up by ${shown(given.number('raise') / 1000, 'm')}: give a raise of 1000 mm or less.`,
    ),
  ],
  source: "arithmetic on the machine's own dial; backlash: common practice",
  cautions: ['knee'],
  picture: null,
  checks: [
    {
      call: 'knee_dial(12.3 mm, knee)',
      expect: { turns: 4, divisions: 115 },
      tolerance: 1e-9,
      source: 'counted out by hand: 4 turns of 2.5 mm and 115 divisions of 0.02 mm',
    },
    {
      call: 'knee_dial(7.112 mm, inch_knee)',
      expect: { turns: 2, divisions: 80 },
      tolerance: 1e-9,
      source: 'counted out by hand in inches: 0.280 is 2 turns of 0.100 and 80 divisions of 0.001',
    },
  ],
};

export const PASS_FORMULAS: readonly Formula[] = [kneeSchedule, halfRaise, kneeDial];
