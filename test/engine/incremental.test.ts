/** The sheet after any series of edits is the sheet of a fresh start, and it gets there without evaluating what did not change. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Sheet, calculate, type Row, type Shop } from '../../src/engine/index';
import { band } from '../../src/quantity/limits';
import { parseLine } from '../../src/notation/line';
import { readNote } from '../../src/notation/note';
import type { Value } from '../../src/quantity/value';

const round = (x: number): number => Number(x.toPrecision(12)) + 0;

function plainValue(value: Value | null): unknown {
  if (value === null) return null;
  if (value.kind === 'text') return value.text;
  if (value.kind === 'list') return value.items.map(plainValue);
  if (value.kind === 'record')
    return [value.of, ...[...value.fields].map(([name, part]) => [name, plainValue(part)])];
  const limits = band(value);
  return [
    round(value.value),
    value.unit.symbol,
    limits && [round(limits.low), round(limits.high), round(limits.rssLow)],
  ];
}

/** Everything a host can see, without serial numbers. */
function view(sheet: Sheet): unknown {
  const row = (r: Row): unknown => ({
    line: r.line,
    text: r.text,
    value: plainValue(r.value),
    asked: r.asked,
    check: r.check && [
      r.check.holds,
      r.check.overBand,
      round(r.check.left.value),
      round(r.check.right.value),
    ],
    reading: r.reading && [
      r.reading.inside,
      r.reading.left && round(r.reading.left),
      r.reading.toNominal && round(r.reading.toNominal),
    ],
    waitsFor: r.waitsFor,
  });
  const findings = sheet.findings().map((f) => [f.code, f.line, f.column, f.endColumn, f.message, f.related]);
  return { rows: sheet.rows().map(row), findings, names: [...sheet.names()].sort() };
}

const name = fc.constantFrom('a', 'b', 'c', 'd', 'e', 'm', 'speed', 'set_up');
const operand = fc.oneof(
  name,
  fc.constantFrom(
    '3 mm',
    '1/2 in',
    '20 mm ',
    '4',
    '450 rpm',
    '10 mm/m',
    'set_up.ring',
    'set_up.tilt',
    'a.reading',
    'b.mean',
    'speed.used',
    'mill.max_speed',
  ),
);
const expression = fc.oneof(
  operand,
  fc.tuple(operand, fc.constantFrom('+', '-', '*', '/'), operand).map(([x, op, y]) => `${x} ${op} ${y}`),
  fc.tuple(operand, operand).map(([x, y]) => `ball_on_shank(${x} + 20 mm, ${y})`),
  fc.tuple(operand).map(([x]) => `speed_step(${x}, mill)`),
  fc.tuple(operand).map(([x]) => `spindle_speed(24 m/min, ${x})`),
);
const line = fc.oneof(
  { weight: 6, arbitrary: fc.tuple(name, expression).map(([n, e]) => `${n} = ${e}`) },
  {
    weight: 2,
    arbitrary: fc
      .tuple(
        name,
        fc.constantFrom('12 mm ± 0.1', '25 mm h7', '3 mm +0.2/0 mm shaft', 'b ± 0.5 mm', '450 rpm'),
      )
      .map(([n, e]) => `${n} = ${e}`),
  },
  {
    weight: 2,
    arbitrary: fc
      .tuple(
        name,
        fc.constantFrom('measured', 'final'),
        fc.constantFrom('12.02 mm', '3 mm, 3.1 mm', '11 mm at 3 mm'),
      )
      .map((w) => w.join(' ')),
  },
  {
    weight: 1,
    arbitrary: fc.tuple(name, fc.constantFrom('used 380 rpm', 'used 12 mm')).map((w) => w.join(' ')),
  },
  { weight: 1, arbitrary: fc.constant('set_up.ring used 29 mm') },
  { weight: 1, arbitrary: expression },
  {
    weight: 1,
    arbitrary: fc.tuple(expression, fc.constantFrom('<=', '>', '=='), expression).map((w) => w.join(' ')),
  },
  { weight: 1, arbitrary: fc.constantFrom('', '# words', 'a = (', 'not a line at all') },
);
const card = fc.constantFrom(
  'speeds = [115, 190, 300] rpm',
  'speeds = [100, 450] rpm',
  'max_speed = 400 rpm',
  'max_speed = 500 rpm',
  'max_sped = 3 rpm',
  '',
);

