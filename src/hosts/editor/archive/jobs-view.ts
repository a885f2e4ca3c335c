/** The jobs of the workspace in the side bar. */
import {
  Disposable,
  EventEmitter,
  FileDecoration,
  type FileDecorationProvider,
  type Memento,
  ThemeColor,
  ThemeIcon,
  type TreeDataProvider,
  TreeItem,
  TreeItemCollapsibleState,
  Uri,
  commands,
  l10n,
  window,
} from 'vscode';
import { labelOf } from '../../../archive/entry';
import { isolated } from '../../../engine/index';
import {
  GROUPINGS,
  type Grouping,
  type JobGroup,
  type JobItem,
  grouped,
  inOrder,
} from '../../../archive/grouped';
import type { PastJobs } from './past-jobs';

const VIEW = 'scribeline.jobs';
const REMEMBERED = 'jobs.groupedBy';

/** A row of the view: jobs that belong together, those that a card changed, or a job. */
type Row = JobGroup | SinceCards | JobRow;

interface JobRow extends JobItem {
  /** What it has only since a card changed; null in the other groups. */
  readonly fresh: readonly string[] | null;
}

interface SinceCards {
  readonly sinceCards: readonly JobRow[];
}

class Jobs implements TreeDataProvider<Row> {
  private readonly changed = new EventEmitter<void>();
  readonly onDidChangeTreeData = this.changed.event;
  private readonly owned: Disposable;

  constructor(
    private readonly past: PastJobs,
    private readonly memento: Memento,
  ) {
    this.owned = Disposable.from(
      this.changed,
      past.onDidChange(() => this.changed.fire()),
    );
  }

  get by(): Grouping {
    return this.memento.get<Grouping>(REMEMBERED, 'customer');
  }

  async group(by: Grouping): Promise<void> {
    await this.memento.update(REMEMBERED, by);
    this.changed.fire();
  }

  async getChildren(of?: Row): Promise<Row[]> {
    if (of && 'sinceCards' in of) return [...of.sinceCards];
    if (of) return 'jobs' in of ? of.jobs.map((job) => ({ ...job, fresh: null })) : [];
    const index = await this.past.ready(false);
    const groups = index ? grouped(index.entries(), this.by) : [];
    const set = (name: string, to: boolean): Thenable<void> =>
      commands.executeCommand('setContext', `scribeline.${name}`, to);
    // Until then an empty list says nothing about the folder.
    await set('jobsRead', index !== null);
    await set('jobsEnded', this.past.isPart);
    await set('hasJobs', groups.length > 0);
    const fresh = this.sinceCards();
    return fresh.length > 0 ? [{ sinceCards: fresh }, ...groups] : [...groups];
  }

  getTreeItem(it: Row): TreeItem {
    if ('sinceCards' in it) return this.sinceCardsItem(it.sinceCards);
    return 'jobs' in it ? this.groupItem(it) : this.jobItem(it);
  }

  dispose(): void {
    this.owned.dispose();
  }

  private sinceCards(): readonly JobRow[] {
    // Notes are read as they come in; what came first must not decide what stands first.
    return inOrder(
      [...this.past.sinceCards].flatMap(([path, fresh]) => {
        const entry = this.past.soFar.entry(path);
        return entry ? [{ path, entry, fresh }] : [];
      }),
    );
  }

  private sinceCardsItem(jobs: readonly JobRow[]): TreeItem {
    const item = new TreeItem(l10n.t('Cards changed: look again'), TreeItemCollapsibleState.Expanded);
    item.id = 'since cards';
    item.description = String(jobs.length);
    item.tooltip = l10n.t('These notes have findings that they did not have before a card changed.');
    item.iconPath = new ThemeIcon('bell');
    item.contextValue = 'sinceCards';
    return item;
  }

  private groupItem({ name, jobs }: JobGroup): TreeItem {
    const item = new TreeItem(groupName(name, this.by), TreeItemCollapsibleState.Expanded);
    const sum = (of: (it: JobItem) => number): number => jobs.reduce((total, job) => total + of(job), 0);
    const [errors, warnings] = [sum(({ entry }) => entry.errors), sum(({ entry }) => entry.warnings)];
    const trouble = counts(errors, warnings);
    item.resourceUri = badged(`${this.by}/${name}`, errors, warnings);
    item.id = `group ${this.by} ${name}`;
    item.description = [String(jobs.length), trouble].filter((it) => it !== '').join(' · ');
    item.tooltip = `${groupName(name, this.by)}\n${item.description}`;
    return item;
  }

