/** Compound indexing: one move by the crank, a second by crank and plate together, on two circles of one plate. */
import type { CardView } from '../quantity/value';
import { field } from './build';
import type { Formula, Given, Refusal } from './formula';
import { differential, plainly } from './indexing-differential';
import { gearsOf } from './indexing-gears';
import {
  DIVISIONS,
  HEAD,
  type Head,
  divisor,
  headOf,
  lacks,
  move,
  turns,
  wholeNumbers,
} from './indexing-head';

/** More circles than a plate has room for; keeps the search for pairs short. */
const MOST_CIRCLES = 30;

/** The head's circles, plate by plate. */
function platesOf(card: CardView): readonly (readonly number[])[] | Refusal {
  const circles = wholeNumbers(card.fields.get('plates')) ?? [];
  const counts = wholeNumbers(card.fields.get('circles_per_plate')) ?? [];
  const total = counts.reduce((a, b) => a + b, 0);
  if (total !== circles.length || Math.max(...counts) > MOST_CIRCLES)
    return lacks(
      card,
      `\`circles_per_plate\`, how many of its ${circles.length} circles each plate carries in the order of \`plates\`, at most ` +
        `${MOST_CIRCLES} on one: such as \`circles_per_plate = [6, 6, 6]\`. Both circles must be on one plate`,
    );
  let from = 0;
  return counts.map((count) => circles.slice(from, (from += count)));
}

/** Holes on the crank's circle, and spaces on the other; negative spaces are turned back. */
export interface Compound {
  readonly first: number;
  readonly firstCircle: number;
  readonly second: number;
  readonly secondCircle: number;
}

/** Forward before back, since backlash then stays taken up; then the fewest spaces in all; then the fewest by the plate. */
function better(a: Compound, b: Compound | null): boolean {
  if (b === null) return true;
  const rank = ({ first, second }: Compound): readonly number[] => [
    second < 0 ? 1 : 0,
    first + Math.abs(second),
    Math.abs(second),
  ];
  const [mine, theirs] = [rank(a), rank(b)];
  const differs = mine.findIndex((x, i) => x !== theirs[i]);
  return (mine[differs] ?? 0) < (theirs[differs] ?? 0);
}

/** The best pair of circles on one plate whose moves add up exactly; null if there is none. */
export function compound(
  divisions: number,
  { ratio }: Head,
  plates: readonly (readonly number[])[],
): Compound | null {
  let best: Compound | null = null;
  for (const plate of plates)
    for (const firstCircle of plate)
      for (const secondCircle of plate) {
        // Two part turns on these circles are whole parts of a turn of both together.
        const both = ratio * firstCircle * secondCircle;
        if (firstCircle === secondCircle || both % divisions !== 0) continue;
        for (let second = 1 - secondCircle; second < secondCircle; second++) {
          const above = firstCircle * (ratio * secondCircle - second * divisions);
          const first = above / (divisions * secondCircle);
          if (second === 0 || first <= 0 || !Number.isInteger(first)) continue;
          const found = { first, firstCircle, second, secondCircle };
          if (better(found, best)) best = found;
        }
      }
  return best;
}

export function solve(given: Given): { readonly head: Head; readonly found: Compound } | Refusal {
  const [card, divisions] = [given.card('head'), given.number('divisions')];
  const head = headOf(card);
  if ('refused' in head) return head;
  const plates = platesOf(card);
  if ('refused' in plates) return plates;
  const found = compound(divisions, head, plates);
  if (found) return { head, found };
  return {
    refused:
      `No two circles on one plate of \`${card.name}\` make ${divisions} divisions exactly: together they must hold a ` +
      `multiple of ${divisions / divisor(head.ratio, divisions)} holes in their common measure. ` +
      'See whether differential_indexing has gears for it.',
    parameter: 'divisions',
  };
}

