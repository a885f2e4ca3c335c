/** Names of units as words: what a figure may not be called, what was meant by a wrong one, what is written together. */
import type { NamedUnit } from './unit';
import { unitNamed, unitNames } from './unit-lookup';

/** Units that may be written together, the larger first: `3 h 20 min`, `6 ft 2 in`. */
export const mixedPairs: readonly (readonly string[])[] = [
  ['h', 'min', 's'],
  ['ft', 'in'],
  ['m', 'cm', 'mm'],
  ['kg', 'g'],
];

/** What people write that is no unit here, and the unit that is meant; several where it could be either. */
const NOT_UNITS: readonly (readonly [written: string, meant: string])[] = [
  ['hp HP bhp', 'hp_imperial hp_metric'],
  ['PS CV ch cv pk', 'hp_metric'],
  ['mil mils', 'thou mm'],
  ['inch inches In IN', 'in'],
  ['feet foot', 'ft'],
  ['thousandths thous', 'thou'],
  ['MM millimetre millimetres millimeter millimeters', 'mm'],
  ['micron microns mu', 'µm'],
  ['metre metres meter meters', 'm'],
  ['degree degrees', 'deg'],
  ['radian radians', 'rad'],
  ['turn turns revs r revolution revolutions', 'rev'],
  ['RPM', 'rpm'],
  ['sec secs second seconds', 's'],
  ['mins minute minutes', 'min'],
  ['hr hrs hour hours', 'h'],
  ['lbs pound pounds', 'lb'],
  ['KG kilo kilos', 'kg'],
  ['Nm NM', 'N*m'],
  ['Nmm', 'N*mm'],
  ['ftlb ftlbf lbft', 'lbf*ft'],
  ['inlb inlbf lbin', 'lbf*in'],
  ['sfm fpm SFM', 'ft/min'],
  ['ipm IPM', 'in/min'],
  ['ipr IPR', 'in/rev'],
  ['ml cc ccm', 'cm^3'],
  ['Mpa mpa', 'MPa'],
  // No unit here, since a bar is what the work is cut from; nothing near it measures a pressure.
  ['bar bars', ''],
  ['C celsius', '°C'],
  ['F fahrenheit', '°F'],
  ['percent', '%'],
];

/**
 * Whether a name cannot be given to a figure: units longer than one letter (ISO 4217 codes among them), `to` and `pi`.
 * One-letter units (m, N, h, s, g, W, J, K) stay free, since a unit stands only after a number, a list or `to`. So do
 * `measured`, `final`, `used`, `at`, `hole`, `shaft` and `on`: each is read as a word of the notation only where a
 * name could not stand.
 */
export function isReserved(name: string): boolean {
  return name === 'to' || name === 'pi' || (name.length > 1 && unitNamed(name) !== undefined);
}

/** Whether the second unit may follow the first in one quantity: `3 h 20 min`, `6 ft 2 in`. */
export function mayFollow(larger: NamedUnit, smaller: NamedUnit): boolean {
  return mixedPairs.some((chain) => {
    const at = chain.indexOf(larger.symbol);
    return at >= 0 && chain.indexOf(smaller.symbol) > at;
  });
}

const MAX_OFFERED = 3;

/** Units that a name which is none could have meant, the likeliest first; both horsepowers for a bare `hp`. */
export function nearestUnitNames(name: string): readonly string[] {
  const known = NOT_UNITS.find(([written]) => written.split(' ').includes(name));
  if (known) return known[1].split(' ').filter((unit) => unit !== '');
  if (name.length > 16) return [];
  const most = name.length < 3 ? 1 : 2;
  const near = unitNames()
    .map((unit) => ({ unit, distance: distance(name, unit) }))
    .filter((it) => it.distance <= most && it.distance < name.length && it.distance < it.unit.length)
    .sort((a, b) => a.distance - b.distance)
    .map((it) => unitNamed(it.unit)?.symbol ?? it.unit);
  return [...new Set(near)].slice(0, MAX_OFFERED);
}

/** Letters to change, add or leave out to make one of the other; a capital for a small letter counts half. */
function distance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 0; i < a.length; i++) {
    const next = [i + 1];
    for (let j = 0; j < b.length; j++) {
      const [p, q] = [a[i] ?? '', b[j] ?? ''];
      const change = p === q ? 0 : p.toLowerCase() === q.toLowerCase() ? 0.5 : 1;
      next.push(Math.min((row[j] ?? 0) + change, (row[j + 1] ?? 0) + 1, (next[j] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}
