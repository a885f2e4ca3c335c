/**
 * All amounts of all notes as columns by name and kind, and the notes in the order in which answers equally good stand. Notes
 * go by numbers here, so that a question passes over lists of numbers and looks into those notes only that it answers with.
 */
import { placeIn } from '../quantity/place-in';
import { Column } from './column';
import type { Amount } from './entry';
import { byUnits } from './order';
import type { Kept } from './store';

/** Numbers of notes that are gone are taken up again when there are more of them than this, and than of those left. */
const MANY = 1000;

export class Amounts {
  /** By number; a note that changed has a new one. */
  private notes: (Kept | null)[] = [];
  private numbers = new Map<string, number>();
  private byName = new Map<string, Column[]>();
  private byWord = new Map<string, Column[]>();
  /** Numbers of the notes there are: the later due first, then by path. */
  private order: number[] = [];
  private ranks: Int32Array | null = null;

  /** How many numbers there are, those of notes that are gone among them. */
  get count(): number {
    return this.notes.length;
  }

  add(one: Kept): void {
    const note = this.notes.push(one) - 1;
    this.numbers.set(one.path, note);
    this.order.splice(this.placeOf(one), 0, note);
    this.ranks = null;
    const figures = new Set(one.entry.amounts.flatMap((it) => (it.how === 'figure' ? [it.name] : [])));
    for (const amount of one.entry.amounts) {
      // What is no number, or beyond all, lies in no range.
      if (!Number.isFinite(amount.value)) continue;
      this.columnOf(amount, amount.how === 'measured' && !figures.has(amount.name)).add(note, amount);
    }
  }

  remove(path: string): void {
    const note = this.numbers.get(path);
    if (note === undefined) return;
    this.order.splice(this.placeOf(this.notes[note] as Kept), 1);
    this.ranks = null;
    this.notes[note] = null;
    this.numbers.delete(path);
    const gone = this.notes.length - this.numbers.size;
    if (gone > MANY && gone > this.numbers.size) this.renumber();
  }

  numberOf(path: string): number | undefined {
    return this.numbers.get(path);
  }

  /** Null for one that is gone. */
  noteAt(note: number): Kept | null {
    return this.notes[note] ?? null;
  }

  readonly isThere = (note: number): boolean => this.notes[note] !== null;

  /** The numbers of all notes there are. */
  all(): readonly number[] {
    return this.order;
  }

  /** Where each note stands among answers equally good, by its number. */
  rank(): Int32Array {
    if (this.ranks) return this.ranks;
    const ranks = new Int32Array(this.notes.length);
    for (let i = 0; i < this.order.length; i++) ranks[this.order[i] as number] = i;
    return (this.ranks = ranks);
  }

  /** Columns whose name is this or holds its words: `ball` finds `setup.ball` and `old_ball`. */
  named(name: string): readonly Column[] {
    const wanted = wordsOf(name);
    const columns = this.byWord.get(wanted[0] ?? '') ?? [];
    return wanted.length < 2 ? columns : columns.filter((column) => holds(column.name, wanted));
  }

  private placeOf(one: Kept): number {
    return placeIn(this.order.length, (at) => {
      const other = this.notes[this.order[at] as number];
      return Boolean(other && laterFirst(other, one) < 0);
    });
  }

  private columnOf({ name, how, kind }: Amount, isSample: boolean): Column {
    let columns = this.byName.get(name);
    if (!columns) this.byName.set(name, (columns = []));
    const known = columns.find((it) => it.how === how && it.kind === kind && it.isSample === isSample);
    if (known) return known;
    const made = new Column(name, how, kind, isSample);
    columns.push(made);
    for (const word of wordsOf(name)) {
      const others = this.byWord.get(word);
      if (others) others.push(made);
      else this.byWord.set(word, [made]);
    }
    return made;
  }

  private renumber(): void {
    const left = this.order.map((note) => this.notes[note]);
    this.notes = [];
    this.numbers = new Map();
    this.byName = new Map();
    this.byWord = new Map();
    this.order = [];
    for (const one of left) if (one) this.add(one);
  }
}

const dueOf = ({ entry }: Kept): string => entry.job['due'] ?? '';
const laterFirst = (a: Kept, b: Kept): number => byUnits(dueOf(b), dueOf(a)) || byUnits(a.path, b.path);

/** A shop has the same few names in all its notes; beyond these a name is taken apart each time. */
const MOST_NAMES = 5_000;
const known = new Map<string, readonly string[]>();

/** `setup.ring_set` is found by `setup`, `ring` and `set`; each once. */
export function wordsOf(name: string): readonly string[] {
  let words = known.get(name);
  if (!words) {
    words = [...new Set(name.toLowerCase().split(/[._]+/))].filter((word) => word !== '');
    if (known.size < MOST_NAMES) known.set(name, words);
  }
  return words;
}

function holds(name: string, wanted: readonly string[]): boolean {
  const words = wordsOf(name);
  return wanted.every((word) => words.includes(word));
}
