/** Two sides measured against each other: turn about, so that whatever else the machine does meets both alike. */
import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { bench } from 'vitest';
import type { SideName } from './sides';

const OUT = resolve(import.meta.dirname, '../../out/bench');

/** A line of the table. Times are in ms; `ratio` is the median of the turns' ratios. */
export interface Result {
  readonly row: string;
  readonly measured: string;
  readonly against: string;
  /** Null for information only. */
  readonly wanted: readonly ['at least' | 'at most', number] | null;
  readonly ratio: number;
  readonly first: number;
  readonly second: number;
  /** What `first` and `second` are, when not times. */
  readonly unit?: string;
}

export interface Pair extends Pick<Result, 'measured' | 'against' | 'wanted'> {
  /** Letter and number by which the table is sorted. */
  readonly row: string;
  /** A side, and how many runs of it make a turn: as many as let both sides' turns take about as long. */
  readonly first: readonly [side: SideName, runs: number];
  readonly second: readonly [side: SideName, runs: number] | { readonly ms: number };
  /** Which time goes over which: `first` over `second` when not said. */
  readonly over?: 'second over first';
  readonly turns?: number;
  /** How often both sides are started anew for that many turns: how code is compiled differs by a tenth from start to start. */
  readonly starts?: number;
  readonly unit?: string;
}

async function started(side: SideName): Promise<ChildProcess> {
  const child = fork(resolve(OUT, 'child.cjs'), [side], {
    cwd: resolve(OUT, '../..'),
    execArgv: ['--expose-gc'],
    stdio: 'inherit',
  });
  await Promise.race([
    once(child, 'message'),
    once(child, 'exit').then(() => Promise.reject(new Error(`${side} did not start`))),
  ]);
  return child;
}

/** Milliseconds of one run, as the mean over a turn. */
async function turn(child: ChildProcess, runs: number): Promise<number> {
  child.send(runs);
  const [took] = (await once(child, 'message')) as [number];
  return took;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(middle)] ?? NaN) + (sorted[Math.ceil(middle)] ?? NaN)) / 2;
}

export function compare({ turns = 25, starts = 1, ...pair }: Pair): void {
  const timed: (readonly [first: number, second: number])[] = [];
  let children: readonly ChildProcess[] = [];
  const warm = Math.ceil(turns / 3);
  const turnOfBoth = async (): Promise<readonly [first: number, second: number]> => {
    const [one, other] = children;
    if (!one) return [NaN, NaN];
    const first = await turn(one, pair.first[1]);
    const second = 'ms' in pair.second ? pair.second.ms : other ? await turn(other, pair.second[1]) : NaN;
    return [first, second];
  };
  const end = (): void => {
    for (const child of children) child.kill();
  };
  const startAnew = async (): Promise<void> => {
    end();
    const sides = [pair.first[0], ...('ms' in pair.second ? [] : [pair.second[0]])];
    children = await Promise.all(sides.map(started));
    for (let i = 0; i < warm; i++) await turnOfBoth();
  };
  const once = async (): Promise<void> => {
    if (timed.length % turns === 0) await startAnew();
    timed.push(await turnOfBoth());
  };
  const teardown = (): void => {
    end();
    const { row, measured, against, wanted, over, unit } = pair;
    const result: Result = {
      row,
      measured,
      against,
      wanted,
      ratio: median(timed.map(([first, second]) => (over ? second / first : first / second))),
      first: median(timed.map(([first]) => first)),
      second: median(timed.map(([, second]) => second)),
      ...(unit !== undefined && { unit }),
    };
    mkdirSync(OUT, { recursive: true });
    writeFileSync(resolve(OUT, `${row}.json`), JSON.stringify(result));
  };
  bench(`${pair.row} ${pair.measured}`, once, {
    time: 0,
    iterations: turns * starts,
    warmupTime: 0,
    warmupIterations: 0,
    teardown,
  });
}
