/** Fits that are put together by heating the hub or cooling the shaft. */
import { field, length, mm, must, optional, positive, quantity, should, shown } from './build';
import type { Answer, Condition, Formula, Given, Refusal, Step } from './formula';
import { ASSEMBLY_CLEARANCE, REFERENCE, expansionOf, expansionStep, isNumber, materialOf } from './thermal';

const SIZE = length('size', 'size that hole and shaft share');
const INTERFERENCE = length('interference', 'largest interference of the fit on diameter');
const ROOM = optional(quantity('shop_temperature', '°C', `temperature before, ${REFERENCE} °C unless given`));
const HUB = materialOf('hub', 'material card of the part with the hole, with `expansion`');
const SHAFT = materialOf('shaft', 'material card of the shaft, with `expansion`');
const PER_UNIT = 1e6;

/** Common practice, from memory: hardened steel begins to soften, plain steel begins to scale and warp. */
const SOFTENS = 180;
const HOTTEST = 350;
/** Dry ice and liquid nitrogen, from memory of common tables. */
const DRY_ICE = -78;
const NITROGEN = -196;

const shop = (given: Given): number => given.numberOr('shop_temperature', REFERENCE);

/** Kelvin by which the part must change for the parts to pass each other freely. */
function change(given: Given, part: string): number | Refusal {
  const expansion = expansionOf(given, part);
  if (!isNumber(expansion)) return expansion;
  const needed = given.number('interference') + given.number('clearance');
  return (needed / given.number('size') / expansion) * PER_UNIT;
}

function steps(given: Given, part: string, sign: '+' | '-', final: string): readonly Step[] {
  return [
    expansionStep(given, part, 'expansion'),
    { name: 'needed', expression: 'interference + clearance', words: 'what must open' },
    { name: 'difference', expression: 'needed / (size * expansion)', words: 'each kelvin opens so much' },
    {
      name: final,
      expression: `${given.has('shop_temperature') ? 'shop_temperature' : `${REFERENCE} °C`} ${sign} difference`,
      words: sign === '+' ? 'hotter than the shop' : 'colder than the shop',
    },
  ];
}

const slightInterference = must(
  'interference',
  'the interference is at most a hundredth of the size',
  (given) => given.number('interference') * 100 <= given.number('size'),
  (given) =>
    `${mm(given.number('interference'))} on ${mm(given.number('size'))} is more than any metal bears: give the interference ` +
    'of the fit, usually about a thousandth of the size.',
);
const conditions: readonly Condition[] = [
  ...positive(SIZE, INTERFERENCE, ASSEMBLY_CLEARANCE),
  slightInterference,
];

/** The temperature of a part, when its card has an expansion; for conditions, which come before the answer. */
function reached(given: Given, part: string, sign: number): number | null {
  const kelvin = change(given, part);
  return isNumber(kelvin) ? shop(given) + sign * kelvin : null;
}

const WHY =
  'Heat opens the hole as it would stretch a bar of its diameter, so the hub slips on and grips as it cools. It must open ' +
  'by the largest interference and some clearance to slide in, since it cools on the shaft within seconds: have the ' +
  'stop, the direction and the gloves ready, and never hammer a part that has gripped half-way.';

const answer = (given: Given, part: string, make: (kelvin: number) => Answer): Answer | Refusal => {
  const kelvin = change(given, part);
  return isNumber(kelvin) ? make(kelvin) : kelvin;
};

