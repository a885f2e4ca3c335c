/**
 * Arithmetic on quantities. Each operation works on the nominal value and again at both ends of every toleranced
 * input, so bends, steps and one-sided effects are seen and correlated inputs cancel as they do in the part.
 */
import {
  type Dimension,
  NUMBER,
  TEMPERATURE,
  TEMPERATURE_DIFFERENCE,
  dimensionName,
  divideDimensions,
  multiplyDimensions,
  powerDimension,
} from './dimension';
import { type Unit, ONE } from './unit';
import { divideUnits, multiplyUnits, powerUnit } from './unit-products';
import { KELVIN, PERCENT, baseUnit } from './units';
import { type Fault, type Quantity, type Reach, fault, isFault } from './value';

/** More toleranced inputs than this in one result say nothing useful and cost time. */
export const MAX_INPUTS = 64;
/** Samples one input may carry: its two ends and a few extremes in between. */
const MAX_SAMPLES = 8;

export function quantity(value: number, unit: Unit, spread: readonly Reach[] | null = null): Quantity {
  return { kind: 'number', value, dimension: unit.dimension, unit, spread };
}

/** A plain number. */
export function plain(value: number): Quantity {
  return { kind: 'number', value, dimension: NUMBER, unit: ONE, spread: null };
}

function made(
  value: number,
  dimension: Dimension,
  unit: Unit,
  spread: readonly Reach[] | null | Fault,
): Quantity | Fault {
  if (!Number.isFinite(value)) return fault('no-finite-result');
  if (spread !== null && 'kind' in spread) return spread;
  return {
    kind: 'number',
    value,
    dimension,
    unit: unit.dimension === dimension ? unit : baseUnit(dimension),
    spread,
  };
}

const sum = (x: number, y: number): number => x + y;
const difference = (x: number, y: number): number => x - y;
const product = (x: number, y: number): number => x * y;
const quotient = (x: number, y: number): number => x / y;

/** Sum of two quantities of one kind. A temperature takes a difference; two temperatures do not add. */
export function add(a: Quantity, b: Quantity): Quantity | Fault {
  if (a.dimension === TEMPERATURE || b.dimension === TEMPERATURE) {
    if (a.dimension === b.dimension) return fault('temperatures-added');
    const scale = a.dimension === TEMPERATURE ? a : b;
    const other = scale === a ? b : a;
    if (other.dimension !== TEMPERATURE_DIFFERENCE) return kindsDiffer(a, b, '+');
    return made(a.value + b.value, TEMPERATURE, scale.unit, spread2(a, b, sum));
  }
  return mismatch(a, b, '+') ?? made(a.value + b.value, a.dimension, a.unit, spread2(a, b, sum));
}

/** Difference of two quantities of one kind; of two temperatures, a temperature difference in K. */
export function subtract(a: Quantity, b: Quantity): Quantity | Fault {
  if (a.dimension === TEMPERATURE) {
    const spread = spread2(a, b, difference);
    if (b.dimension === TEMPERATURE) return made(a.value - b.value, TEMPERATURE_DIFFERENCE, KELVIN, spread);
    if (b.dimension === TEMPERATURE_DIFFERENCE) return made(a.value - b.value, TEMPERATURE, a.unit, spread);
  }
  return mismatch(a, b, '-') ?? made(a.value - b.value, a.dimension, a.unit, spread2(a, b, difference));
}

/**
 * Why two quantities cannot be added, subtracted or compared, or null when they can. A percentage may be compared with
 * a plain number, but a sum of the two could be meant two ways.
 */
export function mismatch(a: Quantity, b: Quantity, operator: string): Fault | null {
  if (a.dimension !== b.dimension) return kindsDiffer(a, b, operator);
  if (a.unit === b.unit || (operator !== '+' && operator !== '-')) return null;
  return (a.unit === PERCENT) !== (b.unit === PERCENT) ? fault('percent-of-what', { operator }) : null;
}

function kindsDiffer(a: Quantity, b: Quantity, operator: string): Fault {
  if (a.unit === PERCENT || b.unit === PERCENT) return fault('percent-of-what', { operator });
  return fault('unit-mismatch', {
    operator,
    left: dimensionName(a.dimension),
    right: dimensionName(b.dimension),
    leftUnit: a.unit.symbol,
    rightUnit: b.unit.symbol,
  });
}

export function multiply(a: Quantity, b: Quantity): Quantity | Fault {
  const dimension = multiplyDimensions(a.dimension, b.dimension);
  if (!dimension) return beyond(a, b, '*');
  const spread = a.spread === null && b.spread === null ? null : productSpread(a, b);
  return made(a.value * b.value, dimension, multiplyUnits(a.unit, b.unit), spread);
}

export function divide(a: Quantity, b: Quantity): Quantity | Fault {
  if (b.value === 0) return fault('division-by-zero');
  const dimension = divideDimensions(a.dimension, b.dimension);
  if (!dimension) return beyond(a, b, '/');
  return made(a.value / b.value, dimension, divideUnits(a.unit, b.unit), spread2(a, b, quotient));
}

function beyond(a: Quantity, b: Quantity, operator: string): Fault {
  if (a.dimension.point || b.dimension.point) return fault('temperature-scaled', { operator });
  if (
    a.dimension.currency !== null &&
    b.dimension.currency !== null &&
    a.dimension.currency !== b.dimension.currency
  )
    return fault('currencies-mixed', { left: a.dimension.currency, right: b.dimension.currency });
  return fault('dimension-out-of-range');
}

