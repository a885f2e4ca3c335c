/** What is drawn agrees with the figures: the coordinates are read back from the pictures. */
import { describe, expect, it } from 'vitest';
import { isoLimits } from '../../src/quantity/iso286';
import { PICTURES, picturesOf, sharesOf } from '../../src/sheet/picture/of-row';
import { PREVIEW } from '../../src/sheet/how';
import { allFormulas } from '../../src/trade/index';
import { type Drawn, type Place, apart as between, drawn, end, length, read, sheetOf, start } from './drawn';

const words = (...lines: string[]): string[] => drawn(...lines).texts.map((text) => text.words);
const textOf = ({ texts }: Drawn, words: string): Place => {
  const found = texts.find((text) => text.words === words);
  if (!found) throw new Error(`no ${words} among ${texts.map((text) => text.words).join(', ')}`);
  return found;
};

const NOWHERE: Place = { x: NaN, y: NaN };
/** Upper and lower deviation of a code by ISO 286, in micrometres. */
const isoLimitsOf = (size: number, code: string): readonly number[] => {
  const found = isoLimits(size, code);
  return 'upper' in found ? [found.upper, found.lower] : [];
};
/** Every open and closed outline with its corners. */
const outlines = ({ tags }: Drawn): { tag: Readonly<Record<string, string>>; points: Place[] }[] =>
  tags
    .filter((tag) => tag['points'] !== undefined)
    .map((tag) => ({
      tag,
      points: (tag['points'] ?? '').split(' ').map((pair) => {
        const [x = NaN, y = NaN] = pair.split(',').map(Number);
        return { x, y };
      }),
    }));
/** Parallels at 45° fill the corners' outline, each from edge to edge. */
function expectHatched({ pieces }: Drawn, outline: readonly (Place | undefined)[]): void {
  const corners = outline.map((corner) => corner ?? NOWHERE);
  const onEdge = (p: Place): boolean =>
    corners.some((a, i) => {
      const b = corners[(i + 1) % corners.length] ?? a;
      return Math.abs(between(a, p) + between(p, b) - between(a, b)) < 0.01;
    });
  const lines = pieces.filter(
    ({ from, to, tag }) =>
      tag['stroke-width'] === '0.7' &&
      Math.abs(from.x + from.y - to.x - to.y) < 0.01 &&
      onEdge(from) &&
      onEdge(to),
  );
  const sums = corners.map(({ x, y }) => x + y);
  const wanted = (Math.max(...sums) - Math.min(...sums)) / 6;
  expect(Math.abs(lines.length - wanted)).toBeLessThanOrEqual(1);
}
/** The angle as the picture's description says it. */
const drawnTilt = ({ says }: Drawn): string => /tilted ([\d.]+°)/.exec(says)?.[1] ?? '';

describe('the set-up for a ball', () => {
  // Chord, sine and cosine by hand for each: joint = asin(neck / ball), tilt its half.
  it.each([
    [26, 11.1],
    [40, 5],
    [30, 24],
    [12.7, 9],
  ])('ball %d, neck %d', (ball, neck) => {
    const tilt = Math.asin(neck / ball) / 2;
    const it = drawn(`ball_on_shank(${ball} mm, ${neck} mm)`);
    const [ring] = it.all('ring');
    expect(length(ring) / it.scale).toBeCloseTo(ball * Math.cos(tilt), 2);
    const centre = it.all('ring-from-above')[0];
    expect((2 * Number(centre?.['r'])) / it.scale).toBeCloseTo(ball * Math.cos(tilt), 2);
    // The axis runs through the centre of the ring and slopes by the tilt, free end up on the right.
    const [axis] = it.all('axis');
    const [dx, dy] = [
      Number(axis?.['x1']) - Number(axis?.['x2']),
      Number(axis?.['y2']) - Number(axis?.['y1']),
    ];
    expect(Math.atan2(dy, dx)).toBeCloseTo(tilt, 4);
    // The free end's pole is the right tip of the ring, the neck meets the ball at the left one.
    const slope = dy / dx;
    const along = (x: number): number => Number(axis?.['y2']) - slope * (x - Number(axis?.['x2']));
    expect(along(Number(ring?.['x2']))).toBeCloseTo(Number(ring?.['y2']), 1);
    const [upper] = it.all('neck-b');
    expect(Number(upper?.['x1'])).toBeCloseTo(Number(ring?.['x1']), 1);
    expect(Number(upper?.['y1'])).toBeCloseTo(Number(ring?.['y1']), 1);
    // The two edges of the shank are a neck apart.
    const [lower] = it.all('neck-a');
    expect(
      Math.hypot(
        Number(upper?.['x1']) - Number(lower?.['x1']),
        Number(upper?.['y1']) - Number(lower?.['y1']),
      ) / it.scale,
    ).toBeCloseTo(neck, 2);
    // The height's dimension goes from the centre's level to the ring's.
    const height = length(it.all('height')[0]);
    const outside = height - 32;
    const wanted = (ball / 2) * Math.sin(tilt) * it.scale;
    expect(Math.min(Math.abs(height - wanted), Math.abs(outside - wanted))).toBeLessThan(0.01);
  });

  describe.each([
    [30, 12],
    [30, 24],
    [40, 5],
  ])('ball %d, neck %d', (ball, neck) => {
    const it_ = drawn(`ball_on_shank(${ball} mm, ${neck} mm)`);
    const tilt = Math.asin(neck / ball) / 2;
    const radius = (ball * it_.scale) / 2;
    const centre = { x: 286, y: 176 };
    const [ring] = it_.all('ring');
    const shank = [...it_.all('neck-a'), ...it_.all('neck-b')];

    it('is round but for the neck, and the shank goes on from there to the left and down', () => {
      const arc = it_.pieces.filter(({ tag }) => tag['data-is'] === 'ball');
      for (const { from } of arc) expect(between(from, centre)).toBeCloseTo(radius, 1);
      const [lower, upper] = shank.map(start);
      expect(between(arc[0]?.from ?? centre, lower ?? centre)).toBeLessThan(0.01);
      expect(between(arc.at(-1)?.to ?? centre, upper ?? centre)).toBeLessThan(0.01);
      for (const edge of shank) {
        expect(end(edge).x).toBeLessThan(start(edge).x);
        expect((end(edge).y - start(edge).y) / (start(edge).x - end(edge).x)).toBeCloseTo(Math.tan(tilt), 3);
      }
      // Broken off at its far end, from edge to edge.
      const broken = outlines(it_)
        .filter(({ tag }) => tag['stroke-width'] === '0.7' && tag['element'] === 'polyline')
        .map(({ points }) => points);
      const ends = broken.filter((points) => points.length === 4).at(-1) ?? [];
      expect([ends[0], ends.at(-1)]).toEqual(shank.map(end));
    });

    it('has the cutter outside of it, standing on the ring, its edges up and away', () => {
      const tips = [start(ring), end(ring)];
      const bits = outlines(it_)
        .filter(({ tag }) => tag['element'] === 'polygon' || tag['stroke-dasharray'] === '12 2.5 1 2.5 1 2.5')
        .map(({ points }) => points)
        .filter(([tip]) => tip && tips.some((at) => between(at, tip) < 0.01));
      expect(bits.length).toBeGreaterThanOrEqual(6);
      for (const [tip, ...rest] of bits)
        for (const point of rest) {
          if (it_.arrows.some((arrow) => arrow.some((at) => between(at, point) < 0.001))) continue;
          expect(between(point, centre)).toBeGreaterThan(radius);
          expect(point.y).toBeLessThan(tip?.y ?? NaN);
          expect(Math.sign(point.x - (tip?.x ?? NaN))).toBe(Math.sign((tip?.x ?? NaN) - centre.x));
        }
    });

    it('is seen along the spindle straight below: the ball, the ring, the shank on the same side', () => {
      const below = { x: it_.number('ring-from-above', 'cx'), y: it_.number('ring-from-above', 'cy') };
      expect(below.x).toBe(centre.x);
      expect(below.y - radius).toBeGreaterThan(Math.max(...shank.map((edge) => end(edge).y)));
      const outlines = it_.tags.filter((tag) => tag['element'] === 'circle' && tag['data-is'] === undefined);
      expect(outlines.map(({ cx, cy, r }) => [cx, cy, r].map(Number))).toEqual([[below.x, below.y, 75]]);
      const edges = it_.pieces.filter(
        ({ tag, from }) =>
          tag['stroke-width'] === '1.4' &&
          tag['element'] === 'line' &&
          from.y > below.y - radius &&
          tag['data-is'] === undefined,
      );
      expect(edges.map(({ from }) => (from.y - below.y) / it_.scale)).toEqual([
        expect.closeTo(-neck / 2, 2),
        expect.closeTo(neck / 2, 2),
      ]);
      // From where it meets the ball, which is nearer the more it is tilted, away to the left.
      const meets = Math.sqrt(ball * ball - neck * neck) / 2;
      for (const { from, to } of edges) {
        expect((below.x - from.x) / it_.scale).toBeCloseTo(meets * Math.cos(tilt), 2);
        expect(to.x).toBeLessThan(from.x);
        expect(to.y).toBe(from.y);
      }
      // Hatched all over, edge to edge; the shank above as well.
      const corners = edges.flatMap(({ from, to }) => [from, to]);
      expectHatched(it_, [corners[0], corners[1], corners[3], corners[2]]);
      expectHatched(it_, [start(shank[0]), end(shank[0]), end(shank[1]), start(shank[1])]);
      expect(textOf(it_, 'along the spindle').x).toBeGreaterThan(below.x + radius);
    });

    it('has centre lines through its middle, here and below, and its sizes where they are', () => {
      const below = it_.number('ring-from-above', 'cy');
      const centres = it_.pieces.filter(
        ({ tag }) => tag['stroke-dasharray'] === '12 2.5 1 2.5' && tag['data-is'] === undefined,
      );
      expect(centres).toHaveLength(4);
      for (const [i, { from, to }] of centres.entries()) {
        const middle = { x: 286, y: i < 2 ? 176 : below };
        // Level or upright, and beyond the ball on both sides.
        if (from.x === to.x)
          expect([from.x, from.y < middle.y - 75, to.y > middle.y + 75]).toEqual([286, true, true]);
        else
          expect([from.y, to.y, from.x < 286 - 75, to.x > 286 + 75]).toEqual([
            middle.y,
            middle.y,
            true,
            true,
          ]);
      }
      const [axis] = it_.all('axis');
      expect(start(axis).x).toBeGreaterThan(286 + 75 * Math.cos(tilt));
      expect(end(axis).x).toBeLessThan(Math.min(...shank.map((edge) => end(edge).x)));
      const across = it_.all('ball-size')[0];
      expect(length(across)).toBeCloseTo(2 * radius, 1);
      expect([(start(across).x + end(across).x) / 2, (start(across).y + end(across).y) / 2]).toEqual([
        expect.closeTo(286, 2),
        expect.closeTo(176, 2),
      ]);
      const size = it_.all('ring-size')[0];
      expect([start(size).x, end(size).x]).toEqual([start(ring).x, end(ring).x]);
      expect(start(size).y).toBeLessThan(176 - radius);
      // The height stands beside the ball, from its middle's level to the ring's.
      const [top, foot] = [start(it_.all('height')[0]), end(it_.all('height')[0])];
      expect(top.x).toBeGreaterThan(286 + radius);
      expect(Math.min(top.y, foot.y)).toBeLessThanOrEqual(start(ring).y + 0.01);
      expect(Math.max(top.y, foot.y)).toBeGreaterThanOrEqual(176 - 0.01);
      // Across the shank, at a right angle to its edges.
      const wide = it_.all('neck-size')[0];
      const [dx, dy] = [end(wide).x - start(wide).x, end(wide).y - start(wide).y];
      expect(dx * Math.cos(tilt) - dy * Math.sin(tilt)).toBeCloseTo(0, 1);
      expect(length(wide)).toBeCloseTo(neck * it_.scale + (neck * it_.scale < 24 ? 32 : 0), 1);
      const neckWords = textOf(it_, `neck Ø${neck} mm`);
      expect(neckWords.y).toBeGreaterThan(Math.max(start(wide).y, end(wide).y));
      const uncut = it_.texts.find((text) => text.words === 'stays uncut');
      expect(uncut?.turned).toBeCloseTo((-tilt * 180) / Math.PI, 1);
      expect(uncut?.y).toBeLessThan(Math.min(start(wide).y, end(wide).y) + 8);
      expect(textOf(it_, `tilt ${drawnTilt(it_)}`).y).toBeGreaterThan(end(axis).y);
    });
  });

  it('is told by its words', () => {
    expect(words('ball_on_shank(30 mm, 12 mm)')).toEqual([
      'ring Ø29.367 mm',
      'height 3.065 mm',
      'ball Ø30 mm',
      'tilt 11.789°',
      'neck Ø12 mm',
      'stays uncut',
      'along the spindle',
    ]);
  });

  it('says in words what is drawn', () => {
    expect(drawn('ball_on_shank(30 mm, 12 mm)').says).toContain('tilted 11.789°, free end up');
    expect(drawn('ball_on_shank(30 mm, 12 mm)').says).toContain('level ring of 29.367 mm, 3.065 mm above');
  });
});

