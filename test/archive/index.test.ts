/** The index of past jobs: kept, brought up to date, damaged, and asked. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { entryOf } from '../../src/archive/entry';
import { find } from '../../src/archive/find';
import { JobIndex } from '../../src/archive/job-index';
import { readQuery } from '../../src/archive/query';
import { FORMAT, headOf, lineOf, readBack } from '../../src/archive/store';
import { sumOf } from '../../src/archive/sum';
import { MemoryNotes, chances, jobNote } from './workshop';

async function indexOf(notes: MemoryNotes): Promise<JobIndex> {
  const index = new JobIndex();
  await index.refresh(notes);
  return index;
}

const VERSION = '1.2.3';
const saved = async (index: JobIndex): Promise<string> => index.save(VERSION);
const sorted = (text: string): readonly string[] => text.split('\n').sort();

function asked(index: JobIndex, query: string): readonly string[] {
  const read = readQuery(query);
  if ('problem' in read) throw new Error(read.problem.says);
  return find(index, read.terms).hits.map((hit) => hit.path);
}

const FERRY = `---
job: 0147
customer: Ostley Ferry Trust
due: 2026-12-11
---

# Lever ball

> **Lesson:** three eighths bar is never round

\`\`\`figures
ball = 1 in ± 0.05 mm shaft
setup = ball_on_shank(ball, 3/8 in)
speed = 1200 rpm
speed used 1150 rpm   # chatter gone
old_ball measured 25.2 mm
ball measured 25.6 mm
missing = nothing
\`\`\`
`;

describe('an entry', () => {
  const entry = entryOf(FERRY);

  it('holds job, heading, lessons, words and findings', () => {
    expect(entry.job['customer']).toBe('Ostley Ferry Trust');
    expect([entry.title, entry.headings]).toEqual(['Lever ball', ['Lever ball']]);
    expect(entry.lessons).toEqual([{ line: 8, text: 'three eighths bar is never round' }]);
    expect(entry.text).toContain('chatter gone');
    expect(entry.text).not.toContain('ball_on_shank');
    expect([entry.errors, entry.findings.length]).toEqual([1, 1]);
  });

  it.each(['\n', '\r\n', '\r'])('holds the words beside the figures, with any line end (%j)', (end) => {
    const lines = [
      ...['\ufeff# Lever', '', 'Lesson: hold it short', '  turned twice  ', '## Second ##'],
      ...[
        '```figures',
        'a = 1 mm # by eye',
        'b = 2 mm',
        '# a remark',
        '```',
        '- **lesson:** slower',
        '> Lesson: oil it',
      ],
    ];
    const { title, headings, lessons, text } = entryOf(lines.join(end));
    expect([title, headings]).toEqual(['Lever', ['Lever', 'Second']]);
    expect(lessons).toEqual([
      { line: 2, text: 'hold it short' },
      { line: 10, text: 'slower' },
      { line: 11, text: 'oil it' },
    ]);
    expect(text.split('\n')).toEqual([
      ...['# Lever', 'Lesson: hold it short', 'turned twice', '## Second ##', '- **lesson:** slower'],
      ...['> Lesson: oil it', 'by eye', 'a remark'],
    ]);
    expect(entryOf(['---', 'part: Pin', '---', 'Words.'].join(end))).toMatchObject({
      title: 'Pin',
      text: 'Words.\n',
    });
  });

  it('holds as much of an endless note as anybody searches', () => {
    expect(entryOf('x '.repeat(30_000)).text).toHaveLength(40_000);
    const figures = Array.from({ length: 5_003 }, (_, i) => `a${i} = ${i}`).join('\n');
    expect(entryOf(`\`\`\`figures\n${figures}\n\`\`\`\n`).amounts).toHaveLength(5_000);
  });

  it('holds the limits that result, where none were asked', () => {
    const lines = [
      'a = 10 mm ± 0.1 mm',
      'b = 2 * a',
      'c = 2 * a ± 0.5 mm',
      'd = 1 mm',
      'e = 1 mm ± 0 mm',
      'a final 10.2 mm, 10.3 mm',
      // Of another kind than its figure: no reading of it.
      'd measured 5 kg',
    ];
    const { amounts } = entryOf(`\`\`\`figures on mill, lathe\n${lines.join('\n')}\n\`\`\`\n`);
    const limits = amounts.map(({ name, how, value, low, high }) => [name, how, value, low, high]);
    expect(limits).toEqual([
      ['a', 'figure', 10, 9.9, 10.1],
      ['b', 'figure', 20, 19.8, 20.2],
      ['c', 'figure', 20, 19.5, 20.5],
      ['d', 'figure', 1, null, null],
      ['e', 'figure', 1, 1, 1],
      ['a', 'final', 10.3, null, null],
    ]);
    expect(amounts[0]?.machines).toBe('mill lathe');
  });

  it('holds amounts in base units with limits, fields of records, readings and used values', () => {
    const by = new Map(entry.amounts.map((amount) => [`${amount.how} ${amount.name}`, amount]));
    expect(by.get('figure ball')).toMatchObject({ value: 25.4, high: 25.45, kind: 'length' });
    expect(by.get('figure ball')?.low).toBeCloseTo(25.35, 9);
    expect(by.get('used speed')).toMatchObject({
      value: 1150,
      shown: '1150 rpm',
      comment: 'chatter gone',
      line: 14,
    });
    expect(by.get('measured old_ball')?.value).toBe(25.2);
    // asin(9.525 / 25.4) / 2 in degrees, by hand.
    expect(by.get('figure setup.tilt')?.value).toBeCloseTo(11.0121, 3);
  });
});

describe('the index', () => {
  it('reads what is new, keeps what has not changed, and forgets what is gone', async () => {
    const notes = new MemoryNotes(30);
    const index = new JobIndex();
    expect(await index.refresh(notes)).toMatchObject({ read: 30, kept: 0, gone: 0, whole: true });
    notes.texts.set('jobs/00007.md', FERRY);
    notes.texts.delete('jobs/00009.md');
    notes.reads = 0;
    expect(await index.refresh(notes)).toMatchObject({ read: 1, kept: 28, gone: 1, whole: true });
    expect(notes.reads).toBe(1);
    expect(asked(index, 'ball = 1 in')).toContain('jobs/00007.md');
    expect(index.entry('jobs/00009.md')).toBeUndefined();
    expect(asked(index, 'ball > 0 mm')).not.toContain('jobs/00009.md');
  });

  it('starts from what was kept and reads only what changed', async () => {
    const notes = new MemoryNotes(30);
    const text = await saved(await indexOf(notes));
    const again = new JobIndex();
    expect(await again.load(text, VERSION)).toBe(30);
    notes.texts.set('jobs/00001.md', FERRY);
    notes.reads = 0;
    await again.refresh(notes);
    expect(notes.reads).toBe(1);
    expect(sorted(await saved(again))).toEqual(sorted(await saved(await indexOf(notes))));
  });

  it('can be ended and goes on where it was', async () => {
    const notes = new MemoryNotes(100);
    const index = new JobIndex();
    const first = await index.refresh(notes, (done) => done < 40);
    expect([first.whole, first.read, index.size]).toEqual([false, 40, 40]);
    notes.reads = 0;
    expect((await index.refresh(notes)).whole).toBe(true);
    expect([notes.reads, index.size]).toEqual([60, 100]);
  });

  it('tells now and then how far it is, and that all is done only when it is', async () => {
    const told = async (most: number): Promise<readonly number[]> => {
      const done: number[] = [];
      await new JobIndex().refresh(new MemoryNotes(100), (so, all) => {
        expect(all).toBe(100);
        return done.push(so) < most;
      });
      return done;
    };
    const whole = await told(Infinity);
    expect(whole.length).toBeLessThan(20);
    expect([whole[0], whole.at(-1)]).toEqual([0, 100]);
    expect(await told(3)).toEqual(whole.slice(0, 3));
  });

  it('leaves out a note that cannot be read, and says so', async () => {
    const notes = new MemoryNotes(3);
    const index = await indexOf(notes);
    const read = notes.read.bind(notes);
    notes.texts.set('jobs/00002.md', `${jobNote(2)}more`);
    notes.read = (path) => (path === 'jobs/00002.md' ? Promise.reject(new Error('locked')) : read(path));
    const all = await index.refresh(notes);
    expect(all.unreadable).toEqual([{ path: 'jobs/00002.md', why: 'locked' }]);
    expect(all).toMatchObject({ read: 0, kept: 2, gone: 0, whole: true });
    expect(index.entry('jobs/00002.md')).toBeUndefined();
    notes.read = () => Promise.reject('busy');
    expect((await index.refresh(notes)).unreadable).toEqual([{ path: 'jobs/00002.md', why: 'busy' }]);
  });

  it('keeps every part of an entry', async () => {
    const [one] = readBack(
      `${headOf(VERSION)}\n${lineOf({ path: 'a.md', mark: '1', entry: entryOf(FERRY) }, VERSION)}\n`,
      VERSION,
    );
    expect(one).toEqual({ path: 'a.md', mark: '1', entry: entryOf(FERRY) });
  });

  it('never trusts what is damaged: cut at any place, any bit flipped', async () => {
    const notes = new MemoryNotes();
    for (const path of ['a.md', 'b.md']) notes.texts.set(path, `---\njob: µ${path}\n---\n# ⌀\n${FERRY}`);
    const whole = await saved(await indexOf(notes));
    const right = new Map([...readBack(whole, VERSION)].map((one) => [one.path, JSON.stringify(one)]));
    expect(right.size).toBe(2);
    const bytes = new TextEncoder().encode(whole);
    const back = (some: Uint8Array): number => {
      let count = 0;
      for (const one of readBack(new TextDecoder().decode(some), VERSION)) {
        count++;
        if (JSON.stringify(one) !== right.get(one.path)) throw new Error(`not as it was: ${one.path}`);
      }
      return count;
    };
    for (let at = 0; at < bytes.length; at++) expect(back(bytes.subarray(0, at))).toBeLessThan(2);
    for (let at = 0; at < bytes.length; at++)
      for (let bit = 0; bit < 8; bit++) {
        const flipped = bytes.slice();
        flipped[at] = (flipped[at] ?? 0) ^ (1 << bit);
        expect(back(flipped)).toBeLessThan(2);
      }
    fc.assert(
      fc.property(
        fc.nat(bytes.length),
        fc.nat(bytes.length),
        fc.uint8Array({ maxLength: 40 }),
        (a, b, junk) => {
          const [from, to] = [Math.min(a, b), Math.max(a, b)];
          back(Uint8Array.from([...bytes.subarray(0, from), ...junk, ...bytes.subarray(to)]));
        },
      ),
    );
  });

  it('takes nothing from another format, or from another version of the program', async () => {
    const whole = await saved(await indexOf(new MemoryNotes(3)));
    expect([...readBack(whole, VERSION)]).toHaveLength(3);
    expect([...readBack(whole, '1.2.4')]).toEqual([]);
    expect([...readBack(whole.replace(`index ${FORMAT}`, `index ${FORMAT + 1}`), VERSION)]).toEqual([]);
    expect([...readBack(`junk${whole}`, VERSION)]).toEqual([]);
  });

  it('has changes put behind it, a note each, until a good part is out of date; cut anywhere nothing is lost', async () => {
    const notes = new MemoryNotes(12);
    const whole = await saved(await indexOf(notes));
    const before = new JobIndex();
    await before.load(whole, VERSION);
    expect(before.changes(VERSION)).toBe('');
    for (const path of ['jobs/00002.md', 'jobs/00005.md']) notes.texts.set(path, FERRY);
    await before.refresh(notes);
    const changes = before.changes(VERSION) ?? '';
    expect(changes.split('\n').filter((line) => line !== '')).toHaveLength(2);
    const wanted = sorted(await saved(await indexOf(notes)));
    for (let end = 0; end <= changes.length; end += end < changes.length - 3 ? 97 : 1) {
      // What another run puts behind a torn end stands on a line of its own.
      for (const more of ['', changes]) {
        const again = new JobIndex();
        expect(await again.load(whole + changes.slice(0, end) + more, VERSION)).toBe(12);
        notes.reads = 0;
        await again.refresh(notes);
        expect(notes.reads).toBeLessThanOrEqual(more === '' ? 2 : 0);
        expect(sorted(await saved(again))).toEqual(wanted);
      }
    }
    const both = new JobIndex();
    await both.load(whole + changes, VERSION);
    expect(both.changes(VERSION)).toBe('');
    const torn = new JobIndex();
    await torn.load(whole + changes.slice(0, -1), VERSION);
    expect(torn.changes(VERSION)).toBeNull();
    // Lines of another version that come to stand here count for nothing.
    const other = new JobIndex();
    await other.load(whole.replaceAll(VERSION, '1.2.4') + changes, '1.2.4');
    expect(other.size).toBe(0);
    const worn = new JobIndex();
    await worn.load(whole + changes + changes, VERSION);
    expect(worn.changes(VERSION)).toBeNull();
  });

  it('has changes put behind it while no more than a quarter of its lines is out of date', async () => {
    const index = new JobIndex();
    await index.load(await saved(await indexOf(new MemoryNotes(12))), VERSION);
    const put = (path: string): void => index.put({ path, mark: '2', entry: entryOf(FERRY) });
    for (const path of ['jobs/00001.md', 'jobs/00002.md', 'jobs/00003.md']) put(path);
    expect(index.changes(VERSION)).toMatch(/^(\n[^\n]+\n){3}$/);
    put('jobs/00004.md');
    expect(index.changes(VERSION)).toBeNull();
  });

  it('takes nothing that is no entry, though its sum is right', async () => {
    const line = lineOf({ path: 'a.md', mark: '1', entry: entryOf(FERRY) }, VERSION);
    const data = JSON.parse(line.slice(line.indexOf(' ') + 1)) as unknown[];
    const kept = (made: unknown): number => {
      const body = JSON.stringify(made);
      return [...readBack(`${headOf(VERSION)}\n${sumOf(`${headOf(VERSION)} ${body}`)} ${body}\n`, VERSION)]
        .length;
    };
    expect(kept(data)).toBe(1);
    expect(kept({})).toBe(0);
    for (const odd of [undefined, 7.5, { a: 1 }, [1], [[1]]])
      for (let i = 0; i < data.length; i++)
        expect([i, odd, kept(data.map((it, at) => (at === i ? odd : it)))]).toEqual([i, odd, 0]);
    expect(kept(data.map((it, at) => (at === 2 ? ['0147'] : it)))).toBe(0);
    for (const lesson of [['8', 'text'], [8], [8, 9]])
      expect(kept(data.map((it, at) => (at === 6 ? [lesson] : it)))).toBe(0);
    const amounts = data[5] as unknown[][];
    for (const odd of [undefined, true, {}])
      for (let i = 0; i < (amounts[0]?.length ?? 0); i++) {
        const bent = amounts.map((it, at) => (at === 0 ? it.map((part, j) => (j === i ? odd : part)) : it));
        // A limit or a comment that is not there is none.
        if (odd === undefined && [4, 5, 9].includes(i)) continue;
        expect([i, odd, kept(data.map((it, at) => (at === 5 ? bent : it)))]).toEqual([i, odd, 0]);
      }
  });

  it('tells texts apart that differ in one letter, wherever it stands', () => {
    const text = 'pin = 12 mm';
    const others = [...text].map((letter, at) => `${text.slice(0, at)}${letter}x${text.slice(at + 1)}`);
    const changed = [...text].map((_, at) => `${text.slice(0, at)}x${text.slice(at + 1)}`);
    const all = [text, '', ...others, ...changed];
    expect(new Set(all.map(sumOf)).size).toBe(all.length);
  });

  it.each([
    ['cut short', (text: string) => text.slice(0, text.length / 2)],
    ['without its end', (text: string) => text.slice(0, -1)],
    ['with a line torn', (text: string) => text.replace('"ball"', '"bamm"')],
    ['of another version', (text: string) => text.replace(VERSION, '9.9.9')],
    ['empty', () => ''],
  ])('is made again with nothing lost from one that is %s', async (_, damage) => {
    const notes = new MemoryNotes(12);
    const whole = await saved(await indexOf(notes));
    const index = new JobIndex();
    expect(await index.load(damage(whole), VERSION)).toBeLessThan(12);
    await index.refresh(notes);
    expect(sorted(await saved(index))).toEqual(sorted(whole));
  });

  it('gives the same answers after any changes as one made afresh', async () => {
    const notes = new MemoryNotes(25);
    const index = await indexOf(notes);
    // Every way of asking is in use before the changes.
    const queries = [
      'ball 20 mm .. 40 mm',
      'ring > 30 mm',
      'used speed > 600 rpm',
      'chatter',
      'material: brass',
      'due < 2023',
    ];
    const all = (of: JobIndex): unknown => queries.map((query) => [...asked(of, query)].sort());
    all(index);
    const chance = chances(3);
    for (let round = 0; round < 20; round++) {
      const path = `jobs/${String(1 + Math.floor(chance() * 30)).padStart(5, '0')}.md`;
      if (chance() < 0.3) notes.texts.delete(path);
      else notes.texts.set(path, jobNote(Math.floor(chance() * 500), 2));
      await index.refresh(notes);
      expect(all(index)).toEqual(all(await indexOf(notes)));
    }
  });
});

describe('finding', () => {
  it('finds by value in any unit what reading every note finds', async () => {
    const notes = new MemoryNotes(200);
    const index = await indexOf(notes);
    const wanted = [...notes.texts]
      .filter(([, text]) => {
        const ball = Number(/^ball {2}= ([\d.]+) mm/m.exec(text)?.[1]);
        const speed = Number(/^speed used (\d+) rpm/m.exec(text)?.[1]);
        return ball >= 20 && ball <= 25 && speed > 600;
      })
      .map(([path]) => path);
    expect(wanted.length).toBeGreaterThan(3);
    const inches = `ball ${20 / 25.4} in .. ${25 / 25.4} in`;
    for (const ball of ['ball 20 mm..25 mm', 'ball 2 cm .. 25 mm', inches])
      expect([...asked(index, `${ball}, used speed > 600 rpm`)].sort()).toEqual(wanted.sort());
  });

  it('counts as equal what shows alike, and bounds as written', async () => {
    const notes = new MemoryNotes();
    notes.texts.set('a.md', FERRY);
    const index = await indexOf(notes);
    const hits = (query: string): number => asked(index, query).length;
    expect(hits('ball = 25.4 mm')).toBe(1);
    expect(hits('ball = 25.41 mm')).toBe(0);
    expect(hits('setup.tilt = 11.012°')).toBe(1);
    expect(hits('tilt 11.012°')).toBe(1);
    expect(hits('ball < 25.4 mm')).toBe(1); // the worn sample of 25.2 mm
    expect(hits('ball < 25.2 mm')).toBe(0);
    expect(hits('ball <= 25.2 mm')).toBe(1);
    expect(hits('ball > 25.4 mm')).toBe(0);
    expect(hits('ball > 1.01 in')).toBe(0);
    expect(hits('ball = 1 in ± 0.1 mm')).toBe(1);
    expect(hits('speed = 1200 rpm')).toBe(1);
    expect(hits('used speed = 1200 rpm')).toBe(0);
    expect(hits('ball = 25.4 rpm')).toBe(0);
    expect(hits('due = 2026-12, customer: ferry')).toBe(1);
    expect(hits('due < 2026-12')).toBe(0);
    expect(hits('due <= 2026')).toBe(1);
    // A job due within what is asked for is neither before nor after it.
    for (const query of ['> 2025', '> 2025-12-31', '>= 2026-12', '< 2027', '>= 2026', '<= 2027-01'])
      expect([query, hits(`due ${query}`)]).toEqual([query, 1]);
    for (const query of ['> 2026', '> 2027', '< 2026', '>= 2027', '<= 2025', '= 2025', '= 2026-11'])
      expect([query, hits(`due ${query}`)]).toEqual([query, 0]);
    for (const [query, wanted] of [...['=', '<=', '>='].map((it) => [it, 1]), ['<', 0], ['>', 0]])
      expect([query, hits(`due ${query ?? ''} 2026-12-11`)]).toEqual([query, wanted]);
    expect(hits('ball >= 25.4001 mm')).toBe(1); // as shown, 25.4 mm
    expect(hits('ball >= 25.41 mm')).toBe(0);
    expect(hits('chatter ball 25 mm .. 26 mm')).toBe(1);
    expect(hits('winch')).toBe(0);
  });

  it('finds by a field or a date only notes that have it', async () => {
    const notes = new MemoryNotes();
    notes.texts.set('a.md', FERRY);
    notes.texts.set('bare.md', '# Ferry due 2026\n');
    notes.texts.set('soon.md', '---\ndue: soon\n---\n');
    const index = await indexOf(notes);
    for (const query of ['customer: ferry', 'due > 2000', 'due < 3000', 'due >= 2000'])
      expect([query, asked(index, query)]).toEqual([query, ['a.md']]);
  });

  it('asks for a reading by its word, but for a sample that no figure plans', async () => {
    const notes = new MemoryNotes();
    notes.texts.set('planned.md', '```figures\npin = 26 mm\npin measured 26.4 mm\n```\n');
    notes.texts.set('sample.md', '```figures\npin measured 26.4 mm\n```\n');
    notes.texts.set('used.md', '```figures\npin used 26.4 mm\n```\n');
    notes.texts.set('nothing.md', '```figures\npin = 1 mm / 0\n```\n');
    const index = await indexOf(notes);
    expect(asked(index, 'pin = 26.4 mm')).toEqual(['sample.md']);
    expect(asked(index, 'measured pin = 26.4 mm')).toEqual(['planned.md', 'sample.md']);
    expect(asked(index, 'pin = 26 mm')).toEqual(['planned.md']);
    expect(asked(index, 'pin > 0 mm')).toEqual(['planned.md', 'sample.md']);
    index.remove('sample.md');
    index.remove('sample.md');
    index.remove('none.md');
    expect(asked(index, 'measured pin = 26.4 mm')).toEqual(['planned.md']);
    expect(asked(index, 'pin = 26.4 mm')).toEqual([]);
  });

  it('puts the very name before a name that holds it', async () => {
    const notes = new MemoryNotes();
    notes.texts.set('a.md', '```figures\nold_ball = 20 mm\nold_ring = 20 mm\n```\n');
    notes.texts.set('ball.md', '```figures\nball = 20 mm\nring = 20 mm\n```\n');
    notes.texts.set('field.md', '```figures\nball = bolt_circle(40 mm, 4)\n```\n');
    notes.texts.set('setup.md', '```figures\nsetup = ball_on_shank(20 mm, 8 mm)\n```\n');
    const index = await indexOf(notes);
    expect(asked(index, 'ball 1 mm .. 30 mm')).toEqual(['ball.md', 'field.md', 'a.md']);
    expect(asked(index, 'ring 1 mm .. 30 mm')).toEqual(['ball.md', 'setup.md', 'a.md']);
    // Of several names that hold it in one note the nearest counts, wherever it stands.
    notes.texts.set('a.md', '```figures\nold_ball = 20 mm\nball = 20 mm\n```\n');
    await index.refresh(notes);
    expect(asked(index, 'ball 1 mm .. 30 mm')).toEqual(['a.md', 'ball.md', 'field.md']);
  });

  it('finds words by their beginning and with a slip in a long one, a title before the head before the rest', () => {
    const index = new JobIndex();
    const put = (path: string, text: string): void => index.put({ path, mark: '', entry: entryOf(text) });
    const found = (word: string): readonly string[] => [...index.withWord(word).keys()];
    put('text.md', '# Pin\n\nspindle, spindle of a lathe\n');
    put('head.md', '---\ncustomer: Spindle\n---\n');
    put('title.md', '# Spindle\n');
    expect(found('spindle')).toEqual(['title.md', 'head.md', 'text.md']);
    expect(found('spi')).toHaveLength(3);
    expect(found('sp')).toEqual([]);
    expect([found('spindel'), found('spindla'), found('sbindla')].map(({ length }) => length)).toEqual([
      0, 3, 0,
    ]);
    put('lever.md', 'lever, winches\n');
    expect([found('lever'), found('lebar'), found('lebver'), found('lezer')]).toEqual([
      ['lever.md'],
      [],
      ['lever.md'],
      [],
    ]);
  });

  it('follows words through notes that change, come and go', () => {
    const index = new JobIndex();
    const put = (path: string, text: string): void => index.put({ path, mark: '', entry: entryOf(text) });
    const found = (word: string): readonly string[] => [...index.withWord(word).keys()].sort();
    put('a.md', 'chatter');
    put('b.md', 'chatter');
    expect(found('chatter')).toEqual(['a.md', 'b.md']);
    put('a.md', 'silence');
    put('c.md', 'chatter');
    put('d.md', 'chatter');
    index.remove('d.md');
    index.remove('none.md');
    expect([found('chatter'), found('silence')]).toEqual([['b.md', 'c.md'], ['a.md']]);
    index.remove('b.md');
    expect(found('chatter')).toEqual(['c.md']);
  });
});

describe('a query that cannot be read', () => {
  it.each([
    ['', 'Write words, or a condition'],
    ['ball > ', 'no value that can be looked for'],
    ['ball 20 mm .. ', 'no value that can be looked for'],
    ['> 20 mm', 'needs a name before and a value after `>`'],
    ['colour: red', 'no field of a job'],
    ['customer:', 'Say what `customer:` should hold'],
    ['due < tomorrow', 'A date is written 2026-12-31'],
    ['ball > 20 mm .. 25 mm', 'Give one value after `>`'],
    ['ball = 3-8 in', 'no value that can be looked for'],
    ['used speed fast', 'no value that can be looked for'],
    ['x'.repeat(1001), 'up to 1000 characters'],
  ])('says why: %j', (query, says) => {
    const read = readQuery(query);
    expect('problem' in read && read.problem.says).toContain(says);
    if ('problem' in read) expect(read.problem.end).toBeGreaterThanOrEqual(read.problem.start);
  });

  it('never throws, whatever is typed', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.string({
            unit: fc.constantFrom('ball', ' ', '<', '=', '2', ' mm', '..', ',', ':', 'used', '('),
          }),
        ),
        (text) => {
          const read = readQuery(text);
          expect('terms' in read || read.problem.says.length > 10).toBe(true);
        },
      ),
    );
  });
});
