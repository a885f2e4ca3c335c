/** Touches, patterns, dials and the boring head: against circles and turns of other making, and where each stops to hold. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calculateLines } from '../../src/engine/index';
import { formulaNamed } from '../../src/trade';
import { isRefusal } from '../../src/trade/formula';
import { bestCircle, bestLine, leastSquares } from '../../src/trade/least-squares';
import { answer, broken, callOf, card, given, list, number, SHOP, refusedCall, says } from './given';

describe('errors', () => {
  it.each([
    ['edge_from_touch(1 mm, -0.1 mm, plus)', 'edge_from_touch(1 mm, 0 mm, plus)', 'give zero or more'],
    [
      'middle_of_touches(0 mm, 6 mm, 6 mm, outside)',
      'middle_of_touches(0 mm, 6.001 mm, 6 mm, outside)',
      'say `inside`',
    ],
    [
      'middle_of_touches(6 mm, 0 mm, 6 mm, outside)',
      'middle_of_touches(6 mm, 0 mm, 6 mm, inside)',
      'Touches 6 mm apart',
    ],
    [
      'middle_of_touches(12.1 mm, 12.4 mm, 6 mm, outside)',
      'middle_of_touches(12.1 mm, 12.4 mm, 6 mm, inside)',
      'Touches 0.3 mm apart leave no work between a stylus of 6 mm',
    ],
    [
      'circle_from_touches([1, 2, 3] mm, [1, 5] mm, 1 mm, hole)',
      'circle_from_touches([1, 2, 3] mm, [1, 5, 1] mm, 1 mm, hole)',
      '3 readings of X and 2 of Y',
    ],
    [
      'circle_from_touches([1, 2] mm, [1, 5] mm, 1 mm, hole)',
      'circle_from_touches([1, 2, 3] mm, [1, 5, 1] mm, 1 mm, hole)',
      '2 touches fit many circles: take 3 or more',
    ],
    [
      'circle_from_touches([5, 0, -5] mm, [0, 5, 0] mm, 10.001 mm, boss)',
      'circle_from_touches([5, 0, -5] mm, [0, 5, 0] mm, 9.999 mm, boss)',
      'was a `hole` touched',
    ],
    [
      'circle_from_touches([5, 0, -5] mm, [0, 5, 0] mm, 12 mm, boss)',
      'circle_from_touches([5, 0, -5] mm, [0, 5, 0] mm, 12 mm, hole)',
      'With a stylus of 12 mm nothing is left of a boss',
    ],
    ['bolt_circle(0 mm, 3)', 'bolt_circle(0.1 mm, 3)', 'more than zero'],
    [
      'head_speed_limit(1 kg, 10 mm, 120 mm, 20 mm, 1.2 mm)',
      'head_speed_limit(1 kg, 10 mm, 120 mm, 20 mm, 1.1999 mm)',
      'give one below 1.2 mm.',
    ],
    ['bolt_circle(10 mm, 1)', 'bolt_circle(10 mm, 2)', 'give 2 or more'],
    ['bolt_circle(10 mm, 401)', 'bolt_circle(10 mm, 400)', 'give `holes` for 400 or fewer'],
    ['bolt_arc(10 mm, 1, 0°, 10°)', 'bolt_arc(10 mm, 2, 0°, 10°)', 'give 2 or more'],
    ['bolt_arc(10 mm, 401, 0°, 10°)', 'bolt_arc(10 mm, 400, 0°, 10°)', '400 or fewer'],
    ['bolt_arc(10 mm, 3, 20°, 20°)', 'bolt_arc(10 mm, 3, 20°, 20.001°)', 'it is 0°'],
    ['bolt_arc(10 mm, 3, 0°, 360°)', 'bolt_arc(10 mm, 3, 0°, 359.999°)', 'use `bolt_circle`'],
    ['bolt_arc(10 mm, 3, 360°, 0°)', 'bolt_arc(10 mm, 3, 359.99°, 0°)', 'it is 360°'],
    ['hole_grid(20, 21, 1 mm, 1 mm)', 'hole_grid(20, 20, 1 mm, 1 mm)', 'list of 420 holes'],
    ['hole_grid(2, 1, 0 mm, 0 mm)', 'hole_grid(1, 1, 0 mm, 0 mm)', 'are one column'],
    ['hole_grid(1, 2, 0 mm, 0 mm)', 'hole_grid(1, 2, 0 mm, 0.1 mm)', 'are one row'],
    [
      'screw_move(0 mm, 2000.1 mm, table, dials)',
      'screw_move(0 mm, 2000 mm, table, dials)',
      'beyond any such machine',
    ],
    ['boring_head_setting(0 mm, 20 mm)', 'boring_head_setting(0.1 mm, 20 mm)', '`measured` is 0 mm'],
    [
      'boring_head_setting(20 mm, 30 mm, tip_offset: 10 mm)',
      'boring_head_setting(20 mm, 30 mm, tip_offset: 9.99 mm)',
      'cuts nothing smaller than 20 mm',
    ],
    [
      'boring_head_setting(30 mm, 20 mm, tip_offset: 10 mm)',
      'boring_head_setting(30 mm, 20.01 mm, tip_offset: 10 mm)',
      'A tip 10 mm off',
    ],
    [
      'boring_head_setting(30 mm, 20 mm, tip_offset: -1 mm)',
      'boring_head_setting(30 mm, 20 mm, tip_offset: 0 mm)',
      'zero or more',
    ],
    [
      'boring_head_dial(20 mm, 0 mm, ring_head)',
      'boring_head_dial(20 mm, 1 mm, ring_head)',
      'more than zero',
    ],
    [
      'boring_bar_setting(20 mm, 10.001 mm, hole)',
      'boring_bar_setting(20 mm, 10 mm, hole)',
      'take a bar of 10 mm at most',
    ],
    ['boring_bar_setting(20 mm, 0 mm, boss)', 'boring_bar_setting(20 mm, 10.001 mm, boss)', 'more than zero'],
    [
      'boring_head_speed(20 m/min, 0 mm, ring_head)',
      'boring_head_speed(20 m/min, 1 mm, ring_head)',
      '`ring`',
    ],
    [
      'head_speed_limit(1 kg, 10 mm, 100 mm, 20 mm, 1 mm)',
      'head_speed_limit(1 kg, 10 mm, 100 mm, 20 mm, 0.999 mm)',
      'give one below 1 mm',
    ],
  ])('%s, but not %s', (wrong, right, words) => {
    expect(says(wrong).join(' ')).toContain(words);
    expect(says(right)).toEqual([]);
  });

  it('of 24 touches and more', () => {
    const touches = (count: number): string => {
      const at = Array.from({ length: count }, (_, i) => (i / count) * 2 * Math.PI);
      const written = (of: (x: number) => number): string => at.map((x) => (9 * of(x)).toFixed(4)).join(', ');
      return `circle_from_touches([${written(Math.cos)}] mm, [${written(Math.sin)}] mm, 1 mm, hole)`;
    };
    expect(says(touches(24))).toEqual([]);
    expect(says(touches(25)).join()).toContain('give 24 at most');
  });

  it('of lists that are empty or too long', () => {
    const formula = formulaNamed('dial_list');
    if (!formula) return expect.fail();
    const of = (count: number): string[] =>
      broken(formula, { places: Array.from({ length: count }, () => 1), from: 0 });
    expect([of(0).length, of(1).length, of(400).length, of(401).length]).toEqual([1, 0, 0, 1]);
  });
});

describe('warnings', () => {
  it.each([
    [
      'circle_from_touches([10, 0, -10] mm, [0, 10, 0] mm, 1 mm, hole)',
      'circle_from_touches([10, 0, -9.999] mm, [0, 10, -0.1] mm, 1 mm, hole)',
      'No touch lies in 180° of the round',
    ],
    [
      'circle_from_touches([0, 10, 0] mm, [-10, 0, 10] mm, 1 mm, hole)',
      'circle_from_touches([0, 10, -0.01] mm, [-10, 0, 9.999] mm, 1 mm, hole)',
      'No touch lies in 180° of the round',
    ],
    [
      'head_speed_limit(1 kg, 10 mm, 39.99 mm, 20 mm, 0.01 mm)',
      'head_speed_limit(1 kg, 10 mm, 40 mm, 20 mm, 0.01 mm)',
      'it holds from 40 mm on',
    ],
  ])('%s, but not %s', (wrong, right, words) => {
    expect(says(wrong, 'warning').join(' ')).toContain(words);
    expect(says(right, 'warning')).toEqual([]);
  });
});

describe('refusals', () => {
  it('of touches on a line or on one spot', () => {
    expect(refusedCall('circle_from_touches([0, 1, 2] mm, [0, 1, 2] mm, 1 mm, hole)')).toContain(
      'on one line',
    );
    expect(refusedCall('circle_from_touches([3, 3, 3] mm, [1, 1, 1] mm, 1 mm, hole)')).toContain(
      'on one spot',
    );
    expect(refusedCall('circle_from_touches([0, 1, 2] mm, [0, 1.01, 2] mm, 1 mm, hole)')).toBe('');
    // Nothing else is said of them, and there is no working to show.
    const { formula, args } = callOf('circle_from_touches([3, 3, 3] mm, [1, 1, 1] mm, 1 mm, boss)');
    expect([...broken(formula, args), ...broken(formula, args, 'warning')]).toEqual([]);
    expect(formula.working(given(args))).toEqual([]);
  });

  it.each([
    ['screw_move(0 mm, 1 mm, knee, dials)', '`knee_per_turn = 5 mm`'],
    ['dial_list([1] mm, 0 mm, table, lathe)', '`table_divisions`'],
    ['boring_head_dial(1 mm, 2 mm, dials)', '`diameter_per_turn`'],
    ['boring_head_speed(20 m/min, 20 mm, dials)', '`max_speed`'],
  ])('%s', (call, words) => expect(refusedCall(call)).toContain(words));

  it('of fields that are there and are no measure', () => {
    const machine = card('odd', {
      table_per_turn: 0,
      table_divisions: 100,
      diameter_per_turn: 1,
      head_divisions: 0,
      max_speed: 0,
    });
    const of = (name: string, args: Parameters<typeof given>[0]): boolean => {
      const result = formulaNamed(name)?.compute(given(args));
      return typeof result === 'object' && isRefusal(result);
    };
    expect(of('screw_move', { from: 0, place: 1, screw: 'table', machine })).toBe(true);
    expect(of('boring_head_dial', { measured: 1, wanted: 2, head: machine })).toBe(true);
    expect(of('boring_head_speed', { cutting_speed: 20, ring: 20, head: machine })).toBe(true);
  });
});

describe('the best circle', () => {
  it('is the circle itself where all touches lie on one', () => {
    const size = fc.double({ min: 1, max: 300, noNaN: true });
    const place = fc.double({ min: -500, max: 500, noNaN: true });
    fc.assert(
      fc.property(place, place, size, fc.double({ min: 0.3, max: 2, noNaN: true }), (x, y, r, turn) => {
        const at = [0, turn, 2 * turn, 3 * turn].map((a) => [x + r * Math.cos(a), y + r * Math.sin(a)]);
        const found = bestCircle(
          at.map(([px = 0]) => px),
          at.map(([, py = 0]) => py),
        );
        expect(found?.x).toBeCloseTo(x, 6);
        expect(found?.y).toBeCloseTo(y, 6);
        expect(found?.radius).toBeCloseTo(r, 6);
      }),
    );
  });

  it('is found from a shallow arc that lies aslant', () => {
    const at = [-4, -2, 0, 2, 4].map((more) => ((45 + more) * Math.PI) / 180);
    const found = bestCircle(
      at.map((angle) => 100 * Math.cos(angle)),
      at.map((angle) => 100 * Math.sin(angle)),
    );
    expect(found?.radius).toBeCloseTo(100, 6);
  });

  it('is told from a line by a bow of a hundred-thousandth', () => {
    // A spread of 50 √2 along and of h √(2/3) across: the part is 1e-5 where the bow is 0.000866 on 100 mm.
    for (const aslant of [0, 30, 45, 80])
      for (const [bow, found] of [
        [0, false],
        [0.0008, false],
        [0.0009, true],
      ] as const) {
        const [cos, sin] = [Math.cos((aslant * Math.PI) / 180), Math.sin((aslant * Math.PI) / 180)];
        const at = [-50, 0, 50].map((u) => [u, u === 0 ? bow : 0] as const);
        const circle = bestCircle(
          at.map(([u, v]) => 7.3 + u * cos - v * sin),
          at.map(([u, v]) => u * sin + v * cos),
        );
        expect(circle !== null, `${bow} at ${aslant}°`).toBe(found);
        // Half the chord squared over twice the bow.
        if (circle) expect((circle.radius * 2 * bow) / 2500).toBeCloseTo(1, 4);
      }
  });

  it('is none where touches lie anyhow, and where none is come to', () => {
    expect(bestCircle([8, 4, 8, 5], [1, 0, 10, -6])).toBeNull();
    expect(bestCircle([-1, 3, 2, -6, 9], [-4, 5, -3, -6, -6])).toBeNull();
    expect(refusedCall('circle_from_touches([8, 4, 8, 5] mm, [1, 0, 10, -6] mm, 1 mm, hole)')).toContain(
      'one is a slip of the pen',
    );
  });

  it('has a working that counts the touches', () => {
    const { formula, args } = callOf('circle_from_touches([5, 0, -5] mm, [0, 5, 0] mm, 1 mm, hole)');
    const words = formula.working(given(args)).map((step) => step.words);
    for (const touch of [1, 2, 3]) expect(words).toContain(`distance of touch ${touch} from the middle`);
    // Readings stand in it as they were read.
    const expressions = formula.working(given(args)).map((step) => step.expression);
    expect(expressions).toContain('hypot(-5 mm - found_x, 0 mm - found_y)');
  });

  it('has no better one beside it', () => {
    const [xs, ys] = [
      [25.1, 10.02, -4.9, 9.97, 20.5],
      [12, 27.05, 12.08, -3.02, 22.7],
    ];
    const found = bestCircle(xs, ys);
    if (!found) return expect.fail();
    const misses = (x: number, y: number, r: number): number =>
      xs.reduce((sum, px, i) => sum + (Math.hypot(px - x, (ys[i] ?? 0) - y) - r) ** 2, 0);
    const best = misses(found.x, found.y, found.radius);
    for (const step of [1e-3, -1e-3])
      for (const [dx, dy, dr] of [
        [step, 0, 0],
        [0, step, 0],
        [0, 0, step],
      ] as const)
        expect(misses(found.x + dx, found.y + dy, found.radius + dr)).toBeGreaterThan(best);
  });

  it('carries limits of a touch through', () => {
    const sheet = calculateLines(
      'a = 25 mm ± 0.01 mm\nc = circle_from_touches([a, 10 mm, -5 mm, 10 mm], [12, 27, 12, -3] mm, 6 mm, hole)\nc.centre_x',
    );
    expect(sheet.findings()).toEqual([]);
    const value = sheet.valueOf('c');
    const x = value?.kind === 'record' ? value.fields.get('centre_x') : null;
    // The middle of the two level touches moves by half of what one does.
    const ends = x?.kind === 'number' ? x.spread?.[0]?.at : [];
    expect(ends?.[0]).toBeCloseTo(9.995, 5);
    expect(ends?.[1]).toBeCloseTo(10.005, 5);
  });
});

describe('the best line', () => {
  it('is that of a textbook', () => {
    // Worked on paper: 1, 2, 4 at 0, 1, 2 have slope 3/2 and begin at 5/6.
    const line = bestLine([0, 1, 2], [1, 2, 4]);
    expect(line?.slope).toBeCloseTo(1.5, 12);
    expect(line?.at_zero).toBeCloseTo(5 / 6, 12);
  });
  it('is none where all places are one', () => {
    expect(bestLine([3, 3], [1, 2])).toBeNull();
  });
  it('is none where its sums are more than a computer holds, nor is a circle', () => {
    expect(bestLine([0, 1], [1.7e308, 1.7e308])).toBeNull();
    expect(bestCircle([1e200, 0, -1e200], [0, 1e200, 0])).toBeNull();
    expect(leastSquares([[2], [2], [2]], [1.7e308, -1.7e308, 1])).toBeNull();
    // Nor where the sums are less but the solution is 1e450.
    expect(leastSquares([[1e-150]], [1e300])).toBeNull();
  });
});

describe('a bolt circle', () => {
  it('has neighbours a chord apart, part or whole', () => {
    for (const [name, more] of [
      ['bolt_circle', { start: 17 }],
      ['bolt_arc', { start: 300, end: 75 }],
    ] as const) {
      const args = { diameter: 90, holes: 7, centre_x: 3, centre_y: -8, ...more };
      const [x, y] = [list(name, args, 'x'), list(name, args, 'y')];
      const chord = number(name, args, 'chord');
      for (let i = 1; i < 7; i++)
        expect(Math.hypot((x[i] ?? 0) - (x[i - 1] ?? 0), (y[i] ?? 0) - (y[i - 1] ?? 0))).toBeCloseTo(
          chord,
          9,
        );
    }
  });

  it.each([
    // By hand: so many steps, and a whole round off wherever there is one.
    ['bolt_circle', { holes: 5, start: 90 }, [90, 162, 234, 306, 18]],
    ['bolt_circle', { holes: 4, start: 90 }, [90, 180, 270, 0]],
    ['bolt_circle', { holes: 3, start: -90 }, [-90, 30, 150]],
    ['bolt_circle', { holes: 2, start: 800 }, [80, 260]],
    ['bolt_circle', { holes: 2, start: 179.4998 }, [179.4998, 359.4998]],
    ['bolt_circle', { holes: 2, start: 179.5002 }, [179.5002, -0.4998]],
    ['bolt_arc', { holes: 4, start: 300, end: 435 }, [300, 345, 30, 75]],
    ['bolt_arc', { holes: 3, start: 400, end: 300 }, [40, 350, 300]],
  ] as const)('%s %j stands at angles below 360°: %j', (name, more, angles) => {
    const found = list(name, { diameter: 80, ...more }, 'angle');
    expect(found).toHaveLength(angles.length);
    found.forEach((angle, i) => expect(angle).toBeCloseTo(angles[i] ?? NaN, 9));
  });

  it('takes whole rounds off only where there are some', () => {
    const steps = formulaNamed('bolt_circle')?.working(given({ diameter: 80, holes: 3, start: 170 })) ?? [];
    expect(steps.find(({ name }) => name === 'angle')?.expression).toBe(
      '[start + 0 * step, start + 1 * step, start + 2 * step - 360°]',
    );
  });

  it('keeps the limits of an angle together where a hole ends the round', () => {
    const value = calculateLines('s = 90° ± 0.2°\nc = bolt_circle(100 mm, 4, start: s)').valueOf('c');
    const angles = value?.kind === 'record' ? value.fields.get('angle') : null;
    const last = angles?.kind === 'list' ? angles.items[3] : undefined;
    const at = last?.spread?.[0]?.at ?? [];
    expect(Math.max(...at) - Math.min(...at)).toBeCloseTo(0.4, 9);
  });

  it('turns a coordinate round where a hole crosses an axis within the limits of its start', () => {
    const sheet = calculateLines('s = 0° ± 10°\nc = bolt_circle(100 mm, 4, start: s)');
    const value = sheet.valueOf('c');
    const x = value?.kind === 'record' ? value.fields.get('x') : null;
    const first = x?.kind === 'list' ? x.items[0] : undefined;
    expect(Math.max(...(first?.spread?.[0]?.at ?? []))).toBeCloseTo(50, 9);
  });

  it('knows every angle near the start at which a hole lies on an axis', () => {
    for (const [holes, start] of [
      [4, 10],
      [7, 200],
    ] as const) {
      const found =
        formulaNamed('bolt_circle')?.extremes?.['start']?.(given({ diameter: 50, holes, start })) ?? [];
      for (let hole = 0; hole < holes; hole++) {
        // From an axis before the hole to the second one after it, and each of them once.
        const own = found
          .map((angle) => angle + (hole * 360) / holes)
          .filter((angle) => Math.abs(angle / 90 - Math.round(angle / 90)) < 1e-12);
        const at = start + (hole * 360) / holes;
        for (const axis of [-90, 0, 90, 180].map((more) => (Math.floor(at / 90) + more / 90) * 90))
          expect(own.some((angle) => Math.abs(angle - axis) < 1e-9)).toBe(true);
      }
      expect(found).toHaveLength(4 * holes);
    }
  });

  it('of a part of the round knows where moving an end brings a hole onto an axis, or the ends opposite', () => {
    const args = { diameter: 50, holes: 3, start: 20, end: 100 };
    const ends = (moved: 'start' | 'end'): readonly number[] =>
      formulaNamed('bolt_arc')?.extremes?.[moved]?.(given(args)) ?? [];
    // The hole in the middle stands half way between the ends, and moves half as far as one of them: by hand.
    const middle = (end: number): number => 2 * end - 100;
    for (const start of [-90, 0, 90, 180, middle(-90), middle(0), middle(90), middle(180)])
      expect(ends('start').some((angle) => Math.abs(angle - start) < 1e-9)).toBe(true);
    for (const end of [0, 90, 180, 270, -90, 0, 90, 180].map((axis, i) => (i < 4 ? axis : 2 * axis - 20)))
      expect(ends('end').some((angle) => Math.abs(angle - end) < 1e-9)).toBe(true);
    // Neighbours lie opposite each other where half a turn is between them.
    for (const half of [0, 180, -180]) {
      expect(ends('start').some((angle) => Math.abs(angle - (100 - 2 * half)) < 1e-9)).toBe(true);
      expect(ends('end').some((angle) => Math.abs(angle - (20 + 2 * half)) < 1e-9)).toBe(true);
    }
    expect(ends('start')).toHaveLength(11);
    expect(ends('end')).toHaveLength(11);
  });
});

it('a tool faces and turns as the cross product says', () => {
  // The bar stands at +x. Its tip points away from or to the axis; the cutting face of a usual tool, made for a tip that
  // points outwards under a spindle turning clockwise from above, looks to -y, and turns with the bar.
  for (const cuts of ['hole', 'boss'])
    for (const tool of ['usual', 'mirrored']) {
      const face = -1 * (cuts === 'hole' ? 1 : -1) * (tool === 'usual' ? 1 : -1);
      // Clockwise from above, what stands at +x moves to -y: the face must look the way it moves.
      const clockwise = Math.sign(face) === -1;
      const { turning, spindle, faces } = answer('tool_facing', { cuts, tool });
      expect(turning).toBe(clockwise ? 1 : -1);
      expect(spindle).toContain(clockwise ? ('anticlockwise' === spindle ? '' : 'forwards') : 'backwards');
      expect(faces).toContain(cuts === 'hole' ? 'outwards' : 'inwards');
    }
});

it('goes past a mark below by half a turn, or by twice the backlash where that is more', () => {
  const at = (screw: string): number =>
    number(
      'screw_move',
      { from: 50, place: 20, screw, machine: SHOP.get('dials') ?? card('', {}) },
      'turn_at',
    );
  expect([at('table'), at('saddle')]).toEqual([17.5, 17]);
});
