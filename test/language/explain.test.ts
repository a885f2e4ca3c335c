import { describe, expect, it } from 'vitest';
import { explainAt } from '../../src/language/explain';
import { fieldRows } from '../../src/language/explain-call';
import { explainFormula } from '../../src/language/explain-formula';
import type { Explanation, Part } from '../../src/language/explanation';
import { calculate } from '../../src/engine/index';
import { explainRow } from '../../src/language/explain';
import { figures, marked } from './cursor';

const SHOP = { file: 'shop.md', text: '```machine lathe\nspeeds = [70, 115] rpm\npower = 2.2 kW\n```\n' };

/** What is said about the marked place, with the columns it is said of. */
function asked(text: string): (Explanation & { readonly of: string }) | null {
  const { sheet, line, column } = marked(text, [SHOP]);
  const found = explainAt(sheet, sheet.note, line, column);
  if (!found) return null;
  const source = text.replace('‸', '').split('\n')[line] ?? '';
  return { ...found.explanation, of: source.slice(found.column, found.endColumn) };
}
const about = (...lines: readonly string[]): ReturnType<typeof asked> => asked(figures(...lines));

function part<K extends Part['kind']>(
  explanation: Explanation | null,
  kind: K,
): Extract<Part, { kind: K }> | undefined {
  return explanation?.parts.find((each): each is Extract<Part, { kind: K }> => each.kind === kind);
}

describe('a name', () => {
  it('tells its value in both unit systems, wherever it stands', () => {
    for (const lines of [
      ['ba‸ll = 30 mm', 'x = ball / 2'],
      ['ball = 30 mm', 'x = ‸ball / 2'],
    ]) {
      const found = about(...lines);
      expect(found).toMatchObject({ name: 'ball', shown: '30 mm', of: 'ball' });
      expect(part(found, 'also')?.texts).toEqual(['1.1811 in']);
    }
  });

  it('of an angle adds degrees, minutes and seconds', () => {
    expect(part(about('tilt = 11.789°', '‸tilt'), 'also')?.texts).toEqual(['11°47′20″']);
  });

  it('shows its working with the figures put in', () => {
    const found = about('a = 3 mm', 'b = 4 mm', '‸c = hypot(a, b) to in');
    expect(part(found, 'working')?.steps).toEqual([
      {
        words: null,
        name: 'c',
        expression: 'hypot(a, b) to in',
        figures: 'hypot(3 mm, 4 mm) to in',
        result: '0.1969 in',
      },
    ]);
  });

  it('tells its comment', () => {
    expect(about('‸a = 3 mm # the wall')?.parts).toContainEqual({ kind: 'words', text: 'the wall' });
  });

  it('that waits says for what', () => {
    expect(about('a = 1 +', 'b = a', '‸b * 2')?.parts).toEqual([{ kind: 'words', text: 'Waits for a.' }]);
  });

  it('of a measured sample says what it stands for', () => {
    expect(about('old measured 12.6 mm, 12.8 mm', 'x = ‸old')).toMatchObject({
      name: 'old',
      shown: '12.7 mm',
    });
  });
});

describe('limits', () => {
  const lines = ['ball = 30 mm ± 0.02', 'ring = 29 mm ± 0.05 mm', '‸x = ball + ring'];
  it('name the input that matters most first', () => {
    expect(part(about(...lines), 'limits')).toEqual({
      kind: 'limits',
      text: '±0.07 at worst: 58.93 … 59.07 mm; root-sum-square ±0.054',
      shares: ['ring ±0.05: 71 %', 'ball ±0.02: 29 %'],
    });
  });
  it('name six inputs, and those that matter', () => {
    const sum = (...lines: string[]): readonly string[] | undefined => {
      const names = lines.map((_, i) => `i${i}`);
      const given = lines.map((size, i) => `i${i} = ${size}`);
      return part(about(...given, `‸x = ${names.join(' + ')}`), 'limits')?.shares;
    };
    const even = Array.from({ length: 8 }, () => '1 mm ± 0.1');
    expect(sum(...even.slice(0, 6))).toEqual(even.slice(0, 6).map((_, i) => `i${i} ±0.1: 17 %`));
    expect(sum(...even)?.slice(5)).toEqual(['i5 ±0.1: 13 %', '2 more: little']);
    expect(sum('1 mm ± 1', '0 mm ± 0.006')).toEqual(['i0 ±1: 99 %', 'i1 ±0.006: 1 %']);
    expect(sum('0 mm ± 0.995', '0 mm ± 0.005')).toEqual(['i0 ±0.995: 100 %', 'i1 ±0.005: 1 %']);
    expect(sum('1 mm ± 1', '0 mm ± 0.0049')).toEqual(['i0 ±1: 100 %', '1 more: little']);
    expect(sum('1 mm +0.2/0 mm')).toEqual(['i0 +0.2/0: 100 %']);
  });
  it('of a card’s field name it', () => {
    const cards = [
      '```machine mill',
      'bore = 30 mm ± 0.1',
      '```',
      '```machine lathe',
      'bore = 20 mm ± 0.3',
      '```',
      '',
    ];
    const text = `${cards.join('\n')}${figures('a = 1 mm ± 0.1', '‸x = mill.bore - lathe.bore + a')}`;
    expect(part(asked(text), 'limits')?.shares).toEqual([
      ...['lathe.bore: 60 %', 'mill.bore: 20 %', 'a ±0.1: 20 %'],
    ]);
  });
  it.each([
    ['30 mm ± 0.05', '±0.05: 29.95 … 30.05 mm'],
    ['30 mm ± 0.05 hole', '±0.05: 29.95 … 30.05 mm, hole'],
    ['1 in H7', '+0.0008/0: 1 … 1.0008 in, ISO 286 H7, looked up for 25.4 mm, hole'],
    ['1/3 in h6', '0/−0.0004: 0.333 … 0.3333 in, ISO 286 h6, looked up for 8.4667 mm, shaft'],
  ])('asked as %s are told as %s', (size, text) => {
    expect(about(`‸d = ${size}`)?.parts).toContainEqual({ kind: 'note', title: 'Asked', text });
  });
  it('that are asked name the code and the millimetres it was looked up for', () => {
    expect(about('‸d = 25 mm H7')?.parts).toContainEqual({
      kind: 'note',
      title: 'Asked',
      text: '+0.021/0: 25 … 25.021 mm, ISO 286 H7, hole',
    });
    const inches = about('‸d = 1 in H7')?.parts.find((each) => each.kind === 'note');
    expect(inches?.kind === 'note' && inches.text).toContain('looked up for 25.4 mm');
  });
});

