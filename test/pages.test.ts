import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { dirname, join, posix } from 'node:path';
import { describe, expect, it } from 'vitest';
import manifest from '../package.json';
import { calculate } from '../src/engine/index';
import { report } from '../src/sheet/report';

// What the pages say: links lead somewhere, examples come out as written.
const root = join(import.meta.dirname, '..');
const read = (path: string): string => readFileSync(join(root, path), 'utf8');
const pages = execFileSync('git', ['ls-files', '-co', '--exclude-standard', '--', '*.md'], {
  cwd: root,
  encoding: 'utf8',
})
  .split('\n')
  .filter((path) => /^(?:[^/]+|(?:media|examples)\/.*)\.md$/.test(path) && existsSync(join(root, path)));

/** A page's text without what its fences and code spans show. */
const prose = (text: string): string =>
  text.replace(/^( *)(`{3,}|~{3,}).*\n[^]*?^\1\2`*$/gm, '').replace(/(`+)[^`][^]*?\1/g, '');

const linksOf = (text: string): string[] =>
  [...prose(text).matchAll(/\]\(([^)\s]+)(?: "[^"]*")?\)/g)].map(([, to]) => to ?? '');

/** Names of a page's headings in links, as markdown previews make them. */
const anchors = (text: string): string[] =>
  [...text.matchAll(/^#{1,6} (.+)$/gm)].map(([, words = '']) =>
    words
      .trim()
      .toLowerCase()
      .replace(/[^\p{L}\p{N}\s_-]/gu, '')
      .replace(/\s/g, '-'),
  );

/** Links of a page that lead nowhere. */
function broken(page: string, text: string): string[] {
  return linksOf(text).filter((link) => {
    if (/^(https?|mailto|command):/.test(link)) return false;
    const [path = '', anchor] = link.split('#');
    const to = path === '' ? page : posix.join(dirname(page), decodeURI(path));
    if (!existsSync(join(root, to))) return true;
    return anchor !== undefined && to.endsWith('.md') && !anchors(read(to)).includes(anchor);
  });
}

describe('links', () => {
  it('of all pages lead to files and headings that are there', () => {
    expect(pages).toEqual(expect.arrayContaining(['README.md', 'DEVELOPERS.md', 'media/formulas.md']));
    expect(linksOf(read('README.md')).length).toBeGreaterThan(8);
    expect(pages.flatMap((page) => broken(page, read(page)).map((link) => `${page}: ${link}`))).toEqual([]);
  });

  it('to nothing are found', () => {
    const text =
      '[a](gone.md) [b](README.md#no-such-heading) [c](README.md#safety) `[d](in-code.md)` [e](LICENSE)';
    expect(broken('x.md', text)).toEqual(['gone.md', 'README.md#no-such-heading']);
  });

  it('lead from the README to every reference page, and so does VS Code', () => {
    const listed = read('src/hosts/editor/commands/open-page.ts');
    for (const page of readdirSync(join(root, 'media')).filter((name) => name.endsWith('.md'))) {
      expect([page, linksOf(read('README.md')).includes(`media/${page}`)]).toEqual([page, true]);
      expect([page, listed.includes(`'${page.replace('.md', '')}'`)]).toEqual([page, true]);
    }
    expect(manifest.contributes.commands.map(({ command }) => command)).toContain('scribeline.openPage');
  });
});

describe('the page about a wrong number', () => {
  it('shows what really comes out', () => {
    const [, example = ''] = /^````markdown\n([^]*?)^````$/m.exec(read('media/wrong-number.md')) ?? [];
    const { values, findings } = report(calculate(example), 'x.md');
    expect([values.map(({ shown }) => shown), findings]).toEqual([
      [/# shown: ([^;]+);/.exec(example)?.[1]],
      [],
    ]);
  });
});

describe('the page about the notation', () => {
  const text = read('media/notation.md');
  const lines = text.split('\n');
  const { values, readings, used, findings } = report(calculate(text), 'notation.md');
  const refused = lines.indexOf('## What is refused');
  const said = lines.flatMap((line, i) => {
    const is = / # is (.+)$/.exec(line)?.[1];
    return is === undefined ? [] : [[i + 1, is] as const];
  });

  it('shows results as they come out', () => {
    expect(said.length).toBeGreaterThan(25);
    for (const [line, is] of said)
      expect([line, values.find((value) => value.line === line)?.shown]).toEqual([line, is]);
    expect([readings.length, used.length]).toEqual([4, 1]);
  });

  it('has errors where it says that something is refused, at each line, and nowhere else', () => {
    const from = lines.indexOf('```figures', refused);
    const marked = lines.slice(from + 1, lines.indexOf('```', from)).map((_, i) => from + 2 + i);
    expect(marked.length).toBeGreaterThan(5);
    expect([...new Set(findings.map(({ line }) => line))]).toEqual(marked);
    // What the remark offers is what the finding offers.
    for (const line of marked) {
      const offered = /# (?:a thread: )?(.+?)\??$/.exec(lines[line - 1] ?? '')?.[1] ?? '';
      if (offered.startsWith('1 of what')) continue;
      expect([line, JSON.stringify(findings.find((it) => it.line === line)?.data)]).toEqual([
        line,
        expect.stringContaining(offered.replace(/ mm$|^sin\(|\)$/g, '')),
      ]);
    }
  });
});
