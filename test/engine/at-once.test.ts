/** Which lines have no node as long as nobody asks, and that nobody can tell. */
import { describe, expect, it } from 'vitest';
import { calculate, calculateLines } from '../../src/engine/index';
import type { Sheet } from '../../src/engine/sheet';
import { readNote } from '../../src/notation/note';
import { plain } from '../../src/quantity/arithmetic';

const fenced = (...lines: readonly string[]): string => `\`\`\`figures\n${lines.join('\n')}\n\`\`\`\n`;

/** The lines of a sheet's first block that have no node. */
const without = (sheet: Sheet): readonly string[] =>
  (sheet.placed[0]?.lines?.lines ?? []).filter((line) => typeof line === 'string');

/** Figures to be looked up, which need no node themselves. */
const ABOVE = ['d = 30 mm', 'w = 12 mm ± 0.1', 'set = ball_on_shank(d, w)', 'n = 3'];

describe('as soon as it is read, and without a node, has its value', () => {
  it.each([
    'x = 5 mm',
    'x = 5 mm ± 0.1',
    'x = 25 mm h7',
    'x = 25 mm ± 0.1 shaft',
    'x = d',
    'x = -d',
    'x = (d + w) / 2 - 1 mm',
    'x = set.tilt',
    'x = (set).tilt',
    'x = sqrt(d * w)',
    'x = [1, n] mm',
    'x = d to in',
    'x = 2 * pi',
  ])('%s', (line) => {
    expect(without(calculate(fenced(...ABOVE, line)))).toContain('x');
  });
});

describe('needs a node from the beginning', () => {
  it.each([
    // Looked up, and not there or no figure.
    ['x = y + 1 mm', 'y = 2 mm'],
    ['x = w.mean', 'w measured 12 mm'],
    ['x = d * job.quantity'],
    ['x = [d, y]', 'y = 2 mm'],
    ['x = min(d, y)', 'y = 2 mm'],
    ['x = (y)', 'y = 2 mm'],
    ['x = -y', 'y = 2 mm'],
    ['x = d + y', 'y = 2 mm'],
    ['x = y + d', 'y = 2 mm'],
    // Units that a figure could be meant by, and a wish.
    ['x = 12 mm/m'],
    ['x = 12 N*m'],
    ['x = speed_step(n, lathe)'],
    // Anything to say about it.
    ['x = d + 1 kg'],
    ['x = 5 mm ± 1 kg'],
    ['x = 5 mm #\u202e'],
  ])('%s', (...lines) => {
    expect(without(calculate(fenced(...ABOVE, ...lines)))).not.toContain('x');
  });

  it('whatever stands on a machine, or is named as one', () => {
    const machine = '\n```machine lathe\nspeeds = [70, 190] rpm\n```\n';
    const on = calculate(`\`\`\`figures on lathe\nx = 5 mm\n\`\`\`\n${machine}`);
    expect(without(on)).toEqual([]);
    expect(without(calculate(fenced('lathe = 5 mm', 'x = 5 mm') + machine))).toEqual(['x']);
  });

  it('no limits that `to` takes along', () => {
    const sheet = calculate(fenced('x = 2 rev ± 0.5 rev to deg'));
    expect(without(sheet)).toEqual(['x']);
    expect(sheet.valueOf('x')).toMatchObject({ value: 720, spread: [{ at: [540, 900] }] });
  });

  it('whatever needs pi, where a card has that name or may give it words', () => {
    const lines = fenced('x = 2 * pi', 'y = 3 mm');
    const card = '```machine pi\nspeeds = [70, 190] rpm\n```\n';
    const sheet = calculate(lines + card);
    expect(without(sheet)).toEqual(['y']);
    expect(sheet.findings().map(({ code }) => code)).toEqual(['field-needed']);
    sheet.update(readNote(lines));
    expect(sheet.valueOf('x')).toEqual(plain(2 * Math.PI));
    sheet.update(readNote(lines + card));
    expect(sheet.valueOf('x')).toBeNull();
    const inCard = calculateLines('x = 2 * pi\npi: words', 'machine');
    expect(inCard.findings().map(({ code }) => code)).toEqual(['words-do-not-calculate']);
  });
});

