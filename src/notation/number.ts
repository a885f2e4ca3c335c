/** Numbers as typed: `12`, `.5`, `12.50`, `1.2e-5`, `3/8`, `1 3/8`. */
import { codeAt, isBlank, isDigit, isMinus } from './characters';

/** A double holds whole numbers of so many digits and their powers of ten exactly: one over the other is rounded once only. */
const EXACT_DIGITS = 15;
const TENS = Array.from({ length: EXACT_DIGITS + 1 }, (_, i) => Number(`1e${i}`));

/** What `readNumber` read. One object for all, as with the scanner. */
export class NumberRead {
  value = NaN;
  /** Digits after the point; null for a fraction. */
  decimals: number | null = null;
  /** True for digits alone: only these make fractions, and larger parts of `3 h 20 min`. */
  whole = false;
  /** True for `1 11/8`: the fraction of a mixed number is one or more. */
  improper = false;
}

export const read = new NumberRead();

/** True when a number begins at `pos`. */
export function numberAt(text: string, pos: number): boolean {
  const c = codeAt(text, pos);
  return isDigit(c) || (c === 0x2e && isDigit(codeAt(text, pos + 1)));
}

/** Reads the number at `pos` into `read`, without fractions, and answers where it ends. There must be one. */
export function readNumber(text: string, start: number): number {
  let pos = start;
  let mantissa = 0;
  let c = codeAt(text, pos);
  while (c >= 0x30 && c <= 0x39) {
    mantissa = mantissa * 10 + (c - 0x30);
    c = codeAt(text, ++pos);
  }
  let digits = pos - start;
  let decimals = 0;
  read.whole = true;
  if (c === 0x2e && isDigit(codeAt(text, pos + 1))) {
    const point = pos++;
    c = codeAt(text, pos);
    do {
      mantissa = mantissa * 10 + (c - 0x30);
      c = codeAt(text, ++pos);
    } while (c >= 0x30 && c <= 0x39);
    decimals = pos - point - 1;
    digits += decimals;
    read.whole = false;
  }
  if ((c === 0x65 || c === 0x45) && exponentAt(text, pos + 1))
    return readExponent(text, start, pos, decimals);
  read.decimals = decimals;
  if (digits <= EXACT_DIGITS) read.value = mantissa / (TENS[decimals] as number);
  else read.value = Number(text.slice(start, pos));
  return pos;
}

function exponentAt(text: string, pos: number): boolean {
  const c = codeAt(text, pos);
  return isDigit(c) || ((isMinus(c) || c === 0x2b) && isDigit(codeAt(text, pos + 1)));
}

function readExponent(text: string, start: number, e: number, decimals: number): number {
  let pos = e + 2;
  while (isDigit(codeAt(text, pos))) pos++;
  const exponent = Number(text.slice(e + 1, pos).replace('−', '-'));
  read.value = Number(`${text.slice(start, e)}e${exponent}`);
  read.decimals = Math.min(100, Math.max(0, decimals - exponent));
  read.whole = false;
  return pos;
}

/**
 * Reads `3/8` or `1 3/8` at `start`, where a whole number that ends at `end` was read, and answers where it ends; -1
 * when there is no fraction. `read` then holds the sum.
 */
export function readFraction(text: string, start: number, end: number): number {
  let c = codeAt(text, end);
  let whole = 0;
  let top = start;
  let over = end;
  if (isBlank(c)) {
    do c = codeAt(text, ++over);
    while (isBlank(c));
    if (!isDigit(c)) return -1;
    top = over;
    whole = read.value;
    do c = codeAt(text, ++over);
    while (isDigit(c));
  }
  if (c !== 0x2f || !isDigit(codeAt(text, over + 1))) return -1;
  let last = over + 2;
  while (isDigit(codeAt(text, last))) last++;
  c = codeAt(text, last);
  // `3/8.5` and `3/8e2` are no fractions.
  if (c === 0x2e && isDigit(codeAt(text, last + 1))) return -1;
  const above = Number(text.slice(top, over));
  const below = Number(text.slice(over + 1, last));
  read.value = (whole * below + above) / below;
  read.improper = top !== start && above >= below;
  read.decimals = null;
  read.whole = false;
  return last;
}
