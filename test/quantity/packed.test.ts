/** Quantities put away in few arrays come out as they were put in. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asInput } from '../../src/quantity/limits';
import { PackedQuantities } from '../../src/quantity/packed';
import { add, divide, multiply, power } from '../../src/quantity/arithmetic';
import { unit } from '../../src/quantity/units';
import { type Quantity, type Value, isFault } from '../../src/quantity/value';
import { input, ok, q } from './make';

const symbols = fc.constantFrom('mm', 'in', '°C', 'N', '');
const size = fc.double({ min: 1, max: 100, noNaN: true });

/** Sizes with limits, the nominal not always between them, and what two of them come to. */
const moved: fc.Arbitrary<Quantity> = fc
  .record({ symbol: symbols, first: size, low: size, high: size, second: fc.option(size, { nil: null }) })
  .map(({ symbol, first, low, high, second }) => {
    const one = input(7, first, Math.min(low, high), Math.max(low, high), symbol);
    if (second === null) return one;
    const both = multiply(one, input(9, second, second - 0.5, second + 0.25, 'mm'));
    return isFault(both) ? one : both;
  });

describe('packed quantities', () => {
  it('come out as they were put in, each at its place', () => {
    fc.assert(
      fc.property(fc.array(moved, { maxLength: 40 }), (quantities) => {
        const packed = new PackedQuantities();
        const withLimits = quantities.filter(({ spread }) => spread !== null);
        expect(withLimits.map((each) => packed.add(each))).toEqual(withLimits.map((_, i) => i));
        expect(withLimits.map((_, i) => packed.at(i))).toEqual(withLimits);
        expect(withLimits.map((_, i) => packed.firstInput(i))).toEqual(
          withLimits.map(({ spread }) => spread?.[0]?.input),
        );
      }),
    );
  });

  it('are inputs of their own as `asInput` makes them', () => {
    const end = fc.constantFrom(-0.5, -0.25, 0, 0.25, 0.5);
    fc.assert(
      fc.property(moved, end, end, (nominal, below, above) => {
        const packed = new PackedQuantities();
        const [low, high] = [nominal.value + below, nominal.value + above];
        const wanted = asInput(nominal, 3, low, high);
        const place = packed.addInput(nominal, 3, { low, high });
        expect(place).toBe(wanted.spread === null ? -1 : 0);
        if (place === 0) expect(packed.at(0)).toEqual(wanted);
      }),
    );
  });

  it('are those with limits whose ends are all there is to them', () => {
    const packed = new PackedQuantities();
    const around = input(1, 1, -2, 3);
    const turning = ok(power(around, q(2)));
    expect(turning.spread?.[0]?.at).toHaveLength(3);
    const others: Value[] = [
      q(5, 'mm'),
      turning,
      { kind: 'text', text: 'brass' },
      { kind: 'list', items: [around] },
      { kind: 'record', of: 'x', fields: new Map() },
      { ...around, unit: unit('mm') },
      // As evenly spread as if nobody had said where, but said.
      { ...around, spread: [{ input: 1, at: [-2, 3], along: [], inside: true }] },
    ];
    expect(others.map((each) => packed.add(each))).toEqual(others.map(() => -1));
    expect(packed.add(ok(add(around, q(1))))).toBe(0);
    expect(packed.add(ok(divide(around, q(2))))).toBe(1);
    expect(packed.at(1)).toEqual(ok(divide(around, q(2))));
  });
});
