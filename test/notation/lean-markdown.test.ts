/**
 * What the editor's bundles leave out of markdown-it: which characters are punctuation the engine knows, where the library brings
 * a table, and an address stays as it is, where the library takes it apart and puts it together again.
 */
import fc from 'fast-check';
import { createRequire } from 'node:module';
import { expect, it } from 'vitest';
import { UNICODE } from '../tools/build.mjs';

type Tables = readonly [P: RegExp, S: RegExp];

const own = createRequire(import.meta.url);
const library = createRequire(own.resolve('markdown-it'));
const { P, S } = library('uc.micro') as { P: RegExp; S: RegExp };
const { parse, format } = library('mdurl') as {
  parse: (address: string, slashesDenoteHost: boolean) => unknown;
  format: (parsed: unknown) => string;
};
const ours = new Function(String(UNICODE).replace(/^.*?=/, 'return'))() as Tables;

it.each([
  ['punctuation', P, ours[0]],
  ['symbols', S, ours[1]],
])('knows all %s of the table, and few more, which are newer', (_, table, mine) => {
  const missed: number[] = [];
  let [all, more] = [0, 0];
  for (let code = 0; code < 0x11_00_00; code++) {
    const character = String.fromCodePoint(code);
    const known = table.test(character);
    all += Number(known);
    if (known && !mine.test(character)) missed.push(code);
    if (!known && mine.test(character)) more++;
  }
  expect(missed).toEqual([]);
  expect(more / all).toBeLessThan(0.15);
});

it('an address comes out of the library as it went in', () => {
  const begin = fc.constantFrom(
    '',
    'http://',
    'HTTPS://',
    'mailto:',
    'file:///',
    'odd:',
    '//',
    '/',
    '../',
    ' \\',
  );
  const host = fc.constantFrom(
    '',
    'host',
    'häfen.example:8080',
    '[::1]',
    'me@host',
    'x'.repeat(70),
    'x'.repeat(300),
  );
  const part = fc.constantFrom(
    ...[
      '/',
      '\\',
      '.',
      '..',
      'shop.md',
      '%20',
      ' ',
      '\t',
      '?',
      '#',
      '&',
      '=',
      '<',
      '"',
      "'",
      '{',
      '`',
      '|',
      '*',
      '😀',
    ],
  );
  fc.assert(
    fc.property(begin, host, fc.array(part, { maxLength: 6 }), (...pieces) => {
      const address = pieces.flat().join('');
      expect(format(parse(address, true))).toBe(address.trim());
    }),
    { numRuns: 2000 },
  );
});
