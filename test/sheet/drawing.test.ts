/** Lines, dimensions and hatching as the trade draws them (ISO 128-2, ISO 129-1), read back from what is drawn. */
import { describe, expect, it } from 'vitest';
import {
  type Point,
  angle,
  arc,
  arrow,
  at,
  circle,
  diameter,
  dimension,
  dot,
  hatch,
  line,
  path,
  polar,
  solid,
  svg,
  text,
} from '../../src/sheet/picture/draw';
import { type Drawn, type Place, apart, end, length, read, start } from './drawn';

const of = (...inner: string[]): Drawn => read(svg({ width: 200, height: 200, says: 'words' }, ...inner));
/** Where the middle of an arrow's back is seen from its tip: the unit vector it points along. */
const points = ([tip, a, b]: readonly Place[]): Place => {
  if (!tip || !a || !b) throw new Error('no arrow');
  const [x, y] = [tip.x - (a.x + b.x) / 2, tip.y - (a.y + b.y) / 2];
  return { x: x / Math.hypot(x, y), y: y / Math.hypot(x, y) };
};
const close = ({ x, y }: Point): Point => ({
  x: expect.closeTo(x, 2) as number,
  y: expect.closeTo(y, 2) as number,
});

describe('lines', () => {
  it('are wide where edges are seen, widest where the cutter goes, dashed where they are axes', () => {
    const pen = (['outline', 'thin', 'centre', 'phantom', 'cut'] as const).map((type) => {
      const [, tag] = of(line(at(0, 0), at(1, 0), type)).tags;
      return [Number(tag?.['stroke-width']), tag?.['stroke-dasharray']];
    });
    const [outline, thin, centre, phantom, cut] = pen.map(([width]) => Number(width));
    expect(outline).toBeGreaterThan(thin ?? NaN);
    expect(cut).toBeGreaterThan(outline ?? NaN);
    expect([centre, phantom]).toEqual([thin, thin]);
    // Long dash and one dot, long dash and two dots: each dash and each gap is a number.
    expect(pen.map(([, dashes]) => (typeof dashes === 'string' ? dashes.split(' ').length : 0))).toEqual([
      0, 0, 4, 6, 0,
    ]);
  });

  it('lie where they are told, with y down and angles anticlockwise from the right', () => {
    expect(start(of(line(at(1, 2), at(3, 4.00049), 'thin', 'it')).all('it')[0])).toEqual({ x: 1, y: 2 });
    expect(end(of(line(at(1, 2), at(3, 4.00049), 'thin', 'it')).all('it')[0])).toEqual({ x: 3, y: 4 });
    expect(polar(at(100, 100), 10, 0)).toEqual(close(at(110, 100)));
    expect(polar(at(100, 100), 10, 90)).toEqual(close(at(100, 90)));
    expect(polar(at(100, 100), 10, 210)).toEqual(close(at(91.3397, 105)));
    expect(of(path([at(1, 2), at(3, 4)], 'thin', 'it')).points('it')).toEqual([[at(1, 2), at(3, 4)]]);
    expect(of(circle(at(5, 6), 7, 'thin', 'it')).all('it')[0]).toMatchObject({
      cx: '5',
      cy: '6',
      r: '7',
      fill: 'none',
    });
    expect(of(dot(at(5, 6), 7, 'it')).all('it')[0]).toMatchObject({
      cx: '5',
      cy: '6',
      r: '7',
      fill: 'currentColor',
    });
  });

  it('areas are filled, or shaded where they say how much', () => {
    const corners = [at(0, 0), at(9, 0), at(9, 9)];
    expect(of(solid(corners, 1, 'it')).all('it')[0]).not.toHaveProperty('fill-opacity');
    expect(of(solid(corners, 0.2, 'it')).all('it')[0]).toMatchObject({ 'fill-opacity': '0.2' });
  });

  it.each([
    [0, 90],
    [90, 300],
    [10, 200],
    [0, 170],
  ])('an arc goes anticlockwise from %d° to %d°', (from, to) => {
    const { pieces } = of(arc(at(100, 100), 50, from, to, 'thin'));
    const [first, middle, last] = [pieces[0]?.from, pieces[30]?.from, pieces.at(-1)?.to];
    expect(first).toEqual(close(polar(at(100, 100), 50, from)));
    expect(middle).toEqual(close(polar(at(100, 100), 50, (from + to) / 2)));
    expect(last).toEqual(close(polar(at(100, 100), 50, to)));
  });

  it('words are turned about their own place, or not at all', () => {
    expect(of(text(at(10, 20), 'a & b', 'end', -30)).svg).toContain(
      '<text x="10" y="20" text-anchor="end" font-size="12" fill="currentColor" transform="rotate(-30 10 20)">a &amp; b</text>',
    );
    expect(of(text(at(10, 20), 'a')).svg).toContain(
      'text-anchor="middle" font-size="12" fill="currentColor">a<',
    );
  });

  it('an arrowhead is slender and points away from where it comes from', () => {
    for (const [x, y] of [
      [1, 0],
      [0, -1],
      [-0.6, 0.8],
    ] as const) {
      const [head = []] = of(arrow(at(50, 50), at(50 - 9 * x, 50 - 9 * y))).arrows;
      expect(head[0]).toEqual(at(50, 50));
      expect(points(head)).toEqual(close(at(x, y)));
      const [, a = at(0, 0), b = at(0, 0)] = head;
      expect(apart(at(50, 50), a)).toBeCloseTo(apart(at(50, 50), b), 2);
      expect(apart(a, b)).toBeLessThan(apart(at(50, 50), a) / 2);
      expect(apart(a, b)).toBeGreaterThan(1);
    }
    // From nowhere it is drawn all the same.
    expect(of(arrow(at(5, 5), at(5, 5))).svg).not.toContain('NaN');
  });
});

