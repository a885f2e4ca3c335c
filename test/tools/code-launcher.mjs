#!/usr/bin/env node
// Takes the arguments of VS Code's own `code` executable, so that @vscode/test-electron can start either host:
// VSCODE_HOST=node|web picks it, VSCODE_VSIX=FILE installs that extension in it first.
import { resolve } from 'node:path';
import process from 'node:process';
import { parseArgs } from 'node:util';
import { runTests } from './vscode.mjs';

const { values, positionals } = parseArgs({
  strict: false,
  allowPositionals: true,
  options: { extensionDevelopmentPath: { type: 'string' }, extensionTestsPath: { type: 'string' } },
});
const { extensionDevelopmentPath: extension, extensionTestsPath: tests } = values;
if (!extension || !tests) {
  console.error('needs --extensionDevelopmentPath= and --extensionTestsPath=');
  process.exit(2);
}
try {
  const host = process.env.VSCODE_HOST === 'node' ? 'node' : 'web';
  const folder = resolve(positionals[0] ?? '.');
  const vsix = process.env.VSCODE_VSIX;
  const given = { host, extension: resolve(extension), tests: resolve(tests), folder };
  process.exit(await runTests(vsix ? { ...given, vsix } : given));
} catch (error) {
  console.error(error);
  process.exit(1);
}
