import { mkdirSync, readFileSync, readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { readArguments } from '../../src/hosts/cli/arguments';
import { run } from '../../src/hosts/cli/run';
import { folder, world } from './folder';

const NOTE = '# Pin\n\n```figures\na = 20 mm ± 0.1\n```\n';
const OWN = { units: 'own', answers: 'shown', workings: false };

describe('what is asked for', () => {
  it.each([
    ['sheet a.md', { note: 'a.md', to: null, how: OWN }],
    ['sheet a.md -o b.html', { note: 'a.md', to: 'b.html', how: OWN }],
    [
      'sheet --output=b.html a.md --workings',
      { note: 'a.md', to: 'b.html', how: { ...OWN, workings: true } },
    ],
    ['sheet a.md --answers hidden', { note: 'a.md', to: null, how: { ...OWN, answers: 'hidden' } }],
    ['sheet a.md --answers shown', { note: 'a.md', to: null, how: OWN }],
    ['sheet a.md --units both', { note: 'a.md', to: null, how: { ...OWN, units: 'both' } }],
    ['sheet a.md --units mm', { note: 'a.md', to: null, how: { ...OWN, units: 'mm' } }],
    ['sheet a.md --units in', { note: 'a.md', to: null, how: { ...OWN, units: 'in' } }],
  ])('%s', (line, command) => {
    expect(readArguments(line.split(' '))).toEqual({ kind: 'sheet', ...command });
  });

  it.each([
    ['sheet', 'needs one note'],
    ['sheet a.md b.md', 'needs one note'],
    ['sheet a.md --json', '--json is no option of sheet'],
    ['check a.md --workings', '--workings is no option of check'],
    ['check a.md -o b', '--output is no option of check'],
    ['sheet a.md --answers maybe', '--answers is hidden or shown'],
    ['sheet a.md --units ft', '--units is mm, in or both'],
    ['sheet a.md -o', '`-o` needs something after it'],
    ['sheet a.md --output=', '-o needs the name of a file'],
  ])('wrong use: %s', (line, says) => {
    const command = readArguments(line.split(' '));
    expect(command).toMatchObject({ kind: 'wrong', says: expect.stringContaining(says) as string });
  });
});

async function sheet(root: string, ...more: string[]): Promise<{ code: number; out: string; err: string }> {
  const io = world(root);
  const code = await run(['sheet', ...more], io);
  return { code, ...io.printed };
}

describe('scribeline sheet', () => {
  it('prints the sheet, whose only style is the one that its policy names', async () => {
    const { code, out, err } = await sheet(folder({ 'a.md': NOTE }), 'a.md');
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^<!doctype html>/);
    const [, styles = ''] = /<style>(.*?)<\/style>/s.exec(out) ?? [];
    expect(styles).toContain('.sheet-head');
    expect(styles).toContain('.scribeline-block');
    expect(out).toContain(`sha256-${createHash('sha256').update(styles).digest('base64')}`);
    expect(out.match(/<style/g)).toHaveLength(1);
  });

  it('writes it, whole or not at all', async () => {
    const root = folder({ 'a.md': NOTE });
    expect(await sheet(root, 'a.md', '-o', 'out.html')).toMatchObject({ code: 0, out: '', err: '' });
    expect(readFileSync(join(root, 'out.html'), 'utf8')).toContain('<h1>Pin</h1>');
    expect(readdirSync(root).sort()).toEqual(['a.md', 'out.html']);
    expect(await sheet(root, 'a.md', '-o', 'no/such/out.html')).toMatchObject({ code: 2 });
  });

  it('does not write over the note', async () => {
    const root = folder({ 'a.md': NOTE });
    const { code, err } = await sheet(root, 'a.md', '-o', './a.md');
    expect(code).toBe(2);
    expect(err).toContain('it is the note itself');
    expect(readFileSync(join(root, 'a.md'), 'utf8')).toBe(NOTE);
  });

  it('is written with its errors, and the exit code tells', async () => {
    const root = folder({ 'a.md': '```figures\na = 1 mm + 1\n```\n' });
    const { code } = await sheet(root, 'a.md', '-o', 'out.html');
    expect(code).toBe(1);
    expect(readFileSync(join(root, 'out.html'), 'utf8')).toContain('do not work from this sheet');
  });

  it.each([
    ['no.md', 'there is no such file'],
    ['.', 'it is a folder'],
  ])('%s cannot be read', async (name, why) => {
    const { code, err } = await sheet(folder({ 'a.md': NOTE }), name);
    expect(code).toBe(2);
    expect(err).toContain(why);
  });

  it('takes the cards of the shop file above', async () => {
    const root = folder({
      'shop.md': '```machine mill\nspeeds = [100] rpm\n```\n',
      'jobs/a.md': '```figures on mill\nn = 300 rpm\n```\n',
    });
    const { code, out } = await sheet(root, 'jobs/a.md');
    expect(code).toBe(1);
    expect(out).toContain('300 rpm is faster');
  });

  it('takes images from the folder of the note, and none from elsewhere', async () => {
    const root = folder({
      'jobs/a.md': '![in](p/a.png) ![up](../b.png) ![link](c.png) ![abs](/etc/hostname)\n',
    });
    const png = Buffer.from('89504e470d0a1a0a00', 'hex');
    mkdirSync(join(root, 'jobs/p'));
    for (const name of ['jobs/p/a.png', 'b.png']) writeFileSync(join(root, name), png);
    symlinkSync(join(root, 'b.png'), join(root, 'jobs/c.png'));
    const { out, err } = await sheet(root, 'jobs/a.md');
    expect(out.match(/<img /g)).toHaveLength(1);
    expect(out).toContain('alt="in"');
    expect(err.match(/line 1:/g)).toHaveLength(3);
  });
});
