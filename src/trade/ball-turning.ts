/** A ball turned on the lathe step by step, by the dials, to be filed or scraped true. */
import {
  degrees,
  field,
  firstItems,
  length,
  listed,
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

const BALL = length('ball', 'diameter of the ball');
const NOSE = optional(
  length('nose_radius', 'radius of a round-nosed tool; a square-cornered one when left out'),
);
const ANGLE = quantity('angle_step', '°', "from step to step, as seen from the ball's centre");
const TRAVEL = length('travel_step', 'carriage travel from step to step');

const MOST = 180;
const SLACK = 1e-9;

const radiusOf = (given: Given): number => given.number('ball') / 2;
const noseOf = (given: Given): number => given.numberOr('nose_radius', 0);

/** The places to go to, as angles from the free end at the ball's centre, in radians; the last is the widest place. */
function anglesBy(given: Given): readonly number[] {
  const step = given.number('angle_step');
  const count = Math.ceil(90 / step - SLACK);
  return Array.from({ length: count }, (_, i) => radians(Math.min((i + 1) * step, 90)));
}

function travelsBy(given: Given): readonly number[] {
  const reach = radiusOf(given) + noseOf(given);
  const step = given.number('travel_step');
  const count = Math.ceil(reach / step - SLACK);
  return Array.from({ length: count }, (_, i) => Math.acos(Math.max(0, 1 - ((i + 1) * step) / reach)));
}

/** What stands over the ball between two places: the corner a square tool leaves, or where two rounds of the nose meet. */
function cusp(given: Given, from: number, to: number): number {
  const [radius, nose] = [radiusOf(given), noseOf(given)];
  if (nose === 0) return radius * (Math.sqrt(1 + Math.sin(from + to) * Math.sin(to - from)) - 1);
  const reach = radius + nose;
  const half = (to - from) / 2;
  return reach * Math.cos(half) - Math.sqrt(nose ** 2 - (reach * Math.sin(half)) ** 2) - radius;
}

interface Steps {
  readonly steps: number;
  readonly travels: readonly number[];
  readonly dials: readonly number[];
  readonly cusps: readonly number[];
  readonly largest: number;
}

/** `first` and `step` give the place of the tallest corner, in radians. */
function stepsAt(given: Given, angles: readonly number[], first: number, step: number): Steps {
  const reach = radiusOf(given) + noseOf(given);
  return {
    steps: angles.length,
    travels: angles.map((angle) => reach * (1 - Math.cos(angle))),
    dials: angles.map((angle) => 2 * (reach * Math.sin(angle) - noseOf(given))),
    cusps: angles.map((angle, i) => cusp(given, angles[i - 1] ?? 0, angle)),
    largest: cusp(given, first, first + step),
  };
}

const RESULT = [
  { ...field('steps', '', 'how many steps, from the free end to the widest place'), choice: true },
  listed('travels', 'mm', 'carriage from where the tool touched the end, at each step'),
  listed(
    'dials',
    'mm',
    'diameter on the cross slide, zero where the tool would touch the axis; below zero is beyond it',
  ),
  listed('cusps', 'mm', 'what stands over the ball before each step'),
  field('largest', 'mm', 'most that can stand over the ball anywhere'),
];

type Between = (from: string, to: string) => string;

function stepsWorking(
  given: Given,
  angles: readonly number[],
  angle: (i: number) => string,
  tallest: (between: Between) => Step,
): readonly Step[] {
  const nose = given.has('nose_radius');
  const [reach, less] = nose ? ['(ball / 2 + nose_radius)', ' - nose_radius'] : ['ball / 2', ''];
  const between: Between = (from, to) =>
    nose
      ? `(ball / 2 + nose_radius) * cos((${to} - ${from}) / 2) - sqrt(nose_radius^2 - ((ball / 2 + nose_radius) * sin((${to} - ${from}) / 2))^2) - ball / 2`
      : `ball / 2 * (sqrt(1 + sin(${from} + ${to}) * sin(${to} - ${from})) - 1)`;
  const before = (i: number): string => (i === 0 ? '0°' : angle(i - 1));
  return [
    {
      name: 'travels',
      expression: firstItems(angles.length, (i) => `${reach} * (1 - cos(${angle(i)}))`),
      words: "along the bar, from the end to that angle at the ball's centre, and so on",
    },
    {
      name: 'dials',
      expression: firstItems(angles.length, (i) => `2 * (${reach} * sin(${angle(i)})${less})`),
      words: 'across the bar at the same angle, and so on',
    },
    {
      name: 'cusps',
      expression: firstItems(angles.length, (i) => between(before(i), angle(i))),
      words: nose ? 'where two rounds of the nose meet, and so on' : 'the corner of each step, and so on',
    },
    tallest(between),
  ];
}

const fine = (parameter: string, steps: (given: Given) => Steps): Condition =>
  must(
    parameter,
    'the rounds of the nose meet from step to step',
    (given) => !Number.isNaN(steps(given).largest),
    (given) =>
      `The steps are too far apart for a nose of ${mm(noseOf(given))}: ridges of full stock would stand between them. ` +
      `Give a smaller \`${parameter}\`, below ${shown(widest(given, parameter), parameter === 'angle_step' ? '°' : 'mm')}.`,
  );

/** The largest step at which the rounds of the nose still meet. */
function widest(given: Given, parameter: string): number {
  const reach = radiusOf(given) + noseOf(given);
  const angle = 2 * Math.asin(noseOf(given) / reach);
  return parameter === 'angle_step' ? degrees(angle) : reach * (1 - Math.cos(angle));
}

const WHY =
  'Carriage and cross slide are brought to one place after another on the circle, and each step leaves a corner over the ' +
  'ball, never below it. Then blue it, and file or scrape the corners off. A round-nosed tool touches off on end and on ' +
  'diameter with its round, so its middle runs on a circle larger by its radius.';
const SOURCE = 'own derivation, the equation of a circle; confirmed by coordinates of tool and corner';

/** A square corner stands tallest astride 45°; a round nose leaves the same everywhere. */
function stepsByAngle(given: Given): Steps {
  const step = radians(given.number('angle_step'));
  return stepsAt(given, anglesBy(given), Math.PI / 4 - step / 2, step);
}

/** The first step spans the widest angle. */
function stepsByTravel(given: Given): Steps {
  const angles = travelsBy(given);
  return stepsAt(given, angles, 0, angles[0] ?? 0);
}

const byAngle: Formula = {
  name: 'ball_steps_by_angle',
  family: 'ball',
  title: 'Turning a ball in steps of equal angle',
  parameters: [BALL, ANGLE, NOSE],
  result: RESULT,
  compute: (given) => ({ ...stepsByAngle(given) }),
  working: (given) => {
    const angles = anglesBy(given);
    const angle = (i: number): string =>
      i === angles.length - 1 ? '90°' : i === 0 ? 'angle_step' : `${i + 1} * angle_step`;
    return [
      { name: 'steps', expression: 'round_up(90° / angle_step, 1)', words: 'a quarter turn, in steps' },
      ...stepsWorking(given, angles, angle, (between) => ({
        name: 'largest',
        expression: between('(45° - angle_step / 2)', '(45° + angle_step / 2)'),
        words: 'the same for a step astride 45°',
      })),
    ];
  },
  why: `${WHY} Equal angles leave corners that are tallest halfway round, at 45°.`,
  conditions: [
    ...positive(BALL, ANGLE),
    ...notNegative(NOSE),
    must(
      'angle_step',
      `the step is from ${90 / MOST}° to 45°`,
      (given) => given.number('angle_step') >= 90 / MOST && given.number('angle_step') <= 45,
      (given) =>
        `Steps of ${shown(given.number('angle_step'), '°')} make no ball: give from ${90 / MOST}° to 45°.`,
    ),
    fine('angle_step', stepsByAngle),
  ],
  source: SOURCE,
  cautions: ['lathe', 'filing', 'interrupted_cut'],
  picture: null,
  checks: [
    {
      call: 'ball_steps_by_angle(22 mm, 30°)',
      expect: {
        steps: 3,
        travels: [1.4737205584, 5.5, 11.0],
        dials: [11.0, 19.0525588833, 22.0],
        cusps: [1.2983738762, 2.4721935853, 1.2983738762],
        largest: 2.4721935853,
      },
      tolerance: 1e-9,
      source: 'coordinates of tool and corner; numeric search for the place of the tallest',
    },
    {
      call: 'ball_steps_by_angle(22 mm, 30°, nose_radius: 6 mm)',
      expect: {
        travels: [2.2775681356, 8.5, 17.0],
        dials: [5.0, 17.4448637287, 22.0],
        cusps: [1.3414412094, 1.3414412094, 1.3414412094],
        largest: 1.3414412094,
      },
      tolerance: 1e-9,
      source: 'places of the middle of the nose; its circle met on the line halfway between two of them',
    },
    {
      call: 'ball_steps_by_angle(22 mm, 5°, nose_radius: 3 mm)',
      expect: { steps: 18, largest: 0.0494858993552 },
      tolerance: 1e-9,
      source: 'the nose circle met on the line halfway between two places',
    },
  ],
};

const byTravel: Formula = {
  name: 'ball_steps_by_travel',
  family: 'ball',
  title: 'Turning a ball in steps of equal carriage travel',
  parameters: [BALL, TRAVEL, NOSE],
  result: RESULT,
  compute: (given) => ({ ...stepsByTravel(given) }),
  working: (given) => {
    const angles = travelsBy(given);
    const reach = given.has('nose_radius') ? '(ball / 2 + nose_radius)' : '(ball / 2)';
    const angle = (i: number): string =>
      i === angles.length - 1 ? '90°' : `acos(1 - ${i === 0 ? '' : `${i + 1} * `}travel_step / ${reach})`;
    return [
      {
        name: 'steps',
        expression: `round_up(${reach} / travel_step, 1)`,
        words: 'end to widest place, in steps',
      },
      ...stepsWorking(given, angles, angle, (between) => ({
        name: 'largest',
        expression: between('0°', angle(0)),
        words: 'the first step, which spans the widest angle',
      })),
    ];
  },
  why: `${WHY} Equal travels leave by far the tallest corners at the end: take finer ones there, or equal angles.`,
  conditions: [
    ...positive(BALL, TRAVEL),
    ...notNegative(NOSE),
    must(
      'travel_step',
      `the step makes from 2 to ${MOST} steps`,
      (given) => {
        const count = (radiusOf(given) + noseOf(given)) / given.number('travel_step');
        return count >= 2 - SLACK && count <= MOST;
      },
      (given) => {
        const reach = radiusOf(given) + noseOf(given);
        return `Give a \`travel_step\` between ${mm(reach / MOST)} and ${mm(reach / 2)}.`;
      },
    ),
    fine('travel_step', stepsByTravel),
  ],
  source: SOURCE,
  cautions: ['lathe', 'filing', 'interrupted_cut'],
  picture: null,
  checks: [
    {
      call: 'ball_steps_by_travel(22 mm, 3 mm)',
      expect: {
        steps: 4,
        travels: [3.0, 6.0, 9.0, 11.0],
        dials: [15.0996688705, 19.5959179423, 21.6333076528, 22.0],
        cusps: [2.3416640641, 1.6491106407, 0.9163752878, 0.1803398875],
        largest: 2.3416640641,
      },
      tolerance: 1e-9,
      source: 'coordinates of tool and corner',
    },
    {
      call: 'ball_steps_by_travel(30 mm, 0.9 mm, nose_radius: 3 mm)',
      expect: { steps: 20, largest: 1.8248925943 },
      tolerance: 1e-9,
      source: 'the nose circle met on the line halfway between two places',
    },
  ],
};

export const TURNING_FORMULAS: readonly Formula[] = [byAngle, byTravel];
