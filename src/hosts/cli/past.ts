/** Past jobs as files: an index kept in the user's cache folder, one per folder of notes, and what it is made from. */
import { createHash } from 'node:crypto';
import {
  closeSync,
  constants,
  mkdirSync,
  openSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import process from 'node:process';
import { JobIndex, type Refreshed } from '../../archive/job-index';
import type { Notes } from '../../archive/notes';
import { type NoteFile, ShopFiles, findNotes, readText, reason, shownPath } from './files';
import { writeWhole } from './write-whole';

/** Notes below these paths; names are as the command line shows them. */
class NoteFiles implements Notes {
  readonly shops = new ShopFiles();
  readonly unreadable: { readonly path: string; readonly why: string }[] = [];
  private readonly files = new Map<string, NoteFile>();
  private summed: { readonly all: string; readonly sum: string } | null = null;

  constructor(
    private readonly folder: string,
    private readonly current: string,
  ) {}

  list(): Promise<readonly { readonly path: string; readonly mark: string }[]> {
    const found = findNotes([this.folder], this.current);
    for (const { path, why } of found.unreadable)
      this.unreadable.push({ path: shownPath(path, this.current), why });
    const stamps = found.notes.flatMap((note) => {
      const path = shownPath(note.path, this.current);
      const is = statSync(note.path, { throwIfNoEntry: false });
      if (!is) return []; // gone since it was listed
      this.files.set(path, note);
      // A changed card changes results, so it changes the mark of every note it serves.
      const shops = this.shops.of(note).map(({ file, text }) => `${file}\n${text}`);
      const times = `${is.mtimeMs} ${is.ctimeMs} ${is.size}`;
      return [{ path, mark: `${times}${fresh(is.mtimeMs)} ${shops.length === 0 ? '' : this.sumOf(shops)}` }];
    });
    return Promise.resolve(stamps);
  }

  /** One list of shop files serves many notes: its sum is worked out once. */
  private sumOf(shops: readonly string[]): string {
    const all = shops.join('\0');
    if (this.summed?.all !== all) this.summed = { all, sum: sha(all) };
    return this.summed.sum;
  }

  read(path: string): Promise<{ readonly text: string; readonly shops: ReturnType<ShopFiles['of']> }> {
    const note = this.files.get(path);
    if (!note) return Promise.reject(new Error('there is no such note'));
    try {
      return Promise.resolve({ text: readText(note.path), shops: this.shops.of(note) });
    } catch (error) {
      return Promise.reject(new Error(reason(error)));
    }
  }
}

const sha = (text: string): string => createHash('sha256').update(text).digest('hex').slice(0, 20);

/** How coarse the times of some disks are, in ms. */
const COARSE = 2000;

/**
 * A note written just now may be written again within the same tick of the disk's clock, and keep its length: what is known
 * of it counts for this time only.
 */
function fresh(written: number): string {
  const now = Date.now();
  return Math.abs(now - written) < COARSE ? ` at ${now}` : '';
}

/** The user's cache folder by the custom of the system. */
function cacheFolder(): string {
  const { env, platform } = process;
  const home = homedir();
  const base =
    platform === 'win32'
      ? (env['LOCALAPPDATA'] ?? join(home, 'AppData', 'Local'))
      : platform === 'darwin'
        ? join(home, 'Library', 'Caches')
        : env['XDG_CACHE_HOME'] || join(home, '.cache');
  return join(base, 'scribeline');
}

export interface Past {
  readonly index: JobIndex;
  readonly refreshed: Refreshed;
  readonly unreadable: readonly { readonly path: string; readonly why: string }[];
}

/**
 * The index of a folder's notes, brought up to date. What was kept from before spares reading notes that did not change;
 * where nothing can be kept it works all the same.
 */
export async function pastJobs(folder: string, current: string, version: string): Promise<Past> {
  const notes = new NoteFiles(folder, current);
  const index = new JobIndex();
  // Names in the index are relative to the current folder, so it is part of what the file is for.
  const file = join(cacheFolder(), `${sha(`${resolve(current, folder)}\n${current}`)}.index`);
  await load(index, file, version);
  const refreshed = await index.refresh(notes);
  const changes = refreshed.gone > 0 ? null : index.changes(version);
  if (changes === null) keep(file, await index.save(version));
  else if (changes !== '') add(file, changes);
  return {
    index,
    refreshed,
    unreadable: [...notes.unreadable, ...notes.shops.unreadable, ...refreshed.unreadable],
  };
}

async function load(index: JobIndex, file: string, version: string): Promise<void> {
  try {
    await index.load(readFileSync(file, 'utf8'), version);
  } catch (error) {
    // None yet; or something else stands in its place, which would be in the way of the new one.
    if (!(error instanceof Error && 'code' in error && error.code === 'ENOENT')) clear(file);
  }
}

function clear(file: string): void {
  try {
    rmSync(file, { recursive: true, force: true });
  } catch {
    // then nothing can be kept here
  }
}

/** Put behind what stands there by now; torn, or where another run wrote all anew meanwhile, it only is read again. */
function add(path: string, changes: string): void {
  try {
    const file = openSync(path, constants.O_WRONLY | constants.O_APPEND);
    try {
      writeFileSync(file, changes);
    } finally {
      closeSync(file);
    }
  } catch {
    // nothing to be kept here
  }
}

/** Where nothing can be kept, the next search reads everything again. */
function keep(file: string, text: string): void {
  try {
    mkdirSync(dirname(file), { recursive: true });
    // Its sums tell what a loss of power left of it.
    writeWhole(file, text, { mode: 0o600, sure: false });
  } catch {
    // nothing to be kept here
  }
}
