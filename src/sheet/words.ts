/** What a row amounts to, in a few words each, for tables and for the command line. Plain text, nothing escaped. */
import {
  type Asked,
  type CheckResult,
  type ReadingResult,
  type Row,
  type Sheet,
  planned,
} from '../engine/index';
import { differenceOf, pair as toldApart } from '../engine/wording';
import type { QuantityNode, Statement } from '../notation/syntax';
import { quantity } from '../quantity/arithmetic';
import { LENGTH } from '../quantity/dimension';
import {
  degreesMinutesSeconds,
  show,
  showLimits,
  showValue,
  shownText,
  shownUnit,
} from '../quantity/display';
import { asInput, band, shares } from '../quantity/limits';
import type { Unit } from '../quantity/unit';
import { otherSystem } from '../quantity/units';
import type { List, Quantity, Value } from '../quantity/value';

/** A line's code without its comment. */
export function code(text: string): string {
  return text.replace(/#.*/s, '').trim();
}

/** A value as the sheet shows it: `29.367 mm`. */
export function shown(value: Value): string {
  return showValue(value);
}

/** The same in the other half of the trade's units, and an angle in minutes and seconds; null where neither says more. */
export function otherwise(q: Quantity): string | null {
  const other = otherSystem(q.unit);
  if (other) return show({ ...q, unit: other });
  return degreesMinutesSeconds(q);
}

/** Limits as a drawing writes them: deviations from the nominal, and the two ends. */
export interface AskedWords {
  readonly kind: 'asked';
  readonly upper: string;
  readonly lower: string;
  readonly ends: string;
  readonly code: string | null;
}

export type LimitWords =
  | AskedWords
  /** What the inputs' limits make of it. `mostly` names the input that matters most, when there are several. */
  | { readonly kind: 'resulting'; readonly ends: string; readonly mostly: string | null };

export function limits(value: Value | null, asked: Asked | null, sheet: Sheet): LimitWords | null {
  if (value?.kind === 'list') return listLimits(value);
  if (value?.kind !== 'number') return null;
  if (asked) return askedLimits(value, asked);
  const ends = showLimits(value);
  // Inputs that cancel leave a band of nothing but rounding.
  return ends === null || new Set(ends.split(' … ')).size === 1
    ? null
    : { kind: 'resulting', ends: once(ends, value.unit), mostly: mostly(value, sheet) };
}

export function askedLimits(value: Quantity, asked: Asked): AskedWords {
  return {
    kind: 'asked',
    upper: deviation(asked.high - value.value, value.unit),
    lower: deviation(asked.low - value.value, value.unit),
    ends: once(showLimits(asInput(value, 0, asked.low, asked.high)) ?? show(value), value.unit),
    code: asked.code,
  };
}

/** The least and the most of every item: `[29.95, 9.95] mm … [30.05, 10.05] mm`; null where none has limits. */
function listLimits(list: List): LimitWords | null {
  const bands = list.items.map(band);
  if (bands.every((it) => it === null)) return null;
  const all = (end: 'low' | 'high'): string =>
    showValue({ ...list, items: list.items.map((q, i) => ({ ...q, value: bands[i]?.[end] ?? q.value })) });
  return { kind: 'resulting', ends: `${all('low')} … ${all('high')}`, mostly: null };
}

/** `29.95 … 30.05 mm`: the unit of both ends once, unless it belongs to each number as ° does. */
function once(ends: string, unit: Unit): string {
  return ends.replace(` ${shownUnit(unit)} …`, ' …');
}

/** A signed difference without its unit, which stands with the nominal: `+0.02`, `−0.013`, `0`. */
function deviation(base: number, unit: Unit): string {
  const number = shownText(differenceOf({ unit }, Math.abs(base)));
  return Number(number) === 0 ? '0' : `${base < 0 ? '−' : '+'}${number}`;
}

function mostly(q: Quantity, sheet: Sheet): string | null {
  const [first, second] = shares(q);
  if (!first || !second) return null;
  return `${Math.round(first.share * 100)}\u202f% from ${sheet.inputName(first.input)}`;
}

const COMPARISONS: Readonly<Record<CheckResult['comparison'], readonly [holds: string, fails: string]>> = {
  '<=': ['≤', '>'],
  '<': ['<', '≥'],
  '>=': ['≥', '<'],
  '>': ['>', '≤'],
  '==': ['=', '≠'],
  '!=': ['≠', '='],
};

/** How the two sides of the pair that decides really stand, told apart: `29.4 mm ≤ 40 mm`, `12.972° > 10°`. */
export function pair({ left, comparison, right, holds }: CheckResult): string {
  const [yes, no] = COMPARISONS[comparison];
  const [one, other] = toldApart(left, right);
  return `${one} ${holds ? yes : no} ${other}`;
}

/** Whether a figure's text says no more than its result does: `24 m/min`, `30 mm ± 0.05`, `12 mm h7`. */
export function isGiven(text: string, value: Value | null, limit: LimitWords | null): boolean {
  if (value?.kind !== 'number' && value?.kind !== 'list') return false;
  const asked = limit?.kind === 'asked' ? (limit.code ?? limit.upper.replace('+', '±')) : '';
  const unit = value.kind === 'number' ? shownUnit(value.unit) : '';
  const bare = (words: string): string => words.replaceAll(/\s/g, '').replace('+/-', '±');
  return [asked, asked + unit].some((limits) => bare(text) === bare(shown(value) + limits));
}

/** How something stands, as a sign, a word and, where it helps, some more words. */
export interface Outcome {
  readonly kind: 'good' | 'bad' | 'doubt' | 'open' | 'plain';
  readonly word: string;
  readonly more: string | null;
}

export const SIGNS: Readonly<Record<Outcome['kind'], string>> = {
  good: '✓',
  bad: '✗',
  doubt: '△',
  open: '…',
  plain: '',
};

export function outcome(row: Row, sheet: Sheet): Outcome | null {
  if (row.check) return checkOutcome(row.check);
  if (row.reading) return readingOutcome(row.reading, sheet);
  if (row.statement.kind === 'used') return usedOutcome(row.statement, sheet);
  const waits = row.waitsFor;
  return waits.length > 0 ? { kind: 'open', word: 'waits', more: `for ${waits.join(', ')}` } : null;
}

function checkOutcome({ holds, overBand }: CheckResult): Outcome {
  if (!holds) return { kind: 'bad', word: 'fails', more: null };
  return overBand
    ? { kind: 'good', word: 'holds', more: null }
    : { kind: 'doubt', word: 'holds', more: 'at nominal only' };
}

const SLIP = 'point or unit slipped?';

function readingOutcome(reading: ReadingResult, sheet: Sheet): Outcome | null {
  const { inside, left, toNominal, how, apart: uneven, slip } = reading;
  const readings = judgedAs(reading);
  const last = readings.at(-1);
  if (!last) return null;
  const size = (base: number): string => show(differenceOf(last, Math.abs(base)));
  if (inside === true) return { kind: 'good', word: 'inside', more: null };
  if (toNominal === null) return readings.length > 1 ? plain(`${size(apart(readings))} apart`) : null;
  if (inside === null) return plain(fromFigure(toNominal, 'the figure', size));
  const asked = sheet.figure(reading.path)?.asked;
  if (!asked) return { kind: 'bad', word: 'outside', more: null };
  if (left !== null && left > 0) {
    // Metal to spare is the usual state on the way; at inspection the part is outside its limits all the same.
    const doubt = how === 'final' ? 'bad' : 'doubt';
    if (slip) return { kind: doubt, word: SLIP, more: `${size(left)} left` };
    if (uneven) {
      const allowed = size(asked.high - asked.low);
      return {
        kind: doubt,
        word: 'true up first:',
        more: `${size(uneven)} apart, limits allow ${allowed}, ${size(left)} left`,
      };
    }
    const radius = last.dimension === LENGTH ? `(${size(left / 2)} on radius)` : null;
    return { kind: how === 'final' ? 'bad' : 'open', word: `${size(left)} left`, more: radius };
  }
  const over = Math.max(...readings.map((q) => q.value - asked.high));
  const under = Math.max(...readings.map((q) => asked.low - q.value));
  // On the way nothing fails that may yet be cut: without a side it is not known whether metal is left.
  const kind = how === 'measured' && left === null ? 'doubt' : 'bad';
  const [way, by] = [over > under ? 'too large' : 'too small', `by ${size(Math.max(over, under))}`];
  return slip ? { kind, word: SLIP, more: `${way} ${by}` } : { kind, word: way, more: by };
}

/** The readings as their limits judge them: what was read warm or cold as it would be at 20 °C. */
export function judgedAs({ readings, atReference }: ReadingResult): readonly Quantity[] {
  return atReference ?? readings;
}

function usedOutcome({ path, value }: Extract<Statement, { kind: 'used' }>, sheet: Sheet): Outcome | null {
  const plan = planned(sheet, path.names);
  if (plan?.dimension !== value.unit.dimension) return null;
  const same = show({ ...plan, unit: value.unit }) === show(written(value));
  const size = (base: number): string => show(differenceOf(value, Math.abs(base)));
  return plain(same ? 'as planned' : fromFigure(value.value - plan.value, 'plan', size));
}

function plain(more: string): Outcome {
  return { kind: 'plain', word: '', more };
}

function fromFigure(base: number, what: string, size: (base: number) => string): string {
  return base === 0 ? `at ${what}` : `${size(base)} ${base > 0 ? 'above' : 'below'} ${what}`;
}

function apart(readings: readonly Quantity[]): number {
  const values = readings.map((q) => q.value);
  return Math.max(...values) - Math.min(...values);
}

/** A figure of the notation as it was written. */
export function written({ value, unit }: QuantityNode): Quantity {
  return quantity(value, unit);
}

/** The last readings' mean where several were taken, else the one. */
export function measured({ readings }: ReadingResult): Quantity | null {
  const first = readings[0];
  if (!first) return null;
  const sum = readings.reduce((total, q) => total + q.value, 0);
  return { ...first, value: sum / readings.length, spread: null };
}
