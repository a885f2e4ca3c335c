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
import { occurrencesOf, symbolAt } from '../../language/names-in';
import { type Refused, keepsMeaning, refusal, renamable, renamed } from '../../language/rename';
import { type BlockSymbol, blockSymbols } from '../../language/symbols';
import { notesWithCard } from './other-notes';
import { editorRange, location } from './places';
import type { Shops } from './shops';
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
        if (!found) throw new Error(l10n.t('Only figures and cards of your own can be renamed here.'));
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
  if (symbol.kind === 'figure') return here;
  const others = await notesWithCard(shops, document, calculated.sheet, symbol, token);
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
  if (!symbol) throw new Error(l10n.t('Only figures and cards of your own can be renamed here.'));
  const { sheet } = calculated;
  const others = symbol.kind === 'card' ? await notesWithCard(shops, document, sheet, symbol, token) : [];
  const edit = new WorkspaceEdit();
  const all = [{ uri: document.uri, text: document.getText(), sheet, shops: calculated.shops }, ...others];
  for (const note of all) {
    const why = refusal(note.sheet, symbol, name);
    if (why) throw new Error(because(why, name));
    const edits = renamed(note.sheet, symbol, name);
    // A card stands in another file, which each note by itself does not see renamed.
    if (symbol.kind === 'figure' && !keepsMeaning(note, edits)) throw new Error(because('changes', name));
    for (const { range, text } of edits) edit.replace(note.uri, editorRange(range), text);
  }
  return edit;
}

function because(why: Refused, name: string): string {
  switch (why) {
    case 'no-name':
      return l10n.t('A name begins with a letter and holds letters, digits and _.');
    case 'reserved':
      return l10n.t('{0} is a unit or a word of the notation and cannot be a name.', name);
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
