/** What a row amounts to, in a few words each, for tables and for the command line. Plain text, nothing escaped. */
import type { Asked, CheckResult, ReadingResult, Row, Sheet } from '../engine/index';
import type { QuantityNode } from '../notation/syntax';
import { LENGTH } from '../quantity/dimension';
import { degreesMinutesSeconds, show, showLimits, showValue, shownText } from '../quantity/display';
import { asInput, shares } from '../quantity/limits';
import { type Unit, unitOf } from '../quantity/unit';
import { otherSystem } from '../quantity/units';
import type { Quantity, Value } from '../quantity/value';

/** A line's code without its comment. */
export function code(text: string): string {
  const hash = text.indexOf('#');
  return (hash < 0 ? text : text.slice(0, hash)).trim();
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

export type LimitWords =
  /** As a drawing writes them: deviations from the nominal, and the two ends. */
  | {
      readonly kind: 'asked';
      readonly upper: string;
      readonly lower: string;
      readonly ends: string;
      readonly code: string | null;
    }
  /** What the inputs' limits make of it. `mostly` names the input that matters most, when there are several. */
  | { readonly kind: 'resulting'; readonly ends: string; readonly mostly: string | null };

export function limits(value: Value | null, asked: Asked | null, sheet: Sheet): LimitWords | null {
  if (value?.kind !== 'number') return null;
  if (asked) {
    return {
      kind: 'asked',
      upper: deviation(asked.high - value.value, value.unit),
      lower: deviation(asked.low - value.value, value.unit),
      ends: showLimits(asInput(value, 0, asked.low, asked.high)) ?? show(value),
      code: asked.code,
    };
  }
  const ends = showLimits(value);
  return ends === null ? null : { kind: 'resulting', ends, mostly: mostly(value, sheet) };
}

/** A signed difference without its unit, which stands with the nominal: `+0.02`, `−0.013`, `0`. */
function deviation(base: number, unit: Unit): string {
  const number = shownText(asDifference(Math.abs(base), unit));
  return Number(number) === 0 ? '0' : `${base < 0 ? '−' : '+'}${number}`;
}

function asDifference(value: number, unit: Unit): Quantity {
  const scale = unit.parts[0]?.unit.difference;
  const plain = (scale && unitOf([{ unit: scale, exponent: 1 }])) ?? unit;
  return { kind: 'number', value, unit: plain, dimension: plain.dimension, spread: null };
}

function mostly(q: Quantity, sheet: Sheet): string | null {
  const [first, second] = shares(q);
  if (!first || !second) return null;
  return `${Math.round(first.share * 100)} % from ${sheet.inputName(first.input)}`;
}

const COMPARISONS = new Map([
  ['<=', '≤'],
  ['>=', '≥'],
  ['!=', '≠'],
  ['==', '='],
]);

/** Both sides of the pair that decides: `29.4 mm ≤ 40 mm`. */
export function pair({ left, comparison, right }: CheckResult): string {
  const same = { ...right, unit: left.unit };
  return `${show(left)} ${COMPARISONS.get(comparison) ?? comparison} ${show(same)}`;
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

export function outcome(row: Row): Outcome | null {
  if (row.check) return checkOutcome(row.check);
  if (row.reading) return readingOutcome(row.reading);
  const waits = row.waitsFor;
  if (waits.length > 0) return { kind: 'open', word: 'waits', more: `for ${waits.join(', ')}` };
  return null;
}

function checkOutcome({ holds, overBand }: CheckResult): Outcome {
  if (!holds) return { kind: 'bad', word: 'fails', more: null };
  return overBand
    ? { kind: 'good', word: 'holds', more: null }
    : { kind: 'doubt', word: 'holds', more: 'but not over all limits' };
}

function readingOutcome(reading: ReadingResult): Outcome {
  const { inside, left, toNominal, how } = reading;
  const unit = reading.readings[0]?.unit;
  if (inside === true) return { kind: 'good', word: 'inside', more: null };
  if (inside === null) {
    if (unit === undefined || toNominal === null || toNominal === 0)
      return { kind: 'plain', word: '', more: null };
    const far = show(asDifference(Math.abs(toNominal), unit));
    return { kind: 'plain', word: '', more: `${far} ${toNominal > 0 ? 'to' : 'past'} nominal` };
  }
  if (unit === undefined || left === null || left === 0) return { kind: 'bad', word: 'outside', more: null };
  const far = asDifference(Math.abs(left), unit);
  if (left < 0) return { kind: 'bad', word: 'gone too far', more: `by ${show(far)}` };
  // Metal to spare is the usual state on the way; at inspection it is a part outside its limits all the same.
  const half = unit.dimension === LENGTH ? `, ${show({ ...far, value: far.value / 2 })} on radius` : '';
  return how === 'final'
    ? { kind: 'bad', word: 'outside', more: `${show(far)} left` }
    : { kind: 'open', word: `${show(far)} left`, more: half === '' ? null : `on diameter${half}` };
}

/** A figure of the notation as it was written. */
export function written({ value, unit }: QuantityNode): Quantity {
  return { kind: 'number', value, unit, dimension: unit.dimension, spread: null };
}

/** The last readings' mean where several were taken, else the one. */
export function measured({ readings }: ReadingResult): Quantity | null {
  const first = readings[0];
  if (!first) return null;
  const sum = readings.reduce((total, q) => total + q.value, 0);
  return { ...first, value: sum / readings.length, spread: null };
}
