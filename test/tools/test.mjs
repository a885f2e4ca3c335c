// npm test: lint, types, build, the core's tests, and the tests inside real VS Code. The build comes first; then three
// lanes side by side, because VS Code mostly waits: the core, VS Code in a browser, VS Code on a server. All parts run even
// when one fails, and each is printed when it ends. The last lines name what failed and total the tests (a part that fails
// otherwise counts as one failure); the exit code says the same.
//   node test/tools/test.mjs vscode      without the core: the build and all that runs in VS Code
import { spawn } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { resolve } from 'node:path';
import process from 'node:process';
import { ensureBrowser, ensureHost, ensureUnits } from './install.mjs';

const root = resolve(import.meta.dirname, '../..');

/** Runs a command with what it prints kept together. @returns {Promise<{ status: number | null, said: string }>} */
function run(command, words) {
  return new Promise((done) => {
    const child = spawn(command, words, {
      cwd: root,
      stdio: ['ignore', 'pipe', 'pipe'],
      shell: process.platform === 'win32',
    });
    let said = '';
    for (const stream of [child.stdout, child.stderr]) {
      stream.setEncoding('utf8');
      stream.on('data', (text) => (said += text));
    }
    child.once('error', (error) => done({ status: 1, said: `${said}${error}\n` }));
    child.once('close', (status) => done({ status, said }));
  });
}

const npm = (...words) => run('npm', ['run', '--silent', ...words]);

/** A part without tests of its own. */
async function part(name) {
  const { status, said } = await npm(name);
  return { name, said, passed: 0, failed: status === 0 ? 0 : 1, failures: [] };
}

const oneLine = (text) => text.trim().replace(/\s+/g, ' ').slice(0, 300);

async function unitTests() {
  const report = resolve(root, 'out/vitest.json');
  mkdirSync(resolve(root, 'out'), { recursive: true });
  rmSync(report, { force: true });
  const reports = ['--maxWorkers=1', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
  const { status, said } = await npm('test:unit', '--', ...reports);
  const name = 'vitest';
  try {
    const {
      numPassedTests: passed,
      numFailedTests: failed,
      testResults,
    } = JSON.parse(readFileSync(report, 'utf8'));
    const failures = testResults.flatMap(({ name: file, message, assertionResults }) => [
      ...(message ? [`${file}: ${oneLine(message)}`] : []),
      ...assertionResults
        .filter((each) => each.status === 'failed')
        .map(({ fullName, failureMessages }) => `${fullName}: ${oneLine(failureMessages.join(' '))}`),
    ]);
    return { name, said, passed, failed: status === 0 ? failed : Math.max(failed, 1), failures };
  } catch {
    return { name, said, passed: 0, failed: 1, failures: [] };
  }
}

/** One of the scripts beside this one, whose last line totals its tests. */
async function script(name, file, ...words) {
  const { status, said } = await run(process.execPath, [resolve(import.meta.dirname, file), ...words]);
  const [, passed = 0, failed = 0] = (/(\d+) passed, (\d+) failed\s*$/.exec(said) ?? []).map(Number);
  const failures = said
    .split('\n')
    .flatMap((line, i, lines) => (/[✗❌]/u.test(line) ? [oneLine(`${line} ${lines[i + 1] ?? ''}`)] : []));
  return { name, said, passed, failed: status === 0 && passed > 0 ? failed : Math.max(failed, 1), failures };
}

const start = Date.now();
const seconds = (since) => Math.round((Date.now() - since) / 1000);

/** Runs parts one after the other and prints each when it has ended. */
async function lane(...parts) {
  const results = [];
  for (const each of parts) {
    const began = Date.now();
    const result = { ...(await each()), took: 0 };
    result.took = seconds(began);
    console.log(`\n${result.name}\n${result.said.trimEnd()}`);
    results.push(result);
  }
  return results;
}

ensureUnits();
ensureBrowser();
for (const host of ['web', 'node']) ensureHost(host);

const results = await lane(() => part('build'));
const hasCore = process.argv[2] !== 'vscode';
const core = hasCore ? [unitTests] : [];
// At the end of the lane that is over first.
const source = hasCore ? [() => part('lint'), () => part('typecheck')] : [];
const inVSCode = (host) => () => script(`VS Code, host ${host}`, 'test-vscode.mjs', host);
const jobs = (host) => () => script(`past jobs by hand, host ${host}`, 'test-jobs.mjs', host);
const browser = [
  inVSCode('web'),
  jobs('web'),
  () => script('the preview under a pointer', 'test-preview.mjs'),
];
const server = [inVSCode('node'), jobs('node'), () => script('writing by hand', 'test-writing.mjs')];
const lanes = results[0].failed ? [[...source, ...core]] : [core, [...browser, ...source], server];
for (const each of await Promise.all(lanes.map((parts) => lane(...parts)))) results.push(...each);

console.log(`\n${seconds(start)} s`);
for (const { name, passed, failed, failures, took } of results) {
  const counts = [passed ? `${passed} passed` : '', failed ? `${failed} failed` : ''].filter(Boolean);
  console.log(`  ${failed ? '✗' : '✓'} ${[name, ...counts, `${took} s`].join(', ')}`);
  for (const failure of failures) console.log(`      ${failure}`);
}
const sum = (key) => results.reduce((total, result) => total + result[key], 0);
console.log(`${sum('passed')} passed, ${sum('failed')} failed`);
process.exitCode = sum('failed') ? 1 : 0;
