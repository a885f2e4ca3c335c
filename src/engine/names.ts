/**
 * The names of a sheet, and the lines that give them something or look them up: puts a line in and takes it out again,
 * and gathers on the way what an update has to look at.
 */
import { PackedQuantities } from '../quantity/packed';
import { placeIn } from '../quantity/place-in';
import type { Quantity, Value } from '../quantity/value';
import type { Statement } from '../notation/syntax';
import { letGoFigure } from '../notation/used-nodes';
import { letGoAsked } from './asked';
import type { FiguresOnly } from './at-once';
import { bind } from './bind';
import type { Card } from './cards';
import { withOne, withoutOne } from './few';
import { Entry, nodeAt, nodesOf } from './graph';
import { Node, type NodeBlock } from './node';
import { difference, entryValue } from './values';
import { isWarm } from './warm';

const NOTHING: readonly Entry[] = [];
const MOST_SEARCHES = 8;
const FEW_GONE = 1000;
let inputs = 0;

export class Names {
  /** Of a figure that was given its value at once only the value, or its place among those that are packed. */
  private readonly entries = new Map<string, Entry | Value | number>();
  private packed = new PackedQuantities();
  /**
   * Lines with asked limits in the order of the numbers under which limits know them, which is the order they came in; of
   * one without a node its entry, or its place among the packed. Lines that went stay until they may be most of them.
   */
  private inputs: (Node | Entry | number)[] = [];
  /** How many lines went since those that stay were last picked out. */
  private gone = 0;
  /** Entries with more than one figure, kept so that findings cost no search. */
  readonly doubled = new Set<Entry>();

  // The update in progress. Names are gathered first and gone through once: thousands of lines may touch one.
  private readonly touched = new Set<Entry>();
  /** Names whose figures change, each with its one figure from before. */
  private readonly renewed = new Map<Entry, Node | null>();
  /** Lines that need a fresh look, some of them more than once. */
  private seeds: Node[] = [];

  /** Whether every line has its node. */
  private linked = false;
  /** Second figures of a name whose first one has no node yet. */
  private readonly late: { readonly node: Node; readonly name: string }[] = [];
  /** How many figures without a node were searched for. */
  private searches = 0;

  /**
   * `blocks` are those of the note, `cardNamed` finds the card that a name stands for, `giveValue` evaluates a line that is
   * ready, `valueAtOnce` one that may do without a node.
   */
  constructor(
    private readonly blocks: () => readonly NodeBlock[],
    private readonly cardNamed: (name: string) => Card | null,
    private readonly giveValue: (node: Node) => void,
    private readonly valueAtOnce: FiguresOnly['valueOf'],
    private readonly atOnce: () => FiguresOnly,
  ) {}

  readonly find = (name: string): Entry | undefined =>
    this.entries.has(name) ? this.entryOf(name) : undefined;

  /** The entry of a name, made on first mention. */
  readonly entryOf = (name: string): Entry => {
    const known = this.entries.get(name);
    if (known instanceof Entry) return known;
    const entry = typeof known === 'number' ? this.unpacked(name, known) : new Entry(name, known);
    if (known === undefined) entry.card = this.cardNamed(name);
    this.entries.set(name, entry);
    return entry;
  };

  private unpacked(name: string, place: number): Entry {
    const input = this.packed.firstInput(place);
    const at = this.placeOfInput(input);
    const isLimited = this.inputs[at] === place;
    const entry = new Entry(name, this.packed.at(place), isLimited ? input : 0);
    if (isLimited) this.inputs[at] = entry;
    return entry;
  }

  /** The entry of a name; undefined where it has nothing but the value of its one figure. */
  besides(name: string): Entry | undefined {
    const known = this.entries.get(name);
    return known instanceof Entry ? known : undefined;
  }

  /** See `entryValue`. */
  standsFor(name: string): Value | null | undefined {
    const known = this.entries.get(name);
    if (typeof known === 'number') return this.packed.at(known);
    return known instanceof Entry ? entryValue(known) : known;
  }

  hasFigure(name: string): boolean {
    const known = this.entries.get(name);
    return known instanceof Entry ? known.hasFigure : known !== undefined;
  }

  /** What the one figure of a name amounts to; null when it has several or none, or one without a value. */
  readonly figureValue = (name: string): Value | null => {
    const known = this.entries.get(name);
    if (typeof known === 'number') return this.packed.at(known);
    return known instanceof Entry ? known.figureValue : (known ?? null);
  };

