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
import { type Spread, difference, failsBetween, product, quotient, spread1, spread2, sum } from './spread';
import { divideUnits, multiplyUnits, powerUnit } from './unit-products';
import { KELVIN, PERCENT, baseUnit } from './units';
import { type Fault, type Quantity, type Reach, fault } from './value';

export { MAX_INPUTS, spread1, spread2, together } from './spread';

export function quantity(value: number, unit: Unit, spread: readonly Reach[] | null = null): Quantity {
  return { kind: 'number', value, dimension: unit.dimension, unit, spread };
}

/** A plain number. */
export function plain(value: number): Quantity {
  return { kind: 'number', value, dimension: NUMBER, unit: ONE, spread: null };
}

/** The result of an operation; a fault when it is not finite. Shown in `unit` where that fits, else in a usual one. */
export function made(value: number, dimension: Dimension, unit: Unit, spread: Spread): Quantity | Fault {
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
  if (operator !== '+' && operator !== '-') return null;
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
  return made(
    a.value * b.value,
    dimension,
    multiplyUnits(a.unit, b.unit),
    spread2(a, b, product, productTurn),
  );
}

/** Where both factors move with one input, their product can turn round between its ends. */
const productTurn = (p0: number, p1: number, q0: number, q1: number): number => {
  const [dp, dq] = [p1 - p0, q1 - q0];
  return -(dp * q0 + dq * p0) / (2 * dp * dq);
};

export function divide(a: Quantity, b: Quantity): Quantity | Fault {
  if (b.value === 0) return fault('division-by-zero');
  const dimension = divideDimensions(a.dimension, b.dimension);
  if (!dimension) return beyond(a, b, '/');
  const spread = failsBetween(b, isBeyondZero) ?? spread2(a, b, quotient);
  return made(a.value / b.value, dimension, divideUnits(a.unit, b.unit), spread);
}

/** True when zero lies between: there a quotient runs away. */
const isBeyondZero = (low: number, high: number): boolean => low <= 0 && high >= 0;

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
  return made(-a.value + 0, a.dimension, a.unit, spread1(a, negated));
}

const negated = (x: number): number => -x + 0;

/** `a` raised to a plain number: any for a plain number, a whole or fitting one for a quantity with a unit. */
export function power(a: Quantity, b: Quantity): Quantity | Fault {
  if (b.dimension !== NUMBER) return fault('exponent-with-unit', { unit: b.unit.symbol });
  if (a.dimension !== NUMBER && b.spread !== null) return fault('exponent-with-limits');
  const dimension = powerDimension(a.dimension, b.value);
  if (!dimension)
    return a.dimension.point ? fault('temperature-scaled', { operator: '^' }) : fault('exponent-not-whole');
  if (a.value === 0 && b.value < 0) return fault('division-by-zero');
  const value = a.value ** b.value;
  if (Number.isNaN(value)) return fault('root-of-negative');
  return made(value, dimension, powerUnit(a.unit, b.value), powerSpread(a, b));
}

function powerSpread(a: Quantity, b: Quantity): Spread {
  if (b.spread !== null) return (b.value < 0 ? failsBetween(a, isBeyondZero) : null) ?? spread2(a, b, raised);
  // At zero an even power turns round, and one below zero has no value; the others do not mind a sample there.
  return a.spread === null ? null : spread1(a, (x) => x ** b.value, [0]);
}

const raised = (x: number, exponent: number): number => x ** exponent;

/** A copy of `a` shown in another unit of its kind. */
export function shownIn(a: Quantity, unit: Unit): Quantity {
  return { ...a, unit };
}
