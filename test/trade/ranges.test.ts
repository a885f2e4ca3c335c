/** Where a formula stops to hold: each condition is broken once, just missed once, and says what to change to what. */
import { describe, expect, it } from 'vitest';
import { formulaNamed } from '../../src/trade';
import { isRefusal } from '../../src/trade/formula';
import { type Arguments, answer, broken, callOf, card, given, number, SHOP } from './given';

function says(call: string, severity: 'error' | 'warning' = 'error'): string[] {
  const { formula, args } = callOf(call);
  return broken(formula, args, severity);
}

describe('errors', () => {
  it.each([
    [
      'ball_on_shank(0 mm, 12 mm)',
      'ball_on_shank(12.1 mm, 12 mm)',
      '`ball` is 0 mm: give one of more than zero.',
    ],
    ['ball_on_shank(30 mm, 30 mm)', 'ball_on_shank(30 mm, 29.9 mm)', 'give a neck below 30 mm'],
    [
      'ball_on_shank(30 mm, 12 mm, fillet: -1 mm)',
      'ball_on_shank(30 mm, 12 mm, fillet: 0 mm)',
      'give zero or more',
    ],
    [
      'ball_on_shank(30 mm, 29 mm, nose_radius: 57.2820 mm)',
      'ball_on_shank(30 mm, 29 mm, nose_radius: 57.2800 mm)',
      'closes the ring',
    ],
    ['ball_between_necks(30 mm, 30 mm, 12 mm)', 'ball_between_necks(30 mm, 29.9 mm, 12 mm)', 'below 30 mm'],
    [
      'ball_between_necks(30 mm, 8 mm, 31 mm)',
      'ball_between_necks(30 mm, 8 mm, 29 mm)',
      '`neck_head_side` below',
    ],
    [
      'ball_between_necks(30 mm, 0 mm, 0 mm)',
      'ball_between_necks(30 mm, 0.0005 mm, 0 mm)',
      'Without any neck',
    ],
    ['ball_from_ring(24 mm, -0.1 mm)', 'ball_from_ring(24 mm, 0 mm)', 'give a height of 0 mm or more'],
    [
      'ball_from_ring(24 mm, -0.5 mm, nose_radius: 0.4 mm)',
      'ball_from_ring(24 mm, -0.4 mm, nose_radius: 0.4 mm)',
      'give a height of -0.4 mm or more',
    ],
    ['ball_height(24 mm, 24.1 mm)', 'ball_height(24 mm, 24 mm)', 'for 24 mm set a ring below that'],
    [
      'knee_raise(24 mm, 23 mm, 24.1 mm)',
      'knee_raise(24.2 mm, 24.1 mm, 24.1 mm)',
      'no ball smaller than itself',
    ],
    [
      'ball_setup_result(22 mm, 1 mm, 0°, 9 mm)',
      'ball_setup_result(22 mm, 0 mm, 0.0005°, 1 mm)',
      'between 0° and 90°',
    ],
    [
      'ball_setup_result(22 mm, 0 mm, 90°, 9 mm)',
      'ball_setup_result(22 mm, 0 mm, 89.99°, 9 mm)',
      'between 0° and 90°',
    ],
    [
      'ball_setup_result(10 mm, 5 mm, 45.01°, 1 mm)',
      'ball_setup_result(10 mm, 5 mm, 44.99°, 1 mm)',
      'below 45°',
    ],
    [
      'ball_setup_result(24 mm, 5 mm, 10°, 26 mm)',
      'ball_setup_result(24 mm, 5 mm, 10°, 25.9 mm)',
      'below 26 mm',
    ],
    [
      'ball_setup_result(24 mm, -1 mm, 10°, 9 mm)',
      'ball_setup_result(24 mm, 0 mm, 10°, 9 mm)',
      'give zero or more',
    ],
    [
      'corner_chamfer(22 mm, 21.9 mm, 11 mm, 0 mm)',
      'corner_chamfer(22 mm, 22 mm, 11 mm, 0 mm)',
      'at least 22 mm',
    ],
    [
      'corner_chamfer(22 mm, 22 mm, 10.995 mm, 0 mm)',
      'corner_chamfer(22 mm, 22 mm, 11 mm, 0 mm)',
      'ends 11 mm from',
    ],
    [
      'corner_chamfer(22 mm, 22 mm, 11 mm, 4.5564 mm)',
      'corner_chamfer(22 mm, 22 mm, 11 mm, 4.556 mm)',
      'within 4.556 mm',
    ],
    [
      'corner_chamfer(22 mm, 22 mm, 15.6 mm, 0 mm)',
      'corner_chamfer(22 mm, 22 mm, 15.55 mm, 0 mm)',
      'A leg of 11.044 mm',
    ],
    [
      'corner_chamfer(22 mm, 31.2 mm, 11 mm, 0 mm)',
      'corner_chamfer(22 mm, 31.11 mm, 11 mm, 0 mm)',
      'A leg of 11.044 mm',
    ],
    [
      'roundness_from_offset(30 mm, 30 mm, 0 mm)',
      'roundness_from_offset(30 mm, 29 mm, 0 mm)',
      "ball's 30 mm",
    ],
    [
      'roundness_from_offset(30 mm, 12 mm, -14.7 mm)',
      'roundness_from_offset(30 mm, 12 mm, -14.68 mm)',
      'bring them within 14.684 mm',
    ],
    ['sine_rise(90.01°, 10 mm)', 'sine_rise(-90°, 10 mm)', 'at most 90°'],
    ['indicator_rise(90°, 10 mm)', 'indicator_rise(-89.9°, 10 mm)', 'below 90°'],
    ['arc_length(0 mm, 10°)', 'arc_length(0.0005 mm, -10°)', '`radius` is 0 mm'],
    ['spindle_speed(0 m/min, 10 mm)', 'spindle_speed(0.1 m/min, 10 mm)', '`cutting_speed` is 0 m/min'],
    [
      'theoretical_roughness(1.6 mm/rev, 0.8 mm)',
      'theoretical_roughness(1.5 mm/rev, 0.8 mm)',
      'below 1.6 mm/rev',
    ],
    ['fit(0 mm, H7, g6)', 'fit(1 mm, H7, g6)', '`size` is 0 mm'],
  ])('%s, but not %s', (call, near, words) => {
    expect(says(call).join(' ')).toContain(words);
    expect(says(near)).toEqual([]);
  });

  it('are raised for every length, speed and feed that must be more than zero', () => {
    const must = ['ball_height', 'knee_raise', 'feed_rate', 'table_feed', 'cutting_time', 'cutting_speed'];
    for (const name of [
      ...must,
      'shaft_power',
      'shaft_torque',
      'speed_step',
      'sine_rise',
      'indicator_rise',
    ]) {
      const formula = formulaNamed(name);
      const check = formula?.checks[0];
      if (!formula || !check) throw new Error(`no ${name}`);
      const { args } = callOf(check.call);
      for (const { name: parameter, kind, unit } of formula.parameters) {
        if (kind !== 'quantity' || unit === '°' || parameter === 'nose_radius') continue;
        const zero = broken(formula, { ...args, [parameter]: 0 });
        expect(zero[0], `${name} ${parameter}`).toBe(
          `\`${parameter}\` is 0 ${unit}: give one of more than zero.`,
        );
      }
    }
  });
});