describe('the passes to the knee', () => {
  it('stand on the curve that ring and height make', () => {
    const line = 'p = knee_schedule(26 mm, 25.34 mm, 12.7°, 26.5 mm, 13.2 mm, 2 mm)';
    const it = drawn(line);
    const passes = it.all('pass').map((tag) => ({ x: Number(tag['cx']), y: Number(tag['cy']) }));
    const fields = sheetOf(line).valueOf('p');
    const list = (name: string): number[] => {
      const found = fields?.kind === 'record' ? fields.fields.get(name) : undefined;
      return found?.kind === 'list' ? found.items.map(({ value }) => value) : [];
    };
    const [raised, balls] = [list('raised'), list('balls')];
    expect(passes).toHaveLength(raised.length);
    const [first, last] = [passes[0], passes.at(-1)];
    const [r0 = NaN, rn = NaN, b0 = NaN, bn = NaN] = [raised[0], raised.at(-1), balls[0], balls.at(-1)];
    passes.forEach(({ x, y }, i) => {
      expect((x - (first?.x ?? 0)) / ((last?.x ?? 0) - (first?.x ?? 0))).toBeCloseTo(
        ((raised[i] ?? NaN) - r0) / (rn - r0),
        4,
      );
      expect((y - (first?.y ?? 0)) / ((last?.y ?? 0) - (first?.y ?? 0))).toBeCloseTo(
        ((balls[i] ?? NaN) - b0) / (bn - b0),
        4,
      );
    });
    expect(last?.y).toBeCloseTo(it.number('to-size', 'y1'), 2);
  });
});

