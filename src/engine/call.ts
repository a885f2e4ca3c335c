/** Calls of the plain mathematics and of the trade's formulas, with limits travelling through them. */
import { type Dimension, LENGTH, NUMBER, dimensionName } from '../quantity/dimension';
import { MATHEMATICS, type MathFunction } from '../quantity/mathematics';
import { type Unit, toBase } from '../quantity/unit';
import { SOME_MONEY, inSystem, unit as unitNamed } from '../quantity/units';
import {
  type List,
  type Quantity,
  type Reach,
  type Text,
  type Value,
  fault,
  isFault,
} from '../quantity/value';
import type { Argument, CallNode, Expression, Span } from '../notation/syntax';
import {
  type Answer,
  type Field,
  type Formula,
  type Outcome,
  type Parameter,
  type ParameterKind,
  isRefusal,
} from '../trade/formula';
import { FORMULA_NAMES, formulaNamed } from '../trade/index';
import { type Moved, movedAnswers } from './call-limits';
import { type Evaluation, unitText } from './evaluate';
import { type Arguments, type Bound, GivenArguments, isKind } from './given';
import { alike, sharingWords } from './near-names';

export function callFormula(evaluation: Evaluation, call: CallNode): Value | null {
  const { text } = call.name;
  const made = MATHEMATICS.get(text);
  if (made) return callMathematics(evaluation, call, made);
  const formula = formulaNamed(text);
  if (!formula) {
    const slip = alike(text, [...MATHEMATICS.keys(), ...FORMULA_NAMES]);
    const offers = slip.length > 0 ? slip : sharingWords(text, FORMULA_NAMES);
    return evaluation.refuse(call.name, fault('unknown-formula', { name: text, offers }));
  }
  const bound = bindArguments(evaluation, call, formula);
  return bound && answer(evaluation, call, formula, bound);
}

function callMathematics(evaluation: Evaluation, call: CallNode, made: MathFunction): Value | null {
  const values: Quantity[] = [];
  for (const argument of call.arguments) {
    if (argument.name)
      return evaluation.refuse(
        argument.name,
        fault('argument-name-unknown', { name: argument.name.text, formula: made.name }),
      );
    const value = evaluation.number(argument.value);
    if (value === null) return null;
    values.push(value);
  }
  const [least, most] = made.counts;
  if (values.length < least || values.length > most) {
    return evaluation.refuse(
      call,
      fault('argument-count', {
        formula: made.name,
        given: values.length,
        least,
        most: Number.isFinite(most) ? most : null,
      }),
    );
  }
  const result = made.compute(values);
  if (!isFault(result)) return result;
  const angle = result.code === 'angle-needed' && call.arguments[0]?.value;
  if (!angle) return evaluation.refuse(call, result);
  const bare = evaluation.slice(angle);
  const offers = angle.kind === 'quantity' ? [`${bare}°`, `${bare} rad`] : [];
  return evaluation.refuse(angle, { ...result, data: { ...result.data, offers } });
}

/** The arguments by parameter, or null when they do not fit (with a problem where). */
export function bindArguments(evaluation: Evaluation, call: CallNode, formula: Formula): Arguments | null {
  const bound = new Map<string, Bound>();
  let position = 0;
  for (const argument of call.arguments) {
    const parameter = argument.name
      ? formula.parameters.find((p) => p.name === argument.name?.text)
      : formula.parameters[position++];
    if (!parameter) {
      if (!argument.name)
        return evaluation.refuse(argument, fault('argument-count', countData(formula, call)));
      const known = formula.parameters.map((p) => p.name);
      const { text } = argument.name;
      return evaluation.refuse(
        argument.name,
        fault('argument-name-unknown', {
          name: text,
          formula: formula.name,
          known,
          offers: alike(text, known),
        }),
      );
    }
    if (bound.has(parameter.name))
      return evaluation.refuse(argument, fault('argument-twice', { name: parameter.name }));
    const value = bindOne(evaluation, argument, parameter, formula);
    if (value === null) return null;
    const [before, now] = [currencyOf(bound), currencyOf(new Map([[parameter.name, value]]))];
    if (before !== null && now !== null && before !== now)
      return evaluation.refuse(argument.value, fault('currencies-mixed', { left: before, right: now }));
    bound.set(parameter.name, value);
  }
  const missing = formula.parameters.filter((p) => !p.optional && !bound.has(p.name));
  const first = missing[0];
  if (!first) return bound;
  return evaluation.refuse(
    call,
    fault('argument-missing', {
      formula: formula.name,
      name: first.name,
      meaning: first.meaning,
      unit: first.unit,
    }),
  );
}

