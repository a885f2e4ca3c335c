/** Puts figures in the place of names, so that the text still reads and works out in the notation. */
import type { Expression } from '../notation/syntax';

/** The text for a part of an expression, in the notation; null leaves it as written. */
export type Put = (node: Expression) => string | null;

interface Change {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** The expression as written in `text`, with each part replaced for which `put` gives something. */
export function substituted(text: string, node: Expression, put: Put): string {
  const changes: Change[] = [];
  collect(node, null, put, changes);
  let out = '';
  let from = node.start;
  for (const { start, end, text: literal } of changes) {
    out += text.slice(from, start) + literal;
    from = end;
  }
  return out + text.slice(from, node.end);
}

/** Changes in the order of the text. */
function collect(node: Expression, parent: Expression | null, put: Put, changes: Change[]): void {
  const into = (child: Expression): void => collect(child, node, put, changes);
  const literal = put(node);
  if (literal !== null) {
    const text = needsBrackets(literal, node, parent) ? `(${literal})` : literal;
    changes.push({ start: node.start, end: node.end, text });
    return;
  }
  switch (node.kind) {
    case 'field':
    case 'negate':
    case 'group':
      return into(node.of);
    case 'binary':
      into(node.left);
      return into(node.right);
    case 'call':
      return node.arguments.forEach((argument) => into(argument.value));
    case 'list':
      return node.items.forEach(into);
    default:
      return;
  }
}

/**
 * A quantity holds together by itself, so brackets are needed only where a sign would meet an operator, where `^` would
 * touch a unit, and, for the reader, where a unit with a stroke follows a stroke.
 */
function needsBrackets(literal: string, node: Expression, parent: Expression | null): boolean {
  if (parent === null || (parent.kind !== 'binary' && parent.kind !== 'negate')) return false;
  if (/^[-−]/.test(literal)) return true;
  if (parent.kind === 'negate') return false;
  if (parent.operator === '^') return !/^[\d.]+$/.test(literal);
  return parent.operator === '/' && parent.right === node && literal.includes('/');
}