  /** The entry of a name, its figure with its node. */
  readonly withNode = (name: string): Entry | undefined => {
    const entry = this.find(name);
    if (!entry?.isAtOnce) return entry;
    // Few are asked for by their names; when many are, all get their nodes.
    const few = this.searches++ < MOST_SEARCHES;
    for (const block of this.blocks()) {
      const index = few ? block.lines.indexOf(name) : -1;
      if (index !== -1) nodeAt(block, index);
      else if (!few) nodesOf(block);
    }
    return entry;
  };

  /** Names with a figure, `most` at most. */
  given(most = Infinity): readonly string[] {
    const names: string[] = [];
    for (const [name, known] of this.entries) {
      if (names.length >= most) break;
      if (!(known instanceof Entry) || known.hasFigure) names.push(name);
    }
    return names;
  }

  /** The line whose asked limits an input number means. */
  input(input: number): Node | undefined {
    const at = this.placeOfInput(input);
    if (this.inputAt(at) !== input) return undefined;
    const found = this.inputs[at];
    if (found instanceof Node) return found.block ? found : undefined;
    return this.withNode(found instanceof Entry ? found.name : this.nameOfPacked(found))?.figure ?? undefined;
  }

  private placeOfInput(input: number): number {
    return placeIn(this.inputs.length, (at) => this.inputAt(at) < input);
  }

  private inputAt(at: number): number {
    const line = this.inputs[at];
    return typeof line === 'number' ? this.packed.firstInput(line) : (line?.input ?? Infinity);
  }

  private nameOfPacked(place: number | undefined): string {
    for (const [name, known] of this.entries) if (known === place) return name;
    return '';
  }

  /** What an entry stands for is another thing now, or it is judged by other things. */
  touch(entry: Entry): void {
    this.touched.add(entry);
  }

  refresh(node: Node): void {
    this.seeds.push(node);
  }

  /**
   * A line of a block on those machines, in its place among the names; with its value, if it is ready. Most of a note is
   * figures that need nothing but what stands above them: of such a one the answer is its name, and there is no node.
   */
  add(text: string, machines: readonly Entry[], statement: Statement): Node | string {
    const { kind } = statement;
    if (kind === 'figure' && machines.length === 0 && this.isGivenAtOnce(text, statement))
      return statement.name.text;
    const judged = kind === 'figure' || kind === 'show' || kind === 'used';
    // A warm reading stands by the job, which names the material.
    const by = judged ? machines : isWarm(statement) ? [this.entryOf('job')] : NOTHING;
    const node = new Node(text, by, statement, ++inputs);
    if (kind === 'empty' && statement.findings.length === 0) return node;
    bind(node, this.entryOf);
    const { isReady } = node;
    if (!isReady) this.seeds.push(node);
    for (const entry of node.steps) {
      entry.stepped++;
      this.touch(entry);
    }
    for (const entry of node.on) entry.judges = withOne(entry.judges, node);
    if (kind === 'reading' || kind === 'used') this.addRecord(node, statement.path.names);
    else if (kind === 'figure') this.addDefiner(node, statement.name.text);
    else if (kind === 'words') this.addDefiner(node, statement.key.text);
    else if (kind === 'broken' && statement.name) this.addDefiner(node, statement.name.text);
    if (kind === 'figure' && statement.limits) this.inputs.push(node);
    if (isReady) this.giveValue(node);
    return node;
  }

  private isGivenAtOnce(text: string, statement: Statement & { kind: 'figure' }): boolean {
    const { name, limits, findings } = statement;
    if (this.linked || findings.length > 0 || this.entries.has(name.text)) return false;
    if (this.cardNamed(name.text)) return false;
    const input = limits ? ++inputs : 0;
    const value = this.valueAtOnce(text, statement, input);
    if (!value) return false;
    const known = this.known(name.text, value, input);
    this.entries.set(name.text, known);
    if (limits) this.inputs.push(known as Entry | number);
    letGoFigure(statement);
    return true;
  }

  /** What is kept of a figure that has been given its value at once. */
  private known(name: string, value: Value, input: number): Entry | Value | number {
    const { limits } = this.atOnce();
    const place = limits ? this.packed.addInput(value as Quantity, input, limits) : this.packed.add(value);
    if (limits) letGoAsked(limits);
    if (place !== -1) return place;
    return input > 0 ? new Entry(name, value, input) : value;
  }

