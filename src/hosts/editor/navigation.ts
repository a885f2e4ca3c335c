/** Moving about: to where a name gets its value, to its uses, to another name for it, through the outline. */
import {
  type CancellationToken,
  Disposable,
  DocumentSymbol,
  FoldingRange,
  FoldingRangeKind,
  Location,
  type Position,
  type Range,
  SymbolKind,
  type TextDocument,
  WorkspaceEdit,
  l10n,
  languages,
} from 'vscode';
import { definition } from '../../language/definition';
import type { Sheet } from '../../engine/index';
import { type Symbol, occurrencesOf, symbolAt } from '../../language/names-in';
import { type Refused, isActedOn, renamable, renameIn } from '../../language/rename';
import { type BlockSymbol, blockSymbols } from '../../language/symbols';
import { type OtherNote, notesWithCard } from './other-notes';
import { editorRange, location } from './places';
import type { Shops } from './shops';
import { textOf } from './texts';
import type { Workspace } from './workspace';

export function registerNavigation(notes: Workspace, shops: Shops): Disposable {
  const selector = { language: 'markdown' };
  return Disposable.from(
    languages.registerDefinitionProvider(selector, {
      provideDefinition: async (document, { line, character }) => {
        const calculated = await notes.calculated(document);
        const place = calculated && definition(calculated.sheet, line, character);
        return place ? location(document, place) : undefined;
      },
    }),
    languages.registerReferenceProvider(selector, {
      provideReferences: (document, position, _context, token) =>
        references(notes, shops, document, position, token),
    }),
    languages.registerRenameProvider(selector, {
      prepareRename: async (document, { line, character }): Promise<Range> => {
        const calculated = await notes.calculated(document);
        const found = calculated && renamable(calculated.sheet, line, character);
        if (!found) throw new Error(nothingToRename());
        if (found.kind === 'field' && isActedOn(found.name)) throw new Error(because('acted-on', found.name));
        return editorRange(found.range);
      },
      provideRenameEdits: (document, position, name, token) =>
        rename(notes, shops, document, position, name, token),
    }),
    languages.registerDocumentSymbolProvider(
      selector,
      {
        provideDocumentSymbols: async (document) => {
          const calculated = await notes.calculated(document);
          return calculated ? blockSymbols(calculated.sheet).map(symbolOf) : [];
        },
      },
      { label: 'Figures' },
    ),
    languages.registerFoldingRangeProvider(selector, {
      provideFoldingRanges: async (document) => {
        const calculated = await notes.calculated(document);
        return (calculated ? blockSymbols(calculated.sheet) : [])
          .filter(({ range }) => range.endLine > range.line)
          .map(({ range }) => new FoldingRange(range.line, range.endLine, FoldingRangeKind.Region));
      },
    }),
  );
}

async function references(
  notes: Workspace,
  shops: Shops,
  document: TextDocument,
  { line, character }: Position,
  token: CancellationToken,
): Promise<Location[]> {
  const calculated = await notes.calculated(document);
  const symbol = calculated && symbolAt(calculated.sheet, line, character);
  if (!symbol) return [];
  const here = occurrencesOf(calculated.sheet, symbol).map(
    ({ range }) => new Location(document.uri, editorRange(range)),
  );
  const others = await othersWith(shops, document, calculated.sheet, symbol, token);
  return [
    ...here,
    ...others.flatMap(({ uri, sheet }) =>
      occurrencesOf(sheet, symbol).map(({ range }) => new Location(uri, editorRange(range))),
    ),
  ];
}

async function rename(
  notes: Workspace,
  shops: Shops,
  document: TextDocument,
  { line, character }: Position,
  name: string,
  token: CancellationToken,
): Promise<WorkspaceEdit> {
  const calculated = await notes.calculated(document);
  const symbol = calculated && renamable(calculated.sheet, line, character);
  if (!symbol) throw new Error(nothingToRename());
  const others = await othersWith(shops, document, calculated.sheet, symbol, token);
  const here = { ...calculated, uri: document.uri, text: document.getText() };
  const all = [here, ...others].map((note) => ({ ...note, file: note.uri.toString() }));
  await unchanged(document, calculated, others);
  const found = renameIn(all, symbol, name);
  if (found.refused !== null) throw new Error(because(found.refused, name));
  const edit = new WorkspaceEdit();
  all.forEach(({ uri }, i) => {
    for (const { range, text } of found.edits[i] ?? []) edit.replace(uri, editorRange(range), text);
  });
  return edit;
}

/** Places in a note that changed meanwhile are no longer where they were read. */
async function unchanged(
  document: TextDocument,
  { version }: { readonly version: number },
  others: readonly OtherNote[],
): Promise<void> {
  const now = await Promise.all(others.map(({ uri }) => textOf(uri).catch(() => null)));
  if (document.version !== version || others.some(({ text }, i) => now[i] !== text))
    throw new Error(l10n.t('A note changed meanwhile, so that nothing was renamed. Try again.'));
}

/** The other notes in which a card's or a field's name counts; a figure is known in its own note only. */
async function othersWith(
  shops: Shops,
  document: TextDocument,
  sheet: Sheet,
  { kind, name, owner }: Symbol,
  token: CancellationToken,
): Promise<readonly OtherNote[]> {
  const card = kind === 'card' ? name : owner?.kind === 'card' ? owner.name : null;
  return card === null ? [] : notesWithCard(shops, document, sheet, card, token);
}

function nothingToRename(): string {
  return l10n.t('Only figures, cards and fields of cards of your own can be renamed here.');
}

function because(why: Refused, name: string): string {
  switch (why) {
    case 'no-name':
      return l10n.t('A name begins with a letter and holds letters, digits and _.');
    case 'reserved':
      return l10n.t('{0} is a unit or a word of the notation and cannot be a name.', name);
    case 'acted-on':
      return l10n.t('{0} is a field that formulas and checks look for by its name.', name);
    case 'taken':
      return l10n.t('{0} is a name already.', name);
    case 'signed':
      return l10n.t('This figure was signed under its name. Sign again under another one instead.');
    case 'changes':
      return l10n.t('With the name {0} the note would say something else.', name);
  }
}

const KINDS: Record<BlockSymbol['kind'], SymbolKind> = {
  figures: SymbolKind.Namespace,
  machine: SymbolKind.Class,
  material: SymbolKind.Class,
  signed: SymbolKind.Constant,
};

function symbolOf({ name, kind, range, selection, figures }: BlockSymbol): DocumentSymbol {
  const made = new DocumentSymbol(name, '', KINDS[kind], editorRange(range), editorRange(selection));
  made.children = figures.map(
    (figure) =>
      new DocumentSymbol(
        figure.name,
        figure.detail,
        SymbolKind.Variable,
        editorRange(figure.range),
        editorRange(figure.selection),
      ),
  );
  return made;
}
