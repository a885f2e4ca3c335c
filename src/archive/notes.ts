/** Where notes come from: hosts supply it, so that the archive knows neither files nor editors. */
import type { Shop } from '../engine/index';

/** A note as a folder lists it. Any change of the text, or of the cards in force for it, changes the stamp. */
export interface Stamp {
  /** How the note is named everywhere, with `/`; unique. */
  readonly path: string;
  /** Whatever tells one state of the file from another: time and length, or a version. */
  readonly mark: string;
}

export interface Notes {
  /** All notes there are now, in any order. */
  list(): Promise<readonly Stamp[]>;
  /** The text of one and the shop files in force for it, nearest first. Throws when it cannot be read. */
  read(path: string): Promise<{ readonly text: string; readonly shops: readonly Shop[] }>;
  /** Where others wait for their turn: lets them have it, now and then while many notes are read. */
  breathe?(): Promise<void>;
}
