/** What a reading's finding says and points at, and lines that are judged though they name no figure of their own. */
import { describe, expect, it } from 'vitest';
import { type Finding, type Shop, type Sheet, calculate, calculateLines } from '../../src/engine/index';
import { judgeReadings } from '../../src/engine/readings';
import { readNote } from '../../src/notation/note';
import type { Quantity } from '../../src/quantity/value';

const lines = (...text: string[]): Sheet => calculateLines(`${text.join('\n')}\n`);
const figureOf = (line: string): Quantity => {
  const value = lines(line).valueOf('x');
  return value?.kind === 'number' ? value : expect.fail(line);
};
const found = (...text: string[]): readonly Finding[] => lines(...text).findings();

describe('readings', () => {
  it('beyond a limit say by how much, in their own unit, and point at the figure', () => {
    // 0.490 in lies 0.008 in under 0.500 in less 0.002 in.
    const [gone] = found('neck = 0.5 in ± 0.002 in shaft', 'neck measured 0.490 in');
    expect(gone).toMatchObject({
      code: 'metal-gone',
      line: 1,
      column: 14,
      endColumn: 22,
      data: {
        name: 'neck',
        reading: expect.closeTo(0.49, 9),
        by: expect.closeTo(0.008, 9),
        low: expect.closeTo(0.498, 9),
        high: expect.closeTo(0.502, 9),
        over: false,
        sense: 'shaft',
        unit: 'in',
      },
      related: [{ line: 0 }],
    });
    expect(found('neck = 0.5 in ± 0.002 in shaft', 'neck final 0.503 in')).toMatchObject([
      { code: 'outside-limits', data: { over: true, by: expect.closeTo(0.001, 9) } },
    ]);
  });

  it('of another kind than the figure, or than each other, say which was wanted', () => {
    expect(found('x = 5 mm', 'x measured 4 mm, 3 deg')).toMatchObject([
      {
        code: 'reading-kind',
        line: 1,
        column: 17,
        data: { name: 'x', unit: 'deg', wanted: 'mm' },
        related: [{ line: 0 }],
      },
    ]);
    expect(found('x measured 5 mm, 3 deg')).toMatchObject([
      { code: 'reading-kind', line: 0, column: 17, data: { unit: 'deg', wanted: 'mm' }, related: [] },
    ]);
    // The figure's kind counts, not that of the first reading.
    expect(found('x = 5 mm', 'x measured 3 deg, 5 mm')).toMatchObject([
      { code: 'reading-kind', column: 11, data: { unit: 'deg', wanted: 'mm' } },
    ]);
    const setup = 'setup = ball_on_shank(30 mm, 12 mm)';
    expect(found(setup, 'setup.ring measured 3 deg')).toMatchObject([
      { code: 'reading-kind', data: { name: 'setup.ring', wanted: 'mm' }, related: [{ line: 0 }] },
    ]);
    expect(found(setup, 'setup.ring used 3 deg')).toMatchObject([
      { code: 'used-kind', related: [{ line: 0 }] },
    ]);
  });

  it('keep where along the work each was taken', () => {
    const result = lines('x measured 12.76 mm at 10 mm, 12.73 mm').rows()[0]?.reading;
    expect(result?.positions).toMatchObject([{ value: 10, unit: { symbol: 'mm' } }, null]);
  });

  it('within rounding of a limit keep to it', () => {
    // A thousand-millionth of a metre of steel is a thousandth of a micrometre.
    const long = 'bar = 1000 mm 0/-0.05 mm shaft';
    expect(found(long, 'bar measured 999.9499995 mm')).toEqual([]);
    expect(found(long, 'bar measured 999.949995 mm')).toMatchObject([{ code: 'metal-gone' }]);
    expect(found('gap = 0 mm ± 0 mm', 'gap final 0 mm')).toEqual([]);
    // By the larger of both limits.
    expect(found('x = 1 mm +999/-1 mm', 'x final 1000.0000005 mm')).toEqual([]);
  });
  it('are told of by the worst of them, the first of equals', () => {
    const neck = 'neck = 12 mm ± 0.05 shaft';
    const column = (line: string): unknown => found(neck, line)[0]?.column;
    expect(column('neck final 12.06 mm, 12.07 mm')).toBe(21);
    expect(column('neck final 12.07 mm, 12.06 mm')).toBe(11);
    expect(column('neck final 12.06 mm, 12.06 mm')).toBe(11);
    expect(column('neck measured 11.90 mm, 11.80 mm')).toBe(24);
    expect(column('neck measured 11.80 mm, 11.90 mm')).toBe(14);
    expect(column('neck measured 11.80 mm, 11.80 mm')).toBe(14);
    // Metal gone is worse than metal left, however much.
    expect(column('neck final 12.20 mm, 11.90 mm')).toBe(21);
  });
  it('say what is left where a side is known or nothing is outside', () => {
    const left = (...text: string[]): unknown => lines(...text).rows()[1]?.reading?.left;
    expect(left('x = 12 mm ± 0.05', 'x measured 12.1 mm')).toBeNull();
    expect(left('x = 12 mm ± 0.05', 'x measured 12 mm')).toBe(0);
    expect(left('x = 12 mm ± 0.05 shaft', 'x measured 12.1 mm')).toBeCloseTo(0.05, 12);
  });
  it('at nominal are nothing away from it, on either side', () => {
    for (const sense of ['shaft', 'hole'])
      expect(lines(`x = 12 mm ± 0.05 ${sense}`, 'x measured 12 mm').rows()[1]?.reading?.toNominal).toBe(0);
  });
  it('break nothing when they are inside', () => {
    const twelve = figureOf('x = 12 mm');
    const asked = { low: 11.95, high: 12.05, sense: null, code: null, codeFor: null };
    for (const how of ['measured', 'final'] as const)
      expect(judgeReadings(how, 'x', [twelve], [null], twelve, asked)).toMatchObject({
        result: { inside: true },
        broken: null,
      });
  });
  it('taken warm among cold ones are brought to 20 °C, and only then is that told', () => {
    // 23 µm/m/K over 12 K takes 0.0069 mm off 25.03 mm: 25.0231 mm, beyond the 25.021 mm of H7 (ISO 286-2).
    const note = (reading: string): Sheet =>
      calculate(
        `---\nmaterial: aluminium_6082\n---\n\n\`\`\`figures\nbore = 25 mm H7\nbore final ${reading}\n\`\`\`\n`,
      );
    const mixed = note('25.01 mm, 25.03 mm at 32 °C');
    expect(mixed.rows()[1]?.reading?.atReference?.map((q) => q.value)).toEqual([
      25.01,
      expect.closeTo(25.0231, 4),
    ]);
    expect(mixed.findings()).toMatchObject([
      { data: { reading: expect.closeTo(25.03, 9), atReference: expect.closeTo(25.0231, 4) } },
    ]);
    expect(note('25.01 mm').rows()[1]?.reading).not.toHaveProperty('atReference');
  });

  it('of a sample have no plan to miss', () => {
    const sheet = lines('x measured 12 mm, 12.2 mm', 'x used 450 rpm');
    expect(sheet.findings()).toEqual([]);
    expect(sheet.rows()[0]?.reading).toMatchObject({ toNominal: null, inside: null, left: null });
  });

  it('of a list are held against nothing', () => {
    expect(found('parts = [1, 2] mm', 'parts measured 5 mm')).toEqual([]);
  });
});

