// Past jobs by hand in real VS Code: every command, its lists, questions and the jobs view, with a keyboard and a pointer, on
// a folder of nineteen jobs; then a folder without any, and a large one whose first reading is ended half-way.
//   node test/tools/test-jobs.mjs [web] [node] [/WORDS/]      (after `npm run build`); part of npm run test:vscode
//     only these hosts; only the tests whose names match. A failed one leaves a picture in out/pictures.
// In the web host what is saved stays in the page, so what others do to files is tried in the Node host.
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { command as commandAndRest, place } from './drive.mjs';
import { driven, same, total, until } from './driven.mjs';
import { exampleJobs, shop } from './example-jobs.mjs';

const CALM = { 'workbench.startupEditor': 'none', 'chat.disableAIFeatures': true, 'files.autoSave': 'off' };

const fail = (words) => {
  throw new Error(words);
};
const includes = (text, part) => text.includes(part) || fail(`${JSON.stringify(text)} has no ${part}`);

/** What a command does is waited for. */
const command = (page, name) => commandAndRest(page, name, 0);

const words = (text) => text.replace(/[\u00a0\s]+/g, ' ').trim();

// What is on the screen.
const textsOf = async (locator) => (await locator.allTextContents()).map(words);
/** The lines of the editor in front, as far as they are in view. */
const shown = async (page) => {
  const lines = await page.locator('.editor-group-container.active .view-line').evaluateAll((all) =>
    all
      .map((line) => [Number.parseInt(line.style.top, 10), line.textContent])
      .sort(([a], [b]) => a - b)
      .map(([, text]) => text),
  );
  return lines.map((line) => line.replaceAll('\u00a0', ' ')).join('\n');
};
const tab = (page) =>
  page.locator('.editor-group-container.active .tab.active').first().getAttribute('aria-label');
const picks = (page) => page.locator('.quick-input-widget .quick-input-list .monaco-list-row');
/** The labels of the list's rows, without what stands below them. */
const pickLabels = async (page) => {
  const names = page.locator('.quick-input-widget .quick-input-list .label-name');
  const all = await names.evaluateAll((them) =>
    them.filter((it) => !it.closest('.quick-input-list-label-meta')).map((it) => it.textContent),
  );
  return all.map(words);
};
const question = (page) =>
  page.locator('.quick-input-widget input[type="text"], .quick-input-widget input.input').first();

/** The rows of the jobs view from the top: name, what stands behind it, the badge at the end. */
function rows(page) {
  return page.locator('.pane-body .monaco-list-row').evaluateAll((all) =>
    all
      .map((row) => {
        const of = (selector) => row.querySelector(selector)?.textContent?.replace(/[\u00a0\s]+/g, ' ') ?? '';
        const label = row.querySelector('.monaco-icon-label');
        const badge = label
          ? globalThis.getComputedStyle(label, '::after').content.replace(/^"|"$|^none$|^normal$/g, '')
          : '';
        return {
          top: Number.parseInt(row.style.top, 10),
          level: Number(row.getAttribute('aria-level')),
          name: of('.label-name'),
          more: of('.label-description'),
          badge,
        };
      })
      .sort((a, b) => a.top - b.top)
      .map(({ level, name, more, badge }) => ({ level, name, more, badge })),
  );
}
const groups = async (page) => (await rows(page)).filter(({ level }) => level === 1);
const row = (page, name) => page.locator('.pane-body .monaco-list-row', { hasText: name }).first();

async function pickNow(page, typed) {
  await question(page).waitFor();
  await until(
    async () => {
      await question(page).fill(typed);
      return (await textsOf(picks(page)))[0] ?? '';
    },
    (first) => first.includes(typed),
  );
  await page.keyboard.press('Enter');
}

async function groupBy(page, name) {
  await page
    .locator(
      '.pane-header .action-label[aria-label^="Group the Jobs"], .title-actions .action-label[aria-label^="Group the Jobs"]',
    )
    .first()
    .click();
  await pickNow(page, name);
}

