/** A boss cut on trial with the tool as it is set, read back. */
import { field, length, mm, must, notNegative, optional, positive } from './build';
import type { Formula, Given } from './formula';

const BALL = length('ball', 'diameter of the ball');
const NECK = length('neck', 'diameter of the shank where it meets the ball or its fillet');
const BOSS = length('boss', 'diameter of a boss cut with the tool as it is set');
const FILLET = optional(length('fillet', 'radius between shank and ball; none when left out'));
const NOSE = optional(length('nose_radius', "radius at the cutter's tip; a sharp tip when left out"));

interface Read {
  readonly wanted: number;
  readonly move: number;
  readonly height: number;
  readonly end_foot: number;
}

/** Half the angle that ball and neck, or its fillet, take up at the centre. */
function rightTilt(given: Given): number {
  const fillet = given.numberOr('fillet', 0);
  return Math.asin((given.number('neck') / 2 + fillet) / (given.number('ball') / 2 + fillet)) / 2;
}

function read(given: Given): Read {
  const [radius, nose, boss, tilt] = [
    given.number('ball') / 2,
    given.numberOr('nose_radius', 0),
    given.number('boss') / 2,
    rightTilt(given),
  ];
  const wanted = 2 * radius * Math.cos(tilt) - 2 * nose * (1 - Math.cos(tilt));
  const rise = Math.sqrt((radius + nose) ** 2 - (boss + nose) ** 2);
  const scale = radius / (radius + nose);
  return {
    wanted,
    move: wanted / 2 - boss,
    height: rise - nose,
    end_foot: 2 * scale * Math.abs(rise * Math.cos(tilt) - (boss + nose) * Math.sin(tilt)),
  };
}

const trialBoss: Formula = {
  name: 'trial_boss',
  family: 'ball',
  title: 'A boss cut on trial: how far to move the tool, or what to do with it as it is',
  parameters: [BOSS, BALL, NECK, FILLET, NOSE],
  result: [
    field('wanted', 'mm', 'what the boss should measure for this ball and neck'),
    field('move', 'mm', 'how far the tool goes out on its slide; negative for in'),
    field(
      'height',
      'mm',
      "lowest point of the cutter above the ball's centre for the ball to size, with the tool as it is",
    ),
    field('end_foot', 'mm', 'foot of what would then be left on the free end'),
  ],
  compute: (given) => ({ ...read(given) }),
  working: (given) => {
    const [fillet, nose] = [given.has('fillet'), given.has('nose_radius')];
    const [radius, middle] = nose
      ? ['(ball / 2 + nose_radius)', '(boss / 2 + nose_radius)']
      : ['(ball / 2)', '(boss / 2)'];
    return [
      {
        name: 'tilt',
        expression: fillet ? 'asin((neck / 2 + fillet) / (ball / 2 + fillet)) / 2' : 'asin(neck / ball) / 2',
        words: 'the tilt for this ball and neck',
      },
      {
        name: 'wanted',
        expression: 'ball * cos(tilt)' + (nose ? ' - 2 * nose_radius * (1 - cos(tilt))' : ''),
        words: 'the chord from free end to neck' + (nose ? ', less what the round tip reaches in' : ''),
      },
      {
        name: 'move',
        expression: '(wanted - boss) / 2',
        words: 'half of what is missing, since the tool goes round',
      },
      {
        name: 'rise',
        expression: `sqrt(${radius}^2 - ${middle}^2)`,
        words: nose ? "height of the middle of the tip's rounding" : "the ring's distance from the centre",
      },
      {
        name: 'height',
        expression: nose ? 'rise - nose_radius' : 'rise',
        words: nose ? 'its lowest point' : 'a sharp tip is its own lowest point',
      },
      {
        name: 'end_foot',
        expression:
          `abs(rise * cos(tilt) - ${middle} * sin(tilt))` +
          (nose ? ' * ball / (ball / 2 + nose_radius)' : ' * 2'),
        words: "twice the distance from the work's axis to where the tip runs over the ball at the end",
      },
    ];
  },
  why:
    'A boss cut with the same tool is the only ring that can be measured: it takes in the nose, the grind and the setting all ' +
    'at once. Move the tool by half of the difference. Or leave it and cut the ball to size at the height given here: the ' +
    'diameter comes out right, and the end tells by how much the ring was off.',
  conditions: [
    ...positive(BOSS, BALL, NECK),
    ...notNegative(FILLET, NOSE),
    must(
      'neck',
      'the neck is smaller than the ball',
      (given) => given.number('neck') < given.number('ball'),
      (given) => `Give a neck below the ball's ${mm(given.number('ball'))}.`,
    ),
    must(
      'boss',
      'the boss is no larger than the ball',
      (given) => given.number('boss') <= given.number('ball'),
      (given) =>
        `A ring of ${mm(given.number('boss'))} makes no ball smaller than itself: bring the tool in by ` +
        `${mm(-read(given).move)} on its slide, for a boss of ${mm(read(given).wanted)}.`,
    ),
  ],
  source: 'own derivation, plane and sphere geometry; confirmed by sampled nose arcs',
  cautions: ['boring_head', 'measuring'],
  picture: null,
  checks: [
    {
      call: 'trial_boss(21.4 mm, 22 mm, 9.525 mm)',
      expect: { wanted: 21.4509350022, move: 0.0254675011, height: 2.5514701644, end_foot: 0.2243921984 },
      tolerance: 1e-6,
      source: 'chord by coordinates, numeric root, and a sampled ring',
    },
    {
      call: 'trial_boss(29.37 mm, 30 mm, 12 mm, nose_radius: 0.8 mm)',
      expect: { height: 2.3392315939, end_foot: 0.1722554925 },
      tolerance: 1e-5,
      source:
        "nearest point of a sampled nose arc to the ball's centre, and its distance from the work's axis at the end",
    },
    {
      call: 'trial_boss(29.3334394886 mm, 30 mm, 12 mm, nose_radius: 0.8 mm)',
      expect: { wanted: 29.3334394886, move: 0, height: 2.42809237, end_foot: 0 },
      tolerance: 1e-5,
      source:
        "nearest point of a sampled nose arc to the ball's centre, and its distance from the work's axis at the end",
    },
  ],
  extremes: { boss: (given) => [read(given).wanted] },
};

export const BOSS_FORMULAS: readonly Formula[] = [trialBoss];
