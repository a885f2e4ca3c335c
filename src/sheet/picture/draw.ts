/**
 * Lines and dimensions as the trade draws them: line types by ISO 128-2, dimensions by ISO 129-1. Everything is in the
 * text's own colour, so a picture is at home on any theme and in print. Coordinates are those of the picture, y down.
 */
import { type Attributes, element, escape } from '../html';

export interface Point {
  readonly x: number;
  readonly y: number;
}

export const at = (x: number, y: number): Point => ({ x, y });

/** A point at a distance and an angle in degrees, counted as on paper: anticlockwise from the right. */
export function polar(from: Point, radius: number, degrees: number): Point {
  const angle = (degrees * Math.PI) / 180;
  return at(from.x + radius * Math.cos(angle), from.y - radius * Math.sin(angle));
}

export type LineType =
  /** Visible edges: continuous wide. */
  | 'outline'
  /** Dimensions, extension lines, hatching: continuous narrow. */
  | 'thin'
  /** Axes and pitch circles: long-dashed dotted narrow. */
  | 'centre'
  /** Neighbouring parts and other positions: long-dashed double-dotted narrow. */
  | 'phantom'
  /** What the cutter's tip follows: continuous, extra wide. */
  | 'cut';

const WIDE = 1.4;
const NARROW = 0.7;

function pen(type: LineType): Attributes {
  const width = type === 'outline' ? WIDE : type === 'cut' ? 2.4 : NARROW;
  const dashes = type === 'centre' ? '12 2.5 1 2.5' : type === 'phantom' ? '12 2.5 1 2.5 1 2.5' : null;
  return { fill: 'none', stroke: 'currentColor', 'stroke-width': width, 'stroke-dasharray': dashes };
}

const n = (value: number): string => String(Math.round(value * 1000) / 1000);

export function line(a: Point, b: Point, type: LineType, name: string | null = null): string {
  return element('line', { 'data-is': name, x1: n(a.x), y1: n(a.y), x2: n(b.x), y2: n(b.y), ...pen(type) });
}

export function circle(c: Point, radius: number, type: LineType, name: string | null = null): string {
  return element('circle', { 'data-is': name, cx: n(c.x), cy: n(c.y), r: n(radius), ...pen(type) });
}

export function dot(c: Point, radius: number, name: string | null = null): string {
  return element('circle', { 'data-is': name, cx: n(c.x), cy: n(c.y), r: n(radius), fill: 'currentColor' });
}

export function path(points: readonly Point[], type: LineType, name: string | null = null): string {
  return element('polyline', {
    'data-is': name,
    points: points.map(({ x, y }) => `${n(x)},${n(y)}`).join(' '),
    'stroke-linejoin': 'round',
    ...pen(type),
  });
}

export function solid(points: readonly Point[], opacity = 1, name: string | null = null): string {
  return element('polygon', {
    'data-is': name,
    points: points.map(({ x, y }) => `${n(x)},${n(y)}`).join(' '),
    fill: 'currentColor',
    'fill-opacity': opacity === 1 ? null : opacity,
  });
}

/** An arc anticlockwise from one angle to the other, less than a full circle. */
export function arc(
  c: Point,
  radius: number,
  from: number,
  to: number,
  type: LineType,
  name: string | null = null,
): string {
  const [a, b] = [polar(c, radius, from), polar(c, radius, to)];
  const large = to - from > 180 ? 1 : 0;
  const d = `M${n(a.x)} ${n(a.y)}A${n(radius)} ${n(radius)} 0 ${large} 0 ${n(b.x)} ${n(b.y)}`;
  return element('path', { 'data-is': name, d, ...pen(type) });
}

export type Anchor = 'start' | 'middle' | 'end';

/** The paper shows through no line under a text: a rim in the paper's colour would need to know it, so text keeps clear. */
export function text(p: Point, words: string, anchor: Anchor = 'middle', turned = 0): string {
  return element(
    'text',
    {
      x: n(p.x),
      y: n(p.y),
      'text-anchor': anchor,
      'font-size': FONT,
      fill: 'currentColor',
      transform: turned === 0 ? null : `rotate(${n(turned)} ${n(p.x)} ${n(p.y)})`,
    },
    escape(words),
  );
}

export const FONT = 12;

/** A closed filled arrowhead at `p`, pointing away from `from`. */
export function arrow(p: Point, from: Point): string {
  const length = Math.hypot(p.x - from.x, p.y - from.y) || 1;
  const [ux, uy] = [(p.x - from.x) / length, (p.y - from.y) / length];
  const [back, half] = [8, 1.9];
  return solid([
    p,
    at(p.x - ux * back - uy * half, p.y - uy * back + ux * half),
    at(p.x - ux * back + uy * half, p.y - uy * back - ux * half),
  ]);
}

/** Shorter than this, arrows stand outside and point inward. */
const SHORT = 24;

/**
 * A length dimension between two points, its line `offset` away to the left of the way from `a` to `b`; text above the
 * line, or beyond its end where it is short.
 */
