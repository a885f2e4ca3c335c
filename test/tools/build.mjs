// npm run build: bundles the two extension entries, the command line and the tests that run inside VS Code.
//   --sizes   prints each bundle's size and what takes most room in it
//   --dev     unminified, with source maps
//
// Heavy libraries are touched on first use only. A file that needs one writes
//     declare const require: (id: string) => unknown;
//     function yaml() { return require('yaml') as typeof import('yaml'); }
// (for a default export, markdown-it's: take `.default` where there is one; bundles and Node differ in that).
// esbuild puts the library in the bundle and runs its code at that call, synchronously, in all three bundles; vitest
// gives the same call Node's own `require`. No bundle asks for anything at run time but `vscode`, `node:` modules and, on
// the command line, the file beside it.
import { build } from 'esbuild';
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { notices } from './notices.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** What esbuild says of the parts that plugins bundle by themselves; the bundles around them do not tell. */
const inner = [];

// Only markdown-it's block parser is used, and it asks nothing of these; their package.json files do not say that
// they can be left out.
const leftOut = {
  name: 'left-out',
  setup(bundle) {
    bundle.onResolve({ filter: /^(entities|mdurl|uc\.micro)$/ }, async ({ path, pluginData, ...from }) => {
      if (pluginData === leftOut) return undefined;
      // Of entities only their reading is asked for, not their writing.
      const part = path === 'entities' ? 'entities/lib/decode.js' : path;
      const found = await bundle.resolve(part, { ...from, pluginData: leftOut });
      return { ...found, sideEffects: false };
    });
  },
};

// Nothing is shaken out of what is required on first use, and mathjs is large: the file that uses a little of it is bundled
// by itself first, which leaves the rest out, and taken in as that.
const shaken = {
  name: 'shaken',
  setup({ onLoad, initialOptions: { platform, mainFields, target, minify } }) {
    onLoad({ filter: /[\\/]src[\\/]trade[\\/]linear-algebra\.ts$/ }, async ({ path }) => {
      const { outputFiles, metafile } = await build({
        entryPoints: [path],
        ...{ platform, mainFields, target, minify },
        absWorkingDir: root,
        bundle: true,
        format: 'cjs',
        write: false,
        metafile: true,
      });
      inner.push(metafile);
      return { contents: outputFiles[0].text, loader: 'js' };
    });
  },
};

// Worked checks are for tests, the reference page and the command line's list; the editor never shows them.
const withoutChecks = {
  name: 'without-checks',
  setup({ onLoad }) {
    onLoad({ filter: /[\\/]src[\\/]trade[\\/][\w-]+\.ts$/ }, async ({ path }) => {
      const text = await readFile(path, 'utf8');
      return { contents: text.replace(/^( +)checks: \[\n[^]*?\n\1\],$/gm, '$1checks: [],'), loader: 'ts' };
    });
  },
};

// The command line starts anew for every question, so what it seldom needs lies in a file of its own.
const yamlApart = {
  name: 'yaml-apart',
  setup(bundle) {
    bundle.onResolve({ filter: /^yaml$/ }, () => ({ path: './yaml.js', external: true }));
  },
};

const shared = {
  absWorkingDir: root,
  plugins: [leftOut, shaken],
  bundle: true,
  format: 'cjs',
  target: 'es2022',
  metafile: true,
  logLevel: 'warning',
};
/** @type {import('esbuild').BuildOptions & { metafile: true }} */
export const node = { ...shared, platform: 'node', target: 'node20', mainFields: ['module', 'main'] };
const browser = {
  ...shared,
  platform: 'browser',
  mainFields: ['browser', 'module', 'main'],
  define: { global: 'globalThis' },
};
// What the editor's bundles need not hold twice or at all: markdown-it's parser is in them already, finding bare addresses
// is switched off, an address in other letters may stay in them, as browsers read it, so that none need be taken apart and put
// together again, of yaml a few functions are used, and which characters are punctuation an engine knows by itself: the table says it as of one version of Unicode.
// Front matter is read by the failsafe schema and never written, so what the other schemas know of numbers, days and sets is
// not asked, nor how yaml is written.
export const readOnly = {
  name: 'read-only',
  setup({ onLoad }) {
    const others =
      /[\\/](?:schema[\\/](?:core|json|yaml-1\.1)[\\/](?:binary|bool|float|int|omap|pairs|schema|set|timestamp)|stringify[\\/]\w+|parse[\\/]cst-\w+)\.js$/;
    onLoad({ filter: others }, () => ({ contents: '' }));
  },
};
export const YAML = `export { LineCounter, isAlias, isMap, isScalar, parseDocument } from 'yaml'`;
const ADDRESSES = ['encode', 'decode']
  .map((part) => `export { default as ${part} } from './node_modules/mdurl/lib/${part}.mjs';`)
  .concat('export const parse = (address) => address.trim();', 'export const format = (address) => address;')
  .join('\n');
