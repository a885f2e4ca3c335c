/** A set-up that somebody read off a drawing or copied from a habit: what would explain it, and where it goes wrong. */
import { RING } from './ball-touch';
import {
  degrees,
  field,
  length,
  mm,
  must,
  positive,
  quantity,
  radians,
  should,
  shown,
  single,
} from './build';
import type { Condition, Formula, Given } from './formula';

const BALL = length('ball', 'diameter of the ball');
const NECK = length('neck', 'diameter of the shank where it meets the ball');
const SHANK = length('shank', 'diameter of the shank that is to stay');
const TILT = quantity('tilt', '°', 'tilt of the work above level, free end up');
const REACH = length(
  'over_reach',
  "how far the ring passes the work's axis at the free end, square to it; negative when it stops short",
);
const LEFT = length('neck', 'diameter where the ball ends');

const OWN = 'own derivation, plane and sphere geometry';
const MOUNT = ['ball_on_mill', 'by_hand_first', 'boring_head', 'knee', 'crank', 'measuring'];

const smaller = (name: string): Condition =>
  must(
    name,
    `the ${name} is smaller than the ball`,
    (given) => given.number(name) < given.number('ball'),
    (given) => `Give a ${name} below the ball's ${mm(given.number('ball'))}.`,
  );

interface Reached {
  readonly tilt: number;
  readonly ring: number;
  readonly height: number;
  readonly end_height: number;
}

function reached(given: Given): Reached {
  const radius = given.number('ball') / 2;
  const past = Math.asin(given.number('over_reach') / radius);
  const tilt = (Math.asin(given.number('neck') / given.number('ball')) + past) / 2;
  const [ring, height] = [radius * Math.cos(tilt - past), radius * Math.sin(tilt - past)];
  return {
    tilt: degrees(tilt),
    ring: 2 * ring,
    height,
    end_height: (past < 0 ? height / Math.sin(tilt) : ring / Math.cos(tilt)) - radius,
  };
}

const overReach: Formula = {
  name: 'ball_over_reach',
  family: 'ball',
  title: 'Tilt, ring and height when the ring is to pass the end, or stop short of it',
  parameters: [BALL, NECK, REACH],
  result: [
    field('tilt', '°', 'tilt of the work above level, free end up'),
    field('ring', 'mm', "diameter of the tip's circle, as a boss cut with it measures; sharp tip"),
    field('height', 'mm', "plane of the ring above the ball's centre when the ball is to size"),
    field('end_height', 'mm', 'how far what is left on the end stands proud of the ball'),
  ],
  compute: (given) => ({ ...reached(given) }),
  working: (given) => [
    {
      name: 'past',
      expression: 'asin(2 * over_reach / ball)',
      words: "the over-reach as an angle at the ball's centre",
    },
    {
      name: 'tilt',
      expression: '(asin(neck / ball) + past) / 2',
      words: 'halfway between the neck and that place',
    },
    { name: 'ring', expression: 'ball * cos(tilt - past)', words: 'the chord from neck to that place' },
    {
      name: 'height',
      expression: 'ball / 2 * sin(tilt - past)',
      words: "the chord's distance from the centre",
    },
    {
      name: 'end_height',
      expression:
        given.number('over_reach') < 0 ? 'height / sin(tilt) - ball / 2' : 'ring / 2 / cos(tilt) - ball / 2',
      words:
        given.number('over_reach') < 0
          ? "up the work's axis to the plane of the ring, less the ball"
          : "up the work's axis to the wall of the ring, less the ball",
    },
  ],
  why:
    'It is tempting to let the ring pass the end a little to be sure of cleaning it. But the ring is a circle: beyond the end ' +
    'it goes round it, and what lies inside is never touched. Only the ring that passes exactly through the end cleans it. ' +
    'Use this to see what an error leaves: a low cone beyond, a tall pip short of the end.',
  conditions: [
    ...positive(BALL, NECK),
    smaller('neck'),
    must(
      'over_reach',
      'the over-reach is less than half the neck',
      (given) => Math.abs(given.number('over_reach')) <= given.number('neck') / 2,
      (given) =>
        `Beyond ${mm(given.number('neck') / 2)}, half the neck, the ring would have to run below the ball's centre: give ` +
        'less, and best 0 mm.',
    ),
    should(
      'over_reach',
      'the ring passes exactly through the free end',
      (given) => Math.abs(given.number('over_reach')) < CLEAN,
      (given) => {
        const { end_height } = reached(given);
        return given.number('over_reach') > 0
          ? `Reaching past the end does not clean it: the ring goes round it and leaves a cone ${mm(2 * given.number('over_reach'))} ` +
              `across its foot and ${mm(end_height)} high. Give \`over_reach: 0 mm\`, or use \`ball_on_shank\`.`
          : `Short of the end the ring leaves a sharp pip ${mm(-2 * given.number('over_reach'))} across its foot and ` +
              `${mm(end_height)} tall. Give \`over_reach: 0 mm\`, or use \`ball_on_shank\`.`;
      },
    ),
  ],
  source: `${OWN}; confirmed by the chord between two points and by cutting a solid model`,
  cautions: MOUNT,
  picture: null,
  checks: [
    {
      call: 'ball_over_reach(25 mm, 10 mm, -0.5 mm)',
      expect: { tilt: 10.6428678511, ring: 24.3655855753, height: 2.79813507425, end_height: 2.6507110228 },
      tolerance: 1e-6,
      source:
        'chord between the two limit points by coordinates; steps along the axis until inside the cutter',
    },
    {
      call: 'ball_over_reach(40 mm, 16 mm, 2 mm)',
      expect: { tilt: 14.6586744777, ring: 39.5162857487, height: 3.10093375569, end_height: 0.4228973962 },
      tolerance: 1e-6,
      source:
        'chord between the two limit points by coordinates; steps along the axis until inside the cutter',
    },
  ],
  extremes: { over_reach: () => [0] },
};

