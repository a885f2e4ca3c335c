/** Arguments as a formula takes them: in its own units, each as what it is and as nothing else. */
import { describe, expect, it } from 'vitest';
import { GivenArguments, itemName, parameterUnit } from '../../src/engine/given';
import { unit } from '../../src/quantity/units';
import type { CardView, Quantity } from '../../src/quantity/value';
import type { Formula } from '../../src/trade/formula';

const FORMULA: Formula = {
  name: 'tried',
  family: 'fits',
  title: 'Tried here only',
  parameters: [
    { name: 'size', kind: 'quantity', unit: 'in', meaning: 'a size' },
    { name: 'sizes', kind: 'list', unit: 'in', meaning: 'sizes' },
    { name: 'class', kind: 'code', unit: '', meaning: 'a class' },
    { name: 'mill', kind: 'machine', unit: '', meaning: 'a machine' },
  ],
  result: [],
  compute: () => 0,
  working: () => [],
  why: 'for the test',
  conditions: [],
  source: 'none',
  cautions: [],
  picture: null,
  checks: [],
};
const mm = (value: number): Quantity => {
  const of = unit('mm');
  return { kind: 'number', value, dimension: of.dimension, unit: of, spread: null };
};
const MILL: CardView = { name: 'mill', word: 'machine', fields: new Map() };
const BOUND = new Map<string, Quantity | CardView | string | { kind: 'list'; items: Quantity[] }>([
  ['size', mm(25.4)],
  ['sizes', { kind: 'list', items: [mm(50.8), mm(76.2)] }],
  ['class', 'H7'],
  ['mill', MILL],
]);
const given = new GivenArguments(FORMULA, BOUND);

describe('arguments', () => {
  // An inch is 25.4 mm exactly.
  it('come in the unit of their parameter, moved ones too', () => {
    expect(given.number('size')).toBeCloseTo(1, 12);
    expect(given.list('sizes')).toEqual([expect.closeTo(2, 12), expect.closeTo(3, 12)]);
    const moved = new GivenArguments(
      FORMULA,
      BOUND,
      new Map([
        ['size', 12.7],
        [itemName('sizes', 1), 101.6],
      ]),
    );
    expect(moved.number('size')).toBeCloseTo(0.5, 12);
    expect(moved.list('sizes')).toEqual([expect.closeTo(2, 12), expect.closeTo(4, 12)]);
    expect(parameterUnit(FORMULA, 'size')).toBe(unit('in'));
    expect(parameterUnit(FORMULA, 'nothing')).toBe(unit(''));
  });

  it('that are optional have a stand-in', () => {
    expect([given.has('size'), given.has('nothing')]).toEqual([true, false]);
    expect(given.numberOr('nothing', 7)).toBe(7);
    expect(given.numberOr('size', 7)).toBeCloseTo(1, 12);
  });

  it('are what they are', () => {
    expect(given.code('class')).toBe('H7');
    expect(given.card('mill')).toBe(MILL);
  });

  it.each([...BOUND.keys(), 'nothing'])('are nothing else: %s', (name) => {
    const asked = {
      size: () => given.number(name),
      sizes: () => given.list(name),
      class: () => given.code(name),
      mill: () => given.card(name),
    };
    for (const [own, ask] of Object.entries(asked))
      if (own !== name)
        expect(ask, own).toThrow(new RegExp(`^tried has no (number|list|code|card) ${name}$`));
  });
});
