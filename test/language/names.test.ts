import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type Sheet, type Shop, calculate } from '../../src/engine/index';
import { definition } from '../../src/language/definition';
import { type TextEdit, edited } from '../../src/language/edits';
import { findingCodes, findingPage } from '../../src/language/explain-finding';
import { type Symbol as Named, occurrences, occurrencesOf, symbolAt } from '../../src/language/names-in';
import {
  type NamedNote,
  keepsMeaning,
  refusal,
  renamable,
  Renaming,
  renamed,
} from '../../src/language/rename';
import { blockSymbols } from '../../src/language/symbols';
import { figures, marked } from './cursor';

const SHOP: Shop = {
  file: 'shop.md',
  text: 'The lathe.\n\n```machine lathe\nspeeds = [70, 115] rpm\npower = 2 kW\n```\n',
};
const NOTE = `---
job: 5
---
The neck is the thin part.

\`\`\`figures on lathe
neck = 12 mm ± 0.02 shaft   # neck of the lever
setup = ball_on_shank(30 mm, neck, fillet: 1 mm)
n = speed_step(100 rpm, lathe)
neck measured 12.01 mm
gap = neck.reading - neck
old measured 5 mm
thing = fit(25 mm, H7, g6)
setup.ring used 29 mm
w = old + setup.ring
\`\`\`

\`\`\`js
neck = 5
\`\`\`
`;

/** Where the definition at the mark stands: `line: text`. */
function goesTo(place: string, replaced: string): string | null {
  const { sheet, line, column } = marked(NOTE.replace(place, replaced), [SHOP]);
  const found = definition(sheet, line, column);
  if (!found) return null;
  const text = (found.file === null ? NOTE : SHOP.text).split('\n')[found.line] ?? '';
  return `${found.file ?? 'note'}: ${text.slice(found.column, found.endColumn)} in ${text}`;
}

describe('the definition', () => {
  it('of a figure is the line that gives it', () => {
    expect(goesTo('reading - neck', 'reading - ne‸ck')).toBe(
      'note: neck in neck = 12 mm ± 0.02 shaft   # neck of the lever',
    );
    expect(goesTo('setup.ring used', 'se‸tup.ring used')).toContain('note: setup in setup = ball');
    expect(goesTo('old + setup.ring', 'old + setup.ri‸ng')).toContain('note: setup in setup = ball');
    expect(goesTo('w = old', 'w = ol‸d')).toBe('note: old in old measured 5 mm');
  });

  it('of a card and of its fields stands in the shop file', () => {
    expect(goesTo('figures on lathe', 'figures on lat‸he')).toBe('shop.md: lathe in ```machine lathe');
    expect(goesTo('rpm, lathe', 'rpm, la‸the')).toBe('shop.md: lathe in ```machine lathe');
    expect(goesTo('w = old', 'w = lathe.po‸wer + old')).toBe('shop.md: power = 2 kW in power = 2 kW');
    expect(goesTo('w = old', 'w = brass.dens‸ity + old')).toBeNull();
  });

  it('of a field of the job stands in the head', () => {
    expect(goesTo('w = old', 'w = job.j‸ob')).toMatch(/^note: .* in job: 5$/);
  });

  it('of words, codes and other fences is none', () => {
    expect(goesTo('The neck is', 'The ne‸ck is')).toBeNull();
    expect(goesTo('neck = 5', 'ne‸ck = 5')).toBeNull();
    expect(goesTo('# neck of', '# ne‸ck of')).toBeNull();
    expect(goesTo('H7', 'H‸7')).toBeNull();
  });
});

