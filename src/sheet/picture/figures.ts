/** What a picture is drawn from: the arguments of a call and what it came to, as plain numbers and as they are shown. */
import type { CallNode } from '../../notation/syntax';
import type { Sheet } from '../../engine/index';
import { fromBase } from '../../quantity/unit';
import { unitFrom } from '../../quantity/unit-lookup';
import type { Quantity, Value } from '../../quantity/value';
import { showValue } from '../../quantity/display';

export interface Figures {
  readonly formula: string;
  readonly arguments: ReadonlyMap<string, unknown>;
  readonly value: Value;
  readonly show: (q: Quantity) => string;
}

export interface Amount {
  /** In mm, degrees or plain. */
  readonly value: number;
  readonly shown: string;
}

export function figuresOf(
  sheet: Sheet,
  node: CallNode,
  value: Value,
  show: (q: Quantity) => string = showValue,
): Figures | null {
  const call = sheet.call(node);
  return call && { formula: call.formula.name, arguments: call.arguments, value, show };
}

export function isQuantity(x: unknown): x is Quantity {
  return typeof x === 'object' && x !== null && 'kind' in x && x.kind === 'number';
}

export function field(value: Value, name: string): Value | null {
  return value.kind === 'record' ? (value.fields.get(name) ?? null) : null;
}

/** The numbers of the fields or arguments; null when one of them is none. */
export function amounts<A extends string, R extends string>(
  figures: Figures,
  given: readonly A[],
  results: readonly R[],
): Readonly<Record<A | R, Amount>> | null {
  const all = new Map<string, Amount>();
  const add = (name: string, found: unknown): void => {
    if (isQuantity(found)) all.set(name, { value: plain(found), shown: figures.show(found) });
  };
  for (const name of given) add(name, figures.arguments.get(name));
  for (const name of results) add(name, field(figures.value, name));
  if (all.size < given.length + results.length) return null;
  return Object.fromEntries(all) as Readonly<Record<A | R, Amount>>;
}

/** In degrees for an angle, else in base units: mm, or the number itself. */
export function plain(q: Quantity): number {
  const degree = unitFrom('deg');
  return degree && q.dimension === degree.dimension ? fromBase(q.value, degree) : q.value;
}

/** The items of a list field. */
export function items({ value }: Figures, name: string): readonly Quantity[] {
  const found = field(value, name);
  return found?.kind === 'list' ? found.items : [];
}

/** The items of a list that was given. */
export function givenItems(figures: Figures, name: string): readonly Quantity[] {
  const found = figures.arguments.get(name);
  const items: unknown = typeof found === 'object' && found !== null && 'items' in found ? found.items : null;
  return Array.isArray(items) ? items.filter(isQuantity) : [];
}
