/** What was asked for on the command line, as data. */
import { parseArgs } from 'node:util';
import type { How } from '../../sheet/how';

export type Command =
  | { readonly kind: 'help'; readonly of: string | null }
  | { readonly kind: 'version' }
  | { readonly kind: 'check'; readonly paths: readonly string[]; readonly json: boolean }
  | { readonly kind: 'formulas'; readonly json: boolean }
  | { readonly kind: 'find'; readonly query: string; readonly folder: string; readonly json: boolean }
  | { readonly kind: 'compare'; readonly before: string; readonly after: string; readonly json: boolean }
  | {
      readonly kind: 'sheet';
      readonly note: string;
      /** File to write; null for standard output. */
      readonly to: string | null;
      readonly how: Omit<How, 'paper'>;
    }
  /** Wrong use; `says` tells what to write instead. */
  | { readonly kind: 'wrong'; readonly says: string };

const COMMANDS = ['check', 'sheet', 'find', 'compare', 'formulas'];

export function readArguments(argv: readonly string[]): Command {
  let parsed;
  try {
    parsed = parseArgs({
      args: [...argv],
      allowPositionals: true,
      options: {
        json: { type: 'boolean' },
        output: { type: 'string', short: 'o' },
        workings: { type: 'boolean' },
        answers: { type: 'string' },
        units: { type: 'string' },
        help: { type: 'boolean', short: 'h' },
        version: { type: 'boolean', short: 'v' },
      },
    });
  } catch {
    const last = argv.at(-1) ?? '';
    return NEEDS_VALUE.includes(last)
      ? wrong(`\`${last}\` needs something after it: see scribeline sheet --help.`)
      : wrong(`${unknownOption(argv)} is not an option here. Options are --json, --help and --version.`);
  }
  const { values, positionals } = parsed;
  const [command, ...rest] = positionals;
  if (values.help)
    return { kind: 'help', of: command !== undefined && COMMANDS.includes(command) ? command : null };
  if (values.version) return { kind: 'version' };
  const json = values.json === true;
  const foreign = foreignOption(command, values);
  if (foreign !== null) return wrong(`${foreign} is no option of ${command ?? ''}.`);
  switch (command) {
    case undefined:
      return wrong('say what to do.');
    case 'check':
      return rest.length === 0
        ? wrong('check needs a note or a folder.')
        : { kind: 'check', paths: rest, json };
    case 'sheet':
      return readSheet(rest, values);
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

const NEEDS_VALUE = ['-o', '--output', '--answers', '--units'];

interface Values {
  readonly json?: boolean | undefined;
  readonly output?: string | undefined;
  readonly workings?: boolean | undefined;
  readonly answers?: string | undefined;
  readonly units?: string | undefined;
}

/** An option that belongs to another command. */
function foreignOption(command: string | undefined, values: Values): string | null {
  if (command === 'sheet') return values.json === undefined ? null : '--json';
  const own = (['output', 'workings', 'answers', 'units'] as const).find((key) => values[key] !== undefined);
  return own === undefined || command === undefined || !COMMANDS.includes(command) ? null : `--${own}`;
}

function readSheet(rest: readonly string[], values: Values): Command {
  const [note, ...more] = rest;
  const { output, workings = false, answers = 'shown', units = 'own' } = values;
  if (note === undefined || more.length > 0) return wrong('sheet needs one note.');
  if (output === '') return wrong('-o needs the name of a file.');
  if (answers !== 'hidden' && answers !== 'shown') return wrong('--answers is hidden or shown.');
  if (units !== 'mm' && units !== 'in' && units !== 'both' && units !== 'own')
    return wrong('--units is mm, in or both; without it each figure keeps its own.');
  return { kind: 'sheet', note, to: output ?? null, how: { units, answers, workings } };
}

function wrong(says: string): Command {
  return { kind: 'wrong', says };
}

function unknownOption(argv: readonly string[]): string {
  const known = ['--json', '--workings', '--help', '--version', '-h', '-v', '-hv', '-vh', '-'];
  const end = argv.indexOf('--');
  const options = (end < 0 ? argv : argv.slice(0, end)).filter((it) => it.startsWith('-'));
  return `\`${options.find((it) => !known.includes(it)) ?? options[0] ?? ''}\``;
}
