/** The drill before the tap, and how much thread a hole leaves, by both usual ways of counting. */
import { field, length, missingSign, mm, must, positive, shown } from './build';
import type { Formula } from './formula';
import { INCH, THREAD, type Thread, stepsOf, threadOf, withThread } from './thread';
import { COARSE } from './thread-table';
import { boreDiameter } from './threads';

/** Full depth on both sides by inch handbooks, to a flat root: so many pitches. */
const HANDBOOK = (3 / 4) * Math.sqrt(3);
/** Height over which screw and nut meet by ISO 68-1, on both sides: so many pitches. */
const ENGAGED = (5 / 8) * Math.sqrt(3);
const PERCENT = 100;

const HANDBOOK_FIELD = field('handbook', '%', 'part of a full thread as inch handbooks count it');
const ENGAGED_FIELD = field('engaged', '%', 'part of the height over which screw and nut meet by ISO 68-1');

const percents = ({ diameter, pitch }: Thread, drill: number): { handbook: number; engaged: number } => ({
  handbook: (PERCENT * (diameter - drill)) / (HANDBOOK * pitch),
  engaged: (PERCENT * (diameter - drill)) / (ENGAGED * pitch),
});

const PERCENT_STEPS = [
  {
    name: 'handbook',
    expression: '(diameter - drill) / (3 / 4 * sqrt(3) * pitch)',
    words: 'what the drill leaves, over 1.299 pitches',
  },
  {
    name: 'engaged',
    expression: '(diameter - drill) / (5 / 8 * sqrt(3) * pitch)',
    words: 'what the drill leaves, over 1.083 pitches',
  },
];

interface Drill {
  /** In mm. */
  readonly size: number;
  /** As the notation writes it. */
  readonly text: string;
  readonly called: string;
  readonly note: string;
}

/** Inches of `1 7/64`; null for a number or letter. */
function inchesOf(name: string): number | null {
  const [, whole = '0', above, below] = /^(?:(\d+) )?(\d+)\/(\d+)$/.exec(name) ?? [];
  return above === undefined ? null : Number(whole) + Number(above) / Number(below);
}

function calledInch(name: string): string {
  if (name.startsWith('#')) return `No. ${name.slice(1)}`;
  return /^[A-Z]$/.test(name) ? `letter ${name}` : `${name} in`;
}

function drillFor({ diameter, pitch, series, row }: Thread): Drill {
  if (row) {
    const size = row.drillSize ?? inchesOf(row.drill) ?? NaN;
    return {
      size: size * INCH,
      text: row.drillSize === null ? `${row.drill} in` : `${row.drillSize} in`,
      called: calledInch(row.drill),
      note: `common practice, from memory; another open list drills ${mm(row.other)}`,
    };
  }
  const listed = series === 'coarse' ? COARSE.find(([d]) => d === diameter)?.[2] : undefined;
  const size = listed ?? Number((diameter - pitch).toPrecision(12));
  return {
    size,
    text: `${size} mm`,
    called: mm(size),
    note: listed === undefined ? 'the diameter less the pitch, common practice' : 'ISO 2306, from memory',
  };
}

const tapDrill: Formula = {
  name: 'tap_drill',
  family: 'threads',
  title: 'Drill for a tapped hole',
  parameters: [THREAD],
  result: [
    field('drill', 'mm', 'diameter of the drill'),
    { ...field('called', '', 'what the drill is called'), words: true },
    HANDBOOK_FIELD,
    ENGAGED_FIELD,
    { ...field('note', '', 'where the drill comes from'), words: true },
  ],
  compute: (given) =>
    withThread(given, (thread) => {
      const { size, called, note } = drillFor(thread);
      return { drill: size, called, ...percents(thread, size), note };
    }),
  working: (given) =>
    stepsOf(given, (thread) => {
      const { text, called, note } = drillFor(thread);
      return [{ name: 'drill', expression: text, words: `${called}: ${note}` }, ...PERCENT_STEPS];
    }),
  why:
    'The last tenths of a full thread add little strength and most of the force that breaks taps, so the hole is drilled ' +
    'larger than the bore of the profile. Two ways of counting are in use: a drill of the diameter less the pitch is 77 % ' +
    'by inch handbooks and 92 % of the height that ISO counts. Drills cut large: try in scrap where it matters.',
  conditions: [],
  source:
    'metric coarse: ISO 2306, from memory; fine: diameter less pitch; unified: common practice, from memory',
  cautions: ['drilling'],
  picture: null,
  checks: [
    {
      call: 'tap_drill(M6)',
      expect: { drill: 5, handbook: 76.98, engaged: 92.376, called: '5 mm' },
      tolerance: 0.001,
      source: 'ISO 2306; percentages worked with a computer algebra system',
    },
    {
      call: 'tap_drill(1/4-20 UNC)',
      expect: { drill: 5.1054, handbook: 75.4404, engaged: 90.5285, called: 'No. 7' },
      tolerance: 0.0001,
      source: 'number 7 drill of 0.201 in; percentages worked with a computer algebra system',
    },
    {
      call: 'tap_drill(M30x1.5)',
      expect: {
        drill: 28.5,
        handbook: 76.98,
        engaged: 92.376,
        note: 'the diameter less the pitch, common practice',
      },
      tolerance: 0.001,
      source: 'table of fine threads worked apart from the project',
    },
  ],
};