interface State {
  readonly blocks: readonly (readonly string[])[];
  readonly on: boolean;
  readonly own: string | null;
  readonly shop: string | null;
  readonly units: string;
}

type Edit = (state: State) => State;
const at = <T>(list: readonly T[], i: number): number => (list.length === 0 ? 0 : i % list.length);
const inBlock = (state: State, i: number, change: (lines: readonly string[]) => readonly string[]): State => {
  const index = at(state.blocks, i);
  return { ...state, blocks: state.blocks.map((b, k) => (k === index ? change(b) : b)) };
};

const edit: fc.Arbitrary<Edit> = fc.oneof(
  fc.tuple(fc.nat(9), fc.nat(30), line).map(
    ([b, i, text]): Edit =>
      (s) =>
        inBlock(s, b, (lines) => [
          ...lines.slice(0, i % (lines.length + 1)),
          text,
          ...lines.slice(i % (lines.length + 1)),
        ]),
  ),
  fc.tuple(fc.nat(9), fc.nat(30), line).map(
    ([b, i, text]): Edit =>
      (s) =>
        inBlock(s, b, (lines) => lines.map((l, k) => (k === at(lines, i) ? text : l))),
  ),
  fc.tuple(fc.nat(9), fc.nat(30)).map(
    ([b, i]): Edit =>
      (s) =>
        inBlock(s, b, (lines) => lines.filter((_, k) => k !== at(lines, i))),
  ),
  fc.tuple(fc.nat(9), fc.nat(30), fc.nat(30)).map(
    ([b, i, j]): Edit =>
      (s) =>
        inBlock(s, b, (lines) =>
          lines.map((l, k) =>
            k === at(lines, i)
              ? (lines[at(lines, j)] ?? l)
              : k === at(lines, j)
                ? (lines[at(lines, i)] ?? l)
                : l,
          ),
        ),
  ),
  fc.tuple(name, name).map(([from, to]): Edit => (s) => ({
    ...s,
    blocks: s.blocks.map((b) => b.map((l) => l.replace(new RegExp(`\\b${from}\\b`, 'g'), to))),
  })),
  fc.tuple(fc.nat(9), fc.array(line, { maxLength: 6 })).map(([i, lines]): Edit => (s) => ({
    ...s,
    blocks: [...s.blocks.slice(0, i), lines, ...s.blocks.slice(i)],
  })),
  fc.nat(9).map((i): Edit => (s) => ({ ...s, blocks: s.blocks.filter((_, k) => k !== at(s.blocks, i)) })),
  fc.constant<Edit>((s) => ({ ...s, blocks: [...s.blocks].reverse() })),
  fc.constant<Edit>((s) => ({ ...s, on: !s.on })),
  fc.option(card).map((own): Edit => (s) => ({ ...s, own })),
  fc.option(card).map((shop): Edit => (s) => ({ ...s, shop })),
  fc.constantFrom('mm', 'in', '').map((units): Edit => (s) => ({ ...s, units })),
);

function noteOf(state: State): string {
  const head = state.units === '' ? '' : `---\nunits: ${state.units}\n---\n\n`;
  const own = state.own === null ? '' : `\`\`\`machine mill\n${state.own}\n\`\`\`\n\n`;
  const fence = state.on ? 'figures on mill' : 'figures';
  return (
    head +
    own +
    state.blocks.map((b) => `Words.\n\n\`\`\`${fence}\n${b.map((l) => `${l}\n`).join('')}\`\`\`\n`).join('\n')
  );
}

function shopsOf(state: State): readonly Shop[] {
  return state.shop === null
    ? []
    : [{ file: 'shop.md', text: `\`\`\`machine mill\n${state.shop}\n\`\`\`\n` }];
}

const start: State = {
  blocks: [['a = 12 mm ± 0.1', 'b = a + 3 mm', 'set_up = ball_on_shank(b + 20 mm, a)']],
  on: true,
  own: null,
  shop: null,
  units: '',
};

