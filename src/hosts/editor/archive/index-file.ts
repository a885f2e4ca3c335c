/** The index between two starts of the editor, in the workspace's own storage; nowhere without a workspace. */
import { type ExtensionContext, type LogOutputChannel, Uri, workspace } from 'vscode';
import type { JobIndex } from '../../../archive/job-index';
import { versionOf } from '../version';
import { besideOf, writeWhole } from '../write-whole';
import { breathe } from './workspace-notes';

const NAME = 'past-jobs.index';
/** What an editor that was killed while writing left behind; another window may still be writing a young one. */
const BESIDE = /^past-jobs\..*\.tmp$/;
const LEFT = 3_600_000;

export class IndexFile {
  constructor(
    private readonly context: ExtensionContext,
    private readonly log: LogOutputChannel,
  ) {}

  /** What reads back whole is taken; the rest of the notes will be read again. */
  async load(index: JobIndex): Promise<void> {
    const folder = this.context.storageUri;
    if (!folder) return;
    try {
      const text = new TextDecoder().decode(await workspace.fs.readFile(Uri.joinPath(folder, NAME)));
      const kept = await index.load(text, versionOf(this.context), breathe);
      this.log.debug(`past jobs: ${kept} kept from before`);
    } catch {
      // none yet
    }
  }

  /** Whole or not at all: written beside and renamed. */
  async keep(index: JobIndex): Promise<void> {
    const folder = this.context.storageUri;
    if (!folder) return;
    const file = Uri.joinPath(folder, NAME);
    try {
      await workspace.fs.createDirectory(folder);
      await this.sweep(folder);
      const text = await index.save(versionOf(this.context), breathe);
      await writeWhole(file, text, besideOf(file, 'past-jobs.'));
    } catch (error) {
      this.log.warn(`past jobs: the index cannot be kept: ${String(error)}`);
    }
  }

  private async sweep(folder: Uri): Promise<void> {
    for (const [name] of await workspace.fs.readDirectory(folder)) {
      if (!BESIDE.test(name)) continue;
      const uri = Uri.joinPath(folder, name);
      const { mtime } = await workspace.fs.stat(uri);
      if (Date.now() - mtime > LEFT) await workspace.fs.delete(uri);
    }
  }
}
