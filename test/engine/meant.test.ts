/** What is offered where two kinds of thing are added or taken from each other, the likeliest first. */
import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';

const offered = (line: string): unknown => {
  const [finding] = calculate(`\`\`\`figures\n${line}\n\`\`\`\n`).findings();
  return [finding?.code, finding?.data['offers']];
};
const expectOffers = (line: string, offers: unknown): void => expect(offered(line)).toEqual(offers);
const mismatch = (...offers: string[]): unknown => ['unit-mismatch', offers];

// Plates of machines say min-1 for rpm: from memory.
describe('a speed by the minute', () => {
  it.each([
    ['n = 450 min-1', mismatch('450 rpm')],
    ['n = 450 min−1', mismatch('450 rpm')],
    ['n = 450min-1', mismatch('450 rpm')],
    ['v = pi * 30 mm * 450 min-1', mismatch('pi * 30 mm * 450 rpm')],
    ['n = 450 min -1', mismatch('450 rpm', '450 min - 1 min')],
    ['n = 450 min - 1', mismatch('450 min - 1 min')],
    ['n = 450 min-2', mismatch('450 min - 2 min')],
    ['n = 450 min+1', mismatch('450 min + 1 min')],
    ['n = 450 min-1.5', mismatch('450 min - 1.5 min')],
    ['n = (450 min)-1', mismatch('(450 min) - 1 min')],
    ['n = 450 mm-1', mismatch('450 mm - 1 mm')],
  ])('%s', expectOffers);
});

// Drawings put a dash between the two ends of a size.
describe('limits with a dash between', () => {
  it.each([
    ['d = 34.88-34.92 mm', mismatch('34.88 mm .. 34.92 mm', '34.88 mm - 34.92 mm')],
    ['d = 1.3740 - 1.3750 in # bore', mismatch('1.3740 in .. 1.3750 in', '1.3740 in - 1.3750 in')],
    ['d=34.88 - 34.92 mm to in', mismatch('34.88 mm .. 34.92 mm', '34.88 mm - 34.92 mm')],
    ['d = 34.88 - 34.92 mm shaft', mismatch('34.88 mm .. 34.92 mm', '34.88 mm - 34.92 mm')],
    ['d = 34.88 - 34.92 mm hole', mismatch('34.88 mm .. 34.92 mm', '34.88 mm - 34.92 mm')],
    ['v = 90 - 110 m/min', mismatch('90 m/min .. 110 m/min', '90 m/min - 110 m/min')],
    ['d = 34.92 - 34.88 mm', mismatch('34.92 mm - 34.88 mm')],
    ['d = 34.88 - 34.88 mm', mismatch('34.88 mm - 34.88 mm')],
    ['d = 34.88 + 34.92 mm', mismatch('34.88 mm + 34.92 mm')],
    ['d = 34.88 - 34.92 mm ± 0.1', mismatch('34.88 mm - 34.92 mm')],
    ['d = 34.88 - 34.92 mm - 1 mm', mismatch('34.88 mm - 34.92 mm')],
    ['d = 2 * (34.88 - 34.92 mm)', mismatch('34.88 mm - 34.92 mm')],
    ['d = 34.88 - 2 * 34.92 mm', mismatch('34.88 mm - 2 * 34.92 mm')],
    ['34.88 - 34.92 mm', mismatch('34.88 mm - 34.92 mm')],
    ['1 mm == 34.88 - 34.92 mm', mismatch('34.88 mm - 34.92 mm')],
  ])('%s', expectOffers);

  it('are read as they are offered', () => {
    expect(calculate('```figures\nd = 34.88 mm .. 34.92 mm\nn = 450 rpm\n```\n').findings()).toEqual([]);
  });
});

it('a fence that is nearly ours is one warning, and what it holds has no value', () => {
  const sheet = calculate('```Figures\na = 1 mm + 1\n```\n\n```figures\nb = a\n```\n');
  expect(sheet.findings().map(({ code, severity, line, column }) => [code, severity, line, column])).toEqual([
    ['fence-ignored', 'warning', 0, 3],
    ['unknown-name', 'error', 5, 4],
  ]);
  expect(sheet.findings()[0]?.message).toBe('This block is not calculated. Write `figures`.');
});
