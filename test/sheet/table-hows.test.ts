/** A block's table as its readers ask for it: in the preview, with workings, with answers kept back, in other units. */
import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import { type TableOptions, blockTable } from '../../src/sheet/block-table';
import { type How, PREVIEW } from '../../src/sheet/how';
import { view } from '../../src/sheet/view';

const SHOP = '```machine mill\nspeeds = [70, 115] rpm\ncaution: the quill creeps\n```\n';
const fence = (...lines: string[]): string => ['```figures', ...lines, '```', ''].join('\n');

function tables(text: string, how: Partial<How> = {}, options: TableOptions = {}): string[] {
  const sheet = calculate(text, [{ file: 'file:///shop/my%20shop.md', text: SHOP }]);
  const whole = view(sheet, { ...PREVIEW, ...how });
  return sheet.note.blocks.map((block) => blockTable(block, whole, options));
}
const table = (how: Partial<How>, ...lines: string[]): string => tables(fence(...lines), how)[0] ?? '';

const words = (html: string): string =>
  html
    .replace(/<[^>]*>/g, ' ')
    .replaceAll('\u202f', ' ')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&#x2061;', '')
    .replace(/\s+/g, ' ')
    .trim();

/** The elements of a class, without what stands in details inside them. */
const all = (html: string, name: string): string[] =>
  [...html.matchAll(new RegExp(`<(\\w+)[^>]*class="${name}"[^>]*>(.*?)</\\1>`, 'gs'))].map(([it]) => it);

/** The rows of the body, their cells as words. */
const rows = (html: string): string[][] =>
  [...(html.split('<tbody')[1] ?? '').matchAll(/<tr[^>]*>(.*?)<\/tr>/gs)].map(([, row = '']) =>
    [...row.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/gs)].map(([, cell = '']) => words(cell)),
  );

describe('in the preview', () => {
  it('what a result comes from unfolds to its working, with the shares of its inputs', () => {
    const html = table({}, 'a = 10 mm ± 0.3', 'b = 10 mm ± 0.2', 'c = a + b', 'd = 3/8 in');
    const unfold = html.match(/<details class="scribeline-unfold">.*?<\/details>/gs) ?? [];
    expect(unfold).toHaveLength(1);
    expect(unfold[0]).toContain('<summary title="the working"><code');
    expect(words(unfold[0] ?? '')).toContain('c = a + b = 10 mm + 10 mm = 20 mm');
    expect(unfold[0]).toContain('Where the limits of c come from: a 60 %, b 40 %.');
    // What is learned from a formula is not told there: its name has it one hover away.
    expect(table({}, 'spindle_speed(24 m/min, 30 mm)', 'n = spindle_speed(24 m/min, 30 mm)')).not.toContain(
      'scribeline-why',
    );
  });

  it('the workings of the first three hundred lines unfold', () => {
    const html = table({}, ...Array.from({ length: 302 }, (_, i) => `n_${i} = 1 mm + 1 mm`));
    expect(html.match(/scribeline-unfold/g)).toHaveLength(300);
    expect(html.lastIndexOf('scribeline-unfold')).toBeLessThan(html.indexOf('n_<wbr>300'));
  });

  it('a line that it scrolls with has its number and a way for the keyboard', () => {
    const options = { lineClass: 'code-line', attributes: { class: 'code-line own', 'data-line': 4 } };
    const [html = ''] = tables(fence('a = 1 mm', '# words'), {}, options);
    expect(html).toMatch(
      /^<section class="scribeline-block scribeline-figures code-line own" data-line="4">/,
    );
    expect(html).toContain('<tr role="row" class="scribeline-line code-line" data-line="1">');
    expect(html).toContain(
      '<th scope="row" role="rowheader"><span class="scribeline-way" role="button" tabindex="0" ' +
        'aria-description="to its line in the note">a</span></th>',
    );
    const [plain = ''] = tables(fence('a = 1 mm'));
    expect(plain).toMatch(/^<section class="scribeline-block scribeline-figures">/);
    expect(plain).toContain('<tr role="row" class="scribeline-line"><th scope="row" role="rowheader">a</th>');
  });

  it('cautions are folded, and counted in words', () => {
    const [one = '', more = ''] = tables(
      '```figures on mill\na = 1 mm\n```\n' + fence('spindle_speed(24 m/min, 30 mm) <= 400 rpm'),
    );
    expect(one).toContain(
      '<details class="scribeline-cautions"><summary>Before the cut: one caution</summary>',
    );
    expect(words(one)).toContain('mill: the quill creeps');
    expect(more).toMatch(/<summary>Before the cut: \d+ cautions<\/summary>/);
  });
});

