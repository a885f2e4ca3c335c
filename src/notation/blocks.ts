/** Fences of ours among the tokens of a parsed note. Also for a host's own tokens, which come without the note's text. */
import { MAX_CODE_LINES } from './caps';
import type { LineFinding } from '../quantity/finding';
import { type FenceLine, almostFence, readFenceLine } from './fence-line';
import { parseLine } from './line';
import type { Block, FenceWord, NoteFinding } from './syntax';

/** What is needed of a markdown-it token. */
export interface FenceToken {
  readonly type: string;
  readonly info: string;
  readonly content: string;
  readonly map: readonly [number, number] | null;
}

/**
 * The blocks that calculate, in the note's order. `text` is the whole note, for columns; without it columns count from the
 * beginning of the code, and those of the fence line from the end of its backticks. `offset` is added to the tokens' lines.
 * Fences that are nearly ours do not calculate: they are told in `ignored`.
 */
export function blocksFromTokens(
  tokens: readonly FenceToken[],
  text: string | null = null,
  offset = 0,
  ignored: NoteFinding[] = [],
): Block[] {
  const blocks: Block[] = [];
  const lineAt = text === null ? null : linesOf(text);
  let room = MAX_CODE_LINES;
  for (const token of tokens) {
    if (token.type !== 'fence' || token.map === null) continue;
    const fenceLine = token.map[0] + offset;
    const line = lineAt?.(fenceLine);
    const infoColumn = line === undefined ? 0 : line.length - token.info.length;
    const fence = readFenceLine(token.info, infoColumn);
    if (fence === null) {
      const almost = almostFence(token.info, infoColumn);
      if (almost !== null) ignored.push({ ...almost, line: fenceLine });
      continue;
    }
    const count = countLines(token.content);
    const closed = token.map[1] - token.map[0] >= count + 2 && !opensFence(token.content);
    // What follows an open fence is the rest of the note: only what can be told for figures is kept.
    const own = closed ? count : ownLines(token.content, fence.word);
    const kept = Math.min(own, room);
    const findings = closed ? [...fence.findings] : [notClosed(fence, token.info, infoColumn)];
    if (own > room) {
      const data = { most: MAX_CODE_LINES, offers: [] };
      findings.push({ code: 'too-many-lines', start: infoColumn, end: infoColumn + token.info.length, data });
    }
    room -= kept;
    blocks.push({
      word: fence.word,
      name: fence.name,
      on: fence.on,
      content: kept === count ? token.content : token.content.slice(0, startOfLine(token.content, kept)),
      fenceLine,
      firstLine: fenceLine + 1,
      column: columnsOf(token.content, fenceLine + 1, line, text),
      findings,
    });
  }
  return blocks;
}

function notClosed({ word }: FenceLine, info: string, column: number): LineFinding {
  const start = column + info.indexOf(word);
  return { code: 'fence-not-closed', start, end: start + word.length, data: { word, offers: [] } };
}

const OPENING = /^[ \t]*(?:`{3,}|~{3,})[ \t]*(?:figures|machine|material|signed)(?=[ \t]|$)/m;

/** Whether a fence of ours opens inside another one: the one before it was never closed. */
function opensFence(content: string): boolean {
  // Hardly any content has the marks at all, and looking for them costs next to nothing.
  return (content.includes('```') || content.includes('~~~')) && OPENING.test(content);
}

/** Lines of an open fence up to the first one that is neither a figure, a check, a reading nor a comment. */
function ownLines(content: string, word: FenceWord): number {
  let count = 0;
  for (let at = 0; at < content.length; count++) {
    const end = content.indexOf('\n', at);
    const line = content.slice(at, end === -1 ? content.length : end);
    const { kind } = parseLine(line, word);
    if (kind === 'show' || kind === 'broken') return count;
    at = end === -1 ? content.length : end + 1;
  }
  return count;
}

function countLines(content: string): number {
  let count = 0;
  for (let at = content.indexOf('\n'); at !== -1; at = content.indexOf('\n', at + 1)) count++;
  return content === '' || content.endsWith('\n') ? count : count + 1;
}

/** Where a line begins that many lines after the one at `from`; the text's end when there are not so many. */
export function startOfLine(text: string, lines: number, from = 0): number {
  let start = from;
  for (let i = 0; i < lines; i++) start = text.indexOf('\n', start) + 1 || text.length;
  return start;
}

/** The lines of a text, asked for in their order: of a long note only those with fences are wanted. */
function linesOf(text: string): (line: number) => string {
  let [at, start] = [0, 0];
  return (line) => {
    start = startOfLine(text, line - at, start);
    at = line;
    const end = text.indexOf('\n', start);
    return text.slice(start, end === -1 ? text.length : end);
  };
}

const atTheEdge = (): number => 0;

/**
 * Where each line's code begins in the note. Markers and blanks are only ever taken off the front, so the difference in
 * length tells. It is negative where a list marker used up a part of a tab: the code then begins with the blanks that
 * are left of it.
 */
function columnsOf(
  content: string,
  firstLine: number,
  fence: string | undefined,
  text: string | null,
): (index: number) => number {
  // Nothing is taken off behind a fence that begins its line.
  if (text === null || /^[`~]/.test(fence ?? '')) return atTheEdge;
  let lengths: { readonly note: readonly number[]; readonly code: readonly number[] } | null = null;
  const lengthsOf = (lines: string): number[] => lines.split('\n').map((line) => line.length);
  return (index) => {
    lengths ??= { note: lengthsOf(text), code: lengthsOf(content) };
    const { note, code } = lengths;
    const length = note[firstLine + index];
    return length === undefined ? 0 : length - (code[index] ?? 0);
  };
}

/** How many lines of code a block has; the line that closes it comes after them. */
export function linesIn({ content }: Block): number {
  return countLines(content);
}

/** The last line of the note that a block takes up: that of the fence which closes it. */
const lastLine = (block: Block): number => block.firstLine + linesIn(block);

/** Whether a line of the note is one of the block's, its fence lines among them. */
export function hasLine(block: Block, line: number): boolean {
  return block.fenceLine <= line && line <= lastLine(block);
}

/** The lines of the note that a block takes up, its fence lines among them. */
export function noteLines(block: Block): readonly number[] {
  const { fenceLine } = block;
  return Array.from({ length: lastLine(block) - fenceLine + 1 }, (_, i) => fenceLine + i);
}
