/** What a line amounts to: evaluates one node. */
import { asInput, band, shares } from '../quantity/limits';
import { mismatch, quantity, subtract } from '../quantity/arithmetic';
import { convert } from '../quantity/convert';
import { dimensionName } from '../quantity/dimension';
import { isoLimits } from '../quantity/iso286';
import { ONE, fromBase } from '../quantity/unit';
import { MM } from '../quantity/units';
import { type Fault, type Quantity, type Value, fault, isFault } from '../quantity/value';
import type {
  Comparison,
  Expression,
  Limits,
  QuantityNode,
  Sense,
  Span,
  Statement,
  UnitNode,
} from '../notation/syntax';
import { askedOf } from './asked';
import { type Evaluation, unitText } from './evaluate';
import { type Node, type Outcome, ONLY_A_VALUE } from './node';
import type { Asked, CheckResult } from './results';

/** Evaluates the node and stores what came of it. The caller compares the value with the one before. */
export function evaluateNode(node: Node, evaluation: Evaluation): void {
  evaluation.begin(node.text);
  node.value = null;
  node.asked = null;
  if (node.expression) {
    node.value = evaluation.value(node.expression);
    node.outcome = outcome(evaluation, null, ONLY_A_VALUE.readings);
    return;
  }
  const { statement } = node;
  let checked: CheckResult | null = null;
  let readings: readonly Quantity[] = ONLY_A_VALUE.readings;
  switch (statement.kind) {
    case 'figure':
      node.value = figure(statement, evaluation, node.input);
      node.asked = evaluation.asked;
      break;
    case 'show':
      node.value = shown(evaluation, evaluation.value(statement.expression), statement.to);
      break;
    case 'check':
      checked = check(evaluation, statement);
      break;
    case 'reading':
      readings = statement.readings.map((r) => literal(r.value));
      break;
    case 'used':
      readings = [literal(statement.value)];
      break;
    case 'words':
      node.value = { kind: 'text', text: statement.words.text };
  }
  node.outcome = outcome(evaluation, checked, readings);
}

function outcome(
  { problems, waitsFor }: Evaluation,
  check: CheckResult | null,
  readings: readonly Quantity[],
): Outcome {
  const more = check !== null || readings.length + problems.length + waitsFor.length > 0;
  return more ? { check, readings, waitsFor, problems, cycle: null } : ONLY_A_VALUE;
}

export function literal(node: QuantityNode): Quantity {
  return quantity(node.value, node.unit);
}

/** A literal with its sign, such as a signed figure or a value that is looked for; null for anything to be worked out. */
export function literalOf(node: Expression): Quantity | null {
  if (node.kind === 'quantity') return literal(node);
  const inner = node.kind === 'negate' ? literalOf(node.of) : null;
  return inner && { ...inner, value: -inner.value };
}

function shown(evaluation: Evaluation, value: Value | null, to: UnitNode | null): Value | null {
  if (value === null || to === null) return value;
  if (value.kind !== 'number')
    return evaluation.refuse(to, fault('to-needs-a-figure', { unit: to.unit.symbol }));
  const converted = convert(value, to.unit);
  return isFault(converted) ? evaluation.refuse(to, converted) : converted;
}

/** The value of a figure; what its line asks for is then in `evaluation.asked`. Limits know it as `input`. */
export function figure(
  statement: Statement & { kind: 'figure' },
  evaluation: Evaluation,
  input: number,
): Value | null {
  const nominal = nominalOf(statement, evaluation, input);
  const { asked } = evaluation;
  const value = asked ? asInput(nominal as Quantity, input, asked.low, asked.high) : nominal;
  return shown(evaluation, value, statement.to);
}

/** The same without its limits, and as it comes. */
export function nominalOf(
  statement: Statement & { kind: 'figure' },
  evaluation: Evaluation,
  input: number,
): Value | null {
  const value = evaluation.value(statement.expression);
  if (value === null) return null;
  const { limits } = statement;
  if (!limits) {
    if (statement.sense) {
      const sense = { start: statement.expression.end, end: statement.expression.end };
      evaluation.refuse(sense, fault('sense-without-limits', { sense: statement.sense }));
    }
    return value;
  }
  if (value.kind !== 'number') return evaluation.refuse(statement.expression, fault('limits-need-a-figure'));
  const asked = askedLimits(evaluation, statement, limits, value);
  if (!asked) return null;
  warnWhenWider(evaluation, limits, value, asked, input);
  evaluation.asked = asked;
  return limits.kind === 'range' ? { ...value, value: (asked.low + asked.high) / 2 } : value;
}

