/** The ball formulas against circles in space, and against each other, for any set-up rather than a few. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formulaNamed } from '../../src/trade';
import { broken, given, number } from './given';

const mm = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** A ball and a neck that is some part of it. */
const BALL_AND_NECK = fc
  .tuple(mm(3, 200), mm(0.02, 0.98))
  .map(([ball, part]) => ({ ball, neck: ball * part }));

const onShank = (args: Readonly<Record<string, number>>) => ({
  tilt: number('ball_on_shank', args, 'tilt'),
  ring: number('ball_on_shank', args, 'ring'),
  height: number('ball_on_shank', args, 'height'),
  neck_to_end: number('ball_on_shank', args, 'neck_to_end'),
});

type Point = readonly [number, number, number];

/** Points of the tip's circle about the upright axis through the ball's centre, `beside` that of the work. */
function tip(ring: number, height: number, beside = 0, count = 720): Point[] {
  return Array.from({ length: count }, (_, i) => {
    const t = (2 * Math.PI * i) / count;
    return [(ring / 2) * Math.cos(t), beside + (ring / 2) * Math.sin(t), height];
  });
}

/** Along the work's axis (free end positive) and away from it, for an axis tilted up towards +x. */
function alongAndAway([x, y, z]: Point, tilt: number): { along: number; away: number } {
  const a = (tilt / 180) * Math.PI;
  const along = x * Math.cos(a) + z * Math.sin(a);
  return { along, away: Math.sqrt(Math.max(0, x * x + y * y + z * z - along * along)) };
}

const close = (a: number, b: number, by = 1e-9): void =>
  expect(Math.abs(a - b), `${a} against ${b}`).toBeLessThanOrEqual(by * Math.max(1, Math.abs(b)));

describe('a ball on one shank', () => {
  it('is made by a ring that runs from the free end to the neck, all on the sphere', () => {
    fc.assert(
      fc.property(BALL_AND_NECK, ({ ball, neck }) => {
        const { tilt, ring, height, neck_to_end } = onShank({ ball, neck });
        const points = tip(ring, height).map((p) => ({ ...alongAndAway(p, tilt), far: Math.hypot(...p) }));
        for (const { far } of points) close(far, ball / 2);
        const lowest = points.reduce((a, b) => (a.along < b.along ? a : b));
        const highest = points.reduce((a, b) => (a.along > b.along ? a : b));
        close(highest.along, ball / 2);
        expect(highest.away).toBeLessThan(1e-6 * ball);
        close(lowest.away, neck / 2);
        close(highest.along - lowest.along, neck_to_end);
      }),
    );
  });

  it('leaves a neck that a fillet of the given radius touches', () => {
    fc.assert(
      fc.property(BALL_AND_NECK, mm(0.01, 20), ({ ball, neck }, fillet) => {
        const { tilt, ring, height, neck_to_end } = onShank({ ball, neck, fillet });
        const lowest = tip(ring, height)
          .map((p) => alongAndAway(p, tilt))
          .reduce((a, b) => (a.along < b.along ? a : b));
        close(ball / 2 - lowest.along, neck_to_end);
        // The fillet's centre lies on the ray through the joint, its radius beyond the ball and above the shank.
        close(lowest.away * (1 + (2 * fillet) / ball), neck / 2 + fillet);
      }),
    );
  });

  it('touches a round tip at the same places', () => {
    fc.assert(
      fc.property(BALL_AND_NECK, mm(0.05, 3), ({ ball, neck }, nose_radius) => {
        const sharp = onShank({ ball, neck });
        const round = onShank({ ball, neck, nose_radius });
        close(round.tilt, sharp.tilt);
        // The middle of the rounding stands off the sharp tip's place by the radius, square to the ball.
        const middle = Math.hypot(round.ring / 2 + nose_radius, round.height + nose_radius);
        close(middle, ball / 2 + nose_radius);
        close((round.ring / 2 + nose_radius) / middle, sharp.ring / ball);
        close(number('ball_from_ring', { ...round, nose_radius }), ball);
        close(number('ball_height', { ball, ring: round.ring, nose_radius }), round.height, 1e-6);
      }),
    );
  });

  it('is the same as a ball between necks without a free neck', () => {
    fc.assert(
      fc.property(BALL_AND_NECK, ({ ball, neck }) => {
        const one = onShank({ ball, neck });
        for (const field of ['tilt', 'ring', 'height'] as const)
          close(
            number('ball_between_necks', { ball, neck_free_side: 0, neck_head_side: neck }, field),
            one[field],
          );
      }),
    );
  });
});

