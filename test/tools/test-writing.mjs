// Writing by hand in real VS Code: the status bar, a new job by its questions, a reading with its verdict, and how it feels
// to type in a note of a thousand lines. What is measured is printed, and nothing is asserted about time.
//   node test/tools/test-writing.mjs      (after `npm run build`); part of npm test
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { command, place } from './drive.mjs';
import { driven, root, same, total, until } from './driven.mjs';

const FENCE = '```';
const block = (lines) => [`${FENCE}figures`, ...lines, FENCE, ''].join('\n');

const SLIPS = `# Slips\n\n${block(['a = 30 mm ± 0.1', 'b = a + 2', 'c = 1-3/8 in', 'n = 5 mm', 'n_2 = 7 mm', 'd = 1 in to mm'])}`;
const PLAIN = '# Words only\n\nNothing to work out.\n';
const TOLD = `# Told\n\n${block(['rise = sine_rise(30°, 100 mm)'])}`;
const READ = `# To be read\n\n${block(['neck = 12 mm ± 0.02 shaft'])}`;

/** The figure that is typed in, lines that follow it and lines that do not. */
const FIRST = 2;
const LINES = 1000;
const long = block([
  'a = 1 mm',
  ...Array.from({ length: LINES - 1 }, (_, i) =>
    i % 2 === 0 ? `b${i} = a + ${i} mm` : `c${i} = 2 mm + ${i} mm`,
  ),
]);

const shownLines = (page) =>
  page
    .locator('.editor-instance .view-line')
    .evaluateAll((all) => all.map((each) => (each.textContent ?? '').replace(/\u00a0/g, ' ')));

async function openNote(page, name) {
  await page.keyboard.press('Control+p');
  const input = page.locator('.quick-input-widget input').first();
  await input.fill(name);
  await page.locator('.quick-input-list .monaco-list-row.focused', { hasText: name }).waitFor();
  await page.waitForTimeout(300);
  await page.keyboard.press('Enter');
  await page.locator('.tab.active', { hasText: name }).waitFor({ timeout: 10_000 });
}

async function goTo(page, line, column) {
  await page.keyboard.press('Control+g');
  await page.locator('.quick-input-widget input').first().fill(`:${line}:${column}`);
  await page.keyboard.press('Enter');
  await cursorAt(page, line, column);
}

const cursorAt = (page, line, column) =>
  page.locator('.statusbar-item', { hasText: `Ln ${line}, Col ${column}` }).waitFor({ timeout: 10_000 });

/** The texts of our item in the status bar; none when it is not there. */
const status = (page) =>
  page
    .locator('.statusbar-item[id$="scribeline.findings"]')
    .evaluateAll((all) => all.map((each) => `${each.getAttribute('aria-label') ?? each.textContent}`));
const statusIs = (page, wanted) =>
  until(
    () => status(page),
    (found) => (wanted === null ? found.length === 0 : found.length === 1 && found[0].includes(wanted)),
  );

/** Answers the box or list that stands open: words are typed, and Enter takes what is first. */
async function answer(page, title, typed) {
  await page
    .locator('.quick-input-widget .quick-input-title', { hasText: title })
    .waitFor({ timeout: 10_000 });
  const input = page.locator('.quick-input-widget input[type="text"]').first();
  await input.fill(typed);
  await page.waitForTimeout(300);
  await page.keyboard.press('Enter');
}

