/** The moves of a job that takes two counts for each division, as a list to tick off. */
import { field, firstItems, listed, numbered } from './build';
import type { Formula } from './formula';
import { type Compound, solve } from './indexing-compound';
import { DIVISIONS, HEAD } from './indexing-head';
import { READABLE } from './indexing-moves';

/** Where a pin stands on its circle after so many moves; a move back comes round from the top. */
const stands = (count: number, of: number, circle: number): number =>
  (((count * of) % circle) + circle) % circle;

function endCheck(divisions: number, { first, firstCircle, second, secondCircle }: Compound): string {
  const hole = (at: number): string => (at === 0 ? 'hole 0, where it began' : `hole ${at}`);
  return (
    `after cut ${divisions} make both moves once more: the crank's pin must drop into ` +
    `${hole(stands(divisions, first, firstCircle))}, and the pin behind the plate into ` +
    `${hole(stands(divisions, second, secondCircle))}; if one does not, a move was miscounted`
  );
}

const compoundMoves: Formula = {
  name: 'compound_moves',
  family: 'indexing',
  title: 'List of moves for compound indexing, cut by cut',
  parameters: [DIVISIONS, HEAD],
  result: [
    numbered('cuts', 'number of the cut'),
    listed('crank_hole', '', "hole that the crank's pin stands in for this cut, counted from the first as 0"),
    listed(
      'plate_hole',
      '',
      'hole that the pin behind the plate stands in, counted from the first as 0 in the order the plate brings them when it ' +
        'turns forward',
    ),
    { ...field('crank_circle', '', "hole circle of the crank's pin"), choice: true },
    { ...field('plate_circle', '', 'hole circle of the pin that holds the plate'), choice: true },
    { ...field('end_check', '', 'the check at the end'), words: true },
  ],
  compute: (given) => {
    const [solved, divisions] = [solve(given), given.number('divisions')];
    if ('refused' in solved) return solved;
    const { first, firstCircle, second, secondCircle } = solved.found;
    const cuts = Array.from({ length: divisions }, (_, cut) => cut);
    return {
      cuts: cuts.map((cut) => cut + 1),
      crank_hole: cuts.map((cut) => stands(cut, first, firstCircle)),
      plate_hole: cuts.map((cut) => stands(cut, second, secondCircle)),
      crank_circle: firstCircle,
      plate_circle: secondCircle,
      end_check: endCheck(divisions, solved.found),
    };
  },
  working: (given) => {
    const [solved, divisions] = [solve(given), given.number('divisions')];
    if ('refused' in solved) return [];
    const { first, firstCircle, second, secondCircle } = solved.found;
    const at = (item: (cut: number) => string): string => firstItems(divisions, item);
    const beyond = (moved: string, circle: string) => (cut: number) =>
      `${cut} * ${moved} - round_down(${cut} * ${moved} / ${circle}, 1) * ${circle}`;
    return [
      { name: 'crank_circle', expression: String(firstCircle), words: "the crank's circle" },
      { name: 'plate_circle', expression: String(secondCircle), words: 'the circle of the pin behind' },
      { name: 'crank_move', expression: String(first), words: 'holes of one move by the crank' },
      {
        name: 'plate_move',
        expression: String(second),
        words: 'spaces of one move by crank and plate together',
      },
      { name: 'cuts', expression: at((cut) => String(cut + 1)), words: 'cut by cut' },
      {
        name: 'crank_hole',
        expression: at(beyond('crank_move', 'crank_circle')),
        words: "the crank's moves so far, beyond whole turns",
      },
      {
        name: 'plate_hole',
        expression: at(beyond('plate_move', 'plate_circle')),
        words: "the plate's moves so far, beyond whole turns",
      },
    ];
  },
  why:
    'Two counts to a division give two chances to slip, and a slip in one is hidden by the other until the last tooth does ' +
    'not fit. With both circles numbered, each cut can be checked before it is made: the crank in its hole, the pin behind ' +
    'in its own.',
  conditions: [READABLE],
  source: 'exact arithmetic; common practice of dividing-head work',
  cautions: ['indexing', 'compound'],
  picture: null,
  checks: [
    {
      call: 'compound_moves(7, head)',
      expect: {
        cuts: [1, 2, 3, 4, 5, 6, 7],
        crank_hole: [0, 8, 16, 3, 11, 19, 6],
        plate_hole: [0, 9, 18, 0, 9, 18, 0],
        crank_circle: 21,
        plate_circle: 27,
      },
      tolerance: 1e-9,
      source:
        '5 turns and 8 holes of 21, and 9 spaces of 27, added up by hand, seven times; together 40/7 of a turn',
    },
    {
      call: 'compound_moves(9, head)',
      expect: {
        crank_hole: [0, 5, 10, 0, 5, 10, 0, 5, 10],
        plate_hole: [0, 2, 4, 6, 8, 10, 12, 14, 16],
        crank_circle: 15,
        plate_circle: 18,
      },
      tolerance: 1e-9,
      source:
        '4 turns and 5 holes of 15, and 2 spaces of 18, added up by hand, nine times; together 40/9 of a turn',
    },
  ],
};

export const COMPOUND_MOVES_FORMULAS: readonly Formula[] = [compoundMoves];
