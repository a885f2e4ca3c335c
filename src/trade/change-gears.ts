/** Change gears of a lathe for a thread: exact trains from the gears that are there. */
import type { CardView } from '../quantity/value';
import { field, length, listed, positive, shown } from './build';
import type { Formula, Given, Parameter, Refusal, Step } from './formula';
import {
  type Train,
  compoundTrain,
  gearsOf,
  holds,
  pairsOf,
  simpleTrain,
  trainRatio,
} from './indexing-gears';
import { cardNumber } from './material';

const LEAD = length('lead', 'advance of the thread in one turn: its pitch, or starts times pitch');
const LATHE: Parameter = {
  name: 'lathe',
  kind: 'machine',
  unit: '',
  meaning:
    'machine card of the lathe: `lead_screw`, its pitch, `gears`, and `stud_ratio` where the stud turns unlike the spindle',
};

/** Two gears of 200 teeth make this, more than any lathe's: a ratio that needs more has no train. */
const MOST_BELOW = 40_000;
/** A ratio this near to a quotient of whole numbers, as a part of itself, is that quotient but for binary rounding. */
const ROUNDING = 1e-11;
type Quotient = readonly [above: number, below: number];

/** A number as a quotient of whole numbers, by its continued fraction; null when none of a gear train's size is it. */
export function quotientOf(value: number): Quotient | null {
  let [above, below, lastAbove, lastBelow, rest] = [1, 0, 0, 1, value];
  for (;;) {
    const whole = Math.floor(rest + ROUNDING);
    [above, lastAbove] = [whole * above + lastAbove, above];
    [below, lastBelow] = [whole * below + lastBelow, below];
    if (!(below <= MOST_BELOW)) return null;
    if (Math.abs(above / below - value) <= ROUNDING * value) return [above, below];
    rest = 1 / (rest - whole);
  }
}

/**
 * A train of pairs in which the smaller gear comes first, with the larger driver first: it drives the smaller driven gear, and
 * the distance of the shafts is always more than the gear beside, so that none reaches the next shaft.
 */
const mounted = ({ drivers, driven }: Train): Train => ({ drivers: [...drivers].reverse(), driven });

function twoPairs([above, below]: Quotient, gears: readonly number[]): Train | null {
  const found = compoundTrain(above, below, gears, pairsOf(gears));
  return found && mounted(found);
}

/** The train whose ratio comes nearest, exact or not; null where the set has too few gears. */
function nearest(ratio: number, gears: readonly number[]): Train | null {
  let best: Train | null = null;
  let least = Infinity;
  const singles = gears.map((gear) => [gear]);
  const pairs = [...pairsOf(gears).values()].flat();
  for (const side of [singles, pairs])
    for (const drivers of side)
      for (const driven of side) {
        const off = Math.abs(trainRatio({ drivers, driven }) / ratio - 1);
        if (off >= least || !holds(gears, [...drivers, ...driven])) continue;
        [best, least] = [mounted({ drivers, driven }), off];
      }
  return best;
}

/** `20 drives 80`; `40 drives 60, 30 on its shaft drives 75`. */
function words({ drivers: [a, c], driven: [b, d] }: Train): string {
  const first = `${a} drives ${b}`;
  return c === undefined ? first : `${first}, ${c} on its shaft drives ${d}`;
}

interface Lathe {
  readonly screw: number;
  readonly stud: number;
  readonly gears: readonly number[];
}

function latheOf(card: CardView): Lathe | Refusal {
  const screw = cardNumber(card, 'lead_screw', 'mm');
  const stud = card.fields.has('stud_ratio') ? cardNumber(card, 'stud_ratio', '') : 1;
  const needs = (line: string): Refusal => ({
    refused: `The card of \`${card.name}\` needs ${line}.`,
    parameter: 'lathe',
  });
  if (screw === null || screw <= 0)
    return needs('the pitch of its lead screw, such as `lead_screw = 6 mm` or `lead_screw = 1/4 in`');
  if (stud === null || stud <= 0)
    return needs('a plain number above zero for `stud_ratio`, turns of the stud for one of the spindle');
  const gears = gearsOf(card);
  return 'refused' in gears ? { ...gears, parameter: 'lathe' } : { screw, stud, gears };
}

interface Found extends Lathe {
  readonly train: Train;
}

function found(given: Given): Found | Refusal {
  const card = given.card('lathe');
  const lathe = latheOf(card);
  if ('refused' in lathe) return lathe;
  const ratio = given.number('lead') / lathe.screw / lathe.stud;
  const quotient = quotientOf(ratio);
  const train = quotient && (simpleTrain(...quotient, lathe.gears) ?? twoPairs(quotient, lathe.gears));
  return train ? { ...lathe, train } : none(given, card, lathe, quotient);
}

/** What a translating gear between inch and metric threads has. */
const TRANSLATING = 127;

