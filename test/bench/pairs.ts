/** Two things measured against each other: run turn about, so that whatever else the machine does meets both alike. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { resolve } from 'node:path';
import { bench } from 'vitest';

const OUT = resolve(import.meta.dirname, '../../out/bench');

/** The bundle that `npm run bench` makes of `rooms.ts`. */
export const rooms = createRequire(import.meta.url)(resolve(OUT, 'rooms.cjs')) as typeof import('./rooms');

/** A line of the table. Times are in ms; `ratio` is the median of the pairs' ratios. */
export interface Result {
  readonly row: string;
  readonly measured: string;
  readonly against: string;
  /** `at least 20` or `at most 3`; null for information only. */
  readonly wanted: readonly ['at least' | 'at most', number] | null;
  readonly ratio: number;
  readonly first: number;
  readonly second: number;
  /** What `first` and `second` are, when not times. */
  readonly unit?: string;
}

/** One side of a pair. `before` is not timed; the quicker side runs several `times` a turn, so that both weigh alike. */
export interface Side {
  readonly before?: () => void;
  readonly run: () => unknown;
  readonly times?: number;
}

export interface Pair {
  /** Letter and number by which the table is sorted. */
  readonly row: string;
  readonly measured: string;
  readonly against: string;
  readonly wanted: Result['wanted'];
  /** Of the times: first over second unless said otherwise. */
  readonly ratio?: (first: number, second: number) => number;
  readonly pairs?: number;
  readonly first: Side;
  readonly second: Side;
}

/** Milliseconds a run. */
function time({ before, run, times = 1 }: Side): number {
  before?.();
  const start = performance.now();
  for (let i = 0; i < times; i++) run();
  return (performance.now() - start) / times;
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(middle)] ?? NaN) + (sorted[Math.ceil(middle)] ?? NaN)) / 2;
}

export function record(result: Result): void {
  mkdirSync(OUT, { recursive: true });
  writeFileSync(resolve(OUT, `${result.row}.json`), JSON.stringify(result));
}

export function comparePair({ pairs = 40, ...pair }: Pair): void {
  const timed: (readonly [number, number])[] = [];
  let turn = 0;
  const once = (): void => {
    if (turn++ % 2 === 0) {
      const first = time(pair.first);
      timed.push([first, time(pair.second)]);
    } else {
      const second = time(pair.second);
      timed.push([time(pair.first), second]);
    }
  };
  const teardown = (_: unknown, mode: 'warmup' | 'run'): void => {
    if (mode === 'warmup') return;
    // The warm-up's pairs came first.
    const counted = timed.slice(-pairs);
    const ratio = pair.ratio ?? ((first, second) => first / second);
    const { row, measured, against, wanted } = pair;
    record({
      row,
      measured,
      against,
      wanted,
      ratio: median(counted.map(([first, second]) => ratio(first, second))),
      first: median(counted.map(([first]) => first)),
      second: median(counted.map(([, second]) => second)),
    });
  };
  const warm = Math.max(3, Math.ceil(pairs / 4));
  bench(`${pair.row} ${pair.measured}`, once, {
    time: 0,
    iterations: pairs,
    warmupTime: 0,
    warmupIterations: warm,
    teardown,
  });
}
