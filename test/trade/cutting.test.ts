/** Forces, chips, rates and starting figures: against sums worked another way, and where they stop to hold. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formulaNamed } from '../../src/trade';
import { isRefusal } from '../../src/trade/formula';
import { type Arguments, answer, broken, callOf, given, materialCard, number } from './given';

/** What the conditions of a call say. */
function says(call: string, severity: 'error' | 'warning' = 'error'): string[] {
  const { formula, args } = callOf(call);
  return broken(formula, args, severity);
}

const figures = (name: string, args: Arguments): Record<string, number> =>
  answer(name, args) as Record<string, number>;

const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('errors', () => {
  it.each([
    [
      'cutting_force(steel_C45, 1 mm, 0.2 mm/rev, 0°)',
      'cutting_force(steel_C45, 1 mm, 0.2 mm/rev, 0.0005°)',
      '90° less',
    ],
    [
      'cutting_force(steel_C45, 1 mm, 0.2 mm/rev, 120.05°)',
      'cutting_force(steel_C45, 1 mm, 0.2 mm/rev, 120°)',
      'at most 120°',
    ],
    [
      'cutting_power(100 N, 20 m/min, efficiency: 0)',
      'cutting_power(100 N, 20 m/min, efficiency: 0.0005)',
      'more than 0',
    ],
    [
      'cutting_power(100 N, 20 m/min, efficiency: 1.001)',
      'cutting_power(100 N, 20 m/min, efficiency: 1)',
      '0.7 to 0.85',
    ],
    [
      'turning_removal(20 m/min, 5.005 mm, 0.1 mm/rev, 10 mm)',
      'turning_removal(20 m/min, 5 mm, 0.1 mm/rev, 10 mm)',
      'at a depth of 5 mm',
    ],
    ['feed_for_rt(800 µm, 0.8 mm)', 'feed_for_rt(799.5 µm, 0.8 mm)', 'keep below 800 µm'],
    ['feed_for_ra(102.65 µm, 0.8 mm)', 'feed_for_ra(102.6 µm, 0.8 mm)', 'keep below 102.64 µm'],
    [
      'chip_thinning(16 mm, 16.01 mm, 0.1 mm/tooth)',
      'chip_thinning(16 mm, 16 mm, 0.1 mm/tooth)',
      'no wider than itself',
    ],
    [
      'effective_diameter(10 mm, 1 mm, corner_radius: 5.005 mm)',
      'effective_diameter(10 mm, 1 mm, corner_radius: 5 mm)',
      'corners of 5 mm at most',
    ],
    ['reaming_start(0.3 mm, steel_C45)', 'reaming_start(0.3002 mm, steel_C45)', 'more than 0.3 mm'],
  ])('%s, but not %s', (call, near, words) => {
    expect(says(call).join(' ')).toContain(words);
    expect(says(near)).toEqual([]);
  });

  it.each([
    'cutting_force(steel_C45, 1 mm, 0.2 mm/rev, 90°)',
    'cutting_power(100 N, 20 m/min, efficiency: 0.8)',
    'cutting_torque(100 N, 20 mm)',
    'turning_removal(20 m/min, 1 mm, 0.1 mm/rev, 10 mm)',
    'milling_removal(10 mm, 2 mm, 100 mm/min)',
    'drilling_removal(10 mm, 0.1 mm/rev, 500 rpm)',
    'cutting_passes(3 mm, 1 mm)',
    'feed_for_rt(6 µm, 0.8 mm)',
    'feed_for_ra(1.6 µm, 0.8 mm)',
    'chip_thinning(16 mm, 4 mm, 0.1 mm/tooth)',
    'effective_diameter(10 mm, 1 mm, corner_radius: 2 mm)',
    'drilling_start(10 mm, steel_C45)',
    'reaming_start(10 mm, steel_C45)',
    'tapping_start(10 mm, 1.5 mm, steel_C45)',
    'tapping_feed(1.5 mm, 120 rpm)',
    'interrupted_speed(20 m/min, 30 mm)',
  ])('are raised for every part of %s that must be more than zero', (call) => {
    const { formula, args } = callOf(call);
    for (const { name, kind, unit } of formula.parameters) {
      if (kind !== 'quantity' || name === 'efficiency' || unit === '°') continue;
      expect(broken(formula, { ...args, [name]: 0 })[0]).toBe(
        `\`${name}\` is 0 ${unit}: give one of more than zero.`,
      );
    }
    expect(broken(formula, args)).toEqual([]);
  });
});

