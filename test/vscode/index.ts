import * as vscode from 'vscode';
import 'mocha/mocha'; // the browser bundle of mocha: it runs in the web worker host and in the Node host alike

declare const require: (id: string) => unknown;

/** VS Code calls this with the editor open; the last line printed is what `npm test` counts. */
export async function run(): Promise<void> {
  const grep = await asked();
  // The first of some tests alone would find it still waking up; among all of them one waits for that.
  if (grep.grep) await vscode.extensions.getExtension('scribeline.scribeline')?.activate();
  (globalThis as { location?: unknown }).location ??= { search: '' }; // mocha reads it; the Node host has none
  mocha.setup({ ui: 'bdd', reporter: 'spec', timeout: 300_000, color: false, ...grep } as Mocha.MochaOptions);
  require('./activation');
  require('./findings');
  require('./results');
  require('./cards');
  require('./preview');
  require('./sheet');
  require('./writing');
  require('./past-jobs');
  require('./abuse');
  require('./no-loss');
  require('./kept-index');
  require('./settings');
  require('./example-job');
  return new Promise((resolve, reject) => {
    const runner = mocha.run((failures) => {
      console.log(`in VS Code: ${runner.stats?.passes ?? 0} passed, ${failures} failed`);
      if (failures) reject(new Error(`${failures} tests failed`));
      else resolve();
    });
  });
}

/** Words of the tests to run, when the one who started them left any in the workspace: a browser has no arguments. */
async function asked(): Promise<{ grep?: RegExp }> {
  const root = vscode.workspace.workspaceFolders?.[0]?.uri;
  try {
    const file = await vscode.workspace.fs.readFile(
      vscode.Uri.joinPath(root ?? vscode.Uri.file('/'), 'grep.txt'),
    );
    return { grep: new RegExp(new TextDecoder().decode(file)) };
  } catch {
    return {};
  }
}
