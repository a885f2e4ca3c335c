import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { add, divide, multiply, negate, power, subtract, together } from '../../src/quantity/arithmetic';
import { asInput, band, shares } from '../../src/quantity/limits';
import { MATHEMATICS } from '../../src/quantity/mathematics';
import { type Fault, type Quantity, isFault } from '../../src/quantity/value';
import { codeOf, input, ok, q } from './make';

const call = (name: string, ...given: Quantity[]): Quantity | Fault =>
  MATHEMATICS.get(name)?.compute(given) ?? expect.fail(name);

/** Worst-case ends in base units. */
function ends(made: Quantity | Fault): [number, number] | null {
  const found = band(ok(made));
  return found && [found.low, found.high];
}

describe('limits travel', () => {
  const bore = input(1, 25, 25, 25.021, 'mm');
  const pin = input(2, 25, 24.98, 24.993, 'mm');

  it('as worst case per side and as root of the squares', () => {
    // By hand: clearance 0 nominal, 0.007 at the least and 0.041 at the most.
    const clearance = ok(subtract(bore, pin));
    const found = band(clearance);
    expect(found?.low).toBeCloseTo(0.007, 12);
    expect(found?.high).toBeCloseTo(0.041, 12);
    // The pin lies below its nominal for certain: that shift counts straight, the rest as a root of squares.
    expect(found?.rssLow).toBeCloseTo(0.007, 12);
    expect(found?.rssHigh).toBeCloseTo(0.007 + Math.hypot(0.021, 0.013), 12);
    const [first, second] = shares(clearance);
    expect(first?.input).toBe(1);
    expect(first?.share).toBeCloseTo(21 / 34, 9);
    expect(second?.share).toBeCloseTo(13 / 34, 9);
    expect(second?.shift).toBeCloseTo(0.007, 12);
  });

  it('and cancel where they must', () => {
    expect(ok(subtract(bore, bore))).toMatchObject({ value: 0, spread: null });
    expect(ok(divide(bore, bore))).toMatchObject({ value: 1, spread: null });
    const twice = ok(add(bore, bore));
    expect(ends(subtract(twice, bore))).toEqual([25, 25.021]);
    expect(ends(negate(bore))).toEqual([-25.021, -25]);
    expect(ok(negate(q(0))).value).toBe(0);
    const tied = ok(add(input(7, 1, 0.9, 1.1), input(3, 1, 0.9, 1.1)));
    expect(shares(tied).map((it) => it.input)).toEqual([3, 7]);
    expect(shares(q(1))).toEqual([]);
    expect(band(q(1))).toBeNull();
    expect(asInput(q(25, 'mm'), 1, 25, 25).spread).toBeNull();
  });

  it('through bends and turns that lie between the ends', () => {
    const x = input(1, 0.5, -1, 2);
    expect(ends(power(x, q(2)))).toEqual([0, 4]);
    expect(ends(multiply(x, x))).toEqual([0, 4]);
    expect(ends(call('abs', x))).toEqual([0, 2]);
    const [low, high] = ends(multiply(x, ok(subtract(q(1), x)))) ?? [];
    // x (1 - x) has its crest of a quarter at one half and -2 at both ends.
    expect(low).toBeCloseTo(-2, 12);
    expect(high).toBeCloseTo(0.25, 12);
    expect(ends(call('max', x, ok(subtract(q(1), x))))).toEqual([0.5, 2]);
    expect(ends(call('hypot', x, q(3)))?.[0]).toBe(3);
    expect(ends(call('sin', input(1, 80, 70, 100, 'deg')))?.[1]).toBe(1);
    expect(ends(call('cos', input(1, 350, 340, 10 + 360, 'deg')))?.[1]).toBe(1);
    expect(ends(call('cos', input(1, 0, -3600, 3600, 'deg')))).toEqual([-1, 1]);
  });

  it('along the input, so that a turn is compared at one place of it', () => {
    // sin(x) - sin(x) has no limits though sin turns round between the ends of x.
    const s = ok(call('sin', input(1, 80, 70, 120, 'deg')));
    expect(s.spread?.[0]?.at).toHaveLength(3);
    expect(ok(subtract(s, s))).toMatchObject({ value: 0, spread: null });
    // sin(x) + 0.1 x/1°: at the crest x is 90°, where both ends and the nominal are elsewhere.
    const x = input(1, 80, 70, 120, 'deg');
    const sum = ok(add(s, ok(multiply(ok(divide(x, q(1, 'deg'))), q(0.1)))));
    expect(sum.spread?.[0]?.at[2]).toBeCloseTo(1 + 9, 9);
    const [r] = s.spread ?? [];
    const [rx] = x.spread ?? [];
    if (!r || !rx) return expect.fail('no reach');
    expect(together([r, rx]).map((row) => row[1])).toEqual([70, 120, 90]);
  });

  it('through steps', () => {
    expect(ends(call('round', input(1, 2.4, 2.3, 2.6), q(1)))).toEqual([2, 3]);
    expect(ok(call('round', input(1, 2.2, 2.1, 2.3), q(1))).spread).toBeNull();
  });

  it('and fail where the result does', () => {
    const x = input(1, 1, -1, 2);
    expect(codeOf(divide(q(1), x))).toBe('fails-at-limit');
    expect(codeOf(divide(q(1), input(1, 1, 0, 2)))).toBe('fails-at-limit');
    expect(codeOf(power(x, q(-1)))).toBe('fails-at-limit');
    expect(codeOf(call('sqrt', x))).toBe('fails-at-limit');
    expect(codeOf(call('asin', input(1, 0.9, 0.8, 1.1)))).toBe('fails-at-limit');
    expect(codeOf(call('tan', input(1, 80, 70, 100, 'deg')))).toBe('fails-at-limit');
    expect(codeOf(call('atan2', input(1, 0.1, -0.1, 0.2), q(-1)))).toBe('fails-at-limit');
    expect(ends(divide(q(1), input(1, 2, 1, 4)))).toEqual([0.25, 1]);
  });

  it('from at most 64 inputs', () => {
    const sum = (n: number): Quantity | Fault =>
      Array.from({ length: n }, (_, i) => input(i + 1, 1, 0.9, 1.1)).reduce<Quantity | Fault>(
        (so, x) => (isFault(so) ? so : add(so, x)),
        q(0),
      );
    expect(ok(sum(64)).spread).toHaveLength(64);
    expect(codeOf(sum(65))).toBe('too-many-inputs');
  });
});

