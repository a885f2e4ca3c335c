import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import { report } from '../../src/sheet/report';

const fence = (...lines: string[]): string => ['```figures', ...lines, '```', ''].join('\n');
const of = (text: string, shops: { file: string; text: string }[] = []) =>
  report(calculate(text, shops), 'a.md');
const value = (line: string) => of(fence(line)).values[0];
const NO_LIMITS = { low: null, high: null, rssLow: null, rssHigh: null, askedLow: null, askedHigh: null };

describe('values', () => {
  it('stand in the unit shown, unrounded, and in base SI units', () => {
    expect(value('a = 3/8 in to mm')).toEqual({
      name: 'a',
      kind: 'number',
      line: 2,
      value: expect.closeTo(9.525, 12) as number, // an inch is 25.4 mm: yard and pound agreement of 1959
      unit: 'mm',
      si: expect.closeTo(0.009525, 12) as number,
      shown: '9.525 mm',
      ...NO_LIMITS,
    });
  });

  // Definitions of the SI: a minute is 60 s, a radian 180/π degrees, 0 °C is 273.15 K; a turn counts as one.
  it.each([
    ['450 rpm', 450, 'rpm', 7.5],
    ['90 m/min', 90, 'm/min', 1.5],
    ['12.5°', 12.5, 'deg', 0.2181661564992912],
    ['20 °C', 20, '°C', 293.15],
    ['2 N/mm^2', 2, 'N/mm^2', 2e6],
    ['0.2 mm/rev', 0.2, 'mm/rev', 0.0002],
    ['5%', 5, '%', 0.05],
    ['40', 40, null, 40],
    ['85 AUD/h', 85, 'AUD/h', null],
  ])('%s', (line, amount, unit, si) => {
    const entry = value(line);
    expect(entry).toMatchObject({ name: null, kind: 'number', unit });
    expect(entry?.value).toBeCloseTo(amount, 9);
    if (si === null) expect(entry?.si).toBeNull();
    else expect((entry?.si as number) / si).toBeCloseTo(1, 12);
  });

  it('a list is an array', () => {
    expect(value('speeds = [70, 115, 190] rpm')).toMatchObject({
      name: 'speeds',
      kind: 'list',
      value: [70, 115, 190],
      unit: 'rpm',
      si: [70 / 60, 115 / 60, 190 / 60].map((x) => expect.closeTo(x, 12) as number),
      ...NO_LIMITS,
    });
  });

  it('money has no SI unit, in a list neither', () => {
    expect(value('[85 AUD, 90 AUD]')).toMatchObject({ kind: 'list', value: [85, 90], unit: 'AUD', si: null });
  });

  it('a list of several units is told in the first', () => {
    expect(value('a = [1 in, 12.7 mm]')).toMatchObject({ unit: 'in', value: [1, expect.closeTo(0.5, 12)] });
  });

  it('a record is one entry per field', () => {
    const { values } = of(fence('ball = ball_on_shank(30 mm, 12 mm)', 'ball_on_shank(30 mm, 12 mm)'));
    const named = values.filter((entry) => entry.line === 2);
    expect(named.map((entry) => entry.name)).toEqual(
      expect.arrayContaining(['ball.tilt', 'ball.ring', 'ball.height', 'ball.neck_to_end']),
    );
    const tilt = named.find((entry) => entry.name === 'ball.tilt');
    expect(tilt?.value).toBeCloseTo((Math.asin(12 / 30) / 2) * (180 / Math.PI), 9); // half the angle whose sine is neck over ball
    const unnamed = values.filter((entry) => entry.line === 3);
    expect(unnamed).toHaveLength(named.length);
    expect(unnamed.every((entry) => entry.name === null)).toBe(true);
  });

  it('front matter is text', () => {
    const text = `---\njob: Tow ball\ndrawing: 0815\n---\n${fence('job.drawing')}`;
    expect(of(text)).toMatchObject({
      job: { job: 'Tow ball', drawing: '0815' },
      values: [{ kind: 'text', value: '0815', unit: null, si: null, shown: '0815', line: 6 }],
    });
  });

  it('front matter may have any key', () => {
    const { job } = of(`---\n__proto__: a\nconstructor: b\n---\n`);
    expect(JSON.parse(JSON.stringify(job))).toEqual(JSON.parse('{"__proto__":"a","constructor":"b"}'));
  });

  it('a failed line keeps its name and has no value', () => {
    expect(value('a = 10 mm + 1')).toEqual({
      name: 'a',
      kind: null,
      line: 2,
      value: null,
      unit: null,
      si: null,
      shown: null,
      ...NO_LIMITS,
    });
  });

  it('asked limits are reported as low and high too', () => {
    expect(value('a = 30 mm +0.02/-0.01 mm')).toMatchObject({
      value: 30,
      low: 29.99,
      high: 30.02,
      rssLow: 29.99,
      rssHigh: 30.02,
      askedLow: 29.99,
      askedHigh: 30.02,
    });
  });

  it('resulting limits: worst case adds, root-sum-square adds squares', () => {
    const [, , sum] = of(fence('a = 30 mm ± 0.03', 'b = 10 mm ± 0.04', 'a + b')).values;
    const close = (x: number) => expect.closeTo(x, 9) as number;
    expect(sum).toMatchObject({
      low: close(39.93),
      high: close(40.07),
      rssLow: close(39.95), // 3, 4, 5
      rssHigh: close(40.05),
      askedLow: null,
      askedHigh: null,
    });
  });

  it('limits of a list are one per item', () => {
    const list = of(fence('a = 30 mm ± 0.03', '[a, 10 mm, 2 * a]')).values.at(-1);
    const close = (...all: number[]) => all.map((x) => expect.closeTo(x, 9) as number);
    expect(list).toMatchObject({
      value: [30, 10, 60],
      low: close(29.97, 10, 59.94),
      high: close(30.03, 10, 60.06),
      rssLow: close(29.97, 10, 59.94),
      rssHigh: close(30.03, 10, 60.06),
      askedLow: null,
    });
  });

  it('limits outside the nominal stand where they are', () => {
    // ISO 286-2: 25 f7 is -0.020/-0.041
    expect(value('a = 25 mm f7')).toMatchObject({
      value: 25,
      low: expect.closeTo(24.959, 9) as number,
      high: expect.closeTo(24.98, 9) as number,
    });
  });

  it('cards and comments are no values', () => {
    const { values } = of(
      '```machine lathe\nspeeds = [70, 115] rpm\n```\n' + fence('# words', '', 'a = 1 mm'),
    );
    expect(values.map((entry) => entry.name)).toEqual(['a']);
  });
});

