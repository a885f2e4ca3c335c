/** Pieces of the sentences in which the engine says what it finds. */
import { type FindingKind, type Severity, offers, word } from '../quantity/finding';
import { ONE } from '../quantity/unit';
import { unitFrom } from '../quantity/units';
import type { FaultData } from '../quantity/value';
import { unitText } from './evaluate';

export function kind(severity: Severity, say: (data: FaultData) => string, why: string): FindingKind {
  return { severity, say, why };
}

/** ` Write \`…\`.` when there is something to write, else the fallback. */
export function write(data: FaultData, otherwise = ''): string {
  const list = offers(data);
  return list === '' ? otherwise : ` Write ${list}.`;
}

export function maybe(data: FaultData, otherwise = ''): string {
  const list = offers(data);
  return list === '' ? otherwise : ` Did you mean ${list}?`;
}

export function list(data: FaultData, key: string): string {
  const value = data[key];
  return Array.isArray(value) ? value.map((item) => `\`${item}\``).join(', ') : '';
}

/** A figure for a sentence: enough digits to see the point, no more. */
export function figure(data: FaultData, key: string): string {
  return String(Number(Number(data[key]).toPrecision(6)));
}

/** The figure with the unit that the data name, as it is shown everywhere: `1°`, `3 N·m`. */
export function withUnit(data: FaultData, key: string): string {
  const unit = unitFrom(word(data, 'unit'), true);
  return unit && unit !== ONE ? unitText(figure(data, key), unit) : figure(data, key);
}

/** ` on 2026-11-25`, where the record says when. */
export function on(data: FaultData): string {
  const date = word(data, 'date');
  return date === '' ? '' : ` on ${date}`;
}
