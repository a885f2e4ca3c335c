/** What was asked for on the command line, as data. */
import { parseArgs } from 'node:util';

export type Command =
  | { readonly kind: 'help'; readonly of: string | null }
  | { readonly kind: 'version' }
  | { readonly kind: 'check'; readonly paths: readonly string[]; readonly json: boolean }
  | { readonly kind: 'formulas'; readonly json: boolean }
  | { readonly kind: 'find'; readonly query: string; readonly folder: string; readonly json: boolean }
  | { readonly kind: 'compare'; readonly before: string; readonly after: string; readonly json: boolean }
  /** Wrong use; `says` tells what to write instead. */
  | { readonly kind: 'wrong'; readonly says: string };

const COMMANDS = ['check', 'find', 'compare', 'formulas'];

export function readArguments(argv: readonly string[]): Command {
  let parsed;
  try {
    parsed = parseArgs({
      args: [...argv],
      allowPositionals: true,
      options: {
        json: { type: 'boolean' },
        help: { type: 'boolean', short: 'h' },
        version: { type: 'boolean', short: 'v' },
      },
    });
  } catch {
    return wrong(`${unknownOption(argv)} is not an option here. Options are --json, --help and --version.`);
  }
  const { values, positionals } = parsed;
  const [command, ...rest] = positionals;
  if (values.help)
    return { kind: 'help', of: command !== undefined && COMMANDS.includes(command) ? command : null };
  if (values.version) return { kind: 'version' };
  const json = values.json === true;
  switch (command) {
    case undefined:
      return wrong('say what to do.');
    case 'check':
      return rest.length === 0
        ? wrong('check needs a note or a folder.')
        : { kind: 'check', paths: rest, json };
    case 'find': {
      const [query, folder = '.', ...more] = rest;
      return query === undefined || more.length > 0
        ? wrong("find needs a query in quotes, and may be given a folder: find 'ball 20 mm .. 25 mm' jobs.")
        : { kind: 'find', query, folder, json };
    }
    case 'compare': {
      const [before, after, ...more] = rest;
      return before === undefined || after === undefined || more.length > 0
        ? wrong('compare needs two notes.')
        : { kind: 'compare', before, after, json };
    }
    case 'formulas':
      return rest.length === 0 ? { kind: 'formulas', json } : wrong('formulas takes no names: it lists all.');
    default:
      return wrong(
        `there is no command \`${command}\`. Commands are ${COMMANDS.slice(0, -1).join(', ')} and ${COMMANDS.at(-1) ?? ''}.`,
      );
  }
}

function wrong(says: string): Command {
  return { kind: 'wrong', says };
}

function unknownOption(argv: readonly string[]): string {
  const known = ['--json', '--help', '--version', '-h', '-v', '-hv', '-vh', '-'];
  const end = argv.indexOf('--');
  const options = (end < 0 ? argv : argv.slice(0, end)).filter((it) => it.startsWith('-'));
  return `\`${options.find((it) => !known.includes(it)) ?? options[0] ?? ''}\``;
}
