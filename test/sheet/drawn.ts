/** A picture read back as what a reader sees: lines, circles, outlines and texts with their places. */
import { calculate } from '../../src/engine/index';
import { picturesOf, sharesOf } from '../../src/sheet/picture/of-row';

export interface Place {
  readonly x: number;
  readonly y: number;
}

export interface Words extends Place {
  readonly words: string;
  readonly anchor: string;
  /** Degrees clockwise, as SVG counts them. */
  readonly turned: number;
}

type Tag = Readonly<Record<string, string>>;

export interface Drawn {
  readonly svg: string;
  readonly width: number;
  readonly height: number;
  /** Lengths of the picture for one millimetre. */
  readonly scale: number;
  readonly says: string;
  readonly texts: readonly Words[];
  /** The elements that are called so. */
  all(name: string): Tag[];
  number(name: string, attribute: string): number;
  points(name: string): Place[][];
  /** Every straight piece of lines and outlines; circles and arcs in short ones. */
  readonly pieces: readonly { readonly from: Place; readonly to: Place; readonly tag: Tag }[];
  /** Filled arrowheads, the tip first. */
  readonly arrows: readonly (readonly Place[])[];
  readonly tags: readonly Tag[];
}

const attributesOf = (tag: string): Tag =>
  Object.fromEntries(
    [...tag.matchAll(/([\w-]+)="([^"]*)"/g)].map(([, key = '', value = '']) => [key, value]),
  );

const pointsOf = (tag: Tag): Place[] =>
  (tag['points'] ?? '').split(' ').map((pair) => {
    const [x = NaN, y = NaN] = pair.split(',').map(Number);
    return { x, y };
  });

const chain = (points: readonly Place[], tag: Tag): Drawn['pieces'] =>
  points.slice(1).map((to, i) => ({ from: points[i] ?? to, to, tag }));

const STEPS = 60;
const onCircle = (c: Place, radius: number, from: number, sweep: number): Place[] =>
  Array.from({ length: STEPS + 1 }, (_, i) => {
    const angle = from + (sweep * i) / STEPS;
    return { x: c.x + radius * Math.cos(angle), y: c.y - radius * Math.sin(angle) };
  });

const round = (tag: Tag): Place[] =>
  onCircle({ x: Number(tag['cx']), y: Number(tag['cy']) }, Number(tag['r']), 0, 2 * Math.PI);

/** An arc of a path, anticlockwise from its first point to its last. */
function bent(tag: Tag): Place[] {
  const [x1 = NaN, y1 = NaN, radius = NaN, , , large, , x2 = NaN, y2 = NaN] = (tag['d'] ?? '')
    .split(/[MA ]/)
    .slice(1)
    .map(Number);
  const half = Math.hypot(x2 - x1, y2 - y1) / 2;
  const away = Math.sqrt(Math.max(0, radius * radius - half * half)) * (large === 1 ? 1 : -1);
  const c = {
    x: (x1 + x2) / 2 + (away * (y1 - y2)) / (2 * half),
    y: (y1 + y2) / 2 + (away * (x2 - x1)) / (2 * half),
  };
  const from = Math.atan2(c.y - y1, x1 - c.x);
  const to = Math.atan2(c.y - y2, x2 - c.x);
  return onCircle(c, radius, from, (to - from + 4 * Math.PI) % (2 * Math.PI));
}

