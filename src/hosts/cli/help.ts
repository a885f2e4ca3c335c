/** What the command line says about itself. */

export const USAGE = `usage: scribeline check PATH… [--json]
       scribeline formulas [--json]
       scribeline --help | --version
`;

const GENERAL = `scribeline: the figures of a shop's job notes, worked out and checked.

${USAGE}
commands
  check      works out notes and prints every value and finding
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

const FORMULAS = `usage: scribeline formulas [--json]

Lists every formula: what it works out, its parameters with their usual units (\`?\` after those that may be left out),
what it gives, where it holds, where it comes from, and the worked checks it is tested with.

With --json standard output is described by dist/cli/schema/formulas.schema.json of this package.
`;

export function help(of: string | null): string {
  return of === 'check' ? CHECK : of === 'formulas' ? FORMULAS : GENERAL;
}
