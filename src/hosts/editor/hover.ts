/** What stands under the pointer, explained: figures with their pictures, and words of the trade in the note's text. */
import {
  ColorThemeKind,
  type Disposable,
  Hover,
  MarkdownString,
  type Position,
  Range,
  type TextDocument,
  languages,
  window,
} from 'vscode';
import type { Row, Sheet } from '../../engine/index';
import { explainAt } from '../../language/explain';
import { hasLine } from '../../notation/blocks';
import { escape, markdownInTwo } from '../../language/markdown';
import { base64 } from '../../sheet/images';
import { picturesOf, sharesOf } from '../../sheet/picture/of-row';
import { termAt } from '../../trade/glossary';
import { displayed } from '../../quantity/display';
import { displaySettings } from './settings';
import type { Workspace } from './workspace';

export function registerHover(notes: Workspace): Disposable {
  const provideHover = async (
    document: TextDocument,
    { line, character }: Position,
  ): Promise<Hover | undefined> => {
    const calculated = await notes.calculated(document);
    if (!calculated) return undefined;
    const { sheet, note } = calculated;
    const found = displayed(displaySettings(document.uri), () => {
      const explained = explainAt(sheet, note, line, character);
      return explained && { ...explained, texts: markdownInTwo(explained.explanation) };
    });
    if (!found)
      return note.blocks.some((block) => hasLine(block, line)) ? undefined : word(document, line, character);
    const range = new Range(line, found.column, line, found.endColumn);
    const [result, rest] = found.texts.map((text) => new MarkdownString(text));
    return new Hover(
      [result, ...pictures(sheet, found.pictured), rest].flatMap((it) => (it?.value ? [it] : [])),
      range,
    );
  };
  return languages.registerHoverProvider({ language: 'markdown' }, { provideHover });
}

/** A word of the trade in the note's own text. */
function word(document: TextDocument, line: number, character: number): Hover | undefined {
  const found = termAt(document.lineAt(line).text, character);
  if (!found) return undefined;
  const { term, start, end } = found;
  return new Hover(
    new MarkdownString(`**${escape(term.word)}** ${escape(term.means)}`),
    new Range(line, start, line, end),
  );
}

/** Hovers show images, not drawings in their text; an image knows no theme, so it is told whether the ground is dark. */
function pictures(sheet: Sheet, row: Row | null): readonly MarkdownString[] {
  if (!row) return [];
  const shares = sharesOf(sheet, row);
  const { kind } = window.activeColorTheme;
  const dark = kind === ColorThemeKind.Dark || kind === ColorThemeKind.HighContrast;
  return [...picturesOf(sheet, row), ...(shares === null ? [] : [shares])].map((svg) => {
    const own = svg.replace('<svg ', `<svg color="${dark ? '#d4d4d4' : '#1f1f1f'}" font-size="11" `);
    const drawn = own.replace('font-family="inherit"', 'font-family="sans-serif"');
    return new MarkdownString(`![](data:image/svg+xml;base64,${base64(new TextEncoder().encode(drawn))})`);
  });
}
