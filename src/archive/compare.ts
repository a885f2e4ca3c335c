/** Two jobs side by side: what differs and by how much, what only one has, which findings are new and which are gone. */
import { quantity } from '../quantity/arithmetic';
import { unitFrom } from '../quantity/unit-lookup';
import { show } from '../quantity/display';
import type { Amount, JobEntry } from './entry';

export interface Pair {
  readonly name: string;
  readonly how: Amount['how'];
  readonly before: Amount | null;
  readonly after: Amount | null;
  /** After less before as shown, `+0.05 mm`; null where they agree, differ in kind, or one is missing. */
  readonly change: string | null;
}

export interface Comparison {
  /** Front matter fields that differ. */
  readonly fields: readonly {
    readonly name: string;
    readonly before: string | null;
    readonly after: string | null;
  }[];
  readonly differ: readonly Pair[];
  readonly same: readonly Pair[];
  readonly onlyBefore: readonly Pair[];
  readonly onlyAfter: readonly Pair[];
  readonly newFindings: readonly string[];
  readonly goneFindings: readonly string[];
}

/** Values that differ by less are one value, worked out twice. */
const ALIKE = 1e-9;

export function compareJobs(before: JobEntry, after: JobEntry): Comparison {
  const [old, now] = [byName(before), byName(after)];
  const pairs = [...new Set([...old.keys(), ...now.keys()])].map((key): Pair => {
    const [a, b] = [old.get(key) ?? null, now.get(key) ?? null];
    const { name, how } = (a ?? b) as Amount;
    return { name, how, before: a, after: b, change: a && b ? changeOf(a, b) : null };
  });
  const both = pairs.filter(({ before: a, after: b }) => a && b);
  const agree = ({ before: a, after: b }: Pair): boolean =>
    a !== null && b !== null && a.kind === b.kind && close(a.value, b.value) && ends(a, b);
  return {
    fields: [...new Set([...Object.keys(before.job), ...Object.keys(after.job)])]
      .filter((name) => before.job[name] !== after.job[name])
      .map((name) => ({ name, before: before.job[name] ?? null, after: after.job[name] ?? null })),
    differ: both.filter((pair) => !agree(pair)),
    same: both.filter(agree),
    onlyBefore: pairs.filter(({ after: b }) => b === null),
    onlyAfter: pairs.filter(({ before: a }) => a === null),
    newFindings: without(after.findings, before.findings),
    goneFindings: without(before.findings, after.findings),
  };
}

/** Of several readings of one name the last. */
function byName(entry: JobEntry): Map<string, Amount> {
  return new Map(entry.amounts.map((amount) => [`${amount.how} ${amount.name}`, amount]));
}

const close = (a: number, b: number): boolean =>
  Math.abs(a - b) <= ALIKE * Math.max(1, Math.abs(a), Math.abs(b));
const ends = (a: Amount, b: Amount): boolean =>
  close(a.low ?? a.value, b.low ?? b.value) && close(a.high ?? a.value, b.high ?? b.value);

/** The difference in the unit that the later one is shown in. */
function changeOf(a: Amount, b: Amount): string | null {
  if (a.kind !== b.kind || close(a.value, b.value)) return null;
  const shown = unitFrom(b.unit);
  // Between 20 °C and 25 °C lie 5 K.
  const unit = shown && shown.offset !== 0 ? unitFrom('K') : shown;
  const off = b.value - a.value;
  const sign = off > 0 ? '+' : '−';
  return unit ? sign + show(quantity(Math.abs(off), unit)) : null;
}

/** Some without others, each as often as it stands there. */
export function without(some: readonly string[], others: readonly string[]): readonly string[] {
  const left = [...others];
  return some.filter((code) => {
    const at = left.indexOf(code);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

const cell = (text: string): string => text.replace(/[|\\]/g, '\\$&').replace(/\s+/g, ' ');
const written = (amount: Amount | null): string => (amount ? cell(amount.shown) : '');
/** With its ends, for a pair that differs in nothing else. */
function withEnds(amount: Amount | null): string {
  const unit = amount && unitFrom(amount.unit);
  if (!unit || amount.low === null || amount.high === null) return written(amount);
  const [low, high] = [amount.low, amount.high].map((end) => show(quantity(end, unit)));
  return cell(`${amount.shown} (${low} … ${high})`);
}
const by = ({ before, after }: Pair): string => (before?.kind === after?.kind ? 'limits' : 'another kind');
const named = ({ name, how }: Pair): string => cell(how === 'figure' ? name : `${name} ${how}`);

/** The comparison as a markdown page; `from` and `to` are how the two are called. */
export function comparisonPage(c: Comparison, from: string, to: string): string {
  const lines = [`# ${cell(from)} and ${cell(to)}`, ''];
  const table = (title: string, head: readonly string[], rows: readonly (readonly string[])[]): void => {
    if (rows.length === 0) return;
    lines.push(`## ${title}`, '', `| ${head.join(' | ')} |`, `|${' --- |'.repeat(head.length)}`);
    for (const row of rows) lines.push(`| ${row.join(' | ')} |`);
    lines.push('');
  };
  const ends = [cell(from), cell(to)];
  table(
    'The job',
    ['', ...ends],
    c.fields.map(({ name, before, after }) => [cell(name), cell(before ?? ''), cell(after ?? '')]),
  );
  table(
    'Different',
    ['figure', ...ends, 'by'],
    c.differ.map((pair) =>
      pair.change === null
        ? [named(pair), withEnds(pair.before), withEnds(pair.after), by(pair)]
        : [named(pair), written(pair.before), written(pair.after), pair.change],
    ),
  );
  table(
    `Only in ${ends[0] ?? ''}`,
    ['figure', 'value'],
    c.onlyBefore.map((pair) => [named(pair), written(pair.before)]),
  );
  table(
    `Only in ${ends[1] ?? ''}`,
    ['figure', 'value'],
    c.onlyAfter.map((pair) => [named(pair), written(pair.after)]),
  );
  table(
    'Findings that are new',
    ['finding'],
    c.newFindings.map((words) => [cell(words)]),
  );
  table(
    'Findings that are gone',
    ['finding'],
    c.goneFindings.map((words) => [cell(words)]),
  );
  const { length } = c.same;
  const figures = length === 0 ? 'No figure is' : length === 1 ? 'One figure is' : `${length} figures are`;
  lines.push(`${figures} the same in both.`, '');
  return lines.join('\n');
}
