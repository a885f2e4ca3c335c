// npm run bench [FILTER]: measures, and prints one table. Times are those of one run, so only the ratios mean something.
import { build } from 'esbuild';
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { resolve } from 'node:path';
import process from 'node:process';
import { buildAll, node as bundle } from './build.mjs';
import { sizes } from './sizes.mjs';

const root = resolve(import.meta.dirname, '../..');
const out = resolve(root, 'out/bench');

rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });
await buildAll();
await build({
  ...bundle,
  entryPoints: ['test/bench/child.ts'],
  outfile: 'out/bench/child.cjs',
  external: ['mathjs'],
  minify: true,
});

const vitest = spawnSync('npx', ['vitest', 'bench', '--run', ...process.argv.slice(2)], {
  cwd: root,
  stdio: 'inherit',
  shell: process.platform === 'win32',
});

const timed = readdirSync(out)
  .filter((file) => file.endsWith('.json'))
  .map((file) => JSON.parse(readFileSync(resolve(out, file), 'utf8')));
const rows = [...timed, ...sizes()].sort((a, b) => (a.row < b.row ? -1 : 1));

const digits = (x) => (x >= 100 ? x.toFixed(0) : x >= 1 ? x.toFixed(1) : x.toFixed(3));
const cells = rows.map(({ row, measured, against, wanted, ratio, first, second, unit = 'ms' }) => {
  const reached = wanted === null ? '' : (wanted[0] === 'at least') === ratio >= wanted[1] ? 'ok' : 'short';
  const wants = wanted ? `${wanted[0]} ${wanted[1]} ×` : '';
  return [
    row,
    measured,
    against,
    `${digits(first)} ${unit}`,
    `${digits(second)} ${unit}`,
    wants,
    `${digits(ratio)} ×`,
    reached,
  ];
});
const table = [['', 'measured', 'against', 'took', 'it took', 'wanted', 'reached', ''], ...cells];
console.log();
for (const cell of table) console.log(`| ${cell.join(' | ')} |`);
process.exitCode = vitest.status ?? 1;
