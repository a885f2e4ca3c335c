/** The workspace's notes as the index asks for them: names, marks that tell a change, texts with the cards in force. */
import { FileType, RelativePattern, Uri, workspace } from 'vscode';
import { markOf } from '../../../archive/card-changes';
import type { Notes, Stamp } from '../../../archive/notes';
import { sumOf } from '../../../archive/sum';
import type { Shop } from '../../../engine/index';
import type { Shops } from '../shops';
import { textOf, unsavedText } from '../texts';

/** Files are asked for their time this many at once: a remote folder answers slowly, but not to all at a time. */
const AT_ONCE = 50;
const EXCLUDED = '**/{node_modules,.*}/**';

/** Lets what else the editor asks of its extensions come in between. */
export const breathe = (): Promise<void> => new Promise((done) => setTimeout(done, 0));

export class WorkspaceNotes implements Notes {
  readonly uris = new Map<string, Uri>();
  /** Every folder in which a note lies, itself or below. */
  readonly folders = new Set<string>();
  /** Notes read as they stood in the editor, not saved: they may yet be given up. */
  readonly unsaved = new Set<string>();
  private readonly sums = new Map<string, { readonly text: string; readonly sum: string }>();

  constructor(private readonly shops: Shops) {}

  async list(): Promise<readonly Stamp[]> {
    const found = await jobFiles();
    this.uris.clear();
    this.folders.clear();
    const stamps: Stamp[] = [];
    for (let i = 0; i < found.length; i += AT_ONCE) {
      const some = await Promise.all(found.slice(i, i + AT_ONCE).map((uri) => this.stamp(uri)));
      for (const stamp of some) if (stamp) stamps.push(stamp);
    }
    return stamps;
  }

  /** How the note stands now; null when it is gone. An open note counts as it stands in the editor. */
  async stamp(uri: Uri): Promise<Stamp | null> {
    const path = nameOf(uri);
    const cards = (await this.shops.of(uri)).map((shop) => this.sumOfShop(shop)).join(' ');
    const unsaved = unsavedText(uri);
    this.uris.set(path, uri);
    this.addFolders(uri);
    if (unsaved === undefined) this.unsaved.delete(uri.toString());
    else this.unsaved.add(uri.toString());
    if (unsaved !== undefined) return { path, mark: markOf(`unsaved ${sumOf(unsaved)}`, cards) };
    try {
      const { mtime, size, type } = await workspace.fs.stat(uri);
      if ((type & FileType.File) === 0) return null;
      return { path, mark: markOf(`${mtime} ${size}`, cards) };
    } catch {
      this.uris.delete(path);
      return null;
    }
  }

  private addFolders(uri: Uri): void {
    for (let folder = Uri.joinPath(uri, '..'); ; folder = Uri.joinPath(folder, '..')) {
      const name = folder.toString();
      if (this.folders.has(name)) return;
      this.folders.add(name);
      if (folder.path.length < 2) return;
    }
  }

  /** One shop file serves many notes: its sum is worked out once for each text of it. */
  private sumOfShop({ file, text }: Shop): string {
    const known = this.sums.get(file);
    if (known?.text === text) return known.sum;
    const sum = sumOf(`${file}\n${text}`);
    this.sums.set(file, { text, sum });
    return sum;
  }

  breathe = breathe;

  async read(path: string): Promise<{ readonly text: string; readonly shops: readonly Shop[] }> {
    const uri = this.uris.get(path);
    if (!uri) throw new Error('there is no such note');
    return { text: await textOf(uri), shops: await this.shops.of(uri) };
  }
}

/** Notes in the folders that the setting names, or in all. */
export async function jobFiles(): Promise<readonly Uri[]> {
  const named = workspace.getConfiguration('scribeline').get<readonly string[]>('jobs.folders', []);
  const folders = named.map((name) => name.trim().replace(/^\/+|\/+$/g, '')).filter((name) => name !== '');
  if (folders.length === 0) return workspace.findFiles('**/*.md', EXCLUDED);
  const found = new Map<string, Uri>();
  for (const root of workspace.workspaceFolders ?? [])
    for (const folder of folders)
      for (const uri of await workspace.findFiles(
        new RelativePattern(Uri.joinPath(root.uri, folder), '**/*.md'),
        EXCLUDED,
      ))
        found.set(uri.toString(), uri);
  return [...found.values()];
}

export const nameOf = (uri: Uri): string => workspace.asRelativePath(uri);
