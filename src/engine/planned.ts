/** What a path of the notation names: a figure, or a field of a record. */
import type { Quantity, Value } from '../quantity/value';
import type { QuantityNode } from '../notation/syntax';
import { inOrder } from './readings';
import type { Sheet } from './sheet';
import { partOf } from './values';

const number = (value: Value | null): Quantity | null => (value?.kind === 'number' ? value : null);

/** The planned figure or record field that a reading or a used value belongs to. */
export function planned(sheet: Sheet, [name = '', ...fields]: readonly string[]): Quantity | null {
  return number(partOf(sheet.figure(name)?.value ?? null, fields));
}

/** What `setup.ring` or `ball` comes to now, a measured sample too. */
export function valueNow(sheet: Sheet, path: string): Quantity | null {
  const [name = '', ...fields] = path.split('.');
  return number(partOf(sheet.valueOf(name), fields));
}

/** What was read or used of `setup.ring` or `ball`, as it stands in the lines, in the order of the note. */
export function recordedOf(sheet: Sheet, path: string): readonly QuantityNode[] {
  const records = sheet.entry(path)?.records;
  if (!records) return [];
  return inOrder(records).flatMap(({ statement }) => {
    if (statement.kind === 'used') return [statement.value];
    return statement.kind === 'reading' ? statement.readings.map(({ value }) => value) : [];
  });
}
