import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import manifest from '../../package.json';
import { folder } from './folder';
import { BIN, ROOT, scribeline } from './scribeline';
import { valid } from './schema';

// Many runs on a machine that may be busy with others.
const fence = (...lines: string[]): string => ['```figures', ...lines, '```', ''].join('\n');

describe('the command line as it ships', () => {
  it('is built: `npm run build` makes it, with its schemas', () => {
    for (const file of [BIN, 'dist/cli/schema/check.schema.json', 'dist/cli/schema/formulas.schema.json'].map(
      (it) => (it === BIN ? it : join(ROOT, it)),
    ))
      expect([file, existsSync(file)]).toEqual([file, true]);
    expect(readFileSync(BIN, 'utf8')).toMatch(/^#!\/usr\/bin\/env node\n/);
  });

  it('knows the signs of drawings as the editor does', async () => {
    const program = readFileSync(join(ROOT, 'dist/cli/program.js'), 'latin1');
    expect(/[^\0-\x7f]/.exec(program)).toBeNull();
    const at = folder({ 'a.md': fence('a = 30 mm ± 1%', 't = 15° +1/2°/−1/4°') });
    const { out } = await scribeline(['check', 'a.md', '--json'], at);
    const { notes } = valid<{ notes: { findings: { data: { offers: string[] } }[] }[] }>('check', out);
    // A hundredth of 30 mm, and halves of a degree as decimals.
    expect(notes[0]?.findings.map(({ data }) => data.offers)).toEqual([['± 0.3 mm'], ['+0.5°/−0.25°']]);
  });

  it('checks a folder', async () => {
    const at = folder({ 'jobs/a.md': fence('a = 3/8 in to mm', 'b = 10 mm + 1') });
    const { code, out, err } = await scribeline(['check', 'jobs', '--json'], at);
    const whole = valid<{ errors: number; notes: { file: string; values: { value: number }[] }[] }>(
      'check',
      out,
    );
    expect([code, err, whole.errors, whole.notes[0]?.file]).toEqual([1, '', 1, 'jobs/a.md']);
    expect(whole.notes[0]?.values[0]?.value).toBeCloseTo(9.525, 12); // the inch is 25.4 mm by definition
  });

  it.each([
    [['check', 'fine.md'], 0],
    [['check', 'bad.md'], 1],
    [['check', 'gone.md', 'bad.md', '--json'], 2],
    [['check'], 2],
    [['polish'], 2],
    [['formulas', '--json'], 0],
    [['--help'], 0],
  ])('%j ends with %d', async (words, code) => {
    const at = folder({ 'fine.md': fence('a = 1 mm'), 'bad.md': fence('a = 1 mm + 1') });
    expect((await scribeline(words, at)).code).toBe(code);
  });

  it('knows its version, also through a link as npm makes one', async () => {
    const at = folder({});
    expect((await scribeline(['--version'], at)).out).toBe(`${manifest.version}\n`);
    symlinkSync(BIN, join(at, 'scribeline'));
    const linked = spawn(process.execPath, [join(at, 'scribeline'), '-v']);
    const [text] = (await once(linked.stdout, 'data')) as [Buffer];
    expect(String(text)).toBe(`${manifest.version}\n`);
  });

  it('prints no colours into a pipe', async () => {
    const at = folder({ 'bad.md': fence('a = 1 mm + 1') });
    expect((await scribeline(['check', 'bad.md'], at)).out).not.toContain('\u001b');
  });

  it('writes all of a long answer into a pipe, and ends quietly when nobody reads on', async () => {
    const many = Array.from({ length: 4000 }, (_, i) => `a${i} = ${i} mm`);
    const at = folder({ 'long.md': fence(...many) });
    const { out } = await scribeline(['check', 'long.md', '--json'], at);
    expect(valid<{ notes: { values: object[] }[] }>('check', out).notes[0]?.values).toHaveLength(4000);

    const child = spawn(process.execPath, [BIN, 'check', 'long.md', '--json'], { cwd: at });
    let err = '';
    child.stderr.on('data', (text: Buffer) => (err += String(text)));
    await once(child.stdout, 'data');
    child.stdout.destroy();
    await once(child, 'exit');
    expect(err).toBe('');
  });

  it('takes a note of random bytes', async () => {
    const bytes = Array.from({ length: 200_000 }, (_, i) =>
      String.fromCharCode((i * i * 31 + i * 7) % 256),
    ).join('');
    const at = folder({ 'noise.md': `${fence('a = 1 mm')}\n\`\`\`figures\n${bytes}` });
    const { code, out, err } = await scribeline(['check', 'noise.md', '--json'], at);
    valid('check', out);
    expect([code, err]).toEqual([1, '']);
  });
});