const wordsOf = ([, attributes = '', words = '']: RegExpMatchArray): Words => {
  const tag = attributesOf(attributes);
  return {
    x: Number(tag['x']),
    y: Number(tag['y']),
    anchor: tag['text-anchor'] ?? '',
    turned: Number(/rotate\((\S+)/.exec(tag['transform'] ?? '')?.[1] ?? 0),
    words,
  };
};

/** As long on both sides of its tip: the tip of a cutter is not. */
const isArrow = ([tip, a, b, more]: readonly Place[]): boolean =>
  !!tip && !!a && !!b && !more && Math.abs(apart(tip, a) - apart(tip, b)) < 0.01;

export function read(svg: string): Drawn {
  const tags = [...svg.matchAll(/<(svg|line|circle|path|polyline|polygon)\b([^>]*)>/g)].map(
    ([, element = '', attributes = '']): Tag => ({ ...attributesOf(attributes), element }),
  );
  const all = (name: string): Tag[] => tags.filter((tag) => tag['data-is'] === name);
  const outlines = tags.filter(({ element }) => element === 'polyline' || element === 'polygon');
  return {
    svg,
    width: Number(tags[0]?.['width']),
    height: Number(tags[0]?.['height']),
    scale: Number(tags[0]?.['data-scale']),
    says: tags[0]?.['aria-label'] ?? '',
    texts: [...svg.matchAll(/<text([^>]*)>([^<]*)</g)].map(wordsOf).filter(({ words }) => words !== ''),
    all,
    number: (name, attribute) => Number(all(name)[0]?.[attribute]),
    points: (name) => all(name).map(pointsOf),
    pieces: [
      ...tags
        .filter(({ element }) => element === 'line')
        .map((tag) => ({ from: start(tag), to: end(tag), tag })),
      ...outlines
        .filter(({ element }) => element === 'polyline')
        .flatMap((tag) => {
          return chain(pointsOf(tag), tag);
        }),
      ...tags
        .filter(({ element }) => element === 'circle')
        .map((tag) => chain(round(tag), tag))
        .flat(),
      ...tags
        .filter(({ element }) => element === 'path')
        .map((tag) => chain(bent(tag), tag))
        .flat(),
    ],
    arrows: outlines
      .filter((tag) => tag['element'] === 'polygon' && tag['data-is'] === undefined)
      .map(pointsOf)
      .filter(isArrow),
    tags,
  };
}

export const start = (tag: Tag | undefined): Place => ({ x: Number(tag?.['x1']), y: Number(tag?.['y1']) });
export const end = (tag: Tag | undefined): Place => ({ x: Number(tag?.['x2']), y: Number(tag?.['y2']) });
export const apart = (a: Place, b: Place): number => Math.hypot(b.x - a.x, b.y - a.y);
export const length = (tag: Tag | undefined): number => apart(start(tag), end(tag));

const HEAD = '```machine head\nratio = 40\nplates = [15, 16, 18, 20, 21, 39, 41, 49, 97, 199, 211]\n```\n';
export const sheetOf = (...lines: string[]): ReturnType<typeof calculate> =>
  calculate(`${HEAD}\`\`\`figures\n${lines.join('\n')}\n\`\`\`\n`);

/** The first picture of the last figure or value, or else the shares of its inputs. */
export function drawn(...lines: string[]): Drawn {
  const sheet = sheetOf(...lines);
  const row = sheet
    .rows()
    .filter(({ value }) => value !== null)
    .at(-1);
  const svg = row && (picturesOf(sheet, row)[0] ?? sharesOf(sheet, row));
  if (typeof svg !== 'string') throw new Error(`no picture of ${lines.at(-1) ?? ''}`);
  return read(svg);
}

/** The room that words take, by the width of a wide sans serif: 0.56 of its size for each letter, and 12 of size. */
export function room({ x, y, anchor, words, turned }: Words): readonly Place[] {
  const wide = words.length * 12 * 0.56;
  const from = anchor === 'end' ? -wide : anchor === 'middle' ? -wide / 2 : 0;
  const angle = (turned * Math.PI) / 180;
  const at = (along: number, down: number): Place => ({
    x: x + along * Math.cos(angle) - down * Math.sin(angle),
    y: y + along * Math.sin(angle) + down * Math.cos(angle),
  });
  return [at(from, -8), at(from + wide, -8), at(from + wide, 1), at(from, 1)];
}
