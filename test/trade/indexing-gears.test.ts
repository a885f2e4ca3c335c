/** Differential and compound indexing, move lists and chords, by trying everything with whole numbers only. */
import { describe, expect, it } from 'vitest';
import { formulaNamed } from '../../src/trade';
import { type Answer, type Refusal, isRefusal } from '../../src/trade/formula';
import { type Arguments, answer, broken, card, given, list, materialCard, number, SHOP } from './given';

const GEARS = [24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100];
const SETS: Readonly<Record<string, readonly (readonly number[])[]>> = {
  set1: [
    [15, 16, 17, 18, 19, 20],
    [21, 23, 27, 29, 31, 33],
    [37, 39, 41, 43, 47, 49],
  ],
  set2: [
    [24, 25, 28, 30, 34, 37, 38, 39, 41, 42, 43],
    [46, 47, 49, 51, 53, 54, 57, 58, 59, 62, 66],
  ],
};

type Fields = Parameters<typeof card>[1];

const headWith = (plates: readonly (readonly number[])[], ratio: number, more: Fields = {}) =>
  card('head', {
    ratio,
    plates: plates.flat(),
    circles_per_plate: plates.map((plate) => plate.length),
    gears: GEARS,
    ...more,
  });

function run(name: string, args: Arguments): Answer | Refusal {
  const result = formulaNamed(name)?.compute(given(args));
  if (result === undefined) throw new Error(`no formula ${name}`);
  return result;
}

function refusal(name: string, args: Arguments): Refusal {
  const result = run(name, args);
  if (typeof result !== 'object' || !isRefusal(result)) throw new Error('answered');
  expect(formulaNamed(name)?.working(given(args))).toEqual([]);
  return result;
}

const common = (a: number, b: number): number => (b === 0 ? a : common(b, a % b));
const lowest = (above: number, below: number): string => {
  const by = common(above, below);
  return `${above / by}/${below / by}`;
};

/** Every ratio that different gears of the set make, by taking each gear of the box once. */
function ratios(gears: readonly number[]): { simple: ReadonlySet<string>; compound: ReadonlySet<string> } {
  const [simple, compound] = [new Set<string>(), new Set<string>()];
  gears.forEach((a, i) => {
    gears.forEach((b, j) => {
      if (i === j) return;
      simple.add(lowest(a, b));
      gears.forEach((c, k) => {
        if (k === i || k === j) return;
        gears.forEach((d, l) => {
          if (l === i || l === j || l === k) return;
          compound.add(lowest(a * c, b * d));
        });
      });
    });
  });
  return { simple, compound };
}

const { simple, compound } = ratios(GEARS);

interface Geared {
  readonly substitute: number;
  readonly turns: number;
  readonly holes: number;
  readonly circle: number;
  readonly sector_holes: number;
  readonly drivers: readonly number[];
  readonly driven: readonly number[];
  readonly train: number;
  readonly idlers: number;
  readonly plate: string;
  readonly simpler: string;
}

const times = (gears: readonly number[]): number => gears.reduce((a, b) => a * b, 1);

/** Which numbers a head indexes plainly, by trying. */
function plain(plates: readonly number[], ratio: number, most: number): readonly number[] {
  return Array.from({ length: most }, (_, i) => i + 1).filter((n) =>
    plates.some((circle) => (ratio * circle) % n === 0),
  );
}

/** The nearest number for which a way is in the set, above before below; null if there is none. */
function nearest(
  n: number,
  ratio: number,
  numbers: readonly number[],
  ways: ReadonlySet<string>,
): number | null {
  let best: number | null = null;
  for (const near of numbers) {
    if (near === n || !ways.has(lowest(ratio * Math.abs(near - n), near))) continue;
    if (best === null || Math.abs(near - n) <= Math.abs(best - n)) best = near;
  }
  return best;
}

const EACH = Object.keys(SETS).flatMap((set) => [40, 60, 90].map((ratio) => [set, ratio] as const));

