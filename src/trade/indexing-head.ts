/** A dividing head as its card tells it, and the moves of its crank. Whole numbers throughout, so exact. */
import { NUMBER } from '../quantity/dimension';
import type { CardView, List, Quantity, Text } from '../quantity/value';
import type { Parameter, Refusal } from './formula';

export const HEAD: Parameter = {
  name: 'head',
  kind: 'machine',
  unit: '',
  meaning:
    'machine card of the dividing head: `ratio`, turns of the crank for one of the work, and `plates`, its hole circles',
};

export const DIVISIONS: Parameter = {
  name: 'divisions',
  kind: 'count',
  unit: '',
  meaning: 'equal parts of a full turn',
};

/** No dividing head, plate or gear goes beyond; keeps the search for other numbers short. */
export const MOST = 1000;

export interface Head {
  readonly ratio: number;
  /** Hole circles, the smallest first, each once. */
  readonly circles: readonly number[];
}

type CardField = Quantity | List | Text | undefined;

function isWhole(x: CardField): x is Quantity {
  return (
    x?.kind === 'number' &&
    x.dimension === NUMBER &&
    Number.isInteger(x.value) &&
    x.value >= 1 &&
    x.value <= MOST
  );
}

/** The whole numbers of a field in the order written; null when it is missing or holds anything else. */
export function wholeNumbers(field: CardField): readonly number[] | null {
  if (field?.kind !== 'list' || field.items.length === 0 || !field.items.every(isWhole)) return null;
  return field.items.map(({ value }) => value);
}

export function headOf(card: CardView): Head | Refusal {
  const [ratio, circles] = [card.fields.get('ratio'), wholeNumbers(card.fields.get('plates'))];
  if (!isWhole(ratio)) return lacks(card, `a whole \`ratio\` from 1 to ${MOST}, such as \`ratio = 40\``);
  if (!circles)
    return lacks(
      card,
      `\`plates\` with whole numbers of holes up to ${MOST}, such as \`plates = [15, 16, 17, 18, 19, 20]\``,
    );
  return { ratio: ratio.value, circles: [...new Set(circles)].sort((a, b) => a - b) };
}

export const lacks = (card: CardView, what: string): Refusal => ({
  refused: `The card of \`${card.name}\` needs ${what}.`,
  parameter: 'head',
});

/** A move of the crank: whole turns, and holes on a circle. */
export interface Move {
  readonly circle: number;
  readonly turns: number;
  readonly holes: number;
}

/** A number of holes on a circle as turns and holes. */
export function move(circle: number, total: number): Move {
  return { circle, turns: Math.floor(total / circle), holes: total % circle };
}

/** All circles that divide exactly, the smallest first. */
export function exact(divisions: number, { ratio, circles }: Head): readonly Move[] {
  return circles
    .filter((circle) => (ratio * circle) % divisions === 0)
    .map((circle) => move(circle, (ratio * circle) / divisions));
}

export function divisor(a: number, b: number): number {
  return b === 0 ? a : divisor(b, a % b);
}

/** Every number of divisions that this head indexes plainly. */
export function plainNumbers({ ratio, circles }: Head): ReadonlySet<number> {
  const works = new Set<number>();
  for (const circle of circles) {
    const all = ratio * circle;
    for (let n = 1; n * n <= all; n++) if (all % n === 0) works.add(n).add(all / n);
  }
  return works;
}

/** The nearest numbers of divisions below and above that this head does index. */
export function neighbours(divisions: number, head: Head): readonly number[] {
  const works = [...plainNumbers(head)];
  const below = Math.max(...works.filter((n) => n < divisions));
  const above = Math.min(...works.filter((n) => n > divisions));
  return [below, above].filter(Number.isFinite);
}

export const turns = (count: number): string => (count === 1 ? '1 turn' : `${count} turns`);
export const holes = (count: number): string => (count === 1 ? '1 hole' : `${count} holes`);

/** `5 turns + 15 holes on 21`. */
export function words({ circle, turns: count, holes: rest }: Move): string {
  const part = `${holes(rest)} on ${circle}`;
  return count === 0 ? part : `${turns(count)} + ${part}`;
}

/** Why these divisions do not index plainly, with the nearest that do; `parameter` is the argument to change. */
export function none(divisions: number, head: Head, name: string, parameter = 'divisions'): Refusal {
  const near = neighbours(divisions, head);
  const needed = divisions / divisor(head.ratio, divisions);
  return {
    refused:
      `No circle of \`${name}\` indexes ${divisions} divisions plainly: it takes ${needed} holes or a multiple of that. ` +
      `Nearest that do: ${near.join(' and ')}.`,
    parameter,
    offers: near.map(String),
    code: 'no-plain-indexing',
  };
}
