/** What warmth does to a size: growth from the reference temperature of ISO 1, and fits that are put together by heat. */
import type { CardView } from '../quantity/value';
import { field, length, must, optional, positive, quantity, should, shown, single } from './build';
import type { Condition, Formula, Given, Parameter, Refusal, Step } from './formula';
import { cardNumber } from './material';

/** Reference temperature of ISO 1, in °C: sizes on drawings and limits are for this. */
export const REFERENCE = 20;
const ABSOLUTE_ZERO = -273.15;
const PER_UNIT = 1e6;
const UNIT = 'µm/m/K';

const SIZE = length('size', 'length or diameter');
const TEMPERATURE = quantity('temperature', '°C', 'temperature of the work, all through');

const card = (name: string, meaning: string): Parameter => ({ name, kind: 'material', unit: '', meaning });
const MATERIAL = card('material', 'material card of the work, with `expansion`');
const GAUGE = optional(
  card('gauge', 'material card of the measuring tool, where that is as warm as the work'),
);

/** Expansion of a card in µm/m/K; a refusal where it has none. */
function expansionOf(given: Given, parameter: string): number | Refusal {
  const view: CardView = given.card(parameter);
  const value = cardNumber(view, 'expansion', UNIT);
  if (value !== null && value > 0) return value;
  return {
    refused: `The card of \`${view.name}\` needs an \`expansion\` above zero, such as \`expansion = 11.5 ${UNIT}\`, from its data sheet.`,
    parameter,
  };
}

const isNumber = (value: number | Refusal): value is number => typeof value === 'number';

/** Growth of a length of one, for so many kelvin. */
const stretch = (expansion: number, kelvin: number): number => (expansion * kelvin) / PER_UNIT;

function warm(name: string): readonly Condition[] {
  return [
    must(
      name,
      'the temperature is above absolute zero',
      (given) => given.number(name) > ABSOLUTE_ZERO,
      (given) =>
        `${shown(given.number(name), '°C')} is below absolute zero: give a temperature above ${ABSOLUTE_ZERO} °C.`,
    ),
    should(
      name,
      'the temperature is between -100 °C and 400 °C',
      (given) => given.number(name) >= -100 && given.number(name) <= 400,
      (given) =>
        `The expansion on a card holds near room temperature, and ${shown(given.number(name), '°C')} is far from it: ` +
        'give a mean value for that range on a card of your own, or a temperature between -100 °C and 400 °C.',
    ),
  ];
}

const expansionStep = (given: Given, parameter: string, name: string): Step => {
  const value = expansionOf(given, parameter);
  return {
    name,
    expression: isNumber(value) ? `${value} ${UNIT}` : '0',
    words: `expansion on the card of ${given.card(parameter).name}`,
  };
};

const warmer: Step = {
  name: 'warmer',
  expression: `temperature - ${REFERENCE} °C`,
  words: 'how much warmer than the reference temperature',
};

const SOURCE =
  'linear expansion; reference temperature of 20 °C: ISO 1:2022. Expansions on the starter cards: common handbook values, ' +
  'from memory, within about 5 %';
const WHY =
  'Every size on a drawing is meant at 20 °C. Steel grows 11.5 µm for each metre and kelvin: a 100 mm part just cut, at ' +
  '35 °C, is 17 µm large, which is most of an H7. A tool of the same metal at the same warmth grows along and shows the ' +
  'right size; so wait, or let both come to one temperature.';

const growth: Formula = {
  name: 'thermal_growth',
  family: 'fits',
  title: 'Growth of a size with warmth',
  parameters: [SIZE, TEMPERATURE, MATERIAL],
  result: [single('µm', 'how much larger than at 20 °C; negative is smaller')],
  compute: (given) => {
    const expansion = expansionOf(given, 'material');
    if (!isNumber(expansion)) return expansion;
    return given.number('size') * stretch(expansion, given.number('temperature') - REFERENCE) * 1000;
  },
  working: (given) => [
    warmer,
    expansionStep(given, 'material', 'expansion'),
    { name: '', expression: 'size * expansion * warmer', words: 'each metre and each kelvin adds the same' },
  ],
  why: WHY,
  conditions: [...positive(SIZE), ...warm('temperature')],
  source: SOURCE,
  cautions: ['measuring'],
  picture: null,
  checks: [
    {
      call: 'thermal_growth(100 mm, 35 °C, steel_C60)',
      expect: { '': 17.25 },
      tolerance: 1e-9,
      source: 'worked with a units library that knows temperatures',
    },
    {
      call: 'thermal_growth(50 mm, 45 °C, aluminium_6082)',
      expect: { '': 28.75 },
      tolerance: 1e-9,
      source: 'worked with a units library that knows temperatures',
    },
  ],
};

