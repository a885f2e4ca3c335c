import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import { edited } from '../../src/language/edits';
import { type How, judged, readables } from '../../src/language/record-reading';
import { figures } from './cursor';

function write(
  text: string,
  path: string,
  how: How,
  typed: string,
): ReturnType<typeof judged> & { after: string } {
  const found = judged({ sheet: calculate(text), text, shops: [] }, path, how, typed);
  return { ...found, after: found.edit ? edited(text, [found.edit]) : text };
}
const NOTE = figures('neck = 12 mm ± 0.02 shaft   # to fit', 'n = 300 rpm', 'old measured 5 mm');

describe('the figures that can be read', () => {
  it('begin with those that have limits', () => {
    const found = readables(
      calculate(
        figures(
          'a = 5 mm',
          'n = 300 rpm',
          'b = 12 mm h7',
          's = ball_on_shank(30 mm, 12 mm)',
          'n used 250 rpm',
          'w measured 3 mm',
        ),
      ),
    );
    expect(found.map(({ path }) => path)).toEqual([
      'b',
      'n',
      'w',
      'a',
      's.tilt',
      's.ring',
      's.height',
      's.neck_to_end',
    ]);
    expect(found[0]).toEqual({ path: 'b', shown: '12 mm h7', last: '', how: 'measured' });
    expect(found[1]).toMatchObject({ shown: '300 rpm', last: 'used 250 rpm', how: 'used' });
  });
});

describe('what is written next', () => {
  const one = (path: string, ...lines: string[]): unknown =>
    readables(calculate(figures(...lines))).find((each) => each.path === path);
  it('of a speed, a rate or a feed is what was run, of all else a reading', () => {
    for (const size of ['300 rpm', '90 m/min', '0.2 mm/rev', '100 mm/min'])
      expect(one('a', `a = ${size}`)).toEqual({
        path: 'a',
        shown: size,
        last: '',
        how: 'used',
      });
    for (const size of ['3 mm', '2 kg', '5', '20 °C'])
      expect(one('a', `a = ${size}`)).toMatchObject({ how: 'measured' });
  });

  it('stands beside what was written last, without its comment', () => {
    const lines = ['a = 5 mm', 'a measured 6 mm # x', 'a final 5 mm at 3 mm   # y'];
    expect(one('a', ...lines)).toMatchObject({ last: 'final 5 mm at 3 mm' });
    expect(one('s.ring', 's = ball_on_shank(30 mm, 12 mm)', 's.ring used 29 mm')).toEqual({
      path: 's.ring',
      shown: '29.367 mm',
      last: 'used 29 mm',
      how: 'measured',
    });
    expect(one('w', 'w measured 3 kg, 4 kg')).toEqual({
      path: 'w',
      shown: 'measured',
      last: 'measured 3 kg, 4 kg',
      how: 'measured',
    });
  });

  it('comes once each and in groups: with limits, read before, plain, parts of results', () => {
    const text = `\`\`\`machine m\npower = 2 kW\n\`\`\`\n${figures(
      's = ball_on_shank(30 mm, 12 mm)',
      'c = 3 mm',
      'd = fit(25 mm, H7, g6)',
      'l = [1, 2] mm',
      'b = 3 mm',
      'b measured 3 mm',
      'z measured 4 mm',
      's.tilt measured 11°',
      'a = 3 mm ± 0.1',
      'a measured 3 mm',
      'b = 4 mm',
      'n used 5 rpm',
      '2 * 3 mm',
      'ball_on_shank(40 mm, 12 mm)',
    )}`;
    const paths = readables(calculate(text)).map(({ path }) => path);
    expect(paths.slice(0, 8)).toEqual(['a', 's.tilt', 'b', 'z', 'c', 's.ring', 's.height', 's.neck_to_end']);
    expect(paths).toContain('d.hole_max');
    expect(paths.filter((path) => /power|^l$|d\.kind|^n$/.test(path))).toEqual([]);
    expect(new Set(paths).size).toBe(paths.length);
  });
});

