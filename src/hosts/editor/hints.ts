/** Draws each line's result at its end. */
import {
  type CancellationToken,
  Disposable,
  EventEmitter,
  InlayHint,
  InlayHintKind,
  type InlayHintsProvider,
  MarkdownString,
  Position,
  type Range,
  TabInputText,
  TabInputTextDiff,
  type TextDocument,
  languages,
  window,
  workspace,
} from 'vscode';
import { explainRow } from '../../language/explain';
import { hint } from '../../language/hints';
import { markdown } from '../../language/markdown';
import { parameterHints } from '../../language/parameter-hints';
import type { Row } from '../../engine/index';
import { displayed } from '../../quantity/display';
import { SECTION, displaySettings, hintSettings } from './settings';
import type { Workspace } from './workspace';

/** Keeps a result clear of what was typed; the editor's own padding is a hair. */
const GAP = '\u00a0';

interface Origin {
  readonly document: TextDocument;
  readonly version: number;
  readonly line: number;
}

export function registerHints(notes: Workspace): Disposable {
  const changed = new EventEmitter<void>();
  const provider = new Hints(notes, changed);
  return Disposable.from(
    changed,
    // An edit asks for hints by itself; only what happens elsewhere has to be told.
    notes.onDidChangeCards(() => changed.fire()),
    workspace.onDidChangeConfiguration((event) => {
      if (event.affectsConfiguration(SECTION)) changed.fire();
    }),
    languages.registerInlayHintsProvider({ language: 'markdown' }, provider),
  );
}

class Hints implements InlayHintsProvider {
  readonly onDidChangeInlayHints;
  private readonly origins = new WeakMap<InlayHint, Origin>();

  constructor(
    private readonly notes: Workspace,
    changed: EventEmitter<void>,
  ) {
    this.onDidChangeInlayHints = changed.event;
  }

  async provideInlayHints(
    document: TextDocument,
    range: Range,
    token: CancellationToken,
  ): Promise<InlayHint[] | undefined> {
    const { version } = document;
    const calculated = await this.notes.calculated(document);
    if (!calculated || token.isCancellationRequested || calculated.version !== version) return undefined;
    if (onlyCompared(document)) return undefined;
    const { sheet } = calculated;
    const hints: InlayHint[] = [];
    const settings = hintSettings(document.uri);
    const display = displaySettings(document.uri);
    for (const row of sheet.rows()) {
      if (row.line < range.start.line || row.line > range.end.line) continue;
      if (settings.parameterNames) hints.push(...parameterNames(row));
      if (!settings.results) continue;
      const text = displayed(display, () => hint(sheet, row));
      if (text === null) continue;
      const { end } = document.lineAt(row.line).range;
      const made = new InlayHint(new Position(row.line, end.character), GAP + text);
      made.paddingLeft = true;
      this.origins.set(made, { document, version, line: row.line });
      hints.push(made);
    }
    return hints;
  }

  async resolveInlayHint(made: InlayHint): Promise<InlayHint> {
    const origin = this.origins.get(made);
    if (!origin) return made;
    const calculated = await this.notes.calculated(origin.document);
    if (calculated?.version !== origin.version) return made;
    const row = calculated.sheet.rowAt(origin.line);
    if (row) {
      const tooltip = displayed(displaySettings(origin.document.uri), () => {
        const explanation = explainRow(calculated.sheet, row);
        return explanation && markdown(explanation);
      });
      if (tooltip) made.tooltip = new MarkdownString(tooltip);
    }
    return made;
  }
}

function parameterNames(row: Row): readonly InlayHint[] {
  return parameterHints(row).map(({ offset, text }) => {
    const made = new InlayHint(new Position(row.line, row.column + offset), text, InlayHintKind.Parameter);
    made.paddingRight = true;
    return made;
  });
}

/** Whether the note is on screen in comparisons only, where a hint would pass for a difference. */
function onlyCompared(document: TextDocument): boolean {
  const key = document.uri.toString();
  const inputs = window.tabGroups.all.flatMap((group) => group.activeTab?.input ?? []);
  const compared = inputs.some(
    (input) => input instanceof TabInputTextDiff && input.modified.toString() === key,
  );
  const plain = window.tabGroups.all.some((group) =>
    group.tabs.some(({ input, isActive }) => isActive && uriOf(input) === key),
  );
  return compared && !plain;
}

function uriOf(input: unknown): string | undefined {
  return input instanceof TabInputText ? input.uri.toString() : undefined;
}
