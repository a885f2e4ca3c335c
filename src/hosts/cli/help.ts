/** What the command line says about itself. */

export const USAGE = `usage: scribeline check PATH… [--json]
       scribeline sheet NOTE.md [-o FILE] [--workings] [--answers hidden|shown] [--units mm|in|both]
       scribeline find QUERY [FOLDER] [--json]
       scribeline compare NOTE NOTE [--json]
       scribeline formulas [--json]
       scribeline --help | --version
`;

const GENERAL = `scribeline: the figures of a shop's job notes, worked out and checked.

${USAGE}
commands
  check      works out notes and prints every value and finding
  sheet      writes the job sheet of a note, to print or to read at the machine
  find       finds past jobs by words and by values
  compare    puts two notes' figures side by side
  formulas   lists the formulas that notes can use

options
  --json         prints JSON and nothing else on standard output
  -h, --help     this; after a command, about that command
  -v, --version  the version

exit code
  0  nothing is wrong
  1  a note has a finding of severity error
  2  wrong use, or a file that cannot be read (comes before 1)

NO_COLOR=1 leaves colours out; so does output that is not a terminal.
`;

const CHECK = `usage: scribeline check PATH… [--json]

PATH is a note or a folder. A folder means all *.md in it and in the folders below it, leaving out node_modules and
names that begin with a dot. Links to folders are not followed.

Machine and material cards are taken from the note itself and from any shop.md in its folder or above: up to PATH where
that is a folder, else up to the current folder. The nearest wins.

With --json standard output is described by dist/cli/schema/check.schema.json of this package: values, limits and
readings in \`unit\`, unrounded; \`si\` in base SI units with a turn counted as one; lines and columns from 1, columns in
UTF-16 units, ends exclusive.

exit code
  0  nothing is wrong
  1  a note has a finding of severity error
  2  wrong use, or a file that cannot be read (comes before 1)
`;

const SHEET = `usage: scribeline sheet NOTE.md [-o FILE] [--workings] [--answers hidden|shown] [--units mm|in|both]

Writes the job sheet of a note as one HTML file that needs no network and no other file: head, text, figures, checks,
findings, pictures, moves to tick off, lines for readings and signatures. Print it from a browser, on A4 or Letter.

  -o, --output FILE   where to write it; without it the sheet goes to standard output. A file of that name is replaced
  --workings          every figure with its working and the reason for it
  --answers hidden    blanks to fill in, each answer folded under its line; for whoever is learning
  --units mm|in|both  lengths, speeds and the like in these units; without it each figure keeps the unit of its line

Images beside the note or below its folder are put into the sheet: PNG, JPEG, GIF and WebP, up to 8 MB each and 40 MB in
all. What is left out is said on the sheet and on standard error.

exit code
  0  the sheet is written and nothing is wrong
  1  it is written, and the note has a finding of severity error, which stands at the sheet's top
  2  wrong use, or a file that cannot be read or written
`;

const FIND = `usage: scribeline find QUERY [FOLDER] [--json]

Finds the notes in FOLDER (the current one when left out) for which every part of the query holds, best first.
The parts of a query are set apart by commas:

  chatter                     a word of the note, or its beginning
  ball 20 mm .. 25 mm         a figure or measured sample of that name between two values
  neck = 3/8 in               equal as shown; also < > <= >= and 25 mm ± 0.1
  used speed > 1000 rpm       what was really run; also \`measured\` and \`final\`
  customer: ferry             a field of the note's head that holds this
  due < 2026-12               a date; a month or a year means all of it

A value is found in any unit. A name is also found as a part of another: \`ball\` finds \`old_ball\` and \`setup.ball\`.

What was read is kept in the user's cache folder, so that the next search reads only notes that changed.
With --json standard output is described by dist/cli/schema/find.schema.json of this package.

exit code
  0  the query was understood, whether something was found or not
  2  wrong use, or a file that cannot be read
`;

const COMPARE = `usage: scribeline compare NOTE NOTE [--json]

Prints what differs between two notes and by how much, what only one of them has, and which findings are new and gone.
With --json standard output is described by dist/cli/schema/compare.schema.json of this package.
`;

const FORMULAS = `usage: scribeline formulas [--json]

Lists every formula: what it works out, its parameters with their usual units (\`?\` after those that may be left out),
what it gives, where it holds, where it comes from, and the worked checks it is tested with.

With --json standard output is described by dist/cli/schema/formulas.schema.json of this package.
`;

const PAGES = new Map([
  ['check', CHECK],
  ['sheet', SHEET],
  ['find', FIND],
  ['compare', COMPARE],
  ['formulas', FORMULAS],
]);

export function help(of: string | null): string {
  return (of !== null ? PAGES.get(of) : undefined) ?? GENERAL;
}
