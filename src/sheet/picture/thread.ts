/** A thread under three wires. Along the axis and in depth to scale; the core is left out, as a break would. */
import type { Quantity } from '../../quantity/value';
import { type Point, at, circle, diameter, dimension, line, path, svg, text } from './draw';
import { type Figures, field, isQuantity } from './figures';

/** Of the pitch on the picture, and of the core that is left. */
const PITCH = 64;
const CORE = 92;

const USUAL_ANGLE = 60;

/** Narrower forms (trapezoidal, ISO 2904; Acme) stand a quarter of the pitch above and below the pitch line. */
const NARROW = Math.PI / 8;

/** How far crest and root lie from the pitch line, in parts of the pitch: else flats of an eighth and a quarter, ISO 68-1. */
function depths(flank: number): { readonly crest: number; readonly root: number } {
  if (flank < NARROW) return { crest: 1 / 4, root: 1 / 4 };
  return { crest: 3 / 16 / Math.tan(flank), root: 1 / 8 / Math.tan(flank) };
}

export function threadWires(figures: Figures): string | null {
  const given = (name: string): Quantity | null => {
    const found = figures.arguments.get(name);
    return isQuantity(found) ? found : null;
  };
  const result = (name: string): Quantity | null => {
    const found = field(figures.value, name);
    return isQuantity(found) ? found : null;
  };
  const angle = given('thread_angle');
  const flank = ((angle?.value ?? USUAL_ANGLE) * Math.PI) / 360;
  const best = result('best');
  const wire = given('wire') ?? best;
  const pitch =
    given('pitch') ?? (best && { ...best, value: best.value * 2 * Math.cos(flank), spread: null });
  const over = given('over_wires') ?? result('basic') ?? (isQuantity(figures.value) ? figures.value : null);
  if (!wire || !pitch || !over) return null;
  const scale = PITCH / pitch.value;
  const radius = (wire.value * scale) / 2;
  /** Of the wires' centres above the pitch line, and of their far side. */
  const stands = radius / Math.sin(flank) - PITCH / (4 * Math.tan(flank));
  const reach = stands + radius;
  if (!(reach > 0 && reach < PITCH * 1.5)) return null;
  const pitchSize = { ...over, value: over.value - (2 * reach) / scale, spread: null };
  const highest = Math.max(reach, depths(flank).crest * PITCH);
  const [left, top] = [142, 46 + highest];
  const bottom = top + CORE;
  const [first, second, opposite] = [1.5, 2.5, 2].map((count) => left + count * PITCH) as [
    number,
    number,
    number,
  ];
  const right = left + 4 * PITCH;
  const [one, two, three] = [
    at(first, top - stands),
    at(second, top - stands),
    at(opposite, bottom + stands),
  ];
  const middle = (top + bottom) / 2;
  const [told, size] = [figures.show({ ...over, spread: null }), figures.show(pitchSize)];
  return svg(
    {
      width: 520,
      height: bottom + highest + 34,
      scale,
      says:
        `Thread of ${figures.show(pitch)} pitch under three wires of ${figures.show(wire)}, two above and one below: ` +
        `${told} over the wires at a pitch diameter of ${size}.`,
    },
    profile(left, top, flank, 1, 'thread-above'),
    profile(left, bottom, flank, -1, 'thread-below'),
    line(at(left - 12, top), at(right + 74, top), 'centre', 'pitch-line'),
    line(at(left - 12, bottom), at(right + 74, bottom), 'centre'),
    line(at(left - 12, middle), at(right + 24, middle), 'centre'),
    ...[one, two, three].map((c) => circle(c, radius, 'outline', 'wire')),
    dimension(
      at(first, one.y - radius),
      at(second, two.y - radius),
      18,
      `pitch ${figures.show(pitch)}`,
      'pitch',
    ),
    diameter(two, radius, 40, `wire Ø${figures.show(wire)}`),
    // Between the far sides of the wires, and between the pitch lines.
    line(at(left - 50, one.y - radius), at(first, one.y - radius), 'thin'),
    line(at(left - 50, three.y + radius), at(opposite, three.y + radius), 'thin'),
    dimension(at(left - 46, one.y - radius), at(left - 46, three.y + radius), 0, '', 'over'),
    text(at(left - 54, middle - 4), told, 'end'),
    text(at(left - 54, middle + 12), 'over wires', 'end'),
    dimension(at(right + 70, top), at(right + 70, bottom), 0, '', 'pitch-diameter'),
    text(at(right + 62, middle - 8), `pitch Ø${size}`, 'end'),
    text(at(opposite, bottom + highest + 22), 'core drawn short'),
  );
}

/** Crests and roots over four pitches, `up` for the near side; one pitch is a groove's middle to the next. */
function profile(left: number, pitchLine: number, flank: number, up: 1 | -1, name: string): string {
  const { crest, root } = depths(flank);
  /** Half of what is left flat, by how far the flank leans over its height. */
  const [top, floor] = [1 / 4 - crest * Math.tan(flank), 1 / 4 - root * Math.tan(flank)];
  // A thread is half a pitch further on the other side.
  const shift = up === 1 ? PITCH / 2 : 0;
  const points: Point[] = [];
  for (let groove = left + shift - PITCH; groove < left + 5 * PITCH; groove += PITCH) {
    const corner = (along: number, height: number): Point =>
      at(groove + along * PITCH, pitchLine - up * height * PITCH);
    points.push(
      corner(-1 / 2 + top, crest),
      corner(-floor, -root),
      corner(floor, -root),
      corner(1 / 2 - top, crest),
    );
  }
  const within = points.filter(({ x }) => x >= left - 1 && x <= left + 4 * PITCH + 1);
  return path(within, 'outline', name);
}
