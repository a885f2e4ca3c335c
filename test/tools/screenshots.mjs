// Pictures of the product in real VS Code, for looking at. The note's folder is copied first, so nothing is changed.
//
//   node test/tools/screenshots.mjs NOTE.md [options]      (after `npm run build`)
//     --theme light,dark,hc,hc-light   one run of the steps for each           default light
//     --host node|web                                                           default node
//     --width 1400  --height 900  --scale 1     in points, and pixels a point
//     --out FOLDER                     default out/pictures (ignored by git)
//     --name WORD                      first word of the pictures' names; default the note's name
//     --settings JSON                  further settings of VS Code
//     --folder FOLDER                  the workspace; default the note's folder
//     --steps 'STEP; STEP; …'          default 'editor; preview'
//
// Steps, done in order. Those marked * write NAME-THEME-N-STEP.png and say where.
//   editor *          the note in the editor, with hints and squiggles drawn
//   shot WORD *       what is there now
//   preview *         the built-in preview beside the editor
//   preview-only *    the built-in preview alone
//   hover TEXT *      the pointer on TEXT in the editor (first place on screen), hover shown
//   complete TEXT *   types TEXT on a new line after the cursor's and asks for completions
//   problems *        the Problems panel
//   outline *         the outline, in the side bar
//   line N            goes to line N
//   click TEXT        the cursor on TEXT
//   type TEXT         types it at the cursor     keys CHORD   such as Control+Shift+k
//   command NAME      runs a command by its name in the palette
//   scroll PIXELS     scrolls the preview        wait MS
//   until TEXT        waits until the editor shows TEXT, such as a result at a line's end
//
// Example: node test/tools/screenshots.mjs examples/ball-on-shank.md --theme light,dark --steps 'editor; hover ring; preview'
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join, relative, resolve } from 'node:path';
import process from 'node:process';
import { parseArgs } from 'node:util';
import { command, frame, place, preview } from './drive.mjs';
import { openBrowser, startVSCode } from './vscode.mjs';

const root = resolve(import.meta.dirname, '../..');
const THEMES = {
  light: 'Default Light Modern',
  dark: 'Default Dark Modern',
  hc: 'Default High Contrast',
  'hc-light': 'Default High Contrast Light',
};
const CALM = {
  'workbench.startupEditor': 'none',
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'workbench.tips.enabled': false,
  'editor.minimap.enabled': false,
  'chat.commandCenter.enabled': false,
  'chat.disableAIFeatures': true,
};

const { values: options, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    theme: { type: 'string', default: 'light' },
    host: { type: 'string', default: 'node' },
    width: { type: 'string', default: '1400' },
    height: { type: 'string', default: '900' },
    scale: { type: 'string', default: '1' },
    out: { type: 'string', default: join(root, 'out/pictures') },
    name: { type: 'string' },
    settings: { type: 'string', default: '{}' },
    folder: { type: 'string' },
    steps: { type: 'string', default: 'editor; preview' },
  },
});
const note = resolve(positionals[0] ?? 'examples/ball-on-shank.md');
const workspace = resolve(options.folder ?? dirname(note));
const name = options.name ?? basename(note, '.md');

async function pictures(theme) {
  if (!(theme in THEMES)) throw new Error(`--theme is one of ${Object.keys(THEMES).join(', ')}`);
  const temporary = mkdtempSync(join(tmpdir(), 'scribeline-'));
  const folder = join(temporary, basename(workspace));
  const close = [() => rmSync(temporary, { recursive: true, force: true, maxRetries: 5 })];
  try {
    prepare(folder, theme);
    const vscode = await startVSCode({ host: options.host, extension: root, folder });
    close.push(() => vscode.close());
    const { browser, page } = await openBrowser({
      viewport: { width: Number(options.width), height: Number(options.height) },
      deviceScaleFactor: Number(options.scale),
      colorScheme: theme === 'dark' || theme === 'hc' ? 'dark' : 'light',
    });
    close.push(() => browser.close());
    await page.goto(vscode.url([['openFile', vscode.fileUri(relative(workspace, note))]]));
    await page.locator('.monaco-editor .view-line').first().waitFor({ timeout: 60_000 });
    // The extension starts, reads the note and answers; a note without figures has nothing in the status bar to tell it by.
    const ours = page.locator('.statusbar-item[id$="scribeline.findings"]');
    await ours.waitFor({ timeout: 15_000 }).catch(() => {});
    await page.waitForTimeout(2000);
    await walk(page, theme);
  } finally {
    for (const end of close.reverse()) await end();
  }
}

