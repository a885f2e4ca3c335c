import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import { MOST, hint, valueWords } from '../../src/language/hints';
import type { Text } from '../../src/quantity/value';
import { figures } from './cursor';

/** The hints of a note's lines, in order, null where a line has none. */
function hints(text: string): readonly (string | null)[] {
  const sheet = calculate(text);
  return sheet.rows().map((row) => hint(sheet, row));
}
const last = (...lines: readonly string[]): string | null => hints(figures(...lines)).at(-1) ?? null;

describe('results', () => {
  it('are shown with their limits', () => {
    expect(last('2 mm * 3')).toBe('= 6 mm');
    expect(last('a = 30 mm ± 0.05', 'a * 2')).toBe('= 60 mm ±0.1');
    expect(last('a = 30 mm +0.02/-0.01 mm', 'a + 1 mm')).toBe('= 31 mm +0.02/−0.01');
    expect(last('a = 30 mm 0/-0.05 mm', 'a + 1 mm')).toBe('= 31 mm 0/−0.05');
    expect(last('a = 15 mm * 2 ± 0.05 mm')).toBe('= 30 mm, limits 29.95 … 30.05 mm');
  });

  it('with limits of their own keep to the unit of the line, and leave the limits out where both are too long', () => {
    expect(last('a = 1 in * 2 ± 0.05 in')).toBe('= 2 in, limits 1.95 … 2.05 in');
    expect(last('a = 123.45 mm * 1 ± 0.005 mm')).toBe('= 123.45 mm, limits 123.445 … 123.455 mm');
    expect(last('a = 123.456 mm * 1 ± 0.002 mm')).toBe('= 123.456 mm');
  });

  it('of a limit too small for the usual digits still show it', () => {
    expect(last('a = 30 mm ± 0.0002', 'a / 1')).toBe('= 30 mm ±0.0002');
  });

  it('of a record lead with the first fields', () => {
    expect(last('ball_on_shank(30 mm, 12 mm)')).toBe('tilt 11.789°, ring 29.367 mm, …');
  });

  it.each([
    [[20], 'a '],
    [[18, 20], 'a , b '],
    [[18, 21], 'a , …'],
    [[18, 17, 9], 'a , b , …'],
    [[18, 18, 9], 'a , …'],
    [[50, 9], 'a , …'],
  ])('of a record whose fields take %j letters are as many as fit', (lengths, wanted) => {
    const fields = lengths.map((length, i): [string, Text] => [
      'abc'.charAt(i),
      { kind: 'text', text: '-'.repeat(length - 2) },
    ]);
    const found = valueWords({ kind: 'record', of: 'fit', fields: new Map(fields) });
    expect(found.replace(/-+/g, '')).toBe(wanted);
  });

  it('of a list are its items', () => {
    expect(last('[1 mm + 1 mm, 2 mm]')).toBe('= [2, 2] mm');
  });

  it('are what the line converts to', () => {
    expect(last('25.4 mm to in')).toBe('= 1 in');
  });
});

describe('plain statements', () => {
  it('get no echo', () => {
    expect(last('d = 30 mm')).toBeNull();
    expect(last('n = 450 rpm')).toBeNull();
    expect(last('l = [70, 115, 190] rpm')).toBeNull();
    expect(last('t = 3 h 20 min')).toBeNull();
    expect(last('l = [-1, (2)] mm')).toBeNull();
    expect(last('d = -(5 mm)')).toBeNull();
    expect(last('v = 100 ft/min')).toBeNull();
    expect(last('w = 2 lb')).toBeNull();
  });

  it('in inches get the millimetres, in a note of inches the decimal', () => {
    expect(last('d = 1 3/8 in')).toBe('= 34.925 mm');
    expect(last('d = 0.5 in')).toBe('= 12.7 mm');
    const inch = (line: string): string | null | undefined =>
      hints(`---\nunits: in\n---\n${figures(line)}`)[0];
    expect(inch('d = 1 3/8 in')).toBe('= 1.375 in');
    expect(inch('d = 0.5 in')).toBeNull();
    expect(inch('d = 30 mm')).toBe('= 1.1811 in');
  });

  it('in degrees and minutes get decimal degrees', () => {
    expect(last('a = 15°30′')).toBe('= 15.5°');
    expect(last('a = 15.5°')).toBeNull();
  });

  it('with limits get the two sizes to measure between', () => {
    expect(last('d = 12 mm ± 0.05')).toBe('11.95 … 12.05 mm');
    expect(last('d = 25 mm H7')).toBe('25 … 25.021 mm');
    expect(last('d = 25 mm h7')).toBe('24.979 … 25 mm');
    expect(last('d = 7/16 in ± 0.02 mm')).toBe('11.093 … 11.133 mm');
    expect(last('d = 12.40 mm .. 12.45 mm')).toBe('12.4 … 12.45 mm');
  });
});

