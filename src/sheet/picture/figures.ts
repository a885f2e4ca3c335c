/** What a picture is drawn from: the arguments of a call and what it came to, as plain numbers and as they are shown. */
import type { Quantity, Value } from '../../quantity/value';

export interface Figures {
  readonly arguments: ReadonlyMap<string, unknown>;
  readonly value: Value;
  readonly show: (q: Quantity) => string;
}

export interface Amount {
  /** In mm, degrees or plain, as base units are. */
  readonly value: number;
  readonly shown: string;
}

export function isQuantity(x: unknown): x is Quantity {
  return (x as { readonly kind?: unknown } | null | undefined)?.kind === 'number';
}

export function field(value: Value, name: string): Value | null {
  return value.kind === 'record' ? (value.fields.get(name) ?? null) : null;
}

/** What may be left out of a call is nothing. */
const LEFT_OUT: Amount = { value: 0, shown: '' };

/** The numbers of the arguments and fields. */
export function amounts<A extends string, R extends string>(
  figures: Figures,
  given: readonly A[],
  results: readonly R[],
): Readonly<Record<A | R, Amount>> {
  const amount = (found: unknown): Amount =>
    isQuantity(found) ? { value: found.value, shown: figures.show(found) } : LEFT_OUT;
  return Object.fromEntries([
    ...given.map((name) => [name, amount(figures.arguments.get(name))]),
    ...results.map((name) => [name, amount(field(figures.value, name))]),
  ]) as Readonly<Record<A | R, Amount>>;
}

/** The items of a list field. */
export function items({ value }: Figures, name: string): readonly Quantity[] {
  const found = field(value, name);
  return found?.kind === 'list' ? found.items : [];
}

/** The items of a list that was given. */
export function givenItems(figures: Figures, name: string): readonly Quantity[] {
  return (figures.arguments.get(name) as { readonly items?: readonly Quantity[] } | undefined)?.items ?? [];
}