it('limits of nothing are reported as they are asked', () => {
  expect(value('a = 30 mm ± 0')).toMatchObject({ low: 30, high: 30, rssLow: 30, rssHigh: 30, askedLow: 30 });
});

it('what is too large for its unit is none', () => {
  // The largest double is about 1.8e308.
  expect(value('a = 10^308 * 1 mm to um')).toMatchObject({
    value: null,
    unit: 'µm',
    si: expect.closeTo(1e305, -290),
  });
});

describe('checks', () => {
  it('tell the pair in the left unit, without the comment', () => {
    expect(of(fence('ring = 29.4 mm', 'ring <= 40 mm  # the head opens to 40')).checks).toEqual([
      {
        line: 3,
        text: 'ring <= 40 mm',
        holds: true,
        left: 29.4,
        right: 40,
        unit: 'mm',
        comment: 'the head opens to 40',
      },
    ]);
  });

  it('convert the right side', () => {
    expect(of(fence('1 in <= 25 mm')).checks).toEqual([
      {
        line: 2,
        text: '1 in <= 25 mm',
        holds: false,
        left: 1,
        right: expect.closeTo(25 / 25.4, 12) as number,
        unit: 'in',
        comment: null,
      },
    ]);
  });

  it('that could not be worked out say neither', () => {
    expect(of(fence('gone <= 25 mm')).checks).toEqual([
      { line: 2, text: 'gone <= 25 mm', holds: null, left: null, right: null, unit: null, comment: null },
    ]);
  });
});