describe('the definition of what has no line of its own', () => {
  const text = `---\npart: x\n---\n${figures('s = ball_on_shank(30 mm, 12 mm)', 's.ring measured 29 mm', 'old measured 5 mm', 'old measured 6 mm', 'new used 3 mm', 'a = old + new', 'b = job.part', 'c = job.customer', 'd = steel_C45.density', 'e = speed_step(100 rpm, lathe)', 'f = drilling_start(10 mm, steel_C45)', 'g = (s).ring', 'h = k', 'k = h', 'l = k.ring', 'm = nothing.ring', '  in = 3 mm', '   ind = 3 mm', 'o = ind')}`;
  const sheet = calculate(text, [SHOP]);
  const at = (line: string, word: string): unknown => {
    const number = text.split('\n').indexOf(line);
    const found = definition(sheet, number, line.lastIndexOf(word) + 1);
    return found && [found.file, found.line, found.column, found.endColumn];
  };
  it('is what was first read of it, the head, the shop’s card, or none', () => {
    expect(at('a = old + new', 'old')).toEqual([null, 6, 0, 3]);
    expect(at('a = old + new', 'new')).toBeNull();
    expect(at('s.ring measured 29 mm', 'ring')).toEqual([null, 4, 0, 1]);
    expect(at('b = job.part', 'part')).toEqual([null, 1, 6, 7]);
    expect(at('c = job.customer', 'customer')).toBeNull();
    expect(at('d = steel_C45.density', 'steel')).toBeNull();
    expect(at('d = steel_C45.density', 'density')).toBeNull();
    expect(at('e = speed_step(100 rpm, lathe)', 'lathe')).toEqual(['shop.md', 2, 11, 16]);
    expect(at('f = drilling_start(10 mm, steel_C45)', 'steel')).toBeNull();
    expect(at('g = (s).ring', 'ring')).toEqual([null, 4, 0, 1]);
    // Figures that stand for each other end nowhere.
    expect(at('l = k.ring', 'ring')).not.toBeUndefined();
    expect(at('m = nothing.ring', 'ring')).toBeNull();
    expect(at('o = ind', 'ind')).toEqual([null, text.split('\n').indexOf('   ind = 3 mm'), 3, 6]);
    const names = (...lines: string[]): readonly string[] =>
      occurrences(calculate(figures(...lines))).map(({ name, kind }) => `${kind} ${name}`);
    expect(names('nothing.ring used 3 mm')).toEqual(['figure nothing']);
    expect(names('a = nothing.ring')).toEqual(['figure a', 'figure nothing']);
    expect(names('d = 3 mm', 'd measured 4 mm', 'e = d.reading')).toEqual([
      'figure d',
      'figure d',
      'figure e',
      'figure d',
    ]);
    expect(occurrences(calculate('```machine\npower = 1 kW\n```\n'))).toEqual([]);
    const hidden = occurrences(calculate(figures('lathe = 1 +', 'a = lathe.power'), [SHOP]));
    expect(hidden.filter(({ kind }) => kind === 'field')).toEqual([]);
    expect(names('old measured 3 mm', 'a = old.reading')).toEqual(['figure old', 'figure a', 'figure old']);
    expect(names('nothing(M30x1.5-6g)')).toEqual([]);
    const onCard = '```machine m\narea = pi * 2 mm\nlead = thread_sizes(M30x1.5-6g).pitch\n```\n';
    expect(occurrences(calculate(onCard)).map(({ name }) => name)).toEqual(['m', 'area', 'lead']);
  });
});