describe('warnings', () => {
  it.each([
    ['knee_raise(21.9 mm, 22 mm, 21 mm)', 'knee_raise(22 mm, 22 mm, 21 mm)', '0.1 mm under size already'],
    ['speed_step(44 rpm, lathe)', 'speed_step(45 rpm, lathe)', 'turns no slower than 45 rpm'],
    ['speed_step(59 rpm, mill)', 'speed_step(60 rpm, mill)', 'turns no slower than 60 rpm'],
    ['speed_step(4201 rpm, mill)', 'speed_step(4200 rpm, mill)', 'turns no faster than 4200 rpm'],
    [
      'ball_on_shank(30 mm, 12 mm, nose_radius: 0.4 mm)',
      'ball_on_shank(30 mm, 12 mm, fillet: 0.4 mm, nose_radius: 0.4 mm)',
      'Give `fillet: 0.4 mm` or more.',
    ],
  ])('%s, but not %s', (call, near, words) => {
    expect(says(call, 'warning').join(' ')).toContain(words);
    expect(says(near, 'warning')).toEqual([]);
    expect(says(call)).toEqual([]);
  });
});

function raise(): never {
  throw new Error('no formula');
}

const step = (spindle_speed: number, fields: Parameters<typeof card>[1]): number =>
  number('speed_step', { spindle_speed, machine: card('lathe', fields) });

