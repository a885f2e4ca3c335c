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
  type Uri,
  WorkspaceEdit,
  l10n,
  languages,
} from 'vscode';
import { definition } from '../../language/definition';
import { type Symbol, occurrencesOf, symbolAt } from '../../language/names-in';
import { type Refused, Renaming, isActedOn, renamable } from '../../language/rename';
import { type BlockSymbol, blockSymbols } from '../../language/symbols';
import { AT_ONCE, type SharingNote, notesWithCard } from './other-notes';
import { editorRange, location } from './places';
import type { Shops } from './shops';
import { textOf } from './texts';
import type { Calculated, Workspace } from './workspace';

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
  const found: Location[] = [];
  for await (const { uri, sheet } of notesWith(shops, document, calculated, symbol, token))
    for (const { range } of occurrencesOf(sheet, symbol)) found.push(new Location(uri, editorRange(range)));
  return found;
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
  const renaming = new Renaming(symbol, name);
  const edit = new WorkspaceEdit();
  const texts: { readonly uri: Uri; readonly text: string }[] = [];
  const unreadable = (path: string, why: string): never => {
    throw new Error(l10n.t('{0} cannot be read, so that nothing was renamed: {1}', path, why));
  };
  for await (const note of notesWith(shops, document, calculated, symbol, token, unreadable)) {
    const { uri, text } = note;
    const edits = renaming.in({ ...note, file: uri.toString() });
    if (typeof edits === 'string') throw new Error(because(edits, name));
    if (edits.length > 0 && uri !== document.uri) texts.push({ uri, text });
    for (const { range, text: put } of edits) edit.replace(uri, editorRange(range), put);
  }
  // Places in a note that changed meanwhile are no longer where they were read.
  let same = true;
  for (let i = 0; i < texts.length && same; i += AT_ONCE) {
    const some = texts.slice(i, i + AT_ONCE);
    const now = await Promise.all(some.map(({ uri }) => textOf(uri).catch(() => null)));
    same = some.every(({ text }, at) => now[at] === text);
  }
  if (!same || document.version !== calculated.version)
    throw new Error(l10n.t('A note changed meanwhile, so that nothing was renamed. Try again.'));
  return edit;
}

/** The notes in which a card's or a field's name counts; a figure is known in its own note only. */
function notesWith(
  shops: Shops,
  document: TextDocument,
  { sheet, shops: cards }: Calculated,
  { kind, name, owner }: Symbol,
  token: CancellationToken,
  unreadable: (path: string, why: string) => void = () => {},
): AsyncIterable<SharingNote> | readonly SharingNote[] {
  const here = { uri: document.uri, text: document.getText(), sheet, shops: cards };
  const card = kind === 'card' ? name : owner?.kind === 'card' ? owner.name : null;
  return card === null ? [here] : notesWithCard(shops, here, card, token, unreadable);
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
