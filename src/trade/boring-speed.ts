/** How fast a boring head may run: by the cutting speed at its ring, by its own limit, and by what it pulls to one side. */
import { TURN_RATE } from '../quantity/dimension';
import { field, length, must, positive, quantity, shown, should } from './build';
import { isPositive } from './dial';
import type { Formula, Given, Parameter, Refusal } from './formula';

const CUTTING_SPEED = quantity('cutting_speed', 'm/min', 'wanted speed of the tip through the work');
const RING = length('ring', "diameter of the tip's circle: of the hole, or of the boss it leaves");
const HEAD: Parameter = {
  name: 'head',
  kind: 'machine',
  unit: '',
  meaning: 'machine card of the head, with its `max_speed`',
};

/** The highest speed of the head's card, in rpm. */
function limitOf(given: Given): number | Refusal {
  const card = given.card('head');
  const limit = card.fields.get('max_speed');
  if (isPositive(limit, TURN_RATE)) return limit.value;
  return {
    refused: `The card of \`${card.name}\` needs \`max_speed\`, such as \`max_speed = 700 rpm\`, from the head's marking or its maker.`,
    parameter: 'head',
  };
}

/** Millimetres in a metre: cutting speeds are told in m/min. */
const MM_PER_M = 1000;

const byCutting = (given: Given): number =>
  (given.number('cutting_speed') * MM_PER_M) / (Math.PI * given.number('ring'));

const headSpeed: Formula = {
  name: 'boring_head_speed',
  family: 'boring',
  title: 'Spindle speed of a boring head by its ring, no faster than the head allows',
  parameters: [CUTTING_SPEED, RING, HEAD],
  result: [
    field('spindle_speed', 'rpm', 'the lower of the two speeds'),
    field('tip_speed', 'm/min', 'speed of the tip at that'),
    { ...field('set_by', '', 'what sets it'), words: true },
  ],
  compute: (given) => {
    const limit = limitOf(given);
    if (typeof limit !== 'number') return limit;
    const spindle_speed = Math.min(byCutting(given), limit);
    return {
      spindle_speed,
      tip_speed: (spindle_speed * Math.PI * given.number('ring')) / MM_PER_M,
      set_by: spindle_speed < limit ? 'the cutting speed' : 'the head',
    };
  },
  working: (given) => {
    const limit = limitOf(given);
    if (typeof limit !== 'number') return [];
    return [
      {
        name: 'spindle_speed',
        expression: `min(cutting_speed / (pi * ring) * 1 rev, ${limit} rpm)`,
        words: 'the cutting speed over the way round the ring, or what the card allows where that is less',
      },
      {
        name: 'tip_speed',
        expression: 'pi * ring * spindle_speed / 1 rev',
        words: 'the way round the ring at that speed',
      },
    ];
  },
  why:
    'It is the ring of the tip that cuts, not the body of the head, so a small hole wants more turns than a large one. But a ' +
    'head whose slide stands off centre shakes, and its own limit comes first: below the wished cutting speed the tool only ' +
    'lasts longer.',
  conditions: positive(CUTTING_SPEED, RING),
  source: 'definition of cutting speed; common practice',
  cautions: ['boring_head', 'speeds'],
  picture: null,
  checks: [
    {
      call: 'boring_head_speed(24 m/min, 29.12 mm, ring_head)',
      expect: { spindle_speed: 262.343312789, tip_speed: 24, set_by: 'the cutting speed' },
      tolerance: 1e-8,
      source: 'worked with GNU units',
    },
    {
      call: 'boring_head_speed(90 m/min, 20 mm, ring_head)',
      expect: { spindle_speed: 700, tip_speed: 43.9822971503, set_by: 'the head' },
      tolerance: 1e-9,
      source: 'circumference of a 20 mm circle, 62.8318530718 mm, 700 times',
    },
  ],
};

const SLIDE_MASS = quantity('slide_mass', 'kg', 'mass of what stands off centre: slide, bar and tool');
const OFF_CENTRE = length('off_centre', 'how far its centre of mass stands from the axis of the spindle');
const STICK_OUT = length('stick_out', 'from the nose of the spindle to the tip');
const SHANK = length('shank', 'diameter of the thinnest part of what sticks out, of steel');
const SWING = length('swing', 'how far the tip may be pulled aside');