describe('readings', () => {
  it('inside, metal left, gone too far', () => {
    const { readings } = of(
      fence(
        'neck = 12 mm h7', // ISO 286-2: 12 h7 is 0/-0.018
        'neck measured 12.30 mm at 5 mm, 12.28 mm at 30 mm',
        'neck measured 11.99 mm',
        'neck final 11.97 mm',
      ),
    );
    const close = (x: number) => expect.closeTo(x, 9) as number;
    expect(readings).toEqual([
      {
        name: 'neck',
        kind: 'measured',
        line: 3,
        values: [12.3, 12.28],
        unit: 'mm',
        inside: false,
        left: close(0.3),
      },
      { name: 'neck', kind: 'measured', line: 4, values: [11.99], unit: 'mm', inside: true, left: 0 },
      {
        name: 'neck',
        kind: 'final',
        line: 5,
        values: [11.97],
        unit: 'mm',
        inside: false,
        left: close(-0.012),
      },
    ]);
  });

  it('tell what is left in their own unit', () => {
    const [inch] = of(fence('bore = 1 in ± 0.001 in hole', 'bore measured 0.98 in')).readings;
    expect(inch?.left).toBeCloseTo(0.019, 12);
    const [warm] = of(fence('t = 20 °C ± 2 °C', 't final 68 °F')).readings; // 68 °F is 20 °C
    expect(warm).toMatchObject({ unit: '°F', inside: true, left: 0 });
  });

  it('of a sample have no limits', () => {
    expect(of(fence('old measured 1/2 in, 0.499 in')).readings).toEqual([
      { name: 'old', kind: 'measured', line: 2, values: [0.5, 0.499], unit: 'in', inside: null, left: null },
    ]);
  });

  it('of several kinds are reported in the kind of the first', () => {
    const { readings } = of(fence('neck measured 3 mm, 2 kg'));
    expect(readings).toMatchObject([{ values: [3, null], unit: 'mm', inside: null, left: null }]);
  });

  it('that cannot be judged are reported all the same', () => {
    const { readings, findings } = of(fence('neck = 12 mm h7', 'neck measured 3 kg'));
    expect(findings.length).toBeGreaterThan(0);
    expect(readings).toMatchObject([{ name: 'neck', values: [3], unit: 'kg', inside: null, left: null }]);
  });
});

it('what was used, with its remark', () => {
  const text = fence('speed = 437 rpm', 'speed used 450 rpm  # chatter gone');
  expect(of(text).used).toEqual([
    { name: 'speed', line: 3, value: 450, unit: 'rpm', comment: 'chatter gone' },
  ]);
});

it('what was used without a remark has none', () => {
  expect(of(fence('speed used 450 rpm')).used).toEqual([
    { name: 'speed', line: 2, value: 450, unit: 'rpm', comment: null },
  ]);
});

describe('findings', () => {
  it('count lines and columns from 1, ends exclusive, through quote and list markers', () => {
    const text = '> - ```figures\n>   a = 10 mm + 1  # words\n>   ```\n';
    const [finding] = of(text).findings;
    expect(finding).toMatchObject({ severity: 'error', line: 2, endLine: 2, related: [] });
    const line = text.split('\n')[1] ?? '';
    expect(line.slice((finding?.column ?? 0) - 1, (finding?.endColumn ?? 0) - 1)).toBe('10 mm + 1');
  });

  it('of a shop file are told with that file, not with every note', () => {
    const twice = '```machine lathe\n```\n```machine lathe\n```\n';
    expect(of(fence('a = 1 mm'), [{ file: '/shop/shop.md', text: twice }]).findings).toEqual([]);
    expect(of(twice).findings.map((finding) => finding.line)).toEqual([1, 3]);
  });

  it('point into the note itself and into shop files by name', () => {
    const shop = { file: '/shop/shop.md', text: '```machine lathe\nspeeds = [70, 115, 190] rpm\n```\n' };
    const text = '```figures on lathe\nn = 900 rpm\n```\n' + fence('b = 1 mm', 'b = 2 mm');
    const { findings } = report(calculate(text, [shop]), 'a.md', (file) => file.replace('/shop/', '../'));
    const [speed] = findings;
    expect(speed?.related).toMatchObject([{ file: '../shop.md', line: 2 }]);
    const twice = findings.filter((finding) => finding.code === 'name-twice');
    expect(twice.map((finding) => finding.related[0])).toMatchObject([
      { file: 'a.md', line: 6 },
      { file: 'a.md', line: 5 },
    ]);
  });
});
