/** A result knows its machine: limits of the cards, steps, and where the card says so. */
import { describe, expect, it } from 'vitest';
import { type Finding, type Shop, calculate } from '../../src/engine/index';

const shop = `# Shop

\`\`\`machine lathe
speeds = [70, 115, 190, 300] rpm
feeds = [0.05, 0.1, 0.2] mm/rev
power = 2 kW
efficiency = 75%
\`\`\`

\`\`\`machine mill
min_speed = 60 rpm
max_speed = 2000 rpm
max_feed_rate = 400 mm/min
\`\`\`

\`\`\`machine boring_head
max_speed = 700 rpm
\`\`\`
`;
const shops: readonly Shop[] = [{ file: 'shop.md', text: shop }];
const on = (machines: string, ...lines: string[]): readonly Finding[] =>
  calculate(`\`\`\`figures on ${machines}\n${lines.join('\n')}\n\`\`\`\n`, shops).findings();
const codes = (found: readonly Finding[]): string[] => found.map((f) => f.code);

describe('spindle speeds', () => {
  it('between two steps warn and name both, 24 m/min on 30 mm between 190 and 300', () => {
    const [found] = on('lathe', 'n = spindle_speed(24 m/min, 30 mm)');
    expect(found).toMatchObject({
      code: 'speed-between-steps',
      severity: 'warning',
      data: { below: 190, above: 300, machine: 'lathe' },
    });
    expect(found?.message).toContain('190 rpm or 300 rpm');
    expect(found?.related).toMatchObject([{ file: 'shop.md', line: 3 }]);
  });
  it('are quiet on a step, through speed_step and with a used line', () => {
    expect(on('lathe', 'n = 190 rpm')).toEqual([]);
    expect(on('lathe', 'n = speed_step(spindle_speed(24 m/min, 30 mm), lathe)')).toEqual([]);
    expect(on('lathe', 'wish = spindle_speed(24 m/min, 30 mm)', 'n = speed_step(wish, lathe)')).toEqual([]);
    expect(
      on(
        'lathe',
        'wish = spindle_speed(24 m/min, 30 mm)',
        'n = speed_step(machine: lathe, spindle_speed: wish)',
      ),
    ).toEqual([]);
    expect(
      on('lathe', 'wish = spindle_speed(24 m/min, 30 mm)', 'n = speed_step(machine: lathe, wish)'),
    ).toEqual([]);
    expect(on('lathe', 'n = spindle_speed(24 m/min, 30 mm)', 'n used 190 rpm')).toEqual([]);
  });
  it('are no wish for going to another formula', () => {
    expect(on('lathe', 'n = 200 rpm', 'm = round(n, 1 rpm)').map(({ line }) => line)).toEqual([1, 2]);
    expect(codes(on('lathe', 'n = 200 rpm', 'm = speed_step(100 rpm, lathe)'))).toEqual([
      'speed-between-steps',
    ]);
  });
  it('beyond the ends are errors that point at the card, a used line or not', () => {
    const [found] = on('lathe', 'n = 301 rpm', 'n used 300 rpm');
    expect(found).toMatchObject({
      code: 'speed-outside-machine',
      severity: 'error',
      data: { limit: 300, over: true },
      related: [{ file: 'shop.md', line: 3, column: 0 }],
    });
    expect(on('lathe', 'n = 69 rpm')).toMatchObject([
      { code: 'speed-outside-machine', data: { limit: 70, over: false } },
    ]);
  });
  it('of a variable drive are only held to its ends', () => {
    expect(on('mill', 'n = 1234.5 rpm')).toEqual([]);
    expect(codes(on('mill', 'n = 2001 rpm'))).toEqual(['speed-outside-machine']);
    expect(codes(on('mill', 'n = 59 rpm'))).toEqual(['speed-outside-machine']);
  });
  it('are held to the lowest limit of several machines', () => {
    expect(on('mill, boring_head', 'n = 700 rpm')).toEqual([]);
    expect(on('mill, boring_head', 'n = 701 rpm')).toMatchObject([
      { data: { machine: 'boring_head', limit: 700 }, related: [{ line: 16 }] },
    ]);
  });
  it('stated in rev/min are a crank and not judged', () => {
    expect(on('lathe', 'crank = 500 rev/min')).toEqual([]);
  });
  it('in a list are held to the ends of the machine, not to its steps', () => {
    expect(on('lathe', 'n = [100, 290] rpm')).toEqual([]);
    expect(on('lathe', 'n = [100, 301, 500] rpm')).toMatchObject([
      {
        code: 'speed-outside-machine',
        data: { value: 301, limit: 300, over: true },
        column: 4,
        endColumn: 23,
      },
    ]);
    expect(on('lathe', 'n = [60, 190] rpm')).toMatchObject([{ data: { value: 60, over: false } }]);
  });
  it('that were really run are held to the ends of the machine as well', () => {
    expect(on('lathe', 'n = 190 rpm', 'n used 301 rpm')).toMatchObject([
      {
        code: 'speed-outside-machine',
        line: 2,
        ...{ column: 7, endColumn: 14 },
        data: { value: 301, limit: 300 },
        related: [{ file: 'shop.md', line: 3 }],
      },
    ]);
    expect(on('lathe', 'n = 190 rpm', 'n used 250 rpm')).toEqual([]);
    expect(on('lathe', 'f = 0.1 mm/rev', 'f used 0.3 mm/rev')).toMatchObject([
      { code: 'feed-outside-machine', line: 2, data: { limit: 0.2 } },
    ]);
    expect(codes(on('lathe', 'n = 190 rpm', 'n used 5 mm'))).toEqual(['used-kind']);
    const off = '```figures on lathe\nn = 190 rpm\n```\n\n```figures\nn used 301 rpm\n```\n';
    expect(calculate(off, shops).findings()).toEqual([]);
  });
  it('are not judged outside a block on a machine', () => {
    expect(calculate('```figures\nn = 5000 rpm\n```\n', shops).findings()).toEqual([]);
  });
});

