/**
 * How far toleranced inputs move the result of an operation: the operation again at both ends of each input, and at
 * the places in between where it turns round. A result that moves with one input on both sides is followed along that
 * input, so `x - x` is exactly 0; between its samples a quantity is taken as straight.
 */
import { type Fault, type Quantity, type Reach, fault } from './value';

export type Spread = readonly Reach[] | null | Fault;

/** More toleranced inputs than this in one result say nothing useful and cost time. */
export const MAX_INPUTS = 64;
/** Samples one input may carry: its two ends and a few extremes in between. */
const MAX_SAMPLES = 8;
/** A move smaller than this part of the result is rounding, not influence. */
const NO_INFLUENCE = 1e-12;

const NONE: readonly number[] = [];
const NOBODY: readonly Reach[] = [];

/**
 * The spread of `f(a)`. `extremes` are arguments (base units) at which `f` turns round, or a function that finds those
 * between two arguments; where an input takes `a` across one, the value there counts too.
 */
export function spread1(
  a: Quantity,
  f: (x: number) => number,
  extremes: readonly number[] | ((low: number, high: number) => readonly number[]) = NONE,
): Spread {
  if (a.spread === null) return null;
  const nominal = f(a.value);
  count = 0;
  for (const reach of a.spread) {
    const at = reach.at.map(f);
    let along = alongOf(reach);
    if (extremes !== NONE) {
      const [low, high] = [Math.min(...reach.at), Math.max(...reach.at)];
      const between = typeof extremes === 'function' ? extremes(low, high) : extremes;
      const met = between.filter((x) => low < x && x < high).slice(0, MAX_SAMPLES - at.length);
      at.push(...met.map(f));
      along = [...along, ...met.map((x) => whereIs(reach, x))];
    }
    const bad = keep(reach.input, at, along, reach.inside, nominal);
    if (bad) return bad;
  }
  return allKept();
}

/**
 * The spread of `f(a, b)`: each input of either is moved to its ends while the others stay. `turn` gives the place
 * (0 to 1) between both arguments' ends at which `f` turns round; NaN or a place outside when it does not.
 */
export function spread2(
  a: Quantity,
  b: Quantity,
  f: (x: number, y: number) => number,
  turn: ((p0: number, p1: number, q0: number, q1: number) => number) | null = null,
): Spread {
  if (a.spread === null && b.spread === null) return null;
  const s = a.spread ?? NOBODY;
  const t = b.spread ?? NOBODY;
  const nominal = f(a.value, b.value);
  count = 0;
  for (let i = 0, j = 0; i < s.length || j < t.length;) {
    const input = Math.min(s[i]?.input ?? Infinity, t[j]?.input ?? Infinity);
    const p = s[i]?.input === input ? s[i++] : undefined;
    const q = t[j]?.input === input ? t[j++] : undefined;
    const p0 = p?.at[0] ?? a.value;
    const p1 = p?.at[1] ?? a.value;
    const q0 = q?.at[0] ?? b.value;
    const q1 = q?.at[1] ?? b.value;
    const at = endsOf(f, p0, q0, p1, q1);
    const along = placesBetween(p, q, turn === null ? NaN : turn(p0, p1, q0, q1));
    for (const place of along) at.push(f(p ? sampleAt(p, place) : a.value, q ? sampleAt(q, place) : b.value));
    const bad = keep(input, at, along, (p ?? q)?.inside ?? true, nominal);
    if (bad) return bad;
  }
  if (count > MAX_INPUTS) return fault('too-many-inputs', { count });
  return allKept();
}

export const sum = (x: number, y: number): number => x + y;
export const difference = (x: number, y: number): number => x - y;
export const product = (x: number, y: number): number => x * y;
export const quotient = (x: number, y: number): number => x / y;

/**
 * `f` at both ends. The four operations that nearly all results come from are known here: each number that goes to a function
 * not known beforehand, or comes from it, is made into an object first.
 */
function endsOf(f: typeof sum, p0: number, q0: number, p1: number, q1: number): number[] {
  if (f === sum) return [p0 + q0, p1 + q1];
  if (f === difference) return [p0 - q0, p1 - q1];
  if (f === product) return [p0 * q0, p1 * q1];
  if (f === quotient) return [p0 / q0, p1 / q1];
  return [f(p0, q0), f(p1, q1)];
}

