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
import { lineEndOf, parts } from './note-text';

export interface Repeat {
  /** Number of the new job. */
  readonly job: string;
  /** Number or file of the old one, for `repeat_of` and in the marks. */
  readonly of: string;
}

/** Lessons stand under the first heading unless it stands further down than this, else above everything. */
const NEAR_TOP = 4;

/** Lines of the note to leave out, and lines that stand in the place of others. */
interface Edits {
  readonly drop: Set<number>;
  readonly change: Map<number, readonly string[]>;
}

export function repeatOf(text: string, sheet: Sheet, { job, of }: Repeat): string {
  const lines = text.replace(/^\ufeff/, '').split(/\r\n|\r|\n/);
  const edits: Edits = { drop: new Set(), change: new Map() };
  for (const row of sheet.rows()) if (row.block.word === 'figures') editRow(row, sheet, of, lines, edits);
  for (const block of sheet.note.blocks) {
    if (block.word !== 'signed') continue;
    // The fence lines go with what they hold.
    for (const line of noteLines(block)) edits.drop.add(line);
  }
  const { headings, lessons } = parts(text, sheet.note);
  for (const { line } of lessons) edits.drop.add(line);
  const each = new Set(lessons.map((lesson) => `- Lesson: ${lesson.text}`));
  const learnt = lessons.length > 0 ? ['', ...each] : [];
  const { bodyLine, lines: front } = cutFrontMatter(lines);
  const title = headings.find(({ line }) => line - bodyLine < NEAR_TOP)?.line;
  const body = lines.flatMap((line, i) => {
    if (i < bodyLine || edits.drop.has(i)) return [];
    const stays = edits.change.get(i) ?? [unticked(line)];
    return i === title ? [...stays, ...learnt] : stays;
  });
  const fields = withFields(front ?? [], [
    ['job', job],
    ['due', null],
    ['status', 'planned'],
    ['repeat_of', of],
  ]);
  const above = title === undefined ? learnt : [];
  return ['---', ...fields, '---', ...above, ...body].join(lineEndOf(text));
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
  const figure = sheet.figure(path);
  const written = row.text.slice(statement.value.start, statement.value.end);
  const other = planned && !same(planned, used) ? show(planned) : null;
  const note = `used in ${of}${other === null ? '' : `, planned ${other}`}${why}`;
  if (figure?.statement.kind === 'figure') {
    const at = (lines[figure.line] ?? '').slice(0, Math.max(0, figure.column));
    const { name, limits, sense } = figure.statement;
    // Limits that were asked stay asked, where they fit any nominal.
    const asked =
      limits?.kind === 'deviations'
        ? ` ${figure.text.slice(limits.start, limits.end)}${sense ? ` ${sense}` : ''}`
        : '';
    const plan = codeOf(figure);
    change.set(figure.line, [
      ...(other === null ? [] : [`${at}# planned in ${of}: ${plan}`]),
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

/** The front matter with these fields in the place of the old ones, new ones behind; those that are null are left out. */
function withFields(lines: readonly string[], fields: readonly Field[]): readonly string[] {
  const kept: string[] = [];
  const left = new Map(fields);
  let dropping = false;
  for (const line of lines) {
    // What a replaced field ran on over goes with it: deeper lines, empty ones, the items of a list.
    if (dropping && /^(?:[\s-]|$)/.test(line)) continue;
    const key = /^([A-Za-z_]+)\s*:/.exec(line)?.[1] ?? '';
    dropping = left.has(key);
    if (!dropping) kept.push(line);
    else {
      const text = left.get(key) ?? null;
      if (text !== null) kept.push(`${key}: ${scalar(text)}`);
      left.delete(key);
    }
  }
  for (const [name, text] of left) if (text !== null) kept.push(`${name}: ${scalar(text)}`);
  return kept;
}

/** Plain where YAML reads it as it stands, else quoted. */
const scalar = (text: string): string =>
  /^[\p{L}\p{N}][\p{L}\p{N} ._/-]*$/u.test(text) && !/\s$/.test(text) ? text : JSON.stringify(text);
