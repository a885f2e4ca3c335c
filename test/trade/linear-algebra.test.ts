/** Equations solved with the small part of mathjs that is bundled, against the whole of mathjs. */
import fc from 'fast-check';
import { lusolve } from 'mathjs';
import { expect, it } from 'vitest';
import { solved } from '../../src/trade/linear-algebra';

it('solves what the whole library solves, whatever order its rows are taken in', () => {
  const number = fc.integer({ min: -99, max: 99 }).map((n) => n / 7);
  const system = fc
    .integer({ min: 1, max: 5 })
    .chain((n) =>
      fc.tuple(
        fc.array(fc.array(number, { minLength: n, maxLength: n }), { minLength: n, maxLength: n }),
        fc.array(number, { minLength: n, maxLength: n }),
      ),
    );
  let compared = 0;
  fc.assert(
    fc.property(system, ([matrix, right]) => {
      let wanted: number[];
      try {
        wanted = (lusolve(matrix, right) as number[][]).flat();
      } catch {
        expect(() => solved(matrix, right)).toThrow();
        return;
      }
      compared++;
      solved(matrix, right).forEach((x, i) =>
        expect(Math.abs(x - (wanted[i] ?? NaN))).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(x))),
      );
    }),
  );
  expect(compared).toBeGreaterThan(20);
});

it('takes rows in another order where it must', () => {
  // Rows in a ring: the first unknown stands in the last row only.
  expect(solved([[0, 1, 0], [0, 0, 1], [1, 0, 0]], [2, 3, 1])).toEqual([1, 2, 3]); // prettier-ignore
});
