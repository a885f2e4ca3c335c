/** Where to begin when the edge is struck: interrupted cuts and ring cutters. */
import { field, length, positive, quantity } from './build';
import type { Formula } from './formula';
import { SOURCE, spindle, spindleStep } from './starting-feeds';

/** Speeds of an interrupted cut, as parts of that of a steady one. */
const INTERRUPTED_LOW = 0.6;
const INTERRUPTED_HIGH = 0.7;

const STEADY_SPEED = quantity(
  'cutting_speed',
  'm/min',
  'speed for a steady cut, such as `steel_C45.hss_speed`',
);
const RING = length('diameter', 'diameter that cuts: the ring, or the work');

const interruptedSpeed: Formula = {
  name: 'interrupted_speed',
  family: 'cutting',
  title: 'Speed to begin an interrupted cut or a ring cutter with',
  parameters: [STEADY_SPEED, RING],
  result: [
    field('cutting_speed_low', 'm/min', 'speed to begin with'),
    field('cutting_speed_high', 'm/min', 'speed to go up to while it runs quietly'),
    field('spindle_speed_low', 'rpm', 'turns of the spindle to begin with'),
    field('spindle_speed_high', 'rpm', 'turns of the spindle to go up to'),
  ],
  compute: (given) => {
    const [speed, diameter] = [given.number('cutting_speed'), given.number('diameter')];
    const [low, high] = [speed * INTERRUPTED_LOW, speed * INTERRUPTED_HIGH];
    return {
      cutting_speed_low: low,
      cutting_speed_high: high,
      spindle_speed_low: spindle(low, diameter),
      spindle_speed_high: spindle(high, diameter),
    };
  },
  working: () => [
    {
      name: 'cutting_speed_low',
      expression: `${INTERRUPTED_LOW} * cutting_speed`,
      words: 'three fifths of the speed for a steady cut',
    },
    {
      name: 'cutting_speed_high',
      expression: `${INTERRUPTED_HIGH} * cutting_speed`,
      words: 'seven tenths of it',
    },
    spindleStep('spindle_speed_low', 'cutting_speed_low'),
    spindleStep('spindle_speed_high', 'cutting_speed_high'),
  ],
  why:
    'Each time the edge comes back into the work it is struck, and the faster, the harder. A ring cutter on a blank cuts ' +
    'only on its corners at first. A lower speed spares the edge and the gears of the head; tough carbide or HSS ' +
    'bears it better than hard grades.',
  conditions: positive(STEADY_SPEED, RING),
  source: SOURCE,
  cautions: ['speeds', 'interrupted_cut', 'boring_head'],
  picture: null,
  checks: [
    {
      call: 'interrupted_speed(22 m/min, 29.367 mm)',
      expect: { cutting_speed_low: 13.2, cutting_speed_high: 15.4, spindle_speed_low: 143.0753 },
      tolerance: 1e-3,
      source: 'common practice, from memory; worked with a units library',
    },
    {
      call: 'interrupted_speed(80 m/min, 100 mm)',
      expect: {
        cutting_speed_low: 48,
        cutting_speed_high: 56,
        spindle_speed_low: 152.788745368,
        spindle_speed_high: 178.253536263,
      },
      tolerance: 1e-6,
      source: 'common practice, from memory; worked with a units library',
    },
  ],
};

export const INTERRUPTED_FORMULAS: readonly Formula[] = [interruptedSpeed];
