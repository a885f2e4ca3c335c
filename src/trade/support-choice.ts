/** Which way to hold slender work: the three ways side by side, and how far it may stand out. */
import { field, length, mm, must, positive, shown } from './build';
import type { Formula, Given } from './formula';
import {
  BENT,
  BETWEEN_CENTRES,
  CENTRE_RULE,
  CHUCK_LIGHT,
  CHUCK_RULE,
  DIAMETER,
  FORCE,
  IN_CHUCK,
  WITH_CENTRE,
  lacksModulus,
  modulus,
  secondMoment,
  worstOversize,
} from './support';

const FREE = length('free_length', 'length that is free to bend, the same for all three ways');
const ALLOWED = length('allowed', 'how much too large the diameter may come out');

/** What so many diameters ask for: common practice. */
function advice(slenderness: number): string {
  if (slenderness <= CHUCK_RULE) return 'the chuck alone will do';
  if (slenderness <= CHUCK_LIGHT) return 'the chuck alone for light cuts, otherwise a centre';
  if (slenderness <= CENTRE_RULE) return 'bear the end with a centre';
  return 'a centre and a steady';
}

function slenderness(given: Given): number {
  return given.number('free_length') / given.number('diameter');
}

const compared: Formula = {
  name: 'support_compared',
  family: 'support',
  title: 'Chuck alone, with a centre, between centres: side by side',
  parameters: [BENT, FORCE, DIAMETER, FREE],
  // What to do comes first: a hint at the end of a line has room for little more.
  result: [
    { ...field('advice', '', 'what the rule of diameters says'), words: true, choice: true },
    field('slenderness', '', 'length over diameter'),
    field('in_chuck', 'µm', 'how much too large the free end comes out without support'),
    field('with_centre', 'µm', 'how much too large the worst place comes out with chuck and centre'),
    field('between_centres', 'µm', 'how much too large the middle comes out between centres'),
  ],
  compute: (given) => {
    const stiff = modulus(given.card('material'));
    if (stiff === null) return lacksModulus(given.card('material'));
    const long = given.number('free_length');
    return {
      slenderness: slenderness(given),
      in_chuck: worstOversize(IN_CHUCK, long, given, stiff),
      with_centre: worstOversize(WITH_CENTRE, long, given, stiff),
      between_centres: worstOversize(BETWEEN_CENTRES, long, given, stiff),
      advice: advice(slenderness(given)),
    };
  },
  working: (given) => {
    const stiff = modulus(given.card('material'));
    if (stiff === null) return [];
    return [
      { name: 'slenderness', expression: 'free_length / diameter', words: 'length counted in diameters' },
      {
        name: 'give',
        expression: `force * free_length^3 / (${stiff} N/mm^2 * pi * diameter^4 / 64)`,
        words: 'what all three have in common: force and length over stiffness',
      },
      { name: 'in_chuck', expression: '2 * give / 3', words: 'twice the deflection of the free end' },
      {
        name: 'with_centre',
        expression: '2 * give * (2 - sqrt(2))^3 * (sqrt(2) - 1)^2 * (2 + sqrt(2)) / 12',
        words: 'twice the deflection at 0.586 of the length, where it is most',
      },
      { name: 'between_centres', expression: '2 * give / 48', words: 'twice the deflection of the middle' },
    ];
  },
  why:
    'A centre makes the same work about 34 times stiffer than the chuck alone, and centres at both ends 16 times. The rule ' +
    'of diameters says the same from experience: what it allows stays within a few hundredths for usual cuts. Compare the ' +
    'figures with the tolerance, and leave as much again for chuck and slides.',
  conditions: positive(FORCE, DIAMETER, FREE),
  source:
    'elastic beam of round section (any text on strength of materials); up to 3 diameters in the chuck, 4 for light cuts, ' +
    '10 with a centre, beyond that a steady: common practice, from memory',
  cautions: ['lathe', 'slender_work', 'between_centres'],
  picture: null,
  checks: [
    {
      call: 'support_compared(steel_C45, 50 N, 12 mm, 80 mm)',
      expect: {
        slenderness: 20 / 3,
        in_chuck: 79.8425738419,
        with_centre: 2.35034593,
        between_centres: 4.99016087,
        advice: 'bear the end with a centre',
      },
      tolerance: 1e-7,
      source: 'integrals of unit loads, by numerical quadrature; the worst place by golden section',
    },
    {
      call: 'support_compared(brass_CuZn39Pb3, 90 N, 16 mm, 180 mm)',
      expect: {
        slenderness: 11.25,
        in_chuck: 1087.72456419,
        with_centre: 32.0196216,
        between_centres: 67.9827853,
        advice: 'a centre and a steady',
      },
      tolerance: 1e-6,
      source: 'integrals of unit loads, by numerical quadrature; the worst place by golden section',
    },
  ],
};

