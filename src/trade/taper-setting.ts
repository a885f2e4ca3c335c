/** Setting a lathe or a sine bar to a taper: tailstock, compound slide, cross slide, stack. */
import type { CardView } from '../quantity/value';
import { degrees, field, length, mm, must, positive, quantity, radians, should, shown } from './build';
import { COMPOUND_ZERO, CROSS_SLIDE, type CardWords, whichOf } from './card-words';
import type { Formula, Given, Parameter, Refusal } from './formula';

const LARGE = length('large', 'diameter at the large end');
const SMALL = length('small', 'diameter at the small end');
const TAPER_LENGTH = length('taper_length', 'length of the tapered part');
const BETWEEN = length('between_centres', 'whole length between the centres, not of the taper alone');
const HALF_ANGLE = quantity('half_angle', '°', 'angle between the flank and the axis of the work');
const ANGLE = quantity('angle', '°', 'angle to set, such as the included angle of a taper');
const CENTRES = length('centre_distance', 'distance of the rollers of the sine bar, as marked on it');
const REMOVE = length('off_diameter', 'what is to come off the diameter; negative to back out');

function machine(fields: string): Parameter {
  return { name: 'machine', kind: 'machine', unit: '', meaning: `machine card with ${fields}` };
}

/** Length between centres over which the set-over is usual: common practice, from memory. */
const MOST_SET_OVER = 1 / 50;

const largerFirst = must(
  'large',
  'the large end is larger than the small one',
  (given) => given.number('large') > given.number('small'),
  (given) =>
    `The large end is ${mm(given.number('large'))} and the small end ${mm(given.number('small'))}: give \`large\` the larger ` +
    'diameter.',
);

function setOver(given: Given): number {
  const change = given.number('large') - given.number('small');
  return (change / (2 * given.number('taper_length'))) * given.number('between_centres');
}

const tailstockSetOver: Formula = {
  name: 'tailstock_setover',
  family: 'taper',
  title: 'Tailstock set-over for a taper',
  parameters: [LARGE, SMALL, TAPER_LENGTH, BETWEEN],
  result: [
    field('set_over', 'mm', 'how far the tailstock is set over, by the usual rule'),
    field(
      'exact',
      'mm',
      'the same by the sine of the half angle, for work whose length lies between the centre points',
    ),
  ],
  compute: (given) => {
    const half = Math.atan2(given.number('large') - given.number('small'), 2 * given.number('taper_length'));
    return { set_over: setOver(given), exact: given.number('between_centres') * Math.sin(half) };
  },
  working: () => [
    {
      name: 'set_over',
      expression: '(large - small) / (2 * taper_length) * between_centres',
      words: 'half the change for each unit of length, over the whole length between centres',
    },
    {
      name: 'exact',
      expression: 'between_centres * sin(atan((large - small) / (2 * taper_length)))',
      words: 'the work lies along the slope, so the sine of the half angle counts',
    },
  ],
  why:
    'With the tailstock moved over, the axis of the work lies askew to the bed while the tool still runs along it. The whole ' +
    'length between centres tilts, so its length counts and not that of the taper; a longer piece needs more for the same ' +
    'taper. Towards the operator the end at the tailstock becomes small, away from them large.',
  conditions: [
    ...positive(LARGE, SMALL, TAPER_LENGTH, BETWEEN),
    largerFirst,
    must(
      'between_centres',
      'the taper is no longer than the work',
      (given) => given.number('between_centres') >= given.number('taper_length'),
      (given) =>
        `The work is ${mm(given.number('between_centres'))} between centres and its taper ` +
        `${mm(given.number('taper_length'))}: give \`between_centres\` the whole length, ${mm(given.number('taper_length'))} or more.`,
    ),
    should(
      'between_centres',
      'the set-over is at most a fiftieth of the length between centres',
      (given) => setOver(given) <= MOST_SET_OVER * given.number('between_centres'),
      (given) =>
        `A set-over of ${mm(setOver(given))} is more than a fiftieth of the length, and plain centres bear on an edge: use ` +
        `ball centres or the compound slide. Up to ${mm(MOST_SET_OVER * given.number('between_centres'))} plain centres will do.`,
    ),
  ],
  source: 'textbook rule; exact by the sine; a fiftieth as most: common practice, from memory',
  cautions: ['lathe', 'between_centres'],
  picture: 'taper_set_over',
  checks: [
    {
      call: 'tailstock_setover(40 mm, 38 mm, 100 mm, 300 mm)',
      expect: { set_over: 3, exact: 2.99985001125 },
      tolerance: 1e-9,
      source: 'exact fractions; argument of a complex number',
    },
    {
      call: 'tailstock_setover(1.25 in, 1.2 in, 4 in, 10 in)',
      expect: { set_over: 1.5875, exact: 1.58746899505 },
      tolerance: 1e-9,
      source: 'exact fractions; argument of a complex number',
    },
  ],
};

