/** Asked limits after a figure's expression: `± 0.05`, `+0.02/-0.01 mm`, `h7`, `.. 12.45 mm`, and `hole` or `shaft`. */
import { type Unit, ONE, toBase } from '../quantity/unit';
import { KELVIN, PERCENT } from '../quantity/units';
import { codeAt, isMinus, nameEnd, skipBlanks } from './characters';
import { looksLikeCode } from './iso-code';
import { numberAt, read, readNumber } from './number';
import { parseQuantity, unitAt } from './quantity';
import { expectedLimit } from './refuse-limits';
import {
  refuseFit,
  refuseLimitUnit,
  refuseNominalUnit,
  refusePercentLimit,
  refuseRangeUnit,
  refuseSignedLimit,
  refuseUnsignedLimit,
} from './refuse-limits';
import type { Scanner } from './scanner';
import type { Expression, Limits, QuantityNode, Sense, Span } from './syntax';
import { type Filled, deviationsOf, quantityNodeOf } from './used-nodes';

const PLUS_MINUS = 0xb1;
const PLUS = 0x2b;
const SLASH = 0x2f;
const ZERO = 0x30;
const POINT = 0x2e;
const COMMA = 0x2c;

/** The literal whose unit limits without one take: the nominal itself, or the number under its minus. */
export function literalOf(nominal: Expression): QuantityNode | null {
  if (nominal.kind === 'negate') return literalOf(nominal.of);
  return nominal.kind === 'quantity' ? nominal : null;
}

/** True when limits begin at `s.pos` rather than a sum: `+0.02/-0.01`, `+0.05/0`, with or without units. */
export function deviationsFollow(s: Scanner, left: Expression): boolean {
  const { text } = s;
  if (text.indexOf('/', s.pos) === -1) return false;
  let at = skipBlanks(text, s.pos + 1);
  if (!numberAt(text, at)) return false;
  const end = readNumber(text, at);
  const decimal = read.decimals !== 0;
  at = skipBlanks(text, end);
  const tail = unitAt(s, at, end);
  at = skipBlanks(text, at + (tail?.length ?? 0));
  if (codeAt(text, at) !== SLASH) return false;
  at = skipBlanks(text, at + 1);
  if (signedOrZero(text, at)) return true;
  // `30 mm +0.02/0.01`: no sum, since 0.02 has no unit, so a sign is missing.
  return decimal && tail === null && left.kind === 'quantity' && left.unit !== ONE && numberAt(text, at);
}

/** True for `+/-`, which is `±` on a keyboard. */
export function isPlusMinus(s: Scanner, at: number): boolean {
  return s.at(at) === PLUS && s.at(at + 1) === SLASH && isMinus(s.at(at + 2));
}

function signedOrZero(text: string, at: number): boolean {
  const c = codeAt(text, at);
  if (c === PLUS || isMinus(c)) return numberAt(text, skipBlanks(text, at + 1));
  if (c !== ZERO) return false;
  readNumber(text, at);
  return read.value === 0;
}

/** Limits at `s.pos`; null when there are none, or when they are refused (then `s.finding` is set). */
export function parseLimits(s: Scanner, nominal: Expression): Limits | null {
  const c = s.next();
  const start = s.pos;
  if (c === PLUS_MINUS || isPlusMinus(s, start)) {
    s.pos += c === PLUS_MINUS ? 1 : 3;
    return plusMinus(s, nominal, start);
  }
  if (c === PLUS || isMinus(c) || (c === ZERO && s.at(skipBlanks(s.text, start + 1)) === SLASH))
    return deviations(s, nominal, start);
  if (c === POINT && s.at(start + 1) === POINT && s.at(start + 2) !== POINT) return range(s, nominal, start);
  if (nominal.kind === 'quantity') return code(s, nominal, start);
  return null;
}

function plusMinus(s: Scanner, nominal: Expression, start: number): Limits | null {
  const c = s.next();
  if (c === PLUS || isMinus(c)) return refuseSignedLimit(s, start);
  const upper = deviation(s, nominal, start, false);
  if (upper === null) return null;
  const size = upper.unit === ONE ? takeUnit(s, nominal, upper, upper) : upper;
  if (size === null || !fitsNominal(s, nominal, size)) return null;
  const difference = asDifference(size);
  const { value, unit, decimals, tail } = difference;
  const lower = quantityNodeOf(difference.start, difference.end, -value, unit, decimals, tail);
  return deviationsOf(start, size.end, difference, lower);
}

function deviations(s: Scanner, nominal: Expression, start: number): Limits | null {
  s.inPair = true;
  const first = signed(s, nominal, start);
  if (first === null || s.next() !== SLASH) return null;
  s.pos++;
  const second = signed(s, nominal, start);
  s.inPair = false;
  if (second === null) return null;
  let [a, b] = [first, second];
  if (a.unit === ONE && b.unit !== ONE) a = inUnit(a, b.unit);
  else if (b.unit === ONE && a.unit !== ONE && b.value === 0) b = inUnit(b, a.unit);
  else if (b.unit === ONE && a.unit !== ONE) return refuseLimitUnit(s, start, second.end, a.unit);
  else if (a.unit === ONE) {
    const both = { start, end: second.end };
    const [x, y] = [takeUnit(s, nominal, a, both), takeUnit(s, nominal, b, both)];
    if (x === null || y === null) return null;
    [a, b] = [x, y];
  }
  if (!fitsNominal(s, nominal, a)) return null;
  const [upper, lower] =
    a.value >= b.value ? [asDifference(a), asDifference(b)] : [asDifference(b), asDifference(a)];
  return deviationsOf(start, second.end, upper, lower);
}

