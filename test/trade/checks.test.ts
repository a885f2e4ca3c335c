/** The check values that were worked out independently of the project, against the formulas. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { calculateLines } from '../../src/engine';
import { fromBase } from '../../src/quantity/unit';
import { unit } from '../../src/quantity/units';
import type { CardView } from '../../src/quantity/value';
import { formulaNamed } from '../../src/trade';
import { isRefusal } from '../../src/trade/formula';
import { BALL_RUN, type Inputs, numbers, type Read, type Run } from './ball-checks';
import { SHAFT_RUN } from './shaft-checks';
import { SHOP_RUN } from './shop-checks';
import { TAPER_RUN } from './taper-checks';
import { type Arguments, answer, card, given, materialCard, number, SHOP } from './given';

interface Check {
  readonly id: string;
  readonly formula: string;
  readonly inputs: Inputs;
  readonly expected: unknown;
  readonly tolerance: number;
  readonly method: string;
  readonly source: string;
}

const { checks } = JSON.parse(readFileSync(new URL('../data/checks.json', import.meta.url), 'utf8')) as {
  checks: readonly Check[];
};

/** A card for starts, whose speed has no part in the feed. */
const STEEL = materialCard('steel', { hss_speed: [22, 'm/min'] });

/** Value of a line as a note has it, in a unit. */
function evaluated(line: string, unitText: string): number {
  const sheet = calculateLines(`x = ${line}`);
  const value = sheet.valueOf('x');
  if (value?.kind !== 'number') throw new Error(`${line}: ${sheet.findings()[0]?.message ?? 'no number'}`);
  return fromBase(value.value, unit(unitText));
}

/** Units of the checks as the notation writes them. */
const inNotation = (text: unknown): string => String(text).replace('ft lbf', 'lbf*ft').replace('N m', 'N*m');

/** How each family's inputs go into the formulas. */
const RUN: Readonly<Record<string, Run>> = {
  ...BALL_RUN,
  ...TAPER_RUN,
  ...SHAFT_RUN,
  ...SHOP_RUN,
  H01: (_, __, ___, { value, to }) => [
    evaluated(`${inNotation(value)} to ${inNotation(to)}`, inNotation(to)),
  ],
  H03: (at) => [evaluated(`${at('d')}°${at('m')}′${at('s')}″`, '°')],
  C01: (at) =>
    at('d_mm') > 0
      ? numbers('spindle_speed', { cutting_speed: at('vc_m_min'), diameter: at('d_mm') }, '')
      : numbers('spindle_speed', { cutting_speed: at('V_ft_min') * 0.3048, diameter: at('D_in') * 25.4 }, ''),
  C02: (at, _, __, { speeds }) => {
    const diameter = at('d_mm');
    const wanted = number('spindle_speed', { cutting_speed: at('vc_m_min'), diameter });
    const machine = card('lathe', { speeds: [...(speeds as number[])].reverse() });
    const step = number('speed_step', { spindle_speed: wanted, machine });
    return [step, number('cutting_speed', { spindle_speed: step, diameter })];
  },
  C03: (at) => {
    const [spindle_speed, length] = [at('n_rpm'), at('L_mm')];
    const feed_rate = number('table_feed', { feed_per_tooth: at('fz_mm'), teeth: at('z'), spindle_speed });
    expect(number('feed_rate', { feed_per_rev: at('fz_mm') * at('z'), spindle_speed })).toBeCloseTo(
      feed_rate,
      9,
    );
    return [feed_rate, number('cutting_time', { length, feed_rate })];
  },
  C04: (at) =>
    at('drill_mm') > 0
      ? numbers(
          'drilling_removal',
          { diameter: at('drill_mm'), feed_per_rev: at('f_mm'), spindle_speed: at('n_rpm') },
          '',
        )
      : numbers(
          'milling_removal',
          { width_of_cut: at('ae_mm'), depth_of_cut: at('ap_mm'), feed_rate: at('vf_mm_min') },
          '',
        ),
  C05: (at) => {
    const material = materialCard('test_bar', {
      specific_force: [at('kc11'), 'N/mm^2'],
      force_exponent: [at('mc'), ''],
    });
    const cut = { depth_of_cut: at('ap_mm'), feed_per_rev: at('f_mm'), cutting_edge_angle: at('kappa_deg') };
    const cutting_force = number('cutting_force', { material, ...cut }, 'cutting_force');
    return [
      cutting_force,
      number('cutting_power', { cutting_force, cutting_speed: at('vc_m_min') }, 'power'),
      number('cutting_torque', { cutting_force, diameter: at('d_mm') }),
    ];
  },
  C06: (at) =>
    numbers('theoretical_roughness', { feed_per_rev: at('f_mm'), nose_radius: at('r_mm') }, 'rt', 'ra'),
  C07: (at) =>
    at('ball_D_mm') > 0
      ? numbers('effective_diameter', { cutter: at('ball_D_mm'), depth_of_cut: at('ap_mm') }, '')
      : numbers(
          'chip_thinning',
          { cutter: at('D_mm'), width_of_cut: at('ae_mm'), feed_per_tooth: at('fz_mm') },
          'chip_thickness',
        ),
  C08: (at) =>
    at('tap_pitch_mm') > 0
      ? numbers('tapping_feed', { pitch: at('tap_pitch_mm'), spindle_speed: at('n_rpm') }, '')
      : numbers('drilling_start', { diameter: at('d_mm'), material: STEEL }, 'feed'),
};

