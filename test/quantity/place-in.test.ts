/** The one search in what is in order, against looking at one item after another. */
import { describe, expect, it } from 'vitest';
import { placeIn } from '../../src/quantity/place-in';

describe('the place in what is in order', () => {
  const lists = [
    [],
    [3],
    [3, 5],
    [3, 3, 5],
    [1, 3, 5, 7, 9, 11, 11, 11, 20],
    Array.from({ length: 100 }, (_, i) => 2 * i),
  ];
  it.each(lists)('%#', (...items) => {
    for (let sought = -1; sought < 202; sought++) {
      const first = items.findIndex((item) => item >= sought);
      const isBefore = (at: number): boolean => {
        if (at < 0 || at >= items.length) throw new Error(`no item ${at}`);
        return (items[at] ?? NaN) < sought;
      };
      expect([sought, placeIn(items.length, isBefore)]).toEqual([sought, first < 0 ? items.length : first]);
    }
  });

  it('is found by looking at few of many', () => {
    let looks = 0;
    const at = placeIn(1_000_000, (item) => {
      looks++;
      return item < 654_321;
    });
    expect(at).toBe(654_321);
    expect(looks).toBeLessThan(25);
  });
});
