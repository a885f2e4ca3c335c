/** Where a name at a place gets its value: the figure's line, the card's line, the field of the head. */
import type { Sheet } from '../engine/index';
import type { Place } from '../engine/results';
import type { FieldNode } from '../notation/syntax';
import { symbolAt } from './names-in';
import { at } from './position';

export function definition(sheet: Sheet, line: number, column: number): Place | null {
  const field = fieldAt(sheet, line, column);
  if (field) return field;
  const found = symbolAt(sheet, line, column);
  if (!found) return null;
  if (found.kind === 'card')
    return sheet.card(found.name)?.builtIn === false ? (sheet.card(found.name)?.place ?? null) : null;
  return figurePlace(sheet, found.name);
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

/** The place of the field under the cursor: on a card, in the head; that of a result is where the result is given. */
function fieldAt(sheet: Sheet, line: number, column: number): Place | null {
  const row = sheet.rowAt(line);
  if (row?.block.word !== 'figures') return null;
  const target = at(sheet, row, column - row.column)?.target;
  if (target?.kind !== 'field') return null;
  const { of, field }: FieldNode = target.node;
  if (of.kind !== 'name') return null;
  if (of.name === 'job') {
    const head = sheet.note.front.get(field);
    return head
      ? { file: null, line: head.line, column: head.column, endLine: head.line, endColumn: head.endColumn }
      : null;
  }
  return sheet.figure(of.name)
    ? figurePlace(sheet, of.name)
    : (sheet.card(of.name)?.fieldPlaces.get(field) ?? null);
}
