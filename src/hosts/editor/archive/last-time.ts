/** What was used and measured last time, for a figure or for all figures of a block. Never changes the note. */
import {
  Disposable,
  Hover,
  MarkdownString,
  type Position,
  type QuickPickItem,
  QuickPickItemKind,
  type TextDocument,
  commands,
  l10n,
  languages,
  window,
} from 'vscode';
import { dimensionName } from '../../../quantity/dimension';
import { type PastUse, pastUse } from '../../../archive/past-use';
import { type Sheet, valueNow } from '../../../engine/index';
import { escape } from '../../../language/markdown';
import { hasLine } from '../../../notation/blocks';
import type { Workspace } from '../workspace';
import { openAt } from './find-jobs';
import type { PastJobs } from './past-jobs';

/** As many as a hover has room for: of one figure, and of a block one each of its figures. */
const IN_HOVER = 3;
const OF_BLOCK = 6;
/** How long past use may be on its way, in ms, until the hover says that notes are still being read; the next one has more. */
const WAIT = 300;
/** Opens a note of the index and nothing else; the editor would not follow links to files of every kind of workspace. */
const OPEN_JOB = 'scribeline.openJob';
const PATH = /[\p{L}_][\p{L}\p{N}_]*(?:\.[\p{L}_][\p{L}\p{N}_]*)?/u;

/** What a place in a note asks about. */
interface Asked {
  readonly names: readonly string[];
  readonly ofBlock: boolean;
}

/** The figure or field that stands at a place in one of our blocks; null elsewhere. */
function pathAt(sheet: Sheet, document: TextDocument, position: Position): string | null {
  const row = sheet.rowAt(position.line);
  if (!row || row.block.word !== 'figures') return null;
  const range = document.getWordRangeAtPosition(position, PATH);
  const hash = row.text.indexOf('#');
  if (!range || (hash >= 0 && range.start.character >= row.column + hash)) return null;
  return document.getText(range);
}

/** Figures of the block whose fence or bare line this is, and whatever was recorded in it. */
function namesInBlock(sheet: Sheet, line: number): readonly string[] {
  const block = sheet.note.blocks.find((it) => it.word === 'figures' && hasLine(it, line));
  const names = sheet.rows().flatMap(({ block: own, statement }) => {
    if (own !== block) return [];
    if (statement.kind === 'figure') return [statement.name.text];
    return statement.kind === 'reading' || statement.kind === 'used' ? [statement.path.names.join('.')] : [];
  });
  return [...new Set(names)];
}

function usesOf(past: PastJobs, sheet: Sheet, document: TextDocument, name: string): readonly PastUse[] {
  const value = valueNow(sheet, name);
  // Where a figure is planned, or where it was only run or measured.
  const row =
    sheet.figure(name.split('.')[0] ?? '') ??
    sheet.rows().find(({ statement: it }) => 'path' in it && it.path.names.join('.') === name);
  const machines = row?.block.on.map(({ text }) => text) ?? [];
  return pastUse(past.soFar, {
    path: past.nameOf(document.uri),
    name,
    job: Object.fromEntries(sheet.job()),
    value: value && { base: value.value, kind: dimensionName(value.dimension) },
    machines,
  });
}

const valueOf = ({ amount }: PastUse): string =>
  amount.how === 'used' ? amount.shown : `${amount.how} ${amount.shown}`;

const facts = ({ job, title, alike, path }: PastUse): readonly string[] =>
  [job['job'] ?? path, title, job['customer'], job['due'], alike.join(', ')].filter(
    (it): it is string => it !== undefined && it !== '',
  );

/** One use as a line of a list: what it was and why, below it which job, to be opened with a click. */
function listed(use: PastUse, name: string | null): string {
  const [job = '', ...rest] = facts(use).map((it) => unbroken(escape(it)));
  const place = encodeURIComponent(JSON.stringify([use.path, use.amount.line]));
  const link = `[${job}](command:${OPEN_JOB}?${place})`;
  const { comment } = use.amount;
  const what = `${name === null ? '' : `${escape(name)} `}**${escape(valueOf(use))}**`;
  return `- ${what}${comment ? ` ${escape(comment)}` : ''}  \n  ${[link, ...rest].join(' · ')}\n`;
}

/** A date is not broken at its hyphens. */
const unbroken = (text: string): string => text.replaceAll('\\-', '\u2011');

function hoverText(past: PastJobs, sheet: Sheet, document: TextDocument, asked: Asked): string {
  return asked.names
    .flatMap((name) =>
      usesOf(past, sheet, document, name)
        .slice(0, asked.ofBlock ? 1 : IN_HOVER)
        .map((use) => listed(use, asked.ofBlock ? name : null)),
    )
    .slice(0, OF_BLOCK)
    .join('');
}

