/** The notes of the workspace in which a card is used, one after the other. Looked for only when somebody asks. */
import { type CancellationToken, CancellationError, FileSystemError, Uri, workspace } from 'vscode';
import { Slices } from '../../archive/slices';
import { type Shop, Sheet } from '../../engine/index';
import { readNote } from '../../notation/note';
import { breathe } from './archive/workspace-notes';
import { type Shops, isShopFile } from './shops';
import { textOf } from './texts';

/** Files read at the same time. */
export const AT_ONCE = 50;

export interface SharingNote {
  readonly uri: Uri;
  readonly text: string;
  readonly sheet: Sheet;
  readonly shops: readonly Shop[];
}

/**
 * All notes for which a name stands for the same card as in this one, which is among them; each file of cards before the
 * notes that it serves. Only a few are held at a time, so that a workspace may have any number. Throws when the question is
 * given up: it never ends with some of them only, but for those that are told as unreadable.
 */
export async function* notesWithCard(
  shops: Shops,
  here: SharingNote,
  name: string,
  token: CancellationToken,
  unreadable: (path: string, why: string) => void,
): AsyncGenerator<SharingNote, void> {
  const file = fileOfCard(here, name);
  if (file === null || !isShopFile(Uri.parse(file))) {
    // A card that stands in a note is known there only.
    yield here;
    return;
  }
  const uris = await filesFrom(Uri.parse(file), here.uri);
  const slices = new Slices(breathe);
  for (let i = 0; i < uris.length; i += AT_ONCE) {
    const texts = await Promise.all(uris.slice(i, i + AT_ONCE).map((uri) => textIn(uri, here, unreadable)));
    for (const [at, text] of texts.entries()) {
      if (token.isCancellationRequested) throw new CancellationError();
      const uri = uris[i + at];
      if (!uri || !text.includes(name)) continue;
      const note = uri.toString() === here.uri.toString() ? here : await calculated(shops, uri, text);
      if (fileOfCard(note, name) === file) yield note;
      await slices.next();
    }
  }
}

/** The file that a card in force for a note stands in; null without one. */
function fileOfCard({ sheet, uri }: SharingNote, name: string): string | null {
  const card = sheet.card(name);
  return !card || card.builtIn ? null : (card.place.file ?? uri.toString());
}

/** Shop files first, those of outer folders before those within. */
async function filesFrom(shop: Uri, here: Uri): Promise<readonly Uri[]> {
  const found = await workspace.findFiles('**/*.md', '**/node_modules/**');
  const uris = [...new Map([...found, shop, here].map((uri) => [uri.toString(), uri])).values()];
  const depth = ({ path }: Uri): number => path.split('/').length;
  return [
    ...uris.filter(isShopFile).sort((a, b) => depth(a) - depth(b)),
    ...uris.filter((uri) => !isShopFile(uri)),
  ];
}

async function textIn(
  uri: Uri,
  here: SharingNote,
  unreadable: (path: string, why: string) => void,
): Promise<string> {
  if (uri.toString() === here.uri.toString()) return here.text;
  try {
    return await textOf(uri);
  } catch (error) {
    // Gone since it was listed, it uses nothing.
    if (!(error instanceof FileSystemError && error.code === 'FileNotFound'))
      unreadable(workspace.asRelativePath(uri), error instanceof Error ? error.message : String(error));
    return '';
  }
}

async function calculated(shops: Shops, uri: Uri, text: string): Promise<SharingNote> {
  const [sheet, cards] = [new Sheet(), await shops.of(uri)];
  sheet.update(readNote(text), cards);
  return { uri, text, sheet, shops: cards };
}