async function find(page, query) {
  await page.keyboard.press('Escape');
  await command(page, 'Scribeline: Find Past Jobs');
  const box = page.locator('.quick-input-widget input[placeholder^="Words and conditions"]');
  await box.waitFor();
  await box.fill(query);
}

/** Asks, and waits for these answers; they follow whatever becomes known. */
async function finds(page, query, passes) {
  await find(page, query);
  return until(() => pickLabels(page), passes);
}

async function fromRow(page, name, action) {
  await command(page, 'Scribeline: Focus on Jobs View');
  await row(page, name).click({ button: 'right' });
  await page.waitForTimeout(500); // a click right behind the first is taken for a part of it
  await page
    .locator('.context-view .action-item, .monaco-menu .action-item', { hasText: action })
    .first()
    .click();
}

/** By its row in the jobs view; the shop file, which is no job, by the explorer. */
async function openNote(page, name) {
  await page.keyboard.press('Escape');
  if (name === 'shop.md') {
    await command(page, 'File: Focus on Files Explorer');
    await page.locator('.explorer-folders-view .monaco-list-row', { hasText: name }).first().click();
  } else {
    await command(page, 'Scribeline: Focus on Jobs View');
    await row(page, name.replace('.md', '')).click();
  }
  await until(
    () => tab(page),
    (label) => label?.includes(name),
  );
  await until(
    () => shown(page),
    (text) => text.includes('```'),
  );
}

async function closeAll(page) {
  await page.keyboard.press('Escape');
  await page.keyboard.press('Escape');
  const tabs = page.locator('.tabs-container .tab');
  for (let open = await tabs.count(); open > 0; open = await tabs.count()) {
    await command(page, 'View: Revert and Close Editor');
    await until(
      () => tabs.count(),
      (is) => is < open,
    );
  }
  await command(page, 'Notifications: Clear All Notifications');
}

/** Rests the pointer on a figure until the hover says what is known of it from past jobs. */
async function hoverOver(page, text) {
  const hover = page.locator('.monaco-hover:not(.hidden)', { hasText: 'Last time' }).first();
  await until(
    async () => {
      const { x, y } = await place(page, text);
      await page.mouse.move(x - 60, y + 200);
      // One that stands there still would be taken for what comes now.
      await hover.waitFor({ state: 'hidden' });
      await page.mouse.move(x - 30, y, { steps: 5 });
      return hover.waitFor({ timeout: 3000 }).then(
        () => true,
        () => false,
      );
    },
    (is) => is,
    5,
  );
  return hover;
}

/** Puts other words in the place of a word or number of the note in front. */
async function replace(page, text, by) {
  const { x, y } = await place(page, text);
  await page.mouse.dblclick(x, y);
  await page.keyboard.type(by);
}

const head = (text, field) => new RegExp(`^${field}: (.*)$`, 'm').exec(text)?.[1] ?? '';
const jobsOf = (notes) => [...notes].filter(([path]) => path.startsWith('jobs/')).map(([, text]) => text);
/** How often each, as a list of a view is read. */
const tally = (names) => {
  const counted = new Map();
  for (const name of names) counted.set(name, (counted.get(name) ?? 0) + 1);
  return [...counted].sort(([a], [b]) => (a < b ? -1 : 1));
};

