/** Figures that have their value at once, as they are read, and need nobody to watch what they look up. */
import type { Expression } from '../notation/syntax';
import { isRecordField } from './bind';
import { type SheetBlock, lineOf } from './blocks';
import { Evaluation, type Scope } from './evaluate';
import type { Entry } from './graph';
import { Node } from './node';
import { evaluateNode } from './statement';

/**
 * Whether all that an expression looks up are figures which have their value. A card, a reading or the job may still come to
 * mean something else while the rest of the note is read; a figure may not, but by another of its name.
 */
export function looksUpFiguresOnly(e: Expression, find: (name: string) => Entry | undefined): boolean {
  switch (e.kind) {
    case 'quantity':
      return e.tail.length === 0;
    case 'name':
      return (find(e.name)?.figureValue ?? null) !== null;
    case 'negate':
    case 'group':
      return looksUpFiguresOnly(e.of, find);
    case 'binary':
      return looksUpFiguresOnly(e.left, find) && looksUpFiguresOnly(e.right, find);
    case 'field':
      return !isRecordField(e.field) && looksUpFiguresOnly(e.of, find);
    case 'call':
      // What goes to it is a wish, and the line that states the wish is judged otherwise.
      if (e.name.text === 'speed_step') return false;
      return e.arguments.every(({ value }) => looksUpFiguresOnly(value, find));
    case 'list':
      return e.items.every((item) => looksUpFiguresOnly(item, find));
  }
}

/** The node of such a figure, made when somebody asks for it: the limits that it asks for are worked out again. */
export function nodeOfFigure(entry: Entry, scope: Scope): Node {
  const { block, index, input, figureValue } = entry;
  const node = new Node(block ? lineOf(block as SheetBlock, index) : '', [], null, input);
  node.lookups = undefined;
  node.provides = entry;
  node.block = block;
  node.index = index;
  if (input > 0) evaluateNode(node, new Evaluation(scope, ''));
  node.forget(false);
  node.value = figureValue;
  return node;
}
