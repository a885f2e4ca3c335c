/** Limits as bars: a size with its readings, the two zones of a fit, the shares of the inputs in a result's limits. */
import type { Asked, ReadingResult } from '../../engine/index';
import { shares } from '../../quantity/limits';
import type { Quantity } from '../../quantity/value';
import { at, line, path, solid, svg, text } from './draw';
import { mean } from '../../trade/least-squares';
import { judgedAs } from '../words';
import { type Amount, type Figures, amounts, field } from './figures';

const MOST_READINGS = 24;

/** The asked limits as a bar, each reading a mark on it; what lies outside lies outside. */
export function limitsBar(
  name: string,
  value: Quantity,
  asked: Asked,
  last: ReadingResult | undefined,
  show: (q: Quantity) => string,
): string | null {
  const tolerance = asked.high - asked.low;
  if (!last || !(tolerance > 0)) return null;
  const values = judgedAs(last)
    .slice(0, MOST_READINGS)
    .map((q) => q.value);
  const [low, high] = [
    Math.min(asked.low - tolerance * 0.2, ...values),
    Math.max(asked.high + tolerance * 0.2, ...values),
  ];
  // A part with much still on it would squeeze its limits to nothing.
  if (high - low > tolerance * 12) return null;
  const [width, left, right, y] = [330, 24, 306, 36];
  const x = (base: number): number => left + ((right - left) * (base - low)) / (high - low);
  const told = (base: number): string => show({ ...value, value: base, spread: null });
  const [a, b] = [x(asked.low), x(asked.high)];
  const inside = (middle: number): number => Math.min(Math.max(middle, 88), width - 88);
  const ends =
    b - a < CLOSE
      ? [text(at(inside((a + b) / 2), y + 29), `${told(asked.low)} … ${told(asked.high)}`)]
      : [text(at(a, y + 29), told(asked.low)), text(at(b, y + 29), told(asked.high))];
  const how = last.atReference ? `${last.how}, at 20 °C:` : last.how;
  return svg(
    {
      width,
      height: 70,
      scale: (right - left) / (high - low),
      says: `${name}: limits ${told(asked.low)} to ${told(asked.high)}; ${how} ${values.map(told).join(', ')}.`,
    },
    solid([at(a, y - 8), at(b, y - 8), at(b, y + 8), at(a, y + 8)], 0.13, 'zone'),
    line(at(left, y + 8), at(right, y + 8), 'thin'),
    line(at(a, y - 12), at(a, y + 14), 'outline', 'low'),
    line(at(b, y - 12), at(b, y + 14), 'outline', 'high'),
    line(at(x(value.value), y - 11), at(x(value.value), y + 11), 'centre', 'nominal'),
    ...ends,
    ...values.map((base) =>
      solid([at(x(base), y - 8), at(x(base) - 4.5, y - 18), at(x(base) + 4.5, y - 18)], 1, 'reading'),
    ),
    text(
      at(inside(x(mean(values))), y - 24),
      `${how} ${values.length > 3 ? `${told(Math.min(...values))} … ${told(Math.max(...values))}` : values.map(told).join(', ')}`,
    ),
  );
}

/** Limits nearer to each other than this share one text. */
const CLOSE = 90;

