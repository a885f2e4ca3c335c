/** Where to begin with a tap, and what its pitch makes of the feed. */
import { field, length, positive, single } from './build';
import type { Formula } from './formula';
import { SPINDLE_SPEED } from './speeds';
import {
  CHANGES,
  MATERIAL,
  SOURCE,
  drillingSpeed,
  noSpeed,
  spindle,
  spindleStep,
  stepsFrom,
} from './starting-feeds';

const TAP = length('diameter', 'nominal diameter of the thread');
const PITCH = length('pitch', 'pitch of the thread');

/** Speeds of a tap, as parts of that of a drill. */
const TAPPING_LOW = 1 / 3;
const TAPPING_HIGH = 1 / 2;

const tappingStart: Formula = {
  name: 'tapping_start',
  family: 'cutting',
  title: 'Speed and feed to begin tapping with',
  parameters: [TAP, PITCH, MATERIAL],
  result: [
    field('cutting_speed_low', 'm/min', 'speed for tough steel and blind holes: a third of that of a drill'),
    field('cutting_speed_high', 'm/min', 'speed for soft metals and through holes: half that of a drill'),
    field('spindle_speed_low', 'rpm', 'turns of the spindle for the lower'),
    field('spindle_speed_high', 'rpm', 'turns of the spindle for the higher'),
    field('feed', 'mm/rev', 'feed for each turn: exactly the pitch'),
  ],
  compute: (given) => {
    const [diameter, drilling] = [given.number('diameter'), drillingSpeed(given)];
    if (drilling === null) return noSpeed(given);
    const [low, high] = [drilling * TAPPING_LOW, drilling * TAPPING_HIGH];
    return {
      cutting_speed_low: low,
      cutting_speed_high: high,
      spindle_speed_low: spindle(low, diameter),
      spindle_speed_high: spindle(high, diameter),
      feed: given.number('pitch'),
    };
  },
  working: (given) =>
    stepsFrom(given, [
      { name: 'cutting_speed_low', expression: 'drilling_speed / 3', words: 'a third of it' },
      { name: 'cutting_speed_high', expression: 'drilling_speed / 2', words: 'half of it' },
      spindleStep('spindle_speed_low', 'cutting_speed_low'),
      spindleStep('spindle_speed_high', 'cutting_speed_high'),
      { name: 'feed', expression: 'pitch / 1 rev', words: 'one pitch for each turn' },
    ]),
  why:
    'A tap cannot be fed faster or slower than its pitch: every turn must move it by one, so it runs slowly enough to ' +
    'be stopped in time. By hand, back it off to break the chip; in a machine use a holder that gives or a machine made ' +
    `for it. ${CHANGES}`,
  conditions: positive(TAP, PITCH),
  source: SOURCE,
  cautions: ['speeds', 'drilling'],
  picture: null,
  checks: [
    {
      call: 'tapping_start(10 mm, 1.5 mm, steel_C45)',
      expect: {
        cutting_speed_low: 5.86666666667,
        cutting_speed_high: 8.8,
        spindle_speed_low: 186.741799891,
        spindle_speed_high: 280.112699837,
        feed: 1.5,
      },
      tolerance: 1e-6,
      source: 'common practice, from memory; worked with a units library',
    },
    {
      call: 'tapping_start(5 mm, 0.8 mm, brass_CuZn39Pb3)',
      expect: { cutting_speed_low: 16, cutting_speed_high: 24, feed: 0.8 },
      tolerance: 1e-6,
      source: 'common practice, from memory; worked with a units library',
    },
  ],
};

const tappingFeed: Formula = {
  name: 'tapping_feed',
  family: 'cutting',
  title: 'Feed per minute of a tap or a threading tool',
  parameters: [PITCH, SPINDLE_SPEED],
  result: [single('mm/min', 'feed along the axis for each minute')],
  compute: (given) => given.number('pitch') * given.number('spindle_speed'),
  working: () => [
    { name: '', expression: 'pitch / 1 rev * spindle_speed', words: 'one pitch for each turn in a minute' },
  ],
  why:
    'This is how fast the bottom of the hole comes nearer. At 120 rpm a pitch of 1.5 mm runs 3 mm in a second: know ' +
    'where to stop before starting.',
  conditions: positive(PITCH, SPINDLE_SPEED),
  source: 'definition of the pitch: the advance of one turn',
  cautions: ['speeds', 'drilling'],
  picture: null,
  checks: [
    {
      call: 'tapping_feed(1.5 mm, 120 rpm)',
      expect: { '': 180 },
      tolerance: 1e-9,
      source: 'worked with a units library',
    },
    {
      call: 'tapping_feed(0.8 mm, 250 rpm)',
      expect: { '': 200 },
      tolerance: 1e-9,
      source: 'worked with a units library',
    },
  ],
};

export const TAPPING_FORMULAS: readonly Formula[] = [tappingStart, tappingFeed];
