/** What a shrink or press fit holds once it is together: pressure, what it carries, what it does to the hub. */
import { field, length, mm, must, optional, positive, quantity, should, shown } from './build';
import type { Condition, Formula, Given, Refusal, Step } from './formula';
import { SIZE, slightInterference } from './shrink';
import { lacksModulus, modulus } from './support';
import { isNumber, materialOf } from './thermal';

const GRIP = length('grip_length', 'length over which hub and shaft touch');
const OUTSIDE = length('hub_outside', 'outside diameter of the hub');
const INTERFERENCE = length(
  'interference',
  'interference on diameter: the least of the fit for what it holds, the largest for the stress',
);
const HUB = materialOf('hub', 'material card of the part with the hole, with `modulus`');
const SHAFT = materialOf('shaft', 'material card of the shaft, with `modulus`');
const BORE = optional(length('shaft_bore', 'bore of a hollow shaft; solid when left out'));
/** Common practice, from memory: dry or lightly oiled steel on steel grips with 0.1 to 0.2. */
const USUAL_FRICTION = 0.12;
const FRICTION = optional(
  quantity('friction', '', `coefficient of friction, ${USUAL_FRICTION} when left out`),
);
const YIELD = optional(quantity('hub_yield', 'MPa', 'yield strength of the hub, from its data sheet'));
/** Poisson's ratio of the common metals, within about 0.05: common handbook value. */
const POISSON = 0.3;
const PER_THOUSAND = 1000;

const hole = (given: Given): number => given.numberOr('shaft_bore', 0);
const friction = (given: Given): number => given.numberOr('friction', USUAL_FRICTION);
/** A ring's own part of the give: how much of the square of the outside is hole. */
const hollow = (inside: number, outside: number): number => (inside / outside) ** 2;
const ringShape = (part: number): number => (1 + part) / (1 - part);

interface Moduli {
  readonly hub: number;
  readonly shaft: number;
}

function moduli(given: Given): Moduli | Refusal {
  const [hub, shaft] = [modulus(given.card('hub')), modulus(given.card('shaft'))];
  if (hub === null) return { ...lacksModulus(given.card('hub')), parameter: 'hub' };
  if (shaft === null) return { ...lacksModulus(given.card('shaft')), parameter: 'shaft' };
  return { hub, shaft };
}

const hubPart = (given: Given): number => hollow(given.number('size'), given.number('hub_outside'));

/** Pressure between the parts in MPa. */
function pressure(given: Given): number | Refusal {
  const stiff = moduli(given);
  if ('refused' in stiff) return stiff;
  const outer = (ringShape(hubPart(given)) + POISSON) / stiff.hub;
  const inner = (ringShape(hollow(hole(given), given.number('size'))) - POISSON) / stiff.shaft;
  return given.number('interference') / (given.number('size') * (outer + inner));
}

/** Stress in the hub at its bore, to be held against the yield strength (greatest shear), in MPa. */
const hubStress = (given: Given, pressed: number): number => (2 * pressed) / (1 - hubPart(given));

function working(given: Given): readonly Step[] {
  const stiff = moduli(given);
  if ('refused' in stiff) return [];
  const bored = given.has('shaft_bore');
  return [
    { name: 'hub_part', expression: '(size / hub_outside)^2', words: 'a thin hub gives more' },
    {
      name: 'hub_gives',
      expression: `((1 + hub_part) / (1 - hub_part) + ${POISSON}) / (${stiff.hub} N/mm^2)`,
      words: 'how much the hub opens for each unit of pressure and of size',
    },
    ...(bored
      ? [{ name: 'shaft_part', expression: '(shaft_bore / size)^2', words: 'a hollow shaft gives, too' }]
      : []),
    {
      name: 'shaft_gives',
      expression: `(${bored ? '(1 + shaft_part) / (1 - shaft_part)' : '1'} - ${POISSON}) / (${stiff.shaft} N/mm^2)`,
      words: 'how much the shaft closes',
    },
    {
      name: 'pressure',
      expression: 'interference / (size * (hub_gives + shaft_gives))',
      words: 'both together must make room for the interference',
    },
    {
      name: 'axial_force',
      expression: `${given.has('friction') ? 'friction' : USUAL_FRICTION} * pressure * pi * size * grip_length`,
      words: 'friction over the whole seat',
    },
    { name: 'torque', expression: 'axial_force * size / 2', words: 'the same friction at the radius' },
    {
      name: 'hub_stress',
      expression: '2 * pressure / (1 - hub_part)',
      words: 'pull around the bore and pressure on it, together',
    },
  ];
}

