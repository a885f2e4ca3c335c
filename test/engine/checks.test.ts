/** Checks and asked limits, decided at nominal and over the whole band. The rules are the notation's own, the figures by hand. */
import { describe, expect, it } from 'vitest';
import { type Finding, type Row, type Sheet, calculateLines } from '../../src/engine/index';
import { band } from '../../src/quantity/limits';
import type { Quantity } from '../../src/quantity/value';

const lines = (...text: string[]): Sheet => calculateLines(`${text.join('\n')}\n`);
const found = (...text: string[]): readonly Finding[] => lines(...text).findings();
const codes = (...text: string[]): string[] => found(...text).map((f) => f.code);
const lastRow = (...text: string[]): Row | undefined =>
  lines(...text)
    .rows()
    .at(-1);
const number = (sheet: Sheet, name: string): Quantity => {
  const value = sheet.valueOf(name);
  return value?.kind === 'number' ? value : expect.fail(name);
};

describe('a check at nominal', () => {
  // Equal within 1e-9 of the size: half of that either way is equal, five times that is not.
  const CASES: readonly (readonly [string, readonly string[]])[] = [
    ['1000 mm', ['<=', '>=', '==']],
    ['1000.0000005 mm', ['<=', '>=', '==']],
    ['999.9999995 mm', ['<=', '>=', '==']],
    ['1000.000005 mm', ['>=', '>', '!=']],
    ['999.999995 mm', ['<=', '<', '!=']],
  ];
  it.each(CASES)('of %s against 1000 mm', (left, holding) => {
    for (const comparison of ['<=', '>=', '<', '>', '==', '!=']) {
      const row = lastRow(`${left} ${comparison} 1000 mm`);
      const holds = holding.includes(comparison);
      expect([comparison, row?.check?.holds, row?.check?.overBand]).toEqual([comparison, holds, holds]);
      expect(row?.findings.map((f) => f.code)).toEqual(holds ? [] : ['check-fails']);
    }
  });
  it('of nothing against nothing is equal', () => {
    expect(codes('0 mm == 0 mm', '0 mm <= 0 mm')).toEqual([]);
    expect(codes('0 mm < 0 mm')).toEqual(['check-fails']);
  });
  it('of two kinds is refused', () => {
    expect(lastRow('5 mm < 3 s')).toMatchObject({ check: null, findings: [{ code: 'unit-mismatch' }] });
  });
  it('says what failed, from its first term to its last, with the comment', () => {
    expect(found('2 mm < 1 mm # too short')).toMatchObject([
      {
        code: 'check-fails',
        column: 0,
        endColumn: 11,
        data: { text: '2 mm < 1 mm', comparison: '<', left: 2, right: 1, unit: 'mm', comment: 'too short' },
      },
    ]);
    expect(found('2 mm < 1 mm')[0]?.data['comment']).toBeNull();
  });
});

describe('a check of several', () => {
  const deciding = (text: string, ...before: string[]): unknown => {
    const check = lastRow(...before, text)?.check;
    return check && [check.holds, check.left.value, check.right.value];
  };
  it('is decided by the pair with the least room, the first of equals', () => {
    expect(deciding('1 mm < 2 mm < 10 mm')).toEqual([true, 1, 2]);
    expect(deciding('1 mm < 9 mm < 10 mm')).toEqual([true, 9, 10]);
    expect(deciding('1 mm < 2 mm < 3 mm')).toEqual([true, 1, 2]);
  });
  it('is decided by the first that fails, and nothing after it is looked at', () => {
    expect(deciding('1 mm < 1.1 mm < 0.5 mm')).toEqual([false, 1.1, 0.5]);
    expect(deciding('3 mm < 2 mm < 1 mm')).toEqual([false, 3, 2]);
    expect(codes('2 mm < 1 mm < 3 s')).toEqual(['check-fails']);
  });
  it('is decided by one that does not hold over the band before one that is merely close', () => {
    const x = 'x = 2 mm ± 1.5';
    expect(deciding('1 mm < 1.05 mm < x', x)).toEqual([true, 1.05, 2]);
    expect(codes(x, '1 mm < 1.05 mm < x')).toEqual(['check-not-over-band']);
    // One that fails comes before either.
    expect(codes(x, '1 mm < x < 0.5 mm')).toEqual(['check-fails']);
  });
});

