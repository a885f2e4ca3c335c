/** Walking over what a line was read as. */
import type { CallNode, Expression, Span, Statement } from './syntax';

/** The expressions directly inside one. */
export function children(e: Expression): readonly Expression[] {
  switch (e.kind) {
    case 'quantity':
    case 'name':
      return [];
    case 'field':
    case 'negate':
    case 'group':
      return [e.of];
    case 'binary':
      return [e.left, e.right];
    case 'call':
      return e.arguments.map((argument) => argument.value);
    case 'list':
      return e.items;
  }
}

/** The expressions of a line, limits and readings among them, in the order they stand. */
export function expressionsOf(statement: Statement): readonly Expression[] {
  switch (statement.kind) {
    case 'figure': {
      const { expression, limits } = statement;
      if (limits === null || limits.kind === 'code') return [expression];
      if (limits.kind === 'range') return [expression, limits.to];
      const { upper, lower } = limits;
      const both = upper.start <= lower.start ? [upper, lower] : [lower, upper];
      return [expression, ...(upper.start === lower.start ? [upper] : both)];
    }
    case 'show':
      return [statement.expression];
    case 'check':
      return statement.terms;
    case 'reading':
      return statement.readings.flatMap(({ value, at }) => (at === null ? [value] : [value, at]));
    case 'used':
      return [statement.value];
    default:
      return [];
  }
}

/** The innermost expression at an offset of the line, its end included, as a pointer or cursor means it. */
export function nodeAt(statement: Statement, offset: number): Expression | null {
  let inside = expressionsOf(statement);
  let found: Expression | null = null;
  for (;;) {
    let next: Expression | null = null;
    for (const e of inside) if (e.start <= offset && offset <= e.end) next = e;
    if (next === null) return found;
    found = next;
    inside = children(next);
  }
}

/** The text of a node as it stands in its line. */
export function textOf(span: Span, line: string): string {
  return line.slice(span.start, span.end);
}

/** The call that an expression is, brackets aside. */
export function callOf(node: Expression): CallNode | null {
  if (node.kind === 'group') return callOf(node.of);
  return node.kind === 'call' ? node : null;
}