describe('an updated sheet', () => {
  it('equals a fresh one after every edit of a series', () => {
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 25 }), (edits) => {
        const sheet = new Sheet();
        let state = start;
        sheet.update(readNote(noteOf(state)), shopsOf(state));
        let [asked, unasked] = [sheet, calculate(noteOf(state), shopsOf(state))];
        for (const apply of edits) {
          state = apply(state);
          const [note, shops] = [noteOf(state), shopsOf(state)];
          const fresh = calculate(note, shops);
          const wanted = view(fresh);
          // One edited all along, one for the first time, and one for the first time of which nobody has seen anything.
          for (const edited of new Set([sheet, asked, unasked])) {
            edited.update(readNote(note), shops);
            expect(view(edited)).toEqual(wanted);
          }
          [asked, unasked] = [fresh, calculate(note, shops)];
        }
      }),
      { numRuns: 250 },
    );
  });
});

const note = (lines: readonly string[], fence = 'figures'): string =>
  `\`\`\`${fence}\n${lines.join('\n')}\n\`\`\`\n`;

describe('a name', () => {
  it.each([
    'b * 2',
    '1 mm + b',
    '-b',
    '(b)',
    '[1 mm, b]',
    'max(1 mm, b)',
    'hypot(-(b), 1 mm)',
    'ball_on_shank(b, 12 mm)',
    'ball_on_shank(b, 12 mm).ring',
    '(ball_on_shank(b, neck: 12 mm)).ring',
    'b to in',
    '20 mm < b <= 40 mm',
  ])('is seen to change where it stands in %s', (text) => {
    const noteWith = (size: string): string => note([text, `b = ${size}`, 'b measured 12 mm']);
    const sheet = new Sheet();
    const seen = ['30 mm', '41 mm'].map((size) => {
      sheet.update(readNote(noteWith(size)));
      expect(view(sheet)).toEqual(view(calculate(noteWith(size))));
      const [row] = sheet.rows();
      return row?.check ? row.check.holds : plainValue(row?.value ?? null);
    });
    expect(seen).not.toContain(null);
    expect(seen[0]).not.toEqual(seen[1]);
  });
});

describe('one edit', () => {
  const MILL: readonly Shop[] = [
    { file: 'shop.md', text: note(['speeds = [100, 190] rpm'], 'machine mill') },
  ];
  it.each<[string, readonly string[], readonly string[]]>([
    [
      'that takes a speed_step away leaves a speed between two steps',
      ['speed = 150 rpm', 'run = speed_step(speed, mill)'],
      ['speed = 150 rpm', 'run = 100 rpm'],
    ],
    [
      'that closes a circle takes the value of what needed it',
      ['a = 1 mm', 'b = a + 1 mm', 'c = b + 1 mm'],
      ['a = b', 'b = a + 1 mm', 'c = b + 1 mm'],
    ],
    [
      'that takes away two lines alike takes both',
      ['a = 12 mm', 'a measured 13 mm', 'a measured 13 mm', 'x = a.reading'],
      ['a = 12 mm', 'x = a.reading'],
    ],
    [
      'that records a reading tells the line that looks it up',
      ['x = a.reading'],
      ['x = a.reading', 'a measured 12 mm'],
    ],
    [
      'of a result judges again what was used of one of its fields',
      ['s = ball_on_shank(30 mm, 12 mm)', 's.tilt used 12 mm'],
      ['s = bolt_circle(60 mm, 3)', 's.tilt used 12 mm'],
    ],
    ['that hides a mark in a remark is told', ['a = 1', '# by hand'], ['a = 1', '# by \u202e hand']],
    [
      'that takes away what was used leaves a line that waits for it',
      ['a = 3 mm', 'a used 4 mm', 'x = a.used'],
      ['a = 3 mm', 'x = a.used'],
    ],
    [
      'that takes one of two away gives the name its value again',
      ['a = 1 mm', 'a = 2 mm', 'b = a'],
      ['a = 1 mm', 'b = a'],
    ],
    [
      'of a field that was used leaves the figure alone',
      ['s = ball_on_shank(30 mm, 12 mm)', 's.ring used 29 mm', 'x = s.ring.used'],
      ['s = ball_on_shank(30 mm, 12 mm)', 'x = s.ring.used'],
    ],
    ['that takes an expression away takes its finding', ['a = 1', 'none + 1'], ['a = 1']],
    ['that gives a name twice marks both', ['a = 1 mm', 'b = 2 mm'], ['a = 1 mm', 'a = 2 mm']],
    [
      'that makes a figure of a unit asks about the line far away',
      ['slope = 10 mm/m', 'n = 2'],
      ['slope = 10 mm/m', 'm = 2'],
    ],
    [
      'that breaks a circle with what cannot be worked out leaves none',
      ['a = b', 'b = c', 'c = a'],
      ['a = b', 'b = c', 'c = 1 mm + 1 kg'],
    ],
    [
      'that takes one of three away leaves two that are told',
      ['a = 1 mm', 'a = 2 mm', 'a = 3 mm'],
      ['a = 1 mm', 'a = 2 mm'],
    ],
    [
      'that takes the later readings away leaves the first',
      ['a measured 13 mm', 'a measured 14 mm', 'a measured 15 mm', 'x = a.reading'],
      ['a measured 13 mm', 'x = a.reading'],
    ],
    [
      'of a part of a result is told to a line that shows the whole',
      ['r = 0.4 mm', 's = ball_on_shank(30 mm, 12 mm, nose_radius: r)', 's'],
      ['r = 0.5 mm', 's = ball_on_shank(30 mm, 12 mm, nose_radius: r)', 's'],
    ],
    [
      'is told to the line that looks at a figure with readings',
      ['b = 1 mm', 'a = b + 1 mm', 'x = a * 2', 'a measured 2.1 mm'],
      ['b = 3 mm', 'a = b + 1 mm', 'x = a * 2', 'a measured 2.1 mm'],
    ],
  ])('%s', (_, before, after) => {
    for (const fence of ['figures', 'figures on mill']) {
      const [first, second] = [before, after].map((lines) => note(lines, fence));
      const sheet = new Sheet();
      for (const text of [first ?? '', second ?? '', first ?? '']) {
        sheet.update(readNote(text), MILL);
        expect(view(sheet)).toEqual(view(calculate(text, MILL)));
      }
      expect(view(calculate(first ?? '', MILL))).not.toEqual(view(calculate(second ?? '', MILL)));
    }
  });
});

