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
import { bind } from './bind';
import { type LineChange, type SheetBlock, changeText, emptyBlock, linesOf, replaceNodes } from './blocks';
import { GivenArguments, bindArguments } from './call';
import type { Card } from './cards';
import { CardBox } from './card-box';
import { Evaluation, type Scope } from './evaluate';
import { Entry, Node } from './graph';
import { judge } from './judge';
import { allFindings, allRows, cardInForce, rowAt, rowOf } from './present';
import type { CardInForce, Finding, Row, Shop } from './results';
import { settle } from './settle';
import { evaluateNode } from './statement';
import { difference, entryValue } from './values';

const NO_PROBLEMS: readonly never[] = [];
let inputs = 0;

function addAll(to: Set<Node>, ...groups: readonly Iterable<Node>[]): void {
  for (const group of groups) for (const node of group) to.add(node);
}

export class Sheet implements Scope {
  private readonly entries = new Map<string, Entry>();
  private blocks: SheetBlock[] = [];
  /** Names whose figures change in the update in progress, each with its one figure from before. */
  private readonly renewed = new Map<Entry, Node | null>();
  private readonly inputNodes = new Map<number, Node>();
  private readonly cardBox: CardBox;
  /** Entries with more than one figure, and lines that have something to say: kept so that findings cost no search. */
  readonly doubled = new Set<Entry>();
  readonly troubled = new Set<Node>();
  private jobFields: ReadonlyMap<string, string> = new Map();
  private cached: { rows: readonly Row[] | null; findings: readonly Finding[] | null } = {
    rows: null,
    findings: null,
  };
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
  }

  /** Brings the sheet up to a note and the shop files in force, nearest first. Lines that did not change keep their values. */
  update(note: Note, shops: readonly Shop[] = []): void {
    this.cached = { rows: null, findings: null };
    this.note = note;
    const seeds = new Set<Node>();
    const judged = new Set<Node>();
    // Gathered first and gone through once: thousands of lines may touch one name.
    const touched = new Set<Entry>();
    const touch = (entry: Entry): void => void touched.add(entry);
    this.readJob(note, touch, seeds);
    if (!this.inside) {
      for (const name of this.cardBox.update(note.blocks, shops)) {
        const entry = this.entries.get(name);
        if (!entry) continue;
        entry.card = this.cardBox.named(name);
        touch(entry);
      }
    }
    this.renewed.clear();
    this.readBlocks(note, touch, seeds);
    this.passOn(seeds, judged, touch);
    for (const entry of touched) {
      entry.forgetOrder();
      for (const looker of entry.lookers) seeds.add(looker);
      addAll(judged, entry.definers, entry.records, entry.judges);
    }
    // A line that went may have been touched by another that went after it.
    for (const node of seeds) if (!node.block) seeds.delete(node);
    const reached = new Set<Entry>();
    for (const node of settle(seeds, this)) {
      judged.add(node);
      if (node.provides) reached.add(node.provides);
    }
    for (const entry of reached) addAll(judged, entry.records, entry.judges);
    for (const node of judged) {
      if (!node.block) continue;
      judge(node, this.find);
      this.noteTrouble(node);
    }
  }

  /**
   * Where one line took another's place as a name's figure, it starts from the other's value: lines that look the name up
   * need a fresh look only if the new value differs, or the field that they want.
   */
  private passOn(seeds: Set<Node>, judged: Set<Node>, touch: (entry: Entry) => void): void {
    for (const [entry, before] of this.renewed) {
      const [now] = entry.definers;
      if (!before || !now || entry.definers.length > 1) touch(entry);
      else if (now !== before) {
        now.value = before.value;
        seeds.add(now);
        addAll(judged, entry.records, entry.judges);
      }
    }
  }

  /** Remembers the one figure of a name, if there is just one, before its figures change. */
  private renew(entry: Entry): void {
    if (this.renewed.has(entry)) return;
    this.renewed.set(entry, entry.definers.length === 1 ? (entry.definers[0] ?? null) : null);
  }

  private readJob(note: Note, touch: (entry: Entry) => void, seeds: Set<Node>): void {
    if (this.inside) return;
    const fields = new Map<string, Quantity | Text>();
    const texts = new Map<string, string>();
    for (const [key, { text }] of note.front) {
      texts.set(key, text);
      // A count takes part in arithmetic; every other field is words, a drawing number 0815 too.
      const count = key === 'quantity' && /^\d{1,9}$/.test(text) ? Number(text) : null;
      fields.set(key, count === null ? { kind: 'text', text } : plain(count));
    }
    const entry = this.entryOf('job');
    const before = entry.job;
    const job: RecordValue = { kind: 'record', of: 'job', fields };
    entry.job = job;
    this.jobFields = texts;
    if (difference(before, job) !== false) touch(entry);
    const system = texts.get('units');
    const wanted = system === 'mm' || system === 'in' ? system : null;
    if (wanted === this.system) return;
    this.system = wanted;
    for (const block of this.blocks) for (const node of block.nodes) seeds.add(node);
  }

  /** Finds the changed lines of every block, and puts the new lines' nodes in the place of the old ones'. */
  private readBlocks(note: Note, touch: (entry: Entry) => void, seeds: Set<Node>): void {
    const calculating = note.blocks.filter((block) => this.inside || block.word === 'figures');
    const keyOf = (block: Block): string => `${block.word} ${block.on.map((word) => word.text).join()}`;
    const same = (old: SheetBlock | undefined, block: Block | undefined): boolean =>
      old !== undefined && block !== undefined && old.content === block.content && old.key === keyOf(block);
    const before = this.blocks;
    const shared = Math.min(before.length, calculating.length);
    let [head, tail] = [0, 0];
    while (head < shared && same(before[head], calculating[head])) head++;
    while (tail < shared - head && same(before.at(-1 - tail), calculating.at(-1 - tail))) tail++;

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
      const block = reused ?? emptyBlock(key);
      const change = changeText(block, source.content);
      if (change) {
        release(block, block.nodes.slice(change.from, change.from + change.removed));
        moving.push({ block, change, source });
      }
      return block;
    });
    const kept = new Set(after);
    for (const block of before) if (!kept.has(block)) release(block, block.nodes);
    for (const { block, change, source } of moving) {
      const nodes = change.added.map((text) => {
        const moved = gone.get(`${block.key}\0${text}`)?.pop();
        if (moved?.provides && moved.statement.kind !== 'figure') touch(moved.provides);
        return moved ?? this.makeNode(text, source, touch, seeds);
      });
      replaceNodes(block, change, nodes);
    }
    for (const nodes of gone.values()) for (const node of nodes) this.dropNode(node, touch);
    this.blocks = after;
    after.forEach((block, i) => {
      block.order = i;
      block.firstLine = calculating[i]?.firstLine ?? 0;
    });
    let next = 0;
    this.placed = note.blocks.map((block) => {
      const lines = this.inside || block.word === 'figures' ? (after[next++] ?? null) : null;
      return { block, lines, card: lines ? null : this.cardBox.of(block) };
    });
  }

  private makeNode(text: string, source: Block, touch: (entry: Entry) => void, seeds: Set<Node>): Node {
    const statement = parseLine(text, source.word satisfies FenceWord);
    const on = source.on.map((word) => this.entryOf(word.text));
    const node = new Node(text, source.word, on, statement, ++inputs);
    const { kind } = statement;
    if (kind === 'empty' && statement.findings.length === 0) return node;
    const { lookups, steps } = bind(statement, this.entryOf);
    node.lookups = lookups;
    node.steps = steps;
    for (const { entry } of lookups) entry.lookers.add(node);
    for (const entry of steps) {
      entry.stepped++;
      touch(entry);
    }
    if (kind === 'figure' || kind === 'show') for (const entry of on) entry.judges.add(node);
    if (kind === 'figure' || kind === 'words' || (kind === 'broken' && statement.name)) {
      const name =
        kind === 'figure'
          ? statement.name.text
          : kind === 'words'
            ? statement.key.text
            : (statement.name?.text ?? '');
      const entry = this.entryOf(name);
      this.renew(entry);
      node.provides = entry;
      entry.definers.push(node);
      if (entry.definers.length > 1) this.doubled.add(entry);
      this.inputNodes.set(node.input, node);
    } else if (kind === 'reading' || kind === 'used') {
      const { names } = statement.path;
      const entry = this.entryOf(names.join('.'));
      node.provides = entry;
      entry.records.push(node);
      touch(entry);
      if (names.length > 1) this.entryOf(names[0] ?? '').judges.add(node);
    }
    seeds.add(node);
    return node;
  }

  private dropNode(node: Node, touch: (entry: Entry) => void): void {
    node.block = null;
    this.troubled.delete(node);
    this.inputNodes.delete(node.input);
    for (const { entry } of node.lookups) this.release(entry, () => entry.lookers.delete(node));
    for (const entry of node.on) this.release(entry, () => entry.judges.delete(node));
    for (const entry of node.steps) {
      this.release(entry, () => entry.stepped--);
      touch(entry);
    }
    const { provides, statement } = node;
    if (!provides) return;
    const records = statement.kind === 'reading' || statement.kind === 'used';
    const among = records ? provides.records : provides.definers;
    if (!records) this.renew(provides);
    among.splice(among.indexOf(node), 1);
    if (provides.definers.length <= 1) this.doubled.delete(provides);
    const root = records ? this.entries.get(statement.path.names[0] ?? '') : undefined;
    if (root) this.release(root, () => root.judges.delete(node));
    if (records) touch(provides);
    this.release(provides, () => undefined);
  }

  private release(entry: Entry, letGo: () => unknown): void {
    letGo();
    if (entry.idle) this.entries.delete(entry.name);
  }

  private readonly entryOf = (name: string): Entry => {
    let entry = this.entries.get(name);
    if (!entry) {
      entry = new Entry(name);
      if (!this.inside) entry.card = this.cardBox.named(name);
      this.entries.set(name, entry);
    }
    return entry;
  };

  private readonly find = (name: string): Entry | undefined => this.entries.get(name);

  private noteTrouble(node: Node): void {
    const trouble =
      node.statement.findings.length > 0 ||
      node.problems.length > 0 ||
      node.verdicts.length > 0 ||
      node.cycle !== null;
    if (trouble) this.troubled.add(node);
    else this.troubled.delete(node);
  }

  // --- Scope and Settling --------------------------------------------------------------------------------------

  entry(name: string): Entry | undefined {
    return this.entries.get(name);
  }

  evaluate(node: Node): boolean | ReadonlySet<string> {
    this.evaluations++;
    const [before, readings] = [node.value, node.readings];
    evaluateNode(node, this);
    if (node.readings !== readings) node.provides?.forgetRecorded();
    return node.readings !== readings ? true : difference(before, node.value);
  }

  refuse(node: Node, cycle: readonly Node[]): boolean {
    this.evaluations++;
    const had = node.value !== null;
    node.value = null;
    node.asked = null;
    node.check = null;
    node.waitsFor = NO_PROBLEMS;
    node.problems = NO_PROBLEMS;
    node.cycle = cycle;
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
    return card ? cardInForce(card) : undefined;
  }

  cards(): readonly CardInForce[] {
    return this.cardBox.all().map(cardInForce);
  }

  /** Cards of the note's own that share a name, for the finding at each. */
  get cardsTwice(): readonly Card[] {
    return this.cardBox.twice;
  }

  valueOf(name: string): Value | null {
    const entry = this.entries.get(name);
    return (entry && entryValue(entry)) ?? this.cardBox.named(name)?.value ?? null;
  }

  figure(name: string): Row | undefined {
    const node = this.entries.get(name)?.definers[0];
    return node && rowOf(this, node);
  }

  names(): readonly string[] {
    return [...this.entries.values()].filter((entry) => entry.definers.length > 0).map((entry) => entry.name);
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

  inputName(input: number): string {
    const node = this.inputNodes.get(input);
    return node?.provides?.name ?? '';
  }
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
  sheet.update({ blocks: linesOf(text).length > 0 ? [block] : [], front: new Map(), findings: [] });
  return sheet;
}
