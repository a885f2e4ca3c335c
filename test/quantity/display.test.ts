import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { quantity } from '../../src/quantity/arithmetic';
import {
  decimalsFor,
  degreesMinutesSeconds,
  show,
  showLimits,
  showNumber,
  showValue,
  shownText,
  shownUnit,
  usualDecimals,
} from '../../src/quantity/display';
import { COMPOUNDS, UNIT_TABLE } from '../../src/quantity/unit-table';
import { fromBase, toBase } from '../../src/quantity/unit';
import { unit, unitFrom } from '../../src/quantity/units';
import { input, q } from './make';

describe('a figure is shown', () => {
  const cases: [number, string, string][] = [
    [29.3672, 'mm', '29.367 mm'],
    [30, 'mm', '30 mm'],
    [0.1, 'mm', '0.1 mm'],
    [1.15617, 'in', '1.1562 in'],
    [0.5, 'in', '0.5 in'],
    [11.7890892391, 'deg', '11.789°'],
    [449.6, 'rpm', '450 rpm'],
    [0.2, 'mm/rev', '0.2 mm/rev'],
    [90, 'mm/min', '90 mm/min'],
    [15.566, 'AUD', '15.57 AUD'],
    [15.5, 'AUD', '15.50 AUD'],
    [15, 'JPY', '15 JPY'],
    [1.2345, 'KWD', '1.235 KWD'],
    [0, 'AUD', '0.00 AUD'],
    [85, 'AUD/h', '85 AUD/h'],
    [5, '%', '5%'],
    [20, '°C', '20 °C'],
    [-5, '°C', '-5 °C'],
    [68, '°F', '68 °F'],
    [7850, 'kg/m^3', '7850 kg/m³'],
    [706.858, 'mm^2', '706.86 mm²'],
    [35, 'N*m', '35 N·m'],
    [2500, 'min^-1', '2500 min^-1'],
    [3.14159265, '', '3.14159'],
    [0.0122, '', '0.0122'],
    [1234567.8, '', '1234568'],
    [1e6, '', '1000000'],
    [-0, 'mm', '0 mm'],
    // Halves go up as written in decimals, though 2.675 and 1.0005 are no binary numbers.
    [2.675, 'AUD', '2.68 AUD'],
    [1.0005, 'mm', '1.001 mm'],
    [-1.0005, 'mm', '-1.001 mm'],
    // What would show as nothing keeps three figures.
    [0.00012345, 'mm', '0.000123 mm'],
    [-0.0001, 'mm', '-0.0001 mm'],
    [0.3, 'rpm', '0.3 rpm'],
    [1.2e-7, 'mm', '1.2e-7 mm'],
    [2.5e16, '', '2.5e16'],
    [999.9996, 'mm', '1000 mm'],
    [0.99999999, '', '1'],
    // Rounding left over by the arithmetic is nothing: 10 - 9.9 - 0.1.
    [10 - 9.9 - 0.1, 'mm', '0 mm'],
  ];
  it.each(cases)('%d %s as %s', (amount, symbol, text) => {
    const made = q(amount, symbol);
    expect(show(made)).toBe(text);
    expect(shownText(made) + (text.includes(' ') ? ' ' : '') + shownUnit(made.unit)).toBe(text);
  });

  it('with the digits decided for its unit', () => {
    const shown = (symbols: string): string =>
      symbols
        .split(' ')
        .map((symbol) => show(q(12.34567891, symbol)))
        .join(', ');
    expect(shown('mm µm cm m in thou ft')).toBe(
      '12.346 mm, 12.3 µm, 12.3457 cm, 12.345679 m, 12.3457 in, 12.3 thou, 12.345679 ft',
    );
    expect(shown('deg arcmin arcsec rad rev tooth %')).toBe(
      '12.346°, 12.35 arcmin, 12.3 arcsec, 12.34568 rad, 12.3457 rev, 12.346 tooth, 12.35%',
    );
    expect(shown('min s h rpm kg g lb')).toBe(
      '12.35 min, 12.3 s, 12.346 h, 12 rpm, 12.346 kg, 12.3 g, 12.346 lb',
    );
    expect(shown('N kN lbf J kJ')).toBe('12.3 N, 12.346 kN, 12.3 lbf, 12.3 J, 12.346 kJ');
    expect(shown('MPa Pa kPa GPa psi')).toBe('12.3 MPa, 12 Pa, 12.3 kPa, 12.35 GPa, 12 psi');
    expect(shown('W kW hp_metric hp_imperial')).toBe('12 W, 12.346 kW, 12.346 hp_metric, 12.346 hp_imperial');
    expect(shown('K °C °F')).toBe('12.3 K, 12.3 °C, 12.3 °F');
    expect(shown('m/min mm/min ft/min in/min m/s')).toBe(
      '12.3 m/min, 12.3 mm/min, 12.3 ft/min, 12.35 in/min, 12.346 m/s',
    );
    expect(shown('mm/rev in/rev rev/min')).toBe('12.3457 mm/rev, 12.34568 in/rev, 12.35 rev/min');
    expect(shown('mm^2 cm^2 m^2 in^2')).toBe('12.35 mm², 12.346 cm², 12.345679 m², 12.3457 in²');
    expect(shown('mm^3 cm^3 m^3 in^3')).toBe('12.3 mm³, 12.35 cm³, 12.345679 m³, 12.3457 in³');
    expect(shown('N*m lbf*ft lbf*in N/mm^2')).toBe('12.35 N·m, 12.35 lbf·ft, 12.3 lbf·in, 12.3 N/mm²');
    expect(shown('kg/m^3 g/cm^3 lb/in^3')).toBe('12 kg/m³, 12.346 g/cm³, 12.3457 lb/in³');
    expect(shown('cm^3/min in^3/min kg/m')).toBe('12.35 cm³/min, 12.346 in³/min, 12.346 kg/m');
  });

  it('in the other half of the trade when asked', () => {
    expect(show(q(25.4, 'mm'), { system: 'in' })).toBe('1 in');
    expect(show(q(30, 'm/min'), { system: 'in' })).toBe('98.4 ft/min');
    expect(show(q(450, 'rpm'), { system: 'in' })).toBe('450 rpm');
    expect(show(q(1, 'mm'), { decimals: 5 })).toBe('1 mm');
    expect(show(q(1.23456789, 'mm'), { decimals: 5 })).toBe('1.23457 mm');
    expect(showNumber(25.4, unit('in'))).toBe('1');
    expect(usualDecimals(q(1, 'mm'))).toBe(3);
    expect(usualDecimals(q(12.5))).toBe(4);
  });
});

