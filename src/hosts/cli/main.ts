import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { reason } from './files';
import type { Io } from './io';
import { WRONG } from './io';
import { run } from './run';

/** The package file stands two folders above the bundle, where `bin` names it. */
function version(): string {
  const file = join(__dirname, '../../package.json');
  const own: unknown = JSON.parse(readFileSync(file, 'utf8'));
  return typeof own === 'object' && own !== null && 'version' in own ? String(own.version) : '';
}

/** What waits for the reader. One that goes away takes nothing more, and nobody is to wait for it. */
let goOn = (): void => {};
for (const taken of ['drain', 'close', 'error']) process.stdout.on(taken, () => goOn());

const io: Io = {
  current: process.cwd(),
  colour: process.stdout.isTTY && !process.env['NO_COLOR'] && process.env['TERM'] !== 'dumb',
  version,
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
  taken: () =>
    new Promise((done) => {
      if (process.stdout.writableNeedDrain && !process.stdout.destroyed) goOn = done;
      else done();
    }),
};

// A reader that has seen enough (`| head`) closes the pipe; that is no failure of ours. A full disk is one.
let unwritten = false;
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE' || unwritten) return;
  unwritten = true;
  io.err(`scribeline: cannot write the answer: ${reason(error, 'write')}\n`);
  process.exitCode = WRONG;
});
process.stderr.on('error', () => {
  // nobody hears; the exit code still tells
});

// Set rather than `process.exit`, so that everything written reaches a slow pipe.
run(process.argv.slice(2), io).then(
  (code) => (process.exitCode = unwritten ? WRONG : code),
  (error: unknown) => {
    io.err(`scribeline: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`);
    process.exitCode = WRONG;
  },
);
