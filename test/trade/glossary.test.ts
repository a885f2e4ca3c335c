/** The glossary: each word of it is found as it is written, whole, and as nothing shorter. */
import { describe, expect, it } from 'vitest';
import { GLOSSARY, termAt, wordsUsed } from '../../src/trade/glossary';

describe('the glossary', () => {
  it('has each word once, in the order of the alphabet, and explains it without itself alone', () => {
    const all = GLOSSARY.map(({ word }) => word);
    expect(all).toEqual([...all].sort());
    expect(new Set(all).size).toBe(all.length);
    for (const { word, means } of GLOSSARY) expect(means.length, word).toBeGreaterThan(20);
  });

  it('finds each by every form it has, at each of its letters', () => {
    for (const term of GLOSSARY)
      for (const form of [term.word, ...(term.also ?? [])])
        for (const text of [form, `${form}s`, form.toUpperCase()]) {
          const found = termAt(`the ${text} here`, 4);
          expect([text, found?.term.word, found?.start]).toEqual([text, term.word, 4]);
          expect(termAt(`the ${text} here`, 4 + text.length)?.term).toBe(term);
          expect(termAt(`the ${text} here`, 3)).toBeNull();
          expect(form).toMatch(/^[a-z][a-z_ -]*$/);
        }
    // Each once, by the alphabet.
    expect(wordsUsed('Climb milling round a boss, two bosses, a worm').map(({ word }) => word)).toEqual([
      ...['boss', 'climb milling', 'worm'],
    ]);
    expect(termAt('three bosses', 8)?.term.word).toBe('boss');
    expect(termAt('burr', 5)).toBeNull();
    // The longest form that stands there.
    expect(termAt('climb milling', 1)?.end).toBe(13);
  });

  it('finds words whole, in any case and number', () => {
    expect(wordsUsed('Chucks, a string of fitting kneeling').map(({ word }) => word)).toEqual(['chuck']);
    expect(termAt('the sector arms hold', 6)).toMatchObject({
      start: 4,
      end: 15,
      term: { word: 'sector arms' },
    });
    expect(termAt('the sector arms hold', 17)).toBeNull();
  });
});
