/** How true a ball comes when the axes of cutter and work miss each other. */
import { length, mm, must, positive, single } from './build';
import type { Formula, Given } from './formula';

const BALL = length('ball', 'diameter of the ball');
const NECK = length('neck', 'diameter of the shank where it meets the ball');
const OFFSET = length('offset', "how far the cutter's axis passes beside the work's, square to the tilt");

/** The ring through free end and neck, in mm. */
function ringThroughEnd(given: Given): number {
  const ball = given.number('ball');
  return ball * Math.cos(Math.asin(given.number('neck') / ball) / 2);
}

const roundness: Formula = {
  name: 'roundness_from_offset',
  family: 'ball',
  title: 'How far out of round when the axes miss each other',
  parameters: [BALL, NECK, OFFSET],
  result: [single('mm', 'difference of the largest and smallest radius of the ball')],
  compute: (given) => {
    const [radius, offset] = [given.number('ball') / 2, Math.abs(given.number('offset'))];
    const nearest = radius ** 2 + offset ** 2 - offset * ringThroughEnd(given);
    return Math.hypot(radius, offset) - Math.sqrt(nearest);
  },
  working: () => [
    {
      name: 'ring',
      expression: 'ball * cos(asin(neck / ball) / 2)',
      words: 'the ring for this ball and neck',
    },
    {
      name: 'largest',
      expression: 'hypot(ball / 2, offset)',
      words: 'radius at the free end and at the neck',
    },
    {
      name: 'smallest',
      expression: 'sqrt((ball / 2)^2 + offset^2 - abs(offset) * ring)',
      words: 'radius where the nearer side of the ring passes',
    },
    { name: '', expression: 'largest - smallest', words: 'the difference' },
  ],
  why:
    'When the axes pass beside each other one side of the ring runs nearer to the centre and does all the cutting: the ' +
    'hatch on the ball then leans one way instead of crossing. The error grows as the miss itself, not as its square. A ' +
    'shift along the bar does not count: it only moves the ball.',
  conditions: [
    ...positive(BALL, NECK),
    must(
      'neck',
      'the neck is smaller than the ball',
      (given) => given.number('neck') < given.number('ball'),
      (given) => `Give a neck below the ball's ${mm(given.number('ball'))}.`,
    ),
    must(
      'offset',
      'the offset is less than half the ring',
      (given) => Math.abs(given.number('offset')) < ringThroughEnd(given) / 2,
      (given) =>
        `With the axes ${mm(Math.abs(given.number('offset')))} apart the ring does not go round the work: bring them ` +
        `within ${mm(ringThroughEnd(given) / 2)}.`,
    ),
  ],
  source: 'own derivation, plane and sphere geometry; confirmed by sampled tip circles',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'roundness_from_offset(40 mm, 16 mm, 0.2 mm)',
      expect: { '': 0.19674 },
      tolerance: 1e-3,
      source: 'nearest sampled tip point at each place along the work',
    },
    {
      call: 'roundness_from_offset(30 mm, 12 mm, 0.1 mm)',
      expect: { '': 0.0982099554 },
      tolerance: 1e-8,
      source: 'nearer of two sampled tip points at each place along the work',
    },
  ],
  extremes: { offset: () => [0] },
};

export const ROUNDNESS_FORMULAS: readonly Formula[] = [roundness];