describe('warnings', () => {
  it.each([
    [
      'cutting_force(steel_C45, 1 mm, 0.04998 mm/rev, 90°)',
      'cutting_force(steel_C45, 1 mm, 0.05 mm/rev, 90°)',
      'From 0.05 mm/rev on',
    ],
    [
      'cutting_force(steel_C45, 1 mm, 2.501 mm/rev, 90°)',
      'cutting_force(steel_C45, 1 mm, 2.5 mm/rev, 90°)',
      'below 2.5 mm/rev',
    ],
    [
      'cutting_force(steel_C45, 1 mm, 0.0999 mm/rev, 30°)',
      'cutting_force(steel_C45, 1 mm, 0.1001 mm/rev, 30°)',
      'From 0.1 mm/rev on',
    ],
    ['drilling_start(2.998 mm, steel_C45)', 'drilling_start(3 mm, steel_C45)', 'Feed by feel'],
    ['drilling_start(25.02 mm, steel_C45)', 'drilling_start(25 mm, steel_C45)', 'open the hole in steps'],
    ['reaming_start(2.998 mm, steel_C45)', 'reaming_start(3 mm, steel_C45)', 'for 3 mm and more'],
    ['reaming_start(25.02 mm, steel_C45)', 'reaming_start(25 mm, steel_C45)', 'up to 25 mm'],
  ])('%s, but not %s', (call, near, words) => {
    expect(says(call, 'warning').join(' ')).toContain(words);
    expect(says(near, 'warning')).toEqual([]);
    expect(says(call)).toEqual([]);
  });
});

describe('a material card', () => {
  const refused = (name: string, args: Arguments): string => {
    const formula = formulaNamed(name);
    const result = formula?.compute(given(args));
    if (!formula || typeof result !== 'object' || !isRefusal(result)) throw new Error('answered');
    expect(result.parameter).toBe('material');
    return result.refused;
  };
  const CUT = { depth_of_cut: 1, feed_per_rev: 0.2, cutting_edge_angle: 90 };

  it.each([
    [{}],
    [{ specific_force: [2000, 'N/mm^2'] as const }],
    [{ force_exponent: [0.25, ''] as const }],
    [{ specific_force: [2000, ''] as const, force_exponent: [0.25, ''] as const }],
    [{ specific_force: [0, 'N/mm^2'] as const, force_exponent: [0.25, ''] as const }],
    [{ specific_force: [2000, 'N/mm^2'] as const, force_exponent: [1, ''] as const }],
    [{ specific_force: [2000, 'N/mm^2'] as const, force_exponent: [-0.001, ''] as const }],
  ])('without proper force figures is refused: %j', (fields) => {
    const material = materialCard('pewter', fields);
    expect(refused('cutting_force', { ...CUT, material })).toContain(
      'The card of `pewter` needs a `specific_force`',
    );
    expect(formulaNamed('cutting_force')?.working(given({ ...CUT, material }))).toEqual([]);
  });

  it('may have a speed as low as any', () => {
    const material = materialCard('rock', { hss_speed: [0.0005, 'm/min'] });
    expect(number('drilling_start', { diameter: 10, material }, 'cutting_speed')).toBeCloseTo(0.0004, 12);
  });

  it('may say that its force does not change with the chip', () => {
    const material = materialCard('wax', { specific_force: [0.0005, 'N/mm^2'], force_exponent: [0, ''] });
    expect(number('cutting_force', { ...CUT, material }, 'cutting_force')).toBeCloseTo(0.0001, 12);
  });

  it.each([{}, { hss_speed: [0, 'm/min'] as const }, { hss_speed: [20, 'rpm'] as const }])(
    'without a speed starts nothing: %j',
    (fields) => {
      const material = materialCard('pewter', fields);
      for (const [name, args] of [
        ['drilling_start', { diameter: 10 }],
        ['reaming_start', { diameter: 10 }],
        ['tapping_start', { diameter: 10, pitch: 1.5 }],
      ] as const) {
        expect(refused(name, { ...args, material })).toContain('needs an `hss_speed` above zero');
        expect(formulaNamed(name)?.working(given({ ...args, material }))).toEqual([]);
      }
    },
  );
});

