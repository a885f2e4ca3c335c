import MarkdownIt from 'markdown-it';
import { describe, expect, it } from 'vitest';
import { type PreviewHost, figuresPlugin } from '../../src/hosts/preview/plugin';

const NO_CARDS: PreviewHost = { cardsFor: () => ({ shops: [], loading: false }) };

/** What VS Code's own plugin does: every token with a place carries its line. */
function linePlugin(md: MarkdownIt): void {
  md.core.ruler.push('lines', (state) => {
    for (const token of state.tokens) {
      if (!token.map || token.type === 'inline') continue;
      token.attrSet('data-line', String(token.map[0]));
      token.attrJoin('class', 'code-line');
      token.attrJoin('dir', 'auto');
    }
  });
}

/** What VS Code leaves of front matter: one token with the text in `meta`, in the older and in the newer form. */
const frontMatterPlugin =
  (form: 'text' | 'content') =>
  (md: MarkdownIt): void => {
    md.block.ruler.before('fence', 'front_matter', (state, start, end, silent) => {
      const lines = state.src.split('\n');
      const close = lines.indexOf('---', 1);
      if (start !== 0 || lines[0] !== '---' || close < 0 || close >= end) return false;
      if (silent) return true;
      const token = state.push('front_matter', '', 0);
      const text = lines.slice(1, close).join('\n');
      token.meta = form === 'text' ? text : { content: text };
      token.map = [0, close + 1];
      token.hidden = true;
      state.line = close + 1;
      return true;
    });
    md.renderer.rules['front_matter'] = () => '';
  };

function preview(host: PreviewHost = NO_CARDS, ...more: ((md: MarkdownIt) => void)[]): MarkdownIt {
  const md = new MarkdownIt();
  md.use(figuresPlugin(host));
  for (const plugin of more) md.use(plugin);
  return md;
}

const fence = (...lines: string[]): string => ['```figures', ...lines, '```', ''].join('\n');
/** Without the workings that unfold. */
const folded = (html: string): string =>
  html.replace(/<div class="scribeline-working">[^]*?<\/div><\/div><\/details>/g, '');

const words = (html: string): string =>
  html
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();

describe('a block in the preview', () => {
  it('is a table of figure, expression and result', () => {
    const html = preview().render(fence('bar = 3/8 in to mm  # old stock'));
    expect(html).toContain('<th scope="row" role="rowheader">bar</th>');
    expect(words(folded(html))).toContain('bar 3/8 in to mm old stock 9.525 mm');
  });

  it('knows the figures of all blocks, later ones too', () => {
    const html = preview().render(`${fence('a = 2 * b')}\nwords\n\n${fence('b = 4 mm')}`);
    expect(words(html)).toContain('8 mm');
  });

  it.each(['text', 'content'] as const)('knows the front matter (meta: %s)', (form) => {
    const text = `---\njob: Tow ball\nquantity: 4\n---\n\n${fence('2 h * job.quantity')}`;
    const html = preview(NO_CARDS, frontMatterPlugin(form)).render(text);
    expect(words(html)).toContain('8 h');
  });

  it('stands in quotes and lists', () => {
    const html = preview().render(
      '> - a\n>\n>   ```figures\n>   a = 2 mm + 1 mm\n>   ```\n\n1. x\n   ```figures\n   b = 2 * a\n   ```\n',
    );
    expect(html).toMatch(
      /<blockquote>[^]*<li>[^]*<section class="scribeline-block[^]*<\/li>[^]*<\/blockquote>/,
    );
    expect(words(html)).toContain('3 mm');
    expect(words(html)).toContain('6 mm');
  });

  it('carries the line of its fence and of every row, for scrolling along', () => {
    const html = preview(NO_CARDS, linePlugin).render(`# Job\n\n${fence('a = 1 mm', '# words', 'b = 2 mm')}`);
    expect(html).toContain(
      '<section class="scribeline-block scribeline-figures code-line" data-line="2" dir="auto">',
    );
    const rows = [...html.matchAll(/<tr role="row" class="[^"]*code-line" data-line="(\d+)"/g)].map(
      (found) => found[1],
    );
    expect(rows).toEqual(['3', '4', '5']);
    expect(preview().render(fence('a = 1 mm'))).not.toContain('data-line');
  });

  it('begins every line with a way to it that the keyboard reaches, and what hangs under a line with none', () => {
    const text = fence(
      '# words',
      'a_b = 3 mm',
      'a_b to in # shown',
      'a_b <= 4 mm',
      'a_b measured 3 mm',
      'a_b *',
    );
    const card = '```machine mill\nspeeds = [1] rpm\nnote: tight\n```\n';
    const record = fence('s = ball_on_shank(26 mm, 11 mm)');
    const html = preview(NO_CARDS, linePlugin).render(`${text}\n${card}\n${record}`);
    const ways = [
      ...html.matchAll(/<span class="scribeline-way" role="button" tabindex="0"[^>]*>([^]*?)<\/span>/g),
    ];
    expect(ways.map(([, inner = '']) => words(inner.replaceAll('<wbr>', '')))).toEqual([
      ...['a_b', 'a_b to in', 'a_b <= 4 mm', 'a_b', 'a_b *'].map((name) => name.replace('<', '&lt;')),
      ...['speeds', 'note', 's'],
    ]);
    expect(preview().render(text)).not.toContain('scribeline-way');
  });

  it('leaves every other fence to the renderer before', () => {
    const md = new MarkdownIt();
    const text = '```js\nfigures\n```\n\n```\na\n```\n\n```figuresome\na = 1\n```\n\n    figures\n';
    expect(preview().render(text)).toBe(md.render(text));
    md.renderer.rules.fence = (tokens, index) => `[${tokens[index]?.info}]`;
    md.use(figuresPlugin(NO_CARDS));
    expect(md.render('```js\n```\n')).toBe('[js]');
    expect(md.render(fence('a = 1 mm'))).toContain('scribeline-block');
  });

  it('is the plain fence when anything goes wrong', () => {
    const failing: PreviewHost = {
      cardsFor: () => {
        throw new Error('no cards today');
      },
    };
    const text = fence('a = 1 mm');
    expect(preview(failing).render(text)).toBe(new MarkdownIt().render(text));
  });
});

