/** Pieces that several explanations are made of. */
import type { Sheet } from '../engine/index';
import type { Expression, UnitNode } from '../notation/syntax';
import type { Value } from '../quantity/value';
import type { Part, Step } from './explanation';
import { resultingLimits, withLimits } from './limits';
import { otherWays, valueText } from '../engine/wording';
import { type Conversion, workingOfLine } from '../engine/working';

/** A figure in other ways, where there are any. */
export function also(value: Value | null): readonly Part[] {
  const texts = value?.kind === 'number' ? otherWays(value) : [];
  return texts.length > 0 ? [{ kind: 'also', texts }] : [];
}

export function words(text: string): Part {
  return { kind: 'words', text };
}

/** What stands beside the name: the value, but for a record, whose fields make a table. */
export function headline(value: Value | null): string | null {
  if (value?.kind === 'number') return withLimits(value);
  return value === null || value.kind === 'record' ? null : valueText(value);
}

/** The limits that a value's inputs give it. */
export function limitParts(sheet: Sheet, value: Value | null): readonly Part[] {
  const limits = value?.kind === 'number' ? resultingLimits(sheet, value) : null;
  return limits ? [limits] : [];
}

export function working(steps: readonly Step[]): readonly Part[] {
  return steps.length > 0 ? [{ kind: 'working', steps }] : [];
}

/** The working of an expression or of the formula it calls. */
export function workingParts(
  sheet: Sheet,
  text: string,
  node: Expression,
  name: string,
  conversion: Conversion | null,
): readonly Part[] {
  return working(workingOfLine(sheet, text, node, name, conversion));
}

/** The conversion a line asks for, when it has one and a figure for a value. */
export function conversionTo(to: UnitNode | null, value: Value | null): Conversion | null {
  return to && value?.kind === 'number' ? { to, value } : null;
}
