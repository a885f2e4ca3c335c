import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    exclude: ['**/node_modules/**', 'test/vscode/**'],
    benchmark: { include: ['test/bench/**/*.bench.ts'] },
  },
});
