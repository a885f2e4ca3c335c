/** Where and at what height a ring first touches the blank of a ball, from above. */
import {
  degrees,
  field,
  length,
  mm,
  must,
  notNegative,
  optional,
  positive,
  quantity,
  radians,
  shown,
} from './build';
import type { Condition, Formula, Given, Step } from './formula';

export const BALL = length('ball', 'diameter the ball is to have');
export const RING = length('ring', "diameter of the tip's circle, as a boss cut with it measures; sharp tip");
export const TILT = quantity('tilt', '°', 'tilt of the work above level, free end up');
export const BLANK = length('blank', 'diameter of the blank where the ball will be');
export const END = length('end_to_centre', "along the bar, from the blank's end face to the ball's centre");
export const CHAMFER = optional(
  length('chamfer', 'leg of a 45° chamfer on the corner of the end; a sharp corner when left out'),
);
export const SHOULDER = optional(
  length(
    'shoulder',
    "along the bar, from the ball's centre back to where the blank steps down to the shank; when left out the blank " +
      'runs on behind',
  ),
);

/** What a ring coming down meets, as plain numbers; the tilt in radians, radii not diameters. */
interface Blank {
  readonly ring: number;
  readonly tilt: number;
  readonly side: number;
  readonly end: number;
  readonly chamfer: number;
  readonly shoulder: number;
}

export function blankOf(given: Given): Blank {
  return {
    ring: given.number('ring') / 2,
    tilt: radians(given.number('tilt')),
    side: given.number('blank') / 2,
    end: given.number('end_to_centre'),
    chamfer: given.numberOr('chamfer', 0),
    shoulder: given.numberOr('shoulder', Infinity),
  };
}

/** A place of the blank that the ring can touch first. */
interface Place extends Step {
  readonly height: number;
  readonly where: string;
}

const WHERE = { end: 'the corner of the end', back: 'the bar behind the ball, at the back of the ring' };

/** Touched where it passes the ring's edge on its way round: as far from the centre there as anywhere. */
function passing(name: string, along: number, across: number, b: Blank, text: string, where: string): Place {
  return {
    name,
    height: Math.sqrt(along ** 2 + across ** 2 - b.ring ** 2),
    expression: `sqrt(${text} - (ring / 2)^2)`,
    words: `${where} passes the ring's edge as it turns: a right triangle on its distance from the centre`,
    where,
  };
}

function sharpEnd(b: Blank): Place {
  const [sin, cos] = [Math.sin(b.tilt), Math.cos(b.tilt)];
  if (b.end * cos - b.side * sin <= b.ring)
    return passing('front', b.end, b.side, b, 'end_to_centre^2 + (blank / 2)^2', WHERE.end);
  return {
    name: 'front',
    height: b.end * sin + b.side * cos,
    expression: 'end_to_centre * sin(tilt) + blank / 2 * cos(tilt)',
    words: 'the corner of the end at its highest stands under the ring already',
    where: WHERE.end,
  };
}

/** A chamfered end has two corners, and the cone between them where its top line crosses the ring. */
function chamferedEnd(b: Blank): readonly Place[] {
  const [sin, cos] = [Math.sin(b.tilt), Math.cos(b.tilt)];
  const inner = b.side - b.chamfer;
  const along = b.end - b.chamfer;
  if (along * cos - b.side * sin > b.ring)
    return [
      {
        name: 'front',
        height: along * sin + b.side * cos,
        expression: '(end_to_centre - chamfer) * sin(tilt) + blank / 2 * cos(tilt)',
        words: 'the corner behind the chamfer at its highest stands under the ring already',
        where: WHERE.end,
      },
    ];
  const behind = passing(
    'front',
    along,
    b.side,
    b,
    '(end_to_centre - chamfer)^2 + (blank / 2)^2',
    'the corner behind the chamfer',
  );
  if (b.end * cos - inner * sin > b.ring)
    return [
      behind,
      {
        name: 'cone',
        height: (b.end + inner - b.ring * (cos - sin)) / (cos + sin),
        expression:
          '(end_to_centre + blank / 2 - chamfer - ring / 2 * (cos(tilt) - sin(tilt))) / (cos(tilt) + sin(tilt))',
        words: 'the top of the chamfer where it crosses the ring',
        where: 'the chamfer',
      },
    ];
  if (b.end * cos + inner * sin < b.ring) return [behind];
  const before = passing(
    'face',
    b.end,
    inner,
    b,
    'end_to_centre^2 + (blank / 2 - chamfer)^2',
    'the corner before the chamfer',
  );
  return [behind, before];
}

