/** What a change of cards did to jobs: findings that a note has now and did not have before, the note being the same. */
import { without } from './compare';
import type { Kept } from './store';

const CARDS = ' with ';

/** The mark of a note in which its own text and the cards in force stand apart. */
export const markOf = (own: string, cards: string): string => `${own}${CARDS}${cards}`;

const ownOf = (mark: string): string | undefined => mark.split(CARDS)[0];

/**
 * Told of the index before and after each reading. A note is held against what it had before the first change of cards
 * that was not seen, so that a card which is set right again leaves nothing; a note that itself changes starts anew.
 */
export class CardChanges {
  private marks = new Map<string, Kept>();
  /** Findings before cards changed, with the mark of the note's own text. */
  private readonly old = new Map<
    string,
    { readonly own: string | undefined; readonly findings: readonly string[] }
  >();
  /** By path; only notes with something new. */
  readonly found = new Map<string, readonly string[]>();

  before(kept: Iterable<Kept>): void {
    this.marks = new Map([...kept].map((one) => [one.path, one]));
  }

  after(kept: Iterable<Kept>): void {
    const there = new Set<string>();
    for (const one of kept) {
      there.add(one.path);
      this.look(one, this.marks.get(one.path));
    }
    for (const path of this.old.keys()) if (!there.has(path)) this.forget(path);
    this.marks.clear();
  }

  /** Cards count as they are now. */
  seen(): void {
    this.old.clear();
    this.found.clear();
  }

  /** The note itself changed or is gone: what it says now is its own. */
  forget(path: string): void {
    this.old.delete(path);
    this.found.delete(path);
  }

  private look({ path, mark, entry }: Kept, before: Kept | undefined): void {
    const own = ownOf(mark);
    if (this.old.get(path)?.own !== own) this.forget(path);
    if (!before || before.mark === mark || ownOf(before.mark) !== own) return;
    let old = this.old.get(path);
    if (!old) this.old.set(path, (old = { own, findings: before.entry.findings }));
    const fresh = without(entry.findings, old.findings);
    if (fresh.length > 0) this.found.set(path, fresh);
    else this.forget(path);
  }
}
