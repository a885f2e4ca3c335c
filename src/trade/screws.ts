/** Moves by the dials of a machine's screws, and the backlash in them. */
import { LENGTH } from '../quantity/dimension';
import type { CardView } from '../quantity/value';
import { choice, field, firstItems, length, list, listed, mm, must, single } from './build';
import { type Dial, dialOn, isPositive } from './dial';
import type { Formula, Given, Parameter, Refusal } from './formula';

const SCREWS = ['table', 'saddle', 'knee'] as const;
const SCREW = choice('screw', SCREWS, 'which screw: `table` for X, `saddle` for Y, `knee` for the height');
const MILL: Parameter = {
  name: 'machine',
  kind: 'machine',
  unit: '',
  meaning:
    'machine card with the screw: `table_per_turn`, travel for a turn of the handle, `table_divisions` of its dial, and ' +
    '`table_backlash`; so too with `saddle` and `knee`',
};
const FROM = length('from', 'place where the dial stands at zero, come to by counting up');
const TO = length('place', 'place to go to');
const PLACES = list('places', 'mm', 'places to go to, such as the X of a bolt circle');

interface Screw extends Dial {
  /** Travel lost where the handle turns back, in mm; zero where the card does not say. */
  readonly backlash: number;
}

function screwOf(card: CardView, name: string): Screw | Refusal {
  const dial = dialOn(card, `${name}_per_turn`, `${name}_divisions`);
  const backlash = card.fields.get(`${name}_backlash`);
  if (dial) return { ...dial, backlash: isPositive(backlash, LENGTH) ? backlash.value : 0 };
  return {
    refused:
      `The card of \`${card.name}\` needs \`${name}_per_turn\`, such as \`${name}_per_turn = 5 mm\`, and ` +
      `\`${name}_divisions\`, such as \`${name}_divisions = 250\`.`,
    parameter: 'machine',
  };
}

const screwFor = (given: Given): Screw | Refusal => screwOf(given.card('machine'), given.code('screw'));

/** Rounding alone does not move a dial on by a turn. */
const SLACK = 1e-9;

const wholeTurns = (travel: number, { perTurn }: Screw): number => Math.floor(travel / perTurn + SLACK);

/** Divisions beyond whole turns; rounding alone shows none below zero. */
const beyond = (travel: number, turns: number, { perTurn, divisions }: Screw): number =>
  Math.max(0, (travel / perTurn - turns) * divisions);

/** Backwards a handle goes past the mark by this part of a turn at least, and by twice what the backlash is. */
const PAST_TURN = 1 / 2;
const PAST_BACKLASH = 2;

const past = (screw: Screw): number => Math.max(PAST_TURN * screw.perTurn, PAST_BACKLASH * screw.backlash);

const most = must(
  'place',
  'the move is no longer than 2000 mm',
  (given) => Math.abs(given.number('place') - given.number('from')) <= 2000,
  (given) =>
    `A move of ${mm(given.number('place') - given.number('from'))} is beyond any such machine: give places within 2000 mm.`,
);

const screwMove: Formula = {
  name: 'screw_move',
  family: 'probing',
  title: 'A move in turns and divisions of a dial, with the backlash taken up',
  parameters: [FROM, TO, SCREW, MILL],
  result: [
    { ...field('turns', '', 'whole turns of the handle; negative is back'), choice: true },
    field('divisions', '', 'what the dial shows there, counted up from those turns'),
    { ...field('way', '', 'which way to go'), words: true },
    field(
      'turn_at',
      'mm',
      'place to go back to before coming up to the mark; the place itself when moving up',
    ),
  ],
  compute: (given) => {
    const screw = screwFor(given);
    if ('refused' in screw) return screw;
    const travel = given.number('place') - given.number('from');
    const turns = wholeTurns(travel, screw);
    return {
      turns,
      divisions: beyond(travel, turns, screw),
      way: travel < 0 ? 'down, past the mark, and up to it again' : 'up',
      turn_at: travel < 0 ? given.number('place') - past(screw) : given.number('place'),
    };
  },
  working: (given) => {
    const screw = screwFor(given);
    if ('refused' in screw) return [];
    const back = given.number('place') < given.number('from');
    return [
      {
        name: 'turns',
        expression: `round_down((place - from) / ${screw.perTurn} mm + 0.000000001, 1)`,
        words: 'travel of one turn, as often as it goes in whole',
      },
      {
        name: 'divisions',
        expression: `((place - from) / ${screw.perTurn} mm - turns) * ${screw.divisions}`,
        words: 'the part of a turn that is left, in divisions',
      },
      back
        ? {
            name: 'turn_at',
            expression: `place - max(${screw.perTurn} mm / 2, 2 * ${screw.backlash} mm)`,
            words: 'past the mark by half a turn, or by twice the backlash where that is more',
          }
        : {
            name: 'turn_at',
            expression: 'place',
            words: 'moving up, the screw bears on the right side already',
          },
    ];
  },
  why:
    'A screw pushes its nut with one flank or the other, and turned back it moves nothing until the other flank bears. So ' +
    'every place is come to from the same side: upwards. For a place further down, go past it and come up again.',
  conditions: [most],
  source: "arithmetic on the machine's own dial; taking up backlash: common practice",
  cautions: ['measuring'],
  picture: null,
  checks: [
    {
      call: 'screw_move(0 mm, 37.38 mm, table, dials)',
      expect: { turns: 7, divisions: 119, way: 'up', turn_at: 37.38 },
      tolerance: 1e-9,
      source: 'counted out by hand: 7 turns of 5 mm and 119 divisions of 0.02 mm',
    },
    {
      call: 'screw_move(40 mm, 21.5 mm, saddle, dials)',
      expect: { turns: -5, divisions: 75, way: 'down, past the mark, and up to it again', turn_at: 18.5 },
      tolerance: 1e-9,
      source:
        'counted out by hand: 18.5 mm back are 5 turns of 4 mm less 1.5 mm, which is 75 divisions; 3 mm are twice 1.5 mm of backlash',
    },
    {
      call: 'screw_move(10 mm, 9 mm, table, dials)',
      expect: { turns: -1, divisions: 200, turn_at: 6.5 },
      tolerance: 1e-9,
      source:
        'counted out by hand: one turn of 5 mm back and 200 divisions of 0.02 mm up; half a turn is 2.5 mm',
    },
  ],
};

