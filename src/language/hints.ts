/**
 * The few words drawn at the end of a line. A line says what it cannot show by itself: a result, a verdict, what is
 * left. A plain metric or decimal figure that is only stated gets no echo; an inch fraction gets the decimal, an inch
 * size in a metric note the millimetres (and the other way round), a size with limits the two sizes to measure between,
 * since those are what is read off at the machine.
 */
import { type Sheet, planned } from '../engine/index';
import { quantity } from '../quantity/arithmetic';
import type { CheckResult, ReadingResult, Row } from '../engine/results';
import { LENGTH } from '../quantity/dimension';
import { band } from '../quantity/limits';
import { otherSystem, systemOf } from '../quantity/units';
import type { Quantity, RecordValue, Value } from '../quantity/value';
import type { Comparison, Expression, QuantityNode, Statement } from '../notation/syntax';
import {
  bare,
  deviations,
  differenceOf,
  limitsOfSize,
  pair,
  shown,
  shownIn,
  valueText,
} from '../engine/wording';

/** The editor cuts hints off a little beyond this. */
export const MOST = 40;

type Valued = Extract<Statement, { kind: 'figure' | 'show' }>;

/** The hint of a line, at most `MOST` characters; null when it has nothing to add. */
export function hint(sheet: Sheet, row: Row): string | null {
  const text = words(sheet, row);
  return text === null ? null : shortened(text);
}

function words(sheet: Sheet, row: Row): string | null {
  const { statement, value } = row;
  if (row.waitsFor.length > 0) return `waits for ${row.waitsFor.join(', ')}`;
  if (row.check) return checkWords(row.check);
  if (row.reading) return readingWords(sheet, row.reading);
  if (statement.kind === 'used') return usedWords(sheet, statement);
  if (value === null || (statement.kind !== 'figure' && statement.kind !== 'show')) return null;
  if (value.kind === 'number') return numberWords(sheet, row, statement, value);
  return isStatedList(statement.expression) ? null : valueWords(value);
}

function numberWords(sheet: Sheet, row: Row, { expression, to }: Valued, value: Quantity): string | null {
  const stated = literal(expression);
  if (row.asked) {
    const { low, high } = row.asked;
    if (stated) return limitsOfSize(inNote(sheet, value), low, high);
    const both = `= ${shown(value)}, limits ${limitsOfSize(value, low, high)}`;
    return both.length <= MOST ? both : `= ${shown(value)}`;
  }
  return stated && !to ? statedWords(sheet, row, stated, value) : valueWords(value);
}

function literal(node: Expression): QuantityNode | null {
  if (node.kind === 'negate' || node.kind === 'group') return literal(node.of);
  return node.kind === 'quantity' ? node : null;
}

function isStatedList(node: Expression): boolean {
  return node.kind === 'list' && node.items.every((item) => literal(item) !== null);
}

/** A size in the units of the note, which are millimetres unless its head says inches. */
function inNote(sheet: Sheet, q: Quantity): Quantity {
  const other = systemOf(q.unit) === (sheet.system ?? 'mm') ? null : otherSystem(q.unit);
  return other && q.dimension === LENGTH ? { ...q, unit: other } : q;
}

/** What a figure that is only stated does not say by itself. */
function statedWords(sheet: Sheet, row: Row, node: QuantityNode, value: Quantity): string | null {
  const converted = inNote(sheet, value);
  if (converted !== value) return `= ${shown(converted)}`;
  const typed = row.text.slice(node.start, node.end);
  // A fraction, or degrees with minutes.
  return node.decimals === null && /[/°]/.test(typed) ? `= ${shown(value)}` : null;
}

export function valueWords(value: Value): string {
  if (value.kind === 'number') {
    const limits = band(value);
    return `= ${shown(value)}${limits ? ` ${deviations(value, limits.low, limits.high)}` : ''}`;
  }
  return value.kind === 'record' ? recordWords(value) : `= ${valueText(value)}`;
}

