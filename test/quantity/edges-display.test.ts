/** Showing and naming where one way changes over to another. */
import { describe, expect, it } from 'vitest';
import {
  degreesMinutesSeconds,
  show,
  showLimits,
  showNumber,
  usualDecimals,
} from '../../src/quantity/display';
import { ANGLE, AREA, FEED_PER_TURN, LENGTH, VOLUME, dimensionName } from '../../src/quantity/dimension';
import { a, offers, word } from '../../src/quantity/finding';
import { quantityFindings } from '../../src/quantity/findings';
import {
  baseUnit,
  inSystem,
  nearestUnitNames,
  otherSystem,
  siFactor,
  unit,
  unitFrom,
  unitNamed,
  unitNames,
} from '../../src/quantity/units';
import { divide, multiply, power } from '../../src/quantity/arithmetic';
import { amountOf, input, ok, q } from './make';

describe('a figure', () => {
  it.each([
    // Written out from a millionth on, and below 1e15.
    [1e-6, '', '0.000001'],
    [1.0005e-6, '', '0.0000010005'],
    [0.9999e-6, '', '9.999e-7'],
    [1.2345678e-7, '', '1.23457e-7'],
    [1e15, '', '1e15'],
    [999999999999999, '', '999999999999999'],
    [-1e15, '', '-1e15'],
    [1e-6, 'mm', '0.000001 mm'],
    [0.9999e-6, 'mm', '9.999e-7 mm'],
    // Below a part in 1e12 of its own unit it is what rounding left; in a compound it is not.
    [1.1e-12, 'mm', '1.1e-12 mm'],
    [0.9e-12, 'mm', '0 mm'],
    [0.9e-12, '', '0'],
    [1.1e-12, '', '1.1e-12'],
    [1e-12, 'mm', '1e-12 mm'],
    [-0.9e-12, 'mm', '0 mm'],
    [0.9e-12, 'm/s', '9e-13 m/s'],
    [0.9e-12, 'mm^2', '9e-13 mm²'],
    [0, 'm/s', '0 m/s'],
    [0, 'JPY', '0 JPY'],
    [0, 'KWD', '0.000 KWD'],
    [-2.5, 'AUD', '-2.50 AUD'],
    // Digits of a compound without its own count are six significant ones.
    [12.3456789, 'kg*mm', '12.3457 kg·mm'],
    [0.00123456789, 'kg*mm', '0.00123457 kg·mm'],
    // Three figures when the unit's digits show nothing.
    [0.00049, 'mm', '0.00049 mm'],
    [0.000123456, 'mm', '0.000123 mm'],
    [0.4, 'rpm', '0.4 rpm'],
    [0.49876, 'rpm', '0.499 rpm'],
    // Halves up, in digits beyond the point where binary numbers end as well.
    [123456789.0125, 'kg', '123456789.013 kg'],
    [0.285, 'AUD', '0.29 AUD'],
    [0.5005, 'mm', '0.501 mm'],
    // A difference of temperatures, though of a scale's degrees.
    [12.345, '°F*mm/mm', '12.3 °F'],
    [1e14 + 0.5, 'mm', '100000000000000.5 mm'],
  ])('%d %s is shown as %s', (amount, symbol, text) => expect(show(q(amount, symbol))).toBe(text));

  it('has the digits asked for, and money no more than them', () => {
    expect(show(q(15.5, 'AUD'), { decimals: 3 })).toBe('15.5 AUD');
    expect(show(q(15.5678, 'mm'), { decimals: 1 })).toBe('15.6 mm');
    expect(show(q(1.5, 'mm'), { decimals: 120 })).toBe('1.5 mm');
    expect(showNumber(25.4, unit('in'))).toBe('1');
  });

  it('has as many digits at nothing as at one', () => {
    expect([0, 1e-7, 1, 2.5].map((x) => usualDecimals(q(x)))).toEqual([5, 5, 5, 5]);
    expect([usualDecimals(q(25)), usualDecimals(q(0.01)), usualDecimals(q(1e-6))]).toEqual([4, 7, 11]);
  });
});

