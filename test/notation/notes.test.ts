import fc from 'fast-check';
import MarkdownIt from 'markdown-it';
import { describe, expect, it } from 'vitest';
import { MAX_CODE_LINES, MAX_FRONT_MATTER } from '../../src/notation/caps';
import { blocksFromTokens, readNote } from '../../src/notation/note';
import type { Note } from '../../src/notation/syntax';
import { inUsualUnits } from '../../src/notation/usual-units';
import { readNotes } from './note-fixture';

const NOTES = readNotes(new URL('notes/', import.meta.url));

function findingsOf(note: Note): string[] {
  const all = [
    ...note.findings,
    ...note.blocks.flatMap((block) =>
      block.findings.map((finding) => ({ ...finding, line: block.fenceLine })),
    ),
  ];
  return all
    .sort((a, b) => a.line - b.line || a.start - b.start)
    .map(({ line, start, end, code, data }) => {
      const offers = (data['offers'] ?? []) as readonly string[];
      const write = offers.map((offer) => `\`${offer}\``).join(' or ');
      return `${line + 1}:${start + 1}-${end + 1} ${code}${write === '' ? '' : ` ${write}`}`;
    });
}

describe('notes with what is expected of them', () => {
  it.each(NOTES.map((note) => [note.file, note] as const))('%s', (_, { text, findings }) => {
    expect(findingsOf(readNote(text))).toEqual(findings);
  });

  it('offers fence lines that are read', () => {
    for (const { text } of NOTES) {
      const lines = text.split('\n');
      for (const { fenceLine, findings } of readNote(text).blocks)
        for (const { code, start, end, data } of findings)
          for (const offer of (data['offers'] ?? []) as readonly string[]) {
            const line = lines[fenceLine] ?? '';
            const put = line.slice(0, start) + offer + line.slice(end);
            const mended = lines.map((old, index) => (index === fenceLine ? put : old)).join('\n');
            const again = readNote(mended).blocks.find((block) => block.fenceLine === fenceLine);
            expect([code, offer, again?.findings]).toEqual([code, offer, []]);
          }
    }
  });
});

