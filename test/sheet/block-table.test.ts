import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import { blockTable } from '../../src/sheet/block-table';
import { view } from '../../src/sheet/view';

const fence = (...lines: string[]): string => ['```figures', ...lines, '```', ''].join('\n');

/** The tables of a note, in order. */
function tables(text: string, shop?: string): string[] {
  const sheet = calculate(text, shop === undefined ? [] : [{ file: 'file:///shop/shop.md', text: shop }]);
  const whole = view(sheet);
  return sheet.note.blocks.map((block) => blockTable(block, whole));
}
const table = (...lines: string[]): string => tables(fence(...lines))[0] ?? '';

/** Without the workings that unfold. */
const folded = (html: string): string =>
  html.replace(/<div class="scribeline-working">[^]*?<\/div><\/div><\/details>/g, '');

const words = (html: string): string =>
  folded(html)
    .replace(/<wbr>/g, '')
    .replace(/<[^>]*>/g, ' ')
    .replaceAll('\u202f', ' ')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replace(/\s+/g, ' ')
    .trim();

/** The rows of a table's body: class and words of each cell. */
function rows(html: string): { kind: string; cells: string[]; html: string }[] {
  const body = /<tbody[^>]*>([^]*)<\/tbody>/.exec(html)?.[1] ?? '';
  return [...body.matchAll(/<tr[^>]*class="([^"]*)"[^>]*>([^]*?)<\/tr>/g)].map(
    ([, kind = '', inner = '']) => ({
      kind: kind.replaceAll('scribeline-', ''),
      cells: [...inner.matchAll(/<(?:th|td)[^>]*>([^]*?)<\/(?:th|td)>/g)].map(([, cell = '']) => words(cell)),
      html: inner,
    }),
  );
}
const only = (...lines: string[]) => rows(table(...lines)).map(({ kind, cells }) => [kind, ...cells]);

