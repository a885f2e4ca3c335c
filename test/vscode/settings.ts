/** Every setting changed in a running editor, and what is seen of it in hints, hovers, fixes and the preview. */
import * as vscode from 'vscode';
import {
  actions,
  closeAll,
  hints,
  hoverAt,
  includes,
  marked,
  open,
  parameterNames,
  preview,
  same,
  setting,
  unsaved,
  until,
  wordsIn,
} from './tools';

const FENCE = '```';
const note = (...lines: readonly string[]): string => `${FENCE}figures\n${lines.join('\n')}\n${FENCE}\n`;

/** Waits until the hints are these, before a setting was changed or after. */
async function shows(document: vscode.TextDocument, wanted: readonly string[]): Promise<void> {
  await until(
    () => hints(document),
    (found) => JSON.stringify(found) === JSON.stringify(wanted),
  );
}

/** Waits until the preview's words hold this. */
async function previews(document: vscode.TextDocument, wanted: string): Promise<string> {
  return until(
    () => preview(document),
    (html) => wordsIn(html).includes(wanted),
  );
}

describe('settings', () => {
  const KEYS = [
    'units',
    'decimals.mm',
    'decimals.in',
    'angles',
    'speedChoice',
    'hints.results',
    'hints.parameterNames',
    'preview.workings',
  ];
  afterEach(closeAll);
  afterEach(async () => {
    for (const key of KEYS) await setting(key, undefined);
  });

  it('are those that the manifest declares, each with its default and a place to set it', () => {
    const all = vscode.workspace.getConfiguration('scribeline');
    const defaults = KEYS.map((key) => all.inspect(key)?.defaultValue);
    same(defaults, ['mm', 3, 4, 'decimal', 'below', true, true, false]);
  });

  it('units: results of formulas, where the note does not say', async () => {
    const lines = note('a = sine_rise(30°, 100 mm)');
    const [own, said] = [await unsaved(lines), await unsaved(`---\nunits: mm\n---\n\n${lines}`)];
    await shows(own, ['= 50 mm']);
    await setting('units', 'in');
    await shows(own, ['= 1.9685 in']);
    await previews(own, '1.9685 in');
    await shows(said, ['= 50 mm']);
    await previews(said, '50 mm');
    await setting('units', 'mm');
    await shows(own, ['= 50 mm']);
  });

  it('decimals: of millimetres and of inches, each by itself', async () => {
    const document = await unsaved(note('a = 10 mm / 3', 'b = 1 in / 3'));
    await shows(document, ['= 3.333 mm', '= 0.3333 in']);
    await setting('decimals.mm', 1);
    await shows(document, ['= 3.3 mm', '= 0.3333 in']);
    await setting('decimals.in', 2);
    await shows(document, ['= 3.3 mm', '= 0.33 in']);
    await previews(document, '3.3 mm');
    await previews(document, '0.33 in');
    includes(await hoverAt(document, 'b ='), '0\\.33 in');
    await setting('decimals.mm', undefined);
    await shows(document, ['= 3.333 mm', '= 0.33 in']);
  });

  it('a machine that writes decimals with a comma changes neither the notation nor the results', async () => {
    // VS Code is started in such a country for all tests of this bundle; desktop VS Code stands where it stands.
    if (vscode.env.appHost !== 'desktop') same((1234.5).toLocaleString(), '1.234,5');
    const document = await unsaved(note('a = 1234.5 mm + 0.25 mm', 'b = 12,7 mm', 'c = 1.5 in to mm'));
    await shows(document, ['= 1234.75 mm', '= 38.1 mm']);
    await previews(document, '1234.75 mm');
    const found = await until(
      () => marked(document),
      ({ length }) => length === 1,
    );
    same(found, ['comma-between-digits: 12,7']);
    const first = (await actions(document, '12,7'))[0]?.title ?? '';
    same(first, 'Write 12.7');
    includes(await hoverAt(document, 'c ='), '38\\.1 mm');
  });

  it('decimals: one that makes no sense is not taken', async () => {
    const document = await unsaved(note('a = 10 mm / 3'));
    await setting('decimals.mm', 'many');
    await shows(document, ['= 3.333 mm']);
    await setting('decimals.mm', -2);
    await shows(document, ['= 3.333 mm']);
  });

  it('angles: in decimals or in minutes and seconds', async () => {
    const document = await unsaved(note('a = 25° / 2'));
    await shows(document, ['= 12.5°']);
    await setting('angles', 'minutes');
    await shows(document, ['= 12°30′00″']);
    await previews(document, '12°30′00″');
    await setting('angles', 'decimal');
    await shows(document, ['= 12.5°']);
  });

  it('the choice of speed: which step a fix proposes first', async () => {
    const document = await open('bench/turned.md');
    const edit = new vscode.WorkspaceEdit();
    edit.insert(document.uri, new vscode.Position(7, 0), 'n = 100 rpm\n');
    await vscode.workspace.applyEdit(edit);
    const first = async (wanted: string): Promise<void> => {
      await until(
        async () => (await actions(document, '100 rpm')).map(({ title }) => title)[0] ?? '',
        (title) => title.startsWith(wanted),
      );
    };
    await first('Write 70 rpm');
    await setting('speedChoice', 'nearest');
    await first('Write 115 rpm');
  });

  it('hints: results and names of parameters, each by itself', async () => {
    const document = await unsaved(note('a = sine_rise(30°, 100 mm)'));
    await shows(document, ['= 50 mm']);
    same(await parameterNames(document), ['tilt:', 'length:']);
    await setting('hints.results', false);
    await shows(document, []);
    same(await parameterNames(document), ['tilt:', 'length:']);
    await setting('hints.parameterNames', false);
    await until(
      () => parameterNames(document),
      ({ length }) => length === 0,
    );
    await setting('hints.results', true);
    await shows(document, ['= 50 mm']);
    same(await parameterNames(document), []);
  });

  it('workings: unfolded in the preview when asked for', async () => {
    const document = await unsaved(note('a = 3 mm', 'b = 4 mm', 'c = hypot(a, b)'));
    const shown = (html: string): boolean =>
      /<math/.test(html.replace(/<details(?![^>]*\bopen\b)[\s\S]*?<\/details>/g, ''));
    same(shown(await previews(document, '5 mm')), false);
    await setting('preview.workings', true);
    await until(() => preview(document), shown);
    await setting('preview.workings', false);
    await until(
      () => preview(document),
      (html) => !shown(html),
    );
  });
});
