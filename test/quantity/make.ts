/** Shorthands for the tests of this room. */
import { expect } from 'vitest';
import { quantity } from '../../src/quantity/arithmetic';
import { asInput } from '../../src/quantity/limits';
import { fromBase, toBase } from '../../src/quantity/unit';
import { unit } from '../../src/quantity/units';
import { type Fault, type Quantity, isFault } from '../../src/quantity/value';

/** `q(30, 'mm')` is 30 mm. */
export function q(amount: number, symbol = ''): Quantity {
  return quantity(toBase(amount, unit(symbol)), unit(symbol));
}

/** A toleranced input: `input(1, 30, 29.9, 30.1, 'mm')`. */
export function input(serial: number, amount: number, low: number, high: number, symbol = ''): Quantity {
  const u = unit(symbol);
  return asInput(q(amount, symbol), serial, toBase(low, u), toBase(high, u));
}

/** The quantity, or the test fails with the fault's code. */
export function ok(made: Quantity | Fault): Quantity {
  if (isFault(made)) expect.fail(`${made.code} ${JSON.stringify(made.data)}`);
  return made;
}

/** The amount in its own unit and the unit, for comparing: `[90, 'mm/min']`. */
export function amountOf(made: Quantity | Fault): [number, string] {
  const { value, unit: u } = ok(made);
  return [Number(fromBase(value, u).toPrecision(12)), u.symbol];
}

/** The code of a fault, or the value when it is none. */
export function codeOf(made: Quantity | Fault): string {
  return isFault(made) ? made.code : `no fault: ${amountOf(made).join(' ')}`;
}
