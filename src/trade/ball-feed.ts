/** Feeding the work round under the ring by the crank of the dividing head, and touching off on the tilted bar. */
import { NUMBER } from '../quantity/dimension';
import type { CardView } from '../quantity/value';
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
  shown,
  single,
} from './build';
import { isPositive } from './dial';
import type { Formula, Given, Parameter, Refusal } from './formula';

const BALL = length('ball', 'diameter of the ball');
const TILT = quantity('tilt', '°', 'tilt of the work above level, free end up');
const SPINDLE = quantity('spindle_speed', 'rpm', 'speed of the cutter');
const CRANK = quantity('crank_speed', 'rev/min', 'turns of the crank in a minute');
const HEAD: Parameter = {
  name: 'head',
  kind: 'machine',
  unit: '',
  meaning: 'machine card of the dividing head: `ratio`, turns of the crank for one of the work',
};
const NOSE = optional(length('nose_radius', "radius at the cutter's tip; a sharp tip when left out"));

const OWN = 'own derivation, plane and sphere geometry';

function ratioOf(card: CardView): number | Refusal {
  const ratio = card.fields.get('ratio');
  if (isPositive(ratio, NUMBER)) return ratio.value;
  return {
    refused: `The card of \`${card.name}\` needs a \`ratio\`, such as \`ratio = 40\`.`,
    parameter: 'head',
  };
}

const workFeed: Formula = {
  name: 'ball_work_feed',
  family: 'ball',
  title: 'Feed, time of a pass and finish when the work is cranked round under the ring',
  parameters: [BALL, TILT, SPINDLE, CRANK, HEAD, NOSE],
  result: [
    field('feed', 'mm/rev', "along the ball's widest place for each turn of the cutter"),
    field('pass_time', 'min', 'for one full turn of the work'),
    field('cusp', 'mm', 'height of the hatch that this feed leaves there'),
  ],
  compute: (given) => {
    const ratio = ratioOf(given.card('head'));
    if (typeof ratio === 'object') return ratio;
    const feed =
      (Math.PI * given.number('ball') * given.number('crank_speed')) / ratio / given.number('spindle_speed');
    const tilt = radians(given.number('tilt'));
    return {
      feed,
      pass_time: ratio / given.number('crank_speed'),
      cusp: given.has('nose_radius')
        ? feed ** 2 / (8 * given.number('nose_radius'))
        : feed * Math.sin(tilt) * Math.cos(tilt),
    };
  },
  working: (given) => {
    const ratio = ratioOf(given.card('head'));
    if (typeof ratio === 'object') return [];
    return [
      {
        name: 'work_speed',
        expression: `crank_speed / ${ratio}`,
        words: 'the worm takes that many turns of the crank',
      },
      {
        name: 'feed',
        expression: 'pi * ball / 1 rev * work_speed / spindle_speed',
        words: 'way round the ball in a minute, over the turns of the cutter in it',
      },
      { name: 'pass_time', expression: '1 rev / work_speed', words: 'one turn of the work' },
      {
        name: 'cusp',
        expression: given.has('nose_radius')
          ? '(feed * 1 rev)^2 / (8 * nose_radius)'
          : 'feed * 1 rev * sin(tilt) * cos(tilt)',
        words: given.has('nose_radius')
          ? 'between two rounds of the tip'
          : 'between two marks of a sharp square tip, that cross the ball at the tilt',
      },
    ];
  },
  why:
    'The crank is the feed: turned twice as fast, the hatch on the ball is twice as coarse. Marks that cross each other say ' +
    'that both sides of the ring cut and the axes meet; marks that all lean one way say that the cutter passes beside the ' +
    "work's axis. A nose on the tip makes far more of a finish than a slower hand. Towards end and neck the feed grows less.",
  conditions: [
    ...positive(BALL, SPINDLE, CRANK),
    ...notNegative(NOSE),
    must(
      'nose_radius',
      'a nose radius that is given is more than zero',
      (given) => !given.has('nose_radius') || given.number('nose_radius') > 0,
      () => 'Leave out `nose_radius` for a sharp tip.',
    ),
    must(
      'tilt',
      'the tilt is from 0° to 45°',
      (given) => given.number('tilt') >= 0 && given.number('tilt') <= 45,
      (given) =>
        `A tilt of ${shown(given.number('tilt'), '°')} is no set-up for this: give one from 0° to 45°.`,
    ),
  ],
  source: `${OWN}; one cutting edge. The feed worked out with a units program, the sharp tip's hatch measured on a solid model`,
  cautions: ['crank', 'ball_on_mill', 'speeds'],
  picture: null,
  checks: [
    {
      call: 'ball_work_feed(22 mm, 12.8276°, 600 rpm, 20 rev/min, head)',
      expect: { feed: 0.0575958653158, pass_time: 2 },
      tolerance: 1e-9,
      source: 'worked with a units library; 40 turns of the crank at 20 in a minute',
    },
    {
      call: 'ball_work_feed(30 mm, 11.789°, 450 rpm, 30 rev/min, head)',
      expect: { feed: 0.157079632679, pass_time: 1.3333333333333333 },
      tolerance: 1e-9,
      source: 'worked with a units library; 40 turns of the crank at 30 in a minute',
    },
    {
      call: 'ball_work_feed(22 mm, 12.8276°, 180 rpm, 40 rev/min, head)',
      expect: { cusp: 0.085 },
      tolerance: 0.005,
      source: 'hatch of 0.08 to 0.09 mm measured on a solid model cut in steps of 2°',
    },
    {
      call: 'ball_work_feed(20 mm, 12°, 500 rpm, 25 rev/min, head, nose_radius: 0.8 mm)',
      expect: { cusp: 0.0009644 },
      tolerance: 1e-5,
      source: 'numeric: where two circles of 0.8 mm meet, one feed apart',
    },
  ],
};

