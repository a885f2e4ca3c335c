/**
 * Nodes of expressions that were worked out once and that nobody holds any more, to be filled anew. Most of what reading a
 * long note leaves to be cleared away would be these, and clearing away is what a long note's lines cost more than a short
 * one's.
 */
import type { Unit } from '../quantity/unit';
import type { BinaryNode, Expression, Limits, NameNode, QuantityNode, Statement, Word } from './syntax';

/** The same, to be filled: as long as nobody else holds it. */
export type Filled<T> = { -readonly [Key in keyof T]: T[Key] };

type Figure = Statement & { readonly kind: 'figure' };
type Deviations = Limits & { readonly kind: 'deviations' };
type FilledFigure = Omit<Filled<Figure>, 'name'> & { readonly name: Filled<Word> };

/** As many as a long line needs; the rest is cleared away as everything is. */
const MOST = 64;
/** Most literals have no tail. */
export const NO_WORDS: readonly Word[] = [];
const quantities: Filled<QuantityNode>[] = [];
const binaries: Filled<BinaryNode>[] = [];
const names: Filled<NameNode>[] = [];
const figures: FilledFigure[] = [];
const deviations: Filled<Deviations>[] = [];

export function quantityNodeOf(
  start: number,
  end: number,
  value: number,
  unit: Unit,
  decimals: number | null,
  tail: readonly Word[],
): QuantityNode {
  const node = quantities.pop();
  if (!node) return { kind: 'quantity', start, end, value, unit, decimals, tail };
  node.start = start;
  node.end = end;
  node.value = value;
  node.unit = unit;
  node.decimals = decimals;
  node.tail = tail;
  return node;
}

export function binaryNodeOf(
  start: number,
  end: number,
  operator: BinaryNode['operator'],
  left: Expression,
  right: Expression,
): BinaryNode {
  const node = binaries.pop();
  if (!node) return { kind: 'binary', start, end, operator, left, right };
  node.start = start;
  node.end = end;
  node.operator = operator;
  node.left = left;
  node.right = right;
  return node;
}

export function nameNodeOf(start: number, end: number, name: string): NameNode {
  const node = names.pop();
  if (!node) return { kind: 'name', start, end, name };
  node.start = start;
  node.end = end;
  node.name = name;
  return node;
}

/** A figure without limits or a unit to be shown in, as long as nobody puts them in; its name stands from `start` to `end`. */
export function figureOf(
  start: number,
  end: number,
  text: string,
  expression: Expression,
  comment: Word | null,
  findings: Figure['findings'],
): FilledFigure {
  const figure = figures.pop();
  if (!figure) {
    const name = { start, end, text };
    return { kind: 'figure', name, expression, limits: null, sense: null, to: null, comment, findings };
  }
  const { name } = figure;
  name.start = start;
  name.end = end;
  name.text = text;
  figure.expression = expression;
  figure.limits = figure.sense = figure.to = null;
  figure.comment = comment;
  figure.findings = findings;
  return figure;
}

export function deviationsOf(
  start: number,
  end: number,
  upper: QuantityNode,
  lower: QuantityNode,
): Deviations {
  const limits = deviations.pop();
  if (!limits) return { kind: 'deviations', start, end, upper, lower };
  limits.start = start;
  limits.end = end;
  limits.upper = upper;
  limits.lower = lower;
  return limits;
}

/** Lets go of a figure with its expression: whoever calls it is the last that holds any part of them. */
export function letGoFigure(figure: Figure): void {
  const { expression, limits } = figure;
  letGo(expression);
  if (limits?.kind === 'deviations') {
    letGo(limits.upper);
    letGo(limits.lower);
    if (deviations.length < MOST) deviations.push(limits);
  }
  if (figures.length < MOST) figures.push(figure);
}

function letGo(e: Expression): void {
  switch (e.kind) {
    case 'quantity':
      if (quantities.length < MOST) quantities.push(e);
      return;
    case 'binary':
      letGo(e.left);
      letGo(e.right);
      if (binaries.length < MOST) binaries.push(e);
      return;
    case 'name':
      if (!e.callout && names.length < MOST) names.push(e);
      return;
    case 'call':
      for (const { value } of e.arguments) letGo(value);
      return;
    case 'list':
      e.items.forEach(letGo);
      return;
    case 'negate':
    case 'group':
    case 'field':
      letGo(e.of);
  }
}
