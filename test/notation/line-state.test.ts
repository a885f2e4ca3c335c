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
