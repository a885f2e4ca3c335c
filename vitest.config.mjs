import { defineConfig } from 'vitest/config';

/** What the source requires lazily by a relative path is a module of the source: tests import it, bundles resolve it. */
const lazyModules = {
  name: 'lazy-modules',
  enforce: 'pre',
  transform(code, id) {
    if (!/\/src\/.*\.ts$/.test(id)) return null;
    const imports = [];
    const eager = code.replace(/\brequire\('(\.[^']+)'\)/g, (_, path) => {
      imports.push(`import * as lazy${imports.length} from '${path}';`);
      return `lazy${imports.length - 1}`;
    });
    return imports.length === 0 ? null : { code: `${imports.join(' ')} ${eager}`, map: null };
  },
};

/** What is measured here is measured in a process of its own, which has done nothing else before. */
const MEASURED = ['test/abuse/**/*.test.ts', 'test/archive/slices.test.ts', 'test/notation/lines.test.ts'];

export default defineConfig({
  plugins: [lazyModules],
  test: {
    // A guard against hanging, for a machine busy with other things: how long anything may take is asked as a ratio.
    testTimeout: 300_000,
    hookTimeout: 300_000,
    projects: [
      {
        extends: true,
        test: {
          name: 'together',
          // Files of tests leave each other nothing but loaded modules: loading those anew took a third of the time.
          isolate: false,
          include: ['test/**/*.test.ts'],
          exclude: ['**/node_modules/**', 'test/vscode/**', ...MEASURED],
          benchmark: { include: ['test/bench/**/*.bench.ts'] },
        },
      },
      { extends: true, test: { name: 'apart', include: MEASURED, benchmark: { include: [] } } },
    ],
  },
});
