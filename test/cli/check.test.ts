import fc from 'fast-check';
import { symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { check } from '../../src/hosts/cli/check';
import { run } from '../../src/hosts/cli/run';
import type { NoteReport } from '../../src/sheet/report';
import { folder, world } from './folder';
import { valid } from './schema';

// Many runs on a machine that may be busy with others.
interface Whole {
  version: number;
  notes: NoteReport[];
  unreadable: string[];
  errors: number;
  warnings: number;
}

const fence = (...lines: string[]): string => ['```figures', ...lines, '```', ''].join('\n');
const FINE = fence('a = 3/8 in to mm');
const BAD = fence('a = 10 mm + 1');

async function json(root: string, ...paths: string[]): Promise<{ code: number; whole: Whole; err: string }> {
  const io = world(root);
  const code = await check(paths, true, io);
  return { code, whole: valid<Whole>('check', io.printed.out), err: io.printed.err };
}

describe('check --json', () => {
  it('prints exactly the keys of version 1', async () => {
    const root = folder({
      'a.md': `${FINE}${fence('a <= 10 mm', 'a measured 9.5 mm', 'a used 9.6 mm', 'b = 1 mm + 1')}`,
    });
    const { whole } = await json(root, 'a.md');
    expect(Object.keys(whole)).toEqual(['version', 'notes', 'unreadable', 'errors', 'warnings']);
    const [note] = whole.notes;
    expect(Object.keys(note ?? {})).toEqual([
      'file',
      'job',
      'values',
      'checks',
      'readings',
      'used',
      'findings',
    ]);
    const keys = (list: readonly object[] | undefined): string[] => Object.keys(list?.[0] ?? {});
    expect(keys(note?.values)).toEqual(
      'name kind line value unit si shown low high rssLow rssHigh askedLow askedHigh'.split(' '),
    );
    expect(keys(note?.checks)).toEqual('line text holds left right unit comment'.split(' '));
    expect(keys(note?.readings)).toEqual('name kind line values unit inside left'.split(' '));
    expect(keys(note?.used)).toEqual('name line value unit comment'.split(' '));
    expect(keys(note?.findings)).toEqual(
      'code severity line column endLine endColumn message data related'.split(' '),
    );
  });

  it('sorts notes by file, names them from the current folder, and counts findings', async () => {
    const root = folder({ 'jobs/b.md': BAD, 'jobs/a.md': FINE, 'jobs/B/c.md': BAD, 'jobs/ä.md': FINE });
    const { code, whole } = await json(root, 'jobs');
    expect(whole.notes.map((note) => note.file)).toEqual([
      'jobs/B/c.md',
      'jobs/a.md',
      'jobs/b.md',
      'jobs/ä.md',
    ]);
    expect([code, whole.errors, whole.warnings]).toEqual([1, 2, 0]);
    expect((await json(join(root, 'jobs/B'), '..')).whole.notes.map((note) => note.file)).toEqual([
      '../a.md',
      '../b.md',
      '../ä.md',
      'c.md',
    ]);
  });

  it.each([
    ['fine', { 'a.md': FINE }, ['a.md'], 0],
    ['an error', { 'a.md': BAD }, ['a.md'], 1],
    ['a warning only', { 'a.md': fence('a = 1 mm ± 0.5', 'a <= 1.2 mm') }, ['a.md'], 0],
    ['nothing there', { 'a.txt': '' }, ['.'], 0],
    ['unreadable', { 'a.md': FINE }, ['a.md', 'gone.md'], 2],
    ['unreadable before an error', { 'a.md': BAD }, ['gone.md', 'a.md'], 2],
  ])('exit code: %s', async (_, files, paths, code) => {
    const { code: ended } = await json(folder(files as unknown as Record<string, string>), ...paths);
    expect(ended).toBe(code);
  });

  it('a warning counts as one', async () => {
    const { whole } = await json(folder({ 'a.md': fence('a = 1 mm ± 0.5', 'a <= 1.2 mm') }), '.');
    expect([whole.errors, whole.warnings]).toEqual([0, 1]);
  });

  it('lists what it could not read, and reads the rest', async () => {
    const { whole, err } = await json(folder({ 'a.md': FINE }), 'gone', '.', './gone', 'b/gone.md');
    expect(whole.unreadable).toEqual(['b/gone.md', 'gone']);
    expect(whole.notes).toHaveLength(1);
    expect(err).toContain('cannot read gone: there is no such file or folder');
  });

  it('lists a note and a shop file that cannot be read', async () => {
    const root = folder({ 'jobs/a.md': FINE });
    for (const name of ['shop.md', 'jobs/b.md']) symlinkSync(join(root, name), join(root, name));
    const { code, whole } = await json(root, 'jobs', 'jobs/a.md');
    expect([code, whole.unreadable, whole.notes.length]).toEqual([2, ['jobs/b.md'], 1]);
    expect(await json(root, 'jobs/a.md')).toMatchObject({ code: 2, whole: { unreadable: ['shop.md'] } });
  });

  it('judges by the shop file in force', async () => {
    const shop = (speeds: string) => `\`\`\`machine lathe\nspeeds = [${speeds}] rpm\n\`\`\`\n`;
    const files = {
      'shop.md': shop('900'),
      'jobs/shop.md': shop('70, 115'),
      'jobs/a.md': '```figures on lathe\nn = 900 rpm\n```\n',
    };
    const root = folder(files);
    const { code, whole } = await json(root, 'jobs/a.md');
    expect(code).toBe(1);
    const [finding] = whole.notes[0]?.findings ?? [];
    expect(finding?.related).toMatchObject([{ file: 'jobs/shop.md', line: 2 }]);
    expect((await json(join(root, 'jobs'), 'a.md')).whole.notes[0]?.findings[0]?.related).toMatchObject([
      { file: 'shop.md' },
    ]);
  });

  it('an empty file, a note without fences, a byte order mark', async () => {
    const { code, whole } = await json(
      folder({ 'a.md': '', 'b.md': '# words\n', 'c.md': `\ufeff${FINE}` }),
      '.',
    );
    expect(code).toBe(0);
    expect(whole.notes.map((note) => note.values.length)).toEqual([0, 0, 1]);
  });

  it.each([
    ['front matter that is no YAML', '---\njob: [\n: :\n---\n' + FINE],
    [
      'keys of objects',
      fence('constructor = 1 mm', '__proto__ = 2 mm', 'toString = constructor + __proto__'),
    ],
    ['huge numbers', fence('a = 9e999 mm', 'b = 1e308 * 1e308', 'c = 1 / 0', 'd = sqrt(-1)')],
    ['a list of everything', fence('[1 mm, 2 kg]', '[]', '[1, 2, 3] mm', '[[1]]', '[1 AUD]')],
    ['temperatures', fence('t = 20 °C ± 2 °C', 't measured 23 °C', 't final 68 °F')],
    ['an unclosed fence', '```figures\na = 1 mm\n'],
    ['carriage returns', fence('a = 1 mm', 'b = 2 mm').replaceAll('\n', '\r\n')],
    ['lone surrogates and controls', fence('a = 1 mm # \ud800 \u0000 \u001b[2J')],
    ['fences in quotes', `> - ${fence('a = 1 mm + 1').replaceAll('\n', '\n>   ')}`],
    [
      'cards',
      '```machine m\nspeeds = [1, x] rpm\nspeeds = 2\n```\n```machine m\n```\n```figures on m, gone\n1 rpm\n```\n',
    ],
    [
      'every line form wrong',
      fence('=', 'a =', '± 1', 'a measured', 'a used', 'a final x', '1 <', 'a <= ', '(', 'to mm'),
    ],
  ])('hostile: %s', async (_, text) => {
    const { whole } = await json(folder({ 'a.md': text }), '.');
    expect(whole.notes).toHaveLength(1);
  });

  const piece = fc.constantFrom(
    ...'a b = <= != + - * / ^ ( ) [ ] , .. ± +/- 30 3/8 1 0 mm in rpm ° ′ % AUD °C h7 to measured final used at hole # " ball_on_shank( sqrt( . job.job a.tilt ```figures ``` machine e9 \n \n > - --- é \u0000 \ud800'.split(
      ' ',
    ),
    ' ',
    '\n',
  );

  it('any text is described by the schema', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(piece, { maxLength: 60 }),
        fc.string({ unit: 'binary', maxLength: 40 }),
        async (pieces, any) => {
          const root = folder({
            'a.md': `---\njob: x\n---\n${fence(pieces.join(' '))}${any}`,
            'b.md': pieces.join(''),
          });
          expect((await json(root, '.')).whole.notes).toHaveLength(2);
        },
      ),
      { numRuns: 150 },
    );
  });
});

