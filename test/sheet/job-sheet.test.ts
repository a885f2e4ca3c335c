import { describe, expect, it } from 'vitest';
import type { How } from '../../src/sheet/how';
import type { ImageFile } from '../../src/sheet/images';
import { imagesOf, jobSheet } from '../../src/sheet/job-sheet';
import { dayOf } from '../../src/sheet/day';
import { equations, mathOf } from '../../src/sheet/mathml';
import { HOSTILE } from './hostile';

// Photos as large as they may be, on a machine that may be busy.
const FENCE = '```';
const SHOP = `${FENCE}machine mill
speeds = [90, 140, 225] rpm
caution: the quill creeps when it is warm
${FENCE}
${FENCE}machine head
ratio = 40
plates = [15, 18, 20, 39]
${FENCE}
`;

interface Options extends Partial<Omit<How, 'paper'>> {
  usualUnits?: 'mm' | 'in';
  images?: ReadonlyMap<string, ImageFile>;
}

function made(text: string, { images = new Map(), usualUnits, ...how }: Options = {}) {
  return jobSheet({
    text,
    shops: [{ file: 'jobs/shop.md', text: SHOP }],
    ...(usualUnits && { usualUnits }),
    how: { units: 'own', answers: 'shown', workings: false, ...how },
    date: '2026-11-25',
    file: 'jobs/a.md',
    images,
    styles: '/* styles */',
    styleHash: 'sha256-abc',
  });
}

const figures = (...lines: string[]): string => [`${FENCE}figures`, ...lines, FENCE, ''].join('\n');

const words = (html: string): string =>
  html
    .replace(/<style>.*?<\/style>/gs, '')
    .replace(/<title>.*?<\/title>/gs, '')
    .replace(/<[^>]*>/g, ' ')
    .replaceAll('&#39;', "'")
    .replace(/\s+/g, ' ');

it('a day is written as notes write it', () => {
  expect(dayOf(new Date(2026, 0, 5))).toBe('2026-01-05');
  expect(dayOf(new Date(2026, 11, 31))).toBe('2026-12-31');
});

describe('the head', () => {
  it('has what the note says, and room for what it does not', () => {
    const { html } = made(
      '---\njob: 0147\ncustomer: Ostley Ferry Trust\nquantity: 2\nrevision: B\n---\n\n# Lever\n',
    );
    const told = words(html);
    expect(told).toContain('job 0147');
    expect(told).toContain('customer Ostley Ferry Trust');
    expect(told).toContain('revision B');
    expect(told).toContain('quantity 2');
    expect(told).toContain('date 2026-11-25');
    expect(html).toContain('<dt>part</dt><dd dir="auto">&nbsp;</dd>');
    expect(html).toContain('<h1>Lever</h1>');
  });

  it('has every place that a drawing has', () => {
    const { html } = made('---\ndue: 2026-12-01\nmaterial: brass\ndrawing: 0815\n---\n');
    const head = /<header.*?<\/header>/s.exec(html)?.[0] ?? '';
    expect([...head.matchAll(/<dt>(.*?)<\/dt><dd dir="auto">(.*?)<\/dd>/g)].map(([, ...it]) => it)).toEqual([
      ['job', '&nbsp;'],
      ['customer', '&nbsp;'],
      ['part', '&nbsp;'],
      ['drawing', '0815'],
      ['revision', '&nbsp;'],
      ['quantity', '&nbsp;'],
      ['material', 'brass'],
      ['due', '2026-12-01'],
      ['date', '2026-11-25'],
      ['note', 'jobs/a.md'],
    ]);
  });

  it('says at its top what is wrong, and where', () => {
    const { html, errors } = made(figures('a = 1 mm + 2', 'b = 3 mm'));
    expect(errors).toBe(1);
    expect(words(html)).toContain('1 error: do not work from this sheet');
    expect(html).toContain('<a href="#line-2">Line 2</a>');
    expect(html).toContain('id="line-2"');
    expect(html.indexOf('sheet-errors')).toBeLessThan(html.indexOf('<main>'));
  });

  it('counts errors and warnings, and says only of errors not to work by it', () => {
    const top = (text: string): string =>
      /<section class="sheet-alert.*?<\/section>/s.exec(made(text).html)?.[0] ?? '';
    const warned = top(figures('a = 1 mm ± 0.5', 'a <= 1.2 mm'));
    expect(words(warned)).toBe(' △ 1 warning : see the lines marked △ below. ');
    expect(warned).toContain('<section class="sheet-alert"');
    const both = top(figures('a = 1 mm ± 0.5', 'a <= 1.2 mm', 'a <= 1.3 mm', 'b = 1 mm + 1', 'c = 1 mm + 1'));
    expect(both).toContain('<section class="sheet-alert sheet-bad"');
    expect(words(both)).toContain('2 errors: do not work');
    expect(words(both)).toContain('2 warnings');
    const one = top(figures('a = 1 mm + 1'));
    expect(words(one)).not.toContain('warning');
    expect(one).toContain('<section class="sheet-alert sheet-bad"');
  });

  it('is silent where nothing is wrong', () => {
    expect(made(figures('b = 3 mm')).html).not.toContain('sheet-alert"');
  });
});

