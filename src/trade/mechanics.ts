/** Power and torque of a turning shaft. They own the 2π that a plain conversion of units would hide. */
import { positive, quantity, single } from './build';
import type { Formula } from './formula';

const TORQUE = quantity('torque', 'N*m', 'torque in the shaft');
const POWER = quantity('power', 'kW', 'power the shaft carries');
const SPINDLE_SPEED = quantity('spindle_speed', 'rpm', 'turns of the shaft per minute');

const S_PER_MIN = 60;
const W_PER_KW = 1000;

/** Radians of one turn in watts: kW per N·m of torque for each turn per minute. */
const KW_PER_NM_RPM = (2 * Math.PI) / S_PER_MIN / W_PER_KW;

const shaftPower: Formula = {
  name: 'shaft_power',
  family: 'mechanics',
  title: 'Power from torque and speed',
  parameters: [TORQUE, SPINDLE_SPEED],
  result: [single('kW', 'power the shaft carries')],
  compute: (given) => KW_PER_NM_RPM * given.number('torque') * given.number('spindle_speed'),
  working: () => [
    {
      name: 'work_per_turn',
      expression: '2 * pi * torque / 1 rev',
      words: 'in one turn a force at one radius runs 2π radii',
    },
    { name: '', expression: 'work_per_turn * spindle_speed', words: 'times the turns in a minute' },
  ],
  why:
    'Torque is a force at a radius; in one turn that force runs the whole circumference. The 2π is the circumference ' +
    'of a circle of radius one, and forgetting it makes the power six times too small.',
  conditions: positive(TORQUE, SPINDLE_SPEED),
  source: 'ISO 80000-4, power as work per time',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'shaft_power(50 N*m, 1000 rpm)',
      expect: { '': 5.2359878 },
      tolerance: 5e-8,
      source: 'worked with GNU units',
    },
    {
      call: 'shaft_power(8.8263 N*m, 390.6516 rpm)',
      expect: { '': 0.361076 },
      tolerance: 2e-6,
      source: 'cutting force times cutting speed, 802.39 N at 27 m/min on 22 mm, worked with a units library',
    },
  ],
};

const shaftTorque: Formula = {
  name: 'shaft_torque',
  family: 'mechanics',
  title: 'Torque from power and speed',
  parameters: [POWER, SPINDLE_SPEED],
  result: [single('N*m', 'torque in the shaft')],
  compute: (given) => given.number('power') / given.number('spindle_speed') / KW_PER_NM_RPM,
  working: () => [
    { name: 'work_per_turn', expression: 'power / spindle_speed', words: 'the work of one turn' },
    {
      name: '',
      expression: 'work_per_turn * 1 rev / (2 * pi)',
      words: 'spread over the 2π radii that one turn runs',
    },
  ],
  why:
    'The same power at half the speed gives twice the torque: this is what back gear is for. A small motor on a slow ' +
    'step can twist hard enough to snatch the work.',
  conditions: positive(POWER, SPINDLE_SPEED),
  source: 'ISO 80000-4, power as work per time',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'shaft_torque(2.2 kW, 300 rpm)',
      expect: { '': 70.028175 },
      tolerance: 5e-7,
      source: 'worked with GNU units',
    },
    {
      call: 'shaft_torque(7.5 kW, 1430 rpm)',
      expect: { '': 50.083723 },
      tolerance: 5e-7,
      source: 'worked with GNU units',
    },
  ],
};

export const MECHANICS_FORMULAS: readonly Formula[] = [shaftPower, shaftTorque];
