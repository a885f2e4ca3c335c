/** How the inputs of family A's check values, the ball, go into the formulas. */
import { expect } from 'vitest';
import { type Arguments, answer, card, list, number } from './given';

export type Inputs = Readonly<Record<string, number | string | readonly number[]>>;

/** A number of the inputs; 0 where it is not among them. */
export type Read = (key: string) => number;

export type Run = (at: Read, id: string, expected: unknown, inputs: Inputs) => number[];

export const numbers = (name: string, args: Arguments, ...fields: string[]): number[] =>
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
  if (at('s_mm') > 0) return outsideChamfer(at);
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

/** What a step of turning a ball comes to, at an angle from the free end or between two places along the bar. */
function step(at: Read, inputs: Inputs): number[] {
  const args = { ball: 2 * at('R_mm'), ...(at('r_n_mm') > 0 ? { nose_radius: at('r_n_mm') } : {}) };
  const travel_step = at('z_mm') - at('z_prev_mm');
  if (inputs['kind'] !== 'square step')
    return [
      list('ball_steps_by_angle', { ...args, angle_step: at('dt_deg') }, 'cusps')[(at('k') || 1) - 1] ?? NaN,
    ];
  const index = Math.round(at('z_mm') / travel_step);
  return [list('ball_steps_by_travel', { ...args, travel_step }, 'cusps')[index - 1] ?? NaN];
}

/** Where a round nose stands at an angle, reached in steps fine enough for it. */
function place(at: Read): number[] {
  const args = { ball: at('D_mm'), angle_step: 5, nose_radius: at('r_n_mm') };
  const index = at('angle_from_pole_deg') / 5 - 1;
  const [travels, dials] = ['travels', 'dials'].map(
    (field) => list('ball_steps_by_angle', args, field)[index],
  );
  return [travels ?? NaN, (dials ?? NaN) / 2];
}

/** First touch of a ring through free end and neck. */
function touch(at: Read): number[] {
  const { ball, blank } = { ball: at('D_mm'), blank: at('blank_dia_mm') };
  const [tilt = 0, ring = 0] = numbers('ball_on_shank', { ball, neck: at('d_mm') }, 'tilt', 'ring');
  const args = { ball, ring, tilt, blank, end_to_centre: at('end_from_centre_mm') };
  return numbers('first_touch', args, 'height');
}

/** Volume of a ball outside a chamfer: nothing, as long as the chamfer runs clear of it. */
function outsideChamfer(at: Read): number[] {
  const [ball, allowance] = [at('D_mm'), at('s_mm')];
  const [blank, end_to_centre] = [ball + 2 * allowance, ball / 2 + allowance];
  const leg = number('corner_chamfer', { ball, blank, end_to_centre, allowance });
  const cap = Math.max(0, ball / 2 - (end_to_centre + blank / 2 - leg) / Math.SQRT2);
  return [(Math.PI * cap ** 2 * (1.5 * ball - cap)) / 3];
}

/** Over-reach or shortfall: the independent set-up put through the diagnosis must give ball, neck and foot back. */
function reach(at: Read, _: string, expected: unknown): number[] {
  const [tilt = 0, ring = 0, height = 0] = expected as number[];
  const [ball = 0, neck = 0, base = 0] = setUp(ring, height, tilt, at('d_mm'), 'ball', 'neck', 'pip_base');
  expect(Math.abs(ball - at('D_mm'))).toBeLessThan(1e-6);
  expect(Math.abs(neck - at('d_mm'))).toBeLessThan(1e-6);
  expect(Math.abs(base - 2 * Math.abs(at('w_mm')))).toBeLessThan(1e-6);
  return numbers(
    'ball_over_reach',
    { ball: at('D_mm'), neck: at('d_mm'), over_reach: at('w_mm') },
    ...TILT_RING_HEIGHT,
  );
}

const TILT_RING_HEIGHT = ['tilt', 'ring', 'height'];

