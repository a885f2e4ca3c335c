/** Basic sizes of a 60 degree thread, its lead angle, and how deep to feed the tool. */
import {
  degrees,
  field,
  length,
  must,
  optional,
  positive,
  quantity,
  radians,
  should,
  shown,
  single,
} from './build';
import type { Formula } from './formula';
import { THREAD, stepsOf, withThread } from './thread';

/** The triangle of the profile is so many pitches high. */
const HEIGHT = Math.sqrt(3) / 2;
/** Parts of that height: from the outside to the pitch line, twice; to the nut's bore, twice; to the screw's root, once. */
const TO_PITCH_LINE = 3 / 4;
const TO_BORE = 5 / 4;
const TO_ROOT = 17 / 24;

export const pitchDiameter = (diameter: number, pitch: number): number =>
  diameter - TO_PITCH_LINE * HEIGHT * pitch;
export const boreDiameter = (diameter: number, pitch: number): number => diameter - TO_BORE * HEIGHT * pitch;
/** Depth of a screw's thread with the root rounded as the profile has it. */
export const screwDepth = (pitch: number): number => TO_ROOT * HEIGHT * pitch;
/** Depth of a nut's thread: from its bore to the outside diameter. */
const nutDepth = (pitch: number): number => (TO_BORE / 2) * HEIGHT * pitch;

const HEIGHT_STEP = {
  name: 'triangle',
  expression: 'sqrt(3) / 2 * pitch',
  words: 'height of the triangle of which the profile is cut',
};

const PROFILE = 'ISO 68-1 (basic profile), ISO 724; ASME B1.1 has the same profile';

const threadSizes: Formula = {
  name: 'thread_sizes',
  family: 'threads',
  title: 'Basic sizes of a thread',
  parameters: [THREAD],
  result: [
    field('diameter', 'mm', 'outside diameter, the size in the name'),
    field('pitch', 'mm', 'advance of one turn'),
    field('pitch_diameter', 'mm', 'diameter at which groove and land are equally wide'),
    field('bore', 'mm', "smallest diameter of the nut's thread"),
    field('core', 'mm', "smallest diameter of the screw's thread, at its rounded root"),
    field('depth', 'mm', "depth of the screw's thread"),
    field('engaged', 'mm', 'height over which screw and nut meet'),
    { ...field('series', '', 'the row of threads it belongs to'), words: true },
  ],
  compute: (given) =>
    withThread(given, ({ diameter, pitch, series }) => ({
      diameter,
      pitch,
      pitch_diameter: pitchDiameter(diameter, pitch),
      bore: boreDiameter(diameter, pitch),
      core: diameter - 2 * screwDepth(pitch),
      depth: screwDepth(pitch),
      engaged: nutDepth(pitch),
      series,
    })),
  working: (given) =>
    stepsOf(given, () => [
      HEIGHT_STEP,
      {
        name: 'pitch_diameter',
        expression: 'diameter - 3 / 4 * triangle',
        words: 'three eighths of the triangle in on each side',
      },
      {
        name: 'bore',
        expression: 'diameter - 5 / 4 * triangle',
        words: 'five eighths of it in on each side',
      },
      {
        name: 'depth',
        expression: '17 / 24 * triangle',
        words: 'less the eighth and the sixth that are left off',
      },
      { name: 'core', expression: 'diameter - 2 * depth', words: 'the depth in on each side' },
      { name: 'engaged', expression: '5 / 8 * triangle', words: 'from the outside to the bore' },
    ]),
  why:
    'All these threads are one triangle of 60° with its tips cut off: an eighth of its height outside, a quarter at the ' +
    'bore of the nut. So every size follows from the outside diameter and the pitch. They are the basic sizes: limits ' +
    'lie below them on a screw and above them in a nut.',
  conditions: [],
  source: PROFILE,
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'thread_sizes(M12x1.25)',
      expect: { pitch_diameter: 11.1881, bore: 10.6468, core: 10.4664, series: 'fine' },
      tolerance: 5e-5,
      source: 'worked exactly with a computer algebra system; printed tables of ISO 724 round the same',
    },
    {
      call: 'thread_sizes(M24)',
      expect: {
        diameter: 24,
        pitch: 3,
        pitch_diameter: 22.0514,
        bore: 20.7524,
        core: 20.3194,
        series: 'coarse',
      },
      tolerance: 5e-5,
      source: 'worked exactly with a computer algebra system',
    },
    {
      call: 'thread_sizes(1/2-13 UNC)',
      expect: { pitch_diameter: 11.43094, bore: 10.584891, series: 'UNC' },
      tolerance: 1e-4,
      source: '0.450037 in and 0.416728 in, worked exactly with a computer algebra system',
    },
  ],
};

