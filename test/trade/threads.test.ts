/** Threads: every row of the tables against a table worked out apart from the project, and what is said where there is none. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { calculate, calculateLines } from '../../src/engine/index';
import { formulaNamed } from '../../src/trade';
import { isRefusal } from '../../src/trade/formula';
import * as table from '../../src/trade/thread-table';
import { type Arguments, answer, broken, callOf, given, number } from './given';

type Pair = readonly [number, number];

interface Metric {
  readonly name: string;
  readonly series: 'coarse' | 'fine';
  readonly d_mm: number;
  readonly P_mm: number;
  readonly H: number;
  readonly d2: number;
  readonly d1: number;
  readonly d3: number;
  readonly h3: number;
  readonly H1: number;
  readonly tap_drill_mm: number;
  readonly tap_drill_pct_of_2H1: number;
  readonly tap_drill_pct_handbook: number;
  readonly best_wire_mm: number;
  readonly M_best_wire_mm: number;
  readonly lead_angle_deg: number;
  readonly limits_mm?: Readonly<Record<'6g_major' | '6g_pitch' | '6H_minor' | '6H_pitch', Pair>>;
  readonly limits_xcheck?: Readonly<Record<string, string>>;
}

interface Unified {
  readonly series: 'UNC' | 'UNF';
  readonly name: string;
  readonly D_in: number;
  readonly tpi: number;
  readonly pitch_dia_in: number;
  readonly minor_int_in: number;
  readonly minor_ext_UNR_in: number;
  readonly ext_depth_in: number;
  readonly tap_drill: string;
  readonly tap_drill_in: number;
  readonly tap_drill_pct_of_2H1: number;
  readonly tap_drill_pct_handbook: number;
  readonly best_wire_in: number;
  readonly M_best_wire_in: number;
  readonly tap_drill_xcheck: string;
}

type Widths = Readonly<Record<string, number>>;

const data = JSON.parse(readFileSync(new URL('../data/threads.json', import.meta.url), 'utf8')) as {
  readonly metric: readonly Metric[];
  readonly unified: readonly Unified[];
  readonly tolerances: {
    readonly es_g_by_pitch: Widths;
    readonly Td_6: Widths;
    readonly TD1_6: Widths;
    readonly Td2_6: Readonly<Record<string, Widths>>;
    readonly TD2_6: Readonly<Record<string, Widths>>;
  };
};

const refusal = (name: string, args: Arguments): { says: string; offers: readonly string[] } => {
  const result = formulaNamed(name)?.compute(given(args));
  if (typeof result !== 'object' || !isRefusal(result)) return expect.fail(`${name} answers`);
  expect(result.parameter === 'thread' || result.parameter === 'lead' || result.parameter === 'lathe').toBe(
    true,
  );
  return { says: result.refused, offers: result.offers ?? [] };
};

/** Half of the last digit printed, and binary rounding. */
const within = (value: number | undefined, printed: number, digit: number, what: string): void => {
  expect(Math.abs((value ?? NaN) - printed), `${what}: ${value} for ${printed}`).toBeLessThanOrEqual(
    digit / 2 + 1e-9,
  );
};

const numbersOf = (name: string, args: Arguments): Record<string, number> =>
  answer(name, args) as unknown as Record<string, number>;

