/** What must clear the cutter: chuck, collar and bar under the plane of the ring, the blank inside it. */
import { RING } from './ball-touch';
import {
  field,
  length,
  mm,
  must,
  notNegative,
  optional,
  positive,
  quantity,
  radians,
  should,
  shown,
} from './build';
import type { Condition, Formula, Given } from './formula';

const HEIGHT = length('height', "lowest point of the cutter above the ball's centre at the end");
const TILT = quantity('tilt', '°', 'tilt of the work above level, free end up');
const BEHIND = length('behind_centre', "along the bar, from the ball's centre back to the face of the body");
const BODY = length('body', 'diameter of chuck, collar, jaws or shoulder there');

const OWN = 'own derivation, plane and sphere geometry';

const sine = (given: Given): number => Math.sin(radians(given.number('tilt')));
const cosine = (given: Given): number => Math.cos(radians(given.number('tilt')));

const TILTED: Condition = must(
  'tilt',
  'the tilt is more than 0° and less than 90°',
  (given) => given.number('tilt') > 0 && given.number('tilt') < 90,
  (given) =>
    `At ${shown(given.number('tilt'), '°')} the bar does not fall away under the ring: give a tilt between 0° and 90°.`,
);

function room(given: Given): { clearance: number; largest_body: number; nearest: number } {
  const [sin, cos] = [sine(given), cosine(given)];
  const [height, behind, body] = [
    given.number('height'),
    given.number('behind_centre'),
    given.number('body'),
  ];
  return {
    clearance: height + behind * sin - (body / 2) * cos,
    largest_body: (2 * (height + behind * sin)) / cos,
    nearest: ((body / 2) * cos - height) / sin,
  };
}

const clearance: Formula = {
  name: 'clearance_under_ring',
  family: 'ball',
  title: 'Clearance of chuck, collar or shoulder under the cutter',
  parameters: [HEIGHT, TILT, BEHIND, BODY],
  result: [
    field(
      'clearance',
      'mm',
      'between the body at its highest and the plane of the ring; negative when they strike',
    ),
    field('largest_body', 'mm', 'diameter that would just touch the plane there'),
    field(
      'nearest',
      'mm',
      'how near behind the centre this body would just touch; negative when it may stand anywhere',
    ),
  ],
  compute: room,
  working: () => [
    {
      name: 'clearance',
      expression: 'height + behind_centre * sin(tilt) - body / 2 * cos(tilt)',
      words: 'how far the bar has fallen below the ring there, less how far the body stands up from it',
    },
    {
      name: 'largest_body',
      expression: '2 * (height + behind_centre * sin(tilt)) / cos(tilt)',
      words: 'the body for which nothing would be left',
    },
    {
      name: 'nearest',
      expression: '(body / 2 * cos(tilt) - height) / sin(tilt)',
      words: 'the place at which nothing would be left',
    },
  ],
  why:
    'Tool, body of the boring head and their whole circle stand at the plane of the ring or above, so whatever stays below ' +
    'that plane is clear of them however wide they are. The bar falls away to the rear with the tilt, which gives room the ' +
    'further back the chuck stands; but the work then hangs out further, so take only the room that is needed.',
  conditions: [
    ...positive(BODY),
    ...notNegative(HEIGHT, BEHIND),
    TILTED,
    should(
      'behind_centre',
      'the body stays below the plane of the ring',
      (given) => room(given).clearance > 0,
      (given) =>
        `The body stands ${mm(-room(given).clearance)} into the plane of the ring: bring its face more than ` +
        `${mm(room(given).nearest)} behind the centre, or use one below ${mm(room(given).largest_body)} across.`,
    ),
  ],
  source: `${OWN}; confirmed by a sampled circle`,
  cautions: ['by_hand_first', 'ball_on_mill', 'crank'],
  picture: null,
  checks: [
    {
      call: 'clearance_under_ring(2.55387054612 mm, 11.7890892391°, 35 mm, 16 mm)',
      expect: { clearance: 1.87345757179, largest_body: 19.8276544896, nearest: 25.8303027798 },
      tolerance: 1e-6,
      source: 'sampled circle, and numeric roots on it',
    },
    {
      call: 'clearance_under_ring(3.064645 mm, 11.789089°, 40 mm, 50 mm)',
      expect: { clearance: -13.2356272604, largest_body: 22.9583371278, nearest: 104.782196699 },
      tolerance: 1e-6,
      source: 'sampled circle, and numeric roots on it',
    },
  ],
};

