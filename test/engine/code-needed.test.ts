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
});
