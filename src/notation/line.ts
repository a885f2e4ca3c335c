/** One line of a fence to its statement. Never throws; what is not understood is a finding. */
import type { LineFinding } from '../quantity/finding';
import { isReserved } from '../quantity/units';
import { parseUnitNode } from './brackets';
import { codeAt, isBlank, isLetter, nameEnd, skipBlanks } from './characters';
import { oneWay, parseComparison } from './comparison';
import { parseExpression } from './expression';
import { parseLimits, parseSense } from './limits';
import { broken, parseReadings, parseUsed, pathOf } from './reading';
import { refuseQuotientOfLimits } from './refuse-limits';
import { expectedAfterLimits, expectedEnd, expectedUnit } from './refuse';
import {
  hiddenMarks,
  lineTooLong,
  nameInstead,
  refuseChain,
  refuseFieldAssigned,
  refuseReserved,
  refuseTurned,
  refuseUnsigned,
  refuseWordsInFigures,
} from './refuse-lines';
import { MAX_LINE, Scanner } from './scanner';
import type { Comparison, Expression, FenceWord, Statement, UnitNode, Word } from './syntax';
import { figureOf } from './used-nodes';

const NONE: readonly LineFinding[] = [];
const POINT = 0x2e;
const EQUALS = 0x3d;
const COLON = 0x3a;

const s = new Scanner();
/** True while an offer is read in its place. */
let verifying = false;

/** Reads one line, without its line break, of a fence of that kind. */
export function parseLine(text: string, word: FenceWord): Statement {
  if (text.length > MAX_LINE) return lineTooLong(text);
  const hash = text.indexOf('#');
  let end = hash === -1 ? text.length : hash;
  while (isBlank(codeAt(text, end - 1))) end--;
  const comment = hash === -1 ? null : commentAt(text, hash + 1);
  const findings = comment === null ? NONE : hiddenMarks(comment);
  if (end === 0) return { kind: 'empty', comment, findings };
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
  if (!Array.isArray(offers) || verifying) return finding;
  const { start, end } = finding;
  verifying = true;
  try {
    const kept = (offers as readonly string[]).filter((offer) => {
      const again = parseLine(text.slice(0, start) + offer + text.slice(end), word);
      return again.findings.every((next) => next.start >= start + Math.max(1, offer.length));
    });
    return { ...finding, data: { ...finding.data, offers: [...new Set(kept)] } };
  } finally {
    verifying = false;
  }
}

function commentAt(text: string, from: number): Word {
  const start = skipBlanks(text, from);
  let end = text.length;
  while (end > start && isBlank(codeAt(text, end - 1))) end--;
  return { start, end, text: text.slice(start, end) };
}

function parseStatement(comment: Word | null, findings: readonly LineFinding[], word: FenceWord): Statement {
  const { text } = s;
  let c = s.next();
  const start = s.pos;
  if (isLetter(c)) {
    let end = nameEnd(text, start);
    let parts = 1;
    while (codeAt(text, end) === POINT) {
      const next = nameEnd(text, end + 1);
      if (next === end + 1) break;
      parts++;
      end = next;
    }
    const after = skipBlanks(text, end);
    c = codeAt(text, after);
    if (c === EQUALS && !isComparison(codeAt(text, after + 1))) {
      s.pos = after + 1;
      if (parts > 1 && word !== 'signed') {
        refuseFieldAssigned(s, { start, end, text: text.slice(start, end) });
        return broken(comment, null);
      }
      return parseFigure(comment, findings, start, end);
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
        const path = pathOf(s, start, end);
        if (isReserved(s.slice(start, end))) {
          refuseReserved(s, { start, end, text: s.slice(start, end) });
          return broken(comment, null);
        }
        return how === 'used'
          ? parseUsed(s, comment, findings, path)
          : parseReadings(s, comment, findings, path, how);
      }
    }
  }
  const statement = parseShownOrCheck(comment, findings);
  nameInstead(s);
  if (word === 'signed') refuseUnsigned(s);
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

/** The figure whose name stands from `start` to `end`. */
function parseFigure(
  comment: Word | null,
  findings: readonly LineFinding[],
  start: number,
  end: number,
): Statement {
  const name = s.slice(start, end);
  if (isReserved(name)) {
    refuseReserved(s, { start, end, text: name });
    return broken(comment, null);
  }
  s.limitsMayFollow = true;
  const expression = parseExpression(s);
  if (expression === null || refuseQuotientOfLimits(s, expression))
    return broken(comment, { start, end, text: name });
  s.limitsMayFollow = false;
  const figure = figureOf(start, end, name, expression, comment, findings);
  if (s.pos >= s.end) return figure;
  const limits = parseLimits(s, expression);
  const sense = parseSense(s);
  const to = parseTo();
  if (s.pos < s.end) {
    if (limits === null) expectedEnd(s, 'figure', sense === null && to === null ? expression : null);
    else expectedAfterLimits(s, expression, limits);
  }
  figure.limits = limits;
  figure.sense = sense;
  figure.to = to;
  return figure;
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
  if (s.pos >= s.end) return { kind: 'show', expression: first, to: null, comment, findings };
  let comparison = parseComparison(s);
  if (comparison === null) {
    const to = parseTo();
    if (s.pos < s.end) expectedEnd(s, 'show', to === null ? first : null);
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
    comparison = parseComparison(s);
  }
  if (s.pos < s.end) expectedEnd(s, 'check', terms.at(-1) ?? null);
  return { kind: 'check', terms, comparisons, comment, findings };
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
  refuseTurned(s, from);
  return {
    kind: 'words',
    key,
    words: { start: from, end: s.end, text: s.slice(from, s.end) },
    comment,
    findings,
  };
}
