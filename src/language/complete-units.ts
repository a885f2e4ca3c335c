/** Units after a number or after `to`: those of the kind that belongs there first. */
import type { Sheet } from '../engine/index';
import {
  type Dimension,
  ANGLE,
  FEED_PER_TURN,
  LENGTH,
  SPEED,
  TURN_RATE,
  dimensionName,
} from '../quantity/dimension';
import type { Unit } from '../quantity/unit';
import { systemOf, unit, unitsOfDimension } from '../quantity/units';
import { statedUnit } from './complete-cards';
import type { Answer } from './completion';
import { type Cursor, GIVEN } from './cursor';
import { dimensionOfText, expectedDimension, fieldGiven } from './expected';

/** What a shop writes most, the commonest first; the rest of the table follows by kind. */
const USUAL = [
  'mm',
  'in',
  '°',
  'rpm',
  'm/min',
  'mm/rev',
  'mm/min',
  'thou',
  'µm',
  'min',
  'h',
  'kg',
  'kW',
  '%',
];
const KINDS: readonly Dimension[] = [LENGTH, ANGLE, TURN_RATE, SPEED, FEED_PER_TURN];

/** `converted` is the expression before `to`; without it the place after a number is meant. */
export function units(sheet: Sheet, cursor: Cursor, converted?: string): readonly Answer[] {
  const kind =
    converted === undefined
      ? expectedDimension(sheet, cursor)
      : dimensionOfText(sheet, converted.replace(GIVEN, ''));
  const own = kind ? inOrder(sheet, kind) : [];
  // After `to` only the value's own kind makes sense, where it is known.
  if (converted !== undefined && own.length > 0) return own.map(answer);
  const usual = USUAL.map((symbol) => unit(symbol));
  const rest = KINDS.flatMap((each) => inOrder(sheet, each));
  const field = fieldGiven(cursor);
  const stated = field ? statedUnit(field) : '';
  return [...new Set([...(stated === '' ? [] : [unit(stated)]), ...own, ...usual, ...rest])].map(answer);
}

/** The units of a kind: the usual first, then those of the note's system, then the others. */
function inOrder(sheet: Sheet, kind: Dimension): readonly Unit[] {
  const system = sheet.system ?? 'mm';
  const rank = (u: Unit): number => {
    const at = USUAL.indexOf(u.symbol);
    return (systemOf(u) === system ? 0 : 2 * USUAL.length) + (at < 0 ? USUAL.length : at);
  };
  return [...unitsOfDimension(kind)].sort((a, b) => rank(a) - rank(b));
}

function answer(u: Unit): Answer {
  return { label: u.symbol === 'deg' ? '°' : u.symbol, kind: 'unit', detail: dimensionName(u.dimension) };
}