describe('the passes to the knee, drawn', () => {
  const it_ = drawn('knee_schedule(26 mm, 25.34 mm, 12.7°, 26.5 mm, 13.2 mm, 0.5 mm)');
  const passes = it_.all('pass').map((tag) => ({ x: Number(tag['cx']), y: Number(tag['cy']) }));
  const foot = Math.max(...it_.pieces.map(({ to }) => to.y));

  it('fall from the first touch to the size wanted, each on the curve and with its foot on the axis', () => {
    const curve = it_.pieces.filter(({ tag }) => tag['data-is'] === 'curve');
    expect(curve.length).toBeGreaterThan(30);
    expect(curve[0]?.from.y).toBeLessThan(40);
    expect(curve[0]?.from.x).toBeLessThan(passes[0]?.x ?? NaN);
    expect(curve.at(-1)?.to).toEqual(passes.at(-1));
    for (const { from, to } of curve) {
      expect(to.x).toBeGreaterThan(from.x);
      expect(to.y).toBeGreaterThan(from.y);
    }
    for (const pass of passes) {
      const piece = curve.find(({ from, to }) => from.x <= pass.x + 0.001 && to.x >= pass.x - 0.001);
      const { from, to } = piece ?? { from: pass, to: pass };
      const on = from.y + ((to.y - from.y) * (pass.x - from.x)) / (to.x - from.x || 1);
      expect(Math.abs(on - pass.y)).toBeLessThan(0.2);
      expect(
        it_.pieces.some(
          (line) =>
            line.from.x === pass.x && line.from.y === pass.y && line.to.x === pass.x && line.to.y === foot,
        ),
      ).toBe(true);
    }
    // The axes meet at the left below; what is wanted is a level line at the last pass.
    const origin = curve[0]?.from.x;
    const axes = it_.pieces.filter(({ from }) => from.x === origin && from.y === foot);
    expect(
      axes.map(({ to }) => [to.x > (passes.at(-1)?.x ?? NaN), to.y < (curve[0]?.from.y ?? NaN)]),
    ).toEqual([
      [true, false],
      [false, true],
    ]);
    const [wanted] = it_.all('to-size');
    expect([start(wanted).x, start(wanted).y, end(wanted).y]).toEqual([
      origin,
      end(wanted).y,
      start(wanted).y,
    ]);
    expect(end(wanted).x).toBeGreaterThan(passes.at(-1)?.x ?? NaN);
  });

  it('have every few a number beneath and beside, the last beneath only', () => {
    const raised = ['0.5', '2.5', '4.5', '6.5', '8.5', '10.847'];
    expect(it_.texts.map((text) => text.words)).toEqual([
      ...raised
        .slice(0, 5)
        .flatMap((words, i) => [words, ['36.677', '33.898', '31.384', '29.203', '27.435'][i]]),
      '10.847',
      '37.406',
      '26',
      'knee raised from first touch, mm',
      'ball, mm',
    ]);
    for (const words of raised) {
      const at = textOf(it_, words);
      expect(passes.some(({ x }) => Math.abs(x - at.x) < 0.01)).toBe(true);
      expect(at.y).toBeGreaterThan(foot);
    }
    const origin = Math.min(...it_.pieces.map(({ from }) => from.x));
    for (const [words, y] of [
      ['37.406', it_.pieces.find(({ tag }) => tag['data-is'] === 'curve')?.from.y],
      ['26', it_.number('to-size', 'y1')],
    ] as const) {
      expect(textOf(it_, words).x).toBeLessThan(origin);
      expect(Math.abs(textOf(it_, words).y - 4 - (y ?? NaN))).toBeLessThan(0.01);
    }
    expect(it_.texts.at(-1)).toMatchObject({ turned: -90 });
    const side = it_.texts.at(-1) ?? NOWHERE;
    expect(side.x).toBeLessThan(origin);
    expect(side.y).toBeGreaterThan(40);
    expect(side.y).toBeLessThan(foot);
    const under = textOf(it_, 'knee raised from first touch, mm');
    expect(under.x).toBeGreaterThan(origin + 100);
    expect(under.x).toBeLessThan(passes.at(-1)?.x ?? NaN);
    expect(it_.says).toContain(
      '23 raises of the knee, 10.847 mm in all, bring the ball from 37.406 mm at first touch to 26 mm.',
    );
  });
});

describe('an index plate', () => {
  it.each([
    [
      13,
      [
        '0',
        '3',
        'circle of 39',
        'each move: 3 turns and 3 holes',
        '4 holes between the arms,',
        'the pin&#39;s own counted',
      ],
    ],
    [20, ['0', 'circle of 15', 'each move: 2 turns', 'the pin drops into the hole', 'it came from']],
    [40, ['0', 'circle of 15', 'each move: 1 turn', 'the pin drops into the hole', 'it came from']],
    [
      41,
      [
        '0',
        '40',
        'circle of 41',
        'each move: 40 holes',
        '41 holes between the arms,',
        'the pin&#39;s own counted',
      ],
    ],
    [
      39,
      [
        '0',
        '1',
        'circle of 39',
        'each move: 1 turn and 1 hole',
        '2 holes between the arms,',
        'the pin&#39;s own counted',
      ],
    ],
  ])('for %d divisions says %j', (divisions, texts) => {
    const it = drawn(`plain_indexing(${divisions}, head)`);
    expect(it.texts.map((text) => text.words)).toEqual(texts);
    expect(it.says).toContain(
      `${texts.find((words) => words.startsWith('each'))?.replace('each m', 'Each m') ?? ''}. The sector arms ${texts.length === 5 ? 'are not needed.' : `span ${Number(texts[1]) + 1} holes`}`,
    );
  });

  it.each([13, 16, 20, 41, 97])(
    'for %d divisions has its holes apart, the pin at the top, its number above it',
    (divisions) => {
      const it = drawn(`plain_indexing(${divisions}, head)`);
      const holes = [...it.all('counted'), ...it.all('hole')].map((tag) => ({
        x: Number(tag['cx']),
        y: Number(tag['cy']),
        r: Number(tag['r']),
      }));
      const [c, radius] = [
        { x: it.number('circle', 'cx'), y: it.number('circle', 'cy') },
        it.number('circle', 'r'),
      ];
      const side = 2 * radius * Math.sin(Math.PI / holes.length);
      for (const hole of holes) {
        expect(between(hole, c)).toBeCloseTo(radius, 2);
        expect(2 * hole.r).toBeLessThan(side);
        expect([2 * hole.r < 10, hole.r > 1]).toEqual([true, true]);
      }
      expect(holes[0]).toMatchObject({ x: c.x, y: c.y - radius });
      const zero = textOf(it, '0');
      expect(zero.x).toBe(c.x);
      expect(zero.y).toBeLessThan(c.y - radius - 10);
      // A small cross at the middle.
      const cross = it.pieces.filter(
        ({ tag, from, to }) =>
          tag['stroke-dasharray'] !== undefined && tag['element'] === 'line' && between(from, to) < 30,
      );
      expect(cross.map(({ from, to }) => [(from.x + to.x) / 2, (from.y + to.y) / 2])).toEqual([
        [c.x, c.y],
        [c.x, c.y],
      ]);
      expect(cross.map(({ from, to }) => between(from, to))).toEqual([24, 24]);
      if (divisions === 20) return;
      const arms = it.all('arm');
      for (const arm of arms) {
        expect(start(arm)).toEqual(c);
        expect(length(arm)).toBeGreaterThan(radius + 8);
      }
      // The second arm ends beyond the last hole counted, and has its number.
      const counted = it.all('counted').at(-1);
      const last = { x: Number(counted?.['cx']), y: Number(counted?.['cy']) };
      const toward = (p: Place): number => Math.atan2(p.y - c.y, p.x - c.x);
      expect(toward(end(arms[1]))).toBeCloseTo(toward(last), 3);
      const number = textOf(it, String(it.all('counted').length - 1));
      const middle = { x: number.x, y: number.y - 4 };
      expect(toward(middle)).toBeCloseTo(toward(last), 2);
      expect(between(middle, c)).toBeGreaterThan(length(arms[1]));
      // An arc outside the holes from arm to arm, its arrow the way one counts.
      const arc = it.pieces.filter(({ tag }) => tag['element'] === 'path');
      for (const { from } of arc) expect(between(from, c)).toBeGreaterThan(radius + 5);
      const [tip = NOWHERE, a = NOWHERE, b = NOWHERE] = it.arrows[0] ?? [];
      expect(between(tip, arc[0]?.from ?? NOWHERE)).toBeLessThan(0.01);
      const back = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
      expect((tip.x - c.x) * (back.y - c.y) - (tip.y - c.y) * (back.x - c.x)).toBeLessThan(0);
    },
  );
});

it('an index plate of more holes than can be told apart is not drawn', () => {
  expect(drawn('plain_indexing(199, head)').all('hole')).toHaveLength(158);
  expect(() => drawn('plain_indexing(211, head)')).toThrow('no picture');
});

