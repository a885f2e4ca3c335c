/** Asking past jobs in one line, answered while it is typed. */
import {
  type Disposable,
  type QuickPickItem,
  QuickPickItemKind,
  Range,
  type Uri,
  commands,
  l10n,
  window,
} from 'vscode';
import { labelOf } from '../../../archive/entry';
import { type Hit, find } from '../../../archive/find';
import type { JobIndex } from '../../../archive/job-index';
import { EXAMPLE, readQuery } from '../../../archive/query';
import type { PastJobs } from './past-jobs';

interface Answer extends QuickPickItem {
  readonly uri?: Uri;
  readonly line?: number;
}

/** As many as one scrolls through; the rest is told as a number. */
const MOST = 200;

export function registerFindJobs(past: PastJobs): Disposable {
  return commands.registerCommand('scribeline.findJobs', async (asked?: unknown) => {
    const index = await past.ready();
    if (index) ask(past, index, typeof asked === 'string' ? asked : '');
  });
}

function ask(past: PastJobs, index: JobIndex, asked: string): void {
  const pick = window.createQuickPick<Answer>();
  pick.title = l10n.t('Find past jobs');
  pick.placeholder = l10n.t('Words and conditions, for example: {0}', EXAMPLE);
  pick.value = asked;
  const show = (): void => void (pick.items = answers(past, index, pick.value));
  pick.onDidChangeValue(show);
  pick.onDidAccept(() => {
    const [chosen] = pick.selectedItems;
    if (!chosen?.uri) return;
    pick.hide();
    void openAt(chosen.uri, chosen.line ?? 0);
  });
  pick.onDidHide(() => pick.dispose());
  show();
  pick.show();
}

export async function openAt(uri: Uri, line: number): Promise<void> {
  await window.showTextDocument(uri, { selection: new Range(line, 0, line, 0), preview: true });
}

function answers(past: PastJobs, index: JobIndex, query: string): readonly Answer[] {
  if (query.trim() === '') return [];
  const read = readQuery(query);
  // The list filters by what is typed; what was found stands whatever its label says.
  const always = { alwaysShow: true };
  if ('problem' in read) return [{ label: `$(info) ${read.problem.says.replaceAll('`', '')}`, ...always }];
  const hits = find(index, read.terms);
  if (hits.length === 0)
    return [{ label: `$(circle-slash) ${l10n.t('No job of {0} fits.', index.size)}`, ...always }];
  const shown = hits.slice(0, MOST).flatMap((hit) => answersOf(past, hit));
  const more = hits.length - MOST;
  if (more > 0)
    shown.push({ label: l10n.t('{0} more: narrow the question', more), kind: QuickPickItemKind.Separator });
  return shown;
}

function answersOf(past: PastJobs, hit: Hit): Answer[] {
  const { path, job, amounts } = hit;
  const uri = past.uri(path);
  if (!uri) return [];
  const [first] = amounts;
  const facts = [job['customer'], job['due']].filter((it) => it !== undefined && it !== '').join(' · ');
  const said = amounts
    .slice(0, 4)
    .map(
      ({ name, how, shown, comment }) =>
        `${how === 'figure' ? name : `${name} ${how}`} ${shown}${comment ? ` (${comment})` : ''}`,
    )
    .join('    ');
  return [
    {
      label: labelOf(path, hit),
      description: facts,
      detail: said === '' ? path : said,
      alwaysShow: true,
      uri,
      line: first?.line ?? 0,
    },
  ];
}
