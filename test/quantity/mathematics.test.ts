import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { show } from '../../src/quantity/display';
import { MATHEMATICS, PI, cosine, sine } from '../../src/quantity/mathematics';
import { unitFrom } from '../../src/quantity/units';
import type { Fault, Quantity } from '../../src/quantity/value';
import { amountOf, codeOf, ok, q } from './make';

const call = (name: string, ...given: Quantity[]): Quantity | Fault =>
  MATHEMATICS.get(name)?.compute(given) ?? expect.fail(name);

describe('the plain mathematics', () => {
  it('is the brief list and no more', () => {
    const names = 'sqrt abs min max hypot sin cos tan asin acos atan atan2 round round_up round_down';
    expect([...MATHEMATICS.keys()].join(' ')).toBe(names);
    expect(PI.value).toBe(Math.PI);
  });

  it.each([...MATHEMATICS.values()])(
    '$name: its example holds',
    ({ name, example: [written, gives], counts }) => {
      const [, called, inside = ''] = /^(\w+)\((.*)\)$/.exec(written) ?? [];
      expect(called).toBe(name);
      const given = inside.split(', ').map((argument) =>
        argument
          .split(' - ')
          .map((text) => {
            const [, amount, symbol = ''] = /^([\d.]+) ?(.*)$/.exec(text) ?? [];
            expect(unitFrom(symbol), text).not.toBeNull();
            return q(Number(amount), symbol);
          })
          .reduce((a, b) => ({ ...a, value: a.value - b.value })),
      );
      expect(given.length).toBeGreaterThanOrEqual(counts[0]);
      expect(given.length).toBeLessThanOrEqual(counts[1]);
      expect(show(ok(call(name, ...given)))).toBe(gives);
    },
  );

  const cases: [Quantity | Fault, number, string][] = [
    [call('sqrt', q(2)), Math.SQRT2, ''],
    [call('sqrt', q(4, 'in^2')), 2, 'in'],
    [call('sqrt', q(9, 'm^2/s^2')), 3, 'm/s'],
    [call('abs', q(-3, 'mm')), 3, 'mm'],
    [call('min', q(3, 'mm'), q(2, 'mm'), q(4, 'mm')), 2, 'mm'],
    [call('max', q(1, 'in'), q(30, 'mm')), 30 / 25.4, 'in'],
    [call('min', q(20, '°C'), q(60, '°F')), 140 / 9, '°C'],
    [call('hypot', q(3, 'mm'), q(4, 'mm'), q(12, 'mm')), 13, 'mm'],
    [call('sin', q(1, 'rad')), Math.sin(1), ''],
    [call('tan', q(30, 'deg')), 1 / Math.sqrt(3), ''],
    [call('asin', q(50, '%')), 30, 'deg'],
    [call('acos', q(-1)), 180, 'deg'],
    [call('atan2', q(-5, 'mm'), q(5, 'mm')), -45, 'deg'],
    [call('atan2', q(0, 'mm'), q(-5, 'mm')), 180, 'deg'],
    [call('round', q(2.5)), 3, ''],
    [call('round', q(-2.5)), -3, ''],
    [call('round', q(29.374, 'mm'), q(0.05, 'mm')), 29.35, 'mm'],
    [call('round', q(1, 'in'), q(1, 'mm')), 25 / 25.4, 'in'],
    [call('round', q(21.3, '°C'), q(1, 'K')), 21, '°C'],
    [call('round', q(69.9, '°F'), { ...q(1, 'K'), value: 5 / 9 }), 70, '°F'],
    [call('round_up', q(2.1)), 3, ''],
    [call('round_up', q(-2.1)), -2, ''],
    [call('round_down', q(-2.1)), -3, ''],
    // 0.7 / 0.1 is a little less than seven in binary; seven steps it is.
    [call('round_down', q(0.7, 'mm'), q(0.1, 'mm')), 0.7, 'mm'],
    [call('round_up', q(0.3, 'mm'), q(0.1, 'mm')), 0.3, 'mm'],
  ];
  it.each(cases)('case %#', (made, amount, symbol) => {
    const [got, u] = amountOf(made);
    expect(u).toBe(symbol);
    expect(got).toBeCloseTo(amount, 9);
  });

  const faults: [Quantity | Fault, string][] = [
    [call('sin', q(30)), 'angle-needed'],
    [call('cos', q(0.5)), 'angle-needed'],
    [call('tan', q(1)), 'angle-needed'],
    [call('sin', q(30, 'mm')), 'argument-of-wrong-kind'],
    [call('sin', q(0.25, 'rev')), 'argument-of-wrong-kind'],
    [call('asin', q(1, 'mm')), 'argument-of-wrong-kind'],
    [call('asin', q(1.01)), 'outside-domain'],
    [call('acos', q(-1.01)), 'outside-domain'],
    [call('tan', q(90, 'deg')), 'no-tangent'],
    [call('tan', q(-270, 'deg')), 'no-tangent'],
    [call('atan2', q(0, 'mm'), q(0, 'mm')), 'no-direction'],
    [call('atan2', q(1, 'mm'), q(1)), 'unit-mismatch'],
    [call('hypot', q(1, 'mm'), q(1, 'kg')), 'unit-mismatch'],
    [call('hypot', q(1, '°C'), q(1, '°C')), 'temperature-scaled'],
    [call('abs', q(-5, '°C')), 'temperature-scaled'],
    [call('sqrt', q(20, '°C')), 'temperature-scaled'],
    [call('sqrt', q(20, 'mm')), 'root-not-whole'],
    [call('sqrt', q(-1)), 'root-of-negative'],
    [call('min', q(1, 'mm'), q(1)), 'unit-mismatch'],
    [call('max', q(1, 'AUD'), q(1, 'NZD')), 'unit-mismatch'],
    [call('round', q(1.5, 'mm')), 'step-needed'],
    [call('round', q(1.5, 'mm'), q(1)), 'unit-mismatch'],
    [call('round', q(1.5, 'mm'), q(0, 'mm')), 'step-not-positive'],
    [call('round_up', q(1.5), q(-1)), 'step-not-positive'],
  ];
  it.each(faults)('refusal %#', (made, code) => expect(codeOf(made)).toBe(code));
});

describe('sine and cosine of degrees', () => {
  it('are exact where a machinist knows them', () => {
    const known: [number, number, number][] = [
      [0, 0, 1],
      [30, 0.5, NaN],
      [60, NaN, 0.5],
      [90, 1, 0],
      [180, 0, -1],
      [270, -1, 0],
      [360, 0, 1],
      [-90, -1, 0],
      [-30, -0.5, NaN],
      [150, 0.5, NaN],
      [720, 0, 1],
    ];
    for (const [degrees, s, c] of known) {
      if (!Number.isNaN(s)) expect(sine(degrees) + 0, `sin ${degrees}`).toBe(s);
      if (!Number.isNaN(c)) expect(cosine(degrees) + 0, `cos ${degrees}`).toBe(c);
    }
  });

  it('are never minus nothing as figures', () => {
    for (const name of ['sin', 'tan'])
      for (const degrees of [-360, -180, 180, 360])
        expect(ok(call(name, q(degrees, 'deg'))).value, name).toBe(0);
  });

  it('agree with radians everywhere', () => {
    fc.assert(
      fc.property(fc.double({ min: -2000, max: 2000, noNaN: true }), (degrees) => {
        expect(sine(degrees)).toBeCloseTo(Math.sin((degrees * Math.PI) / 180), 12);
        expect(cosine(degrees)).toBeCloseTo(Math.cos((degrees * Math.PI) / 180), 12);
      }),
    );
  });
});