describe('a dimension', () => {
  // From, to, away to the left of the way; where its line then lies, and how its words are turned.
  it.each([
    ['to the right, above', at(20, 100), at(120, 100), 30, at(20, 70), at(120, 70), 0],
    ['to the right, below', at(20, 100), at(120, 100), -30, at(20, 130), at(120, 130), 0],
    ['to the left', at(120, 100), at(20, 100), 30, at(120, 130), at(20, 130), 0],
    ['upwards', at(100, 150), at(100, 50), 30, at(70, 150), at(70, 50), -90],
    ['downwards', at(100, 50), at(100, 150), 30, at(130, 50), at(130, 150), -90],
    ['rising', at(40, 140), at(140, 40), 28.2843, at(20, 120), at(120, 20), -45],
    ['falling', at(40, 40), at(140, 140), 28.2843, at(60, 20), at(160, 120), 45],
    ['rising to the left', at(140, 140), at(40, 40), 28.2843, at(120, 160), at(20, 60), 45],
  ])('%s', (_, a, b, offset, from, to, turned) => {
    const drawn = of(dimension(a, b, offset, '100', 'it'));
    const [tag] = drawn.all('it');
    expect([start(tag), end(tag)]).toEqual([close(from), close(to)]);
    // Arrows at both ends, pointing outwards.
    const out = at((b.x - a.x) / apart(a, b), (b.y - a.y) / apart(a, b));
    expect(drawn.arrows.map(([tip]) => tip)).toEqual([close(from), close(to)]);
    expect(drawn.arrows.map(points)).toEqual([close(at(-out.x, -out.y)), close(out)]);
    // Extension lines begin clear of the work and end beyond the dimension's line.
    const extensions = drawn.tags.filter((it) => it['element'] === 'line' && it['data-is'] === undefined);
    expect(extensions).toHaveLength(2);
    extensions.forEach((it, i) => {
      const [edge, foot] = i === 0 ? [a, from] : [b, to];
      expect(apart(edge, start(it))).toBeCloseTo(2, 2);
      expect(apart(edge, end(it))).toBeCloseTo(apart(edge, foot) + 3, 2);
      expect(apart(start(it), foot)).toBeCloseTo(apart(edge, foot) - 2, 2);
      expect(apart(end(it), foot)).toBeCloseTo(3, 2);
    });
    // The words stand in its middle, above it as one reads them.
    const [words] = drawn.texts;
    const middle = at((from.x + to.x) / 2, (from.y + to.y) / 2);
    expect(words).toMatchObject({ words: '100', anchor: 'middle' });
    expect(Math.cos((((words?.turned ?? NaN) - turned) * Math.PI) / 180)).toBeCloseTo(1, 6);
    const up = (turned * Math.PI) / 180;
    expect(words).toMatchObject(close(at(middle.x + 4 * Math.sin(up), middle.y - 4 * Math.cos(up))));
  });

  it('that is short has its arrows outside, pointing inwards, and its words beyond its end', () => {
    const drawn = of(dimension(at(100, 100), at(110, 100), 20, '10 mm', 'it'));
    expect([start(drawn.all('it')[0]), end(drawn.all('it')[0])]).toEqual([at(84, 80), at(126, 80)]);
    expect(drawn.arrows.map(([tip]) => tip)).toEqual([at(100, 80), at(110, 80)]);
    expect(drawn.arrows.map(points)).toEqual([close(at(1, 0)), close(at(-1, 0))]);
    expect(drawn.texts).toMatchObject([{ anchor: 'start', turned: 0, y: 84 }]);
    expect(drawn.texts[0]?.x).toBeGreaterThan(126);
    // Just long enough it has them inside.
    expect(length(of(dimension(at(100, 100), at(124, 100), 20, '10 mm', 'it')).all('it')[0])).toBe(24);
  });

  it.each([
    // From and to, and where its line ends at the right.
    ['to the right', at(60, 100), at(100, 100), at(100, 80)],
    ['to the left', at(100, 100), at(60, 100), at(100, 120)],
    ['short, to the right', at(90, 100), at(100, 100), at(116, 80)],
    ['short, to the left', at(100, 100), at(90, 100), at(116, 120)],
    ['rising', at(60, 120), at(100, 80), at(85.86, 65.86)],
    ['rising to the left', at(100, 120), at(60, 80), at(85.86, 134.14)],
  ])('too short for its words has them at the right, level: %s', (_, a, b, beyond) => {
    const [words] = of(dimension(a, b, 20, 'a good many words')).texts;
    expect(words).toMatchObject({ anchor: 'start', turned: 0 });
    expect(words?.x).toBeGreaterThan(beyond.x);
    expect(words?.x).toBeLessThan(beyond.x + 12);
    expect(Math.abs((words?.y ?? NaN) - 4 - beyond.y)).toBeLessThan(6);
  });

  it.each([
    ['upright', at(100, 120), at(100, 80), 80],
    ['hanging', at(100, 80), at(100, 120), 120],
  ])('too short for its words has them beside its middle: %s', (_, a, b, line) => {
    const [words] = of(dimension(a, b, 20, 'a good many words')).texts;
    expect(words?.x).toBeGreaterThan(line);
    expect(words?.x).toBeLessThan(line + 12);
    expect(words?.y).toBe(104);
  });
});

