/** Fits zone by zone, warmth, shrink fits and change gears: whole tables, each bound, each number pinned. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import { formulaNamed } from '../../src/trade';
import { quotientOf } from '../../src/trade/change-gears';
import { isRefusal } from '../../src/trade/formula';
import {
  type Arguments,
  answer,
  broken,
  callOf,
  card,
  given,
  list,
  materialCard,
  number,
  says,
} from './given';

const refused = (name: string, args: Arguments): { says: string; parameter: string | null } => {
  const result = formulaNamed(name)?.compute(given(args));
  if (typeof result !== 'object' || !isRefusal(result)) return expect.fail(`${name} answers`);
  return { says: result.refused, parameter: result.parameter };
};

describe('fits', () => {
  /** 25 fits at 25 steps of size: test/data/quantity/iso286-fits.csv says where its values come from. */
  const rows = readFileSync(new URL('../data/quantity/iso286-fits.csv', import.meta.url), 'utf8')
    .trim()
    .split('\n')
    .filter((line) => !line.startsWith('#'))
    .slice(1)
    .map((line) => line.split(','));

  it('all of the table, with sizes, zones and kind', () => {
    expect(rows).toHaveLength(625);
    for (const [fit = '', upto, ...values] of rows) {
      const [hole = '', shaft = ''] = fit.split('/');
      const size = Number(upto);
      const [ES = 0, EI = 0, es = 0, ei = 0, most = 0, least = 0] = values.map(Number);
      const got = answer('fit', { size, hole, shaft }) as unknown as Record<string, number | string>;
      expect([fit, size, got['clearance_max'], got['clearance_min']]).toEqual([fit, size, most, least]);
      expect(got['middle']).toBe((most + least) / 2);
      expect(got['kind']).toBe(
        least >= 0 ? 'clearance fit' : most <= 0 ? 'interference fit' : 'transition fit',
      );
      const sign = (um: number): string => `${um > 0 ? '+' : ''}${um}`;
      expect(got['zones']).toBe(`hole ${sign(ES)}/${sign(EI)} µm, shaft ${sign(es)}/${sign(ei)} µm`);
      expect(got['hole_max']).toBeCloseTo(size + ES / 1000, 9);
      expect(got['hole_min']).toBeCloseTo(size + EI / 1000, 9);
      expect(got['shaft_max']).toBeCloseTo(size + es / 1000, 9);
      expect(got['shaft_min']).toBeCloseTo(size + ei / 1000, 9);
    }
  });

  it('says how far its values were checked, of both parts where they differ', () => {
    expect(answer('fit', { size: 25, hole: 'H7', shaft: 'g6' })['checked']).toBe(
      'ISO 286-1:2010; checked digit for digit against open tables',
    );
    expect(answer('fit', { size: 25, hole: 'H7', shaft: 'm6' })['checked']).toMatch(
      /^hole: .*digit for digit.*; shaft: .*formula/,
    );
    expect(answer('iso_limits', { size: 25, class: 'S7' })['checked']).toContain("by the standard's rule");
  });

  it('a class the table has not is told with what it has', () => {
    const { says: said, parameter } = refused('iso_limits', { size: 25, class: 'T7' });
    expect([said, parameter]).toEqual([
      'ISO 286 gives no limits for 25 mm `T7` here: take another class.',
      'class',
    ]);
    const sheet = calculate('```figures\na = iso_limits(25 mm, R14)\nb = iso_limits(501 mm, R7)\n```\n');
    expect(sheet.findings().map(({ code }) => code)).toEqual(['iso-grade-unknown', 'iso-size-out-of-range']);
    expect(formulaNamed('iso_limits')?.working(given({ size: 25, class: 'T7' }))).toEqual([]);
    expect(says('iso_limits(0 mm, H7)')).toEqual(['`size` is 0 mm: give one of more than zero.']);
  });
});

