/**
 * What `bin` names. Starting anew for every question, most of the time would go into compiling the program, so the build
 * keeps its compiled code beside it. Another version of Node than the build's turns that down and compiles afresh.
 */
import { readFileSync } from 'node:fs';
import Module from 'node:module';
import { join } from 'node:path';
import { Script } from 'node:vm';

function kept(file: string): Buffer | undefined {
  try {
    return readFileSync(file);
  } catch {
    return undefined;
  }
}

const filename = join(__dirname, 'program.js');
const cachedData = kept(join(__dirname, 'program.code'));
// The bundle is plain ASCII, which is read quickest this way.
const source = Module.wrap(readFileSync(filename, 'latin1'));
const script = new Script(source, cachedData ? { filename, cachedData } : { filename });
const run = script.runInThisContext() as (...given: readonly unknown[]) => void;
const program = { exports: {} };
run(program.exports, Module.createRequire(filename), program, filename, __dirname);
