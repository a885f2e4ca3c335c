import { describe, expect, it } from 'vitest';
import { notationFindings } from '../../src/notation/findings';
import { parseLine } from '../../src/notation/line';
import { readNote } from '../../src/notation/note';
import { readFixtures } from './fixture';
import { readNotes } from './note-fixture';
import { statementText } from './reading';

const FIXTURES = readFixtures(new URL('fixtures/', import.meta.url));
const NOTES = readNotes(new URL('notes/', import.meta.url));

/** What a note may hold at most. */
const [MAX_LINE, MAX_DEPTH, MAX_ITEMS] = [2000, 100, 500];
const [MAX_CODE_LINES, MAX_FRONT_MATTER] = [100_000, 10_000];

/** Bounds, with what just passes them and what does not: too long for a page of fixtures. */
const lineCodes = (text: string) => parseLine(text, 'figures').findings.map(({ code }) => code);
const noteCodes = (text: string) => {
  const { blocks, findings } = readNote(text);
  return [...blocks.flatMap((block) => block.findings), ...findings].map(({ code }) => code);
};
const BOUNDS: readonly (readonly [code: string, over: string[], under: string[]])[] = [
  ['line-too-long', lineCodes('a = 1'.padEnd(MAX_LINE + 1)), lineCodes('a = 1'.padEnd(MAX_LINE))],
  ['line-too-long', lineCodes('# '.padEnd(MAX_LINE + 1, 'x')), lineCodes('# '.padEnd(MAX_LINE, 'x'))],
  [
    'too-many-items',
    lineCodes(`[${'a,'.repeat(MAX_ITEMS)}a]`),
    lineCodes(`[${'a,'.repeat(MAX_ITEMS - 1)}a]`),
  ],
  [
    'too-many-items',
    lineCodes(`f(${'a,'.repeat(MAX_ITEMS)}a)`),
    lineCodes(`f(${'a,'.repeat(MAX_ITEMS - 1)}a)`),
  ],
  [
    'too-many-items',
    lineCodes(`a final ${'1, '.repeat(MAX_ITEMS)}1`),
    lineCodes(`a final ${'1, '.repeat(MAX_ITEMS - 1)}1`),
  ],
  ['too-deep', lineCodes(`${'-'.repeat(MAX_DEPTH + 1)}1`), lineCodes(`${'-'.repeat(MAX_DEPTH)}1`)],
  ['too-deep', lineCodes(`${'2^'.repeat(MAX_DEPTH + 1)}1`), lineCodes(`${'2^'.repeat(MAX_DEPTH)}1`)],
  [
    'too-deep',
    lineCodes(`${'f('.repeat(MAX_DEPTH + 1)}1${')'.repeat(MAX_DEPTH + 1)}`),
    lineCodes(`${'f('.repeat(MAX_DEPTH)}1${')'.repeat(MAX_DEPTH)}`),
  ],
  // Side by side is not deep.
  ['too-deep', lineCodes(`${'['.repeat(MAX_DEPTH + 1)}1`), lineCodes(`1${'+(1)'.repeat(MAX_DEPTH + 1)}`)],
  [
    'too-deep',
    lineCodes(`1${'+(1'.repeat(MAX_DEPTH + 1)}`),
    lineCodes(`f(${'[1],'.repeat(MAX_DEPTH + 1)}1)`),
  ],
  ['too-deep', lineCodes(`${'(f('.repeat(MAX_DEPTH)}1`), lineCodes(`1${'+f(1)'.repeat(MAX_DEPTH + 1)}`)],
  ['too-deep', lineCodes(`${'-('.repeat(MAX_DEPTH)}1`), lineCodes(`1${'+2^-1'.repeat(MAX_DEPTH + 1)}`)],
  [
    'too-many-lines',
    noteCodes(`\`\`\`figures\n${'a\n'.repeat(MAX_CODE_LINES + 1)}\`\`\``),
    noteCodes(`\`\`\`figures\n${'a\n'.repeat(MAX_CODE_LINES)}\`\`\``),
  ],
  [
    'front-matter-too-long',
    noteCodes(`---\njob: ${'7'.repeat(MAX_FRONT_MATTER - 4)}\n---\n`),
    noteCodes(`---\njob: ${'7'.repeat(MAX_FRONT_MATTER - 5)}\n---\n`),
  ],
];

