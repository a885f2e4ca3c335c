/** Sheets of the examples in a real browser: without network, without a message, and as a PDF on both papers. */
import { mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { run } from '../../src/hosts/cli/run';
import { openBrowser } from '../tools/vscode.mjs';
import { world } from '../cli/folder';
import { HOSTILE } from './hostile';

const ROOT = resolve(import.meta.dirname, '../..');
const OUT = join(ROOT, 'out/sheets');
const EXAMPLES = readdirSync(join(ROOT, 'examples')).filter((name) => name.endsWith('.md'));

let browser: Browser;
let page: Page;
const said: string[] = [];

beforeAll(async () => {
  mkdirSync(OUT, { recursive: true });
  ({ browser, page } = (await openBrowser({ viewport: { width: 390, height: 800 } })) as {
    browser: Browser;
    page: Page;
  });
  page.on('console', (message) => said.push(message.text()));
  page.on('pageerror', (error) => said.push(String(error)));
  page.on('dialog', (dialog) => {
    said.push(dialog.message());
    void dialog.dismiss();
  });
  page.on('request', (request) => {
    if (!/^(?:file|data):/.test(request.url())) said.push(`asked for ${request.url()}`);
  });
});

afterAll(async () => {
  await browser.close();
});

async function open(name: string, html: string): Promise<void> {
  said.length = 0;
  const file = join(OUT, name);
  writeFileSync(file, html);
  await page.goto(`file://${file}`);
}

async function sheet(note: string, ...more: string[]): Promise<string> {
  const io = world(ROOT);
  await run(['sheet', note, ...more], io);
  return io.printed.out;
}

describe.each(EXAMPLES)('the sheet of %s', (name) => {
  it('opens in silence, fits a telephone, and prints on A4 and Letter', async () => {
    const html = await sheet(`examples/${name}`, '--workings');
    await open(name.replace('.md', '.html'), html);
    expect(said).toEqual([]);
    const wide = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(wide).toBe(0);
    const [a4, letter] = [
      await page.pdf({ format: 'A4', path: join(OUT, name.replace('.md', '.a4.pdf')) }),
      await page.pdf({ format: 'Letter' }),
    ].map((bytes) => bytes.toString('latin1'));
    expect(a4).toMatch(/\/MediaBox \[0 0 59[45](?:\.\d+)? 84[12](?:\.\d+)?\]/);
    expect(letter).toMatch(/\/MediaBox \[0 0 612 792\]/);
    expect(Number(/\/Count (\d+)/.exec(a4 ?? '')?.[1])).toBeGreaterThan(0);
  });
});

describe('on paper', () => {
  it('everything is black on white', async () => {
    await open('mistakes.html', await sheet('examples/typical-mistakes.md'));
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    const colours = await page.evaluate(() => {
      const seen = new Set<string>();
      for (const element of Array.from(document.querySelectorAll('body, body *')))
        seen.add(getComputedStyle(element).color);
      return [...seen, getComputedStyle(document.body).backgroundColor];
    });
    await page.emulateMedia({ media: null, colorScheme: 'light' });
    const grey = (colour: string): boolean => new Set(colour.match(/\d+/g)?.slice(0, 3)).size === 1;
    expect(colours.filter((colour) => !grey(colour))).toEqual([]);
    expect(colours.at(-1)).toBe('rgb(255, 255, 255)');
  });

  it('shows what is folded away on the screen only where it is no answer', async () => {
    await open('answers.html', await sheet('examples/ball-on-shank.md', '--answers', 'hidden'));
    const open_ = await page.evaluate(() => document.querySelectorAll('.scribeline-answer[open]').length);
    expect(open_).toBe(0);
    expect(readFileSync(join(OUT, 'answers.html'), 'utf8')).toContain('scribeline-cautions" open=""');
  });
});

it.each([[], ['--workings'], ['--answers', 'hidden']])(
  'a hostile note runs nothing in a browser %s',
  async (...how) => {
    writeFileSync(join(OUT, 'hostile.md'), HOSTILE);
    await open('hostile.html', await sheet('out/sheets/hostile.md', ...how));
    await page.evaluate(() => {
      for (const details of Array.from(document.querySelectorAll('details'))) details.open = true;
    });
    await page.pdf({ format: 'A4' });
    // Neither a request nor a message nor a question: the policy had nothing to stop.
    expect(said).toEqual([]);
    expect(await page.locator('script, iframe, object, embed, form, base, link, img').count()).toBe(0);
    const addresses = await page.evaluate(() =>
      Array.from(document.querySelectorAll('a'), (link) => link.getAttribute('href') ?? ''),
    );
    for (const address of addresses) expect(address).toMatch(/^(?:#|https:\/\/x\.example\/)/);
    const text = await page.evaluate(() => document.body.innerText);
    expect(text).toContain('<script>alert(1)</script>');
    expect(text).not.toMatch(/[\u202a-\u202e\u2066-\u2069]/);
  },
);