/** The limits a line asks for, in base units; null when they cannot be understood. */
function askedLimits(
  evaluation: Evaluation,
  statement: Statement & { kind: 'figure' },
  limits: Limits,
  value: Quantity,
): Asked | null {
  const { sense } = statement;
  if (limits.kind === 'code') return codeLimits(evaluation, limits, value, sense);
  if (limits.kind === 'range') {
    const other = literal(limits.to);
    const wrong = mismatch(value, other, '..');
    if (wrong) return evaluation.refuse(limits, kinds(evaluation, wrong, value, limits.to, '..'));
    if (value.value >= other.value) {
      const [a, b] = [evaluation.slice(statement.expression), evaluation.slice(limits.to)];
      const whole = { start: statement.expression.start, end: limits.end };
      return evaluation.refuse(whole, fault('limits-reversed', { offers: [`${b} .. ${a}`] }));
    }
    return askedOf(value.value, other.value, sense);
  }
  const upper = deviation(evaluation, limits.upper, value);
  const lower = upper === null ? null : deviation(evaluation, limits.lower, value);
  if (upper === null || lower === null) return null;
  return askedOf(value.value + lower, value.value + upper, sense);
}

/** A deviation in base units of the nominal's kind. Without a unit it takes the unit of a literal nominal. */
function deviation(evaluation: Evaluation, node: QuantityNode, nominal: Quantity): number | null {
  const { unit } = node;
  if (unit === ONE && nominal.unit !== ONE) {
    if (node.value === 0) return 0;
    return evaluation.refuse(
      node,
      fault('limit-without-unit', { offers: [unitText(evaluation.slice(node), nominal.unit)] }),
    );
  }
  // A temperature's deviation is read as a difference: 20 °C ± 2 °C means two kelvin either way.
  const fits =
    unit.dimension === nominal.dimension ||
    unit.dimension.exponents.join() === nominal.dimension.exponents.join();
  if (fits && unit.dimension.currency === nominal.dimension.currency) return node.value;
  const wrong = fault('unit-mismatch', {});
  return evaluation.refuse(node, kinds(evaluation, wrong, nominal, node, '±'));
}

function kinds(
  evaluation: Evaluation,
  wrong: Fault,
  nominal: Quantity,
  node: QuantityNode,
  operator: string,
): Fault {
  const bare = node.unit === ONE && nominal.unit !== ONE;
  const offers = bare ? [unitText(evaluation.slice(node), nominal.unit)] : [];
  const data = {
    operator,
    left: dimensionName(nominal.dimension),
    right: dimensionName(node.unit.dimension),
    rightText: evaluation.slice(node),
    offers,
  };
  return { ...wrong, data: { ...wrong.data, ...data } };
}

function codeLimits(
  evaluation: Evaluation,
  limits: Span & { code: string },
  value: Quantity,
  sense: Sense | null,
): Asked | null {
  const size = fromBase(value.value, MM);
  if (value.dimension !== MM.dimension)
    return evaluation.refuse(limits, fault('code-needs-length', { code: limits.code }));
  const found = isoLimits(size, limits.code);
  if ('kind' in found) return evaluation.refuse(limits, found);
  if (sense && sense !== found.sense) {
    return evaluation.refuse(
      limits,
      fault('sense-contradicts-code', { code: limits.code, sense, meant: found.sense }),
    );
  }
  const asked = {
    low: value.value + found.lower / 1000,
    high: value.value + found.upper / 1000,
    sense: found.sense,
    code: limits.code,
    codeFor: size,
  };
  if (
    value.unit !== MM &&
    value.unit.symbol !== 'cm' &&
    value.unit.symbol !== 'm' &&
    value.unit.symbol !== 'µm'
  ) {
    evaluation.refuse(
      limits,
      fault('code-on-inch-size', { code: limits.code, size, upper: found.upper, lower: found.lower }),
    );
  }
  return asked;
}

