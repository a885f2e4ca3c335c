/** What a line that cannot be worked out is told, and what is offered in its place. */
import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import { parseLine } from '../../src/notation/line';

const note = (...lines: readonly string[]): string => `\`\`\`figures\n${lines.join('\n')}\n\`\`\`\n`;

describe('a call that does not fit', () => {
  it.each([
    ['sqrt(1, 2)', 'argument-count', 'not 2.'],
    ['sqrt(1, 2)', 'argument-count', '`sqrt` takes 1 value, not 2.'],
    ['hypot(1)', 'argument-count', '`hypot` takes 2 or more values, not 1.'],
    ['max()', 'argument-count', '`max` takes 1 or more values, not 0.'],
    ['round()', 'argument-count', '`round` takes 1 to 2 values, not 0.'],
    ['round(1, 2, 3)', 'argument-count', '`round` takes 1 to 2 values, not 3.'],
    ['sqrt(x: 4)', 'argument-name-unknown', '`sqrt` has no `x`.'],
    ['spindle_speed(24 m/min, 30 mm, 3)', 'argument-count', '`spindle_speed` takes 2 values, not 3.'],
    [
      'bolt_circle(60 mm, 3, 1 mm, 2 mm, 0°, 4)',
      'argument-count',
      '`bolt_circle` takes 2 to 5 values, not 6.',
    ],
  ])('%s', (call, code, words) => {
    const findings = calculate(note(`a = ${call}`)).findings();
    expect(findings.map((finding) => finding.code)).toEqual([code]);
    expect(findings[0]?.message).toContain(words);
  });
});

describe('an argument that does not fit is marked', () => {
  it.each<[call: string, code: string, marked: string, offers?: readonly string[]]>([
    ['spindle_speed(24, 30 mm)', 'argument-kind', '24', ['24 m/min']],
    ['spindle_speed(24 kg, 30 mm)', 'argument-kind', '24 kg', []],
    ['spindle_speed(bare, 30 mm)', 'argument-kind', 'bare', []],
    // Whose money it is nobody can say.
    ['operation_cost(2 h, 85)', 'argument-kind', '85', []],
    ['quotation(2, 85 AUD, 5 EUR, 3 AUD, 20%)', 'currencies-mixed', '5 EUR'],
    ['division_chord(100 mm, 2.5)', 'whole-number-needed', '2.5'],
    ['division_chord(100 mm, 0)', 'whole-number-needed', '0'],
    ['division_chord(100 mm, 7 mm)', 'argument-kind', '7 mm', []],
    ['circle_from_touches(3 mm, [1, 2, 3] mm, 2 mm, hole)', 'list-needed', '3 mm', ['[3 mm]']],
    ['circle_from_touches(3 kg, [1, 2, 3] mm, 2 mm, hole)', 'list-needed', '3 kg', []],
    ['circle_from_touches(none, [1, 2, 3] mm, 2 mm, hole)', 'unknown-name', 'none', []],
    ['spindle_speed(dimeter: 24 mm, 30 mm)', 'argument-name-unknown', 'dimeter', ['diameter']],
    ['spindle_speed(24 m/min, 30 mm, 3)', 'argument-count', '3'],
    ['spindle_speed(24 m/min, 3 mm, diameter: 3 mm)', 'argument-twice', 'diameter: 3 mm'],
    ['spindle_speed(24 m/min)', 'argument-missing', 'spindle_speed(24 m/min)'],
    ['drill_size(6 mm, leter)', 'word-needed', 'leter', ['letter']],
    ['drill_size(6 mm, 5)', 'word-needed', '5', []],
    ['speed_step(300 rpm, steel_C45)', 'card-needed', 'steel_C45'],
    ['speed_step(300 rpm, 5 mm)', 'card-needed', '5 mm'],
    ['clearance_hole(6 mm)', 'code-needed', '6 mm', ['M6']],
    ['clearance_hole(6 kg)', 'code-needed', '6 kg', []],
    ['clearance_hole(2 * 3 mm)', 'code-needed', '2 * 3 mm', []],
    // What the formula itself refuses, with and without something in its place.
    ['thread_sizes(3/2-13 UNC)', 'formula-refused', '3/2-13 UNC', ['1 1/2-6 UNC', '1 1/2-12 UNF']],
    ['circle_from_touches([1, 2, 3] mm, [1, 2, 3] mm, 2 mm, hole)', 'formula-refused', '[1, 2, 3] mm', []],
    ['fit(25 mm, 25 mm, g6)', 'code-needed', '25 mm', []],
    ['sin(30)', 'angle-needed', '30', ['30°', '30 rad']],
    ['sin(bare)', 'angle-needed', 'bare', []],
    // Out of range: by its place, by its name, and by its place among those without a name.
    ['spindle_speed(24 m/min, 0 mm)', 'out-of-range', '0 mm'],
    ['spindle_speed(diameter: 0 mm, cutting_speed: 24 m/min)', 'out-of-range', '0 mm'],
    ['spindle_speed(diameter: 30 mm, 0 m/min)', 'out-of-range', '0 m/min'],
    ['hub_wall(1)', 'unknown-formula', 'hub_wall'],
    // Mathematics that has no answer: the whole call.
    ['asin(2)', 'outside-domain', 'asin(2)'],
    ['max(1, 2 mm)', 'unit-mismatch', 'max(1, 2 mm)'],
  ])('%s', (call, code, marked, offers) => {
    const lines = note(`a = ${call}`, 'bare = 24').split('\n');
    const [finding, ...others] = calculate(lines.join('\n')).findings();
    expect(others).toEqual([]);
    expect(finding?.code).toBe(code);
    expect(lines[finding?.line ?? 0]?.slice(finding?.column, finding?.endColumn)).toBe(marked);
    if (offers) expect(finding?.data['offers']).toEqual(offers);
  });
});

