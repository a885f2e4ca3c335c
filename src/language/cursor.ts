/** Where the cursor stands while a line is typed: most such lines are not finished, so their text is read, not their meaning. */
import type { Sheet } from '../engine/index';
import { linesIn } from '../notation/blocks';
import { parseLine } from '../notation/line';
import type { Block } from '../notation/syntax';
import type { Value } from '../quantity/value';

/** A place in a note that somebody asks about. */
export interface Question {
  readonly sheet: Sheet;
  /** Line and column from 0. */
  readonly line: number;
  readonly column: number;
  /** The note's whole line. */
  readonly text: string;
}

export interface Cursor {
  readonly block: Block;
  /** The line's code before the cursor, quote and list markers taken off; for the fence line the words after the backticks. */
  readonly before: string;
  /** Column of the note's line at which `before` begins. */
  readonly column: number;
  readonly onFence: boolean;
}

/** Where the cursor is in one of our blocks; null outside them and in comments. */
export function cursorAt({ sheet, line, column, text }: Question): Cursor | null {
  const block = blockAt(sheet, line);
  if (!block || block.word === 'signed') return null;
  if (line === block.fenceLine) {
    const start = text.indexOf(block.word);
    return { block, before: text.slice(start, column), column: start, onFence: true };
  }
  const start = Math.max(0, block.column(line - block.firstLine));
  const before = text.slice(start, column);
  return column < start || before.includes('#') ? null : { block, before, column: start, onFence: false };
}

/** The block that a line of the note stands in, its fence line included. */
export function blockAt(sheet: Sheet, line: number): Block | null {
  for (const block of sheet.note.blocks) {
    if (line < block.fenceLine) return null;
    if (line < block.firstLine + linesFor(block)) return block;
  }
  return null;
}

/** Of an open block one line more, which may be the one that is being typed. */
function linesFor(block: Block): number {
  const open = block.findings.some(({ code }) => code === 'fence-not-closed');
  return linesIn(block) + (open ? 1 : 0);
}

/** What a piece of a line comes to by itself; null when it is no expression or has no value. */
export function valueOfText(sheet: Sheet, text: string): Value | null {
  const statement = parseLine(text, 'figures');
  return statement.kind === 'show' ? sheet.evaluateExpression(statement.expression, text) : null;
}

export interface OpenCall {
  readonly name: string;
  /** Which argument the cursor is in, from 0. */
  readonly index: number;
  /** The parameter this argument is for when it is named, and the names of those before it. */
  readonly named: string | null;
  readonly given: readonly string[];
}

/** A name of the notation, for patterns that read unfinished lines: letters of any word a shop writes, `größe` too. */
export const NAME = String.raw`[\p{L}_][\p{L}\p{N}_]*`;
/** The name that a line gives a value. */
export const GIVEN = new RegExp(String.raw`^\s*(${NAME})\s*=(?!=)`, 'u');
const NAME_BEFORE = new RegExp(`(${NAME})$`, 'u');
const NAMED = new RegExp(String.raw`^\s*(${NAME})\s*:`, 'u');

/** The innermost call whose bracket is open where the text ends; null when there is none. */
export function openCall(before: string): OpenCall | null {
  let depth = 0;
  const starts: number[] = [];
  for (let at = before.length - 1; at >= 0; at--) {
    const c = before[at];
    if (c === ')' || c === ']') depth++;
    else if (c === '[' && depth === 0) starts.length = 0;
    else if (c === '[') depth--;
    else if (c === ',' && depth === 0) starts.unshift(at + 1);
    else if (c === '(' && depth > 0) depth--;
    else if (c === '(') {
      const name = NAME_BEFORE.exec(before.slice(0, at))?.[1];
      return name === undefined ? openCall(before.slice(0, at)) : callOf(name, before, [at + 1, ...starts]);
    }
  }
  return null;
}

function callOf(name: string, before: string, starts: readonly number[]): OpenCall {
  const names = starts.map((start) => NAMED.exec(before.slice(start))?.[1] ?? null);
  return {
    name,
    index: starts.length - 1,
    named: names.at(-1) ?? null,
    given: names.slice(0, -1).flatMap((each) => each ?? []),
  };
}
