/** Best lines and circles through readings: the sum of the squared misses is as small as it can be. */

/** Bundles and tests resolve this at build time; mathjs is read at the first fit and not before. */
declare const require: (id: string) => unknown;

/**
 * The values for which the rows come as near to `right` as they can. Each row holds the factors of the unknowns in one
 * equation. Null where there are no finite ones.
 */
export function leastSquares(
  rows: readonly (readonly number[])[],
  right: readonly number[],
): readonly number[] | null {
  const { solved } = require('./linear-algebra') as typeof import('./linear-algebra');
  const unknowns = [...(rows[0] ?? []).keys()];
  const sum = (term: (row: readonly number[], i: number) => number): number =>
    rows.reduce((total, row, i) => total + term(row, i), 0);
  const normal = unknowns.map((a) => unknowns.map((b) => sum((row) => (row[a] ?? 0) * (row[b] ?? 0))));
  const sides = unknowns.map((a) => sum((row, i) => (row[a] ?? 0) * (right[i] ?? 0)));
  try {
    const found = solved(normal, sides);
    // What is no number in the sums would come out as nought.
    return [...normal.flat(), ...sides, ...found].every(Number.isFinite) ? found : null;
  } catch {
    return null;
  }
}

export function mean(of: readonly number[]): number {
  return of.reduce((total, x) => total + x, 0) / of.length;
}

export interface Line {
  /** Rise per unit of position. */
  readonly slope: number;
  /** Value at position 0. */
  readonly at_zero: number;
}

/** The line that values follow along their positions; null where all positions are the same. */
export function bestLine(positions: readonly number[], values: readonly number[]): Line | null {
  const middle = mean(positions);
  if (positions.every((position) => position === positions[0])) return null;
  const found = leastSquares(
    positions.map((position) => [position - middle, 1]),
    values,
  );
  if (!found) return null;
  const [slope = 0, at_middle = 0] = found;
  return { slope, at_zero: at_middle - slope * middle };
}

export interface Circle {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** Rounds after which a fit that has not come to rest is given up. */
const MOST_ROUNDS = 100;
/** A step of this part of the radius no longer moves the last digit anybody reads; rounding alone makes smaller ones. */
const AT_REST = 1e-11;
/** Points whose spread across their line is less than this part of that along it give no circle. */
const FLAT = 1e-5;

/**
 * The circle from which the points lie as little off as can be, measured towards its centre (ISO 12181-1 calls
 * it the least-squares reference circle); null where they lie on a line or on one spot, or so far off any circle that
 * none is found.
 */
export function bestCircle(xs: readonly number[], ys: readonly number[]): Circle | null {
  const [x0, y0] = [mean(xs), mean(ys)];
  const points = xs.map((x, i) => [x - x0, (ys[i] ?? NaN) - y0] as const);
  if (flat(points)) return null;
  // The equation of a circle is linear in twice the centre and in one number more, which makes a good first guess.
  const first = leastSquares(
    points.map(([x, y]) => [2 * x, 2 * y, 1]),
    points.map(([x, y]) => x * x + y * y),
  );
  if (!first) return null;
  const [guess_x = NaN, guess_y = NaN, rest = NaN] = first;
  let [x, y, radius] = [guess_x, guess_y, Math.sqrt(rest + guess_x ** 2 + guess_y ** 2)];
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const far = points.map(([px, py]) => Math.hypot(px - x, py - y));
    const step = leastSquares(
      points.map(([px, py], i) => [(px - x) / (far[i] ?? NaN), (py - y) / (far[i] ?? NaN), 1]),
      far.map((d) => d - radius),
    );
    if (!step) return null;
    const [dx = NaN, dy = NaN, dr = NaN] = step;
    [x, y, radius] = [x + dx, y + dy, radius + dr];
    if (Math.hypot(dx, dy, dr) <= AT_REST * radius) return { x: x + x0, y: y + y0, radius };
  }
  return null;
}

/** Whether points, about their mean, spread along one line only. */
function flat(points: readonly (readonly [number, number])[]): boolean {
  const sum = (term: (x: number, y: number) => number): number =>
    points.reduce((total, [x, y]) => total + term(x, y), 0);
  const [xx, xy, yy] = [sum((x) => x * x), sum((x, y) => x * y), sum((_, y) => y * y)];
  const apart = Math.hypot(xx - yy, 2 * xy);
  return xx + yy - apart <= FLAT ** 2 * (xx + yy + apart);
}
