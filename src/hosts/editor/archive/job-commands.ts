/** Commands on whole jobs: repeat one, compare two, sign one off. */
import {
  Disposable,
  type ExtensionContext,
  Position,
  type TextDocument,
  Uri,
  WorkspaceEdit,
  commands,
  l10n,
  window,
  workspace,
} from 'vscode';
import { compareJobs, comparisonPage } from '../../../archive/compare';
import { inColumns } from '../../../archive/in-columns';
import { entryOf, labelOf } from '../../../archive/entry';
import { isJob } from '../../../archive/grouped';
import { repeatOf } from '../../../archive/repeat';
import { errorsOf, signedNote } from '../../../archive/sign';
import { calculate } from '../../../engine/index';
import { dayOf } from '../../../sheet/day';
import type { Shops } from '../shops';
import { type SheetRequest, WRITE_SHEET } from '../commands/write-sheet';
import { textOf } from '../texts';
import { applied } from '../applied';
import { versionOf } from '../version';
import { type Workspace, isNote } from '../workspace';
import type { PastJobs } from './past-jobs';

const COMPARISON = 'scribeline-comparison';

/** A job as commands are given it: from a row of the view, a file, or not at all. */
type Given = Uri | { readonly path?: unknown } | undefined;

export function registerJobCommands(
  past: PastJobs,
  notes: Workspace,
  shops: Shops,
  context: ExtensionContext,
): Disposable {
  const uriOf = (given: Given): Uri | undefined => {
    if (given instanceof Uri) return given;
    return given && typeof given.path === 'string' ? past.uri(given.path) : undefined;
  };
  const chosen = async (given: Given, title: string, not?: Uri): Promise<Uri | undefined> =>
    uriOf(given) ?? openJob(not) ?? pickJob(past, title, not);
  return Disposable.from(
    commands.registerCommand('scribeline.repeatJob', async (given?: Given, number?: unknown) => {
      const uri = await chosen(given, l10n.t('Which job is repeated?'));
      if (uri) await repeat(uri, shops, textOrNone(number));
    }),
    commands.registerCommand('scribeline.compareJobs', async (given?: Given, other?: Given) => {
      const first = await chosen(given, l10n.t('Compare which job?'));
      const second =
        first && (uriOf(other) ?? (await pickJob(past, l10n.t('Compare it with which job?'), first)));
      if (first && second) await showComparison(first, second);
    }),
    commands.registerCommand('scribeline.sheetOfJob', async (given?: Given, target?: Uri) => {
      const note = await chosen(given, l10n.t('The sheet of which job?'));
      const request: SheetRequest = { ...(note && { note }), ...(target instanceof Uri && { target }) };
      return note && commands.executeCommand<Uri | undefined>(WRITE_SHEET, request);
    }),
    commands.registerCommand('scribeline.signOff', (by?: unknown) => signOff(notes, context, textOrNone(by))),
    workspace.registerTextDocumentContentProvider(COMPARISON, {
      provideTextDocumentContent: (uri) => comparison(uri, shops),
    }),
  );
}

/** Keyboard shortcuts may give what a question would ask for. */
const textOrNone = (it: unknown): string | undefined => (typeof it === 'string' ? it : undefined);

function openJob(not?: Uri): Uri | undefined {
  const document = window.activeTextEditor?.document;
  return document && isNote(document) && !document.isUntitled && document.uri.toString() !== not?.toString()
    ? document.uri
    : undefined;
}

async function pickJob(past: PastJobs, title: string, not?: Uri): Promise<Uri | undefined> {
  const index = await past.ready();
  if (!index) return undefined;
  const jobs = [...index.entries()].flatMap(({ path, entry }) => {
    const uri = past.uri(path);
    if (!uri || !isJob(entry) || uri.toString() === not?.toString()) return [];
    const { job } = entry;
    return [
      {
        label: labelOf(path, entry),
        description: [job['customer'], job['due']].filter(Boolean).join(' · '),
        detail: path,
        uri,
      },
    ];
  });
  jobs.sort((a, b) => (a.label < b.label ? 1 : a.label > b.label ? -1 : 0));
  return (await window.showQuickPick(jobs, { title, matchOnDescription: true, matchOnDetail: true }))?.uri;
}

