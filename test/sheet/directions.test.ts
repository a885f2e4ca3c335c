/**
 * Notes with words from right to left, drawn by a real browser: where each word and figure stands on the screen is held
 * against the order in which it was written (the browser follows the Unicode bidirectional algorithm, UAX #9).
 */
import type { Browser, Page } from 'playwright-core';
import MarkdownIt from 'markdown-it';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { figuresPlugin } from '../../src/hosts/preview/plugin';
import { openBrowser } from '../tools/vscode.mjs';
import { previewPage } from './preview-page';

let browser: Browser;
let page: Page;

beforeAll(async () => {
  ({ browser, page } = (await openBrowser()) as { browser: Browser; page: Page });
});

afterAll(async () => {
  await browser.close();
});

async function draw(...lines: readonly string[]): Promise<void> {
  const md = new MarkdownIt().use(figuresPlugin({ cardsFor: () => ({ shops: [], loading: false }) }));
  await page.setContent(previewPage(md.render(lines.join('\n')), 'light'));
}

/** The words as they stand from left to right, where the first element that fits the selector draws them. */
function fromLeft(selector: string, words: readonly string[]): Promise<readonly string[]> {
  return page.evaluate(
    ([where, wanted]) => {
      const element = document.querySelector(where);
      const walker = document.createTreeWalker(element ?? document, NodeFilter.SHOW_TEXT);
      const nodes: Text[] = [];
      while (walker.nextNode()) nodes.push(walker.currentNode as Text);
      const left = (word: string): number => {
        for (const node of nodes) {
          const at = node.data.indexOf(word);
          if (at < 0) continue;
          const range = document.createRange();
          range.setStart(node, at);
          range.setEnd(node, at + word.length);
          return range.getBoundingClientRect().left;
        }
        throw new Error(`${word} is not drawn`);
      };
      return [...wanted].sort((a, b) => left(a) - left(b));
    },
    [selector, words] as const,
  );
}

const FENCE = '```';

describe('where words run from right to left', () => {
  it('a line stands as it was written', async () => {
    await draw(`${FENCE}figures`, 'כדור = 3 mm', FENCE);
    expect(await fromLeft('.scribeline-broken code', ['כדור', '=', '3 mm'])).toEqual(['כדור', '=', '3 mm']);
  });

  it('a remark is read from right to left, its figure with its unit', async () => {
    await draw(`${FENCE}figures`, 'a = 26 mm  # כפי שביקש 26 mm הלקוח', FENCE);
    const remark = 'span.scribeline-remark';
    expect(await fromLeft(remark, ['כפי', '26 mm', 'הלקוח'])).toEqual(['הלקוח', '26 mm', 'כפי']);
  });

  it('a sentence of ours that quotes a remark keeps its figures in their order', async () => {
    await draw(`${FENCE}figures`, 'a = 11 mm', 'a <= 10 mm  # קצר מדי', FENCE);
    const words = ['קצר', '11 mm', '<=', '10 mm', 'is false'];
    expect(await fromLeft('.scribeline-finding td', words)).toEqual(words);
  });

  it("a card's words keep a figure before its unit", async () => {
    await draw(`${FENCE}machine press`, 'speeds = [100] rpm', 'caution: לשמן 300 mm', FENCE);
    const words = ['לשמן', '300', 'mm'];
    expect(await fromLeft('.scribeline-words', words)).toEqual(words);
  });
});
