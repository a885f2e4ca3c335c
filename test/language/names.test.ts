import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type Shop, calculate } from '../../src/engine/index';
import { definition } from '../../src/language/definition';
import { edited } from '../../src/language/edits';
import { findingCodes, findingPage } from '../../src/language/explain-finding';
import { occurrencesOf, symbolAt } from '../../src/language/names-in';
import { keepsMeaning, refusal, renamable, renamed } from '../../src/language/rename';
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

  it('of a card are in fence lines and in calls', () => {
    const found = occurrencesOf(calculate(NOTE, [SHOP]), { name: 'lathe', kind: 'card' });
    expect(found.map(({ range }) => [range.line, range.column])).toEqual([
      [5, 14],
      [8, 24],
    ]);
  });
});

describe('another name', () => {
  const symbol = { name: 'neck', kind: 'figure' } as const;

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
        edited(after, renamed(calculate(after, [SHOP]), { name: 'shank', kind: 'figure' }, 'neck')),
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
      const edits = renamed(sheet, { name, kind: 'figure' }, `${name}_renamed`);
      expect([name, edits.length > 0 && keepsMeaning({ sheet, text, shops }, edits)]).toEqual([name, true]);
    }
    for (const name of ['lathe', 'mill', 'dividing_head', 'steel_C45']) {
      const found = renamed(sheet, { name, kind: 'card' }, 'other');
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
    expect(keepsMeaning(noted, renamed(noted.sheet, { name: 'a', kind: 'figure' }, 'm'))).toBe(false);
    const signed = calculate(`${figures('a = 1 mm', 'b = 2 mm')}\n\`\`\`signed\na = 1 mm\n\`\`\`\n`);
    expect(refusal(signed, { name: 'a', kind: 'figure' }, 'c')).toBe('signed');
    expect(refusal(signed, { name: 'b', kind: 'figure' }, 'c')).toBeNull();
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

describe('the page of a finding', () => {
  it('says why the notebook asks', () => {
    expect(findingPage('speed-between-steps')).toContain('A geared head runs only at its steps');
    expect(findingCodes().every((code) => (findingPage(code)?.length ?? 0) > 60)).toBe(true);
    expect(findingPage('nothing')).toBeNull();
    expect(findingPage('constructor')).toBeNull();
  });
});
