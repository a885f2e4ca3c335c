/** Refusals of numbers that could be read two ways, with what they most likely mean. */
import { isDigit, isNamePart, skipBlanks, skipDigits } from './characters';
import type { Scanner } from './scanner';

const HYPHEN = 0x2d;

/** True when `3/8` from `start` to `end` goes on like a thread: `-16`. */
export function threadAt(text: string, start: number, end: number): boolean {
  if (text.charCodeAt(end) !== HYPHEN || !isDigit(text.charCodeAt(end + 1))) return false;
  const last = skipDigits(text, end + 1);
  const pitch = Number(text.slice(end + 1, last));
  if (text.charCodeAt(last) === 0x2e || isNamePart(text.charCodeAt(last))) return false;
  const over = Number(text.slice(text.lastIndexOf('/', end) + 1, end));
  return start < end && pitch >= 4 && pitch <= 80 && [2, 4, 8, 16, 32, 64].includes(over);
}

export function refuseThread(s: Scanner, start: number, end: number): null {
  const last = skipDigits(s.text, end + 1);
  const fraction = s.slice(start, end);
  const pitch = s.slice(end + 1, last);
  const offers = [`${fraction}-${pitch} UNC`];
  if (!fraction.includes(' ')) offers.push(`${fraction} - ${pitch}`);
  return s.refuse('thread-or-difference', start, last, { offers });
}

/** `1 3/8` with nothing to say of what. */
export function refuseBareMixed(s: Scanner, start: number, end: number): null {
  const written = s.slice(start, end);
  const slash = written.lastIndexOf('/');
  const blank = skipBlanks(written, skipDigits(written, 0));
  const sum = `(${written.slice(0, skipDigits(written, 0))} + ${written.slice(blank)})`;
  return s.refuse('mixed-number-without-unit', start, end, {
    offers: slash < 0 ? [] : [`${written} in`, sum],
  });
}

/** `15°75′`: a smaller part that makes one of the larger. */
export function refuseLargePart(s: Scanner, start: number, end: number, total: number, unit: string): null {
  const amount = Number(total.toPrecision(12));
  const offers = [unit === '°' ? `${amount}°` : `${amount} ${unit}`];
  return s.refuse('smaller-part-too-large', start, end, { written: s.slice(start, end), offers });
}