function back(b: Blank): Place {
  const [sin, cos] = [Math.sin(b.tilt), Math.cos(b.tilt)];
  if (b.shoulder * cos + b.side * sin <= b.ring)
    return passing('back', b.shoulder, b.side, b, 'shoulder^2 + (blank / 2)^2', 'the corner of the shoulder');
  return {
    name: 'back',
    height: b.side / cos - b.ring * Math.tan(b.tilt),
    expression: 'blank / 2 / cos(tilt) - ring / 2 * tan(tilt)',
    words: 'the top of the blank where it crosses the ring behind the ball',
    where: WHERE.back,
  };
}

function places(b: Blank): readonly Place[] {
  return [...(b.chamfer > 0 ? chamferedEnd(b) : [sharpEnd(b)]), back(b)];
}

const highest = (all: readonly Place[]): Place => all.reduce((a, b) => (b.height > a.height ? b : a));

/** Height of the ring's plane above the ball's centre at first touch, in mm, and what it touches. */
export function touch(given: Given): Place {
  return highest(places(blankOf(given)));
}

/** Height of a sharp ring's plane when the ball is to size, in mm. */
export function finalHeight(given: Given): number {
  return Math.sqrt(given.number('ball') ** 2 - given.number('ring') ** 2) / 2;
}

/** The steps to `height` and `travel`. */
export function touchWorking(given: Given): readonly Step[] {
  const all = places(blankOf(given));
  return [
    ...all.map(({ name, expression, words }) => ({ name, expression, words })),
    {
      name: 'height',
      expression: `max(${all.map(({ name }) => name).join(', ')})`,
      words: 'the highest of these is touched first',
    },
    {
      name: 'travel',
      expression: 'height - sqrt(ball^2 - ring^2) / 2',
      words: 'down to the height at which the ball is to size',
    },
  ];
}

/**
 * Tilts at which the height of the touch turns round: a corner points straight up or comes to stand on the ring, the top
 * of chamfer or bar turns, or another place is touched first.
 */
export function turningTilts(given: Given): readonly number[] {
  const b = blankOf(given);
  const corners = [
    [b.end, b.side - b.chamfer],
    [b.end - b.chamfer, b.side],
    [b.shoulder, b.side],
  ] as const;
  const ofCorners = corners.flatMap(([along, across]) => {
    const [slope, meets] = [Math.atan2(across, along), Math.acos(b.ring / Math.hypot(along, across))];
    return [Math.PI / 2 - slope, Math.abs(meets - slope)];
  });
  const chamferTop = Math.acos((Math.SQRT2 * b.ring) / (b.end + b.side - b.chamfer)) - Math.PI / 4;
  const turns = [...ofCorners, chamferTop, Math.asin(b.ring / b.side), ...takeovers(b)];
  return turns.filter((turn) => Number.isFinite(turn)).map(degrees);
}

/** In degrees. */
const MOST_TILT = 45;
/** Step, in radians, in which the tilts are looked through for one place taking over from another. */
const LOOK = radians(0.5);

function takeovers(b: Blank): readonly number[] {
  const first = (tilt: number): string => highest(places({ ...b, tilt })).name;
  const found: number[] = [];
  for (let from = 0; from < radians(MOST_TILT); from += LOOK) {
    let [low, high] = [from, from + LOOK];
    const before = first(low);
    if (first(high) === before) continue;
    for (let halved = 0; halved < 40; halved++) {
      const middle = (low + high) / 2;
      if (first(middle) === before) low = middle;
      else high = middle;
    }
    found.push(low);
  }
  return found;
}