it.each([
  [['wide = 10 mm ± 0.5', 'gap = wide ± 0.001 mm']],
  [['wide = base ± 0.5 mm', 'gap = wide ± 0.001 mm', 'base = 10 mm']],
])('the cause in %j keeps its name when other lines come', (lines) => {
  const sheet = new Sheet();
  for (const more of [[], ['b = 1 mm'], ['b = 1 mm', 'c = b']]) {
    sheet.update(readNote(note([...more, ...lines])));
    const [finding] = sheet.findings();
    expect([finding?.code, finding?.data['input']]).toEqual(['band-wider-than-asked', 'wide']);
  }
});

it('a line stays what it says, limits, unit and all, however often it is worked out', () => {
  const lines = ['b = a ± 0.5 mm', 'c = a to in', '2 * a to in', 'd = a + 1 mm', '3 * a', 'e = a shaft'];
  const sheet = new Sheet();
  for (const size of ['10 mm', '11 mm', '12 mm', null, '13 mm', '(', '14 mm']) {
    const text = note([...(size === null ? [] : [`a = ${size}`]), ...lines]);
    sheet.update(readNote(text));
    expect(view(sheet)).toEqual(view(calculate(text)));
  }
  // Limits move with the figure, and those that a direction is for are missed as on the first day.
  expect(sheet.rows()[1]?.asked).toMatchObject({ low: 13.5, high: 14.5 });
  expect(sheet.findings().map(({ code }) => code)).toEqual(['sense-without-limits']);
});

it.each(['a = 1 mm', '2 * 3 mm', '2 mm < 3 mm', 'a measured 3 mm', ''])(
  'what hides in the remark of %j is told after any edit',
  (code) => {
    const lines = [`${code} # by \u202e hand`, `${code} # by \u202e hand`];
    const sheet = new Sheet();
    for (const before of [['b = 1 mm'], []]) {
      sheet.update(readNote(note([...before, ...lines])));
      const told = sheet.findings().filter((finding) => finding.code === 'direction-in-comment');
      expect(told.map(({ line }) => line)).toEqual([1, 2].map((line) => line + before.length));
    }
  },
);

it('a warm reading follows the material of the job', () => {
  const text = (material: string): string =>
    `---\nmaterial: ${material}\n---\n${note(['bore = 50 mm H7', 'bore measured 50.040 mm at 40 °C'])}`;
  const sheet = new Sheet();
  // Growth of aluminium 23e-6 a kelvin, of steel half as much (common practice): 50.040 mm is within H7 (+25 µm) at 20 °C
  // for the one and not for the other.
  const inside = ['aluminium_6082', 'steel_C45', 'aluminium_6082'].map((material) => {
    sheet.update(readNote(text(material)));
    return sheet.rows()[1]?.reading?.inside;
  });
  expect(inside).toEqual([true, false, true]);
});

