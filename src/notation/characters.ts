/** What a character can be part of. Codes are UTF-16 units; past the end of a line there is nothing. */

/** What `codeAt` answers past the end. */
const NOTHING = -1;

/** The UTF-16 unit at `pos`. Strings answer past their end too, but asking them there makes all their answers slow. */
export function codeAt(text: string, pos: number): number {
  return pos < text.length ? text.charCodeAt(pos) : NOTHING;
}

export function isDigit(c: number): boolean {
  return c >= 0x30 && c <= 0x39;
}

/** Blanks of a keyboard and of a word processor, the one that does not break (`30 mm`) among them. */
export function isBlank(c: number): boolean {
  return c === 0x20 || c === 0x09 || (c > 0x7f && isWideBlank(c));
}

function isWideBlank(c: number): boolean {
  return c === 0xa0 || (c >= 0x2000 && c <= 0x200a) || c === 0x202f || c === 0x205f || c === 0x3000;
}

/** A letter or `_`: a name begins with one. */
export function isLetter(c: number): boolean {
  return (
    (c >= 0x61 && c <= 0x7a) || (c >= 0x41 && c <= 0x5a) || c === 0x5f || (c > 0x7f && isForeignLetter(c))
  );
}

export function isNamePart(c: number): boolean {
  return isLetter(c) || isDigit(c);
}

/** Greek letters that a drawing uses and that look like no Latin one. The micro sign begins a unit only, and π is `pi`. */
const GREEK = new Set([...'αβγδεζηθλξστφχψωΓΔΘΛΞΠΣΦΨΩ'].map((letter) => letter.charCodeAt(0)));

/**
 * Letters past the basic alphabet that a name may hold: Latin ones with marks, and Greek ones of their own shape.
 * `Ø` and `ø` are the diameter sign. Letters of other alphabets that look like Latin ones are refused, since two
 * names could look the same and be different.
 */
function isForeignLetter(c: number): boolean {
  if (c < 0xc0) return false;
  if (c <= 0x17f) return c !== 0xd7 && c !== 0xf7 && c !== 0xd8 && c !== 0xf8;
  return GREEK.has(c);
}

/** The diameter sign as typed: read before a number or a name, and without effect. */
export function isDiameterSign(c: number): boolean {
  return c === 0xd8 || c === 0xf8 || c === 0x2300;
}

/** The micro sign and the Greek letter that looks the same. */
export function isMicro(c: number): boolean {
  return c === 0xb5 || c === 0x3bc;
}

export const isTimes = (c: number): boolean => c === 0x2a || c === 0xd7 || c === 0xb7 || c === 0x22c5;
export const isDivide = (c: number): boolean => c === 0x2f || c === 0xf7;
export const isMinus = (c: number): boolean => c === 0x2d || c === 0x2212;

/** Where the name that begins at `pos` ends; `pos` itself when none does. */
export function nameEnd(text: string, pos: number): number {
  if (!isLetter(codeAt(text, pos))) return pos;
  do pos++;
  while (isNamePart(codeAt(text, pos)));
  return pos;
}

export function skipBlanks(text: string, pos: number): number {
  while (isBlank(codeAt(text, pos))) pos++;
  return pos;
}

export function skipDigits(text: string, pos: number): number {
  while (isDigit(codeAt(text, pos))) pos++;
  return pos;
}
