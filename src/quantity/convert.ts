/** What `to` does: a quantity in another unit, and the few changes of kind that hide nothing. */
import { made, shownIn } from './arithmetic';
import {
  type Dimension,
  LENGTH,
  POWER,
  RATE,
  SPEED,
  TORQUE,
  TURN_RATE,
  anglesIn,
  dimensionName,
  turnsIn,
  withAngles,
  withTurns,
} from './dimension';
import type { Unit } from './unit';
import { spread1 } from './spread';
import { type Fault, type Quantity, fault } from './value';

/** Degrees in one turn. */
const FULL_CIRCLE = 360;

/**
 * The quantity shown in `to`. Turns become angles at 360° each. A turn counts as one in two places only, where nothing
 * hangs on it: a rate becomes a spindle speed (`75 m/min / (pi * d) to rpm`), and length times turns per time becomes
 * a speed (`pi * d * n to m/min`). Everything else that would gain or lose a turn or an angle is refused, since it
 * often hides a factor of 2 pi.
 */
export function convert(q: Quantity, to: Unit): Quantity | Fault {
  const from = q.dimension;
  if (from === to.dimension) return shownIn(q, to);
  const turns = turnsIn(from);
  if (to.dimension === turnsAsAngles(from)) {
    const factor = FULL_CIRCLE ** turns;
    const inAngles = (x: number): number => x * factor;
    return made(inAngles(q.value), to.dimension, to, spread1(q, inAngles));
  }
  if (turnCountsAsOne(from, to.dimension)) return { ...q, dimension: to.dimension, unit: to };
  return whyNot(q, to);
}

function turnCountsAsOne(from: Dimension, to: Dimension): boolean {
  return (from === RATE && to === TURN_RATE) || (to === SPEED && from === withTurns(SPEED, 1));
}

/** The dimension with each of its turns read as an angle. */
function turnsAsAngles(d: Dimension): Dimension | null {
  const turns = turnsIn(d);
  const without = withTurns(d, -turns);
  return without && withAngles(without, turns);
}

/** Formulas that make the step properly, turn and angle included. */
function formulaFor(from: Dimension, to: Dimension): string | null {
  if (to === POWER && from === withTurns(POWER, 1)) return 'shaft_power';
  if (to === TORQUE && from === withTurns(TORQUE, -1)) return 'shaft_torque';
  if (to === LENGTH && from === withAngles(LENGTH, 1)) return 'arc_length';
  return null;
}

function whyNot(q: Quantity, { dimension: to, symbol }: Unit): Fault {
  const from = q.dimension;
  const data = { from: dimensionName(from), to: dimensionName(to), fromUnit: q.unit.symbol, unit: symbol };
  if (from.point !== to.point && from.exponents.join() === to.exponents.join())
    return fault(from.point ? 'temperature-to-difference' : 'difference-to-temperature', data);
  if (from.currency !== null && to.currency !== null && from.currency !== to.currency)
    return fault('currencies-mixed', { left: from.currency, right: to.currency });
  if (turnsAsAngles(to) === from) return fault('angle-to-turns', data);
  const more = { ...data, formula: formulaFor(from, to) };
  const gained = turnsIn(to) - turnsIn(from);
  if (withTurns(from, gained) === to)
    return fault('turn-would-change', { ...more, change: gained > 0 ? 'gained' : 'lost' });
  const angles = anglesIn(to) - anglesIn(from);
  if (withAngles(from, angles) === to)
    return fault('angle-would-change', { ...more, change: angles > 0 ? 'gained' : 'lost' });
  return fault('unit-mismatch', {
    operator: 'to',
    left: data.from,
    right: data.to,
    leftUnit: data.fromUnit,
    rightUnit: symbol,
  });
}
