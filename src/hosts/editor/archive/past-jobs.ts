/**
 * The workspace's notes as an index that commands and views ask. Read when first asked for, kept fresh by watching files,
 * and kept between starts in the workspace's own storage: a restart reads only what changed.
 */
import {
  Disposable,
  EventEmitter,
  type ExtensionContext,
  FileType,
  type LogOutputChannel,
  ProgressLocation,
  RelativePattern,
  Uri,
  l10n,
  window,
  workspace,
} from 'vscode';
import { JobIndex } from '../../../archive/job-index';
import type { Notes, Stamp } from '../../../archive/notes';
import { sumOf } from '../../../archive/sum';
import type { Shop } from '../../../engine/index';
import type { Shops } from '../shops';
import { textOf, unsavedText } from '../texts';
import { isNote } from '../workspace';

/** Files are asked for their time this many at once: a remote folder answers slowly, but not to all at a time. */
const AT_ONCE = 50;
/** A burst of changes, such as another branch, is read in one go, in ms. */
const SETTLE = 300;
/** How long changes of notes may wait until the index is kept again, in ms. */
const KEEP = 10_000;
const EXCLUDED = '**/{node_modules,.*}/**';

class WorkspaceNotes implements Notes {
  readonly uris = new Map<string, Uri>();
  private readonly sums = new Map<string, { readonly text: string; readonly sum: string }>();

  constructor(private readonly shops: Shops) {}

