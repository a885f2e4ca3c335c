/** Offers what can be done about a finding or with a line. */
import {
  CodeAction,
  CodeActionKind,
  type Diagnostic,
  type Disposable,
  type Range,
  type TextDocument,
  l10n,
  languages,
} from 'vscode';
import { type Fix, fixes } from '../../language/quick-fixes';
import { SOURCE, codeOf } from './diagnostics';
import { editorRange, plainRange, workspaceEdit } from './places';
import { fixSettings } from './settings';
import type { Workspace } from './workspace';

export function registerQuickFixes(notes: Workspace): Disposable {
  const provideCodeActions = async (
    document: TextDocument,
    range: Range,
    { diagnostics }: { readonly diagnostics: readonly Diagnostic[] },
  ): Promise<CodeAction[]> => {
    const calculated = await notes.calculated(document);
    if (!calculated) return [];
    const { sheet, shops } = calculated;
    const noted = { sheet, shops, text: document.getText() };
    return fixes(noted, plainRange(range), fixSettings(document.uri)).map((fix) =>
      actionOf(fix, document, diagnostics),
    );
  };
  return languages.registerCodeActionsProvider(
    { language: 'markdown' },
    { provideCodeActions },
    { providedCodeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.RefactorRewrite] },
  );
}

function actionOf(fix: Fix, document: TextDocument, diagnostics: readonly Diagnostic[]): CodeAction {
  const kind = fix.kind === 'fix' ? CodeActionKind.QuickFix : CodeActionKind.RefactorRewrite;
  const action = new CodeAction(l10n.t(fix.title.text, ...fix.title.args), kind);
  action.edit = workspaceEdit(document.uri, fix.edits);
  action.isPreferred = fix.preferred;
  const { mark } = fix;
  if (mark) {
    const marked = editorRange(mark.range);
    action.diagnostics = diagnostics.filter(
      (each) => each.source === SOURCE && codeOf(each) === mark.code && each.range.isEqual(marked),
    );
  }
  return action;
}
