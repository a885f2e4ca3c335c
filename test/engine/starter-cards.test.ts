/** The built-in material cards against tables of the same values written down apart from them. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { calculate, calculateLines } from '../../src/engine/index';
import { STARTER_CARDS, STARTER_NAMES } from '../../src/engine/starter-cards';
import { fromBase } from '../../src/quantity/unit';
import { unit } from '../../src/quantity/units';

interface Tables {
  readonly force: readonly { material: string; specific: number; exponent: number; agrees: number | null }[];
  readonly speeds: readonly {
    material: string;
    hss: number;
    hss_range: number[];
    carbide: number;
    carbide_range: number[];
  }[];
  readonly density: Readonly<Record<string, number>>;
  readonly expansion: Readonly<Record<string, number>>;
  readonly modulus: Readonly<Record<string, number>>;
}

const tables = JSON.parse(readFileSync(new URL('../data/materials.json', import.meta.url), 'utf8')) as Tables;

/** Which row of each table a card is to hold; null where a table has none. */
const ROWS: Readonly<
  Record<string, readonly [speed: string, force: string | null, density: string | number]>
> = {
  steel_11SMn30: ['Free-cutting steel (11SMn30, 12L14)', null, 'steel'],
  steel_S235: ['Mild steel (S235, 1018)', null, 'steel'],
  steel_C15: ['Mild steel (S235, 1018)', 'C15', 'steel'],
  steel_C45: ['Medium carbon steel (C45, 1045)', 'C45 (Ck45)', 'steel'],
  steel_C60: ['Medium carbon steel (C45, 1045)', 'C60', 'steel'],
  steel_E295: ['Medium carbon steel (C45, 1045)', 'E295 (St 50)', 'steel'],
  steel_E335: ['Medium carbon steel (C45, 1045)', 'E335 (St 60)', 'steel'],
  steel_E360: ['Medium carbon steel (C45, 1045)', 'E360 (St 70)', 'steel'],
  steel_16MnCr5: ['Medium carbon steel (C45, 1045)', '16MnCr5', 'steel'],
  steel_34CrMo4: ['Alloy steel annealed (42CrMo4, 4140)', '34CrMo4', 'steel'],
  steel_42CrMo4: ['Alloy steel annealed (42CrMo4, 4140)', '42CrMo4', 'steel'],
  steel_GE240: ['Medium carbon steel (C45, 1045)', 'GE240 (GS-45)', 'steel'],
  steel_GE260: ['Medium carbon steel (C45, 1045)', 'GE260 (GS-52)', 'steel'],
  tool_steel_O1: ['Tool steel annealed (O1, D2)', null, 'steel'],
  tool_steel_D2: ['Tool steel annealed (O1, D2)', null, 'steel'],
  stainless_303: ['Stainless free-cutting (303)', null, 'stainless 304'],
  stainless_304: ['Stainless (304, 316)', 'X5CrNi18-10 (304)', 'stainless 304'],
  stainless_316: ['Stainless (304, 316)', null, 'stainless 304'],
  iron_GJL200: ['Grey cast iron', 'EN-GJL-200 (grey iron)', 'cast iron'],
  iron_GJL250: ['Grey cast iron', 'EN-GJL-250 (grey iron)', 'cast iron'],
  iron_GJS400: ['Ductile / hard cast iron', null, 'cast iron'],
  brass_CuZn39Pb3: ['Free-cutting brass (CuZn39Pb3)', 'Brass CuZn', 'brass CuZn39Pb3'],
  bronze_CuSn8: ['Bronze (phosphor, aluminium)', null, 'bronze'],
  copper_CuETP: ['Copper', null, 'copper'],
  aluminium_6061: ['Aluminium alloy (6061/6082)', 'Al wrought alloy', 'aluminium 6061/6082'],
  aluminium_6082: ['Aluminium alloy (6061/6082)', 'Al wrought alloy', 'aluminium 6061/6082'],
  titanium_Ti6Al4V: ['Titanium alloy (Ti-6Al-4V)', null, 'titanium Ti-6Al-4V'],
  // Common data sheets of the alloy, from memory.
  nickel_718: ['Nickel alloy', null, 8190],
  plastic_POM: ['Plastics (acetal, nylon)', null, 'acetal'],
  plastic_PA6: ['Plastics (acetal, nylon)', null, 'nylon 6'],
};