describe.each(EACH)('on %s at %i:1', (set, ratio) => {
  const plates = SETS[set] ?? [];
  const head = headWith(plates, ratio);
  const numbers = plain(plates.flat(), ratio, 66 * 90);

  it('differential indexing is exact for 2 to 400, with gears that exist, and as near as any', () => {
    for (let divisions = 2; divisions <= 400; divisions++) {
      const result = run('differential_indexing', { divisions, head }) as unknown as Geared | Refusal;
      const near = nearest(divisions, ratio, numbers, simple) ?? nearest(divisions, ratio, numbers, compound);
      if ('refused' in result) {
        expect(near, `${divisions}`).toBeNull();
        expect(result.parameter).toBe('divisions');
        continue;
      }
      const { substitute, turns, holes, circle, drivers, driven } = result;
      expect(substitute, `${divisions}`).toBe(near);
      // Only gears that are in the box, and each as often as it is there.
      const box = [...GEARS];
      for (const gear of [...drivers, ...driven]) {
        const at = box.indexOf(gear);
        expect(at, `${gear} for ${divisions}`).toBeGreaterThanOrEqual(0);
        box.splice(at, 1);
      }
      expect(drivers.length).toBe(driven.length);
      expect(drivers.length).toBe(nearest(divisions, ratio, numbers, simple) === null ? 2 : 1);
      // The moves of one turn of the work, and the turns of the plate with its sign, make the ratio exactly.
      const sign = result.plate === 'with the crank' ? 1 : -1;
      const [above, below] = [times(drivers), times(driven)];
      expect(divisions * (turns * circle + holes) * below + sign * above * circle).toBe(
        ratio * circle * below,
      );
      expect(substitute * (turns * circle + holes)).toBe(ratio * circle);
      expect(result.train).toBeCloseTo(above / below, 12);
      expect(result.sector_holes).toBe(holes + 1);
      expect(sign).toBe(substitute > divisions ? 1 : -1);
      const idlers = drivers.length === 1 ? { '1': 1, '-1': 2 } : { '1': 0, '-1': 1 };
      expect(result.idlers).toBe(idlers[sign === 1 ? '1' : '-1']);
      const plainly = plates.flat().some((c) => (ratio * c) % divisions === 0);
      expect(result.simpler === 'none').toBe(!plainly);
    }
  });

  it('a crank and a plate that is geared to the spindle do turn the work by one division', () => {
    for (let divisions = 2; divisions <= 400; divisions++) {
      const result = run('differential_indexing', { divisions, head }) as unknown as Geared | Refusal;
      if ('refused' in result) continue;
      const gear =
        ((result.plate === 'with the crank' ? 1 : -1) * times(result.drivers)) / times(result.driven);
      const moved = result.turns + result.holes / result.circle;
      // The plate follows the work and the work the crank: go round until nothing changes any more.
      let work = 0;
      for (let i = 0; i < 400; i++) work = (moved + gear * work) / ratio;
      expect(Math.abs(work * divisions - 1), `${divisions}`).toBeLessThan(1e-9);
    }
  });

  it('compound indexing is exact for 2 to 400 wherever two circles of one plate do it', () => {
    for (let divisions = 2; divisions <= 400; divisions++) {
      const ways = compounds(divisions, ratio, plates);
      const result = run('compound_indexing', { divisions, head }) as unknown as Compounded | Refusal;
      if ('refused' in result) {
        expect(ways, `${divisions}`).toEqual([]);
        continue;
      }
      const { first_circle: a, second_circle: b } = result;
      const first = result.first_turns * a + result.first_holes;
      expect(result.first_holes).toBeLessThan(a);
      expect(divisions * (first * b + result.second_holes * a)).toBe(ratio * a * b);
      expect(plates.some((plate) => plate.includes(a) && plate.includes(b) && a !== b)).toBe(true);
      // Forwards wherever that is possible, and then with the fewest spaces.
      const forwards = ways.filter(([, , second]) => second > 0);
      const rivals = forwards.length > 0 ? forwards : ways;
      expect(result.second_holes > 0).toBe(forwards.length > 0);
      const fewest = Math.min(...rivals.map(([n, , m]) => n + Math.abs(m)));
      expect(first + Math.abs(result.second_holes)).toBe(fewest);
    }
  });

  it('the list of compound moves follows both pins, hole by hole', () => {
    for (let divisions = 2; divisions <= 400; divisions++) {
      const moves = run('compound_moves', { divisions, head }) as unknown as CompoundMoves | Refusal;
      const one = run('compound_indexing', { divisions, head }) as unknown as Compounded | Refusal;
      if ('refused' in moves || 'refused' in one) {
        expect(moves).toEqual(one);
        continue;
      }
      expect(moves.cuts).toEqual(Array.from({ length: divisions }, (_, i) => i + 1));
      expect([moves.crank_circle, moves.plate_circle]).toEqual([one.first_circle, one.second_circle]);
      let [crank, plate] = [0, 0];
      const stood: number[][] = [];
      for (let cut = 0; cut < divisions; cut++) {
        stood.push([crank, plate]);
        const holes = one.first_turns * one.first_circle + one.first_holes;
        for (let step = 0; step < holes; step++) if (++crank === one.first_circle) crank = 0;
        for (let step = 0; step < one.second_holes; step++) if (++plate === one.second_circle) plate = 0;
        for (let step = 0; step > one.second_holes; step--) if (--plate < 0) plate += one.second_circle;
      }
      expect(moves.crank_hole.map((hole, i) => [hole, moves.plate_hole[i]])).toEqual(stood);
      const words = (hole: number): string => (hole === 0 ? 'hole 0, where it began' : `hole ${hole}`);
      expect(moves.end_check).toContain(`must drop into ${words(crank)}, and`);
      expect(moves.end_check).toContain(`behind the plate into ${words(plate)};`);
    }
  });

  it('the list of moves comes round to the hole it names', () => {
    for (let divisions = 2; divisions <= 400; divisions++) {
      const result = run('indexing_moves', { divisions, head }) as unknown as Moves | Refusal;
      const geared = run('differential_indexing', { divisions, head }) as unknown as Geared | Refusal;
      const plainly = plates.flat().some((c) => (ratio * c) % divisions === 0);
      if ('refused' in result) {
        expect([plainly, 'refused' in geared]).toEqual([false, true]);
        expect(result.code).toBe('no-plain-indexing');
        const twice = compounds(divisions, ratio, plates).length > 0;
        expect(result.refused.includes('compound_moves'), `${divisions}`).toBe(twice);
        continue;
      }
      expect(result.cuts).toEqual(Array.from({ length: divisions }, (_, i) => i + 1));
      // Step hole by hole as the crank does.
      let [hole, whole] = [0, 0];
      const stood: string[] = [];
      for (let cut = 0; cut < divisions; cut++) {
        stood.push(`${whole}+${hole}`);
        whole += result.turns;
        for (let step = 0; step < result.holes; step++)
          if (++hole === result.circle) [hole, whole] = [0, whole + 1];
      }
      expect(result.whole_turns.map((count, i) => `${count}+${result.hole[i]}`)).toEqual(stood);
      expect([result.end_turns, result.end_hole]).toEqual([whole, hole]);
      if (plainly) expect([result.method, whole, hole]).toEqual(['plain', ratio, 0]);
      else expect(result.method).toContain('differential, moved as for');
      expect(result.end_check).toContain(hole === 0 ? 'hole 0, where it began' : `into hole ${hole};`);
    }
  });
});

