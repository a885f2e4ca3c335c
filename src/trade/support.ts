/** How far round work springs away from the tool: in a chuck alone, with a centre, between centres. */
import type { CardView } from '../quantity/value';
import { field, length, must, optional, positive, quantity, should, shown, mm } from './build';
import type { Condition, Field, Formula, Given, Parameter, Refusal, Step, WorkedCheck } from './formula';
import { cardNumber, lacksOnCard, material } from './material';

export const BENT = material('`modulus`, its modulus of elasticity');
export const FORCE = quantity(
  'force',
  'N',
  'force that pushes work and tool apart, the radial force of the cut',
);
export const DIAMETER = length('diameter', 'diameter of the work, the thinnest where it varies');
const OVERHANG = length('overhang', 'length that stands out of the chuck');
const FREE = length('free_length', 'length from the jaws to the point of the centre');
const BETWEEN = length('between_centres', 'length between the centres');

const UM_PER_MM = 1000;

/** Diameters of length up to which each way of holding is usual: common practice. */
export const CHUCK_RULE = 3;
export const CHUCK_LIGHT = 4;
export const CENTRE_RULE = 10;

/** Modulus of the card in N/mm², or null. */
export function modulus(card: CardView): number | null {
  const found = cardNumber(card, 'modulus', 'N/mm^2');
  return found !== null && found > 0 ? found : null;
}

export function lacksModulus(card: CardView): Refusal {
  return lacksOnCard(card, 'a `modulus` above zero, such as `modulus = 210000 N/mm^2` for steel');
}

/** What a way of holding does, by the length that bends and the place of the tool from the chuck or head. */
export interface Holding {
  /** Deflection in mm for a stiffness of one: times force, over modulus and second moment of area. In mm³. */
  shape(length: number, at: number): number;
  /** Where it gives way most, as part of the length. */
  readonly worst: number;
}

/** A bar held in the chuck alone. */
export const IN_CHUCK: Holding = { shape: (_, at) => at ** 3 / 3, worst: 1 };
/** Held in the chuck and borne by a centre. The worst place is where the slope under the tool is level. */
export const WITH_CENTRE: Holding = {
  shape: (length, at) => {
    const rest = length - at;
    return (at ** 3 * rest ** 2 * (3 * at + 4 * rest)) / (12 * length ** 3);
  },
  worst: 2 - Math.SQRT2,
};
export const BETWEEN_CENTRES: Holding = {
  shape: (length, at) => (at ** 2 * (length - at) ** 2) / (3 * length),
  worst: 1 / 2,
};

/** Second moment of area of a round bar, mm⁴. */
export function secondMoment(diameter: number): number {
  return (Math.PI * diameter ** 4) / 64;
}

/** How much larger than set the work comes out on the diameter, in µm, with the tool at its worst place. */
export function worstOversize(holding: Holding, length: number, given: Given, stiff: number): number {
  const bend = holding.shape(length, holding.worst * length);
  return (2 * UM_PER_MM * given.number('force') * bend) / (stiff * secondMoment(given.number('diameter')));
}

interface Held {
  readonly name: string;
  readonly title: string;
  readonly holding: Holding;
  readonly length: Parameter;
  /** The worst place and the two bends, in the notation. */
  readonly worst: string;
  bend(place: string): string;
  readonly form: string;
  readonly why: string;
  readonly rule: Condition;
  readonly cautions: readonly string[];
  readonly checks: readonly WorkedCheck[];
}

const RESULT: readonly Field[] = [
  field('deflection', 'µm', 'how far the work gives way under the tool'),
  field('oversize', 'µm', 'how much too large the diameter comes out there: twice that'),
  field('worst_at', 'mm', 'distance from the chuck or the head centre at which it gives way most'),
  field('worst_oversize', 'µm', 'how much too large the diameter comes out there'),
  { ...field('form', '', 'what the tool turns instead of a cylinder'), words: true },
];

