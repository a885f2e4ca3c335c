/** Front matter that nests deeply is refused before it is read; what is as deep as anybody writes is read. */
import { expect, it } from 'vitest';
import { cutFrontMatter } from '../../src/notation/front-matter';
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

it.each([
  ['# Lever\njob: 7\n---', 0, null, false],
  ['---\njob: 7\n---\nWords.', 3, ['job: 7'], false],
  ['---\n---\n---', 2, [], false],
  ['--- \t\njob: 7\n\n---\t', 4, ['job: 7', ''], false],
  ['---\njob: 7', 0, null, true],
  ['---\n\njob: 7', 0, null, false],
  ['', 0, null, false],
])('is cut off: %j', (text, bodyLine, lines, open) => {
  expect(cutFrontMatter(text.split('\n'))).toEqual({ bodyLine, lines, open });
});

it('may end with the note, hold empty lines, or nothing', () => {
  const read = (text: string): unknown => {
    const { front, findings } = readNote(text);
    return [[...front].map(([key, field]) => `${key}: ${field.text}`), findings.map(({ code }) => code)];
  };
  expect(read('---\njob: 7\n---')).toEqual([['job: 7'], []]);
  expect(read('---\njob: 7\n\npart: pin\n---\n')).toEqual([['job: 7', 'part: pin'], []]);
  for (const empty of ['', '\n', '\n \t\n']) expect(read(`---\n${empty}---\n`)).toEqual([[], []]);
  expect(read('---\njob: 7')).toEqual([[], ['front-matter-open']]);
  // A field without a value is an empty text.
  expect(read('---\n{ job: 7, part }\n---\n')).toEqual([['job: 7', 'part: '], []]);
});

it('ends where the note goes on', () => {
  const { blocks } = readNote('---\njob: 7\n---\n```figures\na = 1\n```\n');
  expect(blocks.map(({ fenceLine, content }) => [fenceLine, content])).toEqual([[3, 'a = 1\n']]);
  // A byte order mark is one at the beginning only.
  expect(readNote('---\njob: 7\n---\n\ufeff```figures\n```\n').blocks).toEqual([]);
});

it('begins in the first line or not at all', () => {
  const jobs = (text: string): unknown => readNote(text).front.get('job')?.text;
  expect(jobs('---\njob: 7\n---\n')).toBe('7');
  expect(jobs('\ufeff---\njob: 7\n---\n')).toBe('7');
  expect(jobs('# Lever\njob: 7\n---\n')).toBeUndefined();
  expect(jobs('\n---\njob: 7\n---\n')).toBeUndefined();
  for (const text of ['# Lever\njob: 7\n---\n', '\n---\njob: 7\n---\n', '# Lever\njob: 7\n'])
    expect(readNote(text).findings).toEqual([]);
});

it.each([
  ['job: @7', ['front-matter-unreadable 1:5-6']],
  ['job: 7\n@', ['front-matter-unreadable 2:0-1']],
  ['job: "7', ['front-matter-unreadable 1:6-7']],
  ['a: b: c', ['front-matter-unreadable 1:3-4', 'front-matter-not-text 1:3-7']],
  ['job:\n  - a\n  - b\npart: x', ['front-matter-not-text 2:2-5']],
  ['? [a]\n: b', ['front-matter-not-text 1:2-5']],
  ['units:', ['front-matter-units 1:5-6']],
  ['{ units: , a: b }', ['front-matter-units 1:9-10']],
  ['part: a\npart: b', ['front-matter-twice 2:0-4']],
])('is marked where it is wrong: %j', (head, wanted) => {
  const { findings } = readNote(`---\n${head}\n---\n`);
  expect(findings.map(({ code, line, start, end }) => `${code} ${line}:${start}-${end}`)).toEqual(wanted);
});

it('has fields without a value behind their names', () => {
  const { front } = readNote('---\n? a\n? b\n---\n');
  expect([...front.values()].map(({ key, text, line, column }) => [key, text, line, column])).toEqual([
    ['a', '', 1, 3],
    ['b', '', 2, 3],
  ]);
});
