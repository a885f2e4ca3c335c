/** Asks for a figure and what was read or run, tells at every key how it stands, and writes the line. */
import {
  type Disposable,
  InputBoxValidationSeverity,
  type QuickPickItem,
  type TextDocument,
  commands,
  l10n,
  window,
} from 'vscode';
import { type How, type Judged, type Readable, judged, readables } from '../../../language/record-reading';
import { applied } from '../applied';
import { workspaceEdit } from '../places';
import { type Workspace, isNote } from '../workspace';

export const RECORD_READING = 'scribeline.recordReading';

export function registerRecordReading(notes: Workspace): Disposable {
  // Given beforehand, by a keybinding for one figure or a macro, nothing is asked.
  return commands.registerCommand(RECORD_READING, async (path?: unknown, how?: unknown, typed?: unknown) => {
    const document = window.activeTextEditor?.document;
    if (!document || !isNote(document)) return false;
    if (typeof path !== 'string' || !isHow(how)) return record(notes, document);
    if (typeof typed === 'string') return write(document, await judge(notes, document, path, how, typed));
    return ask(notes, document, { path, shown: '', last: '', how }, how);
  });
}

/** Whether a reading was written. */
async function record(notes: Workspace, document: TextDocument): Promise<boolean> {
  const calculated = await notes.calculated(document);
  const found = calculated ? readables(calculated.sheet) : [];
  if (found.length === 0) {
    void window.showInformationMessage(l10n.t('This note has no figure yet that could be measured.'));
    return false;
  }
  const figure = await window.showQuickPick(found.map(itemOf), {
    title: l10n.t('Write a reading'),
    placeHolder: l10n.t('Which figure was measured or run?'),
    matchOnDetail: true,
  });
  if (!figure) return false;
  const how = await window.showQuickPick(waysOf(figure.readable.how), {
    title: figure.readable.path,
    placeHolder: figure.readable.shown,
  });
  if (!how) return false;
  return ask(notes, document, figure.readable, how.how);
}

function itemOf(readable: Readable): QuickPickItem & { readonly readable: Readable } {
  const { path, shown, last } = readable;
  return { label: path, description: shown, ...(last === '' ? {} : { detail: last }), readable };
}

function waysOf(likely: How): readonly (QuickPickItem & { readonly how: How })[] {
  const ways = [
    {
      how: 'measured' as const,
      label: l10n.t('measured'),
      description: l10n.t('on the way: says what is left'),
    },
    {
      how: 'final' as const,
      label: l10n.t('final'),
      description: l10n.t('at inspection: inside or outside'),
    },
    {
      how: 'used' as const,
      label: l10n.t('used'),
      description: l10n.t('what was really run, kept for next time'),
    },
  ];
  return [...ways].sort((a, b) => Number(b.how === likely) - Number(a.how === likely));
}

function isHow(word: unknown): word is How {
  return word === 'measured' || word === 'final' || word === 'used';
}

async function judge(
  notes: Workspace,
  document: TextDocument,
  path: string,
  how: How,
  typed: string,
): Promise<Judged | null> {
  const calculated = await notes.calculated(document);
  if (!calculated) return null;
  const { sheet, shops } = calculated;
  return judged({ sheet, shops, text: document.getText() }, path, how, typed);
}

/** One edit of the note, which one undo takes back. */
async function write(document: TextDocument, found: Judged | null): Promise<boolean> {
  return found?.edit ? applied(document, workspaceEdit(document.uri, [found.edit])) : false;
}

async function ask(notes: Workspace, document: TextDocument, readable: Readable, how: How): Promise<boolean> {
  const typed = await window.showInputBox({
    title: `${readable.path} ${how}`,
    prompt: [readable.shown, readable.last].filter((words) => words !== '').join(' · '),
    placeHolder: l10n.t('As the instrument shows it; several with a comma and a blank between'),
    validateInput: async (value) => {
      const found = value.trim() === '' ? null : await judge(notes, document, readable.path, how, value);
      return found ? { message: found.verdict, severity: severityOf(found) } : undefined;
    },
  });
  if (typed === undefined || typed.trim() === '') return false;
  return write(document, await judge(notes, document, readable.path, how, typed));
}

/** What is no reading cannot be written; what is out of limits can, since it was measured. */
function severityOf({ edit, good }: Judged): InputBoxValidationSeverity {
  if (edit === null) return InputBoxValidationSeverity.Error;
  return good ? InputBoxValidationSeverity.Info : InputBoxValidationSeverity.Warning;
}
