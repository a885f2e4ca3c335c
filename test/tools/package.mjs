// npm run package: makes scribeline-VERSION.vsix and scribeline-VERSION.tgz from the built bundles, without network, and says
// how large they are and what fills them.
//   --readme    writes those sizes into the README too
// The VSIX holds what is listed here and nothing else, the npm package what `files` in package.json lists; each gets of
// package.json only what it has use for.
import { createVSIX } from '@vscode/vsce';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import process from 'node:process';
import { npm } from './install.mjs';
import { packageSizes, sizesTable } from './package-sizes.mjs';

const root = resolve(import.meta.dirname, '../..');
const SHIPPED = [
  'dist/node/extension.js',
  'dist/web/extension.js',
  'dist/ThirdPartyNotices.txt',
  'examples',
  'l10n',
  'media/formulas.md',
  'media/job-sheet.md',
  'media/notation.md',
  'media/wrong-number.md',
  'media/icon.png',
  'media/jobs.svg',
  'media/note.png',
  'media/past-jobs.md',
  'media/preview.css',
  'media/preview.js',
  'media/sheet.css',
  'media/sheet.png',
  'media/walkthrough',
  'syntaxes',
  'package.nls.json',
  'CHANGELOG.md',
  'LICENSE',
  'README.md',
];
/** What of package.json is not for VS Code, and not for npm. */
const NOT_FOR = {
  vscode: ['allowScripts', 'bin', 'devDependencies', 'files', 'scripts', 'sideEffects'],
  npm: [
    ...[
      'activationEvents',
      'allowScripts',
      'browser',
      'capabilities',
      'categories',
      'contributes',
      'devDependencies',
    ],
    ...['displayName', 'icon', 'l10n', 'main', 'publisher', 'qna', 'scripts'],
  ],
};

const whole = () => JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));

/** package.json as it ships. @param {'vscode' | 'npm'} to */
export function manifest(to) {
  const { engines, ...rest } = whole();
  const kept = Object.entries(rest).filter(([key]) => !NOT_FOR[to].includes(key));
  const engine = to === 'npm' ? 'node' : 'vscode';
  return { ...Object.fromEntries(kept), engines: { [engine]: engines[engine] } };
}

/** A folder that holds what ships and nothing else, for as long as the work takes. */
async function staged(paths, described, work) {
  const folder = mkdtempSync(join(tmpdir(), 'scribeline-package-'));
  try {
    for (const path of paths) cpSync(join(root, path), join(folder, path), { recursive: true });
    writeFileSync(join(folder, 'package.json'), `${JSON.stringify(described, undefined, 2)}\n`);
    return await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Makes the VSIX of what `npm run build` left. @param {string} folder where @returns {Promise<string>} the file */
export function packExtension(folder) {
  const described = manifest('vscode');
  const packagePath = join(folder, `${described.name}-${described.version}.vsix`);
  return staged(SHIPPED, described, async (cwd) => {
    writeFileSync(join(cwd, '.vscodeignore'), ''); // all that is here is meant to be
    // Links of the README lead into the repository once package.json names one; until then they stay as they are.
    const links = { allowMissingRepository: true, rewriteRelativeLinks: 'repository' in described };
    await quietly(() => createVSIX({ cwd, packagePath, dependencies: false, ...links }));
    return packagePath;
  });
}

/** Makes the npm package of what `npm run build` left. @param {string} folder where @returns {Promise<string>} the file */
export function packCommandLine(folder) {
  const described = manifest('npm');
  return staged(whole().files, described, (cwd) => {
    npm(`pack --offline --silent --pack-destination "${folder}"`, cwd, 'ignore');
    return join(folder, `${described.name}-${described.version}.tgz`);
  });
}

/** vsce reports on standard output; its warnings are ours to hear, its list of files is not. */
async function quietly(work) {
  const { log, info } = console;
  console.log = console.info = () => {};
  try {
    return await work();
  } finally {
    Object.assign(console, { log, info });
  }
}

if (process.argv[1] === import.meta.filename) {
  const made = [await packExtension(root), await packCommandLine(root)];
  const table = sizesTable(packageSizes(...made));
  console.log([...made, '', table].join('\n'));
  if (process.argv.includes('--readme')) {
    const readme = join(root, 'README.md');
    const place = /(<!-- sizes -->\n)[^]*(\n<!-- end -->)/;
    writeFileSync(readme, readFileSync(readme, 'utf8').replace(place, `$1\n${table}\n$2`));
  }
}
