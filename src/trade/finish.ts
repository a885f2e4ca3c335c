/** The largest feed for a finish asked: the theoretical roughness read backwards. */
import { length, must, positive, quantity, shown, single } from './build';
import type { Formula } from './formula';

const RT = quantity('rt', 'µm', 'height from valley to ridge');
const RA = quantity('ra', 'µm', 'mean height over the mean line');
const NOSE_RADIUS = length('nose_radius', "radius at the tool's tip");

const UM_PER_MM = 1000;

/** Ra of a parabola's scallop: feed squared over this times the nose radius. */
const RA_PART = 18 * Math.sqrt(3);

/** Feed at which scallops meet at the sides of the nose, in nose radii. */
const WHOLE_NOSE = 2;

const RESERVE =
  'Real surfaces come out 1.2 to 3 times rougher, from vibration, wear and torn metal: ask here for a third of what the ' +
  'drawing says and measure. Below about 0.05 mm/rev less feed no longer helps, since the edge rubs.';

const feedForRt: Formula = {
  name: 'feed_for_rt',
  family: 'cutting',
  title: 'Largest feed for a peak-to-valley height',
  parameters: [RT, NOSE_RADIUS],
  result: [single('mm/rev', 'largest feed for each turn of the spindle')],
  compute: (given) => {
    const [height, nose] = [given.number('rt') / UM_PER_MM, given.number('nose_radius')];
    return 2 * Math.sqrt(height * (2 * nose - height));
  },
  working: () => [
    {
      name: '',
      expression: '2 * sqrt(rt * (2 * nose_radius - rt)) / 1 rev',
      words: 'the chord of the nose at that height is the way of one turn',
    },
  ],
  why:
    'The nose leaves a scallop for each turn, and its height sets how wide it may be. Four times the height, or four ' +
    `times the nose, allows about twice the feed. ${RESERVE}`,
  conditions: [
    ...positive(RT, NOSE_RADIUS),
    must(
      'rt',
      'the height is less than the nose radius',
      (given) => given.number('rt') < UM_PER_MM * given.number('nose_radius'),
      (given) =>
        `Scallops of ${shown(given.number('rt'), 'µm')} are deeper than the nose is round: keep below ` +
        `${shown(UM_PER_MM * given.number('nose_radius'), 'µm')}.`,
    ),
  ],
  source: 'geometry of the nose arc, as in textbooks',
  cautions: ['speeds'],
  picture: null,
  checks: [
    {
      call: 'feed_for_rt(6.27461 µm, 0.8 mm)',
      expect: { '': 0.2 },
      tolerance: 1e-6,
      source: 'numeric integration over the true arc, read backwards',
    },
    {
      call: 'feed_for_rt(200 µm, 1 mm)',
      expect: { '': 1.2 },
      tolerance: 1e-9,
      source: 'right triangle of 0.6, 0.8 and 1 mm in the nose',
    },
  ],
};

const feedForRa: Formula = {
  name: 'feed_for_ra',
  family: 'cutting',
  title: 'Largest feed for a mean roughness',
  parameters: [RA, NOSE_RADIUS],
  result: [single('mm/rev', 'largest feed for each turn of the spindle')],
  compute: (given) => Math.sqrt((RA_PART * given.number('nose_radius') * given.number('ra')) / UM_PER_MM),
  working: () => [
    {
      name: '',
      expression: 'sqrt(18 * sqrt(3) * nose_radius * ra) / 1 rev',
      words: 'the width of the scallop, taken as a parabola, whose mean height this is',
    },
  ],
  why:
    'Mean roughness is about a quarter of the height from valley to ridge, and grows with the square of the feed: a ' +
    `quarter of the Ra takes half the feed, or a nose four times as large. ${RESERVE}`,
  conditions: [
    ...positive(RA, NOSE_RADIUS),
    must(
      'ra',
      'the feed stays below twice the nose radius',
      (given) => RA_PART * given.number('ra') < WHOLE_NOSE ** 2 * UM_PER_MM * given.number('nose_radius'),
      (given) =>
        `For ${shown(given.number('ra'), 'µm')} the scallops are wider than the nose: keep below ` +
        `${shown((WHOLE_NOSE ** 2 * UM_PER_MM * given.number('nose_radius')) / RA_PART, 'µm')}, or give a larger nose radius.`,
    ),
  ],
  source: 'geometry of the nose arc, as in textbooks; Ra from the parabola that stands for the arc',
  cautions: ['speeds'],
  picture: null,
  checks: [
    {
      call: 'feed_for_ra(1.60879 µm, 0.8 mm)',
      expect: { '': 0.2 },
      tolerance: 0.0004,
      source: 'numeric integration over the true arc, read backwards',
    },
    {
      call: 'feed_for_ra(0.402198 µm, 0.2 mm)',
      expect: { '': 0.05 },
      tolerance: 0.0001,
      source: 'numeric integration over the true arc, read backwards',
    },
  ],
};

export const FINISH_FORMULAS: readonly Formula[] = [feedForRt, feedForRa];
