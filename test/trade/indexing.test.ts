/** Indexing against every hole of every circle tried with whole numbers only. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formulaNamed } from '../../src/trade';
import { type Answer, type Refusal, isRefusal } from '../../src/trade/formula';
import { broken, card, given, SHOP } from './given';

const table = JSON.parse(readFileSync(new URL('../data/indexing.json', import.meta.url), 'utf8')) as {
  plates: { set1: number[]; set2: number[] };
  rows: { N: number; set1: number[][]; set2: number[][] }[];
};

const run = (name: string, args: Parameters<typeof given>[0]): Answer | Refusal => {
  const result = formulaNamed(name)?.compute(given(args));
  if (result === undefined) throw new Error(`no formula ${name}`);
  return result;
};

type Move = { turns: number; holes: number; circle: number; sector_holes: number; others: string };

const index = (divisions: number, plates: readonly number[], ratio: number): Move | Refusal =>
  run('plain_indexing', { divisions, head: card('head', { ratio, plates }) }) as unknown as Move | Refusal;

/** Circle, turns and holes of every solution, by trying each hole. */
function tried(divisions: number, plates: readonly number[], ratio: number): number[][] {
  const found: number[][] = [];
  for (const circle of plates) {
    let all = 0;
    while (all * divisions < ratio * circle) all++;
    if (all * divisions === ratio * circle) found.push([circle, Math.floor(all / circle), all % circle]);
  }
  return found;
}

function offered(result: Move | Refusal): number[][] {
  if (isRefusal(result)) return [];
  const move = /(?:(\d+) turns? \+ )?(\d+) holes? on (\d+)/g;
  return [
    [result.circle, result.turns, result.holes],
    ...[...result.others.matchAll(move)].map(([, turns = '0', ...rest]) =>
      [rest[1], turns, rest[0]].map(Number),
    ),
  ];
}

describe.each(Object.entries(table.plates))('plain indexing on %s', (set, plates) => {
  it.each([40, 60, 90])('is exact for 2 to 400 at %i:1', (ratio) => {
    for (let n = 2; n <= 400; n++) {
      const all = tried(n, plates, ratio);
      const result = index(n, plates, ratio);
      if (isRefusal(result)) {
        expect(all, `${n}`).toEqual([]);
        continue;
      }
      expect(result.sector_holes).toBe(result.holes + 1);
      if (result.holes > 0) expect(offered(result), `${n}`).toEqual(all);
      else expect([result.others, all.length]).toEqual(['any circle: whole turns', plates.length]);
    }
  });

  it('agrees with the table at 40:1', () => {
    for (const row of table.rows) {
      const listed = set === 'set1' ? row.set1 : row.set2;
      const result = index(row.N, plates, 40);
      if (!isRefusal(result) && result.holes === 0)
        expect([result.circle, result.turns, 0]).toEqual(listed[0]);
      else expect(offered(result), `${row.N}`).toEqual(listed);
    }
    expect(table.rows).toHaveLength(99);
  });

  it('names the nearest numbers that do, and the circle it would take', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 5000 }), fc.constantFrom(40, 60, 90), (n, ratio) => {
        const works = (m: number): boolean => plates.some((circle) => (ratio * circle) % m === 0);
        const result = index(n, plates, ratio);
        if (!isRefusal(result)) {
          expect(works(n)).toBe(true);
          return;
        }
        expect(works(n)).toBe(false);
        expect([result.parameter, result.code]).toEqual(['divisions', 'no-plain-indexing']);
        let below = n;
        while (!works(below)) below--;
        let above = n;
        while (above <= 66 * 90 && !works(above)) above++;
        const near = works(above) ? [below, above] : [below];
        expect(result.offers).toEqual(near.map(String));
        expect(result.refused).toContain(`Nearest that do: ${near.join(' and ')}.`);
        const circle = Number(/it takes (\d+) holes or a multiple/.exec(result.refused)?.[1]);
        let least = 1;
        while ((ratio * least) % n !== 0) least++;
        expect(circle).toBe(least);
      }),
    );
  });
});

const HEAD = SHOP.get('head') ?? card('head', {});

