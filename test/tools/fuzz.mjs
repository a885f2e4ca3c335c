// npm run fuzz -- [--minutes 10] [--seed 1]: notes changed at random, guided by the code that they reach. Says how many were
// tried, and what was thrown, slow or in disagreement: an edited note and a fresh one, aligned once and twice, what is shown
// and what is read back, the JSON and its schema. Each kind of failure is left in out/fuzz with the note that shows it.
import { build } from 'esbuild';
import { spawnSync } from 'node:child_process';
import { resolve } from 'node:path';
import process from 'node:process';
import { node as bundle } from './build.mjs';

const root = resolve(import.meta.dirname, '../..');
await build({
  ...bundle,
  entryPoints: ['test/abuse/fuzz.ts'],
  outfile: 'out/fuzz/fuzz.cjs',
  metafile: false,
});
const { status } = spawnSync(process.execPath, ['out/fuzz/fuzz.cjs', ...process.argv.slice(2)], {
  cwd: root,
  stdio: 'inherit',
});
process.exitCode = status ?? 1;