const replaced = (text: string, { start, end }: { start: number; end: number }, offer: string): string =>
  text.slice(0, start) + offer + text.slice(end);

describe.each([...new Set(FIXTURES.map(({ file }) => file))])('%s', (name) => {
  const lines = FIXTURES.filter(({ file }) => file === name);
  it.each(lines.map((line) => [`${line.line}: ${line.code}`, line] as const))('%s', (_, line) => {
    const statement = parseLine(line.code, line.word);
    const [finding] = statement.findings;
    if (line.finding === null) expect(statement.findings).toEqual([]);
    else {
      const { code, start, end } = finding ?? { code: 'none', start: 0, end: 0 };
      expect({ code, start, end, offers: finding?.data['offers'] ?? [] }).toEqual({
        ...line.finding,
        offers: line.offers,
      });
      for (const offer of line.offers)
        expect([offer, parseLine(replaced(line.code, line.finding, offer), line.word).findings]).toEqual([
          offer,
          [],
        ]);
    }
    if (line.reads !== null) expect(statementText(statement)).toBe(line.reads);
  });
});

describe('bounds', () => {
  it.each(BOUNDS)('%s', (code, over, under) => {
    expect(over).toEqual([code]);
    expect(under).toEqual([]);
  });
});

describe('more than is read', () => {
  it.each(['[', 'f(', 'a final '])('of items is marked at the comma before it, after %s', (before) => {
    const text = `${before}${'1, '.repeat(MAX_ITEMS)}1`;
    const { start, end } = parseLine(text, 'figures').findings[0] ?? { start: 0, end: 0 };
    expect([text.slice(0, start), text.slice(start, end)]).toEqual([
      `${before}${'1, '.repeat(MAX_ITEMS)}`.slice(0, -2),
      ',',
    ]);
  });
});

