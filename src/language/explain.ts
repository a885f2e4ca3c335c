/** What a place of a note or a whole line amounts to, and why. */
import { type Row, type Sheet, calculateLines } from '../engine/index';
import type { CallNode, Expression, FieldNode, Note, UnitNode } from '../notation/syntax';
import type { CardView, Quantity, Value } from '../quantity/value';
import { formulaNamed } from '../trade/index';
import { explainCall, explainParameter, formulaParts } from './explain-call';
import { explainRecord } from './explain-reading';
import type { Explanation, Part } from './explanation';
import { askedLimits, resultingLimits, withLimits } from './limits';
import { type Found, at, onFence } from './position';
import { capital, otherWays, pair, valueText } from './wording';
import { type Conversion, workingOf, workingOfCall } from './working';

export interface Explained {
  readonly explanation: Explanation;
  /** Columns of the note's line. */
  readonly column: number;
  readonly endColumn: number;
}

/** What stands at a place of the note (line and column from 0); null where nothing needs explaining. */
export function explainAt(sheet: Sheet, note: Note, line: number, column: number): Explained | null {
  const row = sheet.rowAt(line);
  if (!row) return explainFence(sheet, note, line, column);
  const scope = scopeOf(sheet, row);
  const found = at(scope.sheet, scope.row, column - row.column);
  const explanation = found && explain(scope.sheet, found);
  if (!found || !explanation) return null;
  const { start, end } = found.span;
  return { explanation, column: row.column + start, endColumn: row.column + end };
}

/** What a line amounts to, for the tooltip of its hint. */
export function explainRow(sheet: Sheet, row: Row): Explanation | null {
  const scope = scopeOf(sheet, row);
  return explainLine(scope.sheet, scope.row);
}

/** A card's lines see only each other: they are explained by a sheet of their own. */
function scopeOf(sheet: Sheet, row: Row): { readonly sheet: Sheet; readonly row: Row } {
  const { word, content, firstLine } = row.block;
  if (word === 'figures') return { sheet, row };
  const inner = calculateLines(content, word);
  return { sheet: inner, row: inner.rowAt(row.line - firstLine) ?? row };
}

function explainLine(sheet: Sheet, row: Row): Explanation | null {
  const { statement } = row;
  switch (statement.kind) {
    case 'figure':
      return explainFigure(sheet, row, statement.name.text);
    case 'show':
      return explainExpression(sheet, row, statement.expression, statement.to);
    case 'check':
      return explainCheck(sheet, row);
    case 'reading':
    case 'used':
      return explainRecord(sheet, row);
    default:
      return null;
  }
}

function explainFence(sheet: Sheet, note: Note, line: number, column: number): Explained | null {
  const block = note.blocks.find(({ fenceLine }) => fenceLine === line);
  const found = block && onFence(sheet, block.name ? [block.name, ...block.on] : block.on, column);
  const card = found && sheet.card(found.card);
  if (!card) return null;
  return { explanation: explainCard(card), column: found.span.start, endColumn: found.span.end };
}

function explain(sheet: Sheet, { row, target }: Found): Explanation | null {
  switch (target.kind) {
    case 'line':
      return explainLine(sheet, row);
    case 'name': {
      if (target.path.length > 0) return explainLine(sheet, row);
      return explainName(sheet, row, target.name, target.given);
    }
    case 'field':
      return explainField(sheet, row, target.node);
    case 'formula':
      return explainCall(sheet, row.text, target.node);
    case 'parameter':
      return explainParameter(sheet, target.node, target.parameter);
    case 'card': {
      const card = sheet.card(target.name);
      return card ? explainCard(card) : null;
    }
    case 'expression':
      return explainExpression(sheet, row, target.node, null);
  }
}

function explainName(sheet: Sheet, row: Row, name: string, given: boolean): Explanation | null {
  if (given && (row.statement.kind === 'reading' || row.statement.kind === 'used'))
    return explainRecord(sheet, row);
  if (given) return explainFigure(sheet, row, name);
  const figure = sheet.figure(name);
  if (figure) return explainFigure(sheet, figure, name);
  if (name === 'pi')
    return { name, shown: '3.14159…', parts: [words('A circle is pi times as long round as across.')] };
  if (name === 'job') return explainJob(sheet);
  const value = sheet.valueOf(name);
  if (value?.kind !== 'number') return null;
  return { name, shown: valueText(value), parts: [words('Mean of its last readings.'), ...also(value)] };
}