const BALL = length('ball', 'diameter of the ball');
const BLANK = length('blank', 'diameter of the blank');
const END = length('end_to_centre', "along the bar, from the blank's end face to the ball's centre");
const CHAMFER = optional(
  length('chamfer', 'leg of a 45° chamfer on the corner of the end; a sharp corner when left out'),
);

/** Highest point of the turning blank above the ball's centre, in mm. */
function top(given: Given): number {
  const [side, end, chamfer] = [
    given.number('blank') / 2,
    given.number('end_to_centre'),
    given.numberOr('chamfer', 0),
  ];
  const [sin, cos] = [sine(given), cosine(given)];
  return Math.max(end * sin + (side - chamfer) * cos, (end - chamfer) * sin + side * cos);
}

const hollowDepth: Formula = {
  name: 'hollow_depth',
  family: 'ball',
  title: 'How deep the cutter must be hollow above its tip',
  parameters: [HEIGHT, TILT, BALL, BLANK, END, CHAMFER],
  result: [
    field('finished', 'mm', 'depth above the tip that the finished ball needs'),
    field('uncut', 'mm', 'depth that clears the blank even where nothing was cut yet'),
  ],
  compute: (given) => ({
    finished: given.number('ball') / 2 - given.number('height'),
    uncut: top(given) - given.number('height'),
  }),
  working: (given) => [
    {
      name: 'finished',
      expression: 'ball / 2 - height',
      words: 'from the plane of the ring to the top of the ball',
    },
    {
      name: 'uncut',
      expression: given.has('chamfer')
        ? 'max(end_to_centre * sin(tilt) + (blank / 2 - chamfer) * cos(tilt), ' +
          '(end_to_centre - chamfer) * sin(tilt) + blank / 2 * cos(tilt)) - height'
        : 'end_to_centre * sin(tilt) + blank / 2 * cos(tilt) - height',
      words: "from the plane of the ring to the top of the blank's corner as it turns",
    },
  ],
  why:
    'The ball grows into the hollow of the cutter while the tip works round it. A bar across, a clamp screw or the bottom of ' +
    'a boring head that sits lower than this rides on the ball before it is to size.',
  conditions: [
    ...positive(BALL, BLANK, END),
    ...notNegative(HEIGHT, CHAMFER),
    TILTED,
    must(
      'height',
      'the ring runs through the ball',
      (given) => given.number('height') < given.number('ball') / 2,
      (given) =>
        `The ring passes above a ball of ${mm(given.number('ball'))}: give a height below ${mm(given.number('ball') / 2)}.`,
    ),
    must(
      'chamfer',
      'the chamfer stays on both faces',
      (given) =>
        given.numberOr('chamfer', 0) < Math.min(given.number('blank') / 2, given.number('end_to_centre')),
      (given) =>
        `Give a chamfer below ${mm(Math.min(given.number('blank') / 2, given.number('end_to_centre')))}.`,
    ),
  ],
  source: `${OWN}; confirmed by a sampled surface`,
  cautions: ['by_hand_first', 'boring_head'],
  picture: null,
  checks: [
    {
      call: 'hollow_depth(3.064645 mm, 11.789089°, 30 mm, 30 mm, 15 mm)',
      expect: { finished: 11.935355, uncut: 14.6835943 },
      tolerance: 1e-5,
      source: 'highest point of a sampled blank',
    },
    {
      call: 'hollow_depth(3.064645 mm, 11.789089°, 30 mm, 32 mm, 15.5 mm, chamfer: 8 mm)',
      expect: { uncut: 14.1301783 },
      tolerance: 1e-5,
      source: 'highest point of a sampled blank',
    },
  ],
  // The higher of the two corners changes at 45°, and each is highest where it points straight up.
  extremes: {
    tilt: (given) => {
      const [side, end, c] = [
        given.number('blank') / 2,
        given.number('end_to_centre'),
        given.numberOr('chamfer', 0),
      ];
      const up = (along: number, across: number): number => (Math.atan2(along, across) * 180) / Math.PI;
      return [up(end, side - c), up(end - c, side), 45];
    },
  },
};

