/** Setting a boring head: by a trial cut, by its dial and by the reach of its bar, and which way tool and spindle go. */
import type { CardView } from '../quantity/value';
import { choice, field, length, mm, must, notNegative, optional, positive, single } from './build';
import { type Dial, dialOn } from './dial';
import type { Condition, Formula, Given, Parameter, Refusal } from './formula';

const MEASURED = length('measured', 'diameter of the hole or boss that the head cuts now, from a trial cut');
const WANTED = length('wanted', 'diameter it is to cut');
const TIP_OFFSET = optional(
  length(
    'tip_offset',
    'how far the tip stands before or behind the line that the slide moves it along; nothing when left out',
  ),
);

const offsetOf = (given: Given): number => given.numberOr('tip_offset', 0);

/** Distance of the tip from the spindle's axis along the slide. */
function along(diameter: number, offset: number): number {
  return Math.sqrt((diameter / 2) ** 2 - offset ** 2);
}

const offsetFits: Condition = must(
  'tip_offset',
  'the tip stands off the line of the slide by less than it stands from the axis',
  (given) => offsetOf(given) < Math.min(given.number('measured'), given.number('wanted')) / 2,
  (given) =>
    `A tip ${mm(offsetOf(given))} off the line of the slide cuts nothing smaller than ` +
    `${mm(2 * offsetOf(given))}: turn the bar until the tip stands on the line.`,
);

const headSetting: Formula = {
  name: 'boring_head_setting',
  family: 'boring',
  title: 'Move of the slide of a boring head after a trial cut',
  parameters: [MEASURED, WANTED, TIP_OFFSET],
  result: [
    field('slide', 'mm', 'move of the slide; positive is outwards, away from the axis'),
    field('on_diameter', 'mm', 'what that changes on diameter'),
  ],
  compute: (given) => {
    const [measured, wanted, offset] = [given.number('measured'), given.number('wanted'), offsetOf(given)];
    return { slide: along(wanted, offset) - along(measured, offset), on_diameter: wanted - measured };
  },
  working: (given) => [
    {
      name: 'slide',
      expression: given.has('tip_offset')
        ? 'sqrt((wanted / 2)^2 - tip_offset^2) - sqrt((measured / 2)^2 - tip_offset^2)'
        : '(wanted - measured) / 2',
      words: given.has('tip_offset')
        ? 'the tip moves along the slide, not from the axis: a right triangle each time, one less the other'
        : 'half the difference, as the tip cuts on both sides of the axis',
    },
    { name: 'on_diameter', expression: 'wanted - measured', words: 'the difference itself' },
  ],
  why:
    'What a head is set to is known only from what it cuts: take a trial boss or hole of a few millimetres, measure it, and ' +
    'move by half of what is missing. Outwards a hole gets larger, and so does the boss that an inward tool leaves. A tip ' +
    'off the line of the slide moves the diameter by more than twice what the slide moves.',
  conditions: [...positive(MEASURED, WANTED), ...notNegative(TIP_OFFSET), offsetFits],
  source: 'own derivation: a right triangle of slide and offset; trial cut: common practice',
  cautions: ['boring_head', 'measuring'],
  picture: null,
  checks: [
    {
      call: 'boring_head_setting(29.3 mm, 29.12 mm)',
      expect: { slide: -0.09, on_diameter: -0.18 },
      tolerance: 1e-9,
      source: 'by hand: half of 0.18 inwards',
    },
    {
      call: 'boring_head_setting(20 mm, 26 mm, tip_offset: 5 mm)',
      expect: { slide: 3.3397459622, on_diameter: 6 },
      tolerance: 1e-9,
      source: '12 from the 5-12-13 triangle, less half the root of 300',
    },
    {
      call: 'boring_head_setting(1 in, 1.02 in)',
      expect: { slide: 0.254, on_diameter: 0.508 },
      tolerance: 1e-9,
      source: 'by hand: ten thousandths of an inch',
    },
  ],
};

const HEAD: Parameter = {
  name: 'head',
  kind: 'machine',
  unit: '',
  meaning:
    'machine card of the head: `diameter_per_turn`, by how much a turn of its screw changes the diameter, and `head_divisions`',
};

