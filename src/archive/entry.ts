/** What the archive remembers of one note: enough to be found, compared and repeated without reading it again. */
import { type Finding, type Row, type Sheet, type Shop, calculate } from '../engine/index';
import { quantity } from '../quantity/arithmetic';
import { dimensionName } from '../quantity/dimension';
import { show } from '../quantity/display';
import { band } from '../quantity/limits';
import type { Quantity } from '../quantity/value';
import { parts } from './note-text';

/** A figure of the plan, what was measured on the way or at inspection, or what was really run. */
export type How = 'figure' | 'measured' | 'final' | 'used';

export interface Amount {
  /** `ball`, or `setup.ring` for a field. */
  readonly name: string;
  readonly how: How;
  /** The note's line, from 0. */
  readonly line: number;
  /** Base units of its kind; of several readings in a line the last. */
  readonly value: number;
  /** Asked limits, else the resulting ones; null without. */
  readonly low: number | null;
  readonly high: number | null;
  /** What kind of quantity it is, in words: values of one kind compare in any unit. */
  readonly kind: string;
  /** Symbol of the unit it is shown in; empty for a plain number. */
  readonly unit: string;
  readonly shown: string;
  /** The comment of its line, which often says why. */
  readonly comment: string | null;
  /** The machines that its block is tied to, a blank between them; empty without. */
  readonly machines: string;
}

export interface Lesson {
  readonly line: number;
  readonly text: string;
}

export interface JobEntry {
  /** Front matter, each field as written. */
  readonly job: Readonly<Record<string, string>>;
  /** The first heading, else the part, else empty. */
  readonly title: string;
  readonly headings: readonly string[];
  readonly amounts: readonly Amount[];
  readonly lessons: readonly Lesson[];
  /** Words to find it by: prose, headings and comments, cut where a note is longer than a book. */
  readonly text: string;
  readonly errors: number;
  readonly warnings: number;
  /** Its findings in words, in order, each as often as it stands there. */
  readonly findings: readonly string[];
}

/** How a list calls a job: its number and title, or the file where it has no title. */
export function labelOf(path: string, { job, title }: Pick<JobEntry, 'job' | 'title'>): string {
  return [job['job'], title === '' ? path : title].filter(Boolean).join('  ');
}

/** Prose beyond this is not searched, so that one pasted log cannot fill the memory. */
export const MOST_TEXT = 40_000;
/** More figures than any job has; a note made to be hostile stops here. */
export const MOST_AMOUNTS = 5_000;

/** Reads and calculates one note. */
export function entryOf(text: string, shops: readonly Shop[] = []): JobEntry {
  return entryOfSheet(text, calculate(text, shops));
}

/** The same from a sheet that an editor keeps up to date already. */
export function entryOfSheet(text: string, sheet: Sheet): JobEntry {
  const { lessons, prose, ...words } = parts(text, sheet.note);
  const headings = words.headings.map((heading) => heading.text);
  const job = Object.fromEntries(sheet.job());
  const findings = sheet.findings();
  const count = (severity: Finding['severity']): number =>
    findings.filter((finding) => finding.severity === severity).length;
  const rows = sheet.rows().filter((row) => row.block.word === 'figures');
  const comments = rows.map((row) => row.statement.comment?.text ?? '').filter((it) => it !== '');
  return {
    job,
    title: headings[0] ?? job['part'] ?? '',
    headings,
    amounts: rows.flatMap(amountsOf).slice(0, MOST_AMOUNTS),
    lessons,
    text: `${prose}\n${comments.join('\n')}`.slice(0, MOST_TEXT),
    errors: count('error'),
    warnings: count('warning'),
    findings: findings.map(({ message, code }) => `${message} [${code}]`).slice(0, MOST_AMOUNTS),
  };
}

function amountsOf(row: Row): readonly Amount[] {
  const { statement, value, line } = row;
  const comment = statement.comment?.text ?? null;
  const machines = row.block.on.map(({ text }) => text).join(' ');
  const of = (name: string, how: How, q: Quantity, asked: Row['asked'] = null): Amount => {
    const limits = asked ?? band(q);
    return {
      name,
      how,
      line,
      value: q.value,
      low: limits?.low ?? null,
      high: limits?.high ?? null,
      kind: dimensionName(q.dimension),
      unit: q.unit.symbol,
      shown: show(q),
      comment,
      machines,
    };
  };
  switch (statement.kind) {
    case 'figure': {
      const name = statement.name.text;
      if (value?.kind === 'number') return [of(name, 'figure', value, row.asked)];
      if (value?.kind !== 'record') return [];
      return [...value.fields].flatMap(([field, part]) =>
        part.kind === 'number' ? [of(`${name}.${field}`, 'figure', part)] : [],
      );
    }
    case 'reading': {
      const last = row.reading?.readings.at(-1);
      return last ? [of(statement.path.names.join('.'), statement.how, last)] : [];
    }
    case 'used': {
      const { value: base, unit } = statement.value;
      return [of(statement.path.names.join('.'), 'used', quantity(base, unit))];
    }
    default:
      return [];
  }
}
