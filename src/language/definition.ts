/** Where a name at a place gets its value: the figure's line, the card's line, the field of the head. */
import type { Sheet } from '../engine/index';
import type { Place } from '../engine/results';
import type { Owner } from './fields-in';
import { symbolAt } from './names-in';

export function definition(sheet: Sheet, line: number, column: number): Place | null {
  const found = symbolAt(sheet, line, column);
  if (!found) return null;
  const { kind, name, owner } = found;
  if (owner) return fieldPlace(sheet, owner, name);
  if (kind === 'figure') return figurePlace(sheet, name);
  const card = sheet.card(name);
  return card?.builtIn === false ? card.place : null;
}

/** Where a field is given: on a card, in the head; that of a result is where the result is given. */
function fieldPlace(sheet: Sheet, { kind, name }: Owner, field: string): Place | null {
  if (kind === 'figure') return figurePlace(sheet, name);
  if (kind === 'card') return sheet.card(name)?.fieldPlaces.get(field) ?? null;
  const head = sheet.note.front.get(field);
  return head
    ? { file: null, line: head.line, column: head.column, endLine: head.line, endColumn: head.endColumn }
    : null;
}

/** A sample has no line that gives it: it is what was first read of it. */
function figurePlace(sheet: Sheet, name: string): Place | null {
  const row = sheet.figure(name);
  if (row?.statement.kind === 'figure') return inNote(row.line, row.column, row.statement.name);
  const read = sheet
    .rows()
    .find(({ statement }) => statement.kind === 'reading' && statement.path.names[0] === name);
  return read?.statement.kind === 'reading' ? inNote(read.line, read.column, read.statement.path) : null;
}

function inNote(line: number, column: number, span: { readonly start: number; readonly end: number }): Place {
  return { file: null, line, column: column + span.start, endLine: line, endColumn: column + span.end };
}