describe('angles in minutes and seconds', () => {
  const cases: [number, string][] = [
    [11.7890892391, '11°47′21″'],
    [15.5, '15°30′00″'],
    [12.999999, '13°00′00″'],
    [59.99986, '59°59′59″'],
    [59.9999, '60°00′00″'],
    [0, '0°00′00″'],
    [-0.5, '-0°30′00″'],
    [-0.00001, '0°00′00″'],
    [0.0002, '0°00′01″'],
    [360, '360°00′00″'],
    // H03 of test/data/checks.json, worked with pint.
    [1.49083333333, '1°29′27″'],
    [16.5944444444, '16°35′40″'],
  ];
  it.each(cases)('%d° is %s', (degrees, text) => expect(degreesMinutesSeconds(q(degrees, 'deg'))).toBe(text));

  it('never have sixty seconds, and are within half a second', () => {
    fc.assert(
      fc.property(fc.double({ min: -720, max: 720, noNaN: true }), (degrees) => {
        const [, sign = '', d, m, s] =
          /^(-?)(\d+)°(\d\d)′(\d\d)″$/.exec(degreesMinutesSeconds(q(degrees, 'deg')) ?? '') ?? [];
        expect(Number(m)).toBeLessThan(60);
        expect(Number(s)).toBeLessThan(60);
        const back = (Number(d) + Number(m) / 60 + Number(s) / 3600) * (sign === '-' ? -1 : 1);
        expect(Math.abs(back - degrees) * 3600).toBeLessThanOrEqual(0.5 + 1e-8);
      }),
    );
    expect(degreesMinutesSeconds(q(1, 'rad'))).toBe('57°17′45″');
    expect(degreesMinutesSeconds(q(1, 'mm'))).toBeNull();
  });
});

