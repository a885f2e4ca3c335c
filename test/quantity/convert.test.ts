import { describe, expect, it } from 'vitest';
import { divide, multiply } from '../../src/quantity/arithmetic';
import { convert } from '../../src/quantity/convert';
import { band } from '../../src/quantity/limits';
import { PI } from '../../src/quantity/mathematics';
import { unit } from '../../src/quantity/units';
import { isFault } from '../../src/quantity/value';
import { amountOf, codeOf, input, ok, q } from './make';

const to = (made: Parameters<typeof convert>[0], symbol: string) => convert(made, unit(symbol));

describe('to', () => {
  const cases: [ReturnType<typeof convert>, number, string][] = [
    [to(q(25.4, 'mm'), 'in'), 1, 'in'],
    [to(q(90, 'm/min'), 'ft/min'), 295.275590551, 'ft/min'],
    [to(q(20, '°C'), '°F'), 68, '°F'],
    [to(q(450, 'rpm'), 'rev/min'), 450, 'rev/min'],
    [to(q(0.05), '%'), 5, '%'],
    // Turns to angles, 360° each.
    [to(q(0.25, 'rev'), 'deg'), 90, 'deg'],
    [to(q(1, 'rev'), 'rad'), 6.28318530718, 'rad'],
    [to(q(1, 'rpm'), 'deg/s'), 6, 'deg/s'],
    [to(q(3.6, 'mm/rev'), 'mm/deg'), 0.01, 'mm/deg'],
    // A turn counts as one for a rate and for a speed.
    [to(ok(divide(q(75, 'm/min'), ok(multiply(PI, q(30, 'mm'))))), 'rpm'), 795.774715459, 'rpm'],
    [to(ok(multiply(ok(multiply(PI, q(30, 'mm'))), q(450, 'rpm'))), 'm/min'), 42.4115008235, 'm/min'],
    [to(q(10, 'min^-1'), 'rev/min'), 10, 'rev/min'],
  ];
  it.each(cases)('case %#', (made, amount, symbol) => expect(amountOf(made)).toEqual([amount, symbol]));

  const faults: [ReturnType<typeof convert>, string, object][] = [
    [to(q(10, 'mm'), 'kg'), 'unit-mismatch', { operator: 'to', left: 'length', right: 'mass' }],
    [
      to(ok(multiply(q(50, 'N*m'), q(300, 'rpm'))), 'W'),
      'turn-would-change',
      { change: 'lost', formula: 'shaft_power' },
    ],
    [
      to(ok(divide(q(2, 'kW'), q(300, 'rpm'))), 'N*m'),
      'turn-would-change',
      { change: 'gained', formula: 'shaft_torque' },
    ],
    [to(q(450, 'rpm'), 'min^-1'), 'turn-would-change', { change: 'lost', formula: null }],
    [to(q(0.2, 'mm/rev'), 'mm'), 'turn-would-change', { change: 'gained', formula: null }],
    [to(q(0.2, 'mm'), 'mm/rev'), 'turn-would-change', { change: 'lost' }],
    [to(q(5, 'rev'), 'tooth'), 'turn-would-change', { change: 'lost' }],
    [to(q(90, 'mm/min'), 'mm*rev/min'), 'turn-would-change', { change: 'gained' }],
    [
      to(ok(multiply(q(20, 'mm'), q(90, 'deg'))), 'mm'),
      'angle-would-change',
      { change: 'lost', formula: 'arc_length' },
    ],
    [to(q(0.5), 'deg'), 'angle-would-change', { change: 'gained', formula: null }],
    [to(q(10, 'min^-1'), 'deg/min'), 'angle-would-change', { change: 'gained' }],
    [to(q(90, 'deg'), 'rev'), 'angle-to-turns', {}],
    [to(q(90, 'deg/min'), 'rpm'), 'angle-to-turns', {}],
    [to(q(20, '°C'), 'K'), 'temperature-to-difference', {}],
    [to(q(5, 'K'), '°C'), 'difference-to-temperature', {}],
    [to(q(5, 'AUD'), 'NZD'), 'currencies-mixed', { left: 'AUD', right: 'NZD' }],
    [to(q(5, 'AUD/h'), 'NZD/h'), 'currencies-mixed', {}],
    [to(q(5, 'AUD'), 'mm'), 'unit-mismatch', {}],
  ];
  it.each(faults)('refusal %#', (made, code, data) => {
    expect(codeOf(made)).toBe(code);
    if (isFault(made)) expect(made.data).toMatchObject(data);
  });

  it('takes the limits along', () => {
    const turned = ok(to(input(1, 0.25, 0.2, 0.3, 'rev'), 'deg'));
    expect(band(turned)).toMatchObject({ low: 72, high: 108 });
    const speed = ok(to(input(1, 10, 9, 12, 'min^-1'), 'rpm'));
    expect(band(speed)).toMatchObject({ low: 9, high: 12 });
  });

  it('brings an angle to turns by the division it offers', () => {
    expect(amountOf(divide(q(90, 'deg'), q(360, 'deg/rev')))).toEqual([0.25, 'rev']);
  });
});
