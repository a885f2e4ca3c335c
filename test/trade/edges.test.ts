/** Bounds of the formulas to the thousandth part, and exactly on the bound where a double can stand there. */
import { describe, expect, it } from 'vitest';
import { LENGTH, NUMBER } from '../../src/quantity/dimension';
import { MM } from '../../src/quantity/units';
import { ONE } from '../../src/quantity/unit';
import type { CardView, Quantity } from '../../src/quantity/value';
import { allFormulas, formulaNamed } from '../../src/trade';
import { optional, positive, shown, quantity } from '../../src/trade/build';
import { isRefusal } from '../../src/trade/formula';
import { type Arguments, answer, broken, callOf, card, given, list, number, SHOP } from './given';

function says(call: string, severity: 'error' | 'warning' = 'error'): string[] {
  const { formula, args } = callOf(call);
  return broken(formula, args, severity);
}

function saysOf(name: string, args: Arguments, severity: 'error' | 'warning' = 'error'): string[] {
  const formula = formulaNamed(name);
  return formula ? broken(formula, args, severity) : expect.fail(name);
}

const rad = (degrees: number): number => (degrees * Math.PI) / 180;

describe('errors', () => {
  it.each(
    [
      [
        'clearance_under_ring(3 mm, 90°, 40 mm, 20 mm)',
        'clearance_under_ring(3 mm, 89.99°, 40 mm, 20 mm)',
        'between 0° and 90°',
      ],
      [
        'clearance_under_ring(3 mm, 90.05°, 40 mm, 20 mm)',
        'clearance_under_ring(3 mm, 1°, 40 mm, 20 mm)',
        'At 90.05°',
      ],
      [
        'end_left_at(22 mm, 0 mm, 90°, 12 mm)',
        'end_left_at(22 mm, 0 mm, 89.99°, 12 mm)',
        'between 0° and 90°',
      ],
      ['end_left_at(22 mm, 0 mm, 90.05°, 12 mm)', 'end_left_at(22 mm, 0 mm, 1°, 12 mm)', 'At 90.05°'],
      // Rotated by hand: 12 mm * 0.8 along the bar, and 5 mm * 0.6 more up its slope.
      [
        'end_left_at(24 mm, 5 mm, 36.8698976°, 12.599 mm)',
        'end_left_at(24 mm, 5 mm, 36.8698976°, 12.601 mm)',
        'Within 12.6 mm',
      ],
      [
        'hollow_depth(15 mm, 12°, 30 mm, 30 mm, 15 mm)',
        'hollow_depth(14.99 mm, 12°, 30 mm, 30 mm, 15 mm)',
        'below 15 mm',
      ],
      [
        'hollow_depth(3 mm, 12°, 30 mm, 30 mm, 14 mm, chamfer: 14 mm)',
        'hollow_depth(3 mm, 12°, 30 mm, 30 mm, 14 mm, chamfer: 13.99 mm)',
        'chamfer below 14 mm',
      ],
      [
        'hollow_depth(3 mm, 12°, 30 mm, 28 mm, 16 mm, chamfer: 14 mm)',
        'hollow_depth(3 mm, 12°, 30 mm, 28 mm, 16 mm, chamfer: 13.99 mm)',
        'chamfer below 14 mm',
      ],
      [
        'explain_tilt(22 mm, 9.525 mm, 0°, 22 mm)',
        'explain_tilt(22 mm, 9.525 mm, 0.0005°, 22 mm)',
        'between 0° and 45°',
      ],
      [
        'explain_tilt(22 mm, 9.525 mm, -1°, 22 mm)',
        'explain_tilt(22 mm, 9.525 mm, 44.99°, 22 mm)',
        'between 0° and 45°',
      ],
      [
        'ball_work_feed(22 mm, 45.04°, 600 rpm, 20 rev/min, head)',
        'ball_work_feed(22 mm, 0°, 600 rpm, 20 rev/min, head)',
        'from 0° to 45°',
      ],
      [
        'ball_work_feed(22 mm, -0.01°, 600 rpm, 20 rev/min, head)',
        'ball_work_feed(22 mm, 45°, 600 rpm, 20 rev/min, head, nose_radius: 0.0005 mm)',
        'from 0° to 45°',
      ],
      [
        'ball_centre_from_end(15 mm, 45.04°, 30 mm, 6 mm)',
        'ball_centre_from_end(15 mm, 0°, 30 mm, 6 mm)',
        'from 0° to 45°',
      ],
      [
        'ball_centre_from_end(15 mm, -0.01°, 30 mm, 6 mm)',
        'ball_centre_from_end(15 mm, 45°, 30 mm, 6 mm)',
        'from 0° to 45°',
      ],
      [
        'ball_centre_from_end(15 mm, 12°, 30 mm, 6 mm, chamfer: 15 mm)',
        'ball_centre_from_end(15 mm, 12°, 30 mm, 6 mm, chamfer: 14.99 mm)',
        'half of the blank, 15 mm',
      ],
      ['ball_steps_by_angle(22 mm, 45.04°)', 'ball_steps_by_angle(22 mm, 45°)', 'Steps of 45.04°'],
      ['ball_steps_by_angle(22 mm, 0.4996°)', 'ball_steps_by_angle(22 mm, 0.5°)', 'from 0.5° to 45°'],
      [
        'ball_steps_by_travel(22 mm, 7.01 mm, nose_radius: 3 mm)',
        'ball_steps_by_travel(22 mm, 5.5 mm)',
        'and 7 mm',
      ],
      [
        'ball_steps_by_travel(22 mm, 0.07 mm, nose_radius: 3 mm)',
        'ball_steps_by_travel(22 mm, 0.078 mm, nose_radius: 3 mm)',
        'between 0.078 mm',
      ],
      [
        'first_touch(30 mm, 29 mm, 10°, 32 mm, 14 mm, chamfer: 14 mm)',
        'first_touch(30 mm, 29 mm, 10°, 32 mm, 14 mm, chamfer: 13.99 mm)',
        'below 14 mm',
      ],
      [
        'first_touch(30 mm, 29 mm, 10°, 30 mm, 18 mm, chamfer: 15 mm)',
        'first_touch(30 mm, 29 mm, 10°, 30 mm, 18 mm, chamfer: 14.99 mm)',
        'below 15 mm',
      ],
      ['knee_dial(1500 mm, knee)', 'knee_dial(1000 mm, knee)', 'No knee goes up by 1.5 m'],
      ['plain_indexing(7, head)', 'plain_indexing(7, head)', ''],
    ].filter(([, , words]) => words !== ''),
  )('%s, but not %s', (call = '', near = '', words = '') => {
    expect(says(call).join(' ')).toContain(words);
    expect(says(near)).toEqual([]);
  });

  it('are none for what is left out, however small the rest', () => {
    // The ball formulas know no size of their own: only ratios and angles count.
    const ofSteps = ['knee_dial', 'ball_steps_by_angle', 'explain_tilt', 'ball_over_reach'];
    for (const formula of allFormulas()) {
      if (formula.family !== 'ball' || ofSteps.includes(formula.name)) continue;
      for (const { call } of formula.checks) {
        const small: Arguments = Object.fromEntries(
          formula.parameters.flatMap(({ name, unit }) => {
            const value = callOf(call).args[name];
            if (value === undefined) return [];
            return [[name, typeof value === 'number' && unit === 'mm' ? value * 1e-5 : value]];
          }),
        );
        expect(broken(formula, small), call).toEqual([]);
      }
    }
  });
});