function none(
  given: Given,
  card: CardView,
  { screw, stud, gears }: Lathe,
  quotient: Quotient | null,
): Refusal {
  const lead = given.number('lead');
  const near = nearest(lead / screw / stud, gears);
  const cut = near ? trainRatio(near) * screw * stud : NaN;
  const as = quotient ? `: the train must be as ${quotient.join(' to ')}` : '';
  const help = near
    ? ` The nearest, ${words(near)}, cuts ${shown(cut, 'mm')}, which is ${shown(Math.abs(cut / lead - 1) * 100, 'mm')} out in 100 mm: ` +
      'judge that by the length of the nut.'
    : '';
  const translating =
    quotient?.some((n) => n % TRANSLATING === 0) && !gears.includes(TRANSLATING)
      ? ` It takes a gear of ${TRANSLATING} teeth.`
      : '';
  return {
    refused: `The gears of \`${card.name}\` cut no lead of exactly ${shown(lead, 'mm')}${as}.${translating}${help}`,
    parameter: 'lead',
  };
}

const threadGears: Formula = {
  name: 'thread_gears',
  family: 'threads',
  title: 'Change gears of a lathe for a thread',
  parameters: [LEAD, LATHE],
  result: [
    { ...listed('drivers', '', 'teeth of the driving gears, from the spindle on'), choice: true },
    { ...listed('driven', '', 'teeth of the driven gears, in the same order'), choice: true },
    field('ratio', '', 'turns of the lead screw for one of the stud'),
    field('cuts', 'mm', 'lead that this train cuts'),
    { ...field('train', '', 'the gears in words'), words: true },
  ],
  compute: (given) => {
    const result = found(given);
    if ('refused' in result) return result;
    const { train, screw, stud } = result;
    const ratio = trainRatio(train);
    return {
      drivers: train.drivers,
      driven: train.driven,
      ratio,
      cuts: ratio * screw * stud,
      train: words(train),
    };
  },
  working: (given) => {
    const result = found(given);
    if ('refused' in result) return [];
    const { train, screw, stud } = result;
    const steps: Step[] = [
      { name: 'drivers', expression: `[${train.drivers.join(', ')}]`, words: 'from the gears of the card' },
      { name: 'driven', expression: `[${train.driven.join(', ')}]`, words: 'from the gears of the card' },
      {
        name: 'ratio',
        expression: `(${train.drivers.join(' * ')}) / (${train.driven.join(' * ')})`,
        words: 'driving teeth over driven teeth',
      },
      {
        name: 'cuts',
        expression: `ratio * ${screw} mm${stud === 1 ? '' : ` * ${stud}`}`,
        words: 'so much of the lead screw for each turn',
      },
    ];
    return steps;
  },
  why:
    'While the work turns once, the screw must push the slide on by just the lead: so driving teeth over driven teeth are as ' +
    'the lead to the pitch of the lead screw. A gear between that only idles changes the direction and nothing else; an ' +
    'even number more or less of them keeps the hand of the thread. Of two pairs the larger driver and the smaller driven gear ' +
    'come first: so no gear reaches the next shaft. Inch threads on a metric screw, and the other way ' +
    'round, need 127 teeth, since an inch is 254 tenths of a millimetre.',
  conditions: positive(LEAD),
  source: 'exact arithmetic: the train is as the lead to the pitch of the lead screw',
  cautions: ['lathe', 'change_gears'],
  picture: null,
  checks: [
    {
      call: 'thread_gears(1.5 mm, lathe_mm)',
      expect: { drivers: [20], driven: [40], ratio: 0.5, cuts: 1.5, train: '20 drives 40' },
      tolerance: 1e-12,
      source: 'hand arithmetic: 1.5 mm over a lead screw of 3 mm is 1 to 2',
    },
    {
      call: 'thread_gears(1.75 mm, lathe_mm)',
      expect: { drivers: [35], driven: [60], cuts: 1.75 },
      tolerance: 1e-12,
      source: 'hand arithmetic: 1.75 mm over 3 mm is 7 to 12',
    },
    {
      call: 'thread_gears(1/16 in, lathe_mm)',
      expect: { ratio: 0.529166666666667, cuts: 1.5875, train: '127 drives 60, 20 on its shaft drives 80' },
      tolerance: 1e-12,
      source: 'hand arithmetic: 25.4 mm over 16 and 3 mm is 127 to 240',
    },
    {
      call: 'thread_gears(1.5 mm, lathe_inch)',
      expect: { drivers: [60], driven: [127], cuts: 1.5 },
      tolerance: 1e-12,
      source: 'hand arithmetic: 1.5 mm over an eighth of an inch is 60 to 127',
    },
  ],
};

export const CHANGE_GEAR_FORMULAS: readonly Formula[] = [threadGears];
