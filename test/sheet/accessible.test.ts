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

/** What the engine finds wrong: rule, element and why. */
async function violations(): Promise<readonly string[]> {
  await page.evaluate(AXE);
  const { violations: found, passes } = await page.evaluate(() =>
    (
      globalThis as unknown as {
        axe: { run(options: object): Promise<{ violations: Violation[]; passes: unknown[] }> };
      }
    ).axe // Of what passes only the rules are counted: to describe each of its elements takes most of the time.
      .run({ resultTypes: ['violations'] }),
  );
  // An empty page would pass as well.
  expect(passes.length).toBeGreaterThan(10);
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

describe.each(EXAMPLES)('the sheet of %s', (name) => {
  it.each(['light', 'dark'] as const)('has nothing against it: %s', async (colorScheme) => {
    await page.emulateMedia({ colorScheme });
    await page.setContent(await sheet(name, '--workings'));
    await unfold();
    expect(await violations()).toEqual([]);
  });

  it('has nothing against it in forced colours, and with hidden answers', async () => {
    await page.emulateMedia({ colorScheme: 'dark', forcedColors: 'active' });
    await page.setContent(await sheet(name, '--answers', 'hidden'));
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

describe.each(EXAMPLES)('the preview of %s', (name) => {
  it.each(Object.keys(THEMES))('has nothing against it: %s', async (theme) => {
    await page.setContent(previewPage(preview(name), theme));
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