describe('exactly on the bound', () => {
  it('a chamfer has no length, or that of a face', () => {
    const chamfer = (args: Arguments): string => saysOf('corner_chamfer', args).join();
    const reach = Math.SQRT2 * 15.6;
    expect(reach - 11 + 11 - reach).toBe(0);
    expect(chamfer({ ball: 22, blank: 22, end_to_centre: reach - 11, allowance: 4.6 })).toContain('leave it');
    const far = Math.SQRT2 * 11;
    expect(12 + far - far).toBe(12);
    expect(chamfer({ ball: 22, blank: 2 * far, end_to_centre: 12, allowance: 0 })).toContain(
      'A leg of 12 mm',
    );
    expect(far + 12 - far).toBe(12);
    expect(chamfer({ ball: 22, blank: 24, end_to_centre: far, allowance: 0 })).toContain('A leg of 12 mm');
  });

  it('a tilt right for the shank is not too small for it', () => {
    const shank = 22 * Math.sin(2 * rad(12));
    const { verdict } = answer('ball_setup_result', { ring: 22, height: 0, tilt: 12, shank });
    expect(verdict).toContain('The ring is too large by');
  });

  it('a ring that just comes down to the widest place does not run below it', () => {
    const ring = 2 * 5 * Math.tan(rad(40));
    expect(saysOf('ball_setup_result', { ring, height: 5, tilt: 40, shank: 1 }).join()).toContain(
      'below 40°',
    );
  });

  it('axes half a ring apart are too far', () => {
    const half = number('ball_on_shank', { ball: 30, neck: 12 }, 'ring') / 2;
    const offset = (30 * Math.cos(Math.asin(12 / 30) / 2)) / 2;
    expect(offset).toBeCloseTo(half, 12);
    expect(saysOf('roundness_from_offset', { ball: 30, neck: 12, offset })).toHaveLength(1);
  });

  it('a body that just touches is warned of', () => {
    const under = (height: number): string[] =>
      saysOf('clearance_under_ring', { height, tilt: 30, behind_centre: 0, body: 20 }, 'warning');
    const touching = 10 * Math.cos(rad(30));
    expect(under(touching)).toHaveLength(1);
    expect(under(touching + 0.0005)).toEqual([]);
    expect(under(touching - 0.02).join()).toContain('stands 0.02 mm into');
  });

  it('a cone behind the neck begins behind the centre', () => {
    const begins = (height: number): string[] =>
      saysOf('cone_behind_neck', { ring: 10, height, tilt: 45, stock: 40 });
    const level = (5 * Math.cos(rad(45)) - 0.0005) / Math.sin(rad(45));
    expect(begins(level)).toEqual([]);
    expect(begins(level + 0.001)).toHaveLength(1);
  });

  it('five thousandths past the end are told', () => {
    expect(says('ball_over_reach(25 mm, 10 mm, 0.005 mm)', 'warning')).toHaveLength(1);
    expect(says('ball_over_reach(25 mm, 10 mm, 0.004999 mm)', 'warning')).toEqual([]);
  });

  it('a step of the machine is that step', () => {
    const step = 190 * (1 - 1e-9);
    const lathe = card('lathe', { speeds: [115, 190, 300] });
    expect(number('speed_step', { spindle_speed: step, machine: lathe })).toBe(190);
    expect(saysOf('speed_step', { spindle_speed: 115 * (1 - 1e-9), machine: lathe }, 'warning')).toEqual([]);
    const drive = card('mill', { min_speed: 60, max_speed: 4096 });
    // Chosen so that the bound itself is met: 4096 is a power of two.
    const most = 4096 / (1 - 1e-9);
    expect(most * (1 - 1e-9)).toBe(4096);
    expect(saysOf('speed_step', { spindle_speed: most, machine: drive }, 'warning')).toEqual([]);
  });

  it('two and a hundred and eighty steps are allowed', () => {
    expect(11 / (11 / 180)).toBe(180);
    expect(saysOf('ball_steps_by_travel', { ball: 22, travel_step: 11 / 180 })).toEqual([]);
    expect(saysOf('ball_steps_by_travel', { ball: 22, travel_step: 5.5 * (1 + 0.4e-9) })).toEqual([]);
    expect(saysOf('ball_steps_by_travel', { ball: 22, travel_step: 5.5 * (1 + 0.6e-9) })).toHaveLength(1);
  });
});