const heat: Formula = {
  name: 'heat_to_assemble',
  family: 'fits',
  title: 'How hot a hub must be to slip over its shaft',
  parameters: [SIZE, INTERFERENCE, ASSEMBLY_CLEARANCE, HUB, ROOM],
  result: [
    field('hub_temperature', '°C', 'temperature of the hub, all through'),
    field('difference', 'K', 'how much hotter than the shop'),
  ],
  compute: (given) =>
    answer(given, 'hub', (kelvin) => ({ difference: kelvin, hub_temperature: shop(given) + kelvin })),
  working: (given) => steps(given, 'hub', '+', 'hub_temperature'),
  why: WHY,
  conditions: [
    ...conditions,
    should(
      'interference',
      `the hub stays below ${SOFTENS} °C`,
      (given) => {
        const hot = reached(given, 'hub', 1);
        return hot === null || hot <= SOFTENS || hot > HOTTEST;
      },
      (given) =>
        `${shown(reached(given, 'hub', 1) ?? NaN, '°C')} softens hardened steel and rubber seals: heat less and cool the shaft ` +
        'as well, or take a smaller interference.',
    ),
    should(
      'interference',
      `the hub stays below ${HOTTEST} °C`,
      (given) => (reached(given, 'hub', 1) ?? 0) <= HOTTEST,
      (given) =>
        `${shown(reached(given, 'hub', 1) ?? NaN, '°C')} scales and warps steel and melts some alloys: cool the shaft as well, ` +
        'or take a smaller interference.',
    ),
  ],
  source: 'linear expansion; limits of temperature: common practice, from memory',
  cautions: ['fits_and_heat', 'hot_and_cold'],
  picture: null,
  checks: [
    {
      call: 'heat_to_assemble(50 mm, 0.059 mm, 0.05 mm, steel_C45)',
      expect: { difference: 189.565217391, hub_temperature: 209.565217391 },
      tolerance: 1e-6,
      source: 'hand arithmetic: 109 µm over 50 mm times 11.5 µm/m/K',
    },
    {
      call: 'heat_to_assemble(40 mm, 0.03 mm, 0.016 mm, aluminium_6082, shop_temperature: 25 °C)',
      expect: { difference: 50, hub_temperature: 75 },
      tolerance: 1e-9,
      source: 'hand arithmetic: 46 µm over 40 mm times 23 µm/m/K',
    },
  ],
};

const cool: Formula = {
  name: 'cool_to_assemble',
  family: 'fits',
  title: 'How cold a shaft must be to slip into its hub',
  parameters: [SIZE, INTERFERENCE, ASSEMBLY_CLEARANCE, SHAFT, ROOM],
  result: [
    field('shaft_temperature', '°C', 'temperature of the shaft, all through'),
    field('difference', 'K', 'how much colder than the shop'),
  ],
  compute: (given) =>
    answer(given, 'shaft', (kelvin) => ({ difference: kelvin, shaft_temperature: shop(given) - kelvin })),
  working: (given) => steps(given, 'shaft', '-', 'shaft_temperature'),
  why:
    'Cold shrinks the shaft as heat opens the hub, without softening anything; but there is less of it to be had: dry ice ' +
    `gives ${DRY_ICE} °C, liquid nitrogen ${NITROGEN} °C. Expansion also falls as it gets colder, so allow more.`,
  conditions: [
    ...conditions,
    must(
      'interference',
      `the shaft need not be colder than ${NITROGEN} °C`,
      (given) => (reached(given, 'shaft', -1) ?? 0) >= NITROGEN,
      (given) =>
        `${shown(reached(given, 'shaft', -1) ?? NaN, '°C')} is colder than liquid nitrogen: heat the hub as well, or take a ` +
        'smaller interference.',
    ),
    should(
      'interference',
      `the shaft need not be colder than ${DRY_ICE} °C`,
      (given) => (reached(given, 'shaft', -1) ?? 0) >= DRY_ICE,
      (given) =>
        `${shown(reached(given, 'shaft', -1) ?? NaN, '°C')} is colder than dry ice: this takes liquid nitrogen and the training ` +
        'for it. Heat the hub as well, or take a smaller interference.',
    ),
  ],
  source: 'linear expansion; temperatures of dry ice and liquid nitrogen: common tables, from memory',
  cautions: ['fits_and_heat', 'hot_and_cold'],
  picture: null,
  checks: [
    {
      call: 'cool_to_assemble(60 mm, 0.02 mm, 0.0214 mm, steel_C45)',
      expect: { difference: 60, shaft_temperature: -40 },
      tolerance: 1e-9,
      source: 'hand arithmetic: 41.4 µm over 60 mm times 11.5 µm/m/K',
    },
    {
      call: 'cool_to_assemble(25 mm, 0.02 mm, 0.018 mm, brass_CuZn39Pb3, shop_temperature: 30 °C)',
      expect: { difference: 80, shaft_temperature: -50 },
      tolerance: 1e-9,
      source: 'hand arithmetic: 38 µm over 25 mm times 19 µm/m/K',
    },
  ],
};

export { SIZE, slightInterference };
export const SHRINK_FORMULAS: readonly Formula[] = [heat, cool];
