/** What was used last time: readings and used values of one name on jobs like this one. Never changes a note. */
import type { Amount, JobEntry } from './entry';
import type { JobIndex } from './job-index';
import { byUnits } from './order';

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

/** `used` and measured values of the same name on other jobs; those with more in common first, then the newest. */
export function pastUse(index: JobIndex, { path, name, job, value, machines }: Asking): readonly PastUse[] {
  const wanted = name.toLowerCase();
  const found: PastUse[] = [];
  index.named(wanted, (at, amount) => {
    const entry = index.entry(at);
    if (at === path || !entry || amount.how === 'figure' || amount.name.toLowerCase() !== wanted) return;
    if (value && amount.kind !== value.kind) return;
    const alike = common(job, entry, amount, value?.base ?? null, machines);
    found.push({ path: at, title: entry.title, job: entry.job, amount, alike });
  });
  const when = (use: PastUse): string => use.job['due'] ?? '';
  return found
    .sort(
      (a, b) =>
        b.alike.length - a.alike.length ||
        byUnits(when(b), when(a)) ||
        // What was really run says more than what was read on the way.
        Number(b.amount.how === 'used') - Number(a.amount.how === 'used') ||
        byUnits(a.path, b.path) ||
        a.amount.line - b.amount.line,
    )
    .slice(0, MOST);
}

function common(
  job: Asking['job'],
  entry: JobEntry,
  amount: Amount,
  value: number | null,
  machines: readonly string[],
): readonly string[] {
  const alike: string[] = [];
  for (const field of ['material', 'customer', 'part'])
    if (job[field] !== undefined && job[field]?.toLowerCase() === entry.job[field]?.toLowerCase())
      alike.push(`same ${field}`);
  const on = amount.machines.split(' ');
  if (machines.some((machine) => on.includes(machine))) alike.push('same machine');
  if (value !== null && value !== 0 && Math.abs(amount.value - value) <= NEAR * Math.abs(value))
    alike.push('like size');
  return alike;
}