describe('a diameter', () => {
  it.each([
    [40, 'start', 1],
    [-52, 'start', 1],
    [130, 'end', -1],
  ])('at %d° runs through the centre, its words outside', (degrees, anchor, side) => {
    const c = at(100, 100);
    const drawn = of(diameter(c, 40, degrees, 'Ø80', 'it'));
    const [near, far] = [polar(c, 40, degrees), polar(c, 40, degrees + 180)];
    const [through, leader, shelf] = drawn.pieces;
    expect(through).toMatchObject({ from: close(far), to: close(near) });
    expect(leader).toMatchObject({ from: close(near), to: close(polar(c, 60, degrees)) });
    expect(shelf).toMatchObject({ from: leader?.to, to: { y: leader?.to.y } });
    expect(Math.sign((shelf?.to.x ?? NaN) - (shelf?.from.x ?? NaN))).toBe(side);
    expect(drawn.arrows.map(([tip]) => tip)).toEqual([close(near), close(far)]);
    const out = at((near.x - 100) / 40, (near.y - 100) / 40);
    expect(drawn.arrows.map(points)).toEqual([close(out), close(at(-out.x, -out.y))]);
    expect(drawn.texts[0]).toMatchObject({ anchor, words: 'Ø80' });
    expect(Math.sign((drawn.texts[0]?.x ?? NaN) - (shelf?.to.x ?? NaN))).toBe(side);
  });
});

