/**
 * The units of the shop, grouped by what they measure. A factor is the number of base units in one of the unit, and is
 * written so that its derivation can be read. Base units: mm, kg, min, turn, degree, K; so the base of a force is
 * kg*mm/min^2, and a newton, kg*m/s^2, is 1000 * 60^2 of it.
 *
 * Adding a unit touches this table only. Money is in `currencies.ts`.
 */
import {
  type Dimension,
  ANGLE,
  FORCE,
  LENGTH,
  MASS,
  NUMBER,
  POWER,
  PRESSURE,
  TEMPERATURE,
  TEMPERATURE_DIFFERENCE,
  TIME,
  TORQUE,
  TURN,
  TURN_RATE,
} from './dimension';

export interface UnitEntry {
  /** As shown and as read back. */
  readonly symbol: string;
  /** Other spellings that are read. */
  readonly also?: readonly string[];
  /** Digits after the point when shown. A length to 0.001 mm or 0.0001 in, a speed in whole rpm. */
  readonly decimals: number;
  readonly factor: number;
  /** Base units at the unit's zero, for temperature scales. */
  readonly offset?: number;
  /** A temperature scale; the other units of its group are differences. */
  readonly scale?: true;
  /** False where the definition itself is no finite decimal or fraction (a radian). */
  readonly exact: boolean;
  readonly source: string;
  /** Which half of the trade writes it; absent where both do. */
  readonly system?: 'mm' | 'in';
  /** What the other half writes for it, as a unit of the notation. */
  readonly other?: string;
  /** Units it is short for, with their exponents. */
  readonly shortFor?: readonly (readonly [symbol: string, exponent: number])[];
}

export interface UnitGroup {
  readonly quantity: string;
  readonly dimension: Dimension;
  readonly units: readonly UnitEntry[];
}

const SI = 'SI Brochure, 9th edition, table 2, 4 or 7 (SI units, derived units and prefixes)';
const SI_NON = 'SI Brochure, 9th edition, table 8 (non-SI units accepted for use with the SI)';
const YARD_POUND = 'international yard and pound agreement, 1959: 1 yd = 0.9144 m, 1 lb = 0.45359237 kg';
const SP811 = 'NIST SP 811 (2008), appendix B';
const DEFINITION = 'definition';

const REV_PER_MIN = [
  ['rev', 1],
  ['min', -1],
] as const;

/** Standard gravity, m/s^2: 3rd CGPM, 1901. */
const G = 9.80665;
/** kg in a pound, m in a foot: the 1959 agreement. */
const POUND = 0.45359237;
const FOOT = 0.3048;
/** Base units in one of the SI's: m = 1000 mm, s = 1/60 min. */
const NEWTON = 1000 * 60 ** 2;
const JOULE = NEWTON * 1000;
const WATT = JOULE * 60;
const PASCAL = NEWTON / 1000 ** 2;

type More = Partial<Omit<UnitEntry, 'symbol' | 'factor' | 'decimals' | 'source'>>;

function of(symbol: string, factor: number, decimals: number, source: string, more: More = {}): UnitEntry {
  return { symbol, factor, decimals, source, exact: true, ...more };
}
const metric = (other: string, more: More = {}): More => ({ system: 'mm', other, ...more });
const inch = (other: string, more: More = {}): More => ({ system: 'in', other, ...more });