describe('metric threads', () => {
  it('has every row of the table and no other', () => {
    expect(data.metric).toHaveLength(82);
    const coarse = data.metric.filter(({ series }) => series === 'coarse');
    expect(table.COARSE).toEqual(coarse.map(({ d_mm, P_mm, tap_drill_mm }) => [d_mm, P_mm, tap_drill_mm]));
    const fine = [...table.FINE].flatMap(([d, pitches]) => pitches.map((p) => [d, p]));
    const rows = data.metric.filter(({ series }) => series === 'fine').map(({ d_mm, P_mm }) => [d_mm, P_mm]);
    expect(fine).toEqual(rows);
  });

  it.each(data.metric.map((row) => [row.name, row] as const))('%s', (thread, row) => {
    const sizes = numbersOf('thread_sizes', { thread });
    expect([sizes['diameter'], sizes['pitch'], sizes['series']]).toEqual([row.d_mm, row.P_mm, row.series]);
    within(sizes['pitch_diameter'], row.d2, 1e-6, 'd2');
    within(sizes['bore'], row.d1, 1e-6, 'D1');
    within(sizes['core'], row.d3, 1e-6, 'd3');
    within(sizes['depth'], row.h3, 1e-4, 'h3');
    within(sizes['engaged'], row.H1, 1e-4, 'H1');
    const infeed = numbersOf('thread_infeed', { thread });
    within(infeed['sharp'], row.H, 1e-6, 'H');
    within(infeed['straight'], row.h3, 1e-4, 'h3');
    within(infeed['in_bore'], row.H1, 1e-4, 'H1');
    within(infeed['flat_root'], (row.H * 3) / 4, 1e-5, 'flat root');
    const drill = numbersOf('tap_drill', { thread });
    expect(drill['drill']).toBe(row.tap_drill_mm);
    within(drill['engaged'], row.tap_drill_pct_of_2H1, 0.1, 'percent of 2 H1');
    within(drill['handbook'], row.tap_drill_pct_handbook, 0.1, 'percent by handbook');
    const pitch = row.P_mm;
    within(numbersOf('best_wire', { pitch })['wire'], row.best_wire_mm, 1e-4, 'wire');
    const pitch_diameter = sizes['pitch_diameter'] ?? NaN;
    const wire = numbersOf('best_wire', { pitch })['wire'] ?? NaN;
    within(number('over_wires', { pitch_diameter, pitch, wire }), row.M_best_wire_mm, 1e-4, 'over wires');
    within(number('lead_angle', { pitch_diameter, pitch }), row.lead_angle_deg, 1e-3, 'lead angle');
    if (!row.limits_mm) {
      expect(row.d_mm).toBeLessThanOrEqual(1.4);
      expect(refusal('screw_limits', { thread }).says).toContain('above M1.4 up to M90');
      return;
    }
    const [screw, nut] = [numbersOf('screw_limits', { thread }), numbersOf('nut_limits', { thread })];
    const limits = (of: Record<string, number>, high: string, low: string, [a, b]: Pair): void => {
      within(of[high], Math.max(a, b), 1e-3, high);
      within(of[low], Math.min(a, b), 1e-3, low);
    };
    limits(screw, 'outside_max', 'outside_min', row.limits_mm['6g_major']);
    limits(screw, 'pitch_diameter_max', 'pitch_diameter_min', row.limits_mm['6g_pitch']);
    limits(nut, 'bore_max', 'bore_min', row.limits_mm['6H_minor']);
    limits(nut, 'pitch_diameter_max', 'pitch_diameter_min', row.limits_mm['6H_pitch']);
    const over = numbersOf('screw_over_wires', { thread });
    within(over['basic'], row.M_best_wire_mm, 1e-4, 'over wires');
    const [high, low] = row.limits_mm['6g_pitch'];
    within((over['largest'] ?? NaN) - (over['basic'] ?? NaN) + row.d2, Math.max(high, low), 1e-3, 'largest');
    within(
      (over['smallest'] ?? NaN) - (over['basic'] ?? NaN) + row.d2,
      Math.min(high, low),
      1e-3,
      'smallest',
    );
    for (const [side, of] of [
      ['6g', screw],
      ['6H', nut],
    ] as const) {
      const others = Object.entries(row.limits_xcheck ?? {}).filter(([what]) => what.startsWith(side));
      const differs = others.filter(([, how]) => how.startsWith('DISAGREES'));
      for (const [what, how] of differs) {
        const theirs = [...how.matchAll(/\d+\.\d+/g)].map(([x]) => Number(x)).sort((a, b) => b - a);
        expect(of['checked']).toContain(`${what.replace('_', ' ')} ${theirs.join(' to ')} mm`);
      }
      if (differs.length === 0)
        expect(of['checked']).toBe('from memory, agrees with an open table of ISO 965-2');
    }
  });

  it('keeps the tolerances of grade 6, value by value', () => {
    const same = (own: ReadonlyMap<number, number>, theirs: Widths): void => {
      const held = Object.entries(theirs).map(([pitch, um]) => [Number(pitch), um] as const);
      // Pitches below 0.35 mm belong to threads that are too small for the other tables.
      const wanted = held.filter(([pitch]) => pitch >= 0.35).sort(([a], [b]) => a - b);
      expect([...own]).toEqual(wanted);
    };
    const { es_g_by_pitch, Td_6, TD1_6, Td2_6, TD2_6 } = data.tolerances;
    same(table.POSITION_G, es_g_by_pitch);
    same(table.MAJOR_6, Td_6);
    same(table.MINOR_6, TD1_6);
    for (const [own, theirs] of [
      [table.SCREW_PITCH_6, Td2_6],
      [table.NUT_PITCH_6, TD2_6],
    ] as const) {
      expect(own.map(([upto]) => upto)).toEqual(
        Object.keys(theirs).map((range) => Number(range.split('-')[1])),
      );
      own.forEach(([, widths], i) => same(widths, Object.values(theirs)[i] ?? {}));
    }
    expect(table.SMALLEST_TOLERATED).toBe(1.4);
  });

  it('begins a range of diameters just above the end of the one before', () => {
    // 22.4 mm is the end of a range of ISO 965-1: 140 and 150 µm at a pitch of 1.5 mm.
    const width = (thread: string): number => {
      const { pitch_diameter_max: max = NaN, pitch_diameter_min: min = NaN } = numbersOf('screw_limits', {
        thread,
      });
      return (max - min) * 1000;
    };
    expect(width('M22.4x1.5')).toBeCloseTo(140, 9);
    expect(width('M22.5x1.5')).toBeCloseTo(150, 9);
    expect(width('M90x6')).toBeCloseTo(280, 9);
    expect(refusal('screw_limits', { thread: 'M90.5x6' }).says).toContain('up to M90');
    expect(refusal('screw_limits', { thread: 'M1.4' }).says).toContain('above M1.4');
  });

  it('h lies at the basic size and G above it as far as g lies below', () => {
    const [g, h] = ['M10-6g', 'M10-6h'].map((thread) => numbersOf('screw_limits', { thread }));
    const [H, G] = ['M10-6H', 'M10-6G'].map((thread) => numbersOf('nut_limits', { thread }));
    expect(h?.['outside_max']).toBe(10);
    // ISO 965-1: 32 µm at a pitch of 1.5 mm.
    expect((h?.['pitch_diameter_min'] ?? 0) - (g?.['pitch_diameter_min'] ?? 0)).toBeCloseTo(0.032, 9);
    expect((G?.['bore_min'] ?? 0) - (H?.['bore_min'] ?? 0)).toBeCloseTo(0.032, 9);
    expect((G?.['pitch_diameter_max'] ?? 0) - (H?.['pitch_diameter_max'] ?? 0)).toBeCloseTo(0.032, 9);
    for (const zone of [h, G]) expect(zone?.['checked']).toBe('by the rule of ISO 965-1, from memory');
    expect(numbersOf('screw_limits', { thread: 'M31x1.5' })['checked']).toContain('by the rule');
  });
});

