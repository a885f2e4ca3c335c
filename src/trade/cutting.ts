/** Feeds, times and the finish they leave. */
import { field, length, must, positive, quantity, shown, single } from './build';
import type { Formula } from './formula';
import { SPINDLE_SPEED } from './speeds';

const FEED_PER_REV = quantity('feed_per_rev', 'mm/rev', 'feed for each turn of the spindle');
const FEED_PER_TOOTH = quantity('feed_per_tooth', 'mm/tooth', 'feed for each tooth of the cutter');
const FEED_RATE = quantity('feed_rate', 'mm/min', 'feed for each minute');
const LENGTH = length('length', 'length of travel, with run-in and run-out');
const NOSE_RADIUS = length('nose_radius', "radius at the tool's tip");

const UM_PER_MM = 1000;

const feedRate: Formula = {
  name: 'feed_rate',
  family: 'cutting',
  title: 'Feed per minute from feed per turn',
  parameters: [FEED_PER_REV, SPINDLE_SPEED],
  result: [single('mm/min', 'feed for each minute')],
  compute: (given) => given.number('feed_per_rev') * given.number('spindle_speed'),
  working: () => [
    {
      name: '',
      expression: 'feed_per_rev * spindle_speed',
      words: 'feed of one turn, times the turns in a minute',
    },
  ],
  why: 'The chip a turning tool or drill takes is set by its feed per turn; the clock only sees the feed per minute.',
  conditions: positive(FEED_PER_REV, SPINDLE_SPEED),
  source: 'ISO 3002: feed and feed speed',
  cautions: ['speeds'],
  picture: null,
  checks: [
    {
      call: 'feed_rate(0.1 mm/rev, 1300 rpm)',
      expect: { '': 130 },
      tolerance: 1e-9,
      source: 'common practice',
    },
    {
      call: 'feed_rate(0.05 mm/rev, 600 rpm)',
      expect: { '': 30 },
      tolerance: 1e-9,
      source: 'worked with a units library',
    },
  ],
};

const tableFeed: Formula = {
  name: 'table_feed',
  family: 'cutting',
  title: 'Table feed from feed per tooth',
  parameters: [
    FEED_PER_TOOTH,
    { name: 'teeth', kind: 'count', unit: '', meaning: 'teeth of the cutter' },
    SPINDLE_SPEED,
  ],
  result: [single('mm/min', 'feed of the table for each minute')],
  compute: (given) => given.number('feed_per_tooth') * given.number('teeth') * given.number('spindle_speed'),
  working: () => [
    {
      name: 'feed_per_turn',
      expression: 'feed_per_tooth * teeth / 1 rev',
      words: 'in one turn every tooth takes its feed once',
    },
    { name: '', expression: 'feed_per_turn * spindle_speed', words: 'times the turns in a minute' },
  ],
  why:
    'Each tooth should take a chip thick enough to cut and thin enough to bear; the table must move that much for ' +
    'every tooth that passes. A single-point boring head or ring cutter has one tooth.',
  conditions: positive(FEED_PER_TOOTH, SPINDLE_SPEED),
  source: 'ISO 3002: feed per tooth and feed speed',
  cautions: ['speeds'],
  picture: null,
  checks: [
    {
      call: 'table_feed(0.03 mm/tooth, 2, 1200 rpm)',
      expect: { '': 72 },
      tolerance: 1e-9,
      source: 'worked with a units library',
    },
    {
      call: 'table_feed(0.1 mm/tooth, 6, 190 rpm)',
      expect: { '': 114 },
      tolerance: 1e-9,
      source: 'worked with a units library',
    },
  ],
};

const cuttingTime: Formula = {
  name: 'cutting_time',
  family: 'cutting',
  title: 'Time of one cut',
  parameters: [LENGTH, FEED_RATE],
  result: [single('min', 'time the feed runs')],
  compute: (given) => given.number('length') / given.number('feed_rate'),
  working: () => [
    { name: '', expression: 'length / feed_rate', words: 'the way, divided by the way made in a minute' },
  ],
  why: 'Add run-in and run-out to the length. Setting, measuring and winding back usually take longer than the cut.',
  conditions: positive(LENGTH, FEED_RATE),
  source: 'common practice',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'cutting_time(45 mm, 72 mm/min)',
      expect: { '': 0.625 },
      tolerance: 1e-9,
      source: 'worked with a units library',
    },
    {
      call: 'cutting_time(250 mm, 114 mm/min)',
      expect: { '': 2.19298245614 },
      tolerance: 1e-9,
      source: 'worked with a units library',
    },
  ],
};

const theoreticalRoughness: Formula = {
  name: 'theoretical_roughness',
  family: 'cutting',
  title: 'Finish that feed and nose radius leave at best',
  parameters: [FEED_PER_REV, NOSE_RADIUS],
  result: [
    field('rt', 'µm', 'height from valley to ridge'),
    field('ra', 'µm', 'mean height over the mean line'),
  ],
  compute: (given) => {
    const [feed, nose] = [given.number('feed_per_rev'), given.number('nose_radius')];
    return {
      rt: UM_PER_MM * (nose - Math.sqrt(nose ** 2 - feed ** 2 / 4)),
      ra: (UM_PER_MM * feed ** 2) / (18 * Math.sqrt(3) * nose),
    };
  },
  working: () => [
    { name: 'pitch', expression: 'feed_per_rev * 1 rev', words: 'distance from ridge to ridge' },
    {
      name: 'rt',
      expression: 'nose_radius - sqrt(nose_radius^2 - pitch^2 / 4)',
      words: 'how deep the nose sinks between two ridges',
    },
    {
      name: 'ra',
      expression: 'pitch^2 / (18 * sqrt(3) * nose_radius)',
      words: 'mean height over the mean line of the scallops, taken as parabolas',
    },
  ],
  why:
    'The nose leaves a scallop for each turn: half the feed makes a quarter of the height, twice the radius half. Real ' +
    'surfaces come out up to three times rougher, and below about 0.05 mm/rev the edge rubs instead of cutting and ' +
    'the figure is too good.',
  conditions: [
    ...positive(FEED_PER_REV, NOSE_RADIUS),
    must(
      'feed_per_rev',
      'the feed is less than twice the nose radius',
      (given) => given.number('feed_per_rev') < 2 * given.number('nose_radius'),
      (given) =>
        `With a feed of ${shown(given.number('feed_per_rev'), 'mm/rev')} the straight edges cut, not the nose alone: ` +
        `keep the feed below ${shown(2 * given.number('nose_radius'), 'mm/rev')}.`,
    ),
  ],
  source: 'geometry of the nose arc, as in textbooks; Ra from the parabola that stands for the arc',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'theoretical_roughness(0.2 mm/rev, 0.8 mm)',
      expect: { rt: 6.27461, ra: 1.60879 },
      tolerance: 0.006,
      source: 'numeric integration over the true arc',
    },
    {
      call: 'theoretical_roughness(0.05 mm/rev, 0.2 mm)',
      expect: { rt: 1.56865, ra: 0.402198 },
      tolerance: 0.0015,
      source: 'numeric integration over the true arc',
    },
  ],
};

export const CUTTING_FORMULAS: readonly Formula[] = [feedRate, tableFeed, cuttingTime, theoreticalRoughness];
