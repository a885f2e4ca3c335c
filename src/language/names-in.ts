/** Every place of a note at which a name, a card or a field of something stands. */
import type { Sheet } from '../engine/index';
import type { Row } from '../engine/results';
import type { Argument, Block, CallNode, Expression, Span } from '../notation/syntax';
import { children, expressionsOf } from '../notation/walk';
import type { Range } from './diagnostics';
import { type Owner, fieldsOfCard, ownerOf, pathField, usedField } from './fields-in';

export interface Symbol {
  readonly name: string;
  readonly kind: 'figure' | 'card' | 'field';
  /** What a field belongs to; null for figures and cards. */
  readonly owner: Owner | null;
}

export interface Occurrence extends Symbol {
  readonly range: Range;
  /** True where the figure or field gets its value, or where the card is written. */
  readonly given: boolean;
}

/** All names in our blocks, in fence lines and at the head of cards, in the note's order. */
export function occurrences(sheet: Sheet): readonly Occurrence[] {
  return inOrder([
    ...inHead(sheet),
    ...inFences(sheet.note.blocks),
    ...sheet.rows().flatMap((row) => inRow(sheet, row)),
  ]);
}

function inOrder(found: readonly Occurrence[]): readonly Occurrence[] {
  return [...found].sort((a, b) => a.range.line - b.range.line || a.range.column - b.range.column);
}

/** The head names the material's card: what is read warm is brought to 20 °C by it. */
function inHead(sheet: Sheet): readonly Occurrence[] {
  const head = sheet.note.front.get('material');
  if (!head || sheet.card(head.text)?.word !== 'material') return [];
  const { line, text } = head;
  // In quotes or plain, a name stands as it is; anything else is left alone.
  const quotes = (head.endColumn - head.column - text.length) / 2;
  if (quotes !== 0 && quotes !== 1) return [];
  const column = head.column + quotes;
  const range = { line, column, endLine: line, endColumn: column + text.length };
  return [{ name: text, kind: 'card', owner: null, range, given: false }];
}

function inFences(blocks: readonly Block[]): readonly Occurrence[] {
  return blocks.flatMap(({ name, on, fenceLine }): Occurrence[] => {
    const at = (span: Span & { readonly text: string }, given: boolean): Occurrence => ({
      name: span.text,
      kind: 'card',
      owner: null,
      range: { line: fenceLine, column: span.start, endLine: fenceLine, endColumn: span.end },
      given,
    });
    return [...(name ? [at(name, true)] : []), ...on.map((each) => at(each, false))];
  });
}

function inRow(sheet: Sheet, row: Row): readonly Occurrence[] {
  // A card's lines see only each other, so their names are no figures of the note.
  if (row.block.word !== 'figures') return fieldsOfCard(row);
  const found: Occurrence[] = [];
  const add = (name: string, start: number, given: boolean): void => {
    const kind = !sheet.figure(name) && sheet.card(name) ? 'card' : 'figure';
    const column = row.column + start;
    const range = { line: row.line, column, endLine: row.line, endColumn: column + name.length };
    found.push({ name, kind, owner: null, range, given });
  };
  const { statement } = row;
  if (statement.kind === 'figure') add(statement.name.text, statement.name.start, true);
  if (statement.kind === 'reading' || statement.kind === 'used') {
    add(statement.path.names[0] ?? '', statement.path.start, false);
    found.push(...pathField(sheet, row, statement.path));
  }
  const walk = (e: Expression): void => {
    if (e.kind === 'name' && e.callout !== true && e.name !== 'pi' && e.name !== 'job')
      add(e.name, e.start, false);
    if (e.kind === 'field') found.push(...usedField(row, e, ownerOf(sheet, e.of)));
    if (e.kind === 'call') for (const argument of e.arguments) inArgument(sheet, e, argument, walk);
    else children(e).forEach(walk);
  };
  expressionsOf(statement).forEach(walk);
  return found;
}

/** A bare word that stands for itself, an ISO code or one of a formula's words, is no name. */
function inArgument(sheet: Sheet, call: CallNode, { value }: Argument, walk: (e: Expression) => void): void {
  if (value.kind === 'name') {
    const given = sheet.call(call)?.arguments;
    for (const each of given?.values() ?? []) if (each === value.name) return;
  }
  walk(value);
}

/** What stands at a place: the name that the cursor is in or right behind. */
export function symbolAt(sheet: Sheet, line: number, column: number): Occurrence | null {
  const row = sheet.rowAt(line);
  const fences = sheet.note.blocks.filter(({ fenceLine }) => fenceLine === line);
  const here = [...inHead(sheet), ...inFences(fences), ...(row ? inRow(sheet, row) : [])];
  return (
    inOrder(here).find(
      ({ range }) => range.line === line && range.column <= column && column <= range.endColumn,
    ) ?? null
  );
}

export function occurrencesOf(sheet: Sheet, { name, kind, owner }: Symbol): readonly Occurrence[] {
  return occurrences(sheet).filter(
    (each) =>
      each.name === name &&
      each.kind === kind &&
      each.owner?.kind === owner?.kind &&
      each.owner?.name === owner?.name,
  );
}
