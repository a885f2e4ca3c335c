/** What a place of a note or a whole line amounts to, and why. */
import { type Row, type Sheet, machineCautions } from '../engine/index';
import type { Expression, Note, UnitNode } from '../notation/syntax';
import { callOf } from '../notation/walk';
import type { Quantity } from '../quantity/value';
import { callParts, explainCall, explainParameter, fieldParts, minding } from './explain-call';
import { explainCard, explainJob } from './explain-card';
import { explainCheck } from './explain-check';
import { explainField } from './explain-field';
import { explainRecord } from './explain-reading';
import type { Explanation, Part } from './explanation';
import { askedLimits } from './limits';
import { also, conversionTo, headline, limitParts, words, workingParts } from './parts';
import { type Found, at, onFence } from './position';
import { valueText } from '../engine/wording';

export interface Explained {
  readonly explanation: Explanation;
  /** Columns of the note's line. */
  readonly column: number;
  readonly endColumn: number;
  /** The line whose pictures belong to it; null where none do. */
  readonly pictured: Row | null;
}

/** What stands at a place of the note (line and column from 0); null where nothing needs explaining. */
export function explainAt(sheet: Sheet, note: Note, line: number, column: number): Explained | null {
  const row = sheet.rowAt(line);
  if (!row) return explainFence(sheet, note, line, column);
  const scope = scopeOf(sheet, row);
  const found = at(scope, row, column - row.column);
  if (!found) return null;
  const explanation = explain(scope, found);
  if (!explanation) return null;
  const { start, end } = found.span;
  const pictured = row.block.word === 'figures' ? picturedBy(sheet, row, found.target) : undefined;
  return {
    explanation: minding(explanation, machineCautions(sheet, (pictured ?? row).block)),
    column: row.column + start,
    endColumn: row.column + end,
    pictured: pictured ?? null,
  };
}

/** A figure's own line has its pictures, wherever the figure is used; an argument has none of its call's. */
function picturedBy(sheet: Sheet, row: Row, target: Found['target']): Row | undefined {
  if (target.kind === 'line') return row.reading ? sheet.figure(row.reading.path) : row;
  if (target.kind === 'name') return sheet.figure(target.name);
  if (target.kind === 'field')
    return target.node.of.kind === 'name' ? sheet.figure(target.node.of.name) : undefined;
  const { statement } = row;
  const whole =
    statement.kind === 'figure' || statement.kind === 'show' ? callOf(statement.expression) : null;
  return target.kind === 'formula' && target.node === whole ? row : undefined;
}

/** What a line amounts to, for the tooltip of its hint. */
export function explainRow(sheet: Sheet, row: Row): Explanation | null {
  const explanation = explainLine(scopeOf(sheet, row), row);
  return explanation && minding(explanation, machineCautions(sheet, row.block));
}

/** A card's lines see only each other: they are explained by a sheet of their own. */
function scopeOf(sheet: Sheet, row: Row): Sheet {
  return sheet.cardSheet(row.block) ?? sheet;
}

function explainLine(sheet: Sheet, row: Row): Explanation | null {
  const { statement } = row;
  switch (statement.kind) {
    case 'figure':
      return explainFigure(sheet, row, statement.name.text);
    case 'show':
      return explainExpression(sheet, row, statement.expression, statement.to);
    case 'check':
      return explainCheck(sheet, row);
    case 'reading':
    case 'used':
      return explainRecord(sheet, row);
    default:
      return null;
  }
}

function explainFence(sheet: Sheet, note: Note, line: number, column: number): Explained | null {
  const block = note.blocks.find(({ fenceLine }) => fenceLine === line);
  const word = block && onFence(block.name ? [block.name, ...block.on] : block.on, column);
  const card = word && sheet.card(word.text);
  if (!card) return null;
  return {
    explanation: explainCard(card),
    column: word.start,
    endColumn: word.end,
    pictured: null,
  };
}

function explain(sheet: Sheet, { row, target }: Found): Explanation | null {
  switch (target.kind) {
    case 'line':
      return explainLine(sheet, row);
    case 'name':
      return target.given ? explainLine(sheet, row) : explainName(sheet, target.name);
    case 'field':
      return explainField(sheet, row, target.node);
    case 'formula':
      return explainCall(sheet, row.text, target.node);
    case 'parameter':
      return explainParameter(sheet, target.node, target.parameter);
    case 'card':
      return explainCard(target.card);
    case 'expression':
      return explainExpression(sheet, row, target.node, null);
  }
}

function explainName(sheet: Sheet, name: string): Explanation | null {
  const figure = sheet.figure(name);
  if (figure) return explainFigure(sheet, figure, name);
  if (name === 'pi')
    return { name, shown: '3.14159…', parts: [words('A circle is pi times as long round as across.')] };
  if (name === 'job') return explainJob(sheet);
  const value = sheet.valueOf(name);
  if (value?.kind !== 'number') return null;
  return { name, shown: valueText(value), parts: [words('Mean of its last readings.'), ...also(value)] };
}

function explainFigure(sheet: Sheet, row: Row, name: string): Explanation {
  const { statement, value } = row;
  const comment = statement.comment ? [words(statement.comment.text)] : [];
  if (value === null || statement.kind !== 'figure')
    return { name, shown: null, parts: [...comment, words(withoutValue(row))] };
  const { expression } = statement;
  const parts = value.kind === 'number' ? numberParts(sheet, row, value, expression) : fieldParts(value);
  return {
    name,
    shown: headline(value),
    parts: [
      ...parts.slice(0, 1),
      ...comment,
      ...parts.slice(1),
      ...workingParts(sheet, row.text, expression, name, conversionTo(statement.to, value)),
      ...callParts(expression),
    ],
  };
}

function withoutValue(row: Row): string {
  if (row.waitsFor.length > 0) return `Waits for ${row.waitsFor.join(', ')}.`;
  return 'No value: something is wrong in its line.';
}

/** The value in other ways, the limits asked for, and what the inputs make of it. */
function numberParts(sheet: Sheet, row: Row, value: Quantity, expression: Expression): readonly Part[] {
  if (!row.asked) return [...also(value), ...limitParts(sheet, value)];
  const inputs = sheet.evaluateExpression(expression, row.text);
  return [...also(value), askedLimits(value, row.asked), ...limitParts(sheet, inputs)];
}

function explainExpression(
  sheet: Sheet,
  row: Row,
  node: Expression,
  to: UnitNode | null,
): Explanation | null {
  const value = to ? row.value : sheet.evaluateExpression(node, row.text);
  if (value === null) return null;
  const working = workingParts(sheet, row.text, node, '', conversionTo(to, value));
  return {
    name: '',
    shown: headline(value),
    parts: [
      ...also(value),
      ...fieldParts(value),
      ...limitParts(sheet, value),
      ...working,
      ...callParts(node),
    ],
  };
}
