/**
 * Workings: an expression, the same with the figures put in, and what that comes to. The figures carry as many digits
 * as it takes for anybody who works them out to arrive at the result shown.
 */
import { type Sheet, calculateLines } from './sheet';
import type { CallNode, Expression, UnitNode } from '../notation/syntax';
import { parseLine } from '../notation/line';
import { callOf } from '../notation/walk';
import type { Quantity, RecordValue, Value } from '../quantity/value';
import type { Step } from '../trade/formula';
import { decimalsFor, usualDecimals } from '../quantity/display';
import { fromBase, toBase } from '../quantity/unit';
import { type Put, substituted } from './substitute';
import { rounded, shown, shownIn, valueText } from './wording';

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
function agrees(value: Value | null, wanted: Value | null, extra: number): boolean {
  if (value?.kind === 'list' && wanted?.kind === 'list')
    return value.items.every((item, i) => agrees(item, wanted.items[i] ?? wanted, extra));
  if (value?.kind !== 'number' || wanted?.kind !== 'number') return false;
  const nothing = shown(wanted, extra) === shown(zero(wanted), extra);
  const reached = nothing && roundsToNothing(value, wanted, extra) ? zero(wanted) : value;
  return shownIn(reached, wanted.unit, extra) === shown(wanted, extra);
}

const zero = (q: Quantity): Quantity => ({ ...q, value: toBase(0, q.unit) });

/** Whether a value, in the unit of another and with so many digits beyond the usual ones of that, has none but zeros. */
function roundsToNothing({ value }: Quantity, like: Quantity, extra: number): boolean {
  return rounded(fromBase(value, like.unit), usualDecimals(like) + extra) === 0;
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
  const rules = rulesOf(call.formula.working(call.given), value, known);
  const digits = digitsNeeded(rules);
  return rules.map((rule) => ({
    words: rule.words,
    name: rule.name,
    expression: withFigures({ ...rule, known: NOTHING }, digits),
    figures: withFigures(rule, digits),
    result: resultText(rule, digits),
  }));
}

/** A step of a formula as it is read for the arguments at hand. */
interface Rule extends Step {
  readonly node: Expression | null;
  /** What its names stand for. */
  readonly known: ReadonlyMap<string, Value>;
  /** Stands for the numbers in the step itself that nobody would write so long. */
  readonly own: string;
}
interface Worked extends Rule {
  readonly wanted: Value | null;
  /** What the digits of its figures are looked up by. */
  readonly keys: ReadonlySet<string>;
}

/** Digits beyond the usual ones of what stands in a step: of arguments and earlier steps by their names. */
type Digits = (key: string) => number;

/** What a unit's own digits and so many more would not show is nothing: the figures that came to it would be as long. */
const BEYOND = 3;

function isNothing(q: Quantity): boolean {
  return decimalsFor(q.unit) !== null && roundsToNothing(q, q, BEYOND);
}

const NOTHING: ReadonlyMap<string, Value> = new Map();

function rulesOf(
  steps: readonly Step[],
  value: Quantity | RecordValue,
  given: ReadonlyMap<string, Value>,
): readonly Worked[] {
  let known = given;
  return steps.map((step, i) => {
    const parsed = parseLine(step.expression, 'figures');
    const node = parsed.kind === 'show' ? parsed.expression : null;
    const rule: Rule = { ...step, node, known, own: `#${i}` };
    const keys = new Set<string>();
    const precise = withFigures(rule, (key) => {
      keys.add(key);
      return MOST_EXTRA;
    });
    const reached = fieldOf(value, step.name) ?? workedOut(precise);
    const wanted = reached?.kind === 'number' && isNothing(reached) ? zero(reached) : reached;
    if (wanted !== null) known = new Map(known).set(step.name, wanted);
    return { ...rule, wanted, keys };
  });
}

/** More than eight digits, the first not a zero. */
const LONG = /[1-9](?:\.?\d){8}/;

/** The step's expression with figures for its names. */
function withFigures({ expression, node, known, own }: Rule, digits: Digits): string {
  if (!node) return expression;
  return substituted(expression, node, (part) => {
    if (part.kind === 'name') return literal(known.get(part.name), digits(part.name));
    const text = expression.slice(part.start, part.end);
    return part.kind === 'quantity' && LONG.test(text) ? literal(workedOut(text), digits(own)) : null;
  });
}

function resultText({ name, wanted }: Worked, digits: Digits): string {
  if (wanted?.kind === 'number') return shown(wanted, digits(name));
  return wanted ? valueText(wanted) : '';
}

/**
 * As many digits as it takes for the figures of each step to give its result, from the last step to the first: what a
 * later step needs of an earlier one, the earlier one has to give. More digits of one name may take more of another, so
 * it goes on until nothing is wanting.
 */
function digitsNeeded(rules: readonly Worked[]): Digits {
  const needed = new Map<string, number>();
  const digits: Digits = (key) => needed.get(key) ?? 0;
  for (let changed = true; changed;) {
    changed = false;
    for (const rule of [...rules].reverse()) {
      const least = leastExtra(rule, digits);
      for (const key of rule.keys) {
        if (digits(key) >= least) continue;
        needed.set(key, least);
        changed = true;
      }
    }
  }
  return digits;
}

/** The fewest digits of all that a step takes, beside those needed of each, that give its result as it is shown. */
function leastExtra(rule: Worked, digits: Digits): number {
  for (let extra = 0; extra < MOST_EXTRA; extra++) {
    const figures = withFigures(rule, (key) => Math.max(digits(key), extra));
    if (agrees(workedOut(figures), rule.wanted, digits(rule.name))) return extra;
  }
  return MOST_EXTRA;
}

function fieldOf(value: Quantity | RecordValue, name: string): Value | null {
  if (value.kind === 'number') return name === '' ? value : null;
  return value.fields.get(name) ?? null;
}
