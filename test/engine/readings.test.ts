/** Readings on the way, at the end, and what was really run. */
import { describe, expect, it } from 'vitest';
import { type ReadingResult, calculate, calculateLines, recordedOf } from '../../src/engine/index';

function read(figure: string, reading: string): { result: ReadingResult | null; codes: string[] } {
  const sheet = calculateLines(`${figure}\n${reading}\n`);
  return { result: sheet.rows()[1]?.reading ?? null, codes: sheet.findings().map((f) => f.code) };
}

describe('a shaft while it is turned', () => {
  const shaft = 'neck = 12 mm +0/-0.05 mm shaft';
  it('has stock left while it is over', () => {
    const { result, codes } = read(shaft, 'neck measured 12.3 mm');
    expect(codes).toEqual([]);
    expect(result).toMatchObject({
      inside: false,
      left: expect.closeTo(0.3, 9),
      toNominal: expect.closeTo(0.3, 9),
    });
  });
  it('is inside between its limits, ends included', () => {
    for (const size of ['12', '11.95', '11.98']) {
      expect(read(shaft, `neck measured ${size} mm`)).toMatchObject({
        codes: [],
        result: { inside: true, left: 0 },
      });
    }
  });
  it('is gone under its lower limit, and by the worst of several readings', () => {
    const { result, codes } = read(shaft, 'neck measured 12.01 mm, 11.94 mm, 11.9 mm');
    expect(codes).toEqual(['metal-gone']);
    expect(result).toMatchObject({ inside: false, left: expect.closeTo(-0.05, 9) });
  });
});

describe('a hole', () => {
  const hole = 'bore = 25 mm H7';
  it('has stock left while it is under', () => {
    expect(read(hole, 'bore measured 24.8 mm')).toMatchObject({
      codes: [],
      result: { left: expect.closeTo(0.2, 9), toNominal: expect.closeTo(0.2, 9) },
    });
  });
  it('is gone over its upper limit: 25 H7 ends at 25.021 (ISO 286-2)', () => {
    expect(read(hole, 'bore measured 25.021 mm').codes).toEqual([]);
    expect(read(hole, 'bore measured 25.022 mm').codes).toEqual(['metal-gone']);
  });
});

describe('the last look', () => {
  it('is an error on either side of the limits', () => {
    expect(read('neck = 12 mm ± 0.05 shaft', 'neck final 12.06 mm').codes).toEqual(['outside-limits']);
    expect(read('neck = 12 mm ± 0.05 shaft', 'neck final 11.94 mm').codes).toEqual(['outside-limits']);
    expect(read('neck = 12 mm ± 0.05', 'neck final 11.95 mm, 12.05 mm').codes).toEqual([]);
  });
});

describe('without something to judge by', () => {
  it('nothing is said of a figure without asked limits', () => {
    expect(read('neck = 12 mm', 'neck measured 12.3 mm')).toMatchObject({
      codes: [],
      result: { inside: null, left: null, toNominal: expect.closeTo(0.3, 9) },
    });
  });
  it('a resulting band is no asked limit', () => {
    const sheet = calculateLines('x = 6 mm ± 0.1\nneck = 2 * x\nneck final 14 mm\n');
    expect(sheet.findings()).toEqual([]);
    expect(sheet.rows()[2]?.reading?.inside).toBeNull();
  });
});

describe('readings calculate', () => {
  const lines = [
    'ball = 26 mm ± 0.05 shaft',
    'ball measured 26.6 mm, 26.5 mm',
    'ball measured 26.2 mm, 26.3 mm at 4 mm',
    'speed = 450 rpm',
    'speed used 380 rpm',
    'speed used 300 rpm',
  ];
  const value = (expression: string): unknown => {
    const sheet = calculateLines(`${[...lines, `x = ${expression}`].join('\n')}\n`);
    expect(sheet.findings()).toEqual([]);
    return sheet.valueOf('x');
  };
  it('as the last, the last stage and its mean', () => {
    expect(value('ball.reading')).toMatchObject({ value: 26.3 });
    expect(value('ball.mean')).toMatchObject({ value: expect.closeTo(26.25, 9) });
    expect(value('ball.readings')).toMatchObject({ kind: 'list', items: [{ value: 26.2 }, { value: 26.3 }] });
  });
  it('and what was used, the last line counting', () => {
    expect(value('speed.used')).toMatchObject({ value: 300 });
  });
  it('by their place in the note, not by when they were typed', () => {
    const sheet = calculateLines('x = d.reading\nd measured 3 mm\nd measured 2 mm\n');
    expect(sheet.valueOf('x')).toMatchObject({ value: 2 });
  });
  it('for a record field of a set-up', () => {
    const sheet = calculateLines(
      'setup = ball_on_shank(30 mm, 12 mm)\nsetup.ring used 29.4 mm\nx = setup.ring.used - setup.ring\n',
    );
    expect(sheet.findings()).toEqual([]);
    expect(sheet.valueOf('x')).toMatchObject({ value: expect.closeTo(0.0328, 3) });
  });
  it('a name with readings and no figure is the mean of its last line', () => {
    const sheet = calculateLines('old measured 9 mm\nold measured 12.7 mm, 12.66 mm\nx = 2 * old\n');
    expect(sheet.valueOf('x')).toMatchObject({ value: expect.closeTo(25.36, 9) });
  });
});