describe('steps and raises', () => {
  const args = { ball: 30, ring: 29.367189, tilt: 11.789089, blank: 30, end_to_centre: 15 };
  const travel = number('first_touch', args, 'travel');
  const raises = (ratio: number): number =>
    number('knee_schedule', { ...args, step: travel / ratio }, 'raises');

  it('are no more for rounding', () => {
    expect([5, 5 + 0.999e-9, 5 + 1.0008e-9, 5 - 1e-6].map(raises)).toEqual([6, 6, 7, 6]);
    const steps = (ratio: number): number =>
      number('ball_steps_by_angle', { ball: 22, angle_step: 90 / ratio }, 'steps');
    expect([5, 5 + 0.999e-9, 5 + 1.0008e-9].map(steps)).toEqual([5, 5, 6]);
    const knee = card('knee', {});
    const fields = new Map<string, Quantity>([
      ['knee_per_turn', { kind: 'number', value: 2, dimension: LENGTH, unit: MM, spread: null }],
      ['knee_divisions', { kind: 'number', value: 100, dimension: NUMBER, unit: ONE, spread: null }],
    ]);
    const dial = (raise: number): number =>
      number('knee_dial', { raise, machine: { ...knee, fields } }, 'turns');
    expect([2 * (3 - 0.999e-9), 2 * (3 - 1.0008e-9)].map(dial)).toEqual([3, 2]);
  });

  it('are 200 at the most, and what is offered is one that does', () => {
    const says = (ratio: number): string[] => saysOf('knee_schedule', { ...args, step: travel / ratio });
    expect(says(198.9995)).toEqual([]);
    const least = Math.ceil((travel / 199) * 1000) / 1000;
    expect(says(199.0005).join()).toContain(`give a step of ${least} mm or more.`);
    expect(raises(198.9995)).toBe(200);
  });

  it('end at the widest place, whatever the step', () => {
    for (const step of [40, 45, 7]) {
      expect(list('ball_steps_by_angle', { ball: 22, angle_step: step }, 'travels').at(-1)).toBeCloseTo(
        11,
        12,
      );
      expect(list('ball_steps_by_angle', { ball: 22, angle_step: step }, 'dials').at(-1)).toBeCloseTo(22, 12);
    }
    expect(
      list('ball_steps_by_travel', { ball: 22, travel_step: 4, nose_radius: 6 }, 'travels').at(-1),
    ).toBeCloseTo(17, 12);
  });
});

