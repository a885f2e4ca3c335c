/** Changes to a note's text, and what they come to. */
import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import {
  type TextEdit,
  linesOf,
  codeOf,
  edited,
  harmless,
  insertion,
  lineAbove,
  lineBelow,
  mends,
  textIn,
} from '../../src/language/edits';
import { figures } from './cursor';

const put = (line: number, column: number, endLine: number, endColumn: number, text: string): TextEdit => ({
  range: { line, column, endLine, endColumn },
  text,
});

describe('edits', () => {
  const text = 'one\ntwo\nthree\n';
  it('are made together, in whatever order they are given', () => {
    const edits = [
      put(0, 0, 0, 1, 'O'),
      put(2, 1, 2, 3, 'H'),
      put(0, 2, 1, 1, '-'),
      insertion(2, 5, '!'),
      put(1, 2, 1, 3, ''),
    ];
    const wanted = 'On-w\ntHee!\n';
    expect(edited(text, edits)).toBe(wanted);
    expect(edited(text, [...edits].reverse())).toBe(wanted);
    expect(edited(text, [])).toBe(text);
  });

  it('keep the note’s own line ends, and may stand at its very end', () => {
    expect(edited('a\r\nb', [insertion(1, 1, '\nc')])).toBe('a\r\nb\r\nc');
    expect(edited('a\rb', [insertion(1, 0, 'x')])).toBe('a\rxb');
    expect(edited('a\n', [insertion(1, 0, 'b\n')])).toBe('a\nb\n');
    expect(edited('a', [insertion(5, 0, 'b')])).toBe('ab');
  });

  it('put lines above and below, behind the marks of the line', () => {
    const note = '> a = 1\n> b = 2';
    expect(edited(note, [lineBelow(note, { line: 0, column: 2 }, 'c = 3')])).toBe(
      '> a = 1\n> c = 3\n> b = 2',
    );
    expect(edited(note, [lineAbove(note, { line: 1, column: 2 }, 'c = 3')])).toBe(
      '> a = 1\n> c = 3\n> b = 2',
    );
    // A list marker that used up part of a tab leaves code that begins before its line.
    expect(lineBelow('\ta', { line: 0, column: -1 }, 'b').text).toBe('\nb');
    expect(lineAbove('\ta', { line: 0, column: -1 }, 'b').text).toBe('b\n');
  });

  it('know what stands in a range, and what of a line calculates', () => {
    expect(textIn(text, put(2, 1, 2, 3, '').range)).toBe('hr');
    expect(['a = 1  # x # y', '# x', 'a', ''].map(codeOf)).toEqual(['a = 1', '', 'a', '']);
  });
});

describe('an edit of a note', () => {
  const noted = (...lines: string[]): Parameters<typeof mends>[0] => {
    const text = figures(...lines);
    return { sheet: calculate(text), text, shops: [] };
  };
  /** A line of the block, from 1, written anew. */
  const line = ({ text }: Parameters<typeof mends>[0], number: number, code: string): readonly TextEdit[] => [
    put(number, 0, number, linesOf(text)[number]?.length ?? 0, code),
  ];
  it('mends a finding when that is gone and no error has come in its place', () => {
    const note = noted('a = 1 mm + 1 kg', 'b = 2 mm + 2 kg', 'c = 3 mm');
    expect(mends(note, line(note, 1, 'a = 1 mm'), 'unit-mismatch')).toBe(true);
    expect(mends(note, line(note, 1, 'a = 1 mm + 1 s'), 'unit-mismatch')).toBe(false);
    expect(mends(note, line(note, 1, 'a = nothing'), 'unit-mismatch')).toBe(false);
    expect(mends(note, line(note, 3, 'c = 4 mm'), 'unit-mismatch')).toBe(false);
    expect(mends(note, line(note, 1, 'a = 1 mm'), 'unknown-name')).toBe(false);
  });

  it('is harmless when it brings no error and no warning', () => {
    const warned = ['d = 30 mm ± 0.1', 'e = d / 2 ± 0.01 mm'];
    expect(
      noted(...warned)
        .sheet.findings()
        .map(({ severity }) => severity),
    ).toEqual(['warning']);
    const tried = (number: number, code: string, ...lines: string[]): boolean => {
      const note = noted(...lines);
      return harmless(note, line(note, number, code));
    };
    expect(tried(2, 'e = d / 2 ± 0.01 mm', 'd = 30 mm ± 0.1', 'e = 1 mm')).toBe(false);
    expect(tried(2, 'e = nothing', ...warned)).toBe(false);
    expect(tried(2, 'e = d / 3 ± 0.01 mm', ...warned)).toBe(true);
    expect(tried(1, 'a = 1', 'a = nothing')).toBe(true);
    // A warning in the place of an error is no worse.
    expect(tried(2, 'e = d / 2 ± 0.01 mm', 'd = 30 mm ± 0.1', 'e = nothing')).toBe(true);
    expect(tried(1, 'a = b', 'a = nothing')).toBe(true);
  });
});
