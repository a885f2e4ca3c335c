/** Jobs in groups, as a list of them is read: by customer, by status, by when they are due, by what is wrong with them. */
import type { JobEntry } from './entry';
import type { Kept } from './store';
import { byUnits } from './order';

export const GROUPINGS = ['customer', 'status', 'due', 'findings'] as const;
export type Grouping = (typeof GROUPINGS)[number];

export interface JobItem {
  readonly path: string;
  readonly entry: JobEntry;
}

export interface JobGroup {
  /** Empty for jobs that do not say. */
  readonly name: string;
  readonly jobs: readonly JobItem[];
}

/** A note is a job when it has a job's head or figures; a page of cards or of prose is none. */
export const isJob = ({ job, amounts }: JobEntry): boolean => job['job'] !== undefined || amounts.length > 0;

/** Groups in order, months with the latest first; those that do not say come last. Within a group as `inOrder`. */
export function grouped(kept: Iterable<Kept>, by: Grouping): readonly JobGroup[] {
  const groups = new Map<string, JobItem[]>();
  for (const { path, entry } of kept) {
    if (!isJob(entry)) continue;
    const name = groupOf(entry, by);
    const jobs = groups.get(name);
    if (jobs) jobs.push({ path, entry });
    else groups.set(name, [{ path, entry }]);
  }
  return [...groups]
    .map(([name, jobs]) => ({ name, jobs: inOrder(jobs) }))
    .sort(
      (a, b) =>
        Number(a.name === '') - Number(b.name === '') ||
        (by === 'due' ? byUnits(b.name, a.name) : byUnits(a.name, b.name)),
    );
}

function groupOf({ job, errors, warnings }: JobEntry, by: Grouping): string {
  // A month is as much as a list of dates is read by.
  if (by === 'due') return /^\d{4}-\d{2}/.exec((job['due'] ?? '').trim())?.[0] ?? '';
  if (by === 'findings') return errors > 0 ? 'errors' : warnings > 0 ? 'warnings' : '';
  return job[by]?.trim() ?? '';
}

/** Jobs as any list of them is read: the latest due first, then by path. */
export const inOrder = <T extends JobItem>(jobs: readonly T[]): readonly T[] =>
  [...jobs].sort(
    (a, b) => byUnits(b.entry.job['due'] ?? '', a.entry.job['due'] ?? '') || byUnits(a.path, b.path),
  );