describe('what can go wrong', () => {
  const mill = (...lines: string[]): string =>
    ['```machine mill', 'speeds = [90, 140] rpm', 'caution: the quill creeps when warm', '```', '']
      .concat('```figures on mill', ...lines, '```')
      .join('\n');
  const mind = (found: Explanation | null): readonly string[] =>
    found?.parts.flatMap((each) => (each.kind === 'mind' ? each.texts : [])) ?? [];

  it('is told of the machine before that of the formula', () => {
    const call = mill('setup = ‸ball_on_shank(30 mm, 12 mm)');
    const texts = mind(asked(call));
    expect(texts[0]).toBe('mill: the quill creeps when warm');
    expect(texts.length).toBeGreaterThan(3);
    // Cards without such a line add nothing.
    expect(mind(asked(call.replace('caution:', 'remark:')))).toEqual(texts.slice(1));
  });

  it('is told at the figure, at its fields, and on any line that uses it', () => {
    for (const lines of [
      ['‸setup = ball_on_shank(30 mm, 12 mm)'],
      ['setup = ball_on_shank(30 mm, 12 mm)', 'a = setup.‸ring'],
      ['setup = ball_on_shank(30 mm, 12 mm)', '```', '', '```figures', 'a = ‸setup.ring'],
    ])
      expect(mind(asked(mill(...lines)))[0]).toBe('mill: the quill creeps when warm');
  });

  it('is told in the tooltip of the line as well', () => {
    const sheet = calculate(mill('a = 3 mm', 'setup = ball_on_shank(30 mm, 12 mm)'));
    const found = sheet.rows().map((row) => mind(explainRow(sheet, row))[0]);
    expect(found.slice(-2)).toEqual([undefined, 'mill: the quill creeps when warm']);
  });

  it('does not stand in the way of what is no operation', () => {
    expect(mind(asked(mill('‸a = 30 mm')))).toEqual([]);
    expect(mind(asked(mill('Source = 30 mm', 'Source ‸< 40 mm')))).toEqual([]);
  });
});

describe('the picture', () => {
  const of = (...lines: string[]): number | null => {
    const { sheet, line, column } = marked(figures(...lines), [SHOP]);
    return explainAt(sheet, sheet.note, line, column)?.pictured?.line ?? null;
  };
  it('of a figure belongs to its name, its call and its fields, wherever they stand', () => {
    expect(of('‸setup = ball_on_shank(30 mm, 12 mm)')).toBe(1);
    expect(of('setup = ‸ball_on_shank(30 mm, 12 mm)')).toBe(1);
    expect(of('a = setup.‸ring', 'setup = ball_on_shank(30 mm, 12 mm)')).toBe(2);
    expect(of('ball = 26 mm ± 0.05', 'ball ‸measured 26.2 mm')).toBe(1);
    expect(of('ball = 26 mm ± 0.05', '‸ball measured 26.2 mm')).toBe(1);
  });
  it('of a sample, of a formula in a part of a line and of a card’s line is none', () => {
    expect(of('old ‸measured 5 mm')).toBeNull();
    expect(of('‸ball_on_shank(30 mm, 12 mm)')).toBe(1);
    expect(of('(ball_on_shank(‸30 mm, 12 mm)).ring')).toBeNull();
    expect(of('(ball_on_shank(30 mm, 12 mm)).‸ring')).toBeNull();
    expect(of('12 mm < ‸hypot(30 mm, 12 mm)')).toBeNull();
    expect(of('x = ‸nothing')).toBeNull();
    expect(of('x = nothing.‸ring')).toBeNull();
    expect(of('ball_on_shank(‸ball: 30 mm, neck: 12 mm)')).toBeNull();
    const card = marked('```machine m\n‸power = 2 kW\n```\n```figures\npower = 3 kW\n```\n');
    expect(explainAt(card.sheet, card.sheet.note, card.line, card.column)?.pictured).toBeNull();
  });
  it('is not shown with an argument, nor with a part of an expression', () => {
    expect(of('setup = ball_on_shank(‸30 mm, 12 mm)')).toBeNull();
    expect(of('a = 2 * ‸spindle_speed(24 m/min, 28 mm)')).toBeNull();
  });
});

