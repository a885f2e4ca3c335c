import * as vscode from 'vscode';

describe('activation', () => {
  it('follows the first markdown document', async () => {
    const extension = vscode.extensions.getExtension('scribeline.scribeline');
    if (!extension) throw new Error('the extension is not installed');
    await vscode.workspace.openTextDocument({ language: 'markdown', content: '# A job\n' });
    for (let i = 0; i < 100 && !extension.isActive; i++) await new Promise((done) => setTimeout(done, 50));
    if (!extension.isActive) throw new Error('the extension did not activate by itself');
  });
});
