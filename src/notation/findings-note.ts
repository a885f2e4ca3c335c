/** What is refused of fences and of the front matter. */
import { type FindingKind, word } from '../quantity/finding';
import { code, error, instead, warning } from './findings-text';

const BOUNDS = 'Bounds like this keep a hostile or broken note from using up time and memory.';
const FIELDS =
  'A drawing number such as 0815 has to stay as it is written, so every field is text on one line.';

export const noteFindings: Record<string, FindingKind> = {
  'not-plain-text': warning(
    () => 'Here stands something that is no text: a NUL, or bytes that are not UTF-8.',
    'What cannot be read may once have been part of a size, and nobody can tell which.',
    'Save the note as UTF-8, or take the characters away.',
  ),
  'fence-ignored': warning(
    () => 'This block is not calculated.',
    'Only the four words of the notation, in small letters, make a block that calculates; other code stays as it is.',
  ),
  'fence-not-closed': error(
    (d) => `This ${code(d, 'word')} block is never closed.`,
    'Without its closing line the rest of the note would be taken for figures.',
    'Close it with a line of as many backticks.',
  ),
  'fence-word-unknown': error(
    (d) => `After ${code(d, 'word')} stands something that is not understood.`,
    'A word that is passed over could be the machine that the figures were meant for.',
    'Write `figures on` and the names of machine cards.',
  ),
  'fence-machine-missing': error(
    () => 'After `on` stand names of machine cards, with commas between.',
    'A block tied to machines is checked against all of them.',
    'Write the name of a card after `on`.',
  ),
  'card-name-missing': error(
    (d) => `This ${code(d, 'word')} card has no name.`,
    'Blocks and formulas ask for a card by its name.',
    'Write a name after the word.',
  ),
  'card-name-odd': error(
    () => 'This is no name for a card: a name begins with a letter and holds letters, digits and `_`.',
    'Blocks and formulas ask for a card by its name.',
    'Choose a name such as `lathe` or `mill_2`.',
  ),
  'too-many-lines': error(
    (d) => `The blocks of this note hold more than ${word(d, 'most')} lines; the rest is not read.`,
    BOUNDS,
    'Split the note.',
  ),
  'front-matter-open': warning(
    () => 'The front matter that begins here never ends.',
    'Without its closing line the fields are read as ordinary text.',
    'Close it with a line of three hyphens.',
  ),
  'front-matter-too-long': error(
    (d) => `The front matter is longer than ${word(d, 'most')} characters and is not read.`,
    BOUNDS,
    'Move what is long into the note.',
  ),
  'front-matter-unreadable': error(
    (d) => `The front matter cannot be read: ${word(d, 'reason')}`,
    'Front matter is YAML: one field to a line, `name: text`.',
    'Write one `name: text` to a line, with quotes around text that holds `: ` or begins with a sign.',
  ),
  'front-matter-not-text': error(
    (d) => `${word(d, 'field') === '' ? 'This field' : code(d, 'field')} is not one text.`,
    FIELDS,
    'Write the text on the same line, after the colon.',
  ),
  'front-matter-twice': error(
    (d) => `${code(d, 'field')} stands twice in the front matter.`,
    'One of the two would be passed over in silence.',
    'Keep one of them.',
  ),
  'front-matter-units': {
    severity: 'error',
    say: (d) => `${code(d, 'written')} is not a system of units.${instead(d)}`,
    why: 'Results of formulas are shown in millimetres or in inches.',
  },
};
