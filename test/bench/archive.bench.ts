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

compare({
  row: 'g3',
  measured: 'index of 10,000 notes read back from what was kept (for information)',
  against: 'reading the files alone, and searching them',
  wanted: null,
  first: ['restart', 1],
  second: ['textSearch', 1],
  turns: 5,
});
