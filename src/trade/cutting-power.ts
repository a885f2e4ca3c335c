/** Power and torque that a cutting force takes. */
import { field, length, must, optional, positive, quantity, shown, single } from './build';
import type { Formula, Given } from './formula';

const FORCE = quantity('cutting_force', 'N', 'force along the cut');
const CUTTING_SPEED = quantity('cutting_speed', 'm/min', 'speed of the cut past the edge');
const EFFICIENCY = quantity('efficiency', '', 'part of the power of the motor that reaches the cut');
const DIAMETER = length(
  'diameter',
  'diameter at which the force acts: the work in turning, the ring on the mill',
);

/** What belts, gears and bearings usually leave of the motor's power. */
const USUAL_EFFICIENCY = 0.75;
/** m/min times N in a kilowatt. */
const N_M_PER_MIN_PER_KW = 60_000;
const MM_PER_M = 1000;

const efficiency = (given: Given): number => given.numberOr('efficiency', USUAL_EFFICIENCY);

const cuttingPower: Formula = {
  name: 'cutting_power',
  family: 'cutting',
  title: 'Power at the cut and at the motor',
  parameters: [FORCE, CUTTING_SPEED, optional(EFFICIENCY)],
  result: [
    field('power', 'kW', 'power at the cut'),
    field(
      'motor_power',
      'kW',
      'power that the motor must give, with 0.75 of it reaching the cut unless told',
    ),
  ],
  compute: (given) => {
    const power = (given.number('cutting_force') * given.number('cutting_speed')) / N_M_PER_MIN_PER_KW;
    return { power, motor_power: power / efficiency(given) };
  },
  working: (given) => [
    {
      name: 'power',
      expression: 'cutting_force * cutting_speed',
      words: 'the force times the way it runs in a minute',
    },
    {
      name: 'motor_power',
      expression: `power / ${given.has('efficiency') ? 'efficiency' : USUAL_EFFICIENCY}`,
      words: 'more than that by what belts, gears and bearings keep',
    },
  ],
  why:
    'Power is force times speed, so the same cut takes twice the power at twice the cutting speed. Old gears and slack ' +
    'or over-tight belts keep a quarter of it. With a worn edge the force and the power rise by a third to a half: keep that in hand.',
  conditions: [
    ...positive(FORCE, CUTTING_SPEED),
    must(
      'efficiency',
      'the efficiency is more than 0 and at most 1',
      (given) => efficiency(given) > 0 && efficiency(given) <= 1,
      (given) =>
        `No drive passes ${shown(efficiency(given), '')} of its power on: give a part of more than 0 and at most 1, ` +
        'for a geared head about 0.7 to 0.85.',
    ),
  ],
  source: 'power as work per time, ISO 80000-4; efficiency 0.7 to 0.85: common practice, from memory',
  cautions: ['speeds'],
  picture: null,
  checks: [
    {
      call: 'cutting_power(802.390478647 N, 27 m/min)',
      expect: { power: 0.361075715391, motor_power: 0.481434287188 },
      tolerance: 1e-9,
      source: 'worked with a units library',
    },
    {
      call: 'cutting_power(1482.14607479 N, 70 m/min, efficiency: 0.8)',
      expect: { power: 1.72917042059, motor_power: 2.16146302574 },
      tolerance: 1e-9,
      source: 'worked with a units library',
    },
  ],
};

const cuttingTorque: Formula = {
  name: 'cutting_torque',
  family: 'cutting',
  title: 'Torque that a cutting force needs at the spindle',
  parameters: [FORCE, DIAMETER],
  result: [single('N*m', 'torque at the spindle')],
  compute: (given) => (given.number('cutting_force') * given.number('diameter')) / 2 / MM_PER_M,
  working: () => [
    {
      name: '',
      expression: 'cutting_force * diameter / 2',
      words: 'the force on an arm of half the diameter',
    },
  ],
  why:
    'The force works on an arm as long as the radius: large work stalls a spindle that turns small work easily, and ' +
    'the chuck must hold that torque by friction. Back gear gives more of it at the same motor power.',
  conditions: positive(FORCE, DIAMETER),
  source: 'ISO 80000-4, moment of a force',
  cautions: ['speeds', 'lathe'],
  picture: null,
  checks: [
    {
      call: 'cutting_torque(802.390478647 N, 22 mm)',
      expect: { '': 8.82629526511 },
      tolerance: 1e-9,
      source: 'worked with a units library',
    },
    {
      call: 'cutting_torque(418.697658742 N, 40 mm)',
      expect: { '': 8.37395317484 },
      tolerance: 1e-9,
      source: 'worked with a units library',
    },
  ],
};

export const POWER_FORMULAS: readonly Formula[] = [cuttingPower, cuttingTorque];
