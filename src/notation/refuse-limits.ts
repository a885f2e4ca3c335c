/** Refusals of limits that do not say enough, or say two things. */
import { LENGTH } from '../quantity/dimension';
import { type Unit, ONE, fromBase } from '../quantity/unit';
import { nameEnd, skipBlanks } from './characters';
import { refuseOdd } from './refuse-characters';
import type { Scanner } from './scanner';
import type { Expression, QuantityNode } from './syntax';

const DIGITS = 12;

/** `30 mm ±`, `30 mm +0.02/`: nothing that could be a limit follows. */
export function expectedLimit(s: Scanner): null {
  const pos = Math.min(s.pos, s.end);
  if (refuseOdd(s, pos)) return null;
  const start = pos < s.end ? pos : s.end - 1;
  return s.refuse('limit-unfinished', start, Math.max(start + 1, pos), { offers: [] });
}

/** `25 mm H7/g6`: a fit is two sizes, which the formula compares. */
export function refuseFit(s: Scanner, nominal: QuantityNode, start: number, slash: number): null {
  const from = skipBlanks(s.text, slash + 1);
  const end = Math.min(nameEnd(s.text, from), s.end);
  const size = s.slice(nominal.start, nominal.end);
  const [hole, shaft] = [s.slice(start, nameEnd(s.text, start)), s.slice(from, end)];
  const offers =
    shaft === ''
      ? [`${size} ${hole}`]
      : [`fit(${size}, ${hole}, ${shaft})`, `${size} ${hole}`, `${size} ${shaft}`];
  return s.refuse('fit-not-a-size', nominal.start, end, { written: s.slice(nominal.start, end), offers });
}

/** `15°30′ ± 5`, `+0.02 mm/-0.01`: which unit the limit has is not said. */
export function refuseLimitUnit(s: Scanner, start: number, end: number, unit: Unit): null {
  const written = s.slice(start, end);
  const symbols = unit.symbol === 'deg' ? ['°', '′'] : [` ${unit.symbol}`];
  return s.refuse('limit-unit-missing', start, end, {
    written,
    offers: symbols.map((symbol) => written + symbol),
  });
}

/** `30 ± 0.05 mm`: the size itself has no unit. */
export function refuseNominalUnit(s: Scanner, nominal: Expression, size: QuantityNode): null {
  const written = s.slice(nominal.start, nominal.end);
  const offers = [`${written} ${size.unit.symbol}`];
  return s.refuse('nominal-unit-missing', nominal.start, nominal.end, { written, offers });
}

/** `30 mm ± 1%`: of the size, or of the limits? A drawing says it in the size's own unit. */
export function refusePercentLimit(s: Scanner, nominal: Expression, start: number, size: QuantityNode): null {
  const end = size.end;
  const data = { written: s.slice(start, end) };
  const plusMinus = /^(±|\+\/[-−])/.exec(s.slice(start, end));
  if (nominal.kind !== 'quantity' || !plusMinus)
    return s.refuse('limit-percent', start, end, { ...data, offers: [] });
  if (nominal.unit.symbol === '%') return refusePercentOfPercent(s, nominal, start, size);
  const part = Math.abs(fromBase(nominal.value, nominal.unit) * size.value);
  const symbol = nominal.unit.symbol === '' ? '' : ` ${nominal.unit.symbol}`;
  const offers = nominal.unit.offset === 0 ? [`± ${short(part)}${symbol}`] : [];
  return s.refuse('limit-percent', start, end, { ...data, offers });
}

function refusePercentOfPercent(s: Scanner, nominal: QuantityNode, start: number, size: QuantityNode): null {
  const [middle, points] = [nominal.value * 100, size.value * 100];
  const between = (half: number): string => `${short(middle - half)}% .. ${short(middle + half)}%`;
  const offers = [between(points), between(middle * size.value)];
  return s.refuse('limit-percent', nominal.start, size.end, { written: s.slice(start, size.end), offers });
}

function short(n: number): string {
  return `${Number(n.toPrecision(DIGITS))}`;
}

