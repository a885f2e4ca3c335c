// How much code runs before a first value, and how large the bundles are. In kB of minified code.
import { build } from 'esbuild';
import { statSync } from 'node:fs';
import { resolve } from 'node:path';
import { node } from './build.mjs';

const root = resolve(import.meta.dirname, '../..');
const ENTRIES = ['dist/node/extension.js', 'dist/web/extension.js', 'dist/cli/scribeline.js'];

/** What the engine, and all it imports, needs for a value. yaml is left out: it runs when a note has front matter. */
async function beforeFirstValue() {
  const { outputFiles } = await build({
    ...node,
    stdin: { contents: "import { calculate } from './src/engine/index'; calculate('');", resolveDir: root },
    external: ['yaml'],
    minify: true,
    write: false,
  });
  return outputFiles[0].contents.length / 1000;
}

function row(name, measured, size, most) {
  return {
    row: name,
    measured,
    against: `${most} kB of minified code`,
    wanted: ['at most', 1],
    ratio: size / most,
    first: size,
    second: most,
    unit: 'kB',
  };
}

export async function sizes() {
  const entries = ENTRIES.map((file, i) => {
    return row(`e${i + 3}`, file, statSync(resolve(root, file)).size / 1000, 1000);
  });
  return [row('e2', 'code that runs before the first value', await beforeFirstValue(), 250), ...entries];
}