describe('the page', () => {
  it('loads nothing, sends nothing, and names the job', () => {
    const head = (text: string): readonly string[] => {
      const { html } = made(text);
      return html.slice(0, html.indexOf('\n<body')).split('\n');
    };
    expect(head('---\njob: 12\npart: Pin <&>\n---\n')).toEqual([
      '<!doctype html>',
      '<html lang="en">',
      '<head>',
      '<meta charset="utf-8">',
      '<meta http-equiv="Content-Security-Policy" content="default-src &#39;none&#39;; img-src data:; ' +
        'style-src &#39;sha256-abc&#39;; base-uri &#39;none&#39;; form-action &#39;none&#39;">',
      '<meta name="viewport" content="width=device-width, initial-scale=1">',
      '<meta name="referrer" content="no-referrer">',
      '<meta name="color-scheme" content="light dark">',
      '<title>12 · Pin &lt;&amp;&gt;</title>',
      '<style>/* styles */</style>',
      '</head>',
    ]);
    const title = (text: string): string | undefined => head(text).find((line) => line.startsWith('<title>'));
    expect(title('---\npart: Pin\njob:\n---\n')).toBe('<title>Pin</title>');
    expect(title('# Words\n')).toBe('<title>jobs/a.md</title>');
  });

  it.each(['\n', '\r\n', '\r'])('has the words of the note as markdown gives them (line end %j)', (end) => {
    const { html } = made(
      [
        ...['---', 'job: 12', '---', '# A *b* `c<d`', ''],
        '[web](https://x.example/a?b=1&c) [mail](mailto:a@x.example) [up](#top) [note](other%20note.md) ' +
          '[odd](100%.md) [bad](javascript:alert(1)) <b>',
        ...['', '![alt *x*](a.png)', '', '    code <x>', '', '```js', 'let a = 1 < 2', '```', ''],
        ...['- [x] done', '- [ ] open', '- [x]no', '1. [X] big', '', '[x] none', '', '> - [x] quoted', ''],
      ].join(end),
    );
    const way = 'rel="noopener noreferrer"';
    const box = (words: string, sign = ''): string =>
      `<span class="scribeline-box" role="img" aria-label="${words}">${sign}</span>`;
    expect(html.slice(html.indexOf('<main>') + 6, html.indexOf('</main>')).split('\n')).toEqual([
      '<h1>A <em>b</em> <code>c&lt;d</code></h1>',
      `<p><a href="https://x.example/a?b=1&amp;c" ${way} title="https://x.example/a?b=1&amp;c">web</a> ` +
        `<a href="mailto:a@x.example" ${way} title="mailto:a@x.example">mail</a> ` +
        `<a href="#top" ${way} title="#top">up</a> <span class="sheet-link" title="other note.md">note</span> ` +
        '<span class="sheet-link" title="100%.md">odd</span> [bad](javascript:alert(1)) &lt;b&gt;</p>',
      '<p><span class="sheet-no-image">[alt x]</span></p>',
      '<pre><code>code &lt;x&gt;',
      '</code></pre><pre><code>let a = 1 &lt; 2',
      '</code></pre><ul>',
      `<li>${box('done', '✓')}done</li>`,
      `<li>${box('to do')}open</li>`,
      '<li>[x]no</li>',
      '</ul>',
      '<ol>',
      `<li>${box('done', '✓')}big</li>`,
      '</ol>',
      '<p>[x] none</p>',
      '<blockquote>',
      '<ul>',
      `<li>${box('done', '✓')}quoted</li>`,
      '</ul>',
      '</blockquote>',
      '',
    ]);
  });

  it('has every size with limits: asked, least, most, found, good', () => {
    const { html } = made(
      figures(
        ...['pin = 12 mm ± 0.02 mm shaft', 'bore = 25 mm H7', 'up = 8 mm +0.1/+0.05 mm', 'a = 8 mm'],
        ...['bore final 25.01 mm, 25.02 mm', 'pin final 12.1 mm', 'pin final 12.01 mm', 'up final 9 mm'],
        ...['gap = bore - pin ± 1 mm', 'gap measured 13.2 mm', 'turn = 15° ± 0.5°', 'b = a * 2'],
      ),
    );
    const table = html.slice(html.indexOf('<h2 id="sheet-sizes">'));
    const rows = [...table.slice(0, table.indexOf('</table>')).matchAll(/<tr>(.*?)<\/tr>/g)].map(
      ([, row = '']) =>
        [...row.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/g)].map(([, cell = '']) =>
          cell
            .replaceAll('<span class="sheet-write"></span>', '_')
            .replace(/<span class="scribeline-box" role="img" aria-label="([^"]*)">.?<\/span>/, '$1')
            .replace(/\s+/g, ' '),
        ),
    );
    expect(rows).toEqual([
      ['size', 'asked', 'least', 'most', 'found', 'good'],
      ['pin', '12 mm ±0.02', '11.98 mm', '12.02 mm', '12.01 mm', 'done'],
      ['bore', '25 mm H7 +0.021/0', '25 mm', '25.021 mm', '25.01 mm · 25.02 mm', 'done'],
      ['up', '8 mm +0.1/+0.05', '8.05 mm', '8.1 mm', '9 mm', '✗'],
      ['gap', '13 mm ±1', '12 mm', '14 mm', '___', 'to do'],
      ['turn', '15° ±0.5', '14.5°', '15.5°', '___', 'to do'],
    ]);
    expect(made(figures('a = 8 mm', 'a final 8.1 mm')).html).not.toContain('sheet-sizes');
    // What a machine keeps to is no size of the part.
    const card = `${FENCE}machine own\nlength = 100 mm ± 1 mm\n${FENCE}\n`;
    expect(made(card + figures('a = 8 mm')).html).not.toContain('sheet-sizes');
    // Taken warm: as it was read, and as it is judged. 23 µm/m/K over 12 K takes 0.0069 mm off 25.03 mm.
    const warm = made(
      `---\nmaterial: aluminium_6082\n---\n${figures('d = 25 mm H7', 'd final 25.03 mm at 32 °C')}`,
    );
    expect(warm.html).toContain('<td>25.03 mm (25.023 mm at 20 °C)</td><td>✗</td>');
  });
});

