/** Readings that are asked about before anything is cut: too far apart, most likely a slip, or taken at a bare number. */
import { describe, expect, it } from 'vitest';
import { type Finding, type Sheet, calculateLines } from '../../src/engine/index';

const lines = (...text: string[]): Sheet => calculateLines(`${text.join('\n')}\n`);
const found = (...text: string[]): readonly Finding[] => lines(...text).findings();

describe('readings', () => {
  it('further apart than their limits allow are to be trued up before what is left comes off', () => {
    // 25 g6 is 24.980 to 24.993, 30 H7 30.000 to 30.021 (ISO 286-2). 25.100 is 0.107 over, and 0.115 from 24.985; the limits leave 0.013.
    const g6 = 'pin = 25 mm g6';
    const [told] = found(g6, 'pin measured 24.985 mm at 160 mm, 25.10 mm at 10 mm');
    expect(told).toMatchObject({
      code: 'readings-apart',
      severity: 'info',
      column: 34,
      related: [{ line: 0 }],
    });
    expect(told?.message).toBe(
      'The readings of `pin` are 0.115 mm apart, its limits allow 0.013 mm: true it up before 0.107 mm comes off. What can still save it says `taper_rescue(pin.readings, 24.98 mm, 24.993 mm)`.',
    );
    // Only of a shaft read at places along it.
    for (const places of [
      ['', ''],
      [' at 20 °C', ' at 20 °C'],
    ])
      expect(found(g6, `pin measured 25.10 mm${places[0]}, 24.985 mm${places[1]}`)[0]?.message).toMatch(
        /0\.107 mm comes off\.$/,
      );
    expect(found('bore = 30 mm H7', 'bore measured 29.90 mm at 1 mm, 30.019 mm at 9 mm')).toMatchObject([
      {
        message: expect.stringMatching(
          /^The readings of `bore` are 0\.119 mm .* 0\.1 mm comes off\.$/,
        ) as string,
      },
    ]);
    expect(found('bore = 1 in +0.001/0 in hole', 'bore measured 0.995 in, 1 in')).toMatchObject([
      {
        message: expect.stringMatching(
          /are 0\.005 in apart, its limits allow 0\.001 in: .* 0\.005 in comes/,
        ) as string,
      },
    ]);
  });
  it('no further apart than their limits allow are just what is left', () => {
    // A spread of exactly the limits can be cut in: 12.30 to 12.05 and 12.20 to 11.95.
    const neck = 'neck = 12 mm ± 0.05 shaft';
    const apart = (line: string): unknown => lines(neck, line).rows()[1]?.reading?.apart;
    expect(apart('neck measured 12.30 mm, 12.20 mm')).toBeUndefined();
    expect(apart('neck measured 12.30 mm, 12.199 mm')).toBeCloseTo(0.101, 9);
    expect(found(neck, 'neck measured 12.30 mm, 12.20 mm')).toEqual([]);
    // Where metal is gone, or nobody knows which side is metal, that is told.
    expect(apart('neck measured 12.30 mm, 11.90 mm')).toBeUndefined();
    expect(found(neck, 'neck measured 12.30 mm, 11.90 mm')).toMatchObject([
      { code: 'metal-gone', data: { apart: 0, slip: false } },
    ]);
    expect(lines('x = 12 mm ± 0.05', 'x measured 12.30 mm, 12 mm').rows()[1]?.reading).not.toHaveProperty(
      'apart',
    );
    // Nor one reading, nor where rounding alone is between them and their limits: a thousand-millionth of the size at each.
    expect(lines('x = 0 mm ± 0 mm shaft', 'x measured 1 mm').rows()[1]?.reading).not.toHaveProperty('apart');
    const long = lines('bar = 1000 mm 0/-0.05 mm shaft', 'bar measured 1000.0000009 mm, 999.9499991 mm');
    expect(long.rows()[1]?.reading).toMatchObject({ inside: true });
    expect(long.rows()[1]?.reading).not.toHaveProperty('apart');
    expect(found('neck = 12 mm ± 0.05', 'neck measured 12.30 mm, 12 mm')).toMatchObject([
      { code: 'side-unknown' },
    ]);
    expect(found(neck, 'neck final 12.30 mm, 12 mm')).toMatchObject([{ code: 'outside-limits' }]);
  });

  it('many times too large or too small may be a slip', () => {
    // Limits 9.9 to 10.1: twice is 20.2, half is 4.95, five times 50.5, a fifth 1.98.
    const slip = (sense: string, line: string): unknown =>
      lines(`x = 10 mm ± 0.1 ${sense}`, `x ${line}`).rows()[1]?.reading?.slip;
    const cases: readonly (readonly [string, string, true | undefined])[] = [
      ['shaft', 'measured 50.4 mm', undefined],
      ['shaft', 'measured 50.6 mm', true],
      ['shaft', 'final 50.6 mm', true],
      ['shaft', 'measured 4.96 mm', undefined],
      ['shaft', 'measured 4.94 mm', true],
      ['shaft', 'measured 10 mm, 4.94 mm', true],
      ['hole', 'measured 1.99 mm', undefined],
      ['hole', 'measured 1.97 mm', true],
      ['hole', 'measured 20.1 mm', undefined],
      ['hole', 'measured 20.3 mm', true],
      ['', 'measured 20.1 mm', undefined],
      ['', 'measured 20.3 mm', true],
      ['', 'measured 4.96 mm', undefined],
      ['', 'measured 4.94 mm', true],
      ['', 'measured 10 mm', undefined],
    ];
    for (const [sense, line, is] of cases)
      expect([sense, line, slip(sense, line)]).toEqual([sense, line, is]);
    const exact = (size: string): unknown =>
      lines('x = 6 mm .. 10 mm', `x measured ${size}`).rows()[1]?.reading?.slip;
    expect(['20 mm', '20.1 mm', '3 mm', '2.9 mm'].map(exact)).toEqual([undefined, true, undefined, true]);
    expect(lines('x = 0.5 mm ± 0.1 shaft', 'x measured 5 mm').rows()[1]?.reading?.slip).toBe(true);
    // What may be nothing, as a runout may, is soon twice as much.
    expect(lines('x = 0.01 mm ± 0.01', 'x measured 0.05 mm').rows()[1]?.reading?.slip).toBeUndefined();
    // Then that is asked, not how far apart they are.
    expect(
      lines('x = 10 mm ± 0.1 shaft', 'x measured 10 mm, 100 mm').rows()[1]?.reading?.apart,
    ).toBeUndefined();
    expect(found('x = 10 mm ± 0.1 shaft', 'x measured 10 mm, 100 mm')).toEqual([]);
  });
  it('that may be a slip ask for it before anything else', () => {
    const message = (sense: string, line: string): string =>
      found(`x = 10 mm ± 0.1 ${sense}`, `x ${line}`)[0]?.message ?? '';
    const asks = /\. Did the point or the unit slip\?/;
    expect(message('shaft', 'measured 1 mm')).toBe(
      '`x` is 8.9 mm too small: past 9.9 mm. Did the point or the unit slip? If not, the metal is gone. Tell the customer, or build up, sleeve or start again.',
    );
    expect(message('shaft', 'measured 9 mm')).toMatch(
      /^`x` is 0\.9 mm too small: past 9\.9 mm, and the metal is gone\. T/,
    );
    expect(message('shaft', 'final 1 mm')).toMatch(/at final inspection\. Did the point or the unit slip\?$/);
    expect(message('shaft', 'final 9 mm')).toMatch(/at final inspection\.$/);
    expect(message('', 'measured 1 mm')).toMatch(
      /under its limits\. Did the point or the unit slip\? Write `shaft`/,
    );
    expect(message('', 'measured 9 mm')).not.toMatch(asks);
  });

  it('with a bare number for a place ask what it is of', () => {
    const told = (line: string): unknown =>
      found(line).map(({ code, severity, column, endColumn, message }) => [
        code,
        severity,
        column,
        endColumn,
        message,
      ]);
    expect(told('pin measured 50.00 mm at 45')).toEqual([
      [
        'place-unit',
        'warning',
        25,
        27,
        'At 45 of what? Write `45 mm` or `45 °C`. A mere count needs no `at`.',
      ],
    ]);
    expect(told('pin measured 2 in at 1.5 in, 2 in at 4')).toEqual([
      ['place-unit', 'warning', 37, 38, 'At 4 of what? Write `4 in` or `4 °C`. A mere count needs no `at`.'],
    ]);
    expect(told('blank measured 2 kg at 3')).toEqual([
      ['place-unit', 'warning', 23, 24, 'At 3 of what? Give it its unit. A mere count needs no `at`.'],
    ]);
    expect(found('pieces measured 5 at 3')).toEqual([]);
    // Besides what else is found.
    expect(found('pin = 50 mm h7', 'pin measured 49 mm at 45').map(({ code }) => code)).toEqual([
      'metal-gone',
      'place-unit',
    ]);
  });
});
