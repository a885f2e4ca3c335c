/** Quantities as typed: a number with what stands next to it. `30 mm`, `1 3/8"`, `15°30′`, `3 h 20 min`, `5%`. */
import { type Unit, ONE, toBase } from '../quantity/unit';
import { DEGREE, PERCENT, mayFollow } from '../quantity/units';
import { codeAt, isBlank, isDigit, isLetter, skipBlanks } from './characters';
import { read, readFraction, readNumber } from './number';
import { refuseQuote } from './refuse-characters';
import { refuseFractionLimits } from './refuse-limits';
import {
  refuseBareMixed,
  refuseFractionOverZero,
  refuseImproper,
  refuseParts,
  refuseThread,
  threadAt,
} from './refuse-numbers';
import type { Scanner } from './scanner';
import type { QuantityNode, Word } from './syntax';
import { type Tail, tailAt } from './unit-tail';
import { NO_WORDS, quantityNodeOf } from './used-nodes';

const QUOTE = 0x22;
const PERCENT_SIGN = 0x25;
const APOSTROPHE = 0x27;
const DEGREE_SIGN = 0xb0;
const PRIME = 0x2032;
const DOUBLE_PRIME = 0x2033;

/** Reads the quantity at `s.pos`, where a number must begin. */
export function parseQuantity(s: Scanner): QuantityNode | null {
  const { text, pos: start } = s;
  let end = readNumber(text, start);
  let whole = read.whole;
  if (whole) {
    const last = readFraction(text, start, end);
    if (s.inPair && (read.value === 0 || !Number.isFinite(read.value))) readNumber(text, start);
    else if (last !== -1) {
      const mixed = isBlank(codeAt(text, end));
      if (threadAt(text, last)) return refuseThread(s, start, last);
      if (s.limitsMayFollow && Number.isFinite(read.value) && refuseFractionLimits(s, start, last))
        return null;
      if (unitFollows(s, last) || (s.bareFractions && itemEnds(s, last))) {
        if (!Number.isFinite(read.value)) return refuseFractionOverZero(s, start, last);
        if (read.improper) return refuseImproper(s, start, last);
        s.fraction = start;
        if (mixed && !unitFollows(s, last)) s.bareMixed = start;
        end = last;
        whole = false;
      } else if (mixed) return refuseBareMixed(s, start, last);
      // `3/8` without a unit is a division.
      else readNumber(text, start);
    }
  }
  const amount = read.value;
  const decimals = read.decimals;
  const at = skipBlanks(text, end);
  const c = codeAt(text, at);
  if (c === PERCENT_SIGN) return quantityNode(s, start, at + 1, amount, PERCENT, decimals, NO_WORDS);
  const tail = unitAt(s, at, end);
  if (tail === null) return quantityNode(s, start, end, amount, ONE, decimals, NO_WORDS);
  // `6′` and `12″` without degrees are feet and inches to one reader, and parts of a degree to the other.
  if ((c === PRIME || c === DOUBLE_PRIME) && (!s.inLimits || !Number.isInteger(decimals)))
    return refuseQuote(s, at, false);
  const after = at + tail.length;
  if (isDigit(codeAt(text, skipBlanks(text, after)))) {
    if (c === DEGREE_SIGN && tail.unit === DEGREE) {
      const parts = degrees(s, start, amount, whole, after);
      if (parts !== undefined) return parts;
    } else if (whole) {
      const parts = largerAndSmaller(s, start, amount, tail.unit, after);
      if (parts !== undefined) return parts;
    }
  }
  const free = tail.free.length === 0 ? NO_WORDS : words(tail, at);
  return quantityNode(s, start, after, amount, tail.unit, decimals, free);
}

function quantityNode(
  s: Scanner,
  start: number,
  end: number,
  amount: number,
  unit: Unit,
  decimals: number | null,
  tail: readonly Word[],
): QuantityNode | null {
  s.pos = end;
  s.amount = amount;
  const exact = toBase(amount, unit);
  // Three eighths of an inch is 9.525 mm, not 9.524999999999999: what a fraction states has few digits.
  const value = decimals === null ? Number(exact.toPrecision(15)) : exact;
  if (!Number.isFinite(value)) return s.refuse('number-too-large', start, end);
  return quantityNodeOf(start, end, value, unit, decimals, tail);
}

