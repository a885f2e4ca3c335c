/** The jobs of the workspace in the side bar. */
import {
  Disposable,
  EventEmitter,
  type Memento,
  ThemeColor,
  ThemeIcon,
  type TreeDataProvider,
  TreeItem,
  TreeItemCollapsibleState,
  commands,
  l10n,
  window,
} from 'vscode';
import { labelOf } from '../../../archive/entry';
import { GROUPINGS, type Grouping, type JobGroup, type JobItem, grouped } from '../../../archive/grouped';
import type { PastJobs } from './past-jobs';

const VIEW = 'scribeline.jobs';
const REMEMBERED = 'jobs.groupedBy';

class Jobs implements TreeDataProvider<JobGroup | JobItem> {
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

  async getChildren(of?: JobGroup | JobItem): Promise<(JobGroup | JobItem)[]> {
    if (of) return 'jobs' in of ? [...of.jobs] : [];
    const index = await this.past.ready(false);
    const groups = index ? grouped(index.entries(), this.by) : [];
    // Until then an empty list says nothing about the folder.
    await commands.executeCommand('setContext', 'scribeline.jobsRead', index !== null);
    await commands.executeCommand('setContext', 'scribeline.hasJobs', groups.length > 0);
    return [...groups];
  }

  getTreeItem(it: JobGroup | JobItem): TreeItem {
    return 'jobs' in it ? this.groupItem(it) : this.jobItem(it);
  }

  dispose(): void {
    this.owned.dispose();
  }

  private groupItem({ name, jobs }: JobGroup): TreeItem {
    const item = new TreeItem(groupName(name, this.by), TreeItemCollapsibleState.Expanded);
    item.id = `group ${this.by} ${name}`;
    item.description = String(jobs.length);
    return item;
  }

  private jobItem({ path, entry }: JobItem): TreeItem {
    const { job, title, errors, warnings } = entry;
    const item = new TreeItem(labelOf(path, entry));
    const trouble = counts(errors, warnings);
    const facts = [
      this.by === 'customer' ? undefined : job['customer'],
      this.by === 'status' ? undefined : job['status'],
      job['due'] === undefined ? undefined : l10n.t('due {0}', job['due']),
      trouble === '' ? undefined : trouble,
    ].filter((it): it is string => it !== undefined && it !== '');
    item.id = `job ${this.by} ${path}`;
    item.description = facts.join(' · ');
    item.tooltip = [title, path, ...facts].filter(Boolean).join('\n');
    item.iconPath =
      errors > 0
        ? new ThemeIcon('error', new ThemeColor('list.errorForeground'))
        : warnings > 0
          ? new ThemeIcon('warning', new ThemeColor('list.warningForeground'))
          : new ThemeIcon('note');
    item.contextValue = 'job';
    const uri = this.past.uri(path);
    if (uri) {
      item.resourceUri = uri;
      item.command = { command: 'vscode.open', title: l10n.t('Open'), arguments: [uri] };
    }
    item.accessibilityInformation = {
      label: [job['job'], title === '' ? path : title, ...facts].filter(Boolean).join(', '),
    };
    return item;
  }
}

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
  return Disposable.from(jobs, view, commands.registerCommand('scribeline.groupJobs', choose));
}