interface Compounded {
  readonly first_turns: number;
  readonly first_holes: number;
  readonly first_circle: number;
  readonly second_holes: number;
  readonly second_circle: number;
}

interface CompoundMoves {
  readonly cuts: readonly number[];
  readonly crank_hole: readonly number[];
  readonly plate_hole: readonly number[];
  readonly crank_circle: number;
  readonly plate_circle: number;
  readonly end_check: string;
}

interface Moves {
  readonly cuts: readonly number[];
  readonly whole_turns: readonly number[];
  readonly hole: readonly number[];
  readonly turns: number;
  readonly holes: number;
  readonly circle: number;
  readonly end_turns: number;
  readonly end_hole: number;
  readonly method: string;
  readonly end_check: string;
}

/** Every pair of moves on two circles of one plate: holes, circle, spaces (negative back), circle. */
function compounds(
  divisions: number,
  ratio: number,
  plates: readonly (readonly number[])[],
): (readonly [number, number, number, number])[] {
  const found: (readonly [number, number, number, number])[] = [];
  for (const plate of plates)
    for (const a of plate)
      for (const b of plate)
        for (let second = 1 - b; second < b && a !== b; second++) {
          const above = a * (ratio * b - second * divisions);
          if (second === 0 || above <= 0 || above % (divisions * b) !== 0) continue;
          found.push([above / (divisions * b), a, second, b]);
        }
  return found;
}

