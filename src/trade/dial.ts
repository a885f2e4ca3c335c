/** The dial of a screw, as a machine card tells it. */
import { type Dimension, LENGTH, NUMBER } from '../quantity/dimension';
import type { CardView, Quantity } from '../quantity/value';

export interface Dial {
  /** What a turn of the screw changes, in mm. */
  readonly perTurn: number;
  readonly divisions: number;
}

/** Whether a field of a card holds a figure above zero of this dimension. */
export function isPositive(
  field: ReturnType<CardView['fields']['get']>,
  dimension: Dimension,
): field is Quantity {
  return field?.kind === 'number' && field.dimension === dimension && field.value > 0;
}

/** The dial that these two fields of a card tell; null where either is missing or no figure above zero. */
export function dialOn(card: CardView, turnField: string, divisionsField: string): Dial | null {
  const [perTurn, divisions] = [card.fields.get(turnField), card.fields.get(divisionsField)];
  return isPositive(perTurn, LENGTH) && isPositive(divisions, NUMBER)
    ? { perTurn: perTurn.value, divisions: divisions.value }
    : null;
}
