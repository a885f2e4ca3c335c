/**
 * What a value means on its machine, and a reading against its plan. Judging looks at other lines (a `used` line, a
 * `speed_step`) without the value depending on them, so it comes after all values have settled.
 */
import { FEED_PER_TURN, LENGTH, POWER, SPEED } from '../quantity/dimension';
import { type Unit, fromBase } from '../quantity/unit';
import { RPM } from '../quantity/units';
import type { List, Quantity, Text } from '../quantity/value';
import type { Expression, ReadingNode, Span } from '../notation/syntax';
import type { Card } from './cards';
import type { Entry, Problem, RelatedRef } from './graph';
import { type Node, type Verdict, NOT_JUDGED } from './node';
import { barePlaces, judgeReadings } from './readings';
import type { ReadingResult } from './results';
import { literal } from './statement';
import { pathValue } from './values';
import { atReference, isWarm } from './warm';

const NOTHING: readonly Problem[] = [];

/** Judges a node; `entryOf` finds the entry of a name, its figure's node with it, and `cardOf` the card in force. */
export function judge(
  node: Node,
  entryOf: (name: string) => Entry | undefined,
  cardOf: (name: string) => Card | null,
): void {
  node.verdict = NOT_JUDGED;
  // Most lines stand on no machine, and what was read of them may be forgotten.
  if (node.on.length === 0 && (node.kind === 'figure' || node.kind === 'show')) return;
  const { statement } = node;
  if (statement.kind === 'reading') node.verdict = judgeReading(node, statement, entryOf, cardOf);
  else if (statement.kind === 'used')
    node.verdict = verdict([
      ...judgeUsed(node, statement.path, entryOf),
      ...usedBeyond(node, statement.value),
    ]);
  else if (statement.kind === 'figure' || statement.kind === 'show')
    node.verdict = verdict(onMachine(node, statement.expression));
}

function verdict(problems: readonly Problem[], reading: ReadingResult | null = null): Verdict {
  return problems.length === 0 && reading === null ? NOT_JUDGED : { reading, problems };
}

interface PathLike extends Span {
  readonly names: readonly string[];
}

function plan(
  path: PathLike,
  entryOf: (name: string) => Entry | undefined,
): { figure: Node | null; value: Quantity | null } {
  const [root = '', ...fields] = path.names;
  const entry = entryOf(root);
  if (!entry?.figure) return { figure: null, value: null };
  const value = pathValue(entry, fields);
  return {
    figure: entry.figure,
    value: value?.kind === 'number' ? value : null,
  };
}

function judgeReading(
  node: Node,
  statement: Node['statement'] & { kind: 'reading' },
  entryOf: (name: string) => Entry | undefined,
  cardOf: (name: string) => Card | null,
): Verdict {
  const { figure, value } = plan(statement.path, entryOf);
  const path = statement.path.names.join('.');
  const { readings } = node.outcome;
  const first = readings[0];
  const odd = readings.findIndex((r) => r.dimension !== (value ?? first)?.dimension);
  const oddNode = statement.readings[odd];
  if (oddNode) {
    return verdict([kindProblem('reading-kind', oddNode.value, path, readings[odd], value ?? first, figure)]);
  }
  const asked = figure?.asked;
  const positions = statement.readings.map((r) => (r.at ? literal(r.at) : null));
  const material = entryOf('job')?.job?.fields.get('material');
  const card = isWarm(statement) && material?.kind === 'text' ? cardOf(material.text) : null;
  const cold = atReference(statement, readings, card);
  const judged = judgeReadings(statement.how, path, cold.readings, positions, value, asked);
  const { broken } = judged;
  const brought = cold.readings.some((reading, i) => reading !== readings[i]);
  const result = { ...judged.result, readings, ...(brought && { atReference: cold.readings }) };
  const warm = statement.readings[cold.unknown];
  const remarks = [
    ...barePlaces(statement.readings),
    ...(warm && asked ? [warmProblem(warm, path, material?.kind === 'text' ? material.text : '')] : NOTHING),
  ];
  const at = broken && statement.readings[broken.index];
  const read = broken && readings[broken.index];
  if (!broken || !at || !read || !asked) return verdict(remarks, result);
  const { unit } = read;
  const data = {
    name: path,
    reading: fromBase(read.value, unit),
    atReference: fromBase(cold.readings[broken.index]?.value ?? read.value, unit),
    by: broken.by / unit.factor,
    low: fromBase(asked.low, unit),
    high: fromBase(asked.high, unit),
    over: (cold.readings[broken.index] ?? read).value > asked.high,
    sense: asked.sense,
    slip: result.slip ?? false,
    apart: (result.apart ?? 0) / unit.factor,
    allowed: (asked.high - asked.low) / unit.factor,
    placed: positions[broken.index]?.dimension === LENGTH,
    unit: unit.symbol,
  };
  const related: RelatedRef[] = figure ? [{ node: figure, message: 'limits' }] : [];
  const problem = { code: broken.code, start: at.start, end: at.end, data, related };
  return verdict([...remarks, problem], result);
}

