/** What counts as a change of a value: the lines that look it up are evaluated again for that, and for nothing else. */
import { describe, expect, it } from 'vitest';
import { difference } from '../../src/engine/values';
import { NUMBER } from '../../src/quantity/dimension';
import { unit } from '../../src/quantity/units';
import type { List, Quantity, Reach, RecordValue, Text, Value } from '../../src/quantity/value';

const q = (value: number, symbol = 'mm', spread: readonly Reach[] | null = null): Quantity => {
  const of = unit(symbol);
  return { kind: 'number', value, dimension: of.dimension, unit: of, spread };
};
const reach = (of: Partial<Reach> = {}): Reach => ({
  input: 1,
  inside: true,
  at: [1, 3, 2],
  along: [0.4],
  ...of,
});
const banded = (...reaches: readonly Reach[]): Quantity => q(2, 'mm', reaches);
const list = (...items: readonly Quantity[]): List => ({ kind: 'list', items });
const text = (words: string): Text => ({ kind: 'text', text: words });
const record = (fields: Readonly<Record<string, Quantity | List | Text>>, of = 'fit'): RecordValue => ({
  kind: 'record',
  of,
  fields: new Map(Object.entries(fields)),
});

describe('nothing changes', () => {
  const SAME: readonly (readonly [string, () => Value])[] = [
    ['a figure', () => q(2)],
    ['a figure with limits', () => banded(reach(), reach({ input: 2 }))],
    ['one that is straight between its limits', () => q(2, 'mm', [{ input: 1, inside: true, at: [1, 3] }])],
    ['a list', () => list(q(1), q(2))],
    ['words', () => text('brass')],
    ['a record', () => record({ a: q(1), b: list(q(2)), c: text('clearance fit') })],
  ];
  it.each(SAME)('%s', (_, make) => {
    expect(difference(make(), make())).toBe(false);
  });
  it('none', () => {
    expect(difference(null, null)).toBe(false);
  });
});

describe('everything changes', () => {
  const plain = reach({ at: [1, 3], along: [] });
  const CHANGED: readonly (readonly [string, Value | null, Value | null])[] = [
    ['from none', null, q(2)],
    ['value', q(2), q(3)],
    ['unit', q(2), q(2, 'in')],
    ['kind under one unit', q(2), { ...q(2), dimension: NUMBER }],
    ['limits from none', q(2), banded(reach())],
    ['an input more', banded(reach()), banded(reach(), reach({ input: 2 }))],
    ['the second input', banded(reach(), reach({ input: 2 })), banded(reach(), reach({ input: 3 }))],
    ['the input', banded(reach()), banded(reach({ input: 2 }))],
    ['inside', banded(reach()), banded(reach({ inside: false }))],
    ['an extreme more', banded(plain), banded(reach())],
    ['a limit', banded(reach()), banded(reach({ at: [1, 3.1, 2] }))],
    ['where the extreme is', banded(reach()), banded(reach({ along: [0.5] }))],
    [
      'where one extreme is',
      banded(reach({ at: [1, 3, 2, 2], along: [0.4, 0.5] })),
      banded(reach({ at: [1, 3, 2, 2], along: [0.4, 0.6] })),
    ],
    ['an item', list(q(1), q(2)), list(q(1), q(3))],
    ['an item more', list(q(1)), list(q(1), q(2))],
    ['words', text('brass'), text('steel')],
    ['number to words', q(2), text('brass')],
    ['words to list', text('brass'), list(q(1))],
    ['record to list', record({ a: q(1) }), list(q(1))],
    ['record to number', record({ a: q(1) }), q(1)],
    ['of what', record({ a: q(1) }), record({ a: q(1) }, 'ball')],
  ];
  it.each(CHANGED)('%s', (_, before, after) => {
    expect(difference(before, after)).toBe(true);
    expect(difference(after, before)).toBe(true);
  });
});

describe('fields change', () => {
  const all = { a: q(1), b: list(q(2)), c: text('clearance fit') };
  it('each for itself', () => {
    expect(difference(record(all), record({ ...all, a: q(2) }))).toEqual(new Set(['a']));
    expect(difference(record(all), record({ ...all, b: list(q(3)), c: text('none') }))).toEqual(
      new Set(['b', 'c']),
    );
    expect(difference(record(all), record({ ...all, a: text('none'), b: q(2), c: list() }))).toEqual(
      new Set(['a', 'b', 'c']),
    );
  });
  it('that come and go', () => {
    expect(difference(record(all), record({}))).toEqual(new Set(['a', 'b', 'c']));
    expect(difference(record({ a: q(1) }), record(all))).toEqual(new Set(['b', 'c']));
  });
});
