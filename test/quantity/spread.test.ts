/** How a result is followed along its inputs: samples, places, and where an operation turns round. */
import { describe, expect, it } from 'vitest';
import { add, divide, multiply, power, subtract, together } from '../../src/quantity/arithmetic';
import { asInput, band, shares } from '../../src/quantity/limits';
import { MAX_INPUTS, failsBetween, placesAlong, sampleAt, spread1, whereIs } from '../../src/quantity/spread';
import { type Quantity, type Reach } from '../../src/quantity/value';
import { codeOf, input, ok, q } from './make';

/** Up to 8 at a quarter of the way, down to 2 half-way, up to 10 at the end. */
const bent: Reach = { input: 1, at: [0, 10, 2, 8], along: [0.5, 0.25], inside: true };
/** Sampled evenly by whoever took it. */
const even: Reach = { input: 1, at: [0, 9, 6, 3], inside: true };
const straight: Reach = { input: 1, at: [2, 6], inside: true };

const moved = (value: number, ...spread: Reach[]): Quantity => ({ ...q(value), spread });

describe('a reach', () => {
  it('has its samples where they were taken and is straight between them', () => {
    const at = [0, 0.125, 0.25, 0.375, 0.5, 0.75, 1].map((place) => sampleAt(bent, place));
    expect(at).toEqual([0, 4, 8, 5, 2, 6, 10]);
    expect([0, 1 / 6, 1 / 3, 0.5, 2 / 3, 1].map((place) => sampleAt(even, place))).toEqual([
      0, 3, 6, 4.5, 3, 9,
    ]);
    expect([0, 0.25, 1].map((place) => sampleAt(straight, place))).toEqual([2, 3, 6]);
    expect(sampleAt({ input: 1, at: [0, 4, 3], inside: true }, 0.5)).toBe(3);
  });

  it('has its ends to the last digit', () => {
    // 0.2 + (0.9 - 0.2) is not 0.9 in binary.
    expect(0.2 + (0.9 - 0.2)).not.toBe(0.9);
    expect(sampleAt({ input: 1, at: [0.2, 0.9], inside: true }, 1)).toBe(0.9);
    expect(sampleAt({ input: 1, at: [0, 0.9, 0.2], inside: true }, 1)).toBe(0.9);
  });

  it('is found by its value, the first place first', () => {
    expect([0, 4, 8, 9].map((x) => whereIs(bent, x))).toEqual([0, 0.125, 0.25, 0.9375]);
    expect(whereIs(even, 7.5)).toBeCloseTo(11 / 12, 12);
    expect(whereIs(straight, 3)).toBe(0.25);
    expect(whereIs({ input: 1, at: [6, 2], inside: true }, 2)).toBe(1);
    expect(whereIs({ input: 1, at: [0, 1, 0.2], inside: true }, 0.6)).toBe(0.75);
    expect(whereIs({ input: 1, at: [6, 2], inside: true }, 3)).toBe(0.75);
    expect(whereIs({ input: 1, at: [-3, 1], inside: true }, -1)).toBe(0.5);
    // A level stretch has no place of its own.
    expect(whereIs({ input: 1, at: [3, 5, 3], along: [0.5], inside: true }, 3)).toBe(0.5);
    expect(whereIs(straight, 100)).toBe(0.5);
  });

  it('is compared with another at the places of both', () => {
    expect(placesAlong([bent, straight, even])).toEqual([0.5, 0.25, 1 / 3, 2 / 3]);
    expect(together([bent, straight])).toEqual([
      [0, 2],
      [10, 6],
      [2, 4],
      [8, 3],
    ]);
    const many = Array.from({ length: 9 }, (_, i) => (i + 1) / 10);
    const wavy: Reach = { input: 1, at: [0, 1, ...many], along: many, inside: true };
    expect(placesAlong([wavy])).toEqual(many.slice(0, 6));
  });
});