describe('a formula', () => {
  const found = about('setup = ‸ball_on_shank(30 mm, 12 mm)');
  it('tells what it works out, why, from what source and within which bounds', () => {
    expect(found).toMatchObject({ name: 'ball_on_shank', of: 'ball_on_shank' });
    const kinds = found?.parts.slice(4).map((each) => ('title' in each ? each.title : each.kind));
    expect(kinds).toEqual(['words', 'Holds while', 'source', 'mind']);
    expect(part(found, 'table')?.rows[1]).toEqual([
      'ring',
      '29.367 mm · 1.1562 in',
      expect.stringContaining('circle'),
    ]);
    expect(part(found, 'working')?.steps.at(1)).toMatchObject({ name: 'tilt', result: '11.789°' });
  });
  it('tells the meaning of a parameter by its name', () => {
    const fillet = about('ball_on_shank(30 mm, 12 mm, ‸fillet: 2 mm)');
    expect(fillet).toMatchObject({ name: 'fillet', shown: '2 mm', of: 'fillet' });
    expect(about('arc_length(30 mm, ‸angle: 30°)')?.parts).toEqual([
      { kind: 'words', text: 'Angle the arc takes up at its centre. In °.' },
      { kind: 'also', texts: ['30°00′00″'] },
    ]);
    const given = (...lines: string[]): unknown => {
      const found = about(...lines);
      return [found?.shown, found?.parts.map(({ kind }) => kind)];
    };
    expect(given('d = 3 mm ± 0.5', 'arc_length(‸radius: d, angle: 30°)')).toEqual([
      '3 mm ±0.5',
      ['words', 'also'],
    ]);
    expect(given('bolt_circle(40 mm, ‸holes: 3)')).toEqual(['3', ['words']]);
    expect(given('speed_step(100 rpm, ‸machine: lathe)')).toEqual(['lathe', ['words']]);
    expect(given('drill_size(6 mm, ‸kind: letter)')).toEqual(['letter', ['words']]);
    expect(
      given('circle_from_touches(‸x: [25, 10, -5] mm, y: [12, 27, 12] mm, stylus: 6 mm, shape: hole)'),
    ).toEqual(['[25, 10, -5] mm', ['words']]);
    // Where the call does not fit, nothing is given yet; what is no parameter has no meaning.
    expect(given('arc_length(‸radius: 3 mm)')).toEqual([null, ['words']]);
    expect(about('arc_length(‸diameter: 3 mm, angle: 30°)')).toBeNull();
  });
  it('of cutting data says that figures are a starting point', () => {
    const text = JSON.stringify(about('‸spindle_speed(24 m/min, 30 mm)'));
    expect(text).toContain('starting points');
  });
  it('called alone tells its result in both systems, its limits and whose they are', () => {
    const arc = about('d = 30 mm ± 0.5 mm', '‸arc_length(d, 30°)');
    // 30 mm by a sixth of pi; half a millimetre of the radius is a sixth of pi of it on the arc.
    expect(arc).toMatchObject({ name: 'arc_length', shown: '15.708 mm ±0.262' });
    expect(arc?.parts).toMatchObject([
      { kind: 'also', texts: ['0.6184 in'] },
      { kind: 'words', text: 'Length along an arc.' },
      {
        kind: 'table',
        rows: [
          ['radius', '30 mm ±0.5', 'radius of the arc'],
          ['angle', '30°', expect.anything()],
        ],
      },
      { kind: 'limits', shares: ['d ±0.5: 100 %'] },
      { kind: 'working', steps: [{ result: '15.708 mm' }] },
      { kind: 'words', text: expect.stringMatching(/^A radian is/) as unknown },
      { kind: 'note', title: 'Holds while', text: 'radius is more than zero.' },
      { kind: 'source', text: 'Definition of the radian, ISO 80000-3.' },
    ]);
  });
  it('that lacks an argument tells what it takes, without a result', () => {
    const open = about('‸arc_length(30 mm)');
    expect(open?.shown).toBeNull();
    expect(open?.parts.map(({ kind }) => kind)).toEqual(['words', 'table', 'words', 'note', 'source']);
    expect(part(open, 'table')?.rows.map(([, takes]) => takes)).toEqual(['in mm', 'in °']);
  });
  it('without conditions names none', () => {
    const kinds = explainFormula('thread_sizes')?.parts.map(({ kind }) => kind);
    expect(kinds).toEqual(['words', 'table', 'table', 'words', 'source']);
  });
  it('tells all that can go wrong itself, and three of it where its result is used', () => {
    const told = (line: string): readonly string[] => part(about(line), 'mind')?.texts ?? [];
    const all = told('‸ball_on_shank(30 mm, 12 mm)');
    expect(all).toHaveLength(12);
    expect(told('‸a = ball_on_shank(30 mm, 12 mm)')).toEqual([
      ...all.slice(0, 3),
      '9 more on ball_on_shank.',
    ]);
    const three = told('‸cutting_speed(45 rpm, 100 mm)');
    expect(three).toHaveLength(3);
    expect(told('‸a = cutting_speed(45 rpm, 100 mm)')).toEqual(three);
    expect(told('‸a = boring_bar_setting(40 mm, 8.5 mm, hole)').slice(3)).toEqual([
      '1 more on boring_bar_setting.',
    ]);
    expect(told('‸a = backlash(12.4 mm, 12.15 mm)')).toHaveLength(1);
  });
  it('before it is called tells what it takes and what it gives', () => {
    const speed = explainFormula('spindle_speed')?.parts ?? [];
    expect(speed.slice(1, 3)).toMatchObject([
      {
        rows: [
          ['cutting_speed', 'in m/min', expect.anything()],
          ['diameter', 'in mm', expect.anything()],
        ],
      },
      { rows: [['gives', 'rpm', 'turns of the spindle per minute']] },
    ]);
    expect(explainFormula('ball_on_shank')?.parts[2]).toMatchObject({
      rows: expect.arrayContaining([['ring', 'mm', expect.anything()]]) as unknown,
    });
    expect(explainFormula('hypot')?.parts).toMatchObject([
      { text: 'The long side of a right triangle, from its legs.' },
      {
        rows: [
          ['leg', '', 'one leg'],
          ['other', '', expect.anything()],
        ],
      },
      { text: 'hypot(30 mm, 40 mm) is 50 mm.' },
    ]);
    expect(explainFormula('hyp')).toBeNull();
    const takes = (name: string): readonly string[] =>
      (explainFormula(name)?.parts ?? []).flatMap((each) =>
        each.kind === 'table' ? each.rows.map(([, what]) => what) : [],
      );
    expect(takes('operation_cost')).toContain('money/h');
    expect(takes('indexing_moves').slice(0, 2)).toEqual(['a whole number', 'a machine card']);
    expect(takes('cutting_force')).toContain('a material card');
    expect(takes('taper_callout')[0]).toBe('a code or call-out as drawings write it');
    expect(takes('gear_blank_by_pitch')).toContain('a number');
    expect(takes('bolt_circle')).toContain('in °, may be left out');
    expect(takes('drill_size')).toContain('metric or fraction or number or letter or any, may be left out');
    expect(takes('circle_from_touches').slice(0, 4)).toEqual([
      'a list, in mm',
      'a list, in mm',
      'in mm',
      'hole or boss',
    ]);
  });
  it('tells what a bare code or word is for', () => {
    expect(about('fit(25 mm, ‸H7, g6)')).toMatchObject({ name: 'hole', shown: 'H7', of: 'H7' });
    expect(about('fit(25 mm, H7, ‸g6)')).toMatchObject({ name: 'shaft', shown: 'g6' });
    expect(about('drill_size(6 mm, ‸letter)')).toMatchObject({ name: 'kind', shown: 'letter' });
    // A figure stays one where a code does not belong, and a call that does not fit has no arguments yet.
    expect(about('b = 2 mm', 'spindle_speed(20 m/min, ‸b)')).toMatchObject({ name: 'b', shown: '2 mm' });
    expect(about('fit(25 mm, H7, ‸g6, 3)')).toBeNull();
  });
  it('of plain mathematics tells its meaning and its working', () => {
    const root = about('a = 9 mm^2', '‸sqrt(a)');
    expect(root).toMatchObject({ name: 'sqrt', shown: '3 mm' });
    expect(root?.parts).toMatchObject([
      { kind: 'words', text: 'The square root; of an area, a length.' },
      { kind: 'table', rows: [['value', '', expect.anything()]] },
      { kind: 'also', texts: ['0.1181 in'] },
      { kind: 'working', steps: [{ figures: 'sqrt(9 mm²)', result: '3 mm' }] },
    ]);
    expect(part(about('‸sin(30°)'), 'also')).toBeUndefined();
    const broken = about('‸sqrt(9 mm)');
    expect([broken?.shown, broken?.parts.map(({ kind }) => kind)]).toEqual([null, ['words', 'table']]);
    expect(about('‸nothing(3 mm)')).toBeNull();
  });
});