const dialOf = (card: CardView): Dial | Refusal =>
  dialOn(card, 'diameter_per_turn', 'head_divisions') ?? {
    refused:
      `The card of \`${card.name}\` needs \`diameter_per_turn\`, such as \`diameter_per_turn = 1 mm\`, and ` +
      '`head_divisions`, such as `head_divisions = 50`. Set them by a trial: turn the screw once and measure what it changes.',
    parameter: 'head',
  };

const headDial: Formula = {
  name: 'boring_head_dial',
  family: 'boring',
  title: 'Divisions to turn on the dial of a boring head after a trial cut',
  parameters: [MEASURED, WANTED, HEAD],
  result: [
    field('divisions', '', 'divisions to turn the dial by, turns included; negative is inwards'),
    field('one_division', 'mm', 'what one division changes on diameter'),
    { ...field('way', '', 'which way, and where backlash has to be taken up'), words: true },
  ],
  compute: (given) => {
    const dial = dialOf(given.card('head'));
    if ('refused' in dial) return dial;
    const change = given.number('wanted') - given.number('measured');
    return {
      divisions: (change / dial.perTurn) * dial.divisions,
      one_division: dial.perTurn / dial.divisions,
      way: change < 0 ? 'in: half a turn past the mark, then out to it' : 'out',
    };
  },
  working: (given) => {
    const dial = dialOf(given.card('head'));
    if ('refused' in dial) return [];
    return [
      {
        name: 'divisions',
        expression: `(wanted - measured) / ${dial.perTurn} mm * ${dial.divisions}`,
        words: 'the change of diameter in turns of the screw, each with all its divisions',
      },
      {
        name: 'one_division',
        expression: `${dial.perTurn} mm / ${dial.divisions}`,
        words: 'a turn, shared by its divisions',
      },
    ];
  },
  why:
    'Some heads are marked for the slide and some for the diameter, and a mix-up spoils the hole by its whole correction. The ' +
    'card says what a turn does to the diameter, once found by trial, so the mark on the head no longer matters.',
  conditions: positive(MEASURED, WANTED),
  source: "arithmetic on the head's own dial; taking up backlash: common practice",
  cautions: ['boring_head', 'measuring'],
  picture: null,
  checks: [
    {
      call: 'boring_head_dial(24.86 mm, 25.01 mm, ring_head)',
      expect: { divisions: 7.5, one_division: 0.02, way: 'out' },
      tolerance: 1e-9,
      source: 'counted out by hand: 0.15 is seven and a half times 0.02',
    },
    {
      call: 'boring_head_dial(31 mm, 29.4 mm, ring_head)',
      expect: { divisions: -80, way: 'in: half a turn past the mark, then out to it' },
      tolerance: 1e-9,
      source: 'counted out by hand: one turn of 50 divisions and 30 more',
    },
  ],
};

const REACH = length('tip_reach', "from the middle of the bar to its tip, measured across the bar's shank");
const CUTS = choice('cuts', ['hole', 'boss'], 'whether the head is to cut a `hole` or to leave a `boss`');

const isHole = (given: Given): boolean => given.code('cuts') === 'hole';

const barSetting: Formula = {
  name: 'boring_bar_setting',
  family: 'boring',
  title: 'Where the bar of a boring head stands for a hole, or for a boss cut with the tip turned inwards',
  parameters: [WANTED, REACH, CUTS],
  result: [single('mm', "distance of the bar's middle from the axis of the spindle")],
  compute: (given) => given.number('wanted') / 2 + (isHole(given) ? -1 : 1) * given.number('tip_reach'),
  working: (given) => [
    {
      name: '',
      expression: `wanted / 2 ${isHole(given) ? '-' : '+'} tip_reach`,
      words: isHole(given)
        ? 'half the hole, less what the tip reaches outwards'
        : 'half the boss, and what the tip reaches inwards from the bar',
    },
  ],
  why:
    'Outwards the tip lies further from the axis than its bar, inwards nearer. So a boss needs the bar further out than a ' +
    'hole of the same size, and the head less balanced: this is where the first setting for a trial cut comes from.',
  conditions: [
    ...positive(WANTED, REACH),
    must(
      'tip_reach',
      'for a hole the tip reaches no further than half across it',
      (given) => !isHole(given) || given.number('tip_reach') <= given.number('wanted') / 2,
      (given) =>
        `A tip that reaches ${mm(given.number('tip_reach'))} does not fit a hole of ${mm(given.number('wanted'))}: take a bar of ` +
        `${mm(given.number('wanted') / 2)} at most.`,
    ),
  ],
  source: 'geometry of bar and axis',
  cautions: ['boring_head', 'by_hand_first'],
  picture: null,
  checks: [
    {
      call: 'boring_bar_setting(40 mm, 8.5 mm, hole)',
      expect: { '': 11.5 },
      tolerance: 1e-9,
      source: 'drawn to scale: 11.5 and 8.5 are half of 40',
    },
    {
      call: 'boring_bar_setting(24.4 mm, 8.5 mm, boss)',
      expect: { '': 20.7 },
      tolerance: 1e-9,
      source: 'drawn to scale: the tip 8.5 inside 20.7 stands at 12.2',
    },
  ],
};