describe('the words of the note', () => {
  it('keep what was signed as it was written, and blocks of figures their place behind a head', () => {
    const { html } = made(
      `---\njob: 1\n---\n\nWords.\n\n${figures('a = 2 mm')}${FENCE}signed\na = 2 mm\n${FENCE}\n`,
    );
    const main = html.slice(html.indexOf('<main>'), html.indexOf('</main>'));
    expect(main).toContain('<p>Words.</p>\n<section class="scribeline-block scribeline-figures">');
    expect(main).toContain('<pre><code>a = 2 mm\n</code></pre>');
  });

  it('are ticked off only where words begin with brackets', () => {
    const { html } = made('- `[x] code`\n- *[x] slanted*\n-\n\n      [x] code\n- > [x] quoted\n');
    expect(html).not.toContain('scribeline-box');
  });
});

describe('what is to be done', () => {
  it('moves are ticked off, with the end check', () => {
    const { html } = made(figures('moves = indexing_moves(13, head)'));
    const [list = ''] = /<div class="scribeline-list">.*?End check.*?<\/div>/s.exec(html) ?? [];
    expect(list.match(/aria-label="to do"/g)).toHaveLength(14);
    // 13 divisions at 40 : 1 are 3 turns and 3 holes of 39: cut 3 stands at 6 turns, hole 6.
    expect(list).toContain('<th scope="row">3</th><td>6</td><td>6</td>');
    expect(words(list)).toMatch(/End check: after cut 13 .* hole 0, where it began/);
    expect(html).not.toContain('[0, 3, 6');
  });

  it('a quotation is read and not ticked off: item, quantity, rate and amount', () => {
    const { html } = made(figures('offer = quotation(4, 40 AUD, 10 AUD, 5 AUD, 35%)'));
    const [list = ''] = /<div class="scribeline-list">.*?<\/table>/s.exec(html) ?? [];
    expect(list).not.toContain('done');
    expect([...list.matchAll(/<th scope="col"[^>]*>([^<]*)</g)].map(([, head]) => head)).toEqual([
      'no.',
      'items',
      'quantities',
      'rates',
      'amounts',
    ]);
    // Cost of 40 and four times 15 is 100: 135.00 with a markup of 35 %, 153.85 with a margin of 35 %.
    const lines = words(list.replaceAll('</td>', ' | '));
    expect(lines).toMatch(/cost of the job \| 1 \| 100.00 AUD \| 100.00 AUD/);
    expect(lines).toMatch(/by 35% markup \| 4 \| 33.75 AUD \| 135.00 AUD/);
    expect(lines).toMatch(/by 35% margin \| 4 \| 38.46 AUD \| 153.85 AUD/);
  });

  it('a long list stands in parts side by side, so that it stays on one page', () => {
    const { html } = made(figures('moves = indexing_moves(36, head)'));
    const [list = ''] =
      /<div class="scribeline-list scribeline-long">.*?End check.*?<\/div>/s.exec(html) ?? [];
    const parts = list.split('<table>').slice(1);
    expect(parts.map((part) => part.match(/<th scope="row">/g)?.length)).toEqual([15, 15, 6]);
    expect(parts.every((part) => part.includes('<thead>'))).toBe(true);
    expect(list.match(/<th scope="row">(\d+)/g)?.at(-1)).toBe('<th scope="row">36');
  });

  it('task lists have boxes', () => {
    const { html } = made('- [ ] set the arms\n- [x] scribe round\n- plain\n');
    expect(html).toContain('aria-label="to do"></span>set the arms');
    expect(html).toContain('aria-label="done">✓</span>scribe round');
    expect(html).toContain('<li>plain</li>');
  });

  it('sizes with limits wait for their readings', () => {
    const { html } = made(figures('d = 12 mm h7', 'e = 20 mm ± 0.1', 'e final 20.05 mm', 'f = 3 mm'));
    const [table = ''] = /<section class="sheet-inspection"[^>]*>.*?<\/section>/s.exec(html) ?? [];
    // ISO 286-2: 12 h7 is 0/-0.018.
    expect(words(table)).toContain('d 12 mm h7 0/−0.018 11.982 mm 12 mm');
    expect(table.match(/class="sheet-write"/g)).toHaveLength(3);
    expect(words(table)).toContain('e 20 mm ±0.1 19.9 mm 20.1 mm 20.05 mm ✓');
    expect(table).not.toContain('>f<');
  });

  it('there is a place for each signature, and a word on whose rules count', () => {
    const told = words(made('').html);
    for (const word of ['made by', 'measured by', 'released by']) expect(told).toContain(word);
    expect(told).toContain('Figures are a starting point to be checked');
    expect(told).toContain("machine's manual, local rules and the practice of qualified people");
  });
});

