import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import checks from '../data/quantity/checks.json' with { type: 'json' };
import { HOLE_LETTERS, SHAFT_LETTERS, isoLimits } from '../../src/quantity/iso286';
import { CHECKED_HOLES, FINE_STEPS, GRADES, SHAFTS, STEPS } from '../../src/quantity/iso286-table';

function limits(size: number, code: string): [upper: number, lower: number] {
  const found = isoLimits(size, code);
  if ('kind' in found) return expect.fail(`${code} at ${size}: ${found.code}`);
  return [found.upper, found.lower];
}

/** Rows of a data file: comment lines say what it is and where it comes from, then a heading, then the values. */
function rows(file: string): string[][] {
  const text = readFileSync(new URL(`../data/quantity/${file}`, import.meta.url), 'utf8');
  const lines = text
    .trim()
    .split('\n')
    .filter((line) => !line.startsWith('#'));
  return lines.slice(1).map((line) => line.split(','));
}

/** E01 and E02 with their sources and methods: test/data/quantity/checks.json. */
const of = (formula: string) => checks.filter((check) => check.id.startsWith(formula));

describe('checks from outside', () => {
  it.each(of('E01'))('$id: $inputs.class at $inputs.nominal_mm mm', ({ inputs, expected }) => {
    expect(limits(inputs.nominal_mm ?? NaN, inputs.class ?? '')).toEqual(expected);
  });

  it.each(of('E02'))('$id: $inputs.fit at $inputs.nominal_mm mm', ({ inputs, expected }) => {
    const [hole = '', shaft = ''] = (inputs.fit ?? '').split('/');
    const [ES, EI] = limits(inputs.nominal_mm ?? NaN, hole);
    const [es, ei] = limits(inputs.nominal_mm ?? NaN, shaft);
    expect([ES - ei, EI - es]).toEqual(expected);
  });

  it('625 fits, step by step', () => {
    const all = rows('iso286-fits.csv');
    expect(all).toHaveLength(625);
    for (const [fit = '', upto, ...values] of all) {
      const [hole = '', shaft = ''] = fit.split('/');
      const got = [...limits(Number(upto), hole), ...limits(Number(upto), shaft)];
      const [ES = 0, EI = 0, es = 0, ei = 0] = got;
      expect([fit, upto, ...got, ES - ei, EI - es]).toEqual([fit, upto, ...values.map(Number)]);
    }
  });

  it('holes K, M, N and P, and what is said of how they were checked', () => {
    const all = rows('iso286-holes.csv');
    expect(all).toHaveLength(4 * 7 * 13);
    for (const [code = '', upto, ES = '', check = ''] of all) {
      const found = isoLimits(Number(upto), code);
      if (ES === '') {
        expect([code, upto, found]).toMatchObject([code, upto, { code: 'iso-hole-undefined' }]);
        continue;
      }
      if ('kind' in found) return expect.fail(`${code} at ${upto}: ${found.code}`);
      expect([code, upto, found.upper]).toEqual([code, upto, Number(ES)]);
      const grade = Number(code.slice(1));
      const [from = 0, to = 0] = CHECKED_HOLES.get(code.charAt(0)) ?? [];
      expect([code, grade >= from && grade <= to]).toEqual([code, check.includes('opendata')]);
      if (check.startsWith('rule')) expect(found.check).not.toContain('digit for digit against');
    }
  });
});

// --- a second way ----------------------------------------------------------------------------------------------------

/** Geometric mean of a step, in mm; the first is taken from 1. */
function mean(steps: readonly number[], i: number): number {
  return Math.sqrt((i === 0 ? 1 : (steps[i - 1] ?? 1)) * (steps[i] ?? 1));
}

/** Tolerance unit of ISO 286-1, annex, in µm. */
const unitOf = (d: number): number => 0.45 * Math.cbrt(d) + 0.001 * d;
const UNITS = new Map([[5, 7], [6, 10], [7, 16], [8, 25], [9, 40], [10, 64], [11, 100], [12, 160], [13, 250]]); // prettier-ignore

/** Agreement as far as the standard rounds its own formula: 6 % or 1 µm. */
function near(value: number, formula: number): boolean {
  return Math.abs(value - formula) <= Math.max(1, 0.06 * Math.abs(formula));
}

