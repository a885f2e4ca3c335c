/**
 * What the ordinary run breaks: the rules and constants that a wrong result would come from. `--wide` breaks the rest of
 * FILES too, how a text is scanned, names are bound, lines are put in order, and what only spares time; and ALL_FILES, how
 * answers are asked for and shown, but for the numbers by which pictures are laid out: those are looked at.
 *
 * - Rules of the notation: a refusal or record left out, a word or pattern it knows exchanged, a condition that never
 *   holds, in every file of `notation`; in those that read limits also each comparison, sum and number.
 * - Rules of limits: everything in the files that make, carry, judge and compare limits; one value in ten of the ISO 286
 *   tables (`--all`: each).
 * - Constants of formulas: each number of `trade`, and of the units' factors and mathematics in `quantity`, × 1.001. A zero
 *   has no thousandth part, so it is broken in the wide run only.
 */
export const FILES =
  /^src\/(?:(?:quantity|trade|notation)\/\w[\w-]*|engine\/(?:bind|call|call-limits|evaluate|given|judge|names|readings|settle|statement|values))\.ts$/;
export const ALL_FILES = /^src\/(?:quantity|trade|notation|engine|language|sheet|archive)\/.*\.ts$/;

const LIMITS =
  /^src\/(?:quantity\/(?:limits|spread|iso286|iso286-table)|engine\/(?:judge|readings|call-limits|given|values|statement))\.ts$/;
const LIMIT_NOTATION = /^src\/notation\/(?:limits|iso-code)\.ts$/;
const CONSTANTS = /^src\/(?:trade\/.*|quantity\/(?:unit-table|unit-systems|mathematics))\.ts$/;

export const isLayout = ({ file, kind }) => file.startsWith('src/sheet/picture/') && kind === 'number';

export function isInScope({ file, kind, after }) {
  if (kind === 'number' && after === '0.001') return false;
  if (LIMITS.test(file)) return true;
  if (CONSTANTS.test(file)) return kind === 'number';
  if (!file.startsWith('src/notation/')) return false;
  if (kind === 'call' || kind === 'word' || (kind === 'condition' && after === 'false')) return true;
  return LIMIT_NOTATION.test(file) && ['compare', 'number', 'sum'].includes(kind);
}