describe('warnings', () => {
  it('are none in a plain set-up, and one for the smallest nose without a fillet', () => {
    expect(says('ball_on_shank(30 mm, 12 mm)', 'warning')).toEqual([]);
    expect(says('ball_on_shank(30 mm, 12 mm, nose_radius: 0.0005 mm)', 'warning')).toHaveLength(1);
    expect(
      says('ball_on_shank(30 mm, 12 mm, fillet: 0.4 mm, nose_radius: 0.4004 mm)', 'warning'),
    ).toHaveLength(1);
  });
});

describe('the trial boss', () => {
  it('is the ring of the same ball, neck, fillet and tip', () => {
    for (const more of [{ fillet: 2 }, { fillet: 2, nose_radius: 0.8 }, { nose_radius: 0.8 }]) {
      const ring = number('ball_on_shank', { ball: 30, neck: 12, ...more }, 'ring');
      const read = answer('trial_boss', { boss: ring, ball: 30, neck: 12, ...more });
      expect(read['wanted']).toBeCloseTo(ring, 12);
      expect(read['move']).toBeCloseTo(0, 12);
      expect(read['end_foot']).toBeCloseTo(0, 9);
    }
  });
});

describe('the blank over the ring', () => {
  /** Height at which the bar is met over the place (x, y), by cutting a vertical line with its faces; -Infinity beside it. */
  function topAt(
    x: number,
    y: number,
    tilt: number,
    b: { side: number; end: number; chamfer: number; back: number },
  ): number {
    const [s, c] = [Math.sin(rad(tilt)), Math.cos(rad(tilt))];
    // Along the bar a = x c + z s, across it r² = y² + (z c - x s)²: the side as a quadratic in z.
    let [low, high] = [-Infinity, Infinity];
    const narrow = (from: number, to: number): void => {
      [low, high] = [Math.max(low, from), Math.min(high, to)];
    };
    const half = Math.sqrt(b.side ** 2 - y ** 2) / c;
    narrow(x * (s / c) - half, x * (s / c) + half);
    if (s > 0) narrow((-b.back - x * c) / s, (b.end - x * c) / s);
    else if (x > b.end || x < -b.back) return -Infinity;
    if (Number.isNaN(half)) return -Infinity;
    // The cone of the chamfer: r <= reach - a, looked for downwards from the top.
    const reach = b.side + b.end - b.chamfer;
    const inCone = (z: number): boolean =>
      b.chamfer === 0 || Math.hypot(y, z * c - x * s) <= reach - (x * c + z * s) + 1e-12;
    if (low > high) return -Infinity;
    if (inCone(high)) return high;
    // The line leaves the convex cone once on its way up.
    let [inside, outside] = [low, high];
    if (!inCone(inside)) {
      const tries = Array.from({ length: 400 }, (_, i) => low + ((high - low) * i) / 400).filter(inCone);
      if (tries.length === 0) return -Infinity;
      inside = Math.max(...tries);
    }
    for (let i = 0; i < 60; i++) {
      const middle = (inside + outside) / 2;
      if (inCone(middle)) inside = middle;
      else outside = middle;
    }
    return inside;
  }

  /** The highest place of the turning bar on the tip's circle or outside it, where the cutter's body goes round. */
  function highest(ring: number, tilt: number, b: Parameters<typeof topAt>[3]): number {
    const at = (angle: number, out: number): number =>
      topAt((ring / 2 + out) * Math.cos(angle), (ring / 2 + out) * Math.sin(angle), tilt, b);
    let best = [0, 0, -Infinity];
    const look = (angle: number, out: number, wide: number, far: number, steps: number): void => {
      for (let i = -steps; i <= steps; i++)
        for (let j = -steps; j <= steps; j++) {
          const [p, q] = [angle + (i / steps) * wide, Math.max(0, out + (j / steps) * far)];
          const z = at(p, q);
          if (z > (best[2] ?? 0)) best = [p, q, z];
        }
    };
    look(Math.PI / 2, 15, Math.PI / 2, 15, 60);
    for (let part = 0.02; part > 1e-7; part /= 8)
      look(best[0] ?? 0, best[1] ?? 0, part * Math.PI, part * 20, 10);
    return best[2] ?? NaN;
  }

  const blanks: readonly (readonly [
    ring: number,
    tilt: number,
    end: number,
    chamfer: number,
    shoulder: number,
  ])[] = [
    [29, 0, 16, 0, Infinity],
    [29, 12, 16, 0, Infinity],
    [29, 12, 22, 0, Infinity],
    [29, 5, 15, 0, Infinity],
    [20, 30, 30, 0, Infinity],
    [29, 0, 16, 5, Infinity],
    [29, 12, 16, 5, Infinity],
    [29, 12, 20, 5, Infinity],
    [29, 4, 17, 5, Infinity],
    [29, 12, 19, 9, Infinity],
    [29, 40, 22, 6, Infinity],
    [20, 20, 30, 5, Infinity],
    [14, 20, 15, 7, Infinity],
    [29, 3, 16, 12, Infinity],
    [24, 12, 13, 4, Infinity],
    [29, 2, 15, 3, 14],
    [29, 2, 15, 9, 12],
    [29, 12, 15, 6, 10],
    [29, 12, 15, 6, 13],
    [26, 25, 14, 6, 6],
    [29, 0, 20, 8, 15],
    [29, 30, 16.1, 15.7, 0.5],
    [29, 30, 15, 14, 6.5],
  ];
  it.each(blanks)(
    'ring %d, tilt %d°, end at %d, chamfer %d, shoulder at %d',
    (ring, tilt, end, chamfer, shoulder) => {
      const args: Arguments = {
        ball: 30,
        ring,
        tilt,
        blank: 32,
        end_to_centre: end,
        ...(chamfer > 0 && { chamfer }),
        ...(shoulder < Infinity && { shoulder }),
      };
      const wanted = highest(ring, tilt, { side: 16, end, chamfer, back: shoulder });
      expect(number('first_touch', args, 'height')).toBeCloseTo(wanted, 2);
    },
  );

  it('has its top where its corners turn highest', () => {
    for (const tilt of [20, 60])
      for (const chamfer of [0, 8]) {
        const corners = [
          [15.5, 16 - chamfer],
          [15.5 - chamfer, 16],
        ].map(([along = 0, across = 0]) => along * Math.sin(rad(tilt)) + across * Math.cos(rad(tilt)));
        const args = {
          height: 3,
          tilt,
          ball: 30,
          blank: 32,
          end_to_centre: 15.5,
          ...(chamfer > 0 && { chamfer }),
        };
        expect(number('hollow_depth', args, 'uncut')).toBeCloseTo(Math.max(...corners) - 3, 12);
      }
  });
});

