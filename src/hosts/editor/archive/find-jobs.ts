/** Asking past jobs in one line, answered while it is typed. */
import {
  Disposable,
  type QuickPickItem,
  QuickPickItemKind,
  Range,
  ThemeIcon,
  type Uri,
  commands,
  l10n,
  window,
} from 'vscode';
import { labelOf } from '../../../archive/entry';
import { type Hit, find } from '../../../archive/find';
import { EXAMPLE, readQuery } from '../../../archive/query';
import { isolated } from '../../../engine/index';
import { OPEN_PAGE } from '../commands/open-page';
import type { PastJobs } from './past-jobs';
import { breathe } from './workspace-notes';

interface Answer extends QuickPickItem {
  readonly uri?: Uri;
  readonly line?: number;
  /** A query that is put in the place of what was typed. */
  readonly instead?: string;
  /** Reads the notes that are not read yet. */
  readonly readOn?: boolean;
}

/** As many as one scrolls through; the rest is told as a number. */
const MOST = 200;
/** While notes are read, answers are shown anew this often, in ms. */
const PAUSE = 250;

export function registerFindJobs(past: PastJobs): Disposable {
  return commands.registerCommand('scribeline.findJobs', (asked?: unknown) =>
    ask(past, typeof asked === 'string' ? asked : ''),
  );
}

/** Answers come from the notes read so far, from the first key on; those still to be read join them. */
function ask(past: PastJobs, asked: string): void {
  const pick = window.createQuickPick<Answer>();
  pick.placeholder = l10n.t('Words and conditions, for example: {0}', EXAMPLE);
  pick.value = asked;
  // Best first: the editor would put labels that hold the words in the order of the alphabet.
  Object.assign(pick, { sortByLabel: false });
  pick.buttons = [{ iconPath: new ThemeIcon('question'), tooltip: l10n.t('How to ask') }];
  pick.onDidTriggerButton(() => void commands.executeCommand(OPEN_PAGE, 'past-jobs'));
  const show = (): void => {
    pick.title = titleOf(past);
    pick.items = answers(past, pick.value);
    // The way on stands first, but Enter opens the best answer.
    const best = pick.items.find(({ uri }) => uri);
    if (best) pick.activeItems = [best];
  };
  let closed = false;
  const read = async (): Promise<void> => {
    pick.busy = pick.ignoreFocusOut = true;
    await past.ready();
    if (closed) return;
    if (past.isPart) {
      // Who ended it clicked beside the box: only a box that opens takes the keys again.
      const { value } = pick;
      pick.hide();
      return ask(past, value);
    }
    await past.soFar.prepare(breathe);
    pick.busy = pick.ignoreFocusOut = false;
    show();
  };
  let next = 0;
  const now = (): void => {
    if (Date.now() < next) return;
    next = Date.now() + PAUSE;
    show();
  };
  const following = Disposable.from(past.onDidRead(now), past.onDidChange(show));
  pick.onDidChangeValue(show);
  pick.onDidAccept(() => {
    const [chosen] = pick.selectedItems;
    if (chosen?.instead !== undefined) {
      pick.value = chosen.instead;
      show();
    } else if (chosen?.readOn) void read();
    if (!chosen?.uri) return;
    pick.hide();
    void openAt(chosen.uri, chosen.line ?? 0);
  });
  pick.onDidHide(() => {
    closed = true;
    following.dispose();
    pick.dispose();
  });
  show();
  pick.show();
  // A reading that was ended goes on when that is asked for.
  void (past.isPart ? past.soFar.prepare(breathe) : read());
}

export async function openAt(uri: Uri, line: number): Promise<void> {
  await window.showTextDocument(uri, { selection: new Range(line, 0, line, 0), preview: true });
}

/** What a problem says, without the example that can be chosen below it. */
const withoutExample = (says: string): string =>
  [': write', ', such as', ' such as'].reduce((left, by) => left.replace(`${by} \`${EXAMPLE}\``, ''), says);

// The list filters by what is typed; what was found stands whatever its label says.
const always = { alwaysShow: true };

function answers(past: PastJobs, query: string): readonly Answer[] {
  if (query.trim() === '') return part(past);
  const read = readQuery(query);
  if ('problem' in read)
    return [
      { label: `$(info) ${withoutExample(read.problem.says).replaceAll('`', '')}`, ...always },
      { label: `$(edit) ${EXAMPLE}`, description: l10n.t('can be asked'), instead: EXAMPLE, ...always },
    ];
  const { hits, all } = find(past.soFar, read.terms, MOST);
  const shown = hits.flatMap((hit) => answersOf(past, hit));
  const more = all - hits.length;
  if (more > 0)
    shown.push({ label: l10n.t('{0} more: narrow the question', more), kind: QuickPickItemKind.Separator });
  if (past.isPart) return [...part(past), ...shown];
  if (hits.length > 0) return shown;
  const none = past.progress
    ? `$(loading~spin) ${l10n.t('None of the {0} jobs read so far fits.', past.soFar.size)}`
    : `$(circle-slash) ${l10n.t('No job of {0} fits.', past.soFar.size)}`;
  return [{ label: none, ...always }];
}

/** Where the reading was ended: the way on. */
function part(past: PastJobs): readonly Answer[] {
  if (!past.isPart) return [];
  return [{ label: `$(debug-continue) ${l10n.t('Read the other notes too')}`, readOn: true, ...always }];
}

/** Says when answers are of some notes only. */
function titleOf(past: PastJobs): string {
  const { progress, soFar, isPart } = past;
  if (progress && progress.all > 0)
    return l10n.t('Find past jobs: {0} of {1} notes read', progress.done, progress.all);
  return isPart ? l10n.t('Find past jobs: only {0} notes read', soFar.size) : l10n.t('Find past jobs');
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
      label: isolated(labelOf(path, hit)),
      description: isolated(facts),
      detail: isolated(said === '' ? path : said),
      ...always,
      uri,
      line: first?.line ?? 0,
    },
  ];
}
