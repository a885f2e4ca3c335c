import * as vscode from 'vscode';
import { closeAll, codeOf, file, marked, marks, open, rangeOf, replace, same, until, unsaved } from './tools';

const FENCE = '```';

describe('findings', () => {
  afterEach(closeAll);

  it('mark exactly what is meant, in quotes and lists too, and nothing in other fences', async () => {
    const note = await open('bench/nested.md');
    const found = await until(
      () => marked(note),
      ({ length }) => length === 2,
    );
    same(found, ['unit-mismatch: 2 mm + 1', 'unit-mismatch: 10 mm - 2 kg']);
    same(marks(note)[0]?.severity, vscode.DiagnosticSeverity.Error);
  });

  it('follow unsaved text', async () => {
    const note = await unsaved(`${FENCE}figures\na = 1 mm + 2 kg\n${FENCE}\n`);
    await until(
      () => marked(note),
      (found) => found.join() === 'unit-mismatch: 1 mm + 2 kg',
    );
    await replace(note, '2 kg', '2 mm');
    await until(
      () => marked(note),
      ({ length }) => length === 0,
    );
  });

  it('point at the line of the card that sets the limit', async () => {
    const note = await open('bench/turned.md');
    const outside = await until(
      () => marks(note).find((mark) => codeOf(mark) === 'speed-outside-machine'),
      (found) => found !== undefined,
    );
    same(outside && note.getText(outside.range), 'spindle_speed(60 m/min, pin)');
    const related = outside?.relatedInformation?.[0];
    same(related?.location.uri.toString(), file('bench/shop.md').toString());
    const shop = await vscode.workspace.openTextDocument(file('bench/shop.md'));
    same(related && shop.getText(related.location.range), 'speeds = [70, 115, 190, 300] rpm');
  });

  it('go when the note is closed or becomes something else', async () => {
    const note = await unsaved(`${FENCE}figures\na = 1 mm + 2 kg\n${FENCE}\n`);
    await until(
      () => marked(note),
      ({ length }) => length === 1,
    );
    await vscode.languages.setTextDocumentLanguage(note, 'plaintext');
    await until(
      () => marks(note).length,
      (count) => count === 0,
    );
  });

  it('leave other markdown alone', async () => {
    const note = await unsaved('# Plain\n\n```js\na = 1 mm + 2 kg\n```\n');
    const other = await unsaved(`${FENCE}figures\na = 1 mm + 2 kg\n${FENCE}\n`);
    await until(
      () => marked(other),
      ({ length }) => length === 1,
    );
    same(marks(note), []);
  });

  it('offer what was likely meant', async () => {
    const note = await unsaved(`${FENCE}figures\nd = 1-3/8 in\n${FENCE}\n`);
    const [found] = await until(
      () => marks(note),
      ({ length }) => length === 1,
    );
    const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>(
      'vscode.executeCodeActionProvider',
      note.uri,
      found?.range ?? rangeOf(note, '1-3/8 in'),
      vscode.CodeActionKind.QuickFix.value,
    );
    const fix = actions.find(({ title }) => title === 'Write 1 3/8 in');
    if (!fix?.edit) throw new Error(`no such fix among ${actions.map(({ title }) => title).join(', ')}`);
    await vscode.workspace.applyEdit(fix.edit);
    same(note.lineAt(1).text, 'd = 1 3/8 in');
    await until(
      () => marked(note),
      ({ length }) => length === 0,
    );
  });
});
