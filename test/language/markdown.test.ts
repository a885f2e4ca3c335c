import fc from 'fast-check';
import MarkdownIt from 'markdown-it';
import { describe, expect, it } from 'vitest';
import type { Part } from '../../src/language/explanation';
import { explainAt, explainRow } from '../../src/language/explain';
import { hint } from '../../src/language/hints';
import { escape, markdown, markdownInTwo } from '../../src/language/markdown';
import { calculate } from '../../src/engine/index';
import { figures } from './cursor';

const md = new MarkdownIt({ html: true, linkify: false });

/** The words a reader sees. */
function seen(text: string): string {
  return md
    .render(text)
    .replace(/<\/?p>|\n$/g, '')
    .replace(
      /&(amp|lt|gt|quot);/g,
      (_, name: string) =>
        new Map([
          ['amp', '&'],
          ['lt', '<'],
          ['gt', '>'],
          ['quot', '"'],
        ]).get(name) ?? '',
    )
    .trim();
}

describe('room for a picture', () => {
  const explained = (...lines: string[]) => {
    const sheet = calculate(figures(...lines));
    const found = explainAt(sheet, sheet.note, lines.length, 0);
    if (!found) throw new Error('nothing to explain');
    return found.explanation;
  };
  it('is after the result and before what it comes from', () => {
    const explanation = explained('setup = ball_on_shank(30 mm, 12 mm)');
    const [result, rest] = markdownInTwo(explanation);
    expect(result).toMatch(/^\*\*setup\*\*/);
    expect(result).toContain('29\\.367');
    expect(result).not.toContain('Source');
    expect(rest).toContain('**Source**');
    expect(rest).toContain('**Mind**');
    expect(`${result}\n\n${rest}`).toBe(markdown(explanation));
  });
  it('is at the end of what has no working', () => {
    expect(markdownInTwo(explained('a = 3 mm # the wall'))).toEqual([
      expect.stringContaining('the wall'),
      '',
    ]);
  });
  it('is before the working of a figure', () => {
    const [result, rest] = markdownInTwo(explained('a = 3 mm', 'b = 2 * a'));
    expect(result).not.toContain('2 * 3 mm');
    expect(rest).toContain('2 * 3 mm');
  });
});

describe('an explanation as markdown', () => {
  const of = (...parts: readonly Part[]): string => markdown({ name: '', shown: null, parts });
  it('begins with name and value, as far as it has them', () => {
    expect(markdown({ name: 'a_b', shown: '3 mm', parts: [] })).toBe('**a\\_b** = 3 mm');
    expect(markdown({ name: 'a', shown: null, parts: [] })).toBe('**a**');
    expect(markdown({ name: '', shown: '3 mm', parts: [] })).toBe('3 mm');
    expect(of()).toBe('');
  });

  it.each<[Part, string]>([
    [{ kind: 'words', text: 'the_wall' }, 'the\\_wall'],
    [{ kind: 'also', texts: ['1 in', '2 ft'] }, '1 in · 2 ft'],
    [{ kind: 'limits', text: 'at worst', shares: ['a', 'b'] }, '**Limits** at worst\n- a\n- b'],
    [{ kind: 'note', title: 'Plan', text: '3 mm' }, '**Plan** 3 mm'],
    [{ kind: 'source', text: 'ISO 286' }, '**Source** ISO 286'],
    [{ kind: 'mind', texts: ['chips', 'heat'] }, '**Mind**\n- chips\n- heat'],
    [
      { kind: 'table', rows: [['ring', '29 mm', 'of the tip']] },
      '| | | |\n|:--|:--|:--|\n| ring&nbsp;&nbsp; | 29&nbsp;mm&nbsp;&nbsp; | of the tip |',
    ],
  ])('has %j', (part, wanted) => {
    expect(of(part)).toBe(wanted);
  });

  it('keeps a value of 40 letters on one line in a table, and breaks a longer one', () => {
    const row = (letters: number): string =>
      of({ kind: 'table', rows: [['', `${'-'.repeat(letters - 2)} 1`, '']] });
    expect(row(80)).toContain(' 1');
    // A hyphen is written with a mark before it, so two letters each.
    expect(row(21)).toContain('&nbsp;1');
    expect(of({ kind: 'table', rows: [['', `${'a'.repeat(38)} b`, '']] })).toContain('a&nbsp;b');
    expect(of({ kind: 'table', rows: [['', `${'a'.repeat(39)} b`, '']] })).toContain('a b');
  });

  const step = (
    name: string,
    expression: string,
    figures: string,
    result: string,
    words: string | null = null,
  ) => of({ kind: 'working', steps: [{ words, name, expression, figures, result }] });
  it('has the steps of a working below each other, each thing once', () => {
    expect(step('ring', 'ball * 2', '3 mm * 2', '6 mm', 'twice the ball')).toBe(
      'Twice the ball:\n```text\nring = ball * 2\n     = 3 mm * 2\n     = 6 mm\n```',
    );
    expect(step('', 'a * 2', '3 mm * 2', '6 mm')).toBe('```text\n= a * 2\n= 3 mm * 2\n= 6 mm\n```');
    expect(step('a', '3 mm * 2', '3 mm * 2', '6 mm')).toBe('```text\na = 3 mm * 2\n  = 6 mm\n```');
    expect(step('a', '6 mm', '6 mm', '6 mm')).toBe('```text\na = 6 mm\n```');
    expect(step('a', '````', '````', '6')).toBe('`````text\na = ````\n  = 6\n`````');
  });

  it.each<[readonly Part['kind'][], number]>([
    [['words', 'also'], 2],
    [['words', 'table', 'table', 'source'], 2],
    [['table', 'words'], 1],
    [['words', 'working', 'table'], 1],
    [['working', 'table'], 0],
    [['words', 'note', 'table'], 1],
    [['words', 'source', 'mind'], 1],
    [['also', 'table', 'working', 'source'], 2],
  ])('of %j stands in two texts', (kinds, before) => {
    const made = new Map<Part['kind'], Part>([
      ['words', { kind: 'words', text: 'w' }],
      ['also', { kind: 'also', texts: ['a'] }],
      ['table', { kind: 'table', rows: [] }],
      ['working', { kind: 'working', steps: [] }],
      ['note', { kind: 'note', title: 'n', text: 'n' }],
      ['source', { kind: 'source', text: 's' }],
      ['mind', { kind: 'mind', texts: [] }],
    ]);
    const parts = kinds.flatMap((kind) => made.get(kind) ?? []);
    expect(markdownInTwo({ name: 'x', shown: '1', parts })).toEqual([
      markdown({ name: 'x', shown: '1', parts: parts.slice(0, before) }),
      of(...parts.slice(before)),
    ]);
  });
});

