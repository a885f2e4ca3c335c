/** What a line of a note can amount to. Plain data, never mutated once made. */
import type { Dimension } from './dimension';
import type { Unit } from './unit';

/**
 * What one toleranced input does to a result: the result's value with that input at its low end, at its high end,
 * and at any extreme in between that an operation declared. All other inputs stand at their nominal values.
 * In base units, like `Quantity.value`.
 */
export interface Reach {
  /** Serial number of the line whose asked limits are meant. */
  readonly input: number;
  readonly at: readonly number[];
  /**
   * Where on the way from the low end (0) to the high end (1) the samples after the first two were taken; absent when
   * there are no more than two. So two quantities that move with one input are compared at one place of it.
   */
  readonly along?: readonly number[];
  /** Whether the input's nominal lies between its ends (not so for 25 mm f7), so that the nominal result is reached too. */
  readonly inside: boolean;
}

export interface Quantity {
  readonly kind: 'number';
  /** In base units of the dimension (mm, kg, min, turn, degree, K). Always finite. */
  readonly value: number;
  readonly dimension: Dimension;
  /** The unit it is shown in; always fits the dimension. */
  readonly unit: Unit;
  /** How each toleranced input moves it, by ascending input; null when none does. */
  readonly spread: readonly Reach[] | null;
}

/** Figures of one dimension in the order written, such as the speeds of a machine. */
export interface List {
  readonly kind: 'list';
  readonly items: readonly Quantity[];
}

/** Words: a field of the front matter, a remark on a card, a verdict. Never calculates. */
export interface Text {
  readonly kind: 'text';
  readonly text: string;
}

/** Named parts of one result: the tilt, ring and height of a set-up; the fields of a card. */
export interface RecordValue {
  readonly kind: 'record';
  /** The formula or card it came from. */
  readonly of: string;
  readonly fields: ReadonlyMap<string, Quantity | List | Text>;
}

export type Value = Quantity | List | Text | RecordValue;

/** Why something has no value: a code and the fields its sentence is built from. Wording is presentation. */
export interface Fault {
  readonly kind: 'fault';
  readonly code: string;
  readonly data: FaultData;
}

/** Fields of a fault: plain data that can stand in JSON. */
export type FaultData = Readonly<
  Record<string, string | number | boolean | null | readonly string[] | readonly number[]>
>;

export function fault(code: string, data: FaultData = {}): Fault {
  return { kind: 'fault', code, data };
}

export function isFault(x: { readonly kind: string }): x is Fault {
  return x.kind === 'fault';
}

/** A machine or material card as a formula sees it: its name and its fields. */
export interface CardView {
  readonly name: string;
  readonly word: 'machine' | 'material';
  readonly fields: ReadonlyMap<string, Quantity | List | Text>;
}
