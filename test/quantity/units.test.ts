import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { powerDimension } from '../../src/quantity/dimension';
import { toBase, fromBase, unitOf } from '../../src/quantity/unit';
import { UNIT_TABLE } from '../../src/quantity/unit-table';
import {
  MM,
  baseUnit,
  currencies,
  inSystem,
  isReserved,
  mayFollow,
  mixedPairs,
  nearestUnitNames,
  otherSystem,
  siFactor,
  systemOf,
  unit,
  unitFrom,
  unitNamed,
  unitsOfDimension,
} from '../../src/quantity/units';

/** What GNU units calls each of our units. Turns are no kind of their own there: a revolution counts as one. */
const GNU: Record<string, string> = {
  mm: 'mm',
  µm: 'micrometer',
  cm: 'cm',
  m: 'm',
  in: 'inch',
  thou: 'mil',
  ft: 'foot',
  deg: 'degree',
  arcmin: 'arcmin',
  arcsec: 'arcsec',
  rad: 'radian',
  rev: '1',
  tooth: '1',
  '%': 'percent',
  min: 'minute',
  s: 's',
  h: 'hour',
  rpm: '1/minute',
  kg: 'kg',
  g: 'g',
  lb: 'pound',
  N: 'N',
  kN: 'kN',
  lbf: 'lbf',
  J: 'J',
  kJ: 'kJ',
  MPa: 'MPa',
  Pa: 'Pa',
  kPa: 'kPa',
  GPa: 'GPa',
  psi: 'psi',
  W: 'W',
  kW: 'kW',
  hp_metric: 'metrichorsepower',
  hp_imperial: 'horsepower',
  K: 'K',
  'm/min': 'm/minute',
  'lbf*ft': 'lbf foot',
  'N/mm^2': 'N/mm^2',
  'kg/m^3': 'kg/m^3',
  'lb/in^3': 'pound/inch^3',
  'g/cm^3': 'g/cm^3',
  'cm^3/min': 'cm^3/minute',
  'in^3/min': 'inch^3/minute',
  'm/s': 'm/s',
  'µm/m/°C': 'micrometer/m/K',
  'µm/m/°F': 'micrometer/m/degF',
};
/** The base SI units of each of our kinds, in the words of GNU units. */
const SI_BASES = ['m', 'kg', 's', '1', 'radian', 'K'];

/** Answers of GNU units (Debian package `units`) to many questions at once. Without the program the tests fail. */
function gnu(pairs: readonly (readonly [have: string, want: string])[]): number[] {
  const input = pairs.map(([have, want]) => `${have}\n${want}\n`).join('');
  const ran = spawnSync('units', ['-1', '-t', '-q', '-o', '%.17g'], { input, encoding: 'utf8' });
  if (ran.error) throw new Error(`GNU units is needed: apt-get install units (${ran.error.message})`);
  const answers = ran.stdout.trim().split('\n').map(Number);
  expect(answers).toHaveLength(pairs.length);
  return answers;
}

function siOf(symbol: string): string {
  const { exponents } = unit(symbol).dimension;
  const parts = SI_BASES.map((base, i) => `(${base})^${exponents[i] ?? 0}`);
  return parts.join(' ');
}

