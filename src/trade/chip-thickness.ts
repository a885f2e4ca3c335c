/** What a narrow or shallow cut does to the chip of a milling cutter and to the diameter that really cuts. */
import { field, length, must, optional, positive, quantity, shown, single } from './build';
import type { Formula, Given } from './formula';

const CUTTER = length('cutter', 'diameter of the cutter');
const WIDTH = length('width_of_cut', 'width of cut square to the axis and to the feed');
const FEED_PER_TOOTH = quantity('feed_per_tooth', 'mm/tooth', 'feed for each tooth of the cutter');
const DEPTH = length('depth_of_cut', 'depth of cut along the axis of the cutter');
const CORNER = length(
  'corner_radius',
  'radius of the cutting corner: half the cutter for a ball nose, which it is when not given',
);

/** Width of cut beyond the centre adds nothing: the tooth has passed its thickest chip there. */
const engaged = (given: Given): number => Math.min(given.number('width_of_cut'), given.number('cutter') / 2);

const chipThinning: Formula = {
  name: 'chip_thinning',
  family: 'cutting',
  title: 'Thickest chip and corrected feed of a narrow milling cut',
  parameters: [CUTTER, WIDTH, FEED_PER_TOOTH],
  result: [
    field('chip_thickness', 'mm', 'thickest chip that a tooth takes'),
    field('corrected_feed', 'mm/tooth', 'feed for each tooth at which the thickest chip is the feed asked'),
  ],
  compute: (given) => {
    const [cutter, width, feed] = [given.number('cutter'), engaged(given), given.number('feed_per_tooth')];
    const sine = (2 * Math.sqrt(width * (cutter - width))) / cutter;
    return { chip_thickness: feed * sine, corrected_feed: feed / sine };
  },
  working: () => [
    {
      name: 'engaged_width',
      expression: 'min(width_of_cut, cutter / 2)',
      words: 'the width of cut, as far as the centre of the cutter',
    },
    {
      name: 'thinning',
      expression: '2 * sqrt(engaged_width * (cutter - engaged_width)) / cutter',
      words: 'sine of the angle that a tooth has turned where its chip is thickest',
    },
    {
      name: 'chip_thickness',
      expression: 'feed_per_tooth * thinning',
      words: 'the feed, seen square to the path of the tooth',
    },
    {
      name: 'corrected_feed',
      expression: 'feed_per_tooth / thinning',
      words: 'more feed, so that the chip is as thick as asked',
    },
  ],
  why:
    'A tooth that only nips the side of the work leaves before its path points across the feed, so its chip is thinner ' +
    'than the feed. Too thin a chip rubs and dulls the edge: raise the feed by as much. From half the cutter on the full ' +
    'feed is reached and nothing is to be corrected. Raise it step by step, and not where the width jumps in a corner.',
  conditions: [
    ...positive(CUTTER, WIDTH, FEED_PER_TOOTH),
    must(
      'width_of_cut',
      'the width of cut is at most the cutter',
      (given) => given.number('width_of_cut') <= given.number('cutter'),
      (given) =>
        `A cutter of ${shown(given.number('cutter'), 'mm')} cuts no wider than itself: give a width of at most that.`,
    ),
  ],
  source: 'geometry of the circular path, as in textbooks',
  cautions: ['speeds'],
  picture: null,
  checks: [
    {
      call: 'chip_thinning(50 mm, 10 mm, 0.1 mm/tooth)',
      expect: { chip_thickness: 0.08, corrected_feed: 0.125 },
      tolerance: 1e-9,
      source: 'engagement angle found numerically; triangle with sides 15, 20 and 25',
    },
    {
      call: 'chip_thinning(16 mm, 4 mm, 0.06 mm/tooth)',
      expect: { chip_thickness: 0.051961524 },
      tolerance: 1e-8,
      source: 'engagement angle found numerically',
    },
    {
      call: 'chip_thinning(16 mm, 12 mm, 0.06 mm/tooth)',
      expect: { chip_thickness: 0.06, corrected_feed: 0.06 },
      tolerance: 1e-12,
      source: 'common practice: from half the cutter on nothing is corrected',
    },
  ],
};

const cornerOf = (given: Given): number => given.numberOr('corner_radius', given.number('cutter') / 2);

/** Depth, as far as the corner goes: above it the side of the cutter is straight. */
const sunk = (given: Given): number => Math.min(given.number('depth_of_cut'), cornerOf(given));

const effectiveDiameter: Formula = {
  name: 'effective_diameter',
  family: 'cutting',
  title: 'Largest diameter that cuts of a ball nose or a round corner',
  parameters: [CUTTER, DEPTH, optional(CORNER)],
  result: [single('mm', 'largest diameter in the cut: the one for the spindle speed')],
  compute: (given) => {
    const [corner, depth] = [cornerOf(given), sunk(given)];
    return given.number('cutter') - 2 * corner + 2 * Math.sqrt(depth * (2 * corner - depth));
  },
  working: (given) => {
    const corner = given.has('corner_radius') ? 'corner_radius' : 'corner';
    return [
      ...(given.has('corner_radius')
        ? []
        : [
            {
              name: corner,
              expression: 'cutter / 2',
              words: 'the corner of a ball nose is half its diameter',
            },
          ]),
      {
        name: 'sunk',
        expression: `min(depth_of_cut, ${corner})`,
        words: 'the depth, as far as the corner goes',
      },
      {
        name: '',
        expression: `cutter - 2 * ${corner} + 2 * sqrt(sunk * (2 * ${corner} - sunk))`,
        words: 'the flat inside the corners, and the chord of the corner at that depth',
      },
    ];
  },
  why:
    'Only the tip of a ball nose is in a shallow cut, and it turns on a small circle: at the speed for the whole ' +
    'diameter it barely moves past the work. Set the speed for this diameter. The very tip never moves at all, so ' +
    'tilt the work where you can. A sharp ring or boring tool cuts on its ring diameter at any depth.',
  conditions: [
    ...positive(CUTTER, DEPTH, CORNER),
    must(
      'corner_radius',
      'the corner is at most half the cutter',
      (given) => cornerOf(given) <= given.number('cutter') / 2,
      (given) =>
        `A cutter of ${shown(given.number('cutter'), 'mm')} has room for corners of ` +
        `${shown(given.number('cutter') / 2, 'mm')} at most: give no more than that.`,
    ),
  ],
  source: 'chord of a circle, as in textbooks',
  cautions: ['speeds'],
  picture: null,
  checks: [
    {
      call: 'effective_diameter(10 mm, 0.5 mm)',
      expect: { '': 4.35889894354 },
      tolerance: 1e-9,
      source: 'root of the circle equation, found numerically',
    },
    {
      call: 'effective_diameter(50 mm, 1 mm, corner_radius: 5 mm)',
      expect: { '': 46 },
      tolerance: 1e-9,
      source: 'right triangle of 3, 4 and 5 mm in the corner',
    },
    {
      call: 'effective_diameter(10 mm, 7 mm)',
      expect: { '': 10 },
      tolerance: 1e-12,
      source: 'above its ball the shank is as wide as the cutter',
    },
  ],
};

export const CHIP_FORMULAS: readonly Formula[] = [chipThinning, effectiveDiameter];
