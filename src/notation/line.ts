/** One line of a fence to its statement. Never throws; what is not understood is a finding. */
import type { LineFinding } from '../quantity/finding';
import { isReserved } from '../quantity/units';
import { isBlank, isDigit, isLetter, isMinus, nameEnd, skipBlanks } from './characters';
import { parseExpression, parseUnitNode } from './expression';
import { parseLimits, parseSense } from './limits';
import { numberAt } from './number';
import { parseQuantity } from './quantity';
import { expectedAfterLimits, expectedEnd, expectedOperand, expectedUnit } from './refuse';
import { refuseComma } from './refuse-numbers';
import {
  hiddenMarks,
  lineTooLong,
  nameInstead,
  refuseChain,
  refuseComparison,
  refuseFieldAssigned,
  refuseUnsigned,
  refuseReserved,
  refuseWordsInFigures,
} from './refuse-lines';
import { MAX_ITEMS, MAX_LINE, Scanner } from './scanner';
import type {
  Comparison,
  Expression,
  FenceWord,
  Path,
  QuantityNode,
  ReadingNode,
  Statement,
  UnitNode,
  Word,
} from './syntax';

const NONE: readonly LineFinding[] = [];
const EMPTY: Statement = { kind: 'empty', comment: null, findings: NONE };
const POINT = 0x2e;
const EQUALS = 0x3d;
const COLON = 0x3a;
const COMMA = 0x2c;

const s = new Scanner();
/** True while an offer is read in its place. */
let verifying = false;

/** Reads one line, without its line break, of a fence of that kind. */
export function parseLine(text: string, word: FenceWord): Statement {
  if (text.length > MAX_LINE) return lineTooLong(text);
  const hash = text.indexOf('#');
  let end = hash === -1 ? text.length : hash;
  while (end > 0 && isBlank(text.charCodeAt(end - 1))) end--;
  const comment = hash === -1 ? null : commentAt(text, hash + 1);
  const findings = comment === null ? NONE : hiddenMarks(comment);
  if (end === 0) return comment === null ? EMPTY : { kind: 'empty', comment, findings };
  s.begin(text, end);
  const statement = parseStatement(comment, findings, word);
  if (s.finding === null) return statement;
  const name = statement.kind === 'broken' || statement.kind === 'figure' ? statement.name : null;
  return { kind: 'broken', name, comment, findings: [withOffers(text, word, s.finding), ...findings] };
}

/**
 * The finding with those of its offers that the notation accepts in the place of the marked range. Where the line has
 * a second mistake further on, the offer has to hold up to there.
 */
function withOffers(text: string, word: FenceWord, finding: LineFinding): LineFinding {
  const offers = finding.data['offers'];
  if (!Array.isArray(offers) || offers.length === 0 || verifying) return finding;
  const { start, end } = finding;
  verifying = true;
  const kept = (offers as readonly string[]).filter((offer) => {
    const again = parseLine(text.slice(0, start) + offer + text.slice(end), word);
    return again.kind !== 'broken' || (again.findings[0]?.start ?? 0) >= start + Math.max(1, offer.length);
  });
  verifying = false;
  return { ...finding, data: { ...finding.data, offers: [...new Set(kept)] } };
}

function commentAt(text: string, from: number): Word {
  const start = skipBlanks(text, from);
  let end = text.length;
  while (end > start && isBlank(text.charCodeAt(end - 1))) end--;
  return { start, end, text: text.slice(start, end) };
}

/** What a refused line is left with: the name of the figure that it would have been. */
function broken(comment: Word | null, name: Word | null): Statement {
  return { kind: 'broken', name, comment, findings: NONE };
}

