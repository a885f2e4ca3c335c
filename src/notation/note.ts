/** A note's text to its fences of ours and its front matter. */
import { blocksFromTokens } from './blocks';
import { cutFrontMatter, readFrontMatter } from './front-matter';
import { parseBlocks } from './markdown';
import type { Note } from './syntax';

export { type FenceToken, blocksFromTokens } from './blocks';

/** Reads a note. Never throws: what is wrong is a finding of the fence, of the front matter or of the line. */
export function readNote(text: string): Note {
  const lines = splitLines(text);
  const front = cutFrontMatter(lines);
  const body = lines.slice(front.bodyLine);
  // A byte order mark is no part of the markdown, but counts in the columns of the first line.
  const [first = ''] = body;
  if (front.bodyLine === 0 && first.charCodeAt(0) === 0xfeff) body[0] = first.slice(1);
  const blocks = blocksFromTokens(parseBlocks(body), lines, front.bodyLine);
  return { blocks, ...readFrontMatter(front) };
}

function splitLines(text: string): string[] {
  // Markdown knows three line endings, and shows a NUL as the replacement character.
  return text.replace(/\0/g, '\ufffd').split(/\r\n|\n|\r/);
}