const STOCK = length('stock', 'diameter of the bar that runs on behind the neck');

function cone(given: Given): { neck: number; begins: number; ends: number; half_angle: number } {
  const [sin, cos] = [sine(given), cosine(given)];
  const [ring, height] = [given.number('ring') / 2, given.number('height')];
  return {
    half_angle: given.number('tilt'),
    neck: 2 * (height * cos + ring * sin),
    begins: ring * cos - height * sin,
    ends: ((given.number('stock') / 2) * cos - height) / sin,
  };
}

const coneBehind: Formula = {
  name: 'cone_behind_neck',
  family: 'ball',
  title: 'The cone that a flat-bottomed cutter leaves behind the neck',
  parameters: [RING, HEIGHT, TILT, STOCK],
  result: [
    field('half_angle', '°', 'slope of the cone against the bar'),
    field('neck', 'mm', 'diameter where it begins'),
    field('begins', 'mm', "along the bar, from the ball's centre back to where it begins"),
    field('ends', 'mm', "along the bar, from the ball's centre back to where it runs out into the stock"),
  ],
  compute: cone,
  working: () => [
    {
      name: 'half_angle',
      expression: 'tilt',
      words: 'the bar turns under a level plane, so the slope is the tilt',
    },
    {
      name: 'neck',
      expression: '2 * height * cos(tilt) + ring * sin(tilt)',
      words: "twice the distance from the work's axis to the ring's lower edge",
    },
    {
      name: 'begins',
      expression: 'ring / 2 * cos(tilt) - height * sin(tilt)',
      words: 'how far back that edge runs',
    },
    {
      name: 'ends',
      expression: '(stock / 2 * cos(tilt) - height) / sin(tilt)',
      words: 'where the top of the stock comes up to the plane of the ring',
    },
  ],
  why:
    'Behind the neck the underside of the cutter goes on cutting: stock larger than the neck is brought down to a cone as ' +
    'steep as the tilt. A tip that is relieved behind its edge leaves less of a cone and more of a shoulder. A shank turned ' +
    'down first leaves nothing there to cut.',
  conditions: [
    ...positive(RING, STOCK),
    ...notNegative(HEIGHT),
    TILTED,
    must(
      'tilt',
      "the ring runs below the ball's widest place",
      (given) => cone(given).begins > 0,
      (given) =>
        'The ring never comes down to the neck: keep the tilt below ' +
        `${shown((Math.atan2(given.number('ring'), 2 * given.number('height')) * 180) / Math.PI, '°')}, or the height below ` +
        `${mm(given.number('ring') / 2 / Math.tan(radians(given.number('tilt'))))}.`,
    ),
    must(
      'stock',
      'the stock is larger than the neck',
      (given) => given.number('stock') >= cone(given).neck,
      (given) =>
        `The ring leaves a neck of ${mm(cone(given).neck)}: stock of ${mm(given.number('stock'))} lies clear of it, ` +
        'and no cone is cut. Give the stock that is larger than the neck.',
    ),
  ],
  source: `${OWN}; confirmed by a level plane turned about the tilted axis`,
  cautions: ['by_hand_first'],
  picture: null,
  checks: [
    {
      call: 'cone_behind_neck(29.367189 mm, 3.064645 mm, 11.789089°, 20 mm)',
      expect: { half_angle: 11.789089, neck: 12.0000005, begins: 13.7477268, ends: 32.9128775 },
      tolerance: 1e-5,
      source: 'a level plane turned about the tilted axis, sampled; the edge of a sampled ring',
    },
    {
      call: 'cone_behind_neck(24.2 mm, 3.13687743 mm, 14°, 25 mm)',
      expect: { neck: 11.9419074, begins: 10.981699, ends: 37.1682733 },
      tolerance: 1e-5,
      source: 'a level plane turned about the tilted axis, sampled; the edge of a sampled ring',
    },
  ],
};

export const CLEARANCE_FORMULAS: readonly Formula[] = [clearance, hollowDepth, coneBehind];
