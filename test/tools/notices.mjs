// The licences of what the bundles hold of others: dist/ThirdPartyNotices.txt, written by each build from esbuild's own account
// of what it put in. It ships in the VSIX and in the npm package, as these licences ask.
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';

const root = resolve(import.meta.dirname, '../..');

/** Folders of the packages of which these builds took in code, such as `node_modules/yaml`. @param {import('esbuild').Metafile[]} metafiles */
export function bundled(metafiles) {
  const folders = new Set();
  for (const { outputs } of metafiles) {
    for (const { inputs } of Object.values(outputs)) {
      for (const [path, { bytesInOutput }] of Object.entries(inputs)) {
        const found = /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path);
        if (found && bytesInOutput > 0) folders.add(found[0]);
      }
    }
  }
  return [...folders].sort();
}

/** Name, version and licence of a package, and the texts it wants handed on. */
export function packageAt(folder) {
  const at = join(root, folder);
  const { name, version, license, homepage } = JSON.parse(readFileSync(join(at, 'package.json'), 'utf8'));
  const handedOn = readdirSync(at).filter((file) => /^(licen[cs]e|notice|copying)\b/i.test(file));
  const texts = handedOn.sort().map((file) => readFileSync(join(at, file), 'utf8').trim());
  if (texts.length === 0 || !license) throw new Error(`${folder} says no licence that could be handed on`);
  return { name, version, license, homepage, texts };
}

/** @param {import('esbuild').Metafile[]} metafiles */
export function notices(metafiles) {
  const parts = bundled(metafiles).map((folder) => {
    const { name, version, license, homepage, texts } = packageAt(folder);
    const head = [`${name} ${version}`, `Licence: ${license}`, ...(homepage ? [homepage] : [])];
    return [...head, '', texts.join('\n\n')].join('\n');
  });
  const rule = `\n\n${'-'.repeat(80)}\n\n`;
  const head =
    'Scribeline is under the licence in LICENSE. Its bundles hold code of the packages below, each under its own licence.';
  return `${[head, ...parts].join(rule)}\n`;
}

/** The notices as the last build left them. */
export function writtenNotices() {
  const file = join(root, 'dist/ThirdPartyNotices.txt');
  return existsSync(file) ? readFileSync(file, 'utf8') : '';
}
