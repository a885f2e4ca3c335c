/** The examples say the truth: the finished job is clean, and each slip on the page of mistakes is found as it says. */
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { calculate } from '../src/engine/index';
import type { Statement } from '../src/notation/syntax';

const read = (name: string): string => readFileSync(new URL(`../examples/${name}`, import.meta.url), 'utf8');
const shops = [{ file: 'shop.md', text: read('shop.md') }];

describe('the finished job', () => {
  const sheet = calculate(read('ball-on-shank.md'), shops);

  it('has nothing wrong with it', () => expect(sheet.findings()).toEqual([]));

  it('shows every kind of line, limit and record', () => {
    const rows = sheet.rows();
    const kinds = new Set(rows.map((r) => r.statement.kind));
    const all: Statement['kind'][] = ['figure', 'show', 'check', 'reading', 'used', 'empty'];
    for (const kind of all) expect(kinds).toContain(kind);
    const text = rows.map((r) => r.text).join('\n');
    for (const form of [
      /^#/m, // a comment of its own
      /= .* to \S+$/m, // shown in another unit
      /^\w+ to \w+$/m, // shown without a name
      /± /,
      /\+0\.3\/0 mm/,
      / h7/,
      / \.\. /,
      / shaft/,
      / hole/,
      /< .* </, // a check of three
      /measured .* at .*, /,
      /^\w+\.\w+ used /m,
      /final /,
      /\.reading|\.mean/,
      /\.used/,
      /\w+: /, // a named argument
      /7\/16 in/,
      /12°40'/,
      /1 h 40 min/,
      /job\./,
      /steel_C45\./,
      /AUD/,
    ]) {
      expect(text).toMatch(form);
    }
  });
});

for (const name of [
  'index-plate.md',
  'doubtful-setup.md',
  'slender-shaft.md',
  'tapered-sleeve.md',
  'probed-flange.md',
  'quoted-pin.md',
]) {
  it(`${name} has nothing wrong with it`, () => {
    const sheet = calculate(read(name), shops);
    expect(sheet.findings()).toEqual([]);
    expect(sheet.rows().every((r) => r.waitsFor.length === 0)).toBe(true);
  });
}

it('the shop file has nothing wrong with it', () =>
  expect(calculate(read('shop.md')).findings()).toEqual([]));

it('each slip is found as the page says, and nothing else is', () => {
  const text = read('typical-mistakes.md');
  const lines = text.split('\n');
  const announced = lines.flatMap((line, i) =>
    [...line.matchAll(/[:?] `([a-z-]+)`\.$/g)].map((m) => ({ line: i, code: m[1] ?? '' })),
  );
  const found = calculate(text, shops).findings();
  expect(announced.length).toBeGreaterThan(15);
  for (const [i, { line, code }] of announced.entries()) {
    const until = announced[i + 1]?.line ?? lines.length;
    const here = found.filter((f) => f.line > line && f.line < until).map((f) => f.code);
    expect(new Set(here), `after line ${line + 1}`).toEqual(new Set([code]));
  }
});

it('names no note that is not there', () => {
  expect(
    readdirSync(new URL('../examples/', import.meta.url))
      .filter((f) => f.endsWith('.md'))
      .sort(),
  ).toEqual([
    'ball-on-shank.md',
    'doubtful-setup.md',
    'index-plate.md',
    'probed-flange.md',
    'quoted-pin.md',
    'shop.md',
    'slender-shaft.md',
    'tapered-sleeve.md',
    'typical-mistakes.md',
  ]);
});
