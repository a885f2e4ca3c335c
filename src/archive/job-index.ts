/**
 * All notes of a workshop, to be asked. Kept in memory as entries and, beside them, their amounts in the order of their
 * values, so that a question about a value looks at those only that it is about. Nothing here touches files: a host brings
 * notes in.
 */
import type MiniSearch from 'minisearch';
import { Amounts } from './amounts';
import { type JobEntry, entryOf } from './entry';
import type { Notes, Stamp } from './notes';
import { type Breathe, Slices } from './slices';
import { type Kept, headOf, lineOf, readBack } from './store';

export interface Progress {
  /** Notes done of those to read; called now and then. Answering false ends the reading. */
  (done: number, all: number): boolean;
}

/** What became of a refresh. */
export interface Refreshed {
  readonly read: number;
  readonly kept: number;
  readonly gone: number;
  /** Notes that could not be read now, with the reason; they are not in the index. */
  readonly unreadable: readonly { readonly path: string; readonly why: string }[];
  /** False when it was ended before all were read. */
  readonly whole: boolean;
}

declare const require: (id: string) => unknown;

/** Read with the first word that is looked for. */
function miniSearch(): typeof MiniSearch {
  const read = require('minisearch') as typeof MiniSearch | { readonly default: typeof MiniSearch };
  return 'default' in read ? read.default : read;
}

/** Of this many lines that are kept one may be out of date. */
const OUTDATED = 4;
/** How many notes are read between two reports of how far it is. */
const AT_ONCE = 20;

export class JobIndex {
  private readonly kept = new Map<string, Kept>();
  /** Lines there were when it was loaded, and notes put since; null when not all of it could be read. */
  private lines = 0;
  private changed: Set<string> | null = null;
  private readonly amounts = new Amounts();
  /** Notes whose amounts are still to be put to the others. */
  private readonly uncounted = new Map<string, Kept>();
  private words: MiniSearch<{ id: string; title: string; text: string; job: string }> | null = null;
  /** Notes whose words are still to be put to the others. */
  private readonly unworded = new Map<string, Kept>();

  get size(): number {
    return this.kept.size;
  }

  paths(): IterableIterator<string> {
    return this.kept.keys();
  }

  entry(path: string): JobEntry | undefined {
    return this.kept.get(path)?.entry;
  }

  entries(): IterableIterator<Kept> {
    return this.kept.values();
  }

  /**
   * Takes what was kept from an earlier start by this version of the program; what is damaged, of another format or from
   * another version is left out.
   */
  async load(text: string, version: string, breathe?: Breathe): Promise<number> {
    const slices = new Slices(breathe);
    const lines = readBack(text, version);
    let line = lines.next();
    for (; !line.done; line = lines.next()) {
      this.put(line.value);
      this.lines++;
      await slices.next();
    }
    this.changed = line.value ? new Set() : null;
    return this.kept.size;
  }

  /**
   * What changed since it was loaded, as text to be put behind what was kept, so that a changed note costs one note. Null
   * where all is to be kept anew: what was kept was damaged, or a good part of it no longer counts.
   */
  changes(version: string): string | null {
    if (!this.changed || this.lines + this.changed.size > this.size + this.size / OUTDATED) return null;
    const kept = [...this.changed].flatMap((path) => this.kept.get(path) ?? []);
    return kept.map((one) => `\n${lineOf(one, version)}\n`).join('');
  }

  /** The index as text, to be kept. Notes that change meanwhile are in it as they were or as they are. */
  async save(version: string, breathe?: Breathe): Promise<string> {
    const slices = new Slices(breathe);
    const lines = [headOf(version)];
    for (const one of this.kept.values()) {
      lines.push(lineOf(one, version));
      await slices.next();
    }
    return `${lines.join('\n')}\n`;
  }

  put(one: Kept): void {
    this.remove(one.path);
    this.kept.set(one.path, one);
    this.changed?.add(one.path);
    this.uncounted.set(one.path, one);
    this.unworded.set(one.path, one);
  }

  remove(path: string): void {
    if (!this.kept.delete(path)) return;
    this.uncounted.delete(path);
    this.amounts.remove(path);
    if (!this.unworded.delete(path)) this.words?.discard(path);
  }

  /** Reads one note again: a changed file costs one file. */
  async update(notes: Notes, { path, mark }: Stamp): Promise<void> {
    const { text, shops } = await notes.read(path);
    this.put({ path, mark, entry: entryOf(text, shops) });
  }

  /** Brings the index up to the notes there are: what has its mark from before is kept, what is gone is forgotten. */
  async refresh(notes: Notes, told: Progress = () => true): Promise<Refreshed> {
    const listed = await notes.list();
    const there = new Set(listed.map(({ path }) => path));
    const gone = [...this.kept.keys()].filter((path) => !there.has(path));
    for (const path of gone) this.remove(path);
    const changed = listed.filter(({ path, mark }) => this.kept.get(path)?.mark !== mark);
    const unreadable: { path: string; why: string }[] = [];
    let done = 0;
    const slices = new Slices(notes.breathe?.bind(notes));
    for (const stamp of changed) {
      if (done % AT_ONCE === 0 && !told(done, changed.length)) break;
      try {
        await this.update(notes, stamp);
      } catch (error) {
        this.remove(stamp.path);
        unreadable.push({ path: stamp.path, why: error instanceof Error ? error.message : String(error) });
      }
      done++;
      await slices.next();
    }
    const whole = done === changed.length;
    if (whole) told(done, changed.length);
    return {
      read: done - unreadable.length,
      kept: listed.length - changed.length,
      gone: gone.length,
      unreadable,
      whole,
    };
  }

  /** The amounts of all notes, to be asked for values. */
  counted(): Amounts {
    for (const one of this.uncounted.values()) this.amounts.add(one);
    this.uncounted.clear();
    return this.amounts;
  }

  /** Notes that hold a word or one that begins with it, by their worth. Slips of one letter count in long words. */
  withWord(word: string): ReadonlyMap<string, number> {
    const words = this.begunWords();
    words.addAll([...this.unworded.values()].map(documentOf));
    this.unworded.clear();
    const found = words.search(word, {
      combineWith: 'AND',
      prefix: (term) => term.length > 2,
      fuzzy: (term) => (term.length > 5 ? 1 : false),
      boost: { title: 3, job: 2 },
    });
    return new Map(found.map(({ id, score }) => [String(id), score]));
  }

  /** Gets all ready for questions in slices; one that comes before that waits for the rest of it. */
  async prepare(breathe: Breathe): Promise<void> {
    const slices = new Slices(breathe);
    const words = this.begunWords();
    for (const [path, one] of this.unworded) {
      words.add(documentOf(one));
      this.unworded.delete(path);
      await slices.next();
    }
    for (const [path, one] of this.uncounted) {
      this.amounts.add(one);
      this.uncounted.delete(path);
      await slices.next();
    }
  }

  private begunWords(): NonNullable<typeof this.words> {
    return (this.words ??= new (miniSearch())({ fields: ['title', 'job', 'text'] }));
  }
}

function documentOf({ path, entry }: Kept): { id: string; title: string; text: string; job: string } {
  return { id: path, title: entry.title, text: entry.text, job: Object.values(entry.job).join(' ') };
}
