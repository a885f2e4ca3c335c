/** The open notes and their sheets: worked out when somebody asks, again when the note or its cards have changed. */
import { Disposable, EventEmitter, type LogOutputChannel, type TextDocument, workspace } from 'vscode';
import { Sheet, type Shop } from '../../engine/index';
import { readNote } from '../../notation/note';
import type { Note } from '../../notation/syntax';
import { inUsualUnits } from '../../notation/usual-units';
import { SECTION, unitsOf } from './settings';
import type { Shops } from './shops';
import { isOwnPage } from './texts';

/** Copies of a note that somebody else shows: the old side of a comparison, a review. */
const COPIES = new Set([
  'git',
  'gitfs',
  'gitlens',
  'pr',
  'review',
  'vscode-scm',
  'conflictResolution',
  'output',
]);

/** A cheap look for one of our fences, or nearly one, so that other markdown costs nothing. */
const FENCE = /(?:`{3}|~{3})[ \t]*(?:figures?|machine|material|signed)(?![\w-])/i;

export interface Calculated {
  readonly note: Note;
  readonly sheet: Sheet;
  readonly version: number;
  /** The shop files whose cards are in force. */
  readonly shops: readonly Shop[];
}

interface Entry {
  readonly sheet: Sheet;
  note: Note | null;
  units: 'mm' | 'in';
  version: number;
  shops: readonly Shop[] | null;
}

export class Workspace implements Disposable {
  private readonly entries = new Map<string, Entry>();
  private readonly changed = new EventEmitter<void>();
  /** Results changed for a cause outside the notes themselves: a card in a shop file, the usual units. */
  readonly onDidChangeCards = this.changed.event;
  private readonly owned: Disposable;

  constructor(
    private readonly shops: Shops,
    private readonly log: LogOutputChannel,
  ) {
    this.owned = Disposable.from(
      this.changed,
      shops.onDidChange(() => this.changed.fire()),
      workspace.onDidChangeConfiguration((event) => {
        if (event.affectsConfiguration(`${SECTION}.units`)) this.changed.fire();
      }),
      workspace.onDidCloseTextDocument(({ uri }) => this.entries.delete(uri.toString())),
    );
  }

  /**
   * The sheet of a note as the note stands when the answer comes; null for what is no note of ours. The sheet moves on
   * with the next change: use it at once, and ask again after waiting for anything.
   */
  async calculated(document: TextDocument): Promise<Calculated | null> {
    if (!isNote(document) || !FENCE.test(document.getText())) return null;
    const shops = await this.shops.of(document.uri);
    return document.isClosed ? null : this.current(document, shops);
  }

  openNotes(): readonly TextDocument[] {
    return workspace.textDocuments.filter(isNote);
  }

  dispose(): void {
    this.entries.clear();
    this.owned.dispose();
  }

  private current(document: TextDocument, shops: readonly Shop[]): Calculated {
    const key = document.uri.toString();
    let entry = this.entries.get(key);
    if (!entry) {
      entry = { sheet: new Sheet(), note: null, units: 'mm', version: -1, shops: null };
      this.entries.set(key, entry);
    }
    const { sheet, version } = entry;
    const units = unitsOf(document.uri);
    const same = version === document.version && entry.units === units;
    const note = same && entry.note ? entry.note : inUsualUnits(readNote(document.getText()), units);
    entry.note = note;
    entry.units = units;
    if (!same || entry.shops !== shops) {
      const start = Date.now();
      sheet.update(note, shops);
      this.log.trace(`${document.uri.path} version ${document.version}: ${Date.now() - start} ms`);
    }
    entry.version = document.version;
    entry.shops = shops;
    return { note, sheet, version: document.version, shops };
  }
}

export function isNote(document: TextDocument): boolean {
  const { languageId, uri } = document;
  return languageId === 'markdown' && !COPIES.has(uri.scheme) && !isOwnPage(uri);
}
