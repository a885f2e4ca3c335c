// Installs, when first needed and saying so, what the tests and `npm start` use beside the extension's own packages:
// two real VS Codes from npm (each in a folder of its own with its own lock file) and programs from Debian.
import { execSync, spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, join, resolve } from 'node:path';
import process from 'node:process';

const HOSTS = resolve(import.meta.dirname, '../hosts');
const ABOUT = { web: 'VS Code for the web (590 MB)', node: 'the VS Code Server (300 MB)' };
export const NODE_HOST = join(HOSTS, 'node/node_modules/code-server/lib/vscode');

/** Installs one VS Code unless it is complete already. @param {'web' | 'node'} host */
export function ensureHost(host) {
  const dir = join(HOSTS, host);
  const done = join(dir, 'node_modules/.complete'); // written last, so that a broken install is done over
  if (existsSync(done)) return;
  console.log(`Installing ${ABOUT[host]} from npm into test/hosts/${host}, once …`);
  const scripts = host === 'node' ? '--ignore-scripts' : '';
  npm(`${existsSync(join(dir, 'package-lock.json')) ? 'ci' : 'install'} ${scripts}`, dir);
  if (host === 'node') finishNodeHost(dir);
  writeFileSync(done, '');
}

// No install script of the server runs: they would download ripgrep and compile native modules that nothing here
// needs. Its own shrinkwrap pins its packages; ripgrep's program, which `findFiles` needs, comes from npm instead.
function finishNodeHost(dir) {
  npm('install --omit=dev --ignore-scripts --no-save', NODE_HOST);
  const { rgPath } = createRequire(join(dir, 'package.json'))('@vscode/ripgrep');
  const bin = join(NODE_HOST, 'node_modules/@vscode/ripgrep/bin');
  mkdirSync(bin, { recursive: true });
  copyFileSync(rgPath, join(bin, basename(rgPath)));
}

/** Runs npm in a folder. */
export function npm(words, cwd, out = 'inherit') {
  // What an outer `npm run` hands down would make this one believe it stands in the outer package.
  const own = Object.entries(process.env).filter(
    ([key]) => !/^npm_(config_local_prefix|lifecycle|package)/i.test(key),
  );
  const env = { ...Object.fromEntries(own), PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD: '1' }; // older npm knows no allowScripts
  execSync(`npm ${words} --no-audit --no-fund --loglevel=error`, {
    cwd,
    env,
    stdio: ['ignore', out, 'inherit'],
  });
}

/** A browser of the Chromium family on this machine, or undefined. */
export function findBrowser() {
  const usual = ['/usr/bin/chromium', '/usr/bin/google-chrome', '/usr/bin/chromium-browser'];
  return process.env.CHROME_PATH ?? usual.find((path) => existsSync(path));
}

/** Debian's Chromium, in which both VS Codes are opened. */
export function ensureBrowser() {
  if (findBrowser() === undefined) debian('chromium', 'the browser that the tests open VS Code in');
}

/** GNU units, which every unit factor is compared with. */
export function ensureUnits() {
  if (spawnSync('units', ['--version']).error)
    debian('units', 'GNU units, which unit factors are compared with');
}

/** On Debian as root a missing program is installed; elsewhere the tests that need it say what is missing. */
function debian(name, what) {
  const able = process.getuid?.() === 0 && existsSync('/usr/bin/apt-get');
  if (!able) return console.log(`Missing: ${what}. Debian: apt-get install ${name}`);
  console.log(`Installing ${what}, from Debian: ${name} …`);
  const apt = (words) => {
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
    const { status, stdout, stderr } = spawnSync('apt-get', ['-qq', ...words], { env, encoding: 'utf8' });
    if (status !== 0) throw new Error(`apt-get ${words.join(' ')} failed\n${stdout}${stderr}`);
  };
  apt(['update']);
  apt(['install', '-y', '--no-install-recommends', name]);
}

if (process.argv[1] === import.meta.filename) {
  ensureBrowser();
  ensureUnits();
  ensureHost('web');
  ensureHost('node');
}
