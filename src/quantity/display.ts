/**
 * How figures are shown. Decided, never guessed: each unit has its number of digits. Rounding is for display only, and
 * what is shown is read back by the notation to within half of its last digit.
 */
import { ANGLE } from './dimension';
import { currencies } from './currencies';
import { band } from './limits';
import { type Unit, ONE, fromBase } from './unit';
import { COMPOUNDS } from './unit-table';
import { type System, entryOf, inSystem } from './units';
import type { Quantity, Value } from './value';

export interface ShowOptions {
  /** Show in this half of the trade's units. */
  readonly system?: System;
  /** Digits after the point instead of the unit's own. */
  readonly decimals?: number;
}

/** How a reader wants figures shown: digits of single units by their symbol, and the form of angles. */
export interface Display {
  readonly decimals: ReadonlyMap<string, number>;
  readonly angles: 'decimal' | 'minutes';
}

export const USUAL_DISPLAY: Display = { decimals: new Map(), angles: 'decimal' };
let wanted = USUAL_DISPLAY;

/** What `work` shows is shown so. Only while it runs: nothing that is kept, compared or signed depends on it. */
export function displayed<T>(display: Display, work: () => T): T {
  const before = wanted;
  wanted = display;
  try {
    return work();
  } finally {
    wanted = before;
  }
}

/** Figures of a plain number or of a unit without digits of its own. */
const SIGNIFICANT = 6;
/** Figures kept when a value is so small that its unit's own digits would show nothing of it. */
const SIGNIFICANT_WHEN_SMALL = 3;
/** Below this an amount in a unit of its own is what rounding in the arithmetic leaves, and shows as 0. */
const NOISE = 1e-12;
const SMALLEST_WRITTEN_OUT = 1e-6;
const LARGEST_WRITTEN_OUT = 1e15;

let compoundDecimals: Map<string, number> | null = null;

/** Digits after the point that a unit is shown with; null where significant figures serve better. */
export function decimalsFor(unit: Unit): number | null {
  const first = unit.parts[0];
  if (first === undefined) return null;
  if (unit.parts.length > 1 || first.exponent !== 1) {
    compoundDecimals ??= new Map(COMPOUNDS);
    return compoundDecimals.get(unit.symbol) ?? null;
  }
  return wanted.decimals.get(unit.symbol) ?? entryOf(first.unit)?.decimals ?? minorDigits(unit) ?? 1;
}

/** Digits of the smallest coin when the unit is a currency; a sum of money keeps its trailing zeros. */
function minorDigits(unit: Unit): number | null {
  return unit.dimension.currency === null ? null : (currencies().get(unit.symbol) ?? null);
}

/** A figure with its unit: `29.367 mm`, `11.789°`, `450 rpm`, `15.57 AUD`, `0.0122`. */
export function show(q: Quantity, options: ShowOptions = {}): string {
  const unit = unitShown(q, options);
  if (wanted.angles === 'minutes' && options.decimals === undefined) {
    const dms = degreesMinutesSeconds(q);
    if (dms !== null) return dms;
  }
  return joined(amount(fromBase(q.value, unit), unit, options.decimals), unit);
}

/** The number alone, for tables with a column of units. */
export function shownText(q: Quantity, options: ShowOptions = {}): string {
  const unit = unitShown(q, options);
  return amount(fromBase(q.value, unit), unit, options.decimals);
}

/** An amount in base units of `unit`'s kind as the number that would stand before the unit. */
export function showNumber(value: number, unit: Unit): string {
  return amount(fromBase(value, unit), unit);
}

function unitShown(q: Quantity, { system }: ShowOptions): Unit {
  return system ? inSystem(q.unit, system) : q.unit;
}

/** A unit as a drawing writes it: `mm²`, `N·m`, `°`, and empty for a plain number. */
export function shownUnit(unit: Unit): string {
  if (unit.symbol === 'deg') return '°';
  return unit.symbol
    .replaceAll('*', '·')
    .replaceAll(/\^([23])(?!\d)/g, (_, power) => (power === '2' ? '²' : '³'));
}

function joined(number: string, unit: Unit): string {
  if (unit === ONE) return number;
  const tight = unit.symbol === 'deg' || unit.symbol === '%';
  return `${number}${tight ? '' : ' '}${shownUnit(unit)}`;
}