describe('checks', () => {
  it('say the figures that decide, with a sign and not by colour', () => {
    expect(last('43.2 mm <= 40 mm')).toBe('✗ 43.2 mm > 40 mm');
    expect(last('29.367 mm <= 40 mm')).toBe('✓ 29.367 mm ≤ 40 mm');
    expect(last('40.00001 mm < 40 mm')).toBe('✗ 40.00001 mm ≥ 40 mm');
    expect(last('a = 40 mm ± 0.1', 'a <= 40 mm')).toBe('△ 40 mm ≤ 40 mm at nominal only');
    expect(last('1 in == 25.4 mm')).toBe('✓ 1 in = 1 in');
  });
  it.each([
    ['<=', '✓ 2 mm ≤ 3 mm', '✗ 3 mm > 2 mm'],
    ['<', '✓ 2 mm < 3 mm', '✗ 3 mm ≥ 2 mm'],
    ['>=', '✗ 2 mm < 3 mm', '✓ 3 mm ≥ 2 mm'],
    ['>', '✗ 2 mm ≤ 3 mm', '✓ 3 mm > 2 mm'],
    ['==', '✗ 2 mm ≠ 3 mm', '✗ 3 mm ≠ 2 mm'],
    ['!=', '✓ 2 mm ≠ 3 mm', '✓ 3 mm ≠ 2 mm'],
  ])('say of `%s` what is so', (sign, one, other) => {
    expect([last(`2 mm ${sign} 3 mm`), last(`3 mm ${sign} 2 mm`)]).toEqual([one, other]);
  });
  it('that two alike are told apart say that they are alike', () => {
    expect(last('3 mm != 3 mm')).toBe('✗ 3 mm = 3 mm');
  });
});

