/** Centre drills of ISO 866, form A, for the centre holes of ISO 6411. */
import { field, length, mm, must, positive } from './build';
import type { Formula, Given } from './formula';

/** Diameters of shafts in mm that the list is for. */
const SMALLEST = 3;
const LARGEST = 400;
type Row = readonly [upto: number, pilot: number, body: number, wide: number, deep: number];
/**
 * In mm: shafts up to so thick, then the pilot and the body of the drill (ISO 866), the width of the centre hole and the
 * depth of its pilot (ISO 6411). All from memory; which drill goes with which shaft is common practice.
 */
const SIZES: readonly Row[] = [
  [5, 1, 3.15, 2.12, 0.9],
  [6, 1.25, 3.15, 2.65, 1.1],
  [10, 1.6, 4, 3.35, 1.4],
  [16, 2, 5, 4.25, 1.8],
  [25, 2.5, 6.3, 5.3, 2.2],
  [40, 3.15, 8, 6.7, 2.8],
  [63, 4, 10, 8.5, 3.5],
  [100, 5, 12.5, 10.6, 4.4],
  [160, 6.3, 16, 13.2, 5.5],
  [250, 8, 20, 17, 7],
];
/** For shafts thicker than those. */
const LAST: Row = [LARGEST, 10, 25, 21.2, 8.7];
/** Lathe centres have a point of 60°. */
const HALF_POINT = 30;

const SHAFT = length('diameter', 'diameter of the shaft at its end');

const sizeFor = (given: Given): Row => SIZES.find(([upto]) => given.number('diameter') <= upto) ?? LAST;

const centreDrill: Formula = {
  name: 'centre_drill',
  family: 'holes',
  title: 'Centre drill for a shaft, and how deep',
  parameters: [SHAFT],
  result: [
    { ...field('pilot', 'mm', 'pilot of the centre drill, by which it is called'), choice: true },
    { ...field('body', 'mm', 'body of the centre drill'), choice: true },
    { ...field('wide', 'mm', 'diameter of the centre hole at the face'), choice: true },
    field('cone', 'mm', 'depth of the 60° cone'),
    field('depth', 'mm', 'from the face to the end of the pilot, its point not counted'),
  ],
  compute: (given) => {
    const [, pilot, body, wide, deep] = sizeFor(given);
    const cone = (wide - pilot) / 2 / Math.tan((HALF_POINT * Math.PI) / 180);
    return { pilot, body, wide, cone, depth: cone + deep };
  },
  working: (given) => {
    const [upto, pilot, body, wide, deep] = sizeFor(given);
    return [
      { name: 'pilot', expression: `${pilot} mm`, words: `by custom for shafts up to ${upto} mm` },
      { name: 'body', expression: `${body} mm`, words: 'its body by ISO 866, form A' },
      { name: 'wide', expression: `${wide} mm`, words: 'its centre hole by ISO 6411' },
      {
        name: 'cone',
        expression: `(wide - pilot) / 2 / tan(${HALF_POINT}°)`,
        words: 'the cone is 60° over both sides',
      },
      { name: 'depth', expression: `cone + ${deep} mm`, words: 'and the pilot below it, by ISO 6411' },
    ];
  },
  why:
    'The centre bears on the cone alone, and oil and dirt go into the pilot below. Drilled too deep, the cylinder of the body ' +
    'enters and the centre bears on an edge. A larger shaft takes a larger cone, since the whole weight and cut rest on it.',
  conditions: [
    ...positive(SHAFT),
    must(
      'diameter',
      'shafts from 3 mm to 400 mm',
      (given) => given.number('diameter') >= SMALLEST && given.number('diameter') <= LARGEST,
      (given) =>
        `The custom is for shafts from ${SMALLEST} mm to ${LARGEST} mm: give a diameter in this range instead of ${mm(given.number('diameter'))}.`,
    ),
  ],
  source:
    'drills: ISO 866, form A; centre holes: ISO 6411; both from memory; choice by shaft: common practice, from memory',
  cautions: ['drilling', 'between_centres'],
  picture: null,
  checks: [
    {
      call: 'centre_drill(12 mm)',
      expect: { pilot: 2, body: 5, wide: 4.25, cone: 1.95, depth: 3.75 },
      tolerance: 0.005,
      source: 'cone of 1.95 mm as ISO 6411 lists it, from memory; pilot and body: list of ISO 866 held apart',
    },
    {
      call: 'centre_drill(30 mm)',
      expect: { pilot: 3.15, body: 8, wide: 6.7, cone: 3.07, depth: 5.87 },
      tolerance: 0.01,
      source: 'cone of 3.07 mm as ISO 6411 lists it, from memory; pilot and body: list of ISO 866 held apart',
    },
  ],
};

export const CENTRE_DRILL_FORMULAS: readonly Formula[] = [centreDrill];
