import * as vscode from 'vscode';
import { closeAll, file, hints, hoverAt, includes, open, replace, same, until, unsaved } from './tools';

const FENCE = '```';

describe('results', () => {
  afterEach(closeAll);

  it('stand at the end of each line', async () => {
    const note = await open('bench/turned.md');
    same(await hints(note), [
      '29.95 … 30.05 mm',
      '= 637 rpm ±1',
      '0.3 mm left, 0.15 on radius',
      '✗ 637 rpm > 300 rpm',
    ]);
    const found = await vscode.commands.executeCommand<vscode.InlayHint[]>(
      'vscode.executeInlayHintProvider',
      note.uri,
      new vscode.Range(0, 0, note.lineCount, 0),
    );
    const first = found.find(({ kind }) => kind === undefined);
    same(first?.position, note.lineAt(first?.position.line ?? 0).range.end);
  });

  it('follow each edit', async () => {
    const note = await unsaved(`${FENCE}figures\na = 2 mm\na * 3\n${FENCE}\n`);
    same(await hints(note), ['= 6 mm']);
    await replace(note, '2 mm', '5 mm');
    same(await hints(note), ['= 15 mm']);
  });

  it('are explained under the pointer', async () => {
    const note = await unsaved(
      `${FENCE}figures\nball = 30 mm ± 0.02\nsetup = ball_on_shank(ball, 12 mm)\nsetup.ring\n${FENCE}\n`,
    );
    includes(await hoverAt(note, 'ball_on_shank'), 'asin(12 mm / 30 mm)');
    includes(await hoverAt(note, 'ring'), '30 mm * cos(11.789°)');
    includes(await hoverAt(note, 'ball,'), '1\\.1811 in');
    includes(await hoverAt(note, '12 mm)'), '0\\.4724 in');
    // The fence tells of past jobs, and of nothing else.
    same((await hoverAt(note, 'figures')).replace(/^\*\*Last time\*\*[^]*$/, ''), '');
  });

  it('are left out of comparisons, where they would pass for differences', async () => {
    const note = await open('bench/turned.md');
    same((await hints(note)).length, 4);
    await vscode.commands.executeCommand('workbench.action.closeAllEditors');
    await vscode.commands.executeCommand('vscode.diff', file('bench/nested.md'), note.uri);
    await until(
      () => hints(note),
      ({ length }) => length === 0,
    );
  });

  it('stay out of other markdown', async () => {
    const note = await unsaved('# Plain\n\n```js\na = 1 + 2\n```\n');
    same(await hints(note), []);
    same(await hoverAt(note, 'a = 1'), '');
  });

  it('stand in lines that are commented out as figures are, not as markdown is', async () => {
    const note = await unsaved(`${FENCE}figures\na = 2 mm\n${FENCE}\n`);
    const commented = async (): Promise<string> => {
      const editor = await vscode.window.showTextDocument(note);
      editor.selection = new vscode.Selection(1, 0, 1, 0);
      await vscode.commands.executeCommand('editor.action.commentLine');
      const { text } = note.lineAt(1);
      await vscode.commands.executeCommand('undo');
      return text;
    };
    await until(commented, (text) => text === '# a = 2 mm');
  });

  it('reach the built-in preview', async () => {
    await unsaved(`${FENCE}figures\na = 2 mm\n${FENCE}\n`);
    const extension = vscode.extensions.getExtension('scribeline.scribeline');
    await until(
      () => extension?.isActive,
      (active) => active === true,
    );
    same(typeof (extension?.exports as { extendMarkdownIt?: unknown }).extendMarkdownIt, 'function');
    const html = await vscode.commands.executeCommand<string>(
      'markdown.api.render',
      `${FENCE}figures\na = 2 mm * 3\n${FENCE}\n`,
    );
    includes(html, '6 mm');
  });
});
