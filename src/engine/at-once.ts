/**
 * Figures that have their value at once, as they are read, and need nobody to watch what they look up: most of a note. All
 * that is kept of one is its value by its name, until something changes or somebody asks for more.
 */
import type { Value } from '../quantity/value';
import type { Expression } from '../notation/syntax';
import { isRecordField } from './bind';
import { type SheetBlock, lineOf } from './blocks';
import { Evaluation, type Scope } from './evaluate';
import type { Entry } from './graph';
import { Node, type NodeBlock } from './node';
import { evaluateNode } from './statement';

/**
 * Whether all that an expression looks up are figures which have their value. A card, a reading or the job may still come to
 * mean something else while the rest of the note is read; a figure may not, but by another of its name.
 */
export function looksUpFiguresOnly(e: Expression, valueOf: (name: string) => Value | null): boolean {
  switch (e.kind) {
    case 'quantity':
      return e.tail.length === 0;
    case 'name':
      return valueOf(e.name) !== null;
    case 'negate':
    case 'group':
      return looksUpFiguresOnly(e.of, valueOf);
    case 'binary':
      return looksUpFiguresOnly(e.left, valueOf) && looksUpFiguresOnly(e.right, valueOf);
    case 'field':
      return !isRecordField(e.field) && looksUpFiguresOnly(e.of, valueOf);
    case 'call':
      // What goes to it is a wish, and the line that states the wish is judged otherwise.
      if (e.name.text === 'speed_step') return false;
      return e.arguments.every(({ value }) => looksUpFiguresOnly(value, valueOf));
    case 'list':
      return e.items.every((item) => looksUpFiguresOnly(item, valueOf));
  }
}

/** The node of such a figure, made when somebody asks for it: the limits that it asks for are worked out again. */
export function nodeOfFigure(entry: Entry, block: NodeBlock, index: number, scope: Scope): Node {
  const node = new Node(lineOf(block as SheetBlock, index), [], null, entry.input);
  node.lookups = undefined;
  node.provides = entry;
  node.block = block;
  node.index = index;
  if (entry.input > 0) evaluateNode(node, new Evaluation(scope, ''));
  node.forget(false);
  node.value = entry.figureValue;
  entry.takeNode(node);
  block.lines[index] = node;
  return node;
}
