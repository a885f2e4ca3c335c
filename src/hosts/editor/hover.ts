/** What stands under the pointer, explained. */
import {
  type Disposable,
  Hover,
  MarkdownString,
  type Position,
  Range,
  type TextDocument,
  languages,
} from 'vscode';
import { explainAt } from '../../language/explain';
import { markdown } from '../../language/markdown';
import type { Workspace } from './workspace';

export function registerHover(notes: Workspace): Disposable {
  const provideHover = async (
    document: TextDocument,
    { line, character }: Position,
  ): Promise<Hover | undefined> => {
    const calculated = await notes.calculated(document);
    const found = calculated && explainAt(calculated.sheet, calculated.note, line, character);
    if (!found) return undefined;
    const range = new Range(line, found.column, line, found.endColumn);
    return new Hover(new MarkdownString(markdown(found.explanation)), range);
  };
  return languages.registerHoverProvider({ language: 'markdown' }, { provideHover });
}
