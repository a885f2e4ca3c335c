/** Long work cut into slices, so that what else a process has to do, such as answering a key press, comes in between. */

/** Lets others have their turn, and comes back after it. */
export type Breathe = () => Promise<void>;

/** How long a slice may last before others get their turn, in ms: a third of what a screen shows one picture for. */
const SLICE = 5;

export class Slices {
  private since = Date.now();

  /** Without a way to breathe the work is done in one go. */
  constructor(private readonly breathe: Breathe | undefined) {}

  /** To be called after each small piece of the work. */
  async next(): Promise<void> {
    if (!this.breathe || Date.now() - this.since < SLICE) return;
    await this.breathe();
    this.since = Date.now();
  }
}
