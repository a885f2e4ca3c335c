/** Aligns the figures of the note, or of the blocks that the selection touches. Answers whether anything was moved. */
import { type Disposable, commands, window } from 'vscode';
import { alignment } from '../../../language/format';
import { applied } from '../applied';
import { workspaceEdit } from '../places';
import { type Workspace, isNote } from '../workspace';

export const ALIGN_FIGURES = 'scribeline.alignFigures';

export function registerAlignFigures(notes: Workspace): Disposable {
  return commands.registerCommand(ALIGN_FIGURES, async () => {
    const editor = window.activeTextEditor;
    if (!editor || !isNote(editor.document)) return false;
    const { document, selection } = editor;
    const calculated = await notes.calculated(document);
    if (!calculated) return false;
    const part = selection.isEmpty ? [] : [selection.start.line, selection.end.line];
    const edits = alignment(calculated.note, document.getText(), ...part);
    return edits.length > 0 && applied(document, workspaceEdit(document.uri, edits));
  });
}
