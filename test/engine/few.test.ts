/** Small collections are sets and lists like any other; only what holds less takes less room. */
import { describe, expect, it } from 'vitest';
import { type Few, appended, forEachOf, withOne, withoutOne } from '../../src/engine/few';

interface Item {
  readonly name: string;
}
const [a, b, c]: readonly [Item, Item, Item] = [{ name: 'a' }, { name: 'b' }, { name: 'c' }];

function items(few: Few<Item>): readonly Item[] {
  const found: Item[] = [];
  forEachOf(few, (item) => found.push(item));
  return found;
}

describe('a few', () => {
  it.each<[string, readonly Item[], readonly Item[], readonly Item[]]>([
    ['nothing', [], [], []],
    ['one', [a], [], [a]],
    ['the same twice', [a, a], [], [a]],
    ['three', [a, b, c, b], [], [a, b, c]],
    ['nothing again', [a], [a], []],
    ['one that another is not', [a], [b], [a]],
    ['two of three', [a, b, c], [b], [a, c]],
    ['the last of three', [a, b, c], [b, a], [c]],
    ['none of two', [a, b], [b, a], []],
    ['nothing to take away', [], [a], []],
  ])('holds %s', (_, put, taken, left) => {
    const full = put.reduce<Few<Item>>(withOne, null);
    const few = taken.reduce<Few<Item>>(withoutOne, full);
    expect(items(few)).toEqual(left);
    // It is a set of its own only where there are several.
    expect(few instanceof Set).toBe(left.length > 1);
  });
});

it('a list with one item more holds those before', () => {
  const none: Item[] = [];
  const one = appended(none, a);
  expect([none, one]).toEqual([[], [a]]);
  expect(appended(appended(one, b), c)).toEqual([a, b, c]);
});
