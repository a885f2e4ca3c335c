/**
 * A line of code in the graph: what it looks up, what it gives something to, what it amounts to. Known by its text, never by
 * its line, so that it survives being moved.
 */
import type { Quantity, Value } from '../quantity/value';
import { parseLine } from '../notation/line';
import type { Expression, Statement } from '../notation/syntax';
import type { Cycle, Entry, Lookup, Problem } from './graph';
import type { Asked, CheckResult, ReadingResult } from './results';

const NOTHING: readonly never[] = [];

/** The lines of one block. */
export interface NodeBlock {
  /** A line's node; for a figure that was given its value at once, its name; see `nodeAt`. */
  lines: (Node | string)[];
  firstLine: number;
  /** How far the last change moved what stands after it, and how many nodes had to be searched for since. */
  moved: number;
  searches: number;
  /** Makes the node of such a figure. */
  readonly nodeOf: (name: string, block: NodeBlock, index: number) => Node;
}

const MOST_SEARCHES = 8;

/** What evaluating a line comes to, beside its value. */
export interface Outcome {
  readonly check: CheckResult | null;
  readonly readings: readonly Quantity[];
  readonly waitsFor: readonly string[];
  readonly problems: readonly Problem[];
  readonly cycle: Cycle | null;
}

/** What judging a line comes to. */
export interface Verdict {
  readonly reading: ReadingResult | null;
  readonly problems: readonly Problem[];
}

// Most lines have none of it, so that one of each serves them all.
export const ONLY_A_VALUE: Outcome = {
  check: null,
  readings: NOTHING,
  waitsFor: NOTHING,
  problems: NOTHING,
  cycle: null,
};
export const NOT_JUDGED: Verdict = { reading: null, problems: NOTHING };

/** What few lines have, as with names. */
interface OfFewLines {
  /** Names handed to `speed_step`. */
  steps: readonly Entry[];
  outcome: Outcome;
  verdict: Verdict;
}

export class Node {
  /** The first of the line's lookups; undefined as long as nothing can change what they find. */
  lookups: Lookup | null | undefined = null;
  /** The entry this line gives something to: its figure, or the name it measures. */
  provides: Entry | null = null;
  block: NodeBlock | null = null;
  /** Where it stands in its block; see `line`. */
  index = 0;

  value: Value | null = null;
  asked: Asked | null = null;
  private rare: OfFewLines | null = null;

  /** What it amounts to, where that is all there is to a line that is worked out again and again. */
  expression: Expression | null = null;

  // Marks of the update in progress; see `settle`.
  stamp = 0;
  dirty = false;
  order = 0;

  constructor(
    readonly text: string,
    /** Machine cards the block stands on. */
    readonly on: readonly Entry[],
    /** Null while it is forgotten. */
    private read: Statement | null,
    /** Serial number by which limits know this line as their input. */
    readonly input: number,
  ) {}

  private get more(): OfFewLines {
    return (this.rare ??= { steps: NOTHING, outcome: ONLY_A_VALUE, verdict: NOT_JUDGED });
  }

  get steps(): readonly Entry[] {
    return this.rare?.steps ?? NOTHING;
  }
  set steps(steps: readonly Entry[]) {
    this.more.steps = steps;
  }

  get outcome(): Outcome {
    return this.rare?.outcome ?? ONLY_A_VALUE;
  }
  set outcome(outcome: Outcome) {
    if (this.rare || outcome !== ONLY_A_VALUE) this.more.outcome = outcome;
  }

  get verdict(): Verdict {
    return this.rare?.verdict ?? NOT_JUDGED;
  }
  set verdict(verdict: Verdict) {
    if (this.rare || verdict !== NOT_JUDGED) this.more.verdict = verdict;
  }

  /** The line as the notation reads it. */
  get statement(): Statement {
    // Only lines that read alike in every block are forgotten.
    return (this.read ??= parseLine(this.text, 'figures'));
  }

  get kind(): Statement['kind'] {
    return this.read?.kind ?? (this.provides ? 'figure' : 'show');
  }

  /**
   * Whether it can have its value at once, as a line without cards whose names all have one, like most of a note that is
   * written from top to bottom. Whatever changes a name later finds it among those that look the name up.
   */
  get isReady(): boolean {
    if (this.on.length > 0) return false;
    for (let lookup = this.lookups; lookup; lookup = lookup.nextOfNode)
      if (lookup.want !== 'value' || !lookup.entry.figureValue) return false;
    return true;
  }

  /**
   * Lets go of what was read, which takes more room than all else about a line; it is read again when somebody asks. Most
   * lines are evaluated once. Of those that are worked out again and state a value and no more, the expression is kept; of
   * those on machines everything, since the judge asks for it each time.
   */
  forget(again: boolean): void {
    const { read } = this;
    if (read === null || read.findings.length > 0 || this.on.length > 0) return;
    if (read.kind !== 'figure' && read.kind !== 'show') return;
    if (again) {
      if (!statesOnlyAValue(read)) return;
      this.expression = read.expression;
    }
    this.read = null;
  }

  /** Whether the notation has something to say about it. */
  get hasFindings(): boolean {
    return this.read !== null && this.read.findings.length > 0;
  }

  /** The node's line in the note. */
  get line(): number {
    const block = this.block;
    if (!block) return 0;
    const { lines } = block;
    if (lines[this.index] !== this) {
      // Changes further up have moved it. Few nodes are asked for their line; when many are, all are numbered.
      if (lines[this.index + block.moved] === this) this.index += block.moved;
      else if (block.searches++ < MOST_SEARCHES) this.index = lines.indexOf(this);
      else numberAll(lines);
    }
    return block.firstLine + this.index;
  }

  /** The name of the figure, for messages; empty for other lines. */
  get name(): string {
    return this.kind === 'figure' ? (this.provides?.name ?? '') : '';
  }
}

/** Whether it is `name = expression` or an expression alone, without limits or a unit to show it in. */
function statesOnlyAValue(read: Statement & { kind: 'figure' | 'show' }): boolean {
  return read.to === null && (read.kind === 'show' || (read.limits === null && read.sense === null));
}

function numberAll(lines: readonly (Node | string)[]): void {
  lines.forEach((line, i) => {
    if (typeof line !== 'string') line.index = i;
  });
}
