// npm run typecheck: the core without DOM and Node types, then each host and the tests with theirs.
import { spawnSync } from 'node:child_process';
import { createRequire } from 'node:module';

const tsc = createRequire(import.meta.url).resolve('typescript/bin/tsc');
let failed = false;
for (const project of ['tsconfig.json', 'src/hosts/editor', 'src/hosts/cli', 'test']) {
  const { status } = spawnSync(process.execPath, [tsc, '-p', project], { stdio: 'inherit' });
  if (status !== 0) failed = true;
}
process.exitCode = failed ? 1 : 0;
