/** Marks findings in open notes, a little after the typing stops. */
import {
  Diagnostic,
  DiagnosticRelatedInformation,
  DiagnosticSeverity,
  Disposable,
  type LogOutputChannel,
  type TextDocument,
  languages,
  workspace,
} from 'vscode';
import { isolated } from '../../engine/index';
import { type Mark, marks } from '../../language/diagnostics';
import { explanationOf } from './commands/explain-finding';
import { editorRange, location } from './places';
import { type Workspace, isNote } from './workspace';

export const SOURCE = 'scribeline';

/** Long enough that a word is typed to its end, short enough to feel immediate. */
const PAUSE_MS = 150;

const SEVERITIES = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  info: DiagnosticSeverity.Information,
};

export function registerDiagnostics(notes: Workspace, log: LogOutputChannel): Disposable {
  const collection = languages.createDiagnosticCollection(SOURCE);
  const timers = new Map<string, ReturnType<typeof setTimeout>>();

  const refresh = async (document: TextDocument): Promise<void> => {
    const calculated = await notes.calculated(document);
    if (document.isClosed) return;
    if (calculated)
      collection.set(
        document.uri,
        marks(calculated.sheet).map((each) => diagnostic(document, each)),
      );
    else collection.delete(document.uri);
  };
  const soon = (document: TextDocument, pause: number): void => {
    if (!isNote(document)) return;
    const key = document.uri.toString();
    clearTimeout(timers.get(key));
    const due = (): void => {
      timers.delete(key);
      refresh(document).catch((error: unknown) => log.error(`${document.uri.path}: ${String(error)}`));
    };
    timers.set(key, setTimeout(due, pause));
  };
  const forget = (document: TextDocument): void => {
    const key = document.uri.toString();
    clearTimeout(timers.get(key));
    timers.delete(key);
    collection.delete(document.uri);
  };

  for (const document of notes.openNotes()) soon(document, 0);
  return Disposable.from(
    collection,
    workspace.onDidOpenTextDocument((document) => soon(document, 0)),
    // Saving alone tells of a change without any.
    workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
      if (contentChanges.length > 0) soon(document, PAUSE_MS);
    }),
    workspace.onDidCloseTextDocument(forget),
    notes.onDidChangeCards(() => notes.openNotes().forEach((document) => soon(document, PAUSE_MS))),
    new Disposable(() => timers.forEach((timer) => clearTimeout(timer))),
  );
}

/** The finding's code, with or without the address of its explanation. */
export function codeOf({ code }: Diagnostic): string {
  return String(typeof code === 'object' ? code.value : (code ?? ''));
}

function diagnostic(note: TextDocument, { range, severity, code, message, related }: Mark): Diagnostic {
  const made = new Diagnostic(editorRange(range), isolated(message), SEVERITIES[severity]);
  made.source = SOURCE;
  made.code = { value: code, target: explanationOf(code) };
  made.relatedInformation = related.map(
    (place) => new DiagnosticRelatedInformation(location(note, place), isolated(place.message)),
  );
  return made;
}
