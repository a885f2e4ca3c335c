/** Force of a turning cut after Kienzle. */
import type { CardView } from '../quantity/value';
import { field, length, must, positive, quantity, radians, should, shown } from './build';
import type { Formula, Given } from './formula';
import { cardNumber, lacksOnCard, material } from './material';

const MATERIAL = material('`specific_force` and `force_exponent`');
const DEPTH = length('depth_of_cut', 'depth of cut, on the radius');
const FEED_PER_REV = quantity('feed_per_rev', 'mm/rev', 'feed for each turn of the spindle');
const EDGE_ANGLE = quantity(
  'cutting_edge_angle',
  '°',
  'cutting edge angle κr of ISO 3002, between the edge and the way of the feed: 90° less a lead or approach angle',
);

/** Part of the cutting force that pushes the work away: a usual figure and the range it is seen in. */
const RADIAL = 0.4;
const RADIAL_LOW = 0.3;
const RADIAL_HIGH = 0.5;

/** Chip thicknesses in mm between which the power law was measured. */
const THINNEST = 0.05;
const THICKEST = 2.5;

/** Beyond this the edge trails so far that the nose cuts, not the edge. */
const MOST_ANGLE = 120;

interface Kienzle {
  /** kc1.1 in N/mm². */
  readonly specific: number;
  readonly exponent: number;
}

function kienzle(card: CardView): Kienzle | null {
  const specific = cardNumber(card, 'specific_force', 'N/mm^2');
  const exponent = cardNumber(card, 'force_exponent', '');
  const fits = specific !== null && exponent !== null && specific > 0 && exponent >= 0 && exponent < 1;
  return fits ? { specific, exponent } : null;
}

function chip(given: Given): { width: number; thickness: number } {
  const sine = Math.sin(radians(given.number('cutting_edge_angle')));
  return { width: given.number('depth_of_cut') / sine, thickness: given.number('feed_per_rev') * sine };
}

