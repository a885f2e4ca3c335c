/**
 * The block structure of a note, by markdown-it's own block parser: fences in lists and quotes are where every markdown
 * tool sees them. Inline text is not looked at, so the parts of the library that read it are left out.
 */
import ParserBlock from 'markdown-it/lib/parser_block.mjs';
import type { FenceToken } from './blocks';
import { linkDestinationAt, linkTitleAt } from './link-definition';

interface BlockParser {
  parse(src: string, md: unknown, env: object, tokens: FenceToken[]): void;
}

const block = new ParserBlock() as unknown as BlockParser;

/** What the block rules ask of the library's main object. */
const md = {
  options: { html: true, maxNesting: 100 },
  block,
  helpers: { parseLinkDestination: linkDestinationAt, parseLinkTitle: linkTitleAt },
  normalizeLink: (link: string): string => link,
  validateLink: (): boolean => true,
};

export function parseBlocks(lines: readonly string[]): readonly FenceToken[] {
  const tokens: FenceToken[] = [];
  // With the last line ended, a fence's lines can be counted by its line breaks.
  const text = lines.join('\n');
  block.parse(lines[lines.length - 1] === '' ? text : `${text}\n`, md, {}, tokens);
  return tokens;
}