describe('lines of figures', () => {
  it.each<[string, string[]]>([
    ['a = 1 mm + 2 mm  # stock', ['line', 'a', '1 mm + 2 mm stock', '3 mm', '']],
    ['a = 24 m/min', ['line', 'a', 'given', '24 m/min', '']],
    ['a = 24 m/min  # mild steel', ['line', 'a', 'given mild steel', '24 m/min', '']],
    ['a = [70, 115] rpm', ['line', 'a', 'given', '[70, 115] rpm']],
    ['a = 3/8 in', ['line', 'a', '3/8 in', '0.375 in', '']],
    ['a = 30 mm ± 0.05', ['line', 'a', 'given', '30 mm ±0.05', '']],
    ['a = 30 mm +/- 0.05 mm', ['line', 'a', 'given', '30 mm ±0.05', '']],
    ['a = 30 mm ± 0.05 shaft', ['line', 'a', '30 mm ± 0.05 shaft', '30 mm ±0.05', '']],
    ['a = 30 mm +0.02/-0.01 mm', ['line', 'a', '30 mm +0.02/-0.01 mm', '30 mm +0.02 / −0.01', '']],
    // ISO 286-2: 12 h7 is 0/-0.018, 25 H7 is +0.021/0, 25 f7 is -0.020/-0.041
    ['a = 12 mm h7', ['line', 'a', 'given', '12 mm h7 0 / −0.018', '']],
    ['a = 25 mm H7', ['line', 'a', 'given', '25 mm H7 +0.021 / 0', '']],
    ['a = 25 mm f7', ['line', 'a', 'given', '25 mm f7 −0.02 / −0.041', '']],
    ['a = 12.40 mm .. 12.45 mm', ['line', 'a', '12.40 mm .. 12.45 mm', '12.425 mm ±0.025', '']],
    ['a = 20 °C ± 2 °C', ['line', 'a', 'given', '20 °C ±2', '']],
    ['2 * 3 mm  # twice', ['line', '2 * 3 mm twice', '6 mm', '']],
    ['# only words', ['remark', 'only words']],
    ['40 mm <= 1 m  # fits', ['check', '40 mm <= 1 m fits', '40 mm ≤ 1000 mm', '✓ holds']],
    ['a used 450 rpm  # chatter gone', ['used', 'a', 'used 450 rpm chatter gone', '450 rpm', '']],
    ['a measured 1/2 in', ['measured', 'a', 'measured 1/2 in', '0.5 in', '']],
    [
      'a measured 12.1 mm, 12.3 mm',
      ['measured', 'a', 'measured 12.1 mm, 12.3 mm', 'mean 12.2 mm', '0.2 mm apart'],
    ],
  ])('%s', (line, cells) => {
    expect(only(line)).toEqual([cells]);
  });

  it.each<[string, string, string]>([
    ['1 m <= 40 mm', '1 m > 0.04 m', '✗ fails'],
    ['1 m < 1 m', '1 m ≥ 1 m', '✗ fails'],
    ['2 mm >= 3 mm', '2 mm < 3 mm', '✗ fails'],
    ['2 mm > 2 mm', '2 mm ≤ 2 mm', '✗ fails'],
    ['2 mm == 3 mm', '2 mm ≠ 3 mm', '✗ fails'],
    ['2 mm != 2 mm', '2 mm = 2 mm', '✗ fails'],
    ['2 mm == 2 mm', '2 mm = 2 mm', '✓ holds'],
    ['1 mm < 2 mm <= 2 mm', '2 mm ≤ 2 mm', '✓ holds'],
  ])('%s', (line, pair, verdict) => {
    expect(only(line)[0]?.slice(2)).toEqual([pair, verdict]);
  });

  it('tell the sides of a check apart where their usual digits are the same', () => {
    const [, check] = only('a = 10.00004 mm', 'a <= 10 mm');
    expect(check?.slice(2)).toEqual(['10.00004 mm > 10 mm', '✗ fails']);
  });

  it('say when a check holds at nominal only', () => {
    const [, check] = only('a = 1 mm ± 0.5', 'a <= 1.2 mm');
    expect(check?.at(-1)).toBe('△ holds at nominal only');
  });

  it('keep apart what a blank line keeps apart', () => {
    expect(only('', 'a = 1 mm', '', '', 'b = 2 mm', '').map(([kind]) => kind)).toEqual([
      'gap',
      'line',
      'gap',
      'line',
    ]);
  });

  it('show a record field by field, with what each means', () => {
    const html = table('ball = ball_on_shank(30 mm, 12 mm)', 'ball.tilt to rad');
    const [head, tilt, ring] = rows(html);
    expect(head?.cells.slice(0, 2)).toEqual([
      'ball',
      'ball_on_shank(30 mm, 12 mm) Tilt, ring and height for a ball on one shank',
    ]);
    expect(tilt?.kind).toBe('field');
    expect([tilt?.cells[0], tilt?.cells[2]]).toEqual(['.tilt', '11.789°']); // half the angle whose sine is 12/30
    expect([ring?.cells[0], ring?.cells[2]]).toEqual(['.ring', '29.367 mm']); // 30 mm times its cosine
    expect(tilt?.cells[1]).not.toBe('');
  });

  it('tell the worst case and which input matters most', () => {
    const row = only('a = 30 mm ± 0.03', 'b = 10 mm ± 0.01', 'a + b').at(-1);
    expect(row?.[2]).toBe('40 mm 39.96 … 40.04 mm 75 % from a');
    expect(only('a = 30 mm ± 0.03', '2 * a').at(-1)?.[2]).toBe('60 mm 59.94 … 60.06 mm');
  });

  it('tell the limits of a list item by item', () => {
    const [, list] = only('a = 30 mm ± 0.03', '[a, 10 mm]');
    expect(list?.[2]).toBe('[30, 10] mm [29.97, 10] mm … [30.03, 10] mm');
  });

  it('have the other unit and the minutes of arc one hover away', () => {
    expect(table('a = 1 in + 0 in')).toContain('title="25.4 mm"');
    expect(table('a = 15.505 deg + 0 deg')).toContain('title="15°30′18″"'); // 0.505° is 30.3′
    expect(table('a = 450 rpm')).not.toContain('title=');
  });

  it('that wait say for what', () => {
    expect(only('a = gone + 1 mm', 'b = a * 2').at(-1)?.at(-1)).toBe('… waits for a');
  });
});

