/** Past jobs in the editor: what they are made of. */
import { Disposable, type ExtensionContext, type LogOutputChannel } from 'vscode';
import type { Shops } from '../shops';
import type { Workspace } from '../workspace';
import { registerFindJobs } from './find-jobs';
import { registerJobCommands } from './job-commands';
import { registerJobsView } from './jobs-view';
import { registerLastTime } from './last-time';
import { PastJobs } from './past-jobs';

export function registerPastJobs(
  context: ExtensionContext,
  notes: Workspace,
  shops: Shops,
  log: LogOutputChannel,
): Disposable {
  const past = new PastJobs(context, shops, log);
  return Disposable.from(
    past,
    registerJobsView(past, context.workspaceState),
    registerFindJobs(past),
    registerLastTime(past, notes),
    registerJobCommands(past, notes, shops, context),
  );
}
