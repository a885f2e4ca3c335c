/** What a name stands for, and whether two values are the same. */
import type { List, Quantity, RecordValue, Text, Value } from '../quantity/value';
import type { Entry } from './graph';
import { recordOf } from './readings';

/**
 * The value of a name: its figure; else the mean of its last readings (a measured sample); else its card. Null when it
 * has one that failed or waits; undefined when nothing gives it anything.
 */
export function entryValue(entry: Entry): Value | null | undefined {
  if (entry.hasFigure) return entry.figureValue;
  const sample = entry.records ? recordOf(entry, 'mean') : null;
  if (sample) return sample;
  if (entry.card) return entry.card.value;
  if (entry.job) return entry.job;
  return undefined;
}

/** The value a record path such as `setup.ring` stands for; null when it has none. */
export function pathValue(entry: Entry, fields: readonly string[]): Value | null {
  return partOf(entryValue(entry) ?? null, fields);
}

/** The field that a path leads to from a record; the value itself where the path has no fields. */
export function partOf(value: Value | null, fields: readonly string[]): Value | null {
  return fields.reduce<Value | null>(
    (part, field) => (part?.kind === 'record' ? (part.fields.get(field) ?? null) : null),
    value,
  );
}

function sameQuantity(a: Quantity, b: Quantity): boolean {
  if (a.value !== b.value || a.dimension !== b.dimension || a.unit !== b.unit) return false;
  const [s, t] = [a.spread, b.spread];
  if (s === null || t === null) return s === t;
  return (
    s.length === t.length &&
    s.every((reach, i) => {
      const other = t[i];
      return (
        other?.input === reach.input &&
        other.inside === reach.inside &&
        other.at.length === reach.at.length &&
        other.at.every((x, k) => x === reach.at[k]) &&
        (reach.along ?? []).every((place, k) => place === other.along?.[k])
      );
    })
  );
}

function samePart(a: Quantity | List | Text, b: Quantity | List | Text | undefined): boolean {
  if (a.kind === 'number') return b?.kind === 'number' && sameQuantity(a, b);
  if (a.kind === 'text') return b?.kind === 'text' && a.text === b.text;
  return (
    b?.kind === 'list' &&
    a.items.length === b.items.length &&
    a.items.every((item, i) => {
      const other = b.items[i];
      return other !== undefined && sameQuantity(item, other);
    })
  );
}

/** What differs between two values of one name: nothing (false), some fields of a record, or everything (true). */
export function difference(before: Value | null, after: Value | null): boolean | ReadonlySet<string> {
  if (before === after) return false;
  if (before === null || after === null || before.kind !== after.kind) return true;
  if (before.kind !== 'record' || after.kind !== 'record')
    return !samePart(before as Quantity, after as Quantity);
  if (before.of !== after.of) return true;
  return changedFields(before, after);
}

function changedFields(before: RecordValue, after: RecordValue): false | ReadonlySet<string> {
  const changed = new Set<string>();
  for (const [field, value] of before.fields)
    if (!samePart(value, after.fields.get(field))) changed.add(field);
  for (const field of after.fields.keys()) if (!before.fields.has(field)) changed.add(field);
  return changed.size === 0 ? false : changed;
}