describe('unified threads', () => {
  it('has every row of the table and no other', () => {
    expect(data.unified).toHaveLength(49);
    const rows = data.unified.map((row) => [row.series, row.name, row.D_in, row.tpi, row.tap_drill]);
    expect(table.UNIFIED.map((row) => [row.series, row.size, row.diameter, row.threads, row.drill])).toEqual(
      rows,
    );
  });

  it.each(data.unified.map((row) => [`${row.name}-${row.tpi} ${row.series}`, row] as const))(
    '%s',
    (name, row) => {
      const thread = name.replace('#', '');
      const inch = (value: number | undefined): number => (value ?? NaN) / 25.4;
      const sizes = numbersOf('thread_sizes', { thread });
      expect(sizes['series']).toBe(row.series);
      within(inch(sizes['diameter']), row.D_in, 0, 'D');
      within(inch(sizes['pitch']), 1 / row.tpi, 0, 'P');
      within(inch(sizes['pitch_diameter']), row.pitch_dia_in, 1e-4, 'pitch diameter');
      within(inch(sizes['bore']), row.minor_int_in, 1e-4, 'bore');
      within(inch(sizes['core']), row.minor_ext_UNR_in, 1e-4, 'core');
      within(inch(sizes['depth']), row.ext_depth_in, 1e-5, 'depth');
      const drill = numbersOf('tap_drill', { thread });
      within(inch(drill['drill']), row.tap_drill_in, row.tap_drill.includes('/') ? 1e-4 : 0, 'drill');
      // Their percentages are of the printed drill, which a fraction rounds.
      expect(Math.abs((drill['engaged'] ?? 0) - row.tap_drill_pct_of_2H1)).toBeLessThan(0.25);
      expect(Math.abs((drill['handbook'] ?? 0) - row.tap_drill_pct_handbook)).toBeLessThan(0.25);
      const called = /^#/.test(row.tap_drill) ? `No. ${row.tap_drill.slice(1)}` : row.tap_drill;
      expect(drill['called']).toBe(
        /^[A-Z]$/.test(called) ? `letter ${called}` : called.includes('/') ? `${called} in` : called,
      );
      const [, other] = /hole (\d+\.\d+) mm/.exec(row.tap_drill_xcheck) ?? [];
      const theirs = other === undefined ? '' : `; another open list drills ${Number(other)} mm`;
      expect(drill['note']).toBe(`common practice, from memory${theirs}`);
      const pitch = 25.4 / row.tpi;
      const { wire = NaN } = numbersOf('best_wire', { pitch });
      within(inch(wire), row.best_wire_in, 1e-5, 'wire');
      const pitch_diameter = sizes['pitch_diameter'] ?? NaN;
      within(
        inch(number('over_wires', { pitch_diameter, pitch, wire })),
        row.M_best_wire_in,
        1e-5,
        'over wires',
      );
      within(
        inch(numbersOf('screw_over_wires', { thread })['basic']),
        row.M_best_wire_in,
        1e-5,
        'over wires',
      );
    },
  );

  /** Limits in inches of common sizes as handbooks print them, from memory. */
  const PRINTED: readonly (readonly [string, readonly number[]])[] = [
    ['3/8-16 UNC-2A', [0.3737, 0.3643, 0.3331, 0.3287]],
    ['3/8-16 UNC-3A', [0.375, 0.3656, 0.3344, 0.3311]],
    ['1/2-13 UNC-2A', [0.4985, 0.4876, 0.4485, 0.4435]],
    ['1/4-20 UNC-2A', [0.2489, 0.2408, 0.2164, 0.2127]],
  ];
  it.each(PRINTED)('%s as handbooks print it', (thread, [a = 0, b = 0, c = 0, d = 0]) => {
    const got = numbersOf('screw_limits', { thread });
    within((got['outside_max'] ?? 0) / 25.4, a, 1.1e-4, 'outside max');
    within((got['outside_min'] ?? 0) / 25.4, b, 1.6e-4, 'outside min');
    within((got['pitch_diameter_max'] ?? 0) / 25.4, c, 1.1e-4, 'pitch diameter max');
    within((got['pitch_diameter_min'] ?? 0) / 25.4, d, 1.8e-4, 'pitch diameter min');
  });

  /** Bores are printed to 0.001 in for larger sizes. */
  const NUTS: readonly (readonly [string, readonly number[]])[] = [
    ['3/8-16 UNC-2B', [0.307, 0.321, 0.3344, 0.3401]],
    ['1/4-20 UNC-2B', [0.196, 0.207, 0.2175, 0.2224]],
    ['10-32 UNF-2B', [0.156, 0.164, 0.1697, 0.1736]],
    ['10-24 UNC-2B', [0.145, 0.156, 0.1629, 0.1672]],
  ];
  it.each(NUTS)('%s as handbooks print it', (thread, [a = 0, b = 0, c = 0, d = 0]) => {
    const got = numbersOf('nut_limits', { thread });
    within((got['bore_min'] ?? 0) / 25.4, a, 1.1e-3, 'bore min');
    within((got['bore_max'] ?? 0) / 25.4, b, 1.1e-3, 'bore max');
    within((got['pitch_diameter_min'] ?? 0) / 25.4, c, 1.1e-4, 'pitch diameter min');
    within((got['pitch_diameter_max'] ?? 0) / 25.4, d, 1.6e-4, 'pitch diameter max');
  });

  /** The formulas of ASME B1.1 once more, in inches, from memory, to pin each of their numbers. */
  it.each(data.unified.map((row) => [`${row.name.replace('#', '')}-${row.tpi} ${row.series}`, row] as const))(
    'tolerances of %s by the formulas written out afresh',
    (name, { D_in: D, tpi }) => {
      const P = 1 / tpi;
      const third = Math.cbrt(P * P);
      const full = (3 * Math.cbrt(D) + 3 * Math.sqrt(D) + 30 * third) / 2000;
      const close = (value: number | undefined, wanted: number): void =>
        expect((value ?? NaN) / 25.4).toBeCloseTo(wanted, 10);
      const flank = D - (3 / 8) * Math.sqrt(3) * P;
      const bore = D - (5 / 8) * Math.sqrt(3) * P;
      const [two, three] = ['2A', '3A'].map((side) =>
        numbersOf('screw_limits', { thread: `${name}-${side}` }),
      );
      close(two?.['outside_max'], D - 0.3 * full);
      close(two?.['outside_min'], D - 0.3 * full - 0.06 * third);
      close(two?.['pitch_diameter_max'], flank - 0.3 * full);
      close(two?.['pitch_diameter_min'], flank - 1.3 * full);
      close(three?.['outside_max'], D);
      close(three?.['outside_min'], D - 0.06 * third);
      close(three?.['pitch_diameter_max'], flank);
      close(three?.['pitch_diameter_min'], flank - 0.75 * full);
      const nut = numbersOf('nut_limits', { thread: `${name}-2B` });
      close(nut['bore_min'], bore);
      close(nut['pitch_diameter_min'], flank);
      close(nut['pitch_diameter_max'], flank + 1.3 * full);
      const large = P / 4 - (2 * P * P) / 5;
      const small = Math.min(0.394 * P, Math.max(large, third / 20 + (3 * P) / (100 * D) - 1 / 500));
      close(nut['bore_max'], bore + (D < 0.25 ? small : large));
      expect(nut['checked']).toContain('by the formulas of ASME B1.1, from memory');
    },
  );

  it('reads a size by number, fraction, whole inches or decimals', () => {
    const diameter = (thread: string): number => numbersOf('thread_sizes', { thread })['diameter'] ?? NaN;
    expect(diameter('10-32 UNF') / 25.4).toBeCloseTo(0.19, 12);
    expect(diameter('1-64 UNC') / 25.4).toBeCloseTo(0.073, 12);
    expect(diameter('1-8 UNC') / 25.4).toBeCloseTo(1, 12);
    expect(diameter('2-4.5 UNC') / 25.4).toBeCloseTo(2, 12);
    expect(diameter('2-56 UNC') / 25.4).toBeCloseTo(0.086, 12);
    expect(diameter('1 1/8-7 UNC-2A') / 25.4).toBeCloseTo(1.125, 12);
    expect(diameter('0.375-16 UNC')).toBe(diameter('3/8-16UNC'));
  });
});