/** Deviations of hole and shaft about the nominal size, in micrometres. */
export function fitZones(figures: Figures): string {
  const known = amounts(
    figures,
    ['size'],
    ['clearance_min', 'clearance_max', 'hole_max', 'hole_min', 'shaft_max', 'shaft_min'],
  );
  const [hole, shaft] = [String(figures.arguments.get('hole')), String(figures.arguments.get('shaft'))];
  const deviation = ({ value }: Amount): number => (value - known.size.value) * 1000;
  const [h, s] = [
    { upper: deviation(known.hole_max), lower: deviation(known.hole_min) },
    { upper: deviation(known.shaft_max), lower: deviation(known.shaft_min) },
  ];
  const between = `clearance ${known.clearance_min.shown} to ${known.clearance_max.shown}`;
  const kind = field(figures.value, 'kind');
  const all = [h.upper, h.lower, s.upper, s.lower, 0];
  const [most, least] = [Math.max(...all), Math.min(...all)];
  const [top, bottom] = [40, 200];
  const scale = (bottom - top) / (most - least);
  const y = (deviation: number): number => top + (most - deviation) * scale;
  const zone = (x: number, upper: number, lower: number, name: string, words: string): string => {
    const close = (upper - lower) * scale < 14;
    return [
      solid([at(x, y(upper)), at(x + 90, y(upper)), at(x + 90, y(lower)), at(x, y(lower))], 0.13, name),
      path(
        [at(x, y(upper)), at(x + 90, y(upper)), at(x + 90, y(lower)), at(x, y(lower)), at(x, y(upper))],
        'outline',
      ),
      close
        ? text(at(x - 6, (y(upper) + y(lower)) / 2 + 4), words, 'end')
        : text(at(x + 45, (y(upper) + y(lower)) / 2 + 4), words),
      // The zero line is named at its own end.
      upper === 0 ? '' : text(at(x + 97, y(upper) + (close ? -1 : 4)), signed(upper), 'start'),
      lower === 0 ? '' : text(at(x + 97, y(lower) + (close ? 10 : 4)), signed(lower), 'start'),
    ].join('');
  };
  return svg(
    {
      width: 500,
      height: 240,
      scale: scale,
      says: `${known.size.shown} ${hole}/${shaft}: the hole lies ${signed(h.lower)} to ${signed(h.upper)} µm, the shaft ${signed(s.lower)} to ${signed(s.upper)} µm from the nominal size; ${between}, negative where they interfere.`,
    },
    text(at(255, 18), kind?.kind === 'text' ? `${kind.text}: ${between}` : between),
    line(at(40, y(0)), at(470, y(0)), 'centre', 'zero'),
    text(at(36, y(0) + 4), '0', 'end'),
    zone(90, h.upper, h.lower, 'hole', hole),
    zone(280, s.upper, s.lower, 'shaft', shaft),
    text(at(135, bottom + 26), 'hole'),
    text(at(325, bottom + 26), 'shaft'),
    text(at(470, bottom + 26), `µm about ${known.size.shown}`, 'end'),
  );
}

function signed(deviation: number): string {
  const size = Math.abs(Math.round(deviation * 10) / 10);
  return deviation === 0 ? '0' : `${deviation < 0 ? '−' : '+'}${size}`;
}

const MOST_SHARES = 8;

/** Which input the width of a result's limits comes from. */
export function sharesBars(
  name: string,
  value: Quantity,
  inputName: (input: number) => string,
): string | null {
  const parts = shares(value).filter(({ share }) => share > 0);
  if (parts.length < 2) return null;
  const shownParts = parts.slice(0, MOST_SHARES);
  const [left, right] = [140, 430];
  const percent = (share: number): string => `${Math.round(share * 100)} %`;
  return svg(
    {
      width: 500,
      height: 22 + shownParts.length * 20,
      scale: right - left,
      says: `Where the limits of ${name === '' ? 'this result' : name} come from: ${shownParts.map(({ input, share }) => `${inputName(input)} ${percent(share)}`).join(', ')}.`,
    },
    line(at(left, 6), at(left, 12 + shownParts.length * 20), 'thin'),
    ...shownParts.flatMap(({ input, share }, i) => {
      const [y, end] = [12 + i * 20, left + (right - left) * share];
      return [
        text(at(left - 8, y + 10), inputName(input), 'end'),
        solid([at(left, y), at(end, y), at(end, y + 13), at(left, y + 13)], 0.45, 'share'),
        text(at(end + 6, y + 10), percent(share), 'start'),
      ];
    }),
  );
}
