/** Tapers: one to be turned between centres, and one that readings along the work have found. */
import { mean } from '../../trade/least-squares';
import { at, dimension, dot, line, path, svg, text } from './draw';
import type { Quantity } from '../../quantity/value';
import { type Figures, amounts, field, givenItems, isQuantity } from './figures';

/** A taper between centres with what it is set over; the set-over is drawn larger than it is. */
export function taperSetOver(figures: Figures): string {
  const {
    large,
    small,
    taper_length: length,
    between_centres: between,
    set_over: over,
  } = amounts(figures, ['large', 'small', 'taper_length', 'between_centres'], ['set_over']);
  const scale = Math.min(300 / between.value, 110 / large.value);
  const [x0, y] = [96, 106];
  const x = (mm: number): number => x0 + mm * scale;
  const [a, b, end] = [x(0), x(length.value), x(between.value)];
  const [big, little] = [(large.value * scale) / 2, (small.value * scale) / 2];
  const aside = 16;
  return svg(
    {
      width: 540,
      height: 208,
      scale,
      says: `Taper from ${large.shown} to ${small.shown} over ${length.shown}, on work of ${between.shown} between centres: tailstock set over by ${over.shown}.`,
    },
    path(
      [at(a, y - big), at(b, y - little), at(b, y + little), at(a, y + big), at(a, y - big)],
      'outline',
      'cone',
    ),
    path([at(b, y - little), at(end, y - little), at(end, y + little), at(b, y + little)], 'outline'),
    line(at(a - 14, y), at(end + 50, y), 'centre'),
    path([at(end + 26, y + aside - 9), at(end + 6, y + aside), at(end + 26, y + aside + 9)], 'phantom'),
    line(at(end - 14, y + aside), at(end + 50, y + aside), 'centre'),
    dimension(at(a, y - big), at(a, y + big), -22, '', 'large'),
    text(at(a - 29, y + 4), `Ø${large.shown}`, 'end'),
    dimension(at(a, y - big), at(b, y - big), 20, length.shown, 'taper-length'),
    dimension(at(a, y + big), at(end, y + big), -30, between.shown, 'between'),
    text(at(b + 6, y - little - 6), `Ø${small.shown}`, 'start'),
    text(at(end + 8, y + aside + 24), `set over ${over.shown}`, 'start'),
    text(at(end + 8, y + aside + 38), '(not to scale)', 'start'),
  );
}

const MOST_READINGS = 40;

const plain = ({ value }: Quantity): number => value;

/** Readings of the diameter along the work, the diameters drawn much larger, and the straight line that fits them best. */
export function taperReadings(figures: Figures): string | null {
  const [sizes, places] = [givenItems(figures, 'sizes'), givenItems(figures, 'places')];
  const { per_metre: slope } = amounts(figures, [], ['per_metre']);
  const last = places.at(-1);
  if (!last || sizes.length > MOST_READINGS) return null;
  const [from, to] = [Math.min(...places.map(plain)), Math.max(...places.map(plain))];
  const [middle, size] = [mean(places.map(plain)), mean(sizes.map(plain))];
  const fitted = (place: number): number => size + slope.value * (place - middle);
  const ends = [fitted(from), fitted(to), ...sizes.map(plain)];
  const [least, most] = [Math.min(...ends), Math.max(...ends)];
  const [left, right, top, bottom] = [60, 420, 44, 136];
  const scale = (bottom - top) / (most - least || 1);
  const x = (place: number): number => left + 30 + ((right - left - 60) * (place - from)) / (to - from);
  const y = (diameter: number): number => (top + bottom) / 2 - (diameter - (most + least) / 2) * scale;
  const step = Math.ceil(sizes.length / 5);
  const told = sizes.map((q, i) => `${figures.show(q)} at ${figures.show(places[i] ?? last)}`);
  const words = verdict(figures);
  return svg(
    {
      width: 484,
      height: 200,
      scale,
      says: `Diameters along the work, from the chuck or head to the tailstock: ${told.join(', ')}. ${words}.`,
    },
    line(at(left, bottom + 22), at(right, bottom + 22), 'thin'),
    line(at(x(from) - 24, y(fitted(from))), at(x(to) + 24, y(fitted(from))), 'centre', 'straight'),
    line(at(x(from), y(fitted(from))), at(x(to), y(fitted(to))), 'outline', 'fitted'),
    ...sizes.flatMap((q, i) => {
      const place = places[i] ?? last;
      const p = at(x(plain(place)), y(plain(q)));
      const named = i % step === 0 || i === sizes.length - 1;
      return [
        line(at(p.x, bottom + 19), at(p.x, bottom + 25), 'thin'),
        dot(p, 3, 'reading'),
        named ? sizeAt(p, figures.show(q), slope.value, plain(q) < fitted(plain(place))) : '',
        named ? text(at(p.x, bottom + 38), figures.show(place)) : '',
      ];
    }),
    text(at(left - 6, bottom + 26), 'head', 'end'),
    text(at(right + 6, bottom + 26), 'tail', 'start'),
    text(at((left + right) / 2, 16), `${words} (diameters drawn larger)`),
  );
}

/** The text on the side of the line on which its point lies, and clear of the line. */
function sizeAt(p: ReturnType<typeof at>, words: string, slope: number, below: boolean): string {
  const left = slope > 0 !== below;
  return text(at(p.x + (left ? -4 : 4), p.y + (below ? 16 : -8)), words, left ? 'end' : 'start');
}

function verdict({ value, show }: Figures): string {
  const [shape, direction] = ['shape', 'direction'].map((name) => field(value, name));
  const [over, shift] = ['over_places', 'shift'].map((name) => field(value, name));
  if (shape?.kind === 'text' && isQuantity(over))
    return `${shape.text}: ${show({ ...over, value: Math.abs(over.value), spread: null })}`;
  if (direction?.kind !== 'text' || !isQuantity(shift)) return '';
  if (shift.value === 0) return 'no taper';
  return `tailstock ${show({ ...shift, value: Math.abs(shift.value), spread: null })} ${direction.text}`;
}
