/** `scribeline compare`: two notes' figures side by side. */
import { resolve } from 'node:path';
import { type Pair, compareJobs, comparisonPage } from '../../archive/compare';
import { inColumns } from '../../archive/in-columns';
import { type JobEntry, entryOf } from '../../archive/entry';
import { ShopFiles, noteAt, readText, reason, shownPath } from './files';
import { type Exit, type Io, FINE, WRONG } from './io';
import { harmless } from './terminal';

export function compare(before: string, after: string, json: boolean, io: Io): Exit {
  const entries: JobEntry[] = [];
  for (const path of [before, after]) {
    try {
      entries.push(entryAt(path, io.current));
    } catch (error) {
      io.err(`scribeline: cannot read ${harmless(path)}: ${harmless(reason(error))}\n`);
    }
  }
  const [a, b] = entries;
  if (!a || !b) return WRONG;
  const made = compareJobs(a, b);
  const names = [before, after].map((path) => shownPath(resolve(io.current, path), io.current));
  if (!json) {
    const page = inColumns(comparisonPage(made, names[0] ?? '', names[1] ?? ''));
    io.out(page.split('\n').map(harmless).join('\n'));
    return FINE;
  }
  const pairs = (list: readonly Pair[]): object[] =>
    list.map((pair) => ({
      name: pair.name,
      kind: pair.how,
      before: pair.before?.shown ?? null,
      after: pair.after?.shown ?? null,
      change: pair.change,
    }));
  const data = {
    version: 1,
    before: names[0],
    after: names[1],
    fields: made.fields,
    differ: pairs(made.differ),
    same: pairs(made.same),
    onlyBefore: pairs(made.onlyBefore),
    onlyAfter: pairs(made.onlyAfter),
    newFindings: made.newFindings,
    goneFindings: made.goneFindings,
  };
  io.out(`${JSON.stringify(data, null, 2)}\n`);
  return FINE;
}

function entryAt(path: string, current: string): JobEntry {
  const note = noteAt(path, current);
  return entryOf(readText(note.path), new ShopFiles().of(note));
}
