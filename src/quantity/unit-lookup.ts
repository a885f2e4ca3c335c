/** Finding units by what is written, and the units that code names. */
import { dimension } from './dimension';
import { currencies } from './currencies';
import { type NamedUnit, type Unit, type UnitPart, ONE, unitOf } from './unit';
import { type UnitEntry, UNIT_TABLE, dimensionOf } from './unit-table';

const named = new Map<string, NamedUnit>();
const entries = new Map<NamedUnit, UnitEntry>();

for (const group of UNIT_TABLE)
  for (const entry of group.units) {
    const { symbol, factor, offset = 0 } = entry;
    const shortFor = entry.shortFor?.map(([part, exponent]) => ({ unit: earlier(part), exponent }));
    const made: NamedUnit = {
      symbol,
      dimension: dimensionOf(group, entry),
      factor,
      offset,
      ...(entry.scale && { difference: { symbol, dimension: group.dimension, factor, offset: 0 } }),
      ...(shortFor && { shortFor }),
    };
    entries.set(made, entry);
    for (const name of [symbol, ...(entry.also ?? [])]) named.set(name, made);
  }

/** Money in the currency of a call, in a formula's own units: the scanner of notes reads no such sign. */
export const SOME_MONEY = '¤';
named.set(SOME_MONEY, {
  symbol: SOME_MONEY,
  dimension: dimension({ money: 1 }, SOME_MONEY),
  factor: 1,
  offset: 0,
});

/** A unit that stands further up in the table. */
function earlier(symbol: string): NamedUnit {
  const found = named.get(symbol);
  if (!found) throw new Error(`${symbol} must stand before what is short for it`);
  return found;
}

/** The unit a name stands for, other spellings and ISO 4217 codes included. */
export function unitNamed(name: string): NamedUnit | undefined {
  return named.get(name) ?? (name.length === 3 ? money(name) : undefined);
}

function money(code: string): NamedUnit | undefined {
  if (!currencies().has(code)) return undefined;
  const made: NamedUnit = { symbol: code, dimension: dimension({ money: 1 }, code), factor: 1, offset: 0 };
  named.set(code, made);
  return made;
}

/** The table's line for a unit; undefined for money. */
export function entryOf(unit: NamedUnit): UnitEntry | undefined {
  return entries.get(unit);
}

/** Every name that is read as a unit, money apart. */
export function unitNames(): readonly string[] {
  return UNIT_TABLE.flatMap((group) => group.units.flatMap((entry) => [entry.symbol, ...(entry.also ?? [])]));
}

/** The unit these parts make, or null when its dimension runs out of range or mixes currencies. */
export function compound(parts: readonly UnitPart[]): Unit | null {
  return unitOf(parts);
}

const PART = /^([^\d^*·/]+)(?:\^(-?\d{1,2}))?$/;

/** Reads a whole unit such as `mm/rev`, `kg/m^3`, `N·m` or the empty text; null when it is none. */
export function unitFrom(text: string, keep = false): Unit | null {
  if (text === '') return ONE;
  const pieces = text.split(/([*·/])/);
  const parts: UnitPart[] = [];
  for (let i = 0; i < pieces.length; i += 2) {
    const [, name = '', power = '1'] = PART.exec(pieces[i] ?? '') ?? [];
    const found = unitNamed(name);
    if (!found) return null;
    parts.push({ unit: found, exponent: Number(power) * (pieces[i - 1] === '/' ? -1 : 1) });
  }
  return unitOf(parts, keep);
}

const byText = new Map<string, Unit>();

/** The unit a piece of code names; the same object every time. Throws on a unit that does not exist. */
export function unit(text: string): Unit {
  const known = byText.get(text);
  if (known) return known;
  const made = unitFrom(text, true);
  if (!made) throw new Error(`no such unit: ${text}`);
  byText.set(text, made);
  return made;
}

export const MM = unit('mm');
export const INCH = unit('in');
export const DEGREE = unit('deg');
export const RPM = unit('rpm');
export const PERCENT = unit('%');
export const KELVIN = unit('K');
