/** Past jobs in the editor, on a folder of made-up jobs that grows and shrinks while it is asked. */
import * as vscode from 'vscode';
import { jobNote } from '../archive/job-note';
import { closeAll, file, hoverAt, includes, marked, open, same, until } from './tools';

const COUNT = 14;
const path = (i: number): string => `past/${String(i).padStart(4, '0')}.md`;
const write = (name: string, text: string): Thenable<void> =>
  vscode.workspace.fs.writeFile(file(name), new TextEncoder().encode(text));
const active = (): string => vscode.window.activeTextEditor?.document.uri.path.split('/').pop() ?? '';
const activeText = (): string => vscode.window.activeTextEditor?.document.getText() ?? '';

/** Asks and takes the first answer; gives the file that opened. */
async function firstFor(query: string, wanted: string): Promise<void> {
  await until(
    async () => {
      await vscode.commands.executeCommand('scribeline.findJobs', query);
      await vscode.commands.executeCommand('workbench.action.acceptSelectedQuickOpenItem');
      await new Promise((done) => setTimeout(done, 150));
      return active();
    },
    (name) => name === wanted,
  );
}

describe('past jobs', () => {
  before(async () => {
    for (let i = 1; i <= COUNT; i++) await write(path(i), jobNote(i));
    await write(
      'past/find-me.md',
      '---\njob: 9001\n---\n# Odd one\n```figures\nspan = 7 in\nspan used 6.9 in # shrank\n```\n',
    );
  });
  afterEach(closeAll);
  after(() => vscode.workspace.fs.delete(file('past'), { recursive: true }));

  it('are found by value in any unit, and opened at the line', async () => {
    await firstFor('span 177 mm .. 178 mm', 'find-me.md');
    same(vscode.window.activeTextEditor?.selection.active.line, 5);
    await closeAll();
    await firstFor('odd', 'find-me.md');
  });

  it('follow what others write and delete', async () => {
    await write('past/late.md', '```figures\nlate_size = 3 mm\n```\n');
    await firstFor('late_size = 3 mm', 'late.md');
    await closeAll();
    await write('past/late.md', '```figures\nlate_size = 4 mm\n```\n');
    await firstFor('late_size = 4 mm', 'late.md');
    await closeAll();
    await vscode.workspace.fs.delete(file('past/late.md'));
    await write('past/other.md', '```figures\nlate_size = 4 mm\n```\n');
    await firstFor('late_size = 4 mm', 'other.md');
  });

  it('tell in a hover what was used last time', async () => {
    await write('past/now.md', '```figures\nspan = 7.1 in\n```\n');
    const note = await open('past/now.md');
    const hover = await until(
      () => hoverAt(note, 'span'),
      (text) => text.includes('Last time'),
    );
    includes(hover.replaceAll('\\', ''), '**6.9 in** shrank');
    includes(hover, 'like size');
    // A job that is deleted is gone from it.
    await write('past/brief.md', '```figures\nspan used 7.05 in # stayed\n```\n');
    await until(
      () => hoverAt(note, 'span'),
      (text) => text.includes('stayed'),
    );
    await vscode.workspace.fs.delete(file('past/brief.md'));
    const left = await until(
      () => hoverAt(note, 'span'),
      (text) => !text.includes('stayed'),
    );
    includes(left, 'shrank');
  });

  it('are repeated as a new note that is not saved yet', async () => {
    await vscode.commands.executeCommand('scribeline.repeatJob', file('past/find-me.md'), '9100');
    await until(activeText, (text) => text.includes('repeat_of: 9001'));
    includes(activeText(), 'span = 6.9 in   # used in 9001, planned 7 in: shrank');
    same(vscode.window.activeTextEditor?.document.isUntitled, true);
    same(vscode.window.activeTextEditor?.document.languageId, 'markdown');
  });

  it('are compared side by side', async () => {
    await write('past/other.md', '---\njob: 9002\n---\n```figures\nspan = 7.25 in\n```\n');
    await vscode.commands.executeCommand(
      'scribeline.compareJobs',
      file('past/find-me.md'),
      file('past/other.md'),
    );
    await until(activeText, (text) =>
      text.replace(/ +/g, ' ').includes('| span | 7 in | 7.25 in | +0.25 in |'),
    );
  });

  it('are signed off at the end of the note, in one undo', async () => {
    const text = '# Job\n\n```figures\nball = 25 mm\n```';
    await write('past/sign.md', text);
    const note = await open('past/sign.md');
    await vscode.commands.executeCommand('scribeline.signOff', 'M. Orrin');
    await until(
      () => note.getText(),
      (now) => now.includes('```signed'),
    );
    includes(note.getText(), 'by: M. Orrin\nball = 25 mm\n```\n');
    const edit = new vscode.WorkspaceEdit();
    edit.replace(note.uri, new vscode.Range(3, 7, 3, 9), '26');
    await vscode.workspace.applyEdit(edit);
    await until(
      () => marked(note),
      (found) => found.includes('signed-differs: ball = 25 mm'),
    );
    await vscode.commands.executeCommand('undo');
    await vscode.commands.executeCommand('undo');
    same(note.getText(), text);
  });

  it('write their sheet from a row, without being opened', async () => {
    const target = file('past/sheet.html');
    await vscode.commands.executeCommand('scribeline.sheetOfJob', { path: 'past/find-me.md' }, target);
    const html = await until(
      async () => {
        try {
          return new TextDecoder().decode(await vscode.workspace.fs.readFile(target));
        } catch {
          return '';
        }
      },
      (text) => text !== '',
    );
    includes(html, 'Odd one');
    same(vscode.window.activeTextEditor, undefined);
  });

  it('stand in the side bar', async () => {
    await vscode.commands.executeCommand('scribeline.jobs.focus');
    const known = await vscode.commands.getCommands(true);
    for (const name of [
      'findJobs',
      'groupJobs',
      'lastTime',
      'repeatJob',
      'compareJobs',
      'sheetOfJob',
      'signOff',
    ])
      same(known.includes(`scribeline.${name}`), true);
  });
});