/** A figure whose own inputs already scatter more than is asked of it cannot be promised. */
function warnWhenWider(
  evaluation: Evaluation,
  limits: Limits,
  value: Quantity,
  asked: Asked,
  input: number,
): void {
  const reach = band(value);
  if (!reach) return;
  const [is, wanted] = [reach.high - reach.low, asked.high - asked.low];
  if (is <= wanted * (1 + 1e-9)) return;
  const [biggest, ...others] = shares(value);
  // Which of equal ones came first depends on what was edited when: they are told by their names.
  const alike = others.filter(({ share }) => share * (1 + SAME) >= (biggest?.share ?? 1));
  evaluation.say({
    code: 'band-wider-than-asked',
    start: limits.start,
    end: limits.end,
    data: {
      is: fromBase(is, value.unit) + value.unit.offset / value.unit.factor,
      wanted: fromBase(wanted, value.unit) + value.unit.offset / value.unit.factor,
      unit: value.unit.symbol,
      input: biggest?.input ?? input,
      share: biggest?.share ?? 1,
      alike: alike.map((part) => part.input),
    },
  });
}

const SAME = 1e-9;

function same(a: number, b: number): boolean {
  return Math.abs(a - b) <= SAME * Math.max(Math.abs(a), Math.abs(b));
}

const HOLDS: Readonly<Record<Comparison, (a: number, b: number) => boolean>> = {
  '<=': (a, b) => a <= b || same(a, b),
  '>=': (a, b) => a >= b || same(a, b),
  '<': (a, b) => a < b && !same(a, b),
  '>': (a, b) => a > b && !same(a, b),
  '==': same,
  '!=': (a, b) => !same(a, b),
};

function check(evaluation: Evaluation, statement: Statement & { kind: 'check' }): CheckResult | null {
  const values = statement.terms.map((term) => evaluation.number(term));
  let deciding: CheckResult | null = null;
  let room = Infinity;
  for (const [i, comparison] of statement.comparisons.entries()) {
    const [left, right, l, r] = [values[i], values[i + 1], statement.terms[i], statement.terms[i + 1]];
    if (!left || !right || !l || !r) return null;
    const between = { start: l.start, end: r.end };
    const wrong = mismatch(left, right, comparison);
    if (wrong)
      return evaluation.refuse(between, {
        ...wrong,
        data: { ...wrong.data, ...evaluation.mismatchData(l, r, left, right, comparison) },
      });
    const holds = HOLDS[comparison](left.value, right.value);
    const result: CheckResult = {
      holds,
      overBand: holds && overBand(evaluation, between, left, comparison, right),
      left,
      comparison,
      right,
    };
    const mine = !holds ? -1 : !result.overBand ? 0 : Math.abs(left.value - right.value);
    if (mine < room) [deciding, room] = [result, mine];
    if (!holds) break;
  }
  if (deciding && !deciding.holds) sayCheck(evaluation, statement, deciding, 'check-fails');
  else if (deciding && !deciding.overBand) sayCheck(evaluation, statement, deciding, 'check-not-over-band');
  return deciding;
}

/** Whether a check that holds at nominal holds over everything the limits allow; correlated inputs cancel. */
function overBand(
  evaluation: Evaluation,
  between: Span,
  left: Quantity,
  comparison: Comparison,
  right: Quantity,
): boolean {
  if (!left.spread && !right.spread) return true;
  const gap = subtract(left, right);
  // More inputs than can be followed: that is said, and the check stands at nominal.
  if (isFault(gap)) {
    evaluation.refuse(between, gap);
    return true;
  }
  const reach = band(gap);
  if (!reach) return true;
  const scale = Math.max(Math.abs(left.value), Math.abs(right.value));
  const slack = SAME * scale;
  switch (comparison) {
    case '<=':
      return reach.high <= slack;
    case '<':
      return reach.high < -slack;
    case '>=':
      return reach.low >= -slack;
    case '>':
      return reach.low > slack;
    case '==':
      return reach.low >= -slack && reach.high <= slack;
    case '!=':
      return reach.low > slack || reach.high < -slack;
  }
}

function sayCheck(
  evaluation: Evaluation,
  statement: Statement & { kind: 'check' },
  result: CheckResult,
  code: string,
): void {
  const [first, last] = [statement.terms[0], statement.terms.at(-1)];
  if (!first || !last) return;
  const unit = result.left.unit;
  const data = {
    text: evaluation.text.slice(first.start, last.end),
    comparison: result.comparison,
    left: fromBase(result.left.value, unit),
    right: fromBase(result.right.value, unit),
    unit: unit.symbol,
    comment: statement.comment?.text ?? null,
  };
  evaluation.say({ code, start: first.start, end: last.end, data });
}
