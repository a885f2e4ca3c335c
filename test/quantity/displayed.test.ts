import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import { hint } from '../../src/language/hints';
import { readNote } from '../../src/notation/note';
import { inUsualUnits } from '../../src/notation/usual-units';
import { type Display, USUAL_DISPLAY, displayed, show } from '../../src/quantity/display';
import { unit } from '../../src/quantity/units';
import { figures } from '../language/cursor';

const wanted = (
  decimals: Readonly<Record<string, number>>,
  angles: Display['angles'] = 'decimal',
): Display => ({
  decimals: new Map(Object.entries(decimals)),
  angles,
});
const shown = (line: string, display: Display): string | null => {
  const sheet = calculate(figures(line));
  const [row] = sheet.rows();
  return displayed(display, () => (row ? hint(sheet, row) : null));
};

describe('as the reader wants it', () => {
  it('lengths have the digits asked for, in each unit its own', () => {
    expect(shown('10 mm / 3', wanted({ mm: 2, in: 5 }))).toBe('= 3.33 mm');
    expect(shown('10 mm / 3', wanted({ mm: 0 }))).toBe('= 3 mm');
    expect(shown('10 in / 3', wanted({ mm: 2, in: 5 }))).toBe('= 3.33333 in');
    expect(shown('10 mm^2 / 3', wanted({ mm: 5 }))).toBe(shown('10 mm^2 / 3', USUAL_DISPLAY));
  });

  it('angles have minutes and seconds', () => {
    expect(shown('25° / 2', wanted({}, 'minutes'))).toBe('= 12°30′00″');
    expect(shown('25° / 2', wanted({}))).toBe('= 12.5°');
    expect(shown('ball_on_shank(30 mm, 12 mm).tilt', wanted({}, 'minutes'))).toBe('= 11°47′21″');
    // Nothing else has, nor an angle of which digits are asked for.
    expect(shown('25 mm / 2', wanted({}, 'minutes'))).toBe('= 12.5 mm');
    const of = unit('°');
    const tilt = { kind: 'number', value: 12.3456, dimension: of.dimension, unit: of, spread: null } as const;
    expect(displayed(wanted({}, 'minutes'), () => [show(tilt), show(tilt, { decimals: 2 })])).toEqual([
      '12°20′44″',
      '12.35°',
    ]);
  });

  it('only while it is shown, also after a failure', () => {
    const [row] = calculate(figures('10 mm / 3')).rows();
    if (row?.value?.kind !== 'number') throw new Error('no value');
    const { value } = row;
    expect(() =>
      displayed(wanted({ mm: 1 }), () => {
        throw new Error('in between');
      }),
    ).toThrow('in between');
    expect(show(value)).toBe('3.333 mm');
    expect(
      displayed(wanted({ mm: 1 }), () => displayed(wanted({ mm: 2 }), () => show(value)) + show(value)),
    ).toBe('3.33 mm3.3 mm');
  });
});

describe('units of notes that do not say', () => {
  it('are millimetres, or what is set', () => {
    const note = readNote(figures('a = 1 mm'));
    expect(inUsualUnits(note, 'mm')).toBe(note);
    expect(inUsualUnits(note, 'in').front.get('units')?.text).toBe('in');
    const own = readNote(`---\nunits: mm\n---\n${figures('a = 1 mm')}`);
    expect(inUsualUnits(own, 'in')).toBe(own);
  });
});
