/** Front matter that nests deeply is refused before it is read; what is as deep as anybody writes is read. */
import { expect, it } from 'vitest';
import { readNote } from '../../src/notation/note';

const codes = (...head: readonly string[]): readonly string[] =>
  readNote(['---', 'job: 7', ...head, '---', ''].join('\n')).findings.map(({ code }) => code);

it.each([
  ['brackets', (n: number) => `part: "${'['.repeat(n)}"`],
  ['braces', (n: number) => `part: "${'{'.repeat(n)}"`],
  ['marks of a list', (n: number) => `part: "${'- '.repeat(n - 1)}"`],
  ['marks of a key', (n: number) => `part: "${'? '.repeat(n - 1)}"`],
  ['marks of a list, the last at the end of its line', (n: number) => `part: >\n  ${'- '.repeat(n - 1)}-`],
  ['blanks', (n: number) => `part: >\n${' '.repeat(n)}x`],
])('%s: a hundred are read, one more is refused', (_, head) => {
  expect(codes(head(100))).toEqual([]);
  expect(codes(head(101))).toEqual(['front-matter-unreadable']);
});

it('takes away what is left of a call stack from nobody', () => {
  for (const deep of ['- ', '? ', '[', '{a: ', '{? ', '- ? ']) {
    const note = ['---', deep.repeat(Math.floor(9800 / deep.length)) + 'x', '---', ''].join('\n');
    const at = (left: number): number => (left === 0 ? readNote(note).findings.length : at(left - 1));
    // As deep in calls as the reading of a note may be called.
    for (const left of [0, 500, 2000, 4000]) expect(at(left)).toBe(1);
  }
});

it('begins in the first line or not at all', () => {
  const jobs = (text: string): unknown => readNote(text).front.get('job')?.text;
  expect(jobs('---\njob: 7\n---\n')).toBe('7');
  expect(jobs('\ufeff---\njob: 7\n---\n')).toBe('7');
  expect(jobs('# Lever\njob: 7\n---\n')).toBeUndefined();
  expect(jobs('\n---\njob: 7\n---\n')).toBeUndefined();
});