export function dimension(
  a: Point,
  b: Point,
  offset: number,
  words: string,
  name: string | null = null,
): string {
  const length = Math.hypot(b.x - a.x, b.y - a.y) || 1;
  const [ux, uy] = [(b.x - a.x) / length, (b.y - a.y) / length];
  const [nx, ny] = [uy, -ux];
  const sign = offset < 0 ? -1 : 1;
  const away = (p: Point, by: number): Point => at(p.x + nx * by, p.y + ny * by);
  const along = (p: Point, by: number): Point => at(p.x + ux * by, p.y + uy * by);
  const [p, q] = [away(a, offset), away(b, offset)];
  const extension = (from: Point): string =>
    line(away(from, 2 * sign), away(from, offset + 3 * sign), 'thin');
  const degrees = (Math.atan2(uy, ux) * 180) / Math.PI;
  // Readable from below or from the right.
  const turned = degrees >= 90 || degrees < -90 ? degrees + 180 : degrees;
  const fits = length > words.length * FONT * 0.58 + 10;
  const short = length < SHORT;
  const middle = at((p.x + q.x) / 2, (p.y + q.y) / 2);
  const up = (turned * Math.PI) / 180;
  const lifted = (point: Point): Point => at(point.x + Math.sin(up) * 4, point.y - Math.cos(up) * 4);
  const heads = short
    ? [line(along(p, -16), along(q, 16), 'thin', name), arrow(p, along(p, -16)), arrow(q, along(q, 16))]
    : [line(p, q, 'thin', name), arrow(p, q), arrow(q, p)];
  if (fits)
    return [extension(a), extension(b), ...heads, text(lifted(middle), words, 'middle', turned)].join('');
  // Level, beyond the end at the reader's right; of an upright one, beside its middle.
  const end = ux > 0 ? along(q, short ? 18 : 6) : along(p, short ? -18 : -6);
  const beside = Math.abs(ux) > 0.3 ? at(end.x + 3, end.y + 4) : at(end.x + 6, middle.y + 4);
  return [extension(a), extension(b), ...heads, text(beside, words, 'start')].join('');
}

/** A diameter across a circle, its text on a level leader outside. */
export function diameter(
  c: Point,
  radius: number,
  degrees: number,
  words: string,
  name: string | null = null,
): string {
  const [a, b] = [polar(c, radius, degrees), polar(c, radius, degrees + 180)];
  const out = polar(c, radius + 20, degrees);
  const right = out.x >= c.x;
  const shelf = at(out.x + (right ? 12 : -12), out.y);
  return [
    line(b, a, 'thin', name),
    line(a, out, 'thin'),
    line(out, shelf, 'thin'),
    arrow(a, b),
    arrow(b, a),
    text(at(shelf.x + (right ? 3 : -3), shelf.y + 4), words, right ? 'start' : 'end'),
  ].join('');
}

/** An angle between two directions, its text outside the middle of its arc. */
export function angle(c: Point, radius: number, from: number, to: number, words: string): string {
  const middle = (from + to) / 2;
  const p = polar(c, radius + 8, middle);
  const left = Math.cos((middle * Math.PI) / 180) < 0;
  const step = Math.min(4, (to - from) / 3);
  return [
    arc(c, radius, from, to, 'thin'),
    arrow(polar(c, radius, from), polar(c, radius, from + step)),
    arrow(polar(c, radius, to), polar(c, radius, to - step)),
    text(at(p.x, p.y + 4), words, left ? 'end' : 'start'),
  ].join('');
}

/** Narrow parallel lines at 45° over a convex area. */
export function hatch(corners: readonly Point[], gap = 6): string {
  const sums = corners.map(({ x, y }) => x + y);
  const lines: string[] = [];
  for (let s = Math.ceil(Math.min(...sums) / gap) * gap; s < Math.max(...sums); s += gap) {
    const hits = corners.flatMap((a, i) => {
      const b = corners[(i + 1) % corners.length] ?? a;
      const [fa, fb] = [a.x + a.y - s, b.x + b.y - s];
      if (fa < 0 === fb < 0) return [];
      const t = fa / (fa - fb);
      return [at(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t)];
    });
    const [first, second] = hits;
    if (first && second) lines.push(line(first, second, 'thin'));
  }
  return lines.join('');
}

export interface Sized {
  readonly width: number;
  readonly height: number;
  /** What somebody who cannot see it should know: the same figures in a sentence. */
  readonly says: string;
  /** Lengths of the picture for one millimetre, where it is to scale. */
  readonly scale?: number;
}

export function svg({ width, height, says, scale }: Sized, ...inner: readonly string[]): string {
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${n(width)} ${n(height)}`,
      width: n(width),
      height: n(height),
      role: 'img',
      'aria-label': says,
      'data-scale': scale === undefined ? null : String(scale),
      'font-family': 'inherit',
    },
    element('title', {}, escape(says)),
    ...inner,
  );
}