describe('a check over the band', () => {
  const x = 'x = 1000 mm ± 1';
  // The band of x is 999 mm to 1001 mm; 1e-9 of the size is a thousandth of a micrometre here.
  const WARNED = [
    'x <= 1000.999995 mm',
    'x < 1001 mm',
    'x >= 999.000005 mm',
    'x > 999 mm',
    'x == 1000 mm',
    'x != 1000.5 mm',
    'x != 1001 mm',
    '1000.9 mm > x',
    '999.1 mm < x',
  ];
  const QUIET = [
    'x <= 1001 mm',
    'x <= 1000.9999995 mm',
    'x < 1001.00001 mm',
    'x >= 999 mm',
    'x >= 999.0000005 mm',
    'x > 998.9999 mm',
    'x != 1002 mm',
    'x != 998 mm',
    'x <= x + 0.001 mm',
    '1001.1 mm > x',
  ];
  it.each(WARNED)('does not hold: %s', (check) => {
    expect(codes(x, check)).toEqual(['check-not-over-band']);
    expect(lastRow(x, check)?.check).toMatchObject({ holds: true, overBand: false });
  });
  it.each(QUIET)('holds: %s', (check) => {
    expect(codes(x, check)).toEqual([]);
    expect(lastRow(x, check)?.check).toMatchObject({ holds: true, overBand: true });
  });
  it('takes as equal what is within rounding on both sides, and not what is so on one', () => {
    expect(codes('x = 1000 mm ± 0.0000001', 'x == 1000 mm')).toEqual([]);
    expect(codes('x = 1000 mm +0.5/0 mm', 'x == 1000 mm')).toEqual(['check-not-over-band']);
    expect(codes('x = 1000 mm 0/-0.5 mm', 'x == 1000 mm')).toEqual(['check-not-over-band']);
  });
  it('rounds by the larger of both', () => {
    // 5e-7 mm is less than a thousand-millionth of 1000 mm, though more than that of 1 mm.
    expect(codes('x = 1000 mm ± 999', 'x >= 1.0000005 mm')).toEqual([]);
  });
  it('says where more inputs meet than can be followed', () => {
    const of = (name: string): string[] => {
      const parts = Array.from({ length: 33 }, (_, i) => `${name}${i}`);
      return [...parts.map((part) => `${part} = 1 mm ± 0.01`), `${name}_all = ${parts.join(' + ')}`];
    };
    expect(codes(...of('p'), ...of('q'), 'p_all < q_all + 1 mm')).toEqual(['too-many-inputs']);
    expect(codes(...of('p'), ...of('q'), 'p_all <= q_all')).toEqual(['too-many-inputs']);
  });
});

