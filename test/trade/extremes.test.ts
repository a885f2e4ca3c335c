/** Between its ends, a result turns round only where its formula says so. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { allFormulas } from '../../src/trade';
import { isRefusal } from '../../src/trade/formula';
import { type Arguments, broken, callOf, given } from './given';

const CASES = allFormulas().flatMap((formula) =>
  formula.checks.flatMap(({ call }) =>
    formula.parameters
      .filter((p) => p.kind === 'quantity' && typeof callOf(call).args[p.name] === 'number')
      .map((p) => [call, p.name] as const),
  ),
);

/** The largest part of itself by which limits may reach: far more than a shop's. */
const WIDEST = 0.2;

it.each(CASES)('%s, over %s', (call, parameter) => {
  const { formula, args } = callOf(call);
  const nominal = Number(args[parameter]);
  const at = (x: number): Arguments => ({ ...args, [parameter]: x });
  const value = (x: number, field: string): number => {
    const result = formula.compute(given(at(x)));
    if (typeof result !== 'object') return Number(result);
    return isRefusal(result) ? NaN : Number(result[field]);
  };
  const refused = (x: number): boolean => {
    const result = formula.compute(given(at(x)));
    return typeof result === 'object' && isRefusal(result);
  };
  const fields = formula.result.filter(
    ({ words, choice, list }) => !words && !choice && !list && formula.name !== 'angular_indexing',
  );
  const choices = formula.result.filter(({ choice }) => choice);
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0, max: WIDEST, noNaN: true }),
      (part, width) => {
        const [low, high] = [nominal * (1 - width), nominal * (1 + width) + 1e-3];
        const inside = low + (high - low) * part;
        if ([low, inside, high].some((x) => broken(formula, at(x)).length > 0)) return;
        // Where it has no answer at a limit, that is told.
        if ([low, inside, high].some((x) => refused(x))) return;
        // A figure may jump where a choice does, and a choice that differs at a limit is told.
        const chosen = (x: number): number[] => choices.map(({ name }) => value(x, name));
        if (chosen(low).join() !== chosen(high).join()) return;
        const turns = (formula.extremes?.[parameter]?.(given(args)) ?? []).filter((x) => low < x && x < high);
        for (const { name } of fields) {
          const reached = [low, nominal, high, ...turns].map((x) => value(x, name));
          const slack = 1e-9 * Math.max(1, ...reached.map(Math.abs));
          expect(value(inside, name), name).toBeGreaterThanOrEqual(Math.min(...reached) - slack);
          expect(value(inside, name), name).toBeLessThanOrEqual(Math.max(...reached) + slack);
        }
      },
    ),
  );
});
