/** The sentences of findings, where one of two words or one of several ends depends on the case. */
import { describe, expect, it } from 'vitest';
import { KNOWN_FIELDS, calculate, machineCautions, planned } from '../../src/engine/index';
import { dimension } from '../../src/quantity/dimension';

const fenced = (lines: readonly string[], fence = 'figures'): string =>
  `\`\`\`${fence}\n${lines.join('\n')}\n\`\`\`\n`;
const LATHE = fenced(
  ['speeds = [70, 115, 190] rpm', 'feeds = [0.1, 0.2] mm/rev', 'max_feed_rate = 400 mm/min'],
  'machine lathe',
);
const said = (text: string): readonly string[] =>
  calculate(text)
    .findings()
    .map(({ message }) => message);

describe('a reading', () => {
  it.each([
    [['a = 20 mm', 'a measured 3 kg'], '`a` is in mm, this reading in kg. Give'],
    [['a = 20', 'a measured 3 kg'], '`a` is in plain numbers, this reading in kg. Give'],
    [['a = 20 mm', 'a measured 3'], '`a` is in mm, this reading in a plain number. Give'],
    [['a = 20 mm', 'a used 3 kg'], '`a` is planned in mm, this is in kg. Give'],
    [['a = 20', 'a used 3 kg'], '`a` is planned in plain numbers, this is in kg. Give'],
    [['a = 20 mm', 'a used 3'], '`a` is planned in mm, this is in a plain number. Give'],
    [
      ['a = 20 mm ± 0.1 hole', 'a measured 20.25 mm'],
      '`a` is 0.15 mm too large: past 20.1 mm, and the metal is gone.',
    ],
    [
      ['a = 20 mm ± 0.1 shaft', 'a measured 19.75 mm'],
      '`a` is 0.15 mm too small: past 19.9 mm, and the metal is gone.',
    ],
    [['a = 20 mm ± 0.1', 'a final 20.2 mm'], '`a` is 0.1 mm over its limits 19.9 mm to 20.1 mm at final'],
    [['a = 20 mm ± 0.1', 'a final 19.8 mm'], '`a` is 0.1 mm under its limits 19.9 mm to 20.1 mm at final'],
    [['a = 20 mm ± 0.1', 'a measured 20.2 mm'], '`a` is 0.1 mm over its limits. Write `shaft` or `hole`'],
    [['a = 20 mm ± 0.1', 'a measured 19.8 mm'], '`a` is 0.1 mm under its limits. Write `shaft` or `hole`'],
    // Units as they are shown everywhere, six figures at most.
    [['a = 20° ± 1°', 'a final 22°'], '`a` is 1° over its limits 19° to 21° at final'],
    [['a = 20% .. 22%', 'a final 24%'], '`a` is 2% over its limits 20% to 22% at final'],
    [['a = 20 N*m ± 1', 'a final 22 N*m'], '`a` is 1 N·m over its limits 19 N·m to 21 N·m at final'],
    [['a = 20 .. 22', 'a final 24.12345678'], '`a` is 2.12346 over its limits 20 to 22 at final'],
  ])('%s', (lines, message) => {
    expect(said(fenced(lines))).toEqual([expect.stringContaining(message)]);
  });
});

describe('a line', () => {
  it.each([
    [['3 mm > 4 mm'], '`3 mm > 4 mm` does not hold: 3 mm > 4 mm is false. Change'],
    [['3° > 4° # the wall'], 'the wall: 3° > 4° is false. Change'],
    [['a < 4 mm', 'a = 3 mm ± 2'], '`a < 4 mm`: holds as planned (3 mm < 4 mm) but not over the whole'],
    [
      ['a < 4 mm # the wall', 'a = 3 mm ± 2'],
      'the wall: holds as planned (3 mm < 4 mm) but not over the whole',
    ],
    [
      ['b = 2 * a ± 0.1 mm', 'a = 20 mm ± 1'],
      'scatter over 4 mm, more than the 0.2 mm asked here. Most comes from `a` (100 %).',
    ],
    [['b = 2 * a + c ± 0.1 mm', 'a = 20 mm ± 1', 'c = 1 mm ± 0.5'], 'Most comes from `a` (80 %).'],
    [
      ['s + 1', 's = ball_on_shank(30 mm, 12 mm)'],
      'Say which, for example `s.tilt` or `s.ring` or `s.height` or `s.neck_to_end`.',
    ],
    [
      ['mill + 1', '```', '```machine mill', '# nothing yet'],
      '`mill` has no values yet: write one on its card.',
    ],
    [['f(1) + 1'], 'There is no formula `f`. For a product write `f * (…)`.'],
    [['sqrt(x: 3)'], '`sqrt` has no `x`. Leave the name out.'],
    [
      ['spindle_speed(speed: 3 m/min)'],
      '`spindle_speed` has no `speed`. It takes `cutting_speed`, `diameter`.',
    ],
    [
      ['division_chord(100 mm)'],
      '`division_chord` still needs `divisions`: equal parts of a full turn. Add it.',
    ],
    [['spindle_speed(3 m/min)'], 'the cutter or the ring on the mill, in mm. Add it.'],
    [['division_chord(100 mm, 3 mm)'], '`divisions` takes a plain number, not a length. Change it.'],
    [
      ['spindle_speed(3 kg, 30 mm)'],
      '`cutting_speed` takes a speed, such as in m/min, not a mass. Change it.',
    ],
    [['spindle_speed(3, 30 mm)'], 'not a plain number. Write `3 m/min`.'],
    [
      ['drill_size(6 mm, zzzzzz)'],
      '`kind` takes `metric`, `fraction`, `number`, `letter` or `any`, not `zzzzzz`.',
    ],
    [['drill_size(6 mm, leter)'], 'not `leter`. Did you mean `letter`?'],
  ])('%s', (lines, message) => {
    expect(said(fenced(lines))[0]).toContain(message);
  });

  it('are twenty for one line at most, however much is wrong with it', () => {
    const wrong = (count: number): string =>
      fenced([`a = [${Array.from({ length: count }, () => 'mm').join(' + ')}]`]);
    expect(said(wrong(20))).toHaveLength(20);
    expect(said(wrong(21))).toHaveLength(20);
    expect(said(wrong(3))).toHaveLength(3);
  });

  it('of a figure that needs itself names no others', () => {
    expect(said(fenced(['a = a + 1 mm']))[0]).toBe('`a` needs itself. Give it a value that does not.');
  });

  it('of a circle of two says no more than two', () => {
    expect(said(fenced(['a = b', 'b = a']))[0]).toBe(
      'These figures need each other: `a`, `b`. Give one of them a value of its own.',
    );
  });
});