describe('an operation on one figure', () => {
  const square = (x: number): number => x * x;
  it('counts a place where it turns round only between the ends', () => {
    expect(spread1(input(1, 1, 0, 2), square, [0])).toEqual([{ input: 1, at: [0, 4], inside: true }]);
    expect(spread1(input(1, -1, -2, 0), square, [0])).toEqual([{ input: 1, at: [4, 0], inside: true }]);
    expect(spread1(input(1, -1, -2, 2), square, [0])).toEqual([
      { input: 1, at: [4, 4, 0], along: [0.5], inside: true },
    ]);
    expect(spread1(input(1, 1, 0, 2), square, () => [])).toEqual([{ input: 1, at: [0, 4], inside: true }]);
  });
  it('takes no more than eight samples', () => {
    const many = Array.from({ length: 12 }, (_, i) => i + 1);
    expect(spread1(input(1, 5, 0, 100), square, many)).toMatchObject([
      { at: [0, 10000, 1, 4, 9, 16, 25, 36], along: [0.01, 0.02, 0.03, 0.04, 0.05, 0.06] },
    ]);
  });
  it('drops an input that moves nothing but rounding', () => {
    const by = (part: number) => spread1(input(1, 1, 0.9, 1.1), (x) => 1 + (x - 1) * 10 * part);
    expect(by(0.9e-12)).toBeNull();
    expect(by(1.1e-12)).toHaveLength(1);
  });
});

describe('an operation on two figures', () => {
  it('turns round only between the ends', () => {
    const at = (low: number, nominal: number, high: number) => {
      const x = input(1, nominal, low, high);
      return ok(multiply(x, x)).spread;
    };
    expect(at(0, 1, 2)).toEqual([{ input: 1, at: [0, 4], inside: true }]);
    expect(at(-2, -1, 0)).toEqual([{ input: 1, at: [4, 0], inside: true }]);
    expect(at(-1, 0, 3)).toEqual([{ input: 1, at: [1, 9, 0], along: [0.25], inside: true }]);
  });

  it('samples one side along its own input while the other stands', () => {
    const bend = ok(power(input(2, 1, -1, 3), q(2)));
    const other = input(1, 10, 9, 11);
    const reach = { input: 2, at: [11, 19, 10], along: [0.25], inside: true };
    expect(ok(add(other, bend)).spread).toEqual([{ input: 1, at: [10, 12], inside: true }, reach]);
    expect(ok(add(bend, other)).spread).toEqual([{ input: 1, at: [10, 12], inside: true }, reach]);
  });

  it('samples both sides where either was sampled', () => {
    const x = input(1, 1, -1, 3);
    const [bend, line] = [ok(power(x, q(2))), ok(multiply(x, q(2)))];
    for (const [a, b] of [
      [bend, line],
      [line, bend],
    ] as const)
      expect(ok(add(a, b)).spread).toEqual([{ input: 1, at: [-1, 15, 0], along: [0.25], inside: true }]);
    // At each place one of the two was sampled and the other lies straight between its samples.
    const bends = moved(4, { input: 1, at: [0, 10, 8, 2], along: [0.25, 0.5], inside: true });
    const [first, second] = [2 + (8 - 2) * (2 / 3), 2 + (10 - 2) / 3];
    expect(ok(add(bends, moved(5, even))).spread).toEqual([
      {
        input: 1,
        at: [0, 19, 8 + 4.5, 2 + 4.5, expect.closeTo(first + 6, 9), expect.closeTo(second + 3, 9)],
        along: [0.25, 0.5, 1 / 3, 2 / 3],
        inside: true,
      },
    ]);
  });

  it('takes no more than eight samples', () => {
    const wavy = (shift: number): Reach => {
      const along = Array.from({ length: 6 }, (_, i) => i / 7 + shift);
      return { input: 1, at: [0, 1, ...along], along, inside: true };
    };
    const made = ok(add(moved(0.5, wavy(0.01)), moved(0.5, wavy(0.02)))).spread?.[0];
    expect(made?.at).toHaveLength(8);
    expect(made?.along).toEqual(wavy(0.01).along);
  });

  it('keeps whether the nominal lies between the limits', () => {
    // Common practice for a running fit: the whole zone lies below the nominal.
    const pin = input(1, 25, 24.959, 24.98);
    for (const made of [add(pin, q(1)), add(q(1), pin), subtract(q(30), pin), multiply(q(2), pin)])
      expect(ok(made).spread?.map(({ inside }) => inside)).toEqual([false]);
    expect(ok(add(pin, input(2, 1, 0.9, 1.1))).spread?.map(({ inside }) => inside)).toEqual([false, true]);
  });

  it.each([2, 0])('of a number around zero to a power around %d has none at zero to mind', (exponent) => {
    const made = ok(power(input(1, 1, -1, 2), input(2, exponent, exponent - 0.5, exponent + 0.5)));
    expect(made.value).toBe(1);
    expect(codeOf(power(input(1, 1, -1, 2), input(2, -2, -2.5, -1.5)))).toBe('fails-at-limit');
  });

  it('says which input leaves it without a value', () => {
    const made = power(input(1, 1, -1, 2), input(2, 0.5, 0.4, 0.6));
    expect(made).toMatchObject({ code: 'fails-at-limit', data: { input: 1 } });
  });

  it('counts inputs up to the most', () => {
    const sum = (from: number, count: number): Quantity =>
      Array.from({ length: count }, (_, i) => input(from + i, 1, 0.9, 1.1)).reduce((so, next) =>
        ok(add(so, next)),
      );
    expect(MAX_INPUTS).toBe(64);
    expect(ok(add(sum(1, 32), sum(33, 32))).spread).toHaveLength(64);
    expect(add(sum(1, 32), sum(33, 33))).toMatchObject({ code: 'too-many-inputs', data: { count: 65 } });
  });
});