const TOOL = choice(
  'tool',
  ['usual', 'mirrored'],
  'whether the tool cuts a hole with the spindle running forwards, `usual`, or is ground the other way, `mirrored`',
);

const facing: Formula = {
  name: 'tool_facing',
  family: 'boring',
  title: 'Which way the tool faces and the spindle turns for a hole or a boss',
  parameters: [CUTS, TOOL],
  result: [
    field('turning', '', '1 forwards, -1 backwards'),
    { ...field('faces', '', 'which way the tip points'), words: true },
    { ...field('spindle', '', 'which way the spindle turns'), words: true },
    { ...field('check', '', 'what to look at before starting'), words: true },
  ],
  compute: (given) => {
    const forwards = isHole(given) === (given.code('tool') === 'usual');
    return {
      turning: forwards ? 1 : -1,
      faces: isHole(given) ? 'outwards, away from the axis' : 'inwards, to the axis',
      spindle: forwards ? 'forwards, clockwise from above' : 'backwards, anticlockwise from above',
      check: forwards
        ? 'turn the spindle by hand: the flat face of the tip leads and its heel follows'
        : 'turn the spindle by hand backwards: the flat face of the tip leads; run backwards only with a head that is keyed or locked',
    };
  },
  working: (given) => [
    {
      name: 'pointing',
      expression: isHole(given) ? '1' : '-1',
      words: isHole(given) ? 'outwards, as the bar is made' : 'inwards: the bar turned half round',
    },
    {
      name: 'ground',
      expression: given.code('tool') === 'usual' ? '1' : '-1',
      words:
        given.code('tool') === 'usual'
          ? 'ground to cut forwards when it points outwards'
          : 'ground the other way',
    },
    {
      name: 'turning',
      expression: 'pointing * ground',
      words: 'either of them turns it round, both of them twice',
    },
  ],
  why:
    'Turning the bar half round to point inwards turns its cutting face round too, so that its heel leads. Either the spindle ' +
    'then runs backwards, which unscrews a head that only a thread holds, or the tool is one ground the other way.',
  conditions: [],
  source: 'own derivation: the direction of the cutting face against the motion of the tip; common practice',
  cautions: ['boring_head', 'by_hand_first'],
  picture: null,
  checks: [
    {
      call: 'tool_facing(hole, usual)',
      expect: { faces: 'outwards, away from the axis', spindle: 'forwards, clockwise from above' },
      tolerance: 0,
      source: 'common practice: a boring bar bores with the spindle running forwards',
    },
    {
      call: 'tool_facing(boss, usual)',
      expect: { turning: -1, faces: 'inwards, to the axis', spindle: 'backwards, anticlockwise from above' },
      tolerance: 0,
      source: 'cross product of the turning and the place of the tip, against the turned cutting face',
    },
    {
      call: 'tool_facing(boss, mirrored)',
      expect: { turning: 1, spindle: 'forwards, clockwise from above' },
      tolerance: 0,
      source: 'cross product of the turning and the place of the tip, against the turned cutting face',
    },
  ],
};

export const HEAD_FORMULAS: readonly Formula[] = [headSetting, headDial, barSetting, facing];
