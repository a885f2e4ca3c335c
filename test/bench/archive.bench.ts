/** The rows of the table that are about past jobs. */
import { compare } from './pairs';

compare({
  row: 'g1',
  measured: 'value query over 10,000 notes',
  against: 'plain text search of the same files',
  wanted: ['at least', 10],
  first: ['valueQuery', 10],
  second: ['textSearch', 1],
  over: 'second over first',
  turns: 10,
});

compare({
  row: 'g2',
  measured: 'one changed note of 10,000',
  against: 'one of 100',
  wanted: ['at most', 3],
  first: ['changedInMany', 20],
  second: ['changedInFew', 20],
});

for (const [row, measured, first, wanted] of [
  ['g3', 'ready to be asked about 10,000 files from the index that was kept', 'restart', 10],
  ['g4', 'the same with one of them changed', 'restartWithOneChanged', 15],
  ['g5', 'the same for the first time: every note read, worked out and kept', 'firstIndex', null],
] as const)
  for (const [part, against, second] of [
    ['a', 'reading the files alone', 'reading'],
    ['b', 'plain text search of them', 'textSearch'],
  ] as const)
    compare({
      row: `${row}${part}`,
      measured,
      against,
      wanted: wanted === null ? null : ['at most', wanted],
      first: [first, 1],
      second: [second, 1],
      turns: first === 'firstIndex' ? 3 : 7,
    });

compare({
  row: 'g6',
  measured: 'first index of 10,000 notes',
  against: 'of 100',
  wanted: ['at most', 120],
  first: ['firstIndex', 1],
  second: ['firstIndexOfFew', 30],
  turns: 3,
});

compare({
  row: 'g7',
  // A hundred notes lie in the processor's own memory, ten thousand do not: five times as long for each.
  measured: 'value query over 10,000 notes',
  against: 'over 100',
  wanted: ['at most', 120],
  first: ['valueQuery', 10],
  second: ['valueQueryOfFew', 1000],
  turns: 10,
});

compare({
  row: 'g8',
  measured: 'memory of an index of 10,000 notes, ready for values and words',
  against: 'the texts of the notes alone',
  wanted: ['at most', 10],
  first: ['indexInMemory', 1],
  second: ['textsInMemory', 1],
  turns: 3,
  unit: 'MB',
});

compare({
  row: 'g9',
  measured:
    'longest time nothing else had its turn while 2,000 notes are indexed, kept, read back and made ready',
  against: 'all of that work',
  wanted: ['at most', 0.05],
  first: ['longestSlice', 1],
  second: ['allSlices', 1],
  turns: 5,
});