describe('a place without a value', () => {
  const zero = (low: number, high: number): boolean => low <= 0 && high >= 0;
  it('is looked for from the lowest to the highest sample, the nominal included', () => {
    expect(failsBetween(moved(-1, { input: 3, at: [2, 1], inside: true }), zero)?.data).toEqual({ input: 3 });
    expect(failsBetween(moved(3, { input: 3, at: [2, 1], inside: true }), zero)).toBeNull();
    expect(failsBetween(moved(1, { input: 3, at: [1, 2, -1], inside: true }), zero)).not.toBeNull();
    expect(failsBetween(q(0), zero)).toBeNull();
  });
  it('but not between a zone and a nominal outside it', () => {
    expect(ok(divide(q(6), input(1, 1, -3, -2))).spread).toEqual([{ input: 1, at: [-2, -3], inside: false }]);
    expect(codeOf(divide(q(6), input(1, 1, -3, 2)))).toBe('fails-at-limit');
  });
});

describe('the band', () => {
  it('reaches to the nominal where that lies between the limits', () => {
    expect(band(moved(5, { input: 1, at: [2, 3], inside: true }))).toMatchObject({ low: 2, high: 5 });
    expect(band(moved(1, { input: 1, at: [2, 3], inside: true }))).toMatchObject({ low: 1, high: 3 });
    expect(band(moved(5, { input: 1, at: [2, 3], inside: false }))).toMatchObject({ low: 2, high: 3 });
    expect(band(moved(1, { input: 1, at: [2, 3], inside: false }))).toMatchObject({ low: 2, high: 3 });
  });
  it('as a root of squares, each side by itself', () => {
    // 3, 4, 5 downwards and 5, 12, 13 upwards.
    const found = band(
      moved(20, { input: 1, at: [17, 25], inside: true }, { input: 2, at: [32, 16], inside: true }),
    );
    expect(found).toEqual({ low: 13, high: 37, rssLow: 15, rssHigh: 33 });
  });
  it('is shared by width; what only shifts has no share', () => {
    const made = moved(
      10,
      { input: 1, at: [9, 10], inside: true },
      { input: 2, at: [12, 12], inside: false },
      { input: 3, at: [8, 11], inside: true },
      { input: 4, at: [10, 11], inside: true },
    );
    expect(shares(made).map(({ input: i, share }) => [i, share])).toEqual([
      [3, 0.6],
      [1, 0.2],
      [4, 0.2],
      [2, 0],
    ]);
    expect(shares(moved(10, { input: 2, at: [12, 12], inside: false }))).toEqual([
      { input: 2, share: 0, shift: 2, below: 0, above: 0 },
    ]);
  });
  it('counts a nominal at its own end as inside', () => {
    const inside = (low: number, high: number) => asInput(q(25), 1, low, high).spread?.[0]?.inside;
    expect([inside(25, 26), inside(24, 25), inside(24, 26), inside(26, 27), inside(23, 24)]).toEqual([
      true,
      true,
      true,
      false,
      false,
    ]);
  });
});