describe('check for reading', () => {
  it('prints every value, outcome and finding in the order of the note', async () => {
    const root = folder({
      'shop.md': '```machine lathe\nspeeds = [70, 115, 190] rpm\n```\n',
      'job.md': [
        '```figures on lathe',
        'bar = 30 mm ± 0.05  # as drawn',
        'ball = ball_on_shank(30 mm, 12 mm)',
        'bar <= 40 mm  # the chuck',
        'bar measured 30.4 mm',
        'n = 900 rpm',
        'n used 850 rpm  # chatter gone',
        'x = 10 mm + 1',
        '```',
        '',
      ].join('\n'),
    });
    const io = world(root);
    expect(await check(['job.md'], false, io)).toBe(1);
    const lines = io.printed.out.split('\n');
    const at = (part: string): number => lines.findIndex((line) => line.includes(part));
    expect(lines[0]).toBe('job.md');
    expect(lines[at('bar  ')]).toMatch(/^ +2 {2}bar +30 mm +29\.95 … 30\.05 mm asked {2}# as drawn$/);
    expect(lines[at('ball.tilt')]).toMatch(/^ +3 {2}ball\.tilt +11\.789°$/);
    expect(lines[at('bar <= 40 mm')]).toMatch(/✓ holds +30 mm ≤ 40 mm {2}# the chuck$/);
    expect(lines[at('bar measured')]).toContain('30.4 mm');
    expect(lines[at('n used')]).toMatch(/850 rpm +50 rpm below plan {2}# chatter gone$/);
    expect(lines[at('job.md:6:')]).toMatch(/^ {2}job\.md:6:\d+: error: /);
    expect(lines[at('shop.md:2:')]).toBeDefined();
    expect(at('job.md:6:')).toBe(at(' n  ') + 1);
    expect(lines[at('x  ')]).toContain('no value');
    expect(lines[at('job.md:8:')]).toMatch(/^ {2}job\.md:8:\d+: error: .* \[[a-z-]+\]$|^ {2}job\.md:8:/);
    expect(lines.at(-2)).toMatch(/^1 note: \d errors?, (no|\d) warnings?$/);
  });

  it('has no control characters from a note, and colours only where allowed', async () => {
    const root = folder({ 'a.md': fence('a = 1 mm # \u001b[2J\u202e', '1 mm <= 0 mm # \u009b') });
    const plain = world(root);
    await check(['.'], false, plain);
    // eslint-disable-next-line no-control-regex
    expect(plain.printed.out).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/);
    const coloured = { ...world(root), colour: true };
    let out = '';
    await check(['.'], false, { ...coloured, out: (text) => void (out += text) });
    expect(out).toContain('\u001b[31merror\u001b[0m');
    expect(out).not.toContain('\u001b[2J');
  });
});

describe('run', () => {
  it('help and version go to standard output', async () => {
    for (const [argv, text] of [
      [['--help'], 'exit code'],
      [['check', '--help'], 'shop.md'],
      [['formulas', '--help'], 'worked checks'],
      [['--version'], '1.2.3\n'],
    ] as const) {
      const io = world('/');
      expect(await run(argv, io)).toBe(0);
      expect(io.printed.out).toContain(text);
      expect(io.printed.err).toBe('');
    }
  });

  it('wrong use says what to write, on standard error, even with --json', async () => {
    for (const argv of [
      [],
      ['check'],
      ['polish', '--json'],
      ['check', 'a.md', '--quick'],
      ['formulas', 'x', '--json'],
    ]) {
      const io = world('/');
      expect(await run(argv, io)).toBe(2);
      expect(io.printed.out).toBe('');
      expect(io.printed.err).toMatch(/^scribeline: .*\nusage: scribeline check PATH…/);
    }
  });
});
