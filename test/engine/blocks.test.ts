/** Which lines of a block are new, against comparing all its lines one by one. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type SheetBlock, changeText, emptyBlock, linesOf, replaceLines } from '../../src/engine/blocks';
import { Node } from '../../src/engine/node';

/** These blocks hold nodes only. */
const NO_NODES = (): Node => {
  throw new Error('no line is without its node');
};

const ofLines = (lines: readonly string[]): string => lines.map((line) => `${line}\n`).join('');

/** How many lines two texts have in common at their beginning. */
function common(a: readonly string[], b: readonly string[]): number {
  const differs = a.findIndex((line, i) => line !== b[i]);
  return differs < 0 ? a.length : differs;
}

/** Brings the block to the text and holds every answer against the lines as they are. */
function change(block: SheetBlock, content: string): void {
  const oldText = block.content;
  const [before, after] = [linesOf(oldText), linesOf(content)];
  const same = oldText === content;
  const changed = changeText(block, content);
  expect(changed === null).toBe(same);
  expect(block.content).toBe(content);
  if (changed) {
    const { from, removed, added } = changed;
    expect([...before.slice(0, from), ...added, ...before.slice(from + removed)]).toEqual(after);
    // Beside the lines that differ at most one on each side is read again.
    const [was, is] = [oldText, content].map((text) => text.split(/(?<=\n)/)) as [string[], string[]];
    const lead = common(was, is);
    const rest = [was, is].map((lines) => lines.slice(lead).reverse());
    const tail = common(rest[0] ?? [], rest[1] ?? []);
    expect(removed).toBeLessThanOrEqual(was.length - lead - tail + 2);
  }
  let offset = 0;
  const wanted = after.map((line) => {
    const start = offset;
    offset += line.length + 1;
    return start;
  });
  expect(after.map((_, i) => block.starts.at(i))).toEqual(wanted);
  expect(block.starts.at(after.length)).toBeUndefined();
}

describe('a changed text', () => {
  it('tells the lines that differ, and knows where each line begins, after any edits', () => {
    const line = fc.constantFrom('a', 'b', 'a = 1', '', 'ab');
    const text = fc
      .tuple(fc.array(line, { maxLength: 8 }), fc.boolean())
      .map(([lines, open]) => ofLines(lines) + (open ? 'a' : ''));
    fc.assert(
      fc.property(fc.array(text, { maxLength: 12 }), (texts) => {
        const block = emptyBlock('', NO_NODES);
        change(block, '');
        for (const each of texts) {
          change(block, each);
          change(block, each);
        }
      }),
    );
  });

  it('moves on after each edit, up and down a block that grows and shrinks', () => {
    const lines = Array.from({ length: 10 }, (_, i) => `line_${i}`);
    const block = emptyBlock('', NO_NODES);
    change(block, ofLines(lines));
    for (const [i, at] of [0, 5, 9, 2, 7, 1, 8, 3, 3, 0, 9].entries()) {
      lines[at] = 'x'.repeat((i * 5) % 12);
      if (i % 3 === 2) lines.splice(at, 1);
      if (i % 3 === 1) lines.splice(at, 0, 'one', 'two');
      change(block, ofLines(lines));
    }
  });

  it('of any length does, wherever it differs', () => {
    const lines = Array.from({ length: 12_000 }, (_, i) => `line_${i} = ${i} mm`);
    const block = emptyBlock('', NO_NODES);
    change(block, ofLines(lines));
    for (const at of [0, 1, 20, 300, 4000, 5000, 11_998, 11_999]) {
      change(block, ofLines(lines.map((line, i) => (i === at ? 'x = 1' : line))));
      change(block, ofLines(lines));
      change(block, ofLines([...lines.slice(0, at), ...lines.slice(at + 2)]));
      change(block, ofLines(lines));
      change(block, ofLines([...lines.slice(0, at), 'x = 1', 'y = 2', ...lines.slice(at)]));
    }
  });
});

describe('lines put in the place of others', () => {
  const nodes = (count: number): Node[] =>
    Array.from({ length: count }, (_, i) => new Node(`a${i} = 1`, [], null, i));

  it.each([
    [0, 0, 5],
    [1, 2, 2],
    [1, 2, 0],
    [2, 1, 1001],
    [0, 3, 2000],
  ])('at %i, %i fewer and %i more', (from, removed, more) => {
    const block = emptyBlock('', NO_NODES);
    const [had, got] = [nodes(5), nodes(more)];
    replaceLines(block, { from: 0, removed: 0, added: [] }, [...had]);
    replaceLines(block, { from, removed, added: [] }, [...got]);
    const wanted = [...had.slice(0, from), ...got, ...had.slice(from + removed)];
    expect(block.lines.map((line) => wanted.indexOf(line as Node))).toEqual(wanted.map((_, i) => i));
    expect(wanted.map((node) => node.line)).toEqual(wanted.map((_, i) => i));
  });

  it('know their line however far they moved, and in whatever order they are asked', () => {
    const block = emptyBlock('', NO_NODES);
    block.firstLine = 7;
    const had = nodes(40);
    replaceLines(block, { from: 0, removed: 0, added: [] }, [...had]);
    for (let round = 1; round <= 3; round++) {
      // Two changes, so that what is remembered of the last one does not help.
      replaceLines(block, { from: 0, removed: 0, added: [] }, nodes(2));
      replaceLines(block, { from: 0, removed: 0, added: [] }, nodes(3));
      expect(had.map((node, i) => node.line - i)).toEqual(had.map(() => 7 + 5 * round));
      expect(new Node('a = 1', [], null, 0).line).toBe(0);
    }
    replaceLines(block, { from: 0, removed: 1, added: [] }, []);
    expect([...had].reverse().map((node) => node.line)).toEqual(had.map((_, i) => 60 - i));
  });
});
