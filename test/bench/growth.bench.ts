/**
 * How what a thousand cost grows with how many there are: lines of a note, notes of a workshop. One means that a large one costs as
 * much a piece as a small one. For information; what is wanted of growth stands in rows c, d and g.
 */
import { compare } from './pairs';

for (const [i, first] of (['lines1000', 'lines5000', 'lines20000'] as const).entries())
  compare({
    row: `h${i + 1}`,
    measured: `1,000 of ${['1,000', '5,000', '20,000'][i]} mixed lines, text to values`,
    against: '1,000 lines in notes of 100',
    wanted: null,
    first: [first, [20, 4, 1][i] ?? 1],
    second: ['lines100', 200],
    turns: 15,
  });

for (const [i, first] of (['notes1000', 'notes10000'] as const).entries())
  compare({
    row: `h${i + 4}`,
    measured: `1,000 of ${['1,000', '10,000'][i]} notes: read, worked out, kept`,
    against: '1,000 notes in folders of 100',
    wanted: null,
    first: [first, [3, 1][i] ?? 1],
    second: ['notes100', 20],
    turns: 3,
  });

for (const [i, first] of (['asked1000', 'asked10000'] as const).entries())
  compare({
    row: `h${i + 6}`,
    measured: `1,000 of ${['1,000', '10,000'][i]} notes asked for a value`,
    against: '1,000 notes in workshops of 100',
    wanted: null,
    first: [first, [50, 10][i] ?? 1],
    second: ['asked100', 500],
    turns: 10,
  });