/** Less than this is neither seen nor felt at the end, in mm. */
const CLEAN = 0.005;

function filletOf(ball: number, shank: number, neck: number): number {
  return (neck - shank) / (2 * (1 - neck / ball));
}

const filletFromNeck: Formula = {
  name: 'fillet_from_neck',
  family: 'ball',
  title: 'The fillet that joins a ball to its shank at a given neck',
  parameters: [BALL, SHANK, LEFT],
  result: [single('mm', 'radius that touches both ball and shank')],
  compute: (given) => filletOf(given.number('ball'), given.number('shank'), given.number('neck')),
  working: () => [
    {
      name: '',
      expression: '(neck - shank) / (2 * (1 - neck / ball))',
      words: 'what the neck is larger than the shank, over what the ball falls away there',
    },
  ],
  why:
    'On an old part the ball ends where the fillet begins, and that is easier to measure than the fillet. The radius that ' +
    'touches the ball there and the shank as well has one size only; give it to `ball_on_shank` and the ring stops where it ' +
    'should.',
  conditions: [
    ...positive(BALL, SHANK, LEFT),
    smaller('neck'),
    must(
      'neck',
      'the neck is no smaller than the shank',
      (given) => given.number('neck') >= given.number('shank'),
      (given) =>
        `A neck of ${mm(given.number('neck'))} lies below the shank: give one of ${mm(given.number('shank'))} or more, ` +
        `below ${mm(given.number('ball'))}.`,
    ),
  ],
  source: `${OWN}; confirmed by the place where two circles touch`,
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'fillet_from_neck(30 mm, 12 mm, 14.1176470588 mm)',
      expect: { '': 2 },
      tolerance: 1e-6,
      source: 'point where two circles touch, by coordinates',
    },
    {
      call: 'fillet_from_neck(25 mm, 10 mm, 11.6071428571 mm)',
      expect: { '': 1.5 },
      tolerance: 1e-6,
      source: 'point where two circles touch, by coordinates',
    },
  ],
};

interface Explained {
  readonly neck: number;
  readonly fillet: number;
  readonly right_ring: number;
  readonly height: number;
  readonly too_large: number;
  readonly ball_when_clean: number;
}

function explained(given: Given): Explained {
  const [ball, tilt, ring] = [given.number('ball'), radians(given.number('tilt')), given.number('ring')];
  const neck = ball * Math.sin(2 * tilt);
  return {
    neck,
    fillet: Math.max(0, filletOf(ball, given.number('shank'), neck)),
    right_ring: ball * Math.cos(tilt),
    height: (ball / 2) * Math.sin(tilt),
    too_large: ring - ball * Math.cos(tilt),
    ball_when_clean: ring / Math.cos(tilt),
  };
}

const SEEN = 0.01;

function tiltWords(given: Given, { neck, fillet }: Explained): string {
  const [shank, tilt] = [given.number('shank'), shown(given.number('tilt'), '°')];
  const plain = shown(degrees(Math.asin(shank / given.number('ball')) / 2), '°');
  if (Math.abs(neck - shank) < SEEN) return `A tilt of ${tilt} is right for this ball straight on its shank.`;
  return neck > shank
    ? `A tilt of ${tilt} is right for a neck of ${mm(neck)}, or for a fillet of ${mm(fillet)} at the shank of ${mm(shank)}; ` +
        `straight on the shank it would be ${plain}.`
    : `A tilt of ${tilt} is too small for a shank of ${mm(shank)}: the ring would cut it down to ${mm(neck)}. No fillet ` +
        `explains it; tilt ${plain}.`;
}

