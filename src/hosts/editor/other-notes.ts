/** The other notes of the workspace in which a card is used. Looked for only when somebody asks. */
import { type CancellationToken, type TextDocument, Uri, workspace } from 'vscode';
import { type Shop, Sheet } from '../../engine/index';
import { readNote } from '../../notation/note';
import type { Shops } from './shops';
import { textOf } from './texts';

/** Notes looked through; a shop that has more keeps its cards' names. */
const MOST_NOTES = 5000;
const AT_ONCE = 8;

export interface OtherNote {
  readonly uri: Uri;
  readonly text: string;
  readonly sheet: Sheet;
  readonly shops: readonly Shop[];
}

/** The file that a card in force for a note stands in. */
export function fileOfCard(sheet: Sheet, name: string, note: Uri): string | null {
  const card = sheet.card(name);
  return !card || card.builtIn ? null : (card.place.file ?? note.toString());
}

/** Notes besides this one, the shop file among them, for which the name stands for the same card. */
export async function notesWithCard(
  shops: Shops,
  document: TextDocument,
  sheet: Sheet,
  name: string,
  token: CancellationToken,
): Promise<readonly OtherNote[]> {
  const file = fileOfCard(sheet, name, document.uri);
  if (file === null) return [];
  const found = await workspace.findFiles('**/*.md', '**/node_modules/**', MOST_NOTES, token);
  const uris = new Map([...found, Uri.parse(file)].map((uri) => [uri.toString(), uri]));
  uris.delete(document.uri.toString());
  const waiting = [...uris.values()];
  const notes: OtherNote[] = [];
  const look = async (): Promise<void> => {
    for (let uri = waiting.pop(); uri && !token.isCancellationRequested; uri = waiting.pop()) {
      const note = await read(shops, uri, name);
      if (note && fileOfCard(note.sheet, name, uri) === file) notes.push(note);
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, look));
  return notes;
}

async function read(shops: Shops, uri: Uri, name: string): Promise<OtherNote | null> {
  const text = await textOf(uri).catch(() => null);
  if (!text?.includes(name)) return null;
  const [sheet, cards] = [new Sheet(), await shops.of(uri)];
  sheet.update(readNote(text), cards);
  return { uri, text, sheet, shops: cards };
}
