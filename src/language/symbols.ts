/** The note's blocks with their figures, for the outline, and what can be folded. */
import type { Sheet } from '../engine/index';
import type { Row } from '../engine/results';
import { linesIn } from '../notation/blocks';
import type { Block } from '../notation/syntax';
import type { Range } from './diagnostics';
import { hint } from './hints';

export interface BlockSymbol {
  readonly name: string;
  readonly kind: 'figures' | 'machine' | 'material' | 'signed';
  /** The whole block with its fence lines; folds to its first line. */
  readonly range: Range;
  /** What is marked when it is picked. */
  readonly selection: Range;
  readonly figures: readonly FigureSymbol[];
}

export interface FigureSymbol {
  readonly name: string;
  /** Its result, as the line's end shows it. */
  readonly detail: string;
  readonly range: Range;
  readonly selection: Range;
}

export function blockSymbols(sheet: Sheet): readonly BlockSymbol[] {
  const rows = new Map<Block, Row[]>();
  for (const row of sheet.rows()) {
    const known = rows.get(row.block);
    if (known) known.push(row);
    else rows.set(row.block, [row]);
  }
  return sheet.note.blocks.map((block) => ({
    name: titleOf(block),
    kind: block.word,
    range: rangeOf(block),
    selection: { line: block.fenceLine, column: 0, endLine: block.fenceLine, endColumn: 0 },
    figures: (rows.get(block) ?? []).flatMap((row) => figureSymbol(sheet, row)),
  }));
}

function titleOf({ word, name, on }: Block): string {
  if (word === 'figures')
    return on.length === 0 ? word : `${word} on ${on.map(({ text }) => text).join(', ')}`;
  return name ? `${word} ${name.text}` : word;
}

/** With the line that closes it, when something does. */
function rangeOf(block: Block): Range {
  const { fenceLine, firstLine, findings } = block;
  const closed = !findings.some(({ code }) => code === 'fence-not-closed');
  const endLine = Math.max(fenceLine, firstLine + linesIn(block) - (closed ? 0 : 1));
  return { line: fenceLine, column: 0, endLine, endColumn: 0 };
}

function figureSymbol(sheet: Sheet, row: Row): readonly FigureSymbol[] {
  const { statement, line, column, text } = row;
  if (statement.kind !== 'figure') return [];
  const { name, expression } = statement;
  const stated = text.slice(expression.start, statement.limits?.end ?? expression.end);
  return [
    {
      name: name.text,
      detail: hint(sheet, row) ?? stated,
      range: { line, column, endLine: line, endColumn: column + text.length },
      selection: { line, column: column + name.start, endLine: line, endColumn: column + name.end },
    },
  ];
}
