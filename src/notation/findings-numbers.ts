/** What is refused of numbers, units and characters. */
import { type FindingKind, word } from '../quantity/finding';
import { code, error } from './findings-text';

const TWO_WAYS = 'What could be read two ways is never guessed: a wrong guess would be cut into metal.';
const SIDE_BY_SIDE =
  'Side by side stand only a number and its unit, so names of figures and units never clash.';
const LOOKS = 'Two lines that look the same have to mean the same.';
const UNITS = 'A unit that is not known cannot be checked against anything.';

export const numberFindings: Record<string, FindingKind> = {
  'mixed-number-with-sign': error((d) => `${code(d, 'written')} could be a mixed number or a sum.`, TWO_WAYS),
  'mixed-number-without-unit': error(
    (d) =>
      `${code(d, 'written')} has no unit: it could be a size, or two numbers of which one is missing its sign.`,
    TWO_WAYS,
  ),
  'fraction-after-division': error(
    (d) => `${code(d, 'written')} after a division could be one fraction or two divisions.`,
    TWO_WAYS,
  ),
  'fraction-over-zero': error(
    (d) => `${code(d, 'written')} divides by zero.`,
    'There is no such size.',
    'Write the number that belongs below the line.',
  ),
  'thread-or-difference': error((d) => `${code(d, 'written')} could be a thread or a subtraction.`, TWO_WAYS),
  'thread-or-product': error((d) => `${code(d, 'written')} could be a thread or a product.`, TWO_WAYS),
  'taper-or-quotient': error(
    (d) => `${code(d, 'written')} could be a taper or a division.`,
    'A taper such as `1:10` is written without blanks and with few digits, as on drawings.',
  ),
  'parts-do-not-fit': error(
    (d) =>
      `The parts of ${code(d, 'written')} do not fit: each but the last is whole, and each but the first is less than one of the part before.`,
    'A part that is too large is most often a slip of the pen, such as decimals typed as minutes.',
  ),
  'minutes-without-mark': error(
    (d) => `${code(d, 'written')}: after \`°\` come minutes with their mark \`′\`, then seconds with \`″\`.`,
    TWO_WAYS,
  ),
  'comma-between-digits': error(
    (d) =>
      `A comma between digits, as in ${code(d, 'written')}, could be a decimal point, thousands or two numbers.`,
    TWO_WAYS,
  ),
  'digit-groups': error(
    (d) => `${code(d, 'written')} is written in groups.`,
    'Digits of one number stand together; a blank or a mark between them could be a slip.',
    'Write the digits together, with one point at most.',
  ),
  'number-too-large': error(
    () => 'This number is larger than any that can be calculated with.',
    'Beyond about 1e308 there is only infinity.',
    'Write a smaller number or a larger unit.',
  ),
  'point-odd': error(
    () => 'This point belongs to no number and to no name.',
    'A point stands before decimals, or between the name of a result and its field.',
    'Write digits or the name of a field after it.',
  ),
  'size-word': error(
    (d) => `${code(d, 'word')} is not the same size in every shop.`,
    'A tenth is 0.1 mm to one machinist and 0.0001 in to another, and a mil can be a thou or a millimetre.',
  ),
  'side-by-side': error(
    (d) => `${code(d, 'written')}: writing things side by side does not multiply them.`,
    SIDE_BY_SIDE,
    'Write `*` between them.',
  ),
  'unit-unknown': error(
    (d) => `${code(d, 'written')} is no unit.`,
    UNITS,
    'Write a unit such as `mm`, `in`, `rpm` or `°`.',
  ),
  'unit-after-unit': error(
    (d) => `${code(d, 'written')} has two units.`,
    'A unit after a unit could mean a change of unit, a slip or a product; only `to` converts.',
  ),
  'unit-power': error(
    (d) => `${code(d, 'written')} cannot have this power here.`,
    'Units are raised to whole numbers other than zero, and only as far as a quantity can be told by them.',
    'Write a whole power from 1 to 12.',
  ),
  'unit-alone': error(
    (d) => `${code(d, 'written')} has no number before it.`,
    SIDE_BY_SIDE,
    'Write the number first.',
  ),
  'unit-missing': error(
    () => '`to` needs a unit.',
    'Only `to` converts, and it has to know into what.',
    'Write one such as `mm` or `in` after it.',
  ),
  'power-after-unit': error(
    (d) => `${code(d, 'written')} could raise the unit or the whole quantity.`,
    'A power that touches a unit belongs to the unit: 5 mm^2 is an area of five, and (5 mm)^2 one of twenty-five.',
    'Put brackets around what is raised.',
  ),
  'quote-mark': error(
    (d) => (word(d, 'curly') === 'true' ? 'This curly quote is not read.' : 'This quote is not read here.'),
    'An inch mark touches its number, and minutes and seconds follow their degrees; everything else would be a guess.',
    'Write `in` for inches, `ft` for feet and `°` before minutes; words stand in comments after `#`.',
  ),
  'foreign-letter': error(
    (d) =>
      word(d, 'alphabet') === ''
        ? `${code(d, 'written')}: the letter ${code(d, 'letter')} stands in no name.`
        : `${code(d, 'written')}: its ${code(d, 'letter')} is a ${word(d, 'alphabet')} letter that looks like the Latin ${code(d, 'latin')}.`,
    LOOKS,
    'Use Latin letters, digits and `_`.',
  ),
  'hidden-character': error(
    (d) => `Here stands a character that is not seen, ${word(d, 'character')}.`,
    LOOKS,
  ),
  'broken-character': error(
    () => 'Here stands a character that was lost when the text was saved or copied.',
    'What stood there cannot be known.',
  ),
  'odd-character': error(
    (d) => `${code(d, 'written')} has no meaning here.`,
    'A sign that is passed over could change what a line says.',
    'Leave it out, or put what is meant as words after `#`.',
  ),
};
