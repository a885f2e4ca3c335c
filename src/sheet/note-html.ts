/**
 * A note's own text as HTML, by the same markdown as everywhere, with nothing in it that acts: raw HTML is shown as the
 * text it is, links lead to web pages and places in the sheet only, images are embedded or told of.
 */
import type MarkdownIt from 'markdown-it';
import { element, escape, plain } from './html';
import { type Images, localPath } from './images';
import { tickBox } from './lists';

declare const require: (id: string) => unknown;

type Constructor = new (options: object) => MarkdownIt;

/** Read on first use, with the first sheet. */
function markdownIt(): Constructor {
  const read = require('markdown-it') as Constructor | { default: Constructor };
  return 'default' in read ? read.default : read;
}

export interface NoteParts {
  /** HTML in the place of a fence by its line in the note; null for a fence that is none of ours. */
  fence(line: number): string | null;
  readonly images: Images;
}

const LINK = /^(?:https?:|mailto:|#)/i;

const SCHEME = /^\s*[a-z][\w+.-]*:/i;

type Token = ReturnType<MarkdownIt['parse']>[number];

function parser(): MarkdownIt {
  const md = new (markdownIt())({ html: false, linkify: false, typographer: false, maxNesting: 100 });
  // What has no way of its own is shown as its words, or told of as an image that is not there.
  md.validateLink = (address) => LINK.test(address) || !SCHEME.test(address);
  md.core.ruler.push('tick_boxes', (state) => tickBoxes(state.tokens));
  return md;
}

/** The local files that a note's images name, from its folder. `body` is the note without its front matter. */
export function imagePaths(body: string): readonly string[] {
  const paths = new Set<string>();
  for (const token of parser().parse(body, {}))
    for (const child of token.children ?? []) {
      const path = localPath(child.attrGet('src') ?? '');
      if (path !== null) paths.add(path);
    }
  return [...paths];
}

/** `bodyLine` is the note's line at which `body` begins. */
export function noteHtml(body: string, bodyLine: number, parts: NoteParts): string {
  const md = parser();
  const { rules } = md.renderer;
  let line = bodyLine;
  rules.text = by(({ content }) => escape(content));
  rules.code_inline = by(({ content }) => element('code', {}, escape(content)));
  rules.code_block = by(({ content }) => code(content));
  // The fence is the last that told its line.
  rules.fence = by(({ content }) => parts.fence(line) ?? code(content));
  rules.image = by((token) => {
    const words = plain((token.children ?? []).map(({ content }) => content).join(''));
    return parts.images.html(token.attrGet('src') ?? '', words, line);
  });
  rules.tick_box = by(({ content }) => tickBox(content === 'x'));
  rules.link_open = by((token) => {
    const address = token.attrGet('href') ?? '';
    // Another note is not beside the sheet wherever it is taken: its name stays, the way there does not.
    if (!LINK.test(address)) return `<span class="sheet-link" title="${escape(decoded(address))}">`;
    return `<a href="${escape(address)}" rel="noopener noreferrer" title="${escape(address)}">`;
  });
  rules.link_close = (tokens, i) => (isFile(tokens, i) ? '</span>' : '</a>');
  const tokens = md.parse(body, {});
  return tokens
    .map((token, i) => {
      if (token.map) line = bodyLine + token.map[0];
      return token.type === 'inline'
        ? md.renderer.renderInline(token.children ?? [], md.options, {})
        : (rules[token.type]?.(tokens, i, md.options, {}, md.renderer) ??
            md.renderer.renderToken(tokens, i, md.options));
    })
    .join('');
}

/** A rule by the token that it is for. */
function by(rule: (token: Token) => string): (tokens: readonly Token[], i: number) => string {
  return (tokens, i) => {
    const token = tokens[i];
    return token ? rule(token) : '';
  };
}

/** Whether the link that closes here led to a file. Links do not stand in one another. */
function isFile(tokens: readonly Token[], at: number): boolean {
  const open = tokens
    .slice(0, at)
    .filter((token) => token.type === 'link_open')
    .at(-1);
  return !LINK.test(open?.attrGet('href') ?? '');
}

function decoded(address: string): string {
  try {
    return decodeURIComponent(address);
  } catch {
    return address;
  }
}

function code(content: string): string {
  return element('pre', {}, element('code', {}, escape(content)));
}

/** `- [ ] words` and `- [x] words` as boxes. */
function tickBoxes(tokens: Token[]): void {
  tokens.forEach((token, i) => {
    const first = token.children?.[0];
    if (tokens[i - 2]?.type !== 'list_item_open' || first?.type !== 'text') return;
    const found = /^\[([ xX])\]\s+/.exec(first.content);
    if (!found) return;
    const box = Object.assign(Object.create(Object.getPrototypeOf(first) as object) as Token, first, {
      type: 'tick_box',
      content: found[1] === ' ' ? '' : 'x',
    });
    first.content = first.content.slice(found[0].length);
    token.children?.unshift(box);
  });
}
