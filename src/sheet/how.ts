/** How results are shown: on the screen beside the note, on paper at the machine, to somebody who is to find them. */
import type { Row } from '../engine/index';
import type { Value } from '../quantity/value';
import { inSystem, otherSystem } from '../quantity/units';
import { show } from '../quantity/display';

export interface How {
  /** `own` leaves each figure in its line's unit. */
  readonly units: 'own' | 'mm' | 'in' | 'both';
  /** Hidden answers leave a blank to fill in, and are folded away under it. */
  readonly answers: 'shown' | 'hidden';
  readonly workings: boolean;
  /** A job sheet: boxes to tick, nothing folded that is to be read at the machine. */
  readonly paper: boolean;
}

export const PREVIEW: How = { units: 'own', answers: 'shown', workings: false, paper: false };

/** The value in the units asked for. */
export function inUnits<T extends Value>(value: T, { units }: How): T {
  if (units === 'own' || units === 'both') return value;
  if (value.kind === 'number') return { ...value, unit: inSystem(value.unit, units) };
  if (value.kind === 'list')
    return { ...value, items: value.items.map((item) => ({ ...item, unit: inSystem(item.unit, units) })) };
  return value;
}

/** The same in the other half of the trade's units, where both are asked for. */
export function beside(value: Value, { units }: How): string | null {
  if (units !== 'both' || value.kind !== 'number') return null;
  const other = otherSystem(value.unit);
  return other ? show({ ...value, unit: other }) : null;
}

/** Whether a line has an answer for somebody else to find. A size that is written down is none. */
export function isKeptBack({ statement, value, check }: Row, { answers }: How): boolean {
  if (answers !== 'hidden' || (value === null && check === null)) return false;
  return statement.kind !== 'figure' || statement.expression.kind !== 'quantity';
}
