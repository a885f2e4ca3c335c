// node test/tools/l10n.mjs: gathers the texts of the editor host that can be translated into l10n/bundle.l10n.json.
// A translation is a copy of it, bundle.l10n.de.json say, and of package.nls.json, package.nls.de.json.
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import process from 'node:process';

const root = resolve(import.meta.dirname, '../..');
const CALL = /l10n\.t\(\s*'((?:[^'\\]|\\.)*)'/g;

/** Every text in the order of the files. @returns {Record<string, string>} */
export function texts() {
  const folder = join(root, 'src/hosts/editor');
  const files = readdirSync(folder, { recursive: true }).filter((name) => String(name).endsWith('.ts'));
  const found = files
    .map(String)
    .sort()
    .flatMap((name) => [...readFileSync(join(folder, name), 'utf8').matchAll(CALL)].map(([, text]) => text));
  return Object.fromEntries(found.map((text) => [text.replace(/\\'/g, "'"), text.replace(/\\'/g, "'")]));
}

if (process.argv[1] === import.meta.filename)
  writeFileSync(join(root, 'l10n/bundle.l10n.json'), `${JSON.stringify(texts(), null, 2)}\n`);