describe('cautions', () => {
  const text = `${FENCE}figures on mill\na = plain_indexing(13, head)\n${FENCE}\n${FENCE}figures on mill\nb = plain_indexing(20, head)\n${FENCE}\n`;

  it('of formulas and of the machine come once each, open', () => {
    const { html } = made(text);
    expect(words(html).match(/Take up backlash in one direction only/g)).toHaveLength(1);
    expect(words(html).match(/mill: the quill creeps when it is warm/g)).toHaveLength(1);
    expect(html).toContain('<details class="scribeline-cautions" open="">');
  });
});

describe('for the apprentice', () => {
  const text = figures(
    'a = 10 mm',
    'b = 2 * a',
    'b <= 25 mm  # it must pass the bore',
    's = ball_on_shank(30 mm, 12 mm)',
  );

  it('answers are blanks, with the answer and its working folded under them', () => {
    const { html } = made(text, { answers: 'hidden' });
    const outside = html.replace(/<details class="scribeline-answer">.*?<\/details>/gs, '');
    expect(words(outside)).toContain('a given 10 mm');
    for (const answer of ['20 mm', '29.367', 'holds']) expect(words(outside)).not.toContain(answer);
    expect(outside.match(/scribeline-blank/g)?.length).toBeGreaterThan(4);
    const inside = [...html.matchAll(/<details class="scribeline-answer">(.*?)<\/details>/gs)].map(
      ([, it = '']) => words(it),
    );
    expect(inside[0]).toContain('20 mm');
    expect(inside[1]).toContain('20 mm ≤ 25 mm: it holds');
    expect(inside[2]).toContain('ring: 29.367 mm');
    expect(html).not.toContain('<details class="scribeline-answer" open');
  });

  it('what is written down is no answer; what follows from it is kept back in the table of sizes too', () => {
    const { html } = made(figures('neck = 7/16 in', 'd = 12 mm h7', 'ring = 2 * neck ± 0.05 mm'), {
      answers: 'hidden',
    });
    const outside = words(html.replace(/<details class="scribeline-answer">.*?<\/details>/gs, ''));
    expect(outside).toContain('0.4375 in');
    expect(outside).toContain('d 12 mm h7 0/−0.018 11.982 mm 12 mm');
    for (const answer of ['0.875', '22.2']) expect(outside).not.toContain(answer);
  });

  it('workings give the formula in words, with figures, the result, and why it is so', () => {
    const told = words(made(text, { workings: true }).html);
    expect(told).toContain('b = 2 ⋅ a = 2 ⋅ 10 mm = 20 mm');
    expect(told).toContain('The chord from free end to neck ring = ball ⋅ cos');
    expect(told).toContain('Every point of a circle is equally far');
    expect(told).toContain('Asked because: it must pass the bore.');
  });

  it('the working of one field of a result is the steps that lead to it', () => {
    const told = words(made(figures('h = ball_on_shank(30 mm, 12 mm).ring'), { workings: true }).html);
    expect(told).toContain('The chord from free end to neck ring = ball ⋅ cos');
    expect(told).not.toContain('height =');
  });

  it('sizes that follow are lines to write on in the table of sizes, and a place for what was found is marked', () => {
    const rows = (...lines: string[]): string[] =>
      [
        ...(
          made(figures(...lines), { answers: 'hidden' }).html.split('<h2 id="sheet-sizes">')[1] ?? ''
        ).matchAll(/<tr>(<th scope="row">.*?)<\/tr>/gs),
      ].map(([, row = '']) => row.replaceAll('<span class="sheet-write"></span>', '_'));
    const box = '<span class="scribeline-box" role="img" aria-label="to do"></span>';
    expect(rows('d = 12 mm h7', 'ring = 2 * d ± 0.05 mm', 'e = 5 mm ± 1 mm', 'e final 5.1 mm')).toEqual([
      `<th scope="row">d</th><td>12 mm h7 0/−0.018</td><td>11.982 mm</td><td>12 mm</td><td class="sheet-empty">___</td><td>${box}</td>`,
      `<th scope="row">ring</th><td>_  ±0.05</td><td>_</td><td>_</td><td class="sheet-empty">___</td><td>${box}</td>`,
      `<th scope="row">e</th><td>5 mm  ±1</td><td>4 mm</td><td>6 mm</td><td>5.1 mm</td><td>${box.replace('to do"></', 'done">✓</')}</td>`,
    ]);
  });

  it('without --workings there are none', () => {
    expect(made(text).html).not.toContain('<math>');
  });

  it('trade words of the note are explained at its end, once each', () => {
    const { html } = made('Set the sector arms. Sector arms again; mind the Backlash.\n');
    const [section = ''] = /<section class="sheet-glossary"[^>]*>.*?<\/section>/s.exec(html) ?? [];
    expect([...section.matchAll(/<dt>(.*?)<\/dt>/g)].map(([, word]) => word)).toEqual([
      'backlash',
      'sector arms',
    ]);
    expect(made('Nothing.\n').html).not.toContain('sheet-glossary');
  });
});

