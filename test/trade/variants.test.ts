/** Every formula beside its worked checks: optional arguments given and left out, other sizes, the smallest sizes. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calculateLines } from '../../src/engine/index';
import { fromBase } from '../../src/quantity/unit';
import { unit } from '../../src/quantity/units';
import { allFormulas, formulaNamed } from '../../src/trade';
import { FIRST_ITEMS } from '../../src/trade/build';
import { type Formula, isRefusal } from '../../src/trade/formula';
import { type Arguments, broken, callOf, given } from './given';

/** Calls beside the worked checks, each for a way of working that those do not take. */
const MORE = [
  'knee_raise(22.05 mm, 22 mm, 21.4 mm, nose_radius: 0.4 mm)',
  'ball_on_shank(30 mm, 12 mm, fillet: 2 mm, nose_radius: 0.8 mm)',
  'trial_boss(29.3 mm, 30 mm, 12 mm, fillet: 2 mm, nose_radius: 0.8 mm)',
  'trial_boss(29.3 mm, 30 mm, 12 mm, fillet: 2 mm)',
  'hollow_depth(3 mm, 60°, 30 mm, 32 mm, 15.5 mm, chamfer: 8 mm)',
  'ball_centre_from_end(15.5 mm, 20°, 32 mm, 0 mm)',
  // Past the end, short of it, and by next to nothing.
  'ball_over_reach(25 mm, 10 mm, 0.01 mm)',
  'ball_over_reach(25 mm, 10 mm, 0.0005 mm)',
  'ball_over_reach(25 mm, 10 mm, -0.01 mm)',
  // No whole step, one, two, and many.
  ...[16, 12, 4, 2.5, 1.9, 1.5, 0.3].map(
    (step) => `knee_schedule(30 mm, 29.367189 mm, 11.789089°, 30 mm, 15 mm, ${step} mm)`,
  ),
  'knee_schedule(30 mm, 29.367189 mm, 11.789089°, 32 mm, 16 mm, 2 mm, chamfer: 6 mm)',
  ...[45, 40, 30, 25, 7].flatMap((step) => [
    `ball_steps_by_angle(22 mm, ${step}°)`,
    `ball_steps_by_angle(22 mm, ${step}°, nose_radius: 9 mm)`,
  ]),
  ...[5.5, 4, 3, 1.5].flatMap((step) => [
    `ball_steps_by_travel(22 mm, ${step} mm)`,
    `ball_steps_by_travel(22 mm, ${step} mm, nose_radius: 9 mm)`,
  ]),
  'explain_tilt(22 mm, 14 mm, 15.5°, 22 mm)',
  'end_left_at(22 mm, 0 mm, 15.5°, 30 mm)',
  'thread_infeed(M10, compound_angle: 25°)',
  // A hole of those shown past the whole round, once and twice.
  'bolt_circle(80 mm, 3, start: 150°)',
  'bolt_arc(80 mm, 3, 350°, 690°)',
  'bolt_circle(80 mm, 3, start: 700°)',
  // A screw within its limits when new, one below them, and one over its size.
  'likely_size(15.7 mm, screw)',
  'likely_size(11.6 mm, screw)',
  'likely_size(4.83 mm, screw)',
  // Worn by half a micrometre of two, beside 19/32 in that it would be larger than.
  'likely_size(15.0995 mm, shaft, wear: 0.002 mm)',
];

const CALLS = [
  ...new Set([...allFormulas().flatMap(({ checks }) => checks.map(({ call }) => call)), ...MORE]),
];

function workedOut(formula: Formula, args: Arguments): Map<string, readonly number[]> {
  const inputs = formula.parameters.flatMap(({ name, unit: text, kind }) => {
    const value = args[name];
    return typeof value === 'number'
      ? [`${name} = ${value}${kind === 'quantity' ? ` ${text.replace('¤', 'AUD')}` : ''}`]
      : [];
  });
  const steps = formula
    .working(given(args))
    .map(({ name, expression }) => `${name || 'outcome'} = ${expression}`);
  const sheet = calculateLines([...inputs, ...steps].join('\n'));
  expect(sheet.findings().map(({ message }) => message)).toEqual([]);
  return new Map(
    sheet.rows().flatMap(({ statement, value }) => {
      if (statement.kind !== 'figure') return [];
      const field = formula.result.find(({ name }) => name === statement.name.text || name === '');
      if (!field) return [];
      const items = value?.kind === 'list' ? value.items : [value];
      return [
        [
          statement.name.text,
          items.map((x) => (x?.kind === 'number' ? fromBase(x.value, unit(field.unit)) : NaN)),
        ] as const,
      ];
    }),
  );
}

describe('the working gives the result', () => {
  it.each(MORE)('%s', (call) => {
    const { formula, args } = callOf(call);
    expect(broken(formula, args)).toEqual([]);
    const result = formula.compute(given(args));
    const shown = workedOut(formula, args);
    for (const { name, words, list } of formula.result) {
      if (words) continue;
      const all = [typeof result === 'object' ? (result as Record<string, number>)[name] : result]
        .flat()
        .map(Number);
      const wanted = list ? all.slice(0, FIRST_ITEMS) : all;
      const got = shown.get(name || 'outcome') ?? [];
      expect(got.length, name).toBe(wanted.length);
      got.forEach((x, i) =>
        expect(Math.abs(x - (wanted[i] ?? NaN)), name).toBeLessThan(1e-9 * Math.max(1, Math.abs(x))),
      );
    }
  });
});

