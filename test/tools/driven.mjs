// Tests of the real thing by hand: VS Code with the extension in a browser page, keys and pointer from outside, what is
// seen read from the page. Used by the tests of this folder whose names begin with test-.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import process from 'node:process';
import { openBrowser, startVSCode } from './vscode.mjs';

export const root = resolve(import.meta.dirname, '../..');

export function same(is, wanted) {
  const [left, right] = [JSON.stringify(is), JSON.stringify(wanted)];
  if (left !== right) throw new Error(`${left} is not ${right}`);
}

/** Asks again until the answer passes; after half a minute, or so many tenths of a second, the last answer is the failure. */
export async function until(ask, passes, turns = 300) {
  let answer;
  for (let i = 0; i < turns; i++) {
    answer = await ask();
    if (passes(answer)) return answer;
    await new Promise((done) => setTimeout(done, 100));
  }
  throw new Error(`still not so: ${JSON.stringify(answer)?.slice(0, 400)}`);
}

/**
 * Runs tests one after the other on one page, if not told otherwise in host `node`, where files are those on disk.
 * `watch` runs in the page before anything of VS Code does.
 * @param {{ title: string, watch?(): void, host?: 'node' | 'web', viewport?: { width: number, height: number }, prepare(folder: string): void, note: string, before?(page: import('playwright-core').Page): Promise<void>,
 *   tests: Record<string, (page: import('playwright-core').Page, folder: string) => Promise<void>> }} what
 * @returns {Promise<{ passed: number, failed: number }>}
 */
export async function driven({
  title,
  host = 'node',
  viewport = { width: 1400, height: 900 },
  prepare,
  note,
  watch,
  before,
  tests,
}) {
  if (title) console.log(`\n${title}:`);
  const folder = mkdtempSync(join(tmpdir(), 'scribeline-'));
  const close = [() => rmSync(folder, { recursive: true, force: true, maxRetries: 5 })];
  const counts = { passed: 0, failed: 0 };
  try {
    prepare(folder);
    const vscode = await startVSCode({ host, extension: root, folder });
    close.push(() => vscode.close());
    const { browser, page } = await openBrowser({ viewport });
    close.push(() => browser.close());
    if (watch) await page.addInitScript(watch);
    await page.goto(vscode.url([['openFile', vscode.fileUri(note)]]));
    await page.locator('.monaco-editor .view-line').first().waitFor({ timeout: 60_000 });
    await before?.(page);
    for (const [name, test] of Object.entries(tests)) {
      try {
        await test(page, folder);
        counts.passed++;
        console.log(`    ✔ ${name}`);
      } catch (error) {
        counts.failed++;
        console.log(`    ✗ ${name}\n      ${String(error).split('\n')[0]}`);
        await page.screenshot({
          path: join(root, `out/pictures/failed-${host}-${note.replaceAll('/', '-')}-${counts.failed}.png`),
        });
      }
    }
  } catch (error) {
    counts.failed++;
    console.log(`    ✗ ${String(error)}`);
  } finally {
    for (const end of close.reverse()) await end();
  }
  return counts;
}

/** The last line of a script, and its exit code. @param {{ passed: number, failed: number }} counts */
export function total({ passed, failed }) {
  console.log(`\n${passed} passed, ${failed} failed`);
  process.exitCode = failed ? 1 : 0;
}
