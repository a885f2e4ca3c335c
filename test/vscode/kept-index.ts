/** The index that the editor keeps between starts: damaged, on a full disk, and written by two windows at once. */
import * as vscode from 'vscode';
import { entryOf } from '../../src/archive/entry';
import { JobIndex } from '../../src/archive/job-index';
import { IndexFile } from '../../src/hosts/editor/archive/index-file';
import { jobNote } from '../archive/job-note';
import { FrailDisk } from './frail-disk';
import { file, same } from './tools';

const SCHEME = 'frail-index';
const COUNT = 12;
const NAME = 'past-jobs.index';
const disk = new FrailDisk();

function made(count = COUNT, seed = 1): JobIndex {
  const index = new JobIndex();
  for (let i = 0; i < count; i++)
    index.put({ path: `${i}.md`, mark: '1', entry: entryOf(jobNote(i + 1, seed)) });
  return index;
}

const said: string[] = [];
const log = { debug: () => undefined, warn: (text: string) => void said.push(text) };

/** As another start of the editor, or another window, has it. */
function another(storageUri: vscode.Uri | undefined, version = '1.2.3'): IndexFile {
  const context = { storageUri, extension: { packageJSON: { version } } };
  return new IndexFile(context as vscode.ExtensionContext, log as unknown as vscode.LogOutputChannel);
}

async function loaded(storage: vscode.Uri | undefined, version?: string): Promise<JobIndex> {
  const index = new JobIndex();
  await another(storage, version).load(index);
  return index;
}

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

describe('the kept index', () => {
  const folder = file('storage');
  const kept = vscode.Uri.joinPath(folder, NAME);
  const frail = vscode.Uri.from({ scheme: SCHEME, path: '/' });
  let registered: vscode.Disposable;
  before(() => {
    registered = vscode.workspace.registerFileSystemProvider(SCHEME, disk, { isCaseSensitive: true });
  });
  after(() => registered.dispose());
  beforeEach(() => {
    disk.failing = 'never';
    disk.files.clear();
    said.length = 0;
  });
  afterEach(() => vscode.workspace.fs.delete(folder, { recursive: true }).then(undefined, () => undefined));

  const read = async (): Promise<string> =>
    new TextDecoder().decode(await vscode.workspace.fs.readFile(kept));

  it('comes back as it was, and not in another version', async () => {
    const index = made();
    await another(folder).keep(index);
    const again = await loaded(folder);
    same([...again.entries()], [...index.entries()]);
    same((await loaded(folder, '1.2.4')).size, 0);
    same((await loaded(undefined)).size, 0);
    same(said, []);
  });

  const DAMAGE: readonly (readonly [how: string, damage: (text: string) => string])[] = [
    ['cut short', (text) => text.slice(0, text.length / 2)],
    ['bit-flipped', (text) => text.replace('"ball"', '"bamm"')],
    ['of another format', (text) => text.replace(/^scribeline index \d+/, 'scribeline index 999')],
    ['empty', () => ''],
    ['not text', () => '\u0000\ufffd{{'],
  ];
  for (const [how, damage] of DAMAGE)
    it(`that is ${how} gives nothing that is wrong, and the next one is whole`, async () => {
      const index = made();
      await another(folder).keep(index);
      await vscode.workspace.fs.writeFile(kept, bytes(damage(await read())));
      const again = await loaded(folder);
      same(again.size < COUNT, true);
      for (const { path, entry } of again.entries()) same(entry, index.entry(path));
      await another(folder).keep(index);
      same((await loaded(folder)).size, COUNT);
    });

  it('with a folder in its place is made again', async () => {
    await vscode.workspace.fs.createDirectory(vscode.Uri.joinPath(kept, 'in it'));
    same((await loaded(folder)).size, 0);
    await another(folder).keep(made());
    same((await loaded(folder)).size, COUNT);
  });

  it('stands as it was on a full disk, and nothing is left beside it', async () => {
    await another(frail).keep(made());
    disk.failing = 'full';
    await another(frail).keep(made(COUNT, 2));
    same(said.length, 1);
    same([...disk.files.keys()], [`/${NAME}`]);
    same([...(await loaded(frail)).entries()], [...made().entries()]);
  });

  it('is not mixed with what a killed editor left, which is swept away later', async () => {
    await another(frail).keep(made());
    const half = disk.readFile(vscode.Uri.joinPath(frail, NAME)).slice(0, 2000);
    disk.files.set('/past-jobs.young.tmp', { data: half, mtime: Date.now(), locked: false });
    disk.files.set('/past-jobs.old.tmp', { data: half, mtime: Date.now() - 7_200_000, locked: false });
    same((await loaded(frail)).size, COUNT);
    await another(frail).keep(made());
    same([...disk.files.keys()].sort(), [`/${NAME}`, '/past-jobs.young.tmp']);
  });

  it('is one of theirs, whole, when two windows write it at once, again and again', async () => {
    const [one, other] = [made(COUNT, 1), made(COUNT, 2)];
    for (let round = 0; round < 15; round++) {
      await Promise.all([another(folder).keep(one), another(folder).keep(other)]);
      const found = [...(await loaded(folder)).entries()];
      same(
        [one, other].some((index) => JSON.stringify([...index.entries()]) === JSON.stringify(found)),
        true,
      );
    }
    const names = (await vscode.workspace.fs.readDirectory(folder)).map(([name]) => name);
    same(names, [NAME]);
  });
});
