// What a hand does in VS Code: commands, places in the editor, the preview. For pictures and for tests of the real thing.

/** The page inside the built-in preview. */
export const frame = (page) => page.frameLocator('iframe.webview.ready').frameLocator('#active-frame');

export async function preview(page, words) {
  await command(page, 'View: Focus First Editor Group');
  await command(page, words);
  await frame(page).locator('.markdown-body').waitFor({ timeout: 30_000 });
  await page.waitForTimeout(1500);
}

export async function command(page, words) {
  await page.keyboard.press('F1');
  const input = page.locator('.quick-input-widget input').first();
  await input.fill(`>${words}`);
  await page.locator('.quick-input-list .monaco-list-row').first().waitFor();
  await page.waitForTimeout(300);
  await page.keyboard.press('Enter');
  await page.waitForTimeout(800);
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
