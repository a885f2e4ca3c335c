/** Asks what a job is about and writes a note for it that calculates. */
import {
  type Disposable,
  FileType,
  type QuickPickItem,
  Uri,
  WorkspaceEdit,
  commands,
  l10n,
  window,
  workspace,
} from 'vscode';
import { type Sheet, calculate } from '../../../engine/index';
import { JOB_KINDS, type JobKind, jobPath, newJob, nextNumber } from '../../../language/new-job';
import { jobSettings } from '../settings';
import type { Shops } from '../shops';

export const NEW_JOB = 'scribeline.newJob';

/** Files whose paths are looked at for the highest number. */
const MOST_FILES = 20_000;

export function registerNewJob(shops: Shops): Disposable {
  // Given beforehand, answers are not asked for.
  return commands.registerCommand(NEW_JOB, (given?: unknown) => ask(shops, isAnswers(given) ? given : {}));
}

interface Answers {
  readonly customer?: string;
  readonly part?: string;
  readonly material?: string;
  readonly machine?: string;
  readonly kind?: JobKind;
}

function isAnswers(given: unknown): given is Answers {
  if (typeof given !== 'object' || given === null) return false;
  return Object.values(given).every((answer) => typeof answer === 'string');
}

async function ask(shops: Shops, given: Answers): Promise<void> {
  const root = await folder();
  const customer =
    given.customer ??
    (await words(l10n.t('New job: customer'), l10n.t('Who brings the work? May stay empty.')));
  if (customer === undefined) return;
  const part =
    given.part ??
    (await words(l10n.t('New job: part'), l10n.t('What is it? The note and its file are called so.')));
  if (part === undefined) return;
  const layout = jobSettings(root);
  // Cards are those that will be in force where the note comes to lie.
  const place = root && Uri.joinPath(root, jobPath(layout.path, { part, number: '0', year: year() }));
  const inForce = place ? await shops.of(place) : [];
  const cards = calculate('', inForce);
  const material = given.material ?? (await card(cards, 'material', l10n.t('New job: material')));
  if (material === undefined) return;
  const machine = given.machine ?? (await card(cards, 'machine', l10n.t('New job: machine')));
  if (machine === undefined) return;
  const kind = given.kind ?? (await kindOfWork());
  if (!kind) return;
  const number = nextNumber(await paths(), layout.path);
  const job = { customer, part, material: material || null, machine: machine || null, kind, number };
  const text = newJob({ ...job, units: layout.units }, inForce);
  await write(root, jobPath(layout.path, { part, number, year: year() }), text);
}

const year = (): string => String(new Date().getFullYear());

async function folder(): Promise<Uri | undefined> {
  const folders = workspace.workspaceFolders ?? [];
  const picked = folders.length > 1 ? await window.showWorkspaceFolderPick() : folders[0];
  return picked?.uri;
}

function words(title: string, prompt: string): Thenable<string | undefined> {
  return window.showInputBox({ title, prompt, ignoreFocusOut: true });
}

interface CardItem extends QuickPickItem {
  readonly name: string;
}

/** The shop's own cards, then the starter cards; empty for one that is not decided yet. */
async function card(cards: Sheet, word: 'machine' | 'material', title: string): Promise<string | undefined> {
  const known = cards.cards().filter((each) => each.word === word);
  const items = [...known]
    .sort((a, b) => Number(a.builtIn) - Number(b.builtIn))
    .map(({ name, fields, builtIn }): CardItem => {
      const remark = fields.get('kind') ?? fields.get('name');
      const detail = remark?.kind === 'text' ? remark.text : '';
      return { label: name, description: builtIn ? l10n.t('starter card') : detail, name };
    });
  const later: CardItem = { label: l10n.t('Not decided yet'), name: '' };
  const options = { title, ignoreFocusOut: true, matchOnDescription: true };
  return (await window.showQuickPick([...items, later], options))?.name;
}

async function kindOfWork(): Promise<JobKind | undefined> {
  const labels: Record<JobKind, readonly [string, string]> = {
    ball: [l10n.t('Ball on a shank'), l10n.t('tilt, ring and height of the set-up')],
    turned: [l10n.t('Turned shaft'), l10n.t('a fit, speed, feed, time and cuts')],
    indexed: [l10n.t('Indexed part'), l10n.t('turns and holes of the dividing head')],
    empty: [l10n.t('Empty'), l10n.t('a head and one block')],
  };
  const items = JOB_KINDS.map((kind) => ({
    label: labels[kind][0],
    description: labels[kind][1],
    work: kind,
  }));
  const picked = await window.showQuickPick(items, {
    title: l10n.t('New job: kind of work'),
    ignoreFocusOut: true,
  });
  return picked?.work;
}

async function paths(): Promise<readonly string[]> {
  const found = await workspace.findFiles('**/*.md', '**/node_modules/**', MOST_FILES);
  return found.map((uri) => workspace.asRelativePath(uri, false));
}

/** Without a folder the note is left unsaved, for the user to place. A file that is there is never written over. */
async function write(root: Uri | undefined, path: string, text: string): Promise<void> {
  if (!root) {
    await window.showTextDocument(await workspace.openTextDocument({ language: 'markdown', content: text }));
    return;
  }
  const uri = await free(root, path);
  const edit = new WorkspaceEdit();
  edit.createFile(uri, { overwrite: false, contents: new TextEncoder().encode(text) });
  if (!(await workspace.applyEdit(edit))) {
    void window.showErrorMessage(
      l10n.t(
        '{0} could not be written, so there is no new job. See that its folder can be made, or change where jobs go in the setting scribeline.jobs.path.',
        path,
      ),
    );
    return;
  }
  await window.showTextDocument(uri);
}

async function free(root: Uri, path: string): Promise<Uri> {
  for (let i = 1; ; i++) {
    const uri = Uri.joinPath(root, i === 1 ? path : path.replace(/\.md$/i, `-${i}.md`));
    const type = await workspace.fs.stat(uri).then(
      (stat) => stat.type,
      () => FileType.Unknown,
    );
    if (type === FileType.Unknown) return uri;
  }
}