it('runs from neck to neck between two', () => {
  fc.assert(
    fc.property(BALL_AND_NECK, mm(0.02, 0.98), ({ ball, neck }, part) => {
      const args = { ball, neck_free_side: ball * part, neck_head_side: neck };
      const [tilt = 0, ring = 0, height = 0] = ['tilt', 'ring', 'height'].map((f) =>
        number('ball_between_necks', args, f),
      );
      const points = tip(ring, height).map((p) => alongAndAway(p, tilt));
      close(points.reduce((a, b) => (a.along > b.along ? a : b)).away, args.neck_free_side / 2, 1e-6);
      close(points.reduce((a, b) => (a.along < b.along ? a : b)).away, neck / 2, 1e-6);
    }),
  );
});

describe('ring, height and ball', () => {
  it('give each other back', () => {
    fc.assert(
      fc.property(mm(1, 200), mm(0.05, 100), mm(0, 3), (ring, height, nose_radius) => {
        const ball = number('ball_from_ring', { ring, height, nose_radius });
        close(number('ball_height', { ball, ring, nose_radius }), height, 1e-6);
      }),
    );
  });

  it('give a knee raise that ends at the wanted ball', () => {
    fc.assert(
      fc.property(mm(1, 200), mm(0.05, 50), mm(0, 0.99), mm(0, 3), (ring, height, part, nose_radius) => {
        const measured_ball = number('ball_from_ring', { ring, height, nose_radius });
        const wanted_ball = number('ball_from_ring', { ring, height: height * (1 - part), nose_radius });
        const raise = number('knee_raise', { measured_ball, wanted_ball, ring, nose_radius });
        close(raise, height * part, 1e-6);
      }),
    );
  });
});

describe('the diagnosis', () => {
  const SET_UP = fc
    .tuple(mm(5, 100), mm(0.01, 0.6), mm(2, 50))
    .map(([ring, lift, tilt]) => ({ ring, height: (ring / 2) * lift, tilt, shank: 1 }))
    .filter(({ ring, height, tilt }) => 2 * height * Math.tan((tilt / 180) * Math.PI) < ring);

  it('finds neck and foot of the pip where the ring runs', () => {
    fc.assert(
      fc.property(SET_UP, (args) => {
        const points = tip(args.ring, args.height).map((p) => alongAndAway(p, args.tilt));
        const [neck = 0, base = 0] = ['neck', 'pip_base'].map((f) => number('ball_setup_result', args, f));
        close(points.reduce((a, b) => (a.along < b.along ? a : b)).away, neck / 2, 1e-6);
        close(points.reduce((a, b) => (a.along > b.along ? a : b)).away, base / 2, 1e-6);
      }),
    );
  });

  it('finds the top of the pip where the axis first enters the cutter', () => {
    fc.assert(
      fc.property(SET_UP, (args) => {
        const { ring, height, tilt } = args;
        const [ball = 0, pip = 0] = ['ball', 'pip_height'].map((f) => number('ball_setup_result', args, f));
        const a = (tilt / 180) * Math.PI;
        const inCutter = (s: number): boolean => s * Math.cos(a) >= ring / 2 && s * Math.sin(a) >= height;
        expect(inCutter((ball / 2 + pip) * (1 + 1e-9))).toBe(true);
        expect(inCutter((ball / 2 + pip) * (1 - 1e-9))).toBe(false);
      }),
    );
  });

  it('turns round where the ring passes exactly through the end', () => {
    const setUp = formulaNamed('ball_setup_result');
    const extremes = setUp?.extremes ?? {};
    fc.assert(
      fc.property(SET_UP, fc.constantFrom('ring', 'height', 'tilt'), (args, parameter) => {
        const [place = NaN] = extremes[parameter]?.(given(args)) ?? [];
        const at = setUp?.compute(given({ ...args, [parameter]: place })) as Record<string, number>;
        expect(at['pip_base']).toBeLessThan(1e-9 * (at['ball'] ?? 0));
      }),
    );
  });

  it('gives a clean end and the neck asked when nothing is wrong', () => {
    fc.assert(
      fc.property(BALL_AND_NECK, ({ ball, neck }) => {
        const args = { ...onShank({ ball, neck }), shank: neck };
        close(number('ball_setup_result', args, 'ball'), ball);
        for (const field of ['pip_base', 'pip_height', 'gouge'])
          expect(number('ball_setup_result', args, field)).toBeLessThan(1e-9 * ball);
      }),
    );
  });
});

