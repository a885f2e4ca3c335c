/** What calls of formulas answer, field by field and item by item, with the limits that reach them. */
import { describe, expect, it } from 'vitest';
import { type Sheet, calculate, calculateLines, parameterDimension } from '../../src/engine/index';
import { LENGTH, NUMBER, SPEED, TURN_RATE } from '../../src/quantity/dimension';
import type { Quantity } from '../../src/quantity/value';
import { formulaNamed } from '../../src/trade/index';

const lines = (...text: string[]): Sheet => calculateLines(`${text.join('\n')}\n`);

function field(sheet: Sheet, name: string): readonly Quantity[] {
  const value = sheet.valueOf('a');
  const part = value?.kind === 'record' ? value.fields.get(name) : value;
  if (part?.kind === 'list') return part.items;
  if (part?.kind !== 'number') throw new Error(`no ${name}: ${JSON.stringify(sheet.findings())}`);
  return [part];
}
const ends = (of: readonly Quantity[]): readonly (readonly number[] | undefined)[] =>
  of.map(({ spread }) => spread?.[0]?.at);
const WORDS = ['words-do-not-calculate'];
const ZEROS = (count: number): string => '0'.repeat(count);

describe('limits reach', () => {
  it('each item of a list by itself', () => {
    const sheet = lines('d = 3000 mm ± 1', 'a = cut_list([d, 2 m], 6 m, 3 mm)');
    expect(ends(field(sheet, 'order'))).toEqual([[2999, 3001], undefined]);
    expect(ends(field(sheet, 'left'))).toEqual([[995, 993]]);
  });

  it('no item of a list that has more items at one of them', () => {
    // Two pieces of 3 m fill a bar of 6 m with nothing for the cut; a millimetre more takes a second bar.
    const sheet = lines('d = 3000 mm ± 1', 'a = cut_list([d, 3 m], 6 m, 0 mm)');
    expect(ends(field(sheet, 'left'))).toEqual([undefined]);
    expect(ends(field(sheet, 'order'))).toEqual([
      [3000, 3001],
      [2999, 3000],
    ]);
    expect(sheet.findings()).toMatchObject([{ code: 'choice-at-limit', data: { choices: ['1', '2'] } }]);
    // With one bar too few at one input's limit, another input's are left out as well.
    const two = lines('e = 2000 mm ± 2', 'd = 4000 mm ± 1', 'a = cut_list([d, e], 6001 mm, 0 mm)');
    expect(ends(field(two, 'left'))).toEqual([undefined]);
  });

  it('only the fields that they move', () => {
    const sheet = lines('x = 5 mm ± 0.1', 'a = bolt_circle(60 mm, 3, centre_x: x)');
    expect(field(sheet, 'chord').map(({ spread }) => spread)).toEqual([null]);
    expect(ends(field(sheet, 'y'))).toEqual([undefined, undefined, undefined]);
    expect(ends(field(sheet, 'x'))[0]).toEqual([34.9, 35.1]);
  });

  it('a result from one side', () => {
    const sheet = lines('d = 20 mm +0.1/0 mm', 'a = 1 * spindle_speed(24 m/min, d)');
    // 24000 / (pi d).
    expect(ends(field(sheet, ''))[0]).toEqual([
      expect.closeTo(24000 / Math.PI / 20, 9),
      expect.closeTo(24000 / Math.PI / 20.1, 9),
    ]);
  });

  it('what is worked out from an extreme at the place where it is', () => {
    // The extreme of 20 + 3 mm at atan(12/16) = 36.87°, where the angle itself counts as much.
    const sheet = lines(
      't = 35° ± 10°',
      'x = ball_centre_from_end(16 mm, t, 30 mm, 6 mm, chamfer: 3 mm)',
      'a = x - t * 1 mm / 1°',
    );
    expect(ends(field(sheet, ''))[0]?.[2]).toBeCloseTo(23 - (Math.atan(12 / 16) * 180) / Math.PI, 9);
    // Between the ends of a band without an extreme nothing is asked for.
    const plain = lines('t = 20° ± 5°', 'a = 1 * ball_centre_from_end(16 mm, t, 30 mm, 6 mm, chamfer: 3 mm)');
    expect(field(plain, '')[0]?.spread?.[0]).not.toHaveProperty('along');
  });
});

describe('what no number can hold', () => {
  it('is told once for the whole call', () => {
    for (const call of [
      `spindle_speed(1${ZEROS(304)} m/min, 0.${ZEROS(9)}1 mm)`,
      `hole_grid(3, 3, 1${ZEROS(308)} mm, 1${ZEROS(308)} mm)`,
    ]) {
      const sheet = lines(`a = ${call}`);
      expect(sheet.findings()).toMatchObject([
        { code: 'no-finite-result', column: 4, endColumn: 4 + call.length },
      ]);
      expect(sheet.valueOf('a')).toBeNull();
    }
  });

  it('at a limit alone is told with the input', () => {
    const sheet = lines(
      `d = 0.${ZEROS(9)}1 mm ± 0.${ZEROS(9)}0999999999`,
      `a = spindle_speed(1${ZEROS(292)} m/min, d)`,
    );
    expect(sheet.findings()).toMatchObject([{ code: 'fails-at-limit', line: 1, data: { input: 'd' } }]);
    expect(sheet.valueOf('a')).toBeNull();
  });
});

it('money of formulas is in the currency of the call', () => {
  const [cost] = field(lines('a = operation_cost(2 h, 85 AUD/h)'), '');
  expect([cost?.value, cost?.unit.symbol]).toEqual([170, 'AUD']);
});

it('lengths of formulas follow the system of the note', () => {
  const unit = (units: string): string | undefined => {
    const call = 'a = trial_boss(29.5 mm, 30 mm, 12 mm)';
    const sheet = calculate(`---\nunits: ${units}\n---\n\`\`\`figures\n${call}\n\`\`\`\n`);
    return field(sheet, 'wanted')[0]?.unit.symbol;
  };
  expect([unit('in'), unit('mm')]).toEqual(['in', 'mm']);
  // What is no system is none, and asks for nothing.
  expect([unit('ells'), unit('')]).toEqual(['mm', 'mm']);
});

it.each([
  ['quantity: 3', 'quantity', [6], []],
  ['quantity: 012', 'quantity', [24], []],
  ...['ten', '1234567890', '3.5', '3 pcs'].map(
    (words) => [`quantity: ${words}`, 'quantity', [], WORDS] as const,
  ),
  ['drawing: 0815', 'drawing', [], WORDS],
] as const)(
  'of the front matter only a count of pieces takes part in arithmetic: `%s`',
  (head, field, value, codes) => {
    const sheet = calculate(`---\n${head}\n---\n\`\`\`figures\na = 2 * job.${field}\n\`\`\`\n`);
    const a = sheet.valueOf('a');
    expect(a?.kind === 'number' ? [a.value] : []).toEqual(value);
    expect(sheet.findings().map(({ code }) => code)).toEqual(codes);
  },
);

it('a parameter takes the dimension of its unit, and a code, a word or a card takes none', () => {
  const dimensions = (formula: string): unknown =>
    formulaNamed(formula)?.parameters.map((parameter) => parameterDimension(parameter));
  expect(dimensions('spindle_speed')).toEqual([SPEED, LENGTH]);
  expect(dimensions('division_chord')).toEqual([LENGTH, NUMBER, NUMBER]);
  expect(dimensions('circle_from_touches')).toEqual([LENGTH, LENGTH, LENGTH, null]);
  expect(dimensions('fit')).toEqual([LENGTH, null, null]);
  expect(dimensions('speed_step')).toEqual([TURN_RATE, null]);
});