describe('warmth', () => {
  const bare = materialCard('bar', {});
  it('needs the expansion of every card it reads', () => {
    const steel = materialCard('steel', { expansion: [11.5, 'µm/m/K'] });
    const wrong = materialCard('bar', { expansion: [11.5, 'µm/m'] });
    const none = materialCard('bar', { expansion: [0, 'µm/m/K'] });
    const size = { size: 50, temperature: 30 };
    const fit = { size: 50, interference: 0.03, clearance: 0.02 };
    const cases: [string, Arguments, string][] = [
      ...[bare, wrong, none].map((material): [string, Arguments, string] => [
        'thermal_growth',
        { ...size, material },
        'material',
      ]),
      ['size_at_reference', { ...size, material: bare }, 'material'],
      ['size_at_reference', { ...size, material: steel, gauge: bare }, 'gauge'],
      [
        'clearance_when_warm',
        { ...size, clearance: 0, hole_material: bare, shaft_material: steel },
        'hole_material',
      ],
      [
        'clearance_when_warm',
        { ...size, clearance: 0, hole_material: steel, shaft_material: bare },
        'shaft_material',
      ],
      ['heat_to_assemble', { ...fit, hub: bare }, 'hub'],
      ['cool_to_assemble', { ...fit, shaft: bare }, 'shaft'],
    ];
    for (const [name, args, parameter] of cases) {
      const got = refused(name, args);
      expect([name, got.parameter]).toEqual([name, parameter]);
      expect(got.says).toContain('The card of `bar` needs an `expansion` above zero');
      expect(broken(formulaNamed(name) ?? expect.fail(name), args)).toEqual([]);
    }
  });

  it('leaves a size at 20 °C alone, and a part of the gauge’s metal too', () => {
    expect(number('thermal_growth', callOf('thermal_growth(100 mm, 20 °C, steel_C45)').args)).toBe(0);
    const { args } = callOf('size_at_reference(100.02 mm, 37 °C, steel_C45, gauge: steel_C60)');
    expect(number('size_at_reference', args, 'true_size')).toBeCloseTo(100.02, 12);
    expect(number('size_at_reference', args, 'growth')).toBeCloseTo(0, 9);
  });

  it.each([
    [
      'thermal_growth(100 mm, -273.15 °C, steel_C45)',
      'thermal_growth(100 mm, -273.1 °C, steel_C45)',
      'above -273.15 °C',
    ],
    [
      'size_at_reference(0 mm, 30 °C, steel_C45)',
      'size_at_reference(1 mm, 30 °C, steel_C45)',
      'more than zero',
    ],
    [
      'heat_to_assemble(50 mm, 0 mm, 0.05 mm, steel_C45)',
      'heat_to_assemble(50 mm, 0.01 mm, 0.05 mm, steel_C45)',
      'more than zero',
    ],
    [
      'heat_to_assemble(50 mm, 0.501 mm, 0.05 mm, steel_C45)',
      'heat_to_assemble(50 mm, 0.5 mm, 0.05 mm, steel_C45)',
      'more than any metal bears',
    ],
    // 216 K times 11.5 µm/m/K times 50 mm are 124.2 µm.
    [
      'cool_to_assemble(50 mm, 0.1 mm, 0.0243 mm, steel_C45)',
      'cool_to_assemble(50 mm, 0.1 mm, 0.0241 mm, steel_C45)',
      '-196.174 °C is colder than liquid nitrogen',
    ],
  ])('%s, and %s', (bad, good, text) => {
    expect(says(bad).join(' ')).toContain(text);
    expect(says(good)).toEqual([]);
  });

  it.each([
    [
      'thermal_growth(100 mm, 400.1 °C, steel_C45)',
      'thermal_growth(100 mm, 400 °C, steel_C45)',
      'between -100 °C and 400 °C',
    ],
    [
      'thermal_growth(100 mm, -100.1 °C, steel_C45)',
      'thermal_growth(100 mm, -100 °C, steel_C45)',
      'far from it',
    ],
    // 160 K and 330 K times 11.5 µm/m/K times 50 mm are 92 and 189.75 µm.
    [
      'heat_to_assemble(50 mm, 0.05 mm, 0.0421 mm, steel_C45)',
      'heat_to_assemble(50 mm, 0.05 mm, 0.0419 mm, steel_C45)',
      '180.174 °C softens hardened steel',
    ],
    [
      'heat_to_assemble(50 mm, 0.15 mm, 0.0399 mm, steel_C45)',
      'heat_to_assemble(50 mm, 0.02 mm, 0.0399 mm, steel_C45)',
      '350.261 °C scales and warps',
    ],
    // 98 K are 56.35 µm.
    [
      'cool_to_assemble(50 mm, 0.05 mm, 0.00636 mm, steel_C45)',
      'cool_to_assemble(50 mm, 0.05 mm, 0.0063 mm, steel_C45)',
      '-78.017 °C is colder than dry ice',
    ],
  ])('%s, and %s', (bad, good, text) => {
    expect(says(bad, 'warning').join(' ')).toContain(text);
    expect(says(good, 'warning')).toEqual([]);
  });

  it('warns once of a very hot hub, and just below it of softening', () => {
    expect(says('heat_to_assemble(50 mm, 0.15 mm, 0.0398 mm, steel_C45)', 'warning').join()).toContain(
      'scales',
    );
    const below = says('heat_to_assemble(50 mm, 0.15 mm, 0.0397 mm, steel_C45)', 'warning');
    expect(below).toHaveLength(1);
    expect(below[0]).toContain('softens');
    expect(says('heat_to_assemble(50 mm, 0.15 mm, 0.0398 mm, steel_C45)', 'warning')).toHaveLength(1);
  });
});

