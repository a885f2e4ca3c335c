/** Hardness in one scale from another, and the strength of steel that goes with it. */
import { choice, must, positive, quantity, should, shown, single } from './build';
import type { Formula, Given, Refusal, Step } from './formula';

const SCALES = ['HV', 'HBW', 'HRC'] as const;
type Scale = (typeof SCALES)[number];

/**
 * Unalloyed and low alloy steel: tensile strength in MPa, Vickers, Brinell, Rockwell C. From memory of the table of DIN 50150
 * that ISO 18265 took over (table A.1). Null where the standard gives none; Brinell above 450 needs a ball of hard metal and
 * is uncertain.
 */
const ROWS: readonly (readonly [mpa: number | null, hv: number, hbw: number | null, hrc: number | null])[] = [
  [255, 80, 76, null],
  [320, 100, 95, null],
  [385, 120, 114, null],
  [450, 140, 133, null],
  [510, 160, 152, null],
  [575, 180, 171, null],
  [640, 200, 190, null],
  [705, 220, 209, null],
  [770, 240, 228, 20.3],
  [800, 250, 238, 22.2],
  [835, 260, 247, 24],
  [865, 270, 257, 25.6],
  [900, 280, 266, 27.1],
  [930, 290, 276, 28.5],
  [965, 300, 285, 29.8],
  [1030, 320, 304, 32.2],
  [1095, 340, 323, 34.4],
  [1155, 360, 342, 36.6],
  [1220, 380, 361, 38.8],
  [1290, 400, 380, 40.8],
  [1350, 420, 399, 42.7],
  [1420, 440, 418, 44.5],
  [1485, 460, 437, 46.1],
  [1555, 480, 456, 47.7],
  [1630, 500, 475, 49.1],
  [1700, 520, 494, 50.5],
  [1775, 540, 513, 51.7],
  [1845, 560, 532, 53],
  [1920, 580, 551, 54.1],
  [1995, 600, 570, 55.2],
  [2070, 620, 589, 56.3],
  [2145, 640, 608, 57.3],
  [null, 660, null, 58.3],
  [null, 680, null, 59.2],
  [null, 700, null, 60.1],
  [null, 720, null, 61],
  [null, 740, null, 61.8],
  [null, 760, null, 62.5],
  [null, 780, null, 63.3],
  [null, 800, null, 64],
  [null, 820, null, 64.7],
  [null, 840, null, 65.3],
  [null, 860, null, 65.9],
  [null, 880, null, 66.4],
  [null, 900, null, 67],
  [null, 920, null, 67.5],
  [null, 940, null, 68],
];

type Column = Scale | 'MPa';
const COLUMN: Readonly<Record<Column, 0 | 1 | 2 | 3>> = { MPa: 0, HV: 1, HBW: 2, HRC: 3 };

/** Pairs of the table in which both columns have a figure, rising. */
function pairs(from: Column, into: Column): readonly (readonly [number, number])[] {
  const [a, b] = [COLUMN[from], COLUMN[into]];
  return ROWS.flatMap((row) => {
    const [x, y] = [row[a], row[b]];
    return x === null || y === null ? [] : [[x, y] as const];
  });
}

interface Between {
  readonly low: readonly [number, number];
  readonly high: readonly [number, number];
}

function between(value: number, from: Column, into: Column): Between | null {
  const table = pairs(from, into);
  const next = table.findIndex(([x], i) => i > 0 && value <= x);
  const [low, high] = [table[next - 1], table[next]];
  return low && high && value >= low[0] ? { low, high } : null;
}

const HARDNESS = quantity('hardness', '', 'figure as read');
const SCALE = choice('scale', SCALES, 'scale it was read in: `HV` Vickers, `HBW` Brinell, `HRC` Rockwell C');
const INTO = choice('into', SCALES, 'scale that is wanted');

/** Brinell above this needs a ball of hard metal, and conversions scatter. */
const MOST_BRINELL = 450;

