// The same bundle of tests inside real VS Code, in the web host and in the Node host.
//   node test/tools/test-vscode.mjs [web] [node] [desktop] [/WORDS/]
//     only these hosts; `desktop` downloads desktop VS Code; only the tests whose names match the regular expression
// The extension is the packaged one, made here and installed into a VS Code that holds nothing else; in desktop VS Code it is
// the checkout. The workspace is a copy of examples/ and of test/vscode/notes/, so that what the tests write is thrown away.
// Needs `npm run build`.
import { runTests } from '@vscode/test-electron';
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import process from 'node:process';
import { total } from './driven.mjs';
import { ensureBrowser, ensureHost } from './install.mjs';
import { packExtension } from './package.mjs';

const root = resolve(import.meta.dirname, '../..');
const SUMMARY = /in VS Code: (\d+) passed, (\d+) failed/;

/** The tests in one host. @returns {{ passed: number, failed: number }} */
function testIn(host, words = '') {
  if (host !== 'desktop') {
    ensureBrowser();
    ensureHost(host);
  }
  console.log(`\nInside real VS Code, host ${host}:`);
  const { status, stdout } = spawnSync(process.execPath, [import.meta.filename, '--one', host, words], {
    env: { ...process.env, VSCODE_HOST: host },
    encoding: 'utf8',
    maxBuffer: 1e8,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  process.stdout.write(stdout.replace(/^(Using ESM loader|Exit code|.{0,5}GET \/).*\n/gm, '')); // the web server's own lines
  const [, passed = 0, failed = 0] = (SUMMARY.exec(stdout) ?? []).map(Number);
  // A host that ends badly without a failed test (it never started, it crashed) counts as one failure.
  return { passed, failed: status === 0 && passed > 0 ? failed : Math.max(failed, 1) };
}

async function one(host, words) {
  const work = mkdtempSync(join(tmpdir(), 'scribeline-'));
  process.once('exit', () => rmSync(work, { recursive: true, force: true, maxRetries: 5 }));
  for (const notes of ['examples', 'test/vscode/notes']) {
    if (existsSync(join(root, notes))) cpSync(join(root, notes), work, { recursive: true });
  }
  if (words) writeFileSync(join(work, 'grep.txt'), words);
  const tests = 'dist/test/in-vscode.js';
  if (host === 'desktop') {
    const extensionTestsPath = join(root, tests);
    await runTests({ extensionDevelopmentPath: root, extensionTestsPath, launchArgs: [work] });
    return;
  }
  const apart = mkdtempSync(join(tmpdir(), 'scribeline-'));
  process.once('exit', () => rmSync(apart, { recursive: true, force: true, maxRetries: 5 }));
  process.env.VSCODE_VSIX = await packExtension(apart);
  await runTests({
    vscodeExecutablePath: join(import.meta.dirname, 'code-launcher.mjs'),
    extensionDevelopmentPath: driver(apart, tests),
    extensionTestsPath: join(apart, 'driver/tests.js'),
    launchArgs: [work],
  });
}

/** VS Code runs tests of an extension under development: this one holds nothing but them. */
function driver(folder, tests) {
  const at = join(folder, 'driver');
  cpSync(join(root, tests), join(at, 'tests.js'));
  const manifest = { name: 'driver', publisher: 'tests', version: '0.0.0', engines: { vscode: '*' } };
  writeFileSync(join(at, 'package.json'), JSON.stringify(manifest));
  return at;
}

const isWords = (word) => /^\/.*\/$/.test(word);
const hosts = process.argv.slice(2).filter((word) => !isWords(word));
const words = process.argv.slice(2).find(isWords)?.slice(1, -1);
if (hosts[0] === '--one') {
  await one(hosts[1], process.argv[4]).catch((error) => {
    console.log(String(error));
    process.exitCode = 1;
  });
} else {
  const results = (hosts.length ? hosts : ['web', 'node']).map((host) => testIn(host, words));
  const sum = (key) => results.reduce((all, result) => all + result[key], 0);
  total({ passed: sum('passed'), failed: sum('failed') });
}