const longest: Formula = {
  name: 'longest_overhang',
  family: 'support',
  title: 'How far work may stand out of the chuck',
  parameters: [BENT, FORCE, DIAMETER, ALLOWED],
  result: [
    field('by_deflection', 'mm', 'overhang at which the free end comes out just so much too large'),
    field('by_rule', 'mm', 'overhang by the rule of three diameters'),
  ],
  compute: (given) => {
    const stiff = modulus(given.card('material'));
    if (stiff === null) return lacksModulus(given.card('material'));
    const bend = (3 * stiff * secondMoment(given.number('diameter'))) / given.number('force');
    return {
      by_deflection: Math.cbrt((bend * given.number('allowed')) / 2),
      by_rule: CHUCK_RULE * given.number('diameter'),
    };
  },
  working: (given) => {
    const stiff = modulus(given.card('material'));
    if (stiff === null) return [];
    return [
      {
        name: 'second_moment',
        expression: 'pi * diameter^4 / 64',
        words: 'how stiff the section is: with the fourth power of the diameter',
      },
      {
        name: 'by_deflection',
        expression: `(3 * ${stiff} N/mm^2 * second_moment * (allowed / 2) / force)^(1/3)`,
        words: 'half of what is allowed on the diameter, as deflection of the free end',
      },
      { name: 'by_rule', expression: `${CHUCK_RULE} * diameter`, words: 'common practice' },
    ];
  },
  why:
    'Deflection grows with the third power of the overhang, so little is won by allowing more: eight times the error for ' +
    'twice the length. Where the two figures differ, the smaller one counts; chatter often begins before either.',
  conditions: [
    ...positive(FORCE, DIAMETER),
    must(
      'allowed',
      'what is allowed is more than zero and less than a tenth of the diameter',
      (given) => given.number('allowed') > 0 && given.number('allowed') < given.number('diameter') / 10,
      (given) =>
        `${mm(given.number('allowed'))} is no error to allow on ${shown(given.number('diameter'), 'mm')}: give one of more ` +
        `than zero and below ${mm(given.number('diameter') / 10)}.`,
    ),
  ],
  source:
    'elastic beam of round section (any text on strength of materials); three diameters: common practice, from memory',
  cautions: ['lathe', 'slender_work'],
  picture: null,
  checks: [
    {
      call: 'longest_overhang(steel_C45, 60 N, 12 mm, 0.02 mm)',
      expect: { by_deflection: 47.4563931577, by_rule: 36 },
      tolerance: 1e-7,
      source: 'length halved in until the integral of unit loads gives the error, by numerical quadrature',
    },
    {
      call: 'longest_overhang(aluminium_6082, 100 N, 25.4 mm, 0.05 mm)',
      expect: { by_deflection: 102.365753964, by_rule: 76.2 },
      tolerance: 1e-7,
      source: 'length halved in until the integral of unit loads gives the error, by numerical quadrature',
    },
  ],
};

export const SUPPORT_CHOICE_FORMULAS: readonly Formula[] = [compared, longest];