const DRILL = length('drill', 'diameter of the hole before tapping');

/** The hole must leave some thread. Without a thread there is nothing to hold it against. */
const leavesThread = must(
  'drill',
  'the hole is smaller than the thread',
  (given) => {
    const thread = threadOf(given);
    return 'refused' in thread || given.number('drill') < thread.diameter;
  },
  (given) => {
    const thread = threadOf(given);
    if ('refused' in thread) return thread.refused;
    const { name, diameter, pitch } = thread;
    return (
      `A hole of ${mm(given.number('drill'))} leaves nothing of ${name}: give a drill below ${mm(diameter)}; the bore of ` +
      `the profile is ${mm(boreDiameter(diameter, pitch))}.`
    );
  },
);

const threadPercent: Formula = {
  name: 'thread_percent',
  family: 'threads',
  title: 'How much thread a hole leaves',
  parameters: [THREAD, DRILL],
  result: [HANDBOOK_FIELD, ENGAGED_FIELD],
  compute: (given) => withThread(given, (thread) => percents(thread, given.number('drill'))),
  working: (given) => stepsOf(given, () => PERCENT_STEPS),
  why:
    'A drill at hand may serve in the place of the one in the table. Between about 60 and 80 % by the handbook count a ' +
    'thread holds as well as it can and taps last; more than the bore of the profile allows is pressed or torn, not cut.',
  conditions: [...positive(DRILL), leavesThread],
  source: 'definitions: inch handbooks count 1.299 pitches, ISO 68-1 has 1.083; the range is common practice',
  cautions: ['drilling'],
  picture: null,
  checks: [
    {
      call: 'thread_percent(1/2-13 UNC, 27/64 in)',
      expect: { handbook: 78.1827, engaged: 93.8192 },
      tolerance: 0.001,
      source: 'worked with a computer algebra system',
    },
    {
      call: 'thread_percent(M6, 5 mm)',
      expect: { handbook: 76.98, engaged: 92.376 },
      tolerance: 0.001,
      source: 'worked with a computer algebra system',
    },
  ],
};

const WANTED = { ...DRILL, name: 'engaged', unit: '%', meaning: 'part of the ISO height wanted' };

const drillForPercent: Formula = {
  name: 'drill_for_thread',
  family: 'threads',
  title: 'Hole that leaves so much of a thread',
  parameters: [THREAD, WANTED],
  result: [
    field('drill', 'mm', 'diameter of the hole'),
    field('handbook', '%', 'the same part as inch handbooks count it'),
  ],
  compute: (given) =>
    withThread(given, (thread) => {
      const drill = thread.diameter - (given.number('engaged') / PERCENT) * ENGAGED * thread.pitch;
      return { drill, handbook: percents(thread, drill).handbook };
    }),
  working: (given) =>
    stepsOf(given, () => [
      {
        name: 'drill',
        expression: 'diameter - engaged * 5 / 8 * sqrt(3) * pitch',
        words: 'that part of the height in on both sides',
      },
      { name: 'handbook', expression: 'engaged * 5 / 6', words: 'handbooks count a sixth more height' },
    ]),
  why:
    'Tough metals, deep holes and small taps want less thread: 65 to 75 % of the ISO height turns far easier and still ' +
    'breaks the screw first in steel. Take the next drill up from the size found.',
  conditions: [
    ...positive(WANTED),
    must(
      'engaged',
      'at most the whole height is asked',
      (given) => given.number('engaged') <= PERCENT,
      (given) =>
        `${shown(given.number('engaged'), '%')} is more thread than there is: give at most ${PERCENT}%.` +
        missingSign(given.number('engaged')),
    ),
  ],
  source:
    'definition of the percentage over the 5/8 of the triangle of ISO 68-1; advice: common practice, from memory',
  cautions: ['drilling'],
  picture: null,
  checks: [
    {
      call: 'drill_for_thread(M6, 92.376%)',
      expect: { drill: 5, handbook: 76.98 },
      tolerance: 1e-4,
      source: 'the worked percentage of a 5 mm drill, gone back',
    },
    {
      call: 'drill_for_thread(1/4-20 UNC, 90.5285%)',
      expect: { drill: 5.1054, handbook: 75.4404 },
      tolerance: 1e-4,
      source: 'the worked percentage of a number 7 drill, gone back',
    },
  ],
};

export const TAP_DRILL_FORMULAS: readonly Formula[] = [tapDrill, threadPercent, drillForPercent];