const JOBS = {
  'the view lists jobs by customer, with counts of jobs and findings': async ({ page, notes }) => {
    await command(page, 'Scribeline: Focus on Jobs View');
    const all = await until(
      () => groups(page),
      ({ length }) => length === 6,
    );
    same(
      all.map(({ name, more }) => [name, Number.parseInt(more, 10)]),
      tally(jobsOf(notes).map((text) => head(text, 'customer'))),
    );
    same(all.find(({ name }) => name === 'Hallow Mill')?.more, '3 · 2 errors');
    const faulty = await until(
      async () => (await rows(page)).find(({ name }) => name.startsWith('9004')),
      (is) => is?.badge === '2',
    );
    includes(faulty?.more ?? '', '2 errors');
    same((await rows(page)).filter(({ level, badge }) => level === 2 && badge === '').length, 18);
    // What a screen reader says of a row: the counts in words, not by the badge's colour.
    const said = await row(page, '9004').getAttribute('aria-label');
    for (const part of ['9004', 'Stub shaft', '2 errors', 'planned']) includes(said ?? '', part);
    includes((await row(page, 'Hallow Mill').getAttribute('aria-label')) ?? '', '3 · 2 errors');
  },
  'and by status, by month with the latest first, and by findings': async ({ page, notes }) => {
    await groupBy(page, 'By status');
    await until(
      async () => (await groups(page)).map(({ name, more }) => [name, Number.parseInt(more, 10)]),
      (is) => JSON.stringify(is) === JSON.stringify(tally(jobsOf(notes).map((text) => head(text, 'status')))),
    );
    await groupBy(page, 'By due date');
    const months = tally(jobsOf(notes).map((text) => `Due ${head(text, 'due').slice(0, 7)}`));
    await until(
      async () => (await groups(page)).map(({ name, more }) => [name, Number.parseInt(more, 10)]),
      (is) => is.length > 5 && JSON.stringify(is) === JSON.stringify(months.reverse().slice(0, is.length)),
      30,
    );
    await groupBy(page, 'By findings');
    await until(
      async () => (await groups(page)).map(({ name, more }) => `${name} ${more}`),
      (is) => is.join('; ') === 'With errors 1 · 2 errors; Nothing found 18',
      30,
    );
    await groupBy(page, 'By customer');
    await until(
      () => groups(page),
      ({ length }) => length === 6,
    );
  },
  'a row opens its note': async ({ page }) => {
    await row(page, '9002 Hinge pin').click();
    await until(
      () => shown(page),
      (text) => text.includes('# Hinge pin of 18 mm'),
    );
  },
  'a row repeats its job: the number is asked for, and none is no number': async ({ page }) => {
    await fromRow(page, '9002 Hinge pin', 'Repeat');
    await question(page).waitFor();
    await page.keyboard.type(' ');
    await page.keyboard.press('Enter');
    await page.locator('.quick-input-message', { hasText: 'needs a number' }).waitFor();
    await question(page).fill('9102');
    await page.keyboard.press('Enter');
    const text = await until(
      () => shown(page),
      (is) => is.includes('repeat_of: 9002'),
    );
    for (const part of [
      'job: 9102',
      'status: planned',
      '- Lesson: the thin end whips',
      'speed = 300 rpm',
      '# used in 9002: the thin end whips',
    ])
      includes(text, part);
    if (/ final |due:/.test(text)) fail('what was read last time stands in the repeat');
  },
  'a row is compared with a job from a list, which does not offer the job itself': async ({ page }) => {
    await fromRow(page, '9002 Hinge pin', 'Compare');
    await question(page).waitFor();
    await question(page).fill('Hinge');
    await until(
      () => pickLabels(page),
      (is) => is.sort().join('; ') === '9001 Hinge pin of 16 mm; 9003 Hinge pin of 20 mm',
    );
    await pickNow(page, '9003');
    const text = await until(
      () => shown(page),
      (is) => is.includes('## Different'),
    );
    for (const part of ['| speed | 300 rpm | 190 rpm | −110 rpm |', '| due | 2026-02-20 | 2026-03-20 |'])
      includes(text.replace(/ +/g, ' '), part);
  },
  'a row writes its sheet, asking what kind and where, and shows it in the explorer': async ({
    page,
    disk,
    host,
  }) => {
    await fromRow(page, '9002 Hinge pin', 'Sheet');
    await pickNow(page, 'Sheet to fill in');
    await until(
      () => question(page).inputValue(),
      (is) => is.endsWith('9002.sheet.html'),
    );
    await page.keyboard.press('Enter');
    const told = page.locator('.notification-list-item', { hasText: '9002.sheet.html is written' });
    await told.waitFor({ timeout: 10_000 });
    // In a browser nothing can open a file of the machine behind it.
    await told.locator('.monaco-button', { hasText: 'Show in Explorer' }).click();
    await page
      .locator('.explorer-folders-view .monaco-list-row.selected', { hasText: '9002.sheet.html' })
      .waitFor({ timeout: 10_000 });
    if (host === 'node') includes(disk.read('jobs/9002.sheet.html'), 'Hinge pin of 18 mm');
  },
  'finding answers best first, in any unit, and opens the line that says it': async ({ page }) => {
    // By hand: 18 mm is 0.7087 in, 20 mm 0.7874 in, 16 mm 0.6299 in.
    await finds(
      page,
      'pin 0.7 in .. 0.8 in',
      (is) => is.join('; ') === '9003 Hinge pin of 20 mm; 9002 Hinge pin of 18 mm',
    );
    includes((await textsOf(picks(page)))[0] ?? '', 'pin 20 mm');
    // One word: the later due before the earlier, whatever their numbers are.
    await finds(
      page,
      'hinge',
      (is) =>
        is.slice(0, 3).join('; ') ===
        [20, 18, 16].map((d, i) => `900${3 - i} Hinge pin of ${d} mm`).join('; '),
    );
    await finds(page, 'used speed = 300 rpm, customer: fennick', (is) => is[0] === '9002 Hinge pin of 18 mm');
    await page.keyboard.press('Enter');
    await page.locator('.statusbar-item', { hasText: 'Ln 16,' }).waitFor({ timeout: 10_000 });
    includes(await tab(page), '9002.md');
    await finds(
      page,
      'span > 4 m',
      (is) => is.join() === 'No job of 20 fits.' || is.join() === 'No job of 21 fits.',
    );
  },
  'a query that cannot be read says why and offers one that can': async ({ page }) => {
    const says = await finds(page, 'ball > rough', (is) => is[0]?.includes('rough is no value'));
    same(says.length, 2);
    same(says[1], 'ball 20 mm .. 25 mm, used speed > 1000 rpm');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await until(
      () => question(page).inputValue(),
      (is) => is === says[1],
    );
    same((await pickLabels(page)).length >= 1, true);
    await finds(page, 'colour: red', (is) => is[0]?.includes('colour: is no field of a job'));
    await finds(page, 'due < yesterday', (is) => is[0]?.includes('A date is written 2026-12-31'));
    await page.keyboard.press('Escape');
  },
  'last time is asked for the figure at the cursor, and for a whole block': async ({ page }) => {
    await closeAll(page);
    await openNote(page, '9001.md');
    const { x, y } = await place(page, 'speed = 475');
    await page.mouse.click(x, y);
    await command(page, 'Scribeline: What Was Used Last Time?');
    const all = await until(
      () => textsOf(picks(page)),
      ({ length }) => length > 2,
    );
    // Same material, customer and part before others; of two such the newer.
    includes(all[0], '190 rpmslow, as planned');
    includes(all[1], '300 rpmthe thin end whips');
    includes(all[0], '9003 · Hinge pin of 20 mm · Fennick Locks · 2026-03-20 · same material');
    await pickNow(page, 'whips');
    await until(
      () => tab(page),
      (label) => label?.includes('9002.md'),
    );
    await page.locator('.statusbar-item', { hasText: 'Ln 16,' }).waitFor({ timeout: 10_000 });
    const fence = await place(page, 'figures on');
    await page.mouse.click(fence.x, fence.y);
    await command(page, 'Scribeline: What Was Used Last Time?');
    const ofBlock = await until(
      () => textsOf(page.locator('.quick-input-list .quick-input-list-separator')),
      (is) => is.filter((it) => it !== '').length > 1,
    );
    for (const name of ['pin', 'speed']) if (!ofBlock.includes(name)) fail(`nothing of ${name}`);
    await page.keyboard.press('Escape');
    if ((await tab(page))?.includes('●')) fail('asking changed the note');
  },
  'last time stands in the hover, and its link opens the job': async ({ page }) => {
    await openNote(page, '9001.md');
    const hover = await hoverOver(page, 'speed = 475');
    includes(words((await hover.textContent()) ?? ''), '190 rpm slow, as planned');
    await hover.locator('a', { hasText: '9003' }).first().click();
    await until(
      () => tab(page),
      (label) => label?.includes('9003.md'),
    );
    await page.locator('.statusbar-item', { hasText: 'Ln 16,' }).waitFor({ timeout: 10_000 });
  },
  'signing off with errors asks first; no writes nothing, yes records them': async ({ page }) => {
    await closeAll(page);
    await openNote(page, '9004.md');
    const dialog = page.locator('.monaco-dialog-box');
    await command(page, 'Scribeline: Sign Off the Job');
    await dialog.waitFor();
    includes(words((await dialog.textContent()) ?? ''), 'The note has 2 errors');
    includes(words((await dialog.textContent()) ?? ''), 'Line 13:');
    await dialog.locator('.monaco-button', { hasText: 'Cancel' }).click();
    await dialog.waitFor({ state: 'hidden' });
    if ((await shown(page)).includes('signed')) fail('signed without a yes');
    await command(page, 'Scribeline: Sign Off the Job');
    await dialog.waitFor();
    await dialog.locator('.monaco-button', { hasText: 'Sign with errors' }).click();
    await question(page).waitFor();
    await question(page).fill('M. Orrin');
    await page.keyboard.press('Enter');
    const text = await until(
      () => shown(page),
      (is) => is.includes('```signed'),
    );
    for (const part of [
      'by: M. Orrin',
      'errors: 2',
      'error_1: line 13: ',
      'error_2: line 14: ',
      'stub = 24 mm',
    ])
      includes(text, part);
  },
  'signing again keeps the earlier record': async ({ page }) => {
    await replace(page, '= 24 m', '26');
    await command(page, 'Scribeline: Sign Off the Job');
    const dialog = page.locator('.monaco-dialog-box');
    await dialog.waitFor();
    await dialog.locator('.monaco-button', { hasText: 'Sign with errors' }).click();
    await question(page).waitFor();
    same(await question(page).inputValue(), 'M. Orrin');
    await page.keyboard.press('Enter');
    const text = await until(
      () => shown(page),
      (is) => is.split('```signed').length === 3,
    );
    for (const part of ['stub = 24 mm', 'stub = 26 mm']) includes(text, part);
  },
  'a signed figure that comes out different is a finding that shows both': async ({ page }) => {
    await closeAll(page);
    await openNote(page, '9003.md');
    await replace(page, '= 20 m', '21');
    await command(page, 'Problems: Focus on Problems View');
    const problem = await until(
      async () => (await textsOf(page.locator('.markers-panel .monaco-list-row'))).join('\n'),
      (is) => is.includes('20 mm') && is.includes('21 mm'),
    );
    includes(problem, 'signed-differs');
    await closeAll(page);
    await command(page, 'View: Toggle Panel Visibility');
  },
  'a changed card lists the notes that now have findings, until they are seen': async ({
    page,
    disk,
    notes,
    host,
  }) => {
    await command(page, 'Scribeline: Focus on Jobs View');
    await until(
      () => groups(page),
      ({ length }) => length === 6,
    );
    await openNote(page, 'shop.md');
    await replace(page, '475', '310'); // not saved
    await replace(page, '790', '320');
    await command(page, 'Scribeline: Focus on Jobs View');
    const all = await until(
      () => rows(page),
      ([first]) => first?.name === 'Cards changed: look again',
    );
    same(all[0]?.more, '1');
    same(all[1]?.name, '9001 Hinge pin of 16 mm');
    includes(all[1]?.more ?? '', '475 rpm');
    await row(page, 'Cards changed').hover();
    await row(page, 'Cards changed').locator('.action-label').first().click();
    await until(
      () => groups(page),
      ([first]) => first?.name === 'Dunmere Boatyard',
    );
    await closeAll(page);
    if (host !== 'node') return;
    // Saved by somebody else, as a sheet of cards is on another machine of the shop.
    disk.write('shop.md', shop('115, 200'));
    await until(
      () => rows(page),
      (is) => is[0]?.name === 'Cards changed: look again' && is[0].more === '2',
    );
    same(
      (await rows(page)).slice(1, 3).map(({ name }) => name.slice(0, 4)),
      ['9002', '9001'], // as in every list of them: the later due first, whichever was read first
    );
    for (const [path, text] of notes) if (path !== 'shop.md') same(disk.read(path), text);
    disk.write('shop.md', shop());
    await until(
      () => groups(page),
      ([first]) => first?.name === 'Dunmere Boatyard',
    );
  },
  'what others write to notes is answered, also while they are open, and a note that goes is gone': async ({
    page,
    disk,
    notes,
  }) => {
    await openNote(page, '9002.md');
    const text = notes.get('jobs/9002.md');
    disk.write('jobs/9002.md', text.replaceAll('300 rpm', '333 rpm').replace('18 mm', '18.8 mm'));
    await until(
      () => shown(page),
      (is) => is.includes('speed used 333 rpm'),
    );
    await until(
      async () => (await rows(page)).map(({ name }) => name),
      (is) => is.includes('9002 Hinge pin of 18.8 mm'),
    );
    await finds(page, 'used speed = 333 rpm', (is) => is[0]?.startsWith('9002'));
    disk.remove('jobs/9002.md');
    // While the question still stands there.
    await until(
      () => pickLabels(page),
      (is) => is.join().startsWith('No job of'),
    );
    await page.keyboard.press('Escape');
    await until(
      async () => (await rows(page)).map(({ name }) => name.slice(0, 4)),
      (is) => is.includes('9001') && !is.includes('9002'),
    );
    await closeAll(page);
    await openNote(page, '9001.md');
    const { x, y } = await place(page, 'speed = 475');
    await page.mouse.click(x, y);
    await command(page, 'Scribeline: What Was Used Last Time?');
    const uses = await until(
      () => textsOf(picks(page)),
      ({ length }) => length > 2,
    );
    if (uses.some((use) => use.includes('9002'))) fail('a note that is gone still answers');
    await page.keyboard.press('Escape');
    const hover = words((await (await hoverOver(page, 'speed = 475')).textContent()) ?? '');
    includes(hover, '9003');
    if (hover.includes('9002')) fail('a note that is gone still stands in the hover');
    disk.write('jobs/9002.md', text);
  },
};

