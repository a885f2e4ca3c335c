/** The editor's bundles ask the engine which characters are punctuation, where markdown-it brings a table of them. */
import { createRequire } from 'node:module';
import { expect, it } from 'vitest';
import { UNICODE } from '../tools/build.mjs';

type Tables = readonly [P: RegExp, S: RegExp];

const own = createRequire(import.meta.url);
const { P, S } = createRequire(own.resolve('markdown-it'))('uc.micro') as { P: RegExp; S: RegExp };
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
