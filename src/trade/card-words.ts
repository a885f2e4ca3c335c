/** Words on machine cards that formulas read: how the machine is made, one of two ways. */

export interface CardWords {
  readonly name: string;
  /** Exactly one of these stands in the text. */
  readonly either: readonly [string, string];
  /** The line to write on a card, for each. */
  readonly lines: readonly [string, string];
}

export const COMPOUND_ZERO: CardWords = {
  name: 'compound_zero',
  either: ['along', 'across'],
  lines: ['compound_zero: along the bed', 'compound_zero: across the bed'],
};
export const CROSS_SLIDE: CardWords = {
  name: 'cross_slide',
  either: ['diameter', 'radius'],
  lines: ['cross_slide: the dial reads diameter', 'cross_slide: the dial reads radius'],
};

export const CARD_WORDS: ReadonlyMap<string, CardWords> = new Map(
  [COMPOUND_ZERO, CROSS_SLIDE].map((words) => [words.name, words]),
);

/** Which of the two a text says: the first (0) or the second (1); null for neither and for both. */
export function whichOf({ either }: CardWords, text: string): 0 | 1 | null {
  const has = either.map((word) => new RegExp(`\\b${word}\\b`, 'i').test(text));
  if (has[0] === has[1]) return null;
  return has[0] ? 0 : 1;
}