describe('a round tip at the neck', () => {
  it('cuts into the shank by what the warning says', () => {
    const formula = formulaNamed('ball_on_shank');
    if (!formula) throw new Error('no formula');
    const args = { ball: 30, neck: 12, nose_radius: 0.8 };
    const [says = ''] = broken(formula, args, 'warning');
    const told = Number(/cuts ([\d.]+) mm into/.exec(says)?.[1]);
    // The rounding at its lowest along the axis, sampled as the arc of the tip all round the ring.
    const { tilt, ring, height } = onShank(args);
    let least = Infinity;
    for (let i = 0; i < 2000; i++) {
      const turn = (Math.PI / 2) * (i / 2000);
      const across = ring + 1.6 - 1.6 * Math.sin(turn);
      const [lowest] = tip(across, height + 0.8 - 0.8 * Math.cos(turn), 0, 2).slice(1);
      if (lowest) least = Math.min(least, alongAndAway(lowest, tilt).away);
    }
    expect(told).toBeCloseTo(6 - least, 3);
    expect(told).toBeGreaterThan(0.3);
    expect(broken(formula, { ...args, fillet: 0.8 }, 'warning')).toEqual([]);
    expect(broken(formula, { ...args, fillet: 0.79 }, 'warning')).toHaveLength(1);
  });
});

it('finds the roundness that the nearer side of the ring leaves', () => {
  fc.assert(
    fc.property(BALL_AND_NECK, mm(-0.4, 0.4), ({ ball, neck }, part) => {
      const { ring, height } = onShank({ ball, neck });
      const offset = (ring / 2) * part;
      const points = tip(ring, height, offset);
      // Point i and its mirror run at the same place along the work; the nearer one cuts last.
      const nearer = points.map((p, i) =>
        Math.min(Math.hypot(...p), Math.hypot(...(points[(points.length - i) % points.length] ?? p))),
      );
      const error = Math.max(...nearer) - Math.min(...nearer);
      close(number('roundness_from_offset', { ball, neck, offset }), error, 1e-6);
    }),
  );
});

it('has its least height, with a fillet, at the ball the formula says', () => {
  const extremes = formulaNamed('ball_on_shank')?.extremes?.['ball'];
  fc.assert(
    fc.property(mm(4, 30), mm(0.5, 5), mm(0, 0.9), (neck, fillet, part) => {
      const args = { ball: 100, neck, fillet, nose_radius: fillet * part };
      const [ball = 0] = extremes?.(given(args)) ?? [];
      if (ball <= neck * 1.001) return;
      const least = onShank({ ...args, ball }).height;
      for (const other of [0.99, 0.9999, 0.99999, 1.00001, 1.0001, 1.01])
        if (ball * other > neck)
          expect(onShank({ ...args, ball: ball * other }).height).toBeGreaterThan(least);
    }),
  );
  expect(formulaNamed('roundness_from_offset')?.extremes?.['offset']?.(given({}))).toEqual([0]);
  expect(extremes?.(given({ ball: 30, neck: 12 }))).toEqual([]);
  expect(extremes?.(given({ ball: 30, neck: 12, fillet: 1, nose_radius: 1 }))).toEqual([]);
  expect(extremes?.(given({ ball: 30, neck: 12, fillet: 1, nose_radius: 0.9995 }))).toHaveLength(1);
});
