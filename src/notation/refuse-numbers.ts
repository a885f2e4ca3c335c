/** Refusals of numbers that could be read two ways, with what they most likely mean. */
import { codeAt, isDigit, isNamePart, skipBlanks, skipDigits } from './characters';
import { isCurly, refuseQuote } from './refuse-characters';
import type { Scanner } from './scanner';

const HYPHEN = 0x2d;
const POINT = 0x2e;
/** Threads to the inch that are cut, and the denominators that inch sizes have. */
const FEWEST_THREADS = 4;
const MOST_THREADS = 80;
const DENOMINATORS = [2, 4, 8, 16, 32, 64];

/** True when the fraction up to `end` goes on like a thread: `3/8-16`. */
export function threadAt(text: string, end: number): boolean {
  if (codeAt(text, end) !== HYPHEN) return false;
  const last = skipDigits(text, end + 1);
  const next = codeAt(text, last);
  if (
    (isNamePart(next) && !text.startsWith('UN', last)) ||
    (next === POINT && isDigit(codeAt(text, last + 1)))
  )
    return false;
  const threads = Number(text.slice(end + 1, last));
  const below = Number(text.slice(text.lastIndexOf('/', end) + 1, end));
  return threads >= FEWEST_THREADS && threads <= MOST_THREADS && DENOMINATORS.includes(below);
}

/** `3/8-16` without the name of its thread: it could be a sum as well. */
export function refuseThread(s: Scanner, start: number, end: number): null {
  const last = skipDigits(s.text, end + 1);
  const [fraction, threads] = [s.slice(start, end), s.slice(end + 1, last)];
  const offers = [`${fraction}-${threads} UNC`, `${fraction}-${threads} UNF`, `${fraction} - ${threads}`];
  return s.refuse('thread-or-difference', start, last, { written: s.slice(start, last), offers });
}

/** `1 3/8` with nothing to say of what. */
export function refuseBareMixed(s: Scanner, start: number, end: number): null {
  const after = skipBlanks(s.text, end);
  if (isCurly(s.text.charAt(after))) return refuseQuote(s, after, true);
  const written = s.slice(start, end);
  const blank = written.search(/\D/);
  const sum = `(${written.slice(0, blank)} + ${written.slice(skipBlanks(written, blank))})`;
  return s.refuse('mixed-number-without-unit', start, end, { written, offers: [`${written} in`, sum] });
}

/** `1/0 in`. */
export function refuseFractionOverZero(s: Scanner, start: number, end: number): null {
  return s.refuse('fraction-over-zero', start, end, { written: s.slice(start, end), offers: [] });
}

/** `1 11/8 in`: more than a whole in the fraction of a mixed number. */
export function refuseImproper(s: Scanner, start: number, end: number): null {
  const written = s.slice(start, end);
  const [, whole = '0', above = '0', below = '1'] = /^(\d+)\D+(\d+)\/(\d+)$/.exec(written) ?? [];
  const [n, d] = [Number(above), Number(below)];
  const ones = Number(whole) + Math.floor(n / d);
  const offers = [n % d === 0 ? `${ones}` : `${ones} ${n % d}/${d}`];
  return s.refuse('parts-do-not-fit', start, end, { written, offers });
}

/** `15°75′`, `3 h 75 min`, `15.5°30′`: a part that makes one of the larger, or a larger that is not whole. */
export function refuseParts(s: Scanner, start: number, end: number, total: number, unit: string): null {
  const amount = `${Number(total.toPrecision(12))}`;
  const offers = [unit === '°' ? `${amount}°` : `${amount} ${unit}`];
  return s.refuse('parts-do-not-fit', start, end, { written: s.slice(start, end), offers });
}

/**
 * `1,5`, `1,234.5`, `70,115,190`: the comma at `pos` stands between two digits. `between` tells what commas separate
 * here: in a list that is the likeliest, in readings a decimal point is.
 */
export function refuseComma(s: Scanner, pos: number, between: 'list' | 'readings' | 'nothing'): null {
  let start = pos;
  while (/[\d.,]/.test(s.text.charAt(start - 1))) start--;
  while (/[.,]/.test(s.text.charAt(start))) start++;
  let end = pos;
  while (/[\d.,]/.test(s.text.charAt(end))) end++;
  while (/[.,]/.test(s.text.charAt(end - 1))) end--;
  const written = s.slice(start, end);
  const grouped = /^\d{1,3}(,\d{3})+(\.\d+)?$/.test(written);
  const offers: string[] = [];
  const separate = written.replaceAll(',', ', ');
  const separates = !(grouped && written.includes('.'));
  if (separates && between === 'list') offers.push(separate);
  offers.push(written.replace(',', '.'));
  if (separates) offers.push(separate);
  if (grouped && !(between !== 'nothing' && written.split(',').length > 2))
    offers.push(written.replaceAll(',', ''));
  // `1.234,5`: points for thousands.
  if (/^\d{1,3}(\.\d{3})+,\d+$/.test(written)) offers.push(written.replaceAll('.', '').replace(',', '.'));
  return s.refuse('comma-between-digits', start, end, { written, offers });
}

/** `1 234`, `1'234`, `1_234`, `1.234.567`: a number in groups; null when what follows `pos` is none. */
export function refuseGroups(s: Scanner, start: number): boolean {
  const found =
    /^\d{1,3}(?:([\s\u00a0\u2009\u202f'’_])\d{3}(?!\d))(?:\1\d{3}(?!\d))*(?:\.\d+)?|^\d+(?:\.\d+){2,}|^\d+(?:_\d+)+/.exec(
      s.slice(start, s.end),
    );
  if (!found) return false;
  const [written] = found;
  const points = written.split('.').length > 2;
  const joined = written.replace(/[\s\u00a0\u2009\u202f'’_]/g, '');
  const offers = points ? (/^\d{1,3}(\.\d{3})+$/.test(joined) ? [joined.replaceAll('.', '')] : []) : [joined];
  s.refuse('digit-groups', start, start + written.length, { written, offers });
  return true;
}