/** Where between the ends to sample: where either reach has been sampled, and where the operation turns round. */
function placesBetween(p: Reach | undefined, q: Reach | undefined, turn: number): readonly number[] {
  const turns = turn > 0 && turn < 1;
  if (!turns && (p === undefined || p.at.length <= 2) && (q === undefined || q.at.length <= 2)) return NONE;
  const places = new Set([...(p ? alongOf(p) : NONE), ...(q ? alongOf(q) : NONE)]);
  if (turns) places.add(turn);
  return [...places].slice(0, MAX_SAMPLES - 2);
}

/**
 * A fault when one of the inputs takes `a` across a place where an operation has no value, such as a divisor of zero;
 * `bad` says whether there is one from the lowest to the highest value.
 */
export function failsBetween(a: Quantity, bad: (low: number, high: number) => boolean): Fault | null {
  if (a.spread === null) return null;
  for (const { input, at, inside } of a.spread) {
    const all = inside ? [a.value, ...at] : at;
    if (bad(Math.min(...all), Math.max(...all))) return fault('fails-at-limit', { input });
  }
  return null;
}

/**
 * What moves the result that is being worked out, as far as that has come: no operation begins in the midst of another. A list
 * of its own, grown step by step, would have room for many more, and there is one for every toleranced line.
 */
const kept: Reach[] = [];
let count = 0;

/** Adds a reach unless the input turned out to have no influence; a sample that is no number is a fault. */
function keep(
  input: number,
  at: readonly number[],
  along: readonly number[],
  inside: boolean,
  nominal: number,
): Fault | null {
  let moved = false;
  const least = Math.abs(nominal) * NO_INFLUENCE;
  // By index: this is where to go through a list otherwise makes an object, for every input of every operation.
  for (let i = 0; i < at.length; i++) {
    const x = at[i] ?? NaN;
    if (!Number.isFinite(x)) return fault('fails-at-limit', { input });
    if (Math.abs(x - nominal) > least) moved = true;
  }
  if (moved) kept[count++] = along.length === 0 ? { input, at, inside } : { input, at, along, inside };
  return null;
}

/** All that were kept; null when there are none. */
function allKept(): readonly Reach[] | null {
  return count === 0 ? null : kept.slice(0, count);
}

/** Where the samples between the ends were taken; evenly spread when whoever took them did not say. */
function alongOf(reach: Reach): readonly number[] {
  if (reach.along) return reach.along;
  const between = reach.at.length - 2;
  return between > 0 ? Array.from({ length: between }, (_, i) => (i + 1) / (between + 1)) : NONE;
}

/** The samples of a reach in order from the low end of its input to the high one: place and value. */
function inOrder(reach: Reach): readonly (readonly [place: number, value: number])[] {
  const [first = 0, second = 0, ...rest] = reach.at;
  const along = alongOf(reach);
  const between = rest.map((value, i) => [along[i] ?? 0.5, value] as const);
  return [[0, first] as const, ...between.sort((x, y) => x[0] - y[0]), [1, second] as const];
}

/** The values of several reaches of one input, side by side at the low end, the high end and each place between. */
export function together(reaches: readonly Reach[]): readonly (readonly number[])[] {
  return [0, 1, ...placesAlong(reaches)].map((place) => reaches.map((reach) => sampleAt(reach, place)));
}

/** The places between the ends of one input at which any of these reaches was taken. */
export function placesAlong(reaches: readonly Reach[]): readonly number[] {
  return [...new Set(reaches.flatMap((reach) => alongOf(reach)))].slice(0, MAX_SAMPLES - 2);
}

/** The value of a reach at a place of its input, straight between the samples next to it. */
export function sampleAt(reach: Reach, place: number): number {
  const [low = 0, high = 0] = reach.at;
  if (reach.at.length <= 2) return place === 1 ? high : low + (high - low) * place;
  let [from, value] = [0, low];
  for (const [to, next] of inOrder(reach)) {
    if (to === place) return next;
    if (to > place) return value + ((next - value) * (place - from)) / (to - from);
    [from, value] = [to, next];
  }
  return value;
}

/** The first place of its input at which a reach has this value; its samples lie on both sides of it. */
export function whereIs(reach: Reach, x: number): number {
  let [from, value] = [0, reach.at[0] ?? x];
  for (const [to, next] of inOrder(reach)) {
    if (value !== next && (value - x) * (next - x) <= 0)
      return from + ((to - from) * (x - value)) / (next - value);
    [from, value] = [to, next];
  }
  return 0.5;
}
