import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseLine } from '../../src/notation/line';
import type { Argument, Expression, FenceWord, Span, Statement } from '../../src/notation/syntax';
import { unitNamed, unitNames } from '../../src/quantity/units';
import { callOf, children, expressionsOf, nodeAt, textOf } from '../../src/notation/walk';
import { worked } from '../worked';
import { readFixtures } from './fixture';
import { statementText } from './reading';

const FIXTURES = readFixtures(new URL('fixtures/', import.meta.url));
const LINES = FIXTURES.map(({ code }) => code);
const WORDS: readonly FenceWord[] = ['figures', 'machine', 'material', 'signed'];

/** Text of all kinds: any characters, pieces of the notation in any order, and good lines with something changed. */
const piece = fc.constantFrom(
  ...[
    'a',
    'ring',
    ' = ',
    ' ',
    '30',
    '1',
    '/',
    '8',
    '.',
    ',',
    ' mm',
    ' in',
    '"',
    "'",
    '°',
    '′',
    '″',
    '±',
    '+',
    '-',
    '^',
    '²',
  ],
  ...[
    '(',
    ')',
    '[',
    ']',
    '#',
    ' to ',
    ' hole',
    ' h7',
    ' measured ',
    ' final ',
    ' used ',
    ' at ',
    '<',
    '=',
    '!',
    '%',
    ':',
    '..',
  ],
  ...[
    '×',
    'Ø',
    'µ',
    'π',
    '½',
    '“',
    '\u202e',
    '\u200b',
    '\ud800',
    '\0',
    '\ufffd',
    'а',
    'é',
    'UNC',
    'M10',
    'x',
    '1e3',
    '°C',
    '\t',
    '\u00a0',
  ],
);
const mutated = fc
  .tuple(
    fc.constantFrom(...LINES),
    fc.nat(),
    fc.nat(6),
    fc.oneof(piece, fc.string({ unit: 'binary', maxLength: 2 })),
  )
  .map(([line, at, cut, put]) => {
    const start = at % (line.length + 1);
    return line.slice(0, start) + put + line.slice(start + cut);
  });
const anyLine = fc.oneof(
  mutated,
  fc.array(piece, { maxLength: 30 }).map((pieces) => pieces.join('')),
  fc.string({ unit: 'binary', maxLength: 60 }),
  fc
    .array(fc.integer({ min: 0, max: 0xffff }), { maxLength: 30 })
    .map((codes) => String.fromCharCode(...codes)),
);

/** Many thousands of these are asked, so they cost next to nothing when they hold. */
function holds(condition: boolean, what: string): void {
  if (!condition) expect.fail(what);
}

function within(inner: Span, outer: Span, what: string): void {
  holds(
    inner.start >= outer.start && inner.end <= outer.end && inner.start < inner.end,
    `${what} lies outside`,
  );
}

function argumentsOf(e: Expression): readonly Argument[] {
  return e.kind === 'call' ? e.arguments : [];
}

/** Nodes lie inside their parents, one after the other. */
function nested(e: Expression): void {
  let last = e.start;
  for (const child of children(e)) {
    within(child, e, e.kind);
    holds(child.start >= last, 'in order');
    last = child.end;
    nested(child);
  }
  if (e.kind === 'quantity') for (const word of e.tail) within(word, e, 'tail');
  if (e.kind === 'quantity') holds(Number.isFinite(e.value), 'finite');
  if (e.kind === 'field') within(e.fieldSpan, e, 'field');
  if (e.kind === 'list' && e.unit) within(e.unit, e, 'list unit');
  for (const argument of argumentsOf(e)) {
    within(argument, e, 'argument');
    within(argument.value, argument, 'argument value');
    if (argument.name) within(argument.name, argument, 'argument name');
  }
}

function spansOf(line: Statement): readonly Span[] {
  switch (line.kind) {
    case 'figure':
      return [
        line.name,
        line.expression,
        ...(line.limits ? [line.limits] : []),
        ...(line.to ? [line.to] : []),
      ];
    case 'show':
      return [line.expression, ...(line.to ? [line.to] : [])];
    case 'check':
      return line.terms;
    case 'reading':
      return [line.path, ...line.readings];
    case 'used':
      return [line.path, line.value];
    case 'words':
      return [line.key, ...(line.words.text === '' ? [] : [line.words])];
    default:
      return [];
  }
}

