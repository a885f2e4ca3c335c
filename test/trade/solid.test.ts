/**
 * Set-ups cut on a solid: the work, less a hollow cutter at many places of its turn. What is left is measured and held
 * against the formulas, for random set-ups rather than chosen ones.
 *
 * The cutter's bore has as many sides as SIDES, with its corners on the ring, so its sides stand in by a part of the
 * ring's radius, FACET. What the corners cut (neck, foot and apex of a pip) is right to rounding; what the sides cut (the
 * smallest radius of the ball, the wall of a cone) is too small by no more than that.
 */
import fc from 'fast-check';
import Module, { type Manifold } from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import { number } from './given';

const SIDES = 72;
const PLACES = 30;
const FACET = 1 - Math.cos(Math.PI / SIDES);
/** Vertices are kept in single precision, in mm. */
const SINGLE = 2e-4;
const SEED = 20417;

let solid: Awaited<ReturnType<typeof Module>>;
beforeAll(async () => {
  solid = await Module();
  solid.setup();
});

const rad = (degrees: number): number => (degrees / 180) * Math.PI;

interface SetUp {
  readonly ring: number;
  readonly height: number;
  readonly tilt: number;
}

/** A hollow cutter in the frame of the work, whose axis is Z with the free end up, the ball's centre at nothing. */
function cutter({ ring, height, tilt }: SetUp, sides = SIDES): Manifold {
  const body = solid.Manifold.cylinder(8 * ring, 4 * ring, 4 * ring, 24);
  const bore = solid.Manifold.cylinder(10 * ring, ring / 2, ring / 2, sides).translate([0, 0, -ring]);
  return body
    .subtract(bore)
    .translate([0, 0, height])
    .rotate([0, tilt - 90, 0]);
}

function bar(end: number, back: number, radius: number, sides = 60): Manifold {
  return solid.Manifold.cylinder(end + back, radius, radius, sides).translate([0, 0, -back]);
}

/** The bar after a full turn under the cutter. */
function turned(work: Manifold, setUp: SetUp): Manifold {
  const one = cutter(setUp);
  const places = Array.from({ length: PLACES }, (_, i) => one.rotate([0, 0, (i * 360) / PLACES]));
  return solid.Manifold.difference([work, ...places]);
}

interface Corner {
  readonly along: number;
  readonly away: number;
  readonly far: number;
}

function corners(of: Manifold): Corner[] {
  const { vertProperties: v, numProp } = of.getMesh();
  return Array.from({ length: v.length / numProp }, (_, i) => {
    const [x = 0, y = 0, along = 0] = [0, 1, 2].map((k) => v[i * numProp + k]);
    const away = Math.hypot(x, y);
    return { along, away, far: Math.hypot(away, along) };
  });
}

const least = (all: readonly number[]): number => all.reduce((a, b) => Math.min(a, b), Infinity);
const most = (all: readonly number[]): number => all.reduce((a, b) => Math.max(a, b), -Infinity);

/** Radius of a section there: how near its sides come to the axis. */
function section(of: Manifold, along: number): number {
  const outlines = of.slice(along).toPolygons();
  return least(
    outlines.flatMap((outline) =>
      outline.map(([x, y], i) => {
        const [u, v] = outline[(i + 1) % outline.length] ?? [x, y];
        const side = Math.hypot(u - x, v - y);
        const over = side === 0 ? 0 : -(x * (u - x) + y * (v - y)) / side ** 2;
        const on = Math.min(1, Math.max(0, over));
        return Math.hypot(x + on * (u - x), y + on * (v - y));
      }),
    ),
  );
}

/** The same by its corners alone: at the foot of a pip the ring's own corners, which it leaves one for each place. */
function footSection(of: Manifold, along: number): number {
  return least(
    of
      .slice(along)
      .toPolygons()
      .flatMap((outline) => outline.map(([x, y]) => Math.hypot(x, y))),
  );
}

function between(measured: number, low: number, high: number, what: string): void {
  expect(measured, what).toBeGreaterThanOrEqual(low - SINGLE);
  expect(measured, what).toBeLessThanOrEqual(high + SINGLE);
}

