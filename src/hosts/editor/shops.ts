/**
 * The shop files: `shop.md` in a note's folder and above, up to the workspace folder. Read through the workspace's own
 * file system, so that they are found in a virtual workspace too; an open one counts as it stands in the editor.
 */
import {
  Disposable,
  EventEmitter,
  FileSystemError,
  type LogOutputChannel,
  RelativePattern,
  type TextDocument,
  Uri,
  workspace,
} from 'vscode';
import type { Shop } from '../../engine/index';
import { isOwnPage, unsavedText } from './texts';

const NAME = 'shop.md';
export const isShopFile = ({ path }: Uri): boolean => path.endsWith(`/${NAME}`);

interface File {
  readonly uri: Uri;
  /** Undefined until read; null when there is no such file. */
  text: string | null | undefined;
  /** Grows with every read and change; an answer for an older turn is dropped. */
  turn: number;
  reading: Promise<void> | null;
}

export class Shops implements Disposable {
  private readonly changed = new EventEmitter<void>();
  /** The cards of some note changed, or were read after somebody asked for them too early. */
  readonly onDidChange = this.changed.event;
  private readonly files = new Map<string, File>();
  private readonly known = new Map<string, { readonly stamp: number; readonly shops: readonly Shop[] }>();
  private readonly watched = new Set<string>();
  private readonly owned: Disposable[];
  private stamp = 0;
  /** Whether somebody could not wait and had to be told that the cards are not there yet. */
  private awaited = false;

  constructor(private readonly log: LogOutputChannel) {
    const edited = (document: TextDocument): void => {
      const file = this.fileOf(document.uri);
      if (file) this.set(file, document.getText());
    };
    this.owned = [
      this.changed,
      workspace.onDidOpenTextDocument(edited),
      workspace.onDidChangeTextDocument(({ document }) => edited(document)),
      workspace.onDidCloseTextDocument(({ uri }) => this.readAgain(uri)),
      workspace.onDidChangeWorkspaceFolders(() => this.announce()),
      this.watch(`**/${NAME}`),
    ];
  }

  /** The shop files in force for a note, nearest first. */
  async of(note: Uri): Promise<readonly Shop[]> {
    for (;;) {
      const waiting = this.filesFor(note).flatMap((file) =>
        file.text === undefined ? [this.read(file)] : [],
      );
      if (waiting.length === 0) return this.collected(note);
      await Promise.all(waiting);
    }
  }

  /** The same at once, or null while they are being read; `onDidChange` tells when they are there. */
  now(note: Uri): readonly Shop[] | null {
    const missing = this.filesFor(note).filter((file) => file.text === undefined);
    if (missing.length === 0) return this.collected(note);
    this.awaited = true;
    for (const file of missing) void this.read(file);
    return null;
  }

  dispose(): void {
    Disposable.from(...this.owned).dispose();
  }

  /** The same list as long as nothing changed, so that a sheet can see by identity that it is up to date. */
  private collected(note: Uri): readonly Shop[] {
    const key = note.toString();
    const known = this.known.get(key);
    if (known?.stamp === this.stamp) return known.shops;
    const shops = this.filesFor(note).flatMap(({ uri, text }) =>
      typeof text === 'string' ? [{ file: uri.toString(), text }] : [],
    );
    this.known.set(key, { stamp: this.stamp, shops });
    return shops;
  }

  private filesFor(note: Uri): readonly File[] {
    return placesFor(note).map((uri) => {
      const key = uri.toString();
      let file = this.files.get(key);
      if (!file) {
        file = { uri, text: unsavedText(uri), turn: 0, reading: null };
        this.files.set(key, file);
        this.watchOutside(uri);
      }
      return file;
    });
  }

  private fileOf(uri: Uri): File | undefined {
    return isShopFile(uri) ? this.files.get(uri.toString()) : undefined;
  }

  private read(file: File): Promise<void> {
    file.reading ??= this.readNow(file).finally(() => {
      file.reading = null;
    });
    return file.reading;
  }

  private async readNow(file: File): Promise<void> {
    let text: string | null | undefined = unsavedText(file.uri);
    const turn = ++file.turn;
    if (text === undefined) text = await this.fileText(file.uri);
    // A change that came while reading knows better.
    if (file.turn === turn) this.set(file, text);
  }

  /** What the file says; null when there is none or it cannot be read. */
  private async fileText(uri: Uri): Promise<string | null> {
    try {
      return new TextDecoder().decode(await workspace.fs.readFile(uri));
    } catch (error) {
      const absent = error instanceof FileSystemError && error.code === 'FileNotFound';
      if (!absent) this.log.warn(`${uri.toString()} cannot be read: ${String(error)}`);
      return null;
    }
  }

  private set(file: File, text: string | null): void {
    file.turn++;
    if (file.text === text) return;
    const first = file.text === undefined;
    file.text = text;
    this.stamp++;
    if (!first || this.awaited) this.announce();
  }

  private announce(): void {
    this.awaited = false;
    this.stamp++;
    this.changed.fire();
  }

  private readAgain(uri: Uri): void {
    const file = this.fileOf(uri);
    // Not `read`: one that is under way may have missed the change.
    if (file) void this.readNow(file);
  }

  private watch(pattern: string | RelativePattern): Disposable {
    const watcher = workspace.createFileSystemWatcher(pattern);
    const again = (uri: Uri): void => this.readAgain(uri);
    return Disposable.from(
      watcher,
      watcher.onDidCreate(again),
      watcher.onDidChange(again),
      watcher.onDidDelete(again),
    );
  }

  /** The workspace's watcher does not see the folder of a note opened by itself. */
  private watchOutside(uri: Uri): void {
    const folder = Uri.joinPath(uri, '..');
    if (workspace.getWorkspaceFolder(uri) || this.watched.has(folder.toString())) return;
    this.watched.add(folder.toString());
    this.owned.push(this.watch(new RelativePattern(folder, NAME)));
  }
}

/** Where a note's shop files may be, nearest first. An unsaved note counts as lying in the first workspace folder. */
function placesFor(note: Uri): readonly Uri[] {
  if (isOwnPage(note)) return [];
  if (note.scheme === 'untitled') {
    const root = workspace.workspaceFolders?.[0];
    return root ? [Uri.joinPath(root.uri, NAME)] : [];
  }
  const bare = note.with({ query: '', fragment: '' });
  const top = workspace.getWorkspaceFolder(bare)?.uri.path.replace(/\/$/, '');
  const places: Uri[] = [];
  for (let folder = Uri.joinPath(bare, '..'); ; folder = Uri.joinPath(folder, '..')) {
    const place = Uri.joinPath(folder, NAME);
    // A shop file's own cards stand in the note itself.
    if (place.path !== bare.path) places.push(place);
    const path = folder.path.replace(/\/$/, '');
    if (top === undefined || path === '' || path === top) return places;
  }
}