function deflection(held: Held): Formula {
  const { holding, length: free } = held;
  const TOOL_AT = optional(
    length(
      'tool_at',
      'distance of the tool from the chuck or the head centre; the worst place when left out',
    ),
  );
  const place = (given: Given): number => given.numberOr('tool_at', holding.worst * given.number(free.name));
  return {
    name: held.name,
    family: 'support',
    title: held.title,
    parameters: [BENT, FORCE, DIAMETER, free, TOOL_AT],
    result: RESULT,
    compute: (given) => {
      const stiff = modulus(given.card('material'));
      if (stiff === null) return lacksModulus(given.card('material'));
      const long = given.number(free.name);
      const per = (UM_PER_MM * given.number('force')) / (stiff * secondMoment(given.number('diameter')));
      const deflected = per * holding.shape(long, place(given));
      return {
        deflection: deflected,
        oversize: 2 * deflected,
        worst_at: holding.worst * long,
        worst_oversize: worstOversize(holding, long, given, stiff),
        form: held.form,
      };
    },
    working: (given) => working(held, given),
    why: held.why,
    conditions: [
      ...positive(FORCE, DIAMETER, free),
      must(
        'tool_at',
        `the tool is at most at the far end of the ${free.name}`,
        (given) =>
          !given.has('tool_at') ||
          (given.number('tool_at') >= 0 && given.number('tool_at') <= given.number(free.name)),
        (given) =>
          `The tool is at ${mm(given.number('tool_at'))}, but the work is free from 0 to ${mm(given.number(free.name))}: ` +
          `give a \`tool_at\` of at most ${mm(given.number(free.name))}, or leave it out.`,
      ),
      held.rule,
    ],
    source:
      'elastic beam of round section (any text on strength of materials), shape found by unit loads; the rules of so many ' +
      'diameters: common practice, from memory',
    cautions: held.cautions,
    picture: null,
    // It gives way most at one place, and less on either side of it.
    extremes: { tool_at: (given) => [holding.worst * given.number(free.name)] },
    checks: held.checks,
  };
}

function working(held: Held, given: Given): readonly Step[] {
  const stiff = modulus(given.card('material'));
  if (stiff === null) return [];
  const place = given.has('tool_at') ? 'tool_at' : 'worst_at';
  return [
    {
      name: 'second_moment',
      expression: 'pi * diameter^4 / 64',
      words: 'how stiff the section is: with the fourth power of the diameter',
    },
    { name: 'give', expression: `force / (${stiff} N/mm^2 * second_moment)`, words: 'force over stiffness' },
    { name: 'worst_at', expression: held.worst, words: 'the place that gives way most' },
    {
      name: 'deflection',
      expression: `give * ${held.bend(place)}`,
      words: 'the shape of the bent bar at the tool',
    },
    { name: 'oversize', expression: '2 * deflection', words: 'the work lacks that cut on either side' },
    {
      name: 'worst_oversize',
      expression: `2 * give * ${held.bend('worst_at')}`,
      words: 'the same with the tool at the worst place',
    },
  ];
}

/** A rule of so many diameters; broken, it says what length holds it and what to do instead. */
function rule(free: string, most: number, range: string, instead: string): Condition {
  return should(
    free,
    range,
    (given) => given.number(free) <= most * given.number('diameter'),
    (given) =>
      `The work is ${shown(given.number(free) / given.number('diameter'), '')} diameters long: hold ` +
      `${mm(most * given.number('diameter'))} or less, or ${instead}.`,
  );
}

const ELASTIC =
  ' Chuck, centre and slides give way too, often as much again: take the figure as the least to expect.';

const UNIT_LOAD = 'integrals of unit loads, by numerical quadrature';

