/** The page about past jobs: whatever it shows is what happens. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { compareJobs, comparisonPage } from '../../src/archive/compare';
import { inColumns } from '../../src/archive/in-columns';
import { entryOf } from '../../src/archive/entry';
import { find } from '../../src/archive/find';
import { JobIndex } from '../../src/archive/job-index';
import { FIELDS, readQuery } from '../../src/archive/query';
import { repeatOf } from '../../src/archive/repeat';
import { signedNote } from '../../src/archive/sign';
import { calculate } from '../../src/engine/index';

const PAGE = resolve(import.meta.dirname, '../../media/past-jobs.md');
const page = readFileSync(PAGE, 'utf8');

/** What stands in fences of four, in order. */
const shown = [...page.matchAll(/^````markdown\n(.*?)^````$/gms)].map(([, text = '']) => text);
const [lever = '', gauge = '', lessons = '', repeated, compared, signed] = shown;
const JOBS = new Map([
  ['jobs/0147.md', lever],
  ['jobs/0203.md', gauge],
]);

/** Rows of the page's tables with this head. */
function rows(head: string): readonly (readonly string[])[] {
  return page
    .split(`${head}\n`)
    .slice(1)
    .flatMap((part) => {
      const lines = part.split('\n').slice(1);
      const end = lines.findIndex((line) => !line.startsWith('|'));
      return lines.slice(0, end).map((line) =>
        line
          .split('|')
          .slice(1, -1)
          .map((cell) => cell.trim()),
      );
    });
}

const code = (cell: string | undefined): string => /^`(.*)`$/.exec(cell ?? '')?.[1] ?? '';

const index = new JobIndex();
for (const [path, text] of JOBS) index.put({ path, mark: '', entry: entryOf(text) });

describe('the page about past jobs', () => {
  const queries = rows('| write | finds | jobs |');

  it('has jobs without errors, each under its number', () => {
    expect(shown).toHaveLength(6);
    for (const [path, text] of JOBS) {
      const sheet = calculate(text);
      expect(sheet.findings()).toEqual([]);
      expect(`jobs/${sheet.job().get('job') ?? ''}.md`).toBe(path);
    }
  });

  it('shows every way of asking', () => {
    expect(queries.length).toBeGreaterThan(20);
    const kinds = new Set<string>();
    for (const [query] of queries) {
      const read = readQuery(code(query));
      if ('terms' in read)
        for (const term of read.terms)
          kinds.add(term.kind === 'value' ? `value ${String(term.how)}` : term.kind);
    }
    expect([...kinds].sort()).toEqual([
      'date',
      'field',
      'value final',
      'value measured',
      'value null',
      'value used',
      'word',
    ]);
    for (const field of FIELDS) expect(page).toMatch(new RegExp(`\\b${field}\\b`));
  });

  it.each(queries)('%s: %s: %s', (query, _, jobs) => {
    const read = readQuery(code(query));
    if ('problem' in read) throw new Error(read.problem.says);
    const found = find(index, read.terms).hits.map(({ job }) => job['job']);
    expect(found.sort().join(', ') || 'none').toBe(jobs);
  });

  it.each(rows('| written | answer |'))('%s: %s', (query, answer) => {
    const read = readQuery(code(query));
    expect('problem' in read && read.problem.says.replaceAll('`', '')).toBe(answer);
  });

  it('shows lessons as they may be written', () => {
    expect(entryOf(lessons).lessons.map(({ text }) => text)).toEqual([
      'grind the tip before the last pass',
      'hold it short',
      'brass wants no rake',
    ]);
  });

  it('shows the repeated job, the comparison and the signature as they come out', () => {
    const sheet = calculate(lever);
    expect(repeated).toBe(repeatOf(lever, sheet, { job: '0211', of: '0147' }));
    expect(compared).toBe(
      inColumns(comparisonPage(compareJobs(entryOf(lever), entryOf(gauge)), 'jobs/0147.md', 'jobs/0203.md')),
    );
    const all = signedNote(gauge, calculate(gauge), { date: '2026-11-04', version: '0.1.0', by: 'M. Orrin' });
    expect(signed).toBe(all.slice(gauge.length).replace(/^\n/, ''));
    expect(calculate(all).findings()).toEqual([]);
  });

  it('is reached from the README', () => {
    expect(readFileSync(resolve(PAGE, '../../README.md'), 'utf8')).toContain('(media/past-jobs.md)');
  });
});