const conditions: readonly Condition[] = [
  ...positive(SIZE, GRIP, OUTSIDE, INTERFERENCE),
  slightInterference,
  must(
    'hub_outside',
    'the hub is larger outside than its hole',
    (given) => given.number('hub_outside') > given.number('size'),
    (given) =>
      `A hub of ${mm(given.number('hub_outside'))} has no wall around a hole of ${mm(given.number('size'))}: give the outside diameter of the hub.`,
  ),
  must(
    'shaft_bore',
    'the bore of the shaft is smaller than the shaft',
    (given) => hole(given) >= 0 && hole(given) < given.number('size'),
    (given) =>
      `A shaft of ${mm(given.number('size'))} cannot have a bore of ${mm(hole(given))}: give a smaller one, or leave \`shaft_bore\` out for a solid shaft.`,
  ),
  must(
    'friction',
    'the coefficient of friction is above 0 and at most 1',
    (given) => friction(given) > 0 && friction(given) <= 1,
    (given) =>
      `A coefficient of friction of ${shown(friction(given), '')} is none: give one of 0.05 to 0.25, as metals grip with, or leave it out.`,
  ),
  should(
    'friction',
    'the coefficient of friction is between 0.05 and 0.25',
    (given) =>
      friction(given) <= 0 || friction(given) > 1 || (friction(given) >= 0.05 && friction(given) <= 0.25),
    (given) =>
      `Metal on metal grips with 0.05 to 0.25, not ${shown(friction(given), '')}: do not count on more without a trial.`,
  ),
  must(
    'hub_yield',
    'the yield strength is above zero',
    (given) => !given.has('hub_yield') || given.number('hub_yield') > 0,
    () => 'A yield strength is above zero: take it from the data sheet of the material and its condition.',
  ),
  should(
    'hub_yield',
    'the stress in the hub stays below its yield strength',
    (given) => {
      if (!given.has('hub_yield')) return true;
      const pressed = pressure(given);
      return !isNumber(pressed) || hubStress(given, pressed) <= given.number('hub_yield');
    },
    (given) => {
      const pressed = pressure(given);
      return (
        `${shown(isNumber(pressed) ? hubStress(given, pressed) : NaN, 'MPa')} at the bore stretches a hub that yields at ` +
        `${shown(given.number('hub_yield'), 'MPa')} for good, and it holds less than computed: take less interference or a thicker hub.`
      );
    },
  ),
];

export const SHRINK_GRIP_FORMULAS: readonly Formula[] = [
  {
    name: 'shrink_grip',
    family: 'fits',
    title: 'What a shrink or press fit holds',
    parameters: [SIZE, GRIP, OUTSIDE, INTERFERENCE, HUB, SHAFT, BORE, FRICTION, YIELD],
    result: [
      field('pressure', 'MPa', 'pressure between hub and shaft'),
      field('axial_force', 'kN', 'force at which it slides, and about what a cold press must give'),
      field('torque', 'N*m', 'torque at which it slips'),
      field('hub_stress', 'MPa', 'stress at the bore of the hub, to be held against its yield strength'),
    ],
    compute: (given) => {
      const pressed = pressure(given);
      if (!isNumber(pressed)) return pressed;
      const seat = Math.PI * given.number('size') * given.number('grip_length');
      const newtons = friction(given) * pressed * seat;
      return {
        pressure: pressed,
        axial_force: newtons / PER_THOUSAND,
        torque: (newtons * given.number('size')) / 2 / PER_THOUSAND,
        hub_stress: hubStress(given, pressed),
      };
    },
    working,
    why:
      'The hub is stretched and the shaft squeezed until both fit on one diameter; the pressure this takes is what holds. ' +
      'It holds least at the smallest interference of the fit and is stressed most at the largest, so give a figure with ' +
      'limits and read both ends. Turned faces lose some microns of interference as their peaks are pressed flat, a fast ' +
      'hub opens, and warmth that the two do not share loosens it: what must not slip gets a key or a designer as well.',
    conditions,
    source:
      'thick-walled rings under pressure (Lamé), as in any text on machine design; greatest shear against yield; Poisson’s ' +
      `ratio ${POISSON}: common handbook value; friction: common practice, from memory. The pressure is highest at the ends ` +
      'of the hub, which this leaves out',
    cautions: ['fits_and_heat'],
    picture: null,
    checks: [
      {
        call: 'shrink_grip(50 mm, 40 mm, 100 mm, 0.05 mm, steel_C45, steel_C45)',
        expect: { pressure: 78.75, axial_force: 59.376101, torque: 1484.402529, hub_stress: 210 },
        tolerance: 1e-6,
        source:
          'hand arithmetic by the textbook form for a solid shaft and one material, E δ (1 − (d/D)²) / (2 d): ' +
          '210000 × 0.05 × 0.75 / 100; seat 6283.185 mm²',
      },
      {
        call: 'shrink_grip(1 in, 30 mm, 2 in, 0.001 in, steel_C45, steel_C45, friction: 0.1)',
        expect: { pressure: 78.75, axial_force: 18.851912, torque: 239.419284, hub_stress: 210 },
        tolerance: 1e-6,
        source: 'hand arithmetic: the same ratios in inches give the same pressure; seat 2393.893 mm²',
      },
    ],
  },
];