describe('cards', () => {
  const shop = (speeds: string) => ({
    file: 'file:///shop/shop.md',
    text: `\`\`\`machine mill\nspeeds = [${speeds}] rpm\n\`\`\`\n`,
  });
  const note = '```figures on mill\nn = 300 rpm\n```\n';

  it('are asked for by the document that is rendered', () => {
    const asked: unknown[] = [];
    const md = preview({ cardsFor: (uri) => (asked.push(uri), { shops: [], loading: false }) });
    md.render(note, { currentDocument: 'the note' });
    expect(asked).toEqual(['the note']);
  });

  it('change what is shown without new tokens', () => {
    let shops = [shop('190, 300')];
    const md = preview({ cardsFor: () => ({ shops, loading: false }) });
    const tokens = md.parse(note, {});
    const render = () => md.renderer.render(tokens, md.options, {});
    expect(render()).not.toContain('scribeline-finding');
    shops = [shop('70, 115')];
    expect(render()).toContain('scribeline-error');
    expect(words(render())).toContain('shop.md, line 2');
    shops = [shop('190, 300')];
    expect(render()).not.toContain('scribeline-finding');
  });

  it('still being read are said to be, and nothing is worked out', () => {
    const html = preview({ cardsFor: () => ({ shops: [], loading: true }) }).render(note);
    expect(html).toContain('aria-busy="true"');
    expect(words(html)).toBe('Reading the cards of the shop … n = 300 rpm');
  });

  it('are worked out once for all blocks of a rendering', () => {
    let workings = false;
    const shops = [shop('300')];
    const md = preview({ cardsFor: () => ({ shops, loading: false }), workings: () => workings });
    const many = md.parse(Array.from({ length: 200 }, (_, i) => fence(`a${i} = ${i} mm`)).join('\n'), {});
    expect(md.renderer.render(many, md.options, {})).toContain('199 mm');
    workings = true;
    expect(md.renderer.render(many, md.options, {})).toContain('199 mm');
  });

  it('of the note itself are small tables, and a block says which machine holds it', () => {
    const html = preview().render(
      '```machine mill\nspeeds = [190, 300] rpm  # belt\nnote: tight gib\n```\n\n' + note,
    );
    expect(html).toContain('<caption>Machine <b>mill</b></caption>');
    expect(words(html)).toContain('speeds [190, 300] rpm belt');
    expect(words(html)).toContain('note tight gib');
    expect(html).toContain('<caption>On <b>mill</b>, held to its card</caption>');
  });
});

describe('hostile text', () => {
  const HOSTILE = `<img src=x onerror=alert(1)>"'&<script>alert(2)</script>`;
  const anywhere = [
    fence(`a = 1 mm # ${HOSTILE}`),
    fence(`# ${HOSTILE}`),
    fence(HOSTILE),
    fence(`a = ${HOSTILE}`),
    fence(`${HOSTILE} = 1 mm`),
    fence(`a measured 1 mm # ${HOSTILE}`),
    fence(`1 mm <= 2 mm # ${HOSTILE}`),
    `\`\`\`figures on ${HOSTILE}\na = 1\n\`\`\`\n`,
    `\`\`\`figures ${HOSTILE}\na = 1\n\`\`\`\n`,
    `\`\`\`machine ${HOSTILE}\nspeeds = [1] rpm\n\`\`\`\n`,
    `\`\`\`material steel\nnote: ${HOSTILE}\n\`\`\`\n`,
    `---\njob: ${HOSTILE}\n---\n${fence('job.job')}`,
    `> - ${fence(HOSTILE).replaceAll('\n', '\n>   ')}`,
  ];

  it.each(anywhere)('is only text: %j', (text) => {
    for (const html of [
      preview(NO_CARDS, linePlugin, frontMatterPlugin('text')).render(text),
      preview({ cardsFor: () => ({ shops: [], loading: true }) }).render(text),
    ]) {
      expect(html).toContain('scribeline-block');
      expect(html).not.toMatch(/<(?:img|script)/i);
      expect(html).not.toMatch(/<[a-z][^>]*\s(?:on\w+|style)\s*=/i);
    }
  });

  it('in the name of a shop file too', () => {
    const shops = [{ file: `/a/${HOSTILE}.md`, text: '```machine mill\nspeeds = [1, 2] rpm\n```\n' }];
    const html = preview({ cardsFor: () => ({ shops, loading: false }) }).render(
      '```figures on mill\na = 9 rpm\n```\n',
    );
    expect(html).toContain('scribeline-related');
    expect(html).not.toMatch(/<(?:img|script)/i);
  });

  it('attributes that act are not passed on', () => {
    const act = (md: MarkdownIt) =>
      void md.core.ruler.push('act', ({ tokens }) => {
        for (const token of tokens) token.attrSet('onclick', 'x()');
        for (const token of tokens) token.attrSet('style', 'x');
        for (const token of tokens) token.attrSet('id', '"><b>');
      });
    const html = preview(NO_CARDS, act).render(fence('a = 1 mm'));
    expect(html).not.toMatch(/onclick|style=/);
    expect(html).toContain('id="&quot;&gt;&lt;b&gt;"');
  });
});
