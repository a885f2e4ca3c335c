/** Refusals inside expressions that read well enough but could be meant another way. */
import { isMinus } from './characters';
import { MAX_DEPTH, type Scanner } from './scanner';
import type { Expression, QuantityNode } from './syntax';

/** `5 mm ^2`: a power after a unit belongs to the unit, but only where it touches it. */
export function refuseCaret(s: Scanner, base: QuantityNode): null {
  const rest = s.slice(s.pos, s.end);
  const found = /^(?:\^\s*)?([-−]?\d+(?:\.\d+)?|[²³]|[\p{L}_][\p{L}\d_]*)/u.exec(rest);
  const written = s.slice(base.start, base.end);
  const power = (found?.[1] ?? '').replace('²', '2').replace('³', '3').replace('−', '-');
  const end = s.pos + (found?.[0].length ?? 1);
  const offers = [`(${written})^${power}`, `${written}^${power}`];
  return s.refuse('power-after-unit', base.start, end, { written: s.slice(base.start, end), offers });
}

export function refuseDepth(s: Scanner): null {
  return s.refuse('too-deep', s.pos, Math.min(s.pos + 1, s.end), { most: MAX_DEPTH, offers: [] });
}

/** `1/2/4 in`, `d / 3/8 in`, `2^3/8 in`: the fraction, or one division after the other? */
export function refuseFractionAfterDivision(s: Scanner, start: number): null {
  const written = s.slice(start, s.pos);
  const slash = written.indexOf('/');
  const offers = [`(${written})`, `${written.slice(0, slash)} / (${written.slice(slash + 1)})`];
  return s.refuse('fraction-after-division', start, s.pos, { written, offers });
}

/** `1-3/8 in`, `1+3/8 in`: a mixed number joined by a sign. False when a whole number does not stand before it. */
export function refuseFractionAfterNumber(
  s: Scanner,
  left: Expression,
  sign: number,
  right: Expression,
): boolean {
  const last = rightmost(left);
  const digits = s.slice(last.start, last.end);
  const touches = last.end === sign && !/\s/.test(s.text.charAt(sign + 1));
  const alone = left === last;
  const fraction = leftmost(right);
  if (!/^\d+$/.test(digits) || (!touches && !alone)) return false;
  if (!/^\d+\//.test(s.slice(fraction.start, fraction.end))) return false;
  const written = s.slice(last.start, fraction.end);
  const size = s.slice(fraction.start, fraction.end);
  const between = isMinus(s.at(sign)) ? '-' : '+';
  const unit = /\d([^\d].*)$/.exec(size.slice(size.lastIndexOf('/')))?.[1] ?? '';
  const offers = [`${digits} ${size}`, `${digits}${unit} ${between} ${size}`];
  s.refuse('mixed-number-with-sign', last.start, fraction.end, { written, offers });
  return true;
}

export function rightmost(e: Expression): Expression {
  if (e.kind === 'binary') return rightmost(e.right);
  return e.kind === 'negate' ? rightmost(e.of) : e;
}

function leftmost(e: Expression): Expression {
  return e.kind === 'binary' ? leftmost(e.left) : e;
}

export function refuseListArithmetic(s: Scanner, left: Expression, right: Expression): null {
  const list = left.kind === 'list' ? left : right;
  return s.refuse('list-arithmetic', list.start, list.end, {
    written: s.slice(list.start, list.end),
    offers: [],
  });
}
