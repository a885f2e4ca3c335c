/** Workings: what is put in for the names of a line, and the steps of the formula that it calls. */
import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import { type WorkingStep, workedOut, workingOfLine } from '../../src/engine/working';

const fenced = (lines: readonly string[], fence = 'figures'): string =>
  `\`\`\`${fence}\n${lines.join('\n')}\n\`\`\`\n`;
const MILL = fenced(['speeds = [70, 115, 190] rpm'], 'machine mill');

/** The steps of the first of the lines. */
function stepsOf(lines: readonly string[], front = ''): readonly WorkingStep[] {
  const sheet = calculate(front + fenced(lines) + MILL);
  const row = sheet.rows()[0];
  if (row?.statement.kind !== 'show') throw new Error('no expression');
  const { expression, to } = row.statement;
  const conversion = to && row.value?.kind === 'number' ? { to, value: row.value } : null;
  return workingOfLine(sheet, row.text, expression, '', conversion);
}
/** Of each its name, the figures put in and the result. */
const worked = (lines: readonly string[], front = ''): readonly (readonly string[])[] =>
  stepsOf(lines, front).map(({ name, figures, result }) => [name, figures, result]);

describe('an expression', () => {
  it.each([
    [['2 * pi * r', 'r = 5 mm'], '2 * pi * 5 mm', '31.416 mm'],
    [['a / b', 'a = 1 mm', 'b = a'], '1 mm / 1 mm', '1'],
    [['-a - b', 'a = -3 mm', 'b = -2 mm'], '-(-3 mm) - (-2 mm)', '5 mm'],
    [['max(a, 1 mm)', 'a = -3 mm'], 'max(-3 mm, 1 mm)', '1 mm'],
    [['2 * (a)', 'a = -3 mm'], '2 * (-3 mm)', '-6 mm'],
    [['a * f', 'a = 3 rev', 'f = 5 mm/rev'], '3 rev * 5 mm/rev', '15 mm'],
    [['2^a', 'a = 1/2'], '2^0.5', '1.41421'],
    [['a^2', 'a = 3 mm'], '(3 mm)^2', '9 mm²'],
    [['90 m/min / f', 'f = 5 mm/rev'], '90 m/min / (5 mm/rev)', '18000 rev/min'],
    [['(a + b) * 2', 'a = 1 mm', 'b = 2 mm'], '(1 mm + 2 mm) * 2', '6 mm'],
    [['s.ring + 1 mm', 's = ball_on_shank(30 mm, 12 mm)'], '29.367 mm + 1 mm', '30.367 mm'],
    [['ball_on_shank(b, 12 mm).ring * 2', 'b = 30 mm'], 'ball_on_shank(30 mm, 12 mm).ring * 2', '58.734 mm'],
    [
      ['2 * circle_from_touches(x, [1, 2, 4] mm, 2 mm, hole).diameter', 'x = [1, 2, 1] mm'],
      '2 * circle_from_touches([1 mm, 2 mm, 1 mm], [1, 2, 4] mm, 2 mm, hole).diameter',
      '10.325 mm',
    ],
    [['s.ring to in', 's = ball_on_shank(30 mm, 12 mm)'], '29.367 mm to in', '1.1562 in'],
    [['30 mm to in'], '30 mm to in', '1.1811 in'],
    // As many digits as it takes.
    [['a * 1000', 'a = 1 mm / 3'], '0.333333 mm * 1000', '333.333 mm'],
    // Rounded to a thousandth of a millimetre it would be the angle of a ratio above one.
    [['asin(a / b)', 'a = 0.01315 in', 'b = 0.3344 mm'], 'asin(0.01315 in / 0.3344 mm)', '87.233°'],
    // As many as there are where none are enough.
    [
      ['(a - b) * 10^15', 'a = 1/3', 'b = 0.333333333333333'],
      '(0.333333333333333 - 0.333333333333333) * 10^15',
      '0.333067',
    ],
    // What is on a card is there for no digits.
    [['2 * speed_step(n, mill)', 'n = 300 rpm / 3.1'], '2 * speed_step(97 rpm, mill)', '140 rpm'],
  ])('%s', (lines, figures, result) => {
    expect(stepsOf(lines)).toEqual([{ words: null, name: '', expression: lines[0], figures, result }]);
  });

  it('of a figure alone, of a list and of what has no value has no working', () => {
    for (const lines of [['30 mm'], ['[a, 2 mm]', 'a = 3 mm'], ['a + 1'], ['ball_on_shank(30 mm, 40 mm)']])
      expect(worked(lines)).toEqual([]);
  });
});