it.each([
  ['that moved to the front', ['a', 'b', 'c'], ['b', 'd', 'c']],
  ['that moved from the front', ['b', 'd', 'c'], ['a', 'b', 'c']],
  ['that is its like', ['a'], ['a', 'a']],
])('a changed block is found beside one %s', (_, before, after) => {
  const blocks = (names: readonly string[]): string => names.map((name) => note([`${name} = 1 mm`])).join('');
  const sheet = new Sheet();
  sheet.update(readNote(blocks(before)));
  sheet.update(readNote(blocks(after)));
  expect(view(sheet)).toEqual(view(calculate(blocks(after))));
  expect(new Set(sheet.names())).toEqual(new Set(after));
});

describe('names that a sheet gives', () => {
  const lines = ['a = 1 mm', 'b = a', 'c = 3 mm ± 0.1', 'd = c + 1 mm'];
  it('are as many as asked for', () => {
    const sheet = calculate(note(lines));
    expect(sheet.names(2)).toEqual(['a', 'b']);
    expect(sheet.names()).toEqual(['a', 'b', 'c', 'd']);
  });
  it('are found by the number of their limits while the line is there', () => {
    const sheet = calculate(note(lines));
    const value = sheet.valueOf('d');
    const input = value?.kind === 'number' ? (value.spread?.[0]?.input ?? NaN) : NaN;
    expect([input - 1, input, input + 1].map((number) => sheet.inputName(number))).toEqual(['', 'c', '']);
    sheet.update(readNote(note(['a = 1 mm', 'b = a', 'd = 2 mm ± 0.1'])));
    expect(sheet.inputName(input)).toBe('');
  });
});

describe('what nobody asks about for a while is there when somebody does again', () => {
  const MILL: readonly Shop[] = [
    { file: 'shop.md', text: note(['speeds = [100, 190] rpm'], 'machine mill') },
  ];
  const head = '---\nquantity: 2\n---\n';
  it.each<[string, readonly (readonly [text: string, shops: readonly Shop[]])[]]>([
    ['a card', ['x = mill.speeds', 'y = 1', 'x = mill.speeds'].map((line) => [note([line]), MILL] as const)],
    [
      'a card that goes and comes again',
      [MILL, [], MILL, []].map(
        (shops) => [note(['x = mill.speeds', 'y = speed_step(150 rpm, mill)']), shops] as const,
      ),
    ],
    [
      'a machine without a card',
      [
        [note(['n = 150 rpm', 'k = 160 rpm'], 'figures on mill'), []],
        [note(['n = 150 rpm'], 'figures on mill'), []],
        [note(['n = 150 rpm'], 'figures on mill'), MILL],
      ],
    ],
    [
      'the job',
      ['x = job.quantity', 'y = 1', 'x = job.quantity'].map((line) => [head + note([line]), []] as const),
    ],
    [
      'a reading',
      [['x = a.reading'], [], ['x = a.mean']].map(
        (lines) => [note(['a measured 12 mm', ...lines]), []] as const,
      ),
    ],
    ['a figure', [['x = a'], [], ['x = 2 * a']].map((lines) => [note(['a = 12 mm', ...lines]), []] as const)],
    [
      'a name that nothing gives',
      [
        [note(['x = a', 'y = a']), []],
        [note(['x = a']), []],
        [note(['x = a', 'a = 2']), []],
      ],
    ],
  ])('%s', (_, steps) => {
    const sheet = new Sheet();
    for (const [text, shops] of steps) {
      sheet.update(readNote(text), shops);
      expect(view(sheet)).toEqual(view(calculate(text, shops)));
    }
  });
});

/** Evaluations an edit costs. */
function cost(before: string, after: string, shops: readonly Shop[] = [], shopsAfter = shops): number {
  const sheet = new Sheet();
  sheet.update(readNote(before), shops);
  const had = sheet.evaluations;
  sheet.update(readNote(after), shopsAfter);
  return sheet.evaluations - had;
}

