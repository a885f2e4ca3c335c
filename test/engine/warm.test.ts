/** Readings taken warm are judged at the size they have at 20 °C (ISO 1). */
import { describe, expect, it } from 'vitest';
import { explainRow } from '../../src/language/explain';
import { calculate } from '../../src/engine/index';
import { readNote } from '../../src/notation/note';
import { Sheet } from '../../src/engine/sheet';

const note = (material: string | null, ...lines: string[]): string =>
  `${material === null ? '' : `---\nmaterial: ${material}\n---\n\n`}\`\`\`figures\n${lines.join('\n')}\n\`\`\`\n`;
const codes = (text: string): string[] =>
  calculate(text)
    .findings()
    .map(({ code }) => code);

describe('a bore of 25 H7 in aluminium, read at 32 °C', () => {
  // 25.0278 mm over 1 + 12 K times 23 µm/m/K, which is 1.000276, is 25.0208942 mm: inside 25.021 (ISO 286-2).
  const bore = 'bore = 25 mm H7';
  it('is inside when it is by the size at 20 °C, and gone just beyond', () => {
    expect(codes(note('aluminium_6082', bore, 'bore measured 25.0278 mm at 32 °C'))).toEqual([]);
    expect(codes(note('aluminium_6082', bore, 'bore measured 25.0280 mm at 32 °C'))).toEqual(['metal-gone']);
    expect(codes(note('aluminium_6082', bore, 'bore final 25.0280 mm at 32 °C'))).toEqual(['outside-limits']);
  });
  it('and is not when nothing was warm', () => {
    expect(codes(note('aluminium_6082', bore, 'bore measured 25.0278 mm'))).toEqual(['metal-gone']);
    expect(codes(note('aluminium_6082', bore, 'bore measured 25.0278 mm at 20 °C'))).toEqual(['metal-gone']);
    expect(codes(note(null, bore, 'bore measured 25.01 mm at 20 °C'))).toEqual([]);
    expect(codes(note('aluminium_6082', bore, 'bore measured 25.0278 mm at 32 mm'))).toEqual(['metal-gone']);
  });
  it('is over its limits when it was read cold within them', () => {
    // 25.018 mm over 1 − 40 K times 23 µm/m/K, which is 0.99908, is 25.04104 mm: 0.02 mm over 25.021.
    const [finding] = calculate(note('aluminium_6082', bore, 'bore final 25.018 mm at -20 °C')).findings();
    expect(finding?.message).toContain('over its limits');
    expect(finding?.data).toMatchObject({ by: expect.closeTo(0.02004, 5) as number });
  });
  it('is not brought to 20 °C by an expansion that is none', () => {
    const card = '\n```material ours\nexpansion = 23 mm\n```\n';
    expect(codes(note('ours', bore, 'bore measured 25.0278 mm at 32 °C') + card)).toEqual([
      'metal-gone',
      'reading-warm',
      'card-field-kind',
    ]);
  });
  it('is a size: nothing else grows', () => {
    const mass = 'blank = 2 kg ± 0.1';
    expect(codes(note('butter', mass, 'blank measured 2.01 kg at 32 °C'))).toEqual([]);
    expect(codes(note('aluminium_6082', mass, 'blank final 2.10001 kg at 32 °C'))).toEqual([
      'outside-limits',
    ]);
  });
  it('keeps the reading as it was read', () => {
    const text = note('aluminium_6082', bore, 'bore measured 25.0278 mm at 32 °C', 'x = bore.reading');
    const sheet = calculate(text);
    expect(sheet.valueOf('x')).toMatchObject({ value: 25.0278 });
    const reading = sheet.rows()[1]?.reading;
    expect(reading?.readings[0]?.value).toBe(25.0278);
    expect(reading?.atReference?.[0]?.value).toBeCloseTo(25.0208942, 6);
    expect(reading?.toNominal).toBeCloseTo(-0.0208942, 6);
    const [, row] = sheet.rows();
    expect(row && explainRow(sheet, row)?.parts).toContainEqual({
      kind: 'note',
      title: 'At 20 °C',
      text: '25.021 mm',
    });
  });
  it('cold metal is too small', () => {
    expect(codes(note('aluminium_6082', 'pin = 25 mm h6', 'pin measured 24.984 mm at 10 °C'))).toEqual([]);
    expect(codes(note('aluminium_6082', 'pin = 25 mm h6', 'pin measured 24.984 mm at 20 °C'))).toEqual([
      'metal-gone',
    ]);
  });
  it('tells when no material says how it grows, once for a line, and only where it is judged', () => {
    const warm = 'bore measured 25.01 mm at 32 °C, 25.01 mm at 30 °C';
    expect(codes(note(null, bore, warm))).toEqual(['reading-warm']);
    expect(codes(note('butter', bore, warm))).toEqual(['reading-warm']);
    expect(codes(note('butter', 'bore = 25 mm', warm))).toEqual([]);
    expect(codes(note('butter', bore, 'bore measured 25.03 mm at 32 °C'))).toEqual([
      'metal-gone',
      'reading-warm',
    ]);
    const message = calculate(note('butter', bore, warm)).findings()[0]?.message;
    expect(message).toContain('read at 32 °C');
    expect(message).toContain('`butter` is no card with an `expansion`');
    expect(calculate(note(null, bore, warm)).findings()[0]?.message).toContain('names no material');
  });
  it('follows the material and its card as they change', () => {
    const sheet = new Sheet();
    const line = 'bore measured 25.0278 mm at 32 °C';
    const at = (material: string, card = ''): string[] => {
      const shop = card === '' ? [] : [{ file: 'shop.md', text: card }];
      sheet.update(readNote(note(material, bore, line)), shop);
      return sheet.findings().map(({ code }) => code);
    };
    const own = (expansion: number): string =>
      `\`\`\`material ours\nexpansion = ${expansion} µm/m/K\n\`\`\`\n`;
    expect(at('aluminium_6082')).toEqual([]);
    expect(at('steel_C45')).toEqual(['metal-gone']);
    expect(at('ours')).toEqual(['metal-gone', 'reading-warm']);
    expect(at('ours', own(23))).toEqual([]);
    expect(at('ours', own(22))).toEqual(['metal-gone']);
    expect(at('ours', own(23))).toEqual([]);
    sheet.update(readNote(note('ours', bore)), []);
    expect(sheet.findings()).toEqual([]);
  });
});
