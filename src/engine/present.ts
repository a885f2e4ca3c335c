/** Rows and findings as a host sees them: places in the note, sentences, what else they point to. */
import type { FaultData } from '../quantity/value';
import { CARD_WORDS, whichOf } from '../trade/card-words';
import { KNOWN_FIELDS, type Card, fieldFits } from './cards';
import { CATALOGUE } from './catalogue';
import type { SheetBlock } from './blocks';
import { forEachOf } from './few';
import { type Problem, type RelatedRef, nodeAt, nodesOf } from './graph';
import type { Node } from './node';
import { alike } from './near-names';
import type { CardInForce, Finding, Place, Range, Related, Row } from './results';
import type { Sheet } from './sheet';
import { differences, lastSigned } from './signed';
import type { Block } from '../notation/syntax';

/** Unknown names for which likely ones are looked up; a note full of nonsense must not cost more. */
const MOST_GUESSES = 50;
const MOST_NAMES = 2000;
/** Other places one finding points to. */
const MOST_RELATED = 10;
/** Places all findings of a note point to together; a note that is wrong everywhere needs no more. */
const MOST_RELATED_IN_ALL = 2000;

type Where = (line: number, start: number, end: number) => Range;

/** Places in a block's lines; `line` counts from the block's first. */
function placesIn(block: Block): Where {
  return (line, start, end) => {
    const column = block.column(line);
    return {
      line: block.firstLine + line,
      column: column + start,
      endLine: block.firstLine + line,
      endColumn: column + end,
    };
  };
}

/** Columns of a line as the note has them. */
function inNote(line: number, start: number, end: number): Range {
  return { line, column: start, endLine: line, endColumn: end };
}

function finding(code: string, data: FaultData, place: Range, related: readonly Related[] = []): Finding {
  const kind = CATALOGUE.get(code);
  return {
    code,
    severity: kind?.severity ?? 'error',
    message: kind?.say(data) ?? code,
    data,
    related,
    ...place,
  };
}

/** Makes findings of one state of a sheet, remembering how many guesses it has spent. */
export class Presenter {
  private readonly guesses = new Map<string, readonly string[]>();
  private relations = 0;
  private names: readonly string[] | null = null;
  private readonly sorted = new Map<unknown, readonly Node[]>();
  /** The blocks of the note by their lines, so that a line that is asked for by its name costs no search. */
  private readonly blocks: ReadonlyMap<SheetBlock, Block>;

  constructor(private readonly sheet: Sheet) {
    this.blocks = new Map(
      sheet.placed.flatMap(({ block, lines }) => (lines ? [[lines, block] as const] : [])),
    );
  }

  /** For another answer: what one has spent is not missing in the next. */
  afresh(): this {
    this.relations = 0;
    if (this.guesses.size >= MOST_GUESSES) this.guesses.clear();
    return this;
  }

  blockOf(node: Node): Block | undefined {
    return this.blocks.get(node.block as SheetBlock);
  }

  private where(node: Node): { at: Where; line: number } {
    const block = this.blockOf(node);
    const line = node.line - (node.block as SheetBlock).firstLine;
    return { at: block ? placesIn(block) : inNote, line };
  }

  node(node: Node): Finding[] {
    const { at, line } = this.where(node);
    const make = ({ code, start, end, data, related }: Problem): Finding =>
      finding(
        code,
        this.filled(code, data),
        at(line, start, end),
        (related ?? []).flatMap((ref) => this.related(ref)),
      );
    const { statement } = node;
    const found = [...statement.findings, ...node.outcome.problems, ...node.verdict.problems].map(make);
    if (statement.kind !== 'figure' && statement.kind !== 'words') return found;
    const name = statement.kind === 'figure' ? statement.name : statement.key;
    const definers = node.provides?.definers;
    if (definers instanceof Set) {
      const others = this.inOrder(definers).filter((other) => other !== node);
      const related = others.map((other) => ({ node: other, message: 'given here too' }));
      found.push(
        make({ code: 'name-twice', start: name.start, end: name.end, data: { name: name.text }, related }),
      );
    }
    const { cycle } = node.outcome;
    if (cycle) {
      const members = this.inOrder(cycle);
      const related = members.filter((m) => m !== node).map((m) => ({ node: m, message: 'takes part' }));
      const data = { names: members.map((m) => m.name), more: cycle.length - members.length };
      found.push(make({ code: 'cycle', start: name.start, end: name.end, data, related }));
    }
    return found;
  }

  /** Adds what only the whole sheet knows: the name behind an input number, names that look like an unknown one. */
  private filled(code: string, data: FaultData): FaultData {
    if (typeof data['input'] === 'number') {
      const { alike = [], ...known } = data as FaultData & { alike?: readonly number[] };
      const [name = ''] = [data['input'], ...alike].map((input) => this.sheet.inputName(input)).sort();
      return { name, ...known, input: name };
    }
    return code === 'unknown-name' ? { ...data, offers: this.guess(String(data['name'])) } : data;
  }

