/** The built-in preview: the figures plugin with the cards of each note, drawn again when they change. */
import { Disposable, type LogOutputChannel, Uri, commands, workspace } from 'vscode';
import type { PreviewHost } from '../preview/plugin';
import { SECTION, displaySettings, unitsOf, workingsInPreview } from './settings';
import type { Shops } from './shops';

/** While a shop file is being typed in, the preview need not follow every key. */
const PAUSE_MS = 250;

export function previewHost(shops: Shops): PreviewHost {
  return {
    cardsFor(uri) {
      if (!(uri instanceof Uri)) return { shops: [], loading: false };
      const known = shops.now(uri);
      return { shops: known ?? [], loading: known === null };
    },
    workings: (uri) => uri instanceof Uri && workingsInPreview(uri),
    reader: (uri) => (uri instanceof Uri ? { units: unitsOf(uri), display: displaySettings(uri) } : null),
  };
}

export function registerPreview(shops: Shops, log: LogOutputChannel): Disposable {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const refresh = (): void => {
    const failed = (error: unknown): void => log.warn(`the preview was not drawn again: ${String(error)}`);
    commands.executeCommand('markdown.preview.refresh').then(undefined, failed);
  };
  const soon = (): void => {
    clearTimeout(timer);
    timer = setTimeout(refresh, PAUSE_MS);
  };
  const settings = workspace.onDidChangeConfiguration((change) => {
    if (change.affectsConfiguration(SECTION)) soon();
  });
  return Disposable.from(settings, shops.onDidChange(soon), new Disposable(() => clearTimeout(timer)));
}
