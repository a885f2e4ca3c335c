/** What a command needs of the world around it; tests give it another. */
export interface Io {
  readonly current: string;
  /** Whether standard output may be coloured. */
  readonly colour: boolean;
  readonly version: () => string;
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** Waits until a slow reader has taken what was said; for who says a lot. Null where nobody waits. */
  readonly taken: (() => Promise<void>) | null;
}

/** Exit codes: no error findings, error findings, wrong use or something unreadable. */
export const FINE = 0;
export const FINDINGS = 1;
export const WRONG = 2;
export type Exit = typeof FINE | typeof FINDINGS | typeof WRONG;