describe('holes to drill', () => {
  it.each([6, 24, 60])(
    '%d of them have their numbers outside, few enough to read, and a mark each',
    (count) => {
      const it = drawn(`bolt_circle(95 mm, ${count}, start: 30°)`);
      const [c, radius] = [
        { x: it.number('circle', 'cx'), y: it.number('circle', 'cy') },
        it.number('circle', 'r'),
      ];
      const holes = it
        .all('drilled')
        .map((tag) => ({ x: Number(tag['cx']), y: Number(tag['cy']), r: Number(tag['r']) }));
      const side = 2 * radius * Math.sin(Math.PI / count);
      for (const hole of holes) {
        expect(2 * hole.r).toBeLessThan(side);
        expect([hole.r <= 7, hole.r > 1]).toEqual([true, true]);
        const mark = it.pieces.find(
          ({ tag, from, to }) =>
            tag['stroke-width'] === '0.7' &&
            between({ x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 }, hole) < 0.01 &&
            tag['element'] === 'line',
        );
        // Along the radius, a little beyond the hole on both sides.
        expect(between(mark?.from ?? NOWHERE, mark?.to ?? NOWHERE)).toBeCloseTo(2 * hole.r + 6, 1);
        expect(between(mark?.from ?? NOWHERE, c) + between(mark?.to ?? NOWHERE, c)).toBeCloseTo(
          2 * radius,
          1,
        );
      }
      const numbers = it.texts.filter((text) => /^\d+$/.test(text.words));
      const every = count === 60 ? 3 : 1;
      expect(numbers.map((text) => Number(text.words))).toEqual(
        Array.from({ length: count / every }, (_, i) => 1 + i * every),
      );
      for (const { x, y, words } of numbers) {
        const hole = holes[Number(words) - 1] ?? { ...NOWHERE, r: NaN };
        const middle = { x, y: y - 4 };
        expect(between(middle, hole)).toBeLessThan(hole.r + 14);
        expect(between(middle, c)).toBeGreaterThan(radius + hole.r);
      }
      // X to the right, Y up, both beyond the numbers.
      expect(textOf(it, 'X').x).toBeGreaterThan(c.x + radius + 30);
      expect(textOf(it, 'Y').y).toBeLessThan(c.y - radius - 30);
      expect(
        it.arrows.map(([tip = NOWHERE]) => [
          tip.x > c.x + radius + 30 && tip.y === c.y,
          tip.x === c.x && tip.y < c.y - radius - 30,
        ]),
      ).toEqual([
        [true, false],
        [false, true],
      ]);
      const crossed = it.pieces.filter(
        ({ tag }) => tag['stroke-dasharray'] !== undefined && tag['element'] === 'line',
      );
      expect(
        crossed.map(({ from, to }) => [
          (from.x + to.x) / 2,
          (from.y + to.y) / 2,
          between(from, to) > 2 * radius,
        ]),
      ).toEqual([
        [c.x, c.y, true],
        [c.x, c.y, true],
      ]);
    },
  );

  it('are told by the first and how far apart they lie', () => {
    const it = drawn('bolt_circle(95 mm, 6, 10 mm, 20 mm, start: 30°)');
    // By hand: 10 + 47.5 · cos 30° and 20 + 47.5 · sin 30°.
    expect(it.says).toBe(
      '6 holes on a circle of 95 mm; 47.5 mm from each to the next. The first lies at X 51.136 mm, Y 43.75 mm.',
    );
    expect(it.texts.map((text) => text.words).slice(-2)).toEqual(['6 × on Ø95 mm', 'chord 47.5 mm']);
    expect(drawn('bolt_circle(95 mm, 200)').all('drilled')).toHaveLength(200);
    expect(() => drawn('bolt_circle(95 mm, 201)')).toThrow('no picture');
  });
});

describe('circles of holes', () => {
  it('13 divisions: 3 turns and 3 holes of 39 lie between the arms', () => {
    const it = drawn('plain_indexing(13, head)');
    expect(it.all('counted')).toHaveLength(4);
    expect(it.all('hole')).toHaveLength(35);
    const [one, two] = it
      .all('arm')
      .map((arm) => Math.atan2(Number(arm['x2']) - Number(arm['x1']), Number(arm['y1']) - Number(arm['y2'])));
    // Clockwise from the top, as one counts on the plate.
    expect((((two ?? NaN) - (one ?? NaN)) * 39) / (2 * Math.PI)).toBeCloseTo(3, 3);
    expect(it.says).toContain('Each move: 3 turns and 3 holes');
  });

  it('20 divisions: whole turns need no arms', () => {
    const it = drawn('plain_indexing(20, head)');
    expect(it.all('arm')).toHaveLength(0);
    expect(it.all('counted')).toHaveLength(1);
  });

  it('holes to drill lie where the readout has them', () => {
    const it = drawn('bolt_circle(60 mm, 5, 10 mm, 20 mm, 15°)');
    const [cx, cy] = [it.number('circle', 'cx'), it.number('circle', 'cy')];
    const holes = it.all('drilled');
    expect(holes).toHaveLength(5);
    holes.forEach((hole, i) => {
      const angle = ((15 + 72 * i) * Math.PI) / 180;
      expect((Number(hole['cx']) - cx) / it.scale).toBeCloseTo(30 * Math.cos(angle), 2);
      expect((cy - Number(hole['cy'])) / it.scale).toBeCloseTo(30 * Math.sin(angle), 2);
    });
  });
});

describe('bars', () => {
  const limits = (...readings: string[]): Drawn => {
    const sheet = sheetOf('d = 20 mm +0.02/-0.01 mm shaft', ...readings);
    const row = sheet.figure('d');
    const [svg = ''] = row ? picturesOf(sheet, row) : [];
    return read(svg);
  };

  it('readings stand where they lie between the limits', () => {
    const it = limits('d final 20.005 mm, 19.985 mm');
    const [low, high] = [it.number('low', 'x1'), it.number('high', 'x1')];
    expect((high - low) / it.scale).toBeCloseTo(0.03, 5);
    const marks = it.points('reading').map(([tip]) => ((tip?.x ?? NaN) - low) / it.scale + 19.99);
    expect(marks[0]).toBeCloseTo(20.005, 4);
    expect(marks[1]).toBeCloseTo(19.985, 4);
    expect((it.number('nominal', 'x1') - low) / it.scale).toBeCloseTo(0.01, 5);
  });

  it('there is none without readings, nor where the limits would vanish beside the stock', () => {
    expect(limits().svg).toBe('');
    expect(limits('d measured 22 mm').svg).toBe('');
  });

  it.each([
    ['H7', 'g6'],
    ['H7', 'p6'],
    ['K7', 'h6'],
  ])('the zones of 25 %s/%s', (hole, shaft) => {
    const it = drawn(`fit(25 mm, ${hole}, ${shaft})`);
    const zero = it.number('zero', 'y1');
    for (const [name, code] of [
      ['hole', hole],
      ['shaft', shaft],
    ] as const) {
      const found = isoLimits(25, code);
      if (!('upper' in found)) throw new Error(code);
      const [corners = []] = it.points(name);
      const heights = corners.map(({ y }) => (zero - y) / it.scale);
      expect(Math.max(...heights)).toBeCloseTo(found.upper, 1);
      expect(Math.min(...heights)).toBeCloseTo(found.lower, 1);
    }
  });

  it('shares are as long as they are large', () => {
    // Half of 2 · 0.3 against 0.4: by hand 60 % and 40 %.
    const sheet = sheetOf('a = 10 mm ± 0.3', 'b = 10 mm ± 0.2', 'a + b');
    const row = sheet.rows().at(-1);
    const it = read((row && sharesOf(sheet, row)) ?? '');
    const widths = it
      .points('share')
      .map((corners) => ((corners[1]?.x ?? NaN) - (corners[0]?.x ?? NaN)) / it.scale);
    expect(widths[0]).toBeCloseTo(0.6, 4);
    expect(widths[1]).toBeCloseTo(0.4, 4);
    expect(it.says).toContain('a 60 %, b 40 %');
  });

  it('a single input is no share', () => {
    const sheet = sheetOf('a = 10 mm ± 0.3', '2 * a');
    const row = sheet.rows().at(-1);
    expect(row && sharesOf(sheet, row)).toBeNull();
  });
});

