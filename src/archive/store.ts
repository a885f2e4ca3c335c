/**
 * The index as text, to be kept between two starts: a line that names the format, then one line per note with a sum over
 * it. Whatever does not read back exactly is left out, and its note is read again: a damaged index is never trusted.
 */
import type { Amount, JobEntry, Lesson } from './entry';
import { sumOf } from './sum';

/** Raised whenever an entry's shape or meaning changes; an index of another format counts as none. */
export const FORMAT = 1;
const HEAD = `scribeline index ${FORMAT}`;

export interface Kept {
  readonly path: string;
  readonly mark: string;
  readonly entry: JobEntry;
}

export function written(kept: Iterable<Kept>): string {
  const lines = [HEAD];
  for (const { path, mark, entry } of kept) {
    const body = JSON.stringify([path, mark, entry]);
    lines.push(`${sumOf(body)} ${body}`);
  }
  return `${lines.join('\n')}\n`;
}

/** What reads back whole; the rest is as if it had never been kept. */
export function readBack(text: string): readonly Kept[] {
  const lines = text.split('\n');
  if (lines[0] !== HEAD) return [];
  const kept = new Map<string, Kept>();
  for (const line of lines.slice(1)) {
    const at = line.indexOf(' ');
    const body = line.slice(at + 1);
    if (at <= 0 || line.slice(0, at) !== sumOf(body)) continue;
    const one = keptOf(body);
    if (one) kept.set(one.path, one);
  }
  return [...kept.values()];
}

function keptOf(body: string): Kept | null {
  let data: unknown;
  try {
    data = JSON.parse(body);
  } catch {
    return null;
  }
  if (!Array.isArray(data)) return null;
  const [path, mark, entry] = data as readonly unknown[];
  return typeof path === 'string' && typeof mark === 'string' && isEntry(entry)
    ? { path, mark, entry }
    : null;
}

type Fields = Readonly<Record<string, unknown>>;
const isFields = (x: unknown): x is Fields => typeof x === 'object' && x !== null && !Array.isArray(x);
const isTexts = (x: unknown): x is readonly string[] =>
  Array.isArray(x) && x.every((it) => typeof it === 'string');
const isLimit = (x: unknown): boolean => x === null || Number.isFinite(x);

function isEntry(x: unknown): x is JobEntry {
  return (
    isFields(x) &&
    isFields(x['job']) &&
    isTexts(Object.values(x['job'])) &&
    typeof x['title'] === 'string' &&
    isTexts(x['headings']) &&
    Array.isArray(x['amounts']) &&
    x['amounts'].every(isAmount) &&
    Array.isArray(x['lessons']) &&
    x['lessons'].every(isLesson) &&
    typeof x['text'] === 'string' &&
    Number.isFinite(x['errors']) &&
    Number.isFinite(x['warnings']) &&
    isTexts(x['findings'])
  );
}

function isAmount(x: unknown): x is Amount {
  return (
    isFields(x) &&
    ['figure', 'measured', 'final', 'used'].includes(String(x['how'])) &&
    typeof x['name'] === 'string' &&
    typeof x['kind'] === 'string' &&
    typeof x['shown'] === 'string' &&
    typeof x['unit'] === 'string' &&
    (x['comment'] === null || typeof x['comment'] === 'string') &&
    Number.isInteger(x['line']) &&
    Number.isFinite(x['value']) &&
    isLimit(x['low']) &&
    isLimit(x['high'])
  );
}

function isLesson(x: unknown): x is Lesson {
  return isFields(x) && Number.isInteger(x['line']) && typeof x['text'] === 'string';
}
