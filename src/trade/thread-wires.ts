/** The pitch diameter over three wires: the wire to take, the size over them, and back. */
import {
  degrees,
  field,
  length,
  mm,
  must,
  optional,
  positive,
  quantity,
  radians,
  should,
  shown,
  single,
} from './build';
import type { Condition, Formula, Given, Step } from './formula';
import { THREAD, stepsOf, threadOf, withThread } from './thread';
import { zoneOf } from './thread-zones';
import { pitchDiameter } from './threads';

/** Of ISO and unified threads, in degrees. */
const USUAL_ANGLE = 60;
const PITCH_DIAMETER = length('pitch_diameter', 'pitch diameter of the thread');
const PITCH = length('pitch', 'pitch of the thread');
const WIRE = length('wire', 'diameter of the wires, all three alike');
const OVER = length('over_wires', 'size measured over the wires');
const ANGLE = quantity(
  'thread_angle',
  '°',
  `angle between the flanks: ${USUAL_ANGLE}° unless given, 55° for Whitworth, 29° for Acme`,
);

const half = (given: Given): number => radians(given.numberOr('thread_angle', USUAL_ANGLE) / 2);

/** The wire that touches the flanks on the pitch line, so that a wrong angle does not matter. */
const bestWire = (pitch: number, flank: number): number => pitch / (2 * Math.cos(flank));

/** What the wires add to the pitch diameter. */
const added = (pitch: number, wire: number, flank: number): number =>
  wire * (1 + 1 / Math.sin(flank)) - pitch / (2 * Math.tan(flank));

/** Wires beyond these, as parts of the best one, rest on the crest or lie below it (flat of an eighth of the pitch). */
const SMALLEST = 0.875;
const LARGEST = 1.75;

const sane: readonly Condition[] = [
  must(
    'thread_angle',
    'the thread angle is between 0° and 180°',
    (given) => {
      const angle = given.numberOr('thread_angle', USUAL_ANGLE);
      return angle > 0 && angle < 180;
    },
    (given) =>
      `${shown(given.number('thread_angle'), '°')} is no angle of a thread: give one between 0° and 180°.`,
  ),
];

const fits: readonly Condition[] = [
  ...sane,
  should(
    'wire',
    'the wire touches both flanks and stands above the crest',
    (given) => {
      const part = given.number('wire') / bestWire(given.number('pitch'), half(given));
      return part >= SMALLEST && part <= LARGEST;
    },
    (given) => {
      const best = bestWire(given.number('pitch'), half(given));
      const large = given.number('wire') > best;
      return (
        `A wire of ${mm(given.number('wire'))} ${large ? 'rests on the crests' : 'lies below the crests'} of this pitch: ` +
        `take one from ${mm(SMALLEST * best)} to ${mm(LARGEST * best)}, best ${mm(best)}.`
      );
    },
  ),
];

const angleText = (given: Given): string => (given.has('thread_angle') ? 'thread_angle' : `${USUAL_ANGLE}°`);

const flankStep = (given: Given): Step => ({
  name: 'flank',
  expression: `${angleText(given)} / 2`,
  words: 'half the angle of the thread',
});

const ADDED = 'wire * (1 + 1 / sin(flank)) - pitch / (2 * tan(flank))';
const addedStep: Step = {
  name: 'added',
  expression: ADDED,
  words: 'the wire and its seat, less the part of the groove below the pitch line',
};

/** Where more angle begins to add: the wire then touches on the pitch line. */
const turning = (given: Given): readonly number[] => {
  const part = given.number('pitch') / (2 * given.number('wire'));
  return part < 1 ? [2 * degrees(Math.acos(part))] : [];
};

const WHY =
  'A wire in the groove touches both flanks, so its centre stands at a height that only the wire and the groove decide. ' +
  'The best wire touches where groove and land are equally wide: then an error of the angle does not show. The slope of ' +
  'the thread is left out; it adds less than 5 µm on usual single threads.';
const SOURCE = 'geometry of a circle between two flanks; handbook. Slope of the thread left out';

