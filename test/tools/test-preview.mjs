// The built-in preview under a real pointer and by the keyboard alone: from a figure to its line, scrolling together,
// findings in place; and held to an accessibility engine as it stands in VS Code, in each theme.
//   node test/tools/test-preview.mjs      (after `npm run build`); part of npm test
import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { command, frame, preview } from './drive.mjs';
import { driven, root, same, total, until } from './driven.mjs';

/** Long enough to scroll in both; line numbers count from 1 as the editor shows them. */
const words = Array.from({ length: 30 }, (_, i) => `Words ${i + 1}, to make the note long.\n`);
const NOTE = [
  '# A note with a slip in it\n',
  '```figures',
  'ball = 26 mm',
  'wrong = 1 mm + 2',
  'setup = ball_on_shank(ball, 11 mm)',
  '',
  '',
  '',
  'ball <= 30 mm',
  '```\n',
  ...words,
  '```figures',
  'far = 7 mm',
  '```\n',
  ...words,
].join('\n');
const lineOf = (text) => NOTE.split('\n').findIndex((line) => line.startsWith(text)) + 1;

const way = (page, name) => frame(page).locator('.scribeline-way').filter({ hasText: name }).first();
const row = (page, name) => frame(page).locator(`tr.code-line:has(.scribeline-way:text-is("${name}"))`);

/* global document, getComputedStyle -- run in the page */
const focused = () => {
  const { textContent, className } = document.activeElement ?? {};
  return className === 'scribeline-way' ? textContent : '';
};

/** Presses Tab in the preview until the figure has the focus, which then can be seen. */
async function tabTo(page, name) {
  const body = frame(page).locator('body');
  await until(
    async () => {
      await page.keyboard.press('Tab');
      return body.evaluate(focused);
    },
    (text) => text === name,
  );
  const drawn = await body.evaluate(() => {
    const { outlineStyle, outlineWidth, outlineColor } = getComputedStyle(document.activeElement);
    return { style: outlineStyle, width: outlineWidth, colour: outlineColor };
  });
  same([drawn.style, drawn.width], ['solid', '2px']);
  return drawn.colour;
}

/** Waits until the status bar tells of the line. */
async function cursorAt(page, line) {
  await page.locator('.statusbar-item', { hasText: `Ln ${line},` }).waitFor({ timeout: 10_000 });
}

/**
 * Clicks twice, and waits for the line. The preview marks the row that the cursor came to, a moment later, and scrolls to it:
 * a double click in the midst of that is two clicks on two places, and is made again.
 */
async function doubleClick(page, on, line, more = 2) {
  await page.waitForTimeout(300);
  await on.dblclick();
  await cursorAt(page, line).catch((error) => {
    if (more === 0) throw error;
    return doubleClick(page, on, line, more - 1);
  });
}

