/** Writing down at the machine what was read or run: which figure, how it stands, and the line it makes. */
import { type Sheet, calculate, planned } from '../engine/index';
import type { Row } from '../engine/results';
import type { Span } from '../notation/syntax';
import { SPEED, TURN_RATE, FEED_PER_TURN } from '../quantity/dimension';
import type { Quantity } from '../quantity/value';
import { type Noted, type TextEdit, codeOf, edited, lineBelow } from './edits';
import { hint } from './hints';
import { shown, valueText } from '../engine/wording';

export type How = 'measured' | 'final' | 'used';

export interface Readable {
  /** `neck`, `setup.ring`. */
  readonly path: string;
  /** The figure, with its limits where it has some. */
  readonly shown: string;
  /** What was last written of it; empty where nothing was. */
  readonly last: string;
  /** What is most likely to be written next. */
  readonly how: How;
}

/** The figures a reading can be written for: those with limits first, then what was measured before, then the rest. */
export function readables(sheet: Sheet): readonly Readable[] {
  const seen = new Set<string>();
  const groups: [Readable[], Readable[], Readable[], Readable[]] = [[], [], [], []];
  const rows = sheet.rows().filter(({ block }) => block.word === 'figures');
  const records = new Map<string, Row>();
  for (const row of rows) {
    const { statement } = row;
    if (statement.kind === 'reading' || statement.kind === 'used')
      records.set(statement.path.names.join('.'), row);
  }
  const add = (path: string, value: Quantity, text: string, group: 0 | 2 | 3): void => {
    if (seen.has(path)) return;
    seen.add(path);
    const record = records.get(path);
    const last = record ? codeOf(record.text).trim().slice(path.length).trim() : '';
    groups[record && group !== 0 ? 1 : group].push({
      path,
      shown: text,
      last,
      how: isRun(value) ? 'used' : 'measured',
    });
  };
  for (const row of rows) {
    const { statement, value } = row;
    if (statement.kind === 'figure' && value?.kind === 'number')
      add(
        statement.name.text,
        value,
        `${shown(value)}${limitsText(row.text, statement.limits)}`,
        row.asked ? 0 : 2,
      );
    if (statement.kind === 'figure' && value?.kind === 'record')
      for (const [field, part] of value.fields)
        if (part.kind === 'number') add(`${statement.name.text}.${field}`, part, valueText(part), 3);
  }
  for (const [path, row] of records) {
    const [first] = row.reading?.readings ?? [];
    if (first) add(path, first, 'measured', 2);
  }
  return groups.flat();
}

/** Speeds and feeds are run, not measured. */
function isRun({ dimension }: Quantity): boolean {
  return dimension === TURN_RATE || dimension === SPEED || dimension === FEED_PER_TURN;
}

function limitsText(text: string, limits: Span | null): string {
  return limits ? ` ${text.slice(limits.start, limits.end)}` : '';
}

export interface Judged {
  /** The edit that writes the line; null while what was typed is no reading. */
  readonly edit: TextEdit | null;
  /** The line as it will stand. */
  readonly line: string;
  /** What the note will say of it. */
  readonly verdict: string;
  readonly good: boolean;
}

/** What the note would make of these words. Bare numbers take the figure's unit. */
export function judged(noted: Noted, path: string, how: How, typed: string): Judged {
  const { sheet, text, shops } = noted;
  const after = place(sheet, path, how);
  const line = `${path} ${how} ${withUnits(typed, unitFor(sheet, path, how))}`;
  if (!after) return { edit: null, line, verdict: 'There is no such figure any more.', good: false };
  const edit = lineBelow(text, after, line);
  const then = calculate(edited(text, [edit]), shops);
  const row = then.rowAt(after.line + 1);
  const found = row?.findings.find(({ severity }) => severity !== 'info');
  const stands = row && row.statement.kind !== 'broken' && !/^(?:reading|used)-kind$/.test(found?.code ?? '');
  const verdict = found?.message ?? (row && hint(then, row)) ?? line;
  return { edit: stands ? edit : null, line, verdict, good: !found };
}

/** The line below which it belongs: the last of its own, but for an inspection the last line of inspections. */
function place(sheet: Sheet, path: string, how: How): Row | undefined {
  const rows = sheet.rows().filter(({ block }) => block.word === 'figures');
  const isRecord = ({ statement }: Row): boolean =>
    (statement.kind === 'reading' || statement.kind === 'used') && statement.path.names.join('.') === path;
  const finals = rows.filter(({ statement }) => statement.kind === 'reading' && statement.how === 'final');
  const own = rows.filter(isRecord);
  if (how === 'final')
    return finals.filter(isRecord).at(-1) ?? finals.at(-1) ?? own.at(-1) ?? figureOf(sheet, path);
  return own.at(-1) ?? figureOf(sheet, path);
}

function figureOf(sheet: Sheet, path: string): Row | undefined {
  return sheet.figure(path.split('.')[0] ?? '');
}

/** The unit in which the figure is read: that of the last reading, else its own. */
function unitFor(sheet: Sheet, path: string, how: How): string {
  const last = sheet
    .rows()
    .filter(({ reading }) => reading?.path === path)
    .at(-1)
    ?.reading?.readings.at(-1);
  const unit =
    (how === 'used' ? undefined : last?.unit) ?? planned(sheet, path.split('.'))?.unit ?? last?.unit;
  return unit?.symbol ?? '';
}

const BARE = /^([-−]?(?:\d+(?:\.\d+)?|\.\d+))(?:\s+at\s+(\d+(?:\.\d+)?))?$/;

/** A comma with no blank after it may be a decimal point: it is left for the notation to refuse. */
function withUnits(typed: string, unit: string): string {
  const [code = '', ...comment] = typed.trim().split('#');
  const tight = unit === 'deg' ? '°' : unit === '' ? '' : ` ${unit}`;
  const readings = code
    .trim()
    .split(/,\s+/)
    .map((reading) => {
      const [, value, at] = BARE.exec(reading) ?? [];
      if (value === undefined) return reading;
      return `${value}${tight}${at === undefined ? '' : ` at ${at} mm`}`;
    })
    .join(', ');
  return comment.length === 0 ? readings : `${readings}   # ${comment.join('#').trim()}`;
}
