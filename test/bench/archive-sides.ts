/** What is measured of past jobs: a workshop of 10,000 notes against reading and searching the same files. */
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { entryOf } from '../../src/archive/entry';
import { find } from '../../src/archive/find';
import { JobIndex } from '../../src/archive/job-index';
import { readQuery } from '../../src/archive/query';
import { jobNote } from '../archive/job-note';
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
  return find(index, query.terms).length;
}

export function valueQuery(): Side {
  const index = workshop(NOTES);
  if (asked(index) === 0) throw new Error('nothing found');
  return { run: () => asked(index) };
}

/** The same notes as files. */
function files(): string {
  const folder = mkdtempSync(join(tmpdir(), 'scribeline-'));
  process.on('exit', () => rmSync(folder, { recursive: true }));
  for (let i = 0; i < NOTES; i++) writeFileSync(join(folder, `${i}.md`), jobNote((i % DIFFERENT) + 1));
  return folder;
}

/** A plain search of the files' texts for a word that a few notes hold. */
export function textSearch(): Side {
  const folder = files();
  return {
    run: () =>
      readdirSync(folder).filter((name) =>
        readFileSync(join(folder, name), 'utf8').includes('customer in a hurry'),
      ).length,
  };
}

export function restart(): Side {
  const kept = workshop(NOTES).save();
  return {
    run() {
      if (new JobIndex().load(kept) !== NOTES) throw new Error('not all were kept');
    },
  };
}

/** One note changes and is asked for. */
export function changedFile(count: number): Side {
  const index = workshop(count);
  index.named('ball', () => {});
  index.withWord('chatter');
  let turn = 0;
  return {
    run() {
      const text = jobNote((turn++ % DIFFERENT) + 1, 2);
      index.put({ path: 'jobs/7.md', mark: String(turn), entry: entryOf(text) });
    },
  };
}