describe('units', () => {
  const named = UNIT_TABLE.flatMap((group) => group.units);

  it('agree with GNU units in every factor', () => {
    const scales = named.filter((entry) => entry.scale).map((entry) => entry.symbol);
    const missing = named.map((entry) => entry.symbol).filter((s) => !Object.hasOwn(GNU, s));
    expect(missing).toEqual(scales);
    const symbols = Object.keys(GNU);
    const answers = gnu(symbols.map((symbol) => [`1 ${GNU[symbol]}`, siOf(symbol)]));
    symbols.forEach((symbol, i) => {
      const ours = unit(symbol).factor * (siFactor(unit(symbol).dimension) ?? NaN);
      expect(ours / (answers[i] ?? NaN), symbol).toBeCloseTo(1, 13);
    });
  });

  it('agree with GNU units in temperatures', () => {
    const degrees = [-40, 0, 20, 37.5, 68, 212, 451];
    const asked = degrees.flatMap((t) => [[`tempC(${t})`, 'K'] as const, [`tempF(${t})`, 'K'] as const]);
    const answers = gnu(asked);
    degrees.forEach((t, i) => {
      expect(toBase(t, unit('°C'))).toBeCloseTo(answers[2 * i] ?? NaN, 9);
      expect(toBase(t, unit('°F'))).toBeCloseTo(answers[2 * i + 1] ?? NaN, 9);
    });
  });

  it('hold what the shop knows by heart', () => {
    // Common practice: three eighths of an inch is 9.525 mm, forty thou 1.016 mm.
    expect(toBase(0.375, unit('in'))).toBeCloseTo(9.525, 12);
    expect(toBase(40, unit('thou'))).toBeCloseTo(1.016, 12);
    expect(toBase(90, unit('m/min'))).toBe(90_000);
    expect(fromBase(toBase(15, unit('s')), unit('s'))).toBe(15);
  });

  it('name a source and a derivation for every factor', () => {
    for (const entry of named) expect(entry.source, entry.symbol).not.toBe('');
    expect(named.filter((entry) => !entry.exact).map((entry) => entry.symbol)).toEqual(['rad']);
  });

  it('have one meaning per spelling', () => {
    const spellings = named.flatMap((entry) => [entry.symbol, ...(entry.also ?? [])]);
    expect(new Set(spellings).size).toBe(spellings.length);
    for (const entry of named)
      for (const name of [entry.symbol, ...(entry.also ?? [])])
        expect(unitNamed(name)?.symbol).toBe(entry.symbol);
    for (const name of ['hp', 'L', 'l', 'ml', 'mil', 't', 'd', 'n', '', 'constructor', '__proto__'])
      expect(unitNamed(name), name).toBeUndefined();
  });

  it('read compounds as a drawing writes them', () => {
    expect(unit('N·m')).toBe(unit('N*m'));
    expect(unit('mm/rev').symbol).toBe('mm/rev');
    expect(unit('mm*mm').symbol).toBe('mm^2');
    expect(unit('W/m^2/K').symbol).toBe('W/m^2/K');
    expect(unit('min^-1').symbol).toBe('min^-1');
    expect(unit('mm^-2*kg/min^-1').dimension).toBe(unit('kg*min/mm^2').dimension);
    expect(unit('°')).toBe(unit('deg'));
    for (const wrong of ['mm/', '/mm', 'mm**2', 'mm^', 'furlong', 'mm^99', 'AUD*USD', 'mm rev'])
      expect(unitFrom(wrong), wrong).toBeNull();
    expect(() => unit('furlong')).toThrow('no such unit');
  });

  it('keep the identity of what code names and of what is held, however many units a note makes', () => {
    const before = [MM, unit('mm/rev'), unit('%')];
    const held = unitFrom('kg*rev/m');
    const fresh = unitFrom('kg*rev/ft');
    const other = fresh && otherSystem(fresh);
    const [m, s] = [unitNamed('m'), unitNamed('s')];
    if (!m || !s) throw new Error('m and s are units');
    const kinds = ['kg', 'K', 'deg', 'rev', 'N'].map((name) => unitNamed(name));
    for (let i = 0; i < 30_000; i++) {
      const parts = kinds.flatMap((u, k) =>
        u ? [{ unit: u, exponent: (Math.floor(i / 8 ** k) % 8) + 1 }] : [],
      );
      unitOf([{ unit: m, exponent: 1 }, ...parts.slice(0, 4), { unit: s, exponent: -1 - (i % 7) }]);
    }
    expect(unitFrom('mm')).toBe(before[0]);
    expect(unitFrom('mm/rev')).toBe(before[1]);
    expect(unitFrom('%')).toBe(before[2]);
    // Nor does one that somebody holds, however it came to be made.
    expect(unitFrom('kg*rev/m')).toBe(held);
    expect(unitFrom('kg*rev/ft')).toBe(fresh);
    expect(unitFrom(other?.symbol ?? '')).toBe(other);
  });

  it('make a temperature scale in a compound a difference', () => {
    expect(unit('µm/m/°C').dimension).toBe(unit('µm/m/K').dimension);
    expect(unit('1'.slice(1))).toBe(unitOf([]));
    expect(unit('°C').dimension).not.toBe(unit('K').dimension);
    expect(unit('N*m/°F').factor).toBeCloseTo(unit('N*m/K').factor / (5 / 9), 6);
  });
});