/** Any size between these, none of them likelier than another. */
const part = (min: number, max: number) =>
  fc.noBias(fc.integer({ min: 0, max: 1_000_000 })).map((x) => min + ((max - min) * x) / 1_000_000);

/** A ball, a shank, and a ring and tilt that are off by a little either way. */
const SET_UPS = fc
  .sample(
    fc.record({
      ball: part(8, 60),
      shank: part(0.3, 0.65),
      ringOff: part(-0.006, 0.008),
      tiltOff: part(-1, 1),
    }),
    { seed: SEED, numRuns: 60 },
  )
  .flatMap(({ ball, shank, ringOff, tiltOff }) => {
    const neck = ball * shank;
    const right = { ring: 0, tilt: 0 };
    for (const field of ['ring', 'tilt'] as const)
      right[field] = number('ball_on_shank', { ball, neck }, field);
    const ring = Math.min(right.ring * (1 + ringOff), ball);
    const setUp = { ring, tilt: right.tilt + tiltOff, height: number('ball_height', { ball, ring }) };
    const proud = number('ball_setup_result', { ...setUp, shank: 1 }, 'pip_height');
    return proud < 0.4 * ball ? [{ ball, shank: neck, setUp }] : [];
  })
  .slice(0, 10);

it('tries grooves, necks left standing, pips and cones', () => {
  const told = (field: string): number[] =>
    SET_UPS.map(({ shank, setUp }) => number('ball_setup_result', { ...setUp, shank }, field));
  expect(most(told('gouge'))).toBeGreaterThan(0.05);
  expect(least(told('gouge'))).toBe(0);
  const short = SET_UPS.map(({ setUp: { ring, height, tilt } }) => 2 * height > ring * Math.tan(rad(tilt)));
  expect(new Set(short)).toEqual(new Set([true, false]));
});

const words = ({ ring, height, tilt }: SetUp): string =>
  `ring ${ring.toFixed(3)}, height ${height.toFixed(3)}, tilt ${tilt.toFixed(3)}`;

describe('what a set-up makes, cut on a solid', () => {
  it.each(SET_UPS.map((each) => [words(each.setUp), each] as const))(
    '%s',
    (_, { ball, shank, setUp }) => {
      const told = (field: string): number => number('ball_setup_result', { ...setUp, shank }, field);
      const [facet, tilt] = [(setUp.ring / 2) * FACET, rad(setUp.tilt)];
      const made = turned(bar(ball, 1.2 * ball, 0.54 * ball), setUp);
      const all = corners(made);

      between(2 * least(all.map(({ far }) => far)), told('ball') - 2 * facet, told('ball'), 'ball');
      const behind = all.filter(({ along }) => along < 0).map(({ away }) => away);
      between(2 * least(behind), told('neck'), told('neck'), 'neck');
      const apex = most(all.filter(({ away }) => away < 0.01).map(({ along }) => along));
      const proud = apex - told('ball') / 2;
      between(proud, told('pip_height') - facet / Math.cos(tilt), told('pip_height'), 'pip height');
      const foot = (setUp.ring / 2) * Math.cos(tilt) + setUp.height * Math.sin(tilt);
      if (told('pip_base') > 0.02 * ball) {
        const wide = 2 * footSection(made, foot);
        between(wide, told('pip_base') - (2 * facet) / Math.sin(tilt), told('pip_base'), 'foot of the pip');
        const halfway = (foot + apex) / 2;
        const left = number('end_left_at', { ...setUp, from_centre: halfway });
        between(2 * section(made, halfway), left - (2 * facet) / Math.sin(tilt), left, 'halfway up the pip');
      }

      const stock = 1.08 * ball;
      const cone = (field: string): number => number('cone_behind_neck', { ...setUp, stock }, field);
      const there = (cone('begins') + Math.min(cone('ends'), 1.1 * ball)) / 2;
      const clear = number(
        'clearance_under_ring',
        { ...setUp, behind_centre: there, body: 1 },
        'largest_body',
      );
      between(2 * section(made, -there), clear, clear, 'cone behind the neck');

      const inShank = made.intersect(bar(0, 1.2 * ball, shank / 2));
      const groove =
        shank / 2 -
        least(
          corners(inShank)
            .filter((c) => c.along < -0.1 * ball && c.away > 0.1 * shank)
            .map((c) => c.away),
        );
      between(groove, told('gouge'), told('gouge'), 'groove in the shank');
    },
    60_000,
  );

  it('is a ball with a clean end and the neck asked, when set up by ball_on_shank', () => {
    const [{ ball, shank } = { ball: 0, shank: 0 }] = SET_UPS;
    const at = (field: string): number => number('ball_on_shank', { ball, neck: shank }, field);
    const setUp = { ring: at('ring'), height: at('height'), tilt: at('tilt') };
    const all = corners(turned(bar(ball, 1.2 * ball, 0.54 * ball), setUp));
    const facet = (setUp.ring / 2) * FACET;
    between(2 * least(all.map(({ far }) => far)), ball - 2 * facet, ball, 'ball');
    between(2 * least(all.filter(({ along }) => along < 0).map(({ away }) => away)), shank, shank, 'neck');
    between(
      most(all.filter(({ away }) => away < 0.01).map(({ along }) => along)),
      ball / 2 - facet,
      ball / 2,
      'end',
    );
  });
});

