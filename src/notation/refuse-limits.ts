/** Refusals of limits that do not say enough, or say two things. */
import { type Unit, ONE, fromBase } from '../quantity/unit';
import { isBlank, isMinus, nameEnd, skipBlanks } from './characters';
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

/** `± -0.05`: the sign says it already. */
export function refuseSignedLimit(s: Scanner, start: number): null {
  const rest = /^[-−+]\s*/.exec(s.slice(s.pos, s.end))?.[0] ?? '';
  const end = s.pos + rest.length;
  return s.refuse('limit-with-sign', start, end, { written: s.slice(start, end), offers: ['± '] });
}

/** What a size or a figure ends with, in front of its limits. */
const END_OF_SIZE = /[\p{L}\p{N}_)\]}"'°′″%]/u;
/** `in/-1/32 in`, `/0`, after the fraction of the first: the units where there are any, and the second of the two. */
const SECOND = new RegExp(
  String.raw`\s*(?:(?<unit>"|°|\p{L}+)\s*)?\/\s*` +
    String.raw`(?:(?<sign>[-+−])\s*(?<number>(?:\d+\s+)?\d+\/0*[1-9]\d*|\d*\.?\d+)|(?<zero>0(?:\.0+)?))(?![\d./])` +
    String.raw`(?:\s*(?<last>"|°|(?!hole\b|shaft\b|to\b)\p{L}+))?`,
  'uy',
);

/**
 * `1 in +1/16 in/-1/32 in`: the fraction from `start` to `end` is the first of two limits, which reads as a division. False
 * where it is not.
 */
export function refuseFractionLimits(s: Scanner, start: number, end: number): boolean {
  const { text } = s;
  const sign = lastBefore(text, start);
  const before = text.charAt(lastBefore(text, sign));
  if ((text[sign] !== '+' && !isMinus(s.at(sign))) || !END_OF_SIZE.test(before)) return false;
  SECOND.lastIndex = end;
  const { unit = '', sign: other = '', number, zero, last } = SECOND.exec(text)?.groups ?? {};
  if (number === undefined && zero === undefined) return false;
  const limit = (of: string, amount: string, unit: string): string =>
    of + decimal(amount) + (unit === '"' || unit === '°' || unit === '' ? unit : ` ${unit}`);
  const first = limit(s.slice(sign, sign + 1), s.slice(start, end), unit);
  const second = number === undefined ? limit('', '0', last ?? '') : limit(other, number, last ?? unit);
  const written = s.slice(sign, SECOND.lastIndex);
  s.refuse('limits-in-fractions', sign, SECOND.lastIndex, { written, offers: [`${first}/${second}`] });
  return true;
}

/** Where the last character before a place stands that is no blank. */
function lastBefore(text: string, pos: number): number {
  let at = pos - 1;
  while (at >= 0 && isBlank(text.charCodeAt(at))) at--;
  return at;
}

/** `1/32`, `1 1/32` and `0.5` as decimals. */
function decimal(amount: string): string {
  const [, whole = '0', above = '0', below = '1'] = /^(?:(\d+)\s+)?(\d+)\/(\d+)$/.exec(amount) ?? [];
  return amount.includes('/') ? short(Number(whole) + Number(above) / Number(below)) : amount;
}

/** `30 mm +0.02/0.01`: the second of the two has no sign. */
export function refuseUnsignedLimit(s: Scanner, size: QuantityNode): null {
  const written = s.slice(size.start, size.end);
  const offers = [`-${written}`, `+${written}`];
  return s.refuse('limit-without-sign', size.start, size.end, { written, offers });
}