describe('differential indexing', () => {
  const head = SHOP.get('head') ?? card('head', {});

  it('takes another near number when asked, and says why not', () => {
    expect(number('differential_indexing', { divisions: 57, head, near_number: 55 }, 'train')).toBeCloseTo(
      16 / 11,
      12,
    );
    const missing = refusal('differential_indexing', { divisions: 79, head, near_number: 78 });
    expect(missing.parameter).toBe('near_number');
    expect(missing.refused).toContain('as 20 to 39');
    expect(missing.refused).toContain('makes no such train: give 80.');
    expect(missing.offers).toEqual(['80']);
    const same = refusal('differential_indexing', { divisions: 79, head, near_number: 79 });
    expect([same.parameter, same.offers]).toEqual(['near_number', ['80']]);
    const odd = refusal('differential_indexing', { divisions: 79, head, near_number: 77 });
    expect([odd.parameter, odd.code, odd.offers]).toEqual(['near_number', 'no-plain-indexing', ['76', '78']]);
  });

  it('counts gears that are in the box twice, and none more often', () => {
    const of = (gears: readonly number[]) => headWith([[20, 27]], 40, { gears });
    // 1 to 1 needs two alike: 40 divisions of 41 moves never come out, 39 of 40 do.
    expect(list('differential_indexing', { divisions: 39, head: of([24, 24]) }, 'drivers')).toEqual([24]);
    expect(refusal('differential_indexing', { divisions: 39, head: of([24, 28]) }).refused).toContain(
      'make no train for 39',
    );
    expect(refusal('differential_indexing', { divisions: 39, head: of([24]) }).parameter).toBe('divisions');
    // Compound: 10 to 21 from 24 × 40 over 28 × 72, so not with a gear short.
    const eighty = (gears: readonly number[]) => headWith([[21]], 40, { gears });
    const args = { divisions: 83, near_number: 84 };
    expect(list('differential_indexing', { ...args, head: eighty([24, 40, 28, 72]) }, 'driven')).toEqual([
      28, 72,
    ]);
    expect(refusal('differential_indexing', { ...args, head: eighty([24, 40, 28]) }).parameter).toBe(
      'near_number',
    );
  });

  it('takes trains that need the largest gears and the smallest of the set', () => {
    // 60 turns times one forty-fourth are 15 to 11, as 30 to 22; 40 times 32 of 245 are 256 to 49, as 64² to 28².
    const simple = headWith([[33]], 60, { gears: [22, 30] });
    const args = { divisions: 43, near_number: 44, head: simple };
    expect(list('differential_indexing', args, 'drivers')).toEqual([30]);
    const compound = headWith([[49]], 40, { gears: [28, 28, 64, 64] });
    for (const divisions of [213, 277]) {
      const far = { divisions, near_number: 245, head: compound };
      expect(list('differential_indexing', far, 'drivers')).toEqual([64, 64]);
      expect(list('differential_indexing', far, 'driven')).toEqual([28, 28]);
    }
  });

  it.each([
    ['gears', {}],
    ['gears', { gears: [] }],
    ['gears', { gears: [24, 28.5] }],
    ['gears', { gears: 24 }],
    ['gears', { gears: [24, 1001] }],
    ['gears', { gears: Array.from({ length: 41 }, () => 24) }],
    ['ratio', { ratio: 40.5, gears: GEARS }],
  ] as const)('needs a card with proper %s: %j', (field, fields) => {
    const indexer = card('indexer', { ratio: 40, plates: [15, 16], ...fields });
    const result = refusal('differential_indexing', { divisions: 53, head: indexer });
    expect(result.parameter).toBe('head');
    expect(result.refused).toContain('`indexer` needs');
    expect(result.refused).toContain(`\`${field}`);
  });

  it('takes the smallest gears, in whatever order they are listed, and pairs that share a product', () => {
    const backwards = headWith(SETS['set1'] ?? [], 40, { gears: [...GEARS].reverse() });
    expect(list('differential_indexing', { divisions: 59, head: backwards }, 'drivers')).toEqual([32]);
    // 24 × 56 and 28 × 48 are alike: the plate turns once with the work.
    const paired = headWith([[20]], 40, { gears: [24, 28, 48, 56] });
    const args = { divisions: 39, near_number: 40, head: paired };
    expect(list('differential_indexing', args, 'drivers')).toEqual([24, 56]);
    expect(list('differential_indexing', args, 'driven')).toEqual([28, 48]);
  });

  it('moves as for the number above where one below is as near', () => {
    expect(
      answer('differential_indexing', { divisions: 31, head: headWith([[15, 16]], 40) })['substitute'],
    ).toBe(32);
  });

  it('says where plain indexing does it with a single hole', () => {
    expect(answer('differential_indexing', { divisions: 39, head })['simpler']).toBe(
      'plain indexing does it: 1 turn + 1 hole on 39',
    );
  });

  it('knows a number whose square is all the holes there are', () => {
    const few = card('few', { ratio: 4, plates: [9], gears: GEARS });
    expect(refusal('differential_indexing', { divisions: 8, head: few, near_number: 7 }).offers).toEqual([
      '6',
      '9',
    ]);
  });

  it('takes a ratio without a unit only', () => {
    const lengths = materialCard('odd', { ratio: [40, 'mm'] });
    expect(refusal('differential_indexing', { divisions: 53, head: lengths }).refused).toContain('`ratio');
  });

  it('takes a set as large as any', () => {
    const gears = Array.from({ length: 40 }, (_, i) => (i === 39 ? 1000 : 24));
    expect(
      number('differential_indexing', { divisions: 39, head: headWith([[20]], 40, { gears }) }, 'train'),
    ).toBe(1);
  });
});