describe('degrees, minutes and seconds', () => {
  it.each([
    [11.7890892391, '11°47′21″'],
    [-0.5, '-0°30′00″'],
    [-0.0001, '0°00′00″'],
    [-1 / 3600, '-0°00′01″'],
    [0, '0°00′00″'],
    [359.99999, '360°00′00″'],
    // Half a second goes up, where the binary number is a hair less as well.
    [0.5 / 3600, '0°00′01″'],
    [455.5 / 3600, '0°07′36″'],
  ])('%d° is %s', (degrees, text) => expect(degreesMinutesSeconds(q(degrees, 'deg'))).toBe(text));
  it('are left out where seconds cannot be counted', () => {
    expect(degreesMinutesSeconds(q(1e15 / 3600 - 1, 'deg'))).not.toBeNull();
    expect(degreesMinutesSeconds(q(1e15 / 3600 + 1, 'deg'))).toBeNull();
    expect(degreesMinutesSeconds(q(1, 'mm'))).toBeNull();
  });
});

describe('limits', () => {
  it('are shown with as many digits as tell them apart, six more at the most', () => {
    const shown = (half: number, decimals?: number): string | null =>
      showLimits(input(1, 30, 30 - half, 30 + half, 'mm'), decimals === undefined ? {} : { decimals });
    expect(shown(0.05)).toBe('29.95 mm … 30.05 mm');
    expect(shown(0.00004)).toBe('29.99996 mm … 30.00004 mm');
    expect(shown(4e-10)).toBe('30 mm … 30 mm');
    expect(shown(4e-9)).toBe('29.999999996 mm … 30.000000004 mm');
    expect(shown(0.05, 1)).toBe('30 mm … 30.1 mm');
    expect(shown(0.05, 3)).toBe('29.95 mm … 30.05 mm');
  });
  it('go from the lower to the upper as shown', () => {
    expect(showLimits(input(1, -1, -3, 2, 'mm'))).toBe('-3 mm … 2 mm');
    expect(showLimits(ok(divide(q(12), input(1, 3, 2, 4))))).toBe('3 … 6');
  });
});

describe('kinds of thing', () => {
  it('have the names of the trade', () => {
    const named: Record<string, string> = {
      '': 'plain number',
      mm: 'length',
      'mm^2': 'area',
      'mm^3': 'volume',
      deg: 'angle',
      rev: 'turns',
      min: 'time',
      kg: 'mass',
      'm/min': 'speed',
      rpm: 'turning speed',
      'mm/rev': 'feed per turn',
      'min^-1': 'rate',
      N: 'force',
      'N*m': 'torque',
      W: 'power',
      MPa: 'pressure',
      'kg/m^3': 'density',
      '°C': 'temperature',
      K: 'temperature difference',
      // One turn or angle more or less than a named kind.
      'W*rev': 'power × turn',
      'N*m/rev': 'torque per turn',
      'mm*deg': 'length × angle',
      'N/deg': 'force per angle',
      // No name: the kinds it is made of.
      'mm^4': 'length^4',
      'N*m/rev^2': 'length^2 × mass per time^2 × turn^2',
      'N*rev^2': 'length × mass × turn^2 per time^2',
      'mm*deg^2': 'length × angle^2',
      'rev^2': 'turn^2',
      'rev^-1': '1 per turn',
      'deg/min': 'rate × angle',
      'AUD/kg': 'money in AUD per mass',
      'kg/AUD': 'mass per money in AUD',
      'AUD^2': 'money in AUD^2',
      'kg*AUD/min': 'mass × money in AUD per time',
    };
    for (const [symbol, name] of Object.entries(named))
      expect(dimensionName(unit(symbol).dimension), symbol).toBe(name);
    expect([LENGTH, AREA, VOLUME, ANGLE, FEED_PER_TURN]).toEqual(
      ['in', 'in^2', 'in^3', 'rad', 'in/rev'].map((symbol) => unit(symbol).dimension),
    );
  });

  it('lose their currency with the money', () => {
    expect(ok(divide(q(1, 'AUD'), q(1, 'AUD'))).dimension).toBe(unit('').dimension);
    expect(ok(multiply(q(1, 'AUD/h'), q(1, 'h/AUD'))).dimension).toBe(unit('').dimension);
    expect(ok(divide(q(1, 'AUD/h'), q(1, 'AUD'))).dimension).toBe(unit('h^-1').dimension);
    expect(ok(multiply(q(1, 'mm'), q(1, 'AUD'))).dimension.currency).toBe('AUD');
    expect(ok(multiply(q(1, 'AUD'), q(1, 'AUD'))).dimension).toBe(unit('AUD^2').dimension);
  });
});

