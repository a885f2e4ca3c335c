/** Stock: the blank with its allowances, what a bar weighs, and what it costs. */
import {
  choice,
  field,
  length,
  list,
  mm,
  must,
  notNegative,
  optional,
  positive,
  quantity,
  single,
} from './build';
import type { Formula, Given } from './formula';
import { cardNumber, lacksOnCard, material } from './material';

const DIAMETER = length('diameter', 'largest diameter of the finished part');
const LENGTH = length('length', 'length of the finished part');
const ON_DIAMETER = length('on_diameter', 'to take off on diameter: scale, runout and a clean cut');
const ON_END = length('on_end', 'to face off at each end');
const GRIP = optional(length('grip', 'more length to hold by, parted off at the end; nothing when left out'));
const BARS = optional(list('bars', 'mm', 'diameters of bar on the rack; any when left out'));

/** Smallest bar on the rack that holds the blank; the blank itself where no rack is given; null where none does. */
function barFor(given: Given): number | null {
  const needed = given.number('diameter') + given.number('on_diameter');
  if (!given.has('bars')) return needed;
  const fit = given.list('bars').filter((bar) => bar >= needed);
  return fit.length === 0 ? null : Math.min(...fit);
}

const blankSize: Formula = {
  name: 'blank_size',
  family: 'stock',
  title: 'Bar and length of a blank with its allowances',
  parameters: [DIAMETER, LENGTH, ON_DIAMETER, ON_END, GRIP, BARS],
  result: [
    field('least_bar', 'mm', 'smallest bar that cleans up'),
    { ...field('bar', 'mm', 'the next bar on the rack'), choice: true },
    field('turned_off', 'mm', 'what comes off the bar on diameter'),
    field('blank_length', 'mm', 'length to saw'),
  ],
  compute: (given) => {
    const [bar, least_bar] = [barFor(given), given.number('diameter') + given.number('on_diameter')];
    if (bar === null)
      return {
        refused: `The thickest bar is ${mm(Math.max(...given.list('bars')))}, and this needs ${mm(least_bar)}: put one of that or more on the rack.`,
        parameter: 'bars',
      };
    return {
      least_bar,
      bar,
      turned_off: bar - given.number('diameter'),
      blank_length: given.number('length') + 2 * given.number('on_end') + given.numberOr('grip', 0),
    };
  },
  working: (given) => [
    { name: 'least_bar', expression: 'diameter + on_diameter', words: 'the part and what cleans it up' },
    {
      name: 'bar',
      expression: given.has('bars') ? `${barFor(given)} mm` : 'least_bar',
      words: given.has('bars')
        ? 'the thinnest bar on the rack that is no thinner'
        : 'no rack given: just that',
    },
    { name: 'turned_off', expression: 'bar - diameter', words: 'what the bar is over the part' },
    {
      name: 'blank_length',
      expression: `length + 2 * on_end${given.has('grip') ? ' + grip' : ''}`,
      words: 'the part, both ends to face, and what is held',
    },
  ],
  why:
    'Hot rolled bar is neither round nor clean and wants 2 to 3 mm on diameter, bright bar may do with its own surface. A ' +
    'saw cut is not square, so each end wants a millimetre or two. The grip is paid for as well: one long blank for several ' +
    'parts wastes it once.',
  conditions: [...positive(DIAMETER, LENGTH), ...notNegative(ON_DIAMETER, ON_END, GRIP)],
  source: 'arithmetic; allowances: common practice',
  cautions: ['saw', 'heavy_stock'],
  picture: null,
  checks: [
    {
      call: 'blank_size(44 mm, 120 mm, 2 mm, 1.5 mm, grip: 25 mm, bars: [40, 45, 50, 60] mm)',
      expect: { least_bar: 46, bar: 50, turned_off: 6, blank_length: 148 },
      tolerance: 1e-9,
      source: 'added up by hand; the rack looked along',
    },
    {
      call: 'blank_size(1 in, 4 in, 1/8 in, 1/16 in)',
      expect: { least_bar: 28.575, bar: 28.575, turned_off: 3.175, blank_length: 104.775 },
      tolerance: 1e-9,
      source: 'added up in inches by hand: 1 1/8 and 4 1/8',
    },
  ],
};