function parseStatement(comment: Word | null, findings: readonly LineFinding[], word: FenceWord): Statement {
  const { text } = s;
  let c = s.next();
  const start = s.pos;
  if (isLetter(c)) {
    let end = nameEnd(text, start);
    let parts = 1;
    while (text.charCodeAt(end) === POINT) {
      const next = nameEnd(text, end + 1);
      if (next === end + 1) break;
      parts++;
      end = next;
    }
    const after = skipBlanks(text, end);
    c = text.charCodeAt(after);
    if (c === EQUALS && !isComparison(text.charCodeAt(after + 1))) {
      s.pos = after + 1;
      const name = { start, end, text: text.slice(start, end) };
      if (parts > 1 && word !== 'signed') {
        refuseFieldAssigned(s, name);
        return broken(comment, null);
      }
      return parseFigure(comment, findings, name);
    }
    if (c === COLON && parts === 1) return parseWords(comment, findings, word, start, end, after);
    if (isLetter(c)) {
      const wordEnd = nameEnd(text, after);
      const how = recordWord(text, after, wordEnd);
      if (how !== null) {
        if (word === 'signed') {
          refuseUnsigned(s);
          return broken(comment, null);
        }
        s.pos = wordEnd;
        const path = pathOf(start, end);
        return how === 'used'
          ? parseUsed(comment, findings, path)
          : parseReadings(comment, findings, path, how);
      }
    }
  }
  const statement = parseShownOrCheck(comment, findings);
  if (s.finding !== null) nameInstead(s);
  if (word === 'signed' && s.finding === null) refuseUnsigned(s);
  return statement;
}

/** What after `=` makes it a comparison, written well (`==`) or not (`=<`). */
function isComparison(c: number): boolean {
  return c === EQUALS || c === 0x3c || c === 0x3e;
}

function recordWord(text: string, start: number, end: number): 'measured' | 'final' | 'used' | null {
  switch (end - start) {
    case 4:
      return text.startsWith('used', start) ? 'used' : null;
    case 5:
      return text.startsWith('final', start) ? 'final' : null;
    case 8:
      return text.startsWith('measured', start) ? 'measured' : null;
    default:
      return null;
  }
}

function parseFigure(comment: Word | null, findings: readonly LineFinding[], name: Word): Statement {
  if (name.text.length > 1 && isReserved(name.text)) {
    refuseReserved(s, name);
    return broken(comment, null);
  }
  s.limitsMayFollow = true;
  const expression = parseExpression(s);
  if (expression === null) return broken(comment, name);
  s.limitsMayFollow = false;
  s.next();
  if (s.pos >= s.end)
    return { kind: 'figure', name, expression, limits: null, sense: null, to: null, comment, findings };
  const limits = parseLimits(s, expression);
  const sense = parseSense(s);
  const to = parseTo();
  if (s.finding === null && s.pos < s.end) {
    if (limits === null) expectedEnd(s, 'figure', sense === null && to === null ? expression : null);
    else expectedAfterLimits(s, expression, limits);
  }
  return { kind: 'figure', name, expression, limits, sense, to, comment, findings };
}

/** `to` and a unit; null without. */
function parseTo(): UnitNode | null {
  if (s.next() !== 0x74) return null;
  const start = s.pos;
  if (nameEnd(s.text, start) !== start + 2 || s.at(start + 1) !== 0x6f) return null;
  s.pos = start + 2;
  const unit = parseUnitNode(s);
  if (unit === null) expectedUnit(s, start);
  else s.next();
  return unit;
}

function parseShownOrCheck(comment: Word | null, findings: readonly LineFinding[]): Statement {
  const first = parseExpression(s);
  if (first === null) return broken(comment, null);
  s.next();
  if (s.pos >= s.end) return { kind: 'show', expression: first, to: null, comment, findings };
  let comparison = parseComparison();
  if (comparison === null) {
    const to = parseTo();
    if (s.finding === null && s.pos < s.end) expectedEnd(s, 'show', to === null ? first : null);
    return { kind: 'show', expression: first, to, comment, findings };
  }
  const terms: Expression[] = [first];
  const comparisons: Comparison[] = [];
  while (comparison !== null) {
    const at = s.pos;
    const term = parseExpression(s);
    if (term === null) return broken(comment, null);
    terms.push(term);
    comparisons.push(comparison);
    if (!oneWay(comparisons)) refuseChain(s, at, comparison);
    s.next();
    comparison = parseComparison();
  }
  if (s.finding === null && s.pos < s.end) expectedEnd(s, 'check', terms[terms.length - 1] ?? first);
  return { kind: 'check', terms, comparisons, comment, findings };
}