describe('the unit of a product', () => {
  it.each([
    [multiply(q(100, 'lbf'), q(12, 'ft/min')), 'hp_imperial'],
    [multiply(q(100, 'N'), q(12, 'm/min')), 'W'],
    [multiply(q(2, 'lb'), q(9, 'ft/s^2')), 'lbf'],
    [multiply(q(2, 'psi'), q(9, 'in^2')), 'lbf'],
    [divide(q(6, 'lbf'), q(2, 'in^2')), 'lbf/in^2'],
    [divide(q(6, 'N'), q(2, 'mm^2')), 'N/mm^2'],
    [divide(q(6, 'N'), ok(multiply(q(2, 'mm'), q(1, 'kg')))), 'N/mm/kg'],
    [divide(q(6, 'W'), q(2, 'mm^3/min')), 'MPa'],
    [divide(q(6, 'hp_imperial'), q(2, 'in^3/min')), 'psi'],
    [multiply(q(6, 'lbf'), q(2, 'ft')), 'lbf*ft'],
    [multiply(q(6, 'lbf'), q(2, 'in')), 'lbf*in'],
    [multiply(q(6, 'N'), q(2, 'mm')), 'N*mm'],
    [divide(q(6, 'W'), q(2, 'min^-1')), 'N*m'],
    [divide(q(6, 'hp_imperial'), q(2, 'min^-1')), 'lbf*ft'],
    [multiply(q(3, 'MPa'), q(2, 'mm^3')), 'N*m'],
    [multiply(q(0.2, 'in/rev'), q(450, 'rpm')), 'in/min'],
    [divide(q(90, 'in/min'), q(450, 'rpm')), 'in/rev'],
    [divide(q(6), q(2, 'tooth')), ''],
    [divide(q(6, '%'), q(2, 'mm')), 'mm^-1'],
    [multiply(q(10, 'mm/m'), q(2, 'm')), 'm'],
    [divide(q(10, 'mm/m'), q(2, 'm')), 'm^-1'],
    [divide(q(6, 'N*rev/mm/in'), q(2, 'rev')), 'MPa'],
    [divide(q(6, 'J'), q(2, 'mm^3')), 'MPa'],
    [power(q(10, 'mm/m'), q(2)), ''],
    [divide(q(6, 'tooth'), q(2, 'mm')), 'mm^-1'],
    // Growth by warmth comes out in the unit of the coefficient, whichever stands first.
    [multiply(q(6, 'µm/m/K'), q(2, 'mm')), 'µm/K'],
    [multiply(q(6, 'µm/m/K'), q(2, 'm')), 'µm/K'],
    [multiply(ok(multiply(q(6, 'µm/m/K'), q(2, 'mm'))), q(15, 'K')), 'µm'],
    [multiply(q(2, 'mm'), q(6, 'µm/m/K')), 'mm/K'],
    [multiply(q(2, 'mm*m^-2*s'), q(6, 'm')), 'mm*s/m'],
    [multiply(q(2, 'µm/m'), q(6, 'µm')), 'µm'],
    [multiply(q(2, 's*mm^-1*m^-1'), q(6, 'm')), 's/mm'],
    [multiply(q(2, 'in*kg'), q(6, 'mm')), 'in^2*kg'],
    [multiply(q(6, 'mm/rev'), q(2, 'rev/min')), 'mm/min'],
    [multiply(q(6, 'mm/tooth'), q(2, 'tooth/min')), 'mm/min'],
    [power(q(2, 'mm^2'), q(0.5)), 'mm'],
    [power(q(4, 'mm^2*kg'), q(2)), 'mm^4*kg^2'],
    [power(q(4, 'rpm'), q(1)), 'rpm'],
    [power(q(4, 'rpm'), q(-1)), 'min/rev'],
    [power(q(4, 'ft*in'), q(0.5)), 'mm'],
  ])('case %#', (made, symbol) => expect(amountOf(made)[1]).toBe(symbol));

  it('of named kinds is always one that fits', () => {
    for (const x of ['N', 'W', 'MPa', 'lbf', 'psi', 'rpm', 'm/min', 'AUD/h', '°F'])
      for (const y of ['mm', 'in^2', 'ft/min', 'min', 's^2', 'kg', '%', 'rev', 'K']) {
        const b = q(2, y);
        for (const made of [
          multiply(q(3, x), b),
          multiply(b, q(3, x)),
          divide(q(3, x), b),
          divide(b, q(3, x)),
        ])
          if (made.kind === 'number') expect(made.unit.dimension, `${x} and ${y}`).toBe(made.dimension);
      }
  });
});

