/** Amounts in the order of their values, and the best of many answers: held against plain sorting and filtering. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { entryOf } from '../../src/archive/entry';
import { type Hit, find } from '../../src/archive/find';
import { JobIndex } from '../../src/archive/job-index';
import { firstOf } from '../../src/archive/order';
import { readQuery } from '../../src/archive/query';

const note = (sizes: readonly number[], due: number): string =>
  `---\ndue: 2025-0${1 + due}-01\n---\n\`\`\`figures\n${sizes
    .map((size, i) => `${i === 0 ? 'pin' : `pin_${i}`} = ${size} mm`)
    .join('\n')}\n\`\`\`\n`;

const noteOf = (...lines: readonly string[]): string => `\`\`\`figures\n${lines.join('\n')}\n\`\`\`\n`;

function indexOf(notes: Readonly<Record<string, string>>): JobIndex {
  const index = new JobIndex();
  for (const [path, text] of Object.entries(notes)) index.put({ path, mark: '', entry: entryOf(text) });
  return index;
}

function hits(index: JobIndex, text: string): readonly Hit[] {
  const query = readQuery(text);
  if ('problem' in query) throw new Error(query.problem.says);
  return find(index, query.terms).hits;
}

const ask = (index: JobIndex, text: string): readonly string[] => hits(index, text).map(({ path }) => path);

interface Made {
  readonly sizes: readonly number[];
  readonly due: number;
}

/** What the index should answer, by looking at every note. */
function plainly(notes: ReadonlyMap<string, Made>, low: number, high: number): readonly string[] {
  return [...notes]
    .map(([path, { sizes, due }]) => {
      const fitting = sizes.flatMap((size, i) => (size >= low && size <= high ? [i] : []));
      // `pin` is the very name, `pin_1` holds it as one word of two.
      const score = fitting.length === 0 ? 0 : fitting.includes(0) ? 4 : 1.5;
      return { path, due, score };
    })
    .filter(({ score }) => score > 0)
    .sort((a, b) => b.score - a.score || b.due - a.due || (a.path < b.path ? -1 : 1))
    .map(({ path }) => path);
}

const made = fc.record({ sizes: fc.array(fc.nat(9), { maxLength: 3 }), due: fc.nat(8) });
const step = fc.tuple(fc.nat(12), fc.option(made, { nil: null }), fc.nat(9), fc.nat(9), fc.nat(5));