const BLANKS = fc.sample(
  fc.record({
    ball: part(10, 50),
    neck: part(0.3, 0.6),
    blank: part(1, 1.2),
    end: part(0.5, 0.75),
    chamfer: fc.option(part(0.02, 0.3), { nil: 0 }),
    shoulder: fc.option(part(0.35, 0.6), { nil: 0 }),
  }),
  { seed: SEED, numRuns: 40 },
);

/** Sides of a blank, and of the bore over it: fine, since one place of the cutter is enough. */
const FINE = 360;

describe('first touch on a solid blank', () => {
  it.each(BLANKS.map((each, i) => [i, each] as const))('number %i', (_, each) => {
    const { ball } = each;
    const [side, end, chamfer] = [(ball * each.blank) / 2, ball * each.end, ball * each.chamfer];
    const [tilt, ring] = ['tilt', 'ring'].map((f) =>
      number('ball_on_shank', { ball, neck: ball * each.neck }, f),
    );
    if (tilt === undefined || ring === undefined) throw new Error('no set-up');
    const shoulder = ball * each.shoulder;
    const args = { ball, ring, tilt, blank: 2 * side, end_to_centre: end };
    const optional = { ...(chamfer > 0 ? { chamfer } : {}), ...(shoulder > 0 ? { shoulder } : {}) };
    const height = number('first_touch', { ...args, ...optional }, 'height');

    const body = bar(end - chamfer, shoulder > 0 ? shoulder : 2 * ball, side, FINE);
    const tip = solid.Manifold.cylinder(chamfer, side, side - chamfer, FINE).translate([0, 0, end - chamfer]);
    const blank = chamfer > 0 ? body.add(tip) : body;
    const reached = (at: number): number =>
      blank.intersect(cutter({ ring, tilt, height: at }, FINE)).volume();
    // Sides of blank and bore stand in by this, and at the grazing places of the ring that counts several times over.
    const slack = 0.002 * ball;
    expect(reached(height + slack), `above ${height}`).toBeLessThan(1e-6 * ball ** 3);
    expect(reached(height - slack), `below ${height}`).toBeGreaterThan(0);
  });
});

it('leaves the ball untouched by the largest chamfer', () => {
  const args = { ball: 22, blank: 22.6, end_to_centre: 11.3, allowance: 0.3 };
  const leg = number('corner_chamfer', args);
  const blank = bar(11.3 - leg, 20, 11.3, FINE).add(
    solid.Manifold.cylinder(leg, 11.3, 11.3 - leg, FINE).translate([0, 0, 11.3 - leg]),
  );
  const ball = solid.Manifold.sphere(11, 120);
  expect(ball.subtract(blank).volume()).toBeLessThan(1e-6);
  const larger = solid.Manifold.sphere(11.3 * 1.005, 240);
  expect(larger.subtract(blank).volume()).toBeGreaterThan(0);
});
