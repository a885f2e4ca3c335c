/**
 * Units: a symbol a machinist writes, the dimension it measures and its size in base units.
 *
 * Base units are mm, kg, min, turn, degree, K and one unit of money, chosen so that what a shop writes
 * (29.367 mm, 450 rpm, 90 mm/min, 12.5°) is held exactly as written.
 *
 * A compound unit (`mm/rev`, `kg/m^3`) is a list of parts. Multiplying keeps the left side's unit for a kind that
 * both sides have, so `0.2 mm/rev * 450 rpm` comes out in `mm/min` and `10 in * 5 mm` in `in^2`.
 */
import { type Dimension, NUMBER, divideDimensions, multiplyDimensions, powerDimension } from './dimension';

/** One named unit, as the unit table states it. */
export interface NamedUnit {
  /** As shown and as read back: `mm`, `rpm`, `°C`. */
  readonly symbol: string;
  readonly dimension: Dimension;
  /** Base units in one of this unit. */
  readonly factor: number;
  /** Base units at the unit's zero; only temperature scales have one. */
  readonly offset: number;
  /** Named units this one is short for, such as rpm = rev/min; taken apart when it is multiplied. */
  readonly shortFor?: readonly UnitPart[];
}

export interface UnitPart {
  readonly unit: NamedUnit;
  readonly exponent: number;
}

export interface Unit {
  /** Small serial number, unique in a run; only for caches. */
  readonly id: number;
  /** Readable by the notation: `mm`, `mm/rev`, `kg/m^3`. Empty for a plain number. */
  readonly symbol: string;
  readonly dimension: Dimension;
  readonly factor: number;
  readonly offset: number;
  readonly parts: readonly UnitPart[];
}

const interned = new Map<string, Unit>();

/** Interned units a hostile note can leave behind; past it the caches start again (identity is never relied on across). */
const MAX_INTERNED = 20_000;

/** No unit: a plain number. */
export const ONE: Unit = { id: 0, symbol: '', dimension: NUMBER, factor: 1, offset: 0, parts: [] };
let serial = 1;

/** The unit made of these parts, or null when its dimension runs out of range or mixes currencies. */
export function unitOf(parts: readonly UnitPart[]): Unit | null {
  const kept = parts.filter((part) => part.exponent !== 0);
  if (kept.length === 0) return ONE;
  const symbol = symbolOf(kept);
  const known = interned.get(symbol);
  if (known) return known;
  let dimension: Dimension | null = NUMBER;
  let factor = 1;
  for (const { unit, exponent } of kept) {
    // A unit that is a plain number (tooth, %) has no dimension to add.
    const raised: Dimension | null =
      kept.length === 1 && exponent === 1 ? unit.dimension : powerDimension(unit.dimension, exponent);
    dimension = dimension && raised && multiplyDimensions(dimension, raised);
    factor *= unit.factor ** exponent;
  }
  if (!dimension || !Number.isFinite(factor) || factor === 0) return null;
  const first = kept[0];
  const offset = kept.length === 1 && first?.exponent === 1 ? first.unit.offset : 0;
  if (interned.size > MAX_INTERNED) interned.clear();
  const made: Unit = { id: serial++, symbol, dimension, factor, offset, parts: kept };
  interned.set(symbol, made);
  return made;
}

function symbolOf(parts: readonly UnitPart[]): string {
  const write = ({ unit, exponent }: UnitPart): string => {
    const n = Math.abs(exponent);
    return n === 1 ? unit.symbol : `${unit.symbol}^${n}`;
  };
  const above = parts.filter((part) => part.exponent > 0);
  const below = parts.filter((part) => part.exponent < 0);
  if (above.length === 0) return below.map(({ unit, exponent }) => `${unit.symbol}^${exponent}`).join('*');
  return above.map(write).join('*') + below.map((part) => `/${write(part)}`).join('');
}

const products = new Map<number, Unit>();

/** The display unit of a product of quantities in these units. Total: falls back to base-like parts, never fails. */
export function multiplyUnits(a: Unit, b: Unit): Unit {
  if (b === ONE) return a;
  if (a === ONE) return b;
  return cached(a, b, 1);
}

/** The display unit of a quotient. */
export function divideUnits(a: Unit, b: Unit): Unit {
  return b === ONE ? a : cached(a, b, -1);
}

function cached(a: Unit, b: Unit, sign: 1 | -1): Unit {
  const key = (a.id * 67_108_864 + b.id) * 2 + (sign === 1 ? 0 : 1);
  const known = products.get(key);
  if (known) return known;
  if (products.size > 8192) products.clear();
  const made = combine(a, b, sign);
  products.set(key, made);
  return made;
}

/**
 * Merges part lists. A part of the right side that measures the same kind as one of the left is counted in the
 * left's unit; a derived unit such as N or MPa stays whole unless the other side holds the same one.
 */
function combine(a: Unit, b: Unit, sign: 1 | -1): Unit {
  const parts: { unit: NamedUnit; exponent: number }[] = [];
  const take = (part: UnitPart, times: number): void => {
    if (part.unit.shortFor) {
      for (const inner of part.unit.shortFor) take(inner, times * part.exponent);
      return;
    }
    const same = parts.find((p) => p.unit.dimension === part.unit.dimension);
    if (same) same.exponent += part.exponent * times;
    else parts.push({ unit: part.unit, exponent: part.exponent * times });
  };
  for (const part of a.parts) take(part, 1);
  for (const part of b.parts) take(part, sign);
  // Plain-number units (tooth, %) say nothing about a product of other things.
  const telling = parts.filter((p) => p.unit.dimension !== NUMBER);
  return unitOf(telling) ?? ONE;
}

/** The display unit of a power; plain where the exponent does not divide the parts evenly. */
export function powerUnit(a: Unit, exponent: number): Unit {
  if (exponent === 1) return a;
  const parts = a.parts.flatMap(
    (part) => part.unit.shortFor?.map((p) => ({ ...p, exponent: p.exponent * part.exponent })) ?? [part],
  );
  const raised = parts.map((part) => ({ unit: part.unit, exponent: part.exponent * exponent }));
  return raised.every((part) => Number.isInteger(part.exponent)) ? (unitOf(raised) ?? ONE) : ONE;
}

/** Base units for `amount` in `unit`. */
export function toBase(amount: number, unit: Unit): number {
  return amount * unit.factor + unit.offset;
}

/** The amount of `unit` in `base` base units. */
export function fromBase(base: number, unit: Unit): number {
  return (base - unit.offset) / unit.factor;
}

/** True when a quantity of this dimension may be shown in this unit. */
export function fits(unit: Unit, dimension: Dimension): boolean {
  return unit.dimension === dimension;
}

/** The dimension of a quotient of units, for messages; null when out of range. */
export function quotientDimension(a: Unit, b: Unit): Dimension | null {
  return divideDimensions(a.dimension, b.dimension);
}
