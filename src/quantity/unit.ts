/**
 * Units: a symbol a machinist writes, the dimension it measures and its size in base units.
 *
 * Base units are mm, kg, min, turn, degree, K and one unit of money, chosen so that what a shop writes
 * (29.367 mm, 450 rpm, 90 mm/min, 12.5°) is held exactly as written.
 *
 * A compound unit (`mm/rev`, `kg/m^3`) is a list of parts.
 */
import { type Dimension, NUMBER, multiplyDimensions, powerDimension } from './dimension';

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
  /** For a temperature scale: the unit of a difference on it, which is what a compound (`µm/°C`) means. */
  readonly difference?: NamedUnit;
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

/** Units with one part, which stay the same object for good, as there are only as many as the table has. */
const alone = new Map<NamedUnit, Unit>();
/** Compounds that code names, which stay the same object too. */
const permanent = new Map<string, Unit>();
/** Compounds that notes make: the same objects for as long as anybody holds them, so that equal units are one. */
const interned = new Map<string, WeakRef<Unit>>();

/** So many interned units are few; past it those that nobody holds any more are swept away. */
const FEW_INTERNED = 20_000;
let mostInterned = FEW_INTERNED;

/** No unit: a plain number. */
export const ONE: Unit = { id: 0, symbol: '', dimension: NUMBER, factor: 1, offset: 0, parts: [] };
let serial = 1;

/**
 * The unit made of these parts, or null when its dimension runs out of range or mixes currencies. Equal parts are
 * merged. A unit with one part is the same object every time, as is a compound that was made with `keep`; any other is so for
 * as long as somebody holds it.
 */
export function unitOf(parts: readonly UnitPart[], keep = false): Unit | null {
  const kept = merged(parts);
  const first = kept[0];
  if (first === undefined) return ONE;
  if (kept.length === 1 && first.exponent === 1) return unitAlone(first.unit);
  const symbol = symbolOf(kept);
  const known = permanent.get(symbol);
  if (known) return known;
  const found = interned.get(symbol)?.deref();
  const unit = found ?? madeOf(kept, symbol);
  if (unit === null) return null;
  if (keep) permanent.set(symbol, unit);
  else if (!found) intern(unit);
  return unit;
}

function intern(unit: Unit): void {
  if (interned.size >= mostInterned) {
    for (const [symbol, held] of interned) if (!held.deref()) interned.delete(symbol);
    mostInterned = Math.max(FEW_INTERNED, 2 * interned.size);
  }
  interned.set(unit.symbol, new WeakRef(unit));
}

function unitAlone(unit: NamedUnit): Unit {
  const known = alone.get(unit);
  if (known) return known;
  const { symbol, dimension, factor, offset } = unit;
  const made: Unit = { id: serial++, symbol, dimension, factor, offset, parts: [{ unit, exponent: 1 }] };
  alone.set(unit, made);
  return made;
}

/** Equal parts counted together; a temperature scale in a compound is its difference. */
function merged(parts: readonly UnitPart[]): readonly UnitPart[] {
  if (parts.length === 1 && parts[0]?.exponent === 1) return parts;
  const out: { unit: NamedUnit; exponent: number }[] = [];
  for (const { unit: written, exponent } of parts) {
    const unit = written.difference ?? written;
    const same = out.find((part) => part.unit === unit);
    if (same) same.exponent += exponent;
    else out.push({ unit, exponent });
  }
  return out.filter((part) => part.exponent !== 0);
}

function madeOf(parts: readonly UnitPart[], symbol: string): Unit | null {
  let dimension: Dimension | null = NUMBER;
  let [above, below] = [1, 1];
  for (const { unit, exponent } of parts) {
    const raised = powerDimension(unit.dimension, exponent);
    dimension = dimension && raised && multiplyDimensions(dimension, raised);
    // Apart, so that m/s is 1000 / (1/60) and not a reciprocal rounded twice.
    if (exponent > 0) above *= unit.factor ** exponent;
    else below *= unit.factor ** -exponent;
  }
  const factor = above / below;
  if (!dimension || !Number.isFinite(factor) || factor === 0) return null;
  return { id: serial++, symbol, dimension, factor, offset: 0, parts };
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

/** Base units for `amount` in `unit`. */
export function toBase(amount: number, unit: Unit): number {
  return amount * unit.factor + unit.offset;
}

/** The amount of `unit` in `base` base units. */
export function fromBase(base: number, unit: Unit): number {
  return (base - unit.offset) / unit.factor;
}
