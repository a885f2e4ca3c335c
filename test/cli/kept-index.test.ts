/** The index that the command line keeps between runs, on real files: damaged, killed while it is written, and shared. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import manifest from '../../package.json';
import { readBack } from '../../src/archive/store';
import { chances, jobNote } from '../archive/workshop';
import { folder } from './folder';
import { BIN, type Ran, cacheIn, scribeline as run } from './scribeline';

const QUERY = ['find', 'ball > 1 mm', '--json'];
const find = (root: string, cache: string, uid?: number): Promise<Ran> =>
  run(QUERY, root, { env: cacheIn(cache), ...(uid === undefined ? {} : { uid }) });

const nameOf = (i: number): string => `jobs/${String(i).padStart(4, '0')}.md`;
const LONG_AGO = new Date('2025-01-02T03:04:05Z');

/** Written long enough ago that their times can be relied on. */
function workshop(count: number, more = ''): string {
  const files: Record<string, string> = {};
  for (let i = 1; i <= count; i++) files[nameOf(i)] = jobNote(i) + more;
  const root = folder(files);
  for (const name of Object.keys(files)) utimesSync(join(root, name), LONG_AGO, LONG_AGO);
  return root;
}

function keptFile(cache: string): string {
  const names = readdirSync(join(cache, 'scribeline')).filter((name) => name.endsWith('.index'));
  expect(names).toHaveLength(1);
  return join(cache, 'scribeline', names[0] ?? '');
}

const notesIn = (file: string): number =>
  new Set([...readBack(readFileSync(file, 'utf8'), manifest.version)].map(({ path }) => path)).size;
const lines = (file: string): readonly string[] => readFileSync(file, 'utf8').split('\n').sort();

