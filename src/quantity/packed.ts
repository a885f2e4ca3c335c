/**
 * Quantities moved by toleranced inputs, many of them in few arrays: a number for each part instead of a dozen objects for
 * each quantity. Objects that stay are what memory is cleared around, again and again, while a long note is read.
 */
import { quantity } from './arithmetic';
import type { Band } from './limits';
import { type Unit, ONE } from './unit';
import type { Quantity, Reach, Value } from './value';

/** Numbers one after the other. Their room lies outside of what is cleared, and is used again. */
class Column {
  private numbers = new Float64Array(8);
  length = 0;

  at(index: number): number {
    return this.numbers[index] ?? NaN;
  }

  push(number: number): void {
    const { length } = this;
    if (length === this.numbers.length) {
      const longer = new Float64Array(2 * length);
      longer.set(this.numbers);
      this.numbers = longer;
    }
    this.numbers[length] = number;
    this.length = length + 1;
  }
}

export class PackedQuantities {
  private readonly values = new Column();
  private readonly units: Unit[] = [];
  /** Where the reaches of each quantity end; they begin where those of the one before it end. */
  private readonly ends = new Column();

  private readonly inputs = new Column();
  private readonly lows = new Column();
  private readonly highs = new Column();
  /** 1 or 0. */
  private readonly insides = new Column();

  /** Puts a value in; the answer is the place at which `at` has it, or -1 for one that is not to be packed. */
  add(value: Value): number {
    if (value.kind !== 'number' || !value.spread || !isPacked(value, value.spread)) return -1;
    for (const { input, at, inside } of value.spread)
      this.addReach(input, at[0] ?? NaN, at[1] ?? NaN, inside);
    return this.addMoved(value.value, value.unit);
  }

  /** The same for a quantity as an input of its own, with these ends; -1 where they leave it nothing. See `asInput`. */
  addInput({ value, unit }: Quantity, input: number, { low, high }: Pick<Band, 'low' | 'high'>): number {
    if (low === value && high === value) return -1;
    this.addReach(input, low, high, low <= value && value <= high);
    return this.addMoved(value, unit);
  }

  private addReach(input: number, low: number, high: number, inside: boolean): void {
    this.inputs.push(input);
    this.lows.push(low);
    this.highs.push(high);
    this.insides.push(inside ? 1 : 0);
  }

  /** What is moved by the reaches that were added since the last one; the answer is its place. */
  private addMoved(value: number, unit: Unit): number {
    this.values.push(value);
    this.ends.push(this.inputs.length);
    return this.units.push(unit) - 1;
  }

  /** The quantity, equal to what was put in. */
  at(place: number): Quantity {
    const start = this.startOf(place);
    const spread = [this.reachAt(start)];
    for (let i = start + 1; i < this.ends.at(place); i++) spread.push(this.reachAt(i));
    return quantity(this.values.at(place), this.units[place] ?? ONE, spread);
  }

  private reachAt(i: number): Reach {
    return {
      input: this.inputs.at(i),
      at: [this.lows.at(i), this.highs.at(i)],
      inside: this.insides.at(i) === 1,
    };
  }

  /** The first of the inputs that move it. */
  firstInput(place: number): number {
    return this.inputs.at(this.startOf(place));
  }

  private startOf(place: number): number {
    return place === 0 ? 0 : this.ends.at(place - 1);
  }
}

/** Whether it is its number, its unit and the ends of its reaches, and nothing else. */
function isPacked({ dimension, unit }: Quantity, spread: readonly Reach[]): boolean {
  if (unit.dimension !== dimension) return false;
  for (const { along } of spread) if (along) return false;
  return true;
}
