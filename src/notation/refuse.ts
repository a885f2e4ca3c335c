/**
 * What to say where reading got stuck. Only a refused line comes here, so these functions may look at the text again
 * and at leisure; each asks first for the mistakes that have one clear remedy.
 */
import { isDiameterSign, isDigit, isLetter, isMicro, isMinus, nameEnd, skipBlanks } from './characters';
import { numberAt } from './number';
import { refuseOdd, refuseQuote } from './refuse-characters';
import { refuseComparison } from './refuse-lines';
import { type Where, refuseNeighbours } from './refuse-neighbours';
import { refuseComma, refuseGroups } from './refuse-numbers';
import type { Scanner } from './scanner';
import type { Expression, Limits } from './syntax';
import { nearUnits, nearWords } from './near';

export { expectedLimit } from './refuse-limits';

const QUOTE = 0x22;
const APOSTROPHE = 0x27;
const COMMA = 0x2c;
const POINT = 0x2e;
const PAIRS: Readonly<Record<string, string>> = { '(': ')', '[': ']' };

/** A number, a name or a bracket should begin at `s.pos`. */
export function expectedOperand(s: Scanner, at = s.pos): null {
  const pos = Math.min(at, s.end);
  if (refuseOdd(s, pos)) return null;
  const c = s.at(pos);
  if (pos >= s.end) {
    const start = s.end - 1;
    return s.refuse('value-missing', start, s.end, {
      written: s.slice(start, s.end),
      offers: [],
    });
  }
  if (c === QUOTE || c === APOSTROPHE) return refuseQuote(s, pos, false);
  if (c === 0x2b) {
    const end = skipBlanks(s.text, pos + 1);
    return s.refuse('operator-odd', pos, end, { written: '+', offers: [''] });
  }
  const before = s.slice(0, pos).trimEnd();
  // `d ** 2`, `d // 2`, `x =< 3`: the second sign is where a value should be.
  if (before.endsWith('*') && c === 0x2a)
    return s.refuse('operator-odd', before.length - 1, pos + 1, { written: '**', offers: ['^'] });
  if (before.endsWith('/') && c === 0x2f)
    return s.refuse('operator-odd', before.length - 1, pos + 1, { written: '//', offers: ['/'] });
  if (isDegreeLike(c) || c === 0x25) {
    return s.refuse('unit-alone', pos, pos + 1, { written: s.slice(pos, pos + 1), offers: [] });
  }
  const end = Math.max(nameEnd(s.text, pos), pos + 1);
  return s.refuse('value-missing', pos, end, { written: s.slice(pos, end), offers: [] });
}

function isDegreeLike(c: number): boolean {
  return c === 0xb0 || c === 0x2032 || c === 0x2033 || isDiameterSign(c);
}

/** `fillet = 2 mm` among arguments; the `=` is at `at`. */
export function expectedArgument(s: Scanner, at: number): null {
  let start = at;
  while (s.text.charAt(start - 1) === ' ') start--;
  return s.refuse('argument-equals', start, at + 1, { written: '=', offers: [':'] });
}

/** An operator, a comma or the closing bracket should stand at `s.pos`; `open` is where the bracket opens. */
export function expectedOperator(s: Scanner, left: Expression, open: number): null {
  const c = s.at(s.pos);
  if (s.pos >= s.end) return missingBrackets(s, open);
  if (c === 0x29 || c === 0x5d) {
    const right = PAIRS[s.text.charAt(open)] ?? ')';
    return s.refuse('bracket-wrong', s.pos, s.pos + 1, {
      written: s.slice(s.pos, s.pos + 1),
      offers: [right],
    });
  }
  if (refuseStuck(s, left, 'inside')) return null;
  if (c === 0x3c || c === 0x3e || c === 0x3d || c === 0x21 || c === 0x2264 || c === 0x2265 || c === 0x2260)
    return s.refuse('comparison-inside', s.pos, s.pos + 1, {
      written: s.slice(s.pos, s.pos + 1),
      offers: [],
    });
  if (c === COMMA) {
    if (isDigit(s.at(s.pos - 1)) && isDigit(s.at(s.pos + 1))) return refuseComma(s, s.pos, 'nothing');
    return s.refuse('comma-odd', s.pos, s.pos + 1, { written: ',', offers: [] });
  }
  return unknownSign(s);
}