const best: Formula = {
  name: 'best_wire',
  family: 'threads',
  title: 'Best wire for measuring a thread',
  parameters: [PITCH, optional(ANGLE)],
  result: [
    field('wire', 'mm', 'wire that touches the flanks on the pitch line'),
    field('smallest', 'mm', 'smallest wire that still stands above the crests'),
    field('largest', 'mm', 'largest wire that still touches the flanks'),
  ],
  compute: (given) => {
    const wire = bestWire(given.number('pitch'), half(given));
    return { wire, smallest: SMALLEST * wire, largest: LARGEST * wire };
  },
  working: (given) => [
    flankStep(given),
    {
      name: 'wire',
      expression: 'pitch / (2 * cos(flank))',
      words: 'a quarter pitch out, seen along the flank',
    },
    { name: 'smallest', expression: `${SMALLEST} * wire`, words: 'level with the crests' },
    { name: 'largest', expression: `${LARGEST} * wire`, words: 'touching where the flank ends at the crest' },
  ],
  why: WHY,
  conditions: [...positive(PITCH), ...sane],
  source: `${SOURCE}; smallest and largest for 60° and a flat of an eighth of the pitch at the crest`,
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'best_wire(1.5 mm)',
      expect: { wire: 0.866025, smallest: 0.75777, largest: 1.51554 },
      tolerance: 1e-5,
      source:
        'numeric: contact point exactly on the pitch line; 0.505182 and 1.010363 of the pitch by handbook',
    },
    {
      call: 'best_wire(5 mm, thread_angle: 29°)',
      expect: { wire: 2.58225 },
      tolerance: 1e-5,
      source: 'handbook factor 0.516450 for Acme threads',
    },
    {
      call: 'best_wire(2.54 mm, thread_angle: 55°)',
      expect: { wire: 1.431775 },
      tolerance: 1e-5,
      source: 'handbook factor 0.563691 for Whitworth threads',
    },
  ],
};

const over: Formula = {
  name: 'over_wires',
  family: 'threads',
  title: 'Size over three wires for a pitch diameter',
  parameters: [PITCH_DIAMETER, PITCH, WIRE, optional(ANGLE)],
  result: [single('mm', 'size over the wires')],
  compute: (given) =>
    given.number('pitch_diameter') + added(given.number('pitch'), given.number('wire'), half(given)),
  working: (given) => [
    flankStep(given),
    addedStep,
    { name: '', expression: 'pitch_diameter + added', words: 'on top of the pitch diameter' },
  ],
  why: WHY,
  conditions: [...positive(PITCH_DIAMETER, PITCH, WIRE), ...fits],
  source: SOURCE,
  cautions: ['measuring'],
  picture: 'thread_wires',
  extremes: { thread_angle: turning },
  checks: [
    {
      call: 'over_wires(10.8632 mm, 1.75 mm, 1.1 mm)',
      expect: { '': 12.6477 },
      tolerance: 1e-4,
      source: 'numeric tangency of wire and flank',
    },
    {
      call: 'over_wires(20 mm, 2.54 mm, 1.45 mm, thread_angle: 55°)',
      expect: { '': 22.1506 },
      tolerance: 1e-4,
      source: 'numeric tangency of wire and flank',
    },
    {
      call: 'over_wires(20 mm, 5 mm, 2.6 mm, thread_angle: 29°)',
      expect: { '': 23.3174 },
      tolerance: 1e-4,
      source: 'numeric tangency of wire and flank',
    },
  ],
};

const back: Formula = {
  name: 'pitch_diameter_of',
  family: 'threads',
  title: 'Pitch diameter from a size over three wires',
  parameters: [OVER, PITCH, WIRE, optional(ANGLE)],
  result: [single('mm', 'pitch diameter')],
  compute: (given) =>
    given.number('over_wires') - added(given.number('pitch'), given.number('wire'), half(given)),
  working: (given) => [
    flankStep(given),
    addedStep,
    { name: '', expression: 'over_wires - added', words: 'the size less what the wires add' },
  ],
  why: WHY,
  conditions: [
    ...positive(OVER, PITCH, WIRE),
    ...fits,
    must(
      'over_wires',
      'the size is more than the wires add',
      (given) => given.number('over_wires') > added(given.number('pitch'), given.number('wire'), half(given)),
      (given) =>
        `${mm(given.number('over_wires'))} is less than the wires alone: give a size above ` +
        `${mm(added(given.number('pitch'), given.number('wire'), half(given)))}.`,
    ),
  ],
  source: SOURCE,
  cautions: ['measuring'],
  picture: 'thread_wires',
  extremes: { thread_angle: turning },
  checks: [
    {
      call: 'pitch_diameter_of(12.6477 mm, 1.75 mm, 1.1 mm)',
      expect: { '': 10.8632 },
      tolerance: 1e-4,
      source: 'numeric tangency of wire and flank, gone back',
    },
    {
      call: 'pitch_diameter_of(23.3174 mm, 5 mm, 2.6 mm, thread_angle: 29°)',
      expect: { '': 20 },
      tolerance: 1e-4,
      source: 'numeric tangency of wire and flank, gone back',
    },
  ],
};

