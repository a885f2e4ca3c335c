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

export const UNIT_TABLE: readonly UnitGroup[] = [
  {
    quantity: 'length',
    dimension: LENGTH,
    units: [
      { symbol: 'mm', factor: 1, exact: true, source: SI, system: 'mm', other: 'in' },
      {
        symbol: 'µm',
        // The micro sign above, the Greek letter and the plain letter here.
        also: ['\u03bcm', 'um'],
        factor: 1 / 1000,
        exact: true,
        source: SI,
        system: 'mm',
        other: 'thou',
      },
      { symbol: 'cm', factor: 10, exact: true, source: SI, system: 'mm', other: 'in' },
      { symbol: 'm', factor: 1000, exact: true, source: SI, system: 'mm', other: 'ft' },
      { symbol: 'in', also: ['"'], factor: 25.4, exact: true, source: YARD_POUND, system: 'in', other: 'mm' },
      { symbol: 'thou', factor: 25.4 / 1000, exact: true, source: YARD_POUND, system: 'in', other: 'µm' },
      { symbol: 'ft', factor: FOOT * 1000, exact: true, source: YARD_POUND, system: 'in', other: 'm' },
    ],
  },
  {
    quantity: 'angle',
    dimension: ANGLE,
    units: [
      { symbol: 'deg', also: ['°'], factor: 1, exact: true, source: SI_NON },
      { symbol: 'arcmin', also: ['′'], factor: 1 / 60, exact: true, source: SI_NON },
      { symbol: 'arcsec', also: ['″'], factor: 1 / 3600, exact: true, source: SI_NON },
      { symbol: 'rad', factor: 180 / Math.PI, exact: false, source: SI },
    ],
  },
  {
    quantity: 'turns',
    dimension: TURN,
    units: [{ symbol: 'rev', factor: 1, exact: true, source: DEFINITION }],
  },
  {
    quantity: 'plain number',
    dimension: NUMBER,
    units: [
      { symbol: 'tooth', factor: 1, exact: true, source: DEFINITION },
      { symbol: '%', factor: 1 / 100, exact: true, source: 'SI Brochure, 9th edition, section 5.4.7' },
    ],
  },
  {
    quantity: 'time',
    dimension: TIME,
    units: [
      { symbol: 'min', factor: 1, exact: true, source: SI_NON },
      { symbol: 's', factor: 1 / 60, exact: true, source: SI },
      { symbol: 'h', factor: 60, exact: true, source: SI_NON },
    ],
  },
  {
    quantity: 'turning speed',
    dimension: TURN_RATE,
    units: [
      {
        symbol: 'rpm',
        factor: 1,
        exact: true,
        source: DEFINITION,
        shortFor: [
          ['rev', 1],
          ['min', -1],
        ],
      },
    ],
  },
  {
    quantity: 'mass',
    dimension: MASS,
    units: [
      { symbol: 'kg', factor: 1, exact: true, source: SI, system: 'mm', other: 'lb' },
      { symbol: 'g', factor: 1 / 1000, exact: true, source: SI, system: 'mm', other: 'lb' },
      { symbol: 'lb', factor: POUND, exact: true, source: YARD_POUND, system: 'in', other: 'kg' },
    ],
  },
  {
    quantity: 'force',
    dimension: FORCE,
    units: [
      { symbol: 'N', factor: NEWTON, exact: true, source: SI, system: 'mm', other: 'lbf' },
      { symbol: 'kN', factor: NEWTON * 1000, exact: true, source: SI, system: 'mm', other: 'lbf' },
      // A pound's weight under standard gravity.
      { symbol: 'lbf', factor: POUND * G * NEWTON, exact: true, source: SP811, system: 'in', other: 'N' },
    ],
  },
  {
    quantity: 'energy',
    dimension: TORQUE,
    units: [
      { symbol: 'J', factor: JOULE, exact: true, source: SI, system: 'mm', other: 'lbf*ft' },
      { symbol: 'kJ', factor: JOULE * 1000, exact: true, source: SI, system: 'mm', other: 'lbf*ft' },
    ],
  },
  {
    quantity: 'pressure',
    dimension: PRESSURE,
    units: [
      { symbol: 'MPa', factor: PASCAL * 1e6, exact: true, source: SI, system: 'mm', other: 'psi' },
      { symbol: 'Pa', factor: PASCAL, exact: true, source: SI, system: 'mm', other: 'psi' },
      { symbol: 'kPa', factor: PASCAL * 1e3, exact: true, source: SI, system: 'mm', other: 'psi' },
      { symbol: 'GPa', factor: PASCAL * 1e9, exact: true, source: SI, system: 'mm', other: 'psi' },
      { symbol: 'bar', factor: PASCAL * 1e5, exact: true, source: SP811, system: 'mm', other: 'psi' },
      {
        // A pound-force on a square inch.
        symbol: 'psi',
        factor: (POUND * G * NEWTON) / 25.4 ** 2,
        exact: true,
        source: SP811,
        system: 'in',
        other: 'MPa',
      },
    ],
  },
  {
    quantity: 'power',
    dimension: POWER,
    units: [
      { symbol: 'W', factor: WATT, exact: true, source: SI, system: 'mm', other: 'hp_imperial' },
      { symbol: 'kW', factor: WATT * 1000, exact: true, source: SI, system: 'mm', other: 'hp_imperial' },
      // 75 kgf*m/s: what a plate marked PS, CV or ch means.
      {
        symbol: 'hp_metric',
        factor: 75 * G * WATT,
        exact: true,
        source: SP811,
        system: 'mm',
        other: 'hp_imperial',
      },
      // 550 ft*lbf/s: the mechanical horsepower of British and American plates.
      {
        symbol: 'hp_imperial',
        factor: 550 * FOOT * POUND * G * WATT,
        exact: true,
        source: SP811,
        system: 'in',
        other: 'kW',
      },
    ],
  },
  {
    quantity: 'temperature',
    dimension: TEMPERATURE_DIFFERENCE,
    units: [
      { symbol: 'K', factor: 1, exact: true, source: SI },
      {
        symbol: '°C',
        also: ['degC'],
        factor: 1,
        offset: 273.15,
        scale: true,
        exact: true,
        source: SI,
        system: 'mm',
        other: '°F',
      },
      {
        symbol: '°F',
        also: ['degF'],
        factor: 5 / 9,
        offset: (459.67 * 5) / 9,
        scale: true,
        exact: true,
        source: SP811,
        system: 'in',
        other: '°C',
      },
    ],
  },
];