const cuttingForce: Formula = {
  name: 'cutting_force',
  family: 'cutting',
  title: 'Force of a turning cut',
  parameters: [MATERIAL, DEPTH, FEED_PER_REV, EDGE_ANGLE],
  result: [
    field('chip_width', 'mm', 'width of the chip: the length of edge that cuts'),
    field('chip_thickness', 'mm', 'thickness of the chip before it is cut'),
    field('specific_force', 'N/mm^2', 'force for each square millimetre of chip at that thickness'),
    field('cutting_force', 'N', 'force along the cut: what power and torque have to drive'),
    field(
      'radial_force',
      'N',
      'force that pushes work and tool apart: 0.4 of the cutting force, common practice, from memory',
    ),
    field('radial_force_low', 'N', 'the same at 0.3 of the cutting force, the least to expect'),
    field('radial_force_high', 'N', 'the same at 0.5 of the cutting force, the safer one for deflection'),
  ],
  compute: (given) => {
    const card = given.card('material');
    const known = kienzle(card);
    if (!known)
      return lacksOnCard(
        card,
        'a `specific_force` above zero and a `force_exponent` from 0 to below 1, such as ' +
          '`specific_force = 2100 N/mm^2` and `force_exponent = 0.25`',
      );
    const { width, thickness } = chip(given);
    const specific = known.specific * thickness ** -known.exponent;
    const force = specific * width * thickness;
    return {
      chip_width: width,
      chip_thickness: thickness,
      specific_force: specific,
      cutting_force: force,
      radial_force: RADIAL * force,
      radial_force_low: RADIAL_LOW * force,
      radial_force_high: RADIAL_HIGH * force,
    };
  },
  working: (given) => {
    const known = kienzle(given.card('material'));
    if (!known) return [];
    return [
      {
        name: 'chip_width',
        expression: 'depth_of_cut / sin(cutting_edge_angle)',
        words: 'the depth, laid along the slanting edge',
      },
      {
        name: 'chip_thickness',
        expression: 'feed_per_rev * 1 rev * sin(cutting_edge_angle)',
        words: 'the feed of one turn, square to the slanting edge',
      },
      {
        name: 'specific_force',
        expression: `${known.specific} N/mm^2 / (chip_thickness / 1 mm)^${known.exponent}`,
        words: "the material's force for a chip of 1 mm by 1 mm, raised for a thinner one",
      },
      {
        name: 'cutting_force',
        expression: 'specific_force * depth_of_cut * feed_per_rev * 1 rev',
        words: 'that for each square millimetre of the chip, whose area is depth times feed at any angle',
      },
      {
        name: 'radial_force',
        expression: `${RADIAL} * cutting_force`,
        words: 'a usual part of it pushes outwards',
      },
      { name: 'radial_force_low', expression: `${RADIAL_LOW} * cutting_force`, words: 'at the least' },
      { name: 'radial_force_high', expression: `${RADIAL_HIGH} * cutting_force`, words: 'at the most' },
    ];
  },
  why:
    'A thick chip takes more force than a thin one, but less for each square millimetre, since bending it over the rake ' +
    'and rubbing at the edge cost the same for both. A slanting edge makes the same cut into a wider, thinner chip. ' +
    'Expect 15 to 25 % either way; a worn edge takes 30 to 50 % more, and at the low speeds of HSS it is 10 to 20 % more. ' +
    'A small cutting edge angle or a large nose pushes outwards more than the usual part. ' +
    'Use it to check power and bending, never as a limit for safe clamping.',
  conditions: [
    ...positive(DEPTH, FEED_PER_REV),
    must(
      'cutting_edge_angle',
      `the cutting edge angle is more than 0° and at most ${MOST_ANGLE}°`,
      (given) => given.number('cutting_edge_angle') > 0 && given.number('cutting_edge_angle') <= MOST_ANGLE,
      (given) =>
        `${shown(given.number('cutting_edge_angle'), '°')} is no cutting edge angle: give one of more than 0° and at ` +
        `most ${MOST_ANGLE}°, 90° for a square shoulder. A lead or approach angle is 90° less it.`,
    ),
    should(
      'feed_per_rev',
      `the chip is at least ${THINNEST} mm thick`,
      (given) => chip(given).thickness >= THINNEST,
      (given) =>
        `The chip is only ${shown(chip(given).thickness, 'mm')} thick: below ${THINNEST} mm the edge rubs and takes more ` +
        `than the figure says. From ${shown((THINNEST * given.number('feed_per_rev')) / chip(given).thickness, 'mm/rev')} on it holds.`,
    ),
    should(
      'feed_per_rev',
      `the chip is at most ${THICKEST} mm thick`,
      (given) => chip(given).thickness <= THICKEST,
      (given) =>
        `The chip is ${shown(chip(given).thickness, 'mm')} thick: the figures were measured up to ${THICKEST} mm. ` +
        `Keep the feed below ${shown((THICKEST * given.number('feed_per_rev')) / chip(given).thickness, 'mm/rev')}.`,
    ),
  ],
  source:
    'Kienzle and Victor (1957), sharp carbide at about 100 m/min; values of the built-in cards as printed in textbooks, ' +
    'from memory; radial part 0.3 to 0.5: common practice, from memory',
  cautions: ['speeds', 'lathe'],
  picture: null,
  // A square edge makes the thickest chip of a feed and takes the least force.
  extremes: { cutting_edge_angle: () => [90] },
  checks: [
    {
      call: 'cutting_force(steel_E295, 1.5 mm, 0.15 mm/rev, 45°)',
      expect: { cutting_force: 802.390478647, radial_force: 320.956191459 },
      tolerance: 1e-6,
      source: 'specific force by logarithms times chip area, worked with a units library',
    },
    {
      call: 'cutting_force(iron_GJL250, 3 mm, 0.3 mm/rev, 60°)',
      expect: { cutting_force: 1482.14607479, radial_force_low: 444.643822437 },
      tolerance: 1e-6,
      source: 'specific force by logarithms times chip area, worked with a units library',
    },
    {
      call: 'cutting_force(aluminium_6082, 2 mm, 0.2 mm/rev, 90°)',
      expect: {
        chip_width: 2,
        chip_thickness: 0.2,
        cutting_force: 418.697658742,
        radial_force_high: 209.348829371,
      },
      tolerance: 1e-6,
      source: 'specific force by logarithms times chip area, worked with a units library',
    },
  ],
};

export const FORCE_FORMULAS: readonly Formula[] = [cuttingForce];
