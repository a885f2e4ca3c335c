/** Setting angles by height, and lengths along an arc. */
import { length, must, positive, quantity, radians, shown, single } from './build';
import type { Formula } from './formula';

const TILT = quantity('tilt', '°', 'tilt of the work above level');
const LENGTH = length('length', 'distance along the tilted bar, or the length of the sine bar');
const TRAVEL = length('table_travel', 'distance the table moves, level');
const RADIUS = length('radius', 'radius of the arc');
const ANGLE = quantity('angle', '°', 'angle the arc takes up at its centre');

const sineRise: Formula = {
  name: 'sine_rise',
  family: 'setup',
  title: 'Rise along a tilted bar',
  parameters: [TILT, LENGTH],
  result: [single('mm', 'difference in height of the two ends')],
  compute: (given) => given.number('length') * Math.sin(radians(given.number('tilt'))),
  working: () => [
    { name: '', expression: 'length * sin(tilt)', words: 'the length times the sine of the tilt' },
  ],
  why:
    'The length lies along the slope, so it is the long side of the triangle and the sine gives the height: use this ' +
    'with gauge blocks under a bar, or with the height at two marks on the work.',
  conditions: [
    ...positive(LENGTH),
    must(
      'tilt',
      'the tilt is between -90° and 90°',
      (given) => Math.abs(given.number('tilt')) <= 90,
      (given) => `${shown(given.number('tilt'), '°')} is past upright: give a tilt of at most 90°.`,
    ),
  ],
  source: 'right triangle; common practice',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'sine_rise(11.79°, 127 mm)',
      expect: { '': 25.9493009257 },
      tolerance: 1e-9,
      source: 'turned with a rotation matrix',
    },
    {
      call: 'sine_rise(9.2°, 75 mm)',
      expect: { '': 11.9910890769 },
      tolerance: 1e-9,
      source: 'turned with a rotation matrix',
    },
  ],
};

const indicatorRise: Formula = {
  name: 'indicator_rise',
  family: 'setup',
  title: 'Rise an indicator shows while the table is traversed',
  parameters: [TILT, TRAVEL],
  result: [single('mm', 'change of the indicator over the travel')],
  compute: (given) => given.number('table_travel') * Math.tan(radians(given.number('tilt'))),
  working: () => [
    {
      name: '',
      expression: 'table_travel * tan(tilt)',
      words: 'the level travel times the tangent of the tilt',
    },
  ],
  why:
    'The table moves level, so the travel is the short side of the triangle and the tangent gives the height. Taking ' +
    'the sine here sets the tilt wrong: by 0.57 mm in 100 mm at 12.8°.',
  conditions: [
    ...positive(TRAVEL),
    must(
      'tilt',
      'the tilt is between -90° and 90°',
      (given) => Math.abs(given.number('tilt')) < 90,
      (given) =>
        `At ${shown(given.number('tilt'), '°')} the table never follows the bar: give a tilt below 90°.`,
    ),
  ],
  source: 'right triangle; common practice',
  cautions: ['measuring'],
  picture: null,
  checks: [
    {
      call: 'indicator_rise(11.79°, 127 mm)',
      expect: { '': 26.5085500798 },
      tolerance: 1e-9,
      source: 'turned with a rotation matrix',
    },
    {
      call: 'indicator_rise(9.2°, 75 mm)',
      expect: { '': 12.1473493591 },
      tolerance: 1e-9,
      source: 'turned with a rotation matrix',
    },
  ],
};

const arcLength: Formula = {
  name: 'arc_length',
  family: 'setup',
  title: 'Length along an arc',
  parameters: [RADIUS, ANGLE],
  result: [single('mm', 'length along the arc; negative for an angle turned backwards')],
  compute: (given) => given.number('radius') * radians(given.number('angle')),
  working: () => [
    {
      name: '',
      expression: 'radius * (angle / 1 rad)',
      words: 'the radius as many times as the angle holds radians',
    },
  ],
  why: 'A radian is the angle whose arc is as long as its radius, so counting radians counts radii along the arc.',
  conditions: positive(RADIUS),
  source: 'definition of the radian, ISO 80000-3',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'arc_length(80 mm, 35°)',
      expect: { '': 48.869219 },
      tolerance: 5e-7,
      source: 'worked with GNU units',
    },
    {
      call: 'arc_length(10 mm, 360°)',
      expect: { '': 62.8318530718 },
      tolerance: 1e-9,
      source: 'circumference of a circle',
    },
  ],
};

export const SETUP_FORMULAS: readonly Formula[] = [sineRise, indicatorRise, arcLength];