describe('asked limits', () => {
  it('from one size to another have the middle as nominal', () => {
    const sheet = lines('d = 12.40 mm .. 12.45 mm');
    expect(number(sheet, 'd').value).toBeCloseTo(12.425, 12);
    expect(band(number(sheet, 'd'))).toMatchObject({ low: 12.4, high: 12.45 });
  });
  it('from one size to another are of one kind, the smaller first', () => {
    expect(found('d = 5 mm .. 6 deg')).toMatchObject([{ code: 'unit-mismatch', data: { offers: [] } }]);
    expect(lines('d = 5 mm .. 6 deg').valueOf('d')).toBeNull();
    expect(codes('d = 5 mm .. 5 mm')).toEqual(['limits-reversed']);
    expect(found('x = 6 mm', 'd = 2 * x .. 12.45')).toMatchObject([
      { code: 'unit-mismatch', data: { offers: ['12.45 mm'] } },
    ]);
    expect(found('x = 6', 'd = 2 * x .. 12.45 mm')).toMatchObject([
      { code: 'unit-mismatch', data: { offers: [] } },
    ]);
  });
  it('of another kind are refused once', () => {
    for (const text of ['d = 30 mm ± 1 s', 'd = 10 AUD ± 1 EUR']) {
      expect(codes(text), text).toEqual(['unit-mismatch']);
      expect(lines(text).valueOf('d'), text).toBeNull();
    }
  });
  it('without a unit take that of a literal only, except for nothing', () => {
    const x = 'x = 10 mm';
    expect(codes(x, 'd = 2 * x ± 0.05')).toEqual(['limit-without-unit']);
    expect(lines(x, 'd = 2 * x ± 0.05').valueOf('d')).toBeNull();
    expect(codes(x, 'd = 2 * x ± 0')).toEqual([]);
    expect(number(lines(x, 'd = 2 * x ± 0'), 'd')).toMatchObject({ value: 20, spread: null });
    expect(codes(x, 'd = 2 * x 0/-0.05')).toEqual(['limit-without-unit']);
    expect(lines(x, 'd = 2 * x 0/-0.05').valueOf('d')).toBeNull();
  });
  it('of a temperature are differences, and so is how wide they are', () => {
    // 20 °C is 293.15 K.
    const t = 't = 20 °C ± 2 °C';
    expect(band(number(lines(t), 't'))).toMatchObject({
      low: expect.closeTo(291.15, 9),
      high: expect.closeTo(295.15, 9),
    });
    expect(found(t, 'u = t ± 1 °C')).toMatchObject([
      {
        code: 'band-wider-than-asked',
        data: { is: expect.closeTo(4, 9), wanted: expect.closeTo(2, 9), unit: '°C' },
      },
    ]);
  });
  it('are told in the degrees of the line', () => {
    expect(found('t = 68 °F ± 2 °F', 'u = t ± 1 °F')).toMatchObject([
      { data: { is: expect.closeTo(4, 9), wanted: expect.closeTo(2, 9), unit: '°F' } },
    ]);
    const upper = band(number(lines('t = 20 °C +2/-1 °C'), 't'));
    expect(upper).toMatchObject({ low: expect.closeTo(292.15, 9), high: expect.closeTo(295.15, 9) });
  });
  it('narrower than what comes in are warned of, with the share of the largest; rounding is no difference', () => {
    const sheet = lines('a = 20 mm ± 0.03', 'b = 10 mm ± 0.01', 'c = a + b ± 0.02 mm');
    expect(sheet.findings()).toMatchObject([
      {
        code: 'band-wider-than-asked',
        data: {
          is: expect.closeTo(0.08, 9),
          wanted: expect.closeTo(0.04, 9),
          share: expect.closeTo(0.75, 9),
        },
      },
    ]);
    expect(codes('a = 20 mm ± 0.05', 'b = a ± 0.05 mm')).toEqual([]);
    expect(codes('a = 20 mm ± 0.05000000025', 'b = a ± 0.05 mm')).toEqual(['band-wider-than-asked']);
  });
  it('by a code say which millimetres they mean on an inch size, and on no metric one', () => {
    expect(codes('d = 1 in H7')).toEqual(['code-on-inch-size']);
    for (const size of ['25 mm', '2.5 cm', '0.025 m', '25000 µm'])
      expect(codes(`d = ${size} H7`), size).toEqual([]);
  });
});

describe('a line', () => {
  it('that fails before it is converted says only why', () => {
    expect(codes('x = 1 mm + 1 s to mm')).toEqual(['unit-mismatch']);
    expect(codes('1 mm + 1 s to mm')).toEqual(['unit-mismatch']);
  });
  it('tells both what it waits for and what is wrong', () => {
    expect(lastRow('x = 1 mm + 1 s', 'y = x + nope')).toMatchObject({
      waitsFor: ['x'],
      findings: [{ code: 'unknown-name' }],
    });
  });
  it('that looks up a doubled name waits for it', () => {
    expect(lastRow('x = 1 mm', 'x = 2 mm', 'y = 2 * x')).toMatchObject({ waitsFor: ['x'], findings: [] });
  });
});