describe('any text', () => {
  it('is a statement whose nodes stand in the line, one inside the other', () => {
    fc.assert(
      fc.property(anyLine, fc.constantFrom(...WORDS), (text, word) => {
        const line = parseLine(text, word);
        const whole = { start: 0, end: text.length };
        let last = 0;
        for (const span of spansOf(line)) {
          within(span, whole, line.kind);
          holds(span.start >= last, 'in order');
          last = span.end;
        }
        expressionsOf(line).forEach(nested);
        if (line.comment) {
          expect(text.slice(line.comment.start, line.comment.end)).toBe(line.comment.text);
          expect(line.comment.start).toBeGreaterThanOrEqual(last);
        }
        if (line.kind === 'figure') expect(textOf(line.name, text)).toBe(line.name.text);
        for (const { start, end } of line.findings) within({ start, end }, whole, 'finding');
        expect(line.kind === 'broken').toBe(
          line.findings.some(({ code }) => code !== 'direction-in-comment'),
        );
      }),
      { numRuns: 8000 },
    );
  });

  it('gets offers that are read in their place, up to where a further mistake stands', () => {
    fc.assert(
      fc.property(anyLine, fc.constantFrom(...WORDS), (text, word) => {
        for (const { code, start, end, data } of parseLine(text, word).findings) {
          if (code === 'direction-in-comment') continue;
          for (const offer of (data['offers'] ?? []) as readonly string[]) {
            const again = parseLine(text.slice(0, start) + offer + text.slice(end), word);
            const next = again.findings.find((finding) => finding.code !== 'direction-in-comment');
            if (next) expect(next.start).toBeGreaterThanOrEqual(start + offer.length);
          }
        }
      }),
      { numRuns: 10_000 },
    );
  });

  it('reads the same again, whatever was read in between', () => {
    fc.assert(
      fc.property(anyLine, anyLine, (text, other) => {
        const first = parseLine(text, 'figures');
        parseLine(other, 'machine');
        expect(parseLine(text, 'figures')).toEqual(first);
      }),
      { numRuns: 3000 },
    );
  });

  it('costs a bounded number of steps: the longest lines of one piece are read at once', () => {
    const pieces = [
      '1 ',
      '(',
      '[',
      '-',
      '2^',
      'a.',
      'f(',
      '1,',
      '3/8 ',
      '5 mm ',
      "6'",
      '°',
      '"',
      '1 1/8-7 ',
      'M1',
      'a b',
      '+1/-',
      ' ',
      '<',
      '“',
      'а',
      '1/2/4 in ',
    ];
    const cost = (length: number): number => {
      const lines = pieces.map((text) => text.repeat(Math.floor(length / text.length)));
      const before = worked();
      for (let i = 0; i < 20; i++) for (const line of lines) parseLine(line, 'figures');
      return worked() - before;
    };
    cost(2000);
    // Eight times as long: about eight times the work, and 64 times where a step looks at the whole line again and again.
    const ratios = [1, 2, 3].map(() => cost(2000) / cost(250));
    expect(Math.min(...ratios)).toBeLessThan(24);
  });
});

describe('lines with nothing refused', () => {
  it('mean the same with blanks between their parts and a comment after them', () => {
    for (const { code, word, finding } of FIXTURES) {
      if (finding !== null || code.includes('#')) continue;
      const spaced = `\t ${code}\u00a0 # words`;
      const [plain, commented] = [
        statementText(parseLine(code, word)),
        statementText(parseLine(spaced, word)),
      ];
      expect(commented).toBe(plain === 'nothing' ? '' : `${plain} # words`);
    }
  });

  it('give the node under a cursor', () => {
    const text = 'x = 2 * (ring + max(a, 3 mm)) ± 0.05';
    const line = parseLine(text, 'figures');
    const at = (part: string) => {
      const node = nodeAt(line, text.indexOf(part));
      return node && textOf(node, text);
    };
    expect(at('ring')).toBe('ring');
    expect(at('a,')).toBe('a');
    expect(at('3 mm')).toBe('3 mm');
    expect(at('max')).toBe('max(a, 3 mm)');
    expect(at('(ring')).toBe('(ring + max(a, 3 mm))');
    expect(at('0.05')).toBe('0.05');
    expect(nodeAt(line, 0)).toBe(null);
    // The end of a node is one of its places, as a cursor stands there.
    const end = text.indexOf('3 mm') + '3 mm'.length;
    expect(textOf(nodeAt(line, end) ?? { start: 0, end: 0 }, text)).toBe('3 mm');
    expect(nodeAt(parseLine('a + b # c', 'figures'), 8)).toBe(null);
  });
});

