/** Pieces that several explanations are made of. */
import type { Sheet } from '../engine/index';
import type { Expression, UnitNode } from '../notation/syntax';
import { callOf } from '../notation/walk';
import type { Quantity, Value } from '../quantity/value';
import { formulaNamed } from '../trade/index';
import { fieldRows, formulaParts } from './explain-call';
import type { Part } from './explanation';
import { resultingLimits, withLimits } from './limits';
import { otherWays, valueText } from '../engine/wording';
import { type Conversion, workingOfLine } from '../engine/working';

export function also(q: Quantity): readonly Part[] {
  const texts = otherWays(q);
  return texts.length > 0 ? [{ kind: 'also', texts }] : [];
}

export function words(text: string): Part {
  return { kind: 'words', text };
}

/** What stands beside the name: the value, but for a record, whose fields make a table. */
export function headline(value: Value): string | null {
  if (value.kind === 'number') return withLimits(value);
  return value.kind === 'record' ? null : valueText(value);
}

/** The limits that a value's inputs give it. */
export function limitParts(sheet: Sheet, value: Value | null): readonly Part[] {
  const limits = value?.kind === 'number' ? resultingLimits(sheet, value) : null;
  return limits ? [limits] : [];
}

/** A record's fields with their meanings. */
export function fieldParts(expression: Expression, value: Value): readonly Part[] {
  if (value.kind !== 'record') return [];
  const formula = expression.kind === 'call' ? formulaNamed(expression.name.text) : undefined;
  return [{ kind: 'table', rows: fieldRows(formula, value.fields) }];
}

/** The working of an expression or of the formula it calls. */
export function workingParts(
  sheet: Sheet,
  text: string,
  node: Expression,
  name: string,
  conversion: Conversion | null,
): readonly Part[] {
  const steps = workingOfLine(sheet, text, node, name, conversion);
  return steps.length > 0 ? [{ kind: 'working', steps }] : [];
}

/** The conversion a line asks for, when it has one and a figure for a value. */
export function conversionTo(to: UnitNode | null, value: Value | null): Conversion | null {
  return to && value?.kind === 'number' ? { to, value } : null;
}

/** What belongs to the formula that an expression calls. */
export function callParts(node: Expression): readonly Part[] {
  const formula = formulaNamed(callOf(node)?.name.text ?? '');
  return formula ? formulaParts(formula) : [];
}
