/** One script with all tests and all mutants, to be run as often as wanted: each run starts with fresh modules. */
import { build } from 'esbuild';
import { readFileSync } from 'node:fs';
import { dirname, relative, resolve, sep } from 'node:path';
import { pathToFileURL } from 'node:url';

/**
 * `sources` holds the text with switches of each mutated file. Test files are loaded on demand by their path; what comes
 * from outside the project is asked for with `require`.
 */
export async function buildScript(root, tests, sources) {
  const entry = tests.map((test) => `${JSON.stringify(test)}: () => import('./${test}')`).join(',\n');
  const name = (path) => relative(root, path).split(sep).join('/');
  const { outputFiles, metafile } = await build({
    stdin: { contents: `export const load = {\n${entry}\n};`, resolveDir: root, sourcefile: 'all.ts' },
    bundle: true,
    write: false,
    metafile: true,
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    packages: 'external',
    external: ['vitest'],
    logLevel: 'error',
    plugins: [
      {
        name: 'mutants',
        setup(made) {
          made.onLoad({ filter: /[\\/](src|test)[\\/].*\.ts$/ }, ({ path }) => {
            const contents = sources.get(name(path)) ?? readFileSync(path, 'utf8');
            const url = JSON.stringify(pathToFileURL(path).href);
            return {
              contents: contents
                .replaceAll('import.meta.url', url)
                .replaceAll('import.meta.dirname', JSON.stringify(dirname(path))),
              loader: 'ts',
              resolveDir: dirname(path),
            };
          });
        },
      },
    ],
  });
  const externals = new Set();
  for (const { imports } of Object.values(metafile.inputs))
    for (const { path, external } of imports) if (external) externals.add(path);
  return {
    code: `(function (require, mutant) { const module = { exports: {} }, exports = module.exports;\n${outputFiles[0].text}\nreturn module.exports; })`,
    externals: [...externals],
    root: resolve(root),
  };
}
