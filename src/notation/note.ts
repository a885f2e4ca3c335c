/** A note's text to its fences of ours and its front matter. */
import { blocksFromTokens, startOfLine } from './blocks';
import { cutFrontMatter, readFrontMatter } from './front-matter';
import { parseBlocks } from './markdown';
import type { Note, NoteFinding } from './syntax';

export { type FenceToken, blocksFromTokens } from './blocks';

/** Reads a note. Never throws: what is wrong is a finding of the fence, of the front matter or of the line. */
export function readNote(text: string): Note {
  const plain = withPlainLineEnds(text);
  const front = cutFrontMatter(head(plain).split('\n'));
  const body = plain.slice(startOfLine(plain, front.bodyLine));
  // A byte order mark is no part of the markdown, but counts in the columns of the first line.
  const marked = front.bodyLine === 0 && body.charCodeAt(0) === 0xfeff;
  const read = readFrontMatter(front);
  const findings = [...read.findings];
  const tokens = parseBlocks(marked ? body.slice(1) : body);
  const blocks = blocksFromTokens(tokens, plain, front.bodyLine, findings);
  const torn = tornText(plain);
  if (torn) findings.push(torn);
  return { blocks, front: read.front, findings };
}

/** As much of a note as can have to do with its front matter: all up to the mark that ends it, or the first lines. */
function head(text: string): string {
  const end = /^\ufeff?---[ \t]*\n(?:[^]*?\n)??---[ \t]*(?=\n|$)/.exec(text)?.[0];
  return end ?? text.slice(0, startOfLine(text, 2));
}

/** The first place at which bytes were no text: a NUL, or what the host could not decode as UTF-8. */
function tornText(text: string): NoteFinding | null {
  const at = text.indexOf('\ufffd');
  if (at === -1) return null;
  const start = text.lastIndexOf('\n', at) + 1;
  const line = text.slice(0, start).split('\n').length - 1;
  return { code: 'not-plain-text', line, start: at - start, end: at - start + 1, data: {} };
}

/** Markdown knows three line endings, and shows a NUL as the replacement character. */
function withPlainLineEnds(text: string): string {
  const shown = text.replaceAll('\0', '\ufffd');
  return shown.includes('\r') ? shown.replace(/\r\n?/g, '\n') : shown;
}
