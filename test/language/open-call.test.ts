/** What is read of a line that is being written. */
import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import { type OpenCall, openCall, valueOfText } from '../../src/language/cursor';

describe('the call that is open at the end of a text', () => {
  const plain = { index: 0, named: null, given: [] };
  it.each<[string, Partial<OpenCall>]>([
    ['f(', { name: 'f' }],
    ['a = f(', { name: 'f' }],
    ['f(a', { name: 'f' }],
    ['f(a,b', { name: 'f', index: 1 }],
    ['f(a, x: 3', { name: 'f', index: 1, named: 'x' }],
    ['f(x: 1, y:2, z', { name: 'f', index: 2, given: ['x', 'y'] }],
    ['f(x: 1,yy:2,z', { name: 'f', index: 2, given: ['x', 'yy'] }],
    ['f(x:1, 2, y: 3', { name: 'f', index: 2, named: 'y', given: ['x'] }],
    ['f(g(1, 2), ', { name: 'f', index: 1 }],
    ['f(1, g(2, ', { name: 'g', index: 1 }],
    ['f(1) + g(2, ', { name: 'g', index: 1 }],
    ['f(1, (2 + ', { name: 'f', index: 1 }],
    ['f([1, 2', { name: 'f' }],
    ['f([1, [2]], ', { name: 'f', index: 1 }],
  ])('%s', (text, wanted) => {
    expect(openCall(text)).toEqual({ ...plain, ...wanted });
  });

  it.each(['', 'f', 'f(1)', '(', '2 * (3 + ', '(f(1) + '])('%s has none', (text) => {
    expect(openCall(text)).toBeNull();
  });
});

it('a piece of a line has a value when it is an expression', () => {
  const sheet = calculate('');
  expect(valueOfText(sheet, '2 * 3 mm')).toMatchObject({ value: 6 });
  for (const none of ['a = 3 mm', '3 mm +', '# 3 mm', '3 mm < 4 mm', ''])
    expect(valueOfText(sheet, none)).toBeNull();
});