describe('a doubtful tilt', () => {
  const verdict = (ball: number, shank: number, tilt: number, ring: number): string =>
    String(answer('explain_tilt', { ball, shank, tilt, ring })['verdict']);
  const neck = 22 * Math.sin(2 * rad(12));
  const ring = 22 * Math.cos(rad(12));
  it('is right to a hundredth of a millimetre', () => {
    expect(verdict(22, neck - 0.009995, 12, ring)).toContain('straight on its shank');
    expect(verdict(22, neck - 0.010005, 12, ring)).toContain('is right for a neck of');
    expect(verdict(22, neck + 0.010005, 12, ring)).toContain('is too small for a shank');
    expect(verdict(22, neck, 12, ring + 0.009995)).toContain('is right for it');
    expect(verdict(22, neck, 12, ring + 0.010005)).toContain('is too large by');
    expect(verdict(22, neck, 12, ring - 0.010005)).toContain('is too small by');
  });
  it('has no fillet where the neck is below the shank', () => {
    expect(number('explain_tilt', { ball: 22, shank: 12, tilt: 12, ring: 22 }, 'fillet')).toBe(0);
  });
  it('cuts the groove that the diagnosis of the same set-up finds', () => {
    const set = { ring: 21.9, tilt: 15.5, shank: 9.525 };
    const height = Math.sqrt(22 ** 2 - 21.9 ** 2) / 2;
    const gouge = number('ball_setup_result', { ...set, height }, 'gouge');
    expect(verdict(22, 9.525, 15.5, 21.9)).toContain(`a groove ${shown(gouge, 'mm')} deep`);
    expect(gouge).toBeGreaterThan(0.5);
  });
  it('leaves nothing beyond its pip or cone', () => {
    expect(number('end_left_at', { ring: 22, height: 0, tilt: 15.5, from_centre: 30 })).toBe(0);
  });
  it('has a hair of a cone past the end, of a pip short of it', () => {
    const high = (over_reach: number): number =>
      number('ball_over_reach', { ball: 25, neck: 10, over_reach }, 'end_height');
    // Slopes at the end: the tangent of the tilt for the cone, its cotangent for the pip.
    const tilt = Math.asin(0.4) / 2;
    expect(high(0.004) / 0.004).toBeCloseTo(Math.tan(tilt), 3);
    expect(high(-0.004) / 0.004).toBeCloseTo(1 / Math.tan(tilt), 1);
  });
});

