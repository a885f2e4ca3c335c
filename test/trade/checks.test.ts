/** The check values that were worked out independently of the project, against the formulas. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { CardView } from '../../src/quantity/value';
import { formulaNamed } from '../../src/trade';
import { isRefusal } from '../../src/trade/formula';
import { type Arguments, answer, card, given, materialCard, number, SHOP } from './given';

type Inputs = Readonly<Record<string, number | string | readonly number[]>>;

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

/** A number of the inputs; 0 where it is not among them. */
type Read = (key: string) => number;

const numbers = (name: string, args: Arguments, ...fields: string[]): number[] =>
  fields.map((field) => number(name, args, field));

/** What the diagnosis says of a set-up. */
const setUp = (ring: number, height: number, tilt: number, shank: number, ...fields: string[]): number[] =>
  numbers('ball_setup_result', { ring, height, tilt, shank }, ...fields);

const tan = (degrees: number): number => Math.tan((degrees / 180) * Math.PI);
const heightOf = (ball: number, ring: number): number => number('ball_height', { ball, ring });

/** Change of `f` for each unit of `x`, by central difference. */
function slope(f: (x: number) => number, x: number, step = 1e-4): number {
  return (f(x + step) - f(x - step)) / (2 * step);
}

function sensitivities(at: Read): number[] {
  const ball = at('D_mm');
  const {
    tilt = 0,
    ring = 0,
    height = 0,
  } = answer('ball_on_shank', { ball, neck: at('d_mm') }) as Record<string, number>;
  const base = (r: number, a: number): number =>
    setUp(r, heightOf(ball, r), a, at('d_mm'), 'pip_base')[0] ?? 0;
  const step = 1e-4;
  return [
    slope((h) => number('ball_from_ring', { ring, height: h }), height),
    slope((r) => number('ball_from_ring', { ring: r, height }), ring),
    // The foot grows either way from nothing, so its slope is the mean of both sides.
    (base(ring, tilt - step) + base(ring, tilt + step)) / (2 * step),
    (base(ring - step, tilt) + base(ring + step, tilt)) / (2 * step),
  ];
}

const SOLIDS: Readonly<Record<string, () => number[]>> = {
  'A22.06': () => setUp(22, 0, 15.5, 9.525, 'ball'),
  'A22.07': () => [11 + (setUp(22, 0, 15.5, 9.525, 'pip_height')[0] ?? 0)],
  'A22.09': () => setUp(22, 11 * tan(15.5), 15.5, 9.525, 'ball'),
  'A22.11': () => setUp(22.5, 0, 15.5, 9.525, 'ball'),
  'A22.13': () => numbers('ball_from_ring', { ring: 22 / Math.hypot(1, tan(15.5)), height: 2.939622564 }, ''),
};

function solid(at: Read, id: string): number[] {
  const known = SOLIDS[id];
  if (known) return known();
  const ball = at('D_mm');
  if (at('d1_mm') > 0) {
    const args = { ball, neck_free_side: at('d1_mm'), neck_head_side: at('d2_mm') };
    const [ring = 0, height = 0] = numbers('ball_between_necks', args, 'ring', 'height');
    return numbers('ball_from_ring', { ring, height }, '');
  }
  const [proud = 0] = setUp(at('d_t_mm'), heightOf(ball, at('d_t_mm')), at('a_deg'), 9.525, 'pip_height');
  return [ball / 2 + proud];
}

/** Over-reach or shortfall: the independent set-up put through the diagnosis must give ball, neck and foot back. */
function reach(at: Read, _: string, expected: unknown): number[] {
  const [tilt = 0, ring = 0, height = 0] = expected as number[];
  const [ball = 0, neck = 0, base = 0] = setUp(ring, height, tilt, at('d_mm'), 'ball', 'neck', 'pip_base');
  expect(Math.abs(ball - at('D_mm'))).toBeLessThan(1e-6);
  expect(Math.abs(neck - at('d_mm'))).toBeLessThan(1e-6);
  expect(Math.abs(base - 2 * Math.abs(at('w_mm')))).toBeLessThan(1e-6);
  return [tilt, ring, height];
}

