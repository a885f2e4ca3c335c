/** What is measured of past jobs: a workshop of 10,000 notes against reading and searching the same files. */
import { mkdtempSync, readFileSync, readdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { entryOf } from '../../src/archive/entry';
import { find } from '../../src/archive/find';
import { JobIndex } from '../../src/archive/job-index';
import type { Notes } from '../../src/archive/notes';
import { readQuery } from '../../src/archive/query';
import { pastJobs } from '../../src/hosts/cli/past';
import { MemoryNotes, jobNote } from '../archive/workshop';
import type { Side } from './sides';

const NOTES = 10_000;
const QUERY = 'ball 20 mm .. 25 mm, used speed > 1000 rpm';
/** Notes made up anew would be most of the work, so some are used again under other names. */
const DIFFERENT = 500;

function workshop(count: number): JobIndex {
  const index = new JobIndex();
  const entries = Array.from({ length: Math.min(count, DIFFERENT) }, (_, i) => entryOf(jobNote(i + 1)));
  for (let i = 0; i < count; i++) {
    const entry = entries[i % entries.length];
    if (entry) index.put({ path: `jobs/${i}.md`, mark: String(i), entry: structuredClone(entry) });
  }
  return index;
}

function asked(index: JobIndex): number {
  const query = readQuery(QUERY);
  if ('problem' in query) throw new Error(query.problem.says);
  return find(index, query.terms).hits.length;
}

export function valueQuery(count = NOTES): Side {
  const index = workshop(count);
  if (asked(index) === 0) throw new Error('nothing found');
  return { run: () => asked(index) };
}

/** The same notes as files, written long enough ago that their times can be relied on; they are made once. */
function files(count: number): string {
  const folder = mkdtempSync(join(tmpdir(), 'scribeline-'));
  process.on('exit', () => rmSync(folder, { recursive: true }));
  const old = new Date('2025-01-02T03:04:05Z');
  for (let i = 0; i < count; i++) {
    const file = join(folder, `${i}.md`);
    writeFileSync(file, jobNote((i % DIFFERENT) + 1));
    utimesSync(file, old, old);
  }
  return folder;
}

const texts = (folder: string): readonly string[] =>
  readdirSync(folder).map((name) => readFileSync(join(folder, name), 'utf8'));

export function reading(): Side {
  const folder = files(NOTES);
  return { run: () => texts(folder).length };
}

/** A plain search of the files' texts for a word that a few notes hold. */
export function textSearch(): Side {
  const folder = files(NOTES);
  return { run: () => texts(folder).filter((text) => text.includes('customer in a hurry')).length };
}

/** Everything the command line does before it answers, without what was kept from before. */
export function firstIndex(count: number): Side {
  const [folder, kept] = [files(count), cache()];
  return {
    before: () => rmSync(kept, { recursive: true, force: true }),
    run: () => whole(folder, count),
  };
}

/** The same with it, and with so many notes changed since. */
export async function restart(changed: number): Promise<Side> {
  cache();
  const folder = files(NOTES);
  await whole(folder, NOTES);
  let turn = 0;
  return {
    before() {
      turn++;
      for (let i = 0; i < changed; i++)
        writeFileSync(join(folder, `${i}.md`), jobNote((turn % DIFFERENT) + 1, 2));
    },
    run: () => whole(folder, NOTES),
  };
}

function cache(): string {
  const kept = mkdtempSync(join(tmpdir(), 'scribeline-'));
  process.on('exit', () => rmSync(kept, { recursive: true, force: true }));
  process.env['XDG_CACHE_HOME'] = kept;
  return kept;
}

async function whole(folder: string, count: number): Promise<void> {
  const { index } = await pastJobs(folder, folder, '1');
  if (index.size !== count) throw new Error('not all are there');
}

/** One note changes and is asked for. */
export function changedFile(count: number): Side {
  const index = workshop(count);
  asked(index);
  index.withWord('chatter');
  let turn = 0;
  return {
    run() {
      const text = jobNote((turn++ % DIFFERENT) + 1, 2);
      index.put({ path: 'jobs/7.md', mark: String(turn), entry: entryOf(text) });
    },
  };
}

// --- memory, in MB ---------------------------------------------------------------------------------------------------

function weight(make: () => unknown): number {
  globalThis.gc?.();
  const before = process.memoryUsage().heapUsed;
  const made = make();
  globalThis.gc?.();
  const grown = process.memoryUsage().heapUsed - before;
  if (made === null) throw new Error('nothing was made');
  return grown / 1e6;
}

/** An index that was asked for values and for words, and so has all that it needs for either. */
export function indexInMemory(): Side<number> {
  return {
    measures: true,
    run: () =>
      weight(() => {
        const index = workshop(NOTES);
        asked(index);
        index.withWord('chatter');
        return index;
      }),
  };
}

export function textsInMemory(): Side<number> {
  return {
    measures: true,
    // Two bytes a letter, as a text with letters beyond Latin takes.
    run: () =>
      weight(() =>
        Array.from({ length: NOTES }, (_, i) => `\u2205${jobNote((i % DIFFERENT) + 1)}`.split('').join('')),
      ),
  };
}

// --- what else is held up --------------------------------------------------------------------------------------------

const turnOfOthers = (): Promise<void> => new Promise((done) => setImmediate(done));

/** The longest time, in ms, in which nothing else had its turn while notes are read, kept, read back and made ready. */
export function longestSlice(): Side<Promise<number>> {
  const many = manyInMemory();
  return {
    measures: true,
    async run() {
      let [longest, last, over] = [0, performance.now(), false];
      const look = (): void => {
        longest = Math.max(longest, performance.now() - last);
        last = performance.now();
        if (!over) setImmediate(look);
      };
      setImmediate(look);
      await everything(many);
      over = true;
      return longest;
    },
  };
}

export function allSlices(): Side<Promise<void>> {
  const many = manyInMemory();
  return { run: () => everything(many) };
}

function manyInMemory(): Notes {
  const notes = new MemoryNotes(2_000);
  return { list: () => notes.list(), read: (path) => notes.read(path), breathe: turnOfOthers };
}

async function everything(notes: Notes): Promise<void> {
  const index = new JobIndex();
  await index.refresh(notes);
  const again = new JobIndex();
  await again.load(await index.save('1', turnOfOthers), '1', turnOfOthers);
  await again.prepare(turnOfOthers);
}