describe('an angle', () => {
  it.each([
    [10, 60, 'start'],
    [100, 160, 'end'],
    [180, 200, 'end'],
    [300, 330, 'start'],
    [0, 6, 'start'],
  ])('from %d° to %d° has an arc with arrows to both sides, its words outside', (from, to, anchor) => {
    const c = at(100, 100);
    const drawn = of(angle(c, 60, from, to, 'tilt'));
    expect(drawn.pieces[0]?.from).toEqual(close(polar(c, 60, from)));
    expect(drawn.pieces.at(-1)?.to).toEqual(close(polar(c, 60, to)));
    expect(drawn.arrows.map(([tip]) => tip)).toEqual([close(polar(c, 60, from)), close(polar(c, 60, to))]);
    // Clockwise at its beginning, anticlockwise at its end, along the arc to within a few degrees.
    const along = (degrees: number): Place => polar(at(0, 0), 1, degrees);
    drawn.arrows.map(points).forEach((pointing, i) => {
      const wanted = i === 0 ? along(from - 90) : along(to + 90);
      expect(pointing.x * wanted.x + pointing.y * wanted.y).toBeGreaterThan(0.99);
    });
    const [words] = drawn.texts;
    const out = polar(c, 68, (from + to) / 2);
    expect(words).toMatchObject({ anchor, x: close(out).x });
    expect(Math.abs((words?.y ?? NaN) - out.y)).toBeLessThan(5);
  });
});

describe('hatching', () => {
  it.each([
    ['a square', [at(20, 20), at(80, 20), at(80, 80), at(20, 80)], undefined],
    ['a leaning shank', [at(20, 50), at(120, 30), at(125, 61), at(25, 81)], undefined],
    ['a triangle, wide', [at(20, 20), at(101, 20), at(20, 90)], 10],
  ])('fills %s with parallels at 45°, edge to edge', (_, corners, gap = 6) => {
    const drawn = of(gap === 6 ? hatch(corners) : hatch(corners, gap));
    const sums = drawn.pieces.map(({ from }) => from.x + from.y);
    const [least, most] = [
      Math.min(...corners.map(({ x, y }) => x + y)),
      Math.max(...corners.map(({ x, y }) => x + y)),
    ];
    expect(Math.min(...sums)).toBeLessThan(least + gap + 0.01);
    expect(Math.max(...sums)).toBeGreaterThan(most - gap - 0.01);
    sums.slice(1).forEach((sum, i) => {
      expect(sum - (sums[i] ?? NaN)).toBeCloseTo(gap, 2);
    });
    const onEdge = (p: Place): boolean =>
      corners.some((a, i) => {
        const b = corners[(i + 1) % corners.length] ?? a;
        return Math.abs(apart(a, p) + apart(p, b) - apart(a, b)) < 0.01;
      });
    for (const { from, to } of drawn.pieces) {
      expect(from.x + from.y).toBeCloseTo(to.x + to.y, 2);
      expect([from, to].map(onEdge)).toEqual([true, true]);
      expect(apart(from, to)).toBeGreaterThan(0);
    }
  });
});

it('a picture says in words what it shows, and how large it is', () => {
  const drawn = read(svg({ width: 20.00049, height: 30, says: 'a < b', scale: 2.5 }, ''));
  expect(drawn.svg).toContain('viewBox="0 0 20 30" width="20" height="30" role="img" aria-label="a &lt; b"');
  expect(drawn.svg).toContain('<title>a &lt; b</title>');
  expect(drawn.scale).toBe(2.5);
  expect(of('').svg).not.toContain('data-scale');
});