function countData(formula: Formula, call: CallNode): Record<string, string | number | null> {
  const least = formula.parameters.filter((p) => !p.optional).length;
  return { formula: formula.name, given: call.arguments.length, least, most: formula.parameters.length };
}

function bindOne(
  evaluation: Evaluation,
  argument: Argument,
  parameter: Parameter,
  formula: Formula,
): Bound | null {
  const { value: e } = argument;
  if (parameter.kind === 'code') {
    if (e.kind === 'name') return e.name;
    const offers =
      e.kind === 'quantity' && e.unit.dimension === LENGTH ? (parameter.codesOf?.(e.value) ?? []) : [];
    const { name, meaning } = parameter;
    const data = { name, meaning, text: evaluation.slice(e), offers };
    return evaluation.refuse(e, fault('code-needed', data));
  }
  if (parameter.kind === 'word') {
    const words = parameter.words ?? [];
    if (e.kind === 'name' && words.includes(e.name)) return e.name;
    const text = evaluation.slice(e);
    return evaluation.refuse(
      e,
      fault('word-needed', { name: parameter.name, text, words, offers: alike(text, words) }),
    );
  }
  if (parameter.kind === 'machine' || parameter.kind === 'material') {
    const card = e.kind === 'name' ? evaluation.scope.entry(e.name)?.card : null;
    if (card?.word === parameter.kind) return card;
    return evaluation.refuse(
      e,
      fault('card-needed', { name: parameter.name, kind: parameter.kind, text: evaluation.slice(e) }),
    );
  }
  if (parameter.kind === 'list') return bindList(evaluation, e, parameter, formula);
  const value = evaluation.number(e);
  if (value === null) return null;
  const own = inCurrency(parameter.unit, value.dimension.currency);
  const wanted = own.dimension;
  if (value.dimension !== wanted) {
    const bare = e.kind === 'quantity' && value.dimension === NUMBER && wanted.currency === null;
    const offers = bare ? [unitText(evaluation.slice(e), own)] : [];
    const data = {
      name: parameter.name,
      formula: formula.name,
      wanted: dimensionName(wanted),
      unit: parameter.unit.replace(SOME_MONEY, 'AUD'),
      given: dimensionName(value.dimension),
      offers,
    };
    return evaluation.refuse(e, fault('argument-kind', data));
  }
  if (parameter.kind === 'count' && !(Number.isInteger(value.value) && value.value >= 1)) {
    return evaluation.refuse(e, fault('whole-number-needed', { name: parameter.name, value: value.value }));
  }
  return value;
}

/** A list, all of whose items are of the parameter's kind. */
function bindList(
  evaluation: Evaluation,
  e: Expression,
  { name, unit }: Parameter,
  formula: Formula,
): List | null {
  const value = evaluation.value(e);
  if (value === null) return null;
  const [wanted, text] = [unitNamed(unit).dimension, evaluation.slice(e)];
  if (value.kind !== 'list') {
    const offers = value.kind === 'number' && value.dimension === wanted ? [`[${text}]`] : [];
    return evaluation.refuse(e, fault('list-needed', { name, unit, text, offers }));
  }
  const [first] = value.items;
  if (!first || first.dimension === wanted) return value;
  const offers = e.kind === 'list' && first.dimension === NUMBER ? [unitText(text, unitNamed(unit))] : [];
  const given = dimensionName(first.dimension);
  const data = { name, formula: formula.name, wanted: dimensionName(wanted), unit, given, offers };
  return evaluation.refuse(e, fault('argument-kind', data));
}

/** A formula's unit with the currency of a call in the place of `¤`. */
function inCurrency(unit: string, currency: string | null): Unit {
  return unitNamed(currency === null ? unit : unit.replace(SOME_MONEY, currency));
}

/** The currency of the money among a call's arguments; null when there is none. */
function currencyOf(bound: Arguments): string | null {
  for (const value of bound.values())
    if (isKind(value, 'number') && value.dimension.currency !== null) return value.dimension.currency;
  return null;
}

