/** `scribeline find` and `scribeline compare` on real files, with the index kept between runs. */
import { chmodSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { jobNote } from '../archive/workshop';
import { folder } from './folder';
import { type Ran, cacheIn, scribeline as run } from './scribeline';
import { valid } from './schema';

const scribeline = (words: readonly string[], cwd: string, cache: string): Promise<Ran> =>
  run(words, cwd, { env: cacheIn(cache) });

interface Found {
  jobs: { file: string; amounts: { name: string; kind: string; value: number; unit: string }[] }[];
}

function workshop(count: number): string {
  const files: Record<string, string> = {};
  for (let i = 1; i <= count; i++) files[`jobs/${String(i).padStart(4, '0')}.md`] = jobNote(i);
  return folder(files);
}

describe('check', () => {
  it('lists the notes that have findings once a card changed, and rewrites nothing', async () => {
    const pin = (speed: number): string =>
      `\`\`\`figures on lathe\npin = 16 mm\nspeed = ${speed} rpm\nmass = 1 m^3 * oak.density to kg\n\`\`\`\n\n\`\`\`signed\ndate: 2026-03-01\nmass = 700 kg\n\`\`\`\n`;
    const shop = (top: number, density: number): string =>
      `\`\`\`machine lathe\nspeeds = [115, ${top}] rpm\n\`\`\`\n\`\`\`material oak\ndensity = ${density} kg/m^3\n\`\`\`\n`;
    const notes = {
      'jobs/fast.md': pin(475),
      'jobs/slow.md': pin(115),
      'other.md': '```figures\na = 1 mm\n```\n',
    };
    const [root, cache] = [folder({ ...notes, 'shop.md': shop(475, 700) }), folder({})];
    const found = async (): Promise<[string, string[]][]> => {
      const { out } = await scribeline(['check', '.', '--json'], root, cache);
      const { notes: all } = valid<{ notes: { file: string; findings: { code: string }[] }[] }>('check', out);
      return all.map(({ file, findings }) => [file, findings.map(({ code }) => code)]);
    };
    const none = ['jobs/fast.md', 'jobs/slow.md', 'other.md', 'shop.md'].map((file) => [file, []]);
    expect(await found()).toEqual(none);
    writeFileSync(join(root, 'shop.md'), shop(300, 700));
    expect((await found()).filter(([, codes]) => codes.length > 0)).toEqual([
      ['jobs/fast.md', ['speed-outside-machine']],
    ]);
    writeFileSync(join(root, 'shop.md'), shop(475, 650));
    expect((await found()).filter(([, codes]) => codes.length > 0)).toEqual([
      ['jobs/fast.md', ['signed-differs']],
      ['jobs/slow.md', ['signed-differs']],
    ]);
    for (const [file, text] of Object.entries(notes))
      expect(readFileSync(join(root, file), 'utf8')).toBe(text);
    writeFileSync(join(root, 'shop.md'), shop(475, 700));
    expect(await found()).toEqual(none);
  });
});

describe('find', () => {
  it('answers from files, and after changes outside as if made afresh', async () => {
    const [root, cache] = [workshop(15), folder({})];
    const query = ['find', 'ball 1 mm .. 60 mm, used speed > 0 rpm', '--json'];
    const first = valid<Found>('find', (await scribeline(query, root, cache)).out);
    expect(first.jobs).toHaveLength(15);
    expect(first.jobs[0]?.amounts.map(({ name, kind }) => `${name} ${kind}`)).toEqual([
      'ball figure',
      'speed used',
    ]);
    rmSync(join(root, 'jobs/0003.md'));
    writeFileSync(join(root, 'jobs/0004.md'), '```figures\nball = 2 in\nspeed used 77 rpm\n```\n');
    const second = valid<Found>('find', (await scribeline(query, root, cache)).out);
    const afresh = valid<Found>('find', (await scribeline(query, root, folder({}))).out);
    expect(second).toEqual(afresh);
    expect(second.jobs.map((job) => job.file)).not.toContain('jobs/0003.md');
    expect(second.jobs.find((job) => job.file === 'jobs/0004.md')?.amounts).toMatchObject([
      { name: 'ball', value: 2, unit: 'in' },
      { name: 'speed', value: 77, unit: 'rpm' },
    ]);
  });

  it('a changed card changes what is found', async () => {
    const note = '```figures\nload = 1 m^3 * oak.density to kg\n```\n';
    const shop = (density: number): string => `\`\`\`material oak\ndensity = ${density} kg/m^3\n\`\`\`\n`;
    const [root, cache] = [folder({ 'a.md': note, 'shop.md': shop(700) }), folder({})];
    expect((await scribeline(['find', 'load = 700 kg'], root, cache)).out).toContain('a.md:2');
    writeFileSync(join(root, 'shop.md'), shop(650.5));
    expect((await scribeline(['find', 'load = 700 kg'], root, cache)).out).toContain('0 jobs');
    expect((await scribeline(['find', 'load = 650.5 kg'], root, cache)).out).toContain('a.md:2');
  });

  it('works where nothing can be kept', async () => {
    const root = workshop(2);
    const ran = await scribeline(['find', 'ball > 1 mm'], root, join(root, 'jobs/0001.md'));
    expect([ran.code, ran.err]).toEqual([0, '']);
    expect(ran.out).toContain('2 jobs of 2');
  });

  it('answers from the notes that can be read, and says which cannot', async () => {
    const root = workshop(3);
    chmodSync(root, 0o755);
    chmodSync(join(root, 'jobs/0002.md'), 0);
    const cache = folder({});
    chmodSync(cache, 0o777);
    // Permissions do not count for root: then the runs are another user's.
    const uid = process.getuid?.() === 0 ? { uid: 65534 } : {};
    for (let turn = 0; turn < 2; turn++) {
      const ran = await run(['find', 'ball > 1 mm', '--json'], root, { env: cacheIn(cache), ...uid });
      const found = valid<Found & { unreadable: string[] }>('find', ran.out);
      expect(found.jobs.map(({ file }) => file).sort()).toEqual(['jobs/0001.md', 'jobs/0003.md']);
      expect(found.unreadable).toEqual(['jobs/0002.md']);
      expect([ran.code, ran.err]).toEqual([2, 'scribeline: cannot read jobs/0002.md: it may not be read\n']);
    }
  });

  it('says why a query cannot be read, where, and shows one that can', async () => {
    const ran = await scribeline(['find', 'chatter, ball > fast'], folder({}), folder({}));
    expect(ran.code).toBe(2);
    expect(ran.err).toBe(
      'scribeline: `fast` is no value that can be looked for: write `ball 20 mm .. 25 mm, used speed > 1000 rpm`.\n' +
        '  chatter, ball > fast\n' +
        '                ^^^^^^\n',
    );
  });
});

describe('compare', () => {
  it('prints a page, or data by its schema', async () => {
    const root = folder({
      'a.md': '```figures\nball = 25 mm\n```\n',
      'b.md': '```figures\nball = 1 in\nx = y\n```\n',
    });
    const page = await scribeline(['compare', 'a.md', 'b.md'], root, root);
    expect(page.code).toBe(0);
    // In columns, so that a terminal shows a table.
    expect(page.out).toContain('| ball   | 25 mm | 1 in ');
    const data = valid<{ differ: unknown[]; newFindings: string[] }>(
      'compare',
      (await scribeline(['compare', 'a.md', 'b.md', '--json'], root, root)).out,
    );
    expect(data.differ).toHaveLength(1);
    expect(data.newFindings[0]).toContain('[unknown-name]');
  });

  it('says which note cannot be read', async () => {
    const ran = await scribeline(['compare', 'a.md', 'none.md'], folder({ 'a.md': '' }), folder({}));
    expect([ran.code, ran.err]).toEqual([
      2,
      'scribeline: cannot read none.md: there is no such file or folder\n',
    ]);
  });
});
