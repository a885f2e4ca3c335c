/**
 * The form of a formula: data with a function. Hover, completion, signature help, the reference page and the table of
 * checks all derive from it, so adding a formula touches its family's file and nothing else.
 *
 * `compute` works on plain numbers, each in its parameter's own unit (`unit`), and answers plain numbers in each
 * field's own unit. The engine converts, checks kinds, and calls it again at the ends of every toleranced input.
 */
import type { CardView, FaultData } from '../quantity/value';

/** What a parameter takes. */
export type ParameterKind =
  | 'quantity'
  /** Quantities of one kind in the order written: the coordinates of touches. */
  | 'list'
  /** A whole number of one or more, given as a plain number. */
  | 'count'
  /** A code or call-out written bare: `H7`, `M30x1.5-6g`, `1:10`. */
  | 'code'
  /** One of a few words of its own, written bare: `hole`. */
  | 'word'
  /** The name of a machine card. */
  | 'machine'
  /** The name of a material card. */
  | 'material';

export interface Parameter {
  readonly name: string;
  readonly kind: ParameterKind;
  /**
   * Usual metric unit as the notation writes it (`mm`, `m/min`, `°`); empty for a plain number, code, word or card.
   * `¤` stands for money in the currency of the call: all its money is in one.
   */
  readonly unit: string;
  readonly meaning: string;
  readonly optional?: boolean;
  /** The words that a parameter of kind `word` takes. */
  readonly words?: readonly string[];
  /** Codes that a length in mm may have been written for, where a code belongs. */
  readonly codesOf?: (length: number) => readonly string[];
}

export interface Field {
  /** Empty for a formula with a single result. */
  readonly name: string;
  /** Unit of the number `compute` gives and of its display; empty for a plain number or words. */
  readonly unit: string;
  readonly meaning: string;
  /** True when it is words, not a number. */
  readonly words?: boolean;
  /**
   * True when it is a list of numbers, one after another in the order of the work. Limits travel through each item;
   * where the count of items differs at a limit they cannot, so a field that counts them is a `choice`.
   */
  readonly list?: boolean;
  /** True for a list that numbers the rows of the others from one: it heads them. */
  readonly counts?: boolean;
  /** True for words that belong to the items of the lists, one after another, set apart by a comma and a blank. */
  readonly perItem?: boolean;
  /** True when it is a choice (a hole circle, a gear step): a different choice at a limit is a finding. */
  readonly choice?: boolean;
}

/** Arguments by parameter name. Optional ones that were not given are absent. */
export interface Given {
  number(name: string): number;
  /** The number, or `otherwise` when the optional argument was not given. */
  numberOr(name: string, otherwise: number): number;
  has(name: string): boolean;
  /** The items of a list. */
  list(name: string): readonly number[];
  /** A code or a word. */
  code(name: string): string;
  card(name: string): CardView;
}

/** What one field comes to. */
export type Outcome = number | string | readonly number[];

export type Answer = number | string | Readonly<Record<string, Outcome>>;

/** Why the formula has no answer for these arguments, in words, with what to change and to what. */
export interface Refusal {
  readonly refused: string;
  /** The parameter to change, for the range of the finding; null for the whole call. */
  readonly parameter: string | null;
  readonly offers?: readonly string[];
  readonly data?: FaultData;
  /** Code of the finding, where it is not `formula-refused`; `data` then holds what that code's sentence is built from. */
  readonly code?: string;
}

/** One step of the working, in the notation, using parameter names and the names of earlier steps. */
export interface Step {
  /** Name of the intermediate or result field; empty for a single result. */
  readonly name: string;
  /**
   * An expression of the notation; evaluating it with the arguments put in gives the result. For a list it is a list of
   * the first items, enough to see how they go on.
   */
  readonly expression: string;
  /** The same in words: "half the angle whose sine is neck over ball". */
  readonly words: string;
}

/** A range in which the formula holds. `holds` false gives a finding with `says`. */
export interface Condition {
  /** In words for hover and reference: "the neck is smaller than the ball". */
  readonly range: string;
  /** An error has no result; a warning keeps it. */
  readonly severity: 'error' | 'warning';
  readonly parameter: string | null;
  holds(given: Given): boolean;
  /** What breaking it means and which argument to change to what. */
  says(given: Given): string;
}

/** A worked check from something independent of the project. */
export interface WorkedCheck {
  /** A call in the notation: `ball_on_shank(30 mm, 12 mm)`. Machines are those of the reference cards in test data. */
  readonly call: string;
  /** Expected number or list (in the field's unit) or words by field name; key '' for a single result. */
  readonly expect: Readonly<Record<string, Outcome>>;
  /** Absolute tolerance in the field's unit. */
  readonly tolerance: number;
  readonly source: string;
}

export type Family =
  | 'ball'
  | 'indexing'
  | 'cutting'
  | 'setup'
  | 'support'
  | 'taper'
  | 'geometry'
  | 'holes'
  | 'fits'
  | 'threads'
  | 'mechanics'
  | 'probing'
  | 'boring'
  | 'stock'
  | 'price'
  | 'worn'
  | 'hardness';

export interface Formula {
  readonly name: string;
  readonly family: Family;
  /** What it works out, for a list: "Tilt, ring and height for a ball on one shank". */
  readonly title: string;
  readonly parameters: readonly Parameter[];
  /** One field without a name for a single result. */
  readonly result: readonly Field[];
  compute(given: Given): Answer | Refusal;
  /** Steps for these arguments; a formula whose way depends on optional arguments chooses here. */
  working(given: Given): readonly Step[];
  /** Why it is so, for the apprentice; two or three sentences in our own words. */
  readonly why: string;
  readonly conditions: readonly Condition[];
  /** Edition and section, or "common practice", or "from memory", or own derivation with its proof. */
  readonly source: string;
  /** Keys of the cautions that the operation calls for. */
  readonly cautions: readonly string[];
  /** Key of the picture that belongs to it, or null. */
  readonly picture: string | null;
  readonly checks: readonly WorkedCheck[];
  /**
   * Arguments at which the result turns round, by parameter and in its unit: where limits reach across one, the value
   * there counts as well.
   */
  readonly extremes?: Readonly<Record<string, (given: Given) => readonly number[]>>;
}

export function isRefusal(answer: Answer | Refusal): answer is Refusal {
  return typeof answer === 'object' && 'refused' in answer;
}