function converted(given: Given, into: Column): number | Refusal {
  const [value, scale] = [given.number('hardness'), given.code('scale') as Scale];
  const found = between(value, scale, into);
  if (found)
    return (
      found.low[1] +
      ((value - found.low[0]) * (found.high[1] - found.low[1])) / (found.high[0] - found.low[0])
    );
  const table = pairs(scale, into);
  const [least, most] = [table[0]?.[0], table.at(-1)?.[0]];
  return {
    refused: `The table goes from ${least} to ${most} ${scale} for ${into}, and this is ${shown(value, '')}: give one in that range, or test in the scale that is wanted.`,
    parameter: 'hardness',
  };
}

function steps(given: Given, into: Column, unit: string): readonly Step[] {
  const scale = given.code('scale') as Scale;
  const found = between(given.number('hardness'), scale, into);
  if (!found) return [];
  const { low, high } = found;
  return [
    {
      name: '',
      expression: `${low[1]}${unit} + (hardness - ${low[0]}) * ${high[1] - low[1]}${unit} / ${high[0] - low[0]}`,
      words: `between the lines ${low[0]} and ${high[0]} ${scale} of the table`,
    },
  ];
}

const WHY =
  'The scales press different bodies into the metal and measure different things, so no formula leads from one to the other: ' +
  'there are only tables, found by testing the same steel both ways. They hold for the steel they were found on, and even there ' +
  'a converted figure is good to about 3 % or 1 to 2 HRC.';

const SOURCE =
  'ISO 18265, table A.1 (unalloyed and low alloy steel), from memory; between its lines straight';

const conditions = [
  ...positive(HARDNESS),
  should(
    'hardness',
    'no more than 450 HBW',
    (given: Given) => given.code('scale') !== 'HBW' || given.number('hardness') <= MOST_BRINELL,
    () => 'Above 450 HBW the ball flattens and conversions scatter: test by Vickers or Rockwell C there.',
  ),
];

const conversion: Formula = {
  name: 'hardness_conversion',
  family: 'hardness',
  title: 'Hardness of steel in another scale, as a guide',
  parameters: [HARDNESS, SCALE, INTO],
  result: [single('', 'figure in the other scale; a guide, not a test')],
  compute: (given) => converted(given, given.code('into') as Scale),
  working: (given) => steps(given, given.code('into') as Scale, ''),
  why: WHY,
  conditions: [
    ...conditions,
    must(
      'into',
      'the scale wanted is another one',
      (given) => given.code('scale') !== given.code('into'),
      (given) => `\`${given.code('into')}\` is the scale it was read in already: name another.`,
    ),
  ],
  source: SOURCE,
  cautions: ['hardness'],
  picture: null,
  checks: [
    {
      call: 'hardness_conversion(300, HV, HRC)',
      expect: { '': 29.8 },
      tolerance: 1e-9,
      source: 'line of the table of DIN 50150, from memory',
    },
    {
      call: 'hardness_conversion(58, HRC, HV)',
      expect: { '': 654 },
      tolerance: 1e-9,
      source: 'seven tenths of the way from 57.3 to 58.3 HRC, worked on paper from 640 and 660 HV',
    },
    {
      call: 'hardness_conversion(210, HBW, HV)',
      expect: { '': 221.0526315789 },
      tolerance: 1e-9,
      source: 'rule of thumb, from memory: Brinell is 0.95 of Vickers',
    },
  ],
};

const strength: Formula = {
  name: 'strength_from_hardness',
  family: 'hardness',
  title: 'Tensile strength of steel from its hardness, as a guide',
  parameters: [HARDNESS, SCALE],
  result: [single('MPa', 'tensile strength; a guide, not a test')],
  compute: (given) => converted(given, 'MPa'),
  working: (given) => steps(given, 'MPa', ' MPa'),
  why: WHY,
  conditions,
  source: SOURCE,
  cautions: ['hardness'],
  picture: null,
  checks: [
    {
      call: 'strength_from_hardness(200, HV)',
      expect: { '': 640 },
      tolerance: 1e-9,
      source:
        'line of the table of DIN 50150, from memory; the rule of thumb of 3.2 times Vickers gives the same',
    },
    {
      call: 'strength_from_hardness(30, HRC)',
      expect: { '': 970.4166666667 },
      tolerance: 1e-9,
      source: 'a twelfth of the way from 29.8 to 32.2 HRC, worked on paper from 965 and 1030 MPa',
    },
  ],
};

export const HARDNESS_FORMULAS: readonly Formula[] = [conversion, strength];