describe('a field', () => {
  it('shows the steps that lead to it, and no more', () => {
    const found = about('s = ball_on_shank(30 mm, 12 mm)', 's.‸tilt / 2');
    expect(found).toMatchObject({ name: 's.tilt', shown: '11.789°' });
    const stepsOf = (at: Explanation | null): unknown => part(at, 'working')?.steps.map(({ name }) => name);
    expect(stepsOf(found)).toEqual(['joint', 'tilt']);
    expect(stepsOf(about('(ball_on_shank(30 mm, 12 mm)).‸tilt'))).toEqual(['joint', 'tilt']);
  });
  it('that is a cutting speed of a material is said to be a starting point', () => {
    const text = '```material brass_rod\nhss_speed = 60 m/min\n```\n' + figures('brass_rod.‸hss_speed');
    expect(JSON.stringify(asked(text)?.parts)).toContain('starting points');
  });
  it('of a card says so', () => {
    expect(about('lathe.‸power')?.parts).toContainEqual({ kind: 'words', text: 'On the card of lathe.' });
  });
  it('of readings says which', () => {
    const found = about('ball = 30 mm', 'ball measured 30.2 mm, 30.4 mm', 'ball.‸mean');
    expect(found).toMatchObject({ name: 'ball.mean', shown: '30.3 mm' });
    expect(found?.parts).toContainEqual({ kind: 'words', text: 'Mean of the readings of its last line.' });
  });
});