describe('on a machine', () => {
  const shop: Shop = { file: 'shop.md', text: '```machine lathe\nspeeds = [70, 300] rpm\n```\n' };
  it('what is shown without a name is judged too', () => {
    const note = '```figures on lathe\n301 rpm\n300 rpm\n300 rpm > 0 rpm\n```\n';
    expect(calculate(note, [shop]).findings()).toMatchObject([{ code: 'speed-outside-machine', line: 1 }]);
  });
  it('each field of a record is judged', () => {
    const note = '```figures on lathe\nd = drilling_start(10 mm, steel_C45)\n```\n';
    const slow: Shop = { file: 'shop.md', text: '```machine lathe\nmax_speed = 10 rpm\n```\n' };
    expect(calculate(note, [slow]).findings()).toContainEqual(
      expect.objectContaining({ code: 'speed-outside-machine', line: 1 }),
    );
  });
  it('lists are not judged, and a limit of another kind limits nothing', () => {
    const odd = '```machine odd\nmax_feed_rate = 5 mm\npower = 2 min\n```\n';
    const note = `${odd}\n\`\`\`figures on odd\nx = 6 mm\ny = 3 min\nz = [400, 500] rpm\n\`\`\`\n`;
    const codes = calculate(note, [])
      .findings()
      .map((f) => f.code);
    expect(codes.filter((code) => /over-machine|outside-machine/.test(code))).toEqual([]);
  });

  const machines = [
    '```machine mill\nmin_speed = 60 rpm\nmax_speed = 700 rpm\nmax_feed_rate = 400 mm/min\n```',
    '```machine head\nmin_speed = 80 rpm\nmax_speed = 700 rpm\n```',
    '```machine table\nmin_speed = 60 rpm\nmax_speed = 900 rpm\n```',
    '```machine lathe\nspeeds = [300, 70, 190] rpm\n```',
    '```machine drill\nspeeds = 100 rpm\n```',
    '```machine odd\nmax_speed = 1 mm\npower = 2 min\n```',
  ].join('\n\n');
  const on = (names: string, line: string): readonly Finding[] =>
    calculate(`${machines}\n\n\`\`\`figures on ${names}\n${line}\n\`\`\`\n`)
      .findings()
      .filter((finding) => finding.code !== 'card-field-kind');

  it('feed rates are known by the small lengths that the trade states them in', () => {
    // 400 mm/min is 40 cm/min, 15.748 in/min, 15 748 thou/min and 400 000 µm/min.
    for (const over of ['401 mm/min', '41 cm/min', '15.8 in/min', '15800 thou/min', '401000 µm/min'])
      expect(on('mill', `v = ${over}`), over).toMatchObject([{ code: 'feed-rate-over-machine' }]);
    // A square metre for each millimetre is a thousand metres, and no feed.
    expect(on('mill', 'v = 1 m^2/mm/min')).toEqual([]);
    for (const under of ['399 mm/min', '39 cm/min', '15.7 in/min', '15700 thou/min', '399000 µm/min'])
      expect(on('mill', `v = ${under}`), under).toEqual([]);
  });

  it('of several the tightest end counts, of equal ones the first', () => {
    expect(on('mill, head', 'n = 701 rpm')).toMatchObject([{ data: { machine: 'mill', limit: 700 } }]);
    expect(on('head, table', 'n = 701 rpm')).toMatchObject([{ data: { machine: 'head' } }]);
    expect(on('table, mill', 'n = 59 rpm')).toMatchObject([{ data: { machine: 'table', limit: 60 } }]);
    for (const both of ['mill, head', 'head, mill'])
      expect(on(both, 'n = 70 rpm'), both).toMatchObject([{ data: { machine: 'head', limit: 80 } }]);
  });

  it('steps count in any order, and a single one too', () => {
    expect(on('lathe', 'n = 250 rpm')).toMatchObject([
      { code: 'speed-between-steps', data: { below: 190, above: 300 } },
    ]);
    expect(on('lathe', 'n = 301 rpm')).toMatchObject([{ data: { limit: 300, over: true } }]);
    expect(on('lathe', 'n = 69 rpm')).toMatchObject([{ data: { limit: 70, over: false } }]);
    expect(on('drill', 'n = 101 rpm')).toMatchObject([
      { code: 'speed-outside-machine', data: { limit: 100 } },
    ]);
  });

  it('a speed that was really run may stand between steps, whatever else was recorded of it', () => {
    expect(on('lathe', 'n = 250 rpm\nn used 190 rpm')).toEqual([]);
    expect(on('lathe', 'n = 250 rpm\nn measured 188 rpm\nn used 190 rpm')).toEqual([]);
    expect(on('lathe', 'n = 250 rpm\nn measured 188 rpm')).toMatchObject([{ code: 'speed-between-steps' }]);
  });

  it('rounding is no step and no end missed, a hundred-millionth is', () => {
    // Brief: equal within 1e-9 of the size.
    expect(on('lathe', 'n = 190.00000009 rpm')).toEqual([]);
    expect(on('lathe', 'n = 190.00000095 rpm')).toMatchObject([{ code: 'speed-between-steps' }]);
    expect(on('mill', 'n = 700.0000004 rpm')).toEqual([]);
    expect(on('mill', 'n = 700.0000035 rpm')).toMatchObject([{ code: 'speed-outside-machine' }]);
  });

  it('limits that are missing or of another kind limit nothing', () => {
    const limited = (line: string): string[] =>
      on('odd', line)
        .map((f) => f.code)
        .filter((code) => /(over|outside)-machine/.test(code));
    expect(limited('n = 100 rpm')).toEqual([]);
    expect(limited('p = 3 kW')).toEqual([]);
    expect(on('mill', 'p = 3 kW')).toEqual([]);
  });
});