/** Brackets that never close, from the one at `open` outward: all are closed at the end. */
function missingBrackets(s: Scanner, open: number): null {
  const stack: string[] = [];
  for (const sign of s.slice(0, s.end)) {
    const closing = PAIRS[sign];
    if (closing !== undefined) stack.push(closing);
    else if (sign === ')' || sign === ']') stack.pop();
  }
  const whole = s.slice(open, s.end);
  const offers = [whole + stack.reverse().join('')];
  return s.refuse('bracket-missing', open, s.end, {
    written: s.slice(open, open + 1),
    missing: stack[0] ?? ')',
    offers,
  });
}

/** The line should end at `s.pos`, after `left`. */
export function expectedEnd(s: Scanner, where: Where, left: Expression | null): null {
  s.next();
  const { pos } = s;
  const c = s.at(pos);
  if (c === 0x29 || c === 0x5d)
    return s.refuse('bracket-extra', pos, pos + 1, { written: s.slice(pos, pos + 1), offers: [''] });
  if (left !== null && refuseStuck(s, left, where)) return null;
  if (refuseOdd(s, pos)) return null;
  if (refuseComparison(s)) return null;
  if (c === COMMA) return refuseCommas(s, left, where);
  if (left !== null && /^[<>≤≥≠]|^[=!]=/.test(s.slice(pos, s.end))) return comparisonInLine(s, where);
  if (c === 0x3d) return s.refuse('equals-odd', pos, pos + 1, { written: '=', offers: ['=='] });
  if (startsLimits(s)) return misplacedLimits(s, left, where);
  if (where === 'reading' || where === 'used') {
    return s.refuse('reading-not-plain', pos, s.end, { written: s.slice(pos, s.end), offers: [] });
  }
  if (left === null)
    return s.refuse('line-goes-on', pos, s.end, { written: s.slice(pos, s.end), offers: [''] });
  return unknownSign(s);
}

/** Something goes on after limits. */
export function expectedAfterLimits(s: Scanner, nominal: Expression, limits: Limits): null {
  const { pos } = s;
  const c = s.at(pos);
  const written = s.slice(pos, s.end);
  if (refuseOdd(s, pos)) return null;
  const end = nameEnd(s.text, pos);
  const word = s.slice(pos, end);
  const near = nearWords(word, ['to', 'hole', 'shaft']).filter((known) => known !== word);
  if (near.length > 0) return s.refuse('word-unknown', pos, end, { written: word, offers: near });
  if (limits.kind === 'deviations' && isDigit(s.at(limits.end - 1))) {
    const offers = nearUnits(word);
    if (offers.length > 0) return s.refuse('unit-unknown', pos, end, { written: word, offers });
  }
  if (c === QUOTE || c === APOSTROPHE) return refuseQuote(s, pos, false);
  if (c === COMMA && isDigit(s.at(pos - 1)) && isDigit(s.at(pos + 1))) return refuseComma(s, pos, 'nothing');
  if (/^[-+*/^×÷·−²³]/.test(written) && s.at(limits.start) !== 0xb1) {
    const sum = s.slice(nominal.start, s.end);
    return s.refuse('limits-or-sum', nominal.start, s.end, { written: sum, offers: [`(${sum})`] });
  }
  return s.refuse('line-goes-on', pos, s.end, { written, offers: [''] });
}

/** The mistakes that are the same in brackets and at the end of a line. */
function refuseStuck(s: Scanner, left: Expression, where: Where): boolean {
  const { pos } = s;
  const c = s.at(pos);
  if (refuseGroups(s, left.start)) return true;
  if (!isMicro(c) && refuseOdd(s, pos)) return true;
  if (c === QUOTE || c === APOSTROPHE) {
    refuseQuote(s, pos, false);
    return true;
  }
  if (c === 0x2032 || c === 0x2033) {
    s.refuse('quote-mark', pos, pos + 1, { written: s.slice(pos, pos + 1), curly: false, offers: [''] });
    return true;
  }
  if (isLetter(c) || isMicro(c) || isDiameterSign(c) || numberAt(s.text, pos) || c === 0x28 || c === 0x5b) {
    refuseNeighbours(s, left, where);
    return true;
  }
  if (c === POINT && s.at(pos + 1) !== POINT) {
    // `ball. tilt`, or a number's point without decimals.
    const next = skipBlanks(s.text, pos + 1);
    const field = left.kind !== 'quantity' && isLetter(s.at(next));
    s.refuse('point-odd', pos, field ? next : pos + 1, { written: '.', offers: [field ? '.' : ''] });
    return true;
  }
  if (c === 0x3a && isDigit(s.at(pos - 1)) && isDigit(s.at(pos + 1))) {
    s.refuse('operator-odd', pos, pos + 1, { written: ':', offers: ['/'] });
    return true;
  }
  return false;
}

