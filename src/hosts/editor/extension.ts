/** The extension in the editor, the same in Node and in a browser. This file says what it is made of. */
import { type ExtensionContext, window } from 'vscode';
import { figuresPlugin } from '../preview/plugin';
import { registerAlignFigures } from './commands/align-figures';
import { registerExplainFinding } from './commands/explain-finding';
import { registerNewJob } from './commands/new-job';
import { registerOpenPage } from './commands/open-page';
import { registerRecordReading } from './commands/record-reading';
import { registerCompletion } from './completion';
import { registerPastJobs } from './archive/register';
import { registerDiagnostics } from './diagnostics';
import { registerHints } from './hints';
import { registerHover } from './hover';
import { registerNavigation } from './navigation';
import { previewHost, registerPreview } from './preview';
import { registerWriteSheet } from './commands/write-sheet';
import { registerQuickFixes } from './quick-fixes';
import { Shops } from './shops';
import { registerStatus } from './status';
import { Workspace } from './workspace';

type MarkdownIt = Parameters<ReturnType<typeof figuresPlugin>>[0];

/** What the editor's own markdown extension asks of this one. */
interface Markdown {
  extendMarkdownIt(md: MarkdownIt): MarkdownIt;
}

/** Called once, when the first markdown document opens. It only registers; nothing is worked out here. */
export function activate(context: ExtensionContext): Markdown {
  const log = window.createOutputChannel('Scribeline', { log: true });
  const shops = new Shops(log);
  const notes = new Workspace(shops, log);
  context.subscriptions.push(
    log,
    shops,
    notes,
    registerCompletion(notes),
    registerDiagnostics(notes, log),
    registerHints(notes),
    // Before the hover: what is registered later stands above, and the figure's own result comes first.
    registerPastJobs(context, notes, shops, log),
    registerHover(notes),
    registerQuickFixes(notes),
    registerPreview(shops, log),
    registerNavigation(notes, shops),
    registerStatus(notes, log),
    registerAlignFigures(notes),
    registerExplainFinding(),
    registerNewJob(shops),
    registerOpenPage(context.extensionUri),
    registerRecordReading(notes),
    registerWriteSheet(context.extensionUri, shops),
  );
  return { extendMarkdownIt: (md) => md.use(figuresPlugin(previewHost(shops))) };
}
