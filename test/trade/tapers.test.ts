/** Support of slender work and tapers: the tables whole, every limit broken and just missed, every verdict. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { calculateLines } from '../../src/engine/index';
import { formulaNamed } from '../../src/trade';
import { isRefusal } from '../../src/trade/formula';
import { type Arguments, answer, callOf, card, given, materialCard, number, says } from './given';

interface Table {
  readonly morse: readonly {
    readonly no: number;
    readonly taper_per_foot: number;
    readonly one_in: number;
    readonly gauge_dia_mm: number;
    readonly half_angle_deg: number;
  }[];
}
const { morse } = JSON.parse(readFileSync(new URL('../data/morse.json', import.meta.url), 'utf8')) as Table;

const refusal = (name: string, args: Arguments): string => {
  const result = formulaNamed(name)?.compute(given(args));
  return typeof result === 'object' && isRefusal(result) ? result.refused : '';
};
const words = (call: string, field: string): unknown => {
  const { formula, args } = callOf(call);
  return answer(formula.name, args)[field];
};

describe('Morse tapers', () => {
  it.each(morse)('MT$no', ({ no, taper_per_foot, one_in, gauge_dia_mm, half_angle_deg }) => {
    const got = answer('morse_taper', { number: `MT${no}` });
    expect(got['per_foot']).toBeCloseTo(taper_per_foot, 9);
    expect(got['gauge_diameter']).toBeCloseTo(gauge_dia_mm, 9);
    expect(Math.abs(Number(got['one_in']) - one_in)).toBeLessThan(1e-3);
    expect(Math.abs(Number(got['half_angle']) - half_angle_deg)).toBeLessThan(1e-5);
    expect(answer('taper_callout', { taper: `MT${no}` })['per_foot']).toBeCloseTo(taper_per_foot, 9);
  });
  it('are seven', () => {
    expect(morse.map(({ no }) => no)).toEqual([0, 1, 2, 3, 4, 5, 6]);
    for (const name of ['MT7', 'MT', 'mt2', 'MT02'])
      expect(refusal('morse_taper', { number: name })).toContain('`MT0` to `MT6`');
  });
});

describe('errors', () => {
  it.each([
    [
      'deflection_in_chuck(steel_C45, 0 N, 12 mm, 30 mm)',
      'more than zero',
      'deflection_in_chuck(steel_C45, 1 N, 12 mm, 30 mm)',
    ],
    [
      'deflection_in_chuck(steel_C45, 9 N, 12 mm, 30 mm, 31 mm)',
      'at most 30 mm',
      'deflection_in_chuck(steel_C45, 9 N, 12 mm, 30 mm, 30 mm)',
    ],
    [
      'deflection_with_centre(steel_C45, 9 N, 12 mm, 90 mm, -1 mm)',
      'at most 90 mm',
      'deflection_with_centre(steel_C45, 9 N, 12 mm, 90 mm, 0 mm)',
    ],
    [
      'longest_overhang(steel_C45, 60 N, 12 mm, 1.2 mm)',
      'below 1.2 mm',
      'longest_overhang(steel_C45, 60 N, 12 mm, 1.1999 mm)',
    ],
    [
      'longest_overhang(steel_C45, 60 N, 12 mm, 0 mm)',
      'more than zero',
      'longest_overhang(steel_C45, 60 N, 12 mm, 0.01 mm)',
    ],
    ['taper(20 mm, 20 mm, 80 mm)', 'the larger diameter', 'taper(20.01 mm, 20 mm, 80 mm)'],
    ['taper(20 mm, 0 mm, 80 mm)', 'more than zero', 'taper(20 mm, 0.1 mm, 80 mm)'],
    ['taper_length(1:10, 20 mm, 20 mm)', 'the larger diameter', 'taper_length(1:10, 20.1 mm, 20 mm)'],
    [
      'tailstock_setover(38 mm, 38 mm, 100 mm, 300 mm)',
      'the larger diameter',
      'tailstock_setover(38.1 mm, 38 mm, 100 mm, 300 mm)',
    ],
    [
      'tailstock_setover(39 mm, 38 mm, 100 mm, 99 mm)',
      '100 mm or more',
      'tailstock_setover(39 mm, 38 mm, 100 mm, 100 mm)',
    ],
    ['compound_slide(0°, lathe)', 'more than 0°', 'compound_slide(0.1°, lathe)'],
    ['compound_slide(90°, lathe)', 'less than 90°', 'compound_slide(89.9°, lathe)'],
    ['sine_bar(0°, 100 mm)', 'more than 0°', 'sine_bar(0.1°, 100 mm)'],
    ['sine_bar(90°, 100 mm)', 'less than 90°', 'sine_bar(89°, 100 mm)'],
    [
      'taper_over_rollers(40 mm, 40 mm, 50 mm, 8 mm)',
      'small end',
      'taper_over_rollers(40 mm, 40.1 mm, 50 mm, 8 mm)',
    ],
    [
      'taper_over_rollers(16 mm, 18 mm, 50 mm, 8 mm)',
      'rollers below 7.92 mm',
      'taper_over_rollers(16.5 mm, 18.5 mm, 50 mm, 8 mm)',
    ],
    // Flanks of atan(0.02) on either side: 16 mm over 1 + 1 / tan(44.427°), by hand, is 7.92001 mm.
    [
      'taper_over_rollers(16 mm, 18 mm, 50 mm, 7.9201 mm)',
      'rollers below 7.92 mm',
      'taper_over_rollers(16 mm, 18 mm, 50 mm, 7.9199 mm)',
    ],
    // Flanks of atan(1) / 2 more: 30° over 1 + 1 / tan(22.5°) is 2 + sqrt(2) times the roller.
    [
      'taper_over_rollers(34.142 mm, 134.142 mm, 50 mm, 10.0002 mm)',
      'rollers below 10 mm',
      'taper_over_rollers(34.142 mm, 134.142 mm, 50 mm, 9.9998 mm)',
    ],
    [
      'taper_over_balls(16 mm, 2 mm, 16 mm, 80 mm)',
      'change them round',
      'taper_over_balls(16.1 mm, 2 mm, 16 mm, 80 mm)',
    ],
    [
      'taper_over_balls(20 mm, 2 mm, 16 mm, 6 mm)',
      'more than 6 mm',
      'taper_over_balls(20 mm, 2 mm, 16 mm, 6.01 mm)',
    ],
    ['gauge_stand_off(1:20, -0.1 mm)', 'metal is gone', 'gauge_stand_off(1:20, 0 mm)'],
    [
      'taper_found([12, 12.1] mm, [10, 70, 90] mm)',
      '2 sizes and 3 places',
      'taper_found([12, 12.1] mm, [10, 70] mm)',
    ],
    [
      'taper_found([12, 12.1] mm, [10, 10] mm)',
      'two places or more',
      'taper_found([12, 12.1] mm, [10, 10.1] mm)',
    ],
    [
      'tailstock_correction([12, 12.1] mm, [10, 70] mm, 59 mm)',
      '60 mm or more',
      'tailstock_correction([12, 12.1] mm, [10, 70] mm, 60 mm)',
    ],
    [
      'taper_rescue([12, 12.1] mm, 12.1 mm, 12.1 mm)',
      'change them round',
      'taper_rescue([12, 12.1] mm, 12.09 mm, 12.1 mm)',
    ],
  ])('%s', (call, text, near) => {
    expect(says(call).join(' ')).toContain(text);
    expect(says(near)).toEqual([]);
  });
});

describe('warnings', () => {
  it.each([
    [
      'deflection_in_chuck(steel_C45, 9 N, 12 mm, 48.1 mm)',
      'hold 48 mm or less',
      'deflection_in_chuck(steel_C45, 9 N, 12 mm, 48 mm)',
    ],
    [
      'deflection_with_centre(steel_C45, 9 N, 12 mm, 120.1 mm)',
      '120 mm or less',
      'deflection_with_centre(steel_C45, 9 N, 12 mm, 120 mm)',
    ],
    [
      'deflection_between_centres(steel_C45, 9 N, 12 mm, 120.1 mm)',
      '120 mm or less',
      'deflection_between_centres(steel_C45, 9 N, 12 mm, 120 mm)',
    ],
    [
      'tailstock_setover(42.001 mm, 38 mm, 100 mm, 300 mm)',
      'Up to 6 mm',
      'tailstock_setover(42 mm, 38 mm, 100 mm, 300 mm)',
    ],
    ['sine_bar(60.01°, 100 mm)', '29.99°', 'sine_bar(60°, 100 mm)'],
    // A line through 0, 0.03 and 0.02 rises 0.02 and misses by 0.0133: more than half.
    [
      'taper_found([12, 12.03, 12.02] mm, [0, 50, 100] mm)',
      'the work is bowed',
      'taper_found([12, 12.019, 12.02] mm, [0, 50, 100] mm)',
    ],
    [
      'tailstock_correction([12, 12.03, 12.02] mm, [0, 50, 100] mm, 200 mm)',
      '0.013 mm',
      'tailstock_correction([12, 12.019, 12.02] mm, [0, 50, 100] mm, 200 mm)',
    ],
    // The middle one of three misses by two thirds of how far it stands out: 0.003002 and 0.002998 mm.
    [
      'taper_found([12, 12.004503, 12] mm, [0, 50, 100] mm)',
      'the work is bowed',
      'taper_found([12, 12.004497, 12] mm, [0, 50, 100] mm)',
    ],
    // A line through 0, 1.25 and 1 times the rise misses the middle one by half of the rise.
    [
      'taper_found([12, 12.05001, 12.04] mm, [0, 50, 100] mm)',
      'the work is bowed',
      'taper_found([12, 12.04999, 12.04] mm, [0, 50, 100] mm)',
    ],
  ])('%s', (call, text, near) => {
    expect(says(call, 'warning').join(' ')).toContain(text);
    expect(says(near, 'warning')).toEqual([]);
  });
});

describe('cards and call-outs that say too little', () => {
  it('names the line to write', () => {
    const bare = card('bare', {});
    expect(refusal('compound_slide', { half_angle: 3, machine: bare })).toContain(
      '`compound_zero: along the bed`',
    );
    expect(refusal('cross_slide', { off_diameter: 3, machine: bare })).toContain(
      '`cross_slide: the dial reads diameter`',
    );
    const soft = materialCard('soft', { modulus: [0, 'N/mm^2'] });
    for (const name of ['deflection_in_chuck', 'support_compared', 'longest_overhang'])
      expect(
        refusal(name, { material: soft, force: 9, diameter: 9, overhang: 9, free_length: 9, allowed: 0.1 }),
      ).toContain('`modulus = 210000 N/mm^2`');
  });
  it('does not choose where a card says both', () => {
    const both = {
      ...card('both', {}),
      fields: new Map([['cross_slide', { kind: 'text', text: 'diameter or radius' } as const]]),
    };
    expect(refusal('cross_slide', { off_diameter: 3, machine: both })).toContain('does not say');
  });
  it('refuses what is no taper, and a taper past its point', () => {
    expect(refusal('taper_callout', { taper: 'MT9' })).toContain('`1:10` or `7:24`');
    expect(refusal('taper_end', { taper: '1:10', diameter: 4, distance: 40 })).toContain(
      '40 mm from where it is 4 mm',
    );
    expect(refusal('taper_end', { taper: '1:10', diameter: 4, distance: 39 })).toBe('');
    for (const name of ['taper_end', 'taper_length', 'gauge_stand_off'])
      expect(
        refusal(name, { taper: 'H7', diameter: 4, distance: 40, large: 2, small: 1, stand_off: 1 }),
      ).toContain('no call-out');
  });
});

describe('what to do about it', () => {
  it.each([
    [3, 'the chuck alone will do'],
    [3.01, 'the chuck alone for light cuts, otherwise a centre'],
    [4, 'the chuck alone for light cuts, otherwise a centre'],
    [4.01, 'bear the end with a centre'],
    [10, 'bear the end with a centre'],
    [10.01, 'a centre and a steady'],
  ])('%d diameters', (long, advice) =>
    expect(words(`support_compared(steel_C45, 9 N, 10 mm, ${10 * long} mm)`, 'advice')).toBe(advice),
  );
  it.each([
    ['[12.0199, 12.01] mm, 12 mm, 12.02 mm', 'inside the limits everywhere'],
    ['[12.02, 12] mm, 12 mm, 12.02 mm', 'inside the limits everywhere'],
    ['[12.02, 11.9999] mm, 12 mm, 12.02 mm', 'too late: the smallest place is below the limit'],
    ['[12.04, 12.01] mm, 12 mm, 12.02 mm', 'a spring cut can bring it in'],
    ['[12.04001, 12.01] mm, 12 mm, 12.02 mm', 'a file or a strip can bring the large places in'],
    ['[12.07, 12.01] mm, 12 mm, 12.02 mm', 'a file or a strip can bring the large places in'],
    ['[12.07001, 12.05001] mm, 12 mm, 12.02 mm', 'one more cut, with the tailstock left as it is'],
    ['[12.07001, 12.05] mm, 12 mm, 12.02 mm', 'take the taper out first, then one more cut'],
  ])('%s', (args, verdict) => expect(words(`taper_rescue(${args})`, 'verdict')).toBe(verdict));
  it('says which way', () => {
    expect(words('tailstock_correction([12, 12] mm, [0, 50] mm, 90 mm)', 'direction')).toBe('leave it');
    expect(words('taper_found([12, 12] mm, [0, 50] mm)', 'shape')).toBe('no taper');
  });
});

describe('laws that do not come from the formulas', () => {
  const inChuck = (force: number, diameter: number, overhang: number): number =>
    number(
      'deflection_in_chuck',
      { material: materialCard('m', { modulus: [70000, 'N/mm^2'] }), force, diameter, overhang },
      'deflection',
    );
  it('deflection goes with the third power of length and the fourth of the diameter', () => {
    expect(inChuck(60, 12, 60) / inChuck(60, 12, 30)).toBeCloseTo(8, 9);
    expect(inChuck(60, 12, 60) / inChuck(60, 24, 60)).toBeCloseTo(16, 9);
  });
  it('a limit on a diameter travels into the angle of its taper', () => {
    const sheet = calculateLines('d = 25 mm ± 0.1 mm\nt = taper(d, 20 mm, 80 mm)\nh = t.half_angle\n');
    expect(sheet.findings()).toEqual([]);
    expect(sheet.rows()[2]?.value).toMatchObject({ spread: [expect.anything()] });
  });
  it('more readings of one line find the same taper as two', () => {
    const two = answer('taper_found', { sizes: [20, 20.05], places: [0, 100] });
    const many = answer('taper_found', { sizes: [20.05, 20.02, 20, 20.03], places: [100, 40, 0, 60] });
    for (const field of ['per_metre', 'over_places', 'at_zero', 'off_line'])
      expect(many[field], field).toBeCloseTo(Number(two[field]), 9);
  });
});
