/**
 * A process for one side, so that neither meets the other's things in its memory; bundled and minified as what ships, since
 * a test runner's way of loading modules would make every call between files slow. Told how many runs, it answers the
 * milliseconds that one took.
 */
import process from 'node:process';
import { SIDES, type Side, type SideName } from './sides';

async function start(): Promise<void> {
  const { before, run, measures }: Side = await SIDES[process.argv[2] as SideName]();

  const turn = async (times: number): Promise<number> => {
    let took = 0;
    for (let i = 0; i < times; i++) {
      before?.();
      const start = performance.now();
      const answer = run();
      // Waiting for what is there already would be a part of the time.
      const whole = answer instanceof Promise ? await (answer as Promise<unknown>) : answer;
      took += measures ? Number(whole) : performance.now() - start;
    }
    return took / times;
  };

  process.on('message', (times: number) => void turn(times).then((took) => process.send?.(took)));
  process.send?.('ready');
}

// Told to end, it takes its files with it.
process.on('SIGTERM', () => process.exit());
void start();
