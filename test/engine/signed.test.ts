/** What was signed off against what the note says now: signs, roundings, kinds, and which record counts. */
import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';

const signed = (now: string, ...records: readonly string[]): readonly { code: string; line: number }[] => {
  const blocks = records.map((record) => `\`\`\`signed\ndate: 2025-03-01\n${record}\n\`\`\`\n`).join('\n');
  const note = `\`\`\`figures\n${now}\n\`\`\`\n\n${blocks}`;
  return calculate(note)
    .findings()
    .map(({ code, line }) => ({ code, line }));
};
const codes = (now: string, ...records: readonly string[]): string[] =>
  signed(now, ...records).map(({ code }) => code);

describe('a signed result', () => {
  it.each([
    ['offset = -0.4 mm', 'offset = -0.4 mm'],
    ['offset = 0.4 mm', 'offset = 0.4 mm'],
    ['offset = 0 mm', 'offset = 0 mm'],
    ['offset = 1 in', 'offset = 25.4 mm'],
    // Ten digits agree with nine of them.
    ['offset = 1.000000004 mm', 'offset = 1 mm'],
    ['offset = 1e-10 mm', 'offset = 0 mm'],
  ])('%s is %s', (now, then) => {
    expect(codes(now, then)).toEqual([]);
  });

  it.each([
    ['offset = -0.4 mm', 'offset = 0.4 mm'],
    ['offset = 0.4 mm', 'offset = -0.4 mm'],
    ['offset = -0.4 mm', 'offset = -0.5 mm'],
    ['offset = 1.00000003 mm', 'offset = 1 mm'],
    ['offset = 2e-9 mm', 'offset = 0 mm'],
    ['offset = 1 g', 'offset = 1 mm'],
  ])('%s is no longer %s', (now, then) => {
    expect(codes(now, then)).toEqual(['signed-differs']);
  });

  it('is none where it must be worked out, whichever its sign', () => {
    expect(codes('offset = 1 mm', 'offset = 2 mm + 1 mm', 'offset = -(2 mm + 1 mm)')).toEqual([]);
  });

  it('that the note no longer has is told at its line', () => {
    expect(signed('offset = 1 mm', 'other = 2 mm')).toEqual([{ code: 'signed-gone', line: 6 }]);
  });

  it.each([
    ['offset = 4 kg', 'as 4 mm and now comes out as 4 kg.'],
    // Digits enough to tell them apart, in the unit that was signed.
    ['offset = 4.0000002 mm', 'as 4 mm and now comes out as 4.0000002 mm.'],
    ['offset = 1 in', 'as 4 mm and now comes out as 25.4 mm.'],
    ['other = 4 mm', 'as 4 mm and has no value in this note any more.'],
  ])('is told with its date: %s', (now, said) => {
    const [finding] = calculate(
      `\`\`\`figures\n${now}\n\`\`\`\n\`\`\`signed\ndate: 2025-03-01\noffset = 4 mm\n\`\`\`\n`,
    ).findings();
    expect(finding?.message).toContain(`\`offset\` was signed on 2025-03-01 ${said}`);
  });

  it('counts in the last record only', () => {
    expect(codes('offset = 1 mm', 'offset = 2 mm', 'offset = 1 mm')).toEqual([]);
    expect(codes('offset = 1 mm', 'offset = 1 mm', 'offset = 2 mm')).toEqual(['signed-differs']);
  });
});