/** A comparison sign at `s.pos`, passed; null when there is none or it is written wrongly. */
function parseComparison(): Comparison | null {
  const c = s.at(s.pos);
  const next = s.at(s.pos + 1);
  switch (c) {
    case 0x2264:
      return passed(1, '<=');
    case 0x2265:
      return passed(1, '>=');
    case 0x2260:
      return passed(1, '!=');
    case 0x3c:
      if (next === EQUALS) return passed(2, '<=');
      return next === 0x3e || refuseComparison(s) ? null : passed(1, '<');
    case 0x3e:
      if (next === EQUALS) return passed(2, '>=');
      return refuseComparison(s) ? null : passed(1, '>');
    case EQUALS:
      return next === EQUALS && s.at(s.pos + 2) !== EQUALS ? passed(2, '==') : null;
    case 0x21:
      return next === EQUALS && s.at(s.pos + 2) !== EQUALS ? passed(2, '!=') : null;
    default:
      return null;
  }
}

function passed(length: number, comparison: Comparison): Comparison {
  s.pos += length;
  return comparison;
}

/** A chain goes up or down all along; `==` and `!=` compare two only. */
function oneWay(comparisons: readonly Comparison[]): boolean {
  const first = comparisons[0]?.charAt(0);
  return (
    comparisons.length === 1 ||
    ((first === '<' || first === '>') && comparisons.every((c) => c.startsWith(first)))
  );
}

function pathOf(start: number, end: number): Path {
  return { start, end, names: s.slice(start, end).split('.') };
}

/** A number as read from an instrument: a quantity, with a minus where the scale goes below zero. */
function parseReadQuantity(): QuantityNode | null {
  const c = s.next();
  const start = s.pos;
  if (isMinus(c)) s.pos = skipBlanks(s.text, start + 1);
  if (!numberAt(s.text, s.pos)) return expectedOperand(s);
  const size = parseQuantity(s);
  if (size === null || !isMinus(c)) return size;
  const { unit } = size;
  return {
    ...size,
    start,
    value: unit.offset === 0 ? -size.value + 0 : unit.offset - s.amount * unit.factor,
  };
}

function parseReadings(
  comment: Word | null,
  findings: readonly LineFinding[],
  path: Path,
  how: 'measured' | 'final',
): Statement {
  const readings: ReadingNode[] = [];
  for (;;) {
    const value = parseReadQuantity();
    if (value === null) return broken(comment, null);
    let at: QuantityNode | null = null;
    if (s.next() === 0x61 && nameEnd(s.text, s.pos) === s.pos + 2 && s.at(s.pos + 1) === 0x74) {
      s.pos += 2;
      at = parseReadQuantity();
      if (at === null) return broken(comment, null);
    }
    readings.push({ start: value.start, end: (at ?? value).end, value, at });
    if (s.next() !== COMMA) {
      if (s.pos < s.end) expectedEnd(s, 'reading', at ?? value);
      return { kind: 'reading', path, how, readings, comment, findings };
    }
    if (readings.length >= MAX_ITEMS) {
      s.refuse('too-many-items', s.pos, s.pos + 1, { most: MAX_ITEMS });
      return broken(comment, null);
    }
    if (isDigit(s.at(s.pos - 1)) && isDigit(s.at(s.pos + 1))) {
      refuseComma(s, s.pos, 'readings');
      return broken(comment, null);
    }
    s.pos++;
  }
}

function parseUsed(comment: Word | null, findings: readonly LineFinding[], path: Path): Statement {
  const value = parseReadQuantity();
  if (value === null) return broken(comment, null);
  s.next();
  if (s.pos < s.end) expectedEnd(s, 'used', value);
  return { kind: 'used', path, value, comment, findings };
}

function parseWords(
  comment: Word | null,
  findings: readonly LineFinding[],
  word: FenceWord,
  start: number,
  end: number,
  colon: number,
): Statement {
  const key = { start, end, text: s.slice(start, end) };
  if (word === 'figures') {
    refuseWordsInFigures(s, key, colon);
    return broken(comment, null);
  }
  const from = Math.min(skipBlanks(s.text, colon + 1), s.end);
  return {
    kind: 'words',
    key,
    words: { start: from, end: s.end, text: s.slice(from, s.end) },
    comment,
    findings,
  };
}
