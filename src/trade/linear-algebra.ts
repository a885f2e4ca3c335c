/** mathjs, with the one function that is needed of it. Read on first use: see `least-squares.ts`. */
import { type FactoryFunctionMap, create, lusolveDependencies } from 'mathjs';

const { lusolve } = create(lusolveDependencies as FactoryFunctionMap);

/** The solution of as many equations as there are unknowns; throws where they do not determine it. */
export function solved(matrix: readonly (readonly number[])[], right: readonly number[]): readonly number[] {
  const found: unknown = lusolve(
    matrix.map((row) => [...row]),
    [...right],
  );
  return Array.isArray(found) ? found.flat().map(Number) : [];
}