describe('the force of a cut', () => {
  const steel = (specific: number, exponent: number) =>
    materialCard('bar', { specific_force: [specific, 'N/mm^2'], force_exponent: [exponent, ''] });

  it('is the specific force of a chip of one by one for that chip, and falls along a straight line of logarithms', () => {
    fc.assert(
      fc.property(size(500, 3000), size(0.1, 0.4), size(0.06, 2), size(20, 110), (kc, mc, feed, angle) => {
        const at = (depth_of_cut: number, feed_per_rev: number, cutting_edge_angle: number) =>
          figures('cutting_force', {
            material: steel(kc, mc),
            depth_of_cut,
            feed_per_rev,
            cutting_edge_angle,
          });
        expect(at(1, 1, 90)['cutting_force']).toBeCloseTo(kc, 6);
        const [thin, thick] = [at(1, feed, 90), at(1, 2 * feed, 90)];
        const slope = Math.log2((thick['specific_force'] ?? 0) / (thin['specific_force'] ?? 1));
        expect(slope).toBeCloseTo(-mc, 9);
        // The same chip area from a slanting edge, thinner and so dearer.
        const slant = at(1, feed, angle);
        expect((slant['chip_width'] ?? 0) * (slant['chip_thickness'] ?? 0)).toBeCloseTo(feed, 9);
        const dearer = Math.sin((angle / 180) * Math.PI) ** -mc;
        expect((slant['cutting_force'] ?? 0) / (thin['cutting_force'] ?? 1)).toBeCloseTo(dearer, 9);
      }),
    );
  });

  it('is least with a square edge', () => {
    expect(formulaNamed('cutting_force')?.extremes?.['cutting_edge_angle']?.(given({}))).toEqual([90]);
  });

  it('pushes outwards by 0.3 to 0.5 of itself', () => {
    const cut = figures('cutting_force', {
      material: steel(1000, 0.25),
      depth_of_cut: 1,
      feed_per_rev: 1,
      cutting_edge_angle: 90,
    });
    expect([cut['radial_force_low'], cut['radial_force'], cut['radial_force_high']]).toEqual([300, 400, 500]);
  });

  it('gives the same power by way of the torque', () => {
    fc.assert(
      fc.property(size(10, 5000), size(5, 300), size(5, 300), (cutting_force, cutting_speed, diameter) => {
        const torque = number('cutting_torque', { cutting_force, diameter });
        const spindle_speed = number('spindle_speed', { cutting_speed, diameter });
        const { power = 0, motor_power = 0 } = figures('cutting_power', { cutting_force, cutting_speed });
        expect(number('shaft_power', { torque, spindle_speed }) / power).toBeCloseTo(1, 12);
        expect(power / motor_power).toBeCloseTo(0.75, 12);
      }),
    );
  });
});

/** The largest value of `f` between two places, by halving the step around the best of many. */
function largest(f: (x: number) => number, low: number, high: number): number {
  const count = 2000;
  return Math.max(...Array.from({ length: count + 1 }, (_, i) => f(low + ((high - low) * i) / count)));
}

describe('a milling chip', () => {
  it('is as thick as the gap between two circles one feed apart', () => {
    fc.assert(
      fc.property(size(5, 100), size(0.02, 0.98), size(0.0005, 0.002), (cutter, part, feedPart) => {
        const [width, feed, r] = [cutter * part, cutter * feedPart, cutter / 2];
        // Along the ray of the tooth, from the circle of the tooth before, whose centre lies one feed back.
        const gap = (turned: number): number => {
          const back = feed * Math.sin(turned);
          return r - (Math.sqrt(r * r - (feed * Math.cos(turned)) ** 2) - back);
        };
        // The tooth enters square to the feed and leaves where the cut is as wide as asked.
        const thickest = largest(gap, 0, Math.acos(1 - (2 * width) / cutter));
        const { chip_thickness = 0, corrected_feed = 0 } = figures('chip_thinning', {
          cutter,
          width_of_cut: width,
          feed_per_tooth: feed,
        });
        expect(Math.abs(chip_thickness - thickest) / feed).toBeLessThan(0.005);
        expect((chip_thickness * corrected_feed) / feed ** 2).toBeCloseTo(1, 9);
      }),
    );
  });

  it('is corrected up to half the cutter and no further', () => {
    const at = (width_of_cut: number): number =>
      number('chip_thinning', { cutter: 20, width_of_cut, feed_per_tooth: 0.1 }, 'chip_thickness');
    expect([at(10), at(10.01), at(20)]).toEqual([0.1, 0.1, 0.1]);
    expect(at(9.9)).toBeLessThan(0.1);
  });
});