const TESTS = {
  'a double click on a figure goes to its line': async (page) => {
    for (const name of ['wrong', 'ball'])
      await doubleClick(page, row(page, name).locator('th'), lineOf(`${name} =`));
  },
  'and one on a field of a result goes to the line that it belongs to, also before empty lines': async (
    page,
  ) => {
    for (const field of ['first', 'last']) {
      await doubleClick(page, row(page, 'ball').locator('th'), lineOf('ball ='));
      const ofResult = frame(page).locator('tr.scribeline-field')[field]().locator('th');
      await doubleClick(page, ofResult, lineOf('setup ='));
    }
  },
  'by the keyboard a figure leads to its line as well': async (page) => {
    await frame(page).locator('h1').click();
    for (const [name, key] of [
      ['ball', 'Enter'],
      ['wrong', ' '],
      ['setup', 'Enter'],
      ['ball <= 30 mm', 'Enter'],
    ]) {
      await tabTo(page, name);
      await page.keyboard.press(key);
      await cursorAt(page, lineOf(name)).catch(() => {
        throw new Error(`${key} on ${name} led elsewhere`);
      });
      await page.waitForTimeout(300); // the preview hears where the cursor is and marks the row
      await frame(page).locator('h1').click();
    }
  },
  'and says what it is and does to a screen reader': async (page) => {
    const told = await frame(page).locator('.markdown-body').ariaSnapshot();
    for (const part of ['rowheader "ball"', 'button "ball"', 'button "ball <= 30 mm"'])
      if (!told.includes(part)) throw new Error(`no ${part} in ${told}`);
    const said = await way(page, 'ball').getAttribute('aria-description');
    same(said, 'to its line in the note');
  },
  'a finding stands under its line, and the rest of the note is there': async (page) => {
    const under = await row(page, 'wrong').evaluate((tr) => tr.nextElementSibling?.textContent ?? '');
    if (!under.includes('Error.')) throw new Error(`under the line stands ${under}`);
    const text = await frame(page).locator('body').innerText();
    for (const part of ['26 mm', 'Words 30', 'far']) if (!text.includes(part)) throw new Error(`no ${part}`);
  },
  'the preview scrolls with the editor, to the row of the line': async (page) => {
    await page.locator('.editor-instance .view-lines').first().click();
    await jump(page, lineOf('far ='), row(page, 'far'));
    await jump(page, 1, row(page, 'ball'));
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

const THEMES = {
  light: ['Default Light Modern', 'vscode-light'],
  dark: ['Default Dark Modern', 'vscode-dark'],
  'high contrast': ['Default High Contrast', 'vscode-high-contrast'],
  'light high contrast': ['Default High Contrast Light', 'vscode-high-contrast-light'],
};
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

const settings = (folder, theme) => {
  mkdirSync(join(folder, '.vscode'), { recursive: true });
  const values = { 'workbench.startupEditor': 'none', 'workbench.colorTheme': theme };
  writeFileSync(join(folder, '.vscode/settings.json'), JSON.stringify(values));
};

/** What axe-core (WCAG 2 A and AA and its good practice) has against our blocks as they stand in the webview. */
async function violations(page) {
  const inside = await (await frame(page).locator('body').elementHandle()).ownerFrame();
  await inside.evaluate(AXE);
  // The page is clear, and VS Code paints what is behind it: the engine is told what that is.
  await inside.evaluate(() => {
    document.body.style.background = 'var(--vscode-editor-background)';
  });
  const { violations: found, passes } = await inside.evaluate(() =>
    globalThis.axe.run('.scribeline-block', { resultTypes: ['violations'] }),
  );
  same(passes.length > 10, true); // an empty page would pass as well
  return found.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary = '' }) => `${id}: ${html.slice(0, 100)} ${failureSummary}`),
  );
}

for (const [theme, [label, name]] of Object.entries(THEMES))
  TESTS[`an accessibility engine has nothing against it and the focus is seen: ${theme}`] = async (
    page,
    folder,
  ) => {
    settings(folder, label);
    await frame(page).locator(`body.${name}`).waitFor({ timeout: 10_000 });
    await frame(page).locator('h1').click();
    const colour = await tabTo(page, 'ball');
    await frame(page)
      .locator('details')
      .evaluateAll((all) => all.forEach((each) => (each.open = true)));
    same(await violations(page), []);
    const paper = await frame(page)
      .locator('body')
      .evaluate((body) => getComputedStyle(body).backgroundColor);
    if (contrast(colour, paper) < 3) throw new Error(`the focus is ${colour} on ${paper}`);
  };

/** The ratio of WCAG 2 between two colours, each as `rgb(…)`; 3 is the least for a focus (1.4.11). */
function contrast(...colours) {
  const light = ([r, g, b]) => 0.2126 * r + 0.7152 * g + 0.0722 * b;
  const linear = (c) => (c / 255 <= 0.04045 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4);
  const [low, high] = colours
    .map((colour) =>
      light(
        colour
          .match(/[\d.]+/g)
          .slice(0, 3)
          .map(Number)
          .map(linear),
      ),
    )
    .sort((a, b) => a - b);
  return (high + 0.05) / (low + 0.05);
}

const inside = (node) => {
  const { top, bottom } = node.getBoundingClientRect();
  return top >= 0 && bottom <= globalThis.innerHeight;
};

/** Waits until an element of the preview lies within what is shown of it, or no more. */
function seen(element, wanted) {
  return until(
    () => element.evaluate(inside),
    (is) => is === wanted,
  );
}

/**
 * Goes to a line in the editor until the preview shows the row: what the editor says while the preview still comes to rest
 * is taken for an echo there.
 */
function jump(page, line, shown) {
  return until(
    async () => {
      await page.keyboard.press('Control+Home');
      await page.keyboard.press('Control+g');
      await page.locator('.quick-input-widget input').first().fill(`:${line}`);
      await page.keyboard.press('Enter');
      await page.locator('.statusbar-item', { hasText: `Ln ${line},` }).waitFor();
      await page.waitForTimeout(1000);
      return shown.evaluate(inside);
    },
    (is) => is,
    20,
  );
}

function testPreview() {
  return driven({
    title: 'The preview under a pointer and the keyboard',
    prepare: (folder) => {
      cpSync(join(root, 'examples/shop.md'), join(folder, 'shop.md'));
      writeFileSync(join(folder, 'slip.md'), NOTE);
      settings(folder, 'Default Light Modern');
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
