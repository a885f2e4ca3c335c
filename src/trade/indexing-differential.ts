/** Differential indexing: the spindle turns the plate through change gears while the crank is moved. */
import type { CardView } from '../quantity/value';
import { field, listed, optional, shown } from './build';
import type { Formula, Given, Parameter, Refusal } from './formula';
import { type Train, compoundTrain, gearsOf, pairsOf, simpleTrain, trainRatio } from './indexing-gears';
import {
  DIVISIONS,
  HEAD,
  type Head,
  type Move,
  divisor,
  exact,
  headOf,
  none,
  plainNumbers,
  turns,
  words,
} from './indexing-head';

const NEAR: Parameter = {
  name: 'near_number',
  kind: 'count',
  unit: '',
  meaning: 'number near it to index in its place, where you want another than the one found',
};

/** Number indexed in its place, the move for that, and the gears that make up the difference. */
export interface Differential {
  readonly substitute: number;
  readonly move: Move;
  readonly train: Train;
}

/** The ratio of the gears, drivers over driven, in lowest terms. */
function ratioOf(divisions: number, substitute: number, { ratio }: Head): readonly [number, number] {
  const above = ratio * Math.abs(substitute - divisions);
  const common = divisor(above, substitute);
  return [above / common, substitute / common];
}

/**
 * The nearest number that indexes plainly and whose gears are there, with a simple train before a compound one, and
 * above before below at the same distance, since the plate then turns with the crank.
 */
function search(
  divisions: number,
  head: Head,
  gears: readonly number[],
  candidates: readonly number[],
): Differential | null {
  const pairs = pairsOf(gears);
  const trains = [simpleTrain, (above: number, below: number) => compoundTrain(above, below, gears, pairs)];
  for (const train of trains)
    for (const substitute of candidates) {
      const found = train(...ratioOf(divisions, substitute, head), gears);
      const [move] = exact(substitute, head);
      if (found && move) return { substitute, move, train: found };
    }
  return null;
}

/** The differential set-up for these divisions with this head; null where the gears of its set do not reach. */
export function differential(divisions: number, head: Head, gears: readonly number[]): Differential | null {
  const away = (n: number): number => Math.abs(n - divisions);
  const candidates = [...plainNumbers(head)]
    .filter((n) => n !== divisions)
    .sort((a, b) => away(a) - away(b) || b - a);
  return search(divisions, head, gears, candidates);
}

/** The set-up for these arguments; a refusal where the card lacks something or its gears do not reach. */
export function differentialOf(given: Given): (Differential & { readonly head: Head }) | Refusal {
  const [card, divisions] = [given.card('head'), given.number('divisions')];
  const head = headOf(card);
  if ('refused' in head) return head;
  const gears = gearsOf(card);
  if ('refused' in gears) return gears;
  const best = differential(divisions, head, gears);
  if (!given.has('near_number')) return best ? { ...best, head } : noGears(divisions, card);
  const near = given.number('near_number');
  if (near === divisions) return same(divisions, best);
  if (exact(near, head).length === 0) return none(near, head, card.name, 'near_number');
  const found = search(divisions, head, gears, [near]);
  return found ? { ...found, head } : noTrain(divisions, near, head, card, best);
}

const noGears = (divisions: number, card: CardView): Refusal => ({
  refused:
    `The gears of \`${card.name}\` make no train for ${divisions} divisions with any number near it: add gears to its ` +
    'card if you have more, or look at compound_indexing.',
  parameter: 'divisions',
});

const instead = (best: Differential | null): string => (best ? `: give ${best.substitute}` : '');
const offers = (best: Differential | null): readonly string[] => (best ? [String(best.substitute)] : []);

const same = (divisions: number, best: Differential | null): Refusal => ({
  refused: `The number to index in the place of ${divisions} must be another one${instead(best)}.`,
  parameter: 'near_number',
  offers: offers(best),
});

function noTrain(
  divisions: number,
  near: number,
  head: Head,
  card: CardView,
  best: Differential | null,
): Refusal {
  return {
    refused:
      `With ${near} the gears must be as ${ratioOf(divisions, near, head).join(' to ')}, and the set of \`${card.name}\` ` +
      `makes no such train${instead(best)}.`,
    parameter: 'near_number',
    offers: offers(best),
  };
}

/** Idlers that usual heads need for the plate to turn the right way: one between a pair, none for two pairs. */
function idlers({ substitute, train }: Differential, divisions: number): number {
  const opposite = substitute > divisions ? 0 : 1;
  return opposite + (train.drivers.length === 1 ? 1 : 0);
}

/** What plain indexing offers for the same divisions. */
export function plainly(divisions: number, head: Head): string {
  const [first] = exact(divisions, head);
  return first ? `plain indexing does it: ${words(first)}` : 'none';
}

