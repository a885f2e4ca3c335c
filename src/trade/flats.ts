/** Regular flats on round stock, and dovetails measured over pins. */
import { choice, count, field, length, mm, must, positive, quantity, radians, shown } from './build';
import type { Formula, Given } from './formula';

const FLATS = length('across_flats', 'distance of two opposite flats');
const SIDES = count('sides', 'number of flats: 4 for a square, 6 for a hexagon');
const STOCK = length('stock', 'diameter of the round stock');
const DOVETAIL_WIDTH = length(
  'sharp_width',
  'width at the sharp corners: the narrow one at the root of the male part, the wide one at the floor of the female part',
);
const PIN = length('pin', 'diameter of the pins, both alike');
const FLANK = quantity('flank_angle', '°', 'angle between flank and floor, 60° on most machines');
const PART = choice('part', ['male', 'female'], 'male for the tongue, female for the slot');

const evenSides = must(
  'sides',
  'there are flats opposite one another: an even number from 4 on',
  (given) => given.number('sides') >= 4 && given.number('sides') % 2 === 0,
  (given) =>
    `With ${given.number('sides')} sides no two flats lie opposite: give an even number of 4 or more, such as ` +
    `${Math.max(4, given.number('sides') + 1)}.`,
);

function halfCosine(given: Given): number {
  return Math.cos(Math.PI / given.number('sides'));
}

const HALF = 'cos(180° / sides)';
const WHY_FLATS =
  'From the middle to a flat and from there to the corner is a right triangle, with half the angle of one side at the middle.';

const acrossCorners: Formula = {
  name: 'across_corners',
  family: 'geometry',
  title: 'Size across corners of flats',
  parameters: [FLATS, SIDES],
  result: [
    field('corners', 'mm', 'size across opposite corners: the round it is cut from'),
    field('side', 'mm', 'length of one side'),
    field('depth_per_flat', 'mm', 'depth of each flat into that round'),
  ],
  compute: (given) => {
    const flats = given.number('across_flats');
    const corners = flats / halfCosine(given);
    return {
      corners,
      side: flats * Math.tan(Math.PI / given.number('sides')),
      depth_per_flat: (corners - flats) / 2,
    };
  },
  working: () => [
    { name: 'corners', expression: `across_flats / ${HALF}`, words: 'the long side of the triangle, twice' },
    { name: 'side', expression: 'across_flats * tan(180° / sides)', words: 'its short side, twice' },
    {
      name: 'depth_per_flat',
      expression: '(corners - across_flats) / 2',
      words: 'half the rest on each side',
    },
  ],
  why: `${WHY_FLATS} Leave a little more than this for a chamfer, and take opposite flats in pairs, measuring over both.`,
  conditions: [...positive(FLATS), evenSides],
  source: 'regular polygon, as in any handbook',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'across_corners(17 mm, 6)',
      expect: { corners: 19.6299091524, side: 9.8149545762, depth_per_flat: 1.3149545762 },
      tolerance: 1e-9,
      source: 'distances of corners set out as points',
    },
    {
      call: 'across_corners(19 mm, 8)',
      expect: { corners: 20.5654518056, side: 7.87005768509 },
      tolerance: 1e-9,
      source: 'distances of corners set out as points',
    },
    {
      call: 'across_corners(10 mm, 4)',
      expect: { corners: 14.1421356237, side: 10, depth_per_flat: 2.07106781187 },
      tolerance: 1e-9,
      source: 'diagonal of a square',
    },
  ],
};