const inChuck = deflection({
  name: 'deflection_in_chuck',
  title: 'How far work in the chuck alone springs away',
  holding: IN_CHUCK,
  length: OVERHANG,
  worst: 'overhang',
  bend: (at) => `${at}^3 / 3`,
  form: 'a trumpet: largest at the free end, a curve and not a straight taper',
  why:
    'The work bends like a fishing rod, with the third power of how far it stands out and the fourth of how thin it is. ' +
    'It is pushed away most at its free end, so the end comes out large; half as far out, only an eighth as much.' +
    ELASTIC,
  rule: rule(
    'overhang',
    CHUCK_LIGHT,
    `at most ${CHUCK_RULE} diameters stand out of the chuck, ${CHUCK_LIGHT} for light cuts`,
    'bear the end with a centre',
  ),
  cautions: ['lathe', 'slender_work'],
  checks: [
    {
      call: 'deflection_in_chuck(aluminium_6082, 60 N, 12.7 mm, 100 mm)',
      expect: { deflection: 223.741823422, worst_at: 100, worst_oversize: 447.483646844 },
      tolerance: 1e-6,
      source: UNIT_LOAD,
    },
    {
      call: 'deflection_in_chuck(steel_C45, 50 N, 12 mm, 80 mm, 40 mm)',
      expect: { oversize: 9.98032173024, worst_oversize: 79.8425738419 },
      tolerance: 1e-6,
      source: UNIT_LOAD,
    },
  ],
});

const withCentre = deflection({
  name: 'deflection_with_centre',
  title: 'How far work in the chuck with a centre springs away',
  holding: WITH_CENTRE,
  length: FREE,
  worst: '(2 - sqrt(2)) * free_length',
  bend: (at) =>
    `${at}^3 * (free_length - ${at})^2 * (3 * ${at} + 4 * (free_length - ${at})) / (12 * free_length^3)`,
  form: 'a barrel: largest a little nearer the centre than the middle',
  why:
    'The chuck holds the work straight and the centre bears its end, so it can bow only between them, and more towards the ' +
    'centre, which lets it tip. The diameter is true at both ends and large between.' +
    ELASTIC,
  rule: rule(
    'free_length',
    CENTRE_RULE,
    `at most ${CENTRE_RULE} diameters between chuck and centre`,
    'put a steady behind or opposite the tool',
  ),
  cautions: ['lathe', 'slender_work', 'between_centres'],
  checks: [
    {
      call: 'deflection_with_centre(steel_C45, 120 N, 20 mm, 200 mm, 100 mm)',
      expect: { deflection: 5.30516476973, oversize: 10.6103295395 },
      tolerance: 1e-6,
      source: UNIT_LOAD,
    },
    {
      call: 'deflection_with_centre(steel_C45, 120 N, 20 mm, 200 mm, 120 mm)',
      expect: { deflection: 5.69945674151 },
      tolerance: 1e-6,
      source: UNIT_LOAD,
    },
    {
      call: 'deflection_with_centre(steel_C45, 120 N, 20 mm, 200 mm)',
      expect: { worst_at: 117.157287, worst_oversize: 11.4226812 },
      tolerance: 1e-6,
      source: `${UNIT_LOAD}, the worst place by golden section`,
    },
  ],
});

const betweenCentres = deflection({
  name: 'deflection_between_centres',
  title: 'How far work between centres springs away',
  holding: BETWEEN_CENTRES,
  length: BETWEEN,
  worst: 'between_centres / 2',
  bend: (at) => `${at}^2 * (between_centres - ${at})^2 / (3 * between_centres)`,
  form: 'a barrel: largest in the middle',
  why:
    'Centres bear the ends but let them tip, so the work bows like a plank over two blocks, most in the middle: a barrel, ' +
    'true at both ends. It is more than twice as limp as the same work with one end in the chuck.' +
    ELASTIC,
  rule: rule(
    'between_centres',
    CENTRE_RULE,
    `at most ${CENTRE_RULE} diameters between the centres`,
    'put a steady behind or opposite the tool',
  ),
  cautions: ['lathe', 'slender_work', 'between_centres'],
  checks: [
    {
      call: 'deflection_between_centres(steel_C45, 100 N, 25 mm, 250 mm, 60 mm)',
      expect: { deflection: 4.30327609659, worst_at: 125, worst_oversize: 16.168121203 },
      tolerance: 1e-6,
      source: UNIT_LOAD,
    },
    {
      call: 'deflection_between_centres(aluminium_6082, 80 N, 20 mm, 400 mm)',
      expect: { deflection: 194.017454436, oversize: 388.034908872 },
      tolerance: 1e-6,
      source: UNIT_LOAD,
    },
  ],
});

export const SUPPORT_FORMULAS: readonly Formula[] = [inChuck, withCentre, betweenCentres];
