/** Holes in rows and columns, as coordinates for the readout. */
import {
  count,
  degrees,
  field,
  firstItems,
  length,
  listed,
  must,
  numbered,
  optional,
  quantity,
  radians,
} from './build';
import type { Formula, Given } from './formula';
import { type Place, crossings, enough } from './hole-patterns';

const COLUMNS = count('columns', 'holes along the first direction');
const ROWS = count('rows', 'rows of them');
const PITCH_X = length('pitch_x', 'distance from column to column; negative goes the other way');
const PITCH_Y = length('pitch_y', 'distance from row to row; negative goes the other way');
const FIRST_X = optional(length('first_x', 'readout of X over the first hole; zero when left out'));
const FIRST_Y = optional(length('first_y', 'readout of Y over the first hole; zero when left out'));
const TURNED = optional(quantity('turned', '°', 'how far the grid is turned, from the X axis towards Y'));

function grid(given: Given, turned = given.numberOr('turned', 0)): readonly Place[] {
  const [columns, rows] = [given.number('columns'), given.number('rows')];
  const [sin, cos] = [Math.sin(radians(turned)), Math.cos(radians(turned))];
  return Array.from({ length: columns * rows }, (_, i) => {
    const [along, up] = [
      (i % columns) * given.number('pitch_x'),
      Math.floor(i / columns) * given.number('pitch_y'),
    ];
    return {
      x: given.numberOr('first_x', 0) + along * cos - up * sin,
      y: given.numberOr('first_y', 0) + along * sin + up * cos,
    };
  });
}

const holeGrid: Formula = {
  name: 'hole_grid',
  family: 'probing',
  title: 'Coordinates of holes in rows and columns',
  parameters: [COLUMNS, ROWS, PITCH_X, PITCH_Y, FIRST_X, FIRST_Y, TURNED],
  result: [
    numbered('hole', 'number of the hole, row by row, each row from its first column'),
    listed('x', 'mm', 'readout of X over it'),
    listed('y', 'mm', 'readout of Y over it'),
    field('diagonal', 'mm', 'straight distance from the first hole to the last, to measure'),
  ],
  compute: (given) => {
    const places = grid(given);
    return {
      hole: places.map((_, i) => i + 1),
      x: places.map(({ x }) => x),
      y: places.map(({ y }) => y),
      diagonal: Math.hypot(
        (given.number('columns') - 1) * given.number('pitch_x'),
        (given.number('rows') - 1) * given.number('pitch_y'),
      ),
    };
  },
  working: (given) => {
    const [columns, holes] = [given.number('columns'), given.number('columns') * given.number('rows')];
    const turned = given.has('turned') ? 'turned' : '0°';
    const item = (axis: 'x' | 'y') => (i: number) => {
      const [along, up] = [`${i % columns} * pitch_x`, `${Math.floor(i / columns)} * pitch_y`];
      const first = given.has(`first_${axis}`) ? `first_${axis} + ` : '';
      return axis === 'x'
        ? `${first}${along} * cos(${turned}) - ${up} * sin(${turned})`
        : `${first}${along} * sin(${turned}) + ${up} * cos(${turned})`;
    };
    return [
      {
        name: 'hole',
        expression: firstItems(holes, (i) => String(i + 1)),
        words: 'hole by hole, row by row',
      },
      {
        name: 'x',
        expression: firstItems(holes, item('x')),
        words: 'so many pitches along and up, turned with the grid',
      },
      {
        name: 'y',
        expression: firstItems(holes, item('y')),
        words: 'so many pitches along and up, turned with the grid',
      },
      {
        name: 'diagonal',
        expression: 'hypot((columns - 1) * pitch_x, (rows - 1) * pitch_y)',
        words: 'across the corners, by Pythagoras',
      },
    ];
  },
  why:
    'Every place is counted from the first hole and not from its neighbour, so errors do not add up. Each row begins at the ' +
    'same end, so that a machine without a readout comes to every hole from the same side. The diagonal shows at once ' +
    'whether the grid is square.',
  conditions: [
    enough('columns', '`columns` and `rows`', (given) => given.number('columns') * given.number('rows')),
    must(
      'pitch_x',
      'columns lie apart',
      (given) => given.number('columns') === 1 || given.number('pitch_x') !== 0,
      () => 'Columns 0 mm apart are one column: give a pitch, or one column.',
    ),
    must(
      'pitch_y',
      'rows lie apart',
      (given) => given.number('rows') === 1 || given.number('pitch_y') !== 0,
      () => 'Rows 0 mm apart are one row: give a pitch, or one row.',
    ),
  ],
  source: 'geometry: a grid turned about its first hole',
  cautions: ['drilling', 'measuring'],
  picture: null,
  checks: [
    {
      call: 'hole_grid(3, 2, 20 mm, 15 mm, first_x: 5 mm, first_y: 8 mm)',
      expect: {
        hole: [1, 2, 3, 4, 5, 6],
        x: [5, 25, 45, 5, 25, 45],
        y: [8, 8, 8, 23, 23, 23],
        diagonal: 42.7200187266,
      },
      tolerance: 1e-9,
      source: 'counted on squared paper; the diagonal is the root of 1825',
    },
    {
      call: 'hole_grid(2, 2, 30 mm, -10 mm, first_x: 100 mm, turned: 36.8698976458°)',
      expect: { x: [100, 124, 106, 130], y: [0, 18, -8, 10], diagonal: 31.6227766017 },
      tolerance: 1e-7,
      source: 'the 3-4-5 triangle: 30 along is 24 and 18, 10 across is 6 and 8',
    },
  ],
  extremes: {
    turned: (given) => {
      const slopes = grid(given, 0);
      const [x, y] = [given.numberOr('first_x', 0), given.numberOr('first_y', 0)];
      return crossings(
        given.numberOr('turned', 0),
        slopes.map((place) => degrees(Math.atan2(place.y - y, place.x - x))),
      );
    },
  },
};

export const GRID_FORMULAS: readonly Formula[] = [holeGrid];
