// How large the VSIX, the npm package and the bundles are, and what fills them, as a table for the README.
import { readFileSync, statSync, readdirSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { unzip } from './unzip.mjs';

const root = resolve(import.meta.dirname, '../..');
const SHOWN = 5;
const kB = (bytes) => `${Math.round(bytes / 1000)} kB`;

/** The largest parts with their share of the whole. @param {(readonly [string, number])[]} parts */
function filledBy(parts) {
  const whole = parts.reduce((sum, [, bytes]) => sum + bytes, 0);
  const largest = parts
    .filter(([, bytes]) => bytes >= whole / 200)
    .sort((a, b) => b[1] - a[1])
    .slice(0, SHOWN);
  return largest.map(([name, bytes]) => `${name} ${Math.round((bytes / whole) * 100)} %`).join(', ');
}

/** Files by their folder where they are many. */
function grouped(files) {
  const sums = new Map();
  for (const [path, bytes] of files) {
    const name = /^(media|examples|syntaxes|l10n)\//.exec(path)?.[1] ?? path;
    sums.set(name, (sums.get(name) ?? 0) + bytes);
  }
  return [...sums];
}

function filesUnder(path) {
  const whole = join(root, path);
  if (!statSync(whole).isDirectory()) return [path];
  return readdirSync(whole, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(root, join(entry.parentPath, entry.name)));
}

/**
 * @param {string} vsix @param {string} tarball the files as made
 * @returns {{ name: string, bytes: number, unpacked: number | null, filled: string }[]}
 */
export function packageSizes(vsix, tarball) {
  const entries = [...unzip(vsix)].map(([path, { packed, bytes }]) => [
    path.replace('extension/', ''),
    packed,
    bytes.length,
  ]);
  const { files } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  const inTarball = files.flatMap(filesUnder).map((path) => [path, statSync(join(root, path)).size]);
  const sum = (numbers) => numbers.reduce((total, each) => total + each, 0);
  return [
    {
      name: 'the VSIX',
      bytes: statSync(vsix).size,
      unpacked: sum(entries.map(([, , bytes]) => bytes)),
      filled: filledBy(grouped(entries.map(([path, packed]) => [path, packed]))),
    },
    {
      name: 'the npm package',
      bytes: statSync(tarball).size,
      unpacked: sum(inTarball.map(([, bytes]) => bytes)),
      filled: filledBy(grouped(inTarball)),
    },
    ...JSON.parse(readFileSync(join(root, 'dist/parts.json'), 'utf8')).map(({ file, bytes, parts }) => ({
      name: `\`${file}\``,
      bytes,
      unpacked: null,
      filled: filledBy(parts),
    })),
  ];
}

/** @param {ReturnType<typeof packageSizes>} rows */
export function sizesTable(rows) {
  const lines = rows.map(
    ({ name, bytes, unpacked, filled }) =>
      `| ${name} | ${kB(bytes)}${unpacked === null ? '' : `, unpacked ${kB(unpacked)}`} | ${filled} |`,
  );
  return ['| file | size | filled by |', '| --- | --- | --- |', ...lines].join('\n');
}
