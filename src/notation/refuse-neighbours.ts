/** Refusals of things that stand side by side: only a number and its unit may. */
import { ONE } from '../quantity/unit';
import { MATHEMATICS } from '../quantity/mathematics';
import { unitNamed } from '../quantity/units';
import { isDigit, isLetter, isMicro, nameEnd, skipBlanks } from './characters';
import { isIsoCode } from './iso-code';
import { nearUnits, nearWords } from './near';
import { numberAt, readNumber } from './number';
import { rightmost } from './refuse-expressions';
import { refuseGroups } from './refuse-numbers';
import { isCurly, refuseQuote } from './refuse-characters';
import { nextSmaller, refuseShorthand } from './refuse-shorthand';
import type { Scanner } from './scanner';
import type { Expression, NameNode, QuantityNode } from './syntax';
import { tailAt } from './unit-tail';

/** Where the two stand: at the end of what kind of line, or between brackets. */
export type Where = 'figure' | 'show' | 'check' | 'reading' | 'used' | 'inside';

/** Words with a place of their own, by the kind of line that has it. */
const LINE_WORDS: Readonly<Record<Where, readonly string[]>> = {
  figure: ['to', 'hole', 'shaft'],
  show: ['to', 'measured', 'final', 'used'],
  check: [],
  reading: ['at'],
  used: [],
  inside: [],
};

/** `left` ends, and at `s.pos` something else begins without an operator between. */
export function refuseNeighbours(s: Scanner, left: Expression, where: Where): null {
  const last = rightmost(left);
  if (last.kind === 'name') return afterName(s, left, last, where);
  if (last.kind !== 'quantity') return sideBySide(s, last, s.pos);
  return numberAt(s.text, s.pos) ? afterQuantity(s, last, where) : wordAfterQuantity(s, left, last, where);
}

/** Marks both sides, up to the bracket when the right one begins with one, and offers the product. */
function sideBySide(s: Scanner, left: Expression, start: number): null {
  const c = s.at(start);
  const end =
    isLetter(c) || isMicro(c)
      ? wordEnd(s, start)
      : numberAt(s.text, start)
        ? quantityEnd(s, start)
        : start + 1;
  const [a, b] = [s.slice(left.start, left.end), s.slice(start, end)];
  const offers = b === '(' ? [`${a}(`, `${a} * (`] : [`${a} * ${b}`];
  return s.refuse('side-by-side', left.start, end, {
    written: s.slice(left.start, end),
    offers,
  });
}

/** Where a word ends: with its brackets' opening, when it is a formula. */
function wordEnd(s: Scanner, start: number): number {
  return nameEnd(s.text, isMicro(s.at(start)) ? start + 1 : start);
}

/** Where the number at `start` ends, with its unit. */
function quantityEnd(s: Scanner, start: number): number {
  const end = readNumber(s.text, start);
  const at = skipBlanks(s.text, end);
  const tail = tailAt(s.text, at);
  return tail === null ? end : at + tail.length;
}