/** A warm reading that is judged as read, because nothing says how its metal grows. */
function warmProblem({ start, end, at }: ReadingNode, name: string, material: string): Problem {
  const temperature = at ? fromBase(at.value, at.unit) : NaN;
  const data = { name, material, temperature, unit: at?.unit.symbol ?? '' };
  return { code: 'reading-warm', start, end, data, related: [] };
}

function judgeUsed(
  node: Node,
  path: PathLike,
  entryOf: (name: string) => Entry | undefined,
): readonly Problem[] {
  const { figure, value } = plan(path, entryOf);
  const used = node.outcome.readings[0];
  if (!value || !used || used.dimension === value.dimension || node.statement.kind !== 'used') return [];
  return [kindProblem('used-kind', node.statement.value, path.names.join('.'), used, value, figure)];
}

function kindProblem(
  code: string,
  span: Span,
  name: string,
  is: Quantity | undefined,
  wanted: Quantity | undefined,
  figure: Node | null,
): Problem {
  const data = { name, unit: is?.unit.symbol ?? '', wanted: wanted?.unit.symbol ?? '' };
  return {
    code,
    start: span.start,
    end: span.end,
    data,
    related: figure ? [{ node: figure, message: 'figure' }] : [],
  };
}

// --- machine limits -------------------------------------------------------------------------------------------

function onMachine(node: Node, span: Expression): readonly Problem[] {
  const { value } = node;
  if (node.on.length === 0 || value === null) return NOTHING;
  const cards = machinesOf(node);
  if (value.kind === 'number')
    return held(node, value, cards, span, span.kind === 'field' && span.field === AT_MOTOR);
  // What a list is of nobody knows, so that it is asked for no steps, only to stay within the machine's ends.
  if (value.kind === 'list')
    return value.items.flatMap((item) => held(node, item, cards, span).filter(isBeyond)).slice(0, 1);
  if (value.kind !== 'record') return NOTHING;
  const found = [...value.fields].flatMap(([name, part]) =>
    part.kind === 'number' ? held(node, part, cards, span, name === AT_MOTOR) : [],
  );
  // A cut that is too heavy is so at the motor as well: it is told once.
  const [first] = found.filter(isPower);
  return found.filter((problem) => problem === first || !isPower(problem));
}

/** What was really run, beyond what the machine can: a slip, or a card that is wrong. */
function usedBeyond(node: Node, span: Span): readonly Problem[] {
  const [used] = node.outcome.readings;
  return used ? held(node, used, machinesOf(node), span) : NOTHING;
}

const isBeyond = ({ code }: Problem): boolean => !code.endsWith('-between-steps');
const isPower = ({ code }: Problem): boolean => code === 'power-over-machine';
/** The field of formulas that give the power of the motor beside that of the cut. */
const AT_MOTOR = 'motor_power';

const machinesOf = (node: Node): readonly Card[] =>
  node.on.flatMap((entry) => (entry.card?.word === 'machine' ? [entry.card] : []));

/** `atMotor` is power that the motor gives, before any loss. */
function held(
  node: Node,
  q: Quantity,
  cards: readonly Card[],
  span: Span,
  atMotor = false,
): readonly Problem[] {
  if (q.unit === RPM) return speed(node, q, cards, span);
  if (q.dimension === FEED_PER_TURN) return feed(node, q, cards, span);
  if (q.dimension === SPEED && isFeedRate(q.unit))
    return most(q, cards, span, 'max_feed_rate', 'feed-rate-over-machine');
  return q.dimension === POWER ? power(q, cards, span, atMotor) : NOTHING;
}

/** The trade states feed rates in mm/min or in/min and cutting speeds in m/min or ft/min (common practice). */
function isFeedRate(unit: Unit): boolean {
  return unit.parts.some(
    (part) => part.exponent > 0 && ['mm', 'in', 'thou', 'µm', 'cm'].includes(part.unit.symbol),
  );
}

function numberOf(card: Card, field: string): Quantity | null {
  const value = card.fields.get(field);
  return value?.kind === 'number' ? value : null;
}

function listOf(card: Card, field: string, dimension: Quantity['dimension']): readonly Quantity[] {
  const value: Quantity | List | Text | undefined = card.fields.get(field);
  const items = value?.kind === 'list' ? value.items : value?.kind === 'number' ? [value] : [];
  return items.filter((item) => item.dimension === dimension).sort((a, b) => a.value - b.value);
}

interface Bound {
  readonly limit: Quantity;
  readonly card: Card;
  readonly field: string;
}