const SHAPES = ['round', 'square', 'hexagon', 'tube'] as const;
const SHAPE = choice('shape', SHAPES, 'section of the bar');
const SIZE = length('size', 'diameter, or across flats');
const BAR_LENGTH = length('length', 'length of the bar');
const MATERIAL = material('its `density`');
const WALL = optional(length('wall', 'thickness of the wall of a tube'));

/** Area of the section in mm², and what the notation writes for it. */
const SECTIONS: ReadonlyMap<string, readonly [area: (size: number, wall: number) => number, text: string]> =
  new Map([
    ['round', [(size) => (Math.PI * size ** 2) / 4, 'pi * size^2 / 4']],
    ['square', [(size) => size ** 2, 'size^2']],
    ['hexagon', [(size) => (Math.sqrt(3) / 2) * size ** 2, 'sqrt(3) / 2 * size^2']],
    ['tube', [(size, wall) => Math.PI * wall * (size - wall), 'pi * wall * (size - wall)']],
  ] as const);

/** mm³ in a m³: densities are told in kg/m³. */
const MM3_PER_M3 = 1e9;
const MM_PER_M = 1000;

const isTube = (given: Given): boolean => given.code('shape') === 'tube';

const barMass: Formula = {
  name: 'bar_mass',
  family: 'stock',
  title: 'Mass of a bar',
  parameters: [SHAPE, SIZE, BAR_LENGTH, MATERIAL, WALL],
  result: [field('mass', 'kg', 'mass of the bar'), field('per_metre', 'kg/m', 'mass of each metre')],
  compute: (given) => {
    const density = cardNumber(given.card('material'), 'density', 'kg/m^3');
    if (density === null)
      return lacksOnCard(given.card('material'), '`density`, such as `density = 7850 kg/m^3`');
    const area = SECTIONS.get(given.code('shape'))?.[0] ?? (() => NaN);
    const perMm = (area(given.number('size'), given.numberOr('wall', 0)) * density) / MM3_PER_M3;
    return { mass: perMm * given.number('length'), per_metre: perMm * MM_PER_M };
  },
  working: (given) => [
    {
      name: 'section',
      expression: SECTIONS.get(given.code('shape'))?.[1] ?? '',
      words: `area of the section: ${given.code('shape')}`,
    },
    {
      name: 'per_metre',
      expression: `section * ${cardNumber(given.card('material'), 'density', 'kg/m^3')} kg/m^3`,
      words: 'the area times the density of the card',
    },
    { name: 'mass', expression: 'per_metre * length', words: 'each metre, by the length' },
  ],
  why:
    'The mass decides the price of the bar and whether two have to lift it. Bars are rolled a little over size, and the ' +
    'density of a grade is within about 2 %, so order and lift by the figure and something more.',
  conditions: [
    ...positive(SIZE, BAR_LENGTH, WALL),
    must(
      'wall',
      'a tube has a wall, and only a tube',
      (given) => isTube(given) === given.has('wall'),
      (given) =>
        isTube(given)
          ? 'A tube needs its `wall`: add `wall: 5 mm`.'
          : `A ${given.code('shape')} bar has no \`wall\`: leave it out, or say \`tube\`.`,
    ),
    must(
      'wall',
      'the wall is no thicker than half the tube',
      (given) => !given.has('wall') || given.number('wall') <= given.number('size') / 2,
      (given) =>
        `A wall of ${mm(given.number('wall'))} fills the tube: give one of ${mm(given.number('size') / 2)} at most.`,
    ),
  ],
  source: 'area of the section times density; densities: common handbook data',
  cautions: ['heavy_stock'],
  picture: null,
  checks: [
    {
      call: 'bar_mass(round, 25 mm, 3000 mm, steel_C45)',
      expect: { mass: 11.5600792175, per_metre: 3.85335973918 },
      tolerance: 1e-9,
      source: 'worked with pint',
    },
    {
      call: 'bar_mass(hexagon, 24 mm, 1000 mm, brass_CuZn39Pb3)',
      expect: { mass: 4.22509545795 },
      tolerance: 1e-9,
      source: 'worked with pint',
    },
    {
      call: 'bar_mass(round, 2 in, 12 in, stainless_304)',
      expect: { mass: 4.89897762503 },
      tolerance: 1e-9,
      source: 'worked with pint',
    },
    {
      call: 'bar_mass(square, 30 mm, 500 mm, aluminium_6082)',
      expect: { mass: 1.215, per_metre: 2.43 },
      tolerance: 1e-9,
      source: 'by hand: 9 square centimetres by 50 by 2.7 g',
    },
    {
      call: 'bar_mass(tube, 60 mm, 1000 mm, steel_C45, wall: 5 mm)',
      expect: { mass: 6.7819131409 },
      tolerance: 1e-9,
      source: 'difference of two solid bars of 60 and 50 mm',
    },
  ],
};

