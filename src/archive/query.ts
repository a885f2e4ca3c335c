/**
 * A query as one reads it: words, and conditions that look like the notation, set apart by commas.
 *
 *     chatter, ball 20 mm .. 25 mm, used speed > 1000 rpm, customer: ferry, due < 2026-12
 *
 * Words before a condition need no comma. Every part must hold.
 */
import { literalOf } from '../engine/index';
import { parseLine } from '../notation/line';
import { dimensionName } from '../quantity/dimension';
import { usualDecimals } from '../quantity/display';
import type { Quantity } from '../quantity/value';
import type { How } from './entry';

export type Relation = '=' | '<' | '<=' | '>' | '>=';

export type Term =
  | { readonly kind: 'word'; readonly word: string }
  /** A front matter field that holds these words, whatever their case. */
  | { readonly kind: 'field'; readonly field: string; readonly words: string }
  /** A date of the front matter; a month or a year is told by its beginning. */
  | { readonly kind: 'date'; readonly field: string; readonly relation: Relation; readonly date: string }
  /** A value of one kind between two ends, in base units; either may be infinite. */
  | {
      readonly kind: 'value';
      /** Lower case, `setup.ring` for a field. */
      readonly name: string;
      /** What the question is about; null for a figure or a measured sample of that name. */
      readonly how: How | null;
      readonly of: string;
      readonly low: number;
      readonly high: number;
      /** Ends that are themselves outside. */
      readonly lowOpen: boolean;
      readonly highOpen: boolean;
    };

export interface QueryProblem {
  readonly says: string;
  readonly start: number;
  readonly end: number;
}

export type Query = { readonly terms: readonly Term[] } | { readonly problem: QueryProblem };

export const FIELDS: readonly string[] = [
  'job',
  'customer',
  'part',
  'drawing',
  'revision',
  'quantity',
  'material',
  'due',
  'status',
  'repeat_of',
];
const DATES = new Set(['due']);
export const EXAMPLE = 'ball 20 mm .. 25 mm, used speed > 1000 rpm';
/** A line nobody types; it also bounds the work of reading one. */
const LONGEST = 1000;

const RELATION = /^(<=|>=|≤|≥|==|=|<|>)?\s*(.*)$/su;
const NAME = /^[\p{L}_][\p{L}\p{N}_]*(?:\.[\p{L}_][\p{L}\p{N}_]*)*$/u;
const HOW = new Set(['used', 'measured', 'final']);
const DATE = /^\d{4}(?:-\d{2}(?:-\d{2})?)?$/;

export function readQuery(text: string): Query {
  if (text.length > LONGEST)
    return {
      problem: { says: `A query of up to ${LONGEST} characters is read.`, start: LONGEST, end: text.length },
    };
  const terms: Term[] = [];
  let start = 0;
  for (const piece of pieces(text)) {
    const found = readPiece(piece, start);
    if ('says' in found) return { problem: found };
    terms.push(...found);
    start += piece.length + 1;
  }
  if (terms.length === 0)
    return {
      problem: { says: `Write words, or a condition such as \`${EXAMPLE}\`.`, start: 0, end: text.length },
    };
  return { terms };
}

/** Split at commas, those within brackets apart. */
function pieces(text: string): readonly string[] {
  const found: string[] = [];
  let [from, depth] = [0, 0];
  for (let i = 0; i < text.length; i++) {
    const c = text[i];
    if (c === '(' || c === '[') depth++;
    else if (c === ')' || c === ']') depth--;
    else if (c === ',' && depth <= 0) {
      found.push(text.slice(from, i));
      from = i + 1;
    }
  }
  return [...found, text.slice(from)];
}

function readPiece(piece: string, start: number): readonly Term[] | QueryProblem {
  const field = /^\s*([a-z_]+)\s*:\s*(.*?)\s*$/isu.exec(piece);
  if (field) return readField(field[1] ?? '', field[2] ?? '', piece, start);
  const words = [...piece.matchAll(/\S+/g)].map((match) => ({ text: match[0], at: match.index }));
  let problem: QueryProblem | null = null;
  for (const [i, word] of words.entries()) {
    const rest = words[i + 1];
    const [head, how] =
      HOW.has(word.text.toLowerCase()) && rest ? [rest, word.text.toLowerCase()] : [word, null];
    const joined = /^(.*?)([<>=≤≥].*)$/su.exec(head.text);
    const name = joined ? (joined[1] ?? '') : head.text;
    if (!NAME.test(name)) continue;
    const after = piece.slice(head.at + name.length).trimEnd();
    const condition = readCondition(
      name,
      how as How | null,
      after,
      start + head.at + name.length,
      how !== null,
    );
    if (condition === null) continue;
    if ('says' in condition) {
      problem ??= condition;
      continue;
    }
    return [...words.slice(0, i).map(({ text }): Term => ({ kind: 'word', word: text })), condition];
  }
  if (problem) return problem;
  const odd = words.find(({ text }) => /[<>=≤≥]|\.\./u.test(text));
  if (odd)
    return {
      says: `A condition needs a name before and a value after \`${odd.text}\`, such as \`${EXAMPLE}\`.`,
      start: start + odd.at,
      end: start + odd.at + odd.text.length,
    };
  return words.map(({ text }) => ({ kind: 'word', word: text }));
}

