/** Texts of files as the user sees them. */
import { type Uri, workspace } from 'vscode';

/** Pages that the extension itself shows: no notes of the user, with no shop around them. */
export const isOwnPage = ({ scheme }: Uri): boolean => scheme.startsWith('scribeline-');

/** The text of a file that stands in the editor with changes; one without is as its file says, if that is still there. */
export function unsavedText(uri: Uri): string | undefined {
  const key = uri.toString();
  return workspace.textDocuments
    .find(({ isDirty, uri: own }) => isDirty && own.toString() === key)
    ?.getText();
}

/** The text with unsaved changes; throws where there is no such file. */
export async function textOf(uri: Uri): Promise<string> {
  return unsavedText(uri) ?? new TextDecoder().decode(await workspace.fs.readFile(uri));
}