describe('what is no thread', () => {
  const cases: readonly (readonly [string, Arguments, string, readonly string[]])[] = [
    ['thread_sizes', { thread: 'H7' }, 'is no call-out of a thread', []],
    ['thread_sizes', { thread: 'M31' }, 'from M1 to M64, nearest M30 and M33', ['M30', 'M33']],
    ['thread_sizes', { thread: 'M68' }, 'nearest M64', ['M64']],
    ['thread_sizes', { thread: 'M201x6' }, 'from 1 mm to 200 mm', []],
    ['thread_sizes', { thread: 'M0.9x0.2' }, 'from 1 mm to 200 mm', []],
    ['thread_sizes', { thread: 'M10x3.1' }, 'up to 0.3 of the diameter', []],
    ['thread_sizes', { thread: 'M10x0' }, 'Change the size or the pitch', []],
    ['tap_drill', { thread: '3/8-16 UNF' }, 'has 3/8-16 UNC and 3/8-24 UNF', ['3/8-16 UNC', '3/8-24 UNF']],
    ['tap_drill', { thread: '10-16 UNC' }, 'has 10-24 UNC and 10-32 UNF', ['10-24 UNC', '10-32 UNF']],
    ['tap_drill', { thread: '3/7-16 UNC' }, 'UNC from 1 to 12 by number', []],
    // None of these is number 8.
    ['tap_drill', { thread: '8.25-32 UNC' }, 'UNC from 1 to 12 by number', []],
    ['tap_drill', { thread: '1 8-32 UNC' }, 'UNC from 1 to 12 by number', []],
    ['tap_drill', { thread: '8/32-32 UNC' }, 'has 1/4-20 UNC and 1/4-28 UNF', ['1/4-20 UNC', '1/4-28 UNF']],
    ['screw_limits', { thread: 'M10-6H' }, 'is a class of nuts', ['M10-6g', 'M10-6h']],
    ['nut_limits', { thread: 'M10-6g' }, 'is a class of screws', ['M10-6H', 'M10-6G']],
    ['screw_limits', { thread: '3/8-16 UNC-2B' }, 'take `nut_limits`', ['3/8-16 UNC-2A', '3/8-16 UNC-3A']],
    ['screw_limits', { thread: 'M10-4h' }, '6g, 6h for screws and 6H, 6G for nuts', ['M10-6g', 'M10-6h']],
    ['nut_limits', { thread: '3/8-16 UNC-3B' }, '2A, 3A for screws and 2B for nuts', ['3/8-16 UNC-2B']],
    [
      'screw_limits',
      { thread: 'M10x0.8' },
      'for the pitches 0.75, 1, 1.25, 1.5 mm, not 0.8 mm',
      ['M10x0.75', 'M10x1', 'M10x1.25', 'M10x1.5'],
    ],
    ['nut_limits', { thread: 'M2x0.5' }, 'Above 1.4 mm and up to 2.8 mm', ['M2x0.35', 'M2x0.4', 'M2x0.45']],
  ];
  it.each(cases)('%s %o', (name, args, says, offers) => {
    const { says: said, offers: offered } = refusal(name, args);
    expect(said).toContain(says);
    expect(offered).toEqual(offers);
    // Whatever is offered works.
    for (const thread of offered)
      expect(Object.keys(answer(name, { ...args, thread })).length).toBeGreaterThan(0);
    expect(
      formulaNamed(name)
        ?.working(given(args))
        .filter(({ name }) => name !== 'diameter' && name !== 'pitch'),
    ).toEqual([]);
  });

  it.each([
    ['thread_sizes', 'M1x0.3'],
    ['thread_sizes', 'M200x6'],
    ['thread_sizes', 'M10x3'],
  ])('%s %s is just inside', (name, thread) =>
    expect(numbersOf(name, { thread })['bore']).toBeGreaterThan(0),
  );
});

