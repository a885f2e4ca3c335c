/** Shrink fits against the equations of elasticity, integrated step by step, and each bound from both sides. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formulaNamed } from '../../src/trade';
import { given, materialCard, number, says } from './given';

const POISSON = 0.3;

/** Displacement and slope at the other end of a ring, by a Runge-Kutta of fourth order over u″ + u′/r − u/r² = 0. */
function integrate(from: number, to: number, start: readonly [number, number]): readonly [number, number] {
  const steps = 4000;
  const h = (to - from) / steps;
  const bend = (r: number, u: number, slope: number): number => u / r ** 2 - slope / r;
  let [u, v] = start;
  for (let i = 0; i < steps; i++) {
    const r = from + i * h;
    const k1 = [v, bend(r, u, v)] as const;
    const k2 = [v + (h / 2) * k1[1], bend(r + h / 2, u + (h / 2) * k1[0], v + (h / 2) * k1[1])] as const;
    const k3 = [v + (h / 2) * k2[1], bend(r + h / 2, u + (h / 2) * k2[0], v + (h / 2) * k2[1])] as const;
    const k4 = [v + h * k3[1], bend(r + h, u + h * k3[0], v + h * k3[1])] as const;
    u += (h / 6) * (k1[0] + 2 * k2[0] + 2 * k3[0] + k4[0]);
    v += (h / 6) * (k1[1] + 2 * k2[1] + 2 * k3[1] + k4[1]);
  }
  return [u, v];
}

/** How far a ring gives at radius `at` for a pressure of one there, free at radius `free`; and the pull around it there. */
function ring(modulus: number, free: number, at: number): { give: number; pull: number } {
  // At a free surface nothing presses: slope + ratio * u / r = 0.
  const [u, slope] = integrate(free, at, [free, -POISSON]);
  const per = modulus / (1 - POISSON ** 2);
  const pressed = Math.abs(per * (slope + (POISSON * u) / at));
  return { give: Math.abs(u) / pressed, pull: (per * (u / at + POISSON * slope)) / pressed };
}

const steel = materialCard('steel', { modulus: [210000, 'N/mm^2'] });
const other = materialCard('other', { modulus: [70000, 'N/mm^2'] });

