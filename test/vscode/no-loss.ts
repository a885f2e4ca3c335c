/**
 * Every command that writes, with the file changed, read-only, deleted or the disk full in between: the note is as it was or
 * as it was asked to be. A disk of our own stands behind the editor's interface for files and fails as it is told.
 */
import * as vscode from 'vscode';
import { FrailDisk } from './frail-disk';
import { closeAll, file, includes, open, rangeOf, renaming, same, told, until } from './tools';

const SCHEME = 'frail';
const NOTE = '# Job\n\n```figures\nball = 25 mm ± 0.1 shaft\nneck = 12 mm\nring =    29 mm\n```\n';

const disk = new FrailDisk();
let count = 0;

async function note(text = NOTE): Promise<vscode.TextDocument> {
  const uri = vscode.Uri.from({ scheme: SCHEME, path: `/${++count}.md` });
  disk.files.set(uri.path, { data: new TextEncoder().encode(text), mtime: Date.now(), locked: false });
  const document = await vscode.workspace.openTextDocument(uri);
  await vscode.window.showTextDocument(document);
  return document;
}

const nameOf = ({ uri }: vscode.TextDocument): string => uri.path.slice(1);

const run = (name: string, ...given: unknown[]): Thenable<unknown> =>
  vscode.commands.executeCommand(`scribeline.${name}`, ...given);

