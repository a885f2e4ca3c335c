/** A field of a record, a card or a figure's readings: the value, and where it comes from. */
import type { Row, Sheet } from '../engine/index';
import type { CallNode, FieldNode } from '../notation/syntax';
import { callOf } from '../notation/walk';
import { formulaNamed } from '../trade/index';
import { formulaParts } from './explain-call';
import { STARTING_POINT } from './explain-card';
import type { Explanation, Part } from './explanation';
import { also, headline, limitParts, words, working } from './parts';
import { capital } from '../engine/wording';
import { workingOfField } from '../engine/working';

/** `setup.ring`, `lathe.power`, `neck.mean`: the value, and where it comes from. */
export function explainField(sheet: Sheet, row: Row, node: FieldNode): Explanation | null {
  const value = sheet.evaluateExpression(node, row.text);
  const name = row.text.slice(node.start, node.end);
  if (value === null) return null;
  const source = fieldSource(sheet, node);
  return {
    name,
    shown: headline(value),
    parts: [...also(value), ...source.words, ...limitParts(sheet, value), ...source.parts],
  };
}

interface FieldSource {
  readonly words: readonly Part[];
  readonly parts: readonly Part[];
}

function fieldSource(sheet: Sheet, { of, field }: FieldNode): FieldSource {
  const call = of.kind === 'name' ? figureCall(sheet, of.name) : callOf(of);
  const formula = call && formulaNamed(call.name.text);
  const result = formula?.result.find((each) => each.name === field);
  if (call && formula && result) {
    const steps = workingOfField(sheet, call, field);
    return {
      words: [words(`${capital(result.meaning)}.`)],
      parts: [...working(steps), ...formulaParts(formula)],
    };
  }
  const card = of.kind === 'name' && !sheet.figure(of.name) ? sheet.card(of.name) : undefined;
  if (card) {
    const starts = card.word === 'material' && field.endsWith('_speed') ? [words(STARTING_POINT)] : [];
    return { words: [words(`On the card of ${card.name}.`), ...starts], parts: [] };
  }
  const known = READING_FIELDS.get(field);
  return { words: known ? [words(known)] : [], parts: [] };
}

const READING_FIELDS = new Map([
  ['reading', 'The last reading taken.'],
  ['readings', 'All readings of its last line.'],
  ['positions', 'Where each reading of its last line was taken.'],
  ['mean', 'Mean of the readings of its last line.'],
  ['used', 'What was really used, last.'],
]);

function figureCall(sheet: Sheet, name: string): CallNode | null {
  const row = sheet.figure(name);
  return row?.statement.kind === 'figure' ? callOf(row.statement.expression) : null;
}
