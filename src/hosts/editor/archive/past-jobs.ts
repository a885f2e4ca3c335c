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
  type TextDocument,
  type Uri,
  l10n,
  window,
  workspace,
} from 'vscode';
import { CardChanges } from '../../../archive/card-changes';
import { JobIndex } from '../../../archive/job-index';
import type { Shops } from '../shops';
import { isNote } from '../workspace';
import { IndexFile } from './index-file';
import { WorkspaceNotes, jobFiles, nameOf } from './workspace-notes';

/** A burst of changes, such as another branch, is read in one go, in ms. */
const SETTLE = 300;
/** How long changes of notes may wait until the index is kept again, in ms. */
const KEEP = 10_000;

/** Notes read of those to read; of none when they are still being listed. */
interface Far {
  readonly done: number;
  readonly all: number;
}

export class PastJobs implements Disposable {
  private readonly changed = new EventEmitter<void>();
  private readonly moved = new EventEmitter<void>();
  /** Answers may be others now. */
  readonly onDidChange = this.changed.event;
  private readonly index = new JobIndex();
  private readonly notes: WorkspaceNotes;
  private readonly file: IndexFile;
  private readonly owned: Disposable[] = [this.changed, this.moved];
  private following = false;
  private reading: Promise<void> | null = null;
  private whole = false;
  /** The person ended the reading: nothing begins it again but another question of theirs. */
  private ended = false;
  /** While notes are read: more of them can be asked. */
  readonly onDidRead = this.moved.event;
  private far: Far = { done: 0, all: 0 };
  private readonly cards = new CardChanges();
  private loaded = false;
  /** Notes changed since they were last looked at; `all` when cards or folders did. */
  private readonly waiting = new Map<string, Uri>();
  private all = false;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private keeping: ReturnType<typeof setTimeout> | undefined;

  constructor(
    context: ExtensionContext,
    private readonly shops: Shops,
    private readonly log: LogOutputChannel,
  ) {
    this.notes = new WorkspaceNotes(shops);
    this.file = new IndexFile(context, log);
  }

  /** From the first question on changes are followed; before it nothing is known that could be out of date. */
  private follow(): void {
    if (this.following) return;
    this.following = true;
    const watcher = workspace.createFileSystemWatcher('**/*.md');
    const changed = (uri: Uri): void => this.later(uri);
    this.owned.push(
      watcher,
      watcher.onDidCreate(changed),
      watcher.onDidChange(changed),
      watcher.onDidDelete(changed),
      workspace.onDidSaveTextDocument((document) => isNote(document) && this.later(document.uri)),
      workspace.onDidCloseTextDocument((document) => this.givenUp(document)),
      workspace.onDidChangeTextDocument(({ document }) => this.givenUp(document)),
      this.followFolders(),
      workspace.onDidChangeWorkspaceFolders(() => this.laterAll()),
      workspace.onDidChangeConfiguration((event) => {
        if (event.affectsConfiguration('scribeline.jobs.folders')) this.laterAll();
      }),
      this.shops.onDidChange(() => this.laterAll()),
    );
  }

  /** A note was read with changes that were then not saved. */
  private givenUp(document: TextDocument): void {
    if (!document.isDirty && this.notes.unsaved.has(document.uri.toString())) this.later(document.uri);
  }

  /** A folder that comes, goes or gets another name is told of by its own name, not by those of the notes in it. */
  private followFolders(): Disposable {
    const watcher = workspace.createFileSystemWatcher('**', false, true, false);
    const isFolder = async (uri: Uri): Promise<boolean> => {
      if (uri.path.endsWith('.md')) return false;
      try {
        return ((await workspace.fs.stat(uri)).type & FileType.Directory) !== 0;
      } catch {
        return false;
      }
    };
    return Disposable.from(
      watcher,
      watcher.onDidCreate(async (uri) => (await isFolder(uri)) && this.laterAll()),
      watcher.onDidDelete((uri) => this.notes.folders.has(uri.toString()) && this.laterAll()),
    );
  }

  /** The index as far as it is read; `ready` has all of it. */
  get soFar(): JobIndex {
    return this.index;
  }

  /** How far the reading is; null when none is under way. */
  get progress(): Far | null {
    return this.reading && !this.ended && !this.whole ? this.far : null;
  }

  /** Whether the person ended the reading, so that answers are of some notes only. */
  get isPart(): boolean {
    return this.ended && !this.whole;
  }

  /** The index with all notes in it; null when the person ended the reading. Only a question of theirs begins it again. */
  async ready(shown = true): Promise<JobIndex | null> {
    if (shown) this.ended = false;
    while (!this.whole || this.reading) {
      if (this.ended) return null;
      this.reading ??= this.refresh().finally(() => {
        this.reading = null;
      });
      await (shown ? this.showing(this.reading) : this.reading);
    }
    return this.index;
  }

  /** The same for who cannot wait longer than this, in ms: null when it is not there by then. */
  async within(ms: number): Promise<JobIndex | null> {
    if (this.whole) return this.index;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const late = new Promise<null>((done) => (timer = setTimeout(() => done(null), ms)));
    return Promise.race([this.ready(false), late]).finally(() => clearTimeout(timer));
  }

  /** Findings that jobs have only since a card changed, by path. */
  get sinceCards(): ReadonlyMap<string, readonly string[]> {
    return this.cards.found;
  }

  /** They have been seen: cards count as they are now. */
  cardsSeen(): void {
    this.cards.seen();
    this.changed.fire();
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

  private showing(reading: Promise<void>): Thenable<void> {
    const title = l10n.t('Reading past jobs');
    const options = { location: ProgressLocation.Notification, title, cancellable: true };
    return window.withProgress(options, (progress, token) => {
      let before = 0;
      const report = (): void => {
        const { done, all } = this.far;
        if (all === 0) return;
        progress.report({
          message: l10n.t('{0} of {1} notes', done, all),
          increment: (100 * (done - before)) / all,
        });
        before = done;
      };
      const following = Disposable.from(
        this.onDidRead(report),
        token.onCancellationRequested(() => {
          this.ended = true;
          this.changed.fire();
        }),
      );
      report();
      return reading.finally(() => following.dispose());
    });
  }

  private async refresh(): Promise<void> {
    this.follow();
    await this.load();
    this.far = { done: 0, all: 0 };
    this.cards.before(this.index.entries());
    const { whole, read, gone, kept, unreadable } = await this.index.refresh(this.notes, (done, all) => {
      this.far = { done, all };
      this.moved.fire();
      return !this.ended;
    });
    this.cards.after(this.index.entries());
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
      this.reading ??= this.refresh().finally(() => {
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
    this.cards.forget(path);
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

  private async load(): Promise<void> {
    if (this.loaded) return;
    this.loaded = true;
    await this.file.load(this.index);
  }

  private async keep(): Promise<void> {
    clearTimeout(this.keeping);
    this.keeping = undefined;
    await this.file.keep(this.index);
  }
}