describe('compound indexing', () => {
  it('tells what is simpler', () => {
    const says = (divisions: number, fields: Fields = {}): unknown =>
      answer('compound_indexing', { divisions, head: headWith(SETS['set1'] ?? [], 40, fields) })['simpler'];
    expect(says(77)).toBe('differential indexing does it, moved as for 80');
    expect(says(77, { gears: [] })).toBe('none');
    expect(says(77, { gears: [24, 28] })).toBe('none');
    expect(says(21)).toBe('plain indexing does it: 1 turn + 19 holes on 21');
  });

  it('says what it would take, for one move and for the whole list', () => {
    const head = SHOP.get('head') ?? card('head', {});
    for (const name of ['compound_indexing', 'compound_moves'])
      for (const divisions of [53, 106]) {
        const result = refusal(name, { divisions, head });
        expect(result.parameter).toBe('divisions');
        expect(result.refused).toContain('a multiple of 53 holes');
      }
  });

  it.each([
    {},
    { circles_per_plate: [6, 6] },
    { circles_per_plate: [6, 6, 7] },
    { circles_per_plate: 18 },
    { circles_per_plate: [6, 6, 5.5] },
  ])('needs to know which circles share a plate: %j', (fields) => {
    const indexer = card('indexer', { ratio: 40, plates: (SETS['set1'] ?? []).flat(), ...fields });
    const result = refusal('compound_indexing', { divisions: 77, head: indexer });
    expect(result.parameter).toBe('head');
    expect(result.refused).toContain('how many of its 18 circles');
  });

  it('takes plates with as many as 30 circles, and heads that are heads', () => {
    const plates = (count: number) => headWith([Array.from({ length: count }, (_, i) => i + 20)], 40);
    expect(number('compound_indexing', { divisions: 77, head: plates(30) }, 'first_circle')).toBeGreaterThan(
      0,
    );
    expect(refusal('compound_indexing', { divisions: 77, head: plates(31) }).parameter).toBe('head');
    const uneven = headWith([[15, 16], Array.from({ length: 31 }, (_, i) => i + 20)], 40);
    expect(refusal('compound_indexing', { divisions: 77, head: uneven }).parameter).toBe('head');
    expect(refusal('compound_indexing', { divisions: 77, head: card('indexer', {}) }).refused).toContain(
      '`ratio',
    );
  });
});