describe('what is offered', () => {
  it.each([
    // A percentage of a sum could be of its last part as well.
    [['200 mm + 5%'], ['200 mm * 105%']],
    [['200 mm - 5%'], ['200 mm * 95%']],
    [['2 * 100 mm + 5%'], ['2 * 100 mm * 105%']],
    [['100 mm / 2 - 2.5%'], ['100 mm / 2 * 97.5%']],
    [['100 mm + 5 mm + 5%'], []],
    [['5% + 200 mm'], []],
    [['10° + 1'], ['10° + 1°']],
    [['1 + 10°'], ['1° + 10°']],
    [['1 - 10 mm'], ['1 mm - 10 mm']],
    [['20 °C - 1'], []],
    [['1 + 20 °C'], []],
    [['a * 2 + 1', 'a = 3 mm'], ['a * 2 + 1 mm']],
    // No percentage to multiply by is known where it is no figure at hand, and a comparison adds nothing.
    [['200 mm + p', 'p = 5%'], []],
    [['200 mm <= 5%'], []],
    [['200 mm + 0.1%'], ['200 mm * 100.1%']],
    [['5% + 1'], ['5% + 1%']],
    // A tail that could divide or multiply by a figure.
    [
      ['10 mm/m', 'm = 3 kg'],
      ['10 mm / m', '10 mm / (1 m)'],
    ],
    [
      ['2 * 10 mm/m', 'm = 3 kg'],
      ['10 mm / m', '10 mm / (1 m)'],
    ],
    [
      ['10 mm/m * 2', 'm = 3 kg'],
      ['10 mm / m', '10 mm / (1 m)'],
    ],
    [
      ['10 N*m', 'm = 3 kg'],
      ['10 N * m', '10 N * (1 m)'],
    ],
    // Limits as some drawings print them, but for the slash.
    [['30 mm +0.02 -0.01 mm'], ['30 mm +0.02/-0.01 mm']],
    [['30 mm +0.02 -0.01'], ['30 mm +0.02/-0.01']],
    [['30 mm -0.01 +0.02 mm + 3 mm'], ['30 mm -0.01/+0.02 mm']],
    // Both of one sign, with a figure in them, after a figure, after a plain number: sums that went wrong.
    [['30 mm +0.02 +0.01'], ['30 mm + 0.02 mm']],
    [['30 mm +0.02 -x', 'x = 3 mm'], ['30 mm + 0.02 mm']],
    [['30 mm +x -0.01', 'x = 3'], []],
    [['x +0.02 -0.01', 'x = 30 mm'], ['x + 0.02 mm']],
    [['30 +0.02 mm -0.01 mm'], ['30 mm + 0.02 mm']],
    // The first four of five fields.
    [
      ['a + 1', 'a = bolt_circle(60 mm, 3)'],
      ['a.hole', 'a.angle', 'a.x', 'a.y'],
    ],
    [['circle_from_touches([1, 2, 3], [1, 2, 3] mm)'], ['[1, 2, 3] mm']],
    [['circle_from_touches(x, [1, 2, 3] mm)', 'x = [1, 2, 3]'], []],
    [['circle_from_touches([1, 2, 3] kg, [1, 2, 3] mm)'], []],
  ])('for %s', (lines, offers) => {
    const [finding] = calculate(note(...lines)).findings();
    expect(finding?.data['offers']).toEqual(offers);
  });
});

describe('nothing else is said', () => {
  it.each([
    [['-none'], 'unknown-name', 'none'],
    [['none.x'], 'unknown-name', 'none'],
    [['[1 mm, none]'], 'unknown-name', 'none'],
    // What was measured is asked of a name or of fields after one.
    [['(neck).reading', 'neck measured 3 mm'], 'no-fields', 'reading'],
    [['ball_on_shank(30 mm, 12 mm).used'], 'unknown-field', 'used'],
    [['ball_on_shank(30 mm, 12 mm).ring.used'], 'no-fields', 'used'],
    [['[1 mm, 2 kg, 3 kg]'], 'list-kinds-mixed', '2 kg'],
    [['30 mm +0.02 -0.01 mm + 3 mm'], 'limits-without-slash', '30 mm +0.02 -0.01 mm'],
  ])('of %s', (lines, code, marked) => {
    const findings = calculate(note(...lines)).findings();
    expect(findings.map((finding) => finding.code)).toEqual([code]);
    expect(lines[0]?.slice(findings[0]?.column, findings[0]?.endColumn)).toBe(marked);
  });

  it('of a list in which a plain number follows a length', () => {
    const [finding] = calculate(note('[1 mm, 2 kg]')).findings();
    expect(finding?.message).toContain('a mass in a list where the first is a length');
  });
});

it('of a name that the note does not have nothing was measured', () => {
  for (const field of ['reading', 'positions', 'used']) {
    const asked = parseLine(`x = nowhere.${field}`, 'figures');
    const value = asked.kind === 'figure' && calculate(note('a = 1')).evaluateExpression(asked.expression);
    expect(value).toBeNull();
  }
});

it('pi is the number of the circle', () => {
  expect(calculate(note('a = 2 * pi')).valueOf('a')).toMatchObject({ value: 2 * Math.PI });
});