const MASS = quantity('mass', 'kg', 'mass that is bought');
const PER_KG = quantity('price', '¤/kg', 'price of a kilogram');
const PER_M = quantity('price', '¤/m', 'price of a metre');
const CUT = optional(quantity('cut', '¤', 'what the dealer takes for the cut'));

const byMass: Formula = {
  name: 'price_by_mass',
  family: 'stock',
  title: 'Price of material sold by mass',
  parameters: [MASS, PER_KG, CUT],
  result: [single('¤', 'price of the material')],
  compute: (given) => given.number('mass') * given.number('price') + given.numberOr('cut', 0),
  working: (given) => [
    {
      name: '',
      expression: `mass * price${given.has('cut') ? ' + cut' : ''}`,
      words: 'each kilogram, and the cut',
    },
  ],
  why: 'Dealers sell bar by the kilogram and take something for each cut, which for a short piece can be more than the bar.',
  conditions: [...positive(MASS), ...notNegative(PER_KG, CUT)],
  source: 'arithmetic; common practice',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'price_by_mass(11.56 kg, 4.2 AUD/kg)',
      expect: { '': 48.552 },
      tolerance: 1e-9,
      source: 'multiplied on paper',
    },
    {
      call: 'price_by_mass(2.5 kg, 9.8 EUR/kg, cut: 6 EUR)',
      expect: { '': 30.5 },
      tolerance: 1e-9,
      source: 'multiplied and added on paper',
    },
  ],
};

const byLength: Formula = {
  name: 'price_by_length',
  family: 'stock',
  title: 'Price of material sold by length',
  parameters: [BAR_LENGTH, PER_M, CUT],
  result: [single('¤', 'price of the material')],
  compute: (given) => (given.number('length') / MM_PER_M) * given.number('price') + given.numberOr('cut', 0),
  working: (given) => [
    {
      name: '',
      expression: `length * price${given.has('cut') ? ' + cut' : ''}`,
      words: 'each metre, and the cut',
    },
  ],
  why: 'Sold by length, the kerf and what cannot be used are bought as well: price the length that is sawn, not the part.',
  conditions: [...positive(BAR_LENGTH), ...notNegative(PER_M, CUT)],
  source: 'arithmetic; common practice',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'price_by_length(750 mm, 24 AUD/m)',
      expect: { '': 18 },
      tolerance: 1e-9,
      source: 'three quarters of 24',
    },
    {
      call: 'price_by_length(1250 mm, 8 GBP/m, cut: 2.5 GBP)',
      expect: { '': 12.5 },
      tolerance: 1e-9,
      source: 'multiplied and added on paper',
    },
  ],
};

export const STOCK_FORMULAS: readonly Formula[] = [blankSize, barMass, byMass, byLength];
