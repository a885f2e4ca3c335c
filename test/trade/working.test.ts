/** The working in the notation, evaluated by the engine, against the same formula in plain numbers. */
import { expect, it } from 'vitest';
import { calculateLines } from '../../src/engine/index';
import { fromBase } from '../../src/quantity/unit';
import { unit } from '../../src/quantity/units';
import { FORMULAS } from '../../src/trade';
import { answer, callOf, given } from './given';

const CALLS = FORMULAS.flatMap(({ checks }) => checks.map(({ call }) => call));

it.each(CALLS)('%s', (call) => {
  const { formula, args } = callOf(call);
  const inputs = formula.parameters.flatMap(({ name, unit: text, kind }) => {
    const value = args[name];
    return typeof value === 'number' ? [`${name} = ${value}${kind === 'quantity' ? ` ${text}` : ''}`] : [];
  });
  const steps = formula
    .working(given(args))
    .map(({ name, expression }) => `${name || 'outcome'} = ${expression}`);
  const sheet = calculateLines([...inputs, ...steps].join('\n'));
  expect(sheet.findings().map(({ code }) => code)).toEqual([]);
  const expected = answer(formula.name, args);
  const rows = new Map(
    sheet
      .rows()
      .flatMap(({ statement, value }) => (statement.kind === 'figure' ? [[statement.name.text, value]] : [])),
  );
  for (const field of formula.result.filter(({ words }) => !words)) {
    const got = rows.get(field.name || 'outcome');
    if (got?.kind !== 'number') throw new Error(`no ${field.name}`);
    const own = unit(field.unit);
    expect(got.dimension).toBe(own.dimension);
    const wanted = Number(expected[field.name]);
    expect(Math.abs(fromBase(got.value, own) - wanted)).toBeLessThanOrEqual(
      1e-9 * Math.max(1, Math.abs(wanted)),
    );
  }
});