describe('the uses', () => {
  it('of a figure are where it is given, read and put in', () => {
    const { sheet, line, column } = marked(NOTE.replace('neck = 12', 'ne‸ck = 12'), [SHOP]);
    const symbol = symbolAt(sheet, line, column);
    expect(
      symbol && occurrencesOf(sheet, symbol).map(({ range, given }) => [range.line, range.column, given]),
    ).toEqual([
      [6, 0, true],
      [7, 29, false],
      [9, 0, false],
      [10, 6, false],
      [10, 21, false],
    ]);
  });

  it('are listed in the order of the note, whatever they are of', () => {
    const text = [
      ...['---', 'material: "brass_9"', '---', '```machine mill', 'speeds = [70] rpm', 'note: old', '```'],
      ...[
        '```material brass_9',
        'density = 8 g/cm^3',
        '```',
        '',
        '```figures on mill',
        'a = 2 * pi * mill.power',
      ],
      ...['b = fit(25 mm, H7, g6)', 'c = job.part + a', 'a measured 3 mm', 'd = speed_step(a, mill)'],
      ...['e = thread_sizes(M8x1)', '```', '> ```figures on lathe', '> f = max(a, lathe.power)', '> ```', ''],
    ];
    const found = occurrences(calculate(text.join('\n'), [SHOP]));
    expect(
      found.map(({ name, kind, range, given }) => [range.line, range.column, kind, name, given]),
    ).toEqual([
      [1, 11, 'card', 'brass_9', false],
      [3, 11, 'card', 'mill', true],
      [4, 0, 'field', 'speeds', true],
      [5, 0, 'field', 'note', true],
      [7, 12, 'card', 'brass_9', true],
      [8, 0, 'field', 'density', true],
      [11, 14, 'card', 'mill', false],
      [12, 0, 'figure', 'a', true],
      [12, 13, 'card', 'mill', false],
      [12, 18, 'field', 'power', false],
      [13, 0, 'figure', 'b', true],
      [14, 0, 'figure', 'c', true],
      [14, 8, 'field', 'part', false],
      [14, 15, 'figure', 'a', false],
      [15, 0, 'figure', 'a', false],
      [16, 0, 'figure', 'd', true],
      [16, 15, 'figure', 'a', false],
      [16, 18, 'card', 'mill', false],
      [17, 0, 'figure', 'e', true],
      [19, 16, 'card', 'lathe', false],
      [20, 2, 'figure', 'f', true],
      [20, 10, 'figure', 'a', false],
      [20, 13, 'card', 'lathe', false],
      [20, 19, 'field', 'power', false],
    ]);
  });

  it('in the head are of a material’s card written plainly', () => {
    const inHead = (head: string): readonly number[] =>
      occurrences(calculate(`---\n${head}\n---\n${figures('a = 1')}`, [SHOP]))
        .filter(({ kind }) => kind === 'card')
        .map(({ range }) => range.column);
    expect(inHead('material: steel_C45')).toEqual([10]);
    expect(inHead("material: 'steel_C45'")).toEqual([11]);
    expect(inHead('material: "\\x73teel_C45"')).toEqual([]);
    expect(inHead('material: lathe')).toEqual([]);
    expect(inHead('material: unknown')).toEqual([]);
    expect(inHead('part: steel_C45')).toEqual([]);
  });

  it('of a figure are not those of a card or a field of its name', () => {
    const note = calculate(
      '```machine mill\nbore = 3 mm\n```\n```figures on mill\nmill = ball_on_shank(30 mm, 12 mm)\na = mill.bore\nb = mill\n```\n',
    );
    const lines = (symbol: Named): readonly number[] =>
      occurrencesOf(note, symbol).map(({ range }) => range.line);
    expect(lines({ name: 'mill', kind: 'card', owner: null })).toEqual([0, 3]);
    expect(lines({ name: 'mill', kind: 'figure', owner: null })).toEqual([4, 5, 6]);
    expect(lines({ name: 'bore', kind: 'field', owner: { kind: 'card', name: 'mill' } })).toEqual([1]);
    expect(lines({ name: 'bore', kind: 'field', owner: { kind: 'figure', name: 'mill' } })).toEqual([5]);
  });

  it('are asked about from the first letter to right behind the last', () => {
    const sheet = calculate(`---\nmaterial: steel_C45\n---\n${figures('a = ring + 3 mm', 'ring = 1 mm')}`, [
      SHOP,
    ]);
    const names = Array.from({ length: 12 }, (_, column) => symbolAt(sheet, 4, column)?.name ?? '');
    expect(names).toEqual(['a', 'a', '', '', 'ring', 'ring', 'ring', 'ring', 'ring', '', '', '']);
  });

  it('of a card are in fence lines and in calls', () => {
    const found = occurrencesOf(calculate(NOTE, [SHOP]), { name: 'lathe', kind: 'card', owner: null });
    expect(found.map(({ range }) => [range.line, range.column])).toEqual([
      [5, 14],
      [8, 24],
    ]);
  });
});

