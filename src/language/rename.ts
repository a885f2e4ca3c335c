/** Another name for a figure or a card. Touches names in our blocks and nothing else; what would go wrong is refused. */
import { type Sheet, calculate } from '../engine/index';
import { parseLine } from '../notation/line';
import type { Range } from './diagnostics';
import { type Noted, type TextEdit, edited } from './edits';
import { type Symbol, occurrencesOf, symbolAt } from './names-in';

export interface Renamable extends Symbol {
  readonly range: Range;
}

/** What a rename at this place would rename; null where nothing can be. */
export function renamable(sheet: Sheet, line: number, column: number): Renamable | null {
  const found = symbolAt(sheet, line, column);
  if (!found) return null;
  const { name, kind, range } = found;
  const known =
    kind === 'card' ? sheet.card(name)?.builtIn === false : (sheet.figure(name) ?? sheet.valueOf(name));
  return known ? { name, kind, range } : null;
}

export type Refused =
  | 'no-name'
  /** A unit, `to`, `pi` or a word of the notation. */
  | 'reserved'
  | 'taken'
  /** Signed results are found again by their name. */
  | 'signed'
  /** The note would come out otherwise. */
  | 'changes';

/** Why a new name cannot be given; null when it can. */
export function refusal(sheet: Sheet, symbol: Symbol, name: string): Refused | null {
  if (!/^[\p{L}_][\p{L}\p{N}_]*$/u.test(name)) return 'no-name';
  const statement = parseLine(`${name} = 1`, 'figures');
  if (statement.kind !== 'figure' || name === 'job') return 'reserved';
  if (sheet.figure(name) ?? sheet.valueOf(name) ?? sheet.card(name)) return 'taken';
  return symbol.kind === 'figure' && isSigned(sheet, symbol.name) ? 'signed' : null;
}

function isSigned(sheet: Sheet, name: string): boolean {
  return sheet.note.blocks.some(
    ({ word, content }) =>
      word === 'signed' &&
      content.split('\n').some((line) => new RegExp(`^\\s*${name}(?:\\.\\w+)*\\s*=`).test(line)),
  );
}

/** The edits in one note. */
export function renamed(sheet: Sheet, symbol: Symbol, name: string): readonly TextEdit[] {
  return occurrencesOf(sheet, symbol).map(({ range }) => ({ range, text: name }));
}

/** Whether the note says the same with the edits: as many findings of each kind, as many lines with a value. */
export function keepsMeaning({ sheet, text, shops }: Noted, edits: readonly TextEdit[]): boolean {
  const after = calculate(edited(text, edits), shops);
  const summary = (of: Sheet): string =>
    JSON.stringify([
      of.findings().map(({ code, line }) => `${line} ${code}`),
      of.rows().map(({ value }) => (value?.kind === 'number' ? value.value : (value?.kind ?? null))),
    ]);
  return summary(after) === summary(sheet);
}
