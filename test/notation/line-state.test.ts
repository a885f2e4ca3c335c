/** The faster way to a note's lines against the library's own. */
import fc from 'fast-check';
import StateBlock from 'markdown-it/lib/rules_block/state_block.mjs';
import { expect, it } from 'vitest';
import { LineState } from '../../src/notation/markdown';

const piece = fc.constantFrom(
  '\n',
  ' ',
  '\t',
  '    ',
  '- ',
  '> ',
  '```figures',
  'd = 3 mm',
  '\u00a0',
  '\ufeff',
  '😀',
);
const md = {} as ConstructorParameters<typeof StateBlock>[1];

/** With the numbers of lines as plain lists. */
const lists = (state: StateBlock): object =>
  Object.fromEntries(
    Object.entries(state).map(([key, value]: [string, unknown]) => [
      key,
      value instanceof Int32Array ? [...value] : value,
    ]),
  );

it('finds the same lines and indents', () => {
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 40 }), (pieces) => {
      const text = `${pieces.join('')}\n`;
      expect(lists(new LineState(text, md, {}, []))).toEqual({ ...new StateBlock(text, md, {}, []) });
    }),
    { numRuns: 2000 },
  );
});

it('gives the same lines of a text, with blanks taken off, within lists and for none', () => {
  const text = 'a\n  b\n\t c\n\n d\n';
  const [ours, theirs] = [new LineState(text, md, {}, []), new StateBlock(text, md, {}, [])];
  for (const level of [0, 1])
    for (const indent of [0, 1, 2, 4])
      for (const keep of [true, false])
        for (let begin = 0; begin < 5; begin++)
          for (let end = Math.max(1, begin); end <= 5; end++) {
            ours.level = theirs.level = level;
            const given = [begin, end, indent, keep] as const;
            expect([given, ours.getLines(...given)]).toEqual([given, theirs.getLines(...given)]);
          }
});

it('counts a tab up to the next of its stops', () => {
  const text = ' \ta\n  \tb\n   \tc\n    \td\n\t\te\n';
  expect(lists(new LineState(text, md, {}, []))).toEqual({ ...new StateBlock(text, md, {}, []) });
});