describe('the bar of limits', () => {
  const limits = (...readings: string[]): Drawn => drawn('d = 20 mm +0.02/-0.01 mm shaft', ...readings);

  it('has its ends named beneath, what was measured above, each reading a mark that points at the bar', () => {
    const it = limits('d final 20.005 mm, 19.985 mm');
    expect(it.says).toBe('d: limits 19.99 mm to 20.02 mm; final 20.005 mm, 19.985 mm.');
    const [low, high] = [it.number('low', 'x1'), it.number('high', 'x1')];
    const [zone = []] = it.points('zone');
    expect([Math.min(...zone.map(({ x }) => x)), Math.max(...zone.map(({ x }) => x))]).toEqual([low, high]);
    const [top, bottom] = [Math.min(...zone.map(({ y }) => y)), Math.max(...zone.map(({ y }) => y))];
    expect(new Set(zone.map(({ x, y }) => `${x} ${y}`)).size).toBe(4);
    for (const name of ['low', 'high', 'nominal'])
      expect([it.number(name, 'y1') < top, it.number(name, 'y2') > bottom]).toEqual([true, true]);
    expect([textOf(it, '19.99 mm').x, textOf(it, '20.02 mm').x]).toEqual([low, high]);
    for (const words of ['19.99 mm', '20.02 mm'])
      expect(textOf(it, words).y).toBeGreaterThan(it.number('low', 'y2') + 8);
    const marks = it.points('reading');
    for (const [tip = NOWHERE, a = NOWHERE, b = NOWHERE] of marks) {
      expect(tip.y).toBe(top);
      expect([a.y, b.y]).toEqual([top - 10, top - 10]);
      expect([a.x, b.x]).toEqual([expect.closeTo(tip.x - 4.5, 2), expect.closeTo(tip.x + 4.5, 2)]);
    }
    const told = textOf(it, 'final 20.005 mm, 19.985 mm');
    expect(told.y).toBeLessThanOrEqual(top - 16);
    // The line beneath the bar is as long as what is drawn.
    const base = it.pieces.find(({ from, to }) => from.y === bottom && to.y === bottom);
    expect(base?.from.x).toBeLessThanOrEqual(Math.min(low, ...marks.map(([tip]) => tip?.x ?? NaN)));
    expect(base?.to.x).toBeGreaterThan(high);
  });

  it('has words above the middle of the readings, and both ends together where they lie close', () => {
    const few = limits('d measured 20.008 mm, 20.009 mm, 20.01 mm');
    const marks = few.points('reading').map(([tip]) => tip?.x ?? NaN);
    expect(textOf(few, 'measured 20.008 mm, 20.009 mm, 20.01 mm').x).toBeCloseTo(marks[1] ?? NaN, 1);
    expect(words('d = 20 mm ± 0.01', 'd measured 20 mm, 20.003 mm, 20.001 mm, 19.998 mm')).toEqual([
      '19.99 mm',
      '20.01 mm',
      'measured 19.998 mm … 20.003 mm',
    ]);
    const far = drawn('d = 20 mm ± 0.01', 'd measured 20.1 mm');
    expect(far.texts.map((text) => text.words)).toEqual(['19.99 mm … 20.01 mm', 'measured 20.1 mm']);
    const within = drawn('d = 20 mm ± 0.01', 'd measured 19.91 mm, 20.09 mm');
    expect(textOf(within, '19.99 mm … 20.01 mm').x).toBeCloseTo(
      (within.number('low', 'x1') + within.number('high', 'x1')) / 2,
      2,
    );
    const still = drawn('d = 20 mm ± 0.01', 'd measured 20.05 mm');
    expect(textOf(still, '19.99 mm … 20.01 mm').x).toBeGreaterThanOrEqual(still.number('low', 'x1'));
  });

  it('is of the last readings, and of no more than fit', () => {
    expect(limits('d measured 20.5 mm', 'd measured 20.1 mm').says).toContain('measured 20.1 mm.');
    expect(limits('d measured 20.1 mm', 'd final 20.01 mm').says).toContain('final 20.01 mm.');
    const many = Array.from({ length: 30 }, () => '20 mm').join(', ');
    expect(limits(`d measured ${many}`).all('reading')).toHaveLength(24);
    // A part with much still on it would squeeze its limits to nothing; of no width there is nothing to draw.
    expect(limits('d measured 20.34 mm').all('zone')).toHaveLength(1);
    expect(() => limits('d measured 20.35 mm')).toThrow('no picture');
    expect(() => drawn('e = 20 mm ± 0', 'e measured 20 mm')).toThrow('no picture');
    // What is no figure has none.
    expect(() => drawn('1 mm <= 2 mm')).toThrow('no picture');
  });
});

describe('the zones of a fit', () => {
  it.each([
    [
      'H7',
      'g6',
      'clearance fit: clearance 7 µm to 41 µm',
      ['+21', '−7', '−20'],
      '0 to +21 µm, the shaft −20 to −7 µm',
    ],
    [
      'H7',
      'p6',
      'interference fit: clearance -35 µm to -1 µm',
      ['+21', '+35', '+22'],
      '0 to +21 µm, the shaft +22 to +35 µm',
    ],
    [
      'K7',
      'h6',
      'transition fit: clearance -15 µm to 19 µm',
      ['+6', '−15', '−13'],
      '−15 to +6 µm, the shaft −13 to 0 µm',
    ],
    [
      'H11',
      'g5',
      'clearance fit: clearance 7 µm to 146 µm',
      ['+130', '−7', '−16'],
      '0 to +130 µm, the shaft −16 to −7 µm',
    ],
  ])(
    '%s/%s have their codes in or beside them, their deviations at their edges',
    (hole, shaft, title, deviations, said) => {
      const it = drawn(`fit(25 mm, ${hole}, ${shaft})`);
      const zero = it.number('zero', 'y1');
      expect(it.says).toContain(
        `25 mm ${hole}/${shaft}: the hole lies ${said} from the nominal size; ${title.split(': ')[1] ?? ''}`,
      );
      expect(it.texts.map((text) => text.words).sort()).toEqual(
        [title, '0', hole, shaft, ...deviations, 'hole', 'shaft', 'µm about 25 mm'].sort(),
      );
      expect(it.number('zero', 'y2')).toBe(zero);
      expect(it.number('zero', 'x1')).toBeLessThan(textOf(it, 'hole').x);
      expect(it.number('zero', 'x2')).toBeGreaterThan(textOf(it, 'shaft').x + 60);
      expect(textOf(it, '0').x).toBeLessThan(it.number('zero', 'x1'));
      expect(Math.abs(textOf(it, '0').y - 4 - zero)).toBeLessThan(0.01);
      for (const [name, code] of [
        ['hole', hole],
        ['shaft', shaft],
      ] as const) {
        const [corners = []] = it.points(name);
        const [left, right] = [
          Math.min(...corners.map(({ x }) => x)),
          Math.max(...corners.map(({ x }) => x)),
        ];
        const [top, bottom] = [
          Math.min(...corners.map(({ y }) => y)),
          Math.max(...corners.map(({ y }) => y)),
        ];
        // An outline all round.
        const [round] = outlines(it).filter(
          ({ tag, points }) => tag['element'] === 'polyline' && points.length === 5 && points[0]?.x === left,
        );
        expect(round?.points.slice(0, 4)).toEqual(corners);
        expect(round?.points[4]).toEqual(corners[0]);
        expect(new Set(corners.map(({ x, y }) => `${x} ${y}`)).size).toBe(4);
        const label = textOf(it, code);
        expect(Math.abs(label.y - 4 - (top + bottom) / 2)).toBeLessThan(0.01);
        if (bottom - top > 14) expect(label.x).toBe((left + right) / 2);
        else expect(label.x).toBeLessThan(left);
        expect(textOf(it, name).x).toBe((left + right) / 2);
        expect(textOf(it, name).y).toBeGreaterThan(bottom);
        // A deviation stands right of its zone, level with its edge; nothing is said of the zero line.
        const beside = it.texts.filter(
          ({ words, x }) => deviations.includes(words) && x > right && x < right + 20,
        );
        for (const { words, y } of beside) {
          const height = zero - Number(words.replace('−', '-')) * it.scale;
          expect(Math.abs(y - 4 - height)).toBeLessThan(7);
        }
        expect(beside).toHaveLength(
          deviations.filter((it) => isoLimitsOf(25, code).includes(Number(it.replace('−', '-')))).length,
        );
      }
      expect(textOf(it, title).y).toBeLessThan(40);
    },
  );
});