describe('parts of an expression', () => {
  it('have a value each', () => {
    expect(about('a = 2 mm', '(a + 1 mm) ‸* 3')).toMatchObject({ shown: '9 mm', of: '(a + 1 mm) * 3' });
    expect(about('a = 2 mm', '(a ‸+ 1 mm) * 3')).toMatchObject({ shown: '3 mm', of: 'a + 1 mm' });
    const literal = about('v = ‸24 m/min');
    expect(part(literal, 'also')?.texts).toEqual(['78.7 ft/min']);
    expect(about('[1 mm, 2 mm ‸+ 3 mm, 4 mm]')).toMatchObject({ shown: '5 mm', of: '2 mm + 3 mm' });
    expect(about('[1 mm, 2 mm‸, 4 mm]')).toMatchObject({ shown: '[1, 2, 4] mm' });
  });
  it.each([
    ['d = 30 mm ‸± 0.05 # x', '± 0.05', 'd'],
    ['  d ‸= 30 mm ± 0.05 # x', 'd = 30 mm ± 0.05', 'd'],
    ['3 mm + 1 mm ‸to in', '3 mm + 1 mm to in', ''],
    ['k + ‸l <= 9 mm', 'l', 'l'],
    ['‸k measured 2.5 mm', 'k', 'k measured'],
    ['k ‸measured 2.5 mm', 'k measured 2.5 mm', 'k measured'],
    ['k = 3 mm  ‸# x', undefined, undefined],
    ['k = 3 mm #‸ x', undefined, undefined],
    ['-‸l', 'l', 'l'],
    ['‸-l', '-l', ''],
    ['‸(l + k) * 3', '(l + k)', ''],
    ['s.‸tilt', 's.tilt', 's.tilt'],
    ['‸s.tilt', 's', 's'],
    ['‸hypot(l, k)', 'hypot', 'hypot'],
    ['hypot(l‸, k)', 'hypot(l, k)', 'hypot'],
    ['x = ‸[1, 2] mm', '[1, 2] mm', ''],
    ['circle_from_touches(‸[25, 10, -5] mm, [12, 27, 12] mm, 6 mm, hole)', '[25, 10, -5] mm', ''],
    ['ball_on_shank(30 mm, 12 mm, fillet: ‸2 mm)', '2 mm', ''],
    ['drill_size(‸k, letter)', 'k', 'k'],
    ['lathe = k + 1 mm', undefined, undefined],
  ])('%s is about %j', (line, of, name) => {
    const found = about(
      'l = 4 mm',
      'k = 2.5 mm',
      's = ball_on_shank(30 mm, 12 mm)',
      line.includes('‸') ? line : `${line}‸`,
    );
    expect([found?.of, found?.name]).toEqual([of, name]);
  });
  it('that a figure is called as a card is about the figure', () => {
    expect(about('lathe = 3 mm', 'a = ‸lathe + 1 mm')).toMatchObject({ name: 'lathe', shown: '3 mm' });
  });
  it('leave blanks, comments and broken lines alone', () => {
    for (const text of ['a = 2 mm # the ‸wall', 'a = 2 mm   ‸', 'a = ‸2 +', '‸'])
      expect(about(text), text).toBeNull();
    expect(asked('‸# A job\n\n' + figures('a = 1'))).toBeNull();
  });
});