export function negate(a: Quantity): Quantity | Fault {
  if (a.dimension.point) return fault('temperature-scaled', { operator: '-' });
  return made(
    -a.value + 0,
    a.dimension,
    a.unit,
    spread1(a, (x) => -x + 0),
  );
}

/** `a` raised to a plain number: any for a plain number, a whole or fitting one for a quantity with a unit. */
export function power(a: Quantity, b: Quantity): Quantity | Fault {
  if (b.dimension !== NUMBER) return fault('exponent-with-unit', { unit: b.unit.symbol });
  if (a.dimension !== NUMBER && b.spread !== null) return fault('exponent-with-limits');
  const dimension = powerDimension(a.dimension, b.value);
  if (!dimension)
    return a.dimension.point ? fault('temperature-scaled', { operator: '^' }) : fault('exponent-not-whole');
  const value = a.value ** b.value;
  if (Number.isNaN(value)) return fault('root-of-negative');
  const even = b.value > 0 && b.value % 2 === 0 && b.spread === null;
  const spread = even ? spread1(a, (x) => x ** b.value, [0]) : spread2(a, b, (x, y) => x ** y);
  return made(value, dimension, powerUnit(a.unit, b.value), spread);
}

/**
 * The spread of `f(a)`. `extremes` are arguments (base units) at which `f` turns round; where an input's ends lie on
 * both sides of one, the value there counts too.
 */
export function spread1(
  a: Quantity,
  f: (x: number) => number,
  extremes: readonly number[] = [],
): readonly Reach[] | null | Fault {
  if (a.spread === null) return null;
  const nominal = f(a.value);
  const out: Reach[] = [];
  for (const { input, at, inside } of a.spread) {
    const samples = at.map(f);
    const [low, high] = [Math.min(a.value, ...at), Math.max(a.value, ...at)];
    for (const x of extremes) if (low < x && x < high && samples.length < MAX_SAMPLES) samples.push(f(x));
    const bad = keep(out, { input, at: samples, inside }, nominal);
    if (bad) return bad;
  }
  return out.length === 0 ? null : out;
}

/** The spread of `f(a, b)`: each input of either is moved to its ends while the others stay. */
export function spread2(
  a: Quantity,
  b: Quantity,
  f: (x: number, y: number) => number,
): readonly Reach[] | null | Fault {
  const [s, t] = [a.spread, b.spread];
  if (s === null && t === null) return null;
  const nominal = f(a.value, b.value);
  const out: Reach[] = [];
  let i = 0;
  let j = 0;
  const [n, m] = [s?.length ?? 0, t?.length ?? 0];
  while (i < n || j < m) {
    const left = s?.[i];
    const right = t?.[j];
    const input = Math.min(left?.input ?? Infinity, right?.input ?? Infinity);
    const p = left?.input === input ? left.at : null;
    const q = right?.input === input ? right.at : null;
    if (p) i++;
    if (q) j++;
    const count = Math.max(p?.length ?? 0, q?.length ?? 0);
    const samples: number[] = [];
    for (let k = 0; k < count; k++)
      samples.push(f(p ? (p[k] ?? a.value) : a.value, q ? (q[k] ?? b.value) : b.value));
    const inside = (p ? left : right)?.inside ?? true;
    const bad = keep(out, { input, at: samples, inside }, nominal);
    if (bad) return bad;
  }
  if (out.length > MAX_INPUTS) return fault('too-many-inputs', { count: out.length });
  return out.length === 0 ? null : out;
}

/** Adds a reach unless the input turned out to have no influence; a sample that is no number is a fault. */
function keep(out: Reach[], reach: Reach, nominal: number): Fault | null {
  let moved = false;
  for (const x of reach.at) {
    if (!Number.isFinite(x)) return fault('fails-at-limit', { input: reach.input });
    if (x !== nominal) moved = true;
  }
  if (moved) out.push(reach);
  return null;
}

/** Where both factors move with one input, their product can turn round between its ends: that extreme counts too. */
function productSpread(a: Quantity, b: Quantity): readonly Reach[] | null | Fault {
  const spread = spread2(a, b, product);
  if (spread === null || 'kind' in spread || a.spread === null || b.spread === null) return spread;
  return spread.map((reach) => {
    const p = a.spread?.find((r) => r.input === reach.input)?.at;
    const q = b.spread?.find((r) => r.input === reach.input)?.at;
    const [p0, p1] = p ?? [];
    const [q0, q1] = q ?? [];
    if (p0 === undefined || p1 === undefined || q0 === undefined || q1 === undefined) return reach;
    const [dp, dq] = [p1 - p0, q1 - q0];
    const turn = -(dp * q0 + dq * p0) / (2 * dp * dq);
    if (!(turn > 0 && turn < 1) || reach.at.length >= MAX_SAMPLES) return reach;
    return { ...reach, at: [...reach.at, (p0 + dp * turn) * (q0 + dq * turn)] };
  });
}

/** A copy of `a` shown in another unit of its kind. */
export function shownIn(a: Quantity, unit: Unit): Quantity {
  return a.unit === unit ? a : { ...a, unit };
}

/** Applies an operation that may fail to a value that may have failed. */
export function then(a: Quantity | Fault, f: (a: Quantity) => Quantity | Fault): Quantity | Fault {
  return isFault(a) ? a : f(a);
}