describe('the shares of inputs', () => {
  const eleven = drawn(
    ...Array.from({ length: 11 }, (_, i) => `part_${i} = 10 mm ± ${(12 - i) / 100} mm`),
    `total = ${Array.from({ length: 11 }, (_, i) => `part_${i}`).join(' + ')}`,
  );

  it('stand one below the other, the largest first, eight at most', () => {
    // 12 of 77, by hand: the widths are 12, 11, … 2 hundredths.
    expect(eleven.says).toMatch(
      /^Where the limits of total come from: part_0 16 %, part_1 14 %, .*part_7 6 %\.$/,
    );
    const bars = eleven.points('share');
    expect(bars).toHaveLength(8);
    const [axis] = eleven.pieces;
    bars.forEach((corners, i) => {
      const [name, percent] = [eleven.texts[2 * i] ?? NOWHERE, eleven.texts[2 * i + 1] ?? NOWHERE];
      const [left, right] = [Math.min(...corners.map(({ x }) => x)), Math.max(...corners.map(({ x }) => x))];
      const [top, bottom] = [Math.min(...corners.map(({ y }) => y)), Math.max(...corners.map(({ y }) => y))];
      expect([corners.length, left]).toEqual([4, axis?.from.x]);
      expect(new Set(corners.map(({ x, y }) => `${x} ${y}`)).size).toBe(4);
      for (const { y } of [name, percent]) expect([y > top, y < bottom]).toEqual([true, true]);
      expect([name.x < left, percent.x > right]).toEqual([true, true]);
      if (i > 0) expect(top).toBeGreaterThan(Math.max(...(bars[i - 1] ?? []).map(({ y }) => y)));
      expect([top > (axis?.from.y ?? NaN), bottom < (axis?.to.y ?? NaN)]).toEqual([true, true]);
    });
    expect(bars[0]?.[1]?.x).toBeGreaterThan(bars[7]?.[1]?.x ?? NaN);
  });

  it('leave out what moves nothing, and are none of limits that were asked', () => {
    for (const line of ['a + b - b', 'max(a, b)', 'round(a + b, 100 mm)']) {
      const only = sheetOf('a = 10 mm ± 0.3', 'b = 5 mm ± 0.2', line);
      const last = only.rows().at(-1);
      expect(last && sharesOf(only, last)).toBeNull();
    }
    const sheet = sheetOf('a = 10 mm ± 0.3', 'b = 10 mm ± 0.2', 'c = a + b ± 1 mm');
    const row = sheet.figure('c');
    expect(row && sharesOf(sheet, row)).toBeNull();
  });
});

describe('a taper between centres', () => {
  it('has its sizes at its ends, the length of the work beneath, and the tailstock’s centre aside', () => {
    const it = drawn('tailstock_setover(30 mm, 26 mm, 100 mm, 180 mm)');
    const [cone = []] = it.points('cone');
    const [a = NOWHERE, b = NOWHERE, c = NOWHERE, d = NOWHERE, round] = cone;
    expect(round).toEqual(a);
    const axis = (a.y + d.y) / 2;
    expect((b.y + c.y) / 2).toBeCloseTo(axis, 2);
    expect([b.x, a.x]).toEqual([c.x, d.x]);
    // The rest of the work goes on from the small end as a cylinder.
    const rest =
      outlines(it).find(({ points }) => points.length === 4 && points[0]?.x === b.x && points[0].y === b.y)
        ?.points ?? [];
    expect(rest[3]).toEqual(c);
    expect([rest[1]?.y, rest[2]?.y]).toEqual([b.y, c.y]);
    expect((rest[1]?.x ?? NaN) - a.x).toBeCloseTo(180 * it.scale, 1);
    expect(rest[1]?.x).toBe(rest[2]?.x);
    const between_ = it.all('between')[0];
    expect([start(between_).x, end(between_).x]).toEqual([a.x, rest[1]?.x]);
    expect(start(between_).y).toBeGreaterThan(d.y);
    const along = it.all('taper-length')[0];
    expect([start(along).x, end(along).x, start(along).y < a.y]).toEqual([a.x, b.x, true]);
    const large = it.all('large')[0];
    expect([start(large).y, end(large).y, start(large).x < a.x]).toEqual([a.y, d.y, true]);
    expect(it.texts.map((text) => text.words)).toEqual([
      'Ø30 mm',
      '100 mm',
      '180 mm',
      'Ø26 mm',
      'set over 3.6 mm',
      '(not to scale)',
    ]);
    expect(textOf(it, 'Ø30 mm').x).toBeLessThan(start(large).x);
    expect(Math.abs(textOf(it, 'Ø30 mm').y - 4 - axis)).toBeLessThan(0.01);
    expect([textOf(it, 'Ø26 mm').x > b.x, textOf(it, 'Ø26 mm').y < b.y]).toEqual([true, true]);
    expect(it.says).toBe(
      'Taper from 30 mm to 26 mm over 100 mm, on work of 180 mm between centres: tailstock set over by 3.6 mm.',
    );
    // Two level centre lines, of the work and of the tailstock moved aside towards the reader.
    const [own, moved] = it.pieces.filter(({ tag }) => tag['stroke-dasharray'] === '12 2.5 1 2.5');
    expect([own?.from.y, own?.to.y]).toEqual([axis, axis]);
    expect([(own?.from.x ?? NaN) < a.x, (own?.to.x ?? NaN) > (rest[1]?.x ?? NaN)]).toEqual([true, true]);
    expect(moved?.from.y).toBeGreaterThan(axis);
    expect(moved?.to.y).toBe(moved?.from.y);
    expect(moved?.to.x).toBeGreaterThan(rest[1]?.x ?? NaN);
    const centre =
      outlines(it).find(({ tag }) => tag['stroke-dasharray'] === '12 2.5 1 2.5 1 2.5')?.points ?? [];
    // Its point towards the work, on its own line.
    expect(centre[1]?.y).toBe(moved?.from.y);
    expect([centre[0]?.x, centre[2]?.x].map((x) => (x ?? NaN) > (centre[1]?.x ?? NaN))).toEqual([true, true]);
    expect([
      (centre[0]?.y ?? NaN) < (centre[1]?.y ?? NaN),
      (centre[2]?.y ?? NaN) > (centre[1]?.y ?? NaN),
    ]).toEqual([true, true]);
    for (const words of ['set over 3.6 mm', '(not to scale)']) {
      expect(textOf(it, words).x).toBeGreaterThan(rest[1]?.x ?? NaN);
      expect(textOf(it, words).y).toBeGreaterThan(centre[2]?.y ?? NaN);
    }
    expect(textOf(it, '(not to scale)').y).toBeGreaterThan(textOf(it, 'set over 3.6 mm').y + 10);
  });

  it('fills its frame along or across, whichever is first', () => {
    const wide = drawn('tailstock_setover(60 mm, 20 mm, 40 mm, 60 mm)');
    const [a = NOWHERE, , , d = NOWHERE] = wide.points('cone')[0] ?? [];
    expect(d.y - a.y).toBeCloseTo(110, 1);
    expect(length(drawn('tailstock_setover(12 mm, 10 mm, 30 mm, 400 mm)').all('between')[0])).toBeCloseTo(
      300,
      1,
    );
  });

  it('is drawn to scale along and across', () => {
    const it = drawn('tailstock_setover(30 mm, 26 mm, 100 mm, 180 mm)');
    const [cone = []] = it.points('cone');
    const [a, b, c, d] = cone;
    expect(((b?.x ?? 0) - (a?.x ?? 0)) / it.scale).toBeCloseTo(100, 2);
    expect(((d?.y ?? 0) - (a?.y ?? 0)) / it.scale).toBeCloseTo(30, 2);
    expect(((c?.y ?? 0) - (b?.y ?? 0)) / it.scale).toBeCloseTo(26, 2);
    expect(length(it.all('between')[0]) / it.scale).toBeCloseTo(180, 2);
  });
});