function refuseCommas(s: Scanner, left: Expression | null, where: Where): null {
  const { pos } = s;
  if (isDigit(s.at(pos - 1)) && isDigit(s.at(pos + 1))) return refuseComma(s, pos, 'nothing');
  const offers: string[] = [];
  if (left !== null && (where === 'figure' || where === 'show')) {
    const rest = s.slice(left.start, s.end);
    const unit = /^(.*\d)\s*([^\d\s,]+)$/.exec(rest);
    offers.push(`[${rest}]`);
    if (unit) offers.unshift(`[${unit[1] ?? ''}] ${unit[2] ?? ''}`);
    return s.refuse('comma-odd', left.start, s.end, { written: ',', offers });
  }
  return s.refuse('comma-odd', pos, pos + 1, { written: ',', offers });
}

/** `x = a < b`, `12 mm measured < 3`: a check stands alone on its line. */
function comparisonInLine(s: Scanner, where: Where): null {
  const { pos } = s;
  if (where === 'figure') {
    const check = s.slice(skipBlanks(s.text, s.text.indexOf('=') + 1), s.end);
    const start = skipBlanks(s.text, 0);
    return s.refuse('comparison-in-figure', start, s.end, {
      written: s.slice(start, s.end),
      offers: [check],
    });
  }
  return s.refuse('comparison-inside', pos, pos + 1, { written: s.slice(pos, pos + 1), offers: [] });
}

function startsLimits(s: Scanner): boolean {
  return /^(±|\+\/[-−]|\.\.|0\s*\/)/.test(s.slice(s.pos, s.end));
}

/** Limits where none may be asked, or a second time. */
function misplacedLimits(s: Scanner, left: Expression | null, where: Where): null {
  const { pos } = s;
  const written = s.slice(pos, s.end);
  if (s.text.startsWith('...', pos))
    return s.refuse('operator-odd', pos, pos + 3, { written: '...', offers: ['..'] });
  if (where === 'show' && left !== null) {
    const line = `size = ${s.slice(left.start, s.end)}`;
    return s.refuse('limits-need-name', left.start, s.end, {
      written: s.slice(left.start, s.end),
      offers: [line],
    });
  }
  if (where === 'figure') return s.refuse('line-goes-on', pos, s.end, { written, offers: [] });
  return s.refuse('limits-misplaced', pos, s.end, { written, offers: [] });
}

/** A sign that has a meaning, but none here. */
function unknownSign(s: Scanner): null {
  const { pos } = s;
  if (startsLimits(s))
    return s.refuse('limits-misplaced', pos, s.end, { written: s.slice(pos, s.end), offers: [] });
  return s.refuse('odd-character', pos, pos + 1, { written: s.slice(pos, pos + 1), offers: [] });
}

/** `to` without a unit after it, or with what is none; `start` is where `to` stands. */
export function expectedUnit(s: Scanner, start: number): null {
  const pos = skipBlanks(s.text, s.pos);
  if (pos >= s.end) return s.refuse('unit-missing', start, start + 2, { written: 'to', offers: [] });
  if (!isMicro(s.at(pos)) && refuseOdd(s, pos)) return null;
  const end = Math.max(nameEnd(s.text, isMicro(s.at(pos)) ? pos + 1 : pos), pos + 1);
  const written = s.slice(pos, end);
  if (numberAt(s.text, pos) || isMinus(s.at(pos)))
    return s.refuse('unit-missing', pos, end, { written, offers: [] });
  return s.refuse('unit-unknown', pos, end, { written, offers: nearUnits(written) });
}