describe('a head', () => {
  it('may list circles twice and in any order', () => {
    const mixed = index(7, [49, 21, 33, 21], 40);
    expect(mixed).toMatchObject({ circle: 21, turns: 5, holes: 15, others: '5 turns + 35 holes on 49' });
    expect(index(40, [33, 15], 40)).toMatchObject({ circle: 15, turns: 1, holes: 0, sector_holes: 1 });
    expect(index(39, [39], 40)).toMatchObject({ turns: 1, holes: 1, others: 'none' });
    expect(index(39, [39, 78], 40)).toMatchObject({ others: '1 turn + 2 holes on 78' });
    expect(index(80, [2, 6], 40)).toMatchObject({ circle: 2, turns: 0, holes: 1, others: '3 holes on 6' });
    expect(index(39, [78, 117, 39], 39)).toMatchObject({ turns: 1, holes: 0 });
  });

  it.each([
    ['ratio', { plates: [15] }],
    ['ratio', { ratio: 40.5, plates: [15] }],
    ['ratio', { ratio: 0, plates: [15] }],
    ['ratio', { ratio: 1001, plates: [15] }],
    ['plates', { ratio: 40 }],
    ['plates', { ratio: 40, plates: [] }],
    ['plates', { ratio: 40, plates: [15, 16.5] }],
    ['plates', { ratio: 40, plates: [15, 1001] }],
    ['plates', { ratio: 40, plates: [0] }],
    ['plates', { ratio: 40, plates: 15 }],
  ])('without a proper %s is refused: %j', (field, fields) => {
    for (const [name, args] of [
      ['plain_indexing', { divisions: 7 }],
      ['angular_indexing', { angle: 7 }],
    ] as const) {
      const result = run(name, { ...args, head: card('indexer', fields) });
      if (typeof result !== 'object' || !isRefusal(result)) throw new Error('answered');
      expect(result.parameter).toBe('head');
      expect(result.refused).toContain('`indexer` needs');
      expect(result.refused).toContain(`\`${field}`);
      expect(formulaNamed(name)?.working(given({ ...args, head: card('indexer', fields) }))).toEqual([]);
    }
  });

  it('may be as large or as plain as any made', () => {
    expect(index(1000, [1000], 1000)).toMatchObject({ turns: 1, holes: 0 });
    // Or a spindle with a plate straight on it.
    expect(index(6, [24], 1)).toMatchObject({ turns: 0, holes: 4 });
    expect(index(2, [1, 2], 1)).toMatchObject({ circle: 2, holes: 1 });
  });
});

describe('angular indexing', () => {
  const turn = (angle: number, plates: readonly number[], ratio: number): Record<string, number> | Refusal =>
    run('angular_indexing', { angle, head: card('head', { ratio, plates }) }) as
      Record<string, number> | Refusal;

  it('comes as near as any hole does', () => {
    const plates = fc.constantFrom(...Object.values(table.plates));
    const angle = fc.double({ min: 0.001, max: 360, noNaN: true });
    fc.assert(
      fc.property(angle, plates, fc.constantFrom(40, 60, 90), (asked, circles, ratio) => {
        const result = turn(asked, circles, ratio);
        const hole = (circle: number): number => 360 / ratio / circle;
        const least = Math.min(
          ...circles.flatMap((c) =>
            [Math.floor, Math.ceil].map((f) => Math.abs(f(asked / hole(c)) * hole(c) - asked)),
          ),
        );
        if (isRefusal(result)) {
          expect(asked).toBeLessThanOrEqual(hole(Math.max(...circles)) / 2);
          return;
        }
        const { turns = 0, holes = 0, circle = 0, error = 0 } = result;
        expect(Math.abs(error)).toBeCloseTo(least, 9);
        expect(((turns + holes / circle) * 360) / ratio - asked).toBeCloseTo(error, 9);
        expect(holes).toBeLessThan(circle);
        expect(Number.isInteger(turns) && Number.isInteger(holes)).toBe(true);
      }),
      { numRuns: 500 },
    );
  });

  it('takes the smallest of circles that come out alike', () => {
    expect(turn(3, [18, 27, 39], 40)).toMatchObject({ circle: 18, turns: 0, holes: 6, error: 0 });
    // A third of a turn on each; a rounding error must not prefer a larger circle.
    for (let n = 1; n < 120; n++) {
      const { circle } = turn(n * 3, [18, 27, 39, 54, 57], 40) as Record<string, number>;
      expect([n, circle]).toEqual([n, 18]);
    }
  });

  it('tells the error with its sign', () => {
    expect(turn(9.4, [2], 40)).toMatchObject({ turns: 1, holes: 0 });
    expect((turn(9.4, [2], 40) as Record<string, number>)['error']).toBeCloseTo(-0.4, 12);
    expect((turn(8.6, [2], 40) as Record<string, number>)['error']).toBeCloseTo(0.4, 12);
    expect(turn(360, [15], 40)).toMatchObject({ turns: 40, holes: 0, error: 0 });
  });

  it('refuses what is less than half a hole, and says the smallest move', () => {
    const result = turn(0.09, [18, 49], 40);
    if (!isRefusal(result)) throw new Error('answered');
    expect(result.parameter).toBe('angle');
    expect(result.refused).toContain('its smallest move is 0.184°');
    expect(turn(0.092, [18, 49], 40)).toMatchObject({ turns: 0, holes: 1, circle: 49 });
  });

  it('takes angles of up to one turn', () => {
    const formula = formulaNamed('angular_indexing');
    if (!formula) throw new Error('no formula');
    const says = (angle: number): string[] => broken(formula, { angle, head: HEAD });
    expect([says(360), says(0.0005)]).toEqual([[], []]);
    expect(says(360.1)).toEqual(['360.1° is more than a full turn: give 0.1°.']);
    expect(says(0)[0]).toContain('give a positive angle');
    expect(says(-5)[0]).toContain('-5° turns nothing forwards');
  });
});
