import { readFileSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import { edited } from '../../src/language/edits';
import { alignment } from '../../src/language/format';
import { readNote } from '../../src/notation/note';
import { figures } from './cursor';

const align = (text: string): string => edited(text, alignment(readNote(text), text));
const lines = (...of: readonly string[]): readonly string[] =>
  align(figures(...of))
    .split('\n')
    .slice(1, -2);

/** What a note says, blanks apart. */
function meaning(text: string): unknown {
  const sheet = calculate(text);
  return [
    text.replace(/[ \t]+/g, ''),
    sheet
      .rows()
      .map(({ value, check, reading, statement }) => [
        value && 'value' in value ? value.value : null,
        check?.holds,
        reading?.inside,
        statement.kind,
        statement.comment?.text,
      ]),
    sheet.findings().map(({ code, line }) => [code, line]),
  ];
}

describe('aligning', () => {
  it('puts `=`, limits and comments one below the other', () => {
    expect(
      lines(
        'ball = size ± 0.05 mm shaft # runs',
        'neck=7/16 in # shank',
        'overall = 118 mm +0.3/0 mm',
        'spigot = 12 mm h7#goes',
      ),
    ).toEqual([
      'ball    = size   ± 0.05 mm shaft  # runs',
      'neck    = 7/16 in                 # shank',
      'overall = 118 mm +0.3/0 mm',
      'spigot  = 12 mm h7                #goes',
    ]);
  });

  it('has nothing to change in what is aligned', () => {
    const note = figures('a  = 1  # x', 'bb = 2  # y', '', 'c <= 3');
    expect(alignment(readNote(note), note)).toEqual([]);
  });

  it.each(['\u2028', '\u2029', '\u0085', '\v', '\f'])(
    'leaves a comment whole that goes on behind %j',
    (mark) => {
      const text = `\`\`\`figures\nwall = 5 mm # one${mark}b = 6 mm\nw2 = 7 mm\n\`\`\`\n`;
      expect(align(text)).toBe(`\`\`\`figures\nwall = 5 mm  # one${mark}b = 6 mm\nw2   = 7 mm\n\`\`\`\n`);
      expect(align(align(text))).toBe(align(text));
    },
  );

  it('goes by what stands together', () => {
    expect(lines('a = 1', 'long_name = 2', '', 'b = 3', '# words', 'cc = 4')).toEqual([
      'a         = 1',
      'long_name = 2',
      '',
      'b = 3',
      '# words',
      'cc = 4',
    ]);
  });

  it('lets one long line not push all others away', () => {
    const long = `a = ${'1 + '.repeat(30)}1 # long`;
    expect(lines(long, 'b = 2 # short')).toEqual([long.replace(' #', '  #'), 'b = 2  # short']);
  });

  it.each([
    ['a name of 24 letters', `${'n'.repeat(24)} = 1`, 'b = 2', `b${' '.repeat(23)} = 2`],
    ['a name of 25 letters', `${'n'.repeat(25)} = 1`, 'b = 2', 'b = 2'],
    [
      'a size of 40 letters',
      `n = 1${' + 1'.repeat(9)} mm ± 1 mm`,
      'b = 2 mm ± 1 mm',
      `b = 2 mm${' '.repeat(36)} ± 1 mm`,
    ],
    ['a size of 41 letters', `n = 1${' + 1'.repeat(9)}0 mm ± 1 mm`, 'b = 2 mm ± 1 mm', 'b = 2 mm ± 1 mm'],
    ['code of 72 letters', `n = 1${' + 1'.repeat(16)}000  # x`, 'b = 2 # y', `b = 2${' '.repeat(67)}  # y`],
    ['code of 73 letters', `n = 1${' + 1'.repeat(17)}  # x`, 'b = 2 # y', 'b = 2  # y'],
  ])('%s', (_, first, second, wanted) => {
    expect(lines(first, second)).toEqual([first, wanted]);
  });

  it('measures only lines of one kind with each other, and keeps blanks at both ends', () => {
    expect(lines('ää = 1 # x', 'b = 2 mm # y', '5 * 3')).toEqual([
      'ää = 1     # x',
      'b  = 2 mm  # y',
      '5 * 3',
    ]);
    expect(lines('a = 1 ± 0.1', 'long_name <= 3', 'b = 25 mm')).toEqual([
      'a = 1 ± 0.1',
      'long_name <= 3',
      'b = 25 mm',
    ]);
    expect(lines('  a = 1  ', 'bb = 2\t', '#  x', '', '  b = 1 # y')).toEqual([
      '  a  = 1  ',
      'bb = 2\t',
      '#  x',
      '',
      '  b = 1  # y',
    ]);
  });

  it('leaves readings, checks and lines that are not understood as they are written', () => {
    expect(lines('neck  measured  5 mm   #  x', 'a = = 3   # y', 'a  <=  3 mm # z')).toEqual([
      'neck  measured  5 mm  #  x',
      'a = = 3   # y',
      'a  <=  3 mm  # z',
    ]);
  });

  it('leaves cards, words and other fences alone', () => {
    const note =
      '# a = 1\nab = 2\n\n```js\na = 1\nab = 2\n```\n\n```machine m\npower = 1 kW\nmax_speed = 5 rpm\n```\n';
    expect(align(note)).toBe(note);
  });

  it('keeps the marks of quotes and lists, and tabs in lists', () => {
    expect(align('> ```figures\n> a = 1\n> bb = 2\n> ```\n')).toBe(
      '> ```figures\n> a  = 1\n> bb = 2\n> ```\n',
    );
    expect(align('- ```figures\n  a = 1\n  bb = 2\n  ```\n')).toBe(
      '- ```figures\n  a  = 1\n  bb = 2\n  ```\n',
    );
    const tabbed = '-\t```figures\n\ta = 1\n\tbb = 2\n\t```\n';
    expect(meaning(align(tabbed))).toEqual(meaning(tabbed));
    // A part of the tab is the list's: what is left of it is no text of the note, so the line stays.
    const parted = '- ```figures\n\ta = 1\n\tbb = 2\n  ```\n';
    expect(align(parted)).toBe(parted);
  });

  it('can be asked for some blocks only', () => {
    const note = `${figures('a = 1', 'bb = 2')}\n${figures('c = 1', 'dd = 2')}`;
    const some = edited(note, alignment(readNote(note), note, 6, 7));
    expect(some).toBe(note.replace('c = 1', 'c  = 1'));
    // The first block stands in lines 0 to 3, the second in 5 to 8.
    const touched = (from: number, to: number): readonly boolean[] => {
      const after = edited(note, alignment(readNote(note), note, from, to));
      return ['a  = 1', 'c  = 1'].map((line) => after.includes(line));
    };
    expect(touched(0, 0)).toEqual([true, false]);
    expect(touched(3, 3)).toEqual([true, false]);
    expect(touched(4, 4)).toEqual([false, false]);
    expect(touched(5, 5)).toEqual([false, true]);
    expect(touched(8, 20)).toEqual([false, true]);
    expect(touched(9, 20)).toEqual([false, false]);
    expect(touched(3, 5)).toEqual([true, true]);
  });

  it('changes blanks only, and nothing a second time, in every example and with every line end', () => {
    const folder = fileURLToPath(new URL('../../examples/', import.meta.url));
    const notes = readdirSync(folder).filter((name) => name.endsWith('.md'));
    for (const name of notes) {
      const text = readFileSync(folder + name, 'utf8').replaceAll('\r\n', '\n');
      for (const end of ['\n', '\r\n']) {
        const note = text.replaceAll('\n', end);
        const once = align(note);
        expect(meaning(once)).toEqual(meaning(note));
        expect(align(once)).toBe(once);
        expect(once.replaceAll('\r\n', '\n')).toBe(align(text));
      }
    }
  });

  it('does so with any lines', () => {
    const piece = fc.constantFrom(
      'a',
      'bb_1',
      ' = ',
      '=',
      '5 mm',
      ' ± 0.1',
      '12 mm h7',
      '  ',
      '\t',
      '# x ',
      '#',
      ' measured ',
      '3/8 in',
      ' +0.1/-0.2 mm',
      ' shaft',
      ' <= ',
      '(',
      ')',
      '[1, 2] mm',
      ' to in',
      '1 .. 2 mm',
      'Ø',
      '日本',
      ',',
    );
    const line = fc.array(piece, { maxLength: 7 }).map((pieces) => pieces.join(''));
    fc.assert(
      fc.property(fc.array(line, { maxLength: 6 }), (written) => {
        const note = figures(...written);
        const once = align(note);
        expect(meaning(once)).toEqual(meaning(note));
        expect(align(once)).toBe(once);
      }),
      { numRuns: 500 },
    );
  });
});