  /** Names that an unknown one may be a slip for. A missing figure is often looked up by many lines. */
  private guess(name: string): readonly string[] {
    let known = this.guesses.get(name);
    if (!known) {
      if (this.guesses.size >= MOST_GUESSES) return [];
      this.names ??= this.sheet.names(MOST_NAMES);
      this.guesses.set(name, (known = alike(name, this.names)));
    }
    return known;
  }

  /** The first few of a group of lines as they stand in the note; worked out once for the whole group. */
  inOrder(group: Iterable<Node>): readonly Node[] {
    let known = this.sorted.get(group);
    if (!known)
      this.sorted.set(group, (known = [...group].sort((a, b) => a.line - b.line).slice(0, MOST_RELATED)));
    return known;
  }

  private related(ref: RelatedRef): Related[] {
    if (this.relations++ >= MOST_RELATED_IN_ALL) return [];
    if ('node' in ref) {
      if (!ref.node.block) return [];
      const { at, line } = this.where(ref.node);
      const span = nameSpan(ref.node);
      return [
        {
          file: null,
          ...at(line, span.start, span.end),
          message: `${ref.node.name || ref.node.text.trim()}: ${ref.message}`,
        },
      ];
    }
    const place = fieldPlace(ref.card, ref.field);
    return place ? [{ ...place, message: `${ref.card.name}: ${ref.message} \`${ref.field}\`` }] : [];
  }
}

function nameSpan(node: Node): { start: number; end: number } {
  if (node.statement.kind === 'figure') return node.statement.name;
  const start = node.text.length - node.text.trimStart().length;
  return { start, end: node.text.trimEnd().length };
}

function fieldPlace(card: Card, field: string): Place | null {
  if (card.builtIn) return null;
  const row = card.inner.figure(field);
  const at = placesIn(card.block);
  return row ? { file: card.file, ...at(row.line, 0, row.text.trimEnd().length) } : null;
}

export function allFindings(sheet: Sheet): readonly Finding[] {
  const presenter = sheet.presenter.afresh();
  const found: Finding[] = sheet.note.findings.map((f) =>
    finding(f.code, f.data, inNote(f.line, f.start, f.end)),
  );
  const troubled = new Set(sheet.troubled);
  for (const entry of sheet.doubled) forEachOf(entry.definers, (node) => void troubled.add(node));
  // In the note's order, so that what may be said of a few lines only is said of the first, whatever was edited when.
  for (const node of [...troubled].sort((a, b) => a.line - b.line)) found.push(...presenter.node(node));
  for (const { block, card } of sheet.placed) {
    found.push(...fenceFindings(sheet, block));
    if (card) found.push(...cardFindings(card));
  }
  const signed = lastSigned(sheet.note.blocks);
  if (signed) found.push(...signedFindings(sheet, signed));
  found.push(...twiceFindings(sheet.cardsTwice));
  return found.sort(
    (a, b) => a.line - b.line || a.column - b.column || (a.code < b.code ? -1 : a.code > b.code ? 1 : 0),
  );
}

function fenceFindings(sheet: Sheet, block: Block): Finding[] {
  const found = block.findings.map((f) => finding(f.code, f.data, inNote(block.fenceLine, f.start, f.end)));
  for (const { text, start, end } of block.on) {
    const place = inNote(block.fenceLine, start, end);
    const card = sheet.card(text);
    if (card?.word === 'machine') continue;
    const machines = sheet.cards().flatMap((c) => (c.word === 'machine' ? [c.name] : []));
    if (card) found.push(finding('not-a-machine', { name: text }, place));
    else
      found.push(
        finding('unknown-machine', { name: text, offers: alike(text, machines), known: machines }, place),
      );
  }
  return found;
}

function signedFindings(sheet: Sheet, block: Block): Finding[] {
  const at = placesIn(block);
  return differences(sheet, block).map(({ code, line, start, end, data }) => {
    const figure = sheet.figure(String(data['name']).split('.')[0] ?? '');
    const related = figure
      ? [
          {
            file: null,
            ...inNote(figure.line, figure.column, figure.column + figure.text.trimEnd().length),
            message: `${String(data['name'])}: as it is now`,
          },
        ]
      : [];
    return finding(code, data, at(line, start, end), related);
  });
}