describe('cards', () => {
  const quantityOf = (value: number, dimension = NUMBER): Quantity => ({
    kind: 'number',
    value,
    dimension,
    unit: dimension === LENGTH ? MM : ONE,
    spread: null,
  });
  const withFields = (fields: Record<string, Quantity | readonly Quantity[]>): CardView => ({
    name: 'one',
    word: 'machine',
    fields: new Map(
      Object.entries(fields).map(([key, value]) => [
        key,
        'kind' in value
          ? (value as Quantity)
          : { kind: 'list' as const, items: value as readonly Quantity[] },
      ]),
    ),
  });
  const refused = (name: string, args: Arguments): boolean => {
    const result = formulaNamed(name)?.compute(given(args));
    return typeof result === 'object' && isRefusal(result);
  };

  it('give a ratio that is a plain number above zero', () => {
    const feed = (ratio: Quantity): boolean =>
      refused('ball_work_feed', {
        ball: 22,
        tilt: 12,
        spindle_speed: 600,
        crank_speed: 20,
        head: withFields({ ratio }),
      });
    expect([quantityOf(40, LENGTH), quantityOf(0), quantityOf(-40)].map(feed)).toEqual([true, true, true]);
    expect([quantityOf(40), quantityOf(0.0005)].map(feed)).toEqual([false, false]);
    const head = card('head', { plates: [15] });
    const args = { ball: 22, tilt: 12, spindle_speed: 600, crank_speed: 20, head };
    expect(formulaNamed('ball_work_feed')?.working(given(args))).toEqual([]);
  });

  it('give the dial of the knee in length and divisions', () => {
    const dial = (perTurn: Quantity, divisions: Quantity): boolean =>
      refused('knee_dial', {
        raise: 1,
        machine: withFields({ knee_per_turn: perTurn, knee_divisions: divisions }),
      });
    const [length, count] = [quantityOf(2, LENGTH), quantityOf(100)];
    expect([
      dial(quantityOf(2), count),
      dial(length, length),
      dial(quantityOf(0, LENGTH), count),
      dial(length, quantityOf(0)),
    ]).toEqual([true, true, true, true]);
    expect([dial(length, count), dial(quantityOf(0.0005, LENGTH), quantityOf(0.0005))]).toEqual([
      false,
      false,
    ]);
  });

  it('give speeds as turning speeds, all of them', () => {
    const lengths = [quantityOf(115, LENGTH), quantityOf(190, LENGTH)];
    const rpm = SHOP.get('lathe')?.fields.get('speeds');
    const one = rpm?.kind === 'list' ? rpm.items[0] : undefined;
    if (!one) return expect.fail('no speeds');
    const step = (speeds: readonly Quantity[]): boolean =>
      refused('speed_step', { spindle_speed: 200, machine: withFields({ speeds }) });
    expect([step(lengths), step([one, ...lengths]), step([one])]).toEqual([true, true, false]);
  });

  it('give whole numbers up to a thousand for indexing', () => {
    const index = (ratio: Quantity, plates: readonly Quantity[]): boolean =>
      refused('plain_indexing', { divisions: 1, head: withFields({ ratio, plates }) });
    const plate = [quantityOf(20)];
    expect(index(quantityOf(1000), plate)).toBe(false);
    expect(index(quantityOf(1001), plate)).toBe(true);
    expect(index(quantityOf(40, LENGTH), plate)).toBe(true);
    expect(index(quantityOf(40), [quantityOf(20, LENGTH)])).toBe(true);
    expect(index(quantityOf(40), [quantityOf(1000)])).toBe(false);
    expect(index(quantityOf(40), [quantityOf(1001)])).toBe(true);
  });
});

