/** Values in a few words: digits, limits as drawings write them, and two figures side by side. */
import { describe, expect, it } from 'vitest';
import {
  bare,
  capital,
  deviations,
  differenceOf,
  limitsOfSize,
  otherWays,
  pair,
  shown,
  shownIn,
  valueText,
} from '../../src/engine/wording';
import { workedOut } from '../../src/engine/working';
import type { Quantity } from '../../src/quantity/value';

function q(text: string): Quantity {
  const value = workedOut(text);
  if (value?.kind !== 'number') throw new Error(`no number: ${text}`);
  return value;
}

describe('a figure', () => {
  it.each([
    ['0.1234567 mm', ['0.123 mm', '0.1235 mm', '0.123457 mm']],
    ['1/3 in', ['0.3333 in', '0.33333 in', '0.3333333 in']],
    ['300.4 rpm', ['300 rpm', '300.4 rpm', '300.4 rpm']],
    ['12.5083333°', ['12.508°', '12.5083°', '12.508333°']],
    // A sum of money keeps its coins.
    ['15.5 AUD', ['15.50 AUD', '15.5 AUD', '15.5 AUD']],
    // Plain numbers have six figures.
    ['1234567.891', ['1234568', '1234567.9', '1234567.891']],
    ['0.00012345678', ['0.000123457', '0.0001234568', '0.00012345678']],
    ['12345.678', ['12345.7', '12345.68', '12345.678']],
    ['0', ['0', '0', '0']],
  ])('%s is shown with no, one and three digits more', (text, texts) => {
    expect([0, 1, 3].map((extra) => shown(q(text), extra))).toEqual(texts);
    expect(shown(q(text))).toBe(texts[0]);
  });

  it('is shown in another unit', () => {
    expect(shownIn(q('25.4 mm'), q('1 in').unit)).toBe('1 in');
    expect(shownIn(q('1/3 mm'), q('1 in').unit, 2)).toBe('0.013123 in');
    expect(valueText({ kind: 'list', items: [q('1 mm'), q('2 mm')] })).toBe('[1, 2] mm');
  });

  it.each([
    ['0.1234567 mm', '0.123', '0.12346'],
    ['300.4 rpm', '300', '300.4'],
    ['15.5 AUD', '15.50', '15.5'],
    ['12.5083333°', '12.508°', '12.50833°'],
  ])('%s without its unit is %s, and with two digits more %s', (text, without, more) => {
    expect([bare(q(text)), bare(q(text), 2)]).toEqual([without, more]);
  });

  it.each([
    ['25.4 mm', ['1 in']],
    ['1/3 in', ['8.467 mm']],
    ['20 °C', ['68 °F']],
    ['12.5083333°', ['12°30′30″']],
    ['300 rpm', []],
    ['3', []],
  ])('%s is also %s', (text, others) => {
    expect(otherWays(q(text))).toEqual(others);
  });
});

describe('limits', () => {
  it.each([
    ['30 mm', '29.95 mm', '30.05 mm', '±0.05', '29.95 … 30.05 mm'],
    ['30 mm', '29.99 mm', '30.02 mm', '+0.02/−0.01', '29.99 … 30.02 mm'],
    ['30 mm', '30 mm', '30.02 mm', '+0.02/0', '30 … 30.02 mm'],
    ['30 mm', '29.98 mm', '30 mm', '0/−0.02', '29.98 … 30 mm'],
    ['25 mm', '24.959 mm', '24.98 mm', '−0.02/−0.041', '24.959 … 24.98 mm'],
    ['30 mm', '30.02 mm', '30.02 mm', '+0.02/+0.02', '30.02 … 30.02 mm'],
    ['30 mm', '29.98 mm', '29.98 mm', '−0.02/−0.02', '29.98 … 29.98 mm'],
    ['30 mm', '29 mm', '31 mm', '±1', '29 … 31 mm'],
    ['0 mm', '-0.1 mm', '0.1 mm', '±0.1', '-0.1 … 0.1 mm'],
    ['1 in', '0.9995 in', '1.0005 in', '±0.0005', '0.9995 … 1.0005 in'],
    ['1 in', '0.99999 in', '1.00001 in', '±0.00001', '0.99999 … 1.00001 in'],
    ['0', '-0.0012345', '0.0012345', '±0.00123', '-0.0012345 … 0.0012345'],
    ['30°', '29.5°', '30.5°', '±0.5°', '29.5° … 30.5°'],
    ['30°', '29°', '30°', '0/−1°', '29° … 30°'],
    // Of two temperatures the difference is none.
    ['20 °C', '15 °C', '22 °C', '+2/−5', '15 … 22 °C'],
    // More digits only where neither side would show.
    ['30 mm', '29.99999 mm', '30.00001 mm', '±0.00001', '29.99999 … 30.00001 mm'],
    ['30 mm', '29.9999999999 mm', '30.0000000001 mm', '±1e-10', '29.9999999999 … 30.0000000001 mm'],
    ['30 mm', '29.999999 mm', '30.01 mm', '+0.01/0', '30 … 30.01 mm'],
    ['30 mm', '29.99 mm', '30.000001 mm', '0/−0.01', '29.99 … 30 mm'],
    ['1/3 mm', '1/3 mm', '1/3 mm', '±0', '0.333 … 0.333 mm'],
    ['200 rpm', '199.6 rpm', '200.4 rpm', '±0.4', '199.6 … 200.4 rpm'],
  ])('%s from %s to %s are %s, and as sizes %s', (size, low, high, sides, sizes) => {
    const [from, to] = [q(low).value, q(high).value];
    expect([deviations(q(size), from, to), limitsOfSize(q(size), from, to)]).toEqual([sides, sizes]);
  });

  it('differ by no temperature', () => {
    const five = differenceOf(q('20 °C'), 5);
    expect([shown(five), five.unit.offset, five.dimension]).toEqual(['5 °C', 0, q('5 K').dimension]);
    expect(shown(differenceOf(q('20 in'), 25.4))).toBe('1 in');
  });
});

describe('two figures side by side', () => {
  it.each([
    ['30 mm', '30.5 mm', ['30 mm', '30.5 mm']],
    ['30 mm', '30.0001 mm', ['30 mm', '30.0001 mm']],
    ['30 mm', '1 in', ['30 mm', '25.4 mm']],
    ['1/3 mm', '0.4 mm', ['0.333 mm', '0.4 mm']],
    ['1/3 mm', '0.33331 mm', ['0.33333 mm', '0.33331 mm']],
    ['1/3 mm', '1/3 mm', ['0.333 mm', '0.333 mm']],
    ['1 mm', '1.000000000001 mm', ['1 mm', '1.000000000001 mm']],
    // Alike to the last digit that is looked at.
    ['1 mm', '1.0000000000001 mm', ['1 mm', '1 mm']],
  ])('%s and %s', (left, right, texts) => {
    expect(pair(q(left), q(right))).toEqual(texts);
  });
});

it('a sentence begins with a capital', () => {
  expect([capital('turn it'), capital('')]).toEqual(['Turn it', '']);
});