describe('shrink_grip', () => {
  it.each([
    { size: 40, hub_outside: 60, shaft_bore: 15, hub: steel, shaft: steel },
    { size: 40, hub_outside: 90, shaft_bore: 25, hub: other, shaft: steel },
    { size: 25, hub_outside: 35, shaft_bore: 10, hub: steel, shaft: other },
  ])('agrees with the equations of elasticity, $size in $hub_outside, bore $shaft_bore', (sizes) => {
    const args = { ...sizes, grip_length: 30, interference: 0.03 };
    const hub = ring(sizes.hub === steel ? 210000 : 70000, sizes.hub_outside / 2, sizes.size / 2);
    const shaft = ring(sizes.shaft === steel ? 210000 : 70000, sizes.shaft_bore / 2, sizes.size / 2);
    const pressed = 0.015 / (hub.give + shaft.give);
    const got = number('shrink_grip', args, 'pressure');
    expect(got / pressed).toBeCloseTo(1, 6);
    expect(number('shrink_grip', args, 'hub_stress') / (pressed * (hub.pull + 1))).toBeCloseTo(1, 6);
    const slides = pressed * Math.PI * sizes.size * 30;
    expect(number('shrink_grip', { ...args, friction: 1 }, 'axial_force') / (slides / 1000)).toBeCloseTo(
      1,
      6,
    );
    expect(
      number('shrink_grip', { ...args, friction: 1 }, 'torque') / ((slides * sizes.size) / 2000),
    ).toBeCloseTo(1, 6);
    // The usual friction, when none is given.
    expect(number('shrink_grip', args, 'axial_force') / ((0.12 * slides) / 1000)).toBeCloseTo(1, 6);
  });

  it('a solid shaft is the limit of ever smaller bores on its surface, and stiffer than a hollow one', () => {
    const args = { size: 40, hub_outside: 70, grip_length: 30, interference: 0.03, hub: steel, shaft: other };
    const solid = number('shrink_grip', args, 'pressure');
    expect(number('shrink_grip', { ...args, shaft_bore: 1e-4 }, 'pressure') / solid).toBeCloseTo(1, 9);
    fc.assert(
      fc.property(fc.double({ min: 1, max: 38, noNaN: true }), (bore) => {
        expect(number('shrink_grip', { ...args, shaft_bore: bore }, 'pressure')).toBeLessThan(solid);
      }),
    );
  });

  const call = (rest: string, outside = '80 mm', interference = '0.04 mm'): string =>
    `shrink_grip(40 mm, 30 mm, ${outside}, ${interference}, steel_C45, steel_C45${rest})`;

  it.each([
    [call('', '40 mm'), call('', '40.01 mm'), 'A hub of 40 mm has no wall around a hole of 40 mm'],
    [call('', '80 mm', '0.401 mm'), call('', '80 mm', '0.4 mm'), 'more than any metal bears'],
    [
      call(', shaft_bore: 40 mm'),
      call(', shaft_bore: 39.9 mm'),
      'A shaft of 40 mm cannot have a bore of 40 mm',
    ],
    [call(', shaft_bore: -0.1 mm'), call(', shaft_bore: 0 mm'), 'give a smaller one'],
    [call(', friction: 0'), call(', friction: 0.05'), 'A coefficient of friction of 0 is none'],
    [call(', friction: 0'), call(', friction: 0.0005'), 'give one of 0.05 to 0.25'],
    [call(', friction: 1.001'), call(', friction: 1'), 'give one of 0.05 to 0.25'],
    [call(', hub_yield: 0 MPa'), call(', hub_yield: 0.0005 MPa'), 'A yield strength is above zero'],
    ['shrink_grip(0 mm, 30 mm, 80 mm, 0.04 mm, steel_C45, steel_C45)', call(''), 'more than zero'],
    ['shrink_grip(40 mm, 0 mm, 80 mm, 0.04 mm, steel_C45, steel_C45)', call(''), 'more than zero'],
    [call('', '80 mm', '0 mm'), call(''), 'more than zero'],
  ])('%s, and %s', (bad, good, text) => {
    expect(says(bad).join(' ')).toContain(text);
    expect(says(good)).toEqual([]);
  });

  // 0.001 of 210 GPa over 2 is 105 MPa; three quarters of it press, and twice that over three quarters pulls: 210 MPa.
  it.each([
    [
      call(', hub_yield: 209.9 MPa'),
      call(', hub_yield: 210.1 MPa'),
      '210 MPa at the bore stretches a hub that yields at 209.9 MPa',
    ],
    [call(', friction: 0.0499'), call(', friction: 0.05'), 'not 0.0499'],
    [call(', friction: 0.0005'), call(', friction: 0'), 'do not count on more'],
    [call(', friction: 0.2501'), call(', friction: 0.25'), 'do not count on more'],
    // More than 1 is refused, and not doubted as well.
    [call(', friction: 1'), call(', friction: 1.001'), 'do not count on more'],
  ])('%s warns, and %s does not', (bad, good, text) => {
    expect(says(bad, 'warning').join(' ')).toContain(text);
    expect(says(good, 'warning')).toEqual([]);
  });

  it.each(['hub', 'shaft'])('asks for the modulus of the %s where its card has none', (part) => {
    const args = { size: 40, hub_outside: 70, grip_length: 30, interference: 0.03, hub: steel, shaft: steel };
    const without = given({ ...args, [part]: materialCard('putty', {}), hub_yield: 1 });
    const formula = formulaNamed('shrink_grip') ?? expect.fail();
    expect(formula.compute(without)).toMatchObject({
      parameter: part,
      refused: expect.stringContaining('The card of `putty` needs a `modulus` above zero') as string,
    });
    expect(formula.working(without)).toEqual([]);
    expect(formula.conditions.filter((condition) => !condition.holds(without))).toEqual([]);
  });
});
