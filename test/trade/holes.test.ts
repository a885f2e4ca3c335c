/** Holes and drills: lists written a second time, rules that hold between their figures, and where each stops to hold. */
import { describe, expect, it } from 'vitest';
import { calculateLines } from '../../src/engine/index';
import { answer, broken, callOf, number, refusedCall } from './given';

const says = (call: string): string[] => {
  const { formula, args } = callOf(call);
  return broken(formula, args, 'error');
};

describe('drills', () => {
  /** Smallest first, as each kind is asked for one after the other. */
  function walk(kind: string, from: number): { sizes: number[]; names: string[] } {
    const [sizes, names]: [number[], string[]] = [[], []];
    for (let at = from; ;) {
      if (says(`drill_size(${at} mm, ${kind})`).length > 0) return { sizes, names };
      const { up, up_called } = answer('drill_size', { size: at, kind });
      sizes.push(Number(up));
      names.push(String(up_called));
      at = Number(up);
    }
  }

  // A drill chart, from memory: the first, last and every tenth number; letters at every fifth.
  const INCH = 25.4;

  it.each([
    ['number', 0.345, 'No. 79', 'No. 1', 79],
    ['letter', 5.95, 'letter B', 'letter Z', 25],
    ['fraction', 0.4, '1/32 in', '2 in', 95],
    ['metric', 0.31, '0.4 mm', '50 mm', 191],
  ])('%s drills go up one by one', (kind, from, first, last, count) => {
    const { sizes, names } = walk(kind, from);
    expect([names[0], names.at(-1), names.length]).toEqual([first, last, count]);
    expect(sizes).toEqual([...sizes].sort((a, b) => a - b));
  });

  it.each([
    ['metric', [0.4, 13.9, 14, 14.5, 31.5, 32, 33, 50]],
    ['fraction', [2 / 64, 33 / 64, 63 / 64, 1, 1 + 1 / 32, 1 + 31 / 32].map((inches) => inches * INCH)],
  ])('%s drills step as they are sold', (kind, wanted) => {
    const { sizes } = walk(kind, kind === 'metric' ? 0.39 : 0.4);
    for (const size of wanted)
      expect(
        sizes.some((each) => Math.abs(each - size) < 1e-8),
        String(size),
      ).toBe(true);
    for (const none of [13.95, 14.1, 31.7, 32.5, INCH * (1 + 1 / 64)])
      expect(
        sizes.some((each) => Math.abs(each - none) < 1e-8),
        String(none),
      ).toBe(false);
  });

  it('takes the smaller of two as near, and calls one size by all its names', () => {
    expect(answer('drill_size', { size: 14.25, kind: 'metric' })['nearest']).toBe(14);
    expect(answer('drill_size', { size: 6.36 })['called']).toBe('1/4 in, letter E');
    expect(answer('drill_size', { size: 25.4 })['called']).toBe('1 in');
  });

  it.each([
    [
      'drill_size(0.3 mm)',
      'drill_size(0.301 mm)',
      'not between two drills: they go from 0.3 mm (0.3 mm) to 2 in (50.8 mm)',
    ],
    ['drill_size(50.8 mm)', 'drill_size(50.79 mm)', 'a larger hole is bored'],
    [
      'drill_size(0.3429 mm, number)',
      'drill_size(0.3431 mm, number)',
      'No. 80 (0.343 mm) to No. 1 (5.791 mm)',
    ],
    ['drill_size(6 mm, number)', 'drill_size(5.79 mm, number)', 'not between two number drills'],
    ['drill_size(6 mm, number)', 'drill_size(5.79 mm, number)', 'leave `kind` out'],
    [
      'drill_size(11 mm, letter)',
      'drill_size(10.49 mm, letter)',
      'letter A (5.944 mm) to letter Z (10.49 mm)',
    ],
    ['drill_size(0.39 mm, fraction)', 'drill_size(0.4 mm, fraction)', '1/64 in (0.397 mm) to 2 in'],
    ['drill_size(51 mm, metric)', 'drill_size(49.9 mm, metric)', 'to 50 mm (50 mm)'],
    ['drill_point_depth(0 mm)', 'drill_point_depth(0.1 mm)', 'more than zero'],
    ['drill_point_depth(10 mm, point: 0°)', 'drill_point_depth(10 mm, point: 1°)', 'A point of 0°'],
    ['drill_point_depth(10 mm, point: 180°)', 'drill_point_depth(10 mm, point: 179.9°)', 'A point of 180°'],
    ['centre_drill(2.99 mm)', 'centre_drill(3 mm)', 'from 3 mm to 400 mm'],
    ['centre_drill(400.1 mm)', 'centre_drill(400 mm)', 'from 3 mm to 400 mm'],
    ['reaming_allowance(0.99 mm)', 'reaming_allowance(1 mm)', 'from 1 mm to 50 mm'],
    ['reaming_allowance(50.01 mm)', 'reaming_allowance(50 mm)', 'is bored'],
  ])('%s is refused, %s is not', (wrong, right, words) => {
    expect(says(wrong).join(' ')).toContain(words);
    expect(says(right)).toEqual([]);
  });
});

describe('a drilled depth', () => {
  it('turns flat with the point, and the usual point is 118°', () => {
    const depth = (point: number): number => number('drill_point_depth', { diameter: 10, point });
    expect(depth(179.9999)).toBeLessThan(1e-4);
    expect(number('drill_point_depth', { diameter: 10 })).toBe(depth(118));
  });
});

