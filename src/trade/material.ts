/** What formulas read from a material card. */
import type { Unit } from '../quantity/unit';
import { fromBase } from '../quantity/unit';
import { unit } from '../quantity/units';
import type { CardView } from '../quantity/value';
import type { Parameter, Refusal } from './formula';

/** Binary rounding of a unit is not shown in a working: so many digits are kept. */
const DIGITS = 12;

/** A material card that holds these fields. */
export function material(fields: string): Parameter {
  return { name: 'material', kind: 'material', unit: '', meaning: `material card with ${fields}` };
}

/** The card's field in this unit; null where the card lacks it or holds something else there. */
export function cardNumber(card: CardView, name: string, symbol: string): number | null {
  const [value, own]: [ReturnType<CardView['fields']['get']>, Unit] = [card.fields.get(name), unit(symbol)];
  if (value?.kind !== 'number' || value.dimension !== own.dimension) return null;
  return Number(fromBase(value.value, own).toPrecision(DIGITS));
}

/** The refusal of a card that lacks a field; `line` is what to write on it. */
export function lacksOnCard(card: CardView, line: string): Refusal {
  return {
    refused: `The card of \`${card.name}\` needs ${line}, from the tables of your tool maker or your own tests.`,
    parameter: 'material',
  };
}
