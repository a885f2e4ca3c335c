/** Roughing and stock for a ball: a row of chamfers, what is cut away, how long a blank. */
import {
  field,
  firstItems,
  length,
  listed,
  mm,
  must,
  notNegative,
  optional,
  positive,
  single,
} from './build';
import type { Condition, Formula, Given, Parameter } from './formula';

const BALL = length('ball', 'diameter of the ball');
const NECK = length('neck', 'diameter of the shank where it meets the ball');
const BLANK = length('blank', 'diameter of the blank');
const ALLOWANCE = length('allowance', 'stock left over the ball at the nearest place of each chamfer');
const EXTRA = optional(length('extra', 'stock left on the free end; none when left out'));
const CHAMFERS: Parameter = {
  name: 'chamfers',
  kind: 'count',
  unit: '',
  meaning: 'how many chamfers between the end face and the side',
};

const OWN = 'own derivation, plane and sphere geometry';
const MOST = 30;

const neckFits: Condition = must(
  'neck',
  'the neck is smaller than the ball',
  (given) => given.number('neck') < given.number('ball'),
  (given) => `Give a neck below the ball's ${mm(given.number('ball'))}.`,
);

interface Chamfers {
  readonly pitch: number;
  readonly stock: number;
  readonly angles: readonly number[];
  readonly depths: readonly number[];
  readonly diameters: readonly number[];
}

function chamfers(given: Given): Chamfers {
  const [ball, outer, count] = [
    given.number('ball') / 2,
    given.number('allowance'),
    given.number('chamfers'),
  ];
  const pitch = 90 / (count + 1);
  const half = (pitch / 360) * Math.PI;
  const corner = (ball + outer) / Math.cos(half);
  const at = Array.from({ length: count + 1 }, (_, i) => (2 * i + 1) * half);
  return {
    pitch,
    stock: corner - ball,
    angles: Array.from({ length: count }, (_, i) => (i + 1) * pitch),
    depths: at.map((angle) => ball + outer - corner * Math.cos(angle)),
    diameters: at.map((angle) => 2 * corner * Math.sin(angle)),
  };
}

const chamferSteps: Formula = {
  name: 'chamfer_steps',
  family: 'ball',
  title: 'Roughing a ball with equal chamfers from end face to side',
  parameters: [BALL, ALLOWANCE, CHAMFERS],
  result: [
    field('pitch', '°', 'from each chamfer to the next'),
    field('stock', 'mm', 'most that is left over the ball, at the corners between them'),
    listed('angles', '°', 'slope of each chamfer against the end face, from the end to the side'),
    listed('depths', 'mm', 'from the end face, the allowance over the ball, to each corner'),
    listed('diameters', 'mm', 'diameter at each corner'),
  ],
  compute: (given) => ({ ...chamfers(given) }),
  working: (given) => {
    const count = given.number('chamfers');
    const turned = (i: number): string => `${(2 * i + 1) / 2} * pitch`;
    return [
      { name: 'pitch', expression: '90° / (chamfers + 1)', words: 'a quarter turn in equal parts' },
      {
        name: 'corner',
        expression: '(ball / 2 + allowance) / cos(pitch / 2)',
        words: "from the ball's centre out to each corner",
      },
      { name: 'stock', expression: 'corner - ball / 2', words: 'less the radius of the ball' },
      {
        name: 'angles',
        expression: firstItems(count, (i) => `${i + 1} * pitch`),
        words: 'one pitch after another, and so on',
      },
      {
        name: 'depths',
        expression: firstItems(count + 1, (i) => `ball / 2 + allowance - corner * cos(${turned(i)})`),
        words: 'from the end face back to each corner, and so on',
      },
      {
        name: 'diameters',
        expression: firstItems(count + 1, (i) => `2 * corner * sin(${turned(i)})`),
        words: 'across the bar at each corner, and so on',
      },
    ];
  },
  why:
    'Straight cuts that all just clear the ball leave only the corners between them. Twice as many leave about a quarter: ' +
    'three chamfers bring a ball of 22 mm to within a quarter of a millimetre, and the ring has hardly anything left to knock ' +
    'off.',
  conditions: [
    ...positive(BALL),
    ...notNegative(ALLOWANCE),
    must(
      'chamfers',
      `there are no more than ${MOST} chamfers`,
      (given) => given.number('chamfers') <= MOST,
      (given) =>
        `Nobody sets ${given.number('chamfers')} chamfers by hand: give ${MOST} or fewer, or turn it in steps.`,
    ),
  ],
  source: `${OWN}; confirmed by meeting points of touching lines`,
  cautions: ['lathe', 'interrupted_cut'],
  picture: null,
  checks: [
    {
      call: 'chamfer_steps(22 mm, 0 mm, 3)',
      expect: {
        pitch: 22.5,
        stock: 0.215502740292,
        angles: [22.5, 45.0, 67.5],
        depths: [0.0, 1.6746502848, 4.7690005291, 8.8119639588],
        diameters: [4.3760720824, 12.4619989417, 18.6506994305, 22.0],
      },
      tolerance: 1e-9,
      source: 'meeting points of two touching lines, solved as linear equations',
    },
    {
      call: 'chamfer_steps(30 mm, 0.3 mm, 2)',
      expect: {
        stock: 0.839725560274,
        depths: [0.0, 4.0996226442, 11.2003773558],
        diameters: [8.1992452884, 22.4007547116, 30.6],
      },
      tolerance: 1e-9,
      source: 'meeting points of two touching lines, solved as linear equations',
    },
  ],
};

