/** Whatever order the lines of a note stand in, and whether it was read at once or typed line by line, they mean the same. */
import { describe, expect, it } from 'vitest';
import { Sheet, calculate, calculateLines } from '../../src/engine/index';
import { showValue } from '../../src/quantity/display';
import { band } from '../../src/quantity/limits';
import { readNote } from '../../src/notation/note';

const HEAD = '---\nquantity: 2\n---\n';
const CARD = '```machine mill\nmax_speed = 400 rpm\nspeeds = [70, 115] rpm\n```\n';
const note = (lines: readonly string[], card: 'above' | 'below'): string => {
  const figures = `\`\`\`figures\n${lines.join('\n')}\n\`\`\`\n`;
  return HEAD + (card === 'above' ? CARD + figures : figures + CARD);
};

/** What each line comes to and what is said of it, by its text. */
function meaning(sheet: Sheet): ReadonlyMap<string, unknown> {
  return new Map(
    sheet.rows().map(({ text, value, findings, waitsFor, asked, reading }) => {
      const limits = value?.kind === 'number' ? band(value) : null;
      const shown = value && showValue(value);
      const ends = [limits?.low, limits?.high, asked?.low, asked?.high, reading?.inside];
      return [text, [shown, ends, waitsFor, findings.map(({ code, column }) => [code, column])]];
    }),
  );
}

function orders<T>(items: readonly T[]): readonly (readonly T[])[] {
  if (items.length < 2) return [items];
  return items.flatMap((item, i) =>
    orders([...items.slice(0, i), ...items.slice(i + 1)]).map((rest) => [item, ...rest]),
  );
}

describe('lines in any order', () => {
  it.each([
    [['a = b + 1 mm', 'b = 2 mm', 'c = a * b']],
    [['a = -(b)', 'b = 2 mm', 'c = [1 mm, b]', 'd = max(1 mm, b)']],
    [['a = (b)', 'b = 2 mm ± 0.1', 'c = b - a']],
    [['a = 25 mm h7', 'b = a + 0.1 mm', 'c = 2 * a ± 0.001 mm']],
    [['a = b', 'b = a']],
    [['a = 1 mm', 'b = a', 'a = 2 mm']],
    [['a = 1 mm', 'b = a', 'a = (']],
    // A figure of a unit's name makes a unit doubtful.
    [['a = 10 mm/m', 'm = 2 kg', 'b = a']],
    // Words of the job, fields of a card, of a result, what was read and what was run.
    [['a = job.quantity', 'b = a + 1']],
    [['a = mill.max_speed', 'b = a / 2', 'c = mill']],
    [['s = ball_on_shank(b, 12 mm)', 'a = s.ring', 'b = 30 mm']],
    [['a = b.reading', 'b measured 3 mm', 'c = b']],
    [['a = b.mean', 'b = 3 mm ± 0.1 hole', 'b measured 3.2 mm']],
    [['a = b.reading + 1 mm', 'b measured 3 mm at 30 °C']],
    [['s = ball_on_shank(30 mm, 12 mm)', 's.ring used 29 mm', 'a = s.ring.used']],
    [['n = 100 rpm', 'a = speed_step(n, mill)', 'b = speed_step(80 rpm, mill)']],
    [['mill = 3 mm', 'a = mill']],
    [['job = 3 mm', 'a = job']],
    [['a = none + 1', 'b = a', 'b < 3']],
    [['pi * a', 'a = 2 mm', 'b = pi']],
    [['a = spindle_speed(24 m/min, -b)', 'b = 3 mm']],
  ])('%s', (lines) => {
    const wanted = meaning(calculate(note(lines, 'above')));
    for (const order of orders(lines))
      for (const card of ['above', 'below'] as const) {
        expect(meaning(calculate(note(order, card)))).toEqual(wanted);
        if (order.some((line, i) => line !== lines[i])) continue;
        // The same typed line by line, and with another line that comes and goes.
        const typed = new Sheet();
        order.forEach((_, i) => typed.update(readNote(note(order.slice(0, i + 1), card))));
        expect(meaning(typed)).toEqual(wanted);
        const edited = calculate(note([...order, 'other = 1'], card));
        edited.update(readNote(note(order, card)));
        expect(meaning(edited)).toEqual(wanted);
      }
  });
});

describe('a circle', () => {
  const toldIn = (lines: readonly string[]): readonly number[] =>
    calculateLines(lines.join('\n'))
      .rows()
      .flatMap(({ findings }, i) => (findings.some(({ code }) => code === 'cycle') ? [i + 1] : []));

  it.each<[readonly string[], readonly number[]]>([
    [['a = a'], [1]],
    [
      ['a = b + b', 'b = a'],
      [1, 2],
    ],
    [
      ['a = b + c', 'b = a', 'c = b'],
      [1, 2, 3],
    ],
    [
      ['a = b', 'b = c', 'c = b'],
      [2, 3],
    ],
    [
      ['a = b + d', 'b = a', 'c = d', 'd = c'],
      [1, 2, 3, 4],
    ],
    // What was read or run is no part of the figure.
    [['a = a.reading + 1 mm', 'a measured 12 mm'], []],
    [['a = b + 1 mm', 'b = a.used', 'a used 12 mm'], []],
  ])('in %j is told at lines %j', (lines, told) => {
    expect(toldIn(lines)).toEqual(told);
  });
});
