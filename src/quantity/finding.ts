/**
 * Findings: what is wrong or worth knowing about a place in a note. Each room declares the codes it raises as a table
 * of `FindingKind`s; the code and its data are the contract, the sentence is built from them in one place.
 */
import type { FaultData } from './value';

export type Severity = 'error' | 'warning' | 'info';

export interface FindingKind {
  readonly severity: Severity;
  /** One sentence for the machinist: what is wrong and what to write instead. */
  readonly say: (data: FaultData) => string;
  /** Why the notebook asks for it, for the explanation page; one or two sentences. */
  readonly why: string;
}

/**
 * A finding within one line of code. `start` and `end` are UTF-16 offsets in the line, end exclusive.
 * By convention `data.offers` lists texts that could stand in the place of the marked range.
 */
export interface LineFinding {
  readonly code: string;
  readonly start: number;
  readonly end: number;
  readonly data: FaultData;
}

/** A text field of a finding's data, for building its sentence. */
export function word(data: FaultData, key: string): string {
  const value = data[key];
  return value === undefined || value === null ? '' : String(value);
}

/** The offered replacements as words: «`a`» or «`a` or `b`». Empty when there are none. */
export function offers(data: FaultData): string {
  const list = Array.isArray(data['offers']) ? (data['offers'] as readonly string[]) : [];
  return list.map((text) => `\`${text}\``).join(' or ');
}

/** The noun with its article; turns and money go without. */
export function a(noun: string): string {
  if (noun === 'turns' || noun.startsWith('money')) return noun;
  return /^[aeio]/.test(noun) ? `an ${noun}` : `a ${noun}`;
}