describe('readings', () => {
  const neck = 'neck = 12 mm ± 0.02 shaft';
  it('say what is left, on diameter and radius', () => {
    expect(last(neck, 'neck measured 12.32 mm')).toBe('0.3 mm left, 0.15 on radius');
    expect(last('bore = 25 mm H7', 'bore measured 24.6 mm')).toBe('0.4 mm left, 0.2 on radius');
    expect(last(neck, 'neck measured 42.02 mm')).toBe('30 mm left, 15 on radius');
    expect(last('t = 11° ± 1° shaft', 't measured 13°')).toBe('1° left');
  });
  it('say that they are inside, or by how much too small or large', () => {
    expect(last(neck, 'neck measured 12.01 mm')).toBe('✓ inside');
    expect(last(neck, 'neck measured 11.96 mm')).toBe('✗ 0.02 mm too small');
    expect(last('bore = 25 mm H7', 'bore final 25.05 mm')).toBe('✗ 0.029 mm too large');
    expect(last(neck, 'neck final 12.32 mm')).toBe('✗ 0.3 mm left, 0.15 on radius');
    expect(last('d = 12 mm ± 0.02', 'd measured 12.05 mm')).toBe('✗ 0.03 mm too large');
  });
  it('of which several are outside go by the worst', () => {
    const plain = 'd = 12 mm ± 0.02';
    expect(last(neck, 'neck measured 11.96 mm, 11.9 mm, 11.95 mm')).toBe('✗ 0.08 mm too small');
    expect(last(plain, 'd measured 11.9 mm, 12.05 mm, 11.97 mm')).toBe('✗ 0.08 mm too small');
    expect(last(plain, 'd measured 11.97 mm, 12.08 mm, 12.05 mm')).toBe('✗ 0.06 mm too large');
  });
  it('say how much metal is gone, however much is left elsewhere', () => {
    expect(last(neck, 'neck measured 12.5 mm, 11.9 mm')).toBe('✗ 0.08 mm too small');
    expect(last('bore = 25 mm H7', 'bore final 20 mm, 25.05 mm')).toBe('✗ 0.029 mm too large');
  });
  it('further apart than their limits say so before what is left', () => {
    // 25 g6 is 24.980 to 24.993 (ISO 286-2).
    expect(last('pin = 25 mm g6', 'pin measured 25.10 mm at 10 mm, 24.985 mm at 160 mm')).toBe(
      'true up: 0.115 mm apart, 0.107 left',
    );
    expect(last('bore = 30 mm H7', 'bore final 29.90 mm, 30.019 mm')).toBe(
      '✗ true up: 0.119 mm apart, 0.1 left',
    );
    expect(last(neck, 'neck measured 12.32 mm, 12.29 mm')).toBe('0.3 mm left, 0.15 on radius');
  });
  it('that are many times off ask for a slip first', () => {
    const pin = 'pin = 25 mm g6';
    expect(last(pin, 'pin measured 250.1 mm')).toBe('point or unit slipped? 225.107 mm left');
    expect(last(pin, 'pin measured 25.1 in')).toBe('point or unit slipped? 24.116 in left');
    expect(last(pin, 'pin final 250.1 mm')).toBe('✗ point or unit slipped? 225.107 mm left');
    expect(last(pin, 'pin measured 2.51 mm')).toBe('✗ point or unit? 22.47 mm too small');
    expect(last('d = 12 mm ± 0.02', 'd measured 120 mm')).toBe('✗ point or unit? 107.98 mm too large');
    expect(last('d = 12 mm ± 0.02', 'd measured 1.2 mm')).toBe('✗ point or unit? 10.78 mm too small');
  });
  it('without limits say how far they are from the figure', () => {
    expect(last('d = 12 mm', 'd measured 12.3 mm')).toBe('0.3 mm over the figure');
    expect(last('d = 12 mm', 'd measured 11.7 mm')).toBe('0.3 mm under the figure');
    expect(last('d = 12 mm', 'd measured 12 mm')).toBe('at the figure');
  });
  it('of a sample say what it is taken as', () => {
    expect(last('old measured 12.66 mm, 12.7 mm')).toBe('mean 12.68 mm, 0.04 mm apart');
    expect(last('old measured 12.66 mm')).toBeNull();
  });
});

describe('what was used', () => {
  it('is set against the plan', () => {
    expect(last('speed = 509 rpm', 'speed used 450 rpm')).toBe('59 rpm below plan');
    expect(last('speed = 450 rpm', 'speed used 450 rpm')).toBe('as planned');
    expect(last('s = ball_on_shank(30 mm, 12 mm)', 's.ring used 29.4 mm')).toBe('0.033 mm above plan');
    expect(last('speed = 300 rpm', 'speed used 5 rev/s')).toBe('as planned');
  });
  it('without a plan, or of another kind than it, has none', () => {
    expect(last('feed used 0.2 mm/rev')).toBeNull();
    expect(last('speed = 300 rpm', 'speed used 5 mm')).toBeNull();
  });
});

describe('every hint', () => {
  it('says what it waits for', () => {
    expect(last('a = b + ', 'c = a + 1 mm')).toBe('waits for a');
  });

  it('fits', () => {
    const long = 'a_name_that_goes_on_and_on_for_very_much_longer_than_any_hint';
    for (const text of hints(figures(`${long} = 1 +`, `x = ${long} * 2`, 'ball_on_shank(1 in, 0.5 in)')))
      expect([...(text ?? '')].length).toBeLessThanOrEqual(MOST);
    const waits = (name: string): string | null => last(`${name} = 1 +`, `x = ${name}`);
    expect(waits('tail_of_a_lever_with_30_letter')).toBe('waits for tail_of_a_lever_with_30_letter');
    expect(waits('tail_of_a_lever_with_31_letters')).toBe('waits for tail_of_a_lever_with_31_lette…');
  });

  it('stays away where a line is broken, empty or only words', () => {
    expect(last('# words')).toBeNull();
    expect(last('a = 1 +')).toBeNull();
    expect(last('a = 1 mm + 1 kg')).toBeNull();
    expect(hints('```machine lathe\nspeeds = [70, 115] rpm\nmaker: none\n```\n')).toEqual([null, null]);
  });
});