describe('nobody can tell', () => {
  const NOTE = fenced(...ABOVE, 'x = w + 1 mm', 'y = x * 2');
  const rowsOf = (sheet: Sheet): unknown =>
    sheet.rows().map(({ text, line, value, asked, findings }) => ({ text, line, value, asked, findings }));
  /** A sheet of the same note, whose lines have all been changed once and back, so that all have nodes. */
  const edited = (): Sheet => {
    const sheet = calculate(fenced('z = 1 mm'));
    sheet.update(readNote(NOTE));
    return sheet;
  };

  it('from rows, one by one, all together, or by name', () => {
    const wanted = JSON.stringify(rowsOf(edited())).replace(/"input":\d+/g, '');
    const told = (sheet: Sheet): string => JSON.stringify(rowsOf(sheet)).replace(/"input":\d+/g, '');
    expect(told(calculate(NOTE))).toBe(wanted);
    const one = calculate(NOTE);
    expect(one.rowAt(2)?.text).toBe('w = 12 mm ± 0.1');
    expect(one.rowAt(2)?.asked).toMatchObject({ low: 11.9, high: 12.1 });
    expect(without(one)).toEqual(['d', 'set', 'n', 'x', 'y']);
    expect(one.figure('x')?.text).toBe('x = w + 1 mm');
    expect(without(one)).toEqual(['d', 'set', 'n', 'y']);
    expect(told(one)).toBe(wanted);
    expect(without(one)).toEqual([]);
  });

  it('from the names of inputs, of figures, and from readings of them', () => {
    const sheet = calculate(NOTE);
    const value = sheet.valueOf('y');
    const input = value?.kind === 'number' ? value.spread?.[0]?.input : undefined;
    expect(sheet.inputName(input ?? -1)).toBe('w');
    expect(sheet.names()).toEqual(['d', 'w', 'set', 'n', 'x', 'y']);
    expect(sheet.names(2)).toEqual(['d', 'w']);
    const read = calculate(fenced(...ABOVE, 'w final 12.2 mm'));
    expect(read.findings().map(({ code }) => code)).toEqual(['outside-limits']);
  });

  it('from limits that leave nothing, which move nothing', () => {
    const sheet = calculate(fenced('x = 5 mm ± 0 mm', 'y = 2 * x', 'x final 5.1 mm'));
    expect(without(sheet)).toContain('y');
    expect(sheet.rows()[0]?.asked).toMatchObject({ low: 5, high: 5 });
    expect(sheet.findings().map(({ code }) => code)).toEqual(['outside-limits']);
  });

  it('from the names of inputs, where there are very many', () => {
    const lines = Array.from({ length: 1100 }, (_, i) => `a${i} = ${i + 1} mm ± 0.5`);
    const [finding] = calculate(fenced(...lines, 'x = a7 + 1 mm ± 0.001 mm')).findings();
    expect([finding?.code, finding?.data['input']]).toEqual(['band-wider-than-asked', 'a7']);
  });

  it('from the code of a line, the last one without a line break too', () => {
    const lines = ['a = 1 mm', 'b = 25 mm'];
    expect(
      calculateLines(lines.join('\n'))
        .rows()
        .map(({ text }) => text),
    ).toEqual(lines);
    expect(
      calculateLines(`${lines.join('\n')}\n`)
        .rows()
        .map(({ text }) => text),
    ).toEqual(lines);
  });

  it('when very many are asked for by their names', () => {
    const names = Array.from({ length: 40 }, (_, i) => `a${i}`);
    const sheet = calculate(fenced(...names.map((name, i) => `${name} = ${i} mm`)) + fenced('b = a1 + a2'));
    expect(names.map((name) => sheet.figure(name)?.line)).toEqual(names.map((_, i) => i + 1));
    expect(sheet.figure('b')?.line).toBe(43);
  });

  it('when a name is given again', () => {
    const sheet = calculate(fenced('a = 1 mm', 'b = a * 2', 'a = 3 mm', 'c = b + 1 mm'));
    expect(sheet.rows().map(({ value }) => value)).toEqual([null, null, null, null]);
    expect(sheet.findings().map(({ code, line }) => `${code} ${line}`)).toEqual([
      'name-twice 1',
      'name-twice 3',
    ]);
  });
});