/** Which of two ways the card says the machine is made: the first (0), the second (1), or what to write on it. */
function way(given: Given, words: CardWords, says: string): 0 | 1 | Refusal {
  const card: CardView = given.card('machine');
  const value = card.fields.get(words.name);
  const which = value?.kind === 'text' ? whichOf(words, value.text) : null;
  if (which !== null) return which;
  const [first, second] = words.lines;
  return {
    refused: `The card of \`${card.name}\` does not say ${says}: write on it \`${first}\` or \`${second}\`.`,
    parameter: 'machine',
  };
}

const zeroOf = (given: Given): 0 | 1 | Refusal =>
  way(given, COMPOUND_ZERO, 'how its compound slide stands at 0°');
const readsOf = (given: Given): 0 | 1 | Refusal => way(given, CROSS_SLIDE, 'what its cross slide reads');

const compoundSlide: Formula = {
  name: 'compound_slide',
  family: 'taper',
  title: 'Setting of the compound slide for a taper',
  parameters: [HALF_ANGLE, machine('`compound_zero`: along or across the bed')],
  result: [
    field('setting', '°', 'what the scale of the compound slide is set to, from its zero'),
    { ...field('zero', '', 'how the slide stands at zero'), words: true },
  ],
  compute: (given) => {
    const zero = zeroOf(given);
    if (typeof zero === 'object') return zero;
    const half = given.number('half_angle');
    return { setting: zero === 0 ? half : 90 - half, zero: `${COMPOUND_ZERO.either[zero]} the bed` };
  },
  working: (given) => [
    zeroOf(given) === 0
      ? { name: 'setting', expression: 'half_angle', words: 'the scale counts from the axis of the work' }
      : {
          name: 'setting',
          expression: '90° - half_angle',
          words: 'the scale counts from square to the axis',
        },
  ],
  why:
    'The slide must run along the flank, which leans from the axis by half the included angle. Where the scale reads zero ' +
    'with the slide across the bed, that is the rest of a right angle. No scale is fine enough for a fit: prove it with an ' +
    'indicator along a test piece or with blue on a gauge.',
  conditions: [
    must(
      'half_angle',
      'the half angle is more than 0° and less than 90°',
      (given) => given.number('half_angle') > 0 && given.number('half_angle') < 90,
      (given) =>
        `${shown(given.number('half_angle'), '°')} is no half angle of a taper: give one of more than 0° and less than 90°.`,
    ),
  ],
  source: 'common practice',
  cautions: ['lathe'],
  picture: null,
  checks: [
    {
      call: 'compound_slide(8.297°, lathe)',
      expect: { setting: 8.297, zero: 'along the bed' },
      tolerance: 1e-12,
      source: 'angle between two directions, worked by hand',
    },
    {
      call: 'compound_slide(2.8624°, cross_lathe)',
      expect: { setting: 87.1376, zero: 'across the bed' },
      tolerance: 1e-12,
      source: 'angle between two directions, worked by hand',
    },
  ],
};