function amount(value: number, unit: Unit, decimals?: number): string {
  const alone = unit === ONE || (unit.parts.length === 1 && unit.parts[0]?.exponent === 1);
  if (value === 0 || (alone && Math.abs(value) < NOISE)) return (0).toFixed(coins(unit));
  const sign = value < 0 ? '-' : '';
  const size = Math.abs(value);
  if (size < SMALLEST_WRITTEN_OUT || size >= LARGEST_WRITTEN_OUT) return sign + withExponent(size);
  const digits = decimals ?? usual(size, unit);
  const rounded = roundedTo(size, digits);
  if (Number(rounded) === 0) return sign + significant(size, SIGNIFICANT_WHEN_SMALL);
  return sign + (coins(unit) && decimals === undefined ? rounded : trimmed(rounded));
}

function usual(size: number, unit: Unit): number {
  return decimalsFor(unit) ?? Math.max(0, SIGNIFICANT - 1 - exponentOf(size));
}

/** Digits after the point that a figure is shown with when nothing else is asked. */
export function usualDecimals(q: Quantity): number {
  const size = Math.abs(fromBase(q.value, q.unit));
  return usual(size < SMALLEST_WRITTEN_OUT ? 1 : size, q.unit);
}

function coins(unit: Unit): number {
  return minorDigits(unit) ?? 0;
}

function exponentOf(size: number): number {
  return Math.floor(Math.log10(size));
}

function significant(size: number, figures: number): string {
  return trimmed(roundedTo(size, figures - 1 - exponentOf(size)));
}

/** Halves go up as written in decimals: 2.675 to two digits is 2.68, though no binary number is exactly that. */
function roundedTo(size: number, digits: number): string {
  const scaled = size * 10 ** digits;
  if (scaled >= LARGEST_WRITTEN_OUT) return size.toFixed(Math.min(digits, 100));
  return (Math.round(Number(scaled.toPrecision(15))) / 10 ** digits).toFixed(digits);
}

function trimmed(text: string): string {
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

function withExponent(size: number): string {
  const [digits = '', power = ''] = size.toExponential(SIGNIFICANT - 1).split('e');
  return `${trimmed(digits)}e${Number(power)}`;
}

/** Degrees, minutes and whole seconds, `11°47′21″`; null for anything but an angle. */
export function degreesMinutesSeconds(q: Quantity): string | null {
  if (q.dimension !== ANGLE) return null;
  const seconds = Math.round(Number((Math.abs(q.value) * 3600).toPrecision(15)));
  if (seconds >= LARGEST_WRITTEN_OUT) return null;
  const two = (n: number): string => String(n).padStart(2, '0');
  const sign = q.value < 0 && seconds > 0 ? '-' : '';
  return `${sign}${Math.floor(seconds / 3600)}°${two(Math.floor(seconds / 60) % 60)}′${two(seconds % 60)}″`;
}

/** The worst-case limits of a figure, `29.317 mm … 29.417 mm`, with digits enough to tell them apart; null without. */
export function showLimits(q: Quantity, options: ShowOptions = {}): string | null {
  const reach = band(q);
  if (!reach) return null;
  const unit = unitShown(q, options);
  const ends = [reach.low, reach.high].map((value) => fromBase(value, unit)).sort((a, b) => a - b);
  const own = options.decimals ?? usualDecimals({ ...q, unit });
  for (let decimals = own; ; decimals++) {
    const [low = '', high = ''] = ends.map((value) => amount(value, unit, decimals));
    if (low !== high || decimals >= own + 6) return `${joined(low, unit)} … ${joined(high, unit)}`;
  }
}

/** Any value in a line: a list with its unit once, a record field by field, words as they are. */
export function showValue(value: Value, options: ShowOptions = {}): string {
  switch (value.kind) {
    case 'number':
      return show(value, options);
    case 'text':
      return value.text;
    case 'record':
      return [...value.fields].map(([name, field]) => `${name} ${showValue(field, options)}`).join(', ');
    case 'list': {
      const units = value.items.map((item) => unitShown(item, options));
      const [unit = ONE] = units;
      if (!units.every((other) => other === unit))
        return `[${value.items.map((item) => show(item, options)).join(', ')}]`;
      return joined(`[${value.items.map((item) => shownText(item, options)).join(', ')}]`, unit);
    }
  }
}