const NONE = {
  'a folder without jobs says so and offers a new one': async ({ page }) => {
    await command(page, 'Scribeline: Focus on Jobs View');
    await page.locator('.welcome-view', { hasText: 'No job notes in this folder yet' }).waitFor();
    await page.locator('.welcome-view .monaco-button', { hasText: 'New Job' }).click();
    await question(page).waitFor();
    await page.keyboard.press('Escape');
    await finds(page, 'ball', (is) => is[0]?.includes('No job of'));
    await page.keyboard.press('Escape');
  },
  'and lists the first as soon as it is there, until its folder is thrown away': async ({
    page,
    disk,
    notes,
  }) => {
    const names = async () => (await rows(page)).map(({ name }) => name.slice(0, 4));
    await command(page, 'Scribeline: Focus on Jobs View');
    disk.write('jobs/0001.md', notes.get('jobs/0001.md'));
    await until(names, (is) => is.includes('0001'));
    disk.remove('jobs');
    await until(names, (is) => !is.includes('0001'));
  },
};

// While a question is being typed the answers to its beginning stand there.
const isPartWithPin = (labels) =>
  labels[0]?.includes('Read the other notes too') && labels.some((label) => label.includes('Winch pin'));

const MANY = {
  'a reading that takes long shows how far it is and can be ended': async ({ page, count }) => {
    await find(page, 'pin');
    const told = page.locator('.notification-list-item', { hasText: 'Reading past jobs' });
    await until(
      async () => words((await told.textContent().catch(() => '')) ?? ''),
      (is) => new RegExp(`\\d+ of ${count + 2} notes`).test(is),
    );
    // Answers of the notes read so far stand there already, and the note takes what is typed.
    await until(
      () => pickLabels(page),
      (is) => is.some((label) => label.includes('Winch pin')),
    );
    await told.locator('.monaco-button', { hasText: 'Cancel' }).click();
    await until(
      () => told.count(),
      (is) => is === 0,
    );
    await until(() => pickLabels(page), isPartWithPin);
    // Keys go there again, though the click was elsewhere.
    await page.locator('.quick-input-widget input:focus').waitFor();
    await page.keyboard.press('End');
    await page.keyboard.type(', ball > 1 mm');
    await until(
      () => question(page).inputValue(),
      (is) => is === 'pin, ball > 1 mm',
    );
    await until(() => pickLabels(page), isPartWithPin);
    await page.keyboard.press('Escape');
  },
  'what is left is usable, and goes on; a hover is there meanwhile, says how far it is, and has more later':
    async ({ page }) => {
      await find(page, 'pin');
      await until(() => pickLabels(page), isPartWithPin);
      await page.keyboard.press('Escape');
      await command(page, 'Scribeline: Focus on Jobs View');
      await page.locator('.welcome-view', { hasText: 'The reading of past jobs was ended' }).waitFor();
      await page.locator('.welcome-view .monaco-button', { hasText: 'Read Past Jobs' }).click();
      const hover = await hoverOver(page, 'speed = 475');
      await hover.getByText('speed = 475').first().waitFor();
      includes(words((await hover.textContent()) ?? ''), 'Past jobs are still being read');
      await until(
        () => groups(page),
        ({ length }) => length > 0,
        1200,
      );
      // One of the last that are read.
      await finds(page, 'job: 1000', (is) => is[0]?.startsWith('1000'));
      await page.keyboard.press('Escape');
      includes(
        words((await (await hoverOver(page, 'speed = 475')).textContent()) ?? ''),
        '190 rpm slow, as planned',
      );
    },
};

