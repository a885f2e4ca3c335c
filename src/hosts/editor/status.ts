/** One item in the status bar: what the findings of the note at hand come to. Only where a job note is open. */
import {
  Disposable,
  type LogOutputChannel,
  StatusBarAlignment,
  ThemeColor,
  commands,
  l10n,
  window,
  workspace,
} from 'vscode';
import { marks } from '../../language/diagnostics';
import { type Workspace, isNote } from './workspace';

const PAUSE_MS = 200;
/** For menus that make sense in a job note only. */
const CONTEXT = 'scribeline.jobNote';

export function registerStatus(notes: Workspace, log: LogOutputChannel): Disposable {
  const item = window.createStatusBarItem('scribeline.findings', StatusBarAlignment.Left, 10);
  item.name = l10n.t('Findings of the job note');
  item.command = 'workbench.actions.view.problems';
  let timer: ReturnType<typeof setTimeout> | undefined;

  const refresh = async (): Promise<void> => {
    const document = window.activeTextEditor?.document;
    const calculated = document && isNote(document) ? await notes.calculated(document) : null;
    if (document !== window.activeTextEditor?.document) return;
    void commands.executeCommand('setContext', CONTEXT, calculated !== null);
    if (!calculated) {
      item.hide();
      return;
    }
    const found = marks(calculated.sheet);
    const errors = found.filter(({ severity }) => severity === 'error').length;
    const warnings = found.filter(({ severity }) => severity === 'warning').length;
    item.text = textOf(errors, warnings);
    item.tooltip = l10n.t(
      'Job note: {0} errors, {1} warnings, {2} remarks',
      errors,
      warnings,
      found.length - errors - warnings,
    );
    item.accessibilityInformation = { label: item.tooltip };
    item.backgroundColor = errors > 0 ? new ThemeColor('statusBarItem.errorBackground') : undefined;
    item.show();
  };
  const soon = (): void => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      refresh().catch((error: unknown) => log.error(`status bar: ${String(error)}`));
    }, PAUSE_MS);
  };
  soon();
  return Disposable.from(
    item,
    window.onDidChangeActiveTextEditor(soon),
    workspace.onDidChangeTextDocument(({ document }) => {
      if (document === window.activeTextEditor?.document) soon();
    }),
    notes.onDidChangeCards(soon),
    new Disposable(() => clearTimeout(timer)),
  );
}

function textOf(errors: number, warnings: number): string {
  if (errors + warnings === 0) return `$(check) ${l10n.t('figures')}`;
  const parts = [errors > 0 ? `$(error) ${errors}` : '', warnings > 0 ? `$(warning) ${warnings}` : ''];
  return `${parts.filter((part) => part !== '').join(' ')} ${l10n.t('figures')}`;
}
