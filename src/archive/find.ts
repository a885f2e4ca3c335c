/** Answers a query: jobs for which every part of it holds, best first, with the figures and lines that say so. */
import { type Amounts, wordsOf } from './amounts';
import type { Column } from './column';
import type { Amount, How } from './entry';
import type { JobIndex } from './job-index';
import { firstOf } from './order';
import type { Relation, Term } from './query';

export interface Hit {
  readonly path: string;
  readonly title: string;
  readonly job: Readonly<Record<string, string>>;
  /** The amounts that the conditions were about, in the order of the note. */
  readonly amounts: readonly Amount[];
}

export interface Found {
  /** The best of them, as many as were asked for. */
  readonly hits: readonly Hit[];
  /** How many jobs there are in all. */
  readonly all: number;
}

type ValueTerm = Extract<Term, { kind: 'value' }>;

/** Of hits equally good the later job, by due date, then by path. */
export function find(index: JobIndex, terms: readonly Term[], most = Infinity): Found {
  const amounts = index.counted();
  const search = new Search(amounts);
  const ranges = terms.flatMap((term) => (term.kind === 'value' ? [rangesOf(amounts, term)] : []));
  // Those that few amounts fit leave little to do for the others.
  for (const each of ranges.sort((a, b) => sizeOf(a) - sizeOf(b))) search.values(each);
  for (const term of terms) if (term.kind !== 'value') search.others(index, term);
  return search.best(most);
}

/** Where in a column the amounts stand that a condition is about, and how near the name is to the one asked for. */
interface Fitting {
  readonly column: Column;
  readonly from: number;
  readonly to: number;
  readonly score: number;
}

function rangesOf(amounts: Amounts, term: ValueTerm): readonly Fitting[] {
  return amounts.named(term.name).flatMap((column) => {
    if (column.kind !== term.of || !isAsked(column, term.how)) return [];
    const [from, to] = column.within(term, amounts.isThere);
    return from === to ? [] : [{ column, from, to, score: closeness(column.name.toLowerCase(), term.name) }];
  });
}

const sizeOf = (ranges: readonly Fitting[]): number =>
  ranges.reduce((sum, { from, to }) => sum + to - from, 0);

/** A reading of a figure is asked for by its word; a sample that no figure plans stands for itself. */
function isAsked({ how, isSample }: Column, asked: How | null): boolean {
  return asked === null ? how === 'figure' || isSample : how === asked;
}

/** Which notes hold all parts asked so far, by the notes' numbers. */
class Search {
  /** How many parts each note passed, one after the other. */
  private readonly passed: Int32Array;
  private readonly total: Float64Array;
  /** The best score in the part asked last. */
  private readonly now: Float64Array;
  private parts = 0;
  /** Those that pass all parts so far. */
  private left: number[] = [];
  /** For each note its last amount that fits, each with the one before it; counted from 1. */
  private readonly last: Uint32Array;
  private readonly fitting: Amount[] = [];
  private readonly before: number[] = [];

  constructor(private readonly amounts: Amounts) {
    const { count } = amounts;
    this.passed = new Int32Array(count);
    this.total = new Float64Array(count);
    this.now = new Float64Array(count);
    this.last = new Uint32Array(count);
  }

  /** Notes with an amount in one of the ranges. */
  values(ranges: readonly Fitting[]): void {
    this.begin();
    for (const { column, from, to, score } of ranges)
      for (let at = from; at < to; at++) {
        const note = column.noteAt(at);
        if (!this.amounts.isThere(note) || !this.pass(note, score)) continue;
        this.before.push(this.last[note] as number);
        this.last[note] = this.fitting.push(column.amountAt(at));
      }
  }

  /** Notes with a word or with something in their head. */
  others(index: JobIndex, term: Exclude<Term, ValueTerm>): void {
    const among = this.begin();
    if (term.kind === 'word') {
      for (const [path, score] of index.withWord(term.word)) {
        const note = this.amounts.numberOf(path);
        if (note !== undefined) this.pass(note, score);
      }
      return;
    }
    for (const note of among) {
      const text = this.amounts.noteAt(note)?.entry.job[term.field];
      if (text === undefined) continue;
      const fits =
        term.kind === 'field'
          ? text.toLowerCase().includes(term.words)
          : dateFits(text.trim(), term.relation, term.date);
      if (fits) this.pass(note, 1);
    }
  }

  best(most: number): Found {
    const rank = this.amounts.rank();
    const order = (a: number, b: number): number =>
      this.score(b) - this.score(a) || (rank[a] as number) - (rank[b] as number);
    const best = firstOf(this.left, most, order);
    return { hits: best.flatMap((note) => this.hit(note)), all: this.left.length };
  }

  /** The notes among which the next part is asked for. */
  private begin(): readonly number[] {
    const { left } = this;
    for (const note of left) this.total[note] = this.score(note);
    this.left = [];
    return this.parts++ === 0 ? this.amounts.all() : left;
  }

  /** Counts the note in if it has passed all parts before this one; of several scores the best counts. */
  private pass(note: number, score: number): boolean {
    if (this.passed[note] === this.parts) {
      this.now[note] = Math.max(this.now[note] as number, score);
      return true;
    }
    if (this.passed[note] !== this.parts - 1) return false;
    this.passed[note] = this.parts;
    this.now[note] = score;
    this.left.push(note);
    return true;
  }

  private score(note: number): number {
    return (this.total[note] as number) + (this.now[note] as number);
  }

  private hit(note: number): readonly Hit[] {
    const one = this.amounts.noteAt(note);
    if (!one) return [];
    const { path, entry } = one;
    const fitting: Amount[] = [];
    for (let at = this.last[note] as number; at !== 0; at = this.before[at - 1] as number)
      fitting.push(this.fitting[at - 1] as Amount);
    const amounts = entry.amounts.filter((it) => fitting.includes(it));
    return [{ path, title: entry.title, job: entry.job, amounts }];
  }
}

/** A month or a year stands for all its days. */
function dateFits(date: string, relation: Relation, wanted: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}/.test(date)) return false;
  const as = date.slice(0, wanted.length);
  switch (relation) {
    case '=':
      return as === wanted;
    case '<':
      return as < wanted;
    case '>':
      return as > wanted;
    case '<=':
      return as <= wanted;
    case '>=':
      return as >= wanted;
  }
}

/** The very name before a field of that name before a name that holds it as a word. */
function closeness(name: string, wanted: string): number {
  if (name === wanted) return 4;
  if (name.endsWith(`.${wanted}`) || name.startsWith(`${wanted}.`)) return 3;
  return 1 + wordsOf(wanted).length / wordsOf(name).length;
}