describe('a taper found from readings', () => {
  const sizes = [18.242, 18.251, 18.266];
  const places = [10, 88, 166];
  const list = (values: number[]): string => `[${values.join(', ')}] mm`;

  it('has each reading where it was taken, and the line that fits them best', () => {
    const it = drawn(`taper_found(${list(sizes)}, ${list(places)})`);
    const points = it.all('reading').map((tag) => ({ x: Number(tag['cx']), y: Number(tag['cy']) }));
    const along = (i: number): number =>
      ((points[i]?.x ?? 0) - (points[0]?.x ?? 0)) / ((points[2]?.x ?? 0) - (points[0]?.x ?? 0));
    expect(along(1)).toBeCloseTo((88 - 10) / (166 - 10), 4);
    const higher = (i: number): number => ((points[0]?.y ?? 0) - (points[i]?.y ?? 0)) / it.scale;
    expect(higher(1)).toBeCloseTo(0.009, 5);
    expect(higher(2)).toBeCloseTo(0.024, 5);
    // Least squares by hand: the places are evenly spaced, so the line rises by the ends' difference, through the mean.
    const [line] = it.all('fitted');
    expect((Number(line?.['y1']) - Number(line?.['y2'])) / it.scale).toBeCloseTo(0.024, 5);
    const meanY = points.reduce((sum, { y }) => sum + y / 3, 0);
    expect((Number(line?.['y1']) + Number(line?.['y2'])) / 2).toBeCloseTo(meanY, 2);
    expect(it.says).toContain('18.242 mm at 10 mm, 18.251 mm at 88 mm, 18.266 mm at 166 mm');
    expect(it.says).toContain('larger towards the tailstock: 0.024 mm');
  });

  it('says how far the tailstock goes to take it out', () => {
    // Half of 0.03 in 60, over 180: 0.045.
    const it = drawn('tailstock_correction([12.76, 12.73] mm, [10, 70] mm, 180 mm)');
    expect(it.says).toContain('tailstock 0.045 mm away from the operator');
  });

  it.each([
    [sizes, places],
    [[18.266, 18.251, 18.242], places],
    [
      [18.1, 18.2, 18.15, 18.22, 18.3, 18.25, 18.4],
      [10, 20, 30, 40, 50, 60, 166],
    ],
    [
      [18.1, 18.2, 18.15, 18.22, 18.3, 18.4],
      [10, 20, 30, 40, 50, 166],
    ],
    [
      [18, 18],
      [10, 88],
    ],
  ])('%j at %j: the size of every few beside its point and off the line, its place beneath', (these, at) => {
    const it = drawn(`taper_found(${list(these)}, ${list(at)})`);
    const points = it.all('reading').map((tag) => ({ x: Number(tag['cx']), y: Number(tag['cy']) }));
    const [fitted] = it.all('fitted');
    const slope = (end(fitted).y - start(fitted).y) / (end(fitted).x - start(fitted).x);
    const line = (x: number): number => start(fitted).y + slope * (x - start(fitted).x);
    expect([start(fitted).x, end(fitted).x]).toEqual([points[0]?.x, points.at(-1)?.x]);
    const named = points.filter((_, i) => i % Math.ceil(points.length / 5) === 0 || i === points.length - 1);
    const sizeTexts = it.texts.filter((text) => text.words.startsWith('18'));
    const placeTexts = it.texts.filter(({ words, anchor }) => anchor === 'middle' && words.length < 10);
    expect([sizeTexts.length, placeTexts.length]).toEqual([named.length, named.length]);
    named.forEach((point, i) => {
      const [size = NOWHERE, place = NOWHERE] = [sizeTexts[i], placeTexts[i]];
      expect(place.x).toBe(point.x);
      expect(Math.abs(size.x - point.x)).toBeLessThan(8);
      expect(Math.abs(size.y - point.y)).toBeLessThan(20);
      // On the side of the line where its point lies.
      if (Math.abs(point.y - line(point.x)) > 1)
        expect(Math.sign(size.y - 4 - point.y)).toBe(Math.sign(point.y - line(point.x)));
    });
    // Ticks on the axis beneath, one for each reading; the axis runs from head to tail.
    const ticks = it.pieces.filter(({ from, to, tag }) => from.x === to.x && tag['stroke-width'] === '0.7');
    expect(ticks.map(({ from }) => from.x)).toEqual(points.map(({ x }) => x));
    const axis = it.pieces.find(({ from, to, tag }) => from.y === to.y && tag['data-is'] === undefined);
    for (const { from, to } of ticks)
      expect([from.y < (axis?.from.y ?? NaN), to.y > (axis?.from.y ?? NaN)]).toEqual([true, true]);
    for (const place of placeTexts) expect(place.y).toBeGreaterThan((ticks[0]?.to.y ?? NaN) + 8);
    expect([
      textOf(it, 'head').x < (axis?.from.x ?? NaN),
      textOf(it, 'tail').x > (axis?.to.x ?? NaN),
    ]).toEqual([true, true]);
    expect([
      (axis?.from.x ?? NaN) < (points[0]?.x ?? NaN),
      (axis?.to.x ?? NaN) > (points.at(-1)?.x ?? NaN),
    ]).toEqual([true, true]);
    for (const { y } of points) expect([y > 40, y < (axis?.from.y ?? NaN) - 10]).toEqual([true, true]);
    // The line of no taper, level from where the fitted one begins.
    const [straight] = it.all('straight');
    expect([start(straight).y, end(straight).y]).toEqual([start(fitted).y, start(fitted).y]);
    expect([start(straight).x < start(fitted).x, end(straight).x > end(fitted).x]).toEqual([true, true]);
  });

  it('fills its height with what is drawn, and is told by its verdict', () => {
    const it = drawn(`taper_found(${list(sizes)}, ${list(places)})`);
    const heights = [
      ...it.all('reading').map((tag) => Number(tag['cy'])),
      it.number('fitted', 'y1'),
      it.number('fitted', 'y2'),
    ];
    expect(it.number('fitted', 'x2') - it.number('fitted', 'x1')).toBe(300);
    expect([Math.min(...heights), Math.max(...heights)]).toEqual([
      expect.closeTo(44, 1),
      expect.closeTo(136, 1),
    ]);
    expect(it.texts.at(-1)).toMatchObject({
      words: 'larger towards the tailstock: 0.024 mm (diameters drawn larger)',
    });
    expect(words('tailstock_correction([12.76, 12.76] mm, [10, 70] mm, 180 mm)').at(-1)).toBe(
      'no taper (diameters drawn larger)',
    );
    expect(words('tailstock_correction([12.73, 12.76] mm, [10, 70] mm, 180 mm)').at(-1)).toBe(
      'tailstock 0.045 mm towards the operator (diameters drawn larger)',
    );
    const level = drawn('taper_found([18, 18] mm, [10, 88] mm)');
    expect(level.number('fitted', 'y1')).toBe(90);
    const many = (count: number): string =>
      `taper_found(${list(Array.from({ length: count }, (_, i) => 18 + i / 1000))}, ${list(Array.from({ length: count }, (_, i) => i))})`;
    expect(drawn(many(40)).all('reading')).toHaveLength(40);
    expect(() => drawn(many(41))).toThrow('no picture');
  });

  it('is not drawn of readings without places', () => {
    expect(() => drawn('taper_found([12.76, 12.73] mm, [10, 10] mm)')).toThrow('no picture');
  });
});