function prepare(folder, theme) {
  const small = (path) => !/[\\/](node_modules|\.git|dist)([\\/]|$)/.test(relative(workspace, path));
  cpSync(workspace, folder, { recursive: true, filter: small });
  const file = join(folder, '.vscode/settings.json');
  const old = existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : {};
  const settings = {
    ...old,
    ...CALM,
    'workbench.colorTheme': THEMES[theme],
    ...JSON.parse(options.settings),
  };
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, JSON.stringify(settings));
}

async function walk(page, theme) {
  mkdirSync(options.out, { recursive: true });
  let count = 0;
  const shot = async (word) => {
    const path = join(options.out, `${name}-${theme}-${++count}-${word.replace(/\W+/g, '-')}.png`);
    await page.screenshot({ path });
    console.log(relative(process.cwd(), path));
  };
  for (const step of options.steps.split(';').map((words) => words.trim())) {
    const [, verb = '', rest = ''] = /^(\S+)\s*(.*)$/.exec(step) ?? [];
    if (!Object.hasOwn(STEPS, verb)) throw new Error(`no such step: ${step}`);
    try {
      const word = await STEPS[verb](page, rest);
      if (word) await shot(word);
    } catch (error) {
      console.error(`step failed: ${step}: ${String(error).split('\n')[0]}`);
      process.exitCode = 1;
      await shot(`failed-${verb}`);
    }
  }
}

const isShown = (page, text) =>
  place(page, text).then(
    () => true,
    () => false,
  );

/** Each does one thing and gives the picture's word, or nothing for no picture. */
const STEPS = {
  editor: async () => 'editor',
  shot: async (_page, word) => word || 'shot',
  preview: async (page) => (await preview(page, 'Markdown: Open Preview to the Side'), 'preview'),
  'preview-only': async (page) => (await preview(page, 'Markdown: Open Preview'), 'preview'),
  hover: async (page, text) => {
    const { x, y } = await place(page, text);
    await page.mouse.move(x - 40, y, { steps: 3 });
    await page.mouse.move(x, y, { steps: 5 });
    await page.locator('.monaco-hover:not(.hidden)').first().waitFor({ timeout: 10_000 });
    await page.waitForTimeout(800);
    return `hover-${text}`;
  },
  complete: async (page, text) => {
    await page.keyboard.press('Control+Enter');
    await page.keyboard.type(text, { delay: 30 });
    await page.keyboard.press('Control+Space');
    await page.locator('.suggest-widget.visible').waitFor({ timeout: 10_000 });
    await page.waitForTimeout(500);
    return `complete-${text}`;
  },
  problems: async (page) => {
    await command(page, 'Problems: Focus on Problems View');
    return 'problems';
  },
  outline: async (page) => {
    await command(page, 'Explorer: Focus on Outline View');
    return 'outline';
  },
  line: async (page, number) => {
    await page.keyboard.press('Control+g');
    await page.keyboard.type(number);
    await page.keyboard.press('Enter');
    await page.waitForTimeout(500);
  },
  click: async (page, text) => {
    const { x, y } = await place(page, text);
    await page.mouse.click(x, y);
  },
  type: async (page, text) => {
    await page.keyboard.type(text, { delay: 20 });
    await page.waitForTimeout(700);
  },
  keys: async (page, chord) => {
    for (const key of chord.split(' ')) await page.keyboard.press(key);
    await page.waitForTimeout(500);
  },
  command: (page, words) => command(page, words),
  scroll: async (page, pixels) => {
    await frame(page)
      .locator('body')
      .evaluate((_body, y) => globalThis.scrollBy(0, y), Number(pixels));
    await page.waitForTimeout(500);
  },
  wait: (page, ms) => page.waitForTimeout(Number(ms)),
  until: async (page, text) => {
    for (let turn = 0; turn < 300 && !(await isShown(page, text)); turn++) await page.waitForTimeout(100);
    await place(page, text);
  },
};

for (const theme of options.theme.split(',')) await pictures(theme);