  private jobItem({ path, entry, fresh }: JobRow): TreeItem {
    const { job, title, errors, warnings } = entry;
    const item = new TreeItem(isolated(labelOf(path, entry)));
    // What is grouped by stands above; what is left comes with what one looks for first.
    const factsWith = (due: string | undefined): readonly string[] =>
      [
        counts(errors, warnings),
        this.by === 'due' || fresh ? due : undefined,
        this.by === 'customer' && !fresh ? undefined : job['customer'],
        this.by === 'due' || fresh ? undefined : due,
        this.by === 'status' && !fresh ? undefined : job['status'],
      ].filter((it): it is string => it !== undefined && it !== '');
    const { due } = job;
    const facts = factsWith(due === undefined ? undefined : l10n.t('due {0}', due));
    item.id = `${fresh ? 'since cards' : `job ${this.by}`} ${path}`;
    item.description = isolated(fresh ? plain(fresh[0] ?? '') : factsWith(due).join(' · '));
    item.tooltip = [title, path, ...facts, ...(fresh ?? []).map(plain)].filter(Boolean).join('\n');
    item.iconPath =
      errors > 0
        ? new ThemeIcon('error', new ThemeColor('list.errorForeground'))
        : warnings > 0
          ? new ThemeIcon('warning', new ThemeColor('list.warningForeground'))
          : new ThemeIcon('note');
    item.contextValue = 'job';
    item.resourceUri = badged(path, errors, warnings);
    const uri = this.past.uri(path);
    if (uri) item.command = { command: 'vscode.open', title: l10n.t('Open'), arguments: [uri] };
    item.accessibilityInformation = {
      label: [job['job'], title === '' ? path : title, ...facts].filter(Boolean).join(', '),
    };
    return item;
  }
}

/** A finding as the index keeps it, without the marks of markdown and its code. */
const plain = (finding: string): string => finding.replaceAll('`', '').replace(/ \[[a-z-]+\]$/, '');

const BADGED = 'scribeline-job';

/** The row's address of its own carries the counts, so that they stand at its right end however narrow the view is. */
const badged = (path: string, errors: number, warnings: number): Uri =>
  Uri.from({ scheme: BADGED, path: `/${path}`, query: `${errors},${warnings}` });

const badges: FileDecorationProvider = {
  provideFileDecoration: ({ scheme, query }) => {
    if (scheme !== BADGED) return undefined;
    const [errors = 0, warnings = 0] = query.split(',').map(Number);
    const count = errors > 0 ? errors : warnings;
    if (count === 0) return undefined;
    return new FileDecoration(
      count > 9 ? '9+' : String(count),
      counts(errors, warnings),
      new ThemeColor(errors > 0 ? 'list.errorForeground' : 'list.warningForeground'),
    );
  },
};

function groupName(name: string, by: Grouping): string {
  if (by === 'findings')
    return name === 'errors'
      ? l10n.t('With errors')
      : name === 'warnings'
        ? l10n.t('With warnings')
        : l10n.t('Nothing found');
  if (name !== '') return by === 'due' ? l10n.t('Due {0}', name) : name;
  return by === 'customer'
    ? l10n.t('No customer given')
    : by === 'status'
      ? l10n.t('No status given')
      : l10n.t('No due date given');
}

/** `2 errors, 1 warning`; empty when there is nothing. */
export function counts(errors: number, warnings: number): string {
  const parts: string[] = [];
  if (errors > 0) parts.push(errors === 1 ? l10n.t('1 error') : l10n.t('{0} errors', errors));
  if (warnings > 0) parts.push(warnings === 1 ? l10n.t('1 warning') : l10n.t('{0} warnings', warnings));
  return parts.join(', ');
}

const NAMES: Readonly<Record<Grouping, () => string>> = {
  customer: () => l10n.t('By customer'),
  status: () => l10n.t('By status'),
  due: () => l10n.t('By due date'),
  findings: () => l10n.t('By findings'),
};

export function registerJobsView(past: PastJobs, memento: Memento): Disposable {
  const jobs = new Jobs(past, memento);
  const view = window.createTreeView(VIEW, { treeDataProvider: jobs, showCollapseAll: true });
  const label = (): void => void (view.description = NAMES[jobs.by]());
  label();
  const choose = async (): Promise<void> => {
    const chosen = await window.showQuickPick(
      GROUPINGS.map((by) => ({ label: NAMES[by](), by, picked: by === jobs.by })),
      { title: l10n.t('Group the jobs') },
    );
    if (!chosen) return;
    await jobs.group(chosen.by);
    label();
  };
  // While the first reading lasts, an empty view says how far it is.
  const told = (): void => {
    const { progress } = past;
    view.message =
      progress && progress.all > 0 && progress.done < progress.all
        ? l10n.t('Reading past jobs: {0} of {1}', progress.done, progress.all)
        : '';
  };
  return Disposable.from(
    jobs,
    view,
    past.onDidRead(told),
    past.onDidChange(told),
    window.registerFileDecorationProvider(badges),
    commands.registerCommand('scribeline.groupJobs', choose),
    commands.registerCommand('scribeline.readJobs', () => past.ready()),
    commands.registerCommand('scribeline.cardsSeen', () => past.cardsSeen()),
  );
}