describe('ranges', () => {
  const says = (call: string, severity: 'error' | 'warning' = 'error'): string[] => {
    const { formula, args } = callOf(call);
    return broken(formula, args, severity);
  };
  it.each([
    [
      'thread_infeed(M10, compound_angle: -0.1°)',
      'thread_infeed(M10, compound_angle: 0°)',
      'give 0° or more',
    ],
    [
      'thread_infeed(M10, compound_angle: 60.05°)',
      'thread_infeed(M10, compound_angle: 60°)',
      'from square, 29.95°',
    ],
    ['lead_angle(0 mm, 1 mm)', 'lead_angle(0.1 mm, 1 mm)', 'more than zero'],
    [
      'thread_percent(M6, 6 mm)',
      'thread_percent(M6, 5.999 mm)',
      'give a drill below 6 mm; the bore of the profile is 4.917 mm',
    ],
    ['drill_for_thread(M6, 100.1%)', 'drill_for_thread(M6, 100%)', 'give at most 100%'],
    ['drill_for_thread(M6, 7500%)', 'drill_for_thread(M6, 75%)', 'without its sign, write `75%`'],
    ['best_wire(1 mm, thread_angle: 0°)', 'best_wire(1 mm, thread_angle: 0.1°)', 'between 0° and 180°'],
    ['best_wire(1 mm, thread_angle: 180°)', 'best_wire(1 mm, thread_angle: 179.9°)', 'between 0° and 180°'],
    [
      'pitch_diameter_of(1.7844 mm, 1.75 mm, 1.1 mm)',
      'pitch_diameter_of(1.7845 mm, 1.75 mm, 1.1 mm)',
      'above 1.784 mm',
    ],
    [
      'screw_over_wires(M10, 0.7577 mm)',
      'screw_over_wires(M10, 0.7578 mm)',
      'from 0.758 mm to 1.516 mm, best 0.866 mm',
    ],
    ['screw_over_wires(M10, 1.516 mm)', 'screw_over_wires(M10, 1.515 mm)', 'does not sit right in M10'],
    ['thread_gears(0 mm, lathe_mm)', 'thread_gears(0.75 mm, lathe_mm)', 'more than zero'],
  ])('%s, and %s', (bad, good, text) => {
    expect(says(bad).join(' ')).toContain(text);
    expect(says(good)).toEqual([]);
  });
  it.each([
    [
      'thread_infeed(M10, compound_angle: 30.1°)',
      'thread_infeed(M10, compound_angle: 30°)',
      'swing the slide to 29.5° from square; a scale that reads zero along the bed shows 60.5°',
    ],
    ['over_wires(9 mm, 1.5 mm, 0.757 mm)', 'over_wires(9 mm, 1.5 mm, 0.7585 mm)', 'lies below the crests'],
    ['over_wires(9 mm, 1.5 mm, 1.517 mm)', 'over_wires(9 mm, 1.5 mm, 1.5145 mm)', 'rests on the crests'],
  ])('%s, and %s', (bad, good, text) => {
    expect(says(bad, 'warning').join(' ')).toContain(text);
    expect(says(good, 'warning')).toEqual([]);
  });
  it('a wire that touches the pitch line at no angle turns round nowhere', () => {
    const turns = (pitch: number): readonly number[] =>
      formulaNamed('over_wires')?.extremes?.['thread_angle']?.(given({ pitch, wire: 1 })) ?? [NaN];
    expect(turns(2.001)).toEqual([]);
    // Half the pitch over the wire is the cosine of half the angle: 1/2 of 120°.
    expect(turns(1)[0]).toBeCloseTo(120, 9);
  });
  it('an angle from along the bed is refused, and not warned of besides', () => {
    expect(says('thread_infeed(M10, compound_angle: 60°)', 'warning')).toHaveLength(1);
    expect(says('thread_infeed(M10, compound_angle: 60.05°)', 'warning')).toEqual([]);
  });
});

describe('in a note', () => {
  it('takes call-outs as drawings write them, and says at the call-out what is wrong', () => {
    const sheet = calculateLines(
      'a = tap_drill(M30x1.5-6g)\nb = tap_drill(3/8-16 UNC-2A)\nc = tap_drill(M31)\n',
    );
    expect(sheet.findings().map(({ line, code, column }) => [line, code, column])).toEqual([
      [2, 'formula-refused', 14],
    ]);
    expect(sheet.findings()[0]?.data).toMatchObject({ offers: ['M30', 'M33'] });
  });
  it('works with the cards of the shop', () => {
    const shop = '```machine turret\nlead_screw = 1/8 in\ngears = [30, 127, 60]\n```\n';
    const note = '```figures\ng = thread_gears(thread_sizes(M10).pitch, turret)\n```\n';
    const sheet = calculate(note, [{ file: 'shop.md', text: shop }]);
    expect(sheet.findings()).toEqual([]);
    const value = sheet.valueOf('g');
    expect(value?.kind === 'record' && value.fields.get('train')).toEqual({
      kind: 'text',
      text: '60 drives 127',
    });
  });
});