describe('a thread under three wires', () => {
  const apart = (p: { x: number; y: number }, a: typeof p, b: typeof p): number => {
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const t = Math.max(0, Math.min(1, ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy)));
    return Math.hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
  };

  it.each([
    ['over_wires(10.8632 mm, 1.75 mm, 1.1 mm)', 1.75, 1.1, 60],
    ['over_wires(20 mm, 5 mm, 2.6 mm, thread_angle: 29°)', 5, 2.6, 29],
    ['pitch_diameter_of(22.1506 mm, 2.54 mm, 1.45 mm, thread_angle: 55°)', 2.54, 1.45, 55],
    ['screw_over_wires(M18, 1.6 mm)', 2.5, 1.6, 60],
  ])('%s: each wire is to scale and touches both flanks', (line, pitch, wire, angle) => {
    const it = drawn(line);
    const wires = it.all('wire').map((tag) => ({
      x: Number(tag['cx']),
      y: Number(tag['cy']),
      r: Number(tag['r']),
    }));
    expect(wires).toHaveLength(3);
    expect(((wires[1]?.x ?? 0) - (wires[0]?.x ?? 0)) / it.scale).toBeCloseTo(pitch, 3);
    const [above = [], below = []] = [...it.points('thread-above'), ...it.points('thread-below')];
    wires.forEach((at, i) => {
      expect((2 * at.r) / it.scale).toBeCloseTo(wire, 3);
      const form = i < 2 ? above : below;
      const near = form.slice(1).map((point, k) => apart(at, form[k] ?? point, point) - at.r);
      // Two flanks are touched, and no part of the thread reaches into the wire.
      expect(near.filter((gap) => Math.abs(gap) < 0.01).length).toBeGreaterThanOrEqual(2);
      expect(Math.min(...near)).toBeGreaterThan(-0.01);
    });
    const slopes = above
      .slice(1)
      .map(({ x, y }, k) => Math.abs((x - (above[k]?.x ?? 0)) / (y - (above[k]?.y ?? 0))));
    const flank = slopes.find((slope) => Number.isFinite(slope) && slope < 5) ?? 0;
    expect((2 * Math.atan(flank) * 180) / Math.PI).toBeCloseTo(angle, 0);
  });

  it('is not drawn with wires that lie in the groove or stand far out of it', () => {
    expect(() => drawn('over_wires(10.8632 mm, 1.75 mm, 0.2 mm)')).toThrow('no picture');
    expect(() => drawn('over_wires(10.8632 mm, 1.75 mm, 2.6 mm)')).toThrow('no picture');
  });

  it.each([
    'screw_over_wires(M18)',
    'screw_over_wires(M18, 2.4 mm)',
    'over_wires(20 mm, 5 mm, 2.6 mm, thread_angle: 29°)',
  ])('%s: its forms are regular, four pitches long, and its sizes stand where they are taken', (line) => {
    const it = drawn(line);
    const [above = [], below = []] = [...it.points('thread-above'), ...it.points('thread-below')];
    const pitch = Number(it.all('wire')[1]?.['cx']) - Number(it.all('wire')[0]?.['cx']);
    const lines = it.pieces.filter(({ tag }) => tag['stroke-dasharray'] !== undefined);
    expect(lines.map(({ from, to }) => from.y === to.y)).toEqual([true, true, true]);
    const [top = NaN, bottom = NaN, middle = NaN] = lines.map(({ from }) => from.y);
    expect(middle).toBeCloseTo((top + bottom) / 2, 2);
    for (const [form, side, at] of [
      [above, -1, top],
      [below, 1, bottom],
    ] as const) {
      const heights = form.map(({ y }) => side * (y - at));
      // A crest and a root, both flat, on either side of the pitch line.
      const [crest, root] = [Math.max(...heights), Math.min(...heights)];
      // ISO 68-1: 3/8 and 1/4 of the triangle's height, which is 0.866 of the pitch; ISO 2904: a quarter of the pitch.
      const steep = line.includes('29°');
      expect([crest / pitch, -root / pitch]).toEqual([
        expect.closeTo(steep ? 0.25 : 0.3248, 3),
        expect.closeTo(steep ? 0.25 : 0.2165, 3),
      ]);
      for (const height of heights)
        expect(Math.min(Math.abs(height - crest), Math.abs(height - root))).toBeLessThan(0.01);
      for (const [i, { x }] of form.entries()) {
        const next = form[i + 4];
        if (next) expect(next.x - x).toBeCloseTo(pitch, 2);
        if (i > 0) expect(x).toBeGreaterThan(form[i - 1]?.x ?? NaN);
      }
      const wide = (form.at(-1)?.x ?? NaN) - (form[0]?.x ?? NaN);
      expect([wide > 3.3 * pitch, wide <= 4.1 * pitch]).toEqual([true, true]);
      expect(form[0]?.x).toBeGreaterThan(lines[0]?.from.x ?? NaN);
    }
    for (const { from, to } of lines)
      expect([from.x < (above[0]?.x ?? NaN), to.x > (above.at(-1)?.x ?? NaN)]).toEqual([true, true]);
    for (const name of ['over', 'pitch-diameter'])
      expect(start(it.all(name)[0]).x).toBe(end(it.all(name)[0]).x);
    // Over the outer sides of the wires, and between the pitch lines.
    const wires = it
      .all('wire')
      .map((tag) => ({ x: Number(tag['cx']), y: Number(tag['cy']), r: Number(tag['r']) }));
    const over = it.all('over')[0];
    expect([start(over).y, end(over).y]).toEqual([
      expect.closeTo((wires[0]?.y ?? NaN) - (wires[0]?.r ?? NaN), 2),
      expect.closeTo((wires[2]?.y ?? NaN) + (wires[2]?.r ?? NaN), 2),
    ]);
    expect(start(over).x).toBeLessThan(above[0]?.x ?? NaN);
    const reaches = it.pieces.filter(
      ({ from, to, tag }) =>
        tag['stroke-width'] === '0.7' && from.y === to.y && from.x < start(over).x && to.x > start(over).x,
    );
    expect(reaches.map(({ from, to }) => [from.y, to.x])).toEqual([
      [start(over).y, wires[0]?.x],
      [end(over).y, wires[2]?.x],
    ]);
    const size = it.all('pitch-diameter')[0];
    expect([start(size).y, end(size).y]).toEqual([top, bottom]);
    expect(start(size).x).toBeGreaterThan(above.at(-1)?.x ?? NaN);
    expect(start(size).x).toBeLessThan(lines[0]?.to.x ?? NaN);
    const between_ = it.all('pitch')[0];
    expect([start(between_).x, end(between_).x]).toEqual([
      expect.closeTo((wires[0]?.x ?? NaN) - 16 * Number(length(between_) > pitch + 1), 2),
      expect.closeTo((wires[1]?.x ?? NaN) + 16 * Number(length(between_) > pitch + 1), 2),
    ]);
    expect(start(between_).y).toBeLessThan((wires[0]?.y ?? NaN) - (wires[0]?.r ?? NaN));
    expect(wires[2]?.x).toBeCloseTo(((wires[0]?.x ?? NaN) + (wires[1]?.x ?? NaN)) / 2, 2);
    const names = it.texts.map((text) => text.words);
    expect(names[3]).toBe('over wires');
    for (const words of [names[2] ?? '', 'over wires']) {
      expect(textOf(it, words).x).toBeLessThan(start(over).x);
      expect(Math.abs(textOf(it, words).y - middle)).toBeLessThan(20);
    }
    expect(textOf(it, 'over wires').y).toBeGreaterThan(textOf(it, names[2] ?? '').y + 10);
    expect([textOf(it, names[4] ?? '').x < start(size).x, textOf(it, names[4] ?? '').y < middle]).toEqual([
      true,
      true,
    ]);
    const short = textOf(it, 'core drawn short');
    expect([short.x, short.y > (wires[2]?.y ?? NaN) + (wires[2]?.r ?? NaN) + 8]).toEqual([wires[2]?.x, true]);
  });

  it('says the size over the wires and the pitch diameter', () => {
    // As the worked check of over_wires has it, by numeric tangency.
    const { says } = drawn('pitch_diameter_of(12.6477 mm, 1.75 mm, 1.1 mm)');
    expect(says).toContain('12.648 mm over the wires at a pitch diameter of 10.863 mm');
  });
});

describe('every picture', () => {
  const named = allFormulas().filter(({ picture }) => picture !== null);

  it('that a formula names is there, and each that is there is named', () => {
    expect(new Set(named.map(({ picture }) => picture))).toEqual(new Set(PICTURES.keys()));
  });

  const lines = [
    'ball_on_shank(30 mm, 12 mm)',
    'ball_on_shank(30 mm, 24 mm)',
    'knee_schedule(26 mm, 25.34 mm, 12.7°, 26.5 mm, 13.2 mm, 2 mm)',
    'plain_indexing(13, head)',
    'fit(25 mm, H7, g6)',
    'fit(25 mm, H7, p6)',
    'bolt_circle(95 mm, 6, start: 30°)',
    'tailstock_setover(30 mm, 29 mm, 250 mm, 250 mm)',
    'taper_found([18.242, 18.251, 18.266] mm, [10, 88, 166] mm)',
    'screw_over_wires(M36x1.5-6g, 0.895 mm)',
    'over_wires(20 mm, 5 mm, 2.6 mm, thread_angle: 29°)',
    'screw_over_wires(M18, 2.4 mm)',
  ];

  it('is among those looked at here', () => {
    const looked = lines.map((line) => named.find(({ name }) => line.startsWith(`${name}(`))?.picture);
    expect(new Set(looked)).toEqual(new Set(PICTURES.keys()));
  });

  it.each(lines)('of %s is in the text colour only, and can be read aloud', (line) => {
    const { svg, says } = drawn(line);
    expect(svg).not.toMatch(/#[0-9a-f]{3}|rgb|style=|url\(/i);
    for (const [, colour] of svg.matchAll(/(?:fill|stroke)="([^"]*)"/g))
      expect(['none', 'currentColor']).toContain(colour);
    expect(says.length).toBeGreaterThan(30);
    expect(svg).not.toContain('NaN');
  });

  it('shows its figures in the units asked for', () => {
    const sheet = sheetOf('ball_on_shank(30 mm, 12 mm)');
    const row = sheet.rows().at(-1);
    const [svg = ''] = row ? picturesOf(sheet, row, { ...PREVIEW, units: 'in' }) : [];
    expect(svg).toContain('ring Ø1.1562 in');
  });
});
