// npm test: lint, types, build, the core's tests, then the tests inside real VS Code. All parts run even when one fails;
// the last line totals the tests (a part that fails otherwise counts as one failure) and the exit code says the same.
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { resolve } from 'node:path';
import process from 'node:process';
import { ensureUnits } from './install.mjs';
import { testJobs } from './test-jobs.mjs';
import { testPreview } from './test-preview.mjs';
import { testWriting } from './test-writing.mjs';
import { testIn } from './test-vscode.mjs';

const root = resolve(import.meta.dirname, '../..');
const npm = (...words) =>
  spawnSync('npm', ['run', '--silent', ...words], {
    cwd: root,
    stdio: 'inherit',
    shell: process.platform === 'win32',
  });

/** A part without tests of its own. */
function part(name) {
  console.log(`\n${name}`);
  return { name, passed: 0, failed: npm(name).status === 0 ? 0 : 1 };
}

function unitTests() {
  console.log('\nvitest');
  const report = resolve(root, 'out/vitest.json');
  mkdirSync(resolve(root, 'out'), { recursive: true });
  rmSync(report, { force: true });
  const { status } = npm(
    'test:unit',
    '--',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
  );
  try {
    const { numPassedTests: passed, numFailedTests: failed } = JSON.parse(readFileSync(report, 'utf8'));
    return { name: 'vitest', passed, failed: status === 0 ? failed : Math.max(failed, 1) };
  } catch {
    return { name: 'vitest', passed: 0, failed: 1 };
  }
}

const start = Date.now();
ensureUnits();
const build = part('build');
const parts = [part('lint'), part('typecheck'), build, unitTests()];
if (!build.failed) {
  for (const host of ['web', 'node']) parts.push({ name: `VS Code, host ${host}`, ...testIn(host) });
  parts.push({ name: 'the preview under a pointer', ...(await testPreview()) });
  parts.push({ name: 'writing by hand', ...(await testWriting()) });
  for (const host of ['web', 'node'])
    parts.push({ name: `past jobs by hand, host ${host}`, ...(await testJobs(host)) });
}

console.log(`\n${Math.round((Date.now() - start) / 1000)} s`);
for (const { name, passed, failed } of parts) {
  console.log(
    `  ${failed ? '✗' : '✓'} ${name}${passed ? `: ${passed} passed` : ''}${failed ? `, ${failed} failed` : ''}`,
  );
}
const sum = (key) => parts.reduce((total, result) => total + result[key], 0);
console.log(`${sum('passed')} passed, ${sum('failed')} failed`);
process.exitCode = sum('failed') ? 1 : 0;