const PITCH_DIAMETER = length('pitch_diameter', 'pitch diameter of the thread');
const PITCH = length('pitch', 'pitch of the thread');
const STARTS = {
  name: 'starts',
  kind: 'count',
  unit: '',
  meaning: 'threads that wind side by side, one unless given',
} as const;

const leadAngle: Formula = {
  name: 'lead_angle',
  family: 'threads',
  title: 'Angle at which a thread climbs',
  parameters: [PITCH_DIAMETER, PITCH, optional(STARTS)],
  result: [single('°', 'angle between the thread and a square cut, at the pitch line')],
  compute: (given) =>
    degrees(
      Math.atan2(
        given.numberOr('starts', 1) * given.number('pitch'),
        Math.PI * given.number('pitch_diameter'),
      ),
    ),
  working: (given) => [
    {
      name: '',
      expression: `atan(${given.has('starts') ? 'starts * ' : ''}pitch / (pi * pitch_diameter))`,
      words: 'one turn unrolled: the lead up, the way round along',
    },
  ],
  why:
    'Unroll one turn and the thread is the slope of a triangle: its rise is the lead, its foot the way round. The ' +
    'clearance of the tool on the side it travels to must be this much more, on the other side as much less.',
  conditions: positive(PITCH_DIAMETER, PITCH),
  source: 'right triangle of the unrolled turn; handbook',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'lead_angle(16.376202 mm, 2.5 mm)',
      expect: { '': 2.782 },
      tolerance: 5e-4,
      source: 'table of metric threads worked apart from the project, M18',
    },
    {
      call: 'lead_angle(20 mm, 4 mm, starts: 2)',
      expect: { '': 7.25608291 },
      tolerance: 1e-7,
      source: 'right triangle of 8 mm over 62.8319 mm, worked with a general mathematics library',
    },
  ],
};

/** Angle of the compound slide from square that cuts with one edge and cleans the other: common practice. */
const USUAL_COMPOUND = 29.5;
const FROM_SQUARE = `${USUAL_COMPOUND}° from square; a scale that reads zero along the bed shows ${90 - USUAL_COMPOUND}°`;
/** Half the angle of the thread. */
const FLANK = 30;
const COMPOUND = quantity(
  'compound_angle',
  '°',
  `how far the compound slide is swung from square across the bed; unless given, ${FROM_SQUARE}`,
);

