/** Trains of change gears for an exact ratio, from the gears of a set only, each used no more often than it is there. */
import type { CardView } from '../quantity/value';
import type { Refusal } from './formula';
import { lacks, wholeNumbers } from './indexing-head';

/** More gears than any set holds; keeps the search for pairs short. */
const MOST_GEARS = 40;

/** Gears on the driving and on the driven side: one each, or two each for a compound train. */
export interface Train {
  readonly drivers: readonly number[];
  readonly driven: readonly number[];
}

const product = (gears: readonly number[]): number => gears.reduce((a, b) => a * b, 1);

/** Teeth of the drivers by teeth of the driven gears. */
export const trainRatio = ({ drivers, driven }: Train): number => product(drivers) / product(driven);

/** The gears of the head's set, the smallest first, those there twice named twice. */
export function gearsOf(card: CardView): readonly number[] | Refusal {
  const gears = wholeNumbers(card.fields.get('gears'));
  if (!gears || gears.length > MOST_GEARS)
    return lacks(
      card,
      `\`gears\` with the teeth of its change gears, at most ${MOST_GEARS} of them, one that is there twice named twice: ` +
        'such as `gears = [24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100]`',
    );
  return [...gears].sort((a, b) => a - b);
}

const count = (gears: readonly number[], gear: number): number => gears.filter((g) => g === gear).length;

/** Whether the set holds all of these at once. */
export const holds = (set: readonly number[], wanted: readonly number[]): boolean =>
  wanted.every((gear) => count(wanted, gear) <= count(set, gear));

/** One driver and one driven gear whose quotient is `above` over `below`, the smallest driver first; null if none. */
export function simpleTrain(above: number, below: number, gears: readonly number[]): Train | null {
  for (const driver of gears) {
    const driven = (driver * below) / above;
    if (holds(gears, [driver, driven])) return { drivers: [driver], driven: [driven] };
  }
  return null;
}

type Pair = readonly [number, number];

/** All pairs of different gears of a set, by the product of their teeth. */
export function pairsOf(gears: readonly number[]): ReadonlyMap<number, readonly Pair[]> {
  const pairs = new Map<number, Pair[]>();
  gears.forEach((a, i) => {
    for (const b of gears.slice(i + 1)) {
      const known = pairs.get(a * b);
      if (known) known.push([a, b]);
      else pairs.set(a * b, [[a, b]]);
    }
  });
  return pairs;
}

/** Two drivers and two driven gears whose products have the quotient `above` over `below`; null if none. */
export function compoundTrain(
  above: number,
  below: number,
  gears: readonly number[],
  pairs: ReadonlyMap<number, readonly Pair[]>,
): Train | null {
  for (const [product, candidates] of pairs) {
    const partners = pairs.get((product * below) / above) ?? [];
    for (const drivers of candidates)
      for (const driven of partners) if (holds(gears, [...drivers, ...driven])) return { drivers, driven };
  }
  return null;
}
