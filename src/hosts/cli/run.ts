/** One run of the command line: arguments in, exit code out. */
import { readArguments } from './arguments';
import { check } from './check';
import { formulas } from './formulas';
import { help, USAGE } from './help';
import { type Exit, type Io, FINE, WRONG } from './io';

export async function run(argv: readonly string[], io: Io): Promise<Exit> {
  const command = readArguments(argv);
  switch (command.kind) {
    case 'help':
      io.out(help(command.of));
      return FINE;
    case 'version':
      io.out(`${io.version()}\n`);
      return FINE;
    case 'check':
      return check(command.paths, command.json, io);
    // Read when asked for only: most runs check notes, and start the quicker.
    case 'sheet':
      return (await import('./sheet')).sheet(command, io);
    case 'find':
      return (await import('./find')).find(command.query, command.folder, command.json, io);
    case 'compare':
      return (await import('./compare')).compare(command.before, command.after, command.json, io);
    case 'formulas':
      return formulas(command.json, io);
    case 'wrong':
      io.err(`scribeline: ${command.says}\n${USAGE}`);
      return WRONG;
  }
}
