/** What stands at a place of a note: the innermost thing a question can be about. */
import type { CardInForce, Sheet } from '../engine/index';
import type { Row } from '../engine/results';
import { codeOf } from './edits';
import type { Argument, CallNode, Expression, FieldNode, Span, Word } from '../notation/syntax';

export type Target =
  /** A figure, where it is given or used. */
  | { readonly kind: 'name'; readonly name: string; readonly given: boolean }
  | { readonly kind: 'field'; readonly node: FieldNode }
  | { readonly kind: 'formula'; readonly node: CallNode }
  | { readonly kind: 'parameter'; readonly node: CallNode; readonly parameter: string }
  | { readonly kind: 'card'; readonly card: CardInForce }
  /** Any other part of an expression: a quantity, brackets, or what an operator joins. */
  | { readonly kind: 'expression'; readonly node: Expression }
  /** The limits a line asks for, a check's comparison, a reading: the whole line is meant. */
  | { readonly kind: 'line' };

export interface Found {
  readonly row: Row;
  readonly target: Target;
  /** Offsets in the row's text. */
  readonly span: Span;
}

const within = (span: Span, offset: number): boolean => span.start <= offset && offset < span.end;

/** What the row has at this offset of its text; null in blank places, comments and words. */
export function at(sheet: Sheet, row: Row, offset: number): Found | null {
  const { statement } = row;
  const found = (target: Target, span: Span): Found => ({ row, target, span });
  const whole = (): Found | null => {
    const code = codeOf(row.text);
    const span = { start: code.length - code.trimStart().length, end: code.length };
    return within(span, offset) ? found({ kind: 'line' }, span) : null;
  };
  switch (statement.kind) {
    case 'figure': {
      const { name, limits, expression } = statement;
      if (within(name, offset)) return found({ kind: 'name', name: name.text, given: true }, name);
      if (limits && within(limits, offset)) return found({ kind: 'line' }, limits);
      return inExpression(sheet, row, expression, offset) ?? whole();
    }
    case 'show':
      return inExpression(sheet, row, statement.expression, offset) ?? whole();
    case 'check':
      for (const term of statement.terms) {
        const inner = inExpression(sheet, row, term, offset);
        if (inner) return inner;
      }
      return whole();
    case 'reading':
    case 'used': {
      const { path } = statement;
      if (!within(path, offset)) return whole();
      const [name = ''] = path.names;
      return found({ kind: 'name', name, given: true }, path);
    }
    default:
      return null;
  }
}

/** The innermost node of an expression at the offset; null outside it. */
function inExpression(sheet: Sheet, row: Row, node: Expression, offset: number): Found | null {
  if (!within(node, offset)) return null;
  const found = (target: Target, span: Span): Found => ({ row, target, span });
  const inner = (child: Expression): Found | null => inExpression(sheet, row, child, offset);
  const firstOf = (children: readonly Expression[]): Found | null => {
    for (const child of children) {
      const hit = inner(child);
      if (hit) return hit;
    }
    return null;
  };
  const self = found({ kind: 'expression', node }, node);
  switch (node.kind) {
    case 'name':
      return found(cardOrName(sheet, node.name), node);
    case 'field':
      return inner(node.of) ?? found({ kind: 'field', node }, node);
    case 'call':
      if (within(node.name, offset)) return found({ kind: 'formula', node }, node.name);
      for (const argument of node.arguments) {
        const hit = inArgument(sheet, row, node, argument, offset);
        if (hit) return hit;
      }
      return found({ kind: 'formula', node }, node);
    case 'binary':
      return firstOf([node.left, node.right]) ?? self;
    case 'negate':
    case 'group':
      return inner(node.of) ?? self;
    case 'list':
      return firstOf(node.items) ?? self;
    case 'quantity':
      return self;
  }
}

function inArgument(
  sheet: Sheet,
  row: Row,
  node: CallNode,
  argument: Argument,
  offset: number,
): Found | null {
  if (argument.name && within(argument.name, offset))
    return { row, target: { kind: 'parameter', node, parameter: argument.name.text }, span: argument.name };
  // A bare ISO code or a card's name is an argument, not a figure.
  const { value } = argument;
  if (value.kind === 'name' && within(value, offset)) {
    const parameter = codeParameter(sheet, node, value.name);
    if (parameter) return { row, target: { kind: 'parameter', node, parameter }, span: value };
  }
  return inExpression(sheet, row, value, offset);
}

/** The parameter a bare word is for when it stands for itself (an ISO code), else null. */
function codeParameter(sheet: Sheet, node: CallNode, word: string): string | null {
  const given = sheet.call(node)?.arguments;
  if (!given) return null;
  for (const [parameter, value] of given) if (value === word) return parameter;
  return null;
}

function cardOrName(sheet: Sheet, name: string): Target {
  const card = sheet.figure(name) ? undefined : sheet.card(name);
  if (card) return { kind: 'card', card };
  return { kind: 'name', name, given: false };
}

/** The word of the note's fence line that this column is in. */
export function onFence(words: readonly Word[], column: number): Word | undefined {
  return words.find((each) => within(each, column));
}
