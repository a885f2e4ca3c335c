/** What any reader of a picture counts on: all of it is there, no words lie on words or on a line, arrows end at lines. */
import { describe, expect, it } from 'vitest';
import { type Place, drawn, room } from './drawn';

const PICTURES: readonly (readonly string[])[] = [
  ['ball_on_shank(30 mm, 12 mm)'],
  ['ball_on_shank(30 mm, 24 mm)'],
  ['ball_on_shank(30 mm, 28 mm)'],
  ['ball_on_shank(40 mm, 5 mm)'],
  ['ball_on_shank(40 mm, 10.123 mm)'],
  ['ball_on_shank(30 mm, 8.123 mm)'],
  ['ball_on_shank(1 in, 7/16 in)'],
  ['knee_schedule(26 mm, 25.34 mm, 12.7°, 26.5 mm, 13.2 mm, 2 mm)'],
  ['knee_schedule(26 mm, 25.34 mm, 12.7°, 26.5 mm, 13.2 mm, 0.25 mm)'],
  ['plain_indexing(13, head)'],
  ['plain_indexing(20, head)'],
  ['plain_indexing(49, head)'],
  ['plain_indexing(41, head)'],
  ['plain_indexing(16, head)'],
  ['plain_indexing(21, head)'],
  ['plain_indexing(3, head)'],
  ['fit(25 mm, H7, g6)'],
  ['fit(25 mm, H7, p6)'],
  ['fit(25 mm, K7, h6)'],
  ['fit(25 mm, H7, h6)'],
  ['fit(400 mm, H11, d11)'],
  ['fit(25 mm, H11, g5)'],
  ['bolt_circle(95 mm, 6, start: 30°)'],
  ['bolt_circle(60 mm, 2, 10 mm, 20 mm, 90°)'],
  ['bolt_circle(60 mm, 24)'],
  ['bolt_circle(60 mm, 60)'],
  ['tailstock_setover(30 mm, 29 mm, 250 mm, 250 mm)'],
  ['tailstock_setover(60 mm, 20 mm, 40 mm, 60 mm)'],
  ['tailstock_setover(12 mm, 10 mm, 30 mm, 400 mm)'],
  ['taper_found([18.242, 18.251, 18.266] mm, [10, 88, 166] mm)'],
  ['taper_found([18.266, 18.251, 18.242] mm, [10, 88, 166] mm)'],
  ['taper_found([18, 18] mm, [10, 88] mm)'],
  ['tailstock_correction([12.76, 12.73] mm, [10, 70] mm, 180 mm)'],
  ['taper_found([18.1, 18.2, 18.15, 18.22, 18.3, 18.25, 18.4] mm, [10, 20, 30, 40, 50, 60, 166] mm)'],
  ['screw_over_wires(M36x1.5-6g, 0.895 mm)'],
  ['screw_over_wires(M18, 2.4 mm)'],
  ['screw_over_wires(M18)'],
  ['over_wires(20 mm, 5 mm, 2.6 mm, thread_angle: 29°)'],
  ['pitch_diameter_of(22.1506 mm, 2.54 mm, 1.45 mm, thread_angle: 55°)'],
  ['d = 20 mm +0.02/-0.01 mm shaft', 'd final 20.005 mm, 19.985 mm'],
  ['d = 20 mm ± 0.01', 'd measured 20.1 mm'],
  ['d = 20 mm ± 0.01', 'd measured 19.9 mm'],
  ['d = 20 mm ± 0.01', 'd measured 20 mm, 20.001 mm, 20.002 mm, 20.003 mm'],
  ['a = 10 mm ± 0.3', 'b = 10 mm ± 0.2', 'a + b'],
  [
    ...Array.from({ length: 11 }, (_, i) => `part_${i} = 10 mm ± ${(12 - i) / 100} mm`),
    Array.from({ length: 11 }, (_, i) => `part_${i}`).join(' + '),
  ],
];

const NOWHERE: Place = { x: NaN, y: NaN };

/** Whether two convex outlines, or an outline and a line, have room in common: no straight line parts them. */
function meet(one: readonly Place[], other: readonly Place[]): boolean {
  const parted = (shape: readonly Place[], from: readonly Place[]): boolean =>
    shape.some((a, i) => {
      const b = shape[(i + 1) % shape.length] ?? a;
      const across = (p: Place): number => (p.x - a.x) * (b.y - a.y) - (p.y - a.y) * (b.x - a.x);
      const [mine, theirs] = [shape.map(across), from.map(across)];
      return Math.max(...mine) <= Math.min(...theirs) || Math.max(...theirs) <= Math.min(...mine);
    });
  return !parted(one, other) && !parted(other, one);
}

describe.each(PICTURES.map((lines) => ({ lines, of: lines.at(-1) })))('the picture of $of', ({ lines }) => {
  const { width, height, texts, pieces, arrows } = drawn(...lines);

  it('stands within its frame', () => {
    const outside = ({ x, y }: Place): boolean => !(x >= 0 && y >= 0 && x <= width && y <= height);
    expect(texts.filter((words) => room(words).some(outside))).toEqual([]);
    expect(pieces.filter(({ from, to }) => outside(from) || outside(to))).toEqual([]);
    expect(arrows.filter((arrow) => arrow.some(outside))).toEqual([]);
  });

  it('has its words clear of one another and of every drawn line', () => {
    const rooms = texts.map((words) => ({ words, mine: room(words) }));
    // Centre lines run on under words.
    const lines = pieces.filter(({ tag }) => !tag['stroke-dasharray']?.startsWith('12 2.5 1 2.5'));
    for (const [i, { words, mine }] of rooms.entries()) {
      expect([words, rooms.slice(i + 1).filter((other) => meet(mine, other.mine))]).toEqual([words, []]);
      expect([words, lines.filter(({ from, to }) => meet(mine, [from, to]))]).toEqual([words, []]);
    }
  });

  it('has each arrowhead at the end of a line, on that line', () => {
    const off = ({ x, y }: Place, { from, to }: { from: Place; to: Place }): number => {
      const [along, across] = [to.x - from.x, to.y - from.y];
      const part = ((x - from.x) * along + (y - from.y) * across) / (along * along + across * across || 1);
      const within = Math.max(0, Math.min(1, part));
      return Math.hypot(x - from.x - within * along, y - from.y - within * across);
    };
    const stray = arrows.filter(([tip = NOWHERE, a = NOWHERE, b = NOWHERE]) => {
      const back = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
      return !(pieces.some((it) => off(tip, it) < 0.01) && pieces.some((it) => off(back, it) < 0.6));
    });
    // The two directions of a readout stand by themselves.
    expect(stray).toHaveLength(lines.join('').startsWith('bolt_circle') ? 2 : 0);
  });
});