export const TOUCH_CONDITIONS: readonly Condition[] = [
  ...positive(BALL, RING, BLANK, END, SHOULDER),
  ...notNegative(CHAMFER),
  must(
    'ring',
    'the ring is no larger than the ball',
    (given) => given.number('ring') <= given.number('ball'),
    (given) =>
      `A ring of ${mm(given.number('ring'))} makes no ball smaller than itself: set one of ` +
      `${mm(given.number('ball'))} or less.`,
  ),
  must(
    'tilt',
    'the tilt is from 0° to 45°',
    (given) => given.number('tilt') >= 0 && given.number('tilt') <= MOST_TILT,
    (given) =>
      `A tilt of ${shown(given.number('tilt'), '°')} is no set-up for this: give one from 0° to 45°.`,
  ),
  must(
    'blank',
    'the ball fits into the blank',
    (given) => given.number('blank') >= given.number('ball'),
    (given) => `A ball of ${mm(given.number('ball'))} needs a blank of at least ${mm(given.number('ball'))}.`,
  ),
  must(
    'chamfer',
    "the chamfer stays on the end face and short of the ball's centre",
    (given) => {
      const b = blankOf(given);
      return b.chamfer < b.side && b.chamfer < b.end;
    },
    (given) => {
      const b = blankOf(given);
      return `A chamfer of ${mm(b.chamfer)} leaves no end face or reaches the centre: give one below ${mm(Math.min(b.side, b.end))}.`;
    },
  ),
];

const firstTouch: Formula = {
  name: 'first_touch',
  family: 'ball',
  title: 'Where the ring first touches the blank, and the knee travel from there',
  parameters: [BALL, RING, TILT, BLANK, END, CHAMFER, SHOULDER],
  result: [
    field(
      'height',
      'mm',
      "plane of the ring above the ball's centre when it first touches the turning blank",
    ),
    field('travel', 'mm', 'how far the knee goes up from there until the ball is to size'),
    { ...field('where', '', 'what it touches first'), words: true },
  ],
  compute: (given) => {
    const { height, where } = touch(given);
    return { height, travel: height - finalHeight(given), where };
  },
  working: touchWorking,
  why:
    "What stands furthest from the ball's centre meets the ring first: the corner of the end, or a bar that runs on at " +
    'full size behind the ball. It is struck once in every turn of the work, so turn the work a full turn by hand at this ' +
    'height. A chamfer and a shank turned down first save most of the knocking.',
  conditions: TOUCH_CONDITIONS,
  source:
    'own derivation, plane and sphere geometry; confirmed by brute force over the surface of the blank. The corner of a ' +
    'shoulder is counted as sharp: a chamfer there only makes the touch later',
  cautions: ['by_hand_first', 'interrupted_cut', 'knee'],
  picture: null,
  checks: [
    {
      call: 'first_touch(30 mm, 29.367189 mm, 11.789089°, 32 mm, 15.5 mm, chamfer: 6 mm, shoulder: 11 mm)',
      expect: { height: 12.704, travel: 9.639355, where: 'the corner of the shoulder' },
      tolerance: 0.002,
      source: "brute force: every place of a sampled blank, at every part of a turn, above the ring's edge",
    },
    {
      call: 'first_touch(30 mm, 29.367189 mm, 11.789089°, 30 mm, 15 mm)',
      expect: { height: 15.3098, where: 'the corner of the end' },
      tolerance: 0.002,
      source: "brute force: every place of a sampled blank, at every part of a turn, above the ring's edge",
    },
    {
      call: 'first_touch(30 mm, 29.367189 mm, 11.789089°, 30 mm, 20 mm)',
      expect: { height: 18.769788 },
      tolerance: 1e-5,
      source: "brute force: every place of a sampled blank, at every part of a turn, above the ring's edge",
    },
    {
      call: 'first_touch(30 mm, 29.367189 mm, 11.789089°, 30 mm, 19.5 mm, chamfer: 4 mm)',
      expect: { height: 16.1641, where: 'the chamfer' },
      tolerance: 0.002,
      source: "brute force: every place of a sampled blank, at every part of a turn, above the ring's edge",
    },
  ],
  extremes: { tilt: turningTilts },
};

export const TOUCH_FORMULAS: readonly Formula[] = [firstTouch];
