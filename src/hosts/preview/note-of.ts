/** A note from the tokens of a host's own markdown-it, which come without the note's text. */
import { cutFrontMatter, readFrontMatter } from '../../notation/front-matter';
import { blocksFromTokens } from '../../notation/note';
import type { Note } from '../../notation/syntax';
import type { Token } from './plugin';

export function noteOf(tokens: readonly Token[]): Note {
  const front = tokens.find((token) => token.type === 'front_matter');
  return { blocks: blocksFromTokens(tokens), ...readFrontMatter(cutFrontMatter(frontLines(front))) };
}

/** The front matter's lines as they stand in the note. Hosts leave its text in `meta`, bare or as `content`. */
function frontLines(token: Token | undefined): string[] {
  const meta: unknown = token?.meta;
  const inner = typeof meta === 'object' && meta !== null && 'content' in meta ? meta.content : meta;
  return typeof inner === 'string' ? ['---', ...inner.split('\n'), '---'] : [];
}