function words(tail: Tail, at: number): readonly Word[] {
  return tail.free.map(({ offset, text }) => ({
    start: at + offset,
    end: at + offset + text.length,
    text,
  }));
}

/** The unit at `at`, for a number that ends at `end`. An inch mark touches its number. */
export function unitAt(s: Scanner, at: number, end: number): Tail | null {
  if (at !== end && s.at(at) === QUOTE) return null;
  return tailAt(s.text, at);
}

function unitFollows(s: Scanner, end: number): boolean {
  const at = skipBlanks(s.text, end);
  return s.at(at) === PERCENT_SIGN || unitAt(s, at, end) !== null;
}

function itemEnds(s: Scanner, end: number): boolean {
  const at = skipBlanks(s.text, end);
  const c = s.at(at);
  return at >= s.end || c === 0x2c || c === 0x5d || isLetter(c);
}

/** `30′20″` after the degrees that end at `after`; undefined when what follows are no minutes. */
function degrees(
  s: Scanner,
  start: number,
  amount: number,
  whole: boolean,
  after: number,
): QuantityNode | null | undefined {
  const minutes = part(s, after, PRIME, APOSTROPHE);
  if (minutes === -1) return undefined;
  const [minuteAmount, wholeMinutes] = [read.value, read.whole];
  let end = minutes;
  let total = amount + minuteAmount / 60;
  let inner = minuteAmount < 60 && whole;
  const seconds = part(s, minutes, DOUBLE_PRIME, QUOTE);
  if (seconds !== -1) {
    inner &&= wholeMinutes && read.value < 60;
    // One division, so that 15°30′36″ is 15.51 and not a hair off.
    total = (amount * 3600 + minuteAmount * 60 + read.value) / 3600;
    end = seconds;
  }
  if (!inner) return refuseParts(s, start, end, total, '°');
  return quantityNode(s, start, end, total, DEGREE, null, NO_WORDS);
}

/** Where the number and its mark after `from` end; -1 when there is none. `read` holds the number. */
function part(s: Scanner, from: number, mark: number, typed: number): number {
  const at = skipBlanks(s.text, from);
  if (!isDigit(s.at(at))) return -1;
  const end = readNumber(s.text, at);
  const c = s.at(end);
  return c === mark || c === typed ? end + 1 : -1;
}

/** `20 min` after `3 h`; undefined when what follows is no smaller unit of the kind. */
function largerAndSmaller(
  s: Scanner,
  start: number,
  amount: number,
  unit: Unit,
  after: number,
): QuantityNode | null | undefined {
  let larger = unit;
  let total = toBase(amount, unit);
  let whole = true;
  let inner = true;
  let end = after;
  for (;;) {
    const at = skipBlanks(s.text, end);
    const named = larger.parts[0];
    if (!isDigit(s.at(at)) || !whole || larger.parts.length !== 1 || named?.exponent !== 1) break;
    let last = readNumber(s.text, at);
    whole = read.whole;
    const fraction = whole ? readFraction(s.text, at, last) : -1;
    if (fraction !== -1) [last, whole] = [fraction, false];
    const unitStart = skipBlanks(s.text, last);
    const tail = unitAt(s, unitStart, last);
    const smaller = tail?.unit.parts[0];
    if (!tail || !smaller || tail.unit.parts.length !== 1 || smaller.exponent !== 1) break;
    if (!mayFollow(named.unit, smaller.unit)) break;
    inner &&= read.value * tail.unit.factor < larger.factor;
    total += toBase(read.value, tail.unit);
    larger = tail.unit;
    end = unitStart + tail.length;
  }
  if (end === after) return undefined;
  if (!inner) return refuseParts(s, start, end, total / larger.factor, larger.symbol);
  s.pos = end;
  // Shown in the smaller unit, in which it is a round number.
  return { kind: 'quantity', start, end, value: total, unit: larger, decimals: null, tail: NO_WORDS };
}
