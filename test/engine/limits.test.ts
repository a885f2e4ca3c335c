/** Limits that travel: correlations, one-sided zones, extremes in between, and whose share it is. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Sheet, calculateLines } from '../../src/engine/index';
import { band, shares } from '../../src/quantity/limits';
import type { Quantity } from '../../src/quantity/value';
import { allFormulas } from '../../src/trade/index';

function figure(sheet: Sheet, name: string, field?: string): Quantity {
  const value = sheet.valueOf(name);
  const part = value?.kind === 'record' && field ? value.fields.get(field) : value;
  if (part?.kind !== 'number') throw new Error(`${name} has no number: ${JSON.stringify(sheet.findings())}`);
  return part;
}

/** Ends of a percentage: a limit in percent could be read two ways. */
const percents = (shown: string, part: number): string =>
  [1 - part, 1 + part].map((by) => `${parseFloat(shown) * by}%`).join(' .. ');

const lines = (...text: string[]): Sheet => calculateLines(`${text.join('\n')}\n`);

describe('limits', () => {
  it('cancel where an input meets itself', () => {
    const sheet = lines('x = 30 mm ± 0.05', 'a = x - x', 'b = x / x', 'c = (x + 2 mm) - x');
    for (const name of ['a', 'b', 'c']) expect(figure(sheet, name).spread).toBeNull();
    expect(figure(sheet, 'a').value).toBe(0);
  });

  it('add up in the worst case and by root sum square', () => {
    const sheet = lines('x = 30 mm ± 0.03', 'y = 20 mm ± 0.04', 's = x + y', 'd = x - y');
    for (const name of ['s', 'd']) {
      const q = figure(sheet, name);
      const reach = band(q);
      expect((reach?.high ?? 0) - q.value).toBeCloseTo(0.07, 12);
      expect(q.value - (reach?.low ?? 0)).toBeCloseTo(0.07, 12);
      // 3, 4, 5.
      expect((reach?.rssHigh ?? 0) - q.value).toBeCloseTo(0.05, 12);
      expect(q.value - (reach?.rssLow ?? 0)).toBeCloseTo(0.05, 12);
    }
  });

  it('keep their sides', () => {
    const sheet = lines('x = 30 mm +0.03/-0.01 mm', 'y = 2 * x', 'z = 100 mm - x');
    expect(band(figure(sheet, 'y'))).toMatchObject({
      low: expect.closeTo(59.98, 9),
      high: expect.closeTo(60.06, 9),
    });
    expect(band(figure(sheet, 'z'))).toMatchObject({
      low: expect.closeTo(69.97, 9),
      high: expect.closeTo(70.01, 9),
    });
  });

  it('leave out a nominal that lies outside its own zone', () => {
    // 25 f7 is -20/-41 µm: ISO 286-2.
    const sheet = lines('x = 25 mm f7', 'y = 2 * x', 'z = 2 * x + (10 mm f7)');
    expect(band(figure(sheet, 'y'))).toMatchObject({
      low: expect.closeTo(49.918, 9),
      high: expect.closeTo(49.96, 9),
    });
    const z = band(lines('x = 25 mm f7', 'w = 10 mm f7', 'z = x + w').valueOf('z') as Quantity);
    // 10 f7 is -13/-28 µm: ISO 286-2.
    expect(z?.low).toBeCloseTo(35 - 0.069, 9);
    expect(z?.high).toBeCloseTo(35 - 0.033, 9);
    expect(z?.rssHigh).toBeCloseTo(35 - 0.033, 9);
    expect(z?.rssLow).toBeCloseTo(35 - 0.033 - Math.hypot(0.021, 0.015), 9);
  });

  it('see an extreme between the ends', () => {
    const square = band(figure(lines('x = 0.5 mm ± 1.5', 'y = x * x'), 'y'));
    expect(square?.low).toBeCloseTo(0, 12);
    expect(square?.high).toBeCloseTo(4, 12);
    expect(band(figure(lines('x = 0.5 mm ± 1.5', 'y = abs(x)'), 'y'))?.low).toBeCloseTo(0, 12);
    expect(band(figure(lines('x = 80° ± 20°', 'y = sin(x)'), 'y'))?.high).toBeCloseTo(1, 12);
  });

  it('start anew at a line that asks for its own', () => {
    const sheet = lines('x = 30 mm ± 0.05', 'y = 2 * x ± 0.2 mm', 'z = y + x');
    expect(
      shares(figure(sheet, 'z')).map((s) => [sheet.inputName(s.input), Number(s.share.toFixed(4))]),
    ).toEqual([
      ['y', 0.8],
      ['x', 0.2],
    ]);
  });

  it('say which input matters most: a ball of a ring and a height', () => {
    const sheet = lines(
      'ball = 30 mm ± 0.02',
      'setup = ball_on_shank(30 mm, 12 mm)',
      'ring = setup.ring ± 0.05 mm',
      'height = 3.065 mm ± 0.02',
      'made = ball_from_ring(ring, height)',
    );
    const parts = shares(figure(sheet, 'made')).map((s) => sheet.inputName(s.input));
    expect(parts).toEqual(['ring', 'height']);
    // dD/d(ring) = cos(tilt), dD/dh = 2 sin(tilt): sensitivities of the ball, own derivation, by differences.
    const total = 0.05 * Math.cos((11.789 * Math.PI) / 180) + 0.02 * 2 * Math.sin((11.789 * Math.PI) / 180);
    expect(band(figure(sheet, 'made'))?.high).toBeCloseTo(30 + total, 3);
    expect(shares(figure(sheet, 'made'))[0]?.share).toBeCloseTo(0.857, 2);
  });

  it('cancel through a formula, whatever the order of its arguments', () => {
    const sheet = lines(
      'speed = 90 rpm ± 1',
      'feed = 0.2 mm/rev ± 0.01',
      'gone = feed_rate(feed, speed) - feed * speed',
    );
    expect(figure(sheet, 'gone')).toMatchObject({ value: expect.closeTo(0, 9), spread: null });
  });

  it('reach a formula through the items of a list', () => {
    // Two touches across from each other on X: the centre is halfway, so half of what one moves.
    const sheet = lines(
      'a = 10 mm ± 0.1',
      'c = circle_from_touches([a, -10 mm, 0 mm], [0 mm, 0 mm, 10 mm], 0 mm, hole)',
    );
    expect(band(figure(sheet, 'c', 'centre_x'))).toMatchObject({
      low: expect.closeTo(-0.05, 6),
      high: expect.closeTo(0.05, 6),
    });
  });

  it('meet the extreme that a formula declares where it lies between them, and only there', () => {
    // 16 mm cos(tilt) + 12 mm sin(tilt) is at most 20 mm, at atan(12/16) = 36.87°; the stylus adds 3 mm.
    const high = (tilt: string): number | undefined =>
      band(
        figure(lines(`t = ${tilt}`, 'x = ball_centre_from_end(16 mm, t, 30 mm, 6 mm, chamfer: 3 mm)'), 'x'),
      )?.high;
    const at = (degrees: number): number => {
      const tilt = (degrees * Math.PI) / 180;
      return 16 * Math.cos(tilt) + 12 * Math.sin(tilt) + 3;
    };
    expect(high('35° ± 5°')).toBeCloseTo(23, 9);
    expect(high('30° ± 5°')).toBeCloseTo(at(35), 9);
    expect(high('42° ± 3°')).toBeCloseTo(at(39), 9);
  });

  it('reach a formula by several of its arguments at once', () => {
    // A hundredth more of each makes 1.01 squared of their product.
    const sheet = lines(
      'x = 1 mm ± 0.01',
      'feed = x * 0.2 / 1 rev',
      'speed = 90 rpm * (x / 1 mm)',
      'v = feed_rate(feed, speed)',
    );
    expect(band(figure(sheet, 'v'))).toMatchObject({
      low: expect.closeTo(18 * 0.99 ** 2, 9),
      high: expect.closeTo(18 * 1.01 ** 2, 9),
    });
    expect(figure(sheet, 'v').spread).toHaveLength(1);
  });

  it('reach a formula from at most 64 inputs', () => {
    // Brief rule: at most 64 inputs reach one result. Half of them by each argument.
    const of = (name: string, unit: string, n: number): string[] => {
      const parts = Array.from({ length: n }, (_, i) => `${name}${i}`);
      return [...parts.map((part) => `${part} = 1 ${unit} ± 0.01`), `${name}_sum = ${parts.join(' + ')}`];
    };
    const sheet = (n: number): Sheet =>
      lines(...of('a', 'mm/rev', 32), ...of('b', 'rpm', n), 'v = feed_rate(a_sum, b_sum)');
    expect(figure(sheet(32), 'v').spread).toHaveLength(64);
    expect(sheet(33).findings()).toMatchObject([{ code: 'too-many-inputs', data: { count: 65 } }]);
  });

  it('at which a formula has no answer are told, and why', () => {
    // Below zero at the low end; and 501 mm lies beyond the last size of ISO 286, which is 500 mm.
    expect(lines('d = 1 mm ± 2', 'n = spindle_speed(24 m/min, d)').findings()).toMatchObject([
      { code: 'fails-at-limit', line: 1, data: { says: expect.stringContaining('-1 mm') } },
    ]);
    expect(lines('d = 499.5 mm ± 0.4', 'f = fit(d, H7, g6)').findings()).toEqual([]);
    expect(lines('d = 499.5 mm ± 1.5', 'f = fit(d, H7, g6)').findings()).toMatchObject([
      { code: 'fails-at-limit', line: 1, data: { says: expect.stringContaining('501 mm') } },
    ]);
  });

  it('take no notice of a turning point outside them', () => {
    // A boss of 29.367 mm leaves nothing on the end (ring of a 30 mm ball on 12 mm); of 29.2 or of 29.5 mm always something.
    for (const size of [29.2, 29.5]) {
      const foot = band(
        figure(lines(`b = ${size} mm ± 0.01`, 'x = trial_boss(b, 30 mm, 12 mm)'), 'x', 'end_foot'),
      );
      expect(foot?.low).toBeGreaterThan(0.1);
    }
    const across = band(
      figure(lines('b = 29.367 mm ± 0.01', 'x = trial_boss(b, 30 mm, 12 mm)'), 'x', 'end_foot'),
    );
    expect(across?.low).toBeLessThan(0.002);
  });

  it('are exact at zero width', () => {
    expect(figure(lines('x = 30 mm ± 0'), 'x').spread).toBeNull();
  });

  it('travel through rounding as steps', () => {
    const reach = band(figure(lines('x = 10.04 mm ± 0.02', 'y = round(x, 0.1 mm)'), 'y'));
    expect(reach).toMatchObject({ low: expect.closeTo(10, 9), high: expect.closeTo(10.1, 9) });
  });
});

