/** Calls formulas with plain numbers, without the notation and the engine. */
import { readFileSync } from 'node:fs';
import { STARTER_CARDS } from '../../src/engine/starter-cards';
import { LENGTH, NUMBER, TURN_RATE } from '../../src/quantity/dimension';
import { ONE, toBase } from '../../src/quantity/unit';
import { unit as unitNamed } from '../../src/quantity/units';
import type { CardView, List, Quantity } from '../../src/quantity/value';
import { formulaNamed } from '../../src/trade';
import {
  type Answer,
  type Formula,
  type Given,
  type Outcome,
  type Refusal,
  isRefusal,
} from '../../src/trade/formula';

export type Arguments = Readonly<Record<string, number | string | CardView | readonly number[]>>;

export function given(args: Arguments): Given {
  const map = new Map(Object.entries(args));
  const get = <T>(name: string, fits: (x: unknown) => x is T): T => {
    const value = map.get(name);
    if (!fits(value)) throw new Error(`no ${name} given`);
    return value;
  };
  const number = (name: string): number => get(name, (x) => typeof x === 'number');
  return {
    number,
    numberOr: (name, otherwise) => (map.has(name) ? number(name) : otherwise),
    has: (name) => map.has(name),
    list: (name) => get(name, (x): x is readonly number[] => Array.isArray(x)),
    code: (name) => get(name, (x) => typeof x === 'string'),
    card: (name) => get(name, (x): x is CardView => typeof x === 'object' && !Array.isArray(x)),
  };
}

function plain(value: number, dimension = NUMBER): Quantity {
  return { kind: 'number', value, dimension, unit: ONE, spread: null };
}

export function card(name: string, fields: Readonly<Record<string, number | readonly number[]>>): CardView {
  const made = Object.entries(fields).map(([key, value]): [string, Quantity | List] => {
    const dimension = key.includes('speed')
      ? TURN_RATE
      : /_per_turn$|_backlash$|^lead_screw$/.test(key)
        ? LENGTH
        : NUMBER;
    if (typeof value === 'number') return [key, plain(value, dimension)];
    return [key, { kind: 'list', items: value.map((item) => plain(item, dimension)) }];
  });
  return { name, word: 'machine', fields: new Map(made) };
}

/** The cards of the reference shop, read by a pattern that knows only their plain lines. */
export const SHOP: ReadonlyMap<string, CardView> = new Map(
  [
    ...readFileSync(new URL('../data/shop.md', import.meta.url), 'utf8').matchAll(
      /```machine (\w+)\n([^`]*)```/g,
    ),
  ].map(([, name = '', lines = '']) => {
    const fields = [...lines.matchAll(/(\w+) = \[?([\d., ]+)\]? ?(in)?/g)].map(
      ([, key = '', figures = '', inch]) => {
        const numbers = figures.split(',').map((figure) => Number(figure) * (inch ? 25.4 : 1));
        return [key, numbers.length > 1 ? numbers : (numbers[0] ?? 0)] as const;
      },
    );
    const texts = [...lines.matchAll(/^(\w+): (.+)$/gm)].map(
      ([, key = '', text = '']) => [key, { kind: 'text', text }] as const,
    );
    const made = card(name, Object.fromEntries(fields));
    return [name, { ...made, fields: new Map([...made.fields, ...texts]) }] as const;
  }),
);

/** A material card with these fields, each a number and its unit. */
export function materialCard(
  name: string,
  fields: Readonly<Record<string, readonly [number, string]>>,
): CardView {
  const made = Object.entries(fields).map(([key, [value, symbol]]): [string, Quantity] => {
    const own = unitNamed(symbol);
    return [key, plain(toBase(value, own), own.dimension)];
  });
  return { name, word: 'material', fields: new Map(made) };
}

/** The built-in material cards, read by a pattern that knows only their lines of figures. */
const STARTERS: ReadonlyMap<string, CardView> = new Map(
  [...STARTER_CARDS.matchAll(/```material (\w+)\n([^`]*)```/g)].map(([, name = '', lines = '']) => {
    const fields = [...lines.matchAll(/^(\w+) = ([\d.]+) ?(.*)$/gm)].map(
      ([, key = '', value, symbol = '']) => [key, [Number(value), symbol] as const] as const,
    );
    return [name, materialCard(name, Object.fromEntries(fields))] as const;
  }),
);