  /**
   * Makes a node of each line that has none, and enters what it looks up: to be done once, before anything changes. It costs
   * about as much as reading the note, and no more than that, which a note that is only looked at never pays.
   */
  link(): void {
    if (this.linked) return;
    this.linked = true;
    for (const block of this.blocks())
      for (const node of nodesOf(block)) {
        if (node.lookups !== undefined) continue;
        node.lookups = null;
        bind(node, this.entryOf);
        node.forget(false);
      }
    this.inputs = this.inputs.flatMap((line) => (line instanceof Entry ? (line.figure ?? []) : line));
    this.packed = new PackedQuantities();
  }

  private addRecord(node: Node, path: readonly string[]): void {
    const entry = this.entryOf(path.join('.'));
    node.provides = entry;
    if (entry.records) entry.records.lines.push(node);
    else entry.records = { lines: [node], ordered: null, recorded: null };
    this.touch(entry);
    if (path.length === 1) return;
    const root = this.entryOf(path[0] ?? '');
    root.judges = withOne(root.judges, node);
  }

  private addDefiner(node: Node, name: string): void {
    const entry = this.entryOf(name);
    if (entry.isAtOnce) {
      this.late.push({ node, name });
      return;
    }
    node.provides = entry;
    this.renew(entry);
    entry.definers = withOne(entry.definers, node);
    if (!entry.figure) this.doubled.add(entry);
  }

  /** Takes a line out. */
  drop(node: Node): void {
    node.block = null;
    this.gone++;
    for (let lookup = node.lookups; lookup; lookup = lookup.nextOfNode) {
      lookup.leave();
      this.release(lookup.entry);
    }
    for (const entry of node.on) {
      entry.judges = withoutOne(entry.judges, node);
      this.release(entry);
    }
    for (const entry of node.steps) {
      entry.stepped--;
      this.touch(entry);
      this.release(entry);
    }
    const { provides, kind } = node;
    if (!provides) return;
    if (kind === 'reading' || kind === 'used') {
      withoutRecord(provides, node);
      this.touch(provides);
      const root = this.find(provides.name.split('.', 1)[0] ?? '');
      if (root) {
        root.judges = withoutOne(root.judges, node);
        this.release(root);
      }
    } else {
      this.renew(provides);
      provides.definers = withoutOne(provides.definers, node);
      if (provides.figure || !provides.definers) this.doubled.delete(provides);
    }
    this.release(provides);
  }

  /** Forgets an entry that nobody needs any more. */
  private release(entry: Entry): void {
    if (entry.idle) this.entries.delete(entry.name);
  }

  /** Remembers the one figure of a name, if there is just one, before its figures change. */
  private renew(entry: Entry): void {
    // Nobody can have seen a name that nothing hangs on.
    if (entry.idle || this.renewed.has(entry)) return;
    this.renewed.set(entry, entry.figure);
  }

  private tell(entry: Entry, changed: boolean | ReadonlySet<string>): void {
    if (changed === false) return;
    for (let looker = entry.lookers; looker; looker = looker.next)
      if (looker.concerns(changed)) this.seeds.push(looker.node);
  }

  /** Ends the gathering: the lines to evaluate, and the entries whose lines are to be judged again. */
  gathered(): { readonly seeds: readonly Node[]; readonly touched: readonly Entry[] } {
    // A name that was given twice loses its value, and lines that have been looking at it must know.
    if (this.late.length + this.doubled.size > 0) this.link();
    for (const { node, name } of this.late.splice(0)) this.addDefiner(node, name);
    const replaced: Entry[] = [];
    for (const [entry, before] of this.renewed) {
      const now = entry.figure;
      if (!before || !now) this.touch(entry);
      else {
        // One line took another's place as the name's figure: lines that look the name up need a fresh look only if the
        // new value differs, or the field that they want.
        replaced.push(entry);
        if (now.value) this.tell(entry, difference(before.value, now.value));
        else {
          now.value = before.value;
          this.seeds.push(now);
        }
      }
    }
    if (this.gone > FEW_GONE + this.inputs.length / 2) {
      this.inputs = this.inputs.filter((line) => !(line instanceof Node) || line.block);
      this.gone = 0;
    }
    const { seeds } = this;
    this.seeds = [];
    for (const entry of this.touched) {
      entry.forgetOrder();
      for (let looker = entry.lookers; looker; looker = looker.next) seeds.push(looker.node);
    }
    const touched = [...this.touched, ...replaced];
    this.touched.clear();
    this.renewed.clear();
    return { seeds, touched };
  }
}

function withoutRecord(entry: Entry, node: Node): void {
  const lines = entry.records?.lines ?? [];
  lines.splice(lines.indexOf(node), 1);
  if (lines.length === 0) entry.records = null;
}