const arithmetic = checks.filter((check) => check.formula in RUN);

describe.each(arithmetic.map((check) => [`${check.id}: ${check.method}`, check] as const))(
  '%s',
  (_, check) => {
    it('is met', () => {
      const at: Read = (key) => {
        const value = check.inputs[key];
        return typeof value === 'number' ? value : 0;
      };
      const got = RUN[check.formula]?.(at, check.id, check.expected, check.inputs) ?? [];
      const expected = [check.expected].flat() as number[];
      expect(got.length).toBe(expected.length);
      got.forEach((value, i) => {
        expect(Math.abs(value - (expected[i] ?? NaN)), `${value} for ${expected[i]}`).toBeLessThanOrEqual(
          check.tolerance,
        );
      });
    });
  },
);

const SETS: Readonly<Record<string, string>> = { set1: 'head', set2: 'head_b' };

/** The head of a check: the plates of the reference cards at the ratio asked. */
function headFor({ plates, ratio }: Inputs): CardView {
  const shelf = SHOP.get(SETS[String(plates)] ?? '');
  if (!shelf) throw new Error(`no plates ${String(plates)}`);
  const fields = new Map(shelf.fields);
  const forty = fields.get('ratio');
  if (forty?.kind === 'number') fields.set('ratio', { ...forty, value: Number(ratio) });
  return { ...shelf, fields };
}

/** Every solution the formula offers, as circle, turns, holes. */
function solutions(divisions: number, head: CardView): number[][] {
  const result = formulaNamed('plain_indexing')?.compute(given({ divisions, head }));
  if (result === undefined || typeof result !== 'object') throw new Error('no answer');
  if (isRefusal(result)) return [];
  const others = String((result as Record<string, unknown>)['others']);
  const move = /(?:(\d+) turns? \+ )?(\d+) holes? on (\d+)/g;
  const rest = [...others.matchAll(move)].map(([, turns = '0', holes, circle]) =>
    [circle, turns, holes].map(Number),
  );
  const { circle, turns, holes } = result as Record<string, number>;
  return [[circle ?? 0, turns ?? 0, holes ?? 0], ...rest];
}

const of = (...formulas: string[]): [string, Check][] =>
  checks
    .filter((check) => formulas.includes(check.formula))
    .map((check) => [`${check.id}: ${check.method}`, check]);

describe('fits', () => {
  it.each(of('E02'))('%s', (_, { inputs, expected }) => {
    const [hole = '', shaft = ''] = String(inputs['fit']).split('/');
    const args = { size: Number(inputs['nominal_mm']), hole, shaft };
    expect(numbers('fit', args, 'clearance_max', 'clearance_min')).toEqual(expected);
  });
});

describe('grades of ISO 286', () => {
  // Annex of ISO 286-1: the formula's result is rounded to whole µm up to 100, and to 5 µm from there to 200.
  it.each(of('E03'))('%s', (_, { inputs, expected }) => {
    const [over = 0, upto = 0] = inputs['step'] as number[];
    const width = -evaluated(`iso_limits(${(over + upto) / 2} mm, h${String(inputs['grade'])}).lower`, 'um');
    const step = Number(expected) > 100 ? 5 : 1;
    expect(width).toBeCloseTo(Math.round(Number(expected) / step) * step, 9);
  });
});