function explainFigure(sheet: Sheet, row: Row, name: string): Explanation {
  const { statement, value } = row;
  const comment = statement.comment ? [words(statement.comment.text)] : [];
  if (statement.kind !== 'figure') return { name, shown: null, parts: comment };
  if (value === null) return { name, shown: null, parts: [...comment, words(withoutValue(row))] };
  const { expression } = statement;
  const parts = value.kind === 'number' ? numberParts(sheet, row, value) : fieldParts(expression, value);
  return {
    name,
    shown: headline(value),
    parts: [
      ...parts.slice(0, 1),
      ...comment,
      ...parts.slice(1),
      ...workingParts(sheet, row.text, expression, name, conversionTo(statement.to, value)),
      ...callParts(expression),
    ],
  };
}

function withoutValue(row: Row): string {
  if (row.waitsFor.length > 0) return `Waits for ${row.waitsFor.join(', ')}.`;
  return 'No value: something is wrong in its line.';
}

function headline(value: Value): string | null {
  if (value.kind === 'number') return withLimits(value);
  return value.kind === 'record' ? null : valueText(value);
}

function numberParts(sheet: Sheet, row: Row, value: Quantity): readonly Part[] {
  if (row.asked) return [...also(value), askedLimits(value, row.asked), ...inputLimits(sheet, row)];
  const limits = resultingLimits(sheet, value);
  return [...also(value), ...(limits ? [limits] : [])];
}

/** What the expression's own inputs would allow, beside the limits asked for. */
function inputLimits(sheet: Sheet, row: Row): readonly Part[] {
  const value =
    row.statement.kind === 'figure' ? sheet.evaluateExpression(row.statement.expression, row.text) : null;
  const limits = value?.kind === 'number' ? resultingLimits(sheet, value) : null;
  return limits ? [limits] : [];
}

/** A record's fields with their meanings. */
function fieldParts(expression: Expression, value: Value): readonly Part[] {
  if (value.kind !== 'record') return [];
  const formula = expression.kind === 'call' ? formulaNamed(expression.name.text) : undefined;
  const rows = [...value.fields].map(([name, field]) => {
    const meaning = formula?.result.find((each) => each.name === name)?.meaning ?? '';
    return [name, field.kind === 'number' ? withLimits(field) : valueText(field), meaning] as const;
  });
  return [{ kind: 'table', rows }];
}

function workingParts(
  sheet: Sheet,
  text: string,
  node: Expression,
  name: string,
  conversion: Conversion | null,
): readonly Part[] {
  const call = callOf(node);
  if (call && sheet.call(call)) {
    const steps = workingOfCall(sheet, call);
    return steps.length > 0 ? [{ kind: 'working', steps }] : [];
  }
  const step = workingOf(sheet, text, node, name, conversion);
  return step ? [{ kind: 'working', steps: [step] }] : [];
}

/** The conversion a line asks for, when it has one and a figure for a value. */
function conversionTo(to: UnitNode | null, value: Value | null): Conversion | null {
  return to && value?.kind === 'number' ? { to, value } : null;
}

function callOf(node: Expression): CallNode | null {
  if (node.kind === 'group') return callOf(node.of);
  return node.kind === 'call' ? node : null;
}

function callParts(node: Expression): readonly Part[] {
  const formula = formulaNamed(callOf(node)?.name.text ?? '');
  return formula ? formulaParts(formula) : [];
}

function explainExpression(
  sheet: Sheet,
  row: Row,
  node: Expression,
  to: UnitNode | null,
): Explanation | null {
  const value = to ? row.value : sheet.evaluateExpression(node, row.text);
  if (value === null) return null;
  const limits = value.kind === 'number' ? resultingLimits(sheet, value) : null;
  const own = value.kind === 'number' ? also(value) : fieldParts(node, value);
  const working = workingParts(sheet, row.text, node, '', conversionTo(to, value));
  return {
    name: '',
    shown: headline(value),
    parts: [...own, ...(limits ? [limits] : []), ...working, ...callParts(node)],
  };
}

