/**
 * A note's sheet: all its figures blocks together, kept up to date as the note changes.
 *
 * An update finds the lines that are new, puts them into the graph, and settles only what they reach: values first, then
 * what is judged from values (machine limits, readings). Places and sentences are made when somebody asks.
 */
import { plain } from '../quantity/arithmetic';
import type { CardView, RecordValue, Text, Value, Quantity } from '../quantity/value';
import { parseLine } from '../notation/line';
import { readNote } from '../notation/note';
import type { Block, CallNode, Expression, FenceWord, Note } from '../notation/syntax';
import type { Formula, Given } from '../trade/formula';
import { formulaNamed } from '../trade/index';
import { FiguresOnly, nodeOfFigure } from './at-once';
import { type LineChange, type SheetBlock, changeText, emptyBlock, replaceLines } from './blocks';
import { bindArguments } from './call';
import { GivenArguments } from './given';
import type { Card } from './cards';
import { CardBox } from './card-box';
import { Evaluation, type Scope } from './evaluate';
import { forEachOf } from './few';
import { type Entry, freshMark, nodesOf } from './graph';
import { type Node, type NodeBlock, ONLY_A_VALUE } from './node';
import { judge } from './judge';
import { Names } from './names';
import { Presenter, allFindings, allRows, cardInForce, rowAt, rowOf } from './present';
import type { CardInForce, Finding, Row, Shop } from './results';
import { settle } from './settle';
import { evaluateNode } from './statement';
import { difference } from './values';

export class Sheet implements Scope {
  private readonly register: Names;
  private blocks: SheetBlock[] = [];
  private readonly cardBox: CardBox;
  private readonly evaluation = new Evaluation(this, '');
  private readonly figuresOnly: FiguresOnly;
  /** Lines that have something to say, kept so that findings cost no search. */
  readonly troubled = new Set<Node>();
  private jobFields: ReadonlyMap<string, string> = new Map();
  /** What was answered since the last update. */
  private cached: {
    rows?: readonly Row[];
    findings?: readonly Finding[];
    presenter?: Presenter;
    readonly cards: Map<Card, CardInForce>;
    readonly figures: Map<Node, Row | undefined>;
  } = nothingYet();
  /** The note as of the last update; its blocks in note order, with the sheet's own beside those that calculate. */
  note: Note = { blocks: [], front: new Map(), findings: [] };
  placed: readonly {
    readonly block: Block;
    readonly lines: SheetBlock | null;
    readonly card: Card | null;
  }[] = [];
  system: 'mm' | 'in' | null = null;
  evaluations = 0;

  /** `inside` makes a card's own sheet: every block calculates and no cards are in force. */
  constructor(private readonly inside = false) {
    this.cardBox = new CardBox(() => new Sheet(true));
    this.register = new Names(
      () => this.blocks,
      (name) => (inside ? null : this.cardBox.named(name)),
      this.giveValue,
      this.valueAtOnce,
      () => this.figuresOnly,
    );
    this.figuresOnly = new FiguresOnly(
      this.register.figureValue,
      // A card's own line may say `pi: ...` further down.
      (name) => inside || this.valueOf(name) !== null,
      this,
    );
  }

  /** Brings the sheet up to a note and the shop files in force, nearest first. Lines that did not change keep their values. */
  update(note: Note, shops: readonly Shop[] = []): void {
    this.cached = nothingYet();
    if (this.blocks.length > 0) this.register.link();
    this.note = note;
    if (!this.inside) {
      this.readJob(note);
      for (const name of this.cardBox.update(note.blocks, shops)) {
        // Warm readings stand by the job, and grow by the card of its material.
        if (name === this.jobFields.get('material')) this.register.touch(this.register.entryOf('job'));
        const entry = this.register.find(name);
        if (!entry) continue;
        entry.card = this.cardBox.named(name);
        this.register.touch(entry);
      }
    }
    this.readBlocks(note);
    const { seeds, touched } = this.register.gathered();
    this.judgeAll(settle(seeds, this), touched);
  }

  private readonly cardOf = (name: string): Card | null => this.cardBox.named(name);

  /** Judges what was evaluated and what is judged by it, each line once. */
  private judgeAll(evaluated: readonly Node[], touched: readonly Entry[]): void {
    const turn = freshMark();
    const once = (node: Node): void => {
      if (node.stamp === turn) return;
      node.stamp = turn;
      judge(node, this.register.withNode, this.cardOf);
      this.noteTrouble(node);
    };
    const seen = new Set<Entry>();
    const around = (entry: Entry): void => {
      if ((!entry.records && !entry.judges) || seen.has(entry)) return;
      seen.add(entry);
      entry.records?.lines.forEach(once);
      forEachOf(entry.judges, once);
    };
    for (const node of evaluated) {
      once(node);
      if (node.provides) around(node.provides);
    }
    for (const entry of touched) {
      forEachOf(entry.definers, once);
      around(entry);
    }
  }

