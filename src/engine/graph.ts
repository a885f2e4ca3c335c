/**
 * The sheet's graph: a node for every line of code, an entry for every name that is given or looked up.
 *
 * A node keeps what it looked up, found or not, so a name that appears later finds the lines that were waiting for it.
 * Nodes are known by their text, never by their line, so they survive being moved.
 */
import type { LineFinding } from '../quantity/finding';
import type { List, Quantity, RecordValue, Value } from '../quantity/value';
import { parseLine } from '../notation/line';
import type { Expression, FenceWord, Statement } from '../notation/syntax';
import type { Card } from './cards';
import type { Few } from './few';
import type { Asked, CheckResult, ReadingResult } from './results';

/** A finding of the engine, with the lines it points to. Places are worked out only when somebody asks. */
export interface Problem extends LineFinding {
  readonly related?: readonly RelatedRef[];
}

export type RelatedRef = { readonly message: string } & (
  { readonly node: Node } | { readonly card: Card; readonly field: string }
);

/** A group of nodes that need each other. */
export type Cycle = readonly Node[];

/**
 * A line's look at a name, found or not. It stands in two lists at once: its line's lookups and its name's lookers. Lists
 * of links, as most hold one and a line's are made and dropped together.
 */
export class Lookup {
  nextOfNode: Lookup | null = null;
  next: Lookup | null = null;
  before: Lookup | null = null;

  constructor(
    readonly node: Node,
    readonly entry: Entry,
    /** The record field wanted, or null for the whole value. */
    readonly field: string | null,
    /** `records` wants the readings or the used value; `existence` only whether there is such a figure. */
    readonly want: 'value' | 'records' | 'existence',
  ) {}

  /** Puts it into both lists. */
  enter(): void {
    const { node, entry } = this;
    this.nextOfNode = node.lookups;
    node.lookups = this;
    this.next = entry.lookers;
    if (this.next) this.next.before = this;
    entry.lookers = this;
  }

  /** Whether a change of these fields, or of the whole value, changes what it finds. */
  concerns(changed: true | ReadonlySet<string>): boolean {
    return changed === true || this.field === null || this.want !== 'value' || changed.has(this.field);
  }

  /** Takes it out of the name's list. */
  leave(): void {
    const { before, next } = this;
    if (next) next.before = before;
    if (before) before.next = next;
    else this.entry.lookers = next;
  }
}

/** What the lines that record something about a name come to: of the last stage, since stages measure different sizes. */
export interface Recorded {
  readonly reading: Quantity | null;
  readonly readings: List | null;
  /** Where they were taken; null unless each says so, all in one kind. */
  readonly positions: List | null;
  readonly mean: Quantity | null;
  readonly used: Quantity | null;
}

/** The lines that record something about a name: few names have any. */
export interface Records {
  /** In no particular order. */
  readonly lines: Node[];
  /** In the order of the note, and what they come to; null until asked for. */
  ordered: readonly Node[] | null;
  recorded: Recorded | null;
}

let marks = 0;

/** A number by which one pass over lines and entries knows those it has been at. */
export function freshMark(): number {
  return ++marks;
}

const NOTHING: readonly never[] = [];

/** What few names have. A long note has a name for nearly every line, so that each field counts. */
interface OfFewNames {
  /** Its `measured`, `final` and `used` lines. */
  records: Records | null;
  /** Lines whose judgement depends on this entry without their value doing so. */
  judges: Few<Node>;
  /** How many calls hand this very name to `speed_step`. */
  stepped: number;
  card: Card | null;
  /** The front matter, for the entry `job` alone. */
  job: RecordValue | null;
}

/** Everything the sheet knows about one name (or record path such as `setup.ring`). */
export class Entry {
  /** Figures of this name; more than one is an error at each. */
  definers: Few<Node> = null;
  /** The first of the lookups of this name. */
  lookers: Lookup | null = null;
  private rare: OfFewNames | null = null;

  // Marks of the update in progress: its lines gathered or judged, its lookers told of a change.
  seen = 0;
  told = 0;

  constructor(readonly name: string) {}

  private get more(): OfFewNames {
    return (this.rare ??= { records: null, judges: null, stepped: 0, card: null, job: null });
  }

  get records(): Records | null {
    return this.rare?.records ?? null;
  }
  set records(records: Records | null) {
    this.more.records = records;
  }

