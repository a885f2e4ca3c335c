/** Aligns the figures of the note, or of the blocks that the selection touches. */
import { type Disposable, commands, window, workspace } from 'vscode';
import { alignment } from '../../../language/format';
import { workspaceEdit } from '../places';
import { type Workspace, isNote } from '../workspace';

export const ALIGN_FIGURES = 'scribeline.alignFigures';

export function registerAlignFigures(notes: Workspace): Disposable {
  return commands.registerCommand(ALIGN_FIGURES, async () => {
    const editor = window.activeTextEditor;
    if (!editor || !isNote(editor.document)) return;
    const { document, selection } = editor;
    const calculated = await notes.calculated(document);
    if (!calculated) return;
    const part = selection.isEmpty ? [] : [selection.start.line, selection.end.line];
    const edits = alignment(calculated.note, document.getText(), ...part);
    if (edits.length > 0) await workspace.applyEdit(workspaceEdit(document.uri, edits));
  });
}