describe('units', () => {
  it('of results are those of the reader, unless the note says', () => {
    const line = figures('ball_on_shank(30 mm, 12 mm).ring');
    expect(words(made(line).html)).toContain('29.367 mm');
    expect(words(made(line, { usualUnits: 'in' }).html)).toContain('1.1562 in');
    expect(words(made(`---\nunits: mm\n---\n${line}`, { usualUnits: 'in' }).html)).toContain('29.367 mm');
  });

  const text = figures('a = 1 in', 'b = 25.4 mm ± 0.1');
  it.each([
    ['mm', ['25.4 mm', '25.4 mm ±0.1']],
    ['in', ['1 in', '1 in ±0.0039']],
    ['both', ['1 in (25.4 mm)', '25.4 mm (1 in) ±0.1']],
    ['own', ['1 in', '25.4 mm ±0.1']],
  ] as const)('%s', (units, wanted) => {
    const { html } = made(text, { units });
    const results = [...html.matchAll(/<td role="cell" class="scribeline-result">(.*?)<\/td>/g)].map(
      ([, cell = '']) => words(cell).trim().replace(/ +/g, ' '),
    );
    expect(results).toEqual(wanted);
  });
});

describe('mathematics', () => {
  const a = '<mi mathvariant="normal">a</mi>';
  const s = '<mi mathvariant="normal">s.ring</mi>';
  const squared = (inner: string): string => `<msup>${inner}<mn>2</mn></msup>`;
  const fenced = (open: string, inner: string, close: string, high = ' stretchy="false"'): string =>
    `<mrow><mo fence="true" form="prefix"${high}>${open}</mo>${inner}<mo fence="true" form="postfix"${high}>${close}</mo></mrow>`;
  const called = (name: string, ...parts: readonly string[]): string =>
    `<mrow><mi mathvariant="normal">${name}</mi><mo>&#x2061;</mo>${fenced('(', `<mrow>${parts.join('<mo separator="true">,</mo>')}</mrow>`, ')')}</mrow>`;
  const sum = `<mrow>${a}<mo>+</mo><mn>1</mn></mrow>`;

  it.each([
    [
      'a / (b + 1)',
      '<mfrac><mi mathvariant="normal">a</mi><mrow><mi mathvariant="normal">b</mi><mo>+</mo><mn>1</mn></mrow></mfrac>',
    ],
    ['(a) / ((a + 1))', `<mfrac>${a}${sum}</mfrac>`],
    ['sqrt(2)', '<msqrt><mn>2</mn></msqrt>'],
    ['abs(a)', fenced('|', a, '|')],
    ['a^2', '<msup><mi mathvariant="normal">a</mi><mn>2</mn></msup>'],
    ['2 N/mm^2', '<mn>2 N/mm²</mn>'],
    ['-a', '<mrow><mo>−</mo><mi mathvariant="normal">a</mi></mrow>'],
    ['1 - a', `<mrow><mn>1</mn><mo>−</mo>${a}</mrow>`],
    ['2 * pi', '<mrow><mn>2</mn><mo>⋅</mo><mi mathvariant="normal">π</mi></mrow>'],
    ['s.ring', s],
    ['s.ring.used', '<mi mathvariant="normal">s.ring.used</mi>'],
    ['(a).ring', `<mrow>${fenced('(', a, ')')}<mi mathvariant="normal">.ring</mi></mrow>`],
    ['hypot(a, s.ring)', `<msqrt>${squared(a)}<mo>+</mo>${squared(s)}</msqrt>`],
    [
      'hypot((a), 2)',
      `<msqrt>${squared(fenced('(', a, ')'))}<mo>+</mo>${squared(fenced('(', '<mn>2</mn>', ')'))}</msqrt>`,
    ],
    ['hypot(a, 1, 1)', called('hypot', a, '<mn>1</mn>', '<mn>1</mn>')],
    ['asin(a)', called('arcsin', a)],
    ['acos(a)', called('arccos', a)],
    ['atan(a)', called('arctan', a)],
    ['a to mm', `${a}<mn>\u00a0to mm</mn>`],
    ['2 m^4', '<mn>2 m⁴</mn>'],
    ['3 kg*m/s^5', '<mn>3 kg*m/s⁵</mn>'],
    ['6 mm^6/s^7', '<mn>6 mm⁶/s⁷</mn>'],
    ['2 mm^10', '<mn>2 mm¹⁰</mn>'],
    ['2 s^-1', '<mn>2 s⁻¹</mn>'],
    ['8 mm^8/s^9', '<mn>8 mm⁸/s⁹</mn>'],
    ['5 mm^1/s^3', '<mn>5 mm¹/s³</mn>'],
    ['max(a, 1)', called('max', a, '<mn>1</mn>')],
    ['[1, a]', `<mrow>${fenced('[', `<mrow><mn>1</mn><mo separator="true">,</mo>${a}</mrow>`, ']')}</mrow>`],
    [
      '[1, 2] mm',
      `<mrow>${fenced('[', '<mrow><mn>1</mn><mo separator="true">,</mo><mn>2</mn></mrow>', ']')}<mn>\u00a0mm</mn></mrow>`,
    ],
    ['(1)', fenced('(', '<mn>1</mn>', ')')],
    ['(1 / 2)', fenced('(', '<mfrac><mn>1</mn><mn>2</mn></mfrac>', ')', '')],
    ['(sqrt(2))', fenced('(', '<msqrt><mn>2</mn></msqrt>', ')', '')],
    ['(a^2)', fenced('(', squared(a), ')', '')],
  ])('%s', (text, mathml) => {
    expect(mathOf(text)).toBe(`<mrow>${mathml}</mrow>`);
  });

  it('stands in equations one under the other, = below =', () => {
    const right = (inner: string): string =>
      `<mtd class="scribeline-right-side"><mo>=</mo>${inner}</mtd></mtr>`;
    const left = (inner: string): string => `<mtr><mtd class="scribeline-left-side">${inner}</mtd>`;
    const set = (...rows: readonly string[]): string =>
      `<math><mtable displaystyle="true">${rows.join('')}</mtable></math>`;
    const name = '<mi mathvariant="normal">w</mi>';
    expect(equations('w', ['a', '-2 mm ± 1', '3 mm '])).toBe(
      set(
        left(name) + right(`<mrow>${a}</mrow>`),
        left('') + right('<mn>−2 mm ± 1</mn>'),
        left('') + right('<mrow><mn>3 mm</mn></mrow>'),
      ),
    );
    expect(equations('', ['a'])).toBe(set(left('') + right(`<mrow>${a}</mrow>`)));
    expect(equations('w', ['no <b> expression '])).toBe(
      set(left(name) + right('<mn>no &lt;b&gt; expression\u00a0</mn>')),
    );
  });

  it('is none of what is no expression', () => {
    expect(mathOf('a # remark')).toBeNull();
    expect(mathOf('a = 2')).toBeNull();
    expect(mathOf('2 +')).toBeNull();
    expect(mathOf('<b>')).toBeNull();
  });
});