  private readJob(note: Note): void {
    const fields = new Map<string, Quantity | Text>();
    const texts = new Map<string, string>();
    for (const [key, { text }] of note.front) {
      texts.set(key, text);
      // A count takes part in arithmetic; every other field is words, a drawing number 0815 too.
      const count = key === 'quantity' && /^\d{1,9}$/.test(text) ? Number(text) : null;
      fields.set(key, count === null ? { kind: 'text', text } : plain(count));
    }
    const entry = this.register.entryOf('job');
    const before = entry.job;
    const job: RecordValue = { kind: 'record', of: 'job', fields };
    entry.job = job;
    this.jobFields = texts;
    if (difference(before, job) !== false) this.register.touch(entry);
    const system = texts.get('units');
    const wanted = system === 'mm' || system === 'in' ? system : null;
    if (wanted === this.system) return;
    this.system = wanted;
    for (const block of this.blocks) for (const node of nodesOf(block)) this.register.refresh(node);
  }

  /** Finds the changed lines of every block, and puts the new lines' nodes in the place of the old ones'. */
  private readBlocks(note: Note): void {
    const calculating = note.blocks.filter((block) => this.inside || block.word === 'figures');
    const keyOf = (block: Block): string => `${block.word} ${block.on.map((word) => word.text).join()}`;
    const same = (old: SheetBlock | undefined, block: Block | undefined): boolean =>
      old !== undefined && block !== undefined && old.content === block.content && old.key === keyOf(block);
    const before = this.blocks;
    const shared = Math.min(before.length, calculating.length);
    let [head, tail] = [0, 0];
    while (head < shared && same(before[head], calculating[head])) head++;
    // With as many blocks as before, the one at which the head ends has been found to differ already.
    const rest = shared - head - (before.length === calculating.length ? 1 : 0);
    while (tail < rest && same(before.at(-1 - tail), calculating.at(-1 - tail))) tail++;

    const gone = new Map<string, Node[]>();
    const moving: { block: SheetBlock; change: LineChange; source: Block }[] = [];
    const release = (block: SheetBlock, nodes: readonly Node[]): void => {
      for (const node of nodes) {
        const key = `${block.key}\0${node.text}`;
        const waiting = gone.get(key);
        if (waiting) waiting.push(node);
        else gone.set(key, [node]);
      }
    };
    const after = calculating.map((source, i): SheetBlock => {
      const old = i < head ? before[i] : before[before.length - (calculating.length - i)];
      if ((i < head || i >= calculating.length - tail) && old) return old;
      const key = keyOf(source);
      const reused = i < before.length - tail && before[i]?.key === key ? before[i] : undefined;
      const block = reused ?? emptyBlock(key, this.nodeOf);
      const change = changeText(block, source.content);
      if (change) {
        release(block, nodesOf(block, change.from, change.from + change.removed));
        moving.push({ block, change, source });
      }
      return block;
    });
    const kept = new Set(after);
    for (const block of before) if (!kept.has(block)) release(block, nodesOf(block));
    for (const { block, change, source } of moving) {
      const machines = source.on.map((word) => this.register.entryOf(word.text));
      // What is kept of a line takes the line's own place: texts that are done with need not stay while the rest is read.
      const lines: (Node | string)[] = change.added;
      change.added.forEach((text, i) => {
        const moved = gone.size === 0 ? undefined : gone.get(`${block.key}\0${text}`)?.pop();
        if (moved?.provides && moved.kind !== 'figure') this.register.touch(moved.provides);
        lines[i] = moved ?? this.register.add(text, machines, parseLine(text, source.word));
      });
      replaceLines(block, change, lines);
    }
    for (const nodes of gone.values()) {
      for (const node of nodes) {
        this.register.drop(node);
        this.troubled.delete(node);
      }
    }
    this.blocks = after;
    after.forEach((block, i) => {
      block.firstLine = calculating[i]?.firstLine ?? 0;
    });
    let next = 0;
    this.placed = note.blocks.map((block) => {
      const lines = this.inside || block.word === 'figures' ? (after[next++] ?? null) : null;
      return { block, lines, card: lines ? null : this.cardBox.of(block) };
    });
  }

  /** A line that is ready has its value at once: it is never seen again, unless something changes it or somebody asks. */
  private readonly giveValue = (node: Node): void => {
    this.evaluate(node);
    this.noteTrouble(node);
  };

  private readonly valueAtOnce: FiguresOnly['valueOf'] = (text, statement, input) => {
    this.evaluations++;
    return this.figuresOnly.valueOf(text, statement, input);
  };

  private noteTrouble(node: Node): void {
    const trouble =
      node.hasFindings ||
      node.outcome.problems.length > 0 ||
      node.verdict.problems.length > 0 ||
      node.outcome.cycle !== null;
    if (trouble) this.troubled.add(node);
    else this.troubled.delete(node);
  }

  // --- Scope and Settling --------------------------------------------------------------------------------------

  entry(name: string): Entry | undefined {
    return this.register.besides(name);
  }

