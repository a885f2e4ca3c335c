/**
 * A sheet as plain data for other programs: the note's entry in what `scribeline check --json` prints. Lines and
 * columns count from 1 here, columns are UTF-16 units, ends exclusive. No key is ever absent, no number is NaN.
 * What each key holds is told in `schema/check.schema.json` of the command line.
 */
import type { Finding, Row, Sheet } from '../engine/index';
import type { Severity } from '../quantity/finding';
import { band } from '../quantity/limits';
import type { Unit } from '../quantity/unit';
import { fromBase } from '../quantity/unit';
import { siFactor } from '../quantity/units';
import type { FaultData, Quantity, Value } from '../quantity/value';
import { code, shown } from './words';

export interface NoteReport {
  readonly file: string;
  readonly job: Readonly<Record<string, string>>;
  readonly values: readonly ValueEntry[];
  readonly checks: readonly CheckEntry[];
  readonly readings: readonly ReadingEntry[];
  readonly used: readonly UsedEntry[];
  readonly findings: readonly FindingEntry[];
}

/** Of a list one limit per item, where any of them has limits. */
type Limit = number | readonly (number | null)[] | null;

export interface ValueEntry {
  readonly name: string | null;
  /** Null for a line that has no value. */
  readonly kind: 'number' | 'list' | 'text' | null;
  readonly line: number;
  readonly value: number | string | readonly (number | null)[] | null;
  readonly unit: string | null;
  readonly si: number | readonly (number | null)[] | null;
  readonly shown: string | null;
  readonly low: Limit;
  readonly high: Limit;
  readonly rssLow: Limit;
  readonly rssHigh: Limit;
  readonly askedLow: number | null;
  readonly askedHigh: number | null;
}

export interface CheckEntry {
  readonly line: number;
  readonly text: string;
  readonly holds: boolean | null;
  readonly left: number | null;
  readonly right: number | null;
  readonly unit: string | null;
  readonly comment: string | null;
}

export interface ReadingEntry {
  readonly name: string;
  readonly kind: 'measured' | 'final';
  readonly line: number;
  readonly values: readonly (number | null)[];
  readonly unit: string | null;
  readonly inside: boolean | null;
  readonly left: number | null;
}

export interface UsedEntry {
  readonly name: string;
  readonly line: number;
  readonly value: number | null;
  readonly unit: string | null;
  readonly comment: string | null;
}

export interface PlaceEntry {
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
  readonly message: string;
}

export interface RelatedEntry extends PlaceEntry {
  readonly file: string;
}

export interface FindingEntry extends PlaceEntry {
  readonly code: string;
  readonly severity: Severity;
  readonly data: FaultData;
  readonly related: readonly RelatedEntry[];
}

/** `file` is how the note is named; `nameOf` names the shop files that findings point into. */
export function report(
  sheet: Sheet,
  file: string,
  nameOf: (file: string) => string = (it) => it,
): NoteReport {
  const rows = sheet.rows().filter((row) => row.block.word === 'figures');
  return {
    file,
    job: Object.fromEntries(sheet.job()),
    values: rows.flatMap(valuesOf),
    checks: rows.flatMap(checkOf),
    readings: rows.flatMap(readingOf),
    used: rows.flatMap(usedOf),
    findings: sheet.findings().map((finding) => findingOf(finding, file, nameOf)),
  };
}

const NOTHING = { value: null, unit: null, si: null, shown: null };
type Limits = Pick<ValueEntry, 'low' | 'high' | 'rssLow' | 'rssHigh' | 'askedLow' | 'askedHigh'>;
const NO_LIMITS: Limits = {
  low: null,
  high: null,
  rssLow: null,
  rssHigh: null,
  askedLow: null,
  askedHigh: null,
};

function valuesOf(row: Row): readonly ValueEntry[] {
  const { statement, value } = row;
  if (statement.kind !== 'figure' && statement.kind !== 'show') return [];
  const name = statement.kind === 'figure' ? statement.name.text : null;
  const line = row.line + 1;
  if (value === null) return [{ name, kind: null, line, ...NOTHING, ...NO_LIMITS }];
  // The order of the keys is that of the schema.
  if (value.kind !== 'record') return [{ name, kind: value.kind, line, ...amounts(value, row) }];
  return [...value.fields].map(([field, part]) => ({
    name: name === null ? null : `${name}.${field}`,
    kind: part.kind,
    line,
    ...amounts(part, null),
  }));
}

type Amounts = Omit<ValueEntry, 'name' | 'kind' | 'line'>;

