/** Between the core's plain places and the editor's own objects. */
import { Location, Range, type TextDocument, Uri, WorkspaceEdit } from 'vscode';
import type { Range as Plain } from '../../language/diagnostics';
import type { TextEdit } from '../../language/edits';

export function editorRange({ line, column, endLine, endColumn }: Plain): Range {
  return new Range(line, column, endLine, endColumn);
}

export function plainRange({ start, end }: Range): Plain {
  return { line: start.line, column: start.character, endLine: end.line, endColumn: end.character };
}

/** Where something stands: in a shop file by its address, else in the note itself. */
export function location(note: TextDocument, place: Plain & { readonly file: string | null }): Location {
  return new Location(place.file === null ? note.uri : Uri.parse(place.file), editorRange(place));
}

/** Changes of one note; the editor writes them with the note's own line ends. */
export function workspaceEdit(note: Uri, edits: readonly TextEdit[]): WorkspaceEdit {
  const made = new WorkspaceEdit();
  for (const { range, text } of edits) made.replace(note, editorRange(range), text);
  return made;
}
