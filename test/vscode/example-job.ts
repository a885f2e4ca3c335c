/** Writing on the example job itself, with either line end: what changes the note is checked again, and undone. */
import * as vscode from 'vscode';
import { closeAll, hints, includes, marked, marks, open, rangeOf, renaming, same, until } from './tools';

const ENDS = [
  ['LF', vscode.EndOfLine.LF],
  ['CRLF', vscode.EndOfLine.CRLF],
] as const;

async function example(name: string, end: vscode.EndOfLine): Promise<vscode.TextDocument> {
  const note = await open(name);
  const editor = await vscode.window.showTextDocument(note);
  await editor.edit((edit) => edit.setEndOfLine(end));
  await until(
    () => hints(note),
    ({ length }) => length > 5,
  );
  return note;
}

/** The lines of the note that stand in no block of ours. */
function words(note: vscode.TextDocument): string {
  return note
    .getText()
    .replace(/^([ >]*)(`{3}|~{3})(?:figures|machine|material|signed)\b[^]*?^[ >]*\2$/gm, '$1$2');
}

const errors = (note: vscode.TextDocument): number =>
  marks(note).filter(({ severity }) => severity === vscode.DiagnosticSeverity.Error).length;

/** Waits until the findings have followed the edit: asked for twice in a row, they are the same. */
async function settled(note: vscode.TextDocument): Promise<readonly string[]> {
  let before = '';
  await new Promise((done) => setTimeout(done, 250));
  await until(
    async () => {
      await new Promise((done) => setTimeout(done, 100));
      const now = marked(note).join('\n');
      const same = now === before;
      before = now;
      return same;
    },
    (same) => same,
  );
  return marked(note).sort();
}

/** What is offered with a reading whether anything is wrong or not. */
const BESIDE = /^(?:Ask for limits|Write what is left|Work out)/;

for (const [name, end] of ENDS)
  describe(`the example job, ${name}`, () => {
    afterEach(closeAll);

    it('is aligned without another result or finding, and a second time nothing moves', async () => {
      const note = await example('ball-on-shank.md', end);
      const [found, shown, text] = [await settled(note), await hints(note), words(note)];
      await vscode.commands.executeCommand('scribeline.alignFigures');
      same(await settled(note), found);
      same(await hints(note), shown);
      same(words(note), text);
      const { version } = note;
      await vscode.commands.executeCommand('scribeline.alignFigures');
      same([note.version, note.eol], [version, end]);
    });

    it('has a figure renamed everywhere and in no words, with the same results and findings', async () => {
      const note = await example('ball-on-shank.md', end);
      const [found, shown, text, whole] = [
        await settled(note),
        await hints(note),
        words(note),
        note.getText(),
      ];
      const at = rangeOf(note, 'ball    = size').start;
      const edit = await renaming(note, at, 'sphere');
      await vscode.workspace.applyEdit(edit);
      const renamed = (all: readonly string[]): readonly string[] =>
        all.map((each) => each.replace(/\bball\b/g, 'sphere'));
      same(renamed(await settled(note)), renamed(found));
      same((await hints(note)).length, shown.length);
      same(words(note), text);
      same(note.eol, end);
      await vscode.commands.executeCommand('undo');
      same(note.getText(), whole);
    });

    it('takes a measured, a final and a used line in place, each undone at once', async () => {
      const note = await example('ball-on-shank.md', end);
      const whole = note.getText();
      for (const [path, how, typed, line] of [
        ['ball', 'measured', '26.01', 'ball measured 26.01 mm'],
        ['ball', 'final', '26.01', 'ball final 26.01 mm'],
        ['setup.ring', 'used', '25.34', 'setup.ring used 25.34 mm'],
      ] as const) {
        const before = errors(note);
        await vscode.commands.executeCommand('scribeline.recordReading', path, how, typed);
        includes(note.getText(), line);
        same(note.eol, end);
        await settled(note);
        same(errors(note), before);
        await vscode.commands.executeCommand('undo');
        same(note.getText(), whole);
      }
    });

    it('offers what belongs where the cursor is, and says what a formula takes', async () => {
      const note = await example('ball-on-shank.md', end);
      const row = rangeOf(note, 'ball_on_shank(');
      const { items } = await vscode.commands.executeCommand<vscode.CompletionList>(
        'vscode.executeCompletionItemProvider',
        note.uri,
        row.start.translate(0, 4),
      );
      same(
        items.some(({ label }) => (typeof label === 'string' ? label : label.label) === 'ball_on_shank'),
        true,
      );
      const help = await vscode.commands.executeCommand<vscode.SignatureHelp>(
        'vscode.executeSignatureHelpProvider',
        note.uri,
        row.end,
      );
      const [first] = help.signatures[0]?.parameters ?? [];
      includes(JSON.stringify(first?.documentation), 'In mm');
    });

    it('of typical mistakes: every fix applied mends what it is for, and one undo takes it back', async () => {
      const note = await example('typical-mistakes.md', end);
      const slips = (await settled(note)).join('\n');
      const whole = note.getText();
      let count = 0;
      for (const mark of marks(note)) {
        const text = note.getText(mark.range);
        const found = await vscode.commands.executeCommand<vscode.CodeAction[]>(
          'vscode.executeCodeActionProvider',
          note.uri,
          mark.range,
        );
        const fixes = found.filter(({ kind }) => kind?.value === vscode.CodeActionKind.QuickFix.value);
        for (const { title, edit } of fixes.filter((fix) => !BESIDE.test(fix.title))) {
          if (!edit) throw new Error(`${title} does nothing`);
          const [before, all] = [marked(note).length, errors(note)];
          await vscode.workspace.applyEdit(edit);
          const after = await settled(note);
          same([title, text, after.length < before || errors(note) < all], [title, text, true]);
          same([title, errors(note) <= all, note.eol], [title, true, end]);
          await vscode.commands.executeCommand('undo');
          same(note.getText(), whole);
          await until(
            () => marked(note).sort().join('\n'),
            (now) => now === slips,
          );
          count++;
        }
      }
      same(count > 8, true);
    });
  });
