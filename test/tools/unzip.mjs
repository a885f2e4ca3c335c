// What lies in a zip file, read by the format's own list at its end (PKWARE's APPNOTE 4.3.12 and 4.3.16) and by nothing of what
// made it. Enough for a VSIX: no encryption, no ZIP64.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { inflateRawSync } from 'node:zlib';

/** @param {string} file @returns {Map<string, { packed: number, bytes: Buffer }>} by path */
export function unzip(file) {
  const zip = readFileSync(file);
  const end = zip.lastIndexOf('PK\x05\x06', undefined, 'latin1');
  if (end < 0) throw new Error(`${file} is no zip file`);
  const entries = new Map();
  let at = zip.readUInt32LE(end + 16);
  for (let left = zip.readUInt16LE(end + 10); left > 0; left--) {
    const [name, extra, comment] = [28, 30, 32].map((field) => zip.readUInt16LE(at + field));
    const packed = zip.readUInt32LE(at + 20);
    const local = zip.readUInt32LE(at + 42);
    const data = local + 30 + zip.readUInt16LE(local + 26) + zip.readUInt16LE(local + 28);
    const bytes = zip.subarray(data, data + packed);
    const path = zip.toString('utf8', at + 46, at + 46 + name);
    entries.set(path, { packed, bytes: zip.readUInt16LE(at + 10) === 0 ? bytes : inflateRawSync(bytes) });
    at += 46 + name + extra + comment;
  }
  return entries;
}

/** Unpacks the `extension` folder of a VSIX, which is what VS Code keeps of it. @returns {string} where it lies */
export function unpackExtension(file, folder) {
  for (const [path, { bytes }] of unzip(file)) {
    if (!path.startsWith('extension/') || path.endsWith('/')) continue;
    if (path.split('/').includes('..')) throw new Error(`${path} leads out of the folder`);
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), bytes);
  }
  return join(folder, 'extension');
}