describe('units', () => {
  it('are made of parts above and below', () => {
    expect(unit('m/s').factor).toBe(60_000);
    expect(unit('kg/m^3').factor).toBe(1e-9);
    // Divided once, not multiplied by a rounded reciprocal.
    expect([unit('m/ft').factor, unit('m/lb').factor]).toEqual([1000 / 304.8, 1000 / 0.45359237]);
    expect(unit('mm^0*kg').symbol).toBe('kg');
    expect(unit('mm^0')).toBe(unit(''));
    expect(unit('°C^2').dimension).toBe(unit('K^2').dimension);
    expect(unit('°C*mm/mm')).toMatchObject({ offset: 0, dimension: unit('K').dimension });
    expect(unit('mm/mm').symbol).toBe('');
    expect(unit('mm^2/mm').symbol).toBe('mm');
    expect(unit('s^-1*min^-2').symbol).toBe('s^-1*min^-2');
    // Too large or too small for a number, though the kind is in range.
    expect(unitFrom('%^-99*m^12*µm^-12')?.factor).toBeGreaterThan(1e260);
    expect(unitFrom('%^-99*m^12*µm^-12*GPa^6*Pa^-6')).toBeNull();
    expect(unitFrom('%^99*m^-12*µm^12*GPa^-6*Pa^6*kg^-6*g^6')).toBeNull();
    expect(unitFrom('K*K')?.symbol).toBe('K^2');
    expect(unitFrom('°C*mm')?.dimension).toBe(unit('K*mm').dimension);
  });

  it('are told by every spelling', () => {
    const spelled: Record<string, string> = {
      '"': 'in', '\u03bcm': 'µm', um: 'µm', '°': 'deg', '′': 'arcmin', '″': 'arcsec', degC: '°C', degF: '°F',
    }; // prettier-ignore
    for (const [name, symbol] of Object.entries(spelled)) expect(unitNamed(name)?.symbol, name).toBe(symbol);
    expect(unitNames()).toEqual(expect.arrayContaining([...Object.keys(spelled), 'mm', 'rpm', 'hp_metric']));
    expect(unitNamed('AUD')).toBe(unitNamed('AUD'));
    expect([unitNamed('AUDI'), unitNamed('AU')]).toEqual([undefined, undefined]);
  });

  it('of one half of the trade have their like in the other', () => {
    const other = (symbol: string): string | null => otherSystem(unit(symbol))?.symbol ?? null;
    expect(['N/mm^2', 'lbf/in^2', 'psi', 'MPa', 'kPa'].map(other)).toEqual([
      'psi',
      'MPa',
      'MPa',
      'psi',
      'psi',
    ]);
    expect(['g/cm^3', 'lb/ft^3', 'mm*rev', 'AUD/kg', 'kg*lb'].map(other)).toEqual([
      'lb/in^3',
      'kg/m^3',
      'in*rev',
      'AUD/lb',
      'lb^2',
    ]);
    expect(inSystem(unit('rpm'), 'mm')).toBe(unit('rpm'));
    expect(inSystem(unit('lb'), 'mm')).toBe(unit('kg'));
  });

  it('stand for every kind and measure it in the SI', () => {
    expect(
      ['AUD/h', 'kg/min^2', 'mm^4', 'm/K', 'deg*rev'].map((s) => baseUnit(unit(s).dimension).symbol),
    ).toEqual(['AUD/min', 'kg/min^2', 'mm^4', 'mm/K', 'rev*deg']);
    // BIPM: a millimetre is 0.001 m, a minute 60 s, a degree pi/180 rad.
    expect(siFactor(unit('mm/min').dimension)).toBeCloseTo(0.001 / 60, 15);
    expect(siFactor(unit('rev*K*kg').dimension)).toBe(1);
  });
});

