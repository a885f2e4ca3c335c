/** Which files a check reads: the notes themselves and the shop files in force for each. */
import { readFileSync, readdirSync, statSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import type { Shop } from '../../engine/index';

/** The file that holds a shop's cards. */
const SHOP = 'shop.md';

export interface NoteFile {
  /** Absolute. */
  readonly path: string;
  /** The last folder upward in which a shop file counts, absolute. */
  readonly top: string;
}

export interface Unreadable {
  readonly path: string;
  readonly why: string;
}

export interface Found {
  readonly notes: readonly NoteFile[];
  readonly unreadable: readonly Unreadable[];
}

/**
 * The notes that the paths mean, each once, in no particular order. A folder means every `*.md` in it and in its
 * folders, `node_modules` and names that begin with a dot apart. Links to folders are not followed, so a ring of links
 * ends.
 */
export function findNotes(paths: readonly string[], current: string): Found {
  const notes = new Map<string, NoteFile>();
  const unreadable: Unreadable[] = [];
  const add = (path: string, top: string): void => {
    if (!notes.has(path)) notes.set(path, { path, top });
  };
  const walk = (folder: string, top: string): void => {
    let entries;
    try {
      entries = readdirSync(folder, { withFileTypes: true });
    } catch (error) {
      unreadable.push({ path: folder, why: reason(error) });
      return;
    }
    for (const entry of entries) {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) {
        if (!entry.name.startsWith('.') && entry.name !== 'node_modules') walk(path, top);
      } else if (
        entry.name.endsWith('.md') &&
        (entry.isFile() || (entry.isSymbolicLink() && !isFolder(path)))
      ) {
        add(path, top);
      }
    }
  };
  for (const given of paths) {
    const path = resolve(current, given);
    try {
      const is = statSync(path);
      if (is.isDirectory()) walk(path, path);
      else if (is.isFile()) add(path, within(path, current) ? current : dirname(path));
      else unreadable.push({ path, why: 'it is neither a file nor a folder' });
    } catch (error) {
      unreadable.push({ path, why: reason(error) });
    }
  }
  return { notes: [...notes.values()], unreadable };
}

/** A note's text as an editor would show it: UTF-8, without a byte order mark. Throws where it cannot be read. */
export function readText(path: string): string {
  const text = readFileSync(path, 'utf8');
  return text.startsWith('\ufeff') ? text.slice(1) : text;
}

/** One note with the folder up to which its shop files count. */
export function noteAt(given: string, current: string): NoteFile {
  const path = resolve(current, given);
  return findNotes([path], current).notes[0] ?? { path, top: dirname(path) };
}

/** Reads shop files, each once however many notes it serves. */
export class ShopFiles {
  readonly #read = new Map<string, Shop | null>();
  readonly unreadable: Unreadable[] = [];

  /** The shop files in force for a note, nearest first; a shop file is not in force for itself. */
  of({ path, top }: NoteFile): readonly Shop[] {
    const shops: Shop[] = [];
    for (let folder = dirname(path); ; folder = dirname(folder)) {
      const file = join(folder, SHOP);
      const shop = file === path ? null : this.#shop(file);
      if (shop) shops.push(shop);
      if (folder === top || !within(folder, top) || folder === dirname(folder)) return shops;
    }
  }

  #shop(file: string): Shop | null {
    let shop = this.#read.get(file);
    if (shop === undefined) {
      shop = null;
      try {
        if (statSync(file, { throwIfNoEntry: false })?.isFile()) shop = { file, text: readText(file) };
      } catch (error) {
        this.unreadable.push({ path: file, why: reason(error) });
      }
      this.#read.set(file, shop);
    }
    return shop;
  }
}

/** A path as it is shown: from the current folder, with `/`. */
export function shownPath(path: string, current: string): string {
  const way = relative(current, path).split(sep).join('/');
  return way === '' ? '.' : way;
}

/** Whether a path lies in a folder or is it. */
export function within(path: string, folder: string): boolean {
  const way = relative(folder, path);
  return way === '' || (!way.startsWith(`..${sep}`) && way !== '..' && resolve(folder, way) === path);
}

function isFolder(path: string): boolean {
  try {
    return statSync(path).isDirectory();
  } catch {
    return false; // a link to nowhere: reading it will say so
  }
}

const REASONS = new Map([
  ['ENOENT', 'there is no such file or folder'],
  ['EACCES', 'it may not be read'],
  ['EPERM', 'it may not be read'],
  ['ELOOP', 'its links go round in a ring'],
  ['EISDIR', 'it is a folder'],
]);
const REASONS_WRITING = new Map([
  ...REASONS,
  ['EACCES', 'it may not be written'],
  ['EPERM', 'it may not be written'],
  ['EROFS', 'it may not be written'],
  ['ENOSPC', 'there is no room left on the disk'],
  ['EDQUOT', 'there is no room left on the disk'],
  ['EFBIG', 'it would be larger than a file may be here'],
]);

/** Why a file could not be read, or written, in words. */
export function reason(error: unknown, what: 'read' | 'write' = 'read'): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const words = (what === 'read' ? REASONS : REASONS_WRITING).get(code);
  return words ?? (error instanceof Error ? error.message : String(error));
}