export const BALL_RUN: Readonly<Record<string, Run>> = {
  A01: (at) => numbers('ball_on_shank', { ball: at('D_mm'), neck: at('d_mm') }, ...TILT_RING_HEIGHT),
  A02: reach,
  A03: (at) =>
    numbers(
      'ball_between_necks',
      { ball: at('D_mm'), neck_free_side: at('d1_mm'), neck_head_side: at('d2_mm') },
      ...TILT_RING_HEIGHT,
    ),
  A04: (at) => {
    if (at('s_from_centre_mm') > 0) {
      const [ring, height] = [at('d_t_mm'), heightOf(at('D_mm'), at('d_t_mm'))];
      const args = { ring, height, tilt: at('a_deg'), from_centre: at('s_from_centre_mm') };
      return [number('end_left_at', args) / 2];
    }
    return setUp(
      at('d_t_mm'),
      heightOf(at('D_mm'), at('d_t_mm')),
      at('a_deg'),
      5,
      ...['neck', 'pip_base', 'pip_height'],
    );
  },
  A05: (at) => numbers('ball_from_ring', { ring: at('d_t_mm'), height: at('h_mm') }, ''),
  A06: (at, _, __, { D_list_mm: balls }) => {
    if (Array.isArray(balls)) return (balls as number[]).map((ball) => heightOf(ball, at('d_t_mm')));
    return at('blank_dia_mm') > 0
      ? touch(at)
      : numbers(
          'knee_raise',
          { measured_ball: at('D_measured_mm'), wanted_ball: at('D_target_mm'), ring: at('d_t_mm') },
          '',
        );
  },
  A07: (at, _, expected) => {
    sensitivities(at).forEach((each, i) => expect(each).toBeCloseTo((expected as number[])[i] ?? NaN, 2));
    const args = { ball: at('D_mm'), neck: at('d_mm') };
    return numbers('ball_sensitivity', args, 'ball_by_raise', 'ball_by_ring', 'end_by_tilt', 'end_by_ring');
  },
  A08: (at) =>
    numbers('roundness_from_offset', { ball: at('D_mm'), neck: at('d_mm'), offset: at('e_mm') }, ''),
  A09: (at) => {
    const [tilt = 0, height = 0] = numbers(
      'ball_on_shank',
      { ball: at('D_mm'), neck: at('d_mm') },
      'tilt',
      'height',
    );
    const args = { height, tilt, behind_centre: at('x_mm'), body: at('body_dia_mm') };
    return numbers('clearance_under_ring', args, 'clearance');
  },
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
  A12: (at) => {
    const args = { ball: 2 * at('R_mm'), allowance: at('s_mm'), chamfers: at('n_chamfers') };
    return numbers('chamfer_steps', args, 'stock');
  },
  A13: (at) =>
    numbers(
      'ball_stock',
      { ball: at('D_mm'), neck: at('d_mm'), blank: at('blank_dia_mm'), extra: at('f_mm') },
      ...['volume', 'removed', 'neck_to_end'],
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
  A15: (at) =>
    numbers('ball_seat', { ball: at('D_mm'), mouth: at('mouth_mm') }, ...['tilt', 'ring', 'height', 'depth']),
  A16: place,
  A17: (at, _, __, inputs) => step(at, inputs),
  A18: (at) => {
    const head = card('head', { ratio: at('ratio') });
    const speeds = { spindle_speed: at('n_cutter_rpm'), crank_speed: at('crank_rpm') };
    return numbers('ball_work_feed', { ball: at('D_mm'), tilt: 12, ...speeds, head }, 'feed');
  },
  A19: (at) => {
    const args = { ball: at('D_mm'), neck: at('d_mm'), fillet: at('fillet_mm') };
    const [tilt = 0, ring = 0, height = 0] = numbers('ball_on_shank', args, ...TILT_RING_HEIGHT);
    return [...setUp(ring, height, tilt, at('d_mm'), 'neck'), tilt];
  },
  A21: (at) => setUp(at('d_t_mm'), (at('d_t_mm') / 2) * tan(at('a_deg')), at('a_deg'), 9.525, 'ball'),
  A22: solid,
  B06: (at) => numbers('division_chord', { diameter: at('dia_mm'), divisions: at('N') }, ''),
};
