/** The shape of what a hover or a tooltip says: plain data, so that any editor can draw it. */

export interface Explanation {
  /** What it is about: `ring`, `ball_on_shank`; empty for a part of an expression. */
  readonly name: string;
  /** Its value as a line shows it: `29.367 mm ±0.049`; null for what has none. */
  readonly shown: string | null;
  readonly parts: readonly Part[];
}

export type Part =
  | { readonly kind: 'words'; readonly text: string }
  /** The same value said in other ways: in the other unit system, in degrees and minutes. */
  | { readonly kind: 'also'; readonly texts: readonly string[] }
  /** Name, value and meaning of each field or argument. */
  | {
      readonly kind: 'table';
      readonly rows: readonly (readonly [name: string, shown: string, meaning: string])[];
    }
  | { readonly kind: 'working'; readonly steps: readonly Step[] }
  /** How far it can be off, and which input causes it, the biggest first. */
  | { readonly kind: 'limits'; readonly text: string; readonly shares: readonly string[] }
  /** Where a formula is from. */
  | { readonly kind: 'source'; readonly text: string }
  /** What can go wrong, the machine's first. */
  | { readonly kind: 'mind'; readonly texts: readonly string[] }
  | { readonly kind: 'note'; readonly title: string; readonly text: string };

/** One step of a working: the expression, the same with the figures put in, and what that comes to. */
export interface Step {
  readonly words: string | null;
  /** Empty where the result has no name. */
  readonly name: string;
  readonly expression: string;
  readonly figures: string;
  readonly result: string;
}
