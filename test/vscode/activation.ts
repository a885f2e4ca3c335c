import * as vscode from 'vscode';
import { closeAll, hints, includes, open, same, until } from './tools';

const ID = 'scribeline.scribeline';

describe('activation', () => {
  afterEach(closeAll);

  it('follows the first markdown document', async () => {
    const extension = vscode.extensions.getExtension(ID);
    if (!extension) throw new Error('the extension is not installed');
    await vscode.workspace.openTextDocument({ language: 'markdown', content: '# A job\n' });
    for (let i = 0; i < 100 && !extension.isActive; i++) await new Promise((done) => setTimeout(done, 50));
    if (!extension.isActive) throw new Error('the extension did not activate by itself');
  });
});

describe('the installed extension', () => {
  afterEach(closeAll);

  it('is the packaged one', () => {
    if (vscode.env.appHost === 'desktop') return; // there it is the checkout, see test/tools/test-vscode.mjs
    const extension = vscode.extensions.getExtension(ID);
    // package.json of a checkout has these; the packaged one has not.
    const { scripts, devDependencies } = extension?.packageJSON as Record<string, unknown>;
    same([scripts, devDependencies], [undefined, undefined]);
  });

  it('shows the results of the first example', async () => {
    const note = await open('ball-on-shank.md');
    const shown = await until(
      () => hints(note),
      (all) => all.length > 20,
    );
    includes(shown.join('\n'), '11.113 mm'); // 7/16 in, by the inch's definition
  });
});
