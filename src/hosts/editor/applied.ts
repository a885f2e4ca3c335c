/** Changes of a note, made whole or not at all, and never without the person knowing which. */
import { FilePermission, type TextDocument, type WorkspaceEdit, l10n, window, workspace } from 'vscode';

/** Whether the note holds the change, worked out for it as it is now; where it does not, why is said. */
export async function applied(document: TextDocument, edit: WorkspaceEdit): Promise<boolean> {
  const { version } = document;
  const name = workspace.asRelativePath(document.uri);
  if (await isLocked(document)) {
    void window.showErrorMessage(
      l10n.t(
        '{0} may not be written, and was left as it is. Allow it, or save the note under another name, and try again.',
        name,
      ),
    );
    return false;
  }
  // Its places are those of that state. What changes from here on the editor itself sees, and turns the edit down.
  const same = !document.isClosed && document.version === version;
  if (same && (await apply(document, edit))) return true;
  void window.showErrorMessage(
    l10n.t('{0} changed or closed meanwhile, and was left as it is. Try again.', name),
  );
  return false;
}

/**
 * Through the editor that shows the note, where one does: it looks at the note's state in the moment in which it changes it.
 * A change of the workspace is made smaller in between, and a key pressed meanwhile would move its places.
 */
function apply(document: TextDocument, edit: WorkspaceEdit): Thenable<boolean> {
  const editor = window.visibleTextEditors.find((each) => each.document === document);
  if (!editor) return workspace.applyEdit(edit);
  return editor.edit((builder) => {
    for (const { range, newText } of edit.get(document.uri)) builder.replace(range, newText);
  });
}

/** A change that could never be saved would be lost with the window. */
async function isLocked({ uri, isUntitled }: TextDocument): Promise<boolean> {
  if (isUntitled) return false;
  if (workspace.fs.isWritableFileSystem(uri.scheme) === false) return true;
  try {
    return (((await workspace.fs.stat(uri)).permissions ?? 0) & FilePermission.Readonly) !== 0;
  } catch {
    return false; // deleted meanwhile: saving makes it anew
  }
}
