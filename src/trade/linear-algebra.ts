/**
 * mathjs, with the little that is needed of it: LU decomposition with its two substitutions, on plain numbers. Its large
 * and exact kinds of number would treble what it weighs. Read on first use: see `least-squares.ts`.
 */
import {
  type FactoryFunctionMap,
  create,
  createDenseMatrixClass,
  createLsolve,
  createLup,
  createMatrix,
  createMatrixClass,
  createUsolve,
  factory,
} from 'mathjs';
import {
  absDependencies,
  addScalarDependencies,
  divideScalarDependencies,
  equalScalarDependencies,
  largerDependencies,
  multiplyScalarDependencies,
  smallerDependencies,
  subtractScalarDependencies,
  typedDependencies,
  unaryMinusDependencies,
} from 'mathjs/number';

/** What mathjs exports without saying so in its types. */
declare module 'mathjs' {
  const createDenseMatrixClass: unknown;
  const createLsolve: unknown;
  const createLup: unknown;
  const createMatrix: unknown;
  const createMatrixClass: unknown;
  const createUsolve: unknown;
  const subtractScalarDependencies: FactoryFunctionMap;
}

/** Sparse matrices are asked for by name and never made here, so that they need not be shipped. */
const neverMade = (name: string): unknown => factory(name, [], () => Object);

const { lup, lsolve, usolve } = create({
  ...typedDependencies,
  ...absDependencies,
  ...addScalarDependencies,
  ...divideScalarDependencies,
  ...equalScalarDependencies,
  ...largerDependencies,
  ...multiplyScalarDependencies,
  ...smallerDependencies,
  ...subtractScalarDependencies,
  ...unaryMinusDependencies,
  createMatrixClass,
  createDenseMatrixClass,
  createSparseMatrixClass: neverMade('SparseMatrix'),
  createSpaClass: neverMade('Spa'),
  createMatrix,
  createLup,
  createLsolve,
  createUsolve,
} as FactoryFunctionMap);

interface Triangles {
  readonly L: number[][];
  readonly U: number[][];
  /** The order in which the rows were taken. */
  readonly p: readonly number[];
}

/** The solution of as many equations as there are unknowns; throws where they do not determine it. */
export function solved(matrix: readonly (readonly number[])[], right: readonly number[]): readonly number[] {
  const { L, U, p } = lup(matrix.map((row) => [...row])) as unknown as Triangles;
  const half = lsolve(
    L,
    right.map((_, i) => [right[p.indexOf(i)] ?? NaN]),
  );
  return (usolve(U, half) as number[][]).flat();
}