describe('what a line is made of', () => {
  const texts = (text: string) => expressionsOf(parseLine(text, 'figures')).map((e) => textOf(e, text));
  it.each([
    ['d = a * 2', ['a * 2']],
    ['d = Ø5 mm', ['Ø5 mm']],
    ['d = 25 mm h7', ['25 mm']],
    ['d = 30 mm ± 0.05', ['30 mm', '0.05']],
    ['d = 30 mm +0.02/-0.01 mm', ['30 mm', '+0.02', '-0.01 mm']],
    ['d = 30 mm -0.01/+0.02 mm', ['30 mm', '-0.01', '+0.02 mm']],
    ['d = 12 mm .. 13 mm', ['12 mm', '13 mm']],
    ['a + b', ['a + b']],
    ['a < b <= c', ['a', 'b', 'c']],
    ['neck measured 3 mm at 4 mm, 5 mm', ['3 mm', '4 mm', '5 mm']],
    ['neck used -3 mm', ['-3 mm']],
    ['# words', []],
  ])('%s', (text, parts) => {
    expect(texts(text)).toEqual(parts);
  });

  it.each([
    ['f(a, x: b).c', ['f(a, x: b)']],
    ['f(a, x: b)', ['a', 'b']],
    ['[1, b]', ['1', 'b']],
    ['-a', ['a']],
    ['(a)', ['a']],
    ['a.b', ['a']],
    ['a * b', ['a', 'b']],
    ['a²', ['a', '²']],
    ['a', []],
    ['3 mm', []],
  ])('the inside of %s', (text, parts) => {
    const [whole] = expressionsOf(parseLine(text, 'figures'));
    expect(whole && children(whole).map((e) => textOf(e, text))).toEqual(parts);
  });
});

describe('a line that is read', () => {
  const show = (text: string) => {
    const line = parseLine(text, 'figures');
    if (line.kind !== 'show') throw new Error(text);
    return line.expression;
  };

  it('is a call, in brackets or not, or none', () => {
    expect(callOf(show('f(a)'))?.name.text).toBe('f');
    expect(callOf(show('((f(a)))'))?.name.text).toBe('f');
    for (const text of ['a', '(a)', '-f(a)', 'f(a).b'])
      expect([text, callOf(show(text))]).toEqual([text, null]);
  });

  it('has the same powers by their signs as by `^`', () => {
    const powers = ['a²', 'a³'].map((text) => show(text));
    expect(powers).toMatchObject(
      [2, 3].map((value) => ({
        kind: 'binary',
        operator: '^',
        right: { kind: 'quantity', value, decimals: 0, tail: [], start: 1, end: 2 },
      })),
    );
  });

  it('knows where the names in the tail of a unit stand', () => {
    const text = 'a = 10 kg*m/s';
    const line = parseLine(text, 'figures');
    const tail = line.kind === 'figure' && line.expression.kind === 'quantity' ? line.expression.tail : [];
    expect(tail.map((word) => [word.text, textOf(word, text)])).toEqual([
      ['m', 'm'],
      ['s', 's'],
    ]);
  });

  it('has a comment that ends where its words end, and one of blanks that is empty', () => {
    expect(parseLine('a #5 mm  ', 'figures').comment).toEqual({ start: 3, end: 7, text: '5 mm' });
    expect(parseLine('#  ', 'figures').comment).toEqual({ start: 3, end: 3, text: '' });
  });

  it('has each reading from its value to its place', () => {
    const text = 'neck measured 3 mm at 4 mm, 5 mm';
    const line = parseLine(text, 'figures');
    const readings = line.kind === 'reading' ? line.readings : [];
    expect(readings.map((reading) => textOf(reading, text))).toEqual(['3 mm at 4 mm', '5 mm']);
  });

  it('names its figure though it is refused, where there is one', () => {
    expect(parseLine('a = 2 x', 'figures')).toMatchObject({ kind: 'broken', name: { text: 'a' } });
    for (const text of ['2 x', 'a measured 3 mm x', 'a < 2 x'])
      expect(parseLine(text, 'figures')).toMatchObject({ kind: 'broken', name: null });
  });
});