it('finds the widest point of a round corner below the surface of the work', () => {
  fc.assert(
    fc.property(size(2, 60), size(0.05, 1), size(0.02, 1.5), (cutter, cornerPart, depthPart) => {
      const corner = (cutter / 2) * cornerPart;
      const depth = corner * depthPart;
      // Points of the corner's arc from the bottom (0°) to the side (90°), as far as the depth reaches.
      const reach = Math.acos(1 - Math.min(depth, corner) / corner);
      const widest = largest((turned) => cutter - 2 * corner + 2 * corner * Math.sin(turned), 0, reach);
      const args = { cutter, depth_of_cut: depth };
      expect(number('effective_diameter', { ...args, corner_radius: corner })).toBeCloseTo(widest, 6);
      expect(number('effective_diameter', { ...args, corner_radius: cutter / 2 })).toBe(
        number('effective_diameter', args),
      );
    }),
  );
});

describe('metal removed', () => {
  it('in turning is the sum of thin rings', () => {
    fc.assert(
      fc.property(
        size(5, 200),
        size(0.01, 0.5),
        size(0.02, 1),
        size(5, 300),
        (diameter, part, feed, speed) => {
          const depth = diameter * part;
          const turns = (1000 * speed) / (Math.PI * diameter);
          const count = 400;
          let volume = 0;
          for (let i = 0; i < count; i++) {
            const across = diameter - (2 * depth * (i + 0.5)) / count;
            volume += Math.PI * across * (depth / count) * feed * turns;
          }
          const {
            rate = 0,
            usual_rate = 0,
            excess = 0,
          } = figures('turning_removal', {
            cutting_speed: speed,
            depth_of_cut: depth,
            feed_per_rev: feed,
            diameter,
          });
          expect(rate / (volume / 1000)).toBeCloseTo(1, 9);
          expect(1 - rate / usual_rate).toBeCloseTo(excess / 100, 9);
        },
      ),
    );
  });

  it('takes as many passes as fit, the last no deeper than the others', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 4000 }), fc.integer({ min: 1, max: 400 }), (stock, depth) => {
        const {
          passes = 0,
          even_depth = 0,
          last_depth = 0,
        } = figures('cutting_passes', {
          stock: stock / 100,
          depth_of_cut: depth / 100,
        });
        let count = 0;
        for (let left = stock; left > 0; left -= depth) count++;
        expect(passes).toBe(count);
        expect(even_depth * passes).toBeCloseTo(stock / 100, 9);
        expect(last_depth).toBeCloseTo((stock - (count - 1) * depth) / 100, 9);
      }),
    );
    // Rounding alone asks for no pass more.
    expect(figures('cutting_passes', { stock: 3, depth_of_cut: 1 - 0.9995e-9 })['passes']).toBe(3);
    expect(figures('cutting_passes', { stock: 3, depth_of_cut: 1 - 1.0005e-9 })['passes']).toBe(4);
    expect(figures('cutting_passes', { stock: 1e-12, depth_of_cut: 1 })['passes']).toBe(1);
  });
});

it('keeps the customs for drills, reamers, taps and interrupted cuts', () => {
  const material = materialCard('bar', { hss_speed: [100, 'm/min'] });
  const close = (got: Record<string, number>, wanted: Record<string, number>): void => {
    for (const [name, value] of Object.entries(wanted)) expect(got[name], name).toBeCloseTo(value, 9);
  };
  close(figures('drilling_start', { diameter: 10, material }), {
    feed_low: 0.1,
    feed: 0.15,
    feed_high: 0.2,
    cutting_speed: 80,
    spindle_speed: 8000 / Math.PI,
  });
  close(figures('reaming_start', { diameter: 10, material }), {
    hole_low: 9.7,
    hole_high: 9.9,
    feed_low: 0.2,
    feed: 0.3,
    feed_high: 0.4,
    cutting_speed: 40,
    spindle_speed: 4000 / Math.PI,
  });
  close(figures('tapping_start', { diameter: 10, pitch: 1.5, material }), {
    cutting_speed_low: 80 / 3,
    cutting_speed_high: 40,
    spindle_speed_low: 8000 / 3 / Math.PI,
    spindle_speed_high: 4000 / Math.PI,
    feed: 1.5,
  });
  close(figures('interrupted_speed', { cutting_speed: 100, diameter: 100 }), {
    cutting_speed_low: 60,
    cutting_speed_high: 70,
    spindle_speed_low: 600 / Math.PI,
    spindle_speed_high: 700 / Math.PI,
  });
});