/** `12.40 .. 12.45 mm`: the unit stands at one end only. */
export function refuseRangeUnit(s: Scanner, nominal: Expression, unit: Unit, to: QuantityNode): null {
  const [first, last] = [s.slice(nominal.start, nominal.end), s.slice(to.start, to.end)];
  const offers =
    to.unit === ONE ? [`${first} .. ${last} ${unit.symbol}`] : [`${first} ${to.unit.symbol} .. ${last}`];
  return s.refuse('range-unit-missing', nominal.start, to.end, {
    written: s.slice(nominal.start, to.end),
    offers,
  });
}

/** How far the ends of a size's limits are apart at most, in parts of the size. */
const CLOSE = 0.05;

/** `1.3740/1.3750 in` as a whole figure: limits as many drawings write them, and a division to arithmetic. */
export function refuseQuotientOfLimits(s: Scanner, e: Expression): boolean {
  if (e.kind !== 'binary' || e.operator !== '/') return false;
  const { left, right } = e;
  if (left.kind !== 'quantity' || right.kind !== 'quantity' || !left.decimals || !right.decimals)
    return false;
  if (left.unit !== ONE || right.unit.dimension !== LENGTH) return false;
  // What was read last is the right one, whose number is wanted as it is written.
  const [a, b] = [left.value, s.amount];
  if (a === b || Math.abs(a - b) > CLOSE * b) return false;
  const [first, last] = [s.slice(left.start, left.end), s.slice(right.start, right.end)];
  const sized = `${first} ${right.unit.symbol}`;
  const offers = [a < b ? `${sized} .. ${last}` : `${last} .. ${sized}`, `${first} / (${last})`];
  s.refuse('limits-or-quotient', e.start, e.end, { written: s.slice(e.start, e.end), offers });
  return true;
}

/** `± -0.05`: the sign says it already. */
export function refuseSignedLimit(s: Scanner, start: number): null {
  const rest = /^[-−+]\s*/.exec(s.slice(s.pos, s.end))?.[0] ?? '';
  const end = s.pos + rest.length;
  return s.refuse('limit-with-sign', start, end, { written: s.slice(start, end), offers: ['± '] });
}

/** Nobody leaves more blanks about a sign; a line full of fractions is not to be looked through again for each. */
const NEAR = 20;
/** The sign of a limit, after what a size or a figure ends with. */
const FIRST = /[\p{L}\p{N}_)\]"'°′″%]\s*[-+−]$/u;
/** `in/-1/32 in`, `/0`: behind the number of the first its unit, and the second with sign, number and unit. */
const SECOND =
  /\s*(?:("|°|\p{L}+)\s*)?\/\s*(?:([-+−])\s*((?:\d+\s+)?\d+\/0*[1-9]\d*|\d+(?:\.\d+)?|\.\d+)|0(?:\.0+)?)(?![\d./])(?:\s*("|°|(?!hole\b|shaft\b|to\b)\p{L}+))?/uy;

/**
 * `1 in +1/16 in/-1/32 in`: the fraction from `start` to `end` is the first of two limits, which reads as a division. False
 * where it is not.
 */
export function refuseFractionLimits(s: Scanner, start: number, end: number): boolean {
  const from = Math.max(0, start - NEAR);
  const before = s.slice(from, start).trimEnd();
  SECOND.lastIndex = end;
  const found = FIRST.test(before) ? SECOND.exec(s.text) : null;
  if (!found) return false;
  const sign = from + before.length - 1;
  const [, unit = '', other = '', number = '0', last = ''] = found;
  const offer = `${s.text.charAt(sign)}${limit(s.slice(start, end), unit)}/${other}${limit(number, last || (other && unit))}`;
  const written = s.slice(sign, SECOND.lastIndex);
  s.refuse('limits-in-fractions', sign, SECOND.lastIndex, { written, offers: [offer] });
  return true;
}

/** `1/32`, `1 1/32` and `0.5` as decimals, with their unit. */
function limit(amount: string, unit: string): string {
  const [below = 1, above = 0, whole = 0] = amount
    .split(/[\s/]+/)
    .map(Number)
    .reverse();
  const decimal = amount.includes('/') ? short(whole + above / below) : amount;
  return decimal + (/\p{L}/u.test(unit) ? ` ${unit}` : unit);
}

/** `30 mm +0.02/0.01`: the second of the two has no sign. */
export function refuseUnsignedLimit(s: Scanner, size: QuantityNode): null {
  const written = s.slice(size.start, size.end);
  const offers = [`-${written}`, `+${written}`];
  return s.refuse('limit-without-sign', size.start, size.end, { written, offers });
}
