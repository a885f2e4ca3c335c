/** The command line as it ships, on every note that is not meant well: an answer, a sane exit code, and no stack trace. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import process from 'node:process';
import { describe, expect, it } from 'vitest';
import manifest from '../../package.json';
import { folder } from '../cli/folder';
import { valid } from '../cli/schema';
import { ABUSE } from './notes';

const BIN = join(import.meta.dirname, '../..', manifest.bin.scribeline);
/** Megabytes that Node may use for our values; the longest note has five. */
const MEMORY = 400;

function scribeline(
  words: readonly string[],
  cwd: string,
): { code: number | null; out: string; err: string } {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [`--max-old-space-size=${MEMORY}`, BIN, ...words],
    { cwd, encoding: 'utf8', maxBuffer: 1e9 },
  );
  return { code: status, out: stdout, err: stderr };
}

const files = (notes: typeof ABUSE): Record<string, string> =>
  Object.fromEntries(notes.map(({ name, text }) => [`${name}.md`, text()]));

const STACK = /^\s+at .*:\d+:\d+\)?$/m;

interface Checked {
  readonly notes: readonly { readonly file: string }[];
  readonly unreadable: readonly string[];
}

describe('the command line', () => {
  it.each(ABUSE.filter(({ worst }) => worst).map(({ name }) => name))('checks %s', (name) => {
    const at = folder(files(ABUSE.filter((each) => each.name === name)));
    const { code, out, err } = scribeline(['check', `${name}.md`, '--json'], at);
    expect([code, err]).toEqual([expect.toSatisfy((it) => it === 0 || it === 1), '']);
    expect(JSON.parse(out).notes).toHaveLength(1);
    const sheet = scribeline(['sheet', `${name}.md`], at);
    expect(sheet.code).toBe(code);
    expect(sheet.err).not.toMatch(STACK);
    expect(sheet.out).toMatch(/<\/html>\n$/);
  });

  it('checks a folder of them all, and says of each what its schema says', () => {
    const small = ABUSE.filter(({ text }) => text().length < 400_000);
    const at = folder({ ...files(small), 'good.md': '```figures\ngood = 3 mm + 1 in\n```\n' });
    const { code, out, err } = scribeline(['check', '.', '--json'], at);
    expect([code, err]).toEqual([1, '']);
    const { notes, unreadable } = valid<Checked>('check', out);
    expect(notes).toHaveLength(small.length + 1);
    expect(unreadable).toEqual([]);
    const shown = scribeline(['check', '.'], at);
    expect([shown.code, shown.err]).toEqual([1, '']);
    // Nothing that could move the cursor, turn the text round or end it early reaches the terminal.
    expect(/[\p{Cc}\u202a-\u202e\u2066-\u2069]/u.exec(shown.out.replaceAll('\n', ''))).toBe(null);
    const found = scribeline(['find', 'good = 28.4 mm', '.'], at);
    expect([found.code, found.err]).toEqual([0, '']);
    expect(found.out).toContain('good.md');
  });
});