function ringWords(given: Given, { right_ring, height, too_large, ball_when_clean }: Explained): string {
  const [ball, ring, shank] = [given.number('ball'), given.number('ring'), given.number('shank')];
  const right = `Right at this tilt: ring ${mm(right_ring)}, height ${mm(height)}.`;
  if (Math.abs(too_large) < SEEN)
    return `The ring of ${mm(ring)} is right for it, at a height of ${mm(height)}.`;
  const stop = `Stopped where the end comes clean, it makes a ball of ${mm(ball_when_clean)}.`;
  if (too_large < 0)
    return `The ring of ${mm(ring)} is too small by ${mm(-too_large)}: a sharp pip is left on the end. ${stop} ${right}`;
  if (ring > ball)
    return `The ring of ${mm(ring)} is too large by ${mm(too_large)}: it makes no ball smaller than itself. ${stop} ${right}`;
  const tilt = radians(given.number('tilt'));
  const made = Math.sqrt(ball ** 2 - ring ** 2) * Math.cos(tilt) + ring * Math.sin(tilt);
  const groove = (shank - made) / 2;
  const cut = groove >= SEEN ? ` and cuts a groove ${mm(groove)} deep into the shank` : '';
  return (
    `The ring of ${mm(ring)} is too large by ${mm(too_large)}: lowered until the ball measures ${mm(ball)} it leaves a cone on ` +
    `the end${cut}. ${stop} ${right}`
  );
}

const explainTilt: Formula = {
  name: 'explain_tilt',
  family: 'ball',
  title: 'What neck or fillet explains a tilt that was read off somewhere, and what is wrong with its ring',
  parameters: [BALL, SHANK, TILT, RING],
  result: [
    field('neck', 'mm', 'neck for which this tilt is right'),
    field('fillet', 'mm', 'radius at the shank that gives this neck; zero when none does'),
    field('right_ring', 'mm', 'ring that belongs to this tilt'),
    field('height', 'mm', "plane of that ring above the ball's centre when the ball is to size"),
    field('too_large', 'mm', 'how much the given ring is larger than that; negative when it is smaller'),
    field(
      'ball_when_clean',
      'mm',
      'what the given ring makes if the knee is stopped where the end comes clean',
    ),
    { ...field('verdict', '', 'tilt and ring judged in words'), words: true },
  ],
  compute: (given) => {
    const all = explained(given);
    return { ...all, verdict: `${tiltWords(given, all)} ${ringWords(given, all)}` };
  },
  working: () => [
    {
      name: 'neck',
      expression: 'ball * sin(2 * tilt)',
      words: 'a ring through the free end meets the ball again at twice the tilt',
    },
    {
      name: 'fillet',
      expression: 'max(0 mm, (neck - shank) / (2 * (1 - neck / ball)))',
      words: 'the radius that touches the ball there and the shank',
    },
    { name: 'right_ring', expression: 'ball * cos(tilt)', words: 'the chord from free end to that neck' },
    { name: 'height', expression: 'ball / 2 * sin(tilt)', words: "the chord's distance from the centre" },
    { name: 'too_large', expression: 'ring - right_ring', words: 'what was given, less that' },
    {
      name: 'ball_when_clean',
      expression: 'ring / cos(tilt)',
      words: 'the ball whose chord through the end is the given ring',
    },
  ],
  why:
    'Each tilt belongs to one neck, and each tilt and ball to one ring. A tilt measured on a drawing can be right while the ' +
    'neck it stands for is a fillet that nobody wrote down. A ring as large as the ball is a common guess and always wrong: ' +
    'the ring is a chord of the ball, so it is smaller.',
  conditions: [
    ...positive(BALL, SHANK, RING),
    smaller('shank'),
    must(
      'tilt',
      'the tilt is more than 0° and less than 45°',
      (given) => given.number('tilt') > 0 && given.number('tilt') < 45,
      (given) =>
        `No neck belongs to a tilt of ${shown(given.number('tilt'), '°')}: give one between 0° and 45°.`,
    ),
  ],
  source: `${OWN}; confirmed by a numeric envelope of the ring`,
  cautions: MOUNT,
  picture: null,
  checks: [
    {
      call: 'explain_tilt(22 mm, 9.525 mm, 15.5°, 22 mm)',
      expect: {
        neck: 11.330837648,
        fillet: 1.8618344602,
        right_ring: 21.1998699706,
        too_large: 0.8001300294,
        ball_when_clean: 22.8303287082,
      },
      tolerance: 1e-6,
      source: 'sampled ring through the free end; the circle that touches ball and shank by a numeric root',
    },
    {
      call: 'explain_tilt(22 mm, 9.525 mm, 15°, 22 mm)',
      expect: { neck: 11.0, fillet: 1.475, too_large: 0.7496318216 },
      tolerance: 1e-6,
      source: 'sampled ring through the free end; the circle that touches ball and shank by a numeric root',
    },
    {
      call: 'explain_tilt(22 mm, 9.525 mm, 16°, 22 mm)',
      expect: { neck: 11.6582238131, fillet: 2.2689972709, too_large: 0.8522426894 },
      tolerance: 1e-6,
      source: 'sampled ring through the free end; the circle that touches ball and shank by a numeric root',
    },
  ],
};

export const DOUBT_FORMULAS: readonly Formula[] = [overReach, filletFromNeck, explainTilt];
