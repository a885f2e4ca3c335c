/**
 * Amounts of one name and kind of all notes in the order of their values, each beside the number of its note, so that those
 * in a range stand together and are found without looking at any other.
 */
import { placeIn } from '../quantity/place-in';
import type { Amount, How } from './entry';

export interface Ends {
  readonly low: number;
  readonly high: number;
  /** Ends that are themselves outside. */
  readonly lowOpen: boolean;
  readonly highOpen: boolean;
}

export class Column {
  private values = new Float64Array();
  private notes = new Uint32Array();
  private amounts: Amount[] = [];
  /** What came since the column was last put in order. */
  private newNotes: number[] = [];
  private newAmounts: Amount[] = [];

  constructor(
    readonly name: string,
    readonly how: How,
    readonly kind: string,
    /** Measured where no figure of that name is planned. */
    readonly isSample: boolean,
  ) {}

  add(note: number, amount: Amount): void {
    this.newNotes.push(note);
    this.newAmounts.push(amount);
  }

  /** From where to where the values lie between the ends. `isThere` says of which notes they still count. */
  within(
    { low, high, lowOpen, highOpen }: Ends,
    isThere: (note: number) => boolean,
  ): readonly [number, number] {
    if (this.newNotes.length > 0) this.putInOrder(isThere);
    const { values } = this;
    const from = placeIn(values.length, (at) => {
      const value = values[at] as number;
      return lowOpen ? value <= low : value < low;
    });
    const to = placeIn(values.length, (at) => {
      const value = values[at] as number;
      return highOpen ? value < high : value <= high;
    });
    return [from, Math.max(from, to)];
  }

  noteAt(at: number): number {
    return this.notes[at] as number;
  }

  amountAt(at: number): Amount {
    return this.amounts[at] as Amount;
  }

  private putInOrder(isThere: (note: number) => boolean): void {
    const { values, notes, amounts, newNotes, newAmounts } = this;
    const fresh = newAmounts
      .map((amount, i) => ({ amount, note: newNotes[i] as number }))
      .filter(({ note }) => isThere(note))
      .sort((a, b) => a.amount.value - b.amount.value);
    const most = values.length + fresh.length;
    const [allValues, allNotes] = [new Float64Array(most), new Uint32Array(most)];
    const all: Amount[] = [];
    const take = (value: number, note: number, amount: Amount): void => {
      allValues[all.length] = value;
      allNotes[all.length] = note;
      all.push(amount);
    };
    let next = 0;
    const takeUpTo = (end: number | null): void => {
      for (let one = fresh[next]; one && (end === null || one.amount.value < end); one = fresh[++next])
        take(one.amount.value, one.note, one.amount);
    };
    for (let at = 0; at < values.length; at++) {
      const [value, note] = [values[at] as number, notes[at] as number];
      if (!isThere(note)) continue;
      takeUpTo(value);
      take(value, note, amounts[at] as Amount);
    }
    takeUpTo(null);
    this.values = allValues.slice(0, all.length);
    this.notes = allNotes.slice(0, all.length);
    this.amounts = all;
    this.newNotes = [];
    this.newAmounts = [];
  }
}
