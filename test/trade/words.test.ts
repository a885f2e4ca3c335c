/** The words that formulas take, and those of a working that depend on what was given. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import { allFormulas } from '../../src/trade';

const SHOP = readFileSync(new URL('../data/shop.md', import.meta.url), 'utf8');
const codes = (call: string): string[] =>
  calculate(`\`\`\`figures\n${call}\n\`\`\`\n`, [{ file: 'shop.md', text: SHOP }])
    .findings()
    .filter(({ severity }) => severity === 'error')
    .map(({ code }) => code);

/** A worked check of each formula that takes words, with each of the words in turn. */
const CALLS = allFormulas().flatMap(({ parameters, checks }) =>
  parameters.flatMap(({ name, words = [] }) => {
    const stands = new RegExp(`([(,:] ?)(?:${words.join('|')})(?=[,)])`);
    const call = checks.find((check) => stands.test(check.call))?.call;
    return words.map((word) =>
      call
        ? call.replace(stands, `$1${word}`)
        : (checks[0]?.call ?? '').replace(/\)$/, `, ${name}: ${word})`),
    );
  }),
);

it.each(CALLS)('%s takes its word', (call) => {
  // It answers, or the figures do not go with the word.
  expect(['formula-refused', 'out-of-range']).toEqual(expect.arrayContaining(codes(call)));
});
