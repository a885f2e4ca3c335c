/** Whole notes: against mathjs, and long ones against short ones. */
import { all, create, isUnit } from 'mathjs';
import { chain, independent, mixed, note, toleranced } from './notes';
import { comparePair, rooms } from './pairs';

const { calculate, siFactor } = rooms;
const math = create(all ?? {});

const LINES = 1000;
const lines = mixed(LINES);
const text = note(lines);

function byMathjs(): Map<string, unknown> {
  const scope = new Map<string, unknown>();
  for (const line of lines) math.parse(line).evaluate(scope);
  return scope;
}

/** Both must have worked out the same 1,000 numbers, or the race means nothing. */
function sameNumbers(): void {
  const sheet = calculate(text);
  const theirs = byMathjs();
  if (sheet.findings().length > 0) throw new Error(sheet.findings()[0]?.message);
  for (const line of lines) {
    const [name = ''] = line.split(' ');
    const own = sheet.valueOf(name);
    const other = theirs.get(name);
    const mine = own?.kind === 'number' ? own.value * (siFactor(own.dimension) ?? NaN) : NaN;
    const its = isUnit(other) ? other.toSI().toNumeric() : other;
    if (typeof its !== 'number' || !(Math.abs(mine - its) <= 1e-12 * Math.abs(its)))
      throw new Error(`${line}: ${mine} here, ${String(its)} in mathjs`);
  }
}
sameNumbers();

comparePair({
  row: 'a1',
  measured: '1,000 mixed lines, text to values',
  against: 'the same lines through mathjs (parse, evaluate with Units in a scope)',
  wanted: ['at least', 20],
  ratio: (first, second) => second / first,
  first: { run: () => calculate(text), times: 15 },
  second: { run: byMathjs },
});

for (const [row, kind, make] of [
  ['d1', 'independent', independent],
  ['d2', 'chained', chain],
  ['d3', 'toleranced', toleranced],
] as const) {
  const [long, short] = [note(make(20_000)), note(make(2000))];
  comparePair({
    row,
    measured: `20,000 ${kind} lines, text to values`,
    against: '2,000 of them',
    wanted: ['at most', 12],
    pairs: 15,
    first: { run: () => calculate(long) },
    second: { run: () => calculate(short), times: 10 },
  });
}
