/**
 * What the command line writes is as it was or as it was asked to be, and whoever asked is told; notes are never touched.
 * Real files, real permissions, real full disks, real kills.
 */
import { execFile, execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import {
  chmodSync,
  existsSync,
  linkSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { jobNote } from '../archive/workshop';
import { folder } from './folder';
import { BIN, type Ran, cacheIn, scribeline } from './scribeline';

/** Permissions do not count for root: then the runs are another user's. */
const OTHER = process.getuid?.() === 0 ? { uid: 65534 } : {};
const SHEET = ['sheet', 'a.md', '-o', 'a.html'];
/** Prose enough that writing takes a while. */
const WORDS = 'The gauge goes on with a push and no play.\n\n'.repeat(500);
const OLD = 'an older sheet\n';

/** A note and an older sheet of it, which anybody may write. */
function job(): string {
  const root = folder({ 'a.md': jobNote(1), 'a.html': OLD });
  chmodSync(root, 0o777);
  chmodSync(join(root, 'a.html'), 0o666);
  return root;
}

const sheet = (root: string): string => readFileSync(join(root, 'a.html'), 'utf8');
const isWhole = (html: string): boolean =>
  html.startsWith('<!doctype html>') && html.trimEnd().endsWith('</html>');

/** The older sheet stands, nothing else was left, and it was said why. */
function untouched(root: string, { code, out, err }: Ran, why: string): void {
  expect(sheet(root)).toBe(OLD);
  expect(readdirSync(root).sort()).toEqual(['a.html', 'a.md']);
  expect([code, out, err]).toEqual([2, '', `scribeline: cannot write a.html: ${why}\n`]);
}

describe('a sheet', () => {
  it('is written whole, and keeps who may read it', async () => {
    const root = job();
    chmodSync(join(root, 'a.html'), 0o640);
    expect((await scribeline(SHEET, root)).code).toBe(0);
    expect(isWhole(sheet(root))).toBe(true);
    expect(statSync(join(root, 'a.html')).mode & 0o777).toBe(0o640);
    expect(readdirSync(root).sort()).toEqual(['a.html', 'a.md']);
  });

  it('does not take the place of one that may not be written', async () => {
    const root = job();
    chmodSync(join(root, 'a.html'), 0o444);
    untouched(root, await scribeline(SHEET, root, OTHER), 'it may not be written');
  });

  it('stands as it was in a folder that may not be written', async () => {
    const root = job();
    chmodSync(root, 0o555);
    untouched(root, await scribeline(SHEET, root, OTHER), 'it may not be written');
    chmodSync(root, 0o777);
  });

  it('stands as it was when writing fails half-way', async () => {
    const root = job();
    // A file may have four blocks of 512 or 1024 bytes here; a sheet has more.
    const ran = await new Promise<Ran>((done) => {
      const words = ['-c', 'ulimit -f 4; exec "$@"', 'sh', process.execPath, BIN, ...SHEET];
      execFile('sh', words, { cwd: root }, (error, out, err) =>
        done({ code: typeof error?.code === 'number' ? error.code : 0, out, err }),
      );
    });
    untouched(root, ran, 'it would be larger than a file may be here');
  });

  it('goes through a link to its file, and the link stays', async () => {
    const root = job();
    mkdirSync(join(root, 'sheets'));
    writeFileSync(join(root, 'sheets/real.html'), OLD);
    rmSync(join(root, 'a.html'));
    symlinkSync('sheets/real.html', join(root, 'a.html'));
    expect((await scribeline(SHEET, root)).code).toBe(0);
    expect(lstatSync(join(root, 'a.html')).isSymbolicLink()).toBe(true);
    expect(isWhole(readFileSync(join(root, 'sheets/real.html'), 'utf8'))).toBe(true);
  });

  it.each([
    ['its name', 'a.md', () => undefined],
    ['a link', 'b.html', (root: string) => symlinkSync('a.md', join(root, 'b.html'))],
    [
      'another name of the file',
      'c.html',
      (root: string) => linkSync(join(root, 'a.md'), join(root, 'c.html')),
    ],
  ])('is never written over its note, by %s', async (_, to, make) => {
    const root = job();
    make(root);
    const { code, err } = await scribeline(['sheet', 'a.md', '-o', to], root);
    expect([code, err]).toEqual([
      2,
      `scribeline: cannot write ${to}: it is the note itself; give the sheet another name\n`,
    ]);
    expect(readFileSync(join(root, 'a.md'), 'utf8')).toBe(jobNote(1));
  });

  it.each([
    ['gone/a.html', 'there is no such file or folder'],
    ['.', 'it is a folder'],
    ...(existsSync('/dev/full') ? [['/dev/full', 'there is no room left on the disk']] : []),
  ])('cannot be written to %s, and says so', async (to = '', why = '') => {
    const root = job();
    const { code, err } = await scribeline(['sheet', 'a.md', '-o', to], root, OTHER);
    expect([code, err]).toEqual([2, `scribeline: cannot write ${to}: ${why}\n`]);
    expect(existsSync('/dev/full') && statSync('/dev/full').isFile()).toBe(false);
    expect(readdirSync(root).sort()).toEqual(['a.html', 'a.md']);
  });

  it('goes into what is no file, which stays what it is', async () => {
    const root = job();
    expect((await scribeline(['sheet', 'a.md', '-o', '/dev/null'], root)).code).toBe(0);
    expect(statSync('/dev/null').isCharacterDevice()).toBe(true);
  });

  it('of a note that is deleted meanwhile is not written', async () => {
    const root = job();
    rmSync(join(root, 'a.md'));
    const { code, err } = await scribeline(SHEET, root);
    expect([code, err]).toEqual([2, 'scribeline: cannot read a.md: there is no such file or folder\n']);
    expect(sheet(root)).toBe(OLD);
  });

  it('is the older or the new one when the run is killed, whenever', async () => {
    const root = job();
    writeFileSync(join(root, 'a.md'), jobNote(1) + WORDS.repeat(10));
    const met = { old: 0, new: 0 };
    let late = 0;
    for (let round = 0; round < 10; round++) {
      writeFileSync(join(root, 'a.html'), OLD);
      const start = performance.now();
      const child = spawn(process.execPath, [BIN, ...SHEET], { cwd: root, stdio: 'ignore' });
      const over = once(child, 'exit');
      if (round === 0) await over;
      else {
        // Around the time at which the first run wrote.
        const beside = (): boolean => readdirSync(root).some((name) => name.endsWith('.tmp'));
        const left = beside();
        while (child.exitCode === null && (left ? performance.now() - start < late * 0.9 : !beside()))
          await new Promise((done) => setImmediate(done));
        const until = performance.now() + (round % 5);
        while (performance.now() < until);
        child.kill('SIGKILL');
        await over;
      }
      late ||= performance.now() - start;
      const now = sheet(root);
      if (now === OLD) met.old++;
      else if (isWhole(now)) met.new++;
      else throw new Error(`torn: ${now.length} characters`);
    }
    expect(met.old).toBeGreaterThan(0);
    expect(met.new).toBeGreaterThan(0);
  });
});

describe('on a disk that is full', () => {
  const at = folderForDisk();
  afterAll(() => {
    if (at === null) return;
    execFileSync('umount', [at]);
    rmSync(at, { recursive: true });
  });

  // Only root may mount; elsewhere the file that may not grow stands for it.
  it.runIf(at !== null)('the older sheet stands, and so does the index', async () => {
    const root = at ?? '';
    writeFileSync(join(root, 'a.md'), jobNote(1) + WORDS);
    writeFileSync(join(root, 'a.html'), OLD);
    const cache = join(root, 'cache');
    mkdirSync(cache);
    const find = (): Promise<Ran> => scribeline(['find', 'ball > 1 mm'], root, { env: cacheIn(cache) });
    expect((await find()).out).toContain('1 job');
    const kept = readdirSync(join(cache, 'scribeline'));
    const index = readFileSync(join(cache, 'scribeline', kept[0] ?? ''), 'utf8');
    const filler = 'x'.repeat(4096);
    for (let i = 0; ; i++)
      try {
        writeFileSync(join(root, 'cache', `fill${i}`), filler);
      } catch {
        break;
      }
    rmSync(join(root, 'cache', 'fill0')); // room for a part of either
    const { code, err } = await scribeline(SHEET, root);
    expect([code, err]).toEqual([2, 'scribeline: cannot write a.html: there is no room left on the disk\n']);
    expect(sheet(root)).toBe(OLD);
    expect(readdirSync(root).sort()).toEqual(['a.html', 'a.md', 'cache']);
    writeFileSync(join(root, 'a.md'), jobNote(2) + WORDS); // which makes another index
    expect((await find()).out).toContain('1 job');
    expect(readdirSync(join(cache, 'scribeline'))).toEqual(kept);
    expect(readFileSync(join(cache, 'scribeline', kept[0] ?? ''), 'utf8')).toBe(index);
  });
});

function folderForDisk(): string | null {
  const root = mkdtempSync(join(tmpdir(), 'scribeline-'));
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=256k', 'tmpfs', root], { stdio: 'ignore' });
    return root;
  } catch {
    rmSync(root, { recursive: true });
    return null;
  }
}

describe('an answer that cannot be written', () => {
  it.each([
    ['check', 'a.md'],
    ['check', 'a.md', '--json'],
    ['sheet', 'a.md'],
    ['find', 'ball > 1 mm'],
    ['compare', 'a.md', 'a.md'],
    ['formulas'],
  ])('is told of: %s %s', async (...words) => {
    const root = job();
    const ran = await new Promise<Ran>((done) => {
      const all = ['-c', 'exec "$@" > /dev/full', 'sh', process.execPath, BIN, ...words];
      execFile('sh', all, { cwd: root, env: { ...process.env, ...cacheIn(root) } }, (error, out, err) =>
        done({ code: typeof error?.code === 'number' ? error.code : 0, out, err }),
      );
    });
    expect(ran).toEqual({
      code: 2,
      out: '',
      err: 'scribeline: cannot write the answer: there is no room left on the disk\n',
    });
  });
});

describe('notes', () => {
  it('are never changed by any command', async () => {
    const root = folder({
      'jobs/a.md': jobNote(1),
      'jobs/b.md': `\ufeff${jobNote(2)}`.replaceAll('\n', '\r\n'),
    });
    const state = (): unknown =>
      ['jobs/a.md', 'jobs/b.md'].map((name) => {
        const { mtimeMs, ino, size } = statSync(join(root, name));
        return [mtimeMs, ino, size, readFileSync(join(root, name), 'hex')];
      });
    const before = state();
    for (const words of [
      ['check', 'jobs'],
      ['find', 'ball > 1 mm', 'jobs'],
      ['compare', 'jobs/a.md', 'jobs/b.md'],
      ['sheet', 'jobs/a.md', '-o', 'jobs/a.html'],
    ])
      expect((await scribeline(words, root, { env: cacheIn(join(root, 'cache')) })).code).toBeLessThan(2);
    expect(state()).toEqual(before);
    expect(readdirSync(join(root, 'jobs')).sort()).toEqual(['a.html', 'a.md', 'b.md']);
  });
});
