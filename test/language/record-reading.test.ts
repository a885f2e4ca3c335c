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
