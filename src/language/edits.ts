/** Changes to a note's text as plain data, and what the note comes to with them. */
import { type Sheet, type Shop, calculate } from '../engine/index';
import type { Finding } from '../engine/results';
import type { Range } from './diagnostics';

export interface TextEdit {
  readonly range: Range;
  /** Lines are divided by `\n`; an editor writes the note's own line ends. */
  readonly text: string;
}

/** A note as an answer needs it that changes it: its sheet, its text and the cards in force. */
export interface Noted {
  readonly sheet: Sheet;
  readonly text: string;
  readonly shops: readonly Shop[];
}

/** The text with the edits made; none may overlap another. Line ends stay as they are, new ones are the note's own. */
export function edited(text: string, edits: readonly TextEdit[]): string {
  const starts = lineStarts(text);
  const end = text.includes('\r\n') ? '\r\n' : '\n';
  const offset = (line: number, column: number): number => (starts[line] ?? text.length) + column;
  const last = [...edits].sort((a, b) => b.range.line - a.range.line || b.range.column - a.range.column);
  // Put together from the end, once: cutting the whole note up anew for each edit would take a square of its length.
  const pieces: string[] = [];
  let before = text.length;
  for (const { range, text: put } of last) {
    pieces.push(text.slice(offset(range.endLine, range.endColumn), before), put.replaceAll('\n', end));
    before = offset(range.line, range.column);
  }
  return [text.slice(0, before), ...pieces.reverse()].join('');
}

function lineStarts(text: string): readonly number[] {
  return [0, ...[...text.matchAll(/\r\n?|\n/g)].map((found) => found.index + found[0].length)];
}

export function insertion(line: number, column: number, text: string): TextEdit {
  return { range: { line, column, endLine: line, endColumn: column }, text };
}

/** The lines of a note, without their ends. */
export function linesOf(text: string): readonly string[] {
  return text.split(/\r\n?|\n/);
}

function lineOf(text: string, line: number): string {
  return linesOf(text)[line] ?? '';
}

/** What stands in a range of one line. */
export function textIn(text: string, { line, column, endColumn }: Range): string {
  return lineOf(text, line).slice(column, endColumn);
}

/** What of a line calculates: the first `#` begins its comment. */
export function codeOf(line: string): string {
  return line.replace(/#[^]*/, '').trimEnd();
}

/** The edit that puts a line of code under another one of the same block, behind the same quote and list markers. */
export function lineBelow(
  text: string,
  row: { readonly line: number; readonly column: number },
  code: string,
): TextEdit {
  const line = lineOf(text, row.line);
  return insertion(row.line, line.length, `\n${line.slice(0, Math.max(0, row.column))}${code}`);
}

export function lineAbove(
  text: string,
  row: { readonly line: number; readonly column: number },
  code: string,
): TextEdit {
  const line = lineOf(text, row.line);
  return insertion(row.line, 0, `${line.slice(0, Math.max(0, row.column))}${code}\n`);
}

/**
 * Whether the edits leave fewer findings of this code and no error in the place of another: an error that is mended leaves
 * one error less in all.
 */
export function mends({ sheet, text, shops }: Noted, edits: readonly TextEdit[], code: string): boolean {
  const after = calculate(edited(text, edits), shops);
  const alike = (of: Sheet): readonly Finding[] => of.findings().filter((finding) => finding.code === code);
  const less = alike(sheet).some(({ severity }) => severity === 'error') ? 1 : 0;
  return (
    countOf(after, ['error']) <= countOf(sheet, ['error']) - less && alike(after).length < alike(sheet).length
  );
}

/** Whether the edits bring nothing wrong or doubtful into the note. */
export function harmless({ sheet, text, shops }: Noted, edits: readonly TextEdit[]): boolean {
  const after = calculate(edited(text, edits), shops);
  const wrong = ['error'];
  const doubtful = ['error', 'warning'];
  return (
    countOf(after, wrong) <= countOf(sheet, wrong) && countOf(after, doubtful) <= countOf(sheet, doubtful)
  );
}

function countOf(sheet: Sheet, severities: readonly string[]): number {
  return sheet.findings().filter(({ severity }) => severities.includes(severity)).length;
}
