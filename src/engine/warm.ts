/** Readings taken warm: `25.01 mm at 32 °C`. Limits are for 20 °C (ISO 1), so they are judged at the size they have there. */
import { LENGTH, TEMPERATURE, dimension } from '../quantity/dimension';
import type { Quantity } from '../quantity/value';
import type { Statement } from '../notation/syntax';
import type { Card } from './cards';

/** 20 °C in base units. */
export const REFERENCE = 293.15;
const PER_KELVIN = dimension({ temperature: -1 });

type Readings = Statement & { kind: 'reading' };

/** Whether any of the line's readings was taken at a temperature. */
export function isWarm(statement: Statement): statement is Readings {
  return (
    statement.kind === 'reading' && statement.readings.some(({ at }) => at?.unit.dimension === TEMPERATURE)
  );
}

/** Growth per kelvin of the material; null where no card has it. */
function expansionOf(card: Card | null): number | null {
  const field = card?.fields.get('expansion');
  return field?.kind === 'number' && field.dimension === PER_KELVIN ? field.value : null;
}

/**
 * The readings as they would be at 20 °C, or where the first is that cannot be brought there for want of an expansion.
 * Those with a place or nothing behind them stay as they are, and so does what is no length.
 */
export function atReference(
  { readings: written }: Readings,
  readings: readonly Quantity[],
  card: Card | null,
): { readonly readings: readonly Quantity[]; readonly unknown: number } {
  const expansion = expansionOf(card);
  let unknown = -1;
  const sizes = readings.map((reading, i) => {
    const at = written[i]?.at;
    if (at?.unit.dimension !== TEMPERATURE || reading.dimension !== LENGTH || at.value === REFERENCE)
      return reading;
    if (expansion !== null)
      return { ...reading, value: reading.value / (1 + expansion * (at.value - REFERENCE)) };
    if (unknown < 0) unknown = i;
    return reading;
  });
  return { readings: sizes, unknown };
}
