/** What the engine answers. Plain data; lines and columns count from 0, columns are UTF-16 units, ends exclusive. */
import type { Severity } from '../quantity/finding';
import type { CardView, FaultData, Quantity, Value } from '../quantity/value';
import type { Block, Comparison, Sense, Statement } from '../notation/syntax';

export interface Range {
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

export interface Place extends Range {
  /** The shop file it stands in, or null for the note itself. */
  readonly file: string | null;
}

export interface Related extends Place {
  readonly message: string;
}

/** Of the note itself: a fault in a shop file is told where that file is looked at as a note. */
export interface Finding extends Range {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  readonly data: FaultData;
  readonly related: readonly Related[];
}

/** Limits a line asks for. Base units. */
export interface Asked {
  readonly low: number;
  readonly high: number;
  /** Which side has metal to spare; null when the line does not say. */
  readonly sense: Sense | null;
  /** The ISO 286 code, when that is how they were asked, and the millimetres it was looked up for. */
  readonly code: string | null;
  readonly codeFor: number | null;
}

export interface CheckResult {
  readonly holds: boolean;
  /** True when it holds at nominal and over the whole band. */
  readonly overBand: boolean;
  /** The pair that decides: the first that fails, else the one with the least room. */
  readonly left: Quantity;
  readonly comparison: Comparison;
  readonly right: Quantity;
}

export interface ReadingResult {
  readonly how: 'measured' | 'final';
  /** The name or record field measured: `neck`, `setup.ring`. */
  readonly path: string;
  readonly readings: readonly Quantity[];
  readonly positions: readonly (Quantity | null)[];
  /** The readings as they would be at 20 °C, where any was taken at another temperature and its metal's growth is known. */
  readonly atReference?: readonly Quantity[];
  /** Whether all readings lie within the asked limits; null where none were asked. */
  readonly inside: boolean | null;
  /**
   * What must still come off to bring the worst reading inside, base units: 0 inside, negative where metal is gone too
   * far. Null without asked limits, or outside with no `hole` or `shaft` to say which way metal remains.
   */
  readonly left: number | null;
  /** How far the readings lie apart, base units, where that is more than the limits allow: no cut alone brings all of them inside. */
  readonly apart?: number;
  /** Whether one is so far off that its point or its unit most likely slipped: twice or half of what is asked, with metal left five times. */
  readonly slip?: boolean;
  /** What is left to the nominal of the last reading, base units; null without a figure. Positive while stock remains. */
  readonly toNominal: number | null;
}

/** One line of code with what became of it. */
export interface Row {
  readonly line: number;
  /** Column of the note's line at which the code begins (after quote and list markers). */
  readonly column: number;
  /** The code as the fence holds it. Statement spans are offsets in this text. */
  readonly text: string;
  readonly block: Block;
  readonly statement: Statement;
  /** The value in the unit it is shown in; null for lines without one and for failed ones. */
  readonly value: Value | null;
  readonly asked: Asked | null;
  readonly check: CheckResult | null;
  readonly reading: ReadingResult | null;
  /** Names of figures that have no value yet and that this line needs; empty otherwise. */
  readonly waitsFor: readonly string[];
  readonly findings: readonly Finding[];
}

/** A card in force for a note. */
export interface CardInForce extends CardView {
  /** Where the fence line stands. */
  readonly place: Place;
  /** Where each field's line stands. */
  readonly fieldPlaces: ReadonlyMap<string, Place>;
  /** True for a starter card that is built in (its place means nothing then). */
  readonly builtIn: boolean;
}

/** A shop file, nearest first. */
export interface Shop {
  /** How findings name it: a path or address of the host's. */
  readonly file: string;
  readonly text: string;
}
