/** What a ring set at a height and tilt really makes: the diagnosis of a set-up. */
import { degrees, field, length, mm, must, notNegative, positive, quantity, radians, shown } from './build';
import type { Formula, Given } from './formula';

const RING = length('ring', "diameter of the tip's circle, as a boss cut with it measures; sharp tip");
const HEIGHT = length('height', "plane of the ring above the ball's centre at the end");
const TILT = quantity('tilt', '°', 'tilt of the work above level, free end up');
const SHANK = length('shank', 'diameter of the shank that is to stay');

const OWN = 'own derivation, plane and sphere geometry';

interface Made {
  readonly ball: number;
  readonly neck: number;
  readonly pip_base: number;
  readonly pip_height: number;
  readonly gouge: number;
}

/** The reach of the ring along (`across`) and over (`above`) the work's axis: neck and foot of the pip in one. */
function reaches(given: Given): { across: number; above: number } {
  const tilt = radians(given.number('tilt'));
  return {
    across: given.number('ring') * Math.sin(tilt),
    above: 2 * given.number('height') * Math.cos(tilt),
  };
}

function made(given: Given): Made {
  const [ring, height, shank] = [given.number('ring'), given.number('height'), given.number('shank')];
  const tilt = radians(given.number('tilt'));
  const { across, above } = reaches(given);
  const ball = Math.hypot(ring, 2 * height);
  const neck = above + across;
  return {
    ball,
    neck,
    pip_base: Math.abs(above - across),
    pip_height: Math.max(ring / 2 / Math.cos(tilt), height / Math.sin(tilt)) - ball / 2,
    gouge: Math.max(0, (shank - neck) / 2),
  };
}

/** Less than this is neither seen nor felt at the machine, in mm. */
const SEEN = 0.01;

function neckWords(given: Given, { ball, neck, gouge }: Made): string {
  const shank = given.number('shank');
  if (gouge >= SEEN) {
    const clean = ball * Math.sin(2 * radians(given.number('tilt')));
    const cause =
      clean < shank
        ? 'The tilt is too small for this shank: the ring'
        : `The ring is too large by ${mm(given.number('ring') - ringAt(given, ball))}: it`;
    return `${cause} runs past the neck and cuts a groove ${mm(gouge)} deep into the shank, down to ${mm(neck)}.`;
  }
  const over = (neck - shank) / 2;
  if (over < SEEN) return 'The neck comes to the shank.';
  const fillet = (neck - shank) / (2 * (1 - neck / ball));
  return (
    `The neck stays at ${mm(neck)}, ${mm(over)} a side over the shank: ` +
    `right for a fillet of ${mm(fillet)}, else a collar is left.`
  );
}

function endWords(given: Given, { pip_base, pip_height }: Made): string {
  if (pip_height < SEEN) return 'The free end comes clean.';
  const { across, above } = reaches(given);
  const clean = `As set, this ring cleans the end of a ball of ${mm(given.number('ring') / Math.cos(radians(given.number('tilt'))))}.`;
  return above > across
    ? `The ring falls short of the free end and leaves a sharp pip, ${mm(pip_base)} across its foot and ${mm(pip_height)} tall. ${clean}`
    : `The ring passes round the free end and leaves a low cone, ${mm(pip_base)} across its foot and ${mm(pip_height)} high; ` +
        `reaching further only makes it larger. ${clean}`;
}

/** The ring through the free end for this ball at the tilt given, in mm. */
function ringAt(given: Given, ball: number): number {
  return ball * Math.cos(radians(given.number('tilt')));
}

function remedy(given: Given, { ball, gouge, pip_height }: Made): string {
  if (gouge < SEEN && pip_height < SEEN) return '';
  const [tilt, shank] = [radians(given.number('tilt')), given.number('shank')];
  const right = Math.asin(shank / ball) / 2;
  const set = (angle: number): string =>
    `ring ${mm(ball * Math.cos(angle))}, height ${mm((ball / 2) * Math.sin(angle))}`;
  const here = ball * Math.sin(2 * tilt);
  return (
    ` Right for a ball of ${mm(ball)} on this shank: tilt ${shown(degrees(right), '°')}, ${set(right)}.` +
    (here >= shank + SEEN ? ` At the tilt given: ${set(tilt)}, which leaves a neck of ${mm(here)}.` : '')
  );
}

function verdict(given: Given, all: Made): string {
  return `${neckWords(given, all)} ${endWords(given, all)}${remedy(given, all)}`;
}