describe('what people write for units', () => {
  // Spellings of workshop papers, from memory, and what each could mean.
  const MEANT =
    'HP:hp_imperial|hp_metric bhp:hp_imperial|hp_metric PS:hp_metric CV:hp_metric ch:hp_metric cv:hp_metric pk:hp_metric mils:thou|mm ' +
    'inches:in In:in IN:in feet:ft foot:ft thousandths:thou thous:thou MM:mm millimetre:mm millimeters:mm micron:µm ' +
    'microns:µm mu:µm metre:m meters:m degree:deg degrees:deg radian:rad radians:rad turn:rev revs:rev r:rev ' +
    'revolutions:rev RPM:rpm teeth:tooth sec:s secs:s second:s seconds:s mins:min minute:min minutes:min hr:h hrs:h ' +
    'hour:h hours:h lbs:lb pound:lb pounds:lb KG:kg kilo:kg kilos:kg Nm:N*m NM:N*m Nmm:N*mm ftlb:lbf*ft ftlbf:lbf*ft ' +
    'lbft:lbf*ft inlb:lbf*in inlbf:lbf*in lbin:lbf*in sfm:ft/min fpm:ft/min SFM:ft/min ipm:in/min IPM:in/min ' +
    'ipr:in/rev IPR:in/rev ml:cm^3 cc:cm^3 ccm:cm^3 KW:kW Mpa:MPa mpa:MPa C:°C celsius:°C F:°F fahrenheit:°F percent:%';
  it.each(MEANT.split(' ').map((pair) => pair.split(':') as [string, string]))(
    '%s is %s',
    (written, meant) => {
      expect(unitFrom(written)).toBeNull();
      expect(nearestUnitNames(written)).toEqual(meant.split('|'));
    },
  );

  it('slips of a letter are seen, larger ones are not', () => {
    const near = (text: string): string => nearestUnitNames(text).join(' ');
    // One letter of a short name, two of a longer one; a capital counts half a letter.
    expect(near('mmm')).toBe('mm min rpm');
    expect(near('kq')).toBe('kg kN kJ');
    expect(near('RpM')).toBe('rpm');
    expect(near('hp_metrik')).toBe('hp_metric');
    expect(near('hp_mettrik')).toBe('hp_metric');
    expect(near('hp_mettrrik')).toBe('');
    expect(near('degg')).toBe('deg °C °F');
    expect(near('q')).toBe('');
    expect(near('i')).toBe('');
    expect(near('M')).toBe('m');
    expect(near('xM')).toBe('');
  });
});