describe('what an edit costs', () => {
  const chain = [
    'a = 1 mm',
    ...Array.from({ length: 50 }, (_, i) => `${i === 0 ? 'b0 = a' : `b${i} = b${i - 1}`} + 1 mm`),
    'other = 3 mm',
  ];

  it('nothing when the note is the same, or only words around the blocks change', () => {
    expect(cost(note(chain), note(chain))).toBe(0);
    expect(cost(note(chain), `Some words.\n\n${note(chain)}`)).toBe(0);
  });
  it('nothing when lines only change places', () => {
    expect(cost(note(chain), note([...chain].reverse()))).toBe(0);
  });
  it('the line and what depends on it, not the rest', () => {
    expect(cost(note(chain), note(chain.map((l) => (l === 'other = 3 mm' ? 'other = 4 mm' : l))))).toBe(1);
    expect(cost(note(chain), note(chain.map((l) => (l === 'a = 1 mm' ? 'a = 2 mm' : l))))).toBe(51);
    expect(cost(note(chain), note(chain.map((l) => (l.startsWith('b40 =') ? 'b40 = b39 + 2 mm' : l))))).toBe(
      10,
    );
  });
  it.each([[['a = SIZE']], [['s = SIZE', 'a = s']]])(
    'nothing for lines that are gone, in whatever order they went, under %j',
    (above) => {
      const users = ['b', 'c', 'd', 'e'].map((name) => `${name} = a + 1 mm`);
      for (const [first, second] of [...users].flatMap((x) => users.map((y) => [x, y] as const))) {
        const sheet = new Sheet();
        let left = users;
        const update = (size: string): void =>
          sheet.update(readNote(note([...above.map((line) => line.replace('SIZE', size)), ...left])));
        update('1 mm');
        for (const gone of [first, second]) {
          left = left.filter((line) => line !== gone);
          update('1 mm');
        }
        const had = sheet.evaluations;
        update('2 mm');
        expect(sheet.evaluations - had).toBe(above.length + left.length);
        expect(sheet.rows().map((row) => plainValue(row.value))).toEqual(
          [...above.map(() => 2), ...left.map(() => 3)].map((size) => [size, 'mm', null]),
        );
      }
    },
  );
  it('one evaluation when the result stays the same', () => {
    expect(cost(note(chain), note(chain.map((l) => (l === 'a = 1 mm' ? 'a = 0.5 mm + 0.5 mm' : l))))).toBe(1);
  });
  it('only those lines that looked at a field which changed', () => {
    expect(
      cost(
        note(['s = ball_on_shank(30 mm, 12 mm)', 'x = 2 * s.ring', 'y = 2 * s.neck_to_end']),
        note([
          's = ball_on_shank(30 mm, 12 mm, nose_radius: 0.4 mm)',
          'x = 2 * s.ring',
          'y = 2 * s.neck_to_end',
        ]),
      ),
    ).toBe(2);
  });
  it('a line that was waiting for a name when the name appears', () => {
    expect(cost(note(['a = b + 1 mm', 'c = 3 mm']), note(['a = b + 1 mm', 'c = 3 mm', 'b = 2 mm']))).toBe(2);
  });
  it('those that use a card when it changes, and none when another does', () => {
    const shop = (mill: string, lathe: string): Shop[] => [
      { file: 's', text: `${note([mill], 'machine mill')}\n${note([lathe], 'machine lathe')}` },
    ];
    const lines = note(['a = speed_step(200 rpm, mill)', 'b = 3 mm', 'c = lathe.max_speed']);
    expect(
      cost(
        lines,
        lines,
        shop('speeds = [100, 150] rpm', 'max_speed = 3 rpm'),
        shop('speeds = [100, 190] rpm', 'max_speed = 3 rpm'),
      ),
    ).toBe(1);
    expect(
      cost(
        lines,
        lines,
        shop('speeds = [100, 150] rpm', 'max_speed = 3 rpm'),
        shop('speeds = [100, 150] rpm', 'max_speed = 3 rpm'),
      ),
    ).toBe(0);
  });
  it.each<[string, number, readonly string[], readonly string[]]>([
    [
      'those lines whose needs changed, on whatever ways they come to them',
      2,
      ['a = 1 mm', 'b = max(a, 5 mm)', 'c = b + 1 mm', 'd = b + c'],
      ['a = 2 mm', 'b = max(a, 5 mm)', 'c = b + 1 mm', 'd = b + c'],
    ],
    [
      'those that looked at a field which another line changed',
      3,
      ['r = 0.4 mm', 's = ball_on_shank(30 mm, 12 mm, nose_radius: r)', 'x = s.ring', 'y = s.neck_to_end'],
      ['r = 0.5 mm', 's = ball_on_shank(30 mm, 12 mm, nose_radius: r)', 'x = s.ring', 'y = s.neck_to_end'],
    ],
    [
      'the line alone when it comes to the same by a reading',
      1,
      ['a measured 12 mm', 'b = 12 mm', 'c = b + 1 mm'],
      ['a measured 12 mm', 'b = a.reading', 'c = b + 1 mm'],
    ],
    ['each new line once, what it needs below it', 2, ['c = 3 mm'], ['c = 3 mm', 'x = b + 1 mm', 'b = 2 mm']],
    [
      'each new line once, its reading below it',
      2,
      ['a = 3 mm'],
      ['a = 3 mm', 'x = a.reading', 'a measured 3.1 mm'],
    ],
    [
      'the line alone, however many were told before',
      1,
      ['a measured 3 mm', 'x = a.reading', 'b = 1 mm'],
      ['a measured 3 mm', 'x = a.reading', 'b = 2 mm'],
    ],
  ])('%s', (_, evaluations, before, after) => {
    expect(cost(note(before), note(after))).toBe(evaluations);
  });
  it('a line on a machine once, and no other when it comes to the same', () => {
    const on = (b: string): string => note([`b = ${b}`, 'c = b + 1 mm'], 'figures on mill');
    expect(cost(on('1 mm'), on('0.5 mm + 0.5 mm'))).toBe(1);
    expect(cost(on('1 mm'), on('2 mm'))).toBe(2);
  });
  it('nothing for a line that goes while all others are looked at anew', () => {
    const text = note(['a = 1 mm', 'b = 2 mm']);
    expect(cost(text, `---\nunits: in\n---\n${text}`)).toBe(2);
    expect(cost(text, `---\nunits: in\n---\n${note(['a = 1 mm'])}`)).toBe(1);
  });
});