describe('machines', () => {
  it('are explained on the fence line and as arguments', () => {
    expect(asked('```figures on ‸lathe\na = 1\n```\n')).toMatchObject({ name: 'lathe', of: 'lathe' });
    expect(asked('> ```figures on ‸lathe\n> a = 1\n> ```\n')).toMatchObject({ name: 'lathe', of: 'lathe' });
    expect(about('speed_step(100 rpm, ‸lathe)')).toMatchObject({ name: 'lathe' });
  });
  it('say where their card stands, and of a material that its speeds are a start', () => {
    const first = (name: string): unknown => about(`speed_step(100 rpm, ‸${name})`)?.parts[0];
    expect(first('lathe')).toEqual({ kind: 'words', text: 'Card of a machine, from a shop file.' });
    const steel = about('turning_power(‸steel_C45, 1 mm, 0.1 mm, 20 m/min)');
    expect(steel?.parts[0]).toEqual({ kind: 'words', text: 'Card of a material, built in.' });
    expect(JSON.stringify(steel?.parts.at(-1))).toContain('starting points');
    expect(JSON.stringify(about('speed_step(100 rpm, ‸lathe)'))).not.toContain('starting points');
  });
  it('and the head of the note list what they hold', () => {
    const job = asked('---\njob: 7\npart: Lever\n---\n' + figures('a = ‸job'));
    expect(part(job, 'table')?.rows).toEqual([
      ['job', '7', ''],
      ['part', 'Lever', ''],
    ]);
    expect(part(about('a = ‸job'), 'table')).toBeUndefined();
    expect(part(about('speed_step(100 rpm, ‸lathe)'), 'table')?.rows[1]).toEqual(['power', '2.2 kW', '']);
  });
  it('have lines that see only each other', () => {
    const text = '```figures\npower = 1 mm\n```\n```machine m\npower = 2 kW\nrest = ‸power / 2\n```\n';
    expect(asked(text)).toMatchObject({ name: 'power', shown: '2 kW' });
  });
});

describe('a whole line', () => {
  it('of a check tells both sides', () => {
    const found = about('a = 30 mm ± 0.1', 'a ‸<= 30 mm # fits');
    expect(found?.parts[0]).toEqual({
      kind: 'words',
      text: '△ Holds at nominal, 30 mm against 30 mm, but not over all limits.',
    });
    expect(found?.parts[1]).toEqual({ kind: 'words', text: 'fits' });
  });
  it('of readings tells the plan, what was asked and how far they lie apart', () => {
    const found = about('neck = 12 mm ± 0.02 shaft', 'ne‸ck measured 12.1 mm at 10 mm, 12.14 mm at 70 mm');
    expect(found?.name).toBe('neck measured');
    expect(part(found, 'table')?.rows.map(([at]) => at)).toEqual(['at 10 mm', 'at 70 mm']);
    expect(found?.parts).toContainEqual({ kind: 'note', title: 'Apart', text: '0.04 mm' });
  });
  it('of readings without places counts them, and tells the comment', () => {
    const found = about('neck = 12 mm', 'neck ‸measured 12.1 mm, 12.14 mm # at the chuck');
    expect(part(found, 'table')?.rows.map(([at]) => at)).toEqual(['1', '2']);
    expect(found?.parts).toContainEqual({ kind: 'words', text: 'at the chuck' });
  });
  it('of what was used tells the plan beside it', () => {
    const found = about('speed = 509 rpm', 'speed ‸used 450 rpm # sang');
    expect(found?.name).toBe('speed used');
    expect(found?.parts).toEqual([
      { kind: 'words', text: '59 rpm below plan.' },
      { kind: 'words', text: 'sang' },
      { kind: 'note', title: 'Plan', text: '509 rpm' },
    ]);
  });
  it('has the same explanation as its hint has a tooltip', () => {
    const sheet = calculate(figures('a = 2 mm * 3'));
    const [row] = sheet.rows();
    expect(row && explainRow(sheet, row)).toMatchObject({ name: 'a', shown: '6 mm' });
  });
});

