/** Shows the pages that come with the extension in the editor's own preview of markdown. */
import { Disposable, Uri, commands, l10n, window, workspace } from 'vscode';

export const OPEN_PAGE = 'scribeline.openPage';
const SCHEME = 'scribeline-page';

/** Files in the extension's folder `media`, with what each is about. */
const PAGES: readonly (readonly [name: string, title: () => string, detail: () => string])[] = [
  [
    'notation',
    () => l10n.t('Notation'),
    () => l10n.t('quantities, limits, readings and checks, and what is refused'),
  ],
  ['formulas', () => l10n.t('Formulas'), () => l10n.t('everything that can be worked out, with its source')],
  [
    'past-jobs',
    () => l10n.t('Past jobs'),
    () => l10n.t('find, repeat, compare and sign off; lessons and what was used last time'),
  ],
  ['job-sheet', () => l10n.t('Job sheet'), () => l10n.t('to print, to read at the machine, to hand over')],
  ['wrong-number', () => l10n.t('A wrong number'), () => l10n.t('what to look at first, and what to send')],
];

export function registerOpenPage(extension: Uri): Disposable {
  const pages = workspace.registerTextDocumentContentProvider(SCHEME, {
    provideTextDocumentContent: async ({ path }) =>
      new TextDecoder().decode(await workspace.fs.readFile(Uri.joinPath(extension, 'media', path))),
  });
  const open = async (asked: unknown): Promise<void> => {
    const name = typeof asked === 'string' ? asked : await pick();
    if (!PAGES.some(([known]) => known === name)) return;
    await commands.executeCommand(
      'markdown.showPreview',
      Uri.from({ scheme: SCHEME, path: `/${name ?? ''}.md` }),
    );
  };
  return Disposable.from(pages, commands.registerCommand(OPEN_PAGE, open));
}

async function pick(): Promise<string | undefined> {
  const items = PAGES.map(([name, title, detail]) => ({ label: title(), detail: detail(), name }));
  return (await window.showQuickPick(items, { placeHolder: l10n.t('Which page?') }))?.name;
}
