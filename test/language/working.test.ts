/** The working that is shown must be true: whoever works out the figures gets the result beside them. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Sheet, calculate } from '../../src/engine/index';
import type { Step } from '../../src/language/explanation';
import { explainRow } from '../../src/language/explain';
import { workedOut } from '../../src/engine/working';
import type { Value } from '../../src/quantity/value';
import { allFormulas } from '../../src/trade/index';
import { figures } from './cursor';

/** Machine cards that worked checks call on. */
import { readFileSync } from 'node:fs';
const SHOP = readFileSync(new URL('../data/shop.md', import.meta.url), 'utf8');

function steps(sheet: Sheet, line = -1): readonly Step[] {
  const row = sheet.rows().at(line);
  const explanation = row && explainRow(sheet, row);
  return explanation?.parts.flatMap((part) => (part.kind === 'working' ? part.steps : [])) ?? [];
}

/** Half of the last digit shown: how far a rounded figure may stand from what it was. */
function halfDigit(text: string): number {
  const [, decimals = ''] = /^-?\d+(?:\.(\d+))?/.exec(text) ?? [];
  return 0.5 * 10 ** -decimals.length;
}

/** The figures of a step, worked out by themselves, give its result within the rounding shown. */
function expectTrue({ figures: text, result }: Step): void {
  const [reached, told] = [workedOut(text), workedOut(result)];
  if (reached?.kind === 'list' && told?.kind === 'list') {
    // The working of a list shows its first items; each figure of the result is as good as its own digits.
    const written = result.match(/-?\d+(?:\.\d+)?(?:e-?\d+)?/g) ?? [];
    reached.items.forEach((item, i) => expectNear(item, told.items[i], written[i] ?? '', text));
    return;
  }
  expectNear(reached, told ?? undefined, result, text);
}

function expectNear(reached: Value | null, told: Value | undefined, result: string, text: string): void {
  if (reached?.kind !== 'number' || told?.kind !== 'number')
    throw new Error(`${text} or ${result} has no value`);
  expect(reached.dimension, `${text} = ${result}`).toBe(told.dimension);
  const slack = halfDigit(result) * told.unit.factor * (1 + 1e-9) + 1e-12 * Math.abs(told.value);
  expect(Math.abs(reached.value - told.value), `${text} = ${result}`).toBeLessThanOrEqual(slack);
}

/** Of each number its digits, the first not a zero. */
function digitsOf(text: string): readonly string[] {
  const numbers = text.match(/\d+(?:\.\d+)?/g) ?? [];
  return numbers.map((number) => number.replace('.', '').replace(/^0+/, ''));
}
/** Nobody writes down more, and no step of a worked check needs more. */
const LONGEST = 8;

describe('the working of every formula', () => {
  const calls = allFormulas().flatMap(({ name, checks }) => checks.map(({ call }) => [name, call] as const));
  it.each(calls)('%s: %s', (_, call) => {
    const sheet = calculate(figures(call), [{ file: 'shop.md', text: SHOP }]);
    expect(sheet.findings().filter(({ severity }) => severity === 'error')).toEqual([]);
    const shown = steps(sheet);
    expect(shown.length).toBeGreaterThan(0);
    shown.forEach(expectTrue);
    for (const { words, expression, figures: put, result } of shown)
      for (const text of [words ?? '', expression, put, result])
        expect(
          digitsOf(text).filter(({ length }) => length > LONGEST),
          text,
        ).toEqual([]);
  });
});

describe('figures put in', () => {
  it('take the place of names, step by step', () => {
    const sheet = calculate(figures('ball = 30 mm', 'ball_on_shank(ball, 12 mm)'));
    expect(steps(sheet).slice(0, 3)).toMatchObject([
      { name: 'joint', expression: 'asin(neck / ball)', figures: 'asin(12 mm / 30 mm)' },
      { name: 'tilt', expression: 'joint / 2', result: '11.789°' },
      { name: 'ring', expression: 'ball * cos(tilt)', figures: '30 mm * cos(11.789°)', result: '29.367 mm' },
    ]);
  });

  it('carry digits enough to arrive at the result', () => {
    const sheet = calculate(figures('a = 1 mm / 3', 'a * 100000'));
    const [step] = steps(sheet);
    expect(step?.result).toBe('33333.333 mm');
    expect(step && expectTrue(step)).toBeUndefined();
  });

  it('are put in brackets where a sign or a power would read otherwise', () => {
    const figuresOf = (...lines: readonly string[]): string | undefined =>
      steps(calculate(figures(...lines)))[0]?.figures;
    expect(figuresOf('a = -5 mm', '3 mm - a')).toBe('3 mm - (-5 mm)');
    expect(figuresOf('a = 5 mm', 'a ^ 2')).toBe('(5 mm) ^ 2');
    expect(figuresOf('a = 5', 'a ^ 2')).toBe('5 ^ 2');
    expect(figuresOf('v = 24 m/min', 'f = 2 mm/rev', 'v / f')).toBe('24 m/min / (2 mm/rev)');
    expect(figuresOf('a = 5 mm', '-a')).toBe('-5 mm');
    expect(figuresOf('s = ball_on_shank(30 mm, 12 mm)', 's.ring / 2')).toBe('29.367 mm / 2');
  });

  it('give the result for any sum, product and root of given sizes', () => {
    const size = fc.double({ min: 0.001, max: 500, noNaN: true }).map((x) => Number(x.toPrecision(7)));
    const line = fc.constantFrom(
      'a * b / c',
      'hypot(a, b) - c',
      '(a - b) * c',
      'a ^ 2 / b + c',
      'atan(a / b)',
      '-a + b - c',
    );
    fc.assert(
      fc.property(size, size, size, line, (a, b, c, expression) => {
        const sheet = calculate(figures(`a = ${a} mm`, `b = ${b} in`, `c = ${c} mm`, expression));
        const shown = steps(sheet);
        expect(shown.length).toBe(1);
        shown.forEach(expectTrue);
      }),
      { numRuns: 300 },
    );
  });
});