describe('images', () => {
  const PNG = Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3]);

  it('beside the note are put into the sheet', () => {
    expect(
      imagesOf(
        '---\njob: 1\n---\n![old](photos/old%20part.png) ![](https://x.example/a.png) ![](/etc/b.png)\n',
      ),
    ).toEqual(['photos/old part.png']);
    const { html, findings } = made('![old](a.png)\n', { images: new Map([['a.png', { bytes: PNG }]]) });
    const [, data = ''] = /<img src="data:image\/png;base64,([^"]*)" alt="old">/.exec(html) ?? [];
    expect(Buffer.from(data, 'base64')).toEqual(Buffer.from(PNG));
    expect(findings).toEqual([]);
  });

  it.each([
    ['elsewhere', '![p](https://x.example/a.png)', new Map()],
    ['missing', '![p](a.png)', new Map()],
    ['missing', '![p](a.png)', new Map([['a.png', { unreadable: 'no' }]])],
    [
      'kind',
      '![p](a.png)',
      new Map([['a.png', { bytes: new TextEncoder().encode('<svg onload=alert(1)>') }]]),
    ],
    ['too-large', '![p](a.png)', new Map([['a.png', { size: 9e6 }]])],
  ] as [string, string, ReadonlyMap<string, ImageFile>][])(
    'left out (%s) are told of at the top',
    (code, text, images) => {
      const { html, findings } = made(`\n\n${text}\n`, { images });
      expect(findings.map((it) => [it.code, it.line])).toEqual([[`image-${code}`, 2]]);
      expect(html).not.toContain('<img');
      expect(words(html)).toContain('△ Line 3: ');
      expect(words(html)).toContain('[p]');
    },
  );

  it('just within the limit are taken', () => {
    const bytes = new Uint8Array(8_000_000);
    bytes.set(PNG);
    expect(made('![p](a.png)', { images: new Map([['a.png', { bytes }]]) }).findings).toEqual([]);
  });

  it('of more than 40 MB in all are not', () => {
    const bytes = new Uint8Array(8_000_000);
    bytes.set(PNG);
    const text = Array.from({ length: 6 }, () => '![p](a.png)').join('\n\n');
    const { findings } = made(text, { images: new Map([['a.png', { bytes }]]) });
    expect(findings.map(({ code }) => code)).toEqual(['image-too-large']);
  });
});

