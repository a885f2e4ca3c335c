import * as vscode from 'vscode';
import { closeAll, codeOf, file, marks, open, replace, until } from './tools';

const codes = (note: vscode.TextDocument): string[] => marks(note).map(codeOf);
const outside = (found: readonly string[]): boolean => found.includes('speed-outside-machine');
const SPEEDS = '300] rpm';
const MORE = '300, 475, 900] rpm';

describe('cards of a shop file', () => {
  afterEach(closeAll);

  it('mark an open note again while they are edited, before any saving', async () => {
    const note = await open('bench/turned.md');
    await until(() => codes(note), outside);
    const shop = await open('bench/shop.md');
    await replace(shop, SPEEDS, MORE);
    const found = await until(
      () => codes(note),
      (all) => !outside(all),
    );
    if (!found.includes('speed-between-steps')) throw new Error(`found only ${found.join()}`);
    await vscode.commands.executeCommand('workbench.action.files.revert');
    await until(() => codes(note), outside);
  });

  it('count as in the file again when the edited file is closed without saving', async () => {
    const note = await open('bench/turned.md');
    await until(() => codes(note), outside);
    const shop = await open('bench/shop.md');
    await replace(shop, SPEEDS, MORE);
    await until(
      () => codes(note),
      (all) => !outside(all),
    );
    await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
    await until(() => codes(note), outside);
  });

  it('mark an open note again when saved, and when somebody else writes them', async () => {
    const note = await open('bench/turned.md');
    const shop = await open('bench/shop.md');
    await replace(shop, SPEEDS, MORE);
    await shop.save();
    await until(
      () => codes(note),
      (all) => all.length > 0 && !outside(all),
    );
    const text = shop.getText().replace(MORE, SPEEDS);
    await vscode.workspace.fs.writeFile(file('bench/shop.md'), new TextEncoder().encode(text));
    await until(() => codes(note), outside);
  });

  it('are marked themselves where they make no sense', async () => {
    const shop = await open('bench/shop.md');
    await replace(shop, '300] rpm', '300] kg');
    await until(
      () => codes(shop),
      (all) => all.join() === 'card-field-kind',
    );
  });

  it('may come and go as files', async () => {
    const note = await open('bench/turned.md');
    await until(() => codes(note), outside);
    await vscode.workspace.fs.rename(file('bench/shop.md'), file('bench/away.md'));
    await until(
      () => codes(note),
      (all) => all.includes('unknown-machine'),
    );
    await vscode.workspace.fs.rename(file('bench/away.md'), file('bench/shop.md'));
    await until(() => codes(note), outside);
  });
});