const differentialIndexing: Formula = {
  name: 'differential_indexing',
  family: 'indexing',
  title: 'Moves and change gears for divisions that no circle makes',
  parameters: [DIVISIONS, HEAD, optional(NEAR)],
  result: [
    {
      ...field(
        'substitute',
        '',
        'number of divisions that the crank is moved for, in the place of the one asked',
      ),
      choice: true,
    },
    field('turns', '', 'whole turns of the crank for each division'),
    field('holes', '', 'holes beyond the whole turns'),
    { ...field('circle', '', 'hole circle, the smallest that serves'), choice: true },
    field('sector_holes', '', "holes between the sector arms, counting the pin's own"),
    listed('drivers', '', 'driving gears, the first on the spindle'),
    listed('driven', '', 'driven gears, the last on the shaft that turns the plate'),
    field('train', '', 'turns of the plate for one of the spindle'),
    field('idlers', '', 'idlers that usual heads need for the direction: try it'),
    { ...field('plate', '', 'which way the plate must turn'), words: true },
    { ...field('simpler', '', 'a simpler way to the same divisions'), words: true },
  ],
  compute: (given) => {
    const [found, divisions] = [differentialOf(given), given.number('divisions')];
    if ('refused' in found) return found;
    return {
      substitute: found.substitute,
      turns: found.move.turns,
      holes: found.move.holes,
      circle: found.move.circle,
      sector_holes: found.move.holes + 1,
      drivers: found.train.drivers,
      driven: found.train.driven,
      train: trainRatio(found.train),
      idlers: idlers(found, divisions),
      plate: found.substitute > divisions ? 'with the crank' : 'against the crank',
      simpler: plainly(divisions, found.head),
    };
  },
  working: (given) => {
    const found = differentialOf(given);
    if ('refused' in found) return [];
    const { ratio } = found.head;
    const [above, below] = ratioOf(given.number('divisions'), found.substitute, found.head);
    return [
      {
        name: 'substitute',
        expression: String(found.substitute),
        words: 'a number near it that a circle makes and whose gears are in the set',
      },
      { name: 'crank', expression: `${ratio} / substitute`, words: `${turns(ratio)} shared out among those` },
      { name: 'turns', expression: 'round_down(crank, 1)', words: 'the whole turns' },
      {
        name: 'circle',
        expression: String(found.move.circle),
        words: 'the smallest circle on which the rest comes to whole holes',
      },
      { name: 'holes', expression: '(crank - turns) * circle', words: 'the rest, in holes of that circle' },
      { name: 'sector_holes', expression: 'holes + 1', words: 'with the hole the pin stands in' },
      {
        name: 'train',
        expression: `abs(${ratio} - divisions * ${ratio} / substitute)`,
        words: `what the moves of a whole turn of the work have too few or too many, made up by the plate: ${shown(above, '')} to ${shown(below, '')}`,
      },
      {
        name: 'drivers',
        expression: `[${found.train.drivers.join(', ')}]`,
        words: 'gears of the set, driving',
      },
      {
        name: 'driven',
        expression: `[${found.train.driven.join(', ')}]`,
        words: 'gears of the set, driven: the products stand to each other as the train asks',
      },
      {
        name: 'idlers',
        expression: String(idlers(found, given.number('divisions'))),
        words: 'each idler turns the direction round and changes nothing else',
      },
    ];
  },
  why:
    'The crank is moved as for a number near by, which would make the spaces a little too wide or too narrow. Gears from ' +
    'the spindle turn the plate meanwhile, with the crank or against it, by just what is missing, so every space comes ' +
    'out exact. The lock of the plate must be out, and the spindle must stand level: its gears leave no room for a tilt ' +
    'or for a spiral. Heads are built differently: turn the work round once by hand and see that the plate goes the way ' +
    'it says; if not, put in or take out one idler.',
  conditions: [],
  source:
    'exact arithmetic: divisions times ratio over the near number, and the plate, make the ratio; idlers as on usual ' +
    'heads, common practice, from memory',
  cautions: ['indexing', 'differential'],
  picture: null,
  checks: [
    {
      call: 'differential_indexing(57, head)',
      expect: {
        substitute: 56,
        turns: 0,
        holes: 15,
        circle: 21,
        sector_holes: 16,
        drivers: [40],
        driven: [56],
        train: 0.714285714286,
        idlers: 2,
        plate: 'against the crank',
        simpler: 'none',
      },
      tolerance: 1e-9,
      source: 'brute force over the gear set with exact fractions',
    },
    {
      call: 'differential_indexing(53, head, near_number: 56)',
      expect: { holes: 15, circle: 21, train: 2.14285714286, idlers: 0, plate: 'with the crank' },
      tolerance: 1e-9,
      source: 'brute force over the gear set with exact fractions: 15 to 7, compound',
    },
    {
      call: 'differential_indexing(127, head, near_number: 120)',
      expect: { holes: 5, circle: 15, drivers: [56], driven: [24], train: 2.33333333333, idlers: 2 },
      tolerance: 1e-9,
      source: 'brute force over the gear set with exact fractions: 7 to 3',
    },
    {
      call: 'differential_indexing(7, head)',
      expect: { simpler: 'plain indexing does it: 5 turns + 15 holes on 21' },
      tolerance: 0,
      source: 'every hole of every circle tried with exact fractions',
    },
  ],
};

export const DIFFERENTIAL_FORMULAS: readonly Formula[] = [differentialIndexing];
