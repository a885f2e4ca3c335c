/** What kind of thing belongs where the cursor stands. */
import {
  KNOWN_FIELDS,
  type KnownField,
  type Sheet,
  parameterDimension,
  planned,
  recordedOf,
} from '../engine/index';
import { parseLine } from '../notation/line';
import { type Dimension, NUMBER } from '../quantity/dimension';
import type { Parameter } from '../trade/formula';
import { formulaNamed } from '../trade/index';
import { type Cursor, GIVEN, openCall } from './cursor';

/** The parameter of a formula that the cursor is in; null outside calls and in calls of plain mathematics. */
export function expectedParameter(before: string): Parameter | null {
  const call = openCall(before);
  const formula = call && formulaNamed(call.name);
  if (!formula) return null;
  const named = formula.parameters.find(({ name }) => name === call.named);
  return named ?? (call.named === null ? (formula.parameters[call.index] ?? null) : null);
}

/** The field that a card's line gives, where the notebook knows it. */
export function fieldGiven({ block, before }: Cursor): KnownField | undefined {
  if (block.word === 'figures') return undefined;
  const name = GIVEN.exec(before)?.[1];
  return KNOWN_FIELDS.find((field) => field.name === name);
}

const RECORDED = /^\s*([\p{L}_][\p{L}\p{N}_.]*)\s+(?:measured|final|used)\s/u;

/** The dimension that belongs where the cursor stands, in as far as what stands before it tells. */
export function expectedDimension(sheet: Sheet, cursor: Cursor): Dimension | null {
  const { block, before } = cursor;
  if (block.word !== 'figures') return fieldGiven(cursor)?.dimension ?? null;
  const recorded = RECORDED.exec(before)?.[1];
  if (recorded !== undefined) {
    return planned(sheet, recorded.split('.'))?.dimension ?? recordedAs(sheet, recorded);
  }
  const beside = besideOperator(sheet, before);
  if (beside) return beside;
  const parameter = expectedParameter(before);
  if (parameter) return parameterDimension(parameter);
  const name = GIVEN.exec(before)?.[1];
  return name === undefined || /[*/^]/.test(before) ? null : recordedAs(sheet, name);
}

/** What was read or used of a name says what it is; a number that waits for its unit is no plain number yet. */
function recordedAs(sheet: Sheet, name: string): Dimension | null {
  const sized = recordedOf(sheet, name).find(({ unit }) => unit.dimension !== NUMBER);
  return sized?.unit.dimension ?? null;
}

/** Whatever a sum, a comparison or limits set beside each other is of one kind. */
const OPERATOR = /(.*[^\s<>=!+\-±/(,:[])\s*(?:[<>]=?|[=!]=|±|\+\/-|\.\.|\+|-)\s*[^=<>+\-±(),]*$/;

function besideOperator(sheet: Sheet, before: string): Dimension | null {
  const left = OPERATOR.exec(before)?.[1];
  return left === undefined ? null : dimensionOfText(sheet, lastTerm(left));
}

/** The part of a line after the last sign that begins something new. */
function lastTerm(text: string): string {
  let depth = 0;
  for (let at = text.length - 1; at >= 0; at--) {
    const c = text[at] ?? '';
    if (c === ')' || c === ']') depth++;
    else if ('(['.includes(c)) {
      if (depth-- === 0) return text.slice(at + 1);
    } else if (depth === 0 && '=<>,:'.includes(c)) return text.slice(at + 1);
  }
  return text;
}

/** The dimension of an expression, or of a size with its limits. */
export function dimensionOfText(sheet: Sheet, text: string): Dimension | null {
  const line = `x = ${text}`;
  const statement = parseLine(line, 'figures');
  if (statement.kind !== 'figure') return null;
  const value = sheet.evaluateExpression(statement.expression, line);
  return value?.kind === 'number' ? value.dimension : null;
}
