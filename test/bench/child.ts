/**
 * A process for one side, so that neither meets the other's things in its memory; bundled and minified as what ships, since
 * a test runner's way of loading modules would make every call between files slow. Told how many runs, it answers the
 * milliseconds that one took.
 */
import process from 'node:process';
import { SIDES, type Side, type SideName } from './sides';

const { before, run }: Side = SIDES[process.argv[2] as SideName]();

process.on('message', (times: number) => {
  let took = 0;
  for (let i = 0; i < times; i++) {
    before?.();
    const start = performance.now();
    run();
    took += performance.now() - start;
  }
  process.send?.(took / times);
});
process.send?.('ready');