/** Commands that change the open note, and what each is known by in it. */
const WRITERS: readonly (readonly [name: string, given: readonly unknown[], leaves: RegExp])[] = [
  ['recordReading', ['ball', 'measured', '25.4'], /^ball measured 25\.4 mm$/m],
  ['recordReading', ['neck', 'used', '11.9'], /^neck used 11\.9 mm$/m],
  ['signOff', ['M. Orrin'], /```signed\ndate: .*\nversion: .*\nby: M\. Orrin\n/],
  ['alignFigures', [], /^ring = 29 mm$/m],
];

/** What somebody else types, in the editor as it then is; false when it had changed by then. */
async function theirs(document: vscode.TextDocument): Promise<boolean> {
  const editor = await vscode.window.showTextDocument(document);
  return editor.edit((edit) => {
    edit.replace(rangeOf(document, '# Job'), '# Another title\n\nwith words');
    edit.replace(rangeOf(document, '25 mm ± 0.1'), '25.5 mm ± 0.1');
  });
}

const occurrences = (text: string, part: RegExp): number =>
  text.match(new RegExp(part.source, 'gm'))?.length ?? 0;

describe('nothing is lost', () => {
  let registered: vscode.Disposable;
  before(() => {
    registered = vscode.workspace.registerFileSystemProvider(SCHEME, disk, { isCaseSensitive: true });
  });
  after(() => registered.dispose());
  afterEach(async () => {
    disk.failing = 'never';
    for (const [path, kept] of disk.files) disk.files.set(path, { ...kept, locked: false });
    await closeAll();
  });

  for (const [name, given, leaves] of WRITERS) {
    it(`${name} ${given.join(' ')}: as asked, then saved`, async () => {
      const document = await note();
      same(await run(name, ...given), true);
      same(leaves.test(document.getText()), true);
      same(disk.text(document.uri), NOTE);
      same(await document.save(), true);
      same(disk.text(document.uri), document.getText());
    });

    it(`${name} ${given.join(' ')}: a note that may not be written stays as it is`, async () => {
      const document = await note();
      const kept = disk.files.get(document.uri.path);
      if (kept) disk.files.set(document.uri.path, { ...kept, locked: true });
      same(await run(name, ...given), false);
      same(document.getText(), NOTE);
      same(document.isDirty, false);
      same(disk.text(document.uri), NOTE);
      told(`${nameOf(document)} may not be written, and was left as it is. Allow it, or save the note under`);
    });

    it(`${name} ${given.join(' ')}: a note that somebody else changes meanwhile keeps both or theirs`, async () => {
      for (const late of [0, 1, 5, 20]) {
        const document = await note();
        const asked = run(name, ...given);
        await new Promise((done) => setTimeout(done, late));
        await until(() => theirs(document), Boolean);
        const done = await asked;
        const text = document.getText();
        includes(text, '# Another title\n\nwith words\n\n```figures\nball = 25.5 mm ± 0.1 shaft\n');
        same(occurrences(text, leaves), done === true ? 1 : 0);
        same(text.split('```figures').length, 2);
        await closeAll();
      }
    });

    it(`${name} ${given.join(' ')}: a file that is written by another program meanwhile is theirs or both`, async () => {
      const document = await note();
      const theirs = NOTE.replace('# Job', '# Theirs');
      const asked = run(name, ...given);
      disk.writeFile(document.uri, new TextEncoder().encode(theirs));
      const done = await asked;
      same(disk.text(document.uri), theirs);
      const text = await until(
        () => document.getText(),
        (now) => now.includes('# Theirs') || leaves.test(now),
      );
      same(leaves.test(text) ? done : true, true);
      // What is in the editor is ours or theirs, whole; saving over theirs asks first.
      same(
        [NOTE, theirs].some((one) => lines(one).every((line) => text.includes(line))),
        true,
      );
    });

    it(`${name} ${given.join(' ')}: a file that is deleted meanwhile can be saved anew`, async () => {
      const document = await note();
      const asked = run(name, ...given);
      disk.delete(document.uri);
      const done = await asked;
      if (done === true) {
        same(leaves.test(document.getText()), true);
        same(await document.save(), true);
        same(disk.text(document.uri), document.getText());
      } else same(document.getText() === NOTE || document.isClosed, true);
    });

    it(`${name} ${given.join(' ')}: on a full disk the change stays in the editor, not saved`, async () => {
      const document = await note();
      same(await run(name, ...given), true);
      const asked = document.getText();
      disk.failing = 'full';
      same(await document.save(), false);
      same([document.getText(), document.isDirty], [asked, true]);
      // Saving is VS Code's own, and so are its words; it has buttons to try again and to save elsewhere. They go with the note.
      told(`Failed to save '${nameOf(document)}'`);
      await new Promise((done) => setTimeout(done, 500));
    });
  }

  describe('the job sheet', () => {
    const OLD = 'an older sheet';
    const target = vscode.Uri.from({ scheme: SCHEME, path: '/sheet.html' });
    const names = (): string[] => [...disk.files.keys()].filter((path) => !/^\/\d+\.md$/.test(path));
    beforeEach(() => {
      disk.files.clear();
      disk.files.set(target.path, { data: new TextEncoder().encode(OLD), mtime: 1, locked: false });
    });

    it('takes the place of the older one, whole', async () => {
      await note();
      same(String(await run('writeSheet', { target })), target.toString());
      includes(disk.text(target) ?? '', '</html>');
      same(names(), [target.path]);
    });

    it('leaves the older one on a full disk', async () => {
      await note();
      disk.failing = 'full';
      same(await run('writeSheet', { target }), undefined);
      same(disk.text(target), OLD);
      same(names(), [target.path]);
      told('sheet.html could not be written, and what was there before still is (');
      told('there is no room left on the disk). Make room or take another place, and try again.');
    });

    it('is the older or the new one when the line breaks between writing and naming it', async () => {
      await note();
      disk.failing = 'no-rename';
      const done = await run('writeSheet', { target });
      if (done === undefined) same(disk.text(target), OLD);
      else includes(disk.text(target) ?? '', '</html>');
      same(names(), [target.path]);
    });

    it('does not replace one that may not be written', async () => {
      await note();
      disk.files.set(target.path, { data: new TextEncoder().encode(OLD), mtime: 1, locked: true });
      same(await run('writeSheet', { target }), undefined);
      same(disk.text(target), OLD);
    });

    it('is not written over its note', async () => {
      const document = await note();
      same(await run('writeSheet', { target: document.uri }), undefined);
      same(disk.text(document.uri), NOTE);
      told(`${nameOf(document)} is the note itself. Give the sheet another name.`);
    });
  });

  it('a new job whose folder cannot be made leaves what is there', async () => {
    await vscode.workspace.fs.writeFile(file('jobs'), new TextEncoder().encode('no folder'));
    await run('newJob', { customer: 'A', part: 'Pin', material: '', machine: '', kind: 'empty' });
    same(new TextDecoder().decode(await vscode.workspace.fs.readFile(file('jobs'))), 'no folder');
    await vscode.workspace.fs.delete(file('jobs'));
    told(
      'could not be written, so there is no new job. See that its folder can be made, or change where jobs go',
    );
  });

  it('repeating leaves the old job as it is, also one that is gone', async () => {
    const document = await note();
    await run('repeatJob', document.uri, '77');
    same(disk.text(document.uri), NOTE);
    same(vscode.window.activeTextEditor?.document.isUntitled, true);
    const gone = vscode.Uri.from({ scheme: SCHEME, path: '/gone.md' });
    await run('repeatJob', gone, '78').then(undefined, () => undefined);
    same(disk.text(gone), null);
  });

  it('renaming a card changes all notes or none', async () => {
    const shop = 'rename/shop.md';
    const texts = new Map([
      [shop, '```machine old_mill\nmax_speed = 900 rpm\n```\n'],
      ['rename/a.md', '```figures on old_mill\na = 1 mm\n```\n'],
      ['rename/b.md', '```figures on old_mill\nb = 1 mm\n```\n'],
    ]);
    const write = (name: string, text: string): Thenable<void> =>
      vscode.workspace.fs.writeFile(file(name), new TextEncoder().encode(text));
    for (const [name, text] of texts) await write(name, text);
    const document = await open(shop);
    for (const late of [0, 2, 10, 40]) {
      const asked = renaming(document, rangeOf(document, 'old_mill').start, 'new_mill').then(
        (edit) => edit,
        (error: unknown) => String(error),
      );
      await new Promise((done) => setTimeout(done, late));
      const theirs = `# Theirs, ${late}\n\n${texts.get('rename/a.md') ?? ''}`;
      await write('rename/a.md', theirs);
      const edit = await asked;
      // It was worked out for the note as it was, or as it is now, or turned down: never for places that have moved.
      if (typeof edit === 'string') includes(edit, 'changed meanwhile');
      else
        for (const [uri, edits] of edit.entries()) {
          const text = new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
          const before = uri.path.endsWith('a.md') ? [theirs, ...seen] : [text];
          same(
            before.some((one) => edits.every(({ range }) => cut(one, range) === 'old_mill')),
            true,
          );
        }
      seen.push(theirs);
    }
    await vscode.workspace.fs.delete(file('rename'), { recursive: true });
  });

  it('pages that come with it are shown', async () => {
    for (const [page, heading] of [
      ['past-jobs', 'past-jobs'],
      ['formulas', 'formulas'],
    ] as const) {
      await run('openPage', page);
      await until(
        () => vscode.window.tabGroups.activeTabGroup.activeTab?.label ?? '',
        (label) => label.includes(heading),
      );
      await closeAll();
    }
  });
});

const seen: string[] = [];
const lines = (text: string): string[] => text.split('\n').filter((line) => /^#|^ball =|^neck =/.test(line));

function cut(text: string, { start, end }: vscode.Range): string {
  return text.split('\n')[start.line]?.slice(start.character, end.character) ?? '';
}