/** The tightest of several cards' limits: the lowest upper one, the highest lower one. */
function tightest(bounds: readonly Bound[], which: 'upper' | 'lower'): Bound | null {
  return bounds.reduce<Bound | null>((best, b) => {
    if (!best) return b;
    const tighter = which === 'upper' ? b.limit.value < best.limit.value : b.limit.value > best.limit.value;
    return tighter ? b : best;
  }, null);
}

function bounds(cards: readonly Card[], field: string, like: Quantity): Bound[] {
  return cards.flatMap((card) => {
    const limit = numberOf(card, field);
    return limit && limit.dimension === like.dimension ? [{ limit, card, field }] : [];
  });
}

function ends(cards: readonly Card[], field: string, like: Quantity, which: 'upper' | 'lower'): Bound[] {
  return cards.flatMap((card) => {
    const steps = listOf(card, field, like.dimension);
    const limit = which === 'upper' ? steps.at(-1) : steps[0];
    return limit ? [{ limit, card, field }] : [];
  });
}

const BEYOND = 1 + 1e-9;

function outside(q: Quantity, upper: Bound | null, lower: Bound | null, span: Span, code: string): Problem[] {
  const at = (bound: Bound, over: boolean): Problem => ({
    code,
    start: span.start,
    end: span.end,
    data: {
      value: fromBase(q.value, q.unit),
      limit: fromBase(bound.limit.value, q.unit),
      unit: q.unit.symbol,
      over,
      machine: bound.card.name,
      field: bound.field,
    },
    related: [{ card: bound.card, field: bound.field, message: 'machine limit' }],
  });
  if (upper && q.value > upper.limit.value * BEYOND) return [at(upper, true)];
  if (lower && q.value * BEYOND < lower.limit.value) return [at(lower, false)];
  return [];
}

function speed(node: Node, q: Quantity, cards: readonly Card[], span: Span): readonly Problem[] {
  const own = node.provides;
  // What goes on to a speed_step is a wish, not a setting.
  if (own && own.stepped > 0) return [];
  const upper = tightest([...bounds(cards, 'max_speed', q), ...ends(cards, 'speeds', q, 'upper')], 'upper');
  const lower = tightest([...bounds(cards, 'min_speed', q), ...ends(cards, 'speeds', q, 'lower')], 'lower');
  const beyond = outside(q, upper, lower, span, 'speed-outside-machine');
  if (beyond.length > 0) return beyond;
  return wasUsed(node)
    ? []
    : cards.flatMap((card) => between(q, card, 'speeds', span, 'speed-between-steps'));
}

/** What was really run stands beside the plan, so the plan may stay between the machine's steps. */
function wasUsed(node: Node): boolean {
  return node.provides?.records?.lines.some((record) => record.statement.kind === 'used') ?? false;
}

function feed(node: Node, q: Quantity, cards: readonly Card[], span: Span): readonly Problem[] {
  const upper = tightest(ends(cards, 'feeds', q, 'upper'), 'upper');
  const lower = tightest(ends(cards, 'feeds', q, 'lower'), 'lower');
  const beyond = outside(q, upper, lower, span, 'feed-outside-machine');
  if (beyond.length > 0 || wasUsed(node)) return beyond;
  return cards.flatMap((card) => between(q, card, 'feeds', span, 'feed-between-steps'));
}

function between(q: Quantity, card: Card, field: string, span: Span, code: string): Problem[] {
  const steps = listOf(card, field, q.dimension);
  if (steps.length === 0 || steps.some((step) => Math.abs(step.value - q.value) <= 1e-9 * step.value))
    return [];
  const below = steps.filter((step) => step.value < q.value).at(-1);
  const above = steps.find((step) => step.value > q.value);
  if (!below || !above) return [];
  const data = {
    value: fromBase(q.value, q.unit),
    below: fromBase(below.value, q.unit),
    above: fromBase(above.value, q.unit),
    unit: q.unit.symbol,
    machine: card.name,
  };
  const related: RelatedRef[] = [{ card, field, message: 'machine limit' }];
  return [{ code, start: span.start, end: span.end, data, related }];
}

function most(q: Quantity, cards: readonly Card[], span: Span, field: string, code: string): Problem[] {
  return outside(q, tightest(bounds(cards, field, q), 'upper'), null, span, code);
}

/** Power at the cut against what the motor leaves after its losses, power at the motor against the whole. */
function power(q: Quantity, cards: readonly Card[], span: Span, atMotor: boolean): Problem[] {
  const available = cards.flatMap((card) => {
    const motor = numberOf(card, 'power');
    if (!motor || motor.dimension !== q.dimension) return [];
    const efficiency = (atMotor ? null : numberOf(card, 'efficiency')?.value) ?? 1;
    return [{ limit: { ...motor, value: motor.value * efficiency }, card, field: 'power' }];
  });
  const found = outside(q, tightest(available, 'upper'), null, span, 'power-over-machine');
  return found.map((problem) => ({ ...problem, data: { ...problem.data, atMotor } }));
}
