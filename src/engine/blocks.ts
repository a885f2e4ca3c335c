/**
 * Which lines of a block are new. Unchanged text is compared in large pieces, so the cost of an edit grows with the edit
 * and hardly with the note.
 */
import { placeIn } from '../quantity/place-in';
import type { Node, NodeBlock } from './node';

/** A block of code lines that the sheet keeps between updates. */
export interface SheetBlock extends NodeBlock {
  /** Word and machine names: lines are only the same under the same ones. */
  key: string;
  content: string;
  starts: LineStarts;
}

export function emptyBlock(key: string, nodeOf: NodeBlock['nodeOf']): SheetBlock {
  return {
    key,
    content: '',
    starts: new LineStarts(''),
    lines: [],
    firstLine: 0,
    moved: 0,
    searches: 0,
    nodeOf,
  };
}

export interface LineChange {
  /** Index of the first line that differs, and how many old lines go. */
  readonly from: number;
  readonly removed: number;
  readonly added: string[];
}

/** Texts are compared in pieces, smaller ones where they begin to differ: whole pieces compare far quicker than characters. */
const PIECES = [65_536, 4096, 256];

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

/**
 * Where each line of a text begins, found out when somebody asks. An edit moves all lines after it; that is only noted, and
 * made good as far as the next edit is away.
 */
class LineStarts {
  private found: number[] | null = null;
  /** Lines from this index on begin this much further on than `starts` says. */
  private from = 0;
  private by = 0;

  constructor(private text: string) {}

  private get starts(): number[] {
    if (!this.found) {
      this.found = startsOf(linesOf(this.text), 0);
      this.text = ''; // a text of which lines have changed need not stay
    }
    return this.found;
  }

  at(index: number): number | undefined {
    const start = this.starts[index];
    return start === undefined || index < this.from ? start : start + this.by;
  }

  /** Index of the first line that begins at `offset` or after. */
  firstFrom(offset: number): number {
    return placeIn(this.starts.length, (index) => (this.at(index) ?? 0) < offset);
  }

  /** Puts lines in the place of others; those behind move on by `by`. */
  replace(from: number, removed: number, starts: number[], by: number): void {
    const to = from + removed;
    for (let i = this.from; i < to; i++) this.move(i, this.by);
    for (let i = to; i < this.from; i++) this.move(i, -this.by);
    this.found = replaced(this.starts, from, removed, starts);
    this.from = from + starts.length;
    this.by += by;
  }

  private move(index: number, by: number): void {
    this.starts[index] = (this.starts[index] ?? 0) + by;
  }
}

/** Brings the block's text to `content` and says which lines changed; null when none did. */
export function changeText(block: SheetBlock, content: string): LineChange | null {
  const before = block.content;
  const { starts } = block;
  const prefix = commonPrefix(before, content);
  if (prefix === before.length && prefix === content.length) return null;
  if (before === '') {
    block.starts = new LineStarts(content);
    block.content = content;
    return { from: 0, removed: 0, added: linesOf(content) };
  }
  // The line in which the first difference stands; everything before its start is the same.
  const from = Math.max(0, starts.firstFrom(prefix + 1) - 1);
  const fromOffset = starts.at(from) ?? before.length;
  const suffix = commonSuffix(before, content, Math.min(before.length, content.length) - fromOffset);
  // The first line that lies whole in the common end, the line break before it included.
  const to = Math.max(from, starts.firstFrom(before.length - suffix + 1));
  const oldEnd = starts.at(to) ?? before.length;
  const delta = content.length - before.length;
  const added = linesOf(content.slice(fromOffset, oldEnd + delta));
  const removed = to - from;
  starts.replace(from, removed, startsOf(added, fromOffset), delta);
  block.content = content;
  return { from, removed, added };
}

/** Where lines begin that follow each other, the first of them at `offset`. */
function startsOf(lines: readonly string[], offset: number): number[] {
  return lines.map((line) => {
    const start = offset;
    offset += line.length + 1;
    return start;
  });
}

/** The code of one line. */
export function lineOf({ content, starts }: SheetBlock, index: number): string {
  const line = content.slice(starts.at(index), starts.at(index + 1));
  return line.endsWith('\n') ? line.slice(0, -1) : line;
}

/** Lines of a text in which each line ends with `\n` (the last may not). */
export function linesOf(text: string): string[] {
  if (text === '') return [];
  const lines = text.split('\n');
  if (text.endsWith('\n')) lines.pop();
  return lines;
}

export function replaceLines(block: SheetBlock, change: LineChange, lines: (Node | string)[]): void {
  const { from, removed } = change;
  block.lines = replaced(block.lines, from, removed, lines);
  lines.forEach((line, i) => {
    if (typeof line === 'string') return;
    line.block = block;
    line.index = from + i;
  });
  block.moved = lines.length - removed;
  block.searches = 0;
}

/** More items than this would overflow the stack as arguments of one call. */
const MOST_ARGUMENTS = 1000;

/** The list with others in the place of some: `list` itself, or `added` where that is all there is. */
function replaced<T>(list: T[], from: number, removed: number, added: T[]): T[] {
  if (list.length === removed) return added;
  if (removed === added.length) {
    added.forEach((item, i) => (list[from + i] = item));
    return list;
  }
  if (added.length <= MOST_ARGUMENTS) {
    list.splice(from, removed, ...added);
    return list;
  }
  const tail = list.slice(from + removed);
  list.length = from;
  for (const item of added) list.push(item);
  for (const item of tail) list.push(item);
  return list;
}