const threadInfeed: Formula = {
  name: 'thread_infeed',
  family: 'threads',
  title: 'How deep to feed a threading tool, straight and by the compound slide',
  parameters: [THREAD, optional(COMPOUND)],
  result: [
    field('straight', 'mm', 'feed of the cross slide, on radius, from touching the outside of a screw'),
    field('by_compound', 'mm', 'feed of the compound slide, at its angle from square, for the same depth'),
    field('in_bore', 'mm', 'depth of an inside thread from its bore, on radius'),
    field('in_bore_by_compound', 'mm', 'feed of the compound slide for that'),
    field('flat_root', 'mm', 'depth older charts give, for a root with a flat an eighth of the pitch wide'),
    field('sharp', 'mm', 'depth of a thread sharp at both ends, which no tool should cut'),
  ],
  compute: (given) =>
    withThread(given, ({ pitch }) => {
      const along = Math.cos(radians(given.numberOr('compound_angle', USUAL_COMPOUND)));
      return {
        straight: screwDepth(pitch),
        by_compound: screwDepth(pitch) / along,
        in_bore: nutDepth(pitch),
        in_bore_by_compound: nutDepth(pitch) / along,
        flat_root: TO_PITCH_LINE * HEIGHT * pitch,
        sharp: HEIGHT * pitch,
      };
    }),
  working: (given) =>
    stepsOf(given, () => [
      {
        name: 'swung',
        expression: given.has('compound_angle') ? 'compound_angle' : `${USUAL_COMPOUND}°`,
        words: given.has('compound_angle')
          ? 'as given, from square'
          : `half a degree less than the flank: ${FROM_SQUARE}`,
      },
      { ...HEIGHT_STEP, name: 'sharp' },
      { name: 'straight', expression: '17 / 24 * sharp', words: 'less what is left off at tip and root' },
      {
        name: 'by_compound',
        expression: 'straight / cos(swung)',
        words: 'the slope is longer than the depth',
      },
      { name: 'in_bore', expression: '5 / 8 * sharp', words: 'from the bore to the outside' },
      { name: 'in_bore_by_compound', expression: 'in_bore / cos(swung)', words: 'along the slope again' },
      { name: 'flat_root', expression: '3 / 4 * sharp', words: 'an eighth off at tip and root' },
    ]),
  why:
    'Fed straight in, the tool cuts on both flanks and the chips jam. Swung to just under half the thread angle the ' +
    'compound slide feeds along one flank: one edge cuts, the other only cleans up, but the slide goes farther than the ' +
    'thread is deep. Three depths are in use that differ by a third: know which one a chart means, and finish by the ' +
    'gauge or wires.',
  conditions: [
    must(
      'compound_angle',
      'the compound slide is swung by 0° or more',
      (given) => given.numberOr('compound_angle', USUAL_COMPOUND) >= 0,
      (given) => `\`compound_angle\` is ${shown(given.number('compound_angle'), '°')}: give 0° or more.`,
    ),
    must(
      'compound_angle',
      'the compound slide is swung from square across the bed, and not past 60°',
      (given) => given.numberOr('compound_angle', USUAL_COMPOUND) <= 90 - FLANK,
      (given) =>
        `${shown(given.number('compound_angle'), '°')} is read from along the bed: give the angle from square, ` +
        `${shown(90 - given.number('compound_angle'), '°')}.`,
    ),
    should(
      'compound_angle',
      'the compound slide is swung by at most half the thread angle',
      (given) => {
        const angle = given.numberOr('compound_angle', USUAL_COMPOUND);
        return angle <= FLANK || angle > 90 - FLANK;
      },
      () => `Past ${FLANK}° the trailing flank comes out in steps: swing the slide to ${FROM_SQUARE}.`,
    ),
  ],
  source: `${PROFILE}; compound slide at ${USUAL_COMPOUND}°: common practice`,
  cautions: ['lathe', 'swarf'],
  picture: null,
  checks: [
    {
      call: 'thread_infeed(M10)',
      expect: { straight: 0.920152, by_compound: 1.05721, flat_root: 0.974279, sharp: 1.299038 },
      tolerance: 1e-5,
      source: '17 sqrt(3)/48 of the pitch exactly, angle by a units library; 0.6495 and 0.8660 of it by hand',
    },
    {
      call: 'thread_infeed(1/2-13 UNC, compound_angle: 29.5°)',
      expect: { straight: 1.19856, by_compound: 1.37709 },
      tolerance: 1e-5,
      source: '17 sqrt(3)/48 of the pitch exactly, angle by a units library',
    },
    {
      call: 'thread_infeed(M8x1)',
      expect: { straight: 0.613435, by_compound: 0.704809, in_bore: 0.541266 },
      tolerance: 1e-5,
      source: '17 sqrt(3)/48 of the pitch exactly, angle by a units library; H1 of ISO 68-1',
    },
  ],
};

export const THREAD_FORMULAS: readonly Formula[] = [threadSizes, threadInfeed, leadAngle];
