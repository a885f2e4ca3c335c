/** The reference page that ships is the one that the formulas make now. After a change: `npx vitest -u run test/language/reference`. */
import MarkdownIt from 'markdown-it';
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { GROUPS, referencePage } from '../../src/language/reference';
import { allFormulas } from '../../src/trade/index';

const PAGE = resolve(import.meta.dirname, '../../media/formulas.md');
const page = referencePage(allFormulas());

describe('the reference page', () => {
  it('is current', async () => {
    expect(existsSync(PAGE)).toBe(true);
    await expect(page).toMatchFileSnapshot(PAGE);
  });

  it('changes with any formula', () => {
    const [first, ...others] = allFormulas();
    if (!first) throw new Error('no formulas');
    expect(referencePage(others)).not.toBe(page);
    expect(referencePage([{ ...first, source: `${first.source}, second edition` }, ...others])).not.toBe(
      page,
    );
  });

  it('of one formula has its group only', () => {
    const own = allFormulas().filter(({ name }) => name === 'spindle_speed');
    const lines = referencePage(own).split('\n');
    expect(lines.filter((line) => line.startsWith('- ['))).toEqual([
      '- [Speeds, feeds and forces](#speeds-feeds-and-forces): [`spindle_speed`](#spindle_speed)',
    ]);
    expect(lines.filter((line) => /^##+ /.test(line))).toEqual([
      '## Speeds, feeds and forces',
      '### spindle_speed',
    ]);
    const [formula] = own;
    if (!formula) throw new Error('no spindle_speed');
    const changed = referencePage([{ ...formula, source: 'a table of M. N.', why: 'Since\n  it turns.' }]);
    expect(changed).toContain('\nSource: a table of M. N.\n');
    expect(changed).toContain('\nSince it turns.\n');
  });

  it('has every formula once, in a group that it names', () => {
    for (const { name, family } of allFormulas()) {
      expect([family, GROUPS.has(family)]).toEqual([family, true]);
      expect([name, page.split(`\n### ${name}\n`).length]).toEqual([name, 2]);
    }
  });

  it('links to headings that are there, and makes no HTML', () => {
    const html = new MarkdownIt({ html: true }).render(page);
    const anchors = new Set(
      [...html.matchAll(/<h[1-3]>(.*?)<\/h[1-3]>/g)].map(([, text = '']) =>
        text
          .toLowerCase()
          .replace(/[^\p{L}\p{N}_ -]/gu, '')
          .replaceAll(' ', '-'),
      ),
    );
    for (const [, target] of html.matchAll(/href="#([^"]*)"/g))
      expect([target, anchors.has(target ?? '')]).toEqual([target, true]);
    expect(new MarkdownIt({ html: false }).render(page)).toBe(html);
  });
});
