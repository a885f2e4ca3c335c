/** The rows of the table that `npm run bench` prints, with the ratios that the project wants. */
import { compare } from './pairs';

compare({
  row: 'a1',
  measured: '1,000 mixed lines, text to values',
  against: 'the same lines through mathjs: parsed, and evaluated with Units in a scope',
  wanted: ['at least', 20],
  first: ['mixed', 40],
  second: ['mathjs', 2],
  over: 'second over first',
  turns: 10,
  starts: 5,
});

compare({
  row: 'b1',
  measured: 'a chain of 10,000 lines again after an edit of its first line',
  against: 'plain JavaScript: for each line a closure over a Map of names with {value, unit exponents}',
  wanted: ['at most', 10],
  first: ['chain', 5],
  second: ['chainWithUnits', 15],
});
compare({
  row: 'b2',
  measured: 'the same',
  against: 'plain JavaScript with bare numbers (for information)',
  wanted: null,
  first: ['chain', 5],
  second: ['chainBare', 30],
});

for (const [i, [place, name]] of [
  ['top', 'Top'],
  ['middle', 'Middle'],
  ['end', 'End'],
].entries())
  for (const [row, what, doing] of [
    [i + 1, 'replace', 'replacing'],
    [i + 4, 'insert', 'inserting'],
  ] as const)
    compare({
      row: `c${row}`,
      measured: `${doing} a line with 100 dependents near the ${place} of 20,000 lines, without finding the fences`,
      against: 'in 1,000 lines',
      wanted: ['at most', 3],
      first: [`${what}${name as 'Top' | 'Middle' | 'End'}Long`, 40],
      second: [`${what}${name as 'Top' | 'Middle' | 'End'}Short`, 80],
    });

for (const [row, kind] of [
  ['d1', 'independent'],
  ['d2', 'chained'],
  ['d3', 'toleranced'],
] as const)
  compare({
    row,
    measured: `20,000 ${kind} lines, text to values`,
    against: '2,000 of them',
    wanted: ['at most', 12],
    first: [`${kind}Long`, 1],
    second: [`${kind}Short`, 10],
    turns: 20,
    starts: 5,
  });

compare({
  row: 'e1',
  measured: '`scribeline check` of a note of one line',
  against: '`node -e 0`',
  wanted: ['at most', 2],
  first: ['check', 1],
  second: ['nothing', 1],
  turns: 40,
});

compare({
  row: 'f1',
  measured: 'key press in a 1,000-line note: note read, sheet updated, hints of 60 lines, diagnostics',
  against: 'one frame of a screen with 60 a second',
  wanted: ['at most', 1],
  first: ['keyPress', 20],
  second: { ms: 1000 / 60 },
});