describe('a kept index', () => {
  it('spares reading what has not changed', async () => {
    const [root, cache] = [workshop(6), folder({})];
    await find(root, cache);
    const before = statSync(keptFile(cache), { bigint: true });
    await find(root, cache);
    // Nothing was read, so nothing was kept anew.
    expect(statSync(keptFile(cache), { bigint: true })).toEqual({
      ...before,
      atimeMs: expect.anything(),
      atimeNs: expect.anything(),
      atime: expect.anything(),
    });
  });

  it('has a changed note put behind it, and is written anew once a good part is out of date', async () => {
    const [root, cache] = [workshop(12), folder({})];
    await find(root, cache);
    const file = keptFile(cache);
    const put: boolean[] = [];
    let before = readFileSync(file, 'utf8');
    for (let round = 0; round < 6; round++) {
      writeFileSync(join(root, nameOf(3)), jobNote(3, round + 2));
      utimesSync(join(root, nameOf(3)), LONG_AGO, new Date(LONG_AGO.valueOf() + 1000 * round));
      expect(await find(root, cache)).toEqual(await find(root, folder({})));
      const now = readFileSync(file, 'utf8');
      put.push(now.startsWith(before));
      before = now;
      expect(notesIn(file)).toBe(12);
    }
    // Three of twelve may be out of date; then it is whole again.
    expect(put).toEqual([true, true, true, false, true, true]);
  });

  it.each([
    // Within a line, which is what tells: at the end of one, what is missing would be put behind it.
    ['cut short', (text: string) => text.slice(0, text.indexOf('\n', text.length / 2) - 9)],
    ['bit-flipped', (text: string) => text.replace('"ball"', '"bamm"')],
    ['of another format', (text: string) => text.replace(/^scribeline index \d+/, 'scribeline index 999')],
    ['of another version', (text: string) => text.replace(manifest.version, '99.0.0')],
    ['not text', () => '\u0000\ufffd{{'],
    ['empty', () => ''],
  ])('that is %s is made again with nothing lost', async (_, damage) => {
    const [root, cache] = [workshop(6), folder({})];
    const whole = await find(root, cache);
    const file = keptFile(cache);
    const kept = lines(file);
    writeFileSync(file, damage(readFileSync(file, 'utf8')));
    expect(await find(root, cache)).toEqual(whole);
    expect(lines(file)).toEqual(kept);
  });

  it.each([
    ['a folder in its place', (file: string) => mkdirSync(join(file, 'in', 'it'), { recursive: true })],
    ['a link to nowhere in its place', (file: string) => symlinkSync('nowhere/at/all', file)],
    ['a link in a ring in its place', (file: string) => symlinkSync(file, file)],
  ])('with %s is made again with nothing lost', async (_, put) => {
    const [root, cache] = [workshop(6), folder({})];
    const whole = await find(root, cache);
    const file = keptFile(cache);
    const kept = lines(file);
    rmSync(file);
    put(file);
    expect(await find(root, cache)).toEqual(whole);
    expect(lines(file)).toEqual(kept);
    expect(await find(root, cache)).toEqual(whole);
  });

  // Where the tests run as root, nothing is unreadable for them: the runs are another user's.
  it('that may not be read is made again with nothing lost', async () => {
    const root = workshop(6);
    const cache = folder({});
    chmodSync(root, 0o755);
    chmodSync(cache, 0o777);
    const uid = process.getuid?.() === 0 ? 65534 : undefined;
    const whole = await find(root, cache, uid);
    expect(whole.err).toBe('');
    const file = keptFile(cache);
    const kept = lines(file);
    chmodSync(file, 0);
    expect(await find(root, cache, uid)).toEqual(whole);
    expect(lines(file)).toEqual(kept);
    // Nothing can be kept: the answer is the same.
    chmodSync(file, 0);
    chmodSync(join(cache, 'scribeline'), 0o555);
    expect(await find(root, cache, uid)).toEqual(whole);
    chmodSync(join(cache, 'scribeline'), 0o755);
  });

  it('sees a note written again at once with as many letters', async () => {
    const note = (size: number): string => `\`\`\`figures\nball = ${size} mm\n\`\`\`\n`;
    const [root, cache] = [folder({ 'a.md': note(20) }), folder({})];
    const now = new Date();
    for (const size of [21, 22, 23]) {
      writeFileSync(join(root, 'a.md'), note(size));
      utimesSync(join(root, 'a.md'), now, now); // as on a disk with a coarse clock
      expect((await find(root, cache)).out).toContain(`"shown": "${size} mm"`);
    }
  });
});

