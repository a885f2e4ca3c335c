import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import { type Range, marks } from '../../src/language/diagnostics';

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
