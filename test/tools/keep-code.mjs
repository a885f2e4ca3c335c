// Runs the built command line once, on a small note, and keeps the code that Node compiled for it; src/hosts/cli/start.ts
// starts from it. What no small note needs is left out: reading it would cost more than it saves.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import Module from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import process from 'node:process';
import { Script } from 'node:vm';

const made = mkdtempSync(join(tmpdir(), 'scribeline-'));
const note = join(made, 'note.md');
writeFileSync(note, '```figures\nblank = 30 mm * 2 # on the saw\n```\n');
process.argv.splice(2, Infinity, 'check', note);

const folder = resolve(import.meta.dirname, '../../dist/cli');
const filename = resolve(folder, 'program.js');
const script = new Script(Module.wrap(readFileSync(filename, 'latin1')), { filename });
const program = { exports: {} };
process.on('exit', () => {
  writeFileSync(resolve(folder, 'program.code'), script.createCachedData());
  rmSync(made, { recursive: true });
});
script.runInThisContext()(program.exports, Module.createRequire(filename), program, filename, folder);
