/** What a line that cannot be worked out is told, and what is offered in its place. */
import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';

const note = (...lines: readonly string[]): string => `\`\`\`figures\n${lines.join('\n')}\n\`\`\`\n`;

describe('a call that does not fit', () => {
  it.each([
    ['sqrt(1, 2)', 'argument-count', 'not 2.'],
    ['hypot(1)', 'argument-count', '`hypot` takes 2 or more values, not 1.'],
    ['max()', 'argument-count', '`max` takes 1 or more values, not 0.'],
    ['round()', 'argument-count', '`round` takes 1 to 2 values, not 0.'],
    ['round(1, 2, 3)', 'argument-count', '`round` takes 1 to 2 values, not 3.'],
    ['sqrt(x: 4)', 'argument-name-unknown', '`sqrt` has no `x`.'],
  ])('%s', (call, code, words) => {
    const findings = calculate(note(`a = ${call}`)).findings();
    expect(findings.map((finding) => finding.code)).toEqual([code]);
    expect(findings[0]?.message).toContain(words);
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
    [['circle_from_touches([1, 2, 3], [1, 2, 3] mm)'], ['[1, 2, 3] mm']],
    [['circle_from_touches(x, [1, 2, 3] mm)', 'x = [1, 2, 3]'], []],
    [['circle_from_touches([1, 2, 3] kg, [1, 2, 3] mm)'], []],
  ])('for %s', (lines, offers) => {
    const [finding] = calculate(note(...lines)).findings();
    expect(finding?.data['offers']).toEqual(offers);
  });
});
