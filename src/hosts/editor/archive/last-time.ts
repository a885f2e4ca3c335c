/** What was used and measured last time, for the figure under the cursor. Never changes the note. */
import {
  Disposable,
  Hover,
  MarkdownString,
  type Position,
  type TextDocument,
  commands,
  l10n,
  languages,
  window,
} from 'vscode';
import { dimensionName } from '../../../quantity/dimension';
import { type PastUse, pastUse } from '../../../archive/past-use';
import { type Sheet, valueNow } from '../../../engine/index';
import type { Workspace } from '../workspace';
import { openAt } from './find-jobs';
import type { PastJobs } from './past-jobs';

/** As many as a hover has room for. */
const IN_HOVER = 3;
const PATH = /[\p{L}_][\p{L}\p{N}_]*(?:\.[\p{L}_][\p{L}\p{N}_]*)?/u;

/** The figure or field that stands at a place in one of our blocks; null elsewhere. */
function pathAt(sheet: Sheet, document: TextDocument, position: Position): string | null {
  const row = sheet.rowAt(position.line);
  if (!row || row.block.word !== 'figures') return null;
  const range = document.getWordRangeAtPosition(position, PATH);
  const hash = row.text.indexOf('#');
  if (!range || (hash >= 0 && range.start.character >= row.column + hash)) return null;
  return document.getText(range);
}

function usesOf(past: PastJobs, sheet: Sheet, document: TextDocument, name: string): readonly PastUse[] {
  const index = past.now;
  if (!index) return [];
  const value = valueNow(sheet, name);
  return pastUse(index, {
    path: past.nameOf(document.uri),
    name,
    job: Object.fromEntries(sheet.job()),
    value: value && { base: value.value, kind: dimensionName(value.dimension) },
  });
}

const facts = ({ job, alike, path }: PastUse): string =>
  [job['job'] ?? path, job['customer'], job['due'], ...alike]
    .filter((it) => it !== undefined && it !== '')
    .join(' · ');

export function registerLastTime(past: PastJobs, notes: Workspace): Disposable {
  const provideHover = async (document: TextDocument, position: Position): Promise<Hover | undefined> => {
    const calculated = await notes.calculated(document);
    const name = calculated && pathAt(calculated.sheet, document, position);
    if (!name) return undefined;
    const uses = usesOf(past, calculated.sheet, document, name).slice(0, IN_HOVER);
    if (uses.length === 0) return undefined;
    const text = new MarkdownString();
    text.appendMarkdown(`**${l10n.t('Last time')}**\n\n`);
    for (const use of uses) {
      text.appendMarkdown('- ');
      text.appendText(
        `${use.amount.how === 'used' ? '' : `${use.amount.how} `}${use.amount.shown}${use.amount.comment ? `: ${use.amount.comment}` : ''} (${facts(use)})`,
      );
      text.appendMarkdown('\n');
    }
    return new Hover(text);
  };
  return Disposable.from(
    languages.registerHoverProvider({ language: 'markdown' }, { provideHover }),
    commands.registerCommand('scribeline.lastTime', () => show(past, notes)),
  );
}

async function show(past: PastJobs, notes: Workspace): Promise<void> {
  const editor = window.activeTextEditor;
  const index = editor && (await past.ready());
  const calculated = index ? await notes.calculated(editor.document) : null;
  if (!editor || !calculated) return;
  const { document, selection } = editor;
  const { sheet } = calculated;
  const row = sheet.rowAt(selection.active.line);
  const at = pathAt(sheet, document, selection.active);
  const names = [at, row?.statement.kind === 'figure' ? row.statement.name.text : null].filter(
    (it) => it !== null,
  );
  const uses = names.flatMap((name) => usesOf(past, sheet, document, name));
  if (names.length === 0) {
    await window.showInformationMessage(l10n.t('Put the cursor on a figure first.'));
    return;
  }
  if (uses.length === 0) {
    await window.showInformationMessage(l10n.t('No other job says what {0} was.', names[0] ?? ''));
    return;
  }
  const chosen = await window.showQuickPick(
    uses.map((use) => ({
      label: `${use.amount.how === 'used' ? '' : `${use.amount.how} `}${use.amount.shown}`,
      description: use.amount.comment ?? '',
      detail: `${use.title}  ·  ${facts(use)}`,
      use,
    })),
    { title: l10n.t('{0} last time', names[0] ?? ''), matchOnDescription: true, matchOnDetail: true },
  );
  const uri = chosen && past.uri(chosen.use.path);
  if (uri) await openAt(uri, chosen.use.amount.line);
}
