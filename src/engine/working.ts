/**
 * Workings: an expression, the same with the figures put in, and what that comes to. The figures carry as many digits
 * as it takes for anybody who works them out to arrive at the result shown.
 */
import { type Sheet, calculateLines } from './sheet';
import type { CallNode, Expression, UnitNode } from '../notation/syntax';
import { parseLine } from '../notation/line';
import { callOf } from '../notation/walk';
import type { Quantity, RecordValue, Value } from '../quantity/value';
import type { Step as Rule } from '../trade/formula';
import { type Put, substituted } from './substitute';
import { shown, shownIn, valueText } from './wording';

/** One step of a working: the expression, the same with the figures put in, and what that comes to. */
export interface WorkingStep {
  readonly words: string | null;
  /** Empty where the result has no name. */
  readonly name: string;
  readonly expression: string;
  readonly figures: string;
  readonly result: string;
}

/** Digits beyond the usual ones after which more would not help. */
const MOST_EXTRA = 9;

/** The value of a text of the notation by itself, without any note; null when it has none. */
export function workedOut(text: string): Value | null {
  const row = calculateLines(text).rows()[0];
  return row?.statement.kind === 'show' ? row.value : null;
}

/** What a line converts its expression to. */
export interface Conversion {
  readonly to: UnitNode;
  readonly value: Quantity;
}

/** The working of an expression of a note; null when it has no figure for a value or nothing to put in. */
export function workingOf(
  sheet: Sheet,
  text: string,
  node: Expression,
  name: string,
  conversion: Conversion | null = null,
): WorkingStep | null {
  if (node.kind === 'quantity' && !conversion) return null;
  const value = conversion?.value ?? sheet.evaluateExpression(node, text);
  if (value?.kind !== 'number') return null;
  const tail = conversion ? text.slice(node.end, conversion.to.end) : '';
  const expression = text.slice(node.start, node.end) + tail;
  const result = shown(value);
  for (let extra = 0; ; extra++) {
    // What stands on a card cannot be worked out without it, whatever the digits.
    let needsCard = false;
    const put: Put = (part) => {
      if (!isFigure(part)) return null;
      const figure = sheet.evaluateExpression(part, text);
      needsCard ||= figure?.kind === 'record';
      return literal(figure, extra);
    };
    const figures = substituted(text, node, put) + tail;
    if (needsCard || extra === MOST_EXTRA || agrees(workedOut(figures), value, 0))
      return { words: null, name, expression, figures, result };
  }
}

/** Whether a part is one figure: a name, or a field reached through names alone. */
function isFigure(node: Expression): boolean {
  if (node.kind === 'field') return isFigure(node.of);
  return node.kind === 'name' && node.name !== 'pi';
}

/** A value as the notation reads it; null for words and records, which keep their names. */
function literal(value: Value | null | undefined, extra: number): string | null {
  if (value?.kind === 'number') return shown(value, extra);
  if (value?.kind === 'list') return `[${value.items.map((item) => shown(item, extra)).join(', ')}]`;
  return null;
}

/** Whether a value shows as the wanted one does; of a list, whether its first items do. */
function agrees(value: Value | null, wanted: Value, extra: number): boolean {
  if (value?.kind === 'list' && wanted.kind === 'list')
    return value.items.every((item, i) => agrees(item, wanted.items[i] ?? wanted, extra));
  if (value?.kind !== 'number' || wanted.kind !== 'number') return false;
  return shownIn(value, wanted.unit, extra) === shown(wanted, extra);
}

/** The steps of a formula that lead to one field of its result; empty where it has no such field or no step gives it. */
export function workingOfField(sheet: Sheet, node: CallNode, field: string): readonly WorkingStep[] {
  const value = sheet.evaluateExpression(node);
  // A step on the way has a name as well, which nobody can ask for.
  if (value?.kind !== 'record' || !value.fields.has(field)) return [];
  const steps = workingOfCall(sheet, node);
  return steps.slice(0, steps.findIndex(({ name }) => name === field) + 1);
}

/** The working of a line's expression: of the formula that it calls, else the expression itself with its figures put in. */
export function workingOfLine(
  sheet: Sheet,
  text: string,
  node: Expression,
  name: string,
  conversion: Conversion | null,
): readonly WorkingStep[] {
  const call = callOf(node);
  if (call && sheet.call(call)) return workingOfCall(sheet, call);
  const source = node.kind === 'field' && callOf(node.of);
  const steps = source ? workingOfField(sheet, source, node.field) : [];
  if (steps.length > 0) return steps;
  const step = workingOf(sheet, text, node, name, conversion);
  return step ? [step] : [];
}

/** The working of a formula's call, step by step; empty when it has no result. */
export function workingOfCall(sheet: Sheet, node: CallNode): readonly WorkingStep[] {
  const call = sheet.call(node);
  if (!call) return [];
  const value = sheet.evaluateExpression(node);
  if (value?.kind !== 'number' && value?.kind !== 'record') return [];
  const known = new Map<string, Value>();
  for (const [name, argument] of call.arguments)
    if (typeof argument !== 'string' && 'kind' in argument) known.set(name, argument);
  const rules = call.formula.working(call.given);
  for (let extra = 0; ; extra++) {
    const { steps, agree } = put(rules, value, known, extra);
    if (agree || extra === MOST_EXTRA) return steps;
  }
}

/** The steps with figures of so many extra digits, and whether each figure worked out gives the result beside it. */
function put(
  rules: readonly Rule[],
  value: Quantity | RecordValue,
  given: ReadonlyMap<string, Value>,
  extra: number,
): { readonly steps: readonly WorkingStep[]; readonly agree: boolean } {
  const known = new Map(given);
  let agree = true;
  const steps = rules.map(({ name, expression, words }, i): WorkingStep => {
    const parsed = parseLine(expression, 'figures');
    const figuresWith = (digits: number): string =>
      parsed.kind === 'show'
        ? substituted(expression, parsed.expression, (part) =>
            literal(part.kind === 'name' ? known.get(part.name) : null, digits),
          )
        : expression;
    const figures = figuresWith(extra);
    const wanted = fieldOf(value, name) ?? workedOut(figuresWith(MOST_EXTRA));
    if (wanted?.kind !== 'number') {
      if (wanted?.kind === 'list') agree &&= agrees(workedOut(figures), wanted, 0);
      return { words, name, expression, figures, result: wanted ? valueText(wanted) : '' };
    }
    known.set(name, wanted);
    const digits = rules.slice(i + 1).some((later) => mentions(later.expression, name)) ? extra : 0;
    agree &&= agrees(workedOut(figures), wanted, digits);
    return { words, name, expression, figures, result: shown(wanted, digits) };
  });
  return { steps, agree };
}

function fieldOf(value: Quantity | RecordValue, name: string): Value | null {
  if (value.kind === 'number') return name === '' ? value : null;
  return value.fields.get(name) ?? null;
}

function mentions(expression: string, name: string): boolean {
  const names: readonly string[] = expression.match(/[\p{L}_][\p{L}\p{N}_]*/gu) ?? [];
  return names.includes(name);
}
