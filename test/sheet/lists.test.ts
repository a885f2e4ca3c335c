/** Results that come item by item as tables: columns, words, parts, and when they fold. */
import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import { type How, PREVIEW } from '../../src/sheet/how';
import { listHtml, listedFields } from '../../src/sheet/lists';

const PAPER: How = { ...PREVIEW, paper: true };
const value = (call: string): Parameters<typeof listHtml>[0] =>
  calculate(`\`\`\`figures\na = ${call}\n\`\`\`\n`).valueOf('a');
const html = (call: string, how: How): string => listHtml(value(call), how);
/** The rows of each table in it, cells set apart by a stroke. */
const tables = (text: string): readonly (readonly string[])[] =>
  text
    .split('<table>')
    .slice(1)
    .map((table) =>
      [...table.matchAll(/<tr>(.*?)<\/tr>/g)].map(([, row = '']) =>
        [...row.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/g)]
          .map(([, cell = '']) => cell.replace(/<[^>]*>/g, ''))
          .join(' | '),
      ),
    );

describe('a list', () => {
  // Four holes on a circle of 40 mm, from its middle: at 0°, 90°, 180° and 270°.
  it('is a table whose rows are numbered, with its words above', () => {
    const text = html('bolt_circle(40 mm, 4)', PREVIEW);
    expect(tables(text)).toEqual([
      [
        'hole | angle | x | y',
        '1 | 0° | 20 mm | 0 mm',
        '2 | 90° | 0 mm | 20 mm',
        '3 | 180° | -20 mm | 0 mm',
        '4 | 270° | 0 mm | -20 mm',
      ].map((row) => row.replaceAll(' mm', '\u00a0mm')),
    ]);
    expect(text).toMatch(/^<div class="scribeline-list"><p>angle: [^;]+; x: [^;]+; y: [^;]+<\/p>/);
    expect(text).not.toContain('details');
  });

  it('whose items happen to be one, two, three is no number of the rows', () => {
    // Two of 600 mm do not come out of one bar of 1200 mm, so each piece has a bar of its own.
    const [rows = []] = tables(html('cut_list([600, 600, 600] mm, 1200 mm, 2 mm)', PREVIEW));
    expect(rows.slice(0, 2)).toEqual([
      'no. | order | from bar | left',
      '1 | 600 mm | 1 | 598 mm'.replaceAll(' mm', '\u00a0mm'),
    ]);
  });

  it('has a column to tick off on paper, in the units asked for', () => {
    const [rows = []] = tables(html('bolt_circle(1 in, 4)', { ...PAPER, units: 'in' }));
    expect(rows.slice(0, 2)).toEqual(['hole | angle | x | y | done', '1 | 0° | 0.5\u00a0in | 0\u00a0in | ']);
  });

  it('of prices is not ticked off', () => {
    const [rows = []] = tables(html('quotation(2, 85 AUD, 5 AUD, 3 AUD, 20%)', PAPER));
    expect(rows[0]).not.toContain('done');
    expect(rows.length).toBeGreaterThan(2);
  });

  it.each([
    [12, 'bolt_circle(40 mm, 12)', false],
    [13, 'bolt_circle(40 mm, 13)', true],
  ])('of %i lines is folded in the preview: %s, %s', (lines, call, folded) => {
    expect(html(call, PREVIEW).startsWith('<details class="scribeline-fold">')).toBe(folded);
    if (folded)
      expect(html(call, PREVIEW)).toContain(
        `<summary>Coordinates of holes spaced evenly round a circle: ${lines} lines</summary>`,
      );
    expect(html(call, PAPER)).not.toContain('<details');
  });

  it.each([
    [20, [20]],
    [21, [10, 10, 1]],
    [36, [15, 15, 6]],
    [90, [30, 30, 30]],
    [95, [30, 30, 30, 5]],
  ])('of %i lines stands on paper in parts of %j', (count, parts) => {
    const made = tables(html(`bolt_circle(40 mm, ${count})`, PAPER));
    expect(made.map((rows) => rows.length - 1)).toEqual(parts);
    expect(html(`bolt_circle(40 mm, ${count})`, PREVIEW).match(/<table>/g)).toHaveLength(1);
    expect(made.flatMap((rows) => rows.slice(1)).map((row) => parseInt(row, 10))).toEqual(
      Array.from({ length: count }, (_, i) => i + 1),
    );
  });

  it('of words item by item has them beside the figures, one cell each', () => {
    // 12.68 mm is nearly half an inch; of two likely sizes each has its name.
    const [[head, ...rest] = []] = tables(html('likely_size(12.68 mm)', { ...PREVIEW, units: 'in' }));
    expect(head).toBe('no. | names | sizes | offs | likelihoods');
    expect(rest.map((row) => row.split(' | ').length)).toEqual([5, 5]);
  });

  it('of another length than the longest is no column', () => {
    // Three chamfers have two angles between them.
    const chamfers = 'chamfer_steps(30 mm, 0.3 mm, 2)';
    expect([...listedFields(value(chamfers))]).toEqual(['depths', 'diameters']);
    expect(tables(html(chamfers, PREVIEW))[0]?.[0]).toBe('no. | depths | diameters');
  });

  it('breaks in long words, never between a figure and its unit', () => {
    const [table = []] = tables(html('quotation(2, 85 AUD, 5 AUD, 3 AUD, 20%)', PREVIEW));
    expect(table.join('')).toContain('85.00\u00a0AUD');
    expect(table.join('')).toContain('one by 20% markup');
  });

  it('of moves ends with its check, with a box on paper only', () => {
    const moves = calculate(
      '```machine head\nratio = 40\nplates = [15, 39]\n```\n```figures\na = indexing_moves(13, head)\n```\n',
    );
    expect(tables(listHtml(moves.valueOf('a'), PREVIEW))[0]?.[0]).toBe('cut | whole turns | hole');
    const end = (how: How): string =>
      /<p class="scribeline-end">.*?<\/p>/.exec(listHtml(moves.valueOf('a'), how))?.[0] ?? '';
    expect(end(PREVIEW)).toMatch(/^<p class="scribeline-end">End check: /);
    expect(end(PAPER)).toMatch(
      /^<p class="scribeline-end"><span class="scribeline-box"[^>]*><\/span> End check: /,
    );
  });

  it('of a card is named by the card', () => {
    const card = calculate(
      '```machine big\nplates = [15, 16, 17, 18, 19, 20, 21, 23, 27, 29, 31, 33, 37]\n```\n```figures\na = big\n```\n',
    );
    const text = listHtml(card.valueOf('a'), PREVIEW);
    expect(text).toContain('<summary>big: 13 lines</summary>');
    expect(text).toContain('<th scope="col" title="">plates</th>');
  });

  it('needs two items', () => {
    for (const call of ['5 mm', 'ball_on_shank(30 mm, 12 mm)', '[1, 2] mm', 'likely_size(11.86 mm, screw)']) {
      expect([...listedFields(value(call))]).toEqual([]);
      expect(html(call, PREVIEW)).toBe('');
    }
    expect([...listedFields(value('bolt_circle(40 mm, 2)'))]).toEqual(['hole', 'angle', 'x', 'y']);
    expect(html('none', PREVIEW)).toBe('');
  });
});
