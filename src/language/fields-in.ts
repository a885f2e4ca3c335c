/** The places of fields: `lathe.power`, `setup.ring`, `job.quantity`, and the lines of a card that give its own. */
import { isRecordField } from '../engine/bind';
import type { Sheet } from '../engine/index';
import type { Row } from '../engine/results';
import type { Expression, FieldNode, Path, Span } from '../notation/syntax';
import { children, expressionsOf } from '../notation/walk';
import type { Occurrence } from './names-in';

/** A card, a figure whose result has parts, or the job with the fields of the note's head. */
export interface Owner {
  readonly kind: 'card' | 'figure' | 'job';
  readonly name: string;
}

/** Names in a row that stand for each other; nobody follows more. */
const MOST_NAMES = 100;

/** What the fields of an expression belong to; a figure that only stands for a card or for another figure is that one. */
export function ownerOf(sheet: Sheet, e: Expression): Owner | null {
  const seen = new Set<string>();
  let owner: Owner | null = null;
  for (let at = e; ;) {
    while (at.kind === 'group') at = at.of;
    if (at.kind !== 'name' || seen.has(at.name) || seen.size > MOST_NAMES) return owner;
    const { name } = at;
    if (name === 'job') return { kind: 'job', name };
    const given = sheet.figure(name)?.statement;
    if (given?.kind !== 'figure') return !given && sheet.card(name) ? { kind: 'card', name } : owner;
    owner = { kind: 'figure', name };
    seen.add(name);
    at = given.expression;
  }
}

/** The field that an expression asks for. What was read or used of something is no field of its own. */
export function usedField(row: Row, e: FieldNode, owner: Owner | null): readonly Occurrence[] {
  return owner && !isRecordField(e.field) ? [fieldAt(row, e.field, e.fieldSpan.start, owner, false)] : [];
}

/** The field in `lathe.power used 2 kW` or `setup.ring measured 29 mm`. */
export function pathField(sheet: Sheet, row: Row, { names, start, end }: Path): readonly Occurrence[] {
  const [name = '', field] = names;
  if (field === undefined) return [];
  const whole: Expression = { kind: 'name', name, start, end };
  const owner = ownerOf(sheet, whole);
  return owner ? [fieldAt(row, field, start + name.length + 1, owner, false)] : [];
}

/** A card's own line: the field that it gives and those of the same card that it takes. */
export function fieldsOfCard(row: Row): readonly Occurrence[] {
  const { name } = row.block;
  if (!name) return [];
  const owner: Owner = { kind: 'card', name: name.text };
  const { statement } = row;
  const found: Occurrence[] = [];
  const add = (text: string, { start }: Span, given: boolean): void =>
    void found.push(fieldAt(row, text, start, owner, given));
  if (statement.kind === 'figure') add(statement.name.text, statement.name, true);
  if (statement.kind === 'words') add(statement.key.text, statement.key, true);
  const walk = (e: Expression): void => {
    if (e.kind === 'name' && e.callout !== true && e.name !== 'pi') add(e.name, e, false);
    children(e).forEach(walk);
  };
  expressionsOf(statement).forEach(walk);
  return found;
}

function fieldAt(
  { line, column }: Row,
  name: string,
  start: number,
  owner: Owner,
  given: boolean,
): Occurrence {
  const first = column + start;
  const range = { line, column: first, endLine: line, endColumn: first + name.length };
  return { name, kind: 'field', owner, range, given };
}