/** The dimension of an entry: a scale is a temperature, everything else its group's kind. */
export function dimensionOf(group: UnitGroup, entry: UnitEntry): Dimension {
  return entry.scale ? TEMPERATURE : group.dimension;
}

/** Compound units of the trade, for completion and for showing a kind that has no name of its own. */
export const COMMON_COMPOUNDS =
  'm/min mm/min ft/min in/min m/s mm/rev in/rev rev/min mm^2 cm^2 m^2 in^2 mm^3 cm^3 m^3 in^3 N*m lbf*ft lbf*in ' +
  'N/mm^2 kg/m^3 g/cm^3 lb/in^3 cm^3/min in^3/min kg/m';

/** Units that may be written together, the larger first: `3 h 20 min`, `6 ft 2 in`. */
export const WRITTEN_TOGETHER: readonly (readonly string[])[] = [
  ['h', 'min', 's'],
  ['ft', 'in'],
  ['m', 'cm', 'mm'],
  ['kg', 'g'],
];

/** What people write that is no unit here, and the unit that is meant; several where it could be either. */
export const NOT_UNITS: readonly (readonly [written: string, meant: string])[] = [
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
  ['teeth', 'tooth'],
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
  ['KW', 'kW'],
  ['Mpa mpa', 'MPa'],
  ['C celsius', '°C'],
  ['F fahrenheit', '°F'],
  ['percent', '%'],
];
