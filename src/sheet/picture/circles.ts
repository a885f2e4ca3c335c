/** Holes on circles: an index plate with its sector arms, and holes to drill round a centre. */
import { arc, arrow, at, circle, dot, line, polar, svg, text } from './draw';
import { type Figures, amounts, items } from './figures';

const MOST_HOLES = 200;

/** Hole 0 at the top, counted clockwise, as one looks at the plate. */
export function holeCircle(figures: Figures): string | null {
  const known = amounts(figures, [], ['turns', 'holes', 'circle']);
  const [turns, holes, count] = [known.turns.value, known.holes.value, known.circle.value];
  if (count > MOST_HOLES) return null;
  const [c, radius] = [at(136, 126), 88];
  const place = (hole: number): ReturnType<typeof at> => polar(c, radius, 90 - (360 * hole) / count);
  const size = Math.min(4.5, (Math.PI * radius) / count / 1.5);
  const plate = Array.from({ length: count }, (_, hole) =>
    hole <= holes ? dot(place(hole), size, 'counted') : circle(place(hole), size, 'thin', 'hole'),
  );
  const end = 90 - (360 * holes) / count;
  const arms =
    holes === 0
      ? ''
      : line(c, polar(c, radius + 22, 90), 'outline', 'arm') +
        line(c, polar(c, radius + 22, end), 'outline', 'arm') +
        arc(c, radius + 16, end, 90, 'thin') +
        arrow(polar(c, radius + 16, end), polar(c, radius + 16, end + Math.min(4, (90 - end) / 2)));
  const move = [counted(turns, 'turn'), counted(holes, 'hole')].filter((words) => words !== '').join(' and ');
  const inside =
    holes === 0
      ? 'the pin drops into the hole it came from'
      : `${holes + 1} holes between the arms, the pin's own counted`;
  return svg(
    {
      width: 500,
      height: 258,
      says: `Index plate with a circle of ${count} holes. Each move: ${move}. ${holes === 0 ? 'The sector arms are not needed.' : `The sector arms span ${holes + 1} holes, the pin's own counted.`}`,
    },
    circle(c, radius, 'centre', 'circle'),
    line(at(c.x - 12, c.y), at(c.x + 12, c.y), 'centre'),
    line(at(c.x, c.y - 12), at(c.x, c.y + 12), 'centre'),
    ...plate,
    arms,
    text(at(c.x, c.y - radius - 26), '0'),
    holes === 0 ? '' : labelAt(polar(c, radius + 34, end), String(holes)),
    text(at(268, 104), `circle of ${count}`, 'start'),
    text(at(268, 124), `each move: ${move}`, 'start'),
    ...wrapped(inside, 28).map((words, i) => text(at(268, 144 + i * 15), words, 'start')),
  );
}

function labelAt(p: ReturnType<typeof at>, words: string): string {
  return text(at(p.x, p.y + 4), words);
}

/** Nothing of which there is none. */
function counted(count: number, word: string): string {
  return count === 0 ? '' : `${count} ${word}${count === 1 ? '' : 's'}`;
}

function wrapped(words: string, width: number): readonly string[] {
  const lines: string[] = [];
  for (const word of words.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + word.length < width) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** The holes where the readout has them: X to the right, Y up. */
export function boltCircle(figures: Figures): string | null {
  const { diameter, chord, centre_x, centre_y } = amounts(
    figures,
    ['diameter', 'centre_x', 'centre_y'],
    ['chord'],
  );
  const [xs, ys] = [items(figures, 'x'), items(figures, 'y')];
  const [first, firstY] = [xs[0], ys[0]];
  if (!first || !firstY || xs.length > MOST_HOLES) return null;
  const [c, radius] = [at(128, 142), 88];
  const scale = (2 * radius) / diameter.value;
  const places = xs.map((x, i) =>
    at(c.x + (x.value - centre_x.value) * scale, c.y - ((ys[i] ?? firstY).value - centre_y.value) * scale),
  );
  const size = Math.min(7, (Math.PI * radius) / xs.length / 1.6);
  const step = Math.ceil(xs.length / 24);
  const reach = radius + size + 3;
  const outward = (p: (typeof places)[number], by: number): typeof p => {
    const out = Math.hypot(p.x - c.x, p.y - c.y);
    return at(p.x + ((p.x - c.x) * by) / out, p.y + ((p.y - c.y) * by) / out);
  };
  return svg(
    {
      width: 440,
      height: 268,
      scale,
      says: `${xs.length} holes on a circle of ${diameter.shown}; ${chord.shown} from each to the next. The first lies at X ${figures.show(first)}, Y ${figures.show(firstY)}.`,
    },
    circle(c, radius, 'centre', 'circle'),
    line(at(c.x - reach, c.y), at(c.x + reach, c.y), 'centre'),
    line(at(c.x, c.y - reach), at(c.x, c.y + reach), 'centre'),
    // Beyond the numbers of the holes.
    arrow(at(c.x + radius + 46, c.y), c),
    arrow(at(c.x, c.y - radius - 46), c),
    text(at(c.x + radius + 52, c.y + 4), 'X', 'start'),
    text(at(c.x + 8, c.y - radius - 40), 'Y', 'start'),
    ...places.map((p) => circle(p, size, 'outline', 'drilled')),
    ...places.map((p) => line(outward(p, -size - 3), outward(p, size + 3), 'thin')),
    ...places.map((p, i) => (i % step === 0 ? labelAt(outward(p, size + 13), String(i + 1)) : '')),
    text(at(300, 108), `${xs.length} × on Ø${diameter.shown}`, 'start'),
    text(at(300, 126), `chord ${chord.shown}`, 'start'),
  );
}