describe('units', () => {
  const valueOf = (text: string) => {
    const line = parseLine(text, 'figures');
    return line.kind === 'show' && line.expression.kind === 'quantity'
      ? line.expression
      : line.findings[0]?.code;
  };
  const names = unitNames().filter((name) => !['′', '″'].includes(name));

  it.each(names)('3 %s is read, with and without a blank, and after `to`', (name) => {
    const unit = unitNamed(name);
    if (unit === undefined) throw new Error(name);
    const wanted = {
      value: 3 * unit.factor + unit.offset,
      unit: expect.objectContaining({ symbol: unit.symbol }) as unknown,
    };
    expect(valueOf(`3${name}`)).toMatchObject(wanted);
    if (name !== '"') expect(valueOf(`3 ${name}`)).toMatchObject(wanted);
    const shown = parseLine(`3 ${unit.symbol} to ${name}`, 'figures');
    expect(shown.kind === 'show' && shown.to?.unit.symbol).toBe(unit.symbol);
  });

  it.each([
    ['mm', 'mm*h'],
    ['s', 's/s*J'],
    ['m/cm', 'm/cm*h'],
  ])('%s and %s are told apart, though one begins with the other', (shorter, longer) => {
    for (const unit of [shorter, longer, shorter])
      expect(valueOf(`5 ${unit}`)).toMatchObject({ kind: 'quantity', end: `5 ${unit}`.length });
  });

  it('are read in compounds as they are shown', () => {
    const single = names.filter((name) => !['"', '%', '°C', '°F', 'degC', 'degF'].includes(name));
    const part = fc.tuple(
      fc.constantFrom(...single),
      fc.integer({ min: 1, max: 3 }),
      fc.constantFrom('/', '*', '·'),
    );
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 3 }), (parts) => {
        // With a mass, length or time to a higher power than the twelfth there may be no unit half-way.
        const powers = parts.map(
          ([name, power]) =>
            power * Math.max(0, ...(unitNamed(name)?.dimension.exponents ?? []).map(Math.abs)),
        );
        fc.pre(powers.reduce((sum, each) => sum + each, 0) <= 12);
        const text = parts
          .map(([name, power, sign], i) => (i === 0 ? '' : sign) + name + (power === 1 ? '' : `^${power}`))
          .join('');
        const written = valueOf(`5 ${text}`);
        const { unit } = typeof written === 'object' ? written : { unit: null };
        if (unit === null || unit.symbol === '') return;
        const again = valueOf(`5 ${unit.symbol}`);
        expect(typeof again === 'object' && again.unit.symbol).toBe(unit.symbol);
      }),
    );
  });
});

describe('numbers', () => {
  it.each(['922.8912658247597', '98.93765640660081', '58.3407831914411670', '0.1234567890123456789'])(
    'are no last digit off in %s',
    (text) => {
      const line = parseLine(text, 'figures');
      expect(line.kind === 'show' && line.expression).toMatchObject({ value: Number(text) });
    },
  );

  it('are the nearest a double comes to what is typed', () => {
    fc.assert(
      fc.property(fc.stringMatching(/^\d{1,20}(\.\d{1,20})?([eE][-+]?\d{1,2})?$/), (text) => {
        const line = parseLine(text, 'figures');
        expect(line.kind === 'show' && line.expression.kind === 'quantity' && line.expression.value).toBe(
          Number(text),
        );
      }),
    );
  });

  it('are exact where a fraction states them', () => {
    const value = (text: string) => {
      const line = parseLine(text, 'figures');
      if (line.kind === 'reading') return line.readings[0]?.value.value;
      if (line.kind === 'figure' && line.limits?.kind === 'deviations') return line.limits.lower.value;
      return line.kind === 'show' && line.expression.kind === 'quantity' ? line.expression.value : undefined;
    };
    // An inch is 25.4 mm, so 3/8 in is 9.525 mm and 7/64 in 2.778125 mm.
    expect(value('3/8 in')).toBe(9.525);
    expect(value('7/64 in')).toBe(2.778125);
    expect(value('1 3/8 in')).toBe(34.925);
    expect(value('a measured -3/8 in')).toBe(-9.525);
    expect(value('a measured -0 in')).toBe(0);
    expect(value('a = 30 mm +0.05/-0')).toBe(0);
    expect(value('a = 30 mm ± 0')).toBe(-0);
    expect(value('a = 1 in ± 3/8 in')).toBe(-9.525);
  });

  it('know how finely they are stated, before limits too', () => {
    const line = parseLine('d = 30 mm 0/-0.05', 'figures');
    expect(line.kind === 'figure' && line.expression).toMatchObject({ decimals: 0, value: 30, tail: [] });
  });

  it('know how finely they are stated', () => {
    const decimals = (text: string) => {
      const line = parseLine(text, 'figures');
      return line.kind === 'show' && line.expression.kind === 'quantity'
        ? line.expression.decimals
        : undefined;
    };
    expect(
      ['40', '40.0 mm', '.125 in', '1.2e-5', '1.25e1', '3/8 in', '15°30′', '3 h 20 min', '5%'].map(decimals),
    ).toEqual([0, 1, 3, 6, 1, null, null, null, 0]);
    expect(['1e5', '1e-150'].map(decimals)).toEqual([0, 100]);
  });
});