describe('another name', () => {
  const symbol = { name: 'neck', kind: 'figure', owner: null } as const;

  it('touches names in our blocks and nothing else, with every line end', () => {
    for (const end of ['\n', '\r\n']) {
      const text = NOTE.replaceAll('\n', end);
      const sheet = calculate(text, [SHOP]);
      const edits = renamed(sheet, symbol, 'shank');
      const after = edited(text, edits);
      const line = (n: number): string | undefined => after.split(end)[n];
      expect([3, 6, 7, 9, 10, 18].map(line)).toEqual([
        'The neck is the thin part.',
        'shank = 12 mm ± 0.02 shaft   # neck of the lever',
        'setup = ball_on_shank(30 mm, shank, fillet: 1 mm)',
        'shank measured 12.01 mm',
        'gap = shank.reading - shank',
        'neck = 5',
      ]);
      expect(keepsMeaning({ sheet, text, shops: [SHOP] }, edits)).toBe(true);
      expect(
        edited(
          after,
          renamed(calculate(after, [SHOP]), { name: 'shank', kind: 'figure', owner: null }, 'neck'),
        ),
      ).toBe(text);
    }
  });

  it('leaves every figure of the example job as it is', () => {
    const read = (name: string): string =>
      readFileSync(fileURLToPath(new URL(`../../examples/${name}`, import.meta.url)), 'utf8');
    const shops = [{ file: 'shop.md', text: read('shop.md') }];
    const text = read('ball-on-shank.md');
    const sheet = calculate(text, shops);
    for (const name of sheet.names()) {
      const edits = renamed(sheet, { name, kind: 'figure', owner: null }, `${name}_renamed`);
      expect([name, edits.length > 0 && keepsMeaning({ sheet, text, shops }, edits)]).toEqual([name, true]);
    }
    for (const name of ['lathe', 'mill', 'dividing_head', 'steel_C45']) {
      const found = renamed(sheet, { name, kind: 'card', owner: null }, 'other');
      expect(
        found.every(
          ({ range }) => text.split('\n')[range.line]?.slice(range.column, range.endColumn) === name,
        ),
      ).toBe(true);
    }
  });

  it('is refused where it would mean something else', () => {
    const sheet = calculate(NOTE, [SHOP]);
    const why = (name: string): unknown => refusal(sheet, symbol, name);
    expect(['2a', 'a b', 'a.b', '', 'a-b'].map(why)).toEqual(Array(5).fill('no-name'));
    expect(['mm', 'to', 'pi', 'job', 'rpm'].map(why)).toEqual(Array(5).fill('reserved'));
    expect(['setup', 'old', 'lathe', 'neck'].map(why)).toEqual(Array(4).fill('taken'));
    expect(['shank', 'm', 'Zapfen', 'größe'].map(why)).toEqual([null, null, null, null]);
    const text = figures('a = 4', 'slope = 10 mm/m');
    const noted = { sheet: calculate(text), text, shops: [] };
    expect(keepsMeaning(noted, renamed(noted.sheet, { name: 'a', kind: 'figure', owner: null }, 'm'))).toBe(
      false,
    );
    const signed = calculate(`${figures('a = 1 mm', 'b = 2 mm')}\n\`\`\`signed\na = 1 mm\n\`\`\`\n`);
    expect(refusal(signed, { name: 'a', kind: 'figure', owner: null }, 'c')).toBe('signed');
    expect(refusal(signed, { name: 'b', kind: 'figure', owner: null }, 'c')).toBeNull();
  });

  it('is for a figure without a value too, but not for the field of a figure that is called as a card', () => {
    const broken = marked(figures('‸a = 1 mm + 1 kg'));
    expect(renamable(broken.sheet, broken.line, broken.column)?.name).toBe('a');
    const hidden = marked(
      `\`\`\`machine mill\nring = 3 mm\n\`\`\`\n${figures('mill = ball_on_shank(30 mm, 12 mm)', 'a = mill.‸ring')}`,
    );
    expect(renamable(hidden.sheet, hidden.line, hidden.column)).toBeNull();
  });

  it('is taken by a figure without a value and by a card; only a figure is signed', () => {
    const text = `${figures('a = 1 mm + 1 kg', 'b = 2 mm')}\n\`\`\`signed\nlathe = 1 mm\n\`\`\`\n`;
    const sheet = calculate(text, [SHOP]);
    expect(
      ['a', 'lathe'].map((name) => refusal(sheet, { name: 'b', kind: 'figure', owner: null }, name)),
    ).toEqual(['taken', 'taken']);
    expect(refusal(sheet, { name: 'lathe', kind: 'card', owner: null }, 'c')).toBeNull();
  });

  it('keeps the meaning only if every value, and every kind of value, stays', () => {
    const text = figures('a = 3 mm', 'b = [1, 2]', 'c = a');
    const noted = { sheet: calculate(text), text, shops: [] };
    const keeps = (was: string, put: string): boolean => {
      const line = text.split('\n').findIndex((each) => each.includes(was));
      const column = text.split('\n')[line]?.indexOf(was) ?? 0;
      const range = { line, column, endLine: line, endColumn: column + was.length };
      return keepsMeaning(noted, [{ range, text: put }]);
    };
    expect(keeps('3 mm', '3.0 mm')).toBe(true);
    expect(keeps('3 mm', '4 mm')).toBe(false);
    expect(keeps('[1, 2]', 'fit(25 mm, H7, g6)')).toBe(false);
    expect(keeps('[1, 2]', '')).toBe(false);
  });

  it('is for figures, samples and the shop’s own cards', () => {
    const can = (place: string, replaced: string): string | undefined => {
      const { sheet, line, column } = marked(NOTE.replace(place, replaced), [SHOP]);
      return renamable(sheet, line, column)?.kind;
    };
    expect(can('w = old', 'w = ol‸d')).toBe('figure');
    expect(can('rpm, lathe', 'rpm, lathe‸')).toBe('card');
    expect(can('w = old', 'w = bra‸ss.density + old')).toBeUndefined();
    expect(can('w = old', 'w = nowhe‸re + old')).toBeUndefined();
    expect(can('fillet: 1', 'fil‸let: 1')).toBeUndefined();
    expect(can('The neck', 'The ne‸ck')).toBeUndefined();
  });
});

