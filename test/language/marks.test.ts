import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import { type Range, marks, overlaps } from '../../src/language/diagnostics';

const SHOP = { file: 'shop.md', text: '```machine lathe\nmax_speed = 300 rpm\n```\n' };

function cut(text: string, { line, column, endLine, endColumn }: Range): string {
  const lines = text.split('\n').slice(line, endLine + 1);
  return lines
    .join('\n')
    .slice(column, lines.slice(0, -1).join('\n').length + (endLine > line ? 1 : 0) + endColumn);
}

describe('marks', () => {
  it('stand exactly where the trouble is, whatever the fence stands in', () => {
    const text =
      '> - ```figures\n>   a = 2 mm + 1 kg\n>   ```\n\n1. x\n\n   ~~~figures\n   b = 1-3/8 in\n   ~~~\n';
    const found = marks(calculate(text)).map(({ code, range }) => [code, cut(text, range)]);
    expect(found).toEqual([
      ['unit-mismatch', '2 mm + 1 kg'],
      ['mixed-number-with-sign', '1-3/8 in'],
    ]);
  });

  it('point at the line of the card that sets the limit', () => {
    const [found] = marks(calculate('```figures on lathe\nn = 400 rpm\n```\n', [SHOP]));
    expect(found).toMatchObject({ severity: 'error', code: 'speed-outside-machine' });
    expect(found?.related).toHaveLength(1);
    expect(found?.related[0]).toMatchObject({ file: 'shop.md', line: 1 });
  });
});

describe('ranges overlap', () => {
  const range = (line: number, column: number, endLine: number, endColumn: number): Range => ({
    line,
    column,
    endLine,
    endColumn,
  });
  const word = range(3, 4, 3, 8);
  it.each([
    ['the same', range(3, 4, 3, 8), true],
    ['a part', range(3, 5, 3, 6), true],
    ['the cursor in it', range(3, 6, 3, 6), true],
    ['the cursor at its beginning', range(3, 4, 3, 4), true],
    ['the cursor at its end', range(3, 8, 3, 8), true],
    ['the cursor before it', range(3, 3, 3, 3), false],
    ['the cursor behind it', range(3, 9, 3, 9), false],
    ['lines about it', range(2, 9, 4, 0), true],
    ['the line before', range(2, 0, 2, 9), false],
    ['from the line before to its beginning', range(2, 0, 3, 4), true],
    ['from the line before not so far', range(2, 0, 3, 3), false],
    ['the line behind, further left', range(4, 0, 4, 2), false],
    ['from its end to the line behind', range(3, 8, 4, 2), true],
  ])('%s', (_, other, wanted) => {
    expect([overlaps(word, other), overlaps(other, word)]).toEqual([wanted, wanted]);
  });
});
