/**
 * Nodes of expressions that were worked out once and that nobody holds any more, to be filled anew. Most of what reading a
 * long note leaves to be cleared away would be these, and clearing away is what a long note's lines cost more than a short
 * one's.
 */
import type { Unit } from '../quantity/unit';
import type { BinaryNode, Expression, QuantityNode, Word } from './syntax';

type Filled<T> = { -readonly [Key in keyof T]: T[Key] };

/** As many as a long line needs; the rest is cleared away as everything is. */
const MOST = 64;
const quantities: Filled<QuantityNode>[] = [];
const binaries: Filled<BinaryNode>[] = [];

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

/** Lets go of an expression: whoever calls it is the last that holds any part of it. */
export function letGo(e: Expression): void {
  switch (e.kind) {
    case 'quantity':
      if (quantities.length < MOST) quantities.push(e);
      return;
    case 'binary':
      letGo(e.left);
      letGo(e.right);
      if (binaries.length < MOST) binaries.push(e);
      return;
    case 'negate':
    case 'group':
      letGo(e.of);
  }
}