/** A hover on the fence of a block is about all of its figures. */
function hoverAsks(sheet: Sheet, document: TextDocument, position: Position): Asked | null {
  const at = pathAt(sheet, document, position);
  if (at !== null) return { names: [at], ofBlock: false };
  const fence = sheet.note.blocks.some(
    ({ word, fenceLine }) => word === 'figures' && fenceLine === position.line,
  );
  return fence ? { names: namesInBlock(sheet, position.line), ofBlock: true } : null;
}

/** Notes are counted once they are listed. */
const stillReading = ({ done, all }: { readonly done: number; readonly all: number }): string =>
  all === 0
    ? l10n.t('Past jobs are still being read.')
    : l10n.t('Past jobs are still being read: {0} of {1}.', done, all);

export function registerLastTime(past: PastJobs, notes: Workspace): Disposable {
  const provideHover = async (document: TextDocument, position: Position): Promise<Hover | undefined> => {
    const first = await notes.calculated(document);
    if (!first || hoverAsks(first.sheet, document, position) === null) return undefined;
    const index = await past.within(WAIT);
    // Asked again: the note may have changed meanwhile.
    const calculated = await notes.calculated(document);
    const asked = calculated && hoverAsks(calculated.sheet, document, position);
    if (!asked) return undefined;
    const found = hoverText(past, calculated.sheet, document, asked);
    const { progress } = past;
    const reading = index === null && progress ? `${escape(stillReading(progress))}\n` : '';
    if (found + reading === '') return undefined;
    const text = new MarkdownString(`**${escape(l10n.t('Last time'))}**\n\n${found}\n${reading}`);
    text.isTrusted = { enabledCommands: [OPEN_JOB] };
    return new Hover(text);
  };
  return Disposable.from(
    languages.registerHoverProvider({ language: 'markdown' }, { provideHover }),
    commands.registerCommand('scribeline.lastTime', () => show(past, notes)),
    commands.registerCommand(OPEN_JOB, (path: unknown, line: unknown) => {
      const uri = typeof path === 'string' ? past.uri(path) : undefined;
      return uri && openAt(uri, typeof line === 'number' ? line : 0);
    }),
  );
}

interface UseItem extends QuickPickItem {
  readonly use?: PastUse;
}

/** The command asks about the figure at the cursor or of its line, elsewhere in a block about all of the block's. */
function commandAsks(sheet: Sheet, document: TextDocument, position: Position): Asked {
  const at = pathAt(sheet, document, position);
  const row = sheet.rowAt(position.line);
  const ofLine = row?.statement.kind === 'figure' ? row.statement.name.text : null;
  const names = [...new Set([at, ofLine].filter((it) => it !== null))];
  if (names.length > 0) return { names, ofBlock: false };
  return { names: namesInBlock(sheet, position.line), ofBlock: true };
}

async function show(past: PastJobs, notes: Workspace): Promise<void> {
  const editor = window.activeTextEditor;
  const index = editor && (await past.ready());
  const calculated = index ? await notes.calculated(editor.document) : null;
  if (!editor || !calculated) return;
  const { document, selection } = editor;
  const { names, ofBlock } = commandAsks(calculated.sheet, document, selection.active);
  if (names.length === 0) {
    await window.showInformationMessage(l10n.t('Put the cursor on a figure or in a block of figures first.'));
    return;
  }
  const found = names.map((name) => ({ name, uses: usesOf(past, calculated.sheet, document, name) }));
  // Of a figure that nobody ever ran, the line's own figure may still know something.
  const known = found.filter(({ uses }) => uses.length > 0).slice(0, ofBlock ? names.length : 1);
  if (known.length === 0) {
    await window.showInformationMessage(l10n.t('No other job says what {0} was.', names.join(', ')));
    return;
  }
  const items = known.flatMap(({ name, uses }): readonly UseItem[] => [
    ...(ofBlock ? [{ label: name, kind: QuickPickItemKind.Separator }] : []),
    ...uses.map((use) => ({
      label: valueOf(use),
      description: use.amount.comment ?? '',
      detail: facts(use).join(' · '),
      use,
    })),
  ]);
  const title = l10n.t('{0} last time', known.map(({ name }) => name).join(', '));
  const chosen = await window.showQuickPick(items, { title, matchOnDescription: true, matchOnDetail: true });
  const uri = chosen?.use && past.uri(chosen.use.path);
  if (uri && chosen.use) await openAt(uri, chosen.use.amount.line);
}