describe('money', () => {
  it('has every ISO 4217 code with a minor unit', () => {
    // 166 in List One of 2024-06-25, and XCG since.
    expect(currencies().size).toBe(167);
    // Unicode CLDR, as Node carries it: its list has the currencies in use but not the funds codes and newest ones.
    const known = new Set(Intl.supportedValuesOf('currency'));
    const funds = 'BOV CHE CHW CLF COU MXV USN UYI UYW VED'.split(' ');
    const recent = ['SLE', 'XCG', 'ZWG'];
    const odd = [...currencies().keys()].filter((code) => !known.has(code) && !recent.includes(code));
    expect(odd.sort()).toEqual(funds);
  });

  it('has the digits of ISO 4217', () => {
    // CLDR states the digits in use, which are never more than the standard's.
    for (const [code, digits] of currencies()) {
      const format = new Intl.NumberFormat('en', { style: 'currency', currency: code }).resolvedOptions();
      expect([code, digits >= (format.maximumFractionDigits ?? 0) || digits === 0]).toEqual([code, true]);
    }
    const of = (code: string) => currencies().get(code);
    expect([of('AUD'), of('JPY'), of('KWD'), of('CLF'), of('UGX')]).toEqual([2, 0, 3, 4, 0]);
  });

  it('is a kind of its own per currency', () => {
    expect(unit('AUD')).toMatchObject({ factor: 1, offset: 0, symbol: 'AUD' });
    expect(unit('AUD').dimension).not.toBe(unit('NZD').dimension);
    expect(unit('AUD/h').dimension.currency).toBe('AUD');
    expect(unitNamed('XYZ')).toBeUndefined();
    expect(unitNamed('aud')).toBeUndefined();
  });
});

describe('names of units', () => {
  it('are reserved when longer than one letter', () => {
    for (const name of ['mm', 'in', 'min', 'rpm', 'deg', 'thou', 'to', 'pi', 'AUD', 'um', 'hp_metric'])
      expect(isReserved(name), name).toBe(true);
    for (const name of [
      'm',
      'N',
      'h',
      's',
      'g',
      'W',
      'J',
      'K',
      'd',
      'n',
      'f',
      'z',
      'L',
      'hole',
      'used',
      'hp',
    ])
      expect(isReserved(name), name).toBe(false);
  });

  it('are offered for what is none', () => {
    expect(nearestUnitNames('hp')).toEqual(['hp_imperial', 'hp_metric']);
    expect(nearestUnitNames('PS')).toEqual(['hp_metric']);
    expect(nearestUnitNames('mil')).toEqual(['thou', 'mm']);
    expect(nearestUnitNames('inch')).toEqual(['in']);
    expect(nearestUnitNames('KN')[0]).toBe('kN');
    expect(nearestUnitNames('Mm')[0]).toBe('mm');
    expect(nearestUnitNames('rmp')).toContain('rpm');
    expect(nearestUnitNames('banana')).toEqual([]);
    expect(nearestUnitNames('bar')).toEqual([]);
    expect(nearestUnitNames('x'.repeat(2000))).toEqual([]);
  });

  it('offer only what is read', () => {
    for (const wrong of [
      'hp',
      'PS',
      'feet',
      'ftlb',
      'sfm',
      'ipr',
      'cc',
      'Nm',
      'Nmm',
      'F',
      'percent',
      'teeth',
    ])
      for (const offered of nearestUnitNames(wrong)) expect(unitFrom(offered), offered).not.toBeNull();
  });

  it('go together as larger and smaller', () => {
    const named = (name: string) => unitNamed(name) ?? expect.fail(name);
    for (const pair of ['h min', 'h s', 'min s', 'ft in', 'm mm', 'm cm', 'kg g']) {
      const [larger = '', smaller = ''] = pair.split(' ');
      expect(mayFollow(named(larger), named(smaller)), pair).toBe(true);
      expect(mayFollow(named(smaller), named(larger)), pair).toBe(false);
      expect(unit(larger).dimension).toBe(unit(smaller).dimension);
      expect(unit(larger).factor).toBeGreaterThan(unit(smaller).factor);
    }
    for (const pair of ['in mm', 'h mm', 'mm mm', 'lb g', 'ft mm']) {
      const [larger = '', smaller = ''] = pair.split(' ');
      expect(mayFollow(named(larger), named(smaller)), pair).toBe(false);
    }
    expect(mixedPairs.flat().every((name) => unitNamed(name))).toBe(true);
  });
});