/** The edits of notes in this order; refused ones are a failure. */
function renameIn(all: readonly NamedNote[], symbol: Named, name: string): readonly (readonly TextEdit[])[] {
  const renaming = new Renaming(symbol, name);
  return all.map((note) => {
    const edits = renaming.in(note);
    if (typeof edits === 'string') throw new Error(edits);
    return edits;
  });
}

describe('a field of a card', () => {
  const BENCH = `The bore of the tube is worn; bore = 30 mm was once.

\`\`\`machine lathe
speeds = [70, 115] rpm
bore = 30 mm      # bore of the spindle
half = bore / 2   # half the bore
note: bore measured cold
\`\`\`

\`\`\`machine other_lathe
bore = 20 mm
\`\`\`

\`\`\`figures
spare = 3 mm
\`\`\`
`;
  const USES = `---
job: 5
---
The bore of lathe.bore is wide.

\`\`\`figures on lathe
room = lathe.bore - 2 mm   # lathe.bore, less some
bore = 5 mm
both = bore + (lathe).bore
same = lathe
third = same.bore / 3
lathe.bore used 29 mm
kept = lathe.bore.used
far = other_lathe.bore
text = lathe.note
\`\`\`

> \`\`\`figures
> quoted = max(lathe.bore, 10 mm)
> \`\`\`

\`\`\`js
lathe.bore = 5
\`\`\`
`;
  const field = { name: 'bore', kind: 'field', owner: { kind: 'card', name: 'lathe' } } as const;
  const notes = (end: string): readonly NamedNote[] => {
    const [bench, uses] = [BENCH, USES].map((text) => text.replaceAll('\n', end));
    const shops = [{ file: 'shop.md', text: bench ?? '' }];
    return [
      { file: 'shop.md', text: bench ?? '', sheet: calculate(bench ?? ''), shops: [] },
      { file: 'note.md', text: uses ?? '', sheet: calculate(uses ?? '', shops), shops },
    ];
  };

  it('is renamed on the card and in every note, with every line end, and nothing else is', () => {
    for (const end of ['\n', '\r\n']) {
      const all = notes(end);
      const edits = renameIn(all, field, 'spindle_bore');
      const after = all.map(({ text }, i) => edited(text, edits[i] ?? []).split(end));
      const changed = all.map(({ text }, i) =>
        text.split(end).flatMap((line, n) => (after[i]?.[n] === line ? [] : [after[i]?.[n]])),
      );
      expect(changed).toEqual([
        ['spindle_bore = 30 mm      # bore of the spindle', 'half = spindle_bore / 2   # half the bore'],
        [
          'room = lathe.spindle_bore - 2 mm   # lathe.bore, less some',
          'both = bore + (lathe).spindle_bore',
          'third = same.spindle_bore / 3',
          'lathe.spindle_bore used 29 mm',
          'kept = lathe.spindle_bore.used',
          '> quoted = max(lathe.spindle_bore, 10 mm)',
        ],
      ]);
      const [shop = '', note = ''] = after.map((lines) => lines.join(end));
      const again = calculate(note, [{ file: 'shop.md', text: shop }]);
      const value = (of: Sheet): unknown =>
        of.rows().map((row) => row.value?.kind === 'number' && row.value.value);
      expect(value(again)).toEqual(value(all[1]?.sheet ?? calculate('')));
      expect(again.findings()).toEqual([]);
    }
  });

  it('follows from a file of cards alone, and is refused in every note for the same reason', () => {
    const own = '```machine mill\nbore = 3 mm\n```\n';
    const shops = [{ file: 'shop.md', text: own }];
    const text = figures('room = mill.bore - 2 mm');
    const both: readonly NamedNote[] = [
      { file: 'shop.md', text: own, sheet: calculate(own), shops: [] },
      { file: 'note.md', text, sheet: calculate(text, shops), shops },
    ];
    const bore = { name: 'bore', kind: 'field', owner: { kind: 'card', name: 'mill' } } as const;
    expect(renameIn(both, bore, 'spindle').map(({ length }) => length)).toEqual([1, 1]);
    for (const [name, why] of [
      ['mm', 'reserved'],
      ['2a', 'no-name'],
      ['power', 'acted-on'],
    ] as const)
      expect(both.map((note) => new Renaming(bore, name).in(note))).toEqual([why, why]);
  });

  it('is found where the cursor is, on the card and in a note', () => {
    const [shop, note] = notes('\n');
    const here = (sheet: Sheet | undefined, text: string, inside: string): unknown => {
      const lines = (sheet === shop?.sheet ? BENCH : USES).split('\n');
      const line = lines.findIndex((each) => each.startsWith(text));
      const found = sheet && renamable(sheet, line, (lines[line]?.indexOf(inside) ?? 0) + 1);
      return found && [found.kind, found.owner?.name, found.name];
    };
    expect(here(shop?.sheet, 'bore = 30', 'bore')).toEqual(['field', 'lathe', 'bore']);
    expect(here(shop?.sheet, 'half', 'bore')).toEqual(['field', 'lathe', 'bore']);
    expect(here(shop?.sheet, 'note:', 'note')).toEqual(['field', 'lathe', 'note']);
    expect(here(shop?.sheet, 'note:', 'bore')).toBeNull();
    expect(here(note?.sheet, 'third', 'bore')).toEqual(['field', 'lathe', 'bore']);
    expect(here(note?.sheet, 'far', 'bore')).toEqual(['field', 'other_lathe', 'bore']);
    expect(here(note?.sheet, 'bore =', 'bore')).toEqual(['figure', undefined, 'bore']);
    expect(here(note?.sheet, 'lathe.bore used', 'bore')).toEqual(['field', 'lathe', 'bore']);
  });

  it('of a text is renamed too', () => {
    const all = notes('\n');
    const found = renameIn(all, { ...field, name: 'note' }, 'remark');
    expect(found.map(({ length }) => length)).toEqual([1, 1]);
  });

  it('is refused where the card or the notebook has that name, and where the old one is looked for', () => {
    const [shop] = notes('\n');
    const why = (name: string, of: string = field.name): unknown =>
      shop && refusal(shop.sheet, { ...field, name: of }, name);
    expect(
      [
        'half',
        'speeds',
        'power',
        'gears',
        'kind',
        'caution_2',
        'name',
        'slide_divisions',
        'cross_backlash',
        'cross_slide',
      ].map((n) => why(n)),
    ).toEqual(['taken', ...Array<string>(9).fill('acted-on')]);
    expect(['used', 'reading', 'mm', 'pi'].map((n) => why(n))).toEqual(Array(4).fill('reserved'));
    expect(['2a', 'a b'].map((n) => why(n))).toEqual(Array(2).fill('no-name'));
    expect([why('steps', 'speeds'), why('quill_per_rev', 'quill_per_turn')]).toEqual(
      Array(2).fill('acted-on'),
    );
    expect([why('lathe'), why('room'), why('bohrung')]).toEqual([null, null, null]);
  });

  it('of a result or of the job keeps its name, and its uses are found', () => {
    const found = (place: string, replaced: string): unknown => {
      const { sheet, line, column } = marked(NOTE.replace(place, replaced), [SHOP]);
      const symbol = symbolAt(sheet, line, column);
      return [
        renamable(sheet, line, column),
        symbol && occurrencesOf(sheet, symbol).map(({ range }) => range.line),
      ];
    };
    expect(found('old + setup.ring', 'old + setup.ri‸ng')).toEqual([null, [13, 14]]);
    expect(found('w = old', 'w = job.jo‸b')).toEqual([null, [14]]);
  });
});

