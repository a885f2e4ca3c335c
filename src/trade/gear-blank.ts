/** Blanks and teeth of straight gears for indexing jobs: the basic rack of ISO 53, by module or by diametral pitch. */
import { count, field, length, must, positive, quantity, should } from './build';
import type { Condition, Field, Formula, Given, Parameter, Step } from './formula';

const TEETH = count('teeth', 'number of teeth');
const MODULE = length('module', 'module: pitch diameter over number of teeth');
const DIAMETRAL = quantity(
  'diametral_pitch',
  '',
  'teeth for each inch of pitch diameter, written as a plain number',
);

const MM_PER_INCH = 25.4;
/** Of the basic rack of ISO 53, profile A, in modules. */
const ADDENDUM = 1;
const DEDENDUM = 1.25;
/** Teeth below which a straight rack of 20° undercuts: two over the square of its sine, next whole number up. */
const LEAST_TEETH = 18;

const RESULT: readonly Field[] = [
  field('pitch_diameter', 'mm', 'diameter at which the teeth roll on those of the mate'),
  field('blank', 'mm', 'diameter of the blank, over the tips'),
  field('tooth_depth', 'mm', 'whole depth of the tooth space, from the blank'),
  field('root_diameter', 'mm', 'diameter at the bottom of the spaces'),
  field('tip_height', 'mm', 'height at which a tooth caliper is set, from the tip'),
  field('chordal_thickness', 'mm', 'thickness that a tooth caliper then shows, without backlash'),
];

/** All sizes from a module in mm. */
function gear(module: number, teeth: number): Record<string, number> {
  const pitch = module * teeth;
  const quarter = Math.PI / (2 * teeth);
  return {
    pitch_diameter: pitch,
    blank: pitch + 2 * ADDENDUM * module,
    tooth_depth: (ADDENDUM + DEDENDUM) * module,
    root_diameter: pitch - 2 * DEDENDUM * module,
    tip_height: ADDENDUM * module + (pitch / 2) * (1 - Math.cos(quarter)),
    chordal_thickness: pitch * Math.sin(quarter),
  };
}

function steps(module: string): readonly Step[] {
  return [
    { name: 'pitch_diameter', expression: `${module} * teeth`, words: 'one module for each tooth' },
    {
      name: 'blank',
      expression: `pitch_diameter + ${2 * ADDENDUM} * ${module}`,
      words: 'a module more at each end for the tips',
    },
    {
      name: 'tooth_depth',
      expression: `${ADDENDUM + DEDENDUM} * ${module}`,
      words: 'a module to the tip and one and a quarter to the root',
    },
    { name: 'root_diameter', expression: 'blank - 2 * tooth_depth', words: 'what is left under the spaces' },
    {
      name: 'tip_height',
      expression: `${module} + pitch_diameter / 2 * (1 - cos(90° / teeth))`,
      words: 'the tip over the pitch circle, and the arc over its chord',
    },
    {
      name: 'chordal_thickness',
      expression: 'pitch_diameter * sin(90° / teeth)',
      words: 'a tooth takes half the pitch: chord of a quarter turn over the teeth, twice',
    },
  ];
}

const enough: Condition = should(
  'teeth',
  `there are at least ${LEAST_TEETH} teeth, so that the root is not undercut`,
  (given) => given.number('teeth') >= LEAST_TEETH,
  (given) =>
    `With ${given.number('teeth')} teeth the root is undercut at 20°: take ${LEAST_TEETH} or more, or a cutter made for so few and ` +
    'a blank with a shifted profile.',
);
const wheel: Condition = must(
  'teeth',
  'there are at least 5 teeth',
  (given) => given.number('teeth') >= 5,
  (given) => `${given.number('teeth')} teeth of this form leave no wheel: give 5 or more.`,
);

const WHY =
  'The blank is larger than the pitch circle by a module on either side. Depth from the blank is right only if the blank is, ' +
  'so measure it first and take what it is out, halved, off the depth. A caliper set to the height from the tip shows the ' +
  'thickness on the chord; thin the teeth a little for backlash, by what the drawing or the mate asks.';
const SOURCE =
  'ISO 53:1998, basic rack of profile A (1 and 1.25 modules), from memory; chords: right triangle; undercut: straight rack at 20°';

function gearBlank(
  name: string,
  title: string,
  size: Parameter,
  module: (given: Given) => number,
  expression: string,
  rest: Pick<Formula, 'source' | 'checks'>,
): Formula {
  return {
    name,
    family: 'geometry',
    title,
    parameters: [size, TEETH],
    result: RESULT,
    compute: (given) => gear(module(given), given.number('teeth')),
    working: () => steps(expression),
    why: WHY,
    conditions: [...positive(size), wheel, enough],
    cautions: ['indexing'],
    picture: null,
    ...rest,
  };
}

const byModule = gearBlank(
  'gear_blank',
  'Blank and teeth of a straight gear by module',
  MODULE,
  (given) => given.number('module'),
  'module',
  {
    source: SOURCE,
    checks: [
      {
        call: 'gear_blank(2 mm, 30)',
        expect: {
          pitch_diameter: 60,
          blank: 64,
          tooth_depth: 4.5,
          root_diameter: 55,
          tip_height: 2.04111395736,
          chordal_thickness: 3.14015737458,
        },
        tolerance: 1e-9,
        source: 'exact fractions; chord of two points set out as complex numbers',
      },
      {
        call: 'gear_blank(1.5 mm, 53)',
        expect: {
          pitch_diameter: 79.5,
          blank: 82.5,
          tooth_depth: 3.375,
          root_diameter: 75.75,
          tip_height: 1.51745674878,
          chordal_thickness: 2.35584956189,
        },
        tolerance: 1e-9,
        source: 'exact fractions; chord of two points set out as complex numbers',
      },
    ],
  },
);

const byPitch = gearBlank(
  'gear_blank_by_pitch',
  'Blank and teeth of a straight gear by diametral pitch',
  DIAMETRAL,
  (given) => MM_PER_INCH / given.number('diametral_pitch'),
  '(1 in / diametral_pitch)',
  {
    source: `${SOURCE}; older inch tables have 2.157 over the pitch for the whole depth instead of 2.25, from memory`,
    checks: [
      {
        call: 'gear_blank_by_pitch(10, 40)',
        expect: {
          pitch_diameter: 101.6,
          blank: 106.68,
          tooth_depth: 5.715,
          root_diameter: 95.25,
          tip_height: 2.57916495897,
          chordal_thickness: 3.98879728112,
        },
        tolerance: 1e-9,
        source: 'exact fractions; chord of two points set out as complex numbers',
      },
      {
        call: 'gear_blank_by_pitch(8, 24)',
        expect: { pitch_diameter: 76.2, blank: 82.55, tooth_depth: 7.14375, root_diameter: 68.2625 },
        tolerance: 1e-9,
        source: 'exact fractions',
      },
    ],
  },
);

export const GEAR_FORMULAS: readonly Formula[] = [byModule, byPitch];
