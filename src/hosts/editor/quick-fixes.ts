/** Offers the likely meanings of what a finding refuses. */
import {
  CodeAction,
  CodeActionKind,
  type Diagnostic,
  type Disposable,
  type Range,
  type TextDocument,
  WorkspaceEdit,
  languages,
} from 'vscode';
import { fixes } from '../../language/quick-fixes';
import { SOURCE } from './diagnostics';
import { editorRange, plainRange } from './places';
import type { Workspace } from './workspace';

export function registerQuickFixes(notes: Workspace): Disposable {
  const provideCodeActions = async (
    document: TextDocument,
    range: Range,
    { diagnostics }: { readonly diagnostics: readonly Diagnostic[] },
  ): Promise<CodeAction[]> => {
    const calculated = await notes.calculated(document);
    if (!calculated) return [];
    return fixes(calculated.sheet, plainRange(range)).map((fix) => {
      const action = new CodeAction(fix.title, CodeActionKind.QuickFix);
      const place = editorRange(fix.range);
      action.edit = new WorkspaceEdit();
      action.edit.replace(document.uri, place, fix.text);
      action.isPreferred = fix.preferred;
      const marked = editorRange(fix.mark.range);
      action.diagnostics = diagnostics.filter(
        (each) => each.source === SOURCE && each.code === fix.mark.code && each.range.isEqual(marked),
      );
      return action;
    });
  };
  return languages.registerCodeActionsProvider(
    { language: 'markdown' },
    { provideCodeActions },
    { providedCodeActionKinds: [CodeActionKind.QuickFix] },
  );
}