describe('fences', () => {
  const one = (text: string) =>
    readNote(text).blocks.map(({ word, name, on, content, fenceLine, firstLine }) => ({
      word,
      name: name?.text,
      on: on.map((machine) => machine.text),
      content,
      fenceLine,
      firstLine,
    }));

  it('are found in lists and quotes, with the columns of the note', () => {
    const text = '# Job\n1. > ```figures on mill, lathe\n   >   a = 1\n   >\n   > b = 2\n   > ```\n';
    const [block] = readNote(text).blocks;
    expect(one(text)).toEqual([
      {
        word: 'figures',
        name: undefined,
        on: ['mill', 'lathe'],
        content: '  a = 1\n\nb = 2\n',
        fenceLine: 1,
        firstLine: 2,
      },
    ]);
    expect([0, 1, 2].map((index) => block?.column(index))).toEqual([5, 4, 5]);
    const line = text.split('\n')[1] ?? '';
    expect(block?.on.map(({ start, end }) => line.slice(start, end))).toEqual(['mill', 'lathe']);
  });

  it('keep their columns behind tabs', () => {
    const [block] = readNote('-\t```figures\n\ta = 1\n\t\tb = 2\n\t```\n').blocks;
    expect(block?.content).toBe('a = 1\n\tb = 2\n');
    expect([block?.column(0), block?.column(1)]).toEqual([1, 1]);
    const [part] = readNote('- ```figures\n\ta = 1\n  ```\n').blocks;
    expect(part?.content).toBe('  a = 1\n');
    // The list marker uses up two of the tab's four columns: the code begins with the two that are left.
    expect((part?.column(0) ?? 0) + '  '.length).toBe('\t'.length);
  });

  it.each(['\n', '\r\n', '\r'])('are found with line ending %j, and a byte order mark', (end) => {
    const text = ['\ufeff```figures on lathe', 'a = 1', '', 'b = 2', '```', ''].join(end);
    expect(one(text)).toEqual([
      {
        word: 'figures',
        name: undefined,
        on: ['lathe'],
        content: 'a = 1\n\nb = 2\n',
        fenceLine: 0,
        firstLine: 1,
      },
    ]);
    expect(readNote(text).blocks[0]?.on[0]).toEqual({ start: 15, end: 20, text: 'lathe' });
    expect(readNote(['\ufeff---', 'job: 7', '---', ''].join(end)).front.get('job')?.text).toBe('7');
  });

  it('end where the note ends', () => {
    for (const text of [
      '```figures',
      '```figures\n',
      '```figures\na = 1',
      '> ```figures\n> ',
      '```figures\n\n\n',
    ])
      expect(findingsOf(readNote(text)).map((line) => line.split(' ')[1])).toEqual(['fence-not-closed']);
    for (const text of [
      '```figures\n```',
      '> ```figures\n> a\n> ```',
      '~~~figures\n~~~~~~\n',
      '```figures\n   ```  \n',
    ])
      expect(findingsOf(readNote(text))).toEqual([]);
  });

  it('that are never closed keep what is plainly theirs, with one finding', () => {
    const text =
      '```figures\na = 1 # kept\n\nb <= a\nneck measured 3 mm\nThe rest is prose, e.g. "this".\n\nc = 2\n';
    const open = (note: string) =>
      readNote(note).blocks.map(({ content, findings }) => [content, findings.map(({ code }) => code)]);
    const kept = 'a = 1 # kept\n\nb <= a\nneck measured 3 mm\n';
    expect(open(text)).toEqual([[kept, ['fence-not-closed']]]);
    expect(open(`> ${text.replaceAll('\n', '\n> ')}\n\nProse.`)).toEqual([[kept, ['fence-not-closed']]]);
    // The next block's closing line would close this one.
    expect(open(`${text}\n\`\`\`figures on lathe\nd = 3\n\`\`\`\n`)).toEqual([[kept, ['fence-not-closed']]]);
    expect(open('```figures\na = 1\n# ```figures\n```\n')).toEqual([['a = 1\n# ```figures\n', []]]);
  });

  it.each([
    '```figures',
    '```machine lathe',
    '``` material steel',
    '~~~figures on lathe',
    '~~~~ signed',
    '  ```signed',
  ])('that are never closed end where %s opens', (opening) => {
    const { blocks } = readNote(`\`\`\`figures\na = 1\n${opening}\nb = 2\n\`\`\`\n`);
    expect(blocks[0]?.findings.map(({ code }) => code)).toEqual(['fence-not-closed']);
  });

  it.each(['```figure', '~~~js', '```figures-old', 'x ```figures', '``figures'])(
    'may show %s, which opens no block',
    (opening) => {
      const { blocks } = readNote(`\`\`\`figures\n# ${opening}\n${opening}\n\`\`\`\`\n`);
      expect(blocks[0]?.findings).toEqual([]);
    },
  );

  it('hold the lines that stand in them, at the end of the note too', () => {
    const host = new MarkdownIt({ html: true });
    for (const [text, content] of [
      ['```figures\na = 1\n', 'a = 1\n'],
      ['```figures\na = 1\n\n\n', 'a = 1\n\n\n'],
      ['```figures\na = 1\nb = 2', 'a = 1\nb = 2'],
      ['```figures\na = 1\nb = 22\n```', 'a = 1\nb = 22\n'],
    ] as const) {
      expect(readNote(text).blocks[0]?.content.trimEnd()).toBe(content.trimEnd());
      expect(blocksFromTokens(host.parse(text, {}))[0]?.content).toBe(content);
    }
    expect(readNote('```figures\na = 1\n').blocks[0]?.content).toBe('a = 1\n');
  });

  it('count columns from the code where the lines are not given, and from 0 past the note', () => {
    const text = '> ```figures\n> a = 1\n> ```\n';
    expect(blocksFromTokens(new MarkdownIt().parse(text, {}))[0]?.column(0)).toBe(0);
    const [block] = readNote(text).blocks;
    expect([block?.column(0), block?.column(9)]).toEqual([2, 0]);
  });

  it('are told by their tokens alone', () => {
    const token = { type: 'fence', info: 'figures lathe', content: 'a = 1\n', map: [0, 3] as const };
    expect(blocksFromTokens([token])[0]?.findings).toMatchObject([{ start: 8, end: 13 }]);
    expect(blocksFromTokens([{ ...token, map: null }])).toEqual([]);
    expect(blocksFromTokens([{ ...token, type: 'code_block' }])).toEqual([]);
    const open = blocksFromTokens([{ ...token, info: 'figures', content: 'a = 1\nb = 2' }]);
    expect(open[0]?.findings).toMatchObject([{ code: 'fence-not-closed', start: 0, end: 7 }]);
  });

  it('count columns by their own fence line, not by those beside it', () => {
    const column = (text: string) => readNote(text).blocks.at(-1)?.column(0);
    expect(column('- ```machine m\n  a = 1\n```js\n```\n')).toBe(2);
    expect(column('```js\n```\n> ```figures\n> a = 1\n> ```\n')).toBe(2);
  });

  it('that are never closed are marked at their word, and end before words that are a name', () => {
    expect(findingsOf(readNote('> ```  figures\n'))).toEqual(['1:8-15 fence-not-closed']);
    expect(findingsOf(readNote('> ```  figures'))).toEqual(['1:8-15 fence-not-closed']);
    expect(readNote('```figures\na = 1\nWords\nb = 2\n').blocks[0]?.content).toBe('a = 1\n');
  });

  it('may have blanks after their words', () => {
    const [lathe, block] = readNote('```machine lathe \t\n```\n```figures on lathe \n```\n').blocks;
    expect([lathe?.name?.text, lathe?.findings]).toEqual(['lathe', []]);
    expect([block?.on.map(({ text }) => text), block?.findings]).toEqual([['lathe'], []]);
    expect(lathe?.name).toEqual({ start: 11, end: 16, text: 'lathe' });
    const [both] = readNote('```figures on lathe,mill\n```\n').blocks;
    expect([both?.on.map(({ text }) => text), both?.findings]).toEqual([['lathe', 'mill'], []]);
  });

  it('may be set in by blanks, which are no part of their lines', () => {
    for (const blanks of [' ', '  ', '   ']) {
      const [block] = readNote(`${blanks}\`\`\`figures\n${blanks}a = 1\n${blanks}  b = 2\n\`\`\`\n`).blocks;
      expect([block?.content, block?.column(0)]).toEqual(['a = 1\n  b = 2\n', blanks.length]);
    }
  });

  it('are marked where a note is torn, in its first lines too', () => {
    expect(findingsOf(readNote('\ufffd'))).toEqual(['1:1-2 not-plain-text']);
    expect(findingsOf(readNote('\n\n a\0'))).toEqual(['3:3-4 not-plain-text']);
  });

  it('stand where they stand behind front matter', () => {
    const { blocks } = readNote('---\njob: 7\n---\n\n```figures\na = 1\n```\n');
    expect(blocks.map(({ fenceLine, firstLine, content }) => [fenceLine, firstLine, content])).toEqual([
      [4, 5, 'a = 1\n'],
    ]);
  });

  it('hold a bounded number of lines', () => {
    const half = `\`\`\`figures\n${'a\n'.repeat(MAX_CODE_LINES / 2)}\`\`\`\n`;
    expect(findingsOf(readNote(half + half))).toEqual([]);
    const { blocks } = readNote(`${half}${half}\`\`\`figures\nx = 1\n\`\`\`\n`);
    expect(blocks.map(({ findings }) => findings[0]?.code)).toEqual([undefined, undefined, 'too-many-lines']);
    expect(blocks[2]?.content).toBe('');
    expect(blocks[2]?.findings[0]).toMatchObject({ start: 3, end: 10 });
  });

  it('are the same in the tokens of a preview', () => {
    const host = new MarkdownIt({ html: true });
    for (const { text } of NOTES.filter((note) => !note.file.startsWith('front-matter'))) {
      const shape = (blocks: Note['blocks']) =>
        blocks.map(({ word, name, on, content, fenceLine, findings }) => [
          word,
          name?.text,
          on.map((machine) => machine.text),
          content,
          fenceLine,
          findings.map(({ code, data }) => [code, data]),
        ]);
      expect(shape(blocksFromTokens(host.parse(text, {})))).toEqual(shape(readNote(text).blocks));
    }
  });
});