function afterQuantity(s: Scanner, left: QuantityNode, where: Where): null {
  if (refuseGroups(s, left.start)) return null;
  const deviation = /^(\d*\.?\d+)[^/\d]*\/\s*[-+−]/.exec(s.slice(s.pos, s.end));
  if (deviation && where === 'figure') {
    const [, written = ''] = deviation;
    const offers = [`+${written}`, `-${written}`];
    return s.refuse('limit-without-sign', s.pos, s.pos + written.length, { written, offers });
  }
  const mark = skipBlanks(s.text, readNumber(s.text, s.pos));
  if (isCurly(s.text.charAt(mark)) || s.text.charAt(mark) === "'")
    return refuseQuote(s, mark, s.text.charAt(mark) !== "'");
  const end = quantityEnd(s, s.pos);
  const [a, b] = [s.slice(left.start, left.end), s.slice(s.pos, end)];
  const written = s.slice(left.start, end);
  if (a.endsWith('°') && isDigit(s.at(end - 1))) {
    return s.refuse('minutes-without-mark', left.start, end, {
      written,
      offers: [`${a}${b}′`, `${a} + ${b}°`],
    });
  }
  const seconds = /^(\d+(?:\.\d+)?)\s*[″"]$/.exec(b);
  if (a.endsWith('°') && seconds) {
    return s.refuse('minutes-without-mark', left.start, end, {
      written,
      offers: [`${a}0′${seconds[1] ?? ''}″`, `${a}${seconds[1] ?? ''}′`],
    });
  }
  const offers: string[] = [];
  const right = tailAt(s.text, skipBlanks(s.text, readNumber(s.text, s.pos)));
  const smaller = right === null ? nextSmaller(left) : undefined;
  if (smaller !== undefined) offers.push(`${a} ${b} ${smaller}`);
  if (right !== null) offers.push(`${b} ${a}`);
  else offers.push(`${a}.${b}`);
  offers.push(`${a}, ${b}`);
  // Nobody means thirty times an hour by `1 h 30`.
  if (smaller === undefined) offers.push(`${a} * ${b}`);
  return s.refuse('side-by-side', left.start, end, { written, offers });
}

/** Sizes with a shop's name of their own, which is not the same size in every shop. */
const SIZE_WORDS = new Map<string, readonly (readonly [unit: string, times: number])[]>([
  [
    'tenth',
    [
      ['mm', 0.1],
      ['in', 0.0001],
      ['in', 0.001],
    ],
  ],
  [
    'tenths',
    [
      ['mm', 0.1],
      ['in', 0.0001],
      ['in', 0.001],
    ],
  ],
  [
    'mil',
    [
      ['thou', 1],
      ['mm', 1],
    ],
  ],
  [
    'mils',
    [
      ['thou', 1],
      ['mm', 1],
    ],
  ],
  [
    'hundredth',
    [
      ['mm', 0.01],
      ['in', 0.01],
    ],
  ],
  [
    'hundredths',
    [
      ['mm', 0.01],
      ['in', 0.01],
    ],
  ],
]);

/** The scales as they are said and written without their sign. */
const DEGREES: ReadonlyMap<string, string> = new Map([
  ['C', '°C'],
  ['Celsius', '°C'],
  ['celsius', '°C'],
  ['F', '°F'],
  ['Fahrenheit', '°F'],
  ['fahrenheit', '°F'],
]);

/** `20 C`, `20 ° C`: a temperature, or `C` is a figure. */
function refuseDegrees(s: Scanner, last: QuantityNode, word: string, end: number): boolean {
  const degrees = DEGREES.get(word);
  if (degrees === undefined || (last.unit !== ONE && last.unit.symbol !== 'deg')) return false;
  const number = s.slice(last.start, readNumber(s.text, last.start));
  const product = last.unit === ONE ? [`${number} * ${word}`] : [];
  s.refuse('unit-unknown', last.start, end, {
    written: s.slice(skipBlanks(s.text, last.start + number.length), end),
    offers: [`${number} ${degrees}`, ...product],
  });
  return true;
}

function wordAfterQuantity(s: Scanner, left: Expression, last: QuantityNode, where: Where): null {
  const start = s.pos;
  const end = wordEnd(s, start);
  const word = s.slice(start, end);
  const number = s.slice(last.start, last.end);
  if (refuseDegrees(s, last, word, end) || refuseShorthand(s, left, last, word, where)) return null;
  if (last.unit !== ONE) {
    if (unitNamed(word)) return unitAfterUnit(s, last, start, end);
    const near = nearWords(word, LINE_WORDS[where]);
    if (near.length > 0) return s.refuse('word-unknown', start, end, { written: word, offers: near });
    if (isIsoCode(word)) return codeInWrongPlace(s, left, last, start, end, where);
    return misplacedWord(s, word, start, end) ? null : sideBySide(s, last, start);
  }
  const factor = skipBlanks(s.text, end);
  if ((word === 'x' || word === 'X') && numberAt(s.text, factor)) {
    const stop = quantityEnd(s, factor);
    const offers = [`${number} * ${s.slice(factor, stop)}`];
    return s.refuse('side-by-side', last.start, stop, { written: s.slice(last.start, stop), offers });
  }
  const written = s.slice(last.start, end);
  const sizes = SIZE_WORDS.get(word);
  if (sizes) {
    const amount = last.value;
    const offers = sizes.map(([unit, times]) => `${Number((amount * times).toPrecision(12))} ${unit}`);
    return s.refuse('size-word', last.start, end, { written, word, offers });
  }
  // `5 min(2, 3)`: a unit and a formula share the name, and a bracket tells them apart.
  if (s.at(end) === 0x28) return sideBySide(s, last, start);
  if (unitNamed(word))
    return s.refuse('unit-power', start, Math.max(end, powerEnd(s, end)), { written: word, offers: [word] });
  if (misplacedWord(s, word, start, end)) return null;
  const power = /^([\p{L}]+)([23])$/u.exec(word);
  if (power && unitNamed(power[1] ?? ''))
    return s.refuse('unit-unknown', start, end, {
      written: word,
      offers: [`${power[1] ?? ''}^${power[2] ?? ''}`],
    });
  if (isIsoCode(word) && where === 'figure') return codeInWrongPlace(s, left, last, start, end, where);
  const near = nearUnits(word).map((unit) => `${number} ${unit}`);
  if (word.length < 2 || near.length === 0) return sideBySide(s, last, start);
  return s.refuse('unit-unknown', last.start, end, {
    written: word,
    offers: [...near, `${number} * ${word}`],
  });
}

function powerEnd(s: Scanner, at: number): number {
  return at + (/^\^[-−]?\d*/.exec(s.slice(at, s.end))?.[0] ?? '').length;
}

/** `5 in mm`: one of the two is meant to be shown. */
function unitAfterUnit(s: Scanner, last: QuantityNode, start: number, end: number): null {
  const [a, b] = [s.slice(last.start, last.end), s.slice(start, end)];
  const number = s.slice(last.start, readNumber(s.text, last.start));
  const written = s.slice(last.start, end);
  const offers = [`${a} to ${b}`, `${number} ${b}`, `${a}*${b}`];
  return s.refuse('unit-after-unit', last.start, end, { written, offers });
}

const PLACED = ['to', 'hole', 'shaft', 'at', 'measured', 'final', 'used'];

/** A word of the notation where it has no place: `(30 mm to in)`, `30 mm hole` in a check. */
function misplacedWord(s: Scanner, word: string, start: number, end: number): boolean {
  if (!PLACED.includes(word)) return false;
  const rest = /^\s*[^\s,()[\]]+/.exec(s.slice(end, s.end))?.[0] ?? '';
  const last = word === 'to' || word === 'at' ? end + rest.length : end;
  let from = start;
  while (/[\s\u00a0]/.test(s.text.charAt(from - 1))) from--;
  s.refuse('word-misplaced', from, last, { written: word, offers: [''] });
  return true;
}

/** A code such as `h7` where it asks nothing: after no literal length, or in no figure's line. */
function codeInWrongPlace(
  s: Scanner,
  left: Expression,
  last: QuantityNode,
  start: number,
  end: number,
  where: Where,
): null {
  const written = s.slice(start, end);
  if (left === last && where === 'show') {
    const line = `size = ${s.slice(left.start, end)}`;
    return s.refuse('limits-need-name', left.start, end, {
      written: s.slice(left.start, end),
      offers: [line],
    });
  }
  if (left === last && last.unit === ONE) {
    const number = s.slice(last.start, last.end);
    const offers = [`${number} mm ${written}`, `${number} * ${written}`];
    return s.refuse('code-without-size', last.start, end, { written: number, code: written, offers });
  }
  return s.refuse('code-without-size', start, end, {
    written: s.slice(last.start, last.end),
    code: written,
    offers: [],
  });
}

function afterName(s: Scanner, left: Expression, last: NameNode, where: Where): null {
  const start = s.pos;
  const name = s.slice(last.start, last.end);
  if (numberAt(s.text, start)) {
    const end = quantityEnd(s, start);
    const size = s.slice(start, end);
    const written = s.slice(last.start, end);
    if (left === last && where === 'show') {
      const known = MATHEMATICS.has(name) ? [`${name}(${size})`] : [];
      const offers = [...known, `${name} = ${size}`, `${name} measured ${size}`, `${name} * ${size}`];
      return s.refuse('side-by-side', last.start, end, { written, offers });
    }
    return s.refuse('side-by-side', last.start, end, {
      written,
      offers: [`${name}(${size})`, `${name} * ${size}`],
    });
  }
  const end = wordEnd(s, start);
  const word = s.slice(start, end);
  const near = nearWords(word, LINE_WORDS[where]);
  if (near.length > 0) return s.refuse('word-unknown', start, end, { written: word, offers: near });
  if (isIsoCode(word))
    return s.refuse('code-without-size', start, end, { written: name, code: word, offers: [] });
  if (misplacedWord(s, word, start, end)) return null;
  return sideBySide(s, last, start);
}