describe('indexing', () => {
  const head = (ratio: number, plates: readonly number[]): CardView => card('head', { ratio, plates });

  it('names neighbours that are a square of the holes', () => {
    // 40 turns on a circle of 40 are 1600 holes: 40 divides them, 41 does not.
    const result = formulaNamed('plain_indexing')?.compute(given({ divisions: 41, head: head(40, [40]) }));
    if (typeof result !== 'object' || !isRefusal(result)) return expect.fail('answered');
    expect(result.offers).toEqual(['40', '50']);
    const working = formulaNamed('plain_indexing')?.working(given({ divisions: 41, head: head(40, [40]) }));
    expect(working).toEqual([]);
  });

  it('moves two circles the first way that is as good as any', () => {
    const args = {
      divisions: 99,
      head: card('head', { ratio: 40, plates: [21, 23, 27, 29, 31, 33], circles_per_plate: [6] }),
    };
    // Six holes each on 27 and 33, or on 33 and 27: the crank goes on the smaller.
    expect(answer('compound_indexing', args)).toMatchObject({ first_circle: 27, second_circle: 33 });
  });

  it('looks through no more circles and gears than there are', () => {
    const plates = (count: number): readonly number[] => Array.from({ length: count }, (_, i) => 20 + i);
    const refused = (name: string, fields: Parameters<typeof card>[1]): string => {
      const result = formulaNamed(name)?.compute(
        given({ divisions: 51, head: card('head', { ratio: 40, ...fields }) }),
      );
      return typeof result === 'object' && isRefusal(result) ? result.refused : '';
    };
    const compound = (count: number): string =>
      refused('compound_indexing', { plates: plates(count), circles_per_plate: [count] });
    expect(compound(30)).not.toContain('at most');
    expect(compound(31)).toContain('at most 30');
    const geared = (count: number): string =>
      refused('differential_indexing', {
        plates: [20],
        gears: Array.from({ length: count }, (_, i) => 24 + i),
      });
    expect(geared(40)).not.toContain('at most');
    expect(geared(41)).toContain('at most 40');
  });

  it('takes the smaller of two circles that come out alike', () => {
    // The same part of a turn, where rounding makes the larger circle look nearer.
    expect(answer('angular_indexing', { angle: 0.39, head: head(40, [20, 60]) })).toMatchObject({
      circle: 20,
      holes: 1,
    });
    expect(answer('angular_indexing', { angle: 0.44, head: head(40, [18, 54]) })).toMatchObject({
      circle: 18,
      holes: 1,
    });
    // As far short on two holes of 4.5° as beyond on four of 2.25°.
    expect(answer('angular_indexing', { angle: 5.625, head: head(40, [2, 4]) })).toMatchObject({
      circle: 2,
      error: -1.125,
    });
    expect(answer('angular_indexing', { angle: 360, head: head(40, [20]) })).toMatchObject({
      turns: 40,
      holes: 0,
    });
  });
});

describe('small pieces', () => {
  it('write a figure without a unit as it is', () => {
    expect([shown(40, ''), shown(1.23456, 'mm'), shown(11.78909, '°')]).toEqual([
      '40',
      '1.235 mm',
      '11.789°',
    ]);
  });
  it('give a small figure without a unit three digits, and any other its thousandths', () => {
    expect([0.04992, -0.04992, 0.1, 0.12345, 12.3456, -1234.5678].map((value) => shown(value, ''))).toEqual([
      ...['0.0499', '-0.0499', '0.1', '0.123', '12.346', '-1234.568'],
    ]);
    expect(shown(0.04992, 'mm')).toBe('0.05 mm');
  });
  it('ask of what is left out nothing', () => {
    const [condition] = positive(optional(quantity('depth', 'mm', 'depth')));
    expect(condition?.holds(given({}))).toBe(true);
    expect(condition?.holds(given({ depth: 0 }))).toBe(false);
  });
  it('tell a fit by capital and small letters', () => {
    const words = (args: Arguments): string => {
      const result = formulaNamed('fit')?.compute(given(args));
      return typeof result === 'object' && isRefusal(result) ? result.refused : 'answered';
    };
    expect(words({ size: 25, hole: 'g6', shaft: 'h6' })).toContain('the hole has a capital letter');
    expect(words({ size: 25, hole: 'H7', shaft: 'H6' })).toContain('the shaft has a small letter');
  });
});

