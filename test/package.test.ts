import { execFile, execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import manifest from '../package.json';
import { node } from './tools/build.mjs';
import { bundled, writtenNotices } from './tools/notices.mjs';
import { packCommandLine, packExtension } from './tools/package.mjs';
import { packageSizes } from './tools/package-sizes.mjs';
import { unzip } from './tools/unzip.mjs';

// What strangers install: the VSIX and the npm package, made here from the built bundles.
const root = join(import.meta.dirname, '..');
const made = mkdtempSync(join(tmpdir(), 'scribeline-'));
afterAll(() => rmSync(made, { recursive: true, force: true }));
/** Files under version control in a folder: what belongs in a package because it stands there. */
const kept = (folder: string): string[] =>
  execFileSync('git', ['ls-files', '-co', '--exclude-standard', '--', folder], {
    cwd: root,
    encoding: 'utf8',
  })
    .split('\n')
    .filter((path) => path && existsSync(join(root, path)));

const NOTICES = 'dist/ThirdPartyNotices.txt';

describe('the VSIX', () => {
  let files: ReturnType<typeof unzip>;
  const text = (path: string): string => files.get(path)?.bytes.toString('utf8') ?? '';
  beforeAll(async () => {
    files = unzip(await packExtension(made));
  });

  it('holds these files and no others', () => {
    const wanted = [
      ...['dist/node/extension.js', 'dist/web/extension.js', NOTICES],
      ...['package.json', 'package.nls.json', 'readme.md', 'changelog.md', 'LICENSE.txt'],
      ...['media/job-sheet.md', 'media/notation.md', 'media/wrong-number.md'],
      ...['media/formulas.md', 'media/icon.png', 'media/jobs.svg', 'media/note.png'],
      ...['media/past-jobs.md', 'media/preview.css', 'media/preview.js'],
      ...['media/sheet.css', 'media/sheet.png', 'syntaxes/figures.tmLanguage.json'],
      ...['syntaxes/figures.language-configuration.json', 'l10n/bundle.l10n.json'],
      ...[...kept('examples'), ...kept('media/walkthrough')],
    ];
    const whole = [
      '[Content_Types].xml',
      'extension.vsixmanifest',
      ...wanted.map((path) => `extension/${path}`),
    ];
    expect([...files.keys()].sort()).toEqual(whole.sort());
    for (const path of files.keys()) expect(path).not.toMatch(/\.(ts|map)$|node_modules|\.env|test\//);
  });

  it('has everything that its package.json names, and nothing of how it was made', () => {
    const inside = JSON.parse(text('extension/package.json')) as typeof manifest;
    const { contributes } = inside;
    const named = [
      ...[inside.icon, inside.main, inside.browser],
      ...contributes.grammars.map(({ path }) => path),
      ...contributes.languages.map(({ configuration }) => configuration),
      ...contributes['markdown.previewScripts'],
      ...contributes['markdown.previewStyles'],
      ...contributes.walkthroughs.flatMap(({ steps }) =>
        steps.flatMap(({ media }) => Object.values(media.image)),
      ),
      ...contributes.viewsContainers.activitybar.map(({ icon }) => icon),
    ];
    const path = (name: string): string => `extension/${name.replace(/^\.\//, '')}`;
    for (const name of named) expect([name, files.has(path(name))]).toEqual([name, true]);
    for (const key of ['scripts', 'devDependencies', 'dependencies', 'files', 'bin'])
      expect(inside).not.toHaveProperty(key);
    expect(contributes).toEqual(manifest.contributes);
  });

  it('has an icon, a licence, a change log and two entries, as the marketplaces want', () => {
    const described = text('extension.vsixmanifest');
    for (const asset of ['Content.Details', 'Content.Changelog', 'Content.License', 'Icons.Default'])
      expect(described).toContain(`Microsoft.VisualStudio.Services.${asset}`);
    expect(described).toContain('__web_extension');
    expect(described).toContain(`Id="Microsoft.VisualStudio.Code.Engine" Value="${manifest.engines.vscode}"`);
    expect(manifest.keywords.length).toBeLessThanOrEqual(30); // more are refused by the Marketplace
    for (const picture of text('extension/readme.md').matchAll(/!\[[^\]]*\]\(([^)]+)\)/g))
      expect([picture[1], files.has(`extension/${picture[1] ?? ''}`)]).toEqual([picture[1], true]);
  });
});