/** The leading fields, as many as fit. */
function recordWords({ fields }: RecordValue): string {
  const parts = [...fields].map(([name, value]) => `${name} ${valueText(value)}`);
  let text = parts.join(', ');
  for (let kept = parts.length - 1; kept > 0 && text.length > MOST; kept--)
    text = [...parts.slice(0, kept), '…'].join(', ');
  return text;
}

const OPPOSITES: Readonly<Record<Comparison, string>> = {
  '<=': '>',
  '<': '≥',
  '>=': '<',
  '>': '≤',
  '==': '≠',
  '!=': '=',
};
const SIGNS: Readonly<Record<Comparison, string>> = {
  '<=': '≤',
  '<': '<',
  '>=': '≥',
  '>': '>',
  '==': '=',
  '!=': '≠',
};

export function checkWords({ holds, overBand, left, comparison, right }: CheckResult): string {
  const [l, r] = pair(left, right);
  if (!holds) return `✗ ${l} ${OPPOSITES[comparison]} ${r}`;
  const text = `${l} ${SIGNS[comparison]} ${r}`;
  return overBand ? `✓ ${text}` : `△ ${text} at nominal only`;
}

export function readingWords(sheet: Sheet, reading: ReadingResult): string | null {
  const { inside, left, toNominal, readings, how, apart, slip } = reading;
  const last = readings.at(-1);
  if (!last) return null;
  const size = (base: number): string => shown(differenceOf(last, Math.abs(base)));
  if (inside === true) return '✓ inside';
  if (inside === null) return toNominal === null ? sampleWords(readings) : nominalWords(last, toNominal);
  if (left !== null && left > 0) {
    const bad = how === 'final' ? '✗ ' : '';
    if (slip) return `${bad}point or unit slipped? ${size(left)} left`;
    if (apart) return `${bad}true up: ${size(apart)} apart, ${bare(differenceOf(last, left))} left`;
    const radius = last.dimension === LENGTH ? `, ${bare(differenceOf(last, left / 2))} on radius` : '';
    return `${bad}${size(left)} left${radius}`;
  }
  const asked = sheet.figure(reading.path)?.asked;
  if (!asked) return '✗ outside';
  // Where metal is gone, that counts, however much is left elsewhere.
  const bad = slip ? '✗ point or unit? ' : '✗ ';
  if (left !== null) return `${bad}${size(left)} too ${asked.sense === 'hole' ? 'large' : 'small'}`;
  const values = readings.map(({ value }) => value);
  const [over, under] = [Math.max(...values) - asked.high, asked.low - Math.min(...values)];
  return over > under ? `${bad}${size(over)} too large` : `${bad}${size(under)} too small`;
}

function nominalWords(last: Quantity, toNominal: number): string {
  if (toNominal === 0) return 'at the figure';
  const by = shown(differenceOf(last, Math.abs(toNominal)));
  return toNominal > 0 ? `${by} over the figure` : `${by} under the figure`;
}

/** Several readings of a sample: what the figure is taken as, and how far they lie apart. */
function sampleWords(readings: readonly Quantity[]): string | null {
  const [first, second] = readings;
  if (!first || !second) return null;
  const values = readings.map((q) => q.value);
  const mean = { ...first, value: values.reduce((sum, x) => sum + x, 0) / values.length };
  const apart = differenceOf(first, Math.max(...values) - Math.min(...values));
  return `mean ${shown(mean)}, ${shown(apart)} apart`;
}

function usedWords(sheet: Sheet, { path, value }: Extract<Statement, { kind: 'used' }>): string | null {
  const plan = planned(sheet, path.names);
  if (plan?.dimension !== value.unit.dimension) return null;
  const used = quantity(value.value, value.unit);
  if (shownIn(plan, value.unit) === shown(used)) return 'as planned';
  const by = shown(differenceOf(used, Math.abs(used.value - plan.value)));
  return `${by} ${used.value > plan.value ? 'above' : 'below'} plan`;
}

function shortened(text: string): string {
  const letters = [...text];
  return letters.length <= MOST ? text : `${letters.slice(0, MOST - 1).join('')}…`;
}