const KINDS = [
  ['ball', 'Ball on a shank', /ball_on_shank\(/],
  ['turned', 'Turned shaft', /figures on lathe/],
  ['indexed', 'Indexed part', /indexing|plain_indexing|head/],
  ['empty', 'Empty', /figures/],
];

/** Findings of a note by the command line, in the words it prints; it ends with 1 where there is an error. */
function check(folder, note) {
  const words = [join(root, 'dist/cli/scribeline.js'), 'check', join(folder, note), '--json'];
  const { stdout, status: code } = spawnSync(process.execPath, words, { cwd: folder, encoding: 'utf8' });
  const { notes } = JSON.parse(stdout);
  return {
    code,
    findings: notes.flatMap(({ findings }) => findings.map((each) => each.code)),
    values: notes[0]?.values,
  };
}

const settingsOf = (folder) => join(folder, '.vscode/settings.json');
function layout(folder, path) {
  const settings = JSON.parse(readFileSync(settingsOf(folder), 'utf8'));
  writeFileSync(settingsOf(folder), JSON.stringify({ ...settings, 'scribeline.jobs.path': path }));
}

/* global document, requestAnimationFrame, addEventListener -- run in the page */
/** Looks at every frame from now on: when a key was pressed, which lines stood there and where the caret was. */
function watch() {
  const seen = { keys: [], frames: [] };
  globalThis.seen = seen;
  addEventListener('keydown', () => seen.keys.push(performance.now()), { capture: true });
  const look = () => {
    const lines = [...document.querySelectorAll('.editor-instance .view-line')].map((each) =>
      (each.textContent ?? '').replace(/\u00a0/g, ' '),
    );
    const caret = document.querySelector('.editor-instance .cursor');
    const marks = document.querySelectorAll('.editor-instance .squiggly-error').length;
    seen.frames.push({ at: performance.now(), lines, caret: caret?.style.left ?? '', marks });
    globalThis.looking = requestAnimationFrame(look);
  };
  globalThis.looking = requestAnimationFrame(look);
}
const unwatch = (page) =>
  page.evaluate(() => {
    globalThis.cancelAnimationFrame(globalThis.looking);
    return globalThis.seen;
  });

/** From the page's first moment: when the note's text stood there, when VS Code's grammar had coloured it, and the first result. */
function watchStart() {
  if (globalThis.top !== globalThis) return;
  const first = {};
  globalThis.first = first;
  const look = () => {
    const lines = [...document.querySelectorAll('.editor-instance .view-line')];
    if (lines.some((line) => line.textContent)) first.text ??= performance.now();
    if (lines.some((line) => line.querySelector('[class*="mtk"]:not(.mtk1)')))
      first.colours ??= performance.now();
    if (lines.some((line) => /to.mm\s+=\s25\.4\smm$/.test(line.textContent ?? '')))
      first.result ??= performance.now();
    if (first.result === undefined) requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}

const median = (numbers) => [...numbers].sort((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? NaN;
const told = (numbers) =>
  `median ${Math.round(median(numbers))} ms, worst ${Math.round(Math.max(...numbers))} ms of ${numbers.length}`;

const TESTS = {
  "the first result is told beside the first colours of VS Code's own grammar": async (page) => {
    const { text, colours, result } = await until(
      () => page.evaluate(() => globalThis.first),
      (first) => first.result !== undefined && first.colours !== undefined,
      600,
    );
    const after = (time) => `${Math.round(time - text)} ms`;
    console.log(
      `      after the text: colours of VS Code's grammar ${after(colours)}, first result ${after(result)}; ` +
        `from the page's start ${Math.round(result)} ms, ${(result / colours).toFixed(2)} × the colours`,
    );
  },
  'the status bar counts errors and warnings of the note at hand': async (page) => {
    await statusIs(page, '2 errors, 0 warnings');
    await goTo(page, 5, 10);
    await page.keyboard.type(' mm');
    await page.keyboard.press('Escape');
    await statusIs(page, '1 errors, 0 warnings');
    await page.keyboard.press('Control+z');
    await statusIs(page, '2 errors, 0 warnings');
  },
  'and goes away with the last job note': async (page) => {
    await openNote(page, 'words.md');
    await statusIs(page, null);
    await openNote(page, 'slips.md');
    await statusIs(page, '2 errors');
    await openNote(page, 'read.md');
    await statusIs(page, '0 errors, 0 warnings');
    await command(page, 'View: Close All Editors');
    await statusIs(page, null);
  },
  'a screen reader is told the findings in words, and a line with its result and the names of its arguments':
    async (page) => {
      await openNote(page, 'told.md');
      await until(
        () => status(page),
        (found) => found.join() === 'Job note: 0 errors, 0 warnings, 0 remarks',
      );
      await until(
        () => shownLines(page),
        (lines) => lines.some((line) => line.endsWith('= 50 mm')), // half the length: the sine of 30° is 1/2
      );
      await goTo(page, 4, 1);
      await command(page, 'Read Line with Inlay Hints');
      await until(
        () => page.locator('.inlayhint-accessibility-element').innerText(),
        (text) => text.replace(/\s+/g, ' ') === 'rise = sine_rise(tilt:30°, length:100 mm) = 50 mm',
      );
      await page.keyboard.press('Escape');
      const { x, y } = await place(page, '= 50 mm');
      await page.mouse.move(x - 40, y + 200);
      await page.mouse.move(x, y, { steps: 5 });
      await page.locator('.monaco-hover:not(.hidden)', { hasText: 'rise = 50 mm' }).first().waitFor();
      await page.mouse.move(x - 40, y + 200);
    },
  'a click on it shows the findings': async (page) => {
    await openNote(page, 'slips.md');
    await statusIs(page, '2 errors');
    await page.locator('.statusbar-item[id$="scribeline.findings"]').click();
    await page.locator('.markers-panel .monaco-list-row', { hasText: '1-3/8' }).first().waitFor();
    await command(page, 'View: Hide Panel');
  },
  ...Object.fromEntries(
    KINDS.map(([kind, label, holds], i) => [
      `a new job, ${label.toLowerCase()}, asks its questions and is a note that checks, where the setting says`,
      async (page, folder) => {
        layout(folder, i < 2 ? 'jobs/${year}/${number}-${part}.md' : 'orders/${number}/${part}-${year}.md');
        await page.waitForTimeout(1500);
        await command(page, 'Scribeline: New Job…');
        await answer(page, 'customer', 'Ostley Ferry Trust');
        await answer(page, 'part', `Lever, ${kind}`);
        await answer(page, 'material', 'steel_C45');
        await answer(page, 'machine', i === 0 ? 'mill' : 'lathe');
        await answer(page, 'kind of work', label);
        const [year, number] = [new Date().getFullYear(), String(i + 1).padStart(4, '0')];
        const path =
          i < 2 ? `jobs/${year}/${number}-lever-${kind}.md` : `orders/${number}/lever-${kind}-${year}.md`;
        // A file is there a moment before its text is.
        const text = await until(
          () => (existsSync(join(folder, path)) ? readFileSync(join(folder, path), 'utf8') : ''),
          (written) => written !== '',
        );
        for (const part of [
          'customer: Ostley Ferry Trust',
          `part: Lever, ${kind}`,
          'material: steel_C45',
          holds,
        ])
          if (!(part instanceof RegExp ? part.test(text) : text.includes(part)))
            throw new Error(`no ${part} in ${text}`);
        const { code, findings, values } = check(folder, path);
        same([code, findings], [0, []]);
        same(
          values.length > 0 && values.every(({ value, kind: of }) => value !== null || of === 'text'),
          true,
        );
        await page.locator('.tab.active', { hasText: path.split('/').pop() }).waitFor();
        await statusIs(page, '0 errors, 0 warnings');
      },
    ]),
  ),
  'a new job that is given up writes nothing': async (page, folder) => {
    await command(page, 'Scribeline: New Job…');
    await answer(page, 'customer', 'Ostley Ferry Trust');
    await page.locator('.quick-input-title', { hasText: 'part' }).waitFor();
    await page.keyboard.press('Escape');
    await page.waitForTimeout(500);
    same(existsSync(join(folder, `orders/0005`)), false);
    same(await page.locator('.quick-input-widget:visible').count(), 0);
  },
  'a reading is asked for, judged at every key, written in place and taken back by one undo': async (
    page,
  ) => {
    await openNote(page, 'read.md');
    await page.locator('.editor-instance .view-lines').first().click();
    const before = await shownLines(page);
    await page.keyboard.press('Alt+m');
    await page.locator('.quick-input-list .monaco-list-row', { hasText: 'neck' }).waitFor();
    await page.keyboard.press('Enter');
    await page.locator('.quick-input-list .monaco-list-row', { hasText: 'measured' }).waitFor();
    await page.keyboard.press('Enter');
    await page.locator('.quick-input-title', { hasText: 'neck measured' }).waitFor();
    const said = (wanted) =>
      until(
        () => page.locator('.quick-input-message').innerText(),
        (found) => found.includes(wanted),
      );
    const input = page.locator('.quick-input-widget input').first();
    for (const [typed, verdict] of [
      ['12.32', '0.3 mm left, 0.15 on radius'],
      ['12.01', 'inside'],
      ['11.9', 'too small'],
      ['11,98', '11.98'],
      ['12.32', '0.3 mm left'],
    ]) {
      await input.fill(typed);
      await said(verdict);
    }
    await page.keyboard.press('Enter');
    await until(
      () => shownLines(page),
      (lines) => lines.some((line) => line.startsWith('neck measured 12.32 mm')),
    );
    await page.keyboard.press('Control+z');
    await until(
      () => shownLines(page),
      (lines) => JSON.stringify(lines) === JSON.stringify(before),
    );
  },
  'typing in a note of a thousand lines: nothing flickers, the cursor stays, and the last key wins': async (
    page,
  ) => {
    await openNote(page, 'long.md');
    await until(
      () => shownLines(page),
      (lines) => lines.some((line) => /^b0 = a \+ 0 mm\s+= 1 mm$/.test(line)),
    );
    await goTo(page, FIRST, 6);
    await page.evaluate(watch);
    let value = '1';
    const moved = [];
    for (const key of [
      '2',
      '3',
      'Backspace',
      '4',
      'Backspace',
      '5',
      '6',
      'Backspace',
      'Backspace',
      '7',
      '8',
      '9',
    ]) {
      await page.keyboard.press(key);
      value = key === 'Backspace' ? value.slice(0, -1) : value + key;
      await cursorAt(page, FIRST, 5 + value.length);
      await until(
        () => shownLines(page),
        (lines) => lines.some((line) => new RegExp(`^b0 = a \\+ 0 mm\\s+= ${value} mm$`).test(line)),
      );
      moved.push(value);
      await page.waitForTimeout(250);
    }
    const seen = await unwatch(page);
    const waits = moved.map((wanted, i) => {
      const shown = seen.frames.find(
        ({ at, lines }) =>
          at >= seen.keys[i] &&
          lines.some((line) => line.startsWith('b0 = ') && line.endsWith(`= ${wanted} mm`)),
      );
      return (shown?.at ?? Infinity) - seen.keys[i];
    });
    console.log(`      from the key to the results on screen, 500 of 1,000 lines following: ${told(waits)}`);
    // Lines that the edit says nothing about keep their result in every frame; the others have one, old or new.
    const rows = (lines) => lines.filter((line) => /^[bc]\d/.test(line));
    const without = seen.frames.filter(({ lines }) => rows(lines).some((line) => !/\s= \d+ mm$/.test(line)));
    same(
      without.map(({ lines }) => rows(lines).find((line) => !/\s= \d+ mm$/.test(line))),
      [],
    );
    const still = new Set(
      seen.frames.map(({ lines }) => lines.filter((line) => /^c\d/.test(line)).join('\n')),
    );
    same(still.size, 1);
    // A key moves the caret once, and what arrives after it never does.
    for (const [i, from] of seen.keys.entries()) {
      const next = seen.keys[i + 1] ?? Infinity;
      const places = seen.frames.flatMap(({ at, caret }) => (at > from && at < next ? [caret] : []));
      const moves = places.filter((place, n) => n > 0 && place !== places[n - 1]).length;
      same(moves <= 1, true);
    }
  },
  'and findings come and go': async (page) => {
    await page.evaluate(watch);
    const waits = [];
    await page.keyboard.press('End');
    for (let i = 0; i < 6; i++) {
      const errors = i % 2 === 0;
      const { length } = (await page.evaluate(() => globalThis.seen)).keys;
      await page.keyboard.press(errors ? '+' : 'Backspace');
      await until(
        () => page.locator('.editor-instance .squiggly-error').count(),
        (count) => count > 0 === errors,
      );
      await page.waitForTimeout(200); // the frame that shows it is noted too
      const { keys, frames } = await page.evaluate(() => globalThis.seen);
      waits.push(frames.find(({ at, marks }) => at > keys[length] && marks > 0 === errors).at - keys[length]);
    }
    await unwatch(page);
    console.log(`      from the key to the findings on screen, 150 ms of pause in it: ${told(waits)}`);
  },
  'keys in quick succession end in what the last one says': async (page) => {
    await goTo(page, FIRST, 5);
    await page.keyboard.press('Shift+End');
    await page.keyboard.type('31 mm', { delay: 0 });
    await page.keyboard.press('Escape');
    await until(
      () => shownLines(page),
      (lines) => lines.some((line) => /^b0 = a \+ 0 mm\s+= 31 mm$/.test(line)),
    );
    await page.waitForTimeout(1000);
    const lines = await shownLines(page);
    same(
      lines.filter((line) => /^b[024] /.test(line)).map((line) => /\d+ mm$/.exec(line)?.[0]),
      ['31 mm', '33 mm', '35 mm'],
    );
  },
  "activation is told beside that of VS Code's own markdown extension": async (page) => {
    await command(page, 'Developer: Show Running Extensions');
    const rows = page.locator('.runtime-extensions-editor .monaco-list-row');
    await rows.first().hover();
    const times = new Map(); // the list holds the rows in view only
    await until(
      async () => {
        for (const text of await rows.allTextContents()) {
          const name = /^(?:scribeline|markdown language features)/i.exec(text)?.[0].toLowerCase();
          const time = /Activation:\s*(\d+)\s*ms/.exec(text)?.[1];
          if (name && time) times.set(name, Number(time));
        }
        await page.mouse.wheel(0, 150);
        return times.size;
      },
      (found) => found === 2,
    );
    const [own, theirs] = [times.get('scribeline'), times.get('markdown language features')];
    console.log(
      `      activation: ${own} ms, that of VS Code's markdown ${theirs} ms: ${(own / theirs).toFixed(2)} ×`,
    );
  },
};

function testWriting() {
  return driven({
    title: 'Writing by hand',
    prepare: (folder) => {
      cpSync(join(root, 'examples/shop.md'), join(folder, 'shop.md'));
      const notes = {
        'slips.md': SLIPS,
        'words.md': PLAIN,
        'read.md': READ,
        'told.md': TOLD,
        'long.md': long,
      };
      for (const [name, text] of Object.entries(notes)) writeFileSync(join(folder, name), text);
      mkdirSync(join(folder, '.vscode'));
      writeFileSync(
        settingsOf(folder),
        JSON.stringify({ 'workbench.startupEditor': 'none', 'files.autoSave': 'off' }),
      );
    },
    note: 'slips.md',
    watch: watchStart,
    tests: TESTS,
  });
}

total(await testWriting());