/** Reads a shown figure: sign, digits, exponent, unit. Knows nothing of how it was made. */
function readBack(text: string): { amount: number; lastDigit: number; symbol: string } {
  const [, number = '', digits = '', power = '0', symbol = ''] =
    /^(-?\d+(?:\.(\d+))?(?:e(-?\d+))?) ?(.*)$/.exec(text) ?? [];
  const plain = symbol
    .replace('°', symbol === '°' ? 'deg' : '°')
    .replaceAll('²', '^2')
    .replaceAll('³', '^3');
  return { amount: Number(number), lastDigit: 10 ** (Number(power) - digits.length), symbol: plain };
}

describe('what is shown', () => {
  const symbols = [
    '',
    ...UNIT_TABLE.flatMap((group) => group.units.map((entry) => entry.symbol)),
    ...COMPOUNDS.map(([symbol]) => symbol),
    'AUD',
    'JPY',
    'AUD/h',
    'min^-1',
    'µm/m/°C',
    'mm^4',
    'kg*m^2',
  ];
  const size = fc.tuple(
    fc.double({ min: -9.999, max: 9.999, noNaN: true }),
    fc.integer({ min: -9, max: 17 }),
  );

  it('reads back to within half of its last digit, and shows nothing as 0 that is something', () => {
    fc.assert(
      fc.property(fc.constantFrom(...symbols), size, (symbol, [digits, power]) => {
        const u = unit(symbol);
        const base = toBase(digits * 10 ** power, u);
        const amount = fromBase(base, u);
        const text = show(quantity(base, u));
        const back = readBack(text);
        expect(unitFrom(back.symbol)).toBe(u);
        const slack = 1e-12 * Math.max(Math.abs(amount), Math.abs(u.offset / u.factor));
        expect(Math.abs(back.amount - amount)).toBeLessThanOrEqual(back.lastDigit / 2 + slack);
        expect(text).not.toMatch(/^-0(\.0*)?( |$)/);
        if (Math.abs(amount) >= 1e-12) expect(back.amount).not.toBe(0);
        if (Math.abs(amount) >= 1e-6 && Math.abs(amount) < 1e15) expect(text).not.toMatch(/\de-?\d/);
      }),
      { numRuns: 5000 },
    );
  });

  it('has its digits stated for every unit of the table and every usual compound', () => {
    for (const symbol of symbols.slice(1, symbols.indexOf('AUD')))
      expect(decimalsFor(unit(symbol)), symbol).not.toBeNull();
    // A length to 0.001 mm or 0.0001 in, whole rpm.
    expect([decimalsFor(unit('mm')), decimalsFor(unit('in')), decimalsFor(unit('rpm'))]).toEqual([3, 4, 0]);
  });
});

describe('other values', () => {
  it('are shown in a line', () => {
    const list = { kind: 'list' as const, items: [q(70, 'rpm'), q(115, 'rpm'), q(190, 'rpm')] };
    expect(showValue(list)).toBe('[70, 115, 190] rpm');
    expect(showValue({ kind: 'list', items: [q(1, 'mm'), q(1, 'in')] })).toBe('[1 mm, 1 in]');
    expect(showValue({ kind: 'list', items: [] })).toBe('[]');
    expect(showValue({ kind: 'text', text: 'right as it stands' })).toBe('right as it stands');
    const fields = new Map([
      ['tilt', q(11.7890892391, 'deg')],
      ['ring', q(29.3672, 'mm')],
    ]);
    expect(showValue({ kind: 'record', of: 'ball_on_shank', fields })).toBe('tilt 11.789°, ring 29.367 mm');
  });

  it('limits are shown with digits enough to tell them apart', () => {
    expect(showLimits(q(30, 'mm'))).toBeNull();
    expect(showLimits(input(1, 29.367, 29.317, 29.417, 'mm'))).toBe('29.317 mm … 29.417 mm');
    expect(showLimits(input(1, 30, 29.9999, 30.0001, 'mm'))).toBe('29.9999 mm … 30.0001 mm');
    expect(showLimits(input(1, 25.4, 25.4, 25.527, 'mm'), { system: 'in' })).toBe('1 in … 1.005 in');
    expect(showLimits(input(1, 29.367, 29.31704, 29.41704, 'mm'))).toBe('29.317 mm … 29.417 mm');
    expect(showLimits(input(1, 2, 1.5, 2.5))).toBe('1.5 … 2.5');
  });
});
