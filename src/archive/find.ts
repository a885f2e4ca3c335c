/** Answers a query: jobs for which every part of it holds, best first, with the figures and lines that say so. */
import type { Amount, How } from './entry';
import { type JobIndex, wordsOf } from './job-index';
import type { Relation, Term } from './query';
import { byUnits } from './order';

export interface Hit {
  readonly path: string;
  readonly title: string;
  readonly job: Readonly<Record<string, string>>;
  /** The amounts that the conditions were about, in the order of the note. */
  readonly amounts: readonly Amount[];
  readonly score: number;
}

type Matches = ReadonlyMap<string, { readonly score: number; readonly amounts: readonly Amount[] }>;

/** Of hits equally good the later job, by due date, then by path. */
export function find(index: JobIndex, terms: readonly Term[]): readonly Hit[] {
  let matches: Matches | null = null;
  // Conditions on values look at few notes each, so they come first.
  const order = [...terms].sort((a, b) => Number(a.kind !== 'value') - Number(b.kind !== 'value'));
  for (const term of order) {
    const found: Matches = matchesOf(index, term, matches);
    matches = matches === null ? found : both(matches, found);
    if (matches.size === 0) return [];
  }
  const hits = [...(matches ?? new Map())].map(([path, { score, amounts }]): Hit => {
    const entry = index.entry(path);
    const unique = [...new Set<Amount>(amounts)].sort((a, b) => a.line - b.line);
    return { path, title: entry?.title ?? '', job: entry?.job ?? {}, amounts: unique, score };
  });
  const due = (hit: Hit): string => hit.job['due'] ?? '';
  return hits.sort((a, b) => b.score - a.score || byUnits(due(b), due(a)) || byUnits(a.path, b.path));
}

function both(a: Matches, b: Matches): Matches {
  const [few, many] = a.size < b.size ? [a, b] : [b, a];
  const joined = new Map<string, { score: number; amounts: readonly Amount[] }>();
  for (const [path, one] of few) {
    const other = many.get(path);
    if (other)
      joined.set(path, { score: one.score + other.score, amounts: [...one.amounts, ...other.amounts] });
  }
  return joined;
}

function matchesOf(index: JobIndex, term: Term, among: Matches | null): Matches {
  switch (term.kind) {
    case 'value':
      return ofValue(index, term, among);
    case 'word':
      return new Map([...index.withWord(term.word)].map(([path, score]) => [path, { score, amounts: [] }]));
    case 'field':
    case 'date': {
      const found = new Map<string, { score: number; amounts: readonly Amount[] }>();
      for (const path of among?.keys() ?? index.paths()) {
        const text = index.entry(path)?.job[term.field];
        if (text === undefined) continue;
        const fits =
          term.kind === 'field'
            ? text.toLowerCase().includes(term.words)
            : dateFits(text.trim(), term.relation, term.date);
        if (fits) found.set(path, { score: 1, amounts: [] });
      }
      return found;
    }
  }
}

/** A month or a year stands for all its days. */
function dateFits(date: string, relation: Relation, wanted: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}/.test(date)) return false;
  const within = date.startsWith(wanted);
  switch (relation) {
    case '=':
      return within;
    case '<':
      return !within && date < wanted;
    case '>':
      return !within && date > wanted;
    case '<=':
      return within || date < wanted;
    case '>=':
      return within || date > wanted;
  }
}

/** Of the notes that are left those with an amount that fits. */
function ofValue(index: JobIndex, term: Extract<Term, { kind: 'value' }>, among: Matches | null): Matches {
  const found = new Map<string, { score: number; amounts: Amount[] }>();
  const near = new Map<string, number>();
  const look = (path: string, amount: Amount): void => {
    if (among && !among.has(path)) return;
    if (!fits(amount, term) || !isAsked(index, path, amount, term.how)) return;
    const { name } = amount;
    let score = near.get(name);
    if (score === undefined) near.set(name, (score = closeness(name.toLowerCase(), term.name)));
    const known = found.get(path);
    if (!known) found.set(path, { score, amounts: [amount] });
    else {
      known.amounts.push(amount);
      known.score = Math.max(known.score, score);
    }
  };
  index.named(term.name, look, term.low, term.high);
  return found;
}

function fits(
  { value, kind }: Amount,
  { of, low, high, lowOpen, highOpen }: Extract<Term, { kind: 'value' }>,
): boolean {
  return kind === of && (lowOpen ? value > low : value >= low) && (highOpen ? value < high : value <= high);
}

/** A reading of a figure is asked for by its word; a sample that no figure plans stands for itself. */
function isAsked(index: JobIndex, path: string, amount: Amount, how: How | null): boolean {
  if (how !== null) return amount.how === how;
  return amount.how === 'figure' || (amount.how === 'measured' && isSample(index, path, amount.name));
}

const isSample = (index: JobIndex, path: string, name: string): boolean =>
  index.entry(path)?.amounts.every((it) => it.how !== 'figure' || it.name !== name) === true;

/** The very name before a field of that name before a name that holds it as a word. */
function closeness(name: string, wanted: string): number {
  if (name === wanted) return 4;
  if (name.endsWith(`.${wanted}`) || name.startsWith(`${wanted}.`)) return 3;
  return 1 + wordsOf(wanted).length / wordsOf(name).length;
}