describe('speed_step', () => {
  const lathe = { speeds: [300, 115, 190] };

  it('takes the step at or below, the slowest below all', () => {
    expect([10, 115, 189.9, 190, 250, 300, 2000].map((n) => step(n, lathe))).toEqual([
      115, 115, 115, 190, 190, 300, 300,
    ]);
  });

  it('counts a speed short of a step by rounding alone as the step', () => {
    expect(step(190 * (1 - 0.9995e-9), lathe)).toBe(190);
    expect(step(190 * (1 - 1.0005e-9), lathe)).toBe(115);
    expect(says(`speed_step(${45 * (1 - 0.9995e-9)} rpm, lathe)`, 'warning')).toEqual([]);
    expect(says(`speed_step(${45 * (1 - 1.0005e-9)} rpm, lathe)`, 'warning')).toHaveLength(1);
    expect(says(`speed_step(${4200 * (1 + 0.9995e-9)} rpm, mill)`, 'warning')).toEqual([]);
    expect(says(`speed_step(${4200 * (1 + 1.0005e-9)} rpm, mill)`, 'warning')).toHaveLength(1);
  });

  it('keeps a variable drive within its ends, either of which may be open', () => {
    expect([50, 60, 254.5, 4200, 5000].map((n) => step(n, { min_speed: 60, max_speed: 4200 }))).toEqual([
      60, 60, 254.5, 4200, 4200,
    ]);
    expect([10, 90].map((n) => step(n, { min_speed: 60 }))).toEqual([60, 90]);
    expect([0.0005, 5000].map((n) => step(n, { max_speed: 4200 }))).toEqual([0.0005, 4200]);
    expect(step(250, { ...lathe, min_speed: 60, max_speed: 4200 })).toBe(190);
  });

  it.each([{}, { speeds: [] }, { ratio: 40 }])('refuses a card without speeds: %j', (fields) => {
    const args = { spindle_speed: 0.0005, machine: card('saw', fields) };
    expect(broken(formulaNamed('speed_step') ?? raise(), args, 'warning')).toEqual([]);
    const result = formulaNamed('speed_step')?.compute(given(args));
    if (typeof result !== 'object' || !isRefusal(result)) throw new Error('answered');
    expect(result.parameter).toBe('machine');
    expect(result.refused).toContain('`saw` gives no spindle speeds');
    expect(formulaNamed('speed_step')?.working(given(args))).toEqual([]);
  });

  it('shows its working with what the machine has', () => {
    const working = (fields: Parameters<typeof card>[1]): string =>
      formulaNamed('speed_step')
        ?.working(given({ spindle_speed: 100, machine: card('m', fields) }))
        .map((s) => `${s.expression} (${s.words})`)
        .join() ?? '';
    expect(working(lathe)).toBe('115 rpm (the next at or below, of 115, 190, 300 rpm)');
    expect(working({ min_speed: 60, max_speed: 90 })).toContain('min(max(spindle_speed, 60 rpm), 90 rpm)');
    expect(working({ min_speed: 60 })).toContain('max(spindle_speed, 60 rpm) (');
  });
});

describe('fit', () => {
  const refused = (args: Arguments) => {
    const result = formulaNamed('fit')?.compute(given(args));
    if (typeof result !== 'object' || !isRefusal(result)) throw new Error('answered');
    expect(formulaNamed('fit')?.working(given(args))).toEqual([]);
    return result;
  };

  it('refuses a hole in the place of a shaft, and offers the other letter', () => {
    expect(refused({ size: 25, hole: 'g6', shaft: 'H7' })).toMatchObject({
      parameter: 'hole',
      offers: ['G6'],
    });
    expect(refused({ size: 25, hole: 'H7', shaft: 'H6' })).toMatchObject({
      parameter: 'shaft',
      offers: ['h6'],
    });
  });

  it('hands on why the table has no limits', () => {
    expect(refused({ size: 25, hole: 'H7', shaft: 'y6' })).toMatchObject({
      parameter: 'shaft',
      code: 'iso-letter-unknown',
    });
    expect(refused({ size: 900, hole: 'H7', shaft: 'g6' })).toMatchObject({
      parameter: 'hole',
      code: 'iso-size-out-of-range',
    });
  });

  it('calls a fit by its sign at both ends', () => {
    const kind = (hole: string, shaft: string): unknown => answer('fit', { size: 25, hole, shaft })['kind'];
    expect(kind('H7', 'g6')).toBe('clearance fit');
    expect(kind('H7', 'h6')).toBe('clearance fit');
    expect(kind('H7', 'n6')).toBe('transition fit');
    expect(kind('H7', 's6')).toBe('interference fit');
    // Line to line at the loosest: interference by the definition of ISO 286-1.
    const line = answer('fit', { size: 16, hole: 'H7', shaft: 'p6' });
    expect(line).toMatchObject({ clearance_max: 0, kind: 'interference fit' });
  });
});

