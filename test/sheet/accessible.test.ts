/**
 * Sheets and previews held to an accessibility engine (axe-core: WCAG 2 A and AA and its good practice) in a real
 * browser, in each theme; and to a page of half the width, which is what 200 % makes of it.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import MarkdownIt from 'markdown-it';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { run } from '../../src/hosts/cli/run';
import { figuresPlugin } from '../../src/hosts/preview/plugin';
import { world } from '../cli/folder';
import { openBrowser } from '../tools/vscode.mjs';
import { THEMES, previewPage } from './preview-page';

const ROOT = resolve(import.meta.dirname, '../..');
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const EXAMPLES = readdirSync(join(ROOT, 'examples')).filter((name) => name.endsWith('.md'));
const SHOP = readFileSync(join(ROOT, 'examples/shop.md'), 'utf8');

let browser: Browser;
let page: Page;

beforeAll(async () => {
  ({ browser, page } = (await openBrowser({ viewport: { width: 1000, height: 900 }, bypassCSP: true })) as {
    browser: Browser;
    page: Page;
  });
});

afterAll(async () => {
  await browser.close();
});

beforeEach(async () => {
  await page.emulateMedia({ colorScheme: 'light', forcedColors: 'none' });
  await page.setViewportSize({ width: 1000, height: 900 });
});

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
}

/** What another theme than the light one, where all rules are asked for, can change. */
const COLOURS = ['color-contrast', 'link-in-text-block'];

/** What the engine finds wrong: rule, element and why. */
async function violations(only?: readonly string[]): Promise<readonly string[]> {
  await page.evaluate(AXE);
  const { violations: found, passes } = await page.evaluate((runOnly) => {
    const axe = (
      globalThis as unknown as {
        axe: { run(options: object): Promise<{ violations: Violation[]; passes: unknown[] }> };
      }
    ).axe;
    // Of what passes only the rules are counted: to describe each of its elements takes most of the time.
    return axe.run({ resultTypes: ['violations'], ...(runOnly ? { runOnly } : {}) });
  }, only);
  // An empty page would pass as well.
  expect(passes.length).toBeGreaterThan(only ? 0 : 10);
  return found.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 200)} ${failureSummary ?? ''}`),
  );
}

const unfold = (): Promise<void> =>
  page.evaluate(() => {
    for (const details of Array.from(document.querySelectorAll('details'))) details.open = true;
  });

/** How far the page is wider than the screen. */
const sideways = (): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

async function sheet(name: string, ...more: readonly string[]): Promise<string> {
  const io = world(ROOT);
  await run(['sheet', `examples/${name}`, ...more], io);
  return io.printed.out;
}

function preview(name: string): string {
  const md = new MarkdownIt({ html: true });
  const shops = name === 'shop.md' ? [] : [{ file: 'shop.md', text: SHOP }];
  md.use(figuresPlugin({ cardsFor: () => ({ shops, loading: false }), workings: () => true }));
  const text = readFileSync(join(ROOT, 'examples', name), 'utf8');
  return md.render(text.replace(/^---\n[^]*?\n---\n/, ''));
}

/** What a page is made of: elements with their classes. */
const kinds = (html: string): ReadonlySet<string> =>
  new Set(
    Array.from(html.matchAll(/<(\w+)(?:[^>]*? class="([^"]*)")?/g), ([, tag, name = '']) => `${tag} ${name}`),
  );

/** Few of the pages, which have all kinds of elements in them that any has: as many as themes need be tried on. */
function covering(pages: ReadonlyMap<string, string>): readonly string[] {
  const left = [...pages].map(([name, html]) => ({ name, kinds: new Set(kinds(html)) }));
  const chosen: string[] = [];
  for (;;) {
    const [most] = left.sort((a, b) => b.kinds.size - a.kinds.size);
    if (!most || most.kinds.size === 0) return chosen;
    chosen.push(most.name);
    for (const kind of [...most.kinds]) for (const each of left) each.kinds.delete(kind);
  }
}

const pagesOf = async (
  make: (name: string) => string | Promise<string>,
): Promise<ReadonlyMap<string, string>> =>
  new Map(await Promise.all(EXAMPLES.map(async (name) => [name, await make(name)] as const)));

describe.each(EXAMPLES)('the sheet of %s', (name) => {
  it('has nothing against it', async () => {
    await page.setContent(await sheet(name, '--workings'));
    await unfold();
    expect(await violations()).toEqual([]);
  });

  it('is not cut off and does not scroll sideways at 200 %, nor at 320 points', async () => {
    await page.setContent(await sheet(name, '--workings'));
    await unfold();
    for (const width of [500, 320]) {
      await page.setViewportSize({ width, height: 900 });
      expect([width, await sideways()]).toEqual([width, 0]);
    }
  });
});

describe.each(covering(await pagesOf((name) => sheet(name, '--answers', 'hidden'))))(
  'the sheet of %s with hidden answers',
  (name) => {
    it('has nothing against it, in forced colours', async () => {
      await page.emulateMedia({ colorScheme: 'dark', forcedColors: 'active' });
      await page.setContent(await sheet(name, '--answers', 'hidden'));
      await unfold();
      expect(await violations()).toEqual([]);
    });
  },
);

describe.each(covering(await pagesOf((name) => sheet(name, '--workings'))))('the sheet of %s', (name) => {
  it('is readable in the dark', async () => {
    await page.emulateMedia({ colorScheme: 'dark' });
    await page.setContent(await sheet(name, '--workings'));
    await unfold();
    expect(await violations(COLOURS)).toEqual([]);
  });
});

describe.each(covering(await pagesOf(preview)))('the preview of %s', (name) => {
  it.each(Object.keys(THEMES).filter((theme) => theme !== 'light'))(
    'is readable in theme %s',
    async (theme) => {
      await page.setContent(previewPage(preview(name), theme));
      await unfold();
      expect(await violations(COLOURS)).toEqual([]);
    },
  );
});

describe.each(EXAMPLES)('the preview of %s', (name) => {
  it('has nothing against it', async () => {
    await page.setContent(previewPage(preview(name), 'light'));
    await unfold();
    expect(await violations()).toEqual([]);
  });

  it('does not scroll sideways at 200 %', async () => {
    await page.setContent(previewPage(preview(name), 'light'));
    await unfold();
    await page.setViewportSize({ width: 400, height: 900 });
    expect(await sideways()).toBe(0);
  });
});
