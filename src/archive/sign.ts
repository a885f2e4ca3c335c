/** Signing a job off: its results written into a `signed` block at the end of the note, to be compared later. */
import { NOTHING, type Sheet } from '../engine/index';
import { fromBase } from '../quantity/unit';
import type { Quantity } from '../quantity/value';
import { lineEndOf } from './note-text';

export interface Signature {
  /** `2026-11-25`. */
  readonly date: string;
  /** Of the program that worked the results out. */
  readonly version: string;
  /** Who signs; left out when empty. */
  readonly by: string;
}

/** Errors that stand in the note now: signing over them asks first. */
export function errorsOf(sheet: Sheet): readonly { readonly line: number; readonly message: string }[] {
  return sheet
    .findings()
    .filter((finding) => finding.severity === 'error')
    .map(({ line, message }) => ({ line, message }));
}

/** Errors written down with the signature; more are only counted. */
const MOST_ERRORS = 20;

/** The block to put at the note's end, with a blank line before it; earlier records stay as they are. */
export function signedBlock(sheet: Sheet, { date, version, by }: Signature): string {
  const lines = [`date: ${date}`, `version: ${version}`];
  if (by.trim() !== '') lines.push(`by: ${oneLine(by)}`);
  const errors = errorsOf(sheet);
  if (errors.length > 0) lines.push(`errors: ${errors.length}`);
  for (const [i, { line, message }] of errors.slice(0, MOST_ERRORS).entries())
    lines.push(`error_${i + 1}: line ${line + 1}: ${oneLine(message)}`);
  for (const row of sheet.rows()) {
    const { statement, value, asked, block } = row;
    if (block.word !== 'figures' || statement.kind !== 'figure' || value === null) continue;
    const name = statement.name.text;
    if (value.kind === 'number') lines.push(`${name} = ${exact(value)}${limits(value, asked)}`);
    if (value.kind !== 'record') continue;
    for (const [field, part] of value.fields)
      if (part.kind === 'number') lines.push(`${name}.${field} = ${exact(part)}`);
  }
  return ['', '```signed', ...lines, '```', ''].join('\n');
}

/** The whole note with the record added, its line ends kept. */
export function signedNote(text: string, sheet: Sheet, signature: Signature): string {
  const end = lineEndOf(text);
  const block = signedBlock(sheet, signature).replaceAll('\n', end);
  return `${text}${/[\r\n]$/.test(text) ? '' : end}${block}`;
}

/** Nine digits written out in full: with an exponent a figure would read as something else. */
const WRITTEN: Intl.NumberFormatOptions = { maximumSignificantDigits: 9, useGrouping: false };

/** In the unit that the figure is shown in. */
function exact(q: Quantity): string {
  // What rounding leaves of a zero differs from machine to machine.
  const amount = fromBase(Math.abs(q.value) < NOTHING ? 0 : q.value, q.unit);
  return joined(amount.toLocaleString('en-US', WRITTEN), q);
}

function joined(number: string, q: Quantity): string {
  const { symbol } = q.unit;
  if (symbol === '') return number;
  return /^[°%"′″]/u.test(symbol) && symbol.length === 1 ? `${number}${symbol}` : `${number} ${symbol}`;
}

function limits(value: Quantity, asked: { readonly low: number; readonly high: number } | null): string {
  if (asked === null) return '';
  const { factor } = value.unit;
  const by = (end: number): string =>
    ((end - value.value) / factor).toLocaleString('en-US', { ...WRITTEN, signDisplay: 'exceptZero' });
  return ` ${by(asked.high)}/${by(asked.low)} ${value.unit.symbol}`.trimEnd();
}

const oneLine = (text: string): string =>
  text.replace(/\s+/g, ' ').replaceAll('#', 'no.').trim().slice(0, 400);
