/**
 * The index as text, to be kept between two starts: a line that names the format and the version that worked the entries
 * out, then one line per note with a sum over both. Whatever does not read back exactly is left out, and its note is read
 * again: a damaged index is never trusted. A later line counts for its note instead of an earlier one, so that changes can be
 * put behind what is there.
 */
import type { Amount, How, JobEntry, Lesson } from './entry';
import { sumOf } from './sum';

/** Raised whenever an entry's shape or meaning changes; an index of another format counts as none. */
export const FORMAT = 4;

export interface Kept {
  readonly path: string;
  readonly mark: string;
  readonly entry: JobEntry;
}

/** The first line. Another version of the program may come to other values, so its index counts as none. */
export function headOf(version: string): string {
  return `scribeline index ${FORMAT} ${version}`;
}

/**
 * One note's line. Amounts are lists without the names of their fields: an index is half as long for it. The sum is over the
 * first line too: a line that comes to stand in an index of another version counts for nothing there.
 */
export function lineOf({ path, mark, entry }: Kept, version: string): string {
  const amounts = entry.amounts.map((it) => [
    it.name,
    it.how,
    it.line,
    it.value,
    it.low,
    it.high,
    it.kind,
    it.unit,
    it.shown,
    it.comment,
    it.machines,
  ]);
  const lessons = entry.lessons.map(({ line, text }) => [line, text]);
  const { job, title, headings, text, errors, warnings, findings } = entry;
  const body = JSON.stringify([
    path,
    mark,
    job,
    title,
    headings,
    amounts,
    lessons,
    text,
    errors,
    warnings,
    findings,
  ]);
  return `${lineSum(version, body)} ${body}`;
}

const lineSum = (version: string, body: string): string => sumOf(`${headOf(version)} ${body}`);

/**
 * What reads back whole, in the order it was kept; the rest is as if it had never been. At the end tells whether that was
 * all there is.
 */
export function* readBack(text: string, version: string): Generator<Kept, boolean> {
  const head = `${headOf(version)}\n`;
  if (!text.startsWith(head)) return false;
  let whole = true;
  for (let start = head.length, end; start < text.length; start = end + 1) {
    end = text.indexOf('\n', start);
    // A line without its end was cut short.
    if (end === -1) return false;
    // What is put behind begins a line of its own, whatever stood there before.
    if (end === start) continue;
    const line = text.slice(start, end);
    const at = line.indexOf(' ');
    const body = line.slice(at + 1);
    const one = line.slice(0, at) === lineSum(version, body) ? keptOf(body) : null;
    if (one) yield one;
    else whole = false;
  }
  return whole;
}

function keptOf(body: string): Kept | null {
  let data: unknown;
  try {
    data = JSON.parse(body);
  } catch {
    return null;
  }
  if (!Array.isArray(data)) return null;
  const [path, mark, job, title, headings, amounts, lessons, text, errors, warnings, findings] =
    data as readonly unknown[];
  if (typeof path !== 'string' || typeof mark !== 'string' || typeof title !== 'string') return null;
  if (typeof text !== 'string' || !isCount(errors) || !isCount(warnings)) return null;
  if (!isTexts(headings) || !isTexts(findings) || !isFields(job)) return null;
  const [figures, learnt] = [all(amounts, amountOf), all(lessons, lessonOf)];
  if (figures === null || learnt === null) return null;
  const entry = { job, title, headings, amounts: figures, lessons: learnt, text, errors, warnings, findings };
  return { path, mark, entry };
}

function all<T>(list: unknown, read: (it: readonly unknown[]) => T | null): readonly T[] | null {
  if (!Array.isArray(list)) return null;
  const made: T[] = [];
  for (const it of list as readonly unknown[]) {
    const one = Array.isArray(it) ? read(it) : null;
    if (one === null) return null;
    made.push(one);
  }
  return made;
}

const isCount = (x: unknown): x is number => Number.isInteger(x);
const isTexts = (x: unknown): x is readonly string[] =>
  Array.isArray(x) && x.every((it) => typeof it === 'string');
const isFields = (x: unknown): x is Readonly<Record<string, string>> =>
  typeof x === 'object' && x !== null && !Array.isArray(x) && isTexts(Object.values(x));
const isLimit = (x: unknown): x is number | null => x === null || Number.isFinite(x);
const isHow = (x: unknown): x is How => x === 'figure' || x === 'measured' || x === 'final' || x === 'used';

function amountOf(parts: readonly unknown[]): Amount | null {
  const [name, how, line, value, low, high, kind, unit, shown, comment, machines] = parts;
  return typeof name === 'string' &&
    isHow(how) &&
    isCount(line) &&
    typeof value === 'number' &&
    isLimit(low) &&
    isLimit(high) &&
    typeof kind === 'string' &&
    typeof unit === 'string' &&
    typeof shown === 'string' &&
    (comment === null || typeof comment === 'string') &&
    typeof machines === 'string'
    ? { name, how, line, value, low, high, kind, unit, shown, comment, machines }
    : null;
}

function lessonOf([line, text]: readonly unknown[]): Lesson | null {
  return isCount(line) && typeof text === 'string' ? { line, text } : null;
}
