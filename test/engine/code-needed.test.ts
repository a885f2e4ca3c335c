/** A length where a call-out belongs: the threads of that size are offered. */
import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';

const said = (call: string): unknown => {
  const finding = calculate(`\`\`\`figures\na = ${call}\n\`\`\`\n`).findings()[0];
  return [finding?.code, finding?.data?.['offers']];
};

describe('a length where a call-out belongs', () => {
  it.each([
    ['clearance_hole(10 mm)', ['M10']],
    ['thread_sizes(1/2 in)', ['1/2-13 UNC', '1/2-20 UNF']],
    ['thread_sizes(1 cm)', ['M10']],
    ['thread_sizes(10.001 mm)', []],
    ['thread_sizes(10)', []],
    ['thread_sizes(10 g)', []],
    ['fit(25 mm, 25 mm, g6)', []],
  ])('%s', (call, offers) => {
    expect(said(call)).toEqual(['code-needed', offers]);
  });

  it.each([
    ['morse_taper(3)', 'from MT0 to MT6), not `3`'],
    ['taper_callout(0.6 in/ft)', 'such as 1:10 or 7:24, or a Morse taper such as MT3), not `0.6 in/ft`'],
    ['fit(25 mm, 25 mm, g6)', 'such as H7), not `25 mm`'],
  ])('%s: %s', (call, words) => {
    const [finding] = calculate(`\`\`\`figures\na = ${call}\n\`\`\`\n`).findings();
    expect(finding?.message).toContain(words);
  });
});
