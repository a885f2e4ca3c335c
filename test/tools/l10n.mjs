// node test/tools/l10n.mjs: gathers the texts of the editor host, and those it is handed to say, that can be translated into l10n/bundle.l10n.json.
// A translation is a copy of it, bundle.l10n.de.json say, and of package.nls.json, package.nls.de.json.
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import process from 'node:process';

const root = resolve(import.meta.dirname, '../..');
const CALL = /\b(?:l10n\.t|said)\(\s*'((?:[^'\\]|\\.)*)'/g;

/** Every text in the order of the files. @returns {Record<string, string>} */
export function texts() {
  const files = ['src/hosts/editor', 'src/language'].flatMap((folder) =>
    readdirSync(join(root, folder), { recursive: true }).map((name) => join(folder, String(name))),
  );
  const found = files
    .filter((name) => name.endsWith('.ts'))
    .sort()
    .flatMap((name) => [...readFileSync(join(root, name), 'utf8').matchAll(CALL)].map(([, text]) => text));
  return Object.fromEntries(found.map((text) => [text.replace(/\\'/g, "'"), text.replace(/\\'/g, "'")]));
}

if (process.argv[1] === import.meta.filename)
  writeFileSync(join(root, 'l10n/bundle.l10n.json'), `${JSON.stringify(texts(), null, 2)}\n`);