describe('a card', () => {
  it('is renamed with its file, and the head that names a material follows', () => {
    for (const end of ['\n', '\r\n'])
      for (const quote of ['', '"', "'"]) {
        const own = '```material bar_7\nexpansion = 11 µm/m/K\n```\n'.replaceAll('\n', end);
        const text =
          `---\nmaterial: ${quote}bar_7${quote}   # bar_7\npart: bar_7\n---\nOf bar_7.\n\n${figures('d = 25 mm h7', 'd measured 25.001 mm at 32 °C')}`.replaceAll(
            '\n',
            end,
          );
        const shops = [{ file: 'shop.md', text: own }];
        const note = { file: 'note.md', text, sheet: calculate(text, shops), shops };
        const shop = { file: 'shop.md', text: own, sheet: calculate(own), shops: [] };
        const symbol = { name: 'bar_7', kind: 'card', owner: null } as const;
        const [ofShop, ofNote] = renameIn([shop, note], symbol, 'bar_8');
        expect(edited(text, ofNote ?? [])).toBe(
          text.replace(`${quote}bar_7${quote}   `, `${quote}bar_8${quote}   `),
        );
        expect(edited(own, ofShop ?? [])).toBe(own.replace('bar_7', 'bar_8'));
        // Without the card's own file the reading could not be brought to 20 °C any more.
        expect(new Renaming(symbol, 'bar_8').in(note)).toBe('changes');
      }
  });
});

