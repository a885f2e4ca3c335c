/** What is refused of expressions, limits and whole lines. */
import { type FindingKind, word } from '../quantity/finding';
import { code, error, warning } from './findings-text';

const BOUNDS = 'Bounds like this keep a hostile or broken note from using up time and memory.';
const LIMITS = 'A drawing states a limit in one way only, and so does a figure.';
const ONE_MEANING = 'A line says one thing: a figure, a value shown, a check, a reading or what was used.';

export const lineFindings: Record<string, FindingKind> = {
  'value-missing': error(
    (d) => `A value is missing at ${code(d, 'written')}.`,
    'An operator, a comma or a bracket needs a value beside it.',
    'Write a quantity, a name or a formula.',
  ),
  'operator-odd': error(
    (d) => `${code(d, 'written')} is no operator of the notation.`,
    'The operators are + - * / and ^.',
  ),
  'bracket-missing': error(
    (d) => `This ${code(d, 'written')} is never closed.`,
    'Where a bracket ends decides what it holds.',
    'Close it.',
  ),
  'bracket-extra': error((d) => `This ${code(d, 'written')} closes nothing.`, 'Brackets stand in pairs.'),
  'bracket-wrong': error(
    (d) => `This ${code(d, 'written')} does not fit the bracket that is open.`,
    'Brackets stand in pairs.',
  ),
  'argument-equals': error(
    () => 'An argument is named with `:`.',
    'The sign `=` gives a figure its value, and compares when it is doubled.',
  ),
  'comma-odd': error(
    () => 'A comma separates only arguments, elements of a list and readings.',
    'Anywhere else it could be a decimal point or a slip.',
    'Write each value on a line of its own.',
  ),
  'list-arithmetic': error(
    (d) => `${code(d, 'written')} is a list, and lists do not calculate.`,
    'A list says what a machine has, such as its speeds; a formula picks from it.',
    'Give it a name, or pass it to a formula.',
  ),
  'list-in-list': error(
    () => 'A list holds quantities, not lists.',
    'A list says what a machine has, such as its speeds.',
    'Write all elements in one list.',
  ),
  'too-deep': error(
    (d) => `Brackets, signs and powers stand more than ${word(d, 'most')} deep.`,
    BOUNDS,
    'Give a part of it a name on a line of its own.',
  ),
  'too-many-items': error(
    (d) => `These are more than ${word(d, 'most')}.`,
    BOUNDS,
    'Split them over several lines.',
  ),
  'line-too-long': error(
    (d) => `This line is longer than ${word(d, 'most')} characters.`,
    BOUNDS,
    'Split it over several lines.',
  ),
  'comparison-odd': error(
    (d) => `${code(d, 'written')} is no comparison.`,
    'Comparisons are < <= > >= == and !=.',
    'Write `<=`, `>=`, `==` or `!=`.',
  ),
  'comparison-inside': error(
    (d) => `${code(d, 'written')} compares, and a check stands alone on its line.`,
    ONE_MEANING,
    'Write the check on a line of its own.',
  ),
  'comparison-in-figure': error(() => 'A check has no name: it holds, or it is an error.', ONE_MEANING),
  'chain-two-ways': error(
    (d) => `${code(d, 'written')} turns the chain round.`,
    'In a chain such as `a < b <= c` each sign points the same way, so that it says something of a and c; `==` and `!=` compare two.',
    'Write two checks on two lines.',
  ),
  'equals-odd': error(
    () => 'This `=` gives no name its value.',
    'A check for equality is written with two signs, so that it cannot be taken for a figure.',
    'Write each figure on a line of its own.',
  ),
  'name-odd': error(
    (d) =>
      `${code(d, 'written')} is no name: a name begins with a letter and holds letters, digits and \`_\`.`,
    'A name has to be told from a number, a unit and a sum wherever it is used.',
    'Choose a name such as `ring` or `ring_2`.',
  ),
  'name-reserved': error(
    (d) => `${code(d, 'name')} is a word of the notation and cannot name a figure.`,
    'Units longer than one letter, `to` and `pi` mean the same in every note.',
  ),
  'field-assigned': error(
    (d) => `${code(d, 'name')} is a part of a result and cannot be set.`,
    'What a formula works out stays as it is; what was really set or measured is kept beside it.',
    'Record it with `used` or `measured`.',
  ),
  'words-in-figures': error(
    (d) => `${code(d, 'key')} with \`:\` is how cards hold words.`,
    'Figures calculate; words in them are comments.',
  ),
  'not-signed': error(
    () => 'A block of signed results holds only `name = value` and `name: words`.',
    'It is written at the sign-off and compared with, so nothing in it is worked out or judged.',
    'Write it in a `figures` block.',
  ),
  'word-unknown': error(
    (d) => `${code(d, 'written')} is not understood here.`,
    'A word that is passed over could change what a line says.',
  ),
  'word-misplaced': error(
    (d) => `${code(d, 'written')} has no place here.`,
    '`to` stands once, at the end of a figure or of what is shown; `hole` and `shaft` follow the limits of a figure; `at` follows a reading.',
  ),
  'line-goes-on': error(
    (d) => `The line should have ended before ${code(d, 'written')}.`,
    ONE_MEANING,
    'Put what is meant as words after `#`.',
  ),
  'reading-not-plain': error(
    (d) => `A reading is one quantity as the instrument showed it, without ${code(d, 'written')}.`,
    'What was read is kept as it was read; what follows from it is a figure.',
    'Write the reading alone, and the sum as a figure.',
  ),
  'limit-unfinished': error(
    () => 'Here a limit should stand.',
    LIMITS,
    'Write one such as `± 0.05 mm`, `+0.02/-0.01 mm` or `.. 12.45 mm`.',
  ),
  'limit-percent': error(
    () => 'A limit in percent could be of the size or of the limit.',
    'A drawing states limits in the unit of the size.',
    'Write it in the unit of the size.',
  ),
  'limit-unit-missing': error(
    (d) => `${code(d, 'written')} could have more than one unit.`,
    'A limit without a unit takes that of the size, where the size has one only.',
  ),
  'limit-without-sign': error(
    (d) => `The limit ${code(d, 'written')} has no sign.`,
    'On which side of the size a limit lies is never guessed; only 0 needs no sign.',
  ),
  'limit-with-sign': error((d) => `${code(d, 'written')} has a sign too many.`, '`±` is both signs.'),
  'nominal-unit-missing': error(
    (d) => `${code(d, 'written')} has no unit, and its limits have one.`,
    'The size and its limits are of one kind.',
  ),
  'range-unit-missing': error(
    (d) => `${code(d, 'written')}: one end has a unit and the other has none.`,
    'Both ends are of one kind.',
  ),
  'limit-one-sided': error(
    (d) =>
      `${code(d, 'written')} says one end only: write both with \`..\` between them, or a check such as \`size <= 34.9 mm\`.${Array.isArray(d['offers']) && d['offers'].length > 0 ? ' Or is it a rate?' : ''}`,
    'What is asked of a figure is judged at both ends, and their middle is the size to aim at.',
  ),
  'limits-or-quotient': error(
    (d) => `${code(d, 'written')} could be two limits or a division.`,
    'A wrong guess would be cut into metal, and a ratio this close to one is hardly ever meant.',
  ),
  'code-without-size': error(
    (d) => `The code ${code(d, 'code')} asks limits of a length that is written out just before it.`,
    'ISO 286 gives limits by the size, so a code means something only after a size such as `25 mm`.',
    'Write the size itself before it: `25 mm h7`.',
  ),
  'fit-not-a-size': error(
    (d) => `${code(d, 'written')} is a fit: two parts and not one size.`,
    'A figure is one size with its limits; the formula compares the two.',
  ),
  'limits-need-name': error(
    () => 'Limits are asked of a figure, and this line names none.',
    'Readings are judged by the limits of the figure of their name.',
  ),
  'limits-misplaced': error(
    (d) => `Limits have no place here: ${code(d, 'written')}.`,
    'Limits follow the expression of a figure, outside all brackets.',
    'Give the toleranced size a line of its own, with a name.',
  ),
  'limits-in-fractions': error(
    (d) => `${code(d, 'written')} could be limits, or a sum in which a fraction is divided.`,
    'A fraction and `/` would be a division: the first of two limits is a decimal. A sum has its division in brackets.',
  ),
  'limits-or-sum': error(
    (d) => `In ${code(d, 'written')} the signed numbers with \`/\` are limits, and limits do not calculate.`,
    'A signed number, `/` and another signed number after a size are its limits, as on a drawing.',
  ),
  'direction-in-comment': warning(
    (d) => `This comment holds a mark that turns the direction of text, ${word(d, 'character')}.`,
    'Such a mark can make the code on the line look like other code.',
  ),
};
