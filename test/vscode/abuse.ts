/** Notes that are not meant well are opened beside a good one, which is answered as always. */
import * as vscode from 'vscode';
import { ABUSE } from '../abuse/notes';
import { closeAll, file, hints, open, replace, same, unsaved, until } from './tools';

const GOOD = '```figures\na = 2 mm\na * 3\n```\n';

describe('beside a hostile note', () => {
  afterEach(closeAll);
  after(() => vscode.workspace.fs.delete(file('hostile'), { recursive: true }));

  for (const [i, { name, text }] of ABUSE.filter(({ worst }) => worst).entries()) {
    it(`a good one is answered: ${name}`, async () => {
      const path = `hostile/${i}.md`;
      await vscode.workspace.fs.writeFile(file(path), new TextEncoder().encode(text()));
      const hostile = await open(path);
      await vscode.commands.executeCommand('vscode.executeDocumentSymbolProvider', hostile.uri);
      await vscode.commands.executeCommand(
        'vscode.executeHoverProvider',
        hostile.uri,
        new vscode.Position(Math.min(2, hostile.lineCount - 1), 1),
      );
      const note = await unsaved(GOOD);
      same(await hints(note), ['= 6 mm']);
      await replace(note, '2 mm', '5 mm');
      await until(
        () => hints(note),
        (found) => found.join() === '= 15 mm',
      );
    });
  }
});