/** Modulus of elasticity of steel in N/mm²: common handbook value. */
const STEEL = 210_000;
/** A stub shorter than this many times its diameter gives by shear and in its seat more than by bending. */
const SHORTEST = 2;
/** Newton in kg mm/min²: speeds come per minute. */
const PER_NEWTON = 1000 * 3600;

const pull = (given: Given): number =>
  ((3 * STEEL * Math.PI * given.number('shank') ** 4) / 64 / given.number('stick_out') ** 3) *
  given.number('swing');

const overhung: Formula = {
  name: 'head_speed_limit',
  family: 'boring',
  title: 'Speed at which a head off centre pulls its own shank aside',
  parameters: [SLIDE_MASS, OFF_CENTRE, STICK_OUT, SHANK, SWING],
  result: [
    field('spindle_speed', 'rpm', 'speed at which the pull bends the shank by that much'),
    field('pull', 'N', 'the pull there'),
  ],
  compute: (given) => ({
    spindle_speed:
      Math.sqrt((pull(given) * PER_NEWTON) / (given.number('slide_mass') * given.number('off_centre'))) /
      (2 * Math.PI),
    pull: pull(given),
  }),
  working: () => [
    {
      name: 'stiffness',
      expression: `3 * ${STEEL} N/mm^2 * (pi * shank^4 / 64) / stick_out^3`,
      words: 'force for each millimetre at the end of a round bar held at the other',
    },
    { name: 'pull', expression: 'stiffness * swing', words: 'force that bends it by the swing' },
    {
      name: 'spindle_speed',
      expression: 'sqrt(pull / (slide_mass * off_centre)) * 1 rev / (2 * pi)',
      words: 'the turning at which the mass off centre pulls as hard',
    },
  ],
  why:
    'What stands off centre pulls outwards with the square of the speed: twice as fast is four times the pull. The shank ' +
    'gives, the hole comes out larger by twice the swing, and the machine shakes. The seat and the bearings give as well, so ' +
    'stay well below this figure, and never go over the mark of the head.',
  conditions: [
    ...positive(SLIDE_MASS, OFF_CENTRE, STICK_OUT, SHANK, SWING),
    should(
      'stick_out',
      'it sticks out at least twice its diameter',
      (given) => given.number('stick_out') >= SHORTEST * given.number('shank'),
      (given) =>
        `A stub of ${shown(given.number('stick_out'), 'mm')} gives in its seat rather than by bending, so this speed is too high: ` +
        `it holds from ${shown(SHORTEST * given.number('shank'), 'mm')} on.`,
    ),
    must(
      'swing',
      'the swing is small against what sticks out',
      (given) => given.number('swing') < given.number('stick_out') / 100,
      (given) =>
        `A swing of ${shown(given.number('swing'), 'mm')} is a wreck: give one below ${shown(given.number('stick_out') / 100, 'mm')}.`,
    ),
  ],
  source:
    'cantilever of constant section and centrifugal force, first order; modulus of steel 210 kN/mm², common handbook value',
  cautions: ['boring_head', 'speeds'],
  picture: null,
  checks: [
    {
      call: 'head_speed_limit(0.8 kg, 15 mm, 150 mm, 32 mm, 0.01 mm)',
      expect: { spindle_speed: 854.4743908, pull: 96.0807942013 },
      tolerance: 1e-6,
      source: 'unit-load integral of the bending, scipy quad; then force over mass and radius in rad/s',
    },
    {
      call: 'head_speed_limit(1.2 kg, 22 mm, 95 mm, 25 mm, 0.005 mm)',
      expect: { spindle_speed: 493.2922066508, pull: 70.4481627328 },
      tolerance: 1e-6,
      source: 'unit-load integral of the bending, scipy quad; then force over mass and radius in rad/s',
    },
  ],
};

export const BORING_SPEED_FORMULAS: readonly Formula[] = [headSpeed, overhung];
