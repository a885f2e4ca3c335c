/** The list of jobs in groups: which notes are jobs, which group each is in, and what comes first. */
import { describe, expect, it } from 'vitest';
import { entryOf, labelOf } from '../../src/archive/entry';
import { GROUPINGS, type Grouping, grouped, inOrder, isJob } from '../../src/archive/grouped';

const figures = (...lines: readonly string[]): string => ['', '```figures', ...lines, '```', ''].join('\n');
const head = (...lines: readonly string[]): string => ['---', ...lines, '---', ''].join('\n');

const NOTES: Readonly<Record<string, string>> = {
  'lever.md':
    head('job: 1', 'customer: Ostley Ferry', 'status: done', 'due: 2026-03-02') + figures('a = 1 mm'),
  'pin.md': head('job: 2', 'customer: Dunmere Boatyard', 'status: cutting', 'due: 2026-04-01'),
  'sleeve.md':
    head('job: 3', 'customer: " Ostley Ferry "', 'status: done', 'due: 2026-03-30') +
    figures('a = 1 mm + 1 kg'),
  // Limits wider than those asked for: a warning.
  'gauge.md': figures('a = 1 mm ± 0.1 mm', 'b = a ± 0.01 mm'),
  'anvil.md': figures('a = 1 mm'),
  'almanac.md': head('due: soon') + figures('a = 1 mm'),
  'prose.md': '# About the shop\n',
};
const notes = Object.entries(NOTES).map(([path, text]) => ({ path, mark: '', entry: entryOf(text) }));
const groups = (by: Grouping): readonly string[] =>
  grouped(notes, by).map(({ name, jobs }) => `${name}: ${jobs.map(({ path }) => path).join(' ')}`);

describe('jobs in groups', () => {
  it('are notes with a number or with figures', () => {
    expect(notes.filter(({ entry }) => !isJob(entry)).map(({ path }) => path)).toEqual(['prose.md']);
    expect(isJob(entryOf(head('customer: Ostley Ferry')))).toBe(false);
  });

  const OTHERS = 'almanac.md anvil.md gauge.md';
  it.each<[Grouping, readonly string[]]>([
    ['customer', ['Dunmere Boatyard: pin.md', 'Ostley Ferry: sleeve.md lever.md', `: ${OTHERS}`]],
    ['status', ['cutting: pin.md', 'done: sleeve.md lever.md', `: ${OTHERS}`]],
    ['due', ['2026-04: pin.md', '2026-03: sleeve.md lever.md', `: ${OTHERS}`]],
    ['findings', ['errors: sleeve.md', 'warnings: gauge.md', ': almanac.md pin.md lever.md anvil.md']],
  ])('by %s', (by, wanted) => {
    expect(groups(by)).toEqual(wanted);
    expect(GROUPINGS).toContain(by);
  });

  it('stand in one order, in whichever they were read', () => {
    const order = (of: typeof notes): readonly string[] => inOrder(of).map(({ path }) => path);
    const wanted = ['almanac.md', 'pin.md', 'sleeve.md', 'lever.md', 'anvil.md', 'gauge.md', 'prose.md'];
    expect(order(notes)).toEqual(wanted);
    expect(order([...notes].reverse())).toEqual(wanted);
  });

  it('are called by number and title, or by the file that has none', () => {
    expect(labelOf('a.md', entryOf(`${head('job: 7')}# Lever\n`))).toBe('7  Lever');
    expect(labelOf('a.md', entryOf(head('job: 7')))).toBe('7  a.md');
    expect(labelOf('a.md', entryOf('# Lever\n'))).toBe('Lever');
  });
});
