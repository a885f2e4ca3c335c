/**
 * Dimensions: what a quantity measures, apart from the unit it is stated in.
 *
 * Every dimension is interned, so two quantities measure the same kind of thing exactly when their dimension
 * objects are identical. Products and quotients are looked up in a small cache, which keeps arithmetic cheap.
 */

/**
 * The base kinds, in the order of a dimension's exponents. An angle and a turn are kinds of their own: operators
 * never drop either, which is what keeps a crank's rev/min, a spindle's rpm and a feed in mm/min apart.
 */
export const BASES = ['length', 'mass', 'time', 'turn', 'angle', 'temperature', 'money'] as const;
export type Base = (typeof BASES)[number];

export interface Dimension {
  /** Small serial number, unique in a run; only for caches. */
  readonly id: number;
  /** Exponent of each base, in the order of `BASES`; whole numbers. */
  readonly exponents: readonly number[];
  /** ISO 4217 code when money takes part; amounts in different currencies are different kinds. */
  readonly currency: string | null;
  /** True for a temperature on a scale (20 °C), false for a difference (5 K) and everything else. */
  readonly point: boolean;
}

/** Exponents beyond this serve no shop and would let a long chain of products grow without end. */
export const MAX_EXPONENT = 12;

const interned = new Map<string, Dimension>();

function intern(exponents: readonly number[], currency: string | null, point = false): Dimension {
  const key = `${exponents.join()}${currency}${point ? '@' : ''}`;
  let found = interned.get(key);
  if (!found) {
    found = { id: interned.size, exponents, currency, point };
    interned.set(key, found);
  }
  return found;
}

/** The dimension with these exponents, for example `dimension({ length: 1, time: -1 })` for a speed. */
export function dimension(
  exponents: Partial<Record<Base, number>>,
  currency: string | null = null,
): Dimension {
  return intern(
    BASES.map((base) => exponents[base] ?? 0),
    currency,
  );
}

export const NUMBER = dimension({});
export const LENGTH = dimension({ length: 1 });
export const AREA = dimension({ length: 2 });
export const VOLUME = dimension({ length: 3 });
export const ANGLE = dimension({ angle: 1 });
export const TURN = dimension({ turn: 1 });
export const TIME = dimension({ time: 1 });
export const MASS = dimension({ mass: 1 });
/** Length per time: a cutting speed in m/min, a feed rate in mm/min. */
export const SPEED = dimension({ length: 1, time: -1 });
/** Turns per time: a spindle speed in rpm, a crank's rev/min. */
export const TURN_RATE = dimension({ turn: 1, time: -1 });
export const FEED_PER_TURN = dimension({ length: 1, turn: -1 });
export const RATE = dimension({ time: -1 });
export const FORCE = dimension({ mass: 1, length: 1, time: -2 });
/** Torque and energy share their bases; the notation never needs to tell them apart. */
export const TORQUE = dimension({ mass: 1, length: 2, time: -2 });
export const POWER = dimension({ mass: 1, length: 2, time: -3 });
export const PRESSURE = dimension({ mass: 1, length: -1, time: -2 });
export const DENSITY = dimension({ mass: 1, length: -3 });
export const TEMPERATURE_DIFFERENCE = dimension({ temperature: 1 });
/** A temperature on a scale. Only differences take part in arithmetic; see `add` and `subtract`. */
export const TEMPERATURE = intern(TEMPERATURE_DIFFERENCE.exponents, null, true);

const products = new Map<number, Dimension | null>();

/** The dimension of a product, or null when currencies mix, an exponent runs away, or a temperature is on a scale. */
export function multiplyDimensions(a: Dimension, b: Dimension): Dimension | null {
  if (b === NUMBER) return a.point ? null : a;
  if (a === NUMBER) return b.point ? null : b;
  return combine(a, b, 1);
}

/** The dimension of a quotient; null for the same reasons as `multiplyDimensions`. */
export function divideDimensions(a: Dimension, b: Dimension): Dimension | null {
  if (b === NUMBER) return a.point ? null : a;
  return combine(a, b, -1);
}

function combine(a: Dimension, b: Dimension, sign: 1 | -1): Dimension | null {
  const key = (a.id * 67_108_864 + b.id) * 2 + (sign === 1 ? 0 : 1);
  const known = products.get(key);
  if (known !== undefined) return known;
  if (products.size > 4096) products.clear();
  const made = combineAfresh(a, b, sign);
  products.set(key, made);
  return made;
}