function twiceFindings(cards: readonly Card[]): readonly Finding[] {
  const byName = new Map<string, Card[]>();
  for (const card of cards) {
    const known = byName.get(card.name);
    if (known) known.push(card);
    else byName.set(card.name, [card]);
  }
  return [...byName].flatMap(([name, all]) =>
    all.map((card) => {
      const others = all.slice(0, MOST_RELATED + 1).filter((other) => other !== card);
      const related = others
        .slice(0, MOST_RELATED)
        .map((other) => ({ ...namePlace(other), message: `${name}: given here too` }));
      return finding('card-twice', { name }, namePlace(card), related);
    }),
  );
}

function namePlace({ block, file }: Card): Place {
  return { file, ...inNote(block.fenceLine, block.name?.start ?? 0, block.name?.end ?? 0) };
}

/** What is wrong inside a card, and with fields that the notebook acts on. */
function cardFindings(card: Card): Finding[] {
  const at = placesIn(card.block);
  const found: Finding[] = card.inner.findings().map((f) => ({
    ...f,
    ...at(f.line, f.column, f.endColumn),
    related: f.related.map((r) => ({ ...r, ...at(r.line, r.column, r.endColumn) })),
  }));
  const known = KNOWN_FIELDS.filter((field) => field.word === card.word);
  for (const row of card.inner.rows()) {
    const { statement } = row;
    if (statement.kind === 'empty' || statement.kind === 'broken') continue;
    if (statement.kind === 'words') {
      const { key, words } = statement;
      const wanted = card.word === 'machine' ? CARD_WORDS.get(key.text) : undefined;
      if (wanted && whichOf(wanted, words.text) === null) {
        const data = { name: key.text, words: wanted.either, lines: wanted.lines };
        found.push(finding('card-words-unclear', data, at(row.line, words.start, words.end)));
      }
      continue;
    }
    if (statement.kind !== 'figure') {
      found.push(finding('not-in-card', {}, at(row.line, 0, row.text.trimEnd().length)));
      continue;
    }
    const { text: name, start, end } = statement.name;
    const field = known.find((f) => f.name === name);
    const value = card.fields.get(name);
    if (field && value && !fieldFits(field, value)) {
      const data = { name, meaning: field.meaning, list: field.list };
      found.push(
        finding('card-field-kind', data, at(row.line, statement.expression.start, statement.expression.end)),
      );
    } else if (!field) {
      const near = alike(
        name,
        known.map((f) => f.name),
      );
      if (near.length > 0)
        found.push(finding('card-field-unlikely', { name, offers: near }, at(row.line, start, end)));
    }
  }
  return found;
}

export function cardInForce(card: Card): CardInForce {
  const fieldPlaces = new Map<string, Place>();
  for (const field of card.fields.keys()) {
    const place = fieldPlace(card, field);
    if (place) fieldPlaces.set(field, place);
  }
  return {
    name: card.name,
    word: card.word,
    fields: card.fields,
    place: namePlace(card),
    fieldPlaces,
    builtIn: card.builtIn,
  };
}

function makeRow(node: Node, block: Block, index: number, presenter: Presenter): Row {
  return {
    line: block.firstLine + index,
    column: block.column(index),
    text: node.text,
    block,
    statement: node.statement,
    value: node.provides?.definers instanceof Set ? null : node.value,
    asked: node.asked,
    check: node.outcome.check,
    reading: node.verdict.reading,
    waitsFor: node.outcome.waitsFor,
    findings: presenter.node(node),
  };
}

function rowsOf(placed: Sheet['placed'][number], presenter: Presenter): Row[] {
  const { block, lines, card } = placed;
  if (lines) return nodesOf(lines).map((node, index) => makeRow(node, block, index, presenter));
  if (!card) return [];
  return card.inner.rows().map((row) => inCard(row, block));
}

/** A row of a card's own sheet as a row of the note. */
function inCard(row: Row, block: Block): Row {
  const at = placesIn(block);
  return {
    ...row,
    line: block.firstLine + row.line,
    column: block.column(row.line),
    block,
    findings: row.findings.map((f) => ({ ...f, ...at(f.line, f.column, f.endColumn) })),
  };
}

export function allRows(sheet: Sheet): readonly Row[] {
  const presenter = sheet.presenter.afresh();
  return sheet.placed.flatMap((placed) => rowsOf(placed, presenter));
}

export function rowAt(sheet: Sheet, line: number): Row | undefined {
  for (const placed of sheet.placed) {
    const { block, lines, card } = placed;
    const index = line - block.firstLine;
    const node = lines && nodeAt(lines, index);
    if (node) return makeRow(node, block, index, sheet.presenter.afresh());
    const row = card?.inner.rows()[index];
    if (row) return inCard(row, block);
  }
  return undefined;
}

export function rowOf(sheet: Sheet, node: Node): Row | undefined {
  const presenter = sheet.presenter.afresh();
  const block = presenter.blockOf(node);
  return block && makeRow(node, block, node.line - block.firstLine, presenter);
}