const crossSlide: Formula = {
  name: 'cross_slide',
  family: 'taper',
  title: 'Move of the cross slide by its own dial',
  parameters: [REMOVE, machine('`cross_slide`: what its dial reads')],
  result: [
    field('dial', 'mm', 'how far to turn the dial in, by its own figures'),
    field('travel', 'mm', 'how far the tool moves'),
    { ...field('reads', '', 'what the dial reads'), words: true },
  ],
  compute: (given) => {
    const reads = readsOf(given);
    if (typeof reads === 'object') return reads;
    const off = given.number('off_diameter');
    return { dial: reads === 0 ? off : off / 2, travel: off / 2, reads: CROSS_SLIDE.either[reads] };
  },
  working: (given) => [
    readsOf(given) === 0
      ? { name: 'dial', expression: 'off_diameter', words: 'the dial counts what comes off the diameter' }
      : { name: 'dial', expression: 'off_diameter / 2', words: 'the dial counts what the tool moves' },
    { name: 'travel', expression: 'off_diameter / 2', words: 'the cut comes off on both sides' },
  ],
  why:
    'A tool that moves in by one takes two off the diameter. Some dials are marked for the move, some for what comes off: ' +
    'taken for the other kind, the work is either spoilt at once or cut twice. Come to the figure from one side, past the backlash.',
  conditions: [],
  source: 'common practice',
  cautions: ['lathe', 'measuring'],
  picture: null,
  checks: [
    {
      call: 'cross_slide(0.24 mm, lathe)',
      expect: { dial: 0.24, travel: 0.12, reads: 'diameter' },
      tolerance: 1e-12,
      source: 'worked by hand',
    },
    {
      call: 'cross_slide(0.24 mm, cross_lathe)',
      expect: { dial: 0.12, travel: 0.12, reads: 'radius' },
      tolerance: 1e-12,
      source: 'worked by hand',
    },
  ],
};

/** Angle from which a sine bar is used for the complement instead: common practice. */
const STEEPEST = 60;

const sineBar: Formula = {
  name: 'sine_bar',
  family: 'taper',
  title: 'Stack of gauge blocks under a sine bar',
  parameters: [ANGLE, CENTRES],
  result: [
    field('stack', 'mm', 'height of the gauge blocks under the raised roller'),
    field('per_hundredth', '°', 'what the angle is off for 0.01 mm in the stack'),
  ],
  compute: (given) => {
    const [angle, long] = [radians(given.number('angle')), given.number('centre_distance')];
    return { stack: long * Math.sin(angle), per_hundredth: degrees(0.01 / (long * Math.cos(angle))) };
  },
  working: () => [
    {
      name: 'stack',
      expression: 'centre_distance * sin(angle)',
      words: 'the bar is the long side of the triangle, the stack its upright',
    },
    {
      name: 'per_hundredth',
      expression: '0.01 mm / (centre_distance * cos(angle)) * 1 rad',
      words: 'the angle that a little more height is worth at this slope',
    },
  ],
  why:
    'The rollers are a known distance apart, so a stack of a known height makes a known angle, finer than any scale. As the bar ' +
    'stands up, the same error of the stack turns it further: beyond 60° set the rest of the right angle instead.',
  conditions: [
    ...positive(CENTRES),
    must(
      'angle',
      'the angle is more than 0° and less than 90°',
      (given) => given.number('angle') > 0 && given.number('angle') < 90,
      (given) =>
        `A sine bar cannot lie at ${shown(given.number('angle'), '°')}: give more than 0° and less than 90°.`,
    ),
    should(
      'angle',
      `the angle is at most ${STEEPEST}°`,
      (given) => given.number('angle') <= STEEPEST,
      (given) =>
        `At ${shown(given.number('angle'), '°')} the stack hardly grows with the angle: set ` +
        `${shown(90 - given.number('angle'), '°')} against an angle plate instead.`,
    ),
  ],
  source: 'definition of the sine, as in any handbook; 60° as most: common practice',
  cautions: ['measuring'],
  picture: null,
  checks: [
    {
      call: 'sine_bar(12.8276°, 100 mm)',
      expect: { stack: 22.2018211944, per_hundredth: 0.00587623395 },
      tolerance: 1e-9,
      source: 'computer algebra; difference of two arc sines',
    },
    {
      call: 'sine_bar(45°, 100 mm)',
      expect: { stack: 70.7106781187, per_hundredth: 0.00810284674 },
      tolerance: 1e-9,
      source: 'computer algebra; difference of two arc sines',
    },
  ],
};

export const TAPER_SETTING_FORMULAS: readonly Formula[] = [
  tailstockSetOver,
  compoundSlide,
  crossSlide,
  sineBar,
];
