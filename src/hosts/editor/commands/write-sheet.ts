/** Writes the job sheet of a note: asks what kind and where, reads the photos beside the note, writes one HTML file. */
import {
  type Disposable,
  type TextDocument,
  UIKind,
  Uri,
  commands,
  env,
  l10n,
  window,
  workspace,
} from 'vscode';
import type { How } from '../../../sheet/how';
import { type ImageFile, MOST_IMAGE } from '../../../sheet/images';
import { type JobSheet, imagesOf, jobSheet } from '../../../sheet/job-sheet';
import { dayOf } from '../../../sheet/day';
import { displayed } from '../../../quantity/display';
import { displaySettings, unitsOf } from '../settings';
import type { Shops } from '../shops';
import { isNote } from '../workspace';
import { writeWhole } from '../write-whole';

export const WRITE_SHEET = 'scribeline.writeSheet';

type Kind = Omit<How, 'paper' | 'units'>;

/** What another command, a test or a key binding may say beforehand; what it leaves out is asked. */
export interface SheetRequest extends Partial<Omit<How, 'paper'>> {
  /** The note, where it is not the one in the active editor. */
  readonly note?: Uri;
  readonly target?: Uri;
}

export function registerWriteSheet(extension: Uri, shops: Shops): Disposable {
  return commands.registerCommand(WRITE_SHEET, async (request?: SheetRequest) => {
    const document = request?.note
      ? await workspace.openTextDocument(request.note)
      : window.activeTextEditor?.document;
    if (!document || !isNote(document)) return undefined;
    const kind: Kind | undefined = request?.target
      ? { answers: request.answers ?? 'shown', workings: request.workings ?? false }
      : await askKind();
    const target = kind && (request?.target ?? (await askPlace(document)));
    if (!kind || !target) return undefined;
    const made = await make(document, extension, shops, { ...kind, units: request?.units ?? 'own' });
    if (!(await written(target, document, made.html))) return undefined;
    if (!request?.target) void told(target, made);
    return target;
  });
}

/** Whether the sheet is there; where it is not, why is said, and what was there before still is. */
async function written(target: Uri, { uri }: TextDocument, html: string): Promise<boolean> {
  const name = target.path.split('/').at(-1) ?? '';
  if (target.toString() === uri.toString()) {
    void window.showErrorMessage(l10n.t('{0} is the note itself. Give the sheet another name.', name));
    return false;
  }
  try {
    await writeWhole(target, html);
    return true;
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    void window.showErrorMessage(
      l10n.t(
        '{0} could not be written, and what was there before still is ({1}). Make room or take another place, and try again.',
        name,
        why,
      ),
    );
    return false;
  }
}

async function askKind(): Promise<Kind | undefined> {
  const kinds: readonly { label: string; detail: string; way: Kind }[] = [
    {
      label: l10n.t('Job sheet'),
      detail: l10n.t('for the clipboard at the machine'),
      way: { answers: 'shown', workings: false },
    },
    {
      label: l10n.t('Job sheet with workings'),
      detail: l10n.t('every figure with its working and the reason for it'),
      way: { answers: 'shown', workings: true },
    },
    {
      label: l10n.t('Sheet to fill in'),
      detail: l10n.t('blanks for whoever is learning; each answer folded under its line'),
      way: { answers: 'hidden', workings: false },
    },
  ];
  return (await window.showQuickPick(kinds, { title: l10n.t('Write the job sheet') }))?.way;
}

function askPlace({ uri }: TextDocument): Thenable<Uri | undefined> {
  const folder = workspace.workspaceFolders?.[0]?.uri;
  const defaultUri =
    uri.scheme === 'untitled' ? folder : uri.with({ path: `${uri.path.replace(/\.md$/i, '')}.sheet.html` });
  return window.showSaveDialog({ ...(defaultUri ? { defaultUri } : {}), filters: { HTML: ['html'] } });
}

async function make(
  document: TextDocument,
  extension: Uri,
  shops: Shops,
  how: Omit<How, 'paper'>,
): Promise<JobSheet> {
  const inForce = await shops.of(document.uri);
  const text = document.getText();
  const styles = (
    await Promise.all(
      ['preview.css', 'sheet.css'].map((name) => read(Uri.joinPath(extension, 'media', name))),
    )
  )
    .map((bytes) => new TextDecoder().decode(bytes))
    .join('\n');
  const images = new Map<string, ImageFile>();
  for (const path of imagesOf(text)) images.set(path, await image(document.uri, path));
  const hash = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(styles));
  const order = {
    text,
    shops: inForce,
    usualUnits: unitsOf(document.uri),
    how,
    date: dayOf(new Date()),
    file: workspace.asRelativePath(document.uri, false),
    images,
    styles,
    styleHash: `sha256-${btoa(String.fromCharCode(...new Uint8Array(hash)))}`,
  };
  return displayed(displaySettings(document.uri), () => jobSheet(order));
}

function read(uri: Uri): Thenable<Uint8Array> {
  return workspace.fs.readFile(uri);
}

/** A file in the note's folder or below: a sheet is given away, and what lies elsewhere is nobody's business. */
async function image(note: Uri, path: string): Promise<ImageFile> {
  const folder = Uri.joinPath(note, '..');
  const uri = Uri.joinPath(folder, path);
  if (!uri.path.startsWith(folder.path.endsWith('/') ? folder.path : `${folder.path}/`))
    return { unreadable: 'outside' };
  try {
    const { size } = await workspace.fs.stat(uri);
    return size > MOST_IMAGE ? { size } : { bytes: await read(uri) };
  } catch (error) {
    return { unreadable: String(error) };
  }
}

async function told(target: Uri, { errors, findings }: JobSheet): Promise<void> {
  const name = target.path.split('/').at(-1) ?? '';
  // A browser has no way to a file of the machine that VS Code serves it from; from the explorer it can be fetched.
  const here = env.uiKind === UIKind.Desktop && env.remoteName === undefined;
  const open = here ? l10n.t('Open') : l10n.t('Show in Explorer');
  const words =
    errors > 0
      ? l10n.t('{0} is written. The job has errors, which stand at its top.', name)
      : findings.length > 0
        ? l10n.t('{0} is written. Not every image is on it: see its top.', name)
        : l10n.t('{0} is written.', name);
  const show = errors > 0 ? window.showWarningMessage : window.showInformationMessage;
  if ((await show(words, open)) !== open) return;
  if (here) await env.openExternal(target);
  else await commands.executeCommand('revealInExplorer', target);
}