export const UNICODE = String.raw`export const [P, S] = [/\p{P}/u, /\p{S}/u];`;
const lean = {
  name: 'lean',
  setup({ onResolve, onLoad, initialOptions: { target, minify } }) {
    onResolve({ filter: /^markdown-it$/ }, () => ({ path: `${root}/node_modules/markdown-it/index.mjs` }));
    onResolve({ filter: /^(linkify-it|mdurl|punycode\.js|uc\.micro|yaml)$/ }, ({ path }) => ({
      path,
      namespace: 'lean',
    }));
    onLoad({ filter: /./, namespace: 'lean' }, async ({ path }) => {
      if (path === 'linkify-it') return { contents: 'export default class {}' };
      if (path === 'punycode.js')
        return { contents: 'export default { toASCII: (host) => host, toUnicode: (host) => host }' };
      if (path === 'uc.micro') return { contents: UNICODE };
      if (path === 'mdurl') return { contents: ADDRESSES, resolveDir: root };
      const { outputFiles, metafile } = await build({
        stdin: { contents: YAML, resolveDir: root },
        plugins: [readOnly],
        ...{ target, minify, bundle: true, format: 'cjs', write: false, metafile: true, absWorkingDir: root },
        platform: 'browser',
        mainFields: ['module', 'main'],
      });
      inner.push(metafile);
      return { contents: outputFiles[0].text };
    });
  },
};

// The editor reads its bundles as UTF-8: signs and tables of characters stand as they are, a third as long as escapes.
const slim = { charset: 'utf8', plugins: [lean, ...shared.plugins, withoutChecks] };
const BUNDLES = [
  {
    ...node,
    ...slim,
    entryPoints: ['src/hosts/editor/extension.ts'],
    outfile: 'dist/node/extension.js',
    external: ['vscode'],
  },
  {
    ...browser,
    ...slim,
    entryPoints: ['src/hosts/editor/extension.ts'],
    outfile: 'dist/web/extension.js',
    external: ['vscode'],
  },
  {
    ...node,
    entryPoints: ['src/hosts/cli/start.ts'],
    outfile: 'dist/cli/scribeline.js',
    banner: { js: '#!/usr/bin/env node' },
  },
  {
    ...node,
    entryPoints: ['src/hosts/cli/main.ts'],
    outfile: 'dist/cli/program.js',
    plugins: [leftOut, shaken, yamlApart],
  },
  {
    ...node,
    entryPoints: ['yaml'],
    outfile: 'dist/cli/yaml.js',
  },
  {
    ...browser,
    entryPoints: ['test/vscode/index.ts'],
    outfile: 'dist/test/in-vscode.js',
    external: ['vscode'],
  },
];

/** Builds all bundles. @param {{ dev?: boolean, sizes?: boolean }} [options] */
export async function buildAll({ dev = false, sizes = false } = {}) {
  const results = await Promise.all(BUNDLES.map((b) => build({ ...b, minify: !dev, sourcemap: dev })));
  inAscii(`${root}/dist/cli/program.js`);
  keepCode();
  const shipped = results
    .map(({ metafile }) => metafile)
    .filter(({ outputs }) => !('dist/test/in-vscode.js' in outputs));
  writeFileSync(`${root}/dist/ThirdPartyNotices.txt`, notices([...shipped, ...inner]));
  cpSync(`${root}/src/hosts/cli/schema`, `${root}/dist/cli/schema`, { recursive: true });
  const bundles = shipped.flatMap(partsOf).filter(({ file }) => !file.endsWith('.map'));
  writeFileSync(`${root}/dist/parts.json`, JSON.stringify(bundles));
  if (sizes) printSizes(bundles);
}

/** esbuild leaves signs in regular expressions as they are, and the command line is read byte by byte: see start.ts. */
function inAscii(file) {
  const escaped = (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`;
  writeFileSync(file, readFileSync(file, 'utf8').replace(/[^\0-\x7f]/g, escaped));
}

/** Compiled code of the command line, from a first run of it; see src/hosts/cli/start.ts. */
function keepCode() {
  const file = `${root}/dist/cli/program.code`;
  rmSync(file, { force: true });
  const { stderr } = spawnSync(process.execPath, ['test/tools/keep-code.mjs'], { cwd: root });
  if (!existsSync(file)) throw new Error(`no compiled code was kept: ${stderr}`);
}

/** Bytes of each bundle and of the parts in it, largest first: rooms of the source and packages of others. */
function partsOf({ outputs }) {
  return Object.entries(outputs).map(([file, { bytes, inputs }]) => {
    const parts = new Map();
    for (const [path, { bytesInOutput }] of Object.entries(inputs)) {
      const part = partOf(path);
      parts.set(part, (parts.get(part) ?? 0) + bytesInOutput);
    }
    return { file, bytes, parts: [...parts].sort((a, b) => b[1] - a[1]) };
  });
}

function partOf(path) {
  if (path.endsWith('linear-algebra.ts')) return 'mathjs'; // bundled by itself first
  const library = /(?:node_modules\/|^lean:)((?:@[^/]+\/)?[^/]+)/.exec(path)?.[1];
  const depth = path.startsWith('src/hosts') ? 3 : 2;
  return library ?? path.split('/').slice(0, depth).join('/');
}

function printSizes(bundles) {
  for (const { file, bytes, parts } of bundles) {
    console.log(`${file}: ${(bytes / 1000).toFixed(1)} kB`);
    for (const [part, size] of parts.slice(0, 10))
      console.log(`  ${(size / 1000).toFixed(1).padStart(8)} kB  ${part}`);
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const options = { dev: process.argv.includes('--dev'), sizes: process.argv.includes('--sizes') };
  await buildAll(options).catch(() => (process.exitCode = 1)); // esbuild has said what is wrong
}