/** `setup.ring`, `lathe.power`, `neck.mean`: the value, and where it comes from. */
function explainField(sheet: Sheet, row: Row, node: FieldNode): Explanation | null {
  const value = sheet.evaluateExpression(node, row.text);
  const name = row.text.slice(node.start, node.end);
  if (value === null) return null;
  const source = fieldSource(sheet, node);
  const own = value.kind === 'number' ? also(value) : [];
  const limits = value.kind === 'number' ? resultingLimits(sheet, value) : null;
  return {
    name,
    shown: headline(value),
    parts: [...own, ...source.words, ...(limits ? [limits] : []), ...source.parts],
  };
}

interface FieldSource {
  readonly words: readonly Part[];
  readonly parts: readonly Part[];
}

function fieldSource(sheet: Sheet, { of, field }: FieldNode): FieldSource {
  const call = of.kind === 'name' ? figureCall(sheet, of.name) : callOf(of);
  const formula = call && formulaNamed(call.name.text);
  const result = formula?.result.find((each) => each.name === field);
  if (call && formula && result) {
    const steps = upTo(workingOfCall(sheet, call), field);
    return {
      words: [words(`${capital(result.meaning)}.`)],
      parts: [...(steps.length > 0 ? [{ kind: 'working', steps } as const] : []), ...formulaParts(formula)],
    };
  }
  const card = of.kind === 'name' && !sheet.figure(of.name) ? sheet.card(of.name) : undefined;
  if (card) return { words: [words(`On the card of ${card.name}.`)], parts: [] };
  const known = READING_FIELDS.get(field);
  return { words: known ? [words(known)] : [], parts: [] };
}

const READING_FIELDS = new Map([
  ['reading', 'The last reading taken.'],
  ['readings', 'All readings of its last line.'],
  ['mean', 'Mean of the readings of its last line.'],
  ['used', 'What was really used, last.'],
]);

function figureCall(sheet: Sheet, name: string): CallNode | null {
  const row = sheet.figure(name);
  return row?.statement.kind === 'figure' ? callOf(row.statement.expression) : null;
}

/** The steps down to the one that gives the field. */
function upTo<T extends { readonly name: string }>(steps: readonly T[], field: string): readonly T[] {
  const last = steps.findIndex(({ name }) => name === field);
  return last < 0 ? [] : steps.slice(0, last + 1);
}

function explainCheck(sheet: Sheet, row: Row): Explanation | null {
  const { check, statement } = row;
  if (!check || statement.kind !== 'check') return null;
  const [left, right] = pair(check.left, check.right);
  const verdict = !check.holds
    ? `✗ Does not hold: ${left} against ${right}.`
    : check.overBand
      ? `✓ Holds: ${left} against ${right}.`
      : `△ Holds at nominal, ${left} against ${right}, but not over all limits.`;
  const comment = statement.comment ? [words(statement.comment.text)] : [];
  const sides = statement.terms.flatMap((term): readonly Part[] => {
    if (term.kind === 'quantity') return [];
    const name = row.text.slice(term.start, term.end);
    const value = sheet.evaluateExpression(term, row.text);
    if (value?.kind !== 'number') return [];
    const limits = resultingLimits(sheet, value);
    return [
      { kind: 'note', title: name, text: [withLimits(value), ...otherWays(value)].join(' · ') },
      ...(limits ? [limits] : []),
    ];
  });
  return { name: '', shown: null, parts: [words(verdict), ...comment, ...sides] };
}

function explainCard(
  card: CardView & { readonly builtIn: boolean; readonly place: { readonly file: string | null } },
): Explanation {
  const rows = [...card.fields].map(([name, value]) => [name, valueText(value), ''] as const);
  const whence = card.builtIn ? 'built in' : card.place.file === null ? 'in this note' : 'from a shop file';
  const parts: Part[] = [words(`Card of a ${card.word}, ${whence}.`)];
  if (rows.length > 0) parts.push({ kind: 'table', rows });
  if (card.word === 'material')
    parts.push(words('Speeds are starting points: check them against the tool, the machine and the cut.'));
  return { name: card.name, shown: null, parts };
}

function explainJob(sheet: Sheet): Explanation {
  const rows = [...sheet.job()].map(([name, text]) => [name, text, ''] as const);
  return {
    name: 'job',
    shown: null,
    parts: [
      words('What the head of the note says.'),
      ...(rows.length > 0 ? [{ kind: 'table', rows } as const] : []),
    ],
  };
}

function also(q: Quantity): readonly Part[] {
  const texts = otherWays(q);
  return texts.length > 0 ? [{ kind: 'also', texts }] : [];
}

function words(text: string): Part {
  return { kind: 'words', text };
}