describe('a machine', () => {
  it.each([
    ['a = 300 rpm', '300 rpm is faster than the highest speed of `lathe`, 190 rpm.'],
    ['a = 30 rpm', '30 rpm is slower than the lowest speed of `lathe`, 70 rpm.'],
    ['a = 0.3 mm/rev', '0.3 mm/rev is coarser than the coarsest feed of `lathe`, 0.2 mm/rev.'],
    ['a = 0.03 mm/rev', '0.03 mm/rev is finer than the finest feed of `lathe`, 0.1 mm/rev.'],
    ['a = 500 mm/min', '500 mm/min is more than the highest feed rate of `lathe`, 400 mm/min.'],
  ])('%s', (line, message) => {
    expect(said(LATHE + fenced([line], 'figures on lathe'))).toEqual([expect.stringContaining(message)]);
  });

  it.each([
    [LATHE, 'lath', 'There is no machine card `lath`. Did you mean `lathe`?'],
    [LATHE, 'milling', 'There is no machine card `milling`. There is `lathe`.'],
    [
      '',
      'mill',
      'There is no machine card `mill`. Write one in `shop.md`: a fence `machine NAME` with its limits.',
    ],
  ])('unknown: %s%s', (card, machine, message) => {
    expect(said(card + fenced(['a = 1'], `figures on ${machine}`))).toEqual([message]);
  });

  it.each([
    [
      'speeds = 70 mm',
      '`speeds` on a card is spindle speeds of a geared head, in rpm, a list in square brackets.',
    ],
    ['speeds = [70, 80] mm', '`speeds` on a card is'],
    ['speeds = [70, 80]', '`speeds` on a card is'],
    ['max_speed = 70 mm', '`max_speed` on a card is highest spindle speed, in rpm. Give'],
    ['max_speed = [70, 80] rpm', '`max_speed` on a card is'],
    ['rate = 3 kg', '`rate` on a card is what an hour on the machine costs. Give'],
    ['rate = [80, 85] AUD/h', '`rate` on a card is'],
    ['speeds = 70 rpm', ''],
    ['speeds = [70, 80] rpm', ''],
    ['rate = 85 AUD/h', ''],
    ['remark = [1, 2] kg', ''],
  ])('with %s', (line, message) => {
    expect(said(fenced([line], 'machine lathe'))).toEqual(
      message === '' ? [] : [expect.stringContaining(message)],
    );
  });

  it('has a rate of money per time', () => {
    const rate = KNOWN_FIELDS.find(({ name }) => name === 'rate');
    expect(rate?.dimension).toBe(dimension({ money: 1, time: -1 }));
  });

  it('has cautions, which are told for the blocks on it', () => {
    const lathe = fenced(
      ['caution: mind the chuck', 'caution_2: no gloves', 'cautions: x', 'caution_3 = 4', 'note: y'],
      'machine lathe',
    );
    const sheet = calculate(
      lathe + fenced(['a = 1'], 'figures on lathe, none') + fenced(['a = 1 mm'], 'signed on lathe'),
    );
    expect(sheet.note.blocks.map((block) => machineCautions(sheet, block))).toEqual([
      [],
      ['lathe: mind the chuck', 'lathe: no gloves'],
      [],
    ]);
  });
});

it('what was planned is a number, or none', () => {
  const sheet = calculate(fenced(['s = ball_on_shank(30 mm, 12 mm)', 'd = 3 mm', 'e measured 4 mm']));
  expect(planned(sheet, ['d'])).toMatchObject({ value: 3 });
  expect(planned(sheet, ['s', 'ring'])?.value).toBeCloseTo(29.367, 3);
  for (const path of [['s'], ['e'], ['none'], ['d', 'ring'], ['s', 'none'], []])
    expect([path, planned(sheet, path)]).toEqual([path, null]);
});
