/** A call's arguments, as a formula takes them. */
import { type Unit, fromBase } from '../quantity/unit';
import { unit as unitNamed } from '../quantity/units';
import type { CardView, List, Quantity } from '../quantity/value';
import type { Formula, Given } from '../trade/formula';

export type Bound = Quantity | List | string | CardView;
export type Arguments = ReadonlyMap<string, Bound>;

/** Of codes and cards, neither has a kind. */
export function isKind<K extends 'number' | 'list'>(
  value: Bound | undefined,
  kind: K,
): value is Extract<Bound, { kind: K }> {
  return (value as { readonly kind?: string } | undefined)?.kind === kind;
}

/** Arguments as a formula takes them. `moved` replaces the nominal of some, in base units. */
export class GivenArguments implements Given {
  constructor(
    private readonly formula: Formula,
    private readonly bound: Arguments,
    private readonly moved: ReadonlyMap<string, number> | null = null,
  ) {}

  number(name: string): number {
    const value = this.bound.get(name);
    if (!isKind(value, 'number')) throw new Error(`${this.formula.name} has no number ${name}`);
    return fromBase(this.moved?.get(name) ?? value.value, parameterUnit(this.formula, name));
  }
  numberOr(name: string, otherwise: number): number {
    return this.bound.has(name) ? this.number(name) : otherwise;
  }
  has(name: string): boolean {
    return this.bound.has(name);
  }
  list(name: string): readonly number[] {
    const value = this.bound.get(name);
    if (!isKind(value, 'list')) throw new Error(`${this.formula.name} has no list ${name}`);
    const unit = parameterUnit(this.formula, name);
    return value.items.map((item, i) => fromBase(this.moved?.get(itemName(name, i)) ?? item.value, unit));
  }
  code(name: string): string {
    const value = this.bound.get(name);
    if (typeof value !== 'string') throw new Error(`${this.formula.name} has no code ${name}`);
    return value;
  }
  card(name: string): CardView {
    const value = this.bound.get(name);
    if (typeof value !== 'object' || 'kind' in value)
      throw new Error(`${this.formula.name} has no card ${name}`);
    return value;
  }
}

/** What an item of a list is moved by; no parameter is called so. */
export function itemName(name: string, index: number): string {
  return `${name}.${index}`;
}

const units = new WeakMap<Formula, Map<string, Unit>>();

/** The unit in which a formula takes this parameter. */
export function parameterUnit(formula: Formula, name: string): Unit {
  let known = units.get(formula);
  if (!known)
    units.set(formula, (known = new Map(formula.parameters.map((p) => [p.name, unitNamed(p.unit)]))));
  return known.get(name) ?? unitNamed('');
}