// --- properties ------------------------------------------------------------------------------------------------------

const amount = fc.integer({ min: 8, max: 800 }).map((n) => n / 8);
const part = fc.integer({ min: 0, max: 100 }).map((n) => n / 1e6);
/** An input of some size with limits of at most a ten-thousandth of it either way. */
const toleranced = (serial: number) =>
  fc
    .tuple(amount, part, part)
    .map(([x, below, above]) => ({ serial, x, low: x * (1 - below), high: x * (1 + above) }));
type Toleranced = { serial: number; x: number; low: number; high: number };
const three = fc.tuple(toleranced(1), toleranced(2), toleranced(3));

/** Expressions in three inputs without a bend in their range, in the room's operations and in plain numbers. */
type Of<T, R> = (a: T, b: T, c: T) => R;
const EXPRESSIONS: [string, Of<Quantity, Quantity | Fault>, Of<number, number>][] = [
  ['a+b-c', (a, b, c) => subtract(ok(add(a, b)), c), (a, b, c) => a + b - c],
  ['a*b/c', (a, b, c) => divide(ok(multiply(a, b)), c), (a, b, c) => (a * b) / c],
  ['(a+b)*c', (a, b, c) => multiply(ok(add(a, b)), c), (a, b, c) => (a + b) * c],
  ['a/(a+b)', (a, b) => divide(a, ok(add(a, b))), (a, b) => a / (a + b)],
  ['sqrt(a*b)', (a, b) => call('sqrt', ok(multiply(a, b))), (a, b) => Math.sqrt(a * b)],
  ['hypot(a,b)', (a, b) => call('hypot', a, b), (a, b) => Math.hypot(a, b)],
  ['atan2(a,b)', (a, b) => call('atan2', a, b), (a, b) => (Math.atan2(a, b) * 180) / Math.PI],
  ['a^3/b', (a, b) => divide(ok(power(a, q(3))), b), (a, b) => a ** 3 / b],
];

