/** The working in the notation, evaluated by the engine, against the same formula in plain numbers. */
import { expect, it } from 'vitest';
import { calculateLines } from '../../src/engine/index';
import { fromBase } from '../../src/quantity/unit';
import { unit } from '../../src/quantity/units';
import { allFormulas } from '../../src/trade';
import { FIRST_ITEMS } from '../../src/trade/build';
import { answer, callOf, given } from './given';

const CALLS = allFormulas().flatMap(({ checks }) => checks.map(({ call }) => call));

it.each(CALLS)('%s', (call) => {
  const { formula, args } = callOf(call);
  const inputs = formula.parameters.flatMap(({ name, unit: text, kind }) => {
    const value = args[name];
    return typeof value === 'number'
      ? [`${name} = ${value}${kind === 'quantity' ? ` ${text.replace('¤', 'AUD')}` : ''}`]
      : [];
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
    const value = rows.get(field.name || 'outcome');
    const got = value?.kind === 'list' && field.list ? value.items : [value];
    const all = [expected[field.name] ?? NaN].flat().map(Number);
    // A list's working shows its first items.
    expect(got.length, field.name).toBe(field.list ? Math.min(all.length, FIRST_ITEMS) : 1);
    const own = unit(field.unit.replace('¤', 'AUD'));
    got.forEach((item, i) => {
      if (item?.kind !== 'number') throw new Error(`no ${field.name}`);
      expect(item.dimension).toBe(own.dimension);
      const wanted = all[i] ?? NaN;
      expect(Math.abs(fromBase(item.value, own) - wanted)).toBeLessThanOrEqual(
        1e-9 * Math.max(1, Math.abs(wanted)),
      );
    });
  }
});
