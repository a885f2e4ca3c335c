/** Shows the page of a finding's code in the editor's own preview of markdown. */
import { Disposable, Uri, commands, l10n, window, workspace } from 'vscode';
import { findingCodes, findingPage } from '../../../language/explain-finding';

export const EXPLAIN_FINDING = 'scribeline.explainFinding';
const SCHEME = 'scribeline-finding';

/** The address that opens a finding's page; the editor links a finding's code to it. */
export function explanationOf(code: string): Uri {
  return Uri.parse(`command:${EXPLAIN_FINDING}?${encodeURIComponent(JSON.stringify([code]))}`);
}

export function registerExplainFinding(): Disposable {
  const pages = workspace.registerTextDocumentContentProvider(SCHEME, {
    provideTextDocumentContent: ({ path }) => findingPage(path.replace(/^\/|\.md$/g, '')) ?? '',
  });
  const explain = async (asked: unknown): Promise<void> => {
    const code = typeof asked === 'string' ? asked : await pick();
    if (code === undefined || findingPage(code) === null) return;
    await commands.executeCommand('markdown.showPreview', Uri.from({ scheme: SCHEME, path: `/${code}.md` }));
  };
  return Disposable.from(pages, commands.registerCommand(EXPLAIN_FINDING, explain));
}

function pick(): Thenable<string | undefined> {
  return window.showQuickPick(findingCodes(), { placeHolder: l10n.t('Which finding?') });
}
