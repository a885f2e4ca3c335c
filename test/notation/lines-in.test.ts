/** How many lines of code a block has, closed or not. */
import { describe, expect, it } from 'vitest';
import { hasLine, linesIn, noteLines } from '../../src/notation/blocks';
import { readNote } from '../../src/notation/note';

const lines = (text: string): number[] => readNote(text).blocks.map((block) => linesIn(block));

it('a block takes up its lines with the fences around them', () => {
  const [first, last] = readNote('Words.\n\n```figures\na = 1\n\nb = 2\n```\n\n```signed\n```\n').blocks;
  if (!first || !last) throw new Error('two blocks');
  expect([noteLines(first), noteLines(last)]).toEqual([
    [2, 3, 4, 5, 6],
    [8, 9],
  ]);
  const lines = Array.from({ length: 12 }, (_, line) => line);
  for (const block of [first, last])
    expect(lines.filter((line) => hasLine(block, line))).toEqual(noteLines(block));
});

describe('linesIn', () => {
  it.each([
    ['```figures\n```\n', [0]],
    ['```figures', [0]],
    ['```figures\n', [0]],
    ['```figures\na = 1 mm\n```\n', [1]],
    ['```figures\na = 1 mm\nb = 2 mm\n```\n', [2]],
    ['```figures\na = 1 mm\n\n```\n', [2]],
    ['```figures\na = 1 mm\nb = 2 mm', [2]],
    ['```figures\r\na = 1 mm\r\nb = 2 mm\r\n```\r\n', [2]],
    ['```figures\na = 1 mm\n```\n\n```figures\n```\n', [1, 0]],
  ])('of %j', (text, counts) => {
    expect(lines(text)).toEqual(counts);
  });
});