describe('turning points', () => {
  const turns = (name: string, parameter: string, args: Arguments): readonly number[] =>
    formulaNamed(name)?.extremes?.[parameter]?.(given(args)) ?? expect.fail(name);
  const degrees = (radians: number): number => (radians * 180) / Math.PI;

  it('lie where a corner points straight up, out, or changes with the other', () => {
    const blank = { height: 3, tilt: 44, ball: 30, blank: 32, end_to_centre: 15.5 };
    expect(turns('hollow_depth', 'tilt', blank)[0]).toBeCloseTo(degrees(Math.atan2(15.5, 16)), 9);
    const chamfered = { ...blank, chamfer: 8 };
    expect(turns('hollow_depth', 'tilt', chamfered)).toContain(45);
    const uncut = (tilt: number): number => number('hollow_depth', { ...chamfered, tilt }, 'uncut');
    expect(Math.min(uncut(44.99), uncut(45.01))).toBeGreaterThan(uncut(45));
    const centre = { end_to_centre: 15.5, tilt: 10, blank: 32, stylus: 6 };
    expect(turns('ball_centre_from_end', 'tilt', centre)[0]).toBeCloseTo(degrees(Math.atan2(16, 15.5)), 9);
  });

  it('lie where the end comes clean', () => {
    expect(turns('ball_over_reach', 'over_reach', { ball: 25, neck: 10, over_reach: 0.1 })).toEqual([0]);
    const args = { ring: 24, height: 5, tilt: 20, from_centre: 13 };
    const [tilt = NaN] = turns('end_left_at', 'tilt', args);
    expect(number('end_left_at', { ...args, tilt }, '')).toBeCloseTo(0, 9);
    expect(number('end_left_at', { ...args, tilt: tilt + 0.01 }, '')).toBeGreaterThan(1e-4);
    expect(number('end_left_at', { ...args, tilt: tilt - 0.01 }, '')).toBeGreaterThan(1e-4);
  });

  it('do not depend on a tip that is left out', () => {
    const args = { ball: 18, neck: 12, fillet: 2 };
    expect(turns('ball_on_shank', 'ball', args)).toEqual(
      turns('ball_on_shank', 'ball', { ...args, nose_radius: 0 }),
    );
  });
});

describe('the working of a list', () => {
  const working = (call: string, step: string): string => {
    const { formula, args } = callOf(call);
    return formula.working(given(args)).find(({ name }) => name === step)?.expression ?? '';
  };
  it('begins plainly and goes on by its numbers', () => {
    const passes = (step: number): string =>
      `knee_schedule(30 mm, 29.367189 mm, 11.789089°, 30 mm, 15 mm, ${step} mm)`;
    expect(working(passes(0.3), 'raised')).toBe('[step, 2 * step, 3 * step]');
    expect(working(passes(16), 'raised')).toBe('[(0 * step + travel) / 2, travel]');
    expect(working(passes(16), 'raises')).toBe('2');
    expect(working(passes(2), 'raises')).toBe('round_up(travel / step, 1) + 1');
    expect(working('ball_steps_by_angle(22 mm, 25°)', 'travels')).toContain(
      'cos(angle_step)), ball / 2 * (1 - cos(2 * angle_step))',
    );
    expect(working('ball_steps_by_angle(22 mm, 25°)', 'cusps')).toContain('sin(0° + angle_step)');
    expect(working('ball_steps_by_travel(22 mm, 3 mm)', 'travels')).toContain(
      'acos(1 - travel_step / (ball / 2))',
    );
  });
  it('has its bounds in words', () => {
    const ranges = formulaNamed('ball_steps_by_angle')?.conditions.map(({ range }) => range) ?? [];
    expect(ranges).toContain('the step is from 0.5° to 45°');
  });
  it('offers a step of a thousandth that does, for large work too', () => {
    const large = { ball: 3000, ring: 2936.7189, tilt: 11.789089, blank: 3000, end_to_centre: 1500 };
    const travel = number('first_touch', large, 'travel');
    const least = Math.ceil((travel / 199) * 1000) / 1000;
    expect(saysOf('knee_schedule', { ...large, step: 1 }).join()).toContain(`a step of ${least} mm or more`);
    expect(saysOf('knee_schedule', { ...large, step: least })).toEqual([]);
  });
});

it('the feeds of drills hold from their smallest to their largest', () => {
  const material = 'steel_C45';
  const warned = (diameter: number): string =>
    says(`drilling_start(${diameter} mm, ${material})`, 'warning').join();
  expect([warned(3), warned(25)]).toEqual(['', '']);
  expect(warned(2.9995)).toContain('3 mm and more');
  expect(warned(25.01)).toContain('up to 25 mm');
});