describe('a formula', () => {
  const ring = ['ring', '30 mm * cos(11.789°)', '29.367 mm'];
  it('is told step by step, up to the field that is asked for', () => {
    const steps = worked(['ball_on_shank(b, 12 mm)', 'b = 30 mm']);
    expect(steps.slice(0, 3)).toEqual([
      ['joint', 'asin(12 mm / 30 mm)', '23.578°'],
      ['tilt', '23.578° / 2', '11.789°'],
      ring,
    ]);
    expect(steps.length).toBeGreaterThan(3);
    for (const line of ['ball_on_shank(b, 12 mm).ring', '(ball_on_shank(b, 12 mm)).ring'])
      expect(worked([line, 'b = 30 mm'])).toEqual(steps.slice(0, 3));
  });

  it('with a single result tells it last', () => {
    expect(worked(['spindle_speed(24 m/min, d)', 'd = 30 mm'])).toEqual([
      ['path_per_turn', 'pi * 30 mm / 1 rev', '94.2478 mm/rev'],
      ['', '24 m/min / (94.2478 mm/rev)', '255 rpm'],
    ]);
    // Half an angle that is used further on has the digits that takes.
    expect(worked(['division_chord(1000 mm, 7)'])).toEqual([
      ['half_angle', '180° * 1 / 7', '25.7143°'],
      ['', '1000 mm * sin(25.7143°)', '433.884 mm'],
    ]);
  });

  it('has as many digits as its steps take of each figure, and no more', () => {
    expect(worked(['trial_boss(29.367 mm, 30 mm, 12 mm)'])).toEqual([
      ['tilt', 'asin(12 mm / 30 mm) / 2', '11.789089°'],
      ['wanted', '30 mm * cos(11.789089°)', '29.3671894 mm'],
      ['move', '(29.3671894 mm - 29.367 mm) / 2', '0.0000947 mm'],
      ['rise', 'sqrt((30 mm / 2)^2 - (29.367 mm / 2)^2)', '3.065 mm'],
      ['height', '3.065 mm', '3.065 mm'],
      ['end_foot', 'abs(3.065 mm * cos(11.789089°) - (29.367 mm / 2) * sin(11.789089°)) * 2', '0.001 mm'],
    ]);
    // The first of its depths is nothing: figures that come to less than half a digit come to that.
    expect(worked(['chamfer_steps(22 mm, 0 mm, 3)']).slice(1, 3)).toEqual([
      ['corner', '(22 mm / 2 + 0 mm) / cos(22.5° / 2)', '11.2155 mm'],
      ['stock', '11.2155 mm - 22 mm / 2', '0.216 mm'],
    ]);
  });

  it('rounds the numbers of its own steps as well', () => {
    const steps = stepsOf(['taper_found([12.76, 12.73] mm, [10, 70] mm)']);
    const step = (name: string): WorkingStep | undefined => steps.find((each) => each.name === name);
    expect(step('lean')).toMatchObject({ expression: '-0.9 mm²', figures: '-0.9 mm²', result: '-0.9 mm²' });
    expect(step('at_zero')).toMatchObject({
      expression: '12.745 mm - per_metre * 40 mm',
      figures: '12.745 mm - (-0.5 mm/m) * 40 mm',
      result: '12.765 mm',
    });
    const [, , , , shares, likelihoods] = worked(['likely_size(29.93 mm, shaft, wear: 0.25 mm)']);
    expect(shares).toEqual(['all_shares', '0.520106', '0.520106']);
    expect(likelihoods?.[1]).toContain('(30.1625 mm - 29.93 mm) / 0.25 mm) / 0.520106, ');
  });

  it('rounds each of several numbers of a step, and leaves the step as it is', () => {
    // Two of 300.123456789 mm do not come out of one bar of 500 mm; 196.876543211 mm of each is left.
    const steps = stepsOf(['cut_list([300.123456789, 300.123456789] mm, 500 mm, 3 mm)']);
    const rounded = '196.8765 mm + 196.8765 mm';
    expect(steps.at(-1)).toMatchObject({ expression: rounded, figures: rounded, result: '393.753 mm' });
  });

  it('comes to nothing where no digits of a drawing would show what is left', () => {
    const steps = worked(['ball_setup_result(22 mm, 3.050569 mm, 15.5°, 9.525 mm)']);
    expect(steps.find(([name]) => name === 'ball')?.[2]).toBe('22.8303 mm');
    expect(steps.find(([name]) => name === 'pip_height')?.[2]).toBe('0 mm');
    // What is small and shows is kept, as is what has no digits of its own.
    expect(steps.find(([name]) => name === 'pip_base')?.[2]).toBe('0.0000019 mm');
  });

  it('has them in every step that a later one needs, the last or not', () => {
    const steps = worked(['first_touch(30.39 mm, 29.749 mm, 11.789089°, 30.39 mm, 15.195 mm)']);
    expect(steps.map(([name, , result]) => [name, result])).toEqual([
      ['front', '15.50888 mm'],
      ['back', '12.41794 mm'],
      ['height', '15.50888 mm'],
      ['travel', '12.404 mm'],
    ]);
    // No more than the figures of a list show.
    const turned = worked(['hole_grid(2, 2, 111 mm, -37 mm, first_x: 370 mm, turned: 36.8698976458°)']);
    expect(turned.find(([name]) => name === 'x')?.[1]).toContain('370 mm + 1 * 111 mm * cos(36.87°)');
  });

  it('of one step is that step, and of no field of a number there is none', () => {
    expect(worked(['thread_sizes(M10).diameter'])).toEqual([['diameter', '10 mm', '10 mm']]);
    for (const line of ['sqrt(4).x', 'none_such(3 mm).ring']) expect(worked([line])).toEqual([]);
  });

  it('has none for a step on the way, which is no field and has no value', () => {
    for (const line of ['fit(25 mm, H7, g6).hole_upper', 'ball_on_shank(30 mm, 12 mm).joint']) {
      const [sheet, steps] = [calculate(fenced([line])), worked([line])];
      expect([line, sheet.rows()[0]?.value, steps]).toEqual([line, null, []]);
    }
    expect(worked(['fit(25 mm, H7, g6).hole_max']).at(-1)).toEqual([
      'hole_max',
      '25 mm + 21 µm',
      '25.021 mm',
    ]);
  });

  it('gives the result in the units of the note', () => {
    expect(worked(['ball_on_shank(30 mm, 12 mm).ring'], '---\nunits: in\n---\n').at(-1)).toEqual([
      ring[0],
      ring[1],
      '1.1562 in',
    ]);
  });

  it('shows the first items of a list', () => {
    const x = worked(['bolt_circle(d, 6).x', 'd = 60 mm']).at(-1);
    expect(x).toEqual([
      'x',
      '[60 mm / 2 * cos(0° + 0 * 60°), 60 mm / 2 * cos(0° + 1 * 60°), 60 mm / 2 * cos(0° + 2 * 60°)]',
      '[30, 15, -15, -30, -15, 15] mm',
    ]);
    // 360° / 7 has to be precise enough for what it leads to.
    expect(worked(['bolt_circle(600 mm, 7).x']).at(-1)?.[1]).toContain('cos(0° + 1 * 51.42857°)');
  });
});

it('what is no expression has no value', () => {
  for (const text of ['', 'a = 3 mm', 'none', '3 mm < 4 mm'])
    expect([text, workedOut(text)]).toEqual([text, null]);
  expect(workedOut('3 mm + 1 mm')).toMatchObject({ value: 4 });
});
