/** ISO 286 codes as written: one or two letters and a grade of one or two digits, `h7`, `JS6`, `za11`. */

const CODE = /^([a-z]{1,2})(\d{1,2})$/i;

/** True for anything of the form of a code, so that one that does not exist is told from a slip of another kind. */
export function looksLikeCode(word: string): boolean {
  return CODE.test(word);
}

/** Fundamental deviations of ISO 286-1, and its highest grade. */
const DEVIATIONS = new Set('a b c cd d e ef f fg g h j js k m n p r s t u v x y z za zb zc'.split(' '));
const HIGHEST_GRADE = 18;

/** True for a code that the standard has. */
export function isIsoCode(word: string): boolean {
  const [, letters = '', grade = ''] = CODE.exec(word) ?? [];
  const oneCase = letters === letters.toLowerCase() || letters === letters.toUpperCase();
  return (
    oneCase &&
    DEVIATIONS.has(letters.toLowerCase()) &&
    (grade === '01' || String(Number(grade)) === grade) &&
    Number(grade) <= HIGHEST_GRADE
  );
}