describe('a hostile note', () => {
  const ways: [string, Options][] = [
    ['plain', {}],
    ['with workings', { workings: true }],
    ['to fill in', { answers: 'hidden' }],
    ['in both units', { units: 'both' }],
  ];

  it.each(ways)('comes out inert %s', (_, how) => {
    const { html } = made(HOSTILE, how);
    const tags = [...html.matchAll(/<([a-z][\w-]*)((?:\s+[\w:-]+(?:="[^"]*")?)*)\s*>/gi)];
    const known = new Set(
      (
        'html head meta title style body header dl div dt dd section p b ul li a main h1 h2 span table thead tbody tr th td ' +
        'caption colgroup col details summary code pre em i br hr img figure svg line circle path polyline polygon text footer ' +
        'math mtable mtr mtd mrow mi mn mo mfrac msup msqrt small wbr ol strong'
      ).split(' '),
    );
    for (const [tag, name = '', attributes = ''] of tags) {
      expect(known, tag).toContain(name);
      expect(attributes, tag).not.toMatch(/\son\w+\s*=\s*"/i);
      expect(attributes, tag).not.toMatch(/\sstyle=/i);
      for (const [, value = ''] of attributes.matchAll(/\s(?:href|src)="([^"]*)"/gi))
        expect(value, tag).toMatch(/^(?:https:\/\/x\.example|#|data:image\/)/);
    }
    // Every `<` that is no escape begins one of these tags, an end, or the document's type.
    const opened = html.match(/<(?![/!])/g)?.length;
    expect(opened).toBe(tags.length);
    expect(html.match(/<\/style>/g)).toHaveLength(1);
    expect(html).not.toMatch(/[\u202a-\u202e\u2066-\u2069]/);
    expect(html).toContain('[U+202E]');
    expect(html).toContain('default-src &#39;none&#39;');
    expect(html).not.toMatch(/<(?:script|iframe|object|embed|base|form|link)\b/i);
  });
});