describe('a reading', () => {
  it('is judged as the note will judge it', () => {
    expect(write(NOTE, 'neck', 'measured', '12.32')).toMatchObject({
      verdict: '0.3 mm left, 0.15 on radius',
      good: true,
    });
    expect(write(NOTE, 'neck', 'measured', '12.01')).toMatchObject({ verdict: '✓ inside', good: true });
    const gone = write(NOTE, 'neck', 'measured', '11.9');
    expect([gone.good, gone.edit === null]).toEqual([false, false]);
    expect(gone.verdict).toMatch(/metal is gone/);
    expect(write(NOTE, 'neck', 'final', '12.05').verdict).toMatch(/over its limits/);
    expect(write(NOTE, 'n', 'used', '250')).toMatchObject({
      verdict: '50 rpm below plan',
      line: 'n used 250 rpm',
    });
  });

  it('is written below what stands of the figure, in the unit of the figure', () => {
    expect(write(NOTE, 'neck', 'measured', '12.3 at 10, 12.31 at 70 # tapered').after).toBe(
      NOTE.replace('# to fit', '# to fit\nneck measured 12.3 mm at 10 mm, 12.31 mm at 70 mm   # tapered'),
    );
    expect(write(NOTE, 'old', 'measured', '5.01').after).toContain(
      'old measured 5 mm\nold measured 5.01 mm\n',
    );
    expect(write(NOTE, 'neck', 'measured', '0.473 in').after).toContain('neck measured 0.473 in');
  });

  it.each([
    ['d', 'measured', '.5', 'd measured .5 mm'],
    ['d', 'measured', '−5, -6 ,7', 'd measured −5 mm, -6 ,7'],
    ['d', 'measured', '5 at .5', 'd measured 5 at .5'],
    ['d', 'measured', '5 at 1.5,  6 at 2', 'd measured 5 mm at 1.5 mm, 6 mm at 2 mm'],
    ['d', 'measured', ' 5 # a # b ', 'd measured 5 mm   # a # b'],
    ['d', 'measured', '5 kg', 'd measured 5 kg'],
    ['i', 'measured', '.474', 'i measured .474 in'],
    ['i', 'used', '12', 'i used 12 mm'],
    ['t', 'measured', '12', 't measured 12°'],
    ['k', 'measured', '3', 'k measured 3'],
    ['o', 'used', '5', 'o used 5 in'],
    ['u', 'used', '5', 'u used 5'],
    ['s.tilt', 'measured', '12', 's.tilt measured 12°'],
    ['lost', 'measured', '12', 'lost measured 12'],
  ] as const)('%s %s, typed as %j, is %j', (path, how, typed, line) => {
    const note = figures(
      'd = 12 mm',
      'i = 12 mm',
      'i measured 0.473 in',
      't = 12°',
      'k = 3',
      'o measured 2 mm, 0.2 in',
      's = ball_on_shank(30 mm, 12 mm)',
    );
    expect(judged({ sheet: calculate(note), text: note, shops: [] }, path, how, typed).line).toBe(line);
  });

  it('that cannot stand says why, in the words of the note', () => {
    const verdict = (path: string, how: How, typed: string): string => {
      const found = write(NOTE, path, how, typed);
      expect([found.edit, found.good]).toEqual([null, false]);
      return found.verdict;
    };
    expect(verdict('gone', 'measured', '5')).toBe('There is no such figure any more.');
    expect(verdict('neck', 'measured', '12 kg')).toMatch(/this reading in kg/);
    expect(verdict('n', 'used', '12 kg')).toMatch(/planned in rpm/);
    expect(verdict('neck', 'measured', '12..')).toMatch(/\.$/);
    // Of what has no plan to be held against, the line itself is all there is to say.
    expect(write(figures('s = fit(25 mm, H7, g6)'), 's', 'used', '5').verdict).not.toBe('');
    expect(write(NOTE, 'old', 'measured', '5')).toMatchObject({ verdict: 'old measured 5 mm', good: true });
  });

  it('stands below its own last line, or below the figure, wherever blocks are', () => {
    const note = `${figures('d = 12 mm', 'e = 5 mm')}\n${figures('e measured 5 mm', 'd used 12 mm', 'f = 1 mm')}\n${figures('e final 5 mm')}`;
    const below = (path: string, how: How): string | undefined => {
      const { line, after } = write(note, path, how, '5');
      const lines = after.split('\n');
      return lines[lines.lastIndexOf(line) - 1];
    };
    expect(below('d', 'measured')).toBe('d used 12 mm');
    expect(below('f', 'measured')).toBe('f = 1 mm');
    expect(below('d', 'final')).toBe('e final 5 mm');
    expect(below('e', 'final')).toBe('e final 5 mm');
    expect(write(NOTE, 'neck', 'final', '12').after).toContain('# to fit\nneck final 12 mm\n');
    expect(write(NOTE, 'old', 'final', '5').after).toContain('old measured 5 mm\nold final 5 mm\n');
    const finals = `${figures('d = 12 mm', 'd final 12 mm', 'e = 3 mm', 'e final 3 mm')}`;
    expect(write(finals, 'd', 'final', '12').after).toContain('d final 12 mm\nd final 12 mm\ne = 3 mm');
  });

  it('at inspection stands with the others of the inspection', () => {
    const note = `${NOTE}\n${figures('old final 5 mm')}`;
    expect(write(note, 'neck', 'final', '12').after).toBe(
      note.replace('old final 5 mm', 'old final 5 mm\nneck final 12 mm'),
    );
  });

  it('keeps the marks of a quote and the line ends of the note', () => {
    expect(write('> ```figures\r\n> a = 5 mm\r\n> ```\r\n', 'a', 'measured', '5.1').after).toBe(
      '> ```figures\r\n> a = 5 mm\r\n> a measured 5.1 mm\r\n> ```\r\n',
    );
  });

  it('that could be read two ways, or is of another kind, is not written', () => {
    for (const typed of ['11,98', 'about 12', '12 kg', '12..', ''])
      expect([typed, write(NOTE, 'neck', 'measured', typed).edit]).toEqual([typed, null]);
    expect(write(NOTE, 'gone', 'measured', '5').edit).toBeNull();
  });
});