/** What others do to files; these run in the Node host alone. */
const ON_DISK = /^what others write|^and lists the first/;

const README = new Map([['README.md', '# Words\n\nNo job.\n']]);
const SESSIONS = [
  { title: 'nineteen jobs', tests: JOBS, notes: () => exampleJobs() },
  { title: 'none', tests: NONE, notes: async () => README, more: () => exampleJobs() },
  {
    title: 'very many',
    tests: MANY,
    open: 'jobs/9001.md',
    notes: (host) => exampleJobs(host === 'web' ? 1200 : 2000),
  },
];

/** Files as others of the shop would change them, past the editor. */
const diskOf = (folder) => ({
  read: (path) => readFileSync(join(folder, path), 'utf8'),
  write: (path, text) => {
    mkdirSync(join(folder, path, '..'), { recursive: true });
    writeFileSync(join(folder, path), text);
  },
  remove: (path) => rmSync(join(folder, path), { recursive: true }),
});

async function session(host, { title, tests, notes: made, more, open = 'README.md' }, wanted) {
  const chosen = Object.entries(tests).filter(
    ([name]) => wanted.test(name) && (host === 'node' || !ON_DISK.test(name)),
  );
  if (chosen.length === 0) return { passed: 0, failed: 0 };
  const notes = await made(host);
  const given = { host, notes: more ? await more() : notes, count: jobsOf(notes).length };
  return driven({
    title: `Past jobs by hand, host ${host}, ${title}`,
    host,
    viewport: { width: 1400, height: 1150 },
    note: open,
    prepare: (folder) => {
      const disk = diskOf(folder);
      for (const [path, text] of notes) disk.write(path, text);
      disk.write('.vscode/settings.json', JSON.stringify(CALM));
    },
    before: (page) => void page.setDefaultTimeout(15_000),
    tests: Object.fromEntries(
      chosen.map(([name, test]) => [
        name,
        async (page, folder) => {
          await page.keyboard.press('Escape'); // what a failed test may have left open
          await test({ ...given, page, disk: diskOf(folder) });
        },
      ]),
    ),
  });
}

const given = process.argv.slice(2);
const pattern = given.find((word) => /^\/.*\/$/.test(word));
const hosts = given.filter((word) => word === 'web' || word === 'node');
const counts = { passed: 0, failed: 0 };
for (const host of hosts.length ? hosts : ['web', 'node'])
  for (const each of SESSIONS) {
    const { passed, failed } = await session(host, each, new RegExp(pattern?.slice(1, -1) ?? '.'));
    counts.passed += passed;
    counts.failed += failed;
  }
total(counts);
