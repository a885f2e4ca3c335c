/** Long work on the index lets others have their turn: how long they wait, as a part of the whole. */
import { describe, expect, it, onTestFinished } from 'vitest';
import { entryOf } from '../../src/archive/entry';
import { find } from '../../src/archive/find';
import { JobIndex } from '../../src/archive/job-index';
import type { Notes } from '../../src/archive/notes';
import { readQuery } from '../../src/archive/query';
import { Slices } from '../../src/archive/slices';
import { worked } from '../worked';
import { MemoryNotes, jobNote } from './workshop';

/** Of the whole time; a slice is a few ms, so much longer ones mean that there are none. */
const PART = 0.5;

const breathe = (): Promise<void> => new Promise((done) => setImmediate(done));

// Waits are told by what this process has worked: by the clock a slice would be as long as the machine was busy with others.

/** The longest time between two turns of others while the work is done, as a part of all of it. */
async function longestWait(work: () => Promise<unknown>): Promise<number> {
  // Memory may be cleared away in the midst of a slice: the best of three says how it is.
  const tries = [await waitOnce(work), await waitOnce(work), await waitOnce(work)];
  return Math.min(...tries);
}

async function waitOnce(work: () => Promise<unknown>): Promise<number> {
  let [longest, last, over] = [0, worked(), false];
  const start = last;
  const look = (): void => {
    longest = Math.max(longest, worked() - last);
    last = worked();
    if (!over) setImmediate(look);
  };
  setImmediate(look);
  await work();
  over = true;
  longest = Math.max(longest, worked() - last);
  return longest / (worked() - start);
}

function noteSource(notes: MemoryNotes): Notes {
  return { list: () => notes.list(), read: (path) => notes.read(path), breathe };
}

/** Many notes without the work of reading them. */
function large(): JobIndex {
  const index = new JobIndex();
  const entries = Array.from({ length: 100 }, (_, i) => entryOf(jobNote(i)));
  for (let i = 0; i < 5000; i++) {
    const entry = entries[i % entries.length];
    if (entry) index.put({ path: `jobs/${i}.md`, mark: '1', entry });
  }
  return index;
}

describe('nothing else is held up', () => {
  it('while notes are read for the first time', async () => {
    const notes = noteSource(new MemoryNotes(400));
    expect(await longestWait(() => new JobIndex().refresh(notes))).toBeLessThan(PART);
    // Without a way to breathe the whole is one slice: the measure can tell.
    const { list, read } = notes;
    expect(await longestWait(() => new JobIndex().refresh({ list, read }))).toBeGreaterThan(0.9);
  });

  it('while the index is kept, read back and made ready for words', async () => {
    const index = large();
    let text = '';
    const again = new JobIndex();
    expect(await longestWait(async () => (text = await index.save('1', breathe)))).toBeLessThan(PART);
    expect(await longestWait(() => again.load(text, '1', breathe))).toBeLessThan(PART);
    expect(again.size).toBe(5000);
    // Done once for each index: three of them, for the best of three.
    const waits = [];
    for (const each of [again, large(), large()]) waits.push(await waitOnce(() => each.prepare(breathe)));
    expect(Math.min(...waits)).toBeLessThan(PART);
  });

  it('and answers come before all is done, of what is there', async () => {
    const notes = noteSource(new MemoryNotes(400));
    const index = new JobIndex();
    const query = readQuery('ball > 1 mm');
    if ('problem' in query) throw new Error(query.problem.says);
    const seen: number[] = [];
    await index.refresh(notes, () => {
      seen.push(find(index, query.terms).all);
      return true;
    });
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
    expect(seen.filter((count) => count > 0 && count < 400).length).toBeGreaterThan(10);
    expect(seen.at(-1)).toBe(400);
  });
});

describe('slices', () => {
  it('end when their time is over, and only where there is a way to breathe', async () => {
    const now = Date.now;
    let [time, turns] = [1e6, 0];
    Date.now = () => time;
    onTestFinished(() => void (Date.now = now));
    const slices = new Slices(() => Promise.resolve(void turns++));
    const steps: number[] = [];
    for (const ms of [0, 1, 1000, 0, 1, 1000]) {
      time += ms;
      await slices.next();
      steps.push(turns);
    }
    expect(steps).toEqual([0, 0, 1, 1, 1, 2]);
    time += 1000;
    await new Slices(undefined).next();
    expect(turns).toBe(2);
  });

  it('that make all ready leave nothing out and put nothing in twice', async () => {
    const index = new JobIndex();
    for (const path of ['a.md', 'b.md'])
      index.put({ path, mark: '', entry: entryOf('```figures\npin = 5 mm # chatter\n```\n') });
    await index.prepare(breathe);
    const query = readQuery('chatter, pin = 5 mm');
    if ('problem' in query) throw new Error(query.problem.says);
    const { hits, all } = find(index, query.terms);
    expect([all, ...hits.map(({ path, amounts }) => `${path} ${amounts.length}`)]).toEqual([
      2,
      'a.md 1',
      'b.md 1',
    ]);
    expect(index.counted().all()).toHaveLength(2);
  });
});

describe('words made ready in slices', () => {
  it('answer the same before, during and after, whatever changes meanwhile', async () => {
    const index = large();
    const words = (of: JobIndex): readonly string[] => [...of.withWord('chatter').keys()].sort();
    const whole = words(large());
    expect(whole.length).toBeGreaterThan(100);
    let turns = 0;
    await index.prepare(() => {
      turns++;
      if (turns === 2) {
        index.remove('jobs/4999.md');
        index.put({ path: 'jobs/0.md', mark: '2', entry: entryOf('nothing here') });
        index.put({ path: 'late.md', mark: '1', entry: entryOf('chatter') });
      }
      if (turns === 3) {
        // Asked before it is over.
        expect(words(index)).toContain('late.md');
        index.remove('jobs/1.md');
      }
      return breathe();
    });
    expect(turns).toBeGreaterThanOrEqual(3);
    const gone = new Set(['jobs/4999.md', 'jobs/0.md', 'jobs/1.md']);
    const wanted = [...whole.filter((path) => !gone.has(path)), 'late.md'].sort();
    expect(words(index)).toEqual(wanted);
  });
});