const setupResult: Formula = {
  name: 'ball_setup_result',
  family: 'ball',
  title: 'What a ring, height and tilt really make',
  parameters: [RING, HEIGHT, TILT, SHANK],
  result: [
    field('ball', 'mm', 'diameter of the ball'),
    field('neck', 'mm', 'diameter left where ball and shank meet'),
    field('pip_base', 'mm', 'foot of what is left standing on the free end'),
    field('pip_height', 'mm', 'how far it stands proud of the ball'),
    field('gouge', 'mm', 'depth of the groove cut into the shank; zero when there is none'),
    {
      ...field('verdict', '', 'what is right and wrong with the set-up, and what would be right'),
      words: true,
    },
  ],
  compute: (given) => {
    const all = made(given);
    return { ...all, verdict: verdict(given, all) };
  },
  working: () => [
    {
      name: 'ball',
      expression: 'hypot(ring, 2 * height)',
      words: 'the long side of a right triangle on the ring and twice the height',
    },
    {
      name: 'neck',
      expression: '2 * height * cos(tilt) + ring * sin(tilt)',
      words: "twice the distance from the work's axis to the ring's lower edge",
    },
    {
      name: 'pip_base',
      expression: 'abs(2 * height * cos(tilt) - ring * sin(tilt))',
      words: "twice the distance from the work's axis to the ring's upper edge",
    },
    {
      name: 'pip_height',
      expression: 'max(ring / 2 / cos(tilt), height / sin(tilt)) - ball / 2',
      words: "where the ring's wall or its plane first crosses the work's axis, less the ball's radius",
    },
    {
      name: 'gouge',
      expression: 'max(0 mm, (shank - neck) / 2)',
      words: 'what the neck lacks of the shank, on the radius',
    },
  ],
  why:
    'Ring and height alone make the ball, whatever the tilt. The tilt decides where the ring runs: one edge must pass ' +
    'the free end, the other the neck. Short of the end it leaves a tall pip; beyond the end it goes round it and leaves ' +
    'a low cone, so reaching further does not clean the end. For the same error the pip is many times taller: err large.',
  conditions: [
    ...positive(RING, SHANK),
    ...notNegative(HEIGHT),
    must(
      'tilt',
      'the tilt is more than 0° and less than 90°',
      (given) => given.number('tilt') > 0 && given.number('tilt') < 90,
      (given) =>
        `A tilt of ${shown(given.number('tilt'), '°')} brings no free end to the ring: give one between 0° and 90°, ` +
        'or use `ball_between_necks` for level work.',
    ),
    must(
      'tilt',
      "the ring runs below the ball's widest place",
      (given) => 2 * given.number('height') * Math.tan(radians(given.number('tilt'))) < given.number('ring'),
      (given) =>
        `At ${shown(given.number('tilt'), '°')} the ring never comes down to the widest place of the ball: keep the ` +
        `tilt below ${shown(degrees(Math.atan2(given.number('ring'), 2 * given.number('height'))), '°')}, or the height below ` +
        `${mm(given.number('ring') / 2 / Math.tan(radians(given.number('tilt'))))}.`,
    ),
    must(
      'shank',
      'the shank is smaller than the ball',
      (given) => given.number('shank') < made(given).ball,
      (given) =>
        `The ball comes to ${mm(made(given).ball)}, no larger than the shank of ${mm(given.number('shank'))}: ` +
        `give a shank below ${mm(made(given).ball)}.`,
    ),
  ],
  source: `${OWN}; confirmed by sampled tip circles, by walking along the axis, and by cutting a solid model`,
  cautions: ['ball_on_mill', 'by_hand_first', 'boring_head', 'knee', 'crank', 'measuring'],
  picture: null,
  checks: [
    {
      call: 'ball_setup_result(22 mm, 0 mm, 15.5°, 9.525 mm)',
      expect: { ball: 22, neck: 5.87924427372, pip_base: 5.87924427372, pip_height: 0.415169999069 },
      tolerance: 3e-4,
      source: 'sampled tip circle in space; steps along the axis until inside the cutter',
    },
    {
      call: 'ball_setup_result(24.2 mm, 3.13687743 mm, 14°, 10 mm)',
      expect: {
        ball: 25,
        neck: 11.9419073985,
        pip_base: 0.232887651495,
        pip_height: 0.466489999078,
        gouge: 0,
      },
      tolerance: 3e-4,
      source: 'sampled tip circle in space; steps along the axis until inside the cutter',
    },
    {
      call: 'ball_setup_result(22 mm, 3.050569 mm, 15.5°, 9.525 mm)',
      expect: { ball: 22.831142, pip_height: 0 },
      tolerance: 2e-3,
      source: 'numeric envelope of the ring, stopped when the end comes clean',
    },
  ],
  // The pip turns round where the ring passes exactly through the free end.
  extremes: {
    ring: (given) => [(2 * given.number('height')) / Math.tan(radians(given.number('tilt')))],
    height: (given) => [(given.number('ring') / 2) * Math.tan(radians(given.number('tilt')))],
    tilt: (given) => [degrees(Math.atan2(2 * given.number('height'), given.number('ring')))],
  },
};

export const RESULT_FORMULAS: readonly Formula[] = [setupResult];