const atReference: Formula = {
  name: 'size_at_reference',
  family: 'fits',
  title: 'Size at 20 °C of what was measured warm',
  parameters: [{ ...SIZE, meaning: 'size as read' }, TEMPERATURE, MATERIAL, GAUGE],
  result: [
    field('true_size', 'mm', 'size at 20 °C'),
    field('growth', 'µm', 'by how much the reading was too large; negative is too small'),
  ],
  compute: (given) => {
    const expansion = expansionOf(given, 'material');
    if (!isNumber(expansion)) return expansion;
    const tool = given.has('gauge') ? expansionOf(given, 'gauge') : 0;
    if (!isNumber(tool)) return tool;
    const kelvin = given.number('temperature') - REFERENCE;
    const read = given.number('size');
    const size = (read * (1 + stretch(tool, kelvin))) / (1 + stretch(expansion, kelvin));
    return { true_size: size, growth: (read - size) * 1000 };
  },
  working: (given) => {
    const gauge = given.has('gauge');
    return [
      warmer,
      expansionStep(given, 'material', 'expansion'),
      ...(gauge ? [expansionStep(given, 'gauge', 'expansion_of_gauge')] : []),
      {
        name: 'true_size',
        expression: gauge
          ? 'size * (1 + expansion_of_gauge * warmer) / (1 + expansion * warmer)'
          : 'size / (1 + expansion * warmer)',
        words: gauge
          ? 'a warm gauge shows too little; then without the growth of the work'
          : 'without the growth of the work',
      },
      { name: 'growth', expression: 'size - true_size', words: 'what the reading has too much' },
    ];
  },
  why: WHY,
  conditions: [...positive(SIZE), ...warm('temperature')],
  source: SOURCE,
  cautions: ['measuring'],
  picture: null,
  checks: [
    {
      call: 'size_at_reference(100.01725 mm, 35 °C, steel_C60)',
      expect: { true_size: 100, growth: 17.25 },
      tolerance: 1e-6,
      source: 'the growth worked with a units library, taken off again',
    },
    {
      call: 'size_at_reference(50.0143750 mm, 45 °C, aluminium_6082, gauge: steel_C60)',
      expect: { true_size: 50, growth: 14.375 },
      tolerance: 0.01,
      source:
        'difference of the expansions, 11.5 µm/m/K, times 50 mm and 25 K, by hand; products of growths left out',
    },
  ],
};

const CLEARANCE = length('clearance', 'gap on diameter that lets the parts slide together, at 20 °C');
const WARM_TEMPERATURE = quantity('temperature', '°C', 'temperature of both parts when running');

const whenWarm: Formula = {
  name: 'clearance_when_warm',
  family: 'fits',
  title: 'What warmth does to a fit of two metals',
  parameters: [
    { ...SIZE, meaning: 'size that hole and shaft share' },
    { ...CLEARANCE, meaning: 'clearance on diameter at 20 °C; negative is interference' },
    WARM_TEMPERATURE,
    card('hole_material', 'material card of the part with the hole, with `expansion`'),
    card('shaft_material', 'material card of the shaft, with `expansion`'),
  ],
  result: [
    field('warm_clearance', 'µm', 'clearance at that temperature; negative is interference'),
    field('change', 'µm', 'what the warmth adds to the clearance'),
  ],
  compute: (given) => {
    const hole = expansionOf(given, 'hole_material');
    if (!isNumber(hole)) return hole;
    const shaft = expansionOf(given, 'shaft_material');
    if (!isNumber(shaft)) return shaft;
    const change =
      given.number('size') * stretch(hole - shaft, given.number('temperature') - REFERENCE) * 1000;
    return { warm_clearance: given.number('clearance') * 1000 + change, change };
  },
  working: (given) => [
    warmer,
    expansionStep(given, 'hole_material', 'expansion_of_hole'),
    expansionStep(given, 'shaft_material', 'expansion_of_shaft'),
    {
      name: 'change',
      expression: 'size * (expansion_of_hole - expansion_of_shaft) * warmer',
      words: 'the hole opens, the shaft grows; only the difference counts',
    },
    { name: 'warm_clearance', expression: 'clearance + change', words: 'on top of what was there' },
  ],
  why:
    'A hole grows as if it were full of its own metal. So in two parts of one metal the fit stays; a steel bush in an ' +
    'aluminium housing comes loose as it warms, a brass bush in steel closes.',
  conditions: [...positive(SIZE), ...warm('temperature')],
  source: SOURCE,
  cautions: ['fits_and_heat'],
  picture: null,
  checks: [
    {
      call: 'clearance_when_warm(50 mm, 0 mm, 80 °C, aluminium_6082, steel_C45)',
      expect: { warm_clearance: 34.5, change: 34.5 },
      tolerance: 1e-9,
      source: 'hand arithmetic: 50 mm times 60 K times 11.5 µm/m/K',
    },
    {
      call: 'clearance_when_warm(25 mm, 0.02 mm, 60 °C, steel_C60, brass_CuZn39Pb3)',
      expect: { warm_clearance: 12.5, change: -7.5 },
      tolerance: 1e-9,
      source: 'hand arithmetic: 25 mm times 40 K times 7.5 µm/m/K, off 20 µm',
    },
  ],
};

export { CLEARANCE as ASSEMBLY_CLEARANCE, card as materialOf, expansionOf, expansionStep, isNumber, stretch };
export const THERMAL_FORMULAS: readonly Formula[] = [growth, atReference, whenWarm];