describe('escaping', () => {
  it('shows text as it is, whatever marks it holds', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom(...'ab1 *_`[](){}#+-.!|<>~$&:@/=^\\"\''), maxLength: 30 }),
        (text) => {
          expect(seen(escape(text))).toBe(text.replace(/\s+/g, ' ').trim());
        },
      ),
      { numRuns: 500 },
    );
  });

  it('keeps what a note says from becoming links, pictures, icons or lists', () => {
    const comment =
      '![x](https://a.example/p.png) [y](command:run) <b>z</b> $(zap) `q` **w** http://b.example';
    const sheet = calculate(figures(`a = 2 mm # ${comment}`));
    const row = sheet.rows()[0];
    const html = md.render(markdown((row && explainRow(sheet, row)) ?? { name: '', shown: null, parts: [] }));
    expect(html).not.toMatch(/<(img|a|b|code|script)\b/);
    expect(html).toContain('$(zap)');
  });

  it('lets no text out of a code block', () => {
    const step = { words: null, name: 'a', expression: '1', figures: '```\n# out', result: '1' };
    const html = md.render(markdown({ name: '', shown: null, parts: [{ kind: 'working', steps: [step] }] }));
    expect(html).not.toContain('<h1>');
  });
});

describe('any text', () => {
  it('is answered at every place without fail', () => {
    const piece = fc.constantFrom(
      'a',
      'b',
      ' = ',
      ' + ',
      ' * ',
      '(',
      ')',
      '.',
      'ring',
      '30 mm',
      '1 3/8 in',
      '15°30′',
      ' ± 0.05',
      ' H7',
      ' to in',
      ' measured ',
      ' used ',
      ', ',
      'ball_on_shank(',
      'fillet: ',
      '[',
      ']',
      ' <= ',
      '# c',
      '\n',
      '\n```\n',
      '```figures on lathe\n',
      '^2',
      '-',
      'pi',
      'job.x',
      '`',
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 40 }), (pieces) => {
        const text = `\`\`\`figures\n${pieces.join('')}`;
        const sheet = calculate(text);
        for (const row of sheet.rows()) {
          hint(sheet, row);
          const explanation = explainRow(sheet, row);
          if (explanation) markdown(explanation);
        }
        text.split('\n').forEach((line, number) => {
          for (let column = 0; column <= line.length; column++) {
            const found = explainAt(sheet, sheet.note, number, column);
            if (!found) continue;
            markdown(found.explanation);
            expect(found.column).toBeLessThanOrEqual(column);
            expect(found.endColumn).toBeGreaterThan(column);
          }
        });
      }),
      { numRuns: 150 },
    );
  });
});