describe('fractions of the inch', () => {
  it.each(of('H02'))('%s', (_, { inputs, expected, tolerance }) => {
    const wanted = expected as { fraction_in: string; error_mm: number };
    const { fraction, off } = answer('nearest_fraction', { size: Number(inputs['mm']) });
    expect(fraction).toBe(`${wanted.fraction_in} in`);
    expect(Math.abs(Number(off) - wanted.error_mm)).toBeLessThanOrEqual(tolerance);
  });
});

describe('indexing', () => {
  it.each(of('B01'))('%s', (_, { inputs, expected }) => {
    expect(solutions(Number(inputs['N']), headFor(inputs))).toEqual(expected);
  });

  it.each(of('B02'))('%s', (_, { inputs, expected }) => {
    const all = Array.from({ length: 99 }, (_, i) => i + 2);
    expect(all.filter((n) => solutions(n, headFor(inputs)).length === 0)).toEqual(expected);
  });

  it.each(of('B04'))('%s', (_, { inputs, expected }) => {
    const wanted = expected as { train_ratio: string; plate: string; gears_exist: boolean };
    const args = {
      divisions: Number(inputs['N']),
      near_number: Number(inputs['N1']),
      head: SHOP.get('head'),
    };
    const result = formulaNamed('differential_indexing')?.compute(given(args as Arguments));
    if (typeof result !== 'object') throw new Error('no answer');
    expect(isRefusal(result)).toBe(!wanted.gears_exist);
    if (isRefusal(result)) {
      expect(result.refused).toContain(wanted.train_ratio.replace('/', ' to '));
      return;
    }
    const { drivers, driven, plate } = result as Record<string, unknown>;
    const times = (gears: unknown): number => (gears as number[]).reduce((a, b) => a * b, 1);
    const [above = 0, below = 0] = wanted.train_ratio.split('/').map(Number);
    expect(times(drivers) * below).toBe(times(driven) * above);
    expect(plate).toBe(wanted.plate.replace(' crank', ' the crank'));
  });

  it.each(of('B05'))('%s', (_, { inputs, expected }) => {
    const divisions = Number(inputs['N']);
    const fields = ['first_turns', 'first_holes', 'first_circle', 'second_holes', 'second_circle'];
    const args = { divisions, head: headFor(inputs) };
    const [turns = 0, holes = 0, a = 0, second = 0, b = 0] = numbers('compound_indexing', args, ...fields);
    const ratio = Number(inputs['ratio']);
    const same = ([n = 0, circle = 0, m = 0, other = 0]: readonly number[]): boolean =>
      divisions * (n * other + m * circle) === ratio * circle * other;
    expect([
      same([turns * a + holes, a, second, b]),
      same((expected as { example: number[] }).example),
    ]).toEqual([true, true]);
  });

  it.each(of('B03'))('%s', (_, { inputs, expected, tolerance }) => {
    const { best_abs_error_arcsec: best } = expected as { best_abs_error_arcsec: number };
    const [, d = 0, m = 0, s = 0] =
      /^([\d.]+)(?: deg|d)(?:(\d+)m)?(?:(\d+)s)?$/.exec(String(inputs['angle'])) ?? [];
    const angle = Number(d) + Number(m ?? 0) / 60 + Number(s ?? 0) / 3600;
    const head = headFor(inputs);
    const [turns = 0, holes = 0, circle = 0, error = 0] = numbers(
      'angular_indexing',
      { angle, head },
      ...['turns', 'holes', 'circle', 'error'],
    );
    expect(Math.abs(Math.abs(error) * 3600 - best)).toBeLessThanOrEqual(tolerance);
    const turned = ((turns + holes / circle) * 360) / Number(inputs['ratio']);
    expect(turned - angle).toBeCloseTo(error, 9);
  });
});

/** Formulas whose rows are run by tests of their own above. */
const OWN_TESTS = ['B01', 'B02', 'B03', 'B04', 'B05', 'E02', 'E03', 'H02'];

it('runs every row, and all rows are there', () => {
  const run = new Set([...Object.keys(RUN), ...OWN_TESTS]);
  expect(checks.filter((check) => !run.has(check.formula)).map((check) => check.id)).toEqual([]);
  expect(new Set(checks.map(({ id }) => id)).size).toBe(223);
});