function answer(evaluation: Evaluation, call: CallNode, formula: Formula, bound: Arguments): Value | null {
  const given = new GivenArguments(formula, bound);
  for (const condition of formula.conditions) {
    if (condition.holds(given)) continue;
    const span = argumentSpan(call, formula, condition.parameter);
    const why = fault(condition.severity === 'error' ? 'out-of-range' : 'doubtful-range', {
      says: condition.says(given),
      range: condition.range,
    });
    evaluation.refuse(span, why);
    if (condition.severity === 'error') return null;
  }
  const nominal = formula.compute(given);
  if (isRefusal(nominal)) {
    const data = { ...nominal.data, says: nominal.refused, offers: nominal.offers ?? [] };
    return evaluation.refuse(
      argumentSpan(call, formula, nominal.parameter),
      fault(nominal.code ?? 'formula-refused', data),
    );
  }
  const moved = movedAnswers(formula, bound, given);
  if ('kind' in moved) return evaluation.refuse(call, moved);
  const currency = currencyOf(bound);
  const fields = new Map<string, Quantity | List | Text>();
  for (const field of formula.result) {
    const value = fieldValue(evaluation, call, paid(field, currency), nominal, moved);
    if (value === null) return null;
    fields.set(field.name, value);
  }
  return fields.get('') ?? { kind: 'record', of: formula.name, fields };
}

/** The field with its money in this currency. */
function paid(field: Field, currency: string | null): Field {
  return currency === null ? field : { ...field, unit: field.unit.replace(SOME_MONEY, currency) };
}

function fieldValue(
  evaluation: Evaluation,
  call: CallNode,
  field: Field,
  nominal: Answer,
  moved: readonly Moved[],
): Quantity | List | Text | null {
  const value = part(nominal, field.name);
  if (typeof value === 'string') return { kind: 'text', text: value };
  if (typeof value === 'number')
    return fieldNumber(evaluation, call, field, value, moved, (answer) => part(answer, field.name));
  // Items are told apart by their place, so limits reach them only while there are as many at every end.
  const alike = moved.every(({ answers }) =>
    answers.every((answer) => items(answer, field.name).length === value.length),
  );
  const list: Quantity[] = [];
  for (const [i, item] of value.entries()) {
    const at = (answer: Answer): Outcome => items(answer, field.name)[i] ?? NaN;
    const made = fieldNumber(evaluation, call, field, item, alike ? moved : [], at);
    if (made === null) return null;
    list.push(made);
  }
  return { kind: 'list', items: list };
}

function fieldNumber(
  evaluation: Evaluation,
  call: CallNode,
  field: Field,
  value: number,
  moved: readonly Moved[],
  of: (answer: Answer) => Outcome,
): Quantity | null {
  const own = unitNamed(field.unit);
  const base = toBase(value, own);
  const spread: Reach[] = [];
  for (const { input, answers, inside, along } of moved) {
    const at = answers.map((answer) => toBase(Number(of(answer)), own));
    if (!at.every(Number.isFinite)) return evaluation.refuse(call, fault('fails-at-limit', { input }));
    if (field.choice && at.some((x) => x !== base)) {
      const choices = [...new Set(answers.map((answer) => String(of(answer))))];
      evaluation.refuse(call, fault('choice-at-limit', { input, field: field.name, choices }));
    }
    if (at.some((x) => x !== base))
      spread.push(along.length === 0 ? { input, at, inside } : { input, at, along, inside });
  }
  if (!Number.isFinite(value)) return evaluation.refuse(call, fault('no-finite-result'));
  return {
    kind: 'number',
    value: base,
    dimension: own.dimension,
    unit: evaluation.scope.system ? inSystem(own, evaluation.scope.system) : own,
    spread: spread.length ? spread : null,
  };
}

function part(answer: Answer, field: string): Outcome {
  return typeof answer === 'object' ? (answer[field] ?? NaN) : answer;
}

function items(answer: Answer, field: string): readonly number[] {
  const outcome = part(answer, field);
  return typeof outcome === 'object' ? outcome : [];
}

/** Where the parameter's argument stands; the whole call when it has none. Those without a name count among themselves. */
function argumentSpan(call: CallNode, formula: Formula, parameter: string | null): Span {
  const named = call.arguments.find((a) => a.name && a.name.text === parameter);
  const index = formula.parameters.findIndex((p) => p.name === parameter);
  return (named ?? call.arguments.filter((a) => !a.name)[index])?.value ?? call;
}

const MEASURED: ReadonlySet<ParameterKind> = new Set(['quantity', 'list', 'count']);

/** The dimension a parameter takes, for listings; null for codes, words and cards. */
export function parameterDimension(parameter: Parameter): Dimension | null {
  return MEASURED.has(parameter.kind) ? unitNamed(parameter.unit).dimension : null;
}