describe('a run that is killed while it writes the index', () => {
  const COUNT = 60;
  // Long notes, so that writing takes long enough to be met.
  const WORDS = 'The gauge goes on with a push and no play. '.repeat(1500);

  const start = (root: string, cache: string): ChildProcess =>
    spawn(process.execPath, [BIN, ...QUERY], {
      cwd: root,
      env: { ...process.env, ...cacheIn(cache) },
      stdio: 'ignore',
    });

  /** Starts a run, and kills it `late` ms after it began to write. Tells whether it was met while writing. */
  async function killed(root: string, cache: string, late: number): Promise<boolean> {
    const kept = join(cache, 'scribeline');
    const child = start(root, cache);
    const over = once(child, 'exit');
    const beside = (): number =>
      existsSync(kept) ? readdirSync(kept).filter((name) => name.endsWith('.tmp')).length : 0;
    const before = beside();
    const since = Date.now();
    while (child.exitCode === null && beside() === before && Date.now() - since < 20_000)
      await new Promise((done) => setImmediate(done));
    const until = performance.now() + late;
    while (performance.now() < until);
    child.kill('SIGKILL');
    await over;
    return beside() > before;
  }

  it('leaves the index as it was or as it was to be; the next run has everything, again and again', async () => {
    const [root, cache] = [workshop(COUNT, WORDS), folder({})];
    const chance = chances(11);
    let met = 0;
    for (let round = 0; round < 40 && met < 12; round++) {
      // More than are put behind what is there.
      const from = Math.floor(chance() * COUNT);
      for (let at = from; at < from + 20; at++) {
        const i = 1 + (at % COUNT);
        writeFileSync(join(root, nameOf(i)), jobNote(i, round + 2) + WORDS);
      }
      if (await killed(root, cache, chance() * 3)) met++;
      const name = existsSync(join(cache, 'scribeline'))
        ? readdirSync(join(cache, 'scribeline')).find((it) => it.endsWith('.index'))
        : undefined;
      // Never torn: there is none yet, or all of it reads back.
      if (name) expect(notesIn(join(cache, 'scribeline', name))).toBe(COUNT);
      if (round % 4 === 0) expect(await find(root, cache)).toEqual(await find(root, folder({})));
    }
    expect(met).toBeGreaterThanOrEqual(12);
    expect(await find(root, cache)).toEqual(await find(root, folder({})));
    // What the killed ones left is swept away once nobody can be writing it any more.
    const left = (): string[] =>
      readdirSync(join(cache, 'scribeline')).filter((name) => name.endsWith('.tmp'));
    expect(left().length).toBe(met);
    for (const name of left().slice(1)) utimesSync(join(cache, 'scribeline', name), LONG_AGO, LONG_AGO);
    rmSync(join(root, nameOf(1)));
    await find(root, cache);
    expect(left()).toHaveLength(1);
  });

  it('may leave what it puts behind torn: the next run reads again what that was of', async () => {
    const [root, cache, other] = [workshop(30, WORDS), folder({}), folder({})];
    await find(root, cache);
    const file = keptFile(cache);
    const whole = readFileSync(file);
    const met: boolean[] = [];
    for (let round = 0; round < 5; round++) {
      writeFileSync(file, whole);
      // Few enough to be put behind what is there.
      for (let i = 1; i <= 6; i++) writeFileSync(join(root, nameOf(i)), jobNote(i, round + 2) + WORDS);
      const child = start(root, cache);
      const over = once(child, 'exit');
      const isUntouched = (): boolean => statSync(file).size === whole.length;
      while (child.exitCode === null && isUntouched()) {
        // Looking without a pause meets the most: it takes less than a thousandth of a second.
        for (let i = 0; i < 200 && isUntouched(); i++);
        await new Promise((done) => setImmediate(done));
      }
      child.kill('SIGKILL');
      await over;
      met.push(child.signalCode === 'SIGKILL' && statSync(file).size > whole.length);
      expect(readFileSync(file).subarray(0, whole.length).equals(whole)).toBe(true);
      expect(await find(root, cache)).toEqual(await find(root, other));
    }
    // In the midst of it, or just behind.
    expect(met).toContain(true);
  });
});

describe('two processes on one folder', () => {
  it('write many times and do not spoil each other', async () => {
    const COUNT = 30;
    const [root, cache] = [workshop(COUNT), folder({})];
    const chance = chances(5);
    const each = async (who: number): Promise<void> => {
      for (let round = 0; round < 12; round++) {
        // Each changes notes of its own, so that both have something to keep at each turn.
        const i = 1 + who + 2 * Math.floor((chance() * COUNT) / 2);
        writeFileSync(join(root, nameOf(i)), jobNote(i, 10 + round));
        const { code, err } = await find(root, cache);
        expect([code, err]).toEqual([0, '']);
        expect(notesIn(keptFile(cache))).toBe(COUNT);
      }
    };
    await Promise.all([each(0), each(1)]);
    expect(await find(root, cache)).toEqual(await find(root, folder({})));
    expect(readdirSync(join(cache, 'scribeline'))).toHaveLength(1);
  });

  it('make it at once from nothing', async () => {
    const [root, cache] = [workshop(40), folder({})];
    const ran = await Promise.all(Array.from({ length: 4 }, () => find(root, cache)));
    for (const one of ran) expect(one).toEqual(ran[0]);
    expect(readdirSync(join(cache, 'scribeline'))).toHaveLength(1);
    expect(await find(root, cache)).toEqual(ran[0]);
  });
});
