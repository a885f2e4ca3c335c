/** Figures in columns: `=`, `±` and comments one below the other. Only blanks change, and a second time changes nothing. */
import type { Note, Statement } from '../notation/syntax';
import { linesIn } from '../notation/blocks';
import { parseLine } from '../notation/line';
import { type TextEdit, codeOf, linesOf } from './edits';

/** A line whose part is longer than this does not push the others' column to the right. */
const MOST_NAME = 24;
const MOST_SIZE = 40;
const MOST_CODE = 72;
/** Blanks between code and comment at the least. */
const APART = 2;

interface Parts {
  /** The line in the note, and the column at which its code begins. */
  readonly line: number;
  readonly column: number;
  readonly text: string;
  readonly indent: string;
  /** The figure's name, or all of the code of another line. */
  readonly name: string;
  /** What follows `=` up to the limits; null for a line that is no figure. */
  readonly size: string | null;
  /** Limits with whatever follows them. */
  readonly limits: string;
  readonly comment: string;
}

/** The edits that align the figures blocks of a note, all or those that touch the lines given. */
export function alignment(note: Note, text: string, from = -Infinity, to = Infinity): readonly TextEdit[] {
  const lines = linesOf(text);
  return note.blocks
    .filter(({ word }) => word === 'figures')
    .flatMap((block) => {
      const code = block.content.split('\n');
      const rows = code.map((each, i): Parts | null => {
        const column = block.column(i);
        const line = block.firstLine + i;
        // A list marker that used up part of a tab leaves code that is not the note's own text.
        return lines[line]?.slice(column) !== each ? null : partsOf(line, column, each);
      });
      const end = block.firstLine + linesIn(block);
      return block.fenceLine > to || end < from ? [] : groups(rows).flatMap(aligned);
    });
}

function partsOf(line: number, column: number, text: string): Parts | null {
  const statement = parseLine(text, 'figures');
  const code = codeOf(text);
  // Words that stand alone, and lines that are not understood, keep their place.
  if (code.trim() === '' || statement.kind === 'broken') return null;
  const indent = /^\s*/.exec(code)?.[0] ?? '';
  const comment = /#[^]*/.exec(text)?.[0] ?? '';
  const own = { line, column, text, indent, comment };
  if (statement.kind !== 'figure') return { ...own, name: code.trimStart(), size: null, limits: '' };
  const { name } = statement;
  const equals = code.indexOf('=', name.end);
  const cut = statement.limits ? limitsStart(statement.limits, code) : code.length;
  return {
    ...own,
    name: name.text,
    size: code.slice(equals + 1, cut).trim(),
    limits: code.slice(cut).trim(),
  };
}

/** Only signed limits make a column: a code or `..` belongs to its size. */
function limitsStart(
  limits: NonNullable<Extract<Statement, { kind: 'figure' }>['limits']>,
  code: string,
): number {
  return limits.kind === 'deviations' ? limits.start : code.length;
}

/** Lines that stand together: a blank line, a comment alone or a line that is not understood divides them. */
function groups(rows: readonly (Parts | null)[]): readonly (readonly Parts[])[] {
  const found: Parts[][] = [[]];
  for (const row of rows) {
    if (row) found.at(-1)?.push(row);
    else found.push([]);
  }
  return found;
}

function aligned(group: readonly Parts[]): readonly TextEdit[] {
  const figures = group.filter(({ size }) => size !== null);
  const names = widest(
    figures.map(({ name }) => name),
    MOST_NAME,
  );
  const sizes = widest(
    figures.filter(({ limits }) => limits !== '').map(({ size }) => size ?? ''),
    MOST_SIZE,
  );
  const codes = group.map((parts) => ({ parts, code: written(parts, names, sizes) }));
  const commented = codes.filter(({ parts }) => parts.comment !== '').map(({ code }) => code);
  const column = widest(commented, MOST_CODE) + APART;
  return codes.flatMap(({ parts, code }): TextEdit[] => {
    const { line, column: start, text, comment } = parts;
    const blanks = text.slice(text.trimEnd().length);
    const put = comment === '' ? code + blanks : `${padded(code, column, APART)}${comment}`;
    if (put === text) return [];
    return [{ range: { line, column: start, endLine: line, endColumn: start + text.length }, text: put }];
  });
}

function written({ indent, name, size, limits }: Parts, names: number, sizes: number): string {
  if (size === null) return indent + name;
  const stated = `${indent}${padded(name, names, 0)} = `;
  return limits === '' ? stated + size : `${stated}${padded(size, sizes, 0)} ${limits}`;
}

/** In characters as a fixed-width font draws them. */
function width(text: string): number {
  return [...text].length;
}

function widest(texts: readonly string[], most: number): number {
  return Math.max(0, ...texts.map(width).filter((each) => each <= most));
}

function padded(text: string, to: number, least: number): string {
  return text + ' '.repeat(Math.max(least, to - width(text)));
}
