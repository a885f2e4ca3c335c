import { describe, expect, it } from 'vitest';
import { FORMULAS, formulaNamed } from '../../src/trade';
import { answer, broken, callOf } from './given';

describe.each(FORMULAS.map((formula) => [formula.name, formula] as const))('%s', (_, formula) => {
  it('is documented', () => {
    expect(formula.checks.length).toBeGreaterThanOrEqual(2);
    for (const text of [formula.title, formula.why, formula.source]) expect(text.length).toBeGreaterThan(10);
    for (const { meaning } of [...formula.parameters, ...formula.result])
      expect(meaning.length).toBeGreaterThan(3);
    for (const check of formula.checks) expect(check.source).not.toBe('');
    expect(formulaNamed(formula.name)).toBe(formula);
  });

  it.each(formula.checks.map((check) => [check.call, check] as const))('%s', (call, check) => {
    const { args } = callOf(call);
    expect(broken(formula, args)).toEqual([]);
    const result = answer(formula.name, args);
    expect(Object.keys(result).sort()).toEqual(formula.result.map((field) => field.name).sort());
    for (const [field, expected] of Object.entries(check.expect)) {
      const value = result[field];
      if (typeof expected === 'string' || typeof value !== 'number') expect(value).toBe(expected);
      else expect(Math.abs(value - expected), `${field} is ${value}`).toBeLessThanOrEqual(check.tolerance);
    }
  });
});