const OWN_WIRE = {
  ...WIRE,
  meaning: 'diameter of the wires at hand, the best ones unless given',
  optional: true,
};

/** Out of the range of the best wire's parts the wire at hand does not sit right. */
const ownFits = must(
  'wire',
  'the wire touches both flanks and stands above the crest',
  (given) => {
    const thread = threadOf(given);
    if ('refused' in thread || !given.has('wire')) return true;
    const part = given.number('wire') / bestWire(thread.pitch, radians(USUAL_ANGLE / 2));
    return part >= SMALLEST && part <= LARGEST;
  },
  (given) => {
    const thread = threadOf(given);
    if ('refused' in thread) return thread.refused;
    const best = bestWire(thread.pitch, radians(USUAL_ANGLE / 2));
    return (
      `A wire of ${mm(given.number('wire'))} does not sit right in ${thread.name}: take one from ${mm(SMALLEST * best)} to ` +
      `${mm(LARGEST * best)}, best ${mm(best)}.`
    );
  },
);

const screwOverWires: Formula = {
  name: 'screw_over_wires',
  family: 'threads',
  title: 'Limits of a screw over three wires',
  parameters: [THREAD, OWN_WIRE],
  result: [
    field('best', 'mm', 'best wire for this pitch'),
    field('basic', 'mm', 'size over the wires at the basic pitch diameter'),
    field('largest', 'mm', 'largest size over the wires that the class allows'),
    field('smallest', 'mm', 'smallest size over the wires that the class allows'),
    { ...field('tolerance', '', 'class the limits are of'), words: true },
  ],
  compute: (given) =>
    withThread(given, (thread) => {
      const [flank, zone] = [radians(USUAL_ANGLE / 2), zoneOf(thread, 'screw')];
      if ('refused' in zone) return zone;
      const best = bestWire(thread.pitch, flank);
      const wire = given.numberOr('wire', best);
      const basic = pitchDiameter(thread.diameter, thread.pitch) + added(thread.pitch, wire, flank);
      const largest = basic - zone.allowance;
      return { best, basic, largest, smallest: largest - zone.pitchDiameter, tolerance: zone.tolerance };
    }),
  working: (given) =>
    stepsOf(given, (thread) => {
      const zone = zoneOf(thread, 'screw');
      if ('refused' in zone) return [];
      const width = (value: number): string => `${Number(value.toPrecision(12))} mm`;
      return [
        { name: 'flank', expression: `${USUAL_ANGLE}° / 2`, words: 'half the angle of the thread' },
        { name: 'best', expression: 'pitch / (2 * cos(flank))', words: 'touching on the pitch line' },
        {
          name: 'added',
          expression: given.has('wire') ? ADDED : ADDED.replace('wire', 'best'),
          words: addedStep.words,
        },
        {
          name: 'basic',
          expression: 'diameter - 3 / 8 * sqrt(3) * pitch + added',
          words: 'the basic pitch diameter and what the wires add',
        },
        {
          name: 'largest',
          expression: `basic - ${width(zone.allowance)}`,
          words: `less the allowance of ${zone.tolerance}`,
        },
        { name: 'smallest', expression: `largest - ${width(zone.pitchDiameter)}`, words: 'less its width' },
      ];
    }),
  why: WHY,
  conditions: [...positive(OWN_WIRE), ownFits],
  source: `${SOURCE}; limits as in screw_limits`,
  cautions: ['measuring'],
  picture: 'thread_wires',
  checks: [
    {
      call: 'screw_over_wires(M18)',
      expect: { best: 1.4434, basic: 18.5413, largest: 18.4993, smallest: 18.3293, tolerance: '6g' },
      tolerance: 0.0006,
      source: 'table of metric threads worked apart from the project; limits 16.334 and 16.164 of ISO 965-2',
    },
    {
      call: 'screw_over_wires(M12-6g, 1.1 mm)',
      expect: { basic: 12.6477, largest: 12.6137, smallest: 12.4637 },
      tolerance: 0.0002,
      source: 'numeric tangency of wire and flank; 34 and 150 µm of ISO 965-1',
    },
  ],
};

export const WIRE_FORMULAS: readonly Formula[] = [best, over, back, screwOverWires];