describe('lines about one name', () => {
  const block = (...text: string[]): string => `\`\`\`figures\n${text.join('\n')}\n\`\`\`\n`;
  const value = (sheet: Sheet): unknown => {
    const x = sheet.valueOf('x');
    return x?.kind === 'number' ? x.value : x;
  };
  it('count in the order of the note, whatever was typed first', () => {
    const sheet = calculate(block('x = d.reading', 'd measured 3 mm'));
    sheet.update(readNote(block('x = d.reading', 'd measured 4 mm', 'd measured 3 mm')));
    expect(value(sheet)).toBe(3);
    sheet.update(readNote(block('x = d.reading', 'd measured 3 mm')));
    sheet.update(readNote(block('d measured 4 mm') + block('x = d.reading', 'd measured 3 mm')));
    expect(value(sheet)).toBe(3);
    sheet.update(readNote(block('x = d.reading', 'd measured 3 mm') + block('d measured 4 mm')));
    expect(value(sheet)).toBe(4);
  });
  it('count in the order of the blocks, however many lines those have', () => {
    const long = block('x = d.reading', 'y = 1 mm', 'z = 2 mm', 'd measured 4 mm');
    expect(value(calculate(long + block('d measured 3 mm')))).toBe(3);
  });
  it('of which none was measured, or of two kinds, have no mean', () => {
    for (const line of ['d used 7 mm', 'd measured 5 mm, 3 deg', 'd measured 3 deg, 5 mm']) {
      const sheet = calculate(block('x = d.mean', line));
      expect(
        sheet.findings().map((f) => f.code),
        line,
      ).toContain('not-measured-yet');
      expect(sheet.valueOf('x'), line).toBeNull();
    }
  });
  it('are what they are: used is not measured', () => {
    const text = ['d measured 3 mm, 5 mm', 'd used 7 mm', 'd measured 4 mm, 6 mm', 'd used 8 mm'];
    for (const [field, wanted] of [
      ['reading', 6],
      ['mean', 5],
      ['used', 8],
    ] as const)
      expect(value(calculate(block(`x = d.${field}`, ...text))), field).toBe(wanted);
    expect(value(calculate(block('x = d', 'd measured 3 mm')))).toBe(3);
    expect(calculate(block('x = d.readings', 'd measured 3 mm')).valueOf('x')).toMatchObject({
      kind: 'list',
      items: [{ value: 3 }],
    });
    const only = calculate(block('x = d.readings', 'd used 7 mm'));
    expect(only.findings()).toMatchObject([{ code: 'not-measured-yet' }]);
    expect(calculate(block('x = d.used', 'd measured 7 mm')).findings()).toMatchObject([
      { code: 'not-used-yet' },
    ]);
  });
});
