/** The same figure in another unit: of the other half of the trade, or of its own kind. */
import type { Row } from '../engine/results';
import type { QuantityNode } from '../notation/syntax';
import { nodeAt } from '../notation/walk';
import { TEMPERATURE } from '../quantity/dimension';
import { type Unit, fromBase } from '../quantity/unit';
import { otherSystem, unitsOfDimension } from '../quantity/units';
import { type Noted, codeOf, insertion } from './edits';
import type { Proposal } from './quick-fixes';
import { said } from './said';

/** Units offered besides the other system's; what a shop would turn a size or a speed into. */
const OFFERED = new Set(['mm', 'in', 'm/min', 'ft/min', 'mm/min', 'in/min', 'kg', 'min', 'h']);
const MOST = 3;
/** Digits of a converted figure: exact for every inch fraction to 1/128, and no trail of a rounded division. */
const DIGITS = 9;

export function conversions({ sheet }: Noted, row: Row, offset: number): readonly Proposal[] {
  const { statement } = row;
  const node = nodeAt(statement, offset);
  if (node?.kind === 'quantity') return literal(row, node);
  if (statement.kind !== 'figure' && statement.kind !== 'show') return [];
  const value = sheet.evaluateExpression(statement.expression, row.text);
  if (value?.kind !== 'number') return [];
  return unitsFor(value.unit).map((unit) => ({
    title: said('Show it in {0}', unit.symbol),
    edits: [insertion(row.line, row.column + codeOf(row.text).length, ` to ${unit.symbol}`)],
  }));
}

function literal(row: Row, { start, end, unit, value }: QuantityNode): readonly Proposal[] {
  return unitsFor(unit).map((other) => {
    const text = `${Number(fromBase(value, other).toPrecision(DIGITS))} ${other.symbol}`;
    const range = {
      line: row.line,
      column: row.column + start,
      endLine: row.line,
      endColumn: row.column + end,
    };
    return { title: said('Convert to {0}', text), edits: [{ range, text }] };
  });
}

function unitsFor(unit: Unit): readonly Unit[] {
  if (unit.dimension === TEMPERATURE) return [];
  const other = otherSystem(unit);
  const own = unitsOfDimension(unit.dimension).filter(({ symbol }) => OFFERED.has(symbol));
  return [...new Set([...(other ? [other] : []), ...own])].filter((each) => each !== unit).slice(0, MOST);
}
