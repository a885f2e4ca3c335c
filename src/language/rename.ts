/** Another name for a figure, a card or a card's field. Touches names in our blocks and nothing else; what would go wrong is refused. */
import { isRecordField } from '../engine/bind';
import { KNOWN_FIELDS, type Sheet, type Shop, calculate } from '../engine/index';
import { parseLine } from '../notation/line';
import { CARD_WORDS } from '../trade/card-words';
import type { Range } from './diagnostics';
import { type Noted, type TextEdit, edited } from './edits';
import { type Symbol, occurrencesOf, symbolAt } from './names-in';

export interface Renamable extends Symbol {
  readonly range: Range;
}

/** What a rename at this place would rename; null where nothing can be. */
export function renamable(sheet: Sheet, line: number, column: number): Renamable | null {
  const found = symbolAt(sheet, line, column);
  if (!found) return null;
  const { name, kind, owner, range } = found;
  return isKnown(sheet, found) ? { name, kind, owner, range } : null;
}

function isKnown(sheet: Sheet, { name, kind, owner }: Symbol): boolean {
  if (kind === 'figure') return Boolean(sheet.figure(name) ?? sheet.valueOf(name));
  const card = cardOf(sheet, { name, owner });
  if (card?.builtIn !== false) return false;
  return kind === 'card' || card.fields.has(name);
}

/** The card that a card's or a field's name is about; undefined for the fields of figures and of the job. */
function cardOf(sheet: Sheet, { name, owner }: Pick<Symbol, 'name' | 'owner'>): ReturnType<Sheet['card']> {
  if (owner === null) return sheet.card(name);
  return owner.kind === 'card' ? sheet.card(owner.name) : undefined;
}

const SCREW = /_(?:per_turn|divisions|backlash)$/;
const WORDS = /^(?:kind|name|caution(?:_\w+)?)$/;

/** Whether formulas and checks look for a card's field under this name, so that it can be neither lost nor taken. */
export function isActedOn(field: string): boolean {
  return (
    KNOWN_FIELDS.some(({ name }) => name === field) ||
    CARD_WORDS.has(field) ||
    SCREW.test(field) ||
    WORDS.test(field)
  );
}

export type Refused =
  | 'no-name'
  /** A unit, `to`, `pi` or a word of the notation. */
  | 'reserved'
  /** A field that the notebook acts on. */
  | 'acted-on'
  | 'taken'
  /** Signed results are found again by their name. */
  | 'signed'
  /** The note would come out otherwise. */
  | 'changes';

/** Why a new name cannot be given; null when it can. */
export function refusal(sheet: Sheet, symbol: Symbol, name: string): Refused | null {
  if (!/^[\p{L}_][\p{L}\p{N}_]*$/u.test(name)) return 'no-name';
  const statement = parseLine(`${name} = 1`, 'figures');
  if (statement.kind !== 'figure' || name === 'job') return 'reserved';
  if (symbol.kind === 'field') {
    if (isRecordField(name)) return 'reserved';
    if (isActedOn(name) || isActedOn(symbol.name)) return 'acted-on';
    return cardOf(sheet, symbol)?.fields.has(name) ? 'taken' : null;
  }
  if (sheet.figure(name) ?? sheet.valueOf(name)) return 'taken';
  return symbol.kind === 'figure' && isSigned(sheet, symbol.name) ? 'signed' : null;
}

function isSigned(sheet: Sheet, name: string): boolean {
  return sheet.note.blocks.some(
    ({ word, content }) =>
      word === 'signed' &&
      content.split('\n').some((line) => new RegExp(`^\\s*${name}(?:\\.\\w+)*\\s*=`).test(line)),
  );
}

/** The edits in one note. */
export function renamed(sheet: Sheet, symbol: Symbol, name: string): readonly TextEdit[] {
  return occurrencesOf(sheet, symbol).map(({ range }) => ({ range, text: name }));
}

/** A note with the name by which the shops of others know it. */
export interface NamedNote extends Noted {
  readonly file: string;
}

/**
 * A new name given in one note after the other, so that as many can follow as there are. A file whose cards others use
 * comes before them: they are tried with its cards as these will be.
 */
export class Renaming {
  private readonly shopsAfter = new Map<string, string>();

  constructor(
    private readonly symbol: Symbol,
    private readonly name: string,
  ) {}

  /** The edits of a note, or why there can be none; refused where it would come out otherwise. */
  in(note: NamedNote): readonly TextEdit[] | Refused {
    const { sheet, text, file, shops } = note;
    const refused = refusal(sheet, this.symbol, this.name);
    if (refused) return refused;
    const edits = renamed(sheet, this.symbol, this.name);
    if (sheet.note.blocks.some(({ word }) => word === 'machine' || word === 'material'))
      this.shopsAfter.set(file, edited(text, edits));
    const after = shops.map((shop) => ({
      file: shop.file,
      text: this.shopsAfter.get(shop.file) ?? shop.text,
    }));
    return keepsMeaning(note, edits, after) ? edits : 'changes';
  }
}

/** Whether the note says the same with the edits: as many findings of each kind, as many lines with a value. */
export function keepsMeaning(
  { sheet, text, shops }: Noted,
  edits: readonly TextEdit[],
  shopsAfter: readonly Shop[] = shops,
): boolean {
  const after = calculate(edited(text, edits), shopsAfter);
  const summary = (of: Sheet): string =>
    JSON.stringify([
      of.findings().map(({ code, line }) => `${line} ${code}`),
      of.rows().map(({ value }) => (value?.kind === 'number' ? value.value : value?.kind)),
    ]);
  return summary(after) === summary(sheet);
}
