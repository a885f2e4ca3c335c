import { describe, expect, it } from 'vitest';
import { columns, harmless, painter, wrap } from '../../src/hosts/cli/terminal';

describe('text for a terminal', () => {
  it('shows what would move the cursor or turn the writing round', () => {
    expect(harmless('a\u001b[2Jb\nc\u202ed\u009b')).toBe('a\ufffd[2Jb\ufffdc\ufffdd\ufffd');
    expect(harmless('Ø 25 mm ± 0.05, 15°30′')).toBe('Ø 25 mm ± 0.05, 15°30′');
  });

  it('colours only where that is allowed', () => {
    expect(painter(false)('red', 'error')).toBe('error');
    expect(painter(true)('red', 'error')).toBe('\u001b[31merror\u001b[0m');
    expect(painter(true)('red', '')).toBe('');
  });

  it('lines up columns, a long cell apart', () => {
    const rows = [
      ['a', 'one', 'x'],
      ['bbb', 'a cell far too long', 'y'],
    ];
    expect(columns(rows, [5, 5])).toEqual(['a    one    x', 'bbb  a cell far too long  y']);
  });

  it('breaks lines between words', () => {
    expect(wrap('one two three', '  ', 9)).toBe('one two\n  three');
    expect(wrap('unbreakablewords', '', 4)).toBe('unbreakablewords');
  });
});
