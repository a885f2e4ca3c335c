/** What the tests inside VS Code share. */
import * as vscode from 'vscode';

export const SOURCE = 'scribeline';

export function file(path: string): vscode.Uri {
  const root = vscode.workspace.workspaceFolders?.[0];
  if (!root) throw new Error('no workspace is open');
  return vscode.Uri.joinPath(root.uri, path);
}

export async function open(path: string): Promise<vscode.TextDocument> {
  const document = await vscode.workspace.openTextDocument(file(path));
  await vscode.window.showTextDocument(document);
  return document;
}

/** A note that was never saved. */
export async function unsaved(content: string): Promise<vscode.TextDocument> {
  const document = await vscode.workspace.openTextDocument({ language: 'markdown', content });
  await vscode.window.showTextDocument(document);
  // The editor gives a new note the address of the one just closed, and now and then that one's emptiness too.
  if (document.getText() !== content) {
    const edit = new vscode.WorkspaceEdit();
    edit.replace(document.uri, new vscode.Range(0, 0, document.lineCount, 0), content);
    await vscode.workspace.applyEdit(edit);
  }
  return document;
}

/** Asks again until the answer passes; after half a minute the last answer is the failure. */
export async function until<T>(ask: () => T | Thenable<T>, passes: (answer: T) => boolean): Promise<T> {
  let answer = await ask();
  for (let i = 0; i < 600 && !passes(answer); i++) {
    await new Promise((done) => setTimeout(done, 50));
    answer = await ask();
  }
  if (!passes(answer)) throw new Error(`still not so: ${JSON.stringify(answer)}`);
  return answer;
}

export function marks(document: vscode.TextDocument): vscode.Diagnostic[] {
  return vscode.languages.getDiagnostics(document.uri).filter(({ source }) => source === SOURCE);
}

/** A finding's code, which carries the address of its page. */
export function codeOf({ code }: vscode.Diagnostic): string {
  return String(typeof code === 'object' ? code.value : code);
}

/** Each finding as `code: the text it marks`. */
export function marked(document: vscode.TextDocument): string[] {
  return marks(document).map((mark) => `${codeOf(mark)}: ${document.getText(mark.range)}`);
}

/** Results at the ends of lines. */
export async function hints(document: vscode.TextDocument): Promise<string[]> {
  return (await allHints(document)).filter(({ kind }) => kind === undefined).map(wordsOf);
}

/** Names of parameters before arguments. */
export async function parameterNames(document: vscode.TextDocument): Promise<string[]> {
  return (await allHints(document))
    .filter(({ kind }) => kind === vscode.InlayHintKind.Parameter)
    .map(wordsOf);
}

function wordsOf({ label }: vscode.InlayHint): string {
  return (typeof label === 'string' ? label : label.map(({ value }) => value).join('')).trim();
}

async function allHints(document: vscode.TextDocument): Promise<vscode.InlayHint[]> {
  const all = new vscode.Range(0, 0, document.lineCount, 0);
  return vscode.commands.executeCommand<vscode.InlayHint[]>(
    'vscode.executeInlayHintProvider',
    document.uri,
    all,
  );
}

/** The range of the first place in the note with this text. */
export function rangeOf(document: vscode.TextDocument, text: string): vscode.Range {
  const at = document.getText().indexOf(text);
  if (at < 0) throw new Error(`the note has no ${text}`);
  return new vscode.Range(document.positionAt(at), document.positionAt(at + text.length));
}

export async function replace(document: vscode.TextDocument, text: string, by: string): Promise<void> {
  const edit = new vscode.WorkspaceEdit();
  edit.replace(document.uri, rangeOf(document, text), by);
  if (!(await vscode.workspace.applyEdit(edit))) throw new Error('the edit was refused');
}

export async function hoverAt(document: vscode.TextDocument, text: string): Promise<string> {
  const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
    'vscode.executeHoverProvider',
    document.uri,
    rangeOf(document, text).start,
  );
  const texts = hovers.flatMap(({ contents }) => contents);
  return texts.map((each) => (typeof each === 'string' ? each : each.value)).join('\n');
}