describe('metric and inch', () => {
  const PAIRS =
    'mm→in m/min→ft/min mm/rev→in/rev mm/min→in/min N→lbf MPa→psi kW→hp_imperial kg→lb °C→°F mm^2→in^2 N*m→lbf*ft ' +
    'N/mm^2→psi kg/m^3→lb/in^3 in→mm ft/min→m/min psi→MPa lbf*ft→N*m in^2→mm^2 lb/in^3→kg/m^3 hp_imperial→kW °F→°C';
  it.each(PAIRS.split(' ').map((pair) => pair.split('→') as [string, string]))('%s is %s', (from, to) => {
    expect(otherSystem(unit(from))).toBe(unit(to));
    expect(unit(from).dimension).toBe(unit(to).dimension);
  });

  it('leaves alone what both halves write', () => {
    for (const symbol of ['rpm', 'h', 'deg', 'AUD', 'tooth', '', 'rev/min', 'K']) {
      expect(otherSystem(unit(symbol)), symbol).toBeNull();
      expect(inSystem(unit(symbol), 'in')).toBe(unit(symbol));
      expect(systemOf(unit(symbol))).toBeNull();
    }
    expect(inSystem(unit('in'), 'in')).toBe(unit('in'));
    expect(inSystem(unit('mm/rev'), 'in')).toBe(unit('in/rev'));
    expect(inSystem(unit('in'), 'mm')).toBe(unit('mm'));
  });

  it('has a usual unit for any kind', () => {
    const symbols = 'mm kg min rev deg K mm^2 N N*m MPa W kg/m^3 mm/min mm/rev °C rev/min'.split(' ');
    for (const symbol of symbols) expect(baseUnit(unit(symbol).dimension)).toBe(unit(symbol));
    for (const symbol of ['AUD/h', 'kg/min^2', 'mm^4', 'm/K']) {
      const made = baseUnit(unit(symbol).dimension);
      expect(made.dimension).toBe(unit(symbol).dimension);
    }
    expect(siFactor(unit('AUD/h').dimension)).toBeNull();
    // Beyond a power of 12 there is none, whatever comes after.
    expect([unitFrom('mm^12*m*kg'), unitFrom('kg*mm^12*m')]).toEqual([null, null]);
    // Money is counted in its own currency, which is one unit however often it is named.
    for (const code of ['AUD', '¤']) expect(toBase(3, unit(code))).toBe(3);
    expect(unitNamed('AUD')).toBe(unitNamed('AUD'));
    // A power that nothing has had before: no zero of it has a sign.
    expect(powerDimension(unit('mm').dimension, -7)?.exponents).toEqual([-7, 0, 0, 0, 0, 0, 0]);
    expect(unitsOfDimension(unit('rpm').dimension).map((u) => u.symbol)).toEqual(['rpm', 'rev/min']);
    expect(unitsOfDimension(unit('m/min').dimension).map((u) => u.symbol)).toContain('ft/min');
  });
});