describe('a table', () => {
  it('of figures names its four columns, one of a card has two', () => {
    const [figures = '', card = ''] = tables(
      `${fence('a = 1 mm + 1')}\`\`\`material steel\ndensity = 1 mm\n\`\`\`\n`,
    );
    const columns = (html: string): string[] =>
      [...html.matchAll(/<col class="scribeline-column-(\w+)">/g)].map(([, name = '']) => name);
    expect(columns(figures)).toEqual(['figure', 'from', 'result', 'check']);
    expect(all(figures, 'scribeline-head').map(words)).toEqual(['Figure From Result Check']);
    expect(columns(card)).toEqual(['figure', 'rest']);
    expect(card).not.toContain('<thead');
    // Findings are as wide as their table.
    expect(figures).toContain(
      '<td role="cell" colspan="4"><span class="scribeline-sign" aria-hidden="true">✗',
    );
    expect(card).toContain('<td role="cell" colspan="2"><span class="scribeline-sign" aria-hidden="true">✗');
  });

  it('of a card says which', () => {
    const captions = tables('```machine drill\n```\n```material brass\n```\n```signed\n```\n').map((html) =>
      words(/<caption.*?<\/caption>/.exec(html)?.[0] ?? ''),
    );
    expect(captions).toEqual(['Machine drill', 'Material brass', 'Signed']);
  });

  it('of a card shows lines that do not count as they were written', () => {
    const [html = ''] = tables('```machine drill\npower =1 kW + 1  # much\nnote: old\n2 mm\n- 3\n#\n```\n');
    const kinds = [...html.matchAll(/<tr role="row" class="scribeline-(\w+)/g)].map(([, kind]) => kind);
    expect(kinds.filter((kind) => kind !== 'finding')).toEqual(['line', 'line', 'broken', 'broken']);
    expect(rows(html).filter(([first]) => !first?.startsWith('✗'))).toEqual([
      ['power', '1 kW + 1 much'],
      ['note', 'old'],
      ['2 mm'],
      ['- 3'],
    ]);
    expect(html).toContain('<th scope="row" role="rowheader" colspan="2"><code');
  });

  it('gives what has no verdict, and what has none to give, the room', () => {
    const html = table({}, 'l = [1, 2] mm', 's = ball_on_shank(30 mm, 12 mm)', 'ball_on_shank(30 mm, 12 mm)');
    expect(html).toMatch(
      /^.*?<td role="cell" class="scribeline-result" colspan="2">\[1, 2\] mm|<td role="cell" class="scribeline-result" colspan="2"><span class="scribeline-value">\[1, 2\] mm/s,
    );
    expect(html).toContain('<td role="cell" class="scribeline-from" colspan="3">');
    expect(html).toContain('</th><td role="cell" class="scribeline-result"></td>');
  });

  it('has code as it was written where it says nothing, and nothing for a mere `#`', () => {
    expect(rows(table({}, '(1 mm', '#', 'a =1 mm + 2 mm')).map(([first, second]) => [first, second])).toEqual(
      [
        ['(1 mm', '—'],
        [expect.stringMatching(/^✗ Error\. (?!Line)/), undefined],
        ['a', expect.stringMatching(/^1 mm \+ 2 mm/)],
      ],
    );
  });

  it('has a reading that cannot be judged, and a formula that there is not', () => {
    const found = rows(table({}, 'neck = 12 mm h7', 'neck measured 3 kg', 'b = nosuch(2 mm)'));
    expect(found[1]).toEqual(['neck', 'measured 3 kg', '—', '']);
    expect(found.find(([first]) => first === 'b')).toEqual(['b', 'nosuch(2 mm)', '—', '']);
  });

  it('shows where else to look by the file alone', () => {
    const [html = ''] = tables('```figures on mill\n900 rpm\n```\n');
    expect(all(html, 'scribeline-related').map(words)[0]).toMatch(/^my shop\.md, line 2: /);
  });

  it('tells of the first fence above its first line', () => {
    const [html = ''] = tables('```figures on nowhere\nb = 2 mm\n```\n');
    expect(rows(html).map(([first]) => first?.slice(0, 8))).toEqual(['✗ Error.', 'b']);
  });

  it('keeps words from right to left apart', () => {
    const [html = ''] = tables(`---\ncustomer: \u05d0\u05d1 (12)\n---\n${fence('job.customer')}`);
    expect(html).toContain('<bdi>');
  });

  it('has the fields of a card, and no table of those of which there is one', () => {
    const text = '```machine own\nratio = 40\nplates = [15, 18]\n```\n' + fence('own', 'x = own');
    const [, html = ''] = tables(text);
    expect(rows(html).map(([first]) => first)).toEqual(expect.arrayContaining(['.ratio']));
  });

  it('has the end check of moves beneath their list, and of a single one as a field', () => {
    const head = '```machine head\nratio = 40\nplates = [15, 18]\n```\n';
    const fields = (divisions: number): string[] =>
      rows(tables(head + fence(`indexing_moves(${divisions}, head)`))[1] ?? '').map(([first = '']) => first);
    expect(fields(3)).not.toContain('.end_ check');
    expect(fields(1)).toContain('.end_ check');
  });
});

describe('how a line stands', () => {
  const stands = (...lines: string[]): string | undefined =>
    rows(table({}, ...lines))
      .filter((cells) => cells.length > 1)
      .at(-1)
      ?.at(-1);

  it.each([
    ['d = 12 mm ± 0.01 shaft', 'd measured 14 mm', '… 1.99 mm left (0.995 mm on radius)'],
    ['w = 5 kg ± 0.1 kg shaft', 'w measured 6 kg', '… 0.9 kg left'],
    ['d = 12 mm', 'd measured 12 mm', 'at the figure'],
    ['old = 12 mm + 0 mm', 'old measured 12 mm, 13 mm', '1 mm above the figure'],
    // Of several readings the worst counts.
    ['d = 12 mm ± 0.01', 'd measured 12.3 mm, 12 mm', '△ too large by 0.29 mm'],
    ['d = 12 mm ± 0.01', 'd measured 12 mm, 12.3 mm, 11.5 mm', '△ too small by 0.49 mm'],
    ['d = 12 mm ± 0.01', 'd measured 12 mm, 11.9 mm', '△ too small by 0.09 mm'],
    ['n = 437 rpm', 'n used 437.4 rpm', 'as planned'],
  ])('%s, %s', (figure, line, verdict) => {
    expect(stands(figure, line)).toBe(verdict);
  });

  it.each([
    ['1 mm <= 2 mm', '1 mm ≤ 2 mm'],
    ['1 mm < 2 mm', '1 mm < 2 mm'],
    ['2 mm >= 1 mm', '2 mm ≥ 1 mm'],
    ['2 mm > 1 mm', '2 mm > 1 mm'],
    ['2 mm != 1 mm', '2 mm ≠ 1 mm'],
  ])('%s', (line, pair) => {
    expect(rows(table({}, line))[0]?.slice(1)).toEqual([pair, '✓ holds']);
  });

  it('a reading taken warm by its size at 20 °C, as its finding has it', () => {
    // 23 µm/m/K over 12 K takes 0.0069 mm off 25.03 mm: 25.0231 mm, 0.0021 mm over the 25.021 mm of H7 (ISO 286-2).
    const lines = fence('bore = 25 mm H7', 'bore final 25.03 mm at 32 °C');
    const [html = ''] = tables(`---\nmaterial: aluminium_6082\n---\n${lines}`);
    expect(
      rows(html)
        .find(([, said]) => said?.startsWith('final'))
        ?.at(-1),
    ).toBe('✗ too large by 0.002 mm');
    // Beside it where it lies between the limits, in words and drawn.
    expect(html).toContain('bore: limits 25 mm to 25.021 mm; final, at 20 °C: 25.023 mm.');
  });

  it('has its sign and word together, and words alone without either', () => {
    const html = table({}, 'a = 1 mm', 'a <= 2 mm', 'a measured 1.2 mm');
    expect(html).toContain(
      '<span class="scribeline-good"><span class="scribeline-stamp"><span class="scribeline-sign" ' +
        'aria-hidden="true">✓</span><b>holds</b></span></span>',
    );
    expect(html).toContain('<span class="scribeline-plain"> 0.2 mm above the figure</span>');
  });
});

describe('limits', () => {
  it('asked for have their two ends one hover away', () => {
    const titles = (line: string): string[] =>
      [...table({}, line).matchAll(/class="scribeline-(?:even|deviations)" title="([^"]*)"/g)].map(
        ([, title = '']) => title,
      );
    expect(titles('a = 30 mm ± 0.05')).toEqual(['29.95 … 30.05 mm']);
    expect(titles('a = 30 mm +0.02/-0.01 mm')).toEqual(['29.99 … 30.02 mm']);
    expect(titles('a = 15° ± 0.5°')).toEqual(['14.5° … 15.5°']);
    expect(titles('a = 30 mm ± 0')).toEqual(['30 mm']);
  });

  it('of inputs that cancel are none; of plain numbers have no unit', () => {
    expect(rows(table({}, 'a = 5 mm ± 0.1', 'a - a')).at(-1)).toEqual(['a - a', '0 mm', '']);
    const rounded = rows(table({}, 'a = 5 mm ± 0.1', 'b = 0.3 mm ± 0.1', 'a + b - a - b')).at(-1);
    expect(rounded?.[1]).toBe('0 mm');
    expect(rows(table({}, 'a = 10 mm ± 1', 'a / (10 mm)')).at(-1)?.[1]).toBe('1 0.9 … 1.1');
  });

  it('name the input that matters most by its share', () => {
    const [, , sum] = rows(table({}, 'a = 10 mm ± 0.7445', 'b = 10 mm ± 0.2555', 'a + b'));
    expect(sum?.[1]).toContain('74 % from a');
  });
});

describe('with workings', () => {
  const workings = (...lines: string[]): string => table({ workings: true }, ...lines);

  it('the steps stand under each line that has some, for the keyboard to scroll', () => {
    const html = workings(
      'a = 10 mm',
      'b = 2 * a',
      'a <= 12 mm',
      'a measured 9 mm',
      'c = 1 mm + 1',
      'b',
      'b * 2',
    );
    expect(all(html, 'scribeline-step').map(words)).toEqual([
      'b = 2 ⋅ a = 2 ⋅ 10 mm = 20 mm',
      '= b = 20 mm',
      '= b ⋅ 2 = 20 mm ⋅ 2 = 40 mm',
    ]);
    expect(html).toContain('<div class="scribeline-step" tabindex="0">');
    expect(html).not.toContain('scribeline-unfold');
  });

  it('a side that says what the one before it said is left out; the unit asked for is the last', () => {
    const said = (line: string): string[] => all(workings(line), 'scribeline-step').map(words);
    expect(said('b = 1 mm + 2 mm')).toEqual(['b = 1 mm + 2 mm = 3 mm']);
    expect(said('b = (20.4 mm + 5 mm) to in')).toEqual([expect.stringMatching(/= 1 in$/)]);
  });

  it('a formula says why, with or without a name for what it gives', () => {
    for (const line of ['n = spindle_speed(24 m/min, 30 mm)', 'spindle_speed(24 m/min, 30 mm)'])
      expect(workings(line).match(/<p class="scribeline-why">.*?<small>Source: /g)).toHaveLength(1);
    expect(workings('24 m/min * 2')).not.toContain('scribeline-why');
  });

  it('a check says why it is asked, and nothing else does', () => {
    const why = (...lines: string[]): string[] => all(workings(...lines), 'scribeline-why').map(words);
    expect(why('a = 1 mm  # for now', 'a <= 2 mm  # it must fit')).toEqual(['Asked because: it must fit.']);
    const silent = 'The job goes on only while 1 mm <= 2 mm is true; the note does not say why.';
    expect(why('1 mm <= 2 mm')).toEqual([silent]);
    expect(why('1 mm <= 2 mm  #')).toEqual([silent]);
  });

  it('the shares of the inputs stand below', () => {
    const html = workings('a = 10 mm ± 0.3', 'b = 10 mm ± 0.2', 'a + b');
    expect(html).toContain('Where the limits of this result come from: a 60 %, b 40 %.');
  });
});

describe('with answers kept back', () => {
  const kept = (...lines: string[]): string => table({ answers: 'hidden', paper: true }, ...lines);
  const answers = (...lines: string[]): string[] =>
    [...kept(...lines).matchAll(/<summary>Answer<\/summary><p>(.*?)<\/p>/g)].map(([, answer = '']) =>
      words(answer),
    );

  it('the answer is folded under the line, with its limits and its working', () => {
    expect(answers('a = 10 mm', 'b = 2 * a', 'b <= 25 mm', 'b >= 25 mm')).toEqual([
      '20 mm',
      '20 mm ≤ 25 mm: it holds.',
      '20 mm < 25 mm: it fails.',
    ]);
    expect(answers('a = 10 mm ± 0.1', 'b = 2 * a')).toEqual(['20 mm (19.8 … 20.2 mm)']);
    expect(all(kept('a = 10 mm', 'b = 2 * a'), 'scribeline-step').map(words)).toEqual([
      'b = 2 ⋅ a = 2 ⋅ 10 mm = 20 mm',
    ]);
  });

  it('a line to write on has the unit, and what is given is given', () => {
    const html = kept(
      'a = [70, 115] rpm',
      'b = 2 mm * 3',
      'ball_on_shank(30 mm, 12 mm)',
      '2 mm * 4',
      'c = 1 mm + 1',
    );
    const blanks = [...html.matchAll(/<td[^>]*><span class="scribeline-blank"[^>]*><\/span> (.*?)<\/td>/g)];
    expect(blanks.map(([, unit]) => unit)).toEqual(['mm', '°', 'mm', 'mm', 'mm', 'mm']);
    expect(rows(html)[0]).toEqual(['a', 'given', '[70, 115] rpm']);
    // What could not be worked out is nothing to find.
    expect(rows(html).find(([first]) => first === 'c')?.[2]).toBe('—');
  });
});

describe('in other units', () => {
  it.each([
    ['in', '[1, 2] in', '1 in'],
    ['mm', '[25.4, 50.8] mm', '25.4 mm'],
    ['both', '[1, 2] in', '1 in (25.4 mm)'],
  ] as const)('%s: lists, words, results with several fields and failed lines too', (units, list, one) => {
    const lines = ['[1, 2] in', '1 in', 'job.part', 'fit(25 mm, H7, g6)', '300 rpm', '1 mm + 1'];
    const [html = ''] = tables(`---\npart: pin\n---\n${fence(...lines)}`, { units });
    const results = rows(html).map(([, result]) => result);
    expect(results.slice(0, 3)).toEqual([list, one, 'pin']);
    expect(rows(html).find(([first]) => first === '300 rpm')?.[1]).toBe('300 rpm');
    expect(rows(html).find(([first]) => first === '1 mm + 1')?.[1]).toBe('—');
  });
});