describe('change gears', () => {
  const lathe = (fields: Readonly<Record<string, number | readonly number[]>>): Arguments => ({
    lathe: card('turret', fields),
  });
  const product = (gears: readonly number[]): number => gears.reduce((a, b) => a * b, 1);

  it('finds every thread of a small metric lathe that its gears can cut, and no other', () => {
    const { args } = callOf('thread_gears(1 mm, lathe_mm)');
    const gears = [20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 127];
    const reached = new Set<string>();
    // By brute force, with every gear once: fractions as reduced pairs.
    const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));
    const key = (a: number, b: number): string => `${a / gcd(a, b)}/${b / gcd(a, b)}`;
    for (const a of gears)
      for (const b of gears.filter((g) => g !== a)) {
        reached.add(key(a, b));
        for (const c of gears.filter((g) => g !== a && g !== b))
          for (const d of gears.filter((g) => g !== a && g !== b && g !== c)) reached.add(key(a * c, b * d));
      }
    let cut = 0;
    const wanted: [number, number][] = [];
    for (let quarter = 1; quarter <= 24; quarter++) wanted.push([quarter, 12]);
    for (let threads = 4; threads <= 40; threads++) wanted.push([254, 30 * threads]);
    for (const [above, below] of wanted) {
      const lead = (3 * above) / below;
      const result = formulaNamed('thread_gears')?.compute(given({ ...args, lead }));
      if (typeof result !== 'object') return expect.fail('no answer');
      expect([above, below, isRefusal(result)]).toEqual([above, below, !reached.has(key(above, below))]);
      if (isRefusal(result)) continue;
      cut++;
      const { drivers, driven } = result as unknown as Record<string, number[]>;
      expect(product(drivers ?? []) * below).toBe(product(driven ?? []) * above);
      const all = [...(drivers ?? []), ...(driven ?? [])];
      expect(new Set(all).size).toBe(all.length);
      for (const gear of all) expect(gears).toContain(gear);
    }
    expect(cut).toBeGreaterThan(30);
  });

  it('takes the stud into account', () => {
    // 6 mm screw behind a stud at half speed: 1.5 mm is 1 to 2.
    const { args } = callOf('thread_gears(1.5 mm, lathe_stud)');
    expect(list('thread_gears', args, 'drivers')).toEqual([20]);
    expect(list('thread_gears', args, 'driven')).toEqual([40]);
    expect(number('thread_gears', args, 'cuts')).toBeCloseTo(1.5, 12);
    expect(formulaNamed('thread_gears')?.working(given(args)).at(-1)?.expression).toBe('ratio * 6 mm * 0.5');
  });

  it('leaves a stud that turns with the spindle out of the working', () => {
    const { args } = callOf('thread_gears(1.5 mm, lathe_mm)');
    expect(formulaNamed('thread_gears')?.working(given(args)).at(-1)?.expression).toBe('ratio * 3 mm');
  });

  it('says what is missing on the card', () => {
    const gears = [20, 40];
    const cases: [Arguments, string][] = [
      [lathe({ gears }), 'the pitch of its lead screw'],
      [lathe({ lead_screw: 0, gears }), 'the pitch of its lead screw'],
      [lathe({ lead_screw: 3, stud_ratio: 0, gears }), '`stud_ratio`'],
      [lathe({ lead_screw: 3 }), '`gears` with the teeth'],
    ];
    for (const [args, text] of cases) {
      const got = refused('thread_gears', { lead: 1.5, ...args });
      expect(got.says).toContain('The card of `turret` needs');
      expect(got.says).toContain(text);
      expect(got.parameter).toBe('lathe');
      expect(formulaNamed('thread_gears')?.working(given({ lead: 1.5, ...args }))).toEqual([]);
    }
  });

  it('says what ratio it takes, what is nearest, and when a gear of 127 is what lacks', () => {
    const few = lathe({ lead_screw: 3, gears: [20, 30, 40, 50, 60] });
    const metric = refused('thread_gears', { lead: 1.75, ...few });
    expect(metric.says).toContain('of exactly 1.75 mm: the train must be as 7 to 12.');
    // 30 * 40 over 60 * ... : 20 * 50 / (30 * 60) = 0.5556 and 3/5 = 0.6 beside 0.58333; 0.6 is 2.857 % off.
    expect(metric.says).toContain('The nearest, 30 drives 50, cuts 1.8 mm, which is 2.857 mm out in 100 mm');
    expect(metric.says).not.toContain('127 teeth');
    // 40 / 80 is 0.66 % more than 0.4967, and 40 / 81 is 0.58 % less.
    const close = refused('thread_gears', { lead: 0.4967, ...lathe({ lead_screw: 1, gears: [40, 80, 81] }) });
    expect(close.says).toContain('The nearest, 40 drives 81,');
    const inch = refused('thread_gears', { lead: 25.4 / 16, ...few });
    expect(inch.says).toContain('as 127 to 240. It takes a gear of 127 teeth.');
    const module = refused('thread_gears', { lead: Math.PI, ...few });
    expect(module.says).toContain('cut no lead of exactly 3.142 mm. The nearest');
    const with127 = refused('thread_gears', {
      lead: 25.4 / 16,
      ...lathe({ lead_screw: 3, gears: [20, 30, 127] }),
    });
    expect(with127.says).toContain('as 127 to 240. The nearest');
    // Behind a stud at half speed a screw of 6 mm is as one of 3 mm.
    const stud = refused('thread_gears', {
      lead: 1.75,
      ...lathe({ lead_screw: 6, stud_ratio: 0.5, gears: [20, 30, 40, 50, 60] }),
    });
    expect(stud.says).toBe(metric.says);
    const one = refused('thread_gears', { lead: 1.5, ...lathe({ lead_screw: 3, gears: [20] }) });
    expect(one.says).toBe(
      'The gears of `turret` cut no lead of exactly 1.5 mm: the train must be as 1 to 2.',
    );
  });

  it('tells a nearest train of two pairs in an order in which it can be set up', () => {
    // By hand: 5 to 12 is nearest to 1249 to 3000, and the 50 would foul the next shaft if the 20 were to drive the 40.
    const near = refused('thread_gears', {
      lead: 1.249,
      ...lathe({ lead_screw: 3, gears: [20, 40, 50, 60] }),
    });
    expect(near.says).toContain('The nearest, 50 drives 40, 20 on its shaft drives 60, cuts 1.25 mm');
  });

  it('orders two pairs so that no gear reaches the next shaft', () => {
    const { args } = callOf('thread_gears(1 mm, lathe_mm)');
    let compound = 0;
    for (let threads = 4; threads <= 40; threads++) {
      const result = formulaNamed('thread_gears')?.compute(given({ ...args, lead: 25.4 / threads }));
      if (typeof result !== 'object' || isRefusal(result)) continue;
      const { drivers = [], driven = [] } = result as unknown as Record<string, number[]>;
      const [a = 0, c = 0, b = 0, d = 0] = [...drivers, ...driven];
      if (drivers.length === 1) continue;
      compound++;
      // Common practice: the teeth of a meshing pair are 15 more than those of the gear beside.
      expect([threads, a + b >= c + 15, c + d >= b + 15]).toEqual([threads, true, true]);
    }
    expect(compound).toBeGreaterThan(5);
  });

  it('knows quotients of whole numbers through binary rounding, and nothing that is none', () => {
    for (let below = 1; below <= 400; below++)
      for (const above of [1, 7, 127, 254, 397]) {
        const [a = 0, b = 0] = quotientOf(above / below) ?? [];
        expect([above, below, a * below]).toEqual([above, below, b * above]);
      }
    expect(quotientOf(25.4 / 13 / 6)).toEqual([127, 390]);
    for (const value of [Math.PI, Math.SQRT2, Math.E, (1 + Math.sqrt(5)) / 2, Math.PI / 100, Infinity])
      expect(quotientOf(value)).toBeNull();
    // Each sum misses its quotient by binary rounding.
    for (const [value, quotient] of [
      [1000.1 + 0.2, [10_003, 10]],
      [0.1 + 0.2, [3, 10]],
    ] as const) {
      expect(value).not.toBe(quotient[0] / quotient[1]);
      expect(quotientOf(value)).toEqual(quotient);
    }
    expect(quotientOf(1 / 40_000)).toEqual([1, 40_000]);
    expect(quotientOf(1 / 39_999)).toEqual([1, 39_999]);
    expect(quotientOf(1 / 40_001)).toBeNull();
  });
});