describe('a list of moves', () => {
  const formula = formulaNamed('indexing_moves');
  if (!formula) throw new Error('no formula');

  it('is no longer than is read', () => {
    const head = SHOP.get('head') ?? card('head', {});
    expect(broken(formula, { divisions: 400, head })).toEqual([]);
    expect(broken(formula, { divisions: 401, head })[0]).toContain('give 400 divisions or fewer');
  });

  it('says how it is made and how it ends', () => {
    const says = (divisions: number, field: string): unknown =>
      answer('indexing_moves', { divisions, head: headWith(SETS['set1'] ?? [], 40) })[field];
    expect(says(7, 'end_check')).toBe(
      'after cut 7 make one move more: by then the crank has made 40 turns on the plate and the pin must drop into ' +
        'hole 0, where it began; if it does not, a move was miscounted',
    );
    expect(says(57, 'method')).toBe('differential, moved as for 56, gears 40 driving 56');
    expect(says(57, 'end_check')).toContain(
      'has made 40 turns on the plate and the pin must drop into hole 15;',
    );
    const small = card('indexer', { ratio: 40, plates: [15] });
    const none = refusal('indexing_moves', { divisions: 53, head: small });
    expect([none.code, none.refused.includes('Two moves')]).toEqual(['no-plain-indexing', false]);
    const ungeared = headWith(SETS['set1'] ?? [], 40, { gears: [] });
    expect(refusal('indexing_moves', { divisions: 77, head: ungeared }).refused).toContain(
      'Two moves for each division do it: see `compound_moves`.',
    );
    expect(refusal('indexing_moves', { divisions: 5, head: card('indexer', {}) }).parameter).toBe('head');
    expect(
      answer('indexing_moves', { divisions: 2, head: card('plate', { ratio: 1, plates: [24] }) })[
        'end_check'
      ],
    ).toContain('has made 1 turn on');
  });
});

describe('chords and holes', () => {
  it('are those between points on the circle', () => {
    for (let divisions = 2; divisions <= 400; divisions++)
      for (const over of [1, 2, Math.floor(divisions / 2)]) {
        if (over >= divisions || over < 1) continue;
        const angle = (2 * Math.PI * over) / divisions;
        const chord = Math.hypot(50 * Math.cos(angle) - 50, 50 * Math.sin(angle));
        const args = { diameter: 100, divisions };
        expect(number('division_chord', { ...args, over })).toBeCloseTo(chord, 9);
        if (over === 1) expect(number('division_chord', args)).toBeCloseTo(chord, 9);
      }
  });

  it('need two divisions and a span within the circle', () => {
    const formula = formulaNamed('division_chord');
    if (!formula) throw new Error('no formula');
    const says = (args: Arguments): string[] => broken(formula, { diameter: 100, ...args });
    expect([says({ divisions: 2 }), says({ divisions: 7, over: 6 })]).toEqual([[], []]);
    expect(says({ divisions: 1 })[0]).toContain('give 2 or more');
    expect(says({ divisions: 7, over: 7 })[0]).toBe(
      'After 7 spaces the circle is closed: give `over` of 6 at most.',
    );
    expect(says({ divisions: 7, diameter: 0 })[0]).toContain('`diameter` is 0 mm');
  });

  it('follow the ratio of the head', () => {
    const at = (head: string, field: string): number =>
      number('hole_step', { diameter: 100, circle: 20, head: SHOP.get(head) ?? card('head', {}) }, field);
    expect([at('head', 'angle'), at('head_60', 'angle'), at('head_90', 'angle')]).toEqual([0.45, 0.3, 0.2]);
    expect(at('head_90', 'arc')).toBeCloseTo((100 * Math.PI) / 1800, 12);
    const formula = formulaNamed('hole_step');
    expect(formula && broken(formula, { diameter: 0, circle: 20 })[0]).toContain('`diameter` is 0 mm');
    expect(refusal('hole_step', { diameter: 100, circle: 20, head: card('indexer', {}) }).parameter).toBe(
      'head',
    );
  });
});

it('finds as many ways on two circles as were counted elsewhere', () => {
  const plates = SETS['set1'] ?? [];
  // Counted with exact fractions apart from this project, with less than two turns of the crank.
  for (const [divisions, count] of [
    [77, 10],
    [87, 6],
    [91, 4],
    [93, 12],
  ] as const)
    expect(compounds(divisions, 40, plates).filter(([first, a]) => first < 2 * a)).toHaveLength(count);
});