  get judges(): Few<Node> {
    return this.rare?.judges ?? null;
  }
  set judges(judges: Few<Node>) {
    this.more.judges = judges;
  }

  get stepped(): number {
    return this.rare?.stepped ?? 0;
  }
  set stepped(stepped: number) {
    this.more.stepped = stepped;
  }

  get card(): Card | null {
    return this.rare?.card ?? null;
  }
  set card(card: Card | null) {
    if (this.rare || card) this.more.card = card;
  }

  get job(): RecordValue | null {
    return this.rare?.job ?? null;
  }
  set job(job: RecordValue | null) {
    this.more.job = job;
  }

  /** A reading came, went or moved. */
  forgetOrder(): void {
    if (this.records) this.records.ordered = this.records.recorded = null;
  }

  /** A reading changed in its place. */
  forgetRecorded(): void {
    if (this.records) this.records.recorded = null;
  }

  /** The figure of this name, when it has one and no more. */
  get figure(): Node | null {
    return this.definers instanceof Set ? null : this.definers;
  }

  get idle(): boolean {
    return (
      this.definers === null &&
      this.records === null &&
      this.lookers === null &&
      this.judges === null &&
      this.card === null &&
      this.job === null
    );
  }
}

/** The nodes of one block; `starts` holds the offset of each line in the block's content. */
export interface NodeBlock {
  readonly word: FenceWord;
  nodes: Node[];
  firstLine: number;
  /** How far the last change moved what stands after it, and how many nodes had to be searched for since. */
  moved: number;
  searches: number;
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
  /** The first of the line's lookups. */
  lookups: Lookup | null = null;
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
    return (this.read ??= parseLine(this.text, this.block?.word ?? 'figures'));
  }

  get kind(): Statement['kind'] {
    return this.read?.kind ?? (this.provides ? 'figure' : 'show');
  }

  /** True for a line whose value nothing else has a part in: `bore = 12.50 mm`. */
  get standsAlone(): boolean {
    const { kind } = this;
    return this.lookups === null && this.on.length === 0 && (kind === 'figure' || kind === 'show');
  }

  /**
   * Whether it can have its value at once, as a line without cards whose names all have one, like most of a note that is
   * written from top to bottom. Whatever changes a name later finds it among those that look the name up.
   */
  get isReady(): boolean {
    const { kind } = this;
    if (this.on.length > 0 || (kind !== 'figure' && kind !== 'show')) return false;
    for (let lookup = this.lookups; lookup; lookup = lookup.nextOfNode)
      if (lookup.want !== 'value' || !lookup.entry.figure?.value) return false;
    return true;
  }

  /** Whether it has the value that it was given at once, and no update has come past it since. */
  get isAsGiven(): boolean {
    return this.stamp === 0 && this.value !== null;
  }

  /**
   * Lets go of what was read, which takes more room than all else about a line; it is read again when somebody asks. Most
   * lines are evaluated once, or stand alone. Of those that are worked out again and state a value and no more, the
   * expression is kept; of those on machines everything, since the judge asks for it each time.
   */
  forget(again: boolean): void {
    const { read } = this;
    if (read === null || read.findings.length > 0 || this.on.length > 0) return;
    if (read.kind !== 'figure' && read.kind !== 'show') return;
    if (again && !this.standsAlone) {
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
    const { nodes } = block;
    if (nodes[this.index] !== this) {
      // Changes further up have moved it. Few nodes are asked for their line; when many are, all are numbered.
      if (nodes[this.index + block.moved] === this) this.index += block.moved;
      else if (block.searches++ < MOST_SEARCHES) this.index = nodes.indexOf(this);
      else nodes.forEach((node, i) => (node.index = i));
    }
    return block.firstLine + this.index;
  }

  /** The name of the figure, for messages; empty for other lines. */
  get name(): string {
    return this.kind === 'figure' ? (this.provides?.name ?? '') : '';
  }
}

/** Whether it is `name = expression` or an expression alone, without limits or a unit to show it in. */
function statesOnlyAValue(read: Statement): read is Statement & { readonly expression: Expression } {
  if (read.kind === 'figure') return read.limits === null && read.sense === null && read.to === null;
  return read.kind === 'show' && read.to === null;
}