/** What would do the same with less to count. */
function simpler(given: Given, head: Head): string {
  const divisions = given.number('divisions');
  const plain = plainly(divisions, head);
  if (plain !== 'none') return plain;
  const gears = gearsOf(given.card('head'));
  const geared = 'refused' in gears ? null : differential(divisions, head, gears);
  return geared ? `differential indexing does it, moved as for ${geared.substitute}` : 'none';
}

const compoundIndexing: Formula = {
  name: 'compound_indexing',
  family: 'indexing',
  title: 'Two moves on two circles of one plate for divisions that no circle makes',
  parameters: [DIVISIONS, HEAD],
  result: [
    field('first_turns', '', 'whole turns of the crank, the plate held'),
    field('first_holes', '', 'holes beyond them'),
    { ...field('first_circle', '', "hole circle of the crank's pin"), choice: true },
    field(
      'second_holes',
      '',
      'spaces to turn crank and plate together, counted at the pin that holds the plate; negative: back',
    ),
    { ...field('second_circle', '', 'hole circle of the pin that holds the plate'), choice: true },
    { ...field('simpler', '', 'a simpler way to the same divisions'), words: true },
  ],
  compute: (given) => {
    const solved = solve(given);
    if ('refused' in solved) return solved;
    const { first, firstCircle, second, secondCircle } = solved.found;
    const crank = move(firstCircle, first);
    return {
      first_turns: crank.turns,
      first_holes: crank.holes,
      first_circle: firstCircle,
      second_holes: second,
      second_circle: secondCircle,
      simpler: simpler(given, solved.head),
    };
  },
  working: (given) => {
    const solved = solve(given);
    if ('refused' in solved) return [];
    const { ratio } = solved.head;
    const { firstCircle, second, secondCircle } = solved.found;
    return [
      {
        name: 'crank',
        expression: `${ratio} / divisions`,
        words: `${turns(ratio)} for the whole work, shared out`,
      },
      {
        name: 'second_circle',
        expression: String(secondCircle),
        words: 'a circle for the pin that holds the plate',
      },
      { name: 'second_holes', expression: String(second), words: 'spaces on it that leave a rest which' },
      {
        name: 'first_circle',
        expression: String(firstCircle),
        words: 'another circle of the same plate makes in whole holes',
      },
      {
        name: 'first_total',
        expression: '(crank - second_holes / second_circle) * first_circle',
        words: 'that rest, in holes',
      },
      {
        name: 'first_turns',
        expression: 'round_down(round(first_total, 1) / first_circle, 1)',
        words: 'the whole turns of it',
      },
      {
        name: 'first_holes',
        expression: 'first_total - first_turns * first_circle',
        words: 'the holes beyond them',
      },
    ];
  },
  why:
    'Two part turns on different circles can add up to one that no circle has: a third and a quarter make seven ' +
    'twelfths. First the crank is moved on its circle with the plate held from behind; then the pin behind is drawn and ' +
    'crank and plate are turned on together. Every division needs two counts, so slips are easy: take it only where ' +
    'plain and differential indexing fail, and write each move down.',
  conditions: [],
  source: 'exact arithmetic: the two part turns add up to the ratio over the divisions',
  cautions: ['indexing', 'compound'],
  picture: null,
  checks: [
    {
      call: 'compound_indexing(77, head)',
      expect: {
        first_turns: 0,
        first_holes: 9,
        first_circle: 21,
        second_holes: 3,
        second_circle: 33,
        simpler: 'differential indexing does it, moved as for 80',
      },
      tolerance: 1e-9,
      source: 'every pair of circles tried with exact fractions',
    },
    {
      call: 'compound_indexing(87, head)',
      expect: { first_holes: 14, first_circle: 21, second_holes: -6, second_circle: 29 },
      tolerance: 1e-9,
      source: 'every pair of circles tried with exact fractions',
    },
  ],
};

export const COMPOUND_FORMULAS: readonly Formula[] = [compoundIndexing];