describe('feeds and power', () => {
  it('per revolution keep to the feeds of the card', () => {
    expect(on('lathe', 'f = 0.1 mm/rev')).toEqual([]);
    expect(codes(on('lathe', 'f = 0.21 mm/rev'))).toEqual(['feed-outside-machine']);
    expect(codes(on('lathe', 'f = 0.04 mm/rev'))).toEqual(['feed-outside-machine']);
    expect(on('lathe', 'f = 0.15 mm/rev')).toMatchObject([
      { code: 'feed-between-steps', data: { below: 0.1, above: 0.2 } },
    ]);
    // 0.008 in/rev is 0.2032 mm/rev.
    expect(codes(on('lathe', 'f = 0.008 in/rev'))).toEqual(['feed-outside-machine']);
  });
  it('rates keep to max_feed_rate, cutting speeds in m/min do not count as one', () => {
    expect(on('mill', 'v = feed_rate(0.1 mm/rev, 1300 rpm)')).toEqual([]);
    expect(codes(on('mill', 'v = feed_rate(0.4 mm/rev, 1300 rpm)'))).toEqual(['feed-rate-over-machine']);
    expect(on('mill', 'v = 24 m/min', 'w = 80 ft/min')).toEqual([]);
  });
  it('power is held against what the losses leave', () => {
    expect(on('lathe', 'p = 1.5 kW')).toEqual([]);
    expect(on('lathe', 'p = 1.51 kW')).toMatchObject([{ code: 'power-over-machine', data: { limit: 1.5 } }]);
    // Whatever the card does not say is lost nowhere.
    const plain = '```machine lathe\npower = 2 kW\n```\n\n```figures on lathe\np = 2 kW\nq = 2.01 kW\n```\n';
    expect(calculate(plain).findings()).toMatchObject([
      { code: 'power-over-machine', line: 6, data: { limit: 2 } },
    ]);
  });
});