  async list(): Promise<readonly Stamp[]> {
    const found = await jobFiles();
    this.uris.clear();
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
    if (unsaved !== undefined) return { path, mark: `unsaved ${sumOf(unsaved)} ${cards}` };
    try {
      const { mtime, size, type } = await workspace.fs.stat(uri);
      if ((type & FileType.File) === 0) return null;
      return { path, mark: `${mtime} ${size} ${cards}` };
    } catch {
      this.uris.delete(path);
      return null;
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

  async read(path: string): Promise<{ readonly text: string; readonly shops: readonly Shop[] }> {
    const uri = this.uris.get(path);
    if (!uri) throw new Error('there is no such note');
    return { text: await textOf(uri), shops: await this.shops.of(uri) };
  }
}

/** Notes in the folders that the setting names, or in all. */
async function jobFiles(): Promise<readonly Uri[]> {
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

const nameOf = (uri: Uri): string => workspace.asRelativePath(uri);

export class PastJobs implements Disposable {
  private readonly changed = new EventEmitter<void>();
  /** Answers may be others now. */
  readonly onDidChange = this.changed.event;
  private readonly index = new JobIndex();
  private readonly notes: WorkspaceNotes;
  private readonly owned: Disposable[] = [this.changed];
  private reading: Promise<void> | null = null;
  private whole = false;
  private loaded = false;
  /** Notes changed since they were last looked at; `all` when cards or folders did. */
  private readonly waiting = new Map<string, Uri>();
  private all = false;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private keeping: ReturnType<typeof setTimeout> | undefined;

  constructor(
    private readonly context: ExtensionContext,
    private readonly shops: Shops,
    private readonly log: LogOutputChannel,
  ) {
    this.notes = new WorkspaceNotes(shops);
  }

  /** From the first question on changes are followed; before it nothing is known that could be out of date. */
  private follow(): void {
    if (this.owned.length > 1) return;
    const watcher = workspace.createFileSystemWatcher('**/*.md');
    const changed = (uri: Uri): void => this.later(uri);
    this.owned.push(
      watcher,
      watcher.onDidCreate(changed),
      watcher.onDidChange(changed),
      watcher.onDidDelete(changed),
      workspace.onDidSaveTextDocument((document) => isNote(document) && this.later(document.uri)),
      workspace.onDidChangeWorkspaceFolders(() => this.laterAll()),
      workspace.onDidChangeConfiguration((event) => {
        if (event.affectsConfiguration('scribeline.jobs.folders')) this.laterAll();
      }),
      this.shops.onDidChange(() => this.laterAll()),
    );
  }

  /** The index as it is, when it was read already; else null, and it is read in the background. */
  get now(): JobIndex | null {
    if (!this.whole && !this.reading) void this.ready(false);
    return this.whole ? this.index : null;
  }

  /** The index with all notes in it; null when the person ended the reading. */
  async ready(shown = true): Promise<JobIndex | null> {
    while (!this.whole || this.reading) {
      this.reading ??= this.readAll(shown).finally(() => {
        this.reading = null;
      });
      await this.reading;
      if (!this.whole) return null;
    }
    return this.index;
  }

  uri(path: string): Uri | undefined {
    return this.notes.uris.get(path);
  }

  nameOf(uri: Uri): string {
    return nameOf(uri);
  }

  dispose(): void {
    clearTimeout(this.timer);
    if (this.keeping) void this.keep();
    Disposable.from(...this.owned).dispose();
  }

  private readAll(shown: boolean): Promise<void> {
    if (!shown) return this.refresh(() => true);
    const title = l10n.t('Reading past jobs');
    return Promise.resolve(
      window.withProgress(
        { location: ProgressLocation.Notification, title, cancellable: true },
        (progress, token) =>
          this.refresh((done, all) => {
            progress.report({ message: `${done} / ${all}`, increment: all === 0 ? 0 : 2000 / all });
            return !token.isCancellationRequested;
          }),
      ),
    );
  }

  private async refresh(told: (done: number, all: number) => boolean): Promise<void> {
    this.follow();
    await this.load();
    const { whole, read, gone, kept, unreadable } = await this.index.refresh(this.notes, told);
    this.whole = whole;
    this.log.debug(`past jobs: ${read} read, ${kept} kept, ${gone} gone${whole ? '' : ', ended early'}`);
    for (const { path, why } of unreadable) this.log.warn(`past jobs: ${path} cannot be read: ${why}`);
    if (read > 0 || gone > 0) await this.keep();
    this.changed.fire();
  }

  private later(uri: Uri): void {
    this.waiting.set(uri.toString(), uri);
    this.schedule();
  }

  private laterAll(): void {
    this.all = true;
    this.schedule();
  }

  private schedule(): void {
    // Nobody asked yet: the first question will read everything as it then stands.
    if (!this.whole && !this.reading) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.catchUp(), SETTLE);
  }

  private async catchUp(): Promise<void> {
    await this.reading;
    const [uris, all] = [[...this.waiting.values()], this.all];
    this.waiting.clear();
    this.all = false;
    if (all) {
      this.reading ??= this.refresh(() => true).finally(() => {
        this.reading = null;
      });
      return this.reading;
    }
    const wanted = new Set((await jobFiles()).map(String));
    let changed = false;
    for (const uri of uris) changed = (await this.updateOne(uri, wanted.has(uri.toString()))) || changed;
    if (!changed) return;
    // The whole index is written at a time, so many saves of notes make one; a loss only means reading those notes again.
    this.keeping ??= setTimeout(() => void this.keep(), KEEP);
    this.changed.fire();
  }

  private async updateOne(uri: Uri, wanted: boolean): Promise<boolean> {
    const path = nameOf(uri);
    const stamp = wanted ? await this.notes.stamp(uri) : null;
    try {
      if (stamp) await this.index.update(this.notes, stamp);
      else this.index.remove(path);
    } catch (error) {
      this.index.remove(path);
      this.log.warn(`past jobs: ${path} cannot be read: ${String(error)}`);
    }
    return true;
  }

  /** Where the index is kept; null without a workspace. */
  private get file(): Uri | null {
    return this.context.storageUri ? Uri.joinPath(this.context.storageUri, 'past-jobs.index') : null;
  }

  private async load(): Promise<void> {
    if (this.loaded || !this.file) return;
    this.loaded = true;
    try {
      const text = new TextDecoder().decode(await workspace.fs.readFile(this.file));
      this.log.debug(`past jobs: ${this.index.load(text)} kept from before`);
    } catch {
      // none yet
    }
  }

  /** Whole or not at all: written beside and renamed. */
  private async keep(): Promise<void> {
    clearTimeout(this.keeping);
    this.keeping = undefined;
    if (!this.file || !this.context.storageUri) return;
    const beside = Uri.joinPath(
      this.context.storageUri,
      `past-jobs.${Math.random().toString(36).slice(2)}.tmp`,
    );
    try {
      await workspace.fs.createDirectory(this.context.storageUri);
      await workspace.fs.writeFile(beside, new TextEncoder().encode(this.index.save()));
      await workspace.fs.rename(beside, this.file, { overwrite: true });
    } catch (error) {
      this.log.warn(`past jobs: the index cannot be kept: ${String(error)}`);
    }
  }
}
