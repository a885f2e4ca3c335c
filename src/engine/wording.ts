/** Values in a few words, as lines, hints and hovers say them. */
import { quantity } from '../quantity/arithmetic';
import { degreesMinutesSeconds, show, showValue, shownText, usualDecimals } from '../quantity/display';
import { type Unit, fromBase, toBase, unitOf } from '../quantity/unit';
import { otherSystem } from '../quantity/units';
import type { Quantity, Value } from '../quantity/value';

/** A figure with its unit as the notation reads it back, with this many digits more than usual. */
export function shown(q: Quantity, extra = 0): string {
  return extra === 0 ? show(q) : show(q, { decimals: usualDecimals(q) + extra });
}

export function shownIn(q: Quantity, unit: Unit, extra = 0): string {
  return shown({ ...q, unit }, extra);
}

export function valueText(value: Value): string {
  return showValue(value);
}

/** The same in the other unit system and, for an angle, in degrees, minutes and seconds. */
export function otherWays(q: Quantity): readonly string[] {
  const other = otherSystem(q.unit);
  const texts = other ? [shownIn(q, other)] : [];
  const dms = degreesMinutesSeconds(q);
  return dms === null ? texts : [...texts, dms];
}

/** A difference between two quantities of one kind: of two temperatures it is no temperature. */
export function differenceOf({ unit }: Pick<Quantity, 'unit'>, base: number): Quantity {
  const scale = unit.parts[0]?.unit.difference;
  return quantity(base, (scale && unitOf([{ unit: scale, exponent: 1 }])) ?? unit);
}

/** The number of a quantity without its unit: `0.05`. The sign of an angle stays, since it is read with the number. */
export function bare(q: Quantity, extra = 0): string {
  if (q.unit.symbol === 'deg') return shown(q, extra);
  return extra === 0 ? shownText(q) : shownText(q, { decimals: usualDecimals(q) + extra });
}

/** Digits beyond the usual ones at which the wider side of limits about a value begins to show. */
function extraFor(q: Quantity, low: number, high: number): number {
  const widest = Math.max(Math.abs(high - q.value), Math.abs(q.value - low)) / q.unit.factor;
  const usual = usualDecimals(q);
  for (let extra = 0; extra < MOST_EXTRA; extra++)
    if (widest === 0 || rounded(widest, usual + extra) > 0) return extra;
  return MOST_EXTRA;
}

const MOST_EXTRA = 9;

export function rounded(amount: number, decimals: number): number {
  return Number(amount.toFixed(Math.min(decimals, 20)));
}

/**
 * Limits about a value as a drawing writes them: `±0.05`, `+0.02/−0.01`, `0/−0.021`. `low` and `high` in base units.
 * Both sides have the value's own digits, more only where neither side would show.
 */
export function deviations(q: Quantity, low: number, high: number): string {
  const decimals = usualDecimals(q) + extraFor(q, low, high);
  const side = (base: number): string => {
    const part = differenceOf(q, Math.abs(base));
    const amount = rounded(fromBase(part.value, part.unit), decimals);
    if (amount === 0) return '0';
    const text = shownText({ ...part, value: toBase(amount, part.unit) }, { decimals });
    return `${text}${q.unit.symbol === 'deg' ? '°' : ''}`;
  };
  const [upper, lower] = [side(high - q.value), side(low - q.value)];
  const signed = (base: number, text: string): string =>
    text === '0' ? '0' : `${base < 0 ? '−' : '+'}${text}`;
  if (upper === lower && high >= q.value && low <= q.value) return `±${upper}`;
  return `${signed(high - q.value, upper)}/${signed(low - q.value, lower)}`;
}

/** Both limits of a size: `11.95 … 12.05 mm`. */
export function limitsOfSize(q: Quantity, low: number, high: number): string {
  const extra = extraFor(q, low, high);
  const end = (value: number): Quantity => ({ ...q, value, spread: null });
  return `${bare(end(low), extra)} … ${shown(end(high), extra)}`;
}

/** Two quantities of one kind side by side, both in the first's unit, with digits enough to tell them apart. */
export function pair(left: Quantity, right: Quantity): readonly [string, string] {
  const same = { ...right, unit: left.unit };
  for (let extra = 0; ; extra++) {
    const texts = [shown(left, extra), shown(same, extra)] as const;
    if (texts[0] !== texts[1] || left.value === right.value || extra === MOST_EXTRA) return texts;
  }
}

/** Words as the beginning of a sentence. */
export function capital(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}