describe('holes for screws', () => {
  // ISO 273 as a drawing office's card has it, column by column, from memory.
  const THREADS = [1.6, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 27, 30, 33, 36];
  const FINE = [1.7, 2.2, 2.7, 3.2, 4.3, 5.3, 6.4, 8.4, 10.5, 13, 15, 17, 19, 21, 23, 25, 28, 31, 34, 37];
  const MEDIUM = [1.8, 2.4, 2.9, 3.4, 4.5, 5.5, 6.6, 9, 11, 13.5, 15.5, 17.5, 20, 22, 24, 26, 30, 33, 36, 39];
  const COARSE = [2, 2.6, 3.1, 3.6, 4.8, 5.8, 7, 10, 12, 14.5, 16.5, 18.5, 21, 24, 26, 28, 32, 35, 38, 42];

  it('are those of ISO 273', () => {
    const got = THREADS.map((d) => answer('clearance_hole', { thread: `M${d}` }));
    expect(got.map(({ fine }) => fine)).toEqual(FINE);
    expect(got.map(({ medium }) => medium)).toEqual(MEDIUM);
    expect(got.map(({ coarse }) => coarse)).toEqual(COARSE);
  });

  // Thread, counterbore, depth: DIN 974 with heads of ISO 4762, from memory.
  it.each([
    [3, 6.5, 3.4],
    [4, 8, 4.4],
    [5, 10, 5.4],
    [6, 11, 6.4],
    [8, 15, 8.6],
    [10, 18, 10.6],
    [12, 20, 12.6],
    [14, 24, 14.6],
    [16, 26, 16.6],
    [18, 30, 18.6],
    [20, 33, 20.6],
    [22, 36, 22.8],
    [24, 40, 24.8],
    [27, 46, 27.8],
    [30, 50, 31],
    [33, 54, 34],
    [36, 58, 37],
  ])('the counterbore of M%d', (d, bore, deep) => {
    const got = answer('counterbore', { thread: `M${d}` });
    expect(got['bore']).toBe(bore);
    expect(got['deep']).toBeCloseTo(deep, 9);
    // The head of ISO 4762 is one and a half threads wide, to the half millimetre.
    expect(bore).toBeGreaterThan(1.5 * d + 0.4);
  });

  it.each([
    ['clearance_hole(M39)', 'from M1.6 to M36, and none for M39. Give one that it has: M36.'],
    ['clearance_hole(M7)', 'Give one that it has: M6 or M8.'],
    ['clearance_hole(1/4-20 UNC)', 'metric screws, M1.6 to M36: for 1/4-20 UNC (6.35 mm) take a drill'],
    ['counterbore(M2)', 'from M3 to M36, and none for M2. Give one that it has: M3.'],
    ['clearance_hole(banana)', 'no call-out of a thread'],
  ])('%s', (call, words) => {
    expect(refusedCall(call)).toContain(words);
  });
});

describe('reaming and centring', () => {
  it.each([
    [3, 0.1, 2.9],
    [5, 0.1, 4.9],
    [5.004, 0.2, 4.8],
    [20, 0.2, 19.8],
    [20.01, 0.3, 19.7],
    [50, 0.3, 49.7],
  ])('a reamer of %d mm leaves %d and is drilled %d', (diameter, allowance, drill) => {
    expect(answer('reaming_allowance', { diameter })).toMatchObject({ allowance, drill });
  });

  // Shaft at its upper end, pilot, body, width of the hole, cone, whole depth: ISO 866 and ISO 6411, from memory;
  // the cones are worked from 60° with tables of sines: half the difference times 1.7320508.
  it.each([
    [5, 1, 3.15, 2.12, 0.969948452, 1.869948452],
    [6, 1.25, 3.15, 2.65, 1.212435565, 2.312435565],
    [10, 1.6, 4, 3.35, 1.515544457, 2.915544457],
    [16, 2, 5, 4.25, 1.948557159, 3.748557159],
    [25, 2.5, 6.3, 5.3, 2.424871131, 4.624871131],
    [40, 3.15, 8, 6.7, 3.074390183, 5.874390183],
    [63, 4, 10, 8.5, 3.897114317, 7.397114317],
    [100, 5, 12.5, 10.6, 4.849742261, 9.249742261],
    [160, 6.3, 16, 13.2, 5.975575286, 11.475575286],
    [250, 8, 20, 17, 7.794228634, 14.794228634],
    [400, 10, 25, 21.2, 9.699484522, 18.399484522],
  ])('a shaft of %d mm', (diameter, pilot, body, wide, cone, depth) => {
    const got = answer('centre_drill', { diameter });
    expect(got).toMatchObject({ pilot, body, wide });
    expect(got['cone']).toBeCloseTo(cone, 8);
    expect(got['depth']).toBeCloseTo(depth, 8);
    if (diameter < 400)
      expect(Number(answer('centre_drill', { diameter: diameter * 1.0005 })['wide'])).toBeGreaterThan(wide);
    expect(body).toBeGreaterThan(wide);
  });

  it('are asked for in a note, in either system', () => {
    const sheet = calculateLines('a = reaming_allowance(0.5 in)\nb = drill_size(a.drill)\nb.nearest to in');
    expect(sheet.findings()).toEqual([]);
    expect(sheet.valueOf('a')).toMatchObject({ kind: 'record' });
  });
});
