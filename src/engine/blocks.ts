/**
 * Which lines of a block are new. Unchanged text is compared in large pieces, so the cost of an edit grows with the edit
 * and hardly with the note.
 */
import type { Node, NodeBlock } from './graph';

/** A block of code lines that the sheet keeps between updates. */
export interface SheetBlock extends NodeBlock {
  /** Word and machine names: lines are only the same under the same ones. */
  key: string;
  content: string;
  /** Offset of each line in `content`. */
  starts: number[];
}

export function emptyBlock(key: string): SheetBlock {
  return { key, content: '', starts: [], nodes: [], firstLine: 0, order: 0, searches: 0 };
}

export interface LineChange {
  /** Index of the first line that differs, and how many old lines go. */
  readonly from: number;
  readonly removed: number;
  readonly added: readonly string[];
}

/** Texts are compared in pieces, smaller ones where they begin to differ: whole pieces compare far quicker than characters. */
const PIECES = [16_384, 1024, 64];

function commonPrefix(a: string, b: string): number {
  const most = Math.min(a.length, b.length);
  let at = 0;
  for (const piece of PIECES)
    while (at + piece <= most && a.slice(at, at + piece) === b.slice(at, at + piece)) at += piece;
  while (at < most && a.charCodeAt(at) === b.charCodeAt(at)) at++;
  return at;
}

function commonSuffix(a: string, b: string, most: number): number {
  const [n, m] = [a.length, b.length];
  let at = 0;
  for (const piece of PIECES)
    while (at + piece <= most && a.slice(n - at - piece, n - at) === b.slice(m - at - piece, m - at))
      at += piece;
  while (at < most && a.charCodeAt(n - at - 1) === b.charCodeAt(m - at - 1)) at++;
  return at;
}

/** Index of the first start that is at least `offset`. */
function firstStartFrom(starts: readonly number[], offset: number): number {
  let [low, high] = [0, starts.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((starts[middle] ?? 0) < offset) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Brings the block's text to `content` and says which lines changed; null when none did. */
export function changeText(block: SheetBlock, content: string): LineChange | null {
  const before = block.content;
  const { starts } = block;
  const prefix = commonPrefix(before, content);
  if (prefix === before.length && prefix === content.length) return null;
  // The line in which the first difference stands; everything before its start is the same.
  const from = Math.max(0, firstStartFrom(starts, prefix + 1) - 1);
  const fromOffset = starts[from] ?? before.length;
  const suffix = commonSuffix(before, content, Math.min(before.length, content.length) - fromOffset);
  // The first line that lies whole in the common end, the line break before it included.
  const to = Math.max(from, firstStartFrom(starts, before.length - suffix + 1));
  const oldEnd = starts[to] ?? before.length;
  const delta = content.length - before.length;
  const added = linesOf(content.slice(fromOffset, oldEnd + delta));
  const removed = to - from;
  const fresh: number[] = [];
  let offset = fromOffset;
  for (const line of added) {
    fresh.push(offset);
    offset += line.length + 1;
  }
  if (delta !== 0) for (let i = to; i < starts.length; i++) starts[i] = (starts[i] ?? 0) + delta;
  replace(starts, from, removed, fresh);
  block.content = content;
  return { from, removed, added };
}

/** Lines of a text in which each line ends with `\n` (the last may not). */
export function linesOf(text: string): string[] {
  if (text === '') return [];
  const lines = text.split('\n');
  if (text.endsWith('\n')) lines.pop();
  return lines;
}

export function replaceNodes(block: SheetBlock, change: LineChange, nodes: readonly Node[]): void {
  const { from, removed } = change;
  replace(block.nodes, from, removed, nodes);
  nodes.forEach((node, i) => {
    node.block = block;
    node.index = from + i;
  });
  block.searches = 0;
}

/** More items than this would overflow the stack as arguments of one call. */
const MOST_ARGUMENTS = 1000;

function replace<T>(list: T[], from: number, removed: number, added: readonly T[]): void {
  if (removed === added.length) {
    added.forEach((item, i) => (list[from + i] = item));
    return;
  }
  if (added.length <= MOST_ARGUMENTS) {
    list.splice(from, removed, ...added);
    return;
  }
  const tail = list.slice(from + removed);
  list.length = from;
  for (const item of added) list.push(item);
  for (const item of tail) list.push(item);
}