describe('the working says what an optional argument changes', () => {
  /** Steps whose words differ with and without it. */
  function told(call: string, name: string): string[] {
    const { formula, args } = callOf(call);
    const without = Object.fromEntries(Object.entries(args).filter(([key]) => key !== name));
    expect(args).toHaveProperty(name);
    const [one, other] = [formula.working(given(args)), formula.working(given(without))];
    return one.filter((step, i) => step.words !== other[i]?.words).map((step) => step.name);
  }
  it.each([
    ['ball_on_shank(30 mm, 12 mm, fillet: 2 mm)', 'fillet', ['joint']],
    ['ball_on_shank(30 mm, 12 mm, nose_radius: 0.4 mm)', 'nose_radius', ['ring', 'height']],
    ['trial_boss(29 mm, 30 mm, 12 mm, nose_radius: 0.4 mm)', 'nose_radius', ['wanted', 'rise', 'height']],
    ['trial_boss(29 mm, 30 mm, 12 mm, fillet: 2 mm)', 'fillet', []],
    ['ball_work_feed(22 mm, 12°, 600 rpm, 20 rev/min, head, nose_radius: 0.8 mm)', 'nose_radius', ['cusp']],
    ['ball_steps_by_angle(22 mm, 30°, nose_radius: 6 mm)', 'nose_radius', ['cusps']],
    ['ball_steps_by_travel(22 mm, 3 mm, nose_radius: 6 mm)', 'nose_radius', ['cusps']],
  ])('%s, %s', (call, name, steps) => expect(told(call, name)).toEqual(steps));

  it('with words of its own', () => {
    const words = (call: string, step: string): string => {
      const { formula, args } = callOf(call);
      return formula.working(given(args)).find(({ name }) => name === step)?.words ?? '';
    };
    expect(words('ball_on_shank(30 mm, 12 mm, fillet: 2 mm)', 'joint')).toContain('fillet touches');
    expect(words('ball_on_shank(30 mm, 12 mm)', 'joint')).not.toContain('fillet');
    expect(words('ball_over_reach(25 mm, 10 mm, -0.5 mm)', 'end_height')).toContain('plane of the ring');
    expect(words('ball_over_reach(25 mm, 10 mm, 0.0005 mm)', 'end_height')).toContain('wall of the ring');
    for (const [call, step] of [
      ['ball_on_shank(30 mm, 12 mm)', 'ring'],
      ['ball_on_shank(30 mm, 12 mm)', 'height'],
      ['trial_boss(29 mm, 30 mm, 12 mm)', 'wanted'],
      ['ball_work_feed(22 mm, 12°, 600 rpm, 20 rev/min, head)', 'cusp'],
    ] as const)
      expect(words(call, step)).not.toMatch(/round tip|rounds of the tip/);
  });
});

describe('between its ends a result turns round only where its formula says so, for other sizes too', () => {
  const cases = allFormulas().flatMap((formula) =>
    Object.keys(formula.extremes ?? {}).map((parameter) => [formula.name, parameter] as const),
  );
  it.each(cases)('%s over %s', (name, parameter) => {
    const formula = formulaNamed(name);
    if (!formula) return expect.fail(name);
    const calls = CALLS.filter((call) => call.startsWith(`${name}(`));
    let compared = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...calls),
        fc.array(fc.double({ min: 0.4, max: 2, noNaN: true }), { minLength: 10, maxLength: 10 }),
        fc.double({ min: 0.02, max: 1, noNaN: true }),
        fc.double({ min: 1, max: 4, noNaN: true }),
        (call, scales, from, to) => {
          const given1 = callOf(call).args;
          const args: Arguments = Object.fromEntries(
            Object.entries(given1).map(([key, value], i) => [
              key,
              typeof value === 'number' && formula.parameters.find((p) => p.name === key)?.kind === 'quantity'
                ? value * (scales[i] ?? 1)
                : value,
            ]),
          );
          const at = (x: number): Arguments => ({ ...args, [parameter]: x });
          const nominal = Number(args[parameter]);
          const [low, high] = [nominal * from, nominal * to].sort((a, b) => a - b) as [number, number];
          const inner = Array.from({ length: 25 }, (_, i) => low + ((high - low) * (i + 1)) / 26);
          if ([low, nominal, high, ...inner].some((x) => broken(formula, at(x)).length > 0)) return;
          const value = (x: number, field: string): number => {
            const result = formula.compute(given(at(x)));
            if (typeof result !== 'object') return Number(result);
            return isRefusal(result) ? NaN : Number(result[field]);
          };
          const declared = formula.extremes?.[parameter]?.(given(at(nominal))) ?? [];
          const turns = declared.filter((x) => low < x && x < high);
          for (const { name: field, words, choice, list } of formula.result) {
            if (words || choice || list) continue;
            const reached = [low, nominal, high, ...turns].map((x) => value(x, field));
            if (reached.some(Number.isNaN)) continue;
            compared++;
            const slack = 1e-9 * Math.max(1, ...reached.map(Math.abs));
            const [least, most] = [Math.min(...reached) - slack, Math.max(...reached) + slack];
            const outside = inner.filter((x) => value(x, field) < least || value(x, field) > most);
            if (outside.length > 0)
              expect.fail(`${call} ${field} turns at ${outside.join()}: ${JSON.stringify(args)}`);
          }
        },
      ),
      { numRuns: 200 },
    );
    expect(compared).toBeGreaterThan(10);
  });
});
