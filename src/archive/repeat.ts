/**
 * A new note from an old job: plan and sizes stay, readings go, and what was really used last time stands as the new
 * plan with a mark where it was not what had been planned. What was learnt moves to the top.
 */
import { type Row, type Sheet, valueNow } from '../engine/index';
import { quantity } from '../quantity/arithmetic';
import { noteLines } from '../notation/blocks';
import { cutFrontMatter } from '../notation/front-matter';
import { show } from '../quantity/display';
import type { Quantity } from '../quantity/value';
import { parts } from './note-text';

export interface Repeat {
  /** Number of the new job. */
  readonly job: string;
  /** Number or file of the old one, for `repeat_of` and in the marks. */
  readonly of: string;
}

/** Lines of the note to leave out, and lines that stand in the place of others. */
interface Edits {
  readonly drop: Set<number>;
  readonly change: Map<number, readonly string[]>;
}

export function repeatOf(text: string, sheet: Sheet, { job, of }: Repeat): string {
  const end = /\r\n|\r|\n/.exec(text)?.[0] ?? '\n';
  const lines = text.replace(/^\ufeff/, '').split(/\r\n|\r|\n/);
  const edits: Edits = { drop: new Set(), change: new Map() };
  for (const row of sheet.rows()) if (row.block.word === 'figures') editRow(row, sheet, of, lines, edits);
  for (const block of sheet.note.blocks) {
    if (block.word !== 'signed') continue;
    // The fence lines go with what they hold.
    for (const line of noteLines(block)) edits.drop.add(line);
  }
  const lessons = parts(text, sheet.note).lessons;
  for (const { line } of lessons) edits.drop.add(line);
  const body = lines.flatMap((line, i) =>
    edits.drop.has(i) ? [] : (edits.change.get(i) ?? [unticked(line)]),
  );
  const front = withFront(body, [
    ['job', job],
    ['due', null],
    ['status', 'planned'],
    ['repeat_of', of],
  ]);
  return withLessons(front, [...new Set(lessons.map((lesson) => lesson.text))]).join(end);
}

/** Done last time is not done this time. */
const unticked = (line: string): string =>
  line.replace(/^(\s*(?:>\s*)*(?:[-*+]|\d+[.)])\s+)\[[xX]\](?=\s)/, '$1[ ]');

function editRow(
  row: Row,
  sheet: Sheet,
  of: string,
  lines: readonly string[],
  { drop, change }: Edits,
): void {
  const { statement, line, column } = row;
  const before = (lines[line] ?? '').slice(0, Math.max(0, column));
  if (statement.kind === 'reading') {
    const name = statement.path.names[0] ?? '';
    if (sheet.figure(name)?.statement.kind === 'figure') drop.add(line);
    // A sample with no figure of its own gives the plan its value, so it stays until it is measured again.
    else change.set(line, [`${before}${codeOf(row)}${mark(row, of)}`]);
  }
  if (statement.kind !== 'used') return;
  const used = quantity(statement.value.value, statement.value.unit);
  const path = statement.path.names.join('.');
  const planned = valueNow(sheet, path);
  const why = statement.comment ? `: ${statement.comment.text}` : '';
  const figure = statement.path.names.length === 1 ? sheet.figure(path) : undefined;
  const written = row.text.slice(statement.value.start, statement.value.end);
  const note =
    planned && !same(planned, used) ? `used in ${of}, planned ${show(planned)}${why}` : `used in ${of}${why}`;
  if (figure?.statement.kind === 'figure' && figure.block.word === 'figures') {
    const at = (lines[figure.line] ?? '').slice(0, Math.max(0, figure.column));
    const { name, limits, sense } = figure.statement;
    // Limits that were asked stay asked, where they fit any nominal.
    const asked =
      limits?.kind === 'deviations'
        ? ` ${figure.text.slice(limits.start, limits.end)}${sense ? ` ${sense}` : ''}`
        : '';
    const plan = codeOf(figure);
    change.set(figure.line, [
      ...(planned && !same(planned, used) ? [`${at}# planned in ${of}: ${plan}`] : []),
      `${at}${name.text} = ${written}${asked}   # ${note}`,
    ]);
    drop.add(line);
  } else {
    // A part of a result cannot be given; what it was set to stays until it is set again.
    change.set(line, [`${before}${path} used ${written}   # ${note}; set it again`]);
  }
}

/** A line's code without its comment. */
const codeOf = ({ text }: Row): string =>
  (text.includes('#') ? text.slice(0, text.indexOf('#')) : text).trim();

function mark(row: Row, of: string): string {
  const { comment } = row.statement;
  return `   # from ${of}: measure again${comment ? `; ${comment.text}` : ''}`;
}

/** As shown, so that rounding is no difference. */
const same = (a: Quantity, b: Quantity): boolean =>
  a.dimension === b.dimension && show({ ...a, unit: b.unit }) === show(b);

type Field = readonly [name: string, text: string | null];

function withFront(lines: readonly string[], fields: readonly Field[]): readonly string[] {
  const { bodyLine, lines: old } = cutFrontMatter(lines);
  const rest = lines.slice(bodyLine);
  const kept: string[] = [];
  const left = new Map(fields);
  let dropping = false;
  for (const line of old ?? []) {
    const key = /^([A-Za-z_]+)\s*:/.exec(line)?.[1];
    // What a replaced field ran on over goes with it.
    if (key === undefined && dropping && /^\s/.test(line)) continue;
    dropping = key !== undefined && left.has(key);
    if (!dropping) kept.push(line);
    else {
      const text = left.get(key ?? '');
      if (text !== null && text !== undefined) kept.push(`${key ?? ''}: ${scalar(text)}`);
      left.delete(key ?? '');
    }
  }
  for (const [name, text] of left) if (text !== null) kept.push(`${name}: ${scalar(text)}`);
  return ['---', ...kept, '---', ...rest];
}

/** Plain where YAML reads it as it stands, else quoted. */
const scalar = (text: string): string =>
  /^[\p{L}\p{N}][\p{L}\p{N} ._/-]*$/u.test(text) && !/\s$/.test(text) ? text : JSON.stringify(text);

/** Under the first heading, else under the front matter. */
function withLessons(lines: readonly string[], lessons: readonly string[]): readonly string[] {
  if (lessons.length === 0) return lines;
  const front = cutFrontMatter(lines).bodyLine - 1;
  const heading = lines.findIndex((line, i) => i > front && /^ {0,3}#{1,6}\s/.test(line));
  const at = heading > 0 && heading - front < 5 ? heading : front;
  return [
    ...lines.slice(0, at + 1),
    '',
    ...lessons.map((text) => `- Lesson: ${text}`),
    ...lines.slice(at + 1),
  ];
}