  standsFor(name: string): Value | null | undefined {
    return this.register.standsFor(name);
  }

  hasFigure(name: string): boolean {
    return this.register.hasFigure(name);
  }

  private readonly nodeOf = (name: string, block: NodeBlock, index: number): Node =>
    nodeOfFigure(this.register.entryOf(name), block, index, this);

  evaluate(node: Node): boolean | ReadonlySet<string> {
    this.evaluations++;
    const before = node.value;
    evaluateNode(node, this.evaluation);
    if (node.outcome.problems.length === 0) node.forget(before !== null);
    // A reading changes nothing here: whoever looks it up was told when its line came, and of its name everything is forgotten.
    return difference(before, node.value);
  }

  refuse(node: Node, cycle: readonly Node[]): boolean {
    this.evaluations++;
    const had = node.value !== null;
    node.value = null;
    node.asked = null;
    node.outcome = { ...ONLY_A_VALUE, cycle };
    return had;
  }

  // --- answers -------------------------------------------------------------------------------------------------

  rows(): readonly Row[] {
    return (this.cached.rows ??= allRows(this));
  }

  rowAt(line: number): Row | undefined {
    return rowAt(this, line);
  }

  findings(): readonly Finding[] {
    return (this.cached.findings ??= allFindings(this));
  }

  job(): ReadonlyMap<string, string> {
    return this.jobFields;
  }

  card(name: string): CardInForce | undefined {
    const card = this.cardBox.named(name);
    return card ? this.inForce(card) : undefined;
  }

  cards(): readonly CardInForce[] {
    return this.cardBox.all().map((card) => this.inForce(card));
  }

  /** The sheet of a card's own lines, which see only each other; null for a block that is no card of the note. */
  cardSheet(block: Block): Sheet | null {
    return this.cardBox.of(block)?.inner ?? null;
  }

  private inForce(card: Card): CardInForce {
    let known = this.cached.cards.get(card);
    if (!known) this.cached.cards.set(card, (known = cardInForce(card)));
    return known;
  }

  /** For the makers of rows and findings. */
  get presenter(): Presenter {
    return (this.cached.presenter ??= new Presenter(this));
  }

  /** Names with more than one figure. */
  get doubled(): ReadonlySet<Entry> {
    return this.register.doubled;
  }

  /** Cards of the note's own that share a name, for the finding at each. */
  get cardsTwice(): readonly Card[] {
    return this.cardBox.twice;
  }

  valueOf(name: string): Value | null {
    return this.standsFor(name) ?? this.cardBox.named(name)?.value ?? null;
  }

  /** The line that gives a name its figure; the first of them in the note where it is given twice. */
  figure(name: string): Row | undefined {
    const definers = this.register.withNode(name)?.definers;
    const [node] = definers instanceof Set ? this.presenter.inOrder(definers) : [definers];
    if (!node) return undefined;
    const { figures } = this.cached;
    if (!figures.has(node)) figures.set(node, rowOf(this, node));
    return figures.get(node);
  }

  names(most?: number): readonly string[] {
    return this.register.given(most);
  }

  /** Evaluates an expression of a row again, for a hover; what is wrong with it stands in the row's findings already. */
  evaluateExpression(expression: Expression, text = ''): Value | null {
    return new Evaluation(this, text).value(expression);
  }

  /** A formula call taken apart, or null when it is not one or its arguments do not fit. */
  call(
    node: CallNode,
  ): { formula: Formula; given: Given; arguments: ReadonlyMap<string, Value | CardView | string> } | null {
    const formula = formulaNamed(node.name.text);
    const bound = formula && bindArguments(new Evaluation(this, ''), node, formula);
    return formula && bound ? { formula, given: new GivenArguments(formula, bound), arguments: bound } : null;
  }

  /** What an input is called: a figure `ring`, a card's field `mill.bore`; empty for a line without a name. */
  inputName(input: number): string {
    const own = this.register.input(input);
    if (own) return own.provides?.name ?? '';
    for (const { name, inner } of this.cardBox.all()) {
      const field = inner.register.input(input)?.provides?.name;
      if (field !== undefined) return `${name}.${field}`;
    }
    return '';
  }
}

function nothingYet(): {
  readonly cards: Map<Card, CardInForce>;
  readonly figures: Map<Node, Row | undefined>;
} {
  return { cards: new Map(), figures: new Map() };
}

/** Evaluates a whole note once. */
export function calculate(text: string, shops: readonly Shop[] = []): Sheet {
  const sheet = new Sheet();
  sheet.update(readNote(text), shops);
  return sheet;
}

/** A sheet over one block of lines, for tests and for evaluating a working: no fences needed. */
export function calculateLines(text: string, word: FenceWord = 'figures'): Sheet {
  const sheet = new Sheet(true);
  const block: Block = {
    word,
    name: null,
    on: [],
    content: text,
    fenceLine: -1,
    firstLine: 0,
    column: () => 0,
    findings: [],
  };
  sheet.update({ blocks: [block], front: new Map(), findings: [] });
  return sheet;
}
