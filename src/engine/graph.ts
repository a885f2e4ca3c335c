/**
 * The sheet's graph: a node for every line of code, an entry for every name that is given or looked up.
 *
 * A node keeps what it looked up, found or not, so a name that appears later finds the lines that were waiting for it.
 * Nodes are known by their text, never by their line, so they survive being moved.
 */
import type { LineFinding } from '../quantity/finding';
import type { List, Quantity, RecordValue, Value } from '../quantity/value';
import type { Card } from './cards';
import type { Few } from './few';
import type { Node, NodeBlock } from './node';

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
    this.nextOfNode = node.lookups ?? null;
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

  /** `given` is the value of a figure that has no node yet, and `input` the number by which limits know it, 0 without any. */
  constructor(
    readonly name: string,
    private given: Value | null = null,
    readonly input = 0,
  ) {}

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

  /** Whether its one figure has no node yet. */
  get isAtOnce(): boolean {
    return this.given !== null;
  }

  /** Gives that figure its node. */
  takeNode(node: Node): void {
    this.definers = node;
    this.given = null;
  }

  /** Whether it has a figure, or several. */
  get hasFigure(): boolean {
    return this.given !== null || this.definers !== null;
  }

  /** The figure of this name, when it has one and no more; null for one that has no node yet. */
  get figure(): Node | null {
    return this.definers instanceof Set ? null : this.definers;
  }

  /** What its one figure amounts to; null when it has several or none, or one without a value. */
  get figureValue(): Value | null {
    return this.given ?? this.figure?.value ?? null;
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

/** The node of a block's line, made for one that has none. */
export function nodeAt(block: NodeBlock, index: number): Node | undefined {
  const line = block.lines[index];
  return typeof line === 'string' ? block.nodeOf(line, block, index) : line;
}

/** The nodes of a block, in the order of its lines. */
export function nodesOf(block: NodeBlock, from = 0, to = block.lines.length): readonly Node[] {
  const nodes: Node[] = [];
  for (let index = from; index < to; index++) {
    const node = nodeAt(block, index);
    if (node) nodes.push(node);
  }
  return nodes;
}