function readField(
  name: string,
  words: string,
  piece: string,
  start: number,
): readonly Term[] | QueryProblem {
  const field = name.toLowerCase();
  const at = start + piece.toLowerCase().indexOf(field);
  if (!FIELDS.includes(field))
    return {
      says: `\`${name}:\` is no field of a job. Fields are ${FIELDS.join(', ')}.`,
      start: at,
      end: at + field.length,
    };
  if (words === '')
    return {
      says: `Say what \`${field}:\` should hold, such as \`${field}: ferry\`.`,
      start: at,
      end: start + piece.length,
    };
  return [{ kind: 'field', field, words: words.toLowerCase() }];
}

/** Null when what follows is not meant as a condition: plain words. */
function readCondition(
  name: string,
  how: How | null,
  after: string,
  start: number,
  surely: boolean,
): Term | QueryProblem | null {
  const [, sign = '', text = ''] = RELATION.exec(after.trimStart()) ?? [];
  const relation = ({ '≤': '<=', '≥': '>=', '==': '=' }[sign] ?? (sign || null)) as Relation | null;
  const meant = surely || relation !== null || /^[+-]?\d/.test(text);
  if (!meant) return null;
  const field = name.toLowerCase();
  if (DATES.has(field) && how === null) {
    if (DATE.test(text)) return { kind: 'date', field, relation: relation ?? '=', date: text };
    return problemAt(`A date is written 2026-12-31, 2026-12 or 2026, not \`${text}\`.`, after, start);
  }
  const range = readRange(text);
  if (range === null)
    return problemAt(`\`${text}\` is no value that can be looked for: write \`${EXAMPLE}\`.`, after, start);
  if (range.low !== range.high && relation !== null && relation !== '=')
    return problemAt(
      `Give one value after \`${relation}\`, or two ends without it: \`${name} 20 mm .. 25 mm\`.`,
      after,
      start,
    );
  return { kind: 'value', name: field, how, of: range.of, ...between(relation, range) };
}

function between(
  relation: Relation | null,
  { low, high, slack }: Range,
): { low: number; high: number; lowOpen: boolean; highOpen: boolean } {
  switch (relation) {
    case '<':
      return { low: -Infinity, high: low, lowOpen: false, highOpen: true };
    case '<=':
      return { low: -Infinity, high: low + slack, lowOpen: false, highOpen: false };
    case '>':
      return { low, high: Infinity, lowOpen: true, highOpen: false };
    case '>=':
      return { low: low - slack, high: Infinity, lowOpen: false, highOpen: false };
    default:
      return { low: low - slack, high: high + slack, lowOpen: false, highOpen: false };
  }
}

interface Range {
  readonly low: number;
  readonly high: number;
  readonly of: string;
  /** How far off still counts as equal, base units. */
  readonly slack: number;
}

/** The value or ends written, by the notation's own reader: `3/8 in`, `20 mm .. 25 mm`, `25 mm ± 0.1`. */
function readRange(text: string): Range | null {
  const line = parseLine(`query = ${text}`, 'figures');
  if (line.kind !== 'figure' || line.to !== null || line.sense !== null || line.comment !== null) return null;
  const first = literalOf(line.expression);
  if (first === null) return null;
  const { value, unit } = first;
  const of = dimensionName(unit.dimension);
  const { limits } = line;
  if (limits === null) return { low: value, high: value, of, slack: roundingOf(first) };
  // Ends count as inside though they went through another unit.
  const slack = Math.abs(value) * 1e-9;
  if (limits.kind === 'range') {
    const ends = [value, limits.to.value].sort((a, b) => a - b);
    return { low: ends[0] ?? 0, high: ends[1] ?? 0, of, slack };
  }
  if (limits.kind === 'code') return null;
  return { low: value + limits.lower.value, high: value + limits.upper.value, of, slack };
}

/** What shows alike is equal: half a step of the last digit that a result in this unit is shown with. */
function roundingOf(q: Quantity): number {
  return (0.5 / 10 ** usualDecimals(q)) * q.unit.factor;
}

function problemAt(says: string, after: string, start: number): QueryProblem {
  const end = start + after.length;
  return { says, start: end - after.trimStart().length, end };
}
