/** Metric and inch: which half of the trade writes a unit, what the other half writes, and a kind's usual unit. */
import {
  type Dimension,
  BASES,
  DENSITY,
  FORCE,
  POWER,
  PRESSURE,
  TEMPERATURE,
  TORQUE,
  TURN_RATE,
} from './dimension';
import { type Unit, type UnitPart, ONE, unitOf } from './unit';
import { COMPOUNDS, UNIT_TABLE } from './unit-table';
import { entryOf, unit, unitFrom, unitNamed } from './unit-lookup';

export type System = 'mm' | 'in';

/** The half of the trade a unit belongs to, by its first part that belongs to one; null for rpm, h, AUD. */
export function systemOf(u: Unit): System | null {
  for (const part of u.parts) {
    const system = entryOf(part.unit)?.system;
    if (system) return system;
  }
  return null;
}

const others = new Map<number, Unit | null>();

/** The unit the other half of the trade would show: in for mm, ft/min for m/min. Null where both write the same. */
export function otherSystem(u: Unit): Unit | null {
  const known = others.get(u.id);
  if (known !== undefined) return known;
  if (others.size > 4096) others.clear();
  const made = findOther(u);
  others.set(u.id, made);
  return made;
}

function findOther(u: Unit): Unit | null {
  const from = systemOf(u);
  if (from === null) return null;
  // Pressures have one unit in each half, and density is told by the inch, not by the foot.
  if (u.dimension === PRESSURE) return unit(from === 'mm' ? 'psi' : 'MPa');
  if (u.dimension === DENSITY) return unit(from === 'mm' ? 'lb/in^3' : 'kg/m^3');
  const parts = u.parts.flatMap((part): readonly UnitPart[] => {
    const entry = entryOf(part.unit);
    const other = entry?.system === from && entry.other ? unitFrom(entry.other) : null;
    return other ? other.parts.map((p) => ({ ...p, exponent: p.exponent * part.exponent })) : [part];
  });
  return unitOf(parts);
}

/** The unit itself when it is of that system or of none, else what the other half writes for it. */
export function inSystem(u: Unit, system: System): Unit {
  const own = systemOf(u);
  return own === null || own === system ? u : (otherSystem(u) ?? u);
}

const USUAL: readonly (readonly [Dimension, string])[] = [
  [TEMPERATURE, '°C'],
  [FORCE, 'N'],
  [TORQUE, 'N*m'],
  [PRESSURE, 'MPa'],
  [POWER, 'W'],
  [DENSITY, 'kg/m^3'],
  // Not rpm: a crank turns as well, and only the writer can say that a rate is a spindle's.
  [TURN_RATE, 'rev/min'],
];

const BASE_UNITS = ['mm', 'kg', 'min', 'rev', 'deg', 'K'];
const usual = new Map<Dimension, Unit>();

/** A sensible unit for any kind: the trade's where it has one, else made of mm, kg, min, rev, deg, K and money. */
export function baseUnit(d: Dimension): Unit {
  if (usual.size === 0) for (const [kind, symbol] of USUAL) usual.set(kind, unit(symbol));
  const known = usual.get(d);
  if (known) return known;
  const parts = d.exponents.flatMap((exponent, i): UnitPart[] => {
    const found = unitNamed(BASES[i] === 'money' ? (d.currency ?? '') : (BASE_UNITS[i] ?? ''));
    return found && exponent !== 0 ? [{ unit: found, exponent }] : [];
  });
  return unitOf(parts) ?? ONE;
}

/** Base SI units (m, kg, s, rad, K) in the base unit of a kind, a turn counted as one; null for money. */
export function siFactor(d: Dimension): number | null {
  if (d.currency !== null) return null;
  const si = { length: 1 / 1000, mass: 1, time: 60, turn: 1, angle: Math.PI / 180, temperature: 1, money: 1 };
  return BASES.reduce((factor, base, i) => factor * si[base] ** (d.exponents[i] ?? 0), 1);
}

/** The table's units and the usual compounds of a kind, for completion; without money. */
export function unitsOfDimension(d: Dimension): readonly Unit[] {
  const named = UNIT_TABLE.flatMap((group) => group.units.map((entry) => entry.symbol));
  return [...named, ...COMPOUNDS.map(([symbol]) => symbol)]
    .map((symbol) => unit(symbol))
    .filter((u) => u.dimension === d);
}
