/** Checks of spacing on divided work: chords to measure, and what one hole is worth. */
import { field, length, must, optional, positive, single } from './build';
import type { Formula, Parameter } from './formula';
import { DIVISIONS, HEAD, headOf } from './indexing-head';

const DIAMETER = length('diameter', 'diameter of the circle that the divisions lie on');
const OVER: Parameter = {
  name: 'over',
  kind: 'count',
  unit: '',
  meaning: 'spaces that the chord spans: one when not given',
};

const divisionChord: Formula = {
  name: 'division_chord',
  family: 'indexing',
  title: 'Straight distance between divisions of a circle',
  parameters: [DIAMETER, DIVISIONS, optional(OVER)],
  result: [single('mm', 'straight distance between the middles of two divisions')],
  compute: (given) =>
    given.number('diameter') * Math.sin((Math.PI * given.numberOr('over', 1)) / given.number('divisions')),
  working: (given) => [
    {
      name: 'half_angle',
      expression: `180° * ${given.has('over') ? 'over' : '1'} / divisions`,
      words: 'half the angle between them, seen from the centre',
    },
    {
      name: '',
      expression: 'diameter * sin(half_angle)',
      words: 'twice half the chord, from the half triangle',
    },
  ],
  why:
    'Measure over several spaces as well as over one: the small errors of neighbours hide in one chord and add up over ' +
    'many. Two pins of one size in the holes measure the chord and their diameter on top.',
  conditions: [
    ...positive(DIAMETER),
    must(
      'divisions',
      'at least two divisions',
      (given) => given.number('divisions') >= 2,
      () => 'One division has no neighbour to measure to: give 2 or more.',
    ),
    must(
      'over',
      'the chord spans fewer spaces than there are',
      (given) => !given.has('over') || given.number('over') < given.number('divisions'),
      (given) =>
        `After ${given.number('divisions')} spaces the circle is closed: give \`over\` of ${given.number('divisions') - 1} at most.`,
    ),
  ],
  source: 'geometry: the two radii and the chord make a triangle with equal sides',
  cautions: ['measuring'],
  picture: null,
  checks: [
    {
      call: 'division_chord(100 mm, 7)',
      expect: { '': 43.3883739118 },
      tolerance: 1e-9,
      source: 'distance of two complex numbers on the circle',
    },
    {
      call: 'division_chord(250 mm, 36)',
      expect: { '': 21.7889356869 },
      tolerance: 1e-9,
      source: 'distance of two complex numbers on the circle',
    },
    {
      call: 'division_chord(100 mm, 6, over: 3)',
      expect: { '': 100 },
      tolerance: 1e-9,
      source: 'half way round the chord is the diameter',
    },
  ],
};

const CIRCLE: Parameter = { name: 'circle', kind: 'count', unit: '', meaning: 'holes of the circle used' };

const holeStep: Formula = {
  name: 'hole_step',
  family: 'indexing',
  title: 'What one hole of a circle moves at the work',
  parameters: [DIAMETER, CIRCLE, HEAD],
  result: [
    field('angle', '°', 'angle of the work for one hole'),
    field('arc', 'mm', 'way along the circle of the work for one hole'),
  ],
  compute: (given) => {
    const head = headOf(given.card('head'));
    if ('refused' in head) return head;
    const all = head.ratio * given.number('circle');
    return { angle: 360 / all, arc: (Math.PI * given.number('diameter')) / all };
  },
  working: (given) => {
    const head = headOf(given.card('head'));
    if ('refused' in head) return [];
    return [
      {
        name: 'angle',
        expression: `360° / (${head.ratio} * circle)`,
        words: 'a full turn, shared by all holes of all turns of the crank',
      },
      {
        name: 'arc',
        expression: 'pi * diameter * (angle / 360°)',
        words: 'the same part of the way round the work',
      },
    ];
  },
  why:
    'This is how far a cut goes wrong when the count slips by one hole, and the finest step that the circle allows. A ' +
    'space that is wide by just that, with its neighbour narrow by as much, is a miscount.',
  conditions: positive(DIAMETER),
  source: 'exact arithmetic; arc of a circle',
  cautions: ['indexing'],
  picture: null,
  checks: [
    {
      call: 'hole_step(100 mm, 18, head)',
      expect: { angle: 0.5, arc: 0.436332312999 },
      tolerance: 1e-9,
      source: 'common practice: two holes of 18 turn the work by one degree',
    },
    {
      call: 'hole_step(100 mm, 54, head_b)',
      expect: { angle: 0.166666666667, arc: 0.145444104333 },
      tolerance: 1e-9,
      source: 'common practice: six holes of 54 turn the work by one degree',
    },
  ],
};

export const SPACING_FORMULAS: readonly Formula[] = [divisionChord, holeStep];