describe('amounts', () => {
  it('answer in the same order as looking at every note, whatever comes, changes and goes between questions', () => {
    fc.assert(
      fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
        const [index, notes] = [new JobIndex(), new Map<string, Made>()];
        for (const [number, one, a, b, most] of steps) {
          const path = `${number}.md`;
          if (one) {
            notes.set(path, one);
            index.put({ path, mark: '', entry: entryOf(note(one.sizes, one.due)) });
          } else {
            notes.delete(path);
            index.remove(path);
          }
          const [low, high] = [Math.min(a, b), Math.max(a, b)];
          const query = readQuery(`pin ${low} mm .. ${high} mm`);
          if ('problem' in query) throw new Error(query.problem.says);
          const wanted = plainly(notes, low, high);
          expect(find(index, query.terms).hits.map((hit) => hit.path)).toEqual(wanted);
          const some = find(index, query.terms, most);
          expect(some.hits.map((hit) => hit.path)).toEqual(wanted.slice(0, most));
          expect(some.all).toBe(wanted.length);
          const all = [...notes].sort(([p, x], [q, y]) => y.due - x.due || (p < q ? -1 : 1));
          expect(ask(index, 'due > 2000')).toEqual(all.map(([path]) => path));
        }
      }),
      { numRuns: 60 },
    );
  });

  it('are told of a note once each and in its order, though two parts of a question are about the same', () => {
    const index = indexOf({ 'a.md': noteOf('big_pin = 9 mm', 'pin = 2 mm', 'small_pin = 1 mm') });
    expect(hits(index, 'pin > 1 mm, pin < 20 mm')[0]?.amounts.map(({ name }) => name)).toEqual([
      'big_pin',
      'pin',
      'small_pin',
    ]);
  });

  it('that an answer shows are those of its note that fit, and none where no value was asked for', () => {
    const index = indexOf({
      'a.md': noteOf('pin = 1 mm', 'pin_1 = 5 mm', 'pin_2 = 6 mm', 'pin_3 = 2 mm'),
      'b.md': noteOf('pin_3 = 3 mm', 'pin = 4 mm', 'bore = 5 mm'),
    });
    const shown = (query: string): readonly string[] =>
      hits(index, query).map(({ path, amounts }) => `${path} ${amounts.map(({ name }) => name).join(' ')}`);
    expect(shown('pin 4 mm .. 6 mm')).toEqual(['b.md pin', 'a.md pin_1 pin_2']);
    expect(shown('pin = 2 mm')).toEqual(['a.md pin_3']);
    expect(index.withWord('pin').size).toBe(0);
    expect(hits(indexOf({ 'a.md': '# Pin\n' + noteOf('pin = 1 mm') }), 'pin')).toEqual([
      { path: 'a.md', title: 'Pin', job: {}, amounts: [] },
    ]);
  });

  it('are those of a note as it is now, however often it changed since the question before', () => {
    const index = indexOf({ 'a.md': noteOf('pin = 1 mm'), 'b.md': noteOf('pin = 1 mm') });
    expect(ask(index, 'pin = 1 mm')).toEqual(['a.md', 'b.md']);
    for (const size of [2, 3, 4])
      index.put({ path: 'a.md', mark: '', entry: entryOf(noteOf(`pin = ${size} mm`)) });
    expect([ask(index, 'pin = 1 mm'), ask(index, 'pin = 4 mm')]).toEqual([['b.md'], ['a.md']]);
  });

  it('of one name are asked for by their kind, whichever came first', () => {
    const index = indexOf({ 'mass.md': noteOf('pin = 5 kg'), 'length.md': noteOf('pin = 5 mm') });
    expect(ask(index, 'pin = 5 mm')).toEqual(['length.md']);
    expect(ask(index, 'pin = 5 kg')).toEqual(['mass.md']);
  });

  it('of a thousand notes that changed again and again are those of the notes as they are', () => {
    const index = new JobIndex();
    const entries = Array.from({ length: 7 }, (_, i) => entryOf(note([i], i)));
    const query = readQuery('pin = 3 mm');
    if ('problem' in query) throw new Error(query.problem.says);
    for (let i = 0; i < 6000; i++) {
      const entry = entries[i % 7];
      if (entry) index.put({ path: `${i % 1000}.md`, mark: '', entry });
      if (i % 500 === 0) find(index, query.terms);
    }
    // Of the last thousand, from 5000 to 5999, those whose remainder by 7 is 3.
    const wanted = Array.from({ length: 1000 }, (_, i) => 5000 + i).filter((i) => i % 7 === 3).length;
    expect(find(index, query.terms).all).toBe(wanted);
  });
});

describe('a name of two words', () => {
  it('is found in names that hold both, whatever their order', () => {
    const names = ['old_ball', 'ball_old', 'old_pin', 'old', 'old_steel_ball', 'setup_ball'];
    const index = indexOf(Object.fromEntries(names.map((name) => [`${name}.md`, noteOf(`${name} = 2 mm`)])));
    expect(ask(index, 'old_ball = 2 mm')).toEqual(['old_ball.md', 'ball_old.md', 'old_steel_ball.md']);
    expect(ask(index, 'old_pin = 2 mm')).toEqual(['old_pin.md']);
    expect(ask(index, 'new_ball = 2 mm')).toEqual([]);
  });
});

describe('the first of many', () => {
  it('are those of a list that rises, falls, or is mixed', () => {
    const order = (a: number, b: number): number => a - b;
    const rising = Array.from({ length: 40 }, (_, i) => (i % 33) / 40);
    const mixed = rising.map((_, i) => ((i * 17) % 40) / 40);
    for (const list of [rising, [...rising].reverse(), mixed])
      for (let most = 0; most <= 41; most++)
        expect(firstOf(list, most, order)).toEqual([...list].sort(order).slice(0, most));
  });

  it('are none where none are asked for', () => {
    const order = (a: { size: number }, b: { size: number }): number => a.size - b.size;
    expect(firstOf([{ size: 2 }, { size: 1 }], 0, order)).toEqual([]);
  });

  it('are those of the whole list in order', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(20)), fc.nat(12), (list, most) => {
        const order = (a: number, b: number): number => a - b;
        expect(firstOf(list, most, order)).toEqual([...list].sort(order).slice(0, most));
        expect(firstOf(list, Infinity, order)).toEqual([...list].sort(order));
      }),
    );
  });
});