describe('the corners of small limits lie inside the resulting band', () => {
  // The worst case adds single effects, so corners may leave it by terms of second order only: limits here are a
  // hundred-thousandth of the nominal, and a thousandth of the band's width is allowed.
  const numeric = allFormulas().filter(
    (f) =>
      f.parameters.every((p) => p.kind === 'quantity') && f.parameters.length >= 2 && f.checks.length > 0,
  );
  for (const formula of numeric) {
    it(formula.name, () => {
      const call = formula.checks[0]?.call ?? '';
      const inner = call.slice(call.indexOf('(') + 1, -1);
      const parts = inner.split(/,\s*/);
      fc.assert(
        fc.property(
          fc.array(fc.integer({ min: -1, max: 1 }), { minLength: parts.length, maxLength: parts.length }),
          (signs) => {
            const names = parts.map((_, i) => `p${i}`);
            const named = parts.map((part, i) =>
              /^\w+:/.test(part) ? `${part.split(':')[0]}: ${names[i]}` : names[i],
            );
            const literal = (part: string): string => part.replace(/^\w+:\s*/, '');
            const part = 1e-5;
            const define = parts.map((text, i) => `${names[i]} = ${literal(text)}`);
            const sheet = calculateLines(`${define.join('\n')}\n`);
            const sizes = names.map((n) => figure(sheet, n));
            if (sizes.some((q) => q.value === 0)) return;
            const shown = sizes.map((q) => `${q.value / q.unit.factor} ${q.unit.symbol}`.replace(' °', '°'));
            const dev = sizes.map((q) =>
              `${Math.abs(q.value / q.unit.factor) * part} ${q.unit.symbol}`.replace(' °', '°'),
            );
            const banded = calculateLines(
              `${shown.map((s, i) => `${names[i]} = ${s.endsWith('%') ? percents(s, part) : `${s} ± ${dev[i]}`}`).join('\n')}\nr = ${formula.name}(${named.join(', ')})\n`,
            );
            const corner = calculateLines(
              `${sizes.map((q, i) => `${names[i]} = ${(q.value / q.unit.factor) * (1 + part * (signs[i] ?? 0))} ${q.unit.symbol}`.replace(' °', '°')).join('\n')}\nr = ${formula.name}(${named.join(', ')})\n`,
            );
            for (const field of formula.result) {
              if (field.words || field.choice || field.list) continue;
              const q = figure(banded, 'r', field.name || undefined);
              const reach = band(q);
              const x = figure(corner, 'r', field.name || undefined).value;
              const width = reach ? reach.high - reach.low : 0;
              const slack = width * 1e-3 + Math.abs(q.value) * 1e-9 + 1e-9;
              expect(x).toBeGreaterThanOrEqual((reach?.low ?? q.value) - slack);
              expect(x).toBeLessThanOrEqual((reach?.high ?? q.value) + slack);
            }
          },
        ),
        { numRuns: 20 },
      );
    });
  }
});