describe('the standard’s formulas', () => {
  it.each(of('E03'))('$id: the tolerance unit itself', ({ inputs, expected, tolerance }) => {
    const [over = 0, upto = 0] = inputs.step ?? [];
    const raw = unitOf(Math.sqrt(over * upto)) * (UNITS.get(inputs.grade ?? 0) ?? NaN);
    expect(Math.abs(raw - Number(expected))).toBeLessThanOrEqual(tolerance);
  });

  it('give the grades, the smallest sizes apart', () => {
    for (const [grade, times] of UNITS)
      STEPS.forEach((_, i) => {
        const value = GRADES.get(grade)?.values[i] ?? NaN;
        if (i > 0)
          expect([grade, STEPS[i], near(value, times * unitOf(mean(STEPS, i)))]).toEqual([
            grade,
            STEPS[i],
            true,
          ]);
      });
  });

  it('give the deviations, the smallest sizes apart', () => {
    const IT = (grade: number, i: number): number => GRADES.get(grade)?.values[i] ?? NaN;
    const formulas: [string, (d: number, i: number) => number][] = [
      ['d', (d) => -16 * d ** 0.44],
      ['e', (d) => -11 * d ** 0.41],
      ['f', (d) => -5.5 * d ** 0.41],
      ['g', (d) => -2.5 * d ** 0.34],
      ['h', () => 0],
      ['k', (d) => 0.6 * Math.cbrt(d)],
      ['m', (_, i) => IT(7, i) - IT(6, i)],
      ['n', (d) => 5 * d ** 0.34],
      // IT7 and up to 5 µm more; the middle of that, since the standard chooses.
      ['p', (_, i) => IT(7, i) + 2.5],
    ];
    const wide: Record<string, number> = { p: 3.5 };
    for (const [letter, formula] of formulas)
      STEPS.forEach((_, i) => {
        if (i === 0) return;
        const [value, wanted] = [SHAFTS.get(letter)?.values[i] ?? NaN, formula(mean(STEPS, i), i)];
        const fits = near(value, wanted) || Math.abs(value - wanted) <= (wide[letter] ?? 0);
        expect([letter, STEPS[i], fits]).toEqual([letter, STEPS[i], true]);
      });
    FINE_STEPS.forEach((upto, i) => {
      if (i === 0) return;
      const main = STEPS.findIndex((end) => upto <= end);
      const [p = NaN, r = NaN, s = NaN] = [
        SHAFTS.get('p')?.values[main],
        SHAFTS.get('r')?.values[i],
        SHAFTS.get('s')?.values[i],
      ];
      expect(['r', upto, near(r, Math.sqrt(p * s))]).toEqual(['r', upto, true]);
      const d = mean(FINE_STEPS, i);
      const wanted = upto <= 50 ? IT(8, main) + 2.5 : IT(7, main) + 0.4 * d;
      expect(['s', upto, near(s, wanted) || Math.abs(s - wanted) <= 2.5]).toEqual(['s', upto, true]);
    });
  });
});

/** Rows of the standard's tables by name: grades `IT5` and shaft letters. */
const STANDARD = new Map<string, { upto: number; um: number; check: string }[]>();
for (const [name = '', upto, um, check = ''] of rows('iso286-table.csv'))
  STANDARD.set(name, [...(STANDARD.get(name) ?? []), { upto: Number(upto), um: Number(um), check }]);

it('has the values of the standard, and what is said of how they were checked', () => {
  const own = [...[...GRADES].map(([grade, row]) => [`IT${grade}`, row] as const), ...SHAFTS];
  expect(own.map(([name]) => name)).toEqual([...STANDARD.keys()]);
  for (const [name, row] of own) {
    const steps = row.values.length === STEPS.length ? STEPS : FINE_STEPS;
    const written = row.values.map((um, i) => ({ upto: steps[i], um, check: row.checks[i] }));
    expect([name, written]).toEqual([name, STANDARD.get(name)?.map((it) => ({ ...it, check: it.check[0] }))]);
  }
});

/** Every zone once more from letters and grades, by the rules written out afresh. */
function again(size: number, letter: string, grade: number): [number, number] | null {
  const at = (name: string): number => STANDARD.get(name)?.find(({ upto }) => size <= upto)?.um ?? NaN;
  const it = (n: number): number => at(`IT${n}`);
  const small = letter.toLowerCase();
  const shaft = (): number => (letter === 'k' && grade > 7 ? 0 : at(small));
  if (small === 'js') return [it(grade) / 2, -it(grade) / 2];
  if ('defgh'.includes(letter)) return [shaft(), shaft() - it(grade)];
  if ('kmnprs'.includes(letter)) return [shaft() + it(grade), shaft()];
  if ('DEFGH'.includes(letter)) return [it(grade) - shaft(), -shaft()];
  const top = (ES: number): [number, number] => [ES, ES - it(grade)];
  const fine = size > 3 ? it(grade) - it(grade - 1) : 0;
  switch (letter) {
    case 'K':
      return grade <= 8 ? top(-shaft() + fine) : size <= 3 ? top(0) : null;
    case 'M':
      if (grade === 6 && size > 250 && size <= 315) return top(-9);
      return top(-shaft() + (grade <= 8 ? fine : 0));
    case 'N':
      if (grade > 8) return top(size > 3 ? 0 : -4);
      return top(-shaft() + fine);
    default: // P, R and S
      return top(-shaft() + (grade <= 7 ? fine : 0));
  }
}