/** Each: symbol, base units in one, digits after the point when shown, source, and what the other half writes. */
export const UNIT_TABLE: readonly UnitGroup[] = [
  {
    quantity: 'length',
    dimension: LENGTH,
    units: [
      of('mm', 1, 3, SI, metric('in')),
      // Written with the micro sign; the Greek letter and the plain one are read too.
      of('µm', 1 / 1000, 1, SI, metric('thou', { also: ['\u03bcm', 'um'] })),
      of('cm', 10, 4, SI, metric('in')),
      of('m', 1000, 6, SI, metric('ft')),
      of('in', 25.4, 4, YARD_POUND, inch('mm', { also: ['"'] })),
      of('thou', 25.4 / 1000, 1, YARD_POUND, inch('µm')),
      of('ft', FOOT * 1000, 6, YARD_POUND, inch('m')),
    ],
  },
  {
    quantity: 'angle',
    dimension: ANGLE,
    units: [
      of('deg', 1, 3, SI_NON, { also: ['°'] }),
      of('arcmin', 1 / 60, 2, SI_NON, { also: ['′'] }),
      of('arcsec', 1 / 3600, 1, SI_NON, { also: ['″'] }),
      of('rad', 180 / Math.PI, 5, SI, { exact: false }),
    ],
  },
  { quantity: 'turns', dimension: TURN, units: [of('rev', 1, 4, DEFINITION)] },
  {
    quantity: 'plain number',
    dimension: NUMBER,
    units: [of('tooth', 1, 3, DEFINITION), of('%', 1 / 100, 2, 'SI Brochure, 9th edition, section 5.4.7')],
  },
  {
    quantity: 'time',
    dimension: TIME,
    units: [of('min', 1, 2, SI_NON), of('s', 1 / 60, 1, SI), of('h', 60, 3, SI_NON)],
  },
  {
    quantity: 'turning speed',
    dimension: TURN_RATE,
    units: [of('rpm', 1, 0, DEFINITION, { shortFor: REV_PER_MIN })],
  },
  {
    quantity: 'mass',
    dimension: MASS,
    units: [
      of('kg', 1, 3, SI, metric('lb')),
      of('g', 1 / 1000, 1, SI, metric('lb')),
      of('lb', POUND, 3, YARD_POUND, inch('kg')),
    ],
  },
  {
    quantity: 'force',
    dimension: FORCE,
    units: [
      of('N', NEWTON, 1, SI, metric('lbf')),
      of('kN', NEWTON * 1000, 3, SI, metric('lbf')),
      // A pound's weight under standard gravity.
      of('lbf', POUND * G * NEWTON, 1, SP811, inch('N')),
    ],
  },
  {
    quantity: 'energy',
    dimension: TORQUE,
    units: [of('J', JOULE, 1, SI, metric('lbf*ft')), of('kJ', JOULE * 1000, 3, SI, metric('lbf*ft'))],
  },
  {
    quantity: 'pressure',
    dimension: PRESSURE,
    units: [
      of('MPa', PASCAL * 1e6, 1, SI, metric('psi')),
      of('Pa', PASCAL, 0, SI, metric('psi')),
      of('kPa', PASCAL * 1e3, 1, SI, metric('psi')),
      of('GPa', PASCAL * 1e9, 2, SI, metric('psi')),
      // A pound-force on a square inch.
      of('psi', (POUND * G * NEWTON) / 25.4 ** 2, 0, SP811, inch('MPa')),
    ],
  },
  {
    quantity: 'power',
    dimension: POWER,
    units: [
      of('W', WATT, 0, SI, metric('hp_imperial')),
      of('kW', WATT * 1000, 3, SI, metric('hp_imperial')),
      // 75 kgf*m/s: what a plate marked PS, CV or ch means.
      of('hp_metric', 75 * G * WATT, 3, SP811, metric('hp_imperial')),
      // 550 ft*lbf/s: the mechanical horsepower of British and American plates.
      of('hp_imperial', 550 * FOOT * POUND * G * WATT, 3, SP811, inch('kW')),
    ],
  },
  {
    quantity: 'temperature',
    dimension: TEMPERATURE_DIFFERENCE,
    units: [
      of('K', 1, 1, SI),
      of('°C', 1, 1, SI, metric('°F', { also: ['degC'], offset: 273.15, scale: true })),
      of('°F', 5 / 9, 1, SP811, inch('°C', { also: ['degF'], offset: (459.67 * 5) / 9, scale: true })),
    ],
  },
];

/** The dimension of an entry: a scale is a temperature, everything else its group's kind. */
export function dimensionOf(group: UnitGroup, entry: UnitEntry): Dimension {
  return entry.scale ? TEMPERATURE : group.dimension;
}

/** Compound units of the trade, for completion, and the digits after the point when shown. */
export const COMPOUNDS: readonly (readonly [symbol: string, decimals: number])[] = [
  ['m/min', 1],
  ['mm/min', 1],
  ['ft/min', 1],
  ['in/min', 2],
  ['m/s', 3],
  ['mm/rev', 4],
  ['in/rev', 5],
  ['rev/min', 2],
  ['mm^2', 2],
  ['cm^2', 3],
  ['m^2', 6],
  ['in^2', 4],
  ['mm^3', 1],
  ['cm^3', 2],
  ['m^3', 6],
  ['in^3', 4],
  ['N*m', 2],
  ['lbf*ft', 2],
  ['lbf*in', 1],
  ['N/mm^2', 1],
  ['kg/m^3', 0],
  ['g/cm^3', 3],
  ['lb/in^3', 4],
  ['cm^3/min', 2],
  ['in^3/min', 3],
  ['kg/m', 3],
];