/** Changes a setting of ours for the workspace; `undefined` takes it back. */
export async function setting(key: string, value: unknown): Promise<void> {
  const target = vscode.ConfigurationTarget.Workspace;
  await vscode.workspace.getConfiguration(SOURCE).update(key, value, target);
}

/** What can be done at the first place with this text. */
export function actions(document: vscode.TextDocument, text: string): Thenable<vscode.CodeAction[]> {
  return vscode.commands.executeCommand<vscode.CodeAction[]>(
    'vscode.executeCodeActionProvider',
    document.uri,
    rangeOf(document, text),
  );
}

/** The edit that another name for what stands there comes to; refused with the reason. */
export function renaming(
  document: vscode.TextDocument,
  at: vscode.Position,
  name: string,
): Thenable<vscode.WorkspaceEdit> {
  return vscode.commands.executeCommand('vscode.executeDocumentRenameProvider', document.uri, at, name);
}

/** Of each address the document last drawn and how often it was edited then. */
const drawn = new Map<string, { readonly document: vscode.TextDocument; readonly version: number }>();

/**
 * What the built-in preview shows for a note, drawn by VS Code's own markdown. That takes one never saved for the one before
 * at the same address as long as both were edited equally often: so it is edited once more, to the same text.
 */
export async function preview(document: vscode.TextDocument): Promise<string> {
  const key = document.uri.toString();
  const before = drawn.get(key);
  if (document.isUntitled && before && before.document !== document)
    while (document.version <= before.version) await touched(document);
  drawn.set(key, { document, version: document.version });
  return vscode.commands.executeCommand<string>('markdown.api.render', document);
}

async function touched(document: vscode.TextDocument): Promise<void> {
  const start = new vscode.Position(0, 0);
  const [there, back] = [new vscode.WorkspaceEdit(), new vscode.WorkspaceEdit()];
  there.insert(document.uri, start, ' ');
  back.delete(document.uri, new vscode.Range(start, start.translate(0, 1)));
  for (const edit of [there, back]) await vscode.workspace.applyEdit(edit);
}

/**
 * Words that a notification must show, this test's or an earlier one's. Tests in VS Code cannot see those: who started them
 * looks at the page, and fails them all when nobody was told. Desktop VS Code shows its page to nobody.
 */
export function told(words: string): void {
  console.log(`to be told: ${words}`);
}

/** The words of a page, without its tags. */
export function wordsIn(html: string): string {
  return html
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
}

export function same(is: unknown, wanted: unknown): void {
  const [left, right] = [JSON.stringify(is), JSON.stringify(wanted)];
  if (left !== right) throw new Error(`${left} is not ${right}`);
}

export function includes(text: string, part: string): void {
  if (!text.includes(part)) throw new Error(`${JSON.stringify(text)} has no ${JSON.stringify(part)}`);
}

/** Whether a document differs from its file. Its own word for it comes a little after the change. */
async function isChanged(document: vscode.TextDocument): Promise<boolean> {
  if (document.isDirty || document.isUntitled) return document.isDirty;
  if (document.version === 1 || document.lineCount > 1000 || document.getText().length > 20_000) return false;
  try {
    const bytes = await vscode.workspace.fs.readFile(document.uri);
    return new TextDecoder().decode(bytes) !== document.getText();
  } catch {
    return false; // there is no such file
  }
}

export async function closeAll(): Promise<void> {
  // One whose file is gone stays changed, and one that is no UTF-8 differs from its file.
  for (let turn = 0; turn < 4; turn++) {
    const changed: vscode.TextDocument[] = [];
    for (const document of vscode.workspace.textDocuments)
      if (await isChanged(document)) changed.push(document);
    if (changed.length === 0) break;
    if (turn > 0) await new Promise((done) => setTimeout(done, 50));
    for (const document of changed) {
      await vscode.window.showTextDocument(document);
      await vscode.commands.executeCommand('workbench.action.files.revert');
    }
  }
  await vscode.commands.executeCommand('workbench.action.closeAllEditors');
}