const largestFlats: Formula = {
  name: 'largest_flats',
  family: 'geometry',
  title: 'Largest flats out of a round',
  parameters: [STOCK, SIDES],
  result: [
    field('flats', 'mm', 'largest size across flats with sharp corners'),
    field('depth_per_flat', 'mm', 'depth of each flat'),
  ],
  compute: (given) => {
    const stock = given.number('stock');
    const flats = stock * halfCosine(given);
    return { flats, depth_per_flat: (stock - flats) / 2 };
  },
  working: () => [
    {
      name: 'flats',
      expression: `stock * ${HALF}`,
      words: 'the side of the triangle next to that angle, twice',
    },
    { name: 'depth_per_flat', expression: '(stock - flats) / 2', words: 'half the rest on each side' },
  ],
  why: `${WHY_FLATS} The corners then just touch the round; any larger and they stay blunt.`,
  conditions: [...positive(STOCK), evenSides],
  source: 'regular polygon, as in any handbook',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'largest_flats(20 mm, 6)',
      expect: { flats: 17.3205080757, depth_per_flat: 1.33974596216 },
      tolerance: 1e-9,
      source: 'twice the height of a triangle of equal sides of 10 mm',
    },
    {
      call: 'largest_flats(20 mm, 4)',
      expect: { flats: 14.1421356237, depth_per_flat: 2.92893218813 },
      tolerance: 1e-9,
      source: 'side of a square by its diagonal',
    },
  ],
};

/** How far the far side of a pin in the corner stands from the corner. */
function pinReach(given: Given): number {
  return given.number('pin') * (1 + 1 / Math.tan(radians(given.number('flank_angle')) / 2));
}

const dovetail: Formula = {
  name: 'dovetail_pins',
  family: 'geometry',
  title: 'Dovetail measured over pins',
  parameters: [PART, DOVETAIL_WIDTH, PIN, FLANK],
  result: [field('over_pins', 'mm', 'size over the pins of the male part, between those of the female part')],
  compute: (given) => {
    const way = given.code('part') === 'male' ? 1 : -1;
    return { over_pins: given.number('sharp_width') + way * pinReach(given) };
  },
  working: (given) => [
    {
      name: 'pin_reach',
      expression: 'pin * (1 + 1 / tan(flank_angle / 2))',
      words: 'both pins: middle of each from its corner, and half of it more to the far side',
    },
    given.code('part') === 'male'
      ? { name: 'over_pins', expression: 'sharp_width + pin_reach', words: 'outside the tongue' }
      : { name: 'over_pins', expression: 'sharp_width - pin_reach', words: 'inside the slot' },
  ],
  why:
    'Sharp corners cannot be measured and are not there: they are broken or relieved. A pin touches floor and flank in any case, ' +
    'and its middle lies on the line that halves their angle, so its place is known.',
  conditions: [
    ...positive(DOVETAIL_WIDTH, PIN),
    must(
      'flank_angle',
      'the flank leans in: more than 0° and less than 90°',
      (given) => given.number('flank_angle') > 0 && given.number('flank_angle') < 90,
      (given) =>
        `${shown(given.number('flank_angle'), '°')} makes no dovetail: give more than 0° and less than 90°, 60° on most machines.`,
    ),
    must(
      'pin',
      'both pins fit into the slot',
      (given) => given.code('part') === 'male' || pinReach(given) < given.number('sharp_width'),
      (given) =>
        `Two pins of ${mm(given.number('pin'))} do not fit into ${mm(given.number('sharp_width'))}: take pins below ` +
        `${mm((given.number('pin') * given.number('sharp_width')) / pinReach(given))}.`,
    ),
  ],
  source: 'circle in a corner, as in any handbook',
  cautions: ['measuring'],
  picture: null,
  checks: [
    {
      call: 'dovetail_pins(male, 30 mm, 6 mm, 60°)',
      expect: { over_pins: 46.3923048454 },
      tolerance: 1e-9,
      source: 'circle laid against floor and flank by numbers',
    },
    {
      call: 'dovetail_pins(female, 50 mm, 6 mm, 60°)',
      expect: { over_pins: 33.6076951546 },
      tolerance: 1e-9,
      source: 'circle laid against floor and flank by numbers',
    },
    {
      call: 'dovetail_pins(female, 40 mm, 5 mm, 45°)',
      expect: { over_pins: 22.9289321881 },
      tolerance: 1e-9,
      source: 'circle laid against floor and flank by numbers',
    },
  ],
};

export const FLATS_FORMULAS: readonly Formula[] = [acrossCorners, largestFlats, dovetail];