describe('front matter', () => {
  it('is text, field by field, with its place', () => {
    const note = readNote(NOTES.find(({ file }) => file === 'front-matter.md')?.text ?? '');
    expect([...note.front.values()].map(({ key, text }) => `${key}: ${text}`)).toEqual([
      'job: 0815',
      'customer: Harbour & Sons',
      'part: Pump: ball',
      'drawing: P-17',
      'quantity: 2',
      'units: mm',
      'odd_field: kept as it is',
      'due: 2031-05-04',
      'status: ',
    ]);
    expect(note.front.get('part')).toEqual({
      key: 'part',
      text: 'Pump: ball',
      line: 3,
      column: 6,
      endColumn: 18,
    });
  });

  it('is bounded, and so are its aliases', () => {
    const long = `---\njob: ${'7'.repeat(MAX_FRONT_MATTER)}\n---\n`;
    expect(findingsOf(readNote(long))).toEqual(['1:1-4 front-matter-too-long']);
    const aliases = ['---', 'a: &a [x, x, x, x, x, x, x, x, x]'];
    for (let i = 0; i < 12; i++)
      aliases.push(`b${i}: &b${i} [${`*${i === 0 ? 'a' : `b${i - 1}`}, `.repeat(9)}x]`);
    const { front, findings } = readNote(
      [...aliases, 'job: 7', 'part: &p ball', 'drawing: *p', '---', ''].join('\n'),
    );
    expect([...front.values()].map(({ key, text }) => `${key}: ${text}`)).toEqual([
      'job: 7',
      'part: ball',
      'drawing: ball',
    ]);
    expect(new Set(findings.map(({ code }) => code))).toEqual(new Set(['front-matter-not-text']));
  });

  // The fields of the brief.
  it.each([
    'job',
    'customer',
    'part',
    'drawing',
    'revision',
    'quantity',
    'material',
    'due',
    'status',
    'units',
    'repeat_of',
  ])('was meant where %s stands after a line of hyphens', (field) => {
    expect(findingsOf(readNote(`---\n${field}: 7\n\nWords.\n`))).toEqual(['1:1-4 front-matter-open']);
    expect(findingsOf(readNote(`---\n${field}s 7\n\nWords.\n`))).toEqual([]);
  });

  it('leaves figures in it alone', () => {
    expect(readNote('---\npart: |\n  ```figures\n  a = 1\n  ```\n---\n').blocks).toEqual([]);
  });

  it('is not every note that begins with a rule', () => {
    expect(readNote('---\n\nWords.\n\n---\n').findings).toEqual([]);
    expect(readNote('---\nWords.\n').findings).toEqual([]);
  });
});

