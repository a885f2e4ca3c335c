/** Nodes that nobody holds are filled anew; those that somebody holds never are. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import { parseLine } from '../../src/notation/line';
import { letGoFigure } from '../../src/notation/used-nodes';

const LINES = [
  'a = 2 mm * 3 + 0.5 in',
  'b = -(a - 1 mm) / 4',
  'c = sqrt(a * b) + 1 1/2 in',
  'd = 5 mm ± 0.1',
  'e = a to in # as it is sold',
  'f = 25 mm +0.02/-0.01 shaft',
  'g = 20 °C ± 2 °C',
  'h = 2 in .. -1.5 in',
  'i = 25 mm h7',
  'j = [a, 2 mm, a ^ 2 / a]',
  'set = ball_on_shank(30 mm, shank: 12 mm)',
  'k = set.tilt + 0.5°',
];

describe('used nodes', () => {
  it('are not those of a line that somebody holds, whatever is read meanwhile', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...LINES), { maxLength: 6 }),
        fc.nat(LINES.length - 1),
        (read, at) => {
          const line = LINES[at] ?? '';
          const held = parseLine(line, 'figures');
          const before = JSON.stringify(held);
          const sheet = calculate(`\`\`\`figures\n${[...read, line].join('\n')}\n\`\`\`\n`);
          const rows = JSON.stringify(sheet.rows().map(({ statement }) => statement));
          calculate(`\`\`\`figures\n${LINES.join('\n')}\n\`\`\`\n`);
          expect(JSON.stringify(held)).toBe(before);
          expect(JSON.stringify(sheet.rows().map(({ statement }) => statement))).toBe(rows);
          expect(JSON.stringify(parseLine(line, 'figures'))).toBe(before);
        },
      ),
    );
  });

  it.each(LINES)('say what is read next as new ones do: %s', (line) => {
    const fresh = JSON.stringify(parseLine(line, 'figures'));
    const others = [
      'x = 9.75 in * (7 - 3.25) + 1/2 mm / 3',
      'length = depth ^ 2 + depth # longer',
      'x = 7 mm +0.2/-0.3 hole',
      'y = -(x - z) ± 0.5 mm to cm',
      'w = [x, max(x, 2 * z)].y',
      'x = 2 mm ± 0.1 #\u202e',
      'h = tap_drill(M30x1.5-6g)',
    ];
    // More than are kept.
    for (let i = 0; i < 100; i++) {
      const read = parseLine(others[i % others.length] ?? '', 'figures');
      if (read.kind === 'figure') letGoFigure(read);
      expect(JSON.stringify(parseLine(line, 'figures'))).toBe(fresh);
    }
  });
});