/** A longer list is no longer read at the machine. */
const MOST_PLACES = 400;

const dialList: Formula = {
  name: 'dial_list',
  family: 'probing',
  title: 'Places as turns and divisions of a dial, for a machine without a readout',
  parameters: [PLACES, FROM, SCREW, MILL],
  result: [
    listed(
      'whole_turns',
      '',
      'whole turns of the handle from where the dial stood at zero; negative is below it',
    ),
    listed('division', '', 'what the dial shows there'),
  ],
  compute: (given) => {
    const screw = screwFor(given);
    if ('refused' in screw) return screw;
    const travels = given.list('places').map((place) => place - given.number('from'));
    const turns = travels.map((travel) => wholeTurns(travel, screw));
    return {
      whole_turns: turns,
      division: travels.map((travel, i) => beyond(travel, turns[i] ?? NaN, screw)),
    };
  },
  working: (given) => {
    const screw = screwFor(given);
    if ('refused' in screw) return [];
    const places = given.list('places');
    const turns = (i: number): string =>
      `round_down((${places[i]} mm - from) / ${screw.perTurn} mm + 0.000000001, 1)`;
    return [
      {
        name: 'whole_turns',
        expression: firstItems(places.length, turns),
        words: 'travel of one turn, as often as it goes in whole',
      },
      {
        name: 'division',
        expression: firstItems(
          places.length,
          (i) => `((${places[i]} mm - from) / ${screw.perTurn} mm - ${turns(i)}) * ${screw.divisions}`,
        ),
        words: 'the part of a turn that is left, in divisions',
      },
    ];
  },
  why:
    'Counted from one zero, a miscounted turn shows at the next place and does not run on. Come to every place counting ' +
    'up; where the list goes down, go past by half a turn and come up again.',
  conditions: [
    must(
      'places',
      `from one place to ${MOST_PLACES}`,
      (given) => given.list('places').length >= 1 && given.list('places').length <= MOST_PLACES,
      (given) =>
        `A list of ${given.list('places').length} places does not do here: give 1 to ${MOST_PLACES}.`,
    ),
  ],
  source: "arithmetic on the machine's own dial; common practice",
  cautions: ['measuring'],
  picture: null,
  checks: [
    {
      call: 'dial_list([30, 15, -15] mm, -30 mm, table, dials)',
      expect: { whole_turns: [12, 9, 3], division: [0, 0, 0] },
      tolerance: 1e-6,
      source: 'counted out by hand: 60, 45 and 15 mm in turns of 5 mm',
    },
    {
      call: 'dial_list([25.98, -1.3, 7.45, 12] mm, 0 mm, saddle, dials)',
      expect: { whole_turns: [6, -1, 1, 3], division: [99, 135, 172.5, 0] },
      tolerance: 1e-6,
      source: 'counted out by hand: turns of 4 mm, divisions of 0.02 mm',
    },
  ],
};

const UP = length('coming_up', 'dial or readout where an indicator shows zero, come to counting up');
const DOWN = length('coming_down', 'the same, come to counting down');

const backlash: Formula = {
  name: 'backlash',
  family: 'probing',
  title: 'Backlash of a screw, from one place come to from both sides',
  parameters: [UP, DOWN],
  result: [single('mm', 'turning of the dial, as travel, that moves nothing')],
  compute: (given) => Math.abs(given.number('coming_down') - given.number('coming_up')),
  working: () => [
    {
      name: '',
      expression: 'abs(coming_down - coming_up)',
      words: 'the table stands at one place, so all that the dial differs by is lost in the screw',
    },
  ],
  why:
    'An indicator against the work shows where the table really is. Come to its zero from below and from above and read ' +
    'the dial each time: what lies between the two readings is play in nut and bearings. A readout on its own scale ' +
    'differs by next to nothing; if it does not, something is loose.',
  conditions: [],
  source: 'common practice',
  cautions: ['measuring'],
  picture: null,
  checks: [
    {
      call: 'backlash(12.4 mm, 12.15 mm)',
      expect: { '': 0.25 },
      tolerance: 1e-9,
      source: 'counted on the divisions of a dial by hand',
    },
    {
      call: 'backlash(0.5 in, 0.512 in)',
      expect: { '': 0.3048 },
      tolerance: 1e-9,
      source: 'twelve thousandths of an inch, from memory 0.3048 mm',
    },
  ],
  extremes: {
    coming_up: (given) => [given.number('coming_down')],
    coming_down: (given) => [given.number('coming_up')],
  },
};

export const SCREW_FORMULAS: readonly Formula[] = [screwMove, dialList, backlash];