const END = length('end_to_centre', "along the bar, from the blank's end face to the ball's centre");
const BLANK = length('blank', 'diameter of the blank at its end');
const STYLUS = length('stylus', 'diameter of the tip of the edge finder or probe');
const CHAMFER = optional(
  length('chamfer', 'leg of a 45° chamfer on the corner of the end; a sharp corner when left out'),
);

const centreFromEnd: Formula = {
  name: 'ball_centre_from_end',
  family: 'ball',
  title: "Table travel from the end of a tilted bar, touched with a stylus, to the ball's centre",
  parameters: [END, TILT, BLANK, STYLUS, CHAMFER],
  result: [
    single(
      'mm',
      "in X, from where the stylus touches the end to where the spindle stands over the ball's centre",
    ),
  ],
  compute: (given) => {
    const tilt = radians(given.number('tilt'));
    const across = given.number('blank') / 2 - given.numberOr('chamfer', 0);
    return (
      given.number('end_to_centre') * Math.cos(tilt) + across * Math.sin(tilt) + given.number('stylus') / 2
    );
  },
  working: (given) => [
    {
      name: '',
      expression: given.has('chamfer')
        ? 'end_to_centre * cos(tilt) + (blank / 2 - chamfer) * sin(tilt) + stylus / 2'
        : 'end_to_centre * cos(tilt) + blank / 2 * sin(tilt) + stylus / 2',
      words:
        'the bar as seen from above, the low corner of its end that stands out beyond, and half the stylus',
    },
  ],
  why:
    'With the free end up, the low corner of the end stands out furthest, so that is what an edge finder brought up in X ' +
    "touches; let it reach down to that corner. From there the table goes the bar's length as seen from above, the corner's " +
    'overhang, and half of the stylus.',
  conditions: [
    ...positive(END, BLANK),
    ...notNegative(STYLUS, CHAMFER),
    must(
      'tilt',
      'the tilt is from 0° to 45°',
      (given) => given.number('tilt') >= 0 && given.number('tilt') <= 45,
      (given) =>
        `At ${shown(given.number('tilt'), '°')} another corner than the low one of the end stands out: give a tilt from 0° to 45°.`,
    ),
    must(
      'chamfer',
      'the chamfer leaves some of the end face',
      (given) => given.numberOr('chamfer', 0) < given.number('blank') / 2,
      (given) => `Give a chamfer below half of the blank, ${mm(given.number('blank') / 2)}.`,
    ),
  ],
  source: `${OWN}; confirmed by sampled corners of a tilted bar`,
  cautions: ['measuring', 'general'],
  picture: null,
  checks: [
    {
      call: 'ball_centre_from_end(15.5 mm, 11.789089°, 32 mm, 6 mm)',
      expect: { '': 21.4420020973 },
      tolerance: 1e-8,
      source: 'furthest point of a sampled end, tilted',
    },
    {
      call: 'ball_centre_from_end(15.5 mm, 11.789089°, 32 mm, 6 mm, chamfer: 8 mm)',
      expect: { '': 19.8075249805 },
      tolerance: 1e-8,
      source: 'furthest point of a sampled end, tilted',
    },
  ],
  extremes: { tilt: lowCorner },
};

/** The corner stands out furthest when it points straight along the table. */
function lowCorner(given: Given): readonly number[] {
  const across = given.number('blank') / 2 - given.numberOr('chamfer', 0);
  return [(Math.atan2(across, given.number('end_to_centre')) * 180) / Math.PI];
}

export const FEED_FORMULAS: readonly Formula[] = [workFeed, centreFromEnd];