/** The new note is not saved: it is looked through first. Its file is offered beside the old one. */
async function repeat(uri: Uri, shops: Shops, number: string | undefined): Promise<void> {
  const text = await textOf(uri);
  const sheet = calculate(text, await shops.of(uri));
  const job =
    number ??
    (await window.showInputBox({
      title: l10n.t('Repeat a job'),
      prompt: l10n.t('Number of the new job'),
      validateInput: (value) => (value.trim() === '' ? l10n.t('The new job needs a number.') : undefined),
    }));
  if (job === undefined) return;
  const old = sheet.job().get('job') ?? workspace.asRelativePath(uri);
  const content = repeatOf(text, sheet, { job: job.trim(), of: old });
  const document = await workspace.openTextDocument({ language: 'markdown', content });
  await window.showTextDocument(document);
}

async function showComparison(first: Uri, second: Uri): Promise<void> {
  const uri = Uri.from({
    scheme: COMPARISON,
    path: `/${nameIn(first)} and ${nameIn(second)}.md`,
    query: JSON.stringify([first.toString(), second.toString()]),
  });
  await window.showTextDocument(await workspace.openTextDocument(uri), { preview: true });
}

const nameIn = (uri: Uri): string => uri.path.replace(/^.*\//, '').replace(/\.md$/, '');

async function comparison({ query }: Uri, shops: Shops): Promise<string> {
  const named: unknown = JSON.parse(query);
  if (!Array.isArray(named)) return '';
  const uris = named.map((it) => Uri.parse(String(it)));
  const entries = await Promise.all(uris.map(async (uri) => entryOf(await textOf(uri), await shops.of(uri))));
  const [a, b] = entries;
  const [first, second] = uris.map((uri) => workspace.asRelativePath(uri));
  return a && b ? inColumns(comparisonPage(compareJobs(a, b), first ?? '', second ?? '')) : '';
}

const SIGNED_BY = 'signedBy';

/** Whether the note was signed. */
async function signOff(
  notes: Workspace,
  context: ExtensionContext,
  signer: string | undefined,
): Promise<boolean> {
  const document = window.activeTextEditor?.document;
  const calculated = document && (await notes.calculated(document));
  if (!document || !calculated) {
    await window.showInformationMessage(l10n.t('Open the note of the job that is signed off.'));
    return false;
  }
  const errors = errorsOf(calculated.sheet);
  if (errors.length > 0 && !(await signAnyway(errors))) return false;
  const by =
    signer ??
    (await window.showInputBox({
      title: l10n.t('Sign off'),
      prompt: l10n.t('Who signs? The results are written to the end of the note.'),
      value: context.globalState.get<string>(SIGNED_BY, ''),
    }));
  if (by === undefined) return false;
  await context.globalState.update(SIGNED_BY, by.trim());
  // Asked again: the note may have changed while the questions stood open.
  const now = await notes.calculated(document);
  if (!now) return false;
  const signature = { date: dayOf(new Date()), version: versionOf(context), by };
  return write(document, signedNote(document.getText(), now.sheet, signature));
}

async function signAnyway(errors: ReturnType<typeof errorsOf>): Promise<boolean> {
  const sign = l10n.t('Sign with errors');
  const list = errors
    .slice(0, 5)
    .map(({ line, message }) => l10n.t('Line {0}: {1}', line + 1, message.replaceAll('`', '')));
  const answer = await window.showWarningMessage(
    errors.length === 1
      ? l10n.t('The note has an error. It will be recorded with the signature.')
      : l10n.t('The note has {0} errors. They will be recorded with the signature.', errors.length),
    { modal: true, detail: list.join('\n') },
    sign,
  );
  return answer === sign;
}

/** Only what is new is put in, so that it is one undo and no cursor moves. */
async function write(document: TextDocument, text: string): Promise<boolean> {
  const old = document.getText();
  const end = document.positionAt(old.length);
  const edit = new WorkspaceEdit();
  edit.insert(document.uri, new Position(end.line, end.character), text.slice(old.length));
  return applied(document, edit);
}
