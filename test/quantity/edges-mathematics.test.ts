/** The plain mathematics and ISO 286 where a rule changes over. */
import { describe, expect, it } from 'vitest';
import { add } from '../../src/quantity/arithmetic';
import { isoLimits } from '../../src/quantity/iso286';
import { band } from '../../src/quantity/limits';
import { MATHEMATICS, cosine, sine } from '../../src/quantity/mathematics';
import { type Fault, type Quantity } from '../../src/quantity/value';
import { amountOf, codeOf, input, ok, q } from './make';

const call = (name: string, ...given: Quantity[]): Quantity | Fault =>
  MATHEMATICS.get(name)?.compute(given) ?? expect.fail(name);

const ends = (made: Quantity | Fault): [number, number] | null => {
  const found = band(ok(made));
  return found && [found.low, found.high];
};

describe('sine and cosine', () => {
  it('are the same in every quarter, to the last digit', () => {
    for (let d = 0; d <= 90; d += 0.5) {
      const [s, c] = [sine(d), sine(90 - d)];
      for (const turn of [-720, -360, 0, 360, 720]) {
        const same = [sine(turn + d), sine(turn + 180 - d), -sine(turn - d), -sine(turn + 180 + d)];
        expect(
          same.map((x) => x + 0),
          `${turn}° and ${d}°`,
        ).toEqual([s, s, s, s]);
        expect([cosine(turn + d), cosine(turn - d)]).toEqual([c, c]);
        expect([-cosine(turn + 180 - d) + 0, -cosine(turn + 180 + d) + 0]).toEqual([c + 0, c + 0]);
      }
    }
  });
  it('are exact at 30° from a quarter and keep their figures near zero', () => {
    expect([30, 150, 210, 330, -30, -150, -210, -330].map(sine)).toEqual([
      0.5, 0.5, -0.5, -0.5, -0.5, -0.5, 0.5, 0.5,
    ]);
    expect(sine(1e-9) / ((1e-9 * Math.PI) / 180)).toBeCloseTo(1, 14);
  });
  it('turn round at each crest, far out too', () => {
    // From 17920° to 18280° lie a crest at 18090° = 50 * 360° + 90° and a trough at 18270°.
    expect(ends(call('sin', input(1, 18000, 17920, 18280, 'deg')))).toEqual([-1, 1]);
    expect(ends(call('cos', input(1, 18100, 18010, 18370, 'deg')))).toEqual([-1, 1]);
    expect(ends(call('tan', input(1, 0, -45, 45, 'deg')))).toEqual([-1, 1]);
    expect(codeOf(call('tan', input(1, 80, 70, 91, 'deg')))).toBe('fails-at-limit');
    expect(codeOf(call('tan', input(1, 80, 70, 90, 'deg')))).toBe('fails-at-limit');
  });
});

describe('what is refused names its reason', () => {
  const faults: [Quantity | Fault, string, object][] = [
    [call('asin', q(1.1)), 'outside-domain', { function: 'asin', value: 1.1, lowest: -1, highest: 1 }],
    [call('hypot', q(1, '°C'), q(1, 'K')), 'temperature-scaled', { operator: 'hypot' }],
    [call('hypot', q(1, 'K'), q(1, '°C')), 'temperature-scaled', { operator: 'hypot' }],
    [call('atan2', q(1, '°C'), q(1, '°C')), 'temperature-scaled', { operator: 'atan2' }],
    [call('min', q(1, 'mm'), q(1), q(2, 'mm')), 'unit-mismatch', { operator: 'min' }],
    [call('atan2', input(1, 0.5, -1, 1), q(0)), 'fails-at-limit', { input: 1 }],
  ];
  it.each(faults)('case %#', (made, code, data) => expect(made).toMatchObject({ code, data }));

  it('and one side of zero is no refusal', () => {
    expect(amountOf(call('atan2', q(1), q(0)))).toEqual([90, 'deg']);
    expect(amountOf(call('atan2', q(0), q(-1)))).toEqual([180, 'deg']);
    expect(Object.is(ok(call('atan2', { ...q(0), value: -0 }, q(1))).value, 0)).toBe(true);
    expect(amountOf(call('sqrt', q(0.25)))).toEqual([0.5, '']);
    expect(amountOf(call('sqrt', q(0)))).toEqual([0, '']);
    expect(ends(call('atan2', input(1, 0, -1, 1), q(1)))).toEqual([-45, 45]);
  });

  it('and too many inputs are told from a jump', () => {
    const sum = (from: number): Quantity =>
      Array.from({ length: 40 }, (_, i) => input(from + i, 1, 0.9, 1.1)).reduce((so, next) =>
        ok(add(so, next)),
      );
    expect(codeOf(call('atan2', sum(1), sum(41)))).toBe('too-many-inputs');
    expect(codeOf(call('hypot', sum(1), sum(41)))).toBe('too-many-inputs');
  });
});