describe('the outline', () => {
  it('holds the blocks, and their figures with their results', () => {
    const [block] = blockSymbols(calculate(NOTE, [SHOP]));
    expect(block).toMatchObject({ name: 'figures on lathe', range: { line: 5, endLine: 15 } });
    expect(block?.figures.map(({ name, detail }) => `${name} ${detail}`).slice(0, 3)).toEqual([
      'neck 11.98 … 12.02 mm',
      'setup tilt 12.972°, ring 29.234 mm, …',
      'n = 70 rpm',
    ]);
    expect(blockSymbols(calculate(SHOP.text)).map(({ name }) => name)).toEqual(['machine lathe']);
    expect(blockSymbols(calculate('```figures\na = 1 mm\n'))[0]?.range).toMatchObject({
      line: 0,
      endLine: 1,
    });
    expect(blockSymbols(calculate('# Words\n```js\na = 1\n```\n'))).toEqual([]);
  });
});

describe('the outline, block by block,', () => {
  it('has where each stands, its figures, and what is marked when it is picked', () => {
    const text =
      '> ```figures on lathe, head\n> long = 2 mm + 1 mm # x\n> b = 3 mm ± 0.1 # y\n>   d = 5 mm # z\n> 2 * 3\n> ```\n```signed\na = 1 mm\n```\n```material m\n';
    const [first, second, third] = blockSymbols(calculate(text, [SHOP]));
    expect(first).toMatchObject({
      name: 'figures on lathe, head',
      kind: 'figures',
      range: { line: 0, column: 0, endLine: 5, endColumn: 0 },
      selection: { line: 0, column: 0, endLine: 0, endColumn: 0 },
      figures: [
        {
          name: 'long',
          detail: '= 3 mm',
          range: { line: 1, column: 2, endLine: 1, endColumn: 24 },
          selection: { line: 1, column: 2, endLine: 1, endColumn: 6 },
        },
        { name: 'b', detail: '2.9 … 3.1 mm' },
        { name: 'd', detail: '5 mm', selection: { line: 3, column: 4, endColumn: 5 } },
      ],
    });
    expect(second).toMatchObject({
      name: 'signed',
      kind: 'signed',
      range: { line: 6, endLine: 8 },
      figures: [],
    });
    expect(third).toMatchObject({ name: 'material m', kind: 'material', range: { line: 9 } });
    expect(blockSymbols(calculate(figures('a = 1')))[0]?.name).toBe('figures');
    const broken = blockSymbols(calculate(figures('e = 1 mm + 1 kg ± 0.1 mm'), []))[0]?.figures[0];
    expect(broken?.detail).toBe('1 mm + 1 kg ± 0.1 mm');
  });
});

describe('the page of a finding', () => {
  it.each([
    ['unit-mismatch', 'An error: the line has no value, or what it asks does not hold.'],
    ['speed-between-steps', 'A warning: the value stands, but it deserves a second look.'],
    ['side-unknown', 'A remark: nothing is wrong.'],
  ])('of %s says how it is met, and its code at the end', (code, means) => {
    const page = findingPage(code) ?? '';
    expect(page.split('\n\n').slice(2)).toEqual([means, `Code: \`${code}\`\n`]);
    expect(page.split('\n')[0]).toBe(
      `# ${code.charAt(0).toUpperCase()}${code.slice(1).replaceAll('-', ' ')}`,
    );
  });

  it('says why the notebook asks', () => {
    expect(findingPage('speed-between-steps')).toContain('A geared head runs only at its steps');
    expect(findingCodes().every((code) => (findingPage(code)?.length ?? 0) > 60)).toBe(true);
    expect(findingPage('nothing')).toBeNull();
    expect(findingPage('constructor')).toBeNull();
  });
});