describe('the npm package', () => {
  const empty = join(made, 'empty');
  const run = promisify(execFile);
  const env = Object.fromEntries(
    Object.entries(process.env).filter(([key]) => !/^npm_(config_local_prefix|lifecycle|package)/i.test(key)),
  );
  /** As a stranger types it, in a folder with nothing in it but the package. */
  const type = (words: string) =>
    run('sh', ['-c', words], { cwd: empty, env, maxBuffer: 1e8 }).then(
      ({ stdout, stderr }) => ({ code: 0, stdout, stderr }),
      (error: { code: number; stdout: string; stderr: string }) => error,
    );
  beforeAll(async () => {
    mkdirSync(empty);
    const tarball = await packCommandLine(made);
    const { code, stderr } = await type(`npm install "${tarball}" --offline --no-audit --no-fund`);
    expect([code, stderr]).toEqual([0, '']);
    await type('cp -r node_modules/scribeline/examples jobs');
  });

  it('brings nothing with it', () => {
    expect(readdirSync(join(empty, 'node_modules')).filter((name) => !name.startsWith('.'))).toEqual([
      'scribeline',
    ]);
    const inside = kept('examples').map((path) => path.replace('examples/', ''));
    expect(readdirSync(join(empty, 'jobs')).sort()).toEqual(inside.sort());
    const dist = readdirSync(join(empty, 'node_modules/scribeline/dist'), { recursive: true }).map(String);
    expect(dist.filter((path) => /\.(js|txt)$/.test(path)).sort()).toEqual(
      ['ThirdPartyNotices.txt', 'cli/program.js', 'cli/scribeline.js', 'cli/yaml.js'].sort(),
    );
  });

  it('checks a note, with its values', async () => {
    const { code, stdout, stderr } = await type('npx scribeline check jobs/ball-on-shank.md');
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toContain('ball-on-shank.md');
    expect(stdout).toMatch(/neck\b.*11\.1125 mm|11\.113 mm/); // 7/16 in by the definition of the inch
    const all = await type('npx scribeline check jobs --json');
    expect(all.code).toBe(1); // typical-mistakes.md is full of them
    expect((JSON.parse(all.stdout) as { notes: unknown[] }).notes).toHaveLength(kept('examples').length);
  });

  it('finds a job by a value and lists the formulas', async () => {
    const found = await type('npx scribeline find "ball 25 mm .. 27 mm" jobs');
    expect([found.code, found.stdout.includes('ball-on-shank')]).toEqual([0, true]);
    const none = await type('npx scribeline find "ball 250 mm .. 270 mm" jobs');
    expect(none.stdout).not.toContain('ball-on-shank');
    const { code, stdout } = await type('npx scribeline formulas');
    expect([code, stdout.includes('ball_on_shank')]).toEqual([0, true]);
  });

  it('writes a job sheet, with its looks', async () => {
    const { code } = await type('npx scribeline sheet jobs/ball-on-shank.md -o sheet.html');
    expect(code).toBe(0);
    const sheet = readFileSync(join(empty, 'sheet.html'), 'utf8');
    for (const looks of ['preview.css', 'sheet.css'])
      expect(sheet).toContain(
        readFileSync(join(root, 'media', looks), 'utf8')
          .trim()
          .slice(-40),
      );
  });
});

describe('sizes in the README', () => {
  it('are those of what is made now, within a twentieth', async () => {
    const rows = packageSizes(await packExtension(made), await packCommandLine(made));
    const told = readFileSync(join(root, 'README.md'), 'utf8').split('<!-- sizes -->')[1] ?? '';
    for (const { name, bytes, unpacked } of rows) {
      const row = told.split('\n').find((line) => line.startsWith(`| ${name} |`)) ?? '';
      const numbers = [...row.matchAll(/(\d+) kB/g)].map(([, kB]) => Number(kB) * 1000);
      for (const [i, now] of [bytes, unpacked].filter((it) => it !== null).entries())
        expect([name, Math.abs((numbers[i] ?? 0) - now) < Math.max(now / 20, 500)]).toEqual([name, true]);
    }
    expect(rows).toHaveLength(7);
  });
});

describe('the notices', () => {
  const written = writtenNotices();
  const headed = [...written.matchAll(/^-{80}\n\n(\S+) (\d\S*)\nLicence: (.+)$/gm)];
  const names = headed.map(([, name]) => name ?? '');

  it('name each package with a licence that allows it to be handed on', () => {
    for (const [, name, , licence] of headed)
      expect([name, ['MIT', 'ISC', 'BSD-2-Clause', 'Apache-2.0'].includes(licence ?? '')]).toEqual([
        name,
        true,
      ]);
    for (const [, name, version] of headed) {
      const { version: installed } = JSON.parse(
        readFileSync(join(root, 'node_modules', name ?? '', 'package.json'), 'utf8'),
      ) as { version: string };
      expect([name, version]).toEqual([name, installed]);
    }
    expect(written).toContain('Copyright Eemeli Aro'); // of yaml's licence
    expect(written).toContain(readFileSync(join(root, 'node_modules/mathjs/NOTICE'), 'utf8').trim());
  });

  /** Packages of which a plain bundle of the same entries, made without any of our plugins, holds code. */
  it('miss none of what a plain bundle of the same entries holds', async () => {
    const { metafile } = await build({
      ...node,
      absWorkingDir: root,
      plugins: [],
      entryPoints: ['src/hosts/editor/extension.ts', 'src/hosts/cli/main.ts'],
      outdir: join(made, 'plain'),
      external: ['vscode'],
      write: false,
    });
    const plain = bundled([metafile]).map((folder) => folder.replace('node_modules/', ''));
    expect(plain).toEqual(expect.arrayContaining(['markdown-it', 'mathjs', 'minisearch', 'yaml']));
    // All of mathjs asks for these; the few functions that ours holds do not.
    const shaken = [
      'complex.js',
      'decimal.js',
      'escape-latex',
      'fraction.js',
      'javascript-natural-sort',
      'seedrandom',
    ];
    expect(plain.filter((name) => !names.includes(name) && !shaken.includes(name))).toEqual([]);
    expect(names.filter((name) => !plain.includes(name))).toEqual([]);
  });
});