/** Rows of the table of expansions, where they are not those of the densities. */
const EXPANSION_ROWS: Readonly<Record<string, string>> = {
  'aluminium 6061/6082': 'aluminium',
  'brass CuZn39Pb3': 'brass',
  'titanium Ti-6Al-4V': 'titanium',
  stainless_316: 'stainless 316',
  nickel_718: 'nickel alloy 718',
};

const range = ([low = 0, high = 0]: readonly number[]): string => `${low} to ${high} m/min`;

describe.each(Object.entries(ROWS))('%s', (name, [speedRow, forceRow, densityRow]) => {
  const FIELDS = [
    'expansion',
    'modulus',
    'hss_speed',
    'carbide_speed',
    'density',
    'specific_force',
    'force_exponent',
  ];
  const sheet = calculate(
    [
      '```figures',
      ...FIELDS.map((field) => `got_${field} = ${name}.${field}`),
      `card = ${name}`,
      '```',
      '',
    ].join('\n'),
    [],
  );
  const number = (field: string, of: string): number | null => {
    const value = sheet.valueOf(`got_${field}`);
    return value?.kind === 'number' ? fromBase(value.value, unit(of)) : null;
  };
  const words = (field: string): string => {
    const card = sheet.valueOf('card');
    const value = card?.kind === 'record' ? card.fields.get(field) : null;
    return value?.kind === 'text' ? value.text : '';
  };

  it('holds the speeds of its class with their range', () => {
    const row = tables.speeds.find(({ material }) => material === speedRow);
    if (!row) throw new Error(`no row ${speedRow}`);
    expect(number('hss_speed', 'm/min')).toBeCloseTo(row.hss, 9);
    expect(number('carbide_speed', 'm/min')).toBeCloseTo(row.carbide, 9);
    expect([words('hss_range'), words('carbide_range')]).toEqual([
      range(row.hss_range),
      range(row.carbide_range),
    ]);
    expect(words('source')).toContain('common practice, from memory');
  });

  it('holds a density', () => {
    const density = typeof densityRow === 'number' ? densityRow : (tables.density[densityRow] ?? NaN);
    expect(number('density', 'kg/m^3')).toBeCloseTo(density, 9);
  });

  it('holds an expansion', () => {
    const row = EXPANSION_ROWS[name] ?? EXPANSION_ROWS[densityRow] ?? densityRow;
    expect(number('expansion', 'µm/m/K')).toBeCloseTo(tables.expansion[row] ?? NaN, 9);
    expect(words('source')).toContain('expansion a common handbook value near room temperature, from memory');
  });

  it('holds a modulus of elasticity where the table has one', () => {
    const row = Object.keys(tables.modulus).find((first) => name.startsWith(first));
    expect(number('modulus', 'N/mm^2')).toBe(row === undefined ? null : tables.modulus[row]);
  });

  it('holds force figures only where there are some, and says what they rest on', () => {
    const row = tables.force.find(({ material }) => material === forceRow) ?? null;
    expect(row === null).toBe(forceRow === null);
    if (!row) {
      expect([number('specific_force', 'N/mm^2'), number('force_exponent', '')]).toEqual([null, null]);
      expect(words('source')).not.toContain('kc1.1');
      return;
    }
    expect(number('specific_force', 'N/mm^2')).toBeCloseTo(row.specific, 9);
    expect(number('force_exponent', '')).toBeCloseTo(row.exponent, 12);
    expect(words('source')).toContain(
      row.agrees === null
        ? 'from memory alone'
        : `from memory, met within ${row.agrees} % by a published chart`,
    );
  });
});

it('has the names that its text has, each once', () => {
  const written = [...STARTER_CARDS.matchAll(/^```material (\w+)$/gm)].map(([, name]) => name);
  expect(written).toEqual([...STARTER_NAMES]);
  expect(written).toEqual(Object.keys(ROWS));
});

it('reads without findings, and every row of the tables is on a card', () => {
  expect(calculate(STARTER_CARDS, []).findings()).toEqual([]);
  const used = Object.values(ROWS);
  for (const { material } of tables.speeds) expect(used.map(([speed]) => speed)).toContain(material);
  for (const { material } of tables.force) expect(used.map(([, force]) => force)).toContain(material);
  for (const material of Object.keys(tables.density))
    expect(used.map(([, , density]) => density)).toContain(material);
});

it('cannot be asked by the lines of another card, which look at each other only', () => {
  for (const name of STARTER_NAMES) {
    const codes = calculateLines(`x = ${name}.density`, 'material')
      .findings()
      .map(({ code }) => code);
    expect([name, ...codes]).toEqual([name, 'unknown-name']);
  }
});