describe('every zone', () => {
  it('composed a second time, on and between the ends of each step', () => {
    let zones = 0;
    for (const letter of [...SHAFT_LETTERS.split(' '), ...HOLE_LETTERS.split(' ')])
      for (let grade = 5; grade <= ('KMNPRS'.includes(letter) ? 11 : 13); grade++)
        (STANDARD.get('s') ?? []).forEach(({ upto: end }, i, steps) => {
          const start = steps[i - 1]?.upto ?? 0;
          for (const size of [end, (start + end) / 2, start + 0.001]) {
            const code = `${letter}${grade}`;
            const found = isoLimits(size, code);
            const wanted = again(size, letter, grade);
            if (wanted === null)
              expect([code, size, found]).toMatchObject([code, size, { code: 'iso-hole-undefined' }]);
            else {
              zones++;
              const sense = letter === letter.toUpperCase() ? 'hole' : 'shaft';
              expect([code, size, found]).toMatchObject([
                code,
                size,
                { upper: wanted[0] + 0, lower: wanted[1] + 0, sense },
              ]);
            }
          }
        });
    expect(zones).toBeGreaterThan(10_000);
  });

  it('lies as the standard orders the letters', () => {
    // Lower letters lie lower: each shaft's zone is above the one before it; holes mirror that.
    for (const size of [2, 10, 25, 100, 300, 480]) {
      const uppers = 'd7 e7 f7 g7 h7 k7 m7 n7 p7 r7 s7'.split(' ').map((code) => limits(size, code)[0]);
      expect(uppers).toEqual([...uppers].sort((a, b) => a - b));
      const lowers = 'D7 E7 F7 G7 H7 JS7 K7 M7 N7 P7 R7 S7'.split(' ').map((code) => limits(size, code)[1]);
      expect(lowers).toEqual([...lowers].sort((a, b) => b - a));
    }
  });

  it('says how far its values were checked', () => {
    const check = (size: number, code: string) => {
      const found = isoLimits(size, code);
      return 'kind' in found ? found.code : found.check;
    };
    expect(check(25, 'H7')).toContain('checked digit for digit');
    expect(check(25, 'H5')).toContain('formula');
    expect(check(2, 'H12')).toContain('memory');
    expect(check(300, 'M6')).toContain('memory');
    expect(check(20, 'M7')).toContain('formula');
    expect(check(25, 'R7')).toContain('by the standard’s rule'.replace('’', "'"));
    expect(check(25, 'S5')).toContain('memory');
    expect(check(25, 'P9')).toContain('checked digit for digit against');
    // P10, and K9 up to 3 mm, stand in none of the tables compared: they are p and k mirrored.
    for (const [size, code] of [
      [25, 'P10'],
      [2, 'K9'],
    ] as const)
      expect(check(size, code)).toContain("by the standard's rule");
    for (const row of [...GRADES.values(), ...SHAFTS.values()]) {
      expect(row.checks).toMatch(/^[dfm]+$/);
      expect(row.checks).toHaveLength(row.values.length);
      expect([STEPS.length, FINE_STEPS.length]).toContain(row.values.length);
    }
  });
});

it('holes R and S as handbooks print them, from memory', () => {
  const printed: [number, string, number, number][] = [
    [2, 'R7', -10, -20],
    [10, 'R7', -13, -28],
    [25, 'R6', -24, -37],
    [25, 'R7', -20, -41],
    [25, 'S6', -31, -44],
    [25, 'S7', -27, -48],
    [25, 'S8', -35, -68],
    [60, 'R7', -30, -60],
    [70, 'R7', -32, -62],
    [100, 'S7', -58, -93],
  ];
  for (const [size, code, ES, EI] of printed)
    expect([size, code, ...limits(size, code)]).toEqual([size, code, ES, EI]);
});

describe('what the table has not', () => {
  const cases: [number, string, string][] = [
    [25, 'a7', 'iso-letter-unknown'],
    [25, 'T7', 'iso-letter-unknown'],
    [25, 'R12', 'iso-grade-unknown'],
    [25, 'Js7', 'iso-letter-unknown'],
    [25, 'H', 'iso-letter-unknown'],
    [25, 'x', 'iso-letter-unknown'],
    [25, '', 'iso-letter-unknown'],
    [25, 'H4', 'iso-grade-unknown'],
    [25, 'H14', 'iso-grade-unknown'],
    [25, 'H07', 'iso-grade-unknown'],
    [25, 'P12', 'iso-grade-unknown'],
    [0, 'H7', 'iso-size-out-of-range'],
    [-5, 'H7', 'iso-size-out-of-range'],
    [500.001, 'H7', 'iso-size-out-of-range'],
    [NaN, 'H7', 'iso-size-out-of-range'],
    [25, 'K9', 'iso-hole-undefined'],
  ];
  it.each(cases)('%d mm %s: %s', (size, code, fault) => {
    expect(isoLimits(size, code)).toMatchObject({ kind: 'fault', code: fault });
  });

  it('takes a step’s end computed from inches for that end', () => {
    expect(limits(18 * (1 + 1e-15), 'f7')).toEqual(limits(18, 'f7'));
    expect(limits(500, 'h6')).toEqual([0, -40]);
  });
});
