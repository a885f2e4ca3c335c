/**
 * Which unit a product, quotient or power is shown in: the left side's unit for a kind that both sides have, so
 * `0.2 mm/rev * 450 rpm` comes out in `mm/min` and `10 in * 5 mm` in `in^2`. Display only: values are in base units.
 */
import { FORCE, NUMBER, POWER, PRESSURE, TEMPERATURE_DIFFERENCE, TORQUE } from './dimension';
import { type NamedUnit, type Unit, type UnitPart, ONE, unitOf } from './unit';
import { KELVIN, unit } from './unit-lookup';
import { systemOf } from './unit-systems';

const products = new Map<number, Unit>();
/** Past this many pairs the cache starts again. */
const MAX_PRODUCTS = 8192;

/** The display unit of a product of quantities in these units. Total: `ONE` when there is none, never a failure. */
export function multiplyUnits(a: Unit, b: Unit): Unit {
  if (b === ONE) return a;
  if (a === ONE) return b;
  return cached(a, b, 1);
}

/** The display unit of a quotient. Total, as `multiplyUnits`. */
export function divideUnits(a: Unit, b: Unit): Unit {
  return b === ONE ? a : cached(a, b, -1);
}

function cached(a: Unit, b: Unit, sign: 1 | -1): Unit {
  const key = (a.id * 67_108_864 + b.id) * 2 + (sign === 1 ? 0 : 1);
  const known = products.get(key);
  if (known) return known;
  if (products.size > MAX_PRODUCTS) products.clear();
  const made = combine(a, b, sign);
  products.set(key, made);
  return made;
}

function combine(a: Unit, b: Unit, sign: 1 | -1): Unit {
  // A plain number in its own clothes (%, tooth, mm/m) says nothing about a product with something else.
  if (b.dimension === NUMBER) return a.dimension === NUMBER ? ONE : a;
  if (a.dimension === NUMBER && sign === 1) return b;
  return named(mergedKinds(a.parts, b.parts, sign));
}

/**
 * Merges part lists. A part of the right side that measures the same kind as one of the left is counted in the left's
 * unit; rpm is taken apart, a derived unit such as N or MPa stays whole, and so does what one side wrote as `mm/m`.
 */
function mergedKinds(a: readonly UnitPart[], b: readonly UnitPart[], sign: 1 | -1): UnitPart[] {
  const left = takenApart(a, 1);
  const more: typeof left = [];
  for (const part of takenApart(b, sign)) {
    const { unit, exponent } = part;
    const alike = left.filter((p) => p.unit.dimension === unit.dimension);
    // What cancels goes first, so that `11 µm/m/K * 200 mm * 15 K` comes out in µm.
    const opposite = alike.filter((p) => p.exponent * exponent < 0);
    const from = opposite.length > 0 ? opposite : alike;
    const same = from.find((p) => p.unit === unit) ?? from[0];
    if (same) same.exponent += exponent;
    else more.push(part);
  }
  return [...left, ...more].filter((p) => p.exponent !== 0 && p.unit.dimension !== NUMBER);
}

function takenApart(parts: readonly UnitPart[], sign: 1 | -1): { unit: NamedUnit; exponent: number }[] {
  return parts.flatMap(({ unit, exponent }) =>
    (unit.shortFor ?? [{ unit, exponent: 1 }]).map((inner) => ({
      unit: inner.unit,
      exponent: inner.exponent * exponent * sign,
    })),
  );
}

/** A force, pressure or power made of several parts by arithmetic is shown in the unit the trade has for it. */
function named(parts: readonly UnitPart[]): Unit {
  const made = unitOf(parts) ?? ONE;
  if (parts.length === 1) return made.dimension === TEMPERATURE_DIFFERENCE ? KELVIN : made;
  const inch = systemOf(made) === 'in';
  if (made.dimension === FORCE) return unit(inch ? 'lbf' : 'N');
  if (made.dimension === POWER) return unit(inch ? 'hp_imperial' : 'W');
  // A force with one length, as N/mm^2 and N*mm, stays as it was written.
  if (parts.length === 2 && parts.some((p) => p.unit.dimension === FORCE)) return made;
  if (made.dimension === PRESSURE) return unit(inch ? 'psi' : 'MPa');
  if (made.dimension === TORQUE) return unit(inch ? 'lbf*ft' : 'N*m');
  return made;
}

const powers = new Map<number, Map<Unit, Unit>>();

/** The display unit of a power; plain where the exponent does not divide the parts evenly. */
export function powerUnit(a: Unit, exponent: number): Unit {
  if (exponent === 1) return a;
  if (a.dimension === NUMBER) return ONE;
  const known = powers.get(exponent)?.get(a);
  if (known) return known;
  const raised = mergedKinds(a.parts, [], 1).map((part) => ({ ...part, exponent: part.exponent * exponent }));
  const made = named(raised);
  if (powers.size > 64) powers.clear();
  const ofExponent = powers.get(exponent) ?? new Map<Unit, Unit>();
  if (ofExponent.size > 1024) ofExponent.clear();
  powers.set(exponent, ofExponent.set(a, made));
  return made;
}
