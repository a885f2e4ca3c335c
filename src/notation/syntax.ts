/**
 * The shape of a line. Every node knows where it stands: `start` and `end` are UTF-16 offsets in the line's code as
 * the fence holds it (quote and list markers taken off), end exclusive.
 */
import type { LineFinding } from '../quantity/finding';
import type { Unit } from '../quantity/unit';

export interface Span {
  readonly start: number;
  readonly end: number;
}

export interface Word extends Span {
  readonly text: string;
}

export interface UnitNode extends Span {
  readonly unit: Unit;
}

/** A number as written with its unit: `30 mm`, `1 3/8 in`, `15°30′`, `3 h 20 min`, `5%`, `40`. */
export interface QuantityNode extends Span {
  readonly kind: 'quantity';
  /** In base units of `unit`'s dimension. */
  readonly value: number;
  /** The unit it is shown in; `ONE` for a bare number. */
  readonly unit: Unit;
  /** Decimals typed after the point, or null for fractions and mixed forms: how finely the writer stated it. */
  readonly decimals: number | null;
  /**
   * Units after a `/` or `*` in this literal's tail whose name a figure could have too: the `m` of `10 mm/m` and of
   * `12 N*m`. The engine judges it, since only it knows the figures.
   */
  readonly tail: readonly Word[];
}

export interface NameNode extends Span {
  readonly kind: 'name';
  readonly name: string;
  /** True for a call-out such as `M30x1.5-6g`, `3/8-16 UNC` or `1:10`: no figure's name, only an argument. */
  readonly callout?: true;
}

/** `of.field`; `fieldSpan` is the field's own range. */
export interface FieldNode extends Span {
  readonly kind: 'field';
  readonly of: Expression;
  readonly field: string;
  readonly fieldSpan: Span;
}

export interface Argument extends Span {
  /** The parameter it is for, when written `fillet: 2 mm`. */
  readonly name: Word | null;
  readonly value: Expression;
}

export interface CallNode extends Span {
  readonly kind: 'call';
  readonly name: Word;
  readonly arguments: readonly Argument[];
}

export interface NegateNode extends Span {
  readonly kind: 'negate';
  readonly of: Expression;
}

export interface BinaryNode extends Span {
  readonly kind: 'binary';
  readonly operator: '+' | '-' | '*' | '/' | '^';
  readonly left: Expression;
  readonly right: Expression;
}

/** Brackets are kept so that a shown working reads as it was written. */
export interface GroupNode extends Span {
  readonly kind: 'group';
  readonly of: Expression;
}

export interface ListNode extends Span {
  readonly kind: 'list';
  readonly items: readonly Expression[];
  /** The unit after the closing bracket, which each bare number of the list then has. */
  readonly unit: UnitNode | null;
}

export type Expression =
  QuantityNode | NameNode | FieldNode | CallNode | NegateNode | BinaryNode | GroupNode | ListNode;

/** Asked limits as written after a figure's expression. Deviations are quantities of the nominal's kind. */
export type Limits =
  | (Span & { readonly kind: 'deviations'; readonly upper: QuantityNode; readonly lower: QuantityNode })
  /** An ISO 286 code such as `h7` after a literal length. */
  | (Span & { readonly kind: 'code'; readonly code: string })
  /** `a .. b`: the expression is the one end, this the other; the nominal is the middle. */
  | (Span & { readonly kind: 'range'; readonly to: QuantityNode });

export type Sense = 'hole' | 'shaft';
export type Comparison = '<=' | '<' | '>=' | '>' | '==' | '!=';

export interface ReadingNode extends Span {
  readonly value: QuantityNode;
  /** Where along the work it was taken, or in what state: `at 10 mm`, `at 32 °C`. */
  readonly at: QuantityNode | null;
}

export interface Path extends Span {
  /** `['setup', 'ring']` for `setup.ring`. */
  readonly names: readonly string[];
}

interface Line {
  /** The words after `#`, trimmed; null without a comment. */
  readonly comment: Word | null;
  /** What the notation alone can refuse. A line with an error here has no meaning to the engine. */
  readonly findings: readonly LineFinding[];
}

export type Statement = Line &
  (
    | { readonly kind: 'empty' }
    | {
        readonly kind: 'figure';
        readonly name: Word;
        readonly expression: Expression;
        readonly limits: Limits | null;
        readonly sense: Sense | null;
        readonly to: UnitNode | null;
      }
    | { readonly kind: 'show'; readonly expression: Expression; readonly to: UnitNode | null }
    | {
        readonly kind: 'check';
        readonly terms: readonly Expression[];
        readonly comparisons: readonly Comparison[];
      }
    | {
        readonly kind: 'reading';
        readonly path: Path;
        readonly how: 'measured' | 'final';
        readonly readings: readonly ReadingNode[];
      }
    | { readonly kind: 'used'; readonly path: Path; readonly value: QuantityNode }
    /** `key: words`, in cards and in blocks of signed results. */
    | { readonly kind: 'words'; readonly key: Word; readonly words: Word }
    /** Not understood; `findings` says why. `name` is the figure it would have been, when that much is clear. */
    | { readonly kind: 'broken'; readonly name: Word | null }
  );

/** What kind of fence a line stands in; cards know `key: words` lines, figures do not. */
export type FenceWord = 'figures' | 'machine' | 'material' | 'signed';

/** A fence of ours. Lines and columns count from 0 and are those of the note's own text. */
export interface Block {
  readonly word: FenceWord;
  /** The card's name; null for figures and signed. Its range lies in the fence line. */
  readonly name: Word | null;
  /** Machine cards named after `on`, ranges in the fence line. */
  readonly on: readonly Word[];
  /** The code between the fence lines, quote and list markers taken off, lines ended by `\n`. */
  readonly content: string;
  /** The note's line with the opening fence. */
  readonly fenceLine: number;
  /** The note's line of the first line of `content`. */
  readonly firstLine: number;
  /**
   * Column in the note's line `firstLine + index` at which that line's code begins: an offset of the code plus this is a
   * column of the note. Negative where a list marker used up a part of a tab; the code then begins with the blanks left.
   */
  column(index: number): number;
  /** What is wrong with the fence line itself; ranges are columns of that line in the note. */
  readonly findings: readonly LineFinding[];
}

/** The YAML front matter: text of each field, and where it stands in the note (line from 0). */
export interface FrontField {
  readonly key: string;
  readonly text: string;
  readonly line: number;
  readonly column: number;
  readonly endColumn: number;
}

export interface NoteFinding extends LineFinding {
  /** The note's line, from 0; `start` and `end` are columns in it. */
  readonly line: number;
}

export interface Note {
  readonly blocks: readonly Block[];
  readonly front: ReadonlyMap<string, FrontField>;
  /** What is wrong with the front matter, and with fences that are nearly ours. */
  readonly findings: readonly NoteFinding[];
}