describe('the words of a finding', () => {
  const say = (code: string, data: Parameters<typeof word>[0]): string =>
    quantityFindings[code]?.say(data) ?? expect.fail(code);

  it('have their article and gaps', () => {
    expect(['angle', 'area', 'energy', 'length', 'turns', 'money in AUD'].map(a)).toEqual([
      'an angle',
      'an area',
      'an energy',
      'a length',
      'turns',
      'money in AUD',
    ]);
    expect([word({ n: 3 }, 'n'), word({ n: null }, 'n'), word({}, 'n'), word({ n: 0 }, 'n')]).toEqual([
      '3',
      '',
      '',
      '0',
    ]);
    expect([offers({}), offers({ offers: ['a'] }), offers({ offers: ['a', 'b'] })]).toEqual([
      '',
      '`a`',
      '`a` or `b`',
    ]);
  });

  it('say what each operator needs', () => {
    const needs = (operator: string): string =>
      say('unit-mismatch', { operator, left: 'length', right: 'mass' });
    for (const operator of ['+', '-'])
      expect(needs(operator)).toContain(`\`${operator}\` needs two of one kind`);
    for (const operator of ['±', '..']) expect(needs(operator)).toContain('limits are of the same kind');
    for (const operator of ['max', 'hypot'])
      expect(needs(operator)).toContain(`\`${operator}\` needs figures of one kind`);
    for (const operator of ['<=', '=='])
      expect(needs(operator)).toContain('only figures of one kind compare');
    for (const one of [{ leftText: 'a' }, { rightText: 'b' }])
      expect(say('unit-mismatch', { operator: '+', left: 'length', right: 'mass', ...one })).toMatch(
        /^Here a length meets a mass/,
      );
  });

  it('name what fails and what would do', () => {
    expect(say('fails-at-limit', {})).toBe(
      'Within the limits of one of its inputs this has no result. Narrow those limits or change the nominal.',
    );
    expect(say('fails-at-limit', { name: 'neck', says: 'give less' })).toBe(
      'Within the limits of `neck` this has no result: give less. Narrow those limits or change the nominal.',
    );
    const turn = { from: 'speed', unit: 'mm' };
    expect(say('turn-would-change', { ...turn, change: 'lost' })).toContain('Divide by `1 rev`');
    expect(say('turn-would-change', { ...turn, change: 'gained' })).toContain('Multiply by `1 rev`');
    expect(say('angle-would-change', { ...turn, change: 'lost', formula: null })).toContain(
      'divide by `1 rad`',
    );
    expect(say('angle-would-change', { ...turn, change: 'lost', formula: 'arc_length' })).toContain(
      'Use the formula `arc_length`.',
    );
    expect(say('outside-domain', { function: 'asin', lowest: -1, highest: 1, value: 1.23456789 })).toContain(
      'this is 1.23457.',
    );
    expect(say('iso-size-out-of-range', { code: 'H7', largest: 500, size: 600.1234567891 })).toContain(
      'this is 600.123457 mm.',
    );
  });
});

/** Letters to change, add or leave out, by the definition; a capital for a small letter counts half. */
function apart(x: string, y: string): number {
  if (x === '' || y === '') return x.length + y.length;
  const [p = '', q2 = ''] = [x[0], y[0]];
  const change = p === q2 ? 0 : p.toLowerCase() === q2.toLowerCase() ? 0.5 : 1;
  return Math.min(apart(x.slice(1), y.slice(1)) + change, apart(x.slice(1), y) + 1, apart(x, y.slice(1)) + 1);
}

it('the nearest names are those by the definition of a distance', () => {
  const words =
    'mmx xmm Mn rpmm rppm RPm kgs kNm degs arcmni MPaa hpmetric Ps GPas thuo tooh radd jK wk lbF ibf fT iN'.split(
      ' ',
    );
  for (const word of words) {
    const most = word.length < 3 ? 1 : 2;
    const wanted = unitNames()
      .filter((name) => Math.abs(name.length - word.length) <= 2)
      .map((name) => ({ name, d: apart(word, name) }))
      .filter(({ name, d }) => d <= most && d < word.length && d < name.length)
      .sort((x, y) => x.d - y.d)
      .map(({ name }) => unitNamed(name)?.symbol ?? name);
    expect([word, ...nearestUnitNames(word)]).toEqual([word, ...new Set(wanted)].slice(0, 4));
  }
});
