/** Expressions, by recursive descent. Each function reads one rule of the grammar and answers null when it refuses. */
import { ONE, toBase } from '../quantity/unit';
import { parseCall, parseGroup, parseList } from './brackets';
import { inchCallout, metricCallout } from './callout';
import { codeAt, isDiameterSign, isDigit, isDivide, isLetter, isMinus, isTimes, nameEnd } from './characters';
import { deviationsFollow, isPlusMinus } from './limits';
import { numberAt } from './number';
import { parseQuantity } from './quantity';
import { expectedOperand } from './refuse';
import {
  refuseCaret,
  refuseDepth,
  refuseFractionAfterDivision,
  refuseFractionAfterNumber,
  refuseListArithmetic,
} from './refuse-expressions';
import { MAX_DEPTH, type Scanner } from './scanner';
import type { Expression, QuantityNode } from './syntax';
import { NO_WORDS, binaryNodeOf, nameNodeOf, quantityNodeOf } from './used-nodes';

const PLUS = 0x2b;
const CARET = 0x5e;
const SQUARED = 0xb2;
const CUBED = 0xb3;
const OPEN = 0x28;
const OPEN_LIST = 0x5b;
const POINT = 0x2e;
const HYPHEN = 0x2d;
const CAPITAL_M = 0x4d;

/** A whole expression, up to what cannot belong to it. */
export function parseExpression(s: Scanner): Expression | null {
  let left = parseTerm(s);
  while (left !== null) {
    const c = s.next();
    if (c !== PLUS && !isMinus(c)) return left;
    // `+/-` is never a sum: where limits have no place, what follows the expression says so.
    if (isPlusMinus(s, s.pos) || (s.limitsMayFollow && deviationsFollow(s, left))) return left;
    const operator = s.pos++;
    s.next();
    const start = s.pos;
    const right = parseTerm(s);
    if (right === null) return null;
    if (s.fraction === start && refuseFractionAfterNumber(s, left, operator, right)) return null;
    if (left.kind === 'list' || right.kind === 'list') return refuseListArithmetic(s, left, right);
    left = binaryNodeOf(left.start, right.end, c === PLUS ? '+' : '-', left, right);
  }
  return null;
}

function parseTerm(s: Scanner): Expression | null {
  let left = parseUnary(s);
  while (left !== null) {
    const c = s.next();
    const divides = isDivide(c);
    if (!divides && !isTimes(c)) return left;
    s.pos++;
    s.next();
    const start = s.pos;
    const right = parseUnary(s);
    if (right === null) return null;
    if (divides && s.fraction === start) return refuseFractionAfterDivision(s, start);
    if (left.kind === 'list' || right.kind === 'list') return refuseListArithmetic(s, left, right);
    left = binaryNodeOf(left.start, right.end, divides ? '/' : '*', left, right);
  }
  return null;
}

function parseUnary(s: Scanner): Expression | null {
  const c = s.next();
  if (!isMinus(c)) return parsePower(s);
  const start = s.pos;
  if (s.depth >= MAX_DEPTH) return refuseDepth(s);
  s.depth++;
  s.pos++;
  const of = parseUnary(s);
  s.depth--;
  if (of === null) return null;
  if (of.kind === 'list') return refuseListArithmetic(s, of, of);
  // `-5 °C` is a reading of the scale: its minus belongs to the number.
  if (of.kind === 'quantity' && of.unit.dimension.point && numberAt(s.text, of.start))
    return { ...of, start, value: toBase(-s.amount, of.unit) };
  return { kind: 'negate', start, end: of.end, of };
}

function parsePower(s: Scanner): Expression | null {
  const base = parseAtom(s);
  if (base === null) return null;
  const c = s.next();
  if (c === SQUARED || c === CUBED) {
    if (base.kind === 'quantity' && base.unit !== ONE) return refuseCaret(s, base);
    if (base.kind === 'list') return refuseListArithmetic(s, base, base);
    const start = s.pos++;
    const right = small(c === SQUARED ? 2 : 3, start);
    return binaryNodeOf(base.start, s.pos, '^', base, right);
  }
  if (c !== CARET) return base;
  if (base.kind === 'quantity' && base.unit !== ONE) return refuseCaret(s, base);
  if (s.depth >= MAX_DEPTH) return refuseDepth(s);
  s.depth++;
  s.pos++;
  s.next();
  const start = s.pos;
  const right = parseUnary(s);
  s.depth--;
  if (right === null) return null;
  if (s.fraction === start) return refuseFractionAfterDivision(s, start);
  if (base.kind === 'list' || right.kind === 'list') return refuseListArithmetic(s, base, right);
  return binaryNodeOf(base.start, right.end, '^', base, right);
}

function small(value: number, start: number): QuantityNode {
  return quantityNodeOf(start, start + 1, value, ONE, 0, NO_WORDS);
}

function parseAtom(s: Scanner): Expression | null {
  let c = s.next();
  const start = s.pos;
  if (numberAt(s.text, start)) return parseNumber(s, start);
  if (isDiameterSign(c)) {
    s.pos++;
    c = s.next();
    if (numberAt(s.text, s.pos)) {
      const size = parseQuantity(s);
      return size && { ...size, start };
    }
    if (!isLetter(c)) return expectedOperand(s);
  }
  if (isLetter(c)) return parseNamed(s, start);
  if (c === OPEN) return parseGroup(s);
  if (c === OPEN_LIST) return parseList(s);
  return expectedOperand(s);
}

/** A quantity, or a call-out of an inch thread: `3/8-16 UNC`. */
function parseNumber(s: Scanner, start: number): Expression | null {
  const size = parseQuantity(s);
  if (size === null ? s.finding?.code !== 'thread-or-difference' : s.at(s.pos) !== HYPHEN) return size;
  return inchCallout(s, start) ?? size;
}

/** A name, with its fields, or a formula. `start` is before a diameter sign. */
function parseNamed(s: Scanner, start: number): Expression | null {
  const { text, pos } = s;
  const end = nameEnd(text, pos);
  const name = text.slice(pos, end);
  s.pos = end;
  const c = codeAt(text, end);
  if (codeAt(text, pos) === CAPITAL_M && isDigit(codeAt(text, pos + 1))) {
    const callout = metricCallout(s, pos, end);
    if (callout !== undefined) return callout;
  }
  if (c === OPEN) return parseFields(s, parseCall(s, pos, end, name));
  if (name === 'to') return expectedOperand(s, pos);
  return parseFields(s, nameNodeOf(start, end, name));
}

/** The fields after a name, a formula or a bracket: `.ring.used`. */
export function parseFields(s: Scanner, of: Expression | null): Expression | null {
  let node = of;
  while (node !== null && s.at(s.pos) === POINT) {
    const start = s.pos + 1;
    const end = nameEnd(s.text, start);
    if (end === start) return node;
    s.pos = end;
    const field = s.slice(start, end);
    node = { kind: 'field', start: node.start, end, of: node, field, fieldSpan: { start, end } };
  }
  return node;
}