describe('what is told of', () => {
  const CARDS = {
    file: 'shop.md',
    text: `${SHOP.text}\`\`\`material bar_5\nhss_speed = 20 m/min\ndensity = 7 g/cm^3\nexpansion = 11 µm/m/K\n\`\`\`\n`,
  };
  /** The parts as text, without the sources, ranges and cautions of formulas. */
  function told(text: string): string | null {
    const { sheet, line, column } = marked(text, [CARDS]);
    const found = explainAt(sheet, sheet.note, line, column)?.explanation;
    if (!found) return null;
    const texts = found.parts.map((each) => {
      if (each.kind === 'words') return each.text;
      if (each.kind === 'also') return each.texts.join(' · ');
      if (each.kind === 'table' && each.rows.length === 0) return 'an empty table';
      if (each.kind === 'table') return each.rows.map((row) => row.join(' ')).join('; ');
      if (each.kind === 'limits') return [each.text, ...each.shares].join(', ');
      if (each.kind === 'working')
        return `by ${each.steps.map(({ name, result }) => `${name} = ${result}`).join(', ')}`;
      return each.kind === 'note' && each.title !== 'Holds while' ? `${each.title}: ${each.text}` : '';
    });
    const head = [found.name, found.shown].filter((each) => each !== null && each !== '').join(' ');
    return [head, ...texts].filter((each) => each !== '').join(' | ');
  }
  const neck = 'neck = 12 mm ± 0.02';
  const warm =
    '---\nmaterial: bar_5\n---\n```figures\nd = 25 mm h7\nd ‸measured 25.001 mm at 32 °C, 25.002 mm at 32 °C\n```';
  it.each([
    [
      [`${neck} shaft`, 'neck ‸measured 12.1 mm'],
      'neck measured | 0.08 mm left, 0.04 on radius. | Plan: 12 mm · 0.4724 in | Asked: 11.98 … 12.02 mm, shaft | 12.1 mm · 0.4764 in',
    ],
    [
      [neck, 'neck ‸final 12.01 mm'],
      'neck final | ✓ inside. | Plan: 12 mm · 0.4724 in | Asked: 11.98 … 12.02 mm | 12.01 mm · 0.4728 in',
    ],
    [['old ‸measured 5 mm'], 'old measured | 5 mm · 0.1969 in'],
    [
      ['old ‸measured 5 mm, 6 mm at 3 mm'],
      'old measured | mean 5.5 mm, 1 mm apart. | 1 5 mm 0.1969 in; at 3 mm 6 mm 0.2362 in | Apart: 1 mm',
    ],
    [
      [warm],
      'd measured | ✓ inside. | Plan: 25 mm · 0.9843 in | Asked: 24.979 … 25 mm, shaft | At 20 °C: 24.998 mm, 24.999 mm | at 32 °C 25.001 mm 0.9843 in; at 32 °C 25.002 mm 0.9843 in | Apart: 0.001 mm',
    ],
    [
      ['s = ball_on_shank(30 mm, 12 mm)', '‸s.ring used 29 mm'],
      's.ring used | 0.367 mm below plan. | Plan: 29.367 mm · 1.1562 in',
    ],
    [['feed ‸used 0.2 mm/rev'], 'feed used'],
    [['bar_5.‸density'], 'bar_5.density 7 g/cm³ | 0.2529 lb/in³ | On the card of bar_5.'],
    [['lathe.‸power'], 'lathe.power 2.2 kW | 2.95 hp_imperial | On the card of lathe.'],
    [['lathe.‸nothing'], null],
    [['---\npart: x\n---\n```figures\na = job.‸part\n```'], 'job.part x'],
    [['a measured 12 mm at 3 mm', 'a.‸reading'], 'a.reading 12 mm | 0.4724 in | The last reading taken.'],
    [['a measured 12 mm at 3 mm', 'a.‸readings'], 'a.readings [12] mm | All readings of its last line.'],
    [
      ['a measured 12 mm at 3 mm', 'a.‸positions'],
      'a.positions [3] mm | Where each reading of its last line was taken.',
    ],
    [
      ['n = spindle_speed(24 m/min, 30 mm)', 'n used 250 rpm', 'n.‸used'],
      'n.used 250 rpm | What was really used, last.',
    ],
    [['```machine ‸m\nratio = 40\n```'], 'm | Card of a machine, in this note. | ratio 40 '],
    [['n = 12 rpm', 'n used 14 rpm', 'n.‸used'], 'n.used 14 rpm | What was really used, last.'],
    [['s = 2 mm', 's.‸ring'], null],
    [['a = ‸pi'], 'pi 3.14159… | A circle is pi times as long round as across.'],
    [['a = ‸nowhere'], null],
    [['1 mm ‸+ 1 kg'], null],
    [['a = 1 +', 'b = ‸a'], 'a | No value: something is wrong in its line.'],
    [['a = 1 mm + 1 kg # why', 'b = ‸a'], 'a | why | No value: something is wrong in its line.'],
    [['old measured 20 °C, 22 °C', 'a = ‸old'], 'old 21 °C | Mean of its last readings. | 69.8 °F'],
    [['a = 30 mm ± 0.1', 'b = ‸a / 2'], 'a 30 mm ±0.1 | 1.1811 in | Asked: ±0.1: 29.9 … 30.1 mm'],
    [
      ['a = 30 mm ± 0.1', '‸b = a / 2 ± 0.3 mm # x'],
      'b 15 mm ±0.3 | 0.5906 in | x | Asked: ±0.3: 14.7 … 15.3 mm | ±0.05 at worst: 14.95 … 15.05 mm, a ±0.1: 100 % | by b = 15 mm',
    ],
    [
      ['a = 30 mm ± 0.1', '‸b = a / 2'],
      'b 15 mm ±0.05 | 0.5906 in | ±0.05 at worst: 14.95 … 15.05 mm, a ±0.1: 100 % | by b = 15 mm',
    ],
    [['l = [1, 2] mm # x', 'x = ‸l'], 'l [1, 2] mm | x'],
    [['a = 3 mm', 'a ‸to in'], '0.1181 in | 3 mm | by  = 0.1181 in'],
    [
      ['x = bolt_circle(40 mm, 2)', '‸(x)'],
      'hole [1, 2] number of the hole; angle [0, 180]° where it lies, from the X axis towards Y; x [20, -20] mm readout of X over it; y [0, 0] mm readout of Y over it; chord 40 mm · 1.5748 in straight distance from a hole to the next, to measure',
    ],
    [
      ['a = 3 mm', 'a + 1 mm ‸< 9 mm # fits'],
      '✓ Holds: 4 mm against 9 mm. | fits | a + 1 mm: 4 mm · 0.1575 in',
    ],
    [
      ['a = 3 mm ± 0.1', 'a ‸< 2 mm # fits'],
      '✗ Does not hold: 3 mm against 2 mm. | a: 3 mm ±0.1 · 0.1181 in | ±0.1 at worst: 2.9 … 3.1 mm, a ±0.1: 100 %',
    ],
    [['nothing + 1 ‸< 9 mm'], null],
    [
      ['```material m\n```\n```figures on ‸m\n```'],
      'm | Card of a material, in this note. | Speeds are starting points: check them against the tool, the machine and the cut.',
    ],
    [['---\njob: 7\n---\n```figures\na = ‸job\n```'], 'job | What the head of the note says. | job 7 '],
    [['a = ‸job'], 'job | What the head of the note says.'],
    [
      ['```machine m\nmax_speed = 300 rpm\n```\n```figures\nm.‸max_speed\n```'],
      'm.max_speed 300 rpm | On the card of m.',
    ],
    [
      ['lathe = 3 mm', 'lathe measured 4 mm', 'lathe.‸reading'],
      'lathe.reading 4 mm | 0.1575 in | The last reading taken.',
    ],
    [
      ['old ‸measured 20 °C, 22 °C'],
      'old measured | mean 21 °C, 2 °C apart. | 1 20 °C 68 °F; 2 22 °C 71.6 °F | Apart: 2 °C',
    ],
    [['> ```figures\n> a = ‸pi\n> ```'], 'pi 3.14159… | A circle is pi times as long round as across.'],
    [['```machine ‸lone\n```'], 'lone | Card of a machine, in this note.'],
    [['```figures on ‸nowhere\n```'], null],
    [['```machine m\npow‸er = 2 kW\n```'], 'power 2 kW | 2.682 hp_imperial'],
    [['```machine m\npower = 2 kW\nnote: ‸old\n```'], null],
  ])('%j', (lines, wanted) => {
    const [text = ''] = lines;
    expect(told(/```/.test(text) ? text : figures(...lines))).toBe(wanted);
  });

  it('a field of a figure that is called as a card is of the figure', () => {
    const text = told(figures('lathe = ball_on_shank(30 mm, 12 mm)', 'lathe.‸ring'));
    expect(text).toContain(
      'as a boss cut with it measures. | by joint = 23.578°, tilt = 11.789°, ring = 29.367 mm',
    );
  });
});

describe('long lists', () => {
  const rowOf = (name: string, call: string): string | undefined =>
    part(about(`‸${call}`), 'table')?.rows.find(([field]) => field === name)?.[1];

  it('are shortened from nine items on, with the last and the count', () => {
    expect(rowOf('x', 'bolt_circle(40 mm, 8)')).toMatch(/^\[([^,]+, ){7}[^,]+\] mm$/);
    expect(rowOf('x', 'bolt_circle(40 mm, 9)')).toBe('[20, 15.321, 3.473] mm … 15.321 mm, 9 in all');
  });

  it('in words of more than 120 letters end after a whole part', () => {
    const words = `${'a, '.repeat(39)}bcd`;
    const shownOf = (text: string): unknown => fieldRows(undefined, new Map([['x', { kind: 'text', text }]]));
    expect(shownOf(words)).toEqual([['x', words, '']]);
    expect(shownOf(`${words}e`)).toEqual([['x', `${'a, '.repeat(38)}a …`, '']]);
  });

  it('such as a ranking end after a whole part', () => {
    expect(rowOf('ranking', 'likely_size(3.15 mm)')).toBe(
      '1/8 in (#5 UN thread): 0.025 mm under, 96 %; 3.2 mm: 0.05 mm under, 3 %; 3.3 mm: 0.15 mm under, 1 % …',
    );
  });
});
