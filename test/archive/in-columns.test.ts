/** Tables as text, written out by hand. */
import { expect, it } from 'vitest';
import { inColumns } from '../../src/archive/in-columns';

it('puts the columns of a table under each other and leaves the rest as it is', () => {
  expect(
    inColumns('# a | b\n\n|  | old.md | b |\n| --- | --- | --- |\n| a \\| b | 16 mm |  |\n\nwords | words\n'),
  ).toBe(
    [
      '# a | b',
      '',
      '|        | old.md | b   |',
      '| ------ | ------ | --- |',
      '| a \\| b | 16 mm  |     |',
      '',
      'words | words',
      '',
    ].join('\n'),
  );
});

it('takes cells without blanks around them, and rows that lack some', () => {
  expect(inColumns('|a|long|\n|-|-|\n|b|\n|c|d|')).toBe(
    ['| a   | long |', '| --- | ---- |', '| b   |', '| c   | d    |'].join('\n'),
  );
});

it('does not make a column as wide as one long text', () => {
  const long = 'x'.repeat(200);
  expect(
    inColumns(`| finding |\n| --- |\n| ${long} |\n| y |`)
      .split('\n')
      .map(({ length }) => length),
  ).toEqual([64, 64, 204, 64]);
});