function amounts(value: Exclude<Value, { kind: 'record' }>, row: Row | null): Amounts {
  switch (value.kind) {
    case 'text':
      return { ...NOTHING, value: value.text, shown: value.text, ...NO_LIMITS };
    case 'list': {
      const unit = value.items[0]?.unit ?? null;
      return {
        value: value.items.map((item) => (unit ? amount(item.value, unit) : null)),
        unit: symbol(unit),
        si: value.items.some((item) => item.dimension.currency !== null) ? null : value.items.map(si),
        shown: shown(value),
        ...listLimits(value.items, unit),
      };
    }
    case 'number':
      return {
        value: amount(value.value, value.unit),
        unit: symbol(value.unit),
        si: si(value),
        shown: shown(value),
        ...limitsOf(value, row),
      };
  }
}

function limitsOf(value: Quantity, row: Row | null): Limits {
  const resulting = band(value);
  const asked = row?.asked;
  // What there is none of is no number.
  const of = (base = NaN): number | null => amount(base, value.unit);
  return {
    low: of(asked?.low ?? resulting?.low),
    high: of(asked?.high ?? resulting?.high),
    rssLow: of(asked?.low ?? resulting?.rssLow),
    rssHigh: of(asked?.high ?? resulting?.rssHigh),
    askedLow: of(asked?.low),
    askedHigh: of(asked?.high),
  };
}

function listLimits(items: readonly Quantity[], unit: Unit | null): Limits {
  const bands = items.map(band);
  if (unit === null || bands.every((it) => it === null)) return NO_LIMITS;
  const each = (key: 'low' | 'high' | 'rssLow' | 'rssHigh'): readonly (number | null)[] =>
    items.map(({ value }, i) => amount(bands[i]?.[key] ?? value, unit));
  return {
    ...NO_LIMITS,
    low: each('low'),
    high: each('high'),
    rssLow: each('rssLow'),
    rssHigh: each('rssHigh'),
  };
}

function checkOf({ statement, check, line, text }: Row): readonly CheckEntry[] {
  if (statement.kind !== 'check') return [];
  return [
    {
      line: line + 1,
      text: code(text),
      holds: check && check.holds,
      left: check && amount(check.left.value, check.left.unit),
      right: check && amount(check.right.value, check.left.unit),
      unit: check && symbol(check.left.unit),
      comment: statement.comment?.text ?? null,
    },
  ];
}

function readingOf({ statement, reading, line }: Row): readonly ReadingEntry[] {
  if (statement.kind !== 'reading') return [];
  // As the line itself says it: one that could not be judged is still what was measured.
  const quantities = statement.readings.map((it) => it.value);
  const unit = quantities[0]?.unit ?? null;
  return [
    {
      name: statement.path.names.join('.'),
      kind: statement.how,
      line: line + 1,
      values: quantities.map((q) => (unit?.dimension === q.unit.dimension ? amount(q.value, unit) : null)),
      unit: symbol(unit),
      inside: reading?.inside ?? null,
      // A difference, so a temperature scale's zero has no part in it.
      left: finite((reading?.left ?? NaN) / (unit?.factor ?? 1)),
    },
  ];
}

function usedOf({ statement, line }: Row): readonly UsedEntry[] {
  if (statement.kind !== 'used') return [];
  const { value, unit } = statement.value;
  return [
    {
      name: statement.path.names.join('.'),
      line: line + 1,
      value: amount(value, unit),
      unit: symbol(unit),
      comment: statement.comment?.text ?? null,
    },
  ];
}

function findingOf(finding: Finding, note: string, nameOf: (file: string) => string): FindingEntry {
  const { code, severity, message, data } = finding;
  return {
    code,
    severity,
    ...placeOf(finding),
    message,
    data,
    related: finding.related.map((related) => ({
      file: related.file === null ? note : nameOf(related.file),
      ...placeOf(related),
      message: related.message,
    })),
  };
}

function placeOf(place: {
  line: number;
  column: number;
  endLine: number;
  endColumn: number;
}): Omit<PlaceEntry, 'message'> {
  return {
    line: place.line + 1,
    column: place.column + 1,
    endLine: place.endLine + 1,
    endColumn: place.endColumn + 1,
  };
}

function si(q: Quantity): number | null {
  const factor = siFactor(q.dimension);
  return factor === null ? null : finite(q.value * factor);
}

function amount(base: number, unit: Unit): number | null {
  return finite(fromBase(base, unit));
}

function finite(x: number): number | null {
  return Number.isFinite(x) ? x : null;
}

/** Null for a plain number: it has no unit. */
function symbol(unit: Unit | null): string | null {
  return unit === null || unit.symbol === '' ? null : unit.symbol;
}
