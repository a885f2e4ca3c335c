// What a hand does in VS Code: commands, places in the editor, the preview. For pictures and for tests of the real thing.

/** The page inside the built-in preview. */
export const frame = (page) => page.frameLocator('iframe.webview.ready').frameLocator('#active-frame');

export async function preview(page, words) {
  await command(page, 'View: Focus First Editor Group');
  await command(page, words);
  await frame(page).locator('.markdown-body').waitFor({ timeout: 30_000 });
  await page.waitForTimeout(1500);
}

/** Gives a command by its words, and rests a while in ms; whoever waits for what it does needs none. */
export async function command(page, words, rest = 800) {
  const input = page.locator('.quick-input-widget input').first();
  // A command of an extension that is not there yet comes with the next list.
  const listed = page.locator('.quick-input-list .monaco-list-row', { hasText: words }).first();
  const isListed = async () => {
    await page.keyboard.press('F1');
    await input.fill(`>${words}`);
    return listed.waitFor({ timeout: 2000 }).then(
      () => true,
      () => false,
    );
  };
  for (let turn = 0; !(await isListed()); turn++) {
    await page.keyboard.press('Escape');
    if (turn === 10) throw new Error(`there is no command ${words}`);
  }
  await page.keyboard.press('Enter');
  const left = async () => !(await input.isVisible()) || (await input.inputValue()) !== `>${words}`;
  for (let turn = 0; turn < 100 && !(await left()); turn++) await page.waitForTimeout(30);
  await page.waitForTimeout(rest);
}

/* global document, NodeFilter -- the function below runs in the page */
/** The middle of the first place on screen where the editor shows the text. */
export async function place(page, text) {
  const found = await page.evaluate((wanted) => {
    for (const line of document.querySelectorAll('.editor-instance .view-line')) {
      const nodes = [];
      const walker = document.createTreeWalker(line, NodeFilter.SHOW_TEXT);
      while (walker.nextNode()) nodes.push(walker.currentNode);
      const shown = nodes.map((node) => node.data).join('');
      const at = shown.replace(/\u00a0/g, ' ').indexOf(wanted);
      if (at < 0) continue;
      const middle = at + Math.floor((wanted.length - 1) / 2);
      let start = 0;
      for (const node of nodes) {
        if (middle < start + node.data.length) {
          const range = document.createRange();
          range.setStart(node, middle - start);
          range.setEnd(node, middle - start + 1);
          const box = range.getBoundingClientRect();
          return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
        }
        start += node.data.length;
      }
    }
    return undefined;
  }, text);
  if (!found) throw new Error(`the editor does not show: ${text}`);
  return found;
}
