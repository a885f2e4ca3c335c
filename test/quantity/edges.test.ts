/** Small differences that decide: one side of a rule each, with its neighbour. */
import { describe, expect, it } from 'vitest';
import { add, divide, mismatch, multiply, negate, power, subtract } from '../../src/quantity/arithmetic';
import { convert } from '../../src/quantity/convert';
import { band } from '../../src/quantity/limits';
import { unit } from '../../src/quantity/units';
import { type Fault, type Quantity, isFault } from '../../src/quantity/value';
import { amountOf, codeOf, input, ok, q } from './make';

const ends = (made: Quantity | Fault): [number, number] | null => {
  const found = band(ok(made));
  return found && [found.low, found.high];
};

describe('percentages and temperatures', () => {
  it.each([
    [add(q(2), q(5, '%')), 'percent-of-what'],
    [add(q(5, '%'), q(2)), 'percent-of-what'],
    [add(q(5, '%'), q(10, 'mm')), 'percent-of-what'],
    [subtract(q(20, '°C'), q(1, 'mm')), 'unit-mismatch'],
    [multiply(q(20, '°C'), q(2, 'mm')), 'temperature-scaled'],
    [multiply(q(2, 'mm'), q(20, '°C')), 'temperature-scaled'],
  ])('do not mix: case %#', (made, code) => expect(codeOf(made)).toBe(code));

  it('but compare', () => {
    for (const operator of ['<', '==', '..']) expect(mismatch(q(5, '%'), q(2), operator)).toBeNull();
  });
});

describe('money beyond bounds', () => {
  it.each([
    [multiply(q(1, 'AUD*mm^12'), q(1, 'mm')), 'dimension-out-of-range'],
    [multiply(q(1, 'mm'), q(1, 'AUD*mm^12')), 'dimension-out-of-range'],
    [multiply(q(1, 'AUD*mm^12'), q(1, 'AUD*mm')), 'dimension-out-of-range'],
    [multiply(q(1, 'AUD*mm^12'), q(1, 'NZD*mm')), 'currencies-mixed'],
  ])('is told from mixed money: case %#', (made, code) => expect(codeOf(made)).toBe(code));
});

describe('a divisor with limits', () => {
  const by = (low: number, nominal: number, high: number) => divide(q(12), input(1, nominal, low, high));
  it('may lie on either side of zero', () => {
    expect(ends(by(2, 3, 4))).toEqual([3, 6]);
    expect(ends(by(-4, -3, -2))).toEqual([-6, -3]);
    expect(ends(by(-0.6, -0.5, -0.4))).toEqual([-30, -20]);
  });
  it.each([
    [0, 1, 2],
    [-2, -1, 0],
    [-1, 0.5, 1],
    [-0.5, 0.5, 0.75],
  ])('does not reach zero: %d to %d to %d', (low, nominal, high) => {
    expect(codeOf(by(low, nominal, high))).toBe('fails-at-limit');
  });
});

it('a sign turned leaves no minus before a zero', () => {
  expect(ok(negate(input(1, 1, 0, 2))).spread?.[0]?.at).toEqual([0, -2]);
});

describe('a power with limits', () => {
  it('takes them from the base, the exponent, or both', () => {
    expect(ends(power(q(2), input(1, 2, 1, 3)))).toEqual([2, 8]);
    expect(ends(power(q(2), input(1, -1, -2, 0)))).toEqual([0.25, 1]);
    expect(codeOf(power(q(2, 'mm'), input(1, 2, 1, 3)))).toBe('exponent-with-limits');
    expect(codeOf(power(input(1, 1, -1, 2), input(2, -2, -3, -1)))).toBe('fails-at-limit');
    expect(amountOf(power(q(20, '°C'), q(1)))).toEqual([20, '°C']);
    const both = input(1, 2, 1, 3);
    expect(ends(power(both, both))).toEqual([1, 27]);
  });
  it('turns round at zero for whole even exponents only', () => {
    const x = input(1, -1, -2, 1);
    expect(ends(power(x, q(2)))).toEqual([0, 4]);
    expect(ends(power(x, q(3)))).toEqual([-8, 1]);
    expect(ends(power(x, q(0)))).toBeNull();
    expect(codeOf(power(x, q(-1)))).toBe('fails-at-limit');
    expect(codeOf(power(x, q(-2)))).toBe('fails-at-limit');
    expect(codeOf(power(x, q(0.5)))).toBe('root-of-negative');
    expect(ends(power(input(1, 1, 0, 4), q(0.5)))).toEqual([0, 2]);
    expect(ends(power(input(1, -2, -4, -1), q(-1)))).toEqual([-1, -0.25]);
  });
});

describe('to', () => {
  const to = (amount: number, from: string, symbol: string) => convert(q(amount, from), unit(symbol));
  it.each([
    [to(1, 'kg', 'm/min'), 'unit-mismatch'],
    [to(1, 'mm*rev/min', 'kg'), 'unit-mismatch'],
    [to(1, 'mm/rev', 'kg/deg'), 'unit-mismatch'],
    [to(20, '°C', 'mm'), 'unit-mismatch'],
    [to(1, 'mm', '°C'), 'unit-mismatch'],
    [to(1, 'mm', 'AUD'), 'unit-mismatch'],
    [to(1, 'AUD', 'AUD/mm'), 'unit-mismatch'],
    [to(1, 'mm*rev', 'kg'), 'unit-mismatch'],
    [to(1, 'mm*deg', 'kg'), 'unit-mismatch'],
    [to(1, 'mm*rev', 'kg*deg'), 'unit-mismatch'],
  ])('refuses what no turn or angle explains: case %#', (made, code) => expect(codeOf(made)).toBe(code));

  it.each([
    [to(1, 'N*m*rev/min', 'W'), 'shaft_power'],
    [to(1, 'N*m*rev^2/min', 'W'), null],
    [to(1, 'N*m*rev/min', 'N*m/min*rev^2'), null],
    [to(1, 'kW/rpm', 'N*m'), 'shaft_torque'],
    [to(1, 'kW/rpm', 'N*m/rev^2'), null],
    [to(1, 'N*m/rev^2', 'N*m'), null],
    [to(1, 'mm*deg', 'mm'), 'arc_length'],
    [to(1, 'mm*deg', 'mm*deg^2'), null],
    [to(1, 'mm/deg', 'mm'), null],
  ])('names the formula that makes the step, and no other: case %#', (made, formula) => {
    if (!isFault(made)) return expect.fail('converted');
    expect(made.code).toMatch(/-would-change$/);
    expect(made.data['formula']).toBe(formula);
  });

  it('counts a turn as one in a speed, not in what only looks like it', () => {
    expect(amountOf(to(3000, 'mm*rev/min', 'm/min'))).toEqual([3, 'm/min']);
    expect(codeOf(to(1, 'mm*rev^2/min', 'm/min'))).toBe('turn-would-change');
  });
});