describe.each(EXPRESSIONS)('limits of %s', (_, quantities, numbers) => {
  const put = (t: Toleranced) => input(t.serial, t.x, t.low, t.high);
  const build = ([a, b, c]: readonly [Toleranced, Toleranced, Toleranced]) =>
    ok(quantities(put(a), put(b), put(c)));

  it('hold every corner of the inputs, but for effects of second order', () => {
    fc.assert(
      fc.property(three, (all) => {
        const made = build(all);
        const found = band(made) ?? { low: made.value, high: made.value };
        const width = found.high - found.low;
        const slack = width * 1e-3 + Math.abs(made.value) * 1e-11;
        let [least, most] = [Infinity, -Infinity];
        for (let corner = 0; corner < 8; corner++) {
          const end = (t: Toleranced, i: number) => ((corner >> i) & 1 ? t.high : t.low);
          const value = numbers(end(all[0], 0), end(all[1], 1), end(all[2], 2));
          [least, most] = [Math.min(least, value), Math.max(most, value)];
        }
        expect(least).toBeGreaterThanOrEqual(found.low - slack);
        expect(most).toBeLessThanOrEqual(found.high + slack);
        // And they are no wider than the corners: worst case is a case.
        expect(found.low).toBeGreaterThanOrEqual(least - slack);
        expect(found.high).toBeLessThanOrEqual(most + slack);
      }),
    );
  });

  it('share out whole, with the root of squares inside the worst case', () => {
    fc.assert(
      fc.property(three, (all) => {
        const made = build(all);
        const parts = shares(made);
        const total = parts.reduce((sum, it) => sum + it.share, 0);
        if (parts.length > 0) expect(total).toBeCloseTo(1, 9);
        for (const [i, it] of parts.entries()) {
          expect(it.below).toBeGreaterThanOrEqual(0);
          expect(it.above).toBeGreaterThanOrEqual(0);
          expect(it.share).toBeLessThanOrEqual(parts[i - 1]?.share ?? 1);
        }
        const found = band(made);
        if (!found) return;
        expect(found.rssLow).toBeGreaterThanOrEqual(found.low - 1e-12 * Math.abs(found.low));
        expect(found.rssHigh).toBeLessThanOrEqual(found.high + 1e-12 * Math.abs(found.high));
        expect(found.low).toBeLessThanOrEqual(made.value);
        expect(found.high).toBeGreaterThanOrEqual(made.value);
      }),
    );
  });
});

describe('limits of one input', () => {
  const ONE_INPUT: [string, (x: Quantity) => Quantity | Fault, (x: number) => number][] = [
    ['x^2', (x) => power(x, q(2)), (x) => x ** 2],
    ['abs(x)', (x) => call('abs', x), Math.abs],
    ['x*(3-x)', (x) => multiply(x, ok(subtract(q(3), x))), (x) => x * (3 - x)],
    ['min(x,1-x)', (x) => call('min', x, ok(subtract(q(1), x))), (x) => Math.min(x, 1 - x)],
    ['hypot(x,2-x)', (x) => call('hypot', x, ok(subtract(q(2), x))), (x) => Math.hypot(x, 2 - x)],
    ['sin(30° x)', (x) => call('sin', ok(multiply(x, q(30, 'deg')))), (x) => Math.sin((x * Math.PI) / 6)],
    ['cos(100° x)', (x) => call('cos', ok(multiply(x, q(100, 'deg')))), (x) => Math.cos((x * Math.PI) / 1.8)],
    ['atan(x)', (x) => call('atan', x), (x) => (Math.atan(x) * 180) / Math.PI],
    [
      'round(x, 0.5)',
      (x) => call('round', x, q(0.5)),
      (x) => (Math.sign(x) * Math.round(Math.abs(x) * 2)) / 2,
    ],
  ];
  it.each(ONE_INPUT)('%s holds every value between its ends and no more', (_, f, plain) => {
    const at = fc.integer({ min: -400, max: 400 }).map((n) => n / 64);
    fc.assert(
      fc.property(at, at, at, (p, r, s) => {
        const [low = 0, x = 0, high = 0] = [p, r, s].sort((a, b) => a - b);
        fc.pre(low < high);
        const made = ok(f(input(1, x, low, high)));
        const found = band(made) ?? { low: made.value, high: made.value };
        let [least, most] = [Infinity, -Infinity];
        const steps = 4000;
        for (let i = 0; i <= steps; i++) {
          const value = plain(low + ((high - low) * i) / steps);
          [least, most] = [Math.min(least, value), Math.max(most, value)];
        }
        expect(found.low).toBeLessThanOrEqual(least + 1e-9);
        expect(found.high).toBeGreaterThanOrEqual(most - 1e-9);
        // Sampling misses a crest by a little, so the band may reach a little further.
        const coarse = (high - low) * 0.01 + 1e-9;
        expect(found.low).toBeGreaterThanOrEqual(least - coarse);
        expect(found.high).toBeLessThanOrEqual(most + coarse);
      }),
    );
  });
});