describe('facts of common practice', () => {
  // No source: every shop knows them.
  const facts: readonly (readonly [string, string, number])[] = [
    ['three eighths of an inch is 9.525 mm', '3/8 in to mm', 9.525],
    ['forty thou is 1.016 mm', '40 thou to mm', 1.016],
    ['0.1 mm per revolution at 1300 rpm is 130 mm/min', '0.1 mm/rev * 1300 rpm', 130],
  ];
  for (const [fact, expression, is] of facts) {
    it(fact, () => {
      const value = calculateLines(`x = ${expression}\n`).valueOf('x');
      if (value?.kind !== 'number') throw new Error('no number');
      expect(value.value / value.unit.factor).toBeCloseTo(is, 12);
    });
  }
  it('forty turns of the crank turn the work once: a quarter is ten turns, nine degrees are one', () => {
    const head = '```machine head\nratio = 40\nplates = [15, 18]\n```\n\n';
    const sheet = calculate(
      `${head}\`\`\`figures\nq = plain_indexing(4, head)\nn = angular_indexing(9°, head)\n\`\`\`\n`,
    );
    const field = (name: string): unknown => {
      const value = sheet.valueOf(name);
      return value?.kind === 'record' ? [value.fields.get('turns'), value.fields.get('holes')] : null;
    };
    expect(field('q')).toMatchObject([{ value: 10 }, { value: 0 }]);
    expect(field('n')).toMatchObject([{ value: 1 }, { value: 0 }]);
  });
  it('three eighths is held exactly', () => {
    expect(calculateLines('x = 3/8 in\n').valueOf('x')).toMatchObject({ value: 9.525 });
  });
});

describe('places of readings', () => {
  const numbers = (lines: string, name: string): number[] | null => {
    const value = calculateLines(lines).valueOf(name);
    return value?.kind === 'list' ? value.items.map((item) => item.value) : null;
  };
  it('are those of the last stage, in the order written', () => {
    const lines =
      'n measured 13 mm at 5 mm\nn measured 12.76 mm at 10 mm, 12.73 mm at 7 cm\np = n.positions\n';
    expect(numbers(lines, 'p')).toEqual([10, 70]);
  });
  it('are none where one is missing, or another kind of thing', () => {
    for (const reading of ['12.76 mm, 12.73 mm at 70 mm', '12.76 mm at 10 mm, 12.73 mm at 32 °C']) {
      const sheet = calculateLines(`n measured ${reading}\np = n.positions\n`);
      expect(sheet.findings().map((f) => f.code)).toEqual(['position-missing']);
      expect(sheet.valueOf('p')).toBeNull();
    }
  });
  it('are waited for while nothing is measured', () => {
    expect(
      calculateLines('n = 12 mm\np = n.positions\n')
        .findings()
        .map((f) => f.code),
    ).toEqual(['not-measured-yet']);
  });
  it('give a taper and the way to move the tailstock', () => {
    const sheet = calculateLines(
      'n measured 24.96 mm at 0 mm, 25.02 mm at 150 mm\nc = tailstock_correction(n.readings, n.positions, 300 mm)\n',
    );
    expect(sheet.findings()).toEqual([]);
    const record = sheet.valueOf('c');
    const shift = record?.kind === 'record' ? record.fields.get('shift') : null;
    // Line through the readings, drawn out to the tailstock.
    expect(shift?.kind === 'number' ? shift.value : NaN).toBeCloseTo(0.06, 12);
  });
});

it('what was read or used of a name is there by its name, in the order of the note', () => {
  const sheet = calculateLines('s.ring used 3 mm\na used 7\na measured 5 mm, 6 mm\nb measured 1 kg\n');
  const recorded = (path: string): readonly unknown[] =>
    recordedOf(sheet, path).map(({ value, unit }) => [value, unit.symbol]);
  expect(recorded('a')).toEqual([
    [7, ''],
    [5, 'mm'],
    [6, 'mm'],
  ]);
  expect(recorded('s.ring')).toEqual([[3, 'mm']]);
  for (const path of ['s', 'c', 'a.b']) expect(recorded(path)).toEqual([]);
});