/** A card for starts, whose speed has no part in the feed. */
const STEEL = materialCard('steel', { hss_speed: [22, 'm/min'] });

const TILT_RING_HEIGHT = ['tilt', 'ring', 'height'];

/** How each family's inputs go into the formulas. */
const RUN: Readonly<Record<string, (at: Read, id: string, expected: unknown, inputs: Inputs) => number[]>> = {
  A01: (at) => numbers('ball_on_shank', { ball: at('D_mm'), neck: at('d_mm') }, ...TILT_RING_HEIGHT),
  A02: reach,
  A03: (at) =>
    numbers(
      'ball_between_necks',
      { ball: at('D_mm'), neck_free_side: at('d1_mm'), neck_head_side: at('d2_mm') },
      ...TILT_RING_HEIGHT,
    ),
  A04: (at) =>
    setUp(
      at('d_t_mm'),
      heightOf(at('D_mm'), at('d_t_mm')),
      at('a_deg'),
      5,
      ...['neck', 'pip_base', 'pip_height'],
    ),
  A05: (at) => numbers('ball_from_ring', { ring: at('d_t_mm'), height: at('h_mm') }, ''),
  A06: (at, _, __, { D_list_mm: list }) =>
    Array.isArray(list)
      ? (list as number[]).map((ball) => heightOf(ball, at('d_t_mm')))
      : numbers(
          'knee_raise',
          { measured_ball: at('D_measured_mm'), wanted_ball: at('D_target_mm'), ring: at('d_t_mm') },
          '',
        ),
  A07: sensitivities,
  A08: (at) =>
    numbers('roundness_from_offset', { ball: at('D_mm'), neck: at('d_mm'), offset: at('e_mm') }, ''),
  A10: (at) => [
    number('sine_rise', { tilt: at('a_deg'), length: at('L_mm') }),
    number('indicator_rise', { tilt: at('a_deg'), table_travel: at('L_mm') }),
  ],
  A11: (at) =>
    numbers(
      'corner_chamfer',
      { ball: at('D_mm'), blank: at('blank_dia_mm'), end_to_centre: at('end_mm'), allowance: at('s_mm') },
      '',
    ),
  A14: (at) =>
    at('D_mm') > 0
      ? numbers(
          'ball_on_shank',
          { ball: at('D_mm'), neck: at('d_mm'), nose_radius: at('r_n_mm') },
          'ring',
          'height',
        )
      : numbers(
          'ball_from_ring',
          { ring: at('d_t_mm'), height: at('h_low_mm'), nose_radius: at('r_n_mm') },
          '',
        ),
  A19: (at) => {
    const args = { ball: at('D_mm'), neck: at('d_mm'), fillet: at('fillet_mm') };
    const [tilt = 0, ring = 0, height = 0] = numbers('ball_on_shank', args, ...TILT_RING_HEIGHT);
    return [...setUp(ring, height, tilt, at('d_mm'), 'neck'), tilt];
  },
  A21: (at) => setUp(at('d_t_mm'), (at('d_t_mm') / 2) * tan(at('a_deg')), at('a_deg'), 9.525, 'ball'),
  A22: solid,
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

describe('indexing', () => {
  it.each(of('B01'))('%s', (_, { inputs, expected }) => {
    expect(solutions(Number(inputs['N']), headFor(inputs))).toEqual(expected);
  });

  it.each(of('B02'))('%s', (_, { inputs, expected }) => {
    const all = Array.from({ length: 99 }, (_, i) => i + 2);
    expect(all.filter((n) => solutions(n, headFor(inputs)).length === 0)).toEqual(expected);
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

it('leaves no copied check out', () => {
  const run = new Set([...Object.keys(RUN), 'B01', 'B02', 'B03', 'E02']);
  expect(checks.filter((check) => !run.has(check.formula)).map((check) => check.id)).toEqual([]);
  expect(checks.length).toBeGreaterThan(75);
});