function combineAfresh(a: Dimension, b: Dimension, sign: 1 | -1): Dimension | null {
  if (a.point || b.point) return null;
  if (a.currency !== null && b.currency !== null && a.currency !== b.currency) return null;
  return fromExponents(
    a.exponents.map((exponent, i) => exponent + sign * (b.exponents[i] ?? 0)),
    a.currency ?? b.currency,
  );
}

const powers = new Map<number, Map<Dimension, Dimension | null>>();

/** The dimension raised to a power, or null when the exponents would not be whole or run away. */
export function powerDimension(a: Dimension, exponent: number): Dimension | null {
  if (a === NUMBER || exponent === 1) return a;
  if (a.point) return null;
  const known = powers.get(exponent)?.get(a);
  if (known !== undefined) return known;
  const made = fromExponents(
    a.exponents.map((e) => e * exponent),
    a.currency,
  );
  if (powers.size > 64) powers.clear();
  const ofExponent = powers.get(exponent) ?? new Map<Dimension, Dimension | null>();
  if (ofExponent.size > 1024) ofExponent.clear();
  powers.set(exponent, ofExponent.set(a, made));
  return made;
}

function fromExponents(exponents: readonly number[], currency: string | null): Dimension | null {
  if (!exponents.every((e) => Number.isInteger(e) && Math.abs(e) <= MAX_EXPONENT)) return null;
  const clean = exponents.map((e) => e + 0);
  return intern(clean, clean[BASES.indexOf('money')] === 0 ? null : currency);
}

/** The same dimension with `count` turns more; null when none such exists. */
export function withTurns(a: Dimension, count: number): Dimension | null {
  return withMore(a, 'turn', count);
}

/** The same dimension with `count` angles more; null when none such exists. */
export function withAngles(a: Dimension, count: number): Dimension | null {
  return withMore(a, 'angle', count);
}

function withMore(a: Dimension, base: Base, count: number): Dimension | null {
  const exponents = a.exponents.map((e, i) => (BASES[i] === base ? e + count : e));
  return a.point ? null : fromExponents(exponents, a.currency);
}

export function turnsIn(a: Dimension): number {
  return a.exponents[BASES.indexOf('turn')] ?? 0;
}

export function anglesIn(a: Dimension): number {
  return a.exponents[BASES.indexOf('angle')] ?? 0;
}

const NAMES: readonly (readonly [Dimension, string])[] = [
  [NUMBER, 'plain number'],
  [LENGTH, 'length'],
  [AREA, 'area'],
  [VOLUME, 'volume'],
  [ANGLE, 'angle'],
  [TURN, 'turns'],
  [TIME, 'time'],
  [MASS, 'mass'],
  [SPEED, 'speed'],
  [TURN_RATE, 'turning speed'],
  [FEED_PER_TURN, 'feed per turn'],
  [RATE, 'rate'],
  [FORCE, 'force'],
  [TORQUE, 'torque'],
  [POWER, 'power'],
  [PRESSURE, 'pressure'],
  [DENSITY, 'density'],
  [TEMPERATURE, 'temperature'],
  [TEMPERATURE_DIFFERENCE, 'temperature difference'],
];

/** What a finding calls this dimension: the trade's word where there is one, else its bases ("length²/time"). */
export function dimensionName(a: Dimension): string {
  const known = knownName(a) ?? nameWithTurns(a);
  if (known) return known;
  const parts = (sign: 1 | -1): string =>
    a.exponents
      .flatMap((e, i) => {
        const base = BASES[i] === 'money' ? moneyName(a.currency) : (BASES[i] ?? '');
        const n = e * sign;
        return n <= 0 ? [] : [n === 1 ? base : `${base}^${n}`];
      })
      .join(' × ');
  const [above, below] = [parts(1), parts(-1)];
  return below === '' ? above : `${above === '' ? '1' : above} per ${below}`;
}

/** `¤` stands for any currency, in the units of formulas. */
function moneyName(currency: string | null): string {
  return currency === '¤' ? 'money' : `money in ${currency}`;
}

function knownName(a: Dimension | null): string | undefined {
  return NAMES.find(([known]) => known === a)?.[1];
}

/** A known kind with turns or angles beside it: "power × turn", as torque times turning speed is. */
function nameWithTurns(a: Dimension): string | undefined {
  for (const [word, count, without] of [
    ['turn', turnsIn(a), withTurns(a, -turnsIn(a))],
    ['angle', anglesIn(a), withAngles(a, -anglesIn(a))],
  ] as const) {
    const rest = without === NUMBER ? undefined : knownName(without);
    if (rest && Math.abs(count) === 1) return count > 0 ? `${rest} × ${word}` : `${rest} per ${word}`;
  }
  return undefined;
}