describe('a line that stands alone', () => {
  it('is read again when somebody asks for it', () => {
    const lines = ['bore = 12.50 mm ± 0.02 # reamed', '2 * 3 mm to in', 'wall = bore + 1 mm'];
    const rows = calculate(note(lines)).rows();
    expect(rows.map((row) => row.statement)).toEqual(lines.map((line) => parseLine(line, 'figures')));
  });
  it('tells the lines that need it only what differs', () => {
    const lines = ['b = a.ring + 1 mm', 'c = a.height + 1 mm', 'd = e + 1 mm'];
    const ball = (shank: string): string =>
      note([`a = ball_on_shank(30 mm, 12 mm, fillet: 2 mm)${shank}`, 'e = 5 mm', ...lines]);
    expect(cost(ball(''), ball(' # the same'))).toBe(1);
    expect(cost(ball(''), ball('').replace('5 mm', '5.0 mm'))).toBe(1);
    expect(cost(ball(''), ball('').replace('5 mm', '6 mm'))).toBe(2);
  });
  it('gives its name to what its limits cause, after any number of edits', () => {
    const sheet = new Sheet();
    const edited = (i: number): string =>
      note([
        'first = 20 mm ± 0.5',
        `size = ${10 + (i % 7)} mm ± 0.${i + 1}`,
        'gap = size + first ± 0.001 mm',
      ]);
    for (let i = 0; i < 3000; i++) sheet.update(readNote(edited(i)));
    const [finding] = sheet.findings();
    expect(finding?.code).toBe('band-wider-than-asked');
    expect(finding?.data['input']).toBe('first');
    sheet.update(readNote(edited(8)));
    expect(sheet.findings()[0]?.data['input']).toBe('size');
  });
  it('names of those that scatter alike the first by the alphabet, whichever was edited last', () => {
    const lines = (a: string): string =>
      note([`a = ${a} mm ± 0.1`, 'b = 20 mm ± 0.1', 'c = 5 mm ± 0.05', 'gap = a + b + c ± 0.001 mm']);
    const told = (sheet: Sheet): unknown =>
      sheet.findings().map(({ data }) => [data['input'], data['share']]);
    const sheet = new Sheet();
    for (const size of ['10', '11', '12']) sheet.update(readNote(lines(size)));
    expect(told(sheet)).toEqual([['a', expect.closeTo(0.4, 9)]]);
    expect(sheet.findings()).toEqual(calculate(lines('12')).findings());
  });
});