describe('rounding to steps', () => {
  const down = (value: number, step = 1): number => ok(call('round_down', q(value), q(step))).value;
  it('takes a billionth of the steps for rounding, no more', () => {
    expect([1 - 0.9e-9, 1 - 1.1e-9, 7 - 6.9e-9, 7 - 7.1e-9].map((x) => down(x))).toEqual([1, 0, 7, 6]);
    expect([1000 - 0.9e-6, 1000 - 1.1e-6].map((x) => down(x))).toEqual([1000, 999]);
    expect(ok(call('round_up', q(0.9e-9), q(1))).value).toBe(0);
    expect(ok(call('round_up', q(1.1e-9), q(1))).value).toBe(1);
  });
});

it('knows how many arguments each takes', () => {
  const counts = Object.fromEntries([...MATHEMATICS].map(([name, made]) => [name, made.counts]));
  const [one, many] = [
    [1, 1],
    [1, Infinity],
  ];
  expect(counts).toEqual({
    ...Object.fromEntries(['sqrt', 'abs', 'sin', 'cos', 'tan', 'asin', 'acos', 'atan'].map((n) => [n, one])),
    min: many,
    max: many,
    hypot: [2, Infinity],
    atan2: [2, 2],
    round: [1, 2],
    round_up: [1, 2],
    round_down: [1, 2],
  });
});

describe('ISO 286', () => {
  const check = (size: number, code: string): string => {
    const found = isoLimits(size, code);
    return 'kind' in found ? found.code : found.check;
  };
  const upper = (size: number, code: string): number => {
    const found = isoLimits(size, code);
    return 'kind' in found ? NaN : found.upper;
  };

  it('offers what there is in place of a coarse K hole', () => {
    expect(isoLimits(25, 'K10')).toMatchObject({ data: { highest: 8, offers: ['K8', 'N10'] } });
    expect(isoLimits(25, 'N12')).toMatchObject({ data: { lowest: 5, highest: 11 } });
    expect(isoLimits(25, 'n12')).not.toHaveProperty('code');
    expect(isoLimits(25, '7')).toMatchObject({ data: { letter: '', letters: 'd e f g h js k m n p r s' } });
  });

  it('counts a size beyond a step by more than a double holds as the next step', () => {
    // 18 mm ends a step of f: -16 µm up to it, -20 µm beyond (ISO 286-1, table 4).
    expect([18 * (1 + 0.9e-12), 18 * (1 + 1.1e-12)].map((size) => upper(size, 'f7'))).toEqual([-16, -20]);
  });

  it('says of each K, M, N and P hole what its own check was', () => {
    // Digit for digit from grade 5 on, to 8 (K), 11 (N) and 9 (P), as the source of the table states.
    const digits = (code: string): boolean => check(25, code).includes('digit for digit against');
    expect(['K6', 'K7', 'K8', 'N6', 'N11', 'P6', 'P9'].map(digits)).toEqual(Array(7).fill(true));
    // Without a check of their own they rest on rows that were checked that far only.
    expect(check(25, 'P10')).toContain('checked digit for digit');
    expect([check(25, 'K5'), check(25, 'M7')].map((text) => text.includes('formula'))).toEqual([true, true]);
    expect(check(2, 'M7')).toContain('memory');
    // The raise of grade 5 leans on grade 4, which is from memory; a digit check of the hole itself outranks that.
    expect(check(25, 'M5')).toContain('memory');
    expect(check(2, 'M5')).toContain('memory');
    expect(check(5, 'M9')).toContain('formula');
  });

  it('has no minus zero', () => {
    for (const code of ['h6', 'H7', 'k9', 'N9']) {
      const found = isoLimits(25, code);
      if ('kind' in found) return expect.fail(code);
      expect([Object.is(found.upper, -0), Object.is(found.lower, -0)]).toEqual([false, false]);
    }
  });
});
