/** What was used last time: readings and used values of one name on jobs like this one. Never changes a note. */
import type { Amount, JobEntry } from './entry';
import type { JobIndex } from './job-index';
import { byUnits, firstOf } from './order';

export interface PastUse {
  readonly path: string;
  readonly title: string;
  readonly job: Readonly<Record<string, string>>;
  readonly amount: Amount;
  /** Why it is shown: what the two jobs have in common, in words. */
  readonly alike: readonly string[];
}

/** The job that asks: its front matter, and what its figure comes to now, for a like size. */
export interface Asking {
  readonly path: string;
  readonly name: string;
  readonly job: Readonly<Record<string, string>>;
  readonly value: { readonly base: number; readonly kind: string } | null;
  /** Machines of the block in which it asks. */
  readonly machines: readonly string[];
}

/** Within this part of each other two sizes are alike. */
const NEAR = 0.25;
const MOST = 20;
const ALL = { low: -Infinity, high: Infinity, lowOpen: false, highOpen: false };

/** `used` and measured values of the same name on other jobs; those with more in common first, then the newest. */
export function pastUse(index: JobIndex, { path, name, job, value, machines }: Asking): readonly PastUse[] {
  const amounts = index.counted();
  const wanted = name.toLowerCase();
  const alike = alikeTo(job, value, machines);
  const found: PastUse[] = [];
  for (const column of amounts.named(wanted)) {
    if (column.how === 'figure' || column.name.toLowerCase() !== wanted) continue;
    if (value && column.kind !== value.kind) continue;
    const [from, to] = column.within(ALL, amounts.isThere);
    for (let at = from; at < to; at++) {
      const one = amounts.noteAt(column.noteAt(at));
      if (!one || one.path === path) continue;
      const { entry } = one;
      const amount = column.amountAt(at);
      found.push({ path: one.path, title: entry.title, job: entry.job, amount, alike: alike(entry, amount) });
    }
  }
  const when = (use: PastUse): string => use.job['due'] ?? '';
  return firstOf(
    found,
    MOST,
    (a, b) =>
      b.alike.length - a.alike.length ||
      byUnits(when(b), when(a)) ||
      // What was really run says more than what was read on the way.
      Number(b.amount.how === 'used') - Number(a.amount.how === 'used') ||
      byUnits(a.path, b.path) ||
      a.amount.line - b.amount.line,
  );
}

/** What a job has in common with the one that asks, in words. */
function alikeTo(
  job: Asking['job'],
  value: Asking['value'],
  machines: readonly string[],
): (entry: JobEntry, amount: Amount) => readonly string[] {
  const own = ['material', 'customer', 'part'].map((field) => [field, job[field]?.toLowerCase()] as const);
  return (entry, amount) => {
    const alike = own
      .filter(([field, is]) => is !== undefined && is === entry.job[field]?.toLowerCase())
      .map(([field]) => `same ${field}`);
    const on = amount.machines.split(' ');
    if (machines.some((machine) => on.includes(machine))) alike.push('same machine');
    if (value && Math.abs(amount.value - value.base) <= NEAR * Math.abs(value.base)) alike.push('like size');
    return alike;
  };
}
