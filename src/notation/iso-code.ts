/** ISO 286 codes as written: one or two letters and a grade of one or two digits, `h7`, `JS6`, `za11`. */
import { isDigit, isLetter } from './characters';

/** True for anything of the form of a code, so that one that does not exist is told from a slip of another kind. */
export function looksLikeCode(text: string, start: number, end: number): boolean {
  let digits = start;
  while (digits < end && isLetter(text.charCodeAt(digits)) && text.charCodeAt(digits) < 128) digits++;
  const letters = digits - start;
  const grade = end - digits;
  if (letters < 1 || letters > 2 || grade < 1 || grade > 2) return false;
  return isDigit(text.charCodeAt(digits)) && isDigit(text.charCodeAt(end - 1));
}

/** Fundamental deviations of ISO 286-1, and its highest grade. */
const DEVIATIONS = new Set('a b c cd d e ef f fg g h j js k m n p r s t u v x y z za zb zc'.split(' '));
const HIGHEST_GRADE = 18;

/** True for a code that the standard has. */
export function isIsoCode(text: string, start: number, end: number): boolean {
  if (!looksLikeCode(text, start, end)) return false;
  const [, letters = '', grade = ''] = /^(\D+)(\d+)$/.exec(text.slice(start, end)) ?? [];
  const oneCase = letters === letters.toLowerCase() || letters === letters.toUpperCase();
  return (
    oneCase &&
    DEVIATIONS.has(letters.toLowerCase()) &&
    (grade === '01' || String(Number(grade)) === grade) &&
    Number(grade) <= HIGHEST_GRADE
  );
}
