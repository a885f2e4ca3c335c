// The built-in preview under a real pointer: from a figure to its line, scrolling together, findings in place.
//   node test/tools/test-preview.mjs      (after `npm run build`); part of npm test
import { cpSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { command, frame, preview } from './drive.mjs';
import { driven, root, total } from './driven.mjs';

/** Long enough to scroll in both; line numbers count from 1 as the editor shows them. */
const words = Array.from({ length: 30 }, (_, i) => `Words ${i + 1}, to make the note long.\n`);
const NOTE = [
  '# A note with a slip in it\n',
  '```figures',
  'ball = 26 mm',
  'wrong = 1 mm + 2',
  'setup = ball_on_shank(ball, 11 mm)',
  '```\n',
  ...words,
  '```figures',
  'far = 7 mm',
  '```\n',
  ...words,
].join('\n');
const lineOf = (text) => NOTE.split('\n').findIndex((line) => line.startsWith(text)) + 1;

const row = (page, name) => frame(page).locator(`tr.code-line:has(> th:text-is("${name}"))`);

/** Waits until the status bar tells of the line. */
async function cursorAt(page, line) {
  await page.locator('.statusbar-item', { hasText: `Ln ${line},` }).waitFor({ timeout: 10_000 });
}

const TESTS = {
  'a double click on a figure goes to its line': async (page) => {
    for (const name of ['wrong', 'ball']) {
      await row(page, name).locator('th').dblclick();
      await cursorAt(page, lineOf(`${name} =`));
    }
  },
  'and one on a field of a result goes to the line that it belongs to': async (page) => {
    await frame(page).locator('tr.scribeline-field >> nth=0').dblclick();
    await cursorAt(page, lineOf('setup ='));
  },
  'a finding stands under its line, and the rest of the note is there': async (page) => {
    const under = await row(page, 'wrong').evaluate((tr) => tr.nextElementSibling?.textContent ?? '');
    if (!under.includes('Error.')) throw new Error(`under the line stands ${under}`);
    const text = await frame(page).locator('body').innerText();
    for (const part of ['26 mm', 'Words 30', 'far']) if (!text.includes(part)) throw new Error(`no ${part}`);
  },
  'the preview scrolls with the editor, to the row of the line': async (page) => {
    await page.locator('.editor-instance .view-lines').first().click();
    await page.keyboard.press('Control+g');
    await page.keyboard.type(String(lineOf('far =')));
    await page.keyboard.press('Enter');
    await seen(row(page, 'far'), true);
    await page.keyboard.press('Control+Home');
    await seen(row(page, 'ball'), true);
    await seen(row(page, 'far'), false);
  },
  'and the editor with the preview': async (page) => {
    await row(page, 'ball').hover();
    // Turn by turn, as a hand does it: the preview takes the first for an echo of its own scrolling.
    for (let turn = 0; turn < 20; turn++) {
      await page.mouse.wheel(0, 300);
      await page.waitForTimeout(100);
    }
    await page
      .locator('.editor-instance .view-line', { hasText: /Words.30,/ })
      .first()
      .waitFor({ timeout: 10_000 });
  },
};

/** Whether an element of the preview lies within what is shown of it. */
async function seen(element, wanted) {
  const inside = (node) => {
    const { top, bottom } = node.getBoundingClientRect();
    return top >= 0 && bottom <= globalThis.innerHeight;
  };
  for (let i = 0; i < 100; i++) {
    if ((await element.evaluate(inside)) === wanted) return;
    await new Promise((done) => setTimeout(done, 100));
  }
  throw new Error(wanted ? 'the row did not come into view' : 'the row stayed in view');
}

function testPreview() {
  return driven({
    title: 'The preview under a pointer',
    prepare: (folder) => {
      cpSync(join(root, 'examples/shop.md'), join(folder, 'shop.md'));
      writeFileSync(join(folder, 'slip.md'), NOTE);
    },
    note: 'slip.md',
    before: async (page) => {
      await command(page, 'View: Toggle Primary Side Bar Visibility');
      await preview(page, 'Markdown: Open Preview to the Side');
      await frame(page).locator('.scribeline-table').first().waitFor({ timeout: 30_000 });
    },
    tests: TESTS,
  });
}

total(await testPreview());
