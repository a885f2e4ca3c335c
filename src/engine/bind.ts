/** Finds the names a line looks up, before anything is evaluated. */
import type { CallNode, Expression, FieldNode } from '../notation/syntax';
import { type Entry, Lookup } from './graph';
import type { Node } from './node';

/** Fields that ask for what was measured or used, not for a part of the value. */
const RECORD_FIELDS: ReadonlySet<string> = new Set(['reading', 'readings', 'positions', 'mean', 'used']);

export function isRecordField(field: string): boolean {
  return RECORD_FIELDS.has(field);
}

/** The name and fields of a chain such as `setup.ring.used`, or null when its root is not a plain name. */
export function chainOf(expression: Expression): readonly string[] | null {
  if (expression.kind === 'name') return [expression.name];
  if (expression.kind !== 'field') return null;
  const inner = chainOf(expression.of);
  return inner && [...inner, expression.field];
}

/** Enters what a line looks up. `entryOf` gives the entry of a name, made on first mention. */
export function bind(node: Node, entryOf: (name: string) => Entry): void {
  const { statement } = node;
  // Readings are judged against the plan, which their own value does not depend on.
  if (statement.kind === 'figure' || statement.kind === 'show')
    bindExpression(node, statement.expression, entryOf);
  else if (statement.kind === 'check')
    for (const term of statement.terms) bindExpression(node, term, entryOf);
}

function bindExpression(node: Node, e: Expression, entryOf: (name: string) => Entry): void {
  switch (e.kind) {
    case 'quantity':
      for (const word of e.tail) new Lookup(node, entryOf(word.text), null, 'existence').enter();
      return;
    case 'name':
      new Lookup(node, entryOf(e.name), null, 'value').enter();
      return;
    case 'field':
      bindField(node, e, entryOf);
      return;
    case 'call':
      bindStep(node, e, entryOf);
      for (const argument of e.arguments) bindExpression(node, argument.value, entryOf);
      return;
    case 'negate':
    case 'group':
      bindExpression(node, e.of, entryOf);
      return;
    case 'binary':
      bindExpression(node, e.left, entryOf);
      bindExpression(node, e.right, entryOf);
      return;
    case 'list':
      for (const item of e.items) bindExpression(node, item, entryOf);
  }
}

function bindField(node: Node, e: FieldNode, entryOf: (name: string) => Entry): void {
  const chain = isRecordField(e.field) ? chainOf(e.of) : null;
  if (chain) new Lookup(node, entryOf(chain.join('.')), e.field, 'records').enter();
  else if (e.of.kind === 'name') new Lookup(node, entryOf(e.of.name), e.field, 'value').enter();
  else bindExpression(node, e.of, entryOf);
}

/** What goes to `speed_step` is a wish, so its own line is judged differently. */
function bindStep(node: Node, { name, arguments: given }: CallNode, entryOf: (name: string) => Entry): void {
  if (name.text !== 'speed_step') return;
  const speed = (given.find((a) => a.name?.text === 'spindle_speed') ?? given.find((a) => a.name === null))
    ?.value;
  if (speed?.kind === 'name') node.steps = [...node.steps, entryOf(speed.name)];
}