describe('power at the motor', () => {
  // 950 N at 90 m/min is 950 * 1.5 = 1425 W at the cut, and over 0.75 of it 1900 W at the motor; the lathe has 2 kW, of which
  // 1.5 kW reach the cut.
  it('is held to what the motor has, before its losses', () => {
    expect(on('lathe', 'a = cutting_power(950 N, 90 m/min, 75%)', 'm = a.motor_power')).toEqual([]);
    expect(on('lathe', 'cutting_power(950 N, 90 m/min, 75%).motor_power')).toEqual([]);
    // At half of it the motor must give 2850 W for the same cut.
    const [found, more] = on('lathe', 'a = cutting_power(950 N, 90 m/min, 50%)');
    expect(more).toBeUndefined();
    expect(found?.message).toBe('2.85 kW is more than `lathe` has at the motor, 2 kW. Take a lighter cut.');
    expect(on('lathe', 'm = cutting_power(950 N, 90 m/min, 50%).motor_power')).toMatchObject([
      { code: 'power-over-machine', data: { limit: 2 } },
    ]);
  });
  it('is no other field, and no words', () => {
    expect(on('lathe', 'p = cutting_power(1200 N, 90 m/min, 75%).power')).toMatchObject([
      { code: 'power-over-machine', data: { limit: 1.5 } },
    ]);
    const words = '---\nmaterial: steel_C45\n---\n```figures on lathe\nm = job.material\n```\n';
    expect(calculate(words, shops).findings()).toEqual([]);
  });
  it('is told once with the power at the cut', () => {
    const [found, more] = on('lathe', 'a = cutting_power(1200 N, 90 m/min, 75%)');
    expect(more).toBeUndefined();
    expect(found?.message).toBe('1.8 kW is more than `lathe` has at the cut, 1.5 kW. Take a lighter cut.');
  });
});

describe('cards', () => {
  const own = '```machine lathe\nspeeds = [80, 160] rpm\n```\n\n```figures on lathe\nn = 160 rpm\n```\n';
  it('of the note come before those of the shop, the nearest shop file before the next', () => {
    expect(calculate(own, shops).findings()).toEqual([]);
    const far = { file: 'far/shop.md', text: '```machine lathe\nspeeds = [160, 999] rpm\n```\n' };
    const note = '```figures on lathe\nn = 160 rpm\n```\n';
    expect(codes(calculate(note, [...shops, far]).findings())).toEqual(['speed-between-steps']);
    expect(calculate(note, [far, ...shops]).findings()).toEqual([]);
  });
  it('see their own fields and formulas only', () => {
    const note = (card: string): string =>
      `\`\`\`machine mill\n${card}\n\`\`\`\n\n\`\`\`figures\nd = 40 mm\nmill.max_speed\n\`\`\`\n`;
    expect(codes(calculate(note('max_speed = spindle_speed(24 m/min, d)')).findings())).toContain(
      'unknown-name',
    );
    const sheet = calculate(
      note('largest = 40 mm\nmax_speed = spindle_speed(24 m/min, largest)\nremark: bought = second hand'),
    );
    expect(sheet.findings()).toEqual([]);
    expect(sheet.rows().find((r) => r.text === 'mill.max_speed')?.value).toMatchObject({ kind: 'number' });
    expect(sheet.card('mill')?.fields.get('remark')).toEqual({ kind: 'text', text: 'bought = second hand' });
  });
  it('have findings at their own lines, in quotes and lists too', () => {
    const note = '- a list\n\n  > ```machine mill\n  > max_speed = 3 mm\n  > ```\n';
    expect(calculate(note).findings()).toMatchObject([
      { code: 'card-field-kind', line: 3, column: 16, endColumn: 20 },
    ]);
  });
  it('built in give starting values and yield to a card of the same name', () => {
    const value = (note: string): unknown => calculate(note).rows().at(-1)?.value;
    expect(value('```figures\nsteel_C45.hss_speed to m/min\n```\n')).toMatchObject({ value: 22_000 });
    expect(
      value('```material steel_C45\nhss_speed = 24 m/min\n```\n\n```figures\nsteel_C45.hss_speed\n```\n'),
    ).toMatchObject({ value: 24_000 });
  });
});
