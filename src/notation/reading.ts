/** Lines about what was measured and what was used. */
import type { LineFinding } from '../quantity/finding';
import { ONE } from '../quantity/unit';
import { isDiameterSign, isDigit, isMinus, nameEnd, skipBlanks } from './characters';
import { numberAt } from './number';
import { parseQuantity } from './quantity';
import { expectedEnd, expectedOperand } from './refuse';
import { refuseComma } from './refuse-numbers';
import { MAX_ITEMS, type Scanner } from './scanner';
import type { Path, QuantityNode, ReadingNode, Statement, Word } from './syntax';

const NONE: readonly LineFinding[] = [];
const COMMA = 0x2c;

/** What a refused line is left with: the name of the figure that it would have been. */
export function broken(comment: Word | null, name: Word | null): Statement {
  return { kind: 'broken', name, comment, findings: NONE };
}

export function pathOf(s: Scanner, start: number, end: number): Path {
  return { start, end, names: s.slice(start, end).split('.') };
}

/** A number as read from an instrument: a quantity, with a minus where the scale goes below zero. */
function parseReadQuantity(s: Scanner): QuantityNode | null {
  const c = s.next();
  const start = s.pos;
  if (isMinus(c)) s.pos = skipBlanks(s.text, start + 1);
  else if (isDiameterSign(c)) s.pos = skipBlanks(s.text, start + 1);
  if (!numberAt(s.text, s.pos)) return expectedOperand(s);
  const size = parseQuantity(s);
  if (size === null) return null;
  if (!isMinus(c)) return { ...size, start };
  const { unit } = size;
  return {
    ...size,
    start,
    value: unit.offset === 0 ? -size.value + 0 : unit.offset - s.amount * unit.factor,
  };
}

/** Readings after `measured` or `final`, with the places they were taken at. */
export function parseReadings(
  s: Scanner,
  comment: Word | null,
  findings: readonly LineFinding[],
  path: Path,
  how: 'measured' | 'final',
): Statement {
  const readings: ReadingNode[] = [];
  for (;;) {
    const value = parseReadQuantity(s);
    if (value === null) return broken(comment, null);
    let at: QuantityNode | null = null;
    if (s.next() === 0x61 && nameEnd(s.text, s.pos) === s.pos + 2 && s.at(s.pos + 1) === 0x74) {
      s.pos += 2;
      at = parseReadQuantity(s);
      if (at === null) return broken(comment, null);
    }
    readings.push({ start: value.start, end: (at ?? value).end, value, at });
    if (s.next() !== COMMA) {
      if (s.pos < s.end) expectedEnd(s, 'reading', at ?? value);
      return { kind: 'reading', path, how, readings, comment, findings };
    }
    if (readings.length >= MAX_ITEMS) {
      s.refuse('too-many-items', s.pos, s.pos + 1, { most: MAX_ITEMS });
      return broken(comment, null);
    }
    if ((at ?? value).unit === ONE && (at ?? value).end === s.pos && isDigit(s.at(s.pos + 1))) {
      refuseComma(s, s.pos, 'readings');
      return broken(comment, null);
    }
    s.pos++;
  }
}

/** What was really run, after `used`. */
export function parseUsed(
  s: Scanner,
  comment: Word | null,
  findings: readonly LineFinding[],
  path: Path,
): Statement {
  const value = parseReadQuantity(s);
  if (value === null) return broken(comment, null);
  if (s.pos < s.end) expectedEnd(s, 'used', value);
  return { kind: 'used', path, value, comment, findings };
}