describe('readings', () => {
  const stands = (figure: string, line: string): string =>
    only(figure, line)
      .find(([kind]) => kind === 'measured' || kind === 'final')
      ?.at(-1) ?? '';

  it.each([
    ['d = 12 mm ± 0.01 shaft', 'd measured 12.3 mm', '… 0.29 mm left (0.145 mm on radius)'],
    ['d = 12 mm ± 0.01 shaft', 'd measured 12.005 mm', '✓ inside'],
    ['d = 12 mm ± 0.01 shaft', 'd measured 11.98 mm', '✗ too small by 0.01 mm'],
    ['d = 12 mm ± 0.01 hole', 'd measured 11.5 mm', '… 0.49 mm left (0.245 mm on radius)'],
    ['d = 12 mm ± 0.01 hole', 'd measured 12.02 mm', '✗ too large by 0.01 mm'],
    ['d = 12 mm ± 0.01', 'd measured 12.3 mm', '△ too large by 0.29 mm'],
    ['d = 12 mm ± 0.01', 'd final 12.3 mm', '✗ too large by 0.29 mm'],
    ['d = 12 mm ± 0.01 shaft', 'd final 12.3 mm', '✗ 0.29 mm left (0.145 mm on radius)'],
    ['d = 12 mm ± 0.01', 'd final 12.005 mm, 11.995 mm', '✓ inside'],
    // 25 g6 is 24.980 to 24.993 (ISO 286-2).
    [
      'd = 25 mm g6',
      'd measured 25.10 mm, 24.985 mm',
      '△ true up first: 0.115 mm apart, limits allow 0.013 mm, 0.107 mm left',
    ],
    [
      'd = 25 mm g6',
      'd final 25.10 mm, 24.985 mm',
      '✗ true up first: 0.115 mm apart, limits allow 0.013 mm, 0.107 mm left',
    ],
    ['d = 25 mm g6', 'd measured 250.1 mm', '△ point or unit slipped? 225.107 mm left'],
    ['d = 25 mm g6', 'd final 250.1 mm', '✗ point or unit slipped? 225.107 mm left'],
    ['d = 25 mm g6', 'd measured 2.51 mm', '✗ point or unit slipped? too small by 22.47 mm'],
    ['d = 12 mm', 'd measured 12.3 mm', '0.3 mm above the figure'],
    ['d = 12 mm', 'd measured 11.9 mm', '0.1 mm below the figure'],
    ['t = 20 °C ± 2 °C', 't measured 23 °C', '△ too large by 1 °C'],
  ])('%s, %s', (figure, line, words) => {
    expect(stands(figure, line)).toBe(words);
  });

  it.each([
    ['n = 437 rpm', 'n used 450 rpm', '13 rpm above plan'],
    ['n = 437 rpm', 'n used 400 rpm', '37 rpm below plan'],
    ['n = 437 rpm', 'n used 437 rpm', 'as planned'],
    ['d = 1 in', 'd used 25 mm', '0.4 mm below plan'],
    ['ball = ball_on_shank(30 mm, 12 mm)', 'ball.ring used 29.867 mm', '0.5 mm above plan'],
  ])('%s, %s', (figure, line, words) => {
    expect(
      only(figure, line)
        .find(([kind]) => kind === 'used')
        ?.at(-1),
    ).toBe(words);
  });
});

describe('findings', () => {
  it('stand under their line, with sign and word', () => {
    const found = only('a = 1 mm + 1', 'b = 2 mm');
    expect(found.map(([kind]) => kind)).toEqual(['line', 'finding error', 'line']);
    expect(found[1]?.[1]).toMatch(/^✗ Error\. /);
    expect(only('a = 1 mm ± 0.5', 'a <= 1.2 mm').at(-1)?.[1]).toMatch(/^△ Warning\. /);
  });

  it('name the card that sets the limit', () => {
    const [html = ''] = tables(
      '```figures on mill\n900 rpm\n```\n',
      '# Shop\n\n```machine mill\nspeeds = [70, 115] rpm\n```\n',
    );
    expect(words(html)).toContain('shop.md, line 4:');
  });

  it('about the fence stand at the top of its block', () => {
    const [, second = ''] = tables(`${fence('a = 1 mm')}\n\`\`\`figures on nowhere\nb = 2 mm\n\`\`\`\n`);
    expect(rows(second).map(({ kind }) => kind)).toEqual(['finding error', 'line']);
  });

  it('about the head of the note stand at the top of the first block, with their line', () => {
    const [first = '', second = ''] = tables(
      `---\njob: [\n---\n\n${fence('a = 1 mm')}\n${fence('b = 2 mm')}`,
    );
    expect(rows(first)[0]?.cells[0]).toMatch(/^✗ Error\. Line 2: /);
    expect(second).not.toContain('scribeline-finding');
  });

  it('are all shown, each once', () => {
    const text = `---\nunits: ells\n---\n${fence('a = 1 mm + 1', '(', 'a = 2')}\n\`\`\`machine m\nspeeds = 2\n- 3\n\`\`\`\n\`\`\`figures on x\n1/0\n`;
    const shown =
      tables(text)
        .join('')
        .match(/scribeline-finding/g) ?? [];
    expect(shown).toHaveLength(calculate(text).findings().length);
  });
});