/** What one unit of a worked check is in the usual unit of the parameters, by symbol. */
const FACTORS: Readonly<Record<string, number>> = { in: 25.4, 'ft/min': 0.3048, '': 1 };

function numberOf(text: string): number {
  const match = /^(-?[\d.]+)(?:\/(\d+))?(?:°(?:(\d+)′)?(?:(\d+)″)?)?\s*(.*)$/.exec(text);
  if (!match) throw new Error(`cannot read ${text}`);
  const [, above = '', below = '1', minutes = '0', seconds = '0', unit = ''] = match;
  const value = Number(above) / Number(below) + Number(minutes) / 60 + Number(seconds) / 3600;
  return value * (FACTORS[unit] ?? 1);
}

/** The formula and arguments of a worked check's call. */
export function callOf(text: string): { formula: Formula; args: Arguments } {
  const [, name = '', inside = ''] = /^(\w+)\((.*)\)$/.exec(text) ?? [];
  const formula = formulaNamed(name);
  if (!formula) throw new Error(`no formula ${name}`);
  const args = inside.split(/,\s*(?![^[]*\])/).map((part, index): [string, Arguments[string]] => {
    const [, label, value = ''] = /^(?:([a-z]\w*):\s*)?(.*)$/.exec(part) ?? [];
    const parameter = formula.parameters.find((p, i) => (label ? p.name === label : i === index));
    if (!parameter) throw new Error(`${text}: no parameter for ${part}`);
    const read = {
      quantity: numberOf,
      list: listOf,
      word: String,
      count: numberOf,
      code: String,
      machine: cardNamed,
      material: cardNamed,
    };
    return [parameter.name, read[parameter.kind](value)];
  });
  return { formula, args: Object.fromEntries(args) };
}

/** `[12.1, 40.2] mm`, as each of its items with the unit behind. */
function listOf(text: string): readonly number[] {
  const [, items = '', unit = ''] = /^\[(.*)\]\s*(.*)$/.exec(text) ?? [];
  return items.split(/,\s*/).map((item) => numberOf(`${item} ${unit}`.trim()));
}

function cardNamed(name: string): CardView {
  const found = SHOP.get(name) ?? STARTERS.get(name);
  if (!found) throw new Error(`no card ${name}`);
  return found;
}

/** Findings of the conditions, then the answer. */
export function broken(formula: Formula, args: Arguments, severity: 'error' | 'warning' = 'error'): string[] {
  const g = given(args);
  return formula.conditions.filter((c) => c.severity === severity && !c.holds(g)).map((c) => c.says(g));
}

export function answer(name: string, args: Arguments): Readonly<Record<string, Outcome>> {
  const formula = formulaNamed(name);
  if (!formula) throw new Error(`no formula ${name}`);
  const errors = broken(formula, args);
  if (errors.length > 0) throw new Error(errors.join(' '));
  const result: Answer | Refusal = formula.compute(given(args));
  if (isRefusal(result)) throw new Error(result.refused);
  return typeof result === 'object' ? result : { '': result };
}

export function number(name: string, args: Arguments, field = ''): number {
  const value = answer(name, args)[field];
  if (typeof value !== 'number') throw new Error(`${name} has no number ${field}`);
  return value;
}

export function list(name: string, args: Arguments, field: string): readonly number[] {
  const value = answer(name, args)[field];
  if (typeof value !== 'object') throw new Error(`${name} has no list ${field}`);
  return value;
}

/** What conditions of this severity say of a call of the notation. */
export function says(call: string, severity: 'error' | 'warning' = 'error'): string[] {
  const { formula, args } = callOf(call);
  return broken(formula, args, severity);
}

/** Why a call of the notation has no answer; empty where it has one. */
export function refusedCall(call: string): string {
  const { formula, args } = callOf(call);
  const result = formula.compute(given(args));
  return typeof result === 'object' && isRefusal(result) ? result.refused : '';
}
