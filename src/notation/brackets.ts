/** What stands between brackets: a part of an expression, the arguments of a formula, a list. */
import { ONE } from '../quantity/unit';
import { PERCENT } from '../quantity/units';
import { taperCallout } from './callout';
import { isDigit, isLetter, nameEnd, skipBlanks } from './characters';
import { parseExpression, parseFields } from './expression';
import { expectedArgument, expectedOperator } from './refuse';
import { refuseDepth, refuseListArithmetic, rightmost } from './refuse-expressions';
import { refuseBareMixed, refuseComma } from './refuse-numbers';
import { MAX_DEPTH, MAX_ITEMS, type Scanner } from './scanner';
import type { Argument, Expression, UnitNode } from './syntax';
import { tailAt } from './unit-tail';

const CLOSE = 0x29;
const CLOSE_LIST = 0x5d;
const COMMA = 0x2c;
const COLON = 0x3a;
const EQUALS = 0x3d;

/** `( … )` at `s.pos`, with fields after it. */
export function parseGroup(s: Scanner): Expression | null {
  const start = s.pos;
  const limitsMayFollow = s.limitsMayFollow;
  const bareFractions = s.bareFractions;
  if (!enter(s)) return null;
  const of = parseExpression(s);
  if (of === null) return null;
  if (s.next() !== CLOSE) return expectedOperator(s, of, start);
  if (of.kind === 'list') return refuseListArithmetic(s, of, of);
  const end = ++s.pos;
  leave(s, limitsMayFollow, bareFractions);
  return parseFields(s, { kind: 'group', start, end, of });
}

function enter(s: Scanner): boolean {
  if (s.depth >= MAX_DEPTH) {
    refuseDepth(s);
    return false;
  }
  s.depth++;
  s.limitsMayFollow = false;
  s.bareFractions = false;
  s.pos++;
  return true;
}

function leave(s: Scanner, limitsMayFollow: boolean, bareFractions: boolean): void {
  s.depth--;
  s.limitsMayFollow = limitsMayFollow;
  s.bareFractions = bareFractions;
}

/** The arguments of a formula whose name stands from `start` to `end`, where its bracket opens. */
export function parseCall(s: Scanner, start: number, end: number, text: string): Expression | null {
  const open = s.pos;
  const limitsMayFollow = s.limitsMayFollow;
  const bareFractions = s.bareFractions;
  if (!enter(s)) return null;
  const args: Argument[] = [];
  if (s.next() !== CLOSE) {
    for (;;) {
      const argument = parseArgument(s);
      if (argument === null) return null;
      args.push(argument);
      const c = s.next();
      if (c === CLOSE) break;
      if (c !== COMMA) return expectedOperator(s, argument.value, open);
      if (!comma(s, argument.value, args.length)) return null;
    }
  }
  s.pos++;
  leave(s, limitsMayFollow, bareFractions);
  return { kind: 'call', start, end: s.pos, name: { start, end, text }, arguments: args };
}

function parseArgument(s: Scanner): Argument | null {
  const c = s.next();
  const start = s.pos;
  if (isLetter(c)) {
    const end = nameEnd(s.text, start);
    const after = skipBlanks(s.text, end);
    const mark = s.at(after);
    if (mark === COLON) {
      s.pos = after + 1;
      const value = parseGiven(s);
      return value && { start, end: value.end, name: { start, end, text: s.slice(start, end) }, value };
    }
    if (mark === EQUALS && s.at(after + 1) !== EQUALS) return expectedArgument(s, after);
  }
  const value = parseGiven(s);
  return value && { start: value.start, end: value.end, name: null, value };
}

/** What an argument gives: an expression, or a taper's call-out. */
function parseGiven(s: Scanner): Expression | null {
  if (isDigit(s.next())) {
    const taper = taperCallout(s, s.pos);
    if (taper !== undefined) return taper;
  }
  return parseExpression(s);
}

/** Passes the comma after `item`, unless it could be a decimal one, or begins one element too many. */
function comma(s: Scanner, item: Expression, count: number): boolean {
  const at = s.pos;
  const last = rightmost(item);
  if (last.kind === 'quantity' && last.end === at && last.unit === ONE && isDigit(s.at(at + 1))) {
    refuseComma(s, at, 'list');
    return false;
  }
  if (count >= MAX_ITEMS) {
    s.refuse('too-many-items', at, at + 1, { most: MAX_ITEMS });
    return false;
  }
  s.pos++;
  return true;
}

/** `[ … ]` at `s.pos`, with the unit of all after it. */
export function parseList(s: Scanner): Expression | null {
  const start = s.pos;
  const limitsMayFollow = s.limitsMayFollow;
  const bareFractions = s.bareFractions;
  if (!enter(s)) return null;
  const items: Expression[] = [];
  for (;;) {
    s.bareFractions = true;
    const item = parseExpression(s);
    if (item === null) return null;
    if (item.kind === 'list') return s.refuse('list-in-list', item.start, item.end);
    items.push(item);
    const c = s.next();
    if (c === CLOSE_LIST) break;
    if (c !== COMMA) return expectedOperator(s, item, start);
    if (!comma(s, item, items.length)) return null;
  }
  s.pos++;
  leave(s, limitsMayFollow, bareFractions);
  const unit = parseUnitNode(s);
  if (unit === null) {
    const mixed = items.find((item) => item.start === s.bareMixed);
    if (mixed) return refuseBareMixed(s, mixed.start, mixed.end);
  }
  return { kind: 'list', start, end: s.pos, items, unit };
}

/** A unit that stands by itself, after a list or `to`; null when none is there, and then nothing is read. */
export function parseUnitNode(s: Scanner): UnitNode | null {
  const start = skipBlanks(s.text, s.pos);
  if (s.at(start) === 0x25) {
    s.pos = start + 1;
    return { start, end: s.pos, unit: PERCENT };
  }
  const tail = tailAt(s.text, start);
  if (tail === null) return null;
  s.pos = start + tail.length;
  return { start, end: s.pos, unit: tail.unit };
}