describe('a note longer than anybody reads', () => {
  it('is drawn in part, and says so', () => {
    const many = (count: number): string => fence(...Array.from({ length: count }, () => '(1 mm'));
    const [first = '', second = '', third = ''] = tables(many(9_999) + many(301) + many(1));
    expect(rows(first)).toHaveLength(2 * 9_999);
    expect(rows(second).map(({ kind }) => kind)).toEqual(['broken', 'finding error', 'remark']);
    expect(words(second)).toContain('300 more lines are not drawn here');
    expect(words(third)).toContain('1 more line is not drawn here');
  });
});

describe('cards', () => {
  it('are small tables of field and value', () => {
    const [html = ''] = tables(
      '```machine mill\nspeeds = [70, 115] rpm  # low\nnote: tight gib\n# words\npower = 1 kW * 2\n```\n',
    );
    expect(rows(html).map(({ cells }) => cells)).toEqual([
      ['speeds', '[70, 115] rpm low'],
      ['note', 'tight gib'],
      ['words'],
      ['power', '2 kW'],
    ]);
    expect(words(/<caption[^]*<\/caption>/.exec(html)?.[0] ?? '')).toBe('Machine mill');
  });

  it('name what holds a block', () => {
    const [one = '', two = '', none = ''] = tables(
      '```figures on a\n```\n```figures on a, b\n```\n```figures\n```\n',
    );
    expect(words(one)).toContain('held to its card');
    expect(words(two)).toContain('held to their cards');
    expect(none).toContain('<caption class="scribeline-hidden">Figures</caption>');
  });
});

describe('cautions', () => {
  it('stand at the first block that calls for them, each once in a note', () => {
    const [first = '', second = '', third = ''] = tables(
      fence('a = 1 mm') +
        fence('spindle_speed(24 m/min, 30 mm)', '-(cutting_speed(300 rpm, 30 mm))') +
        fence('spindle_speed(24 m/min, 3 mm)'),
    );
    expect(first).not.toContain('scribeline-cautions');
    expect(words(second)).toMatch(/Before the cut: \d+ cautions .*starting points/);
    expect(third).not.toContain('scribeline-cautions');
  });
});

describe('the table as read aloud', () => {
  const html = tables(
    fence(
      '# words',
      'a = 1 mm ± 0.1',
      'b = ball_on_shank(30 mm, 12 mm)',
      'a <= 2 mm',
      'a measured 1 mm',
      'a used 1 mm',
      '3 *',
      '',
      'c = 1',
    ),
  ).join('');

  it('has every row as wide as the table', () => {
    const body = [...html.matchAll(/<tr[^>]*>([^]*?)<\/tr>/g)].map(([, inner = '']) => inner);
    for (const row of body) {
      const width = [...row.matchAll(/<(?:th|td)([^>]*)>/g)]
        .map(([, attributes = '']) => Number(/colspan="(\d)"/.exec(attributes)?.[1] ?? 1))
        .reduce((sum, n) => sum + n, 0);
      expect([row, width]).toEqual([row, 4]);
    }
  });

  it('names its columns and its rows', () => {
    expect(html.match(/<th scope="col" role="columnheader">/g)).toHaveLength(4);
    for (const { kind, html: row } of rows(html))
      if (!/remark|gap|finding|below/.test(kind))
        expect([kind, row]).toEqual([kind, expect.stringContaining('<th scope="row"')]);
  });

  it('hides from it only signs, since their words follow', () => {
    for (const [, word] of html.matchAll(/aria-hidden="true">[^<]*<\/span>(?:<b>([^<]+)<\/b>)?/g))
      expect(word).toBeTruthy();
  });

  it('carries no style and no script', () => {
    expect(html).not.toMatch(/\sstyle=|<style|<script|\son\w+=/);
  });
});