interface Stock {
  readonly volume: number;
  readonly removed: number;
  readonly neck_to_end: number;
}

function stock(given: Given): Stock {
  const radius = given.number('ball') / 2;
  const behind = Math.sqrt(radius ** 2 - (given.number('neck') / 2) ** 2);
  const volume = Math.PI * ((2 * radius ** 3) / 3 + radius ** 2 * behind - behind ** 3 / 3);
  const along = radius + behind;
  const bar = (Math.PI / 4) * given.number('blank') ** 2 * (along + given.numberOr('extra', 0));
  return { volume, removed: bar - volume, neck_to_end: along };
}

const ballStock: Formula = {
  name: 'ball_stock',
  family: 'ball',
  title: 'Volume of a ball on a shank, and what is cut away for it',
  parameters: [BALL, NECK, BLANK, EXTRA],
  result: [
    field('volume', 'mm^3', 'of the ball from its free end to the neck'),
    field('removed', 'mm^3', 'cut from the blank over that length and the extra'),
    field('neck_to_end', 'mm', 'along the bar, from where ball meets neck to the free end'),
  ],
  compute: (given) => ({ ...stock(given) }),
  working: (given) => [
    {
      name: 'behind',
      expression: 'sqrt(ball^2 - neck^2) / 2',
      words: "from the ball's centre back to the neck",
    },
    {
      name: 'volume',
      expression: 'pi * (ball^3 / 12 + ball^2 / 4 * behind - behind^3 / 3)',
      words: 'half a ball, and the slice from its widest place to the neck',
    },
    { name: 'neck_to_end', expression: 'ball / 2 + behind', words: 'centre to end, and centre to neck' },
    {
      name: 'removed',
      expression: `pi / 4 * blank^2 * ${given.has('extra') ? '(neck_to_end + extra)' : 'neck_to_end'} - volume`,
      words: 'the bar over that length, less the ball',
    },
  ],
  why:
    'Nearly half of a bar goes into chips where a ball comes out of it. Most of that stands at the corners, where the lathe ' +
    'takes it off in smooth cuts far sooner than the ring does in knocks.',
  conditions: [
    ...positive(BALL, NECK, BLANK),
    ...notNegative(EXTRA),
    neckFits,
    must(
      'blank',
      'the ball fits into the blank',
      (given) => given.number('blank') >= given.number('ball'),
      (given) =>
        `A ball of ${mm(given.number('ball'))} needs a blank of at least ${mm(given.number('ball'))}.`,
    ),
  ],
  source: `${OWN}; confirmed by numeric integration`,
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'ball_stock(30 mm, 12 mm, 32 mm, extra: 0.5 mm)',
      expect: { volume: 14065.3243335, removed: 9457.09346972, neck_to_end: 28.7477270849 },
      tolerance: 0.001,
      source: 'numeric integration',
    },
    {
      call: 'ball_stock(25 mm, 10 mm, 25 mm)',
      expect: { volume: 8139.65528562, removed: 3619.934326, neck_to_end: 23.9564392374 },
      tolerance: 0.001,
      source: 'numeric integration',
    },
  ],
};

const SHANK = length('shank_length', 'shank from the neck to where it is held');
const GRIP = length('grip', 'length held in the chuck');

const blankLength: Formula = {
  name: 'ball_blank_length',
  family: 'ball',
  title: 'Shortest blank for a ball on a shank',
  parameters: [BALL, NECK, SHANK, GRIP, EXTRA],
  result: [single('mm', 'length of the blank, without the saw cut')],
  compute: (given) =>
    given.number('ball') / 2 +
    Math.sqrt(given.number('ball') ** 2 - given.number('neck') ** 2) / 2 +
    given.number('shank_length') +
    given.number('grip') +
    given.numberOr('extra', 0),
  working: (given) => [
    {
      name: 'neck_to_end',
      expression: 'ball / 2 + sqrt(ball^2 - neck^2) / 2',
      words: 'centre to free end, and centre to neck',
    },
    {
      name: '',
      expression: `neck_to_end + shank_length + grip${given.has('extra') ? ' + extra' : ''}`,
      words: 'with shank, grip and what stays on the end',
    },
  ],
  why:
    'The ball begins where it meets the neck, not at its widest place, so it takes less than its diameter of the bar. Leave ' +
    'enough shank that the chuck stays clear under the cutter: `clearance_under_ring` says how much.',
  conditions: [...positive(BALL, NECK, GRIP), ...notNegative(SHANK, EXTRA), neckFits],
  source: `${OWN}; confirmed by coordinates`,
  cautions: ['saw'],
  picture: null,
  checks: [
    {
      call: 'ball_blank_length(30 mm, 12 mm, 40 mm, 25 mm, extra: 0.5 mm)',
      expect: { '': 94.2477270849 },
      tolerance: 1e-9,
      source: 'coordinates of the neck: 15, 13.748 and what was added',
    },
    {
      call: 'ball_blank_length(25 mm, 15 mm, 30 mm, 20 mm)',
      expect: { '': 72.5 },
      tolerance: 1e-9,
      source: 'right triangle of 15, 20 and 25: 12.5, 10, 30 and 20',
    },
  ],
};

export const ROUGH_FORMULAS: readonly Formula[] = [chamferSteps, ballStock, blankLength];
