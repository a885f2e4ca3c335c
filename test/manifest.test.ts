import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import manifest from '../package.json';
import { texts } from './tools/l10n.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const read = (path: string) => readFileSync(root + path, 'utf8');

/** The project's own files of words, those not yet committed too. */
function ownTexts(...under: string[]): string[] {
  const words = ['ls-files', '-co', '--exclude-standard', '--', ...under];
  const paths = execFileSync('git', words, { cwd: root, encoding: 'utf8' }).split('\n');
  return paths.filter(
    (path) => /\.(ts|mjs|json|md)$/.test(path) && !path.endsWith('lock.json') && existsSync(root + path),
  );
}

const { contributes } = manifest;
const grammar = contributes.grammars[0];

describe('package.json', () => {
  it('names only files that are there', () => {
    const named = [
      manifest.icon,
      grammar?.path ?? '',
      ...contributes['markdown.previewScripts'],
      ...contributes['markdown.previewStyles'],
      ...contributes.walkthroughs.flatMap(({ steps }) =>
        steps.flatMap(({ media }) => Object.values(media.image)),
      ),
      ...contributes.viewsContainers.activitybar.map(({ icon }) => icon),
    ];
    for (const path of named) expect([path, existsSync(root + path)]).toEqual([path, true]);
  });

  it('has an icon of 128 by 128 pixels', () => {
    const png = readFileSync(root + manifest.icon);
    expect([png.toString('latin1', 1, 4), png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([
      'PNG',
      128,
      128,
    ]);
  });

  it('agrees with the grammar, the licence and the changelog', () => {
    expect(JSON.parse(read('syntaxes/figures.tmLanguage.json'))).toMatchObject({
      scopeName: grammar?.scopeName,
    });
    expect(manifest.license).toBe('MIT');
    expect(read('LICENSE')).toContain(manifest.author);
    expect(read('CHANGELOG.md')).toMatch(new RegExp(`^## \\[(Unreleased|${manifest.version})\\]`, 'm'));
  });

  it('wakes up for markdown alone, and runs untrusted and on virtual files', () => {
    expect(manifest.activationEvents).toEqual(['onLanguage:markdown']);
    expect(manifest.capabilities).toEqual({
      untrustedWorkspaces: { supported: true },
      virtualWorkspaces: true,
    });
    expect(manifest.devDependencies['@types/vscode']).toBe(manifest.engines.vscode.replace('^', ''));
  });

  it('has words for every text that it leaves to package.nls.json, and no others there', () => {
    const used = [...read('package.json').matchAll(/"%([^%"]+)%"/g)].map(([, key]) => key);
    expect([...new Set(used)].sort()).toEqual(
      Object.keys(JSON.parse(read('package.nls.json')) as object).sort(),
    );
  });

  it('writes code in the steps of the walkthrough as VS Code reads it there, between two marks', () => {
    const words = Object.entries(JSON.parse(read('package.nls.json')) as Record<string, string>);
    const steps = words.filter(([key]) => key.startsWith('walkthrough.')).map(([, text]) => text);
    expect(steps.filter((text) => text.includes('`')).length).toBeGreaterThan(0);
    for (const text of steps) expect(text.replace(/``[^`]+``/g, '')).not.toContain('`');
  });

  it('has a bundle of texts to translate that is as gathered now, with every text in it', () => {
    expect(read('l10n/bundle.l10n.json')).toBe(`${JSON.stringify(texts(), null, 2)}\n`);
    const asked = ownTexts('src').flatMap((path) => [
      ...read(path).matchAll(/\b(?:l10n\.t|said)\((?!fix\.title|text: string)\s*(.)/g),
    ]);
    // Any other sign than a plain quote would hide the text from the gathering.
    expect([...new Set(asked.map(([, sign]) => sign))]).toEqual(["'"]);
    expect(Object.keys(texts()).length).toBeGreaterThan(40);
    for (const text of Object.keys(texts())) expect([text, text.includes('\\')]).toEqual([text, false]);
  });

  it('installs nothing with the package: everything is bundled', () => {
    expect(manifest).not.toHaveProperty('dependencies');
  });
});

describe('the sources', () => {
  it('hold no left-overs, and no test is switched off', () => {
    const marks = new RegExp('TO' + 'DO|FIX' + 'ME|\\bX' + 'XX\\b|\\.(on' + 'ly|sk' + 'ip)\\(');
    for (const path of ownTexts('src', 'test'))
      expect([path, marks.exec(read(path))?.[0]]).toEqual([path, undefined]);
  });
});