function signed(s: Scanner, nominal: Expression, limits: number): QuantityNode | null {
  const c = s.next();
  const start = s.pos;
  if (c !== PLUS && !isMinus(c)) {
    const size = deviation(s, nominal, limits, false);
    return size === null || size.value === 0 ? size : refuseUnsignedLimit(s, size);
  }
  s.pos++;
  return deviation(s, nominal, limits, isMinus(c), start);
}

/** One number of a limit, with its sign at `from`. That of a temperature is a difference: its value is in kelvin. */
function deviation(
  s: Scanner,
  nominal: Expression,
  limits: number,
  below: boolean,
  from = -1,
): QuantityNode | null {
  s.next();
  if (!numberAt(s.text, s.pos)) return expectedLimit(s);
  s.bareFractions = s.inLimits = true;
  const size = parseQuantity(s);
  s.bareFractions = s.inLimits = false;
  if (size === null) return null;
  if (size.unit === PERCENT) return refusePercentLimit(s, nominal, limits, size);
  const value = size.unit.dimension.point ? s.amount * size.unit.factor : size.value;
  const start = from === -1 ? size.start : from;
  const signed = below ? -value + 0 : value;
  return withSign(size, start, signed);
}

/** A limit without a unit takes that of a literal nominal, when that has one only. `limits` are refused if it has more. */
function takeUnit(s: Scanner, nominal: Expression, size: QuantityNode, limits: Span): QuantityNode | null {
  const literal = literalOf(nominal);
  if (literal === null) return size;
  if (literal.decimals === null && hasSeveralUnits(s.slice(literal.start, literal.end)))
    return refuseLimitUnit(s, limits.start, limits.end, literal.unit);
  return inUnit(size, literal.unit);
}

/** `15°30′`, `6 ft 2 in`: a number, a unit and another number. */
function hasSeveralUnits(written: string): boolean {
  return /[°'′a-z]\s*\d/i.test(written);
}

/** A size that nobody else has seen yet: what is put to it is put into it. */
type FreshSize = Filled<QuantityNode>;

function withSign(size: FreshSize, start: number, value: number): QuantityNode {
  size.start = start;
  size.value = value;
  return size;
}

function inUnit(size: FreshSize, unit: Unit): QuantityNode {
  size.value *= unit.factor;
  size.unit = unit;
  return size;
}

/** A difference of temperatures is told in kelvin, not on a scale. */
function asDifference(size: QuantityNode): QuantityNode {
  return size.unit.dimension.point ? { ...size, unit: KELVIN } : size;
}

/** `30 ± 0.05 mm`: a bare nominal with limits that have a unit is refused, with the unit put to it. */
function fitsNominal(s: Scanner, nominal: Expression, size: QuantityNode): boolean {
  const literal = literalOf(nominal);
  if (literal === null || literal.unit !== ONE || size.unit === ONE) return true;
  refuseNominalUnit(s, nominal, size);
  return false;
}

function range(s: Scanner, nominal: Expression, start: number): Limits | null {
  s.pos += 2;
  const c = s.next();
  const from = s.pos;
  if (isMinus(c)) s.pos = skipBlanks(s.text, from + 1);
  if (!numberAt(s.text, s.pos)) return expectedLimit(s);
  s.bareFractions = s.inLimits = true;
  const size = parseQuantity(s);
  s.bareFractions = s.inLimits = false;
  if (size === null) return null;
  const to = isMinus(c) ? withSign(size, from, toBase(-s.amount, size.unit)) : size;
  const literal = literalOf(nominal);
  // Before a comma the unit may still follow: `.. 12,5 mm` is refused for its comma.
  if (literal !== null && (literal.unit === ONE) !== (to.unit === ONE) && s.at(s.pos) !== COMMA)
    return refuseRangeUnit(s, nominal, literal.unit, to);
  return { kind: 'range', start, end: to.end, to };
}

function code(s: Scanner, nominal: QuantityNode, start: number): Limits | null {
  const end = nameEnd(s.text, start);
  if (nominal.unit === ONE || !looksLikeCode(s.slice(start, end))) return null;
  s.pos = end;
  const after = skipBlanks(s.text, end);
  if (s.at(after) === SLASH) return refuseFit(s, nominal, start, after);
  return { kind: 'code', start, end, code: s.slice(start, end) };
}

/** `hole` or `shaft` at `s.pos`; null when neither is there. */
export function parseSense(s: Scanner): Sense | null {
  s.next();
  const start = s.pos;
  const end = nameEnd(s.text, start);
  const word = s.slice(start, end);
  if (word !== 'hole' && word !== 'shaft') return null;
  s.pos = end;
  return word;
}