describe('the verdict', () => {
  const verdict = (ring: number, height: number, tilt: number, shank: number): string =>
    String(answer('ball_setup_result', { ring, height, tilt, shank })['verdict']);

  it('on a ring too large for the tilt: groove, cone, and what would be right', () => {
    expect(verdict(22, 0, 15.5, 9.525)).toBe(
      'The ring is too large by 0.8 mm: it runs past the neck and cuts a groove 1.823 mm deep into the shank, down to ' +
        '5.879 mm. The ring passes round the free end and leaves a low cone, 5.879 mm across its foot and 0.415 mm ' +
        'high; reaching further only makes it larger. As set, this ring cleans the end of a ball of 22.83 mm. Right ' +
        'for a ball of 22 mm on this shank: tilt 12.828°, ring 21.451 mm, height 2.442 mm. At the tilt given: ring ' +
        '21.2 mm, height 2.94 mm, which leaves a neck of 11.331 mm.',
    );
  });

  it('on a tilt too small for the shank', () => {
    const text = verdict(22 * Math.cos(Math.PI / 18), 11 * Math.sin(Math.PI / 18), 10, 9.525);
    expect(text).toContain(
      'The tilt is too small for this shank: the ring runs past the neck and cuts a groove 1 mm deep',
    );
    expect(text).toContain('The free end comes clean.');
    expect(text).toContain('tilt 12.828°, ring 21.451 mm, height 2.442 mm.');
    expect(text).not.toContain('At the tilt given');
  });

  it('blames ring or tilt by the neck that a ring through the end would leave', () => {
    // 24 mm ball, ring nearly as large: the groove is there either way.
    const blame = (clean: number): string =>
      verdict(23.9, Math.sqrt(24 ** 2 - 23.9 ** 2) / 2, turned(clean), 10);
    const turned = (clean: number): number => (Math.asin(clean / 24) / 2 / Math.PI) * 180;
    expect(blame(9.995)).toContain('The tilt is too small');
    expect(blame(10.005)).toContain('The ring is too large');
    expect(blame(10.009)).not.toContain('At the tilt given');
    expect(blame(10.011)).toContain('At the tilt given');
  });

  it('on a ring short of the end: a tall pip', () => {
    expect(verdict(24.2, 3.13687743, 14, 10)).toBe(
      'The neck stays at 11.942 mm, 0.971 mm a side over the shank: right for a fillet of 1.859 mm, else a collar is ' +
        'left. The ring falls short of the free end and leaves a sharp pip, 0.233 mm across its foot and 0.466 mm ' +
        'tall. As set, this ring cleans the end of a ball of 24.941 mm. Right for a ball of 25 mm on this shank: tilt ' +
        '11.789°, ring 24.473 mm, height 2.554 mm. At the tilt given: ring 24.257 mm, height 3.024 mm, which leaves a ' +
        'neck of 11.737 mm.',
    );
  });

  it('on a set-up without a fault is short', () => {
    expect(verdict(24.4726578233, 2.55387054612, 11.7890892391, 10)).toBe(
      'The neck comes to the shank. The free end comes clean.',
    );
  });

  it('says that a fillet explains a wider neck', () => {
    const s = answer('ball_on_shank', { ball: 30, neck: 12, fillet: 2 }) as Record<string, number>;
    expect(verdict(s['ring'] ?? 0, s['height'] ?? 0, s['tilt'] ?? 0, 12)).toBe(
      'The neck stays at 14.118 mm, 1.059 mm a side over the shank: right for a fillet of 2 mm, else a collar is ' +
        'left. The free end comes clean.',
    );
  });

  it('passes over what is below a hundredth of a millimetre', () => {
    // Ring through the end of a 25 mm ball at its right tilt; only the shank differs.
    const neck = (shank: number): string => verdict(24.4726578233, 2.55387054612, 11.7890892391, shank);
    expect(neck(10.01999)).toContain('comes to the shank');
    expect(neck(10.02001)).toContain('groove 0.01 mm deep');
    expect(neck(9.98001)).toContain('comes to the shank');
    expect(neck(9.97999)).toContain('0.01 mm a side over');
    // A ring too large by x leaves a cone x / (2 cos tilt) high.
    const cone = (x: number): string =>
      verdict(24.4726578233 + x, Math.sqrt(625 - (24.4726578233 + x) ** 2) / 2, 11.7890892391, 9.9);
    const most = 0.02 * Math.cos((11.7890892391 / 180) * Math.PI);
    expect(cone(most * 0.9996)).toContain('comes clean');
    expect(cone(most * 1.0004)).toContain('low cone');
  });
});

it('writes figures in sentences to a thousandth', () => {
  const one = SHOP.get('lathe');
  expect(one?.name).toBe('lathe');
  expect(says('theoretical_roughness(3.99961 mm/rev, 0.8 mm)')[0]).toContain('feed of 4 mm/rev the');
  expect(says('theoretical_roughness(3.99941 mm/rev, 0.8 mm)')[0]).toContain('feed of 3.999 mm/rev the');
});