describe('every code', () => {
  const raised = new Set([
    ...FIXTURES.map(({ finding }) => finding?.code),
    ...NOTES.flatMap(({ codes }) => codes),
    ...BOUNDS.map(([code]) => code),
  ]);
  const near = new Set([
    ...FIXTURES.flatMap((line) => line.near),
    ...NOTES.flatMap((note) => note.near),
    ...BOUNDS.map(([code]) => code),
  ]);
  it.each(Object.keys(notationFindings))('%s is raised by a fixture', (code) => {
    expect(raised).toContain(code);
  });
  it.each(Object.keys(notationFindings))('%s has a near miss', (code) => {
    expect(near).toContain(code);
  });
  it.each(Object.entries(notationFindings))('%s says what is wrong and what to write', (_, { say, why }) => {
    for (const data of [{ offers: ['30 mm', ' in'] }, { offers: [''] }, { offers: [] }, {}]) {
      expect(say(data)).toMatch(/^\S.*[.]$/);
      expect(say(data)).not.toMatch(/undefined|NaN|\[object/);
    }
    expect(say({ offers: ['30 mm', ' in'] })).toContain('`30 mm` or `in`');
    expect(why).toMatch(/^[A-Z1`].*[.]$/);
  });
  /** Sentences that say another thing where the data does. */
  const sentence = (line: string): string => {
    const [finding] = parseLine(line, 'figures').findings;
    return finding ? (notationFindings[finding.code]?.say(finding.data) ?? '') : '';
  };
  it.each([
    ['a = “b”', 'This curly quote is not read. Write `b`.'],
    ['a = "b"', 'This quote is not read here. Write `b`.'],
    [
      'r\u0430 = 5',
      '`r\u0430`: its `\u0430` is a Cyrillic letter that looks like the Latin `a`. Write `ra`.',
    ],
    ['\u0391 = 5', '`\u0391`: its `\u0391` is a Greek letter that looks like the Latin `A`. Write `A`.'],
    ['\u0434 = 5', '`\u0434`: the letter `\u0434` stands in no name. Use Latin letters, digits and `_`.'],
    ['a = +5', '`+` is no operator of the notation. Leave it out.'],
    ['a]', 'This `]` closes nothing. Leave it out.'],
    ['([1, 2)', 'This `)` does not fit the bracket that is open.'],
    ['(a + 1', 'This `(` is never closed. Write `(a + 1)`.'],
    ['(a < b)', '`<` compares, and a check stands alone on its line. Write the check on a line of its own.'],
    [
      'neck used 3 mm < 4 mm',
      '`<` compares, and a check stands alone on its line. Write the check on a line of its own.',
    ],
    ['a = % 5', '`%` has no number before it. Write the number first.'],
    ['a = %5', '`%` has no number before it. Write the number first.'],
    [
      'neck used 3 mm <4 mm',
      '`<` compares, and a check stands alone on its line. Write the check on a line of its own.',
    ],
    ['a = 85 €', '`€` has no meaning here. Write `EUR`.'],
    ['a = 85 €*2', '`€` has no meaning here. Write `EUR`.'],
    ['(a:5)', '`:` has no meaning here. Leave it out, or put what is meant as words after `#`.'],
    ['a]b', 'This `]` closes nothing. Leave it out.'],
    ['([1, 2)+a', 'This `)` does not fit the bracket that is open.'],
    ['(a <b)', '`<` compares, and a check stands alone on its line. Write the check on a line of its own.'],
    ['a @ b', '`@` has no meaning here. Leave it out, or put what is meant as words after `#`.'],
    ['n = 450 min⁻¹ ', '`min⁻¹` has no meaning here. Write `rpm`.'],
    ['n = 450 min⁻¹*2', '`min⁻¹` has no meaning here. Write `rpm`.'],
    ['n = 450 r/min', '`r/min` is no unit. Write `450 rpm`.'],
    ['25 H7/g6', '`25 H7/g6` is a fit: two parts and not one size. Write `fit(25 mm, H7, g6)`.'],
    [
      'd = 34.9 mm max',
      '`34.9 mm max` says one end only: write both with `..` between them, or a check such as `size <= 34.9 mm`.',
    ],
    [
      'f = 200 mm min',
      '`200 mm min` says one end only: write both with `..` between them, or a check such as `size <= 34.9 mm`. Or is it a rate? Write `200 mm/min`.',
    ],
    ['a b:5', '`a b`: writing things side by side does not multiply them. Write `a * b`.'],
    ['20 ° C', '`° C` is no unit. Write `20 °C`.'],
    [
      "5 6'",
      'This quote is not read here. Write `in` for inches, `ft` for feet and `°` before minutes; words stand in comments after `#`.',
    ],
    [
      '5 6’',
      'This curly quote is not read. Write `in` for inches, `ft` for feet and `°` before minutes; words stand in comments after `#`.',
    ],
    ['a = 5\u00ad3', 'Here stands a character that is not seen, U+00AD. Leave it out.'],
    ['a # \u202ex', 'This comment holds a mark that turns the direction of text, U+202E. Leave it out.'],
    ['a = (2 + )', 'A value is missing at `)`. Write a quantity, a name or a formula.'],
  ])('%s is told what is wrong with it', (line, said) => {
    expect(sentence(line)).toBe(said);
  });
  it('front matter without a name for its field is told so', () => {
    const { findings } = readNote('---\n? [a]\n: b\nc: [d]\n---\n');
    expect(findings.map(({ code, data }) => notationFindings[code]?.say(data).split('. ')[0])).toEqual([
      'This field is not one text',
      '`c` is not one text',
    ]);
  });

  it('is one of those declared', () => {
    for (const code of [...raised, ...near])
      if (code !== undefined) expect(Object.keys(notationFindings)).toContain(code);
  });
});
