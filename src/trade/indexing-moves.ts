/** The moves of a whole job at the dividing head, as a list to tick off. */
import { field, firstItems, listed, must, numbered } from './build';
import type { Formula, Given, Refusal } from './formula';
import { solve } from './indexing-compound';
import { differential } from './indexing-differential';
import { gearsOf } from './indexing-gears';
import { DIVISIONS, HEAD, type Head, type Move, exact, headOf, move, none, turns } from './indexing-head';

/** A longer list is no longer read at the machine. */
const MOST_MOVES = 400;

/** For lists of moves. */
export const READABLE = must(
  'divisions',
  `no more than ${MOST_MOVES} divisions`,
  (given) => given.number('divisions') <= MOST_MOVES,
  (given) =>
    `A list of ${given.number('divisions')} moves is no longer read at the machine: give ${MOST_MOVES} divisions or fewer.`,
);

interface Plan {
  readonly head: Head;
  readonly move: Move;
  readonly method: string;
}

/** Plainly where a circle does it, else differentially where the gears do. */
function plan(given: Given): Plan | Refusal {
  const [card, divisions] = [given.card('head'), given.number('divisions')];
  const head = headOf(card);
  if ('refused' in head) return head;
  const [plain] = exact(divisions, head);
  if (plain) return { head, move: plain, method: 'plain' };
  const gears = gearsOf(card);
  const geared = 'refused' in gears ? null : differential(divisions, head, gears);
  if (!geared) return withoutOneMove(given, none(divisions, head, card.name));
  const train = `${geared.train.drivers.join(' × ')} driving ${geared.train.driven.join(' × ')}`;
  return {
    head,
    move: geared.move,
    method: `differential, moved as for ${geared.substitute}, gears ${train}`,
  };
}

/** Where no single move does it, two may. */
function withoutOneMove(given: Given, refusal: Refusal): Refusal {
  if ('refused' in solve(given)) return refusal;
  return {
    ...refusal,
    refused: `${refusal.refused} Two moves for each division do it: see \`compound_moves\`.`,
  };
}

const total = ({ circle, turns: whole, holes }: Move): number => whole * circle + holes;

/** Where the pin stands after so many moves. */
const after = (count: number, of: Move): Move => move(of.circle, count * total(of));

function endCheck(divisions: number, end: Move): string {
  const there = end.holes === 0 ? 'hole 0, where it began' : `hole ${end.holes}`;
  return (
    `after cut ${divisions} make one move more: by then the crank has made ${turns(end.turns)} on the plate and the pin must drop into ` +
    `${there}; if it does not, a move was miscounted`
  );
}

const indexingMoves: Formula = {
  name: 'indexing_moves',
  family: 'indexing',
  title: 'List of moves for equal divisions, cut by cut',
  parameters: [DIVISIONS, HEAD],
  result: [
    numbered('cuts', 'number of the cut'),
    listed('whole_turns', '', 'whole turns of the crank since the first cut'),
    listed('hole', '', 'hole that the pin stands in for this cut, counted from the first as 0'),
    field('turns', '', 'whole turns of one move'),
    field('holes', '', 'holes of one move beyond them'),
    { ...field('circle', '', 'hole circle'), choice: true },
    field('end_turns', '', 'whole turns of the crank when the work is round'),
    field('end_hole', '', 'hole that the pin drops into when the work is round'),
    { ...field('method', '', 'plain, or differential with its gears'), words: true },
    { ...field('end_check', '', 'the check at the end'), words: true },
  ],
  compute: (given) => {
    const [found, divisions] = [plan(given), given.number('divisions')];
    if ('refused' in found) return found;
    const stands = Array.from({ length: divisions }, (_, cut) => after(cut, found.move));
    const end = after(divisions, found.move);
    return {
      cuts: stands.map((_, cut) => cut + 1),
      whole_turns: stands.map((at) => at.turns),
      hole: stands.map((at) => at.holes),
      turns: found.move.turns,
      holes: found.move.holes,
      circle: found.move.circle,
      end_turns: end.turns,
      end_hole: end.holes,
      method: found.method,
      end_check: endCheck(divisions, end),
    };
  },
  working: (given) => {
    const [found, divisions] = [plan(given), given.number('divisions')];
    if ('refused' in found) return [];
    const at = (item: (cut: number) => string): string => firstItems(divisions, item);
    return [
      { name: 'circle', expression: String(found.move.circle), words: `hole circle: ${found.method}` },
      { name: 'turns', expression: String(found.move.turns), words: 'whole turns of one move' },
      { name: 'holes', expression: String(found.move.holes), words: 'holes of one move' },
      { name: 'all_holes', expression: 'turns * circle + holes', words: 'one move in holes' },
      { name: 'cuts', expression: at((cut) => String(cut + 1)), words: 'cut by cut' },
      {
        name: 'whole_turns',
        expression: at((cut) => `round_down(${cut} * all_holes / circle, 1)`),
        words: 'the moves so far, in whole turns',
      },
      {
        name: 'hole',
        expression: at((cut) => `${cut} * all_holes - round_down(${cut} * all_holes / circle, 1) * circle`),
        words: 'and what they have beyond whole turns',
      },
      {
        name: 'end_turns',
        expression: 'round_down(divisions * all_holes / circle, 1)',
        words: 'all moves, in whole turns',
      },
      {
        name: 'end_hole',
        expression: 'divisions * all_holes - end_turns * circle',
        words: 'and the hole where the round ends',
      },
    ];
  },
  why:
    'Counting from the first hole tells at every cut where the pin must stand, so a slip shows at once and not only at ' +
    'the last tooth. Number the holes of the circle with a marker, or note every fifth. When the work has gone round, ' +
    'the pin must drop into the hole foreseen.',
  conditions: [READABLE],
  source: 'exact arithmetic; common practice of dividing-head work',
  cautions: ['indexing'],
  picture: 'hole_circle',
  checks: [
    {
      call: 'indexing_moves(7, head)',
      expect: {
        cuts: [1, 2, 3, 4, 5, 6, 7],
        whole_turns: [0, 5, 11, 17, 22, 28, 34],
        hole: [0, 15, 9, 3, 18, 12, 6],
        turns: 5,
        holes: 15,
        circle: 21,
        end_turns: 40,
        end_hole: 0,
        method: 'plain',
      },
      tolerance: 1e-9,
      source: '15 holes of 21 and 5 turns added up by hand, seven times',
    },
    {
      call: 'indexing_moves(13, head)',
      expect: {
        whole_turns: [0, 3, 6, 9, 12, 15, 18, 21, 24, 27, 30, 33, 36],
        hole: [0, 3, 6, 9, 12, 15, 18, 21, 24, 27, 30, 33, 36],
        circle: 39,
        end_turns: 40,
        end_hole: 0,
      },
      tolerance: 1e-9,
      source: '3 holes of 39 and 3 turns added up by hand, thirteen times',
    },
  ],
};

export const MOVES_FORMULAS: readonly Formula[] = [indexingMoves];
