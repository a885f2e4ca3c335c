/** Amounts whose names share a word, their values side by side so that a range is looked for in one quick pass. */
import type { Amount } from './entry';

/** Below this many, gaps are not worth closing. */
const FEW = 64;

export class Column {
  private values: number[] = [];
  private amounts: Amount[] = [];
  private paths: string[] = [];
  private places = new Map<string, number[]>();
  private gaps = 0;

  add(path: string, amount: Amount): void {
    const at = this.values.push(amount.value) - 1;
    this.amounts.push(amount);
    this.paths.push(path);
    const places = this.places.get(path);
    if (places) places.push(at);
    else this.places.set(path, [at]);
  }

  /** Leaves gaps, which hold no value that any range has; they are closed when half of it is gaps. */
  remove(path: string): void {
    const places = this.places.get(path);
    if (!places) return;
    for (const at of places) this.values[at] = NaN;
    this.places.delete(path);
    this.gaps += places.length;
    if (this.gaps > FEW && this.gaps * 2 > this.values.length) this.close();
  }

  /** Each amount from `low` to `high`, both included, with its note, in the order they came. */
  within(low: number, high: number, found: (path: string, amount: Amount) => void): void {
    const { values, paths, amounts } = this;
    for (let at = 0; at < values.length; at++) {
      const value = values[at] as number;
      if (value >= low && value <= high) found(paths[at] as string, amounts[at] as Amount);
    }
  }

  private close(): void {
    const [values, paths, amounts] = [this.values, this.paths, this.amounts];
    this.values = [];
    this.paths = [];
    this.amounts = [];
    this.places = new Map();
    this.gaps = 0;
    for (const [at, value] of values.entries())
      if (!Number.isNaN(value)) this.add(paths[at] as string, amounts[at] as Amount);
  }
}
