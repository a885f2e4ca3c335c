/** Files that are written whole or not at all. */
import { FilePermission, type FileStat, FileSystemError, FileType, Uri, workspace } from 'vscode';

/** Read-only, or locked by its permissions on the disk, of which the editor tells by the next bit. */
const UNWRITABLE = FilePermission.Readonly | 2;

/**
 * Written beside and renamed, so that a full disk or a lost connection leaves what was there before. Throws where that
 * cannot be done, and where the file may not be written.
 */
export async function writeWhole(target: Uri, text: string, beside = besideOf(target)): Promise<void> {
  const bytes = new TextEncoder().encode(text);
  const is = await statOf(target);
  if (((is?.permissions ?? 0) & UNWRITABLE) !== 0) throw FileSystemError.NoPermissions(target);
  // A link stays one: what it leads to is written in its place.
  if (is && (is.type & FileType.SymbolicLink) !== 0) return workspace.fs.writeFile(target, bytes);
  try {
    await workspace.fs.writeFile(beside, bytes);
    await workspace.fs.rename(beside, target, { overwrite: true });
  } catch (error) {
    // The editor takes away what is there before it gives the other its name. Then the new one stays, here or beside.
    const taken = is !== null && (await statOf(target)) === null;
    if (taken) await workspace.fs.writeFile(target, bytes);
    await workspace.fs.delete(beside).then(undefined, () => undefined);
    if (!taken) throw error;
  }
}

/** A name of its own for each writing: `.scribeline-….tmp`, or after another beginning. */
export function besideOf(target: Uri, begins = '.scribeline-'): Uri {
  return Uri.joinPath(target, '..', `${begins}${Math.random().toString(36).slice(2)}.tmp`);
}

function statOf(uri: Uri): Thenable<FileStat | null> {
  return workspace.fs.stat(uri).then(
    (stat) => stat,
    () => null,
  );
}