describe('units that a note does not name', () => {
  it('are the usual ones, and those that it names stay', () => {
    const units = (text: string, usual: 'mm' | 'in') => {
      const note = inUsualUnits(readNote(text), usual);
      return [...note.front].map(([key, field]) => `${key}: ${field.text}`);
    };
    const named = '---\nunits: mm\n---\n';
    expect([units('Words.', 'in'), units('---\njob: 7\n---\n', 'in'), units(named, 'in')]).toEqual([
      ['units: in'],
      ['job: 7', 'units: in'],
      ['units: mm'],
    ]);
    expect([units('Words.', 'mm'), units(named, 'mm')]).toEqual([[], ['units: mm']]);
  });
});

/** Pieces that notes are made of, put together at random. */
const piece = fc.constantFrom(
  '```figures',
  '```',
  '~~~figures on lathe',
  '~~~',
  '> ',
  '- ',
  '1. ',
  '   ',
  '\t',
  '\n',
  '\n',
  '\r\n',
  '\r',
  'a = 1',
  '# x',
  '---',
  '[a]: <b> "c',
  '<div>',
  '| a |',
  'job: 7',
  '```machine m',
  '\ufeff',
  '\0',
  '    ',
  '<!--',
  '2) ',
  '***',
  'x',
);
const anyNote = fc.oneof(
  fc.array(piece, { maxLength: 40 }).map((pieces) => pieces.join('')),
  fc.string({ unit: 'binary', maxLength: 200 }),
  fc
    .array(fc.integer({ min: 0, max: 0xffff }), { maxLength: 60 })
    .map((codes) => String.fromCharCode(...codes)),
);

describe('any text', () => {
  it('is read, and every line of code stands where its column says', () => {
    fc.assert(
      fc.property(anyNote, (text) => {
        const lines = text.replace(/\0/g, '\ufffd').split(/\r\n|\n|\r/);
        const note = readNote(text);
        for (const block of note.blocks) {
          block.content
            .split('\n')
            .slice(0, -1)
            .forEach((code, index) => {
              const line = lines[block.firstLine + index] ?? '';
              const column = block.column(index);
              const blanks = Math.max(0, -column);
              expect(code.slice(0, blanks).trim()).toBe('');
              expect(line.slice(column + blanks).trimStart()).toBe(code.slice(blanks).trimStart());
              expect(line.length - column).toBe(code.length);
            });
          for (const name of [block.name, ...block.on]) {
            if (name) expect((lines[block.fenceLine] ?? '').slice(name.start, name.end)).toBe(name.text);
          }
        }
        for (const { line, start, end } of note.findings) {
          expect(line).toBeLessThan(lines.length);
          expect(start).toBeLessThanOrEqual(end);
          expect(end).toBeLessThanOrEqual((lines[line] ?? '').length);
        }
      }),
      { numRuns: 3000 },
    );
  });

  it('has its fences where markdown-it itself sees them', () => {
    const host = new MarkdownIt({ html: true });
    fc.assert(
      fc.property(anyNote, (text) => {
        // Front matter is no part of markdown.
        fc.pre(!/^\ufeff|^---/.test(text));
        const expected = host
          .parse(text, {})
          .filter(
            ({ type, info }) =>
              type === 'fence' &&
              /^[ \t]*(figures|machine|material|signed)([ \t\xa0\u2000-\u200a\u202f\u205f\u3000]|$)/.test(
                info,
              ),
          );
        expect(readNote(text).blocks.map(({ fenceLine }) => fenceLine)).toEqual(
          expected.map(({ map }) => map?.[0]),
        );
      }),
      { numRuns: 3000 },
    );
  });
});
