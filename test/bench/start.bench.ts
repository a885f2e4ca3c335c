/** Starting the command line, and how much code that takes. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import process from 'node:process';
import { note } from './notes';
import { comparePair } from './pairs';

const root = resolve(import.meta.dirname, '../..');
const folder = mkdtempSync(join(tmpdir(), 'scribeline-bench-'));
writeFileSync(join(folder, 'one.md'), note(['30 mm * 2']));

function node(...words: string[]): void {
  const { status, stderr } = spawnSync(process.execPath, words, { cwd: folder, encoding: 'utf8', env: {} });
  if (status !== 0) throw new Error(stderr);
}

comparePair({
  row: 'e1',
  measured: 'scribeline check one.md, a note of one line',
  against: 'node -e 0',
  wanted: ['at most', 2],
  pairs: 30,
  first: { run: () => node(join(root, 'dist/cli/scribeline.js'), 'check', 'one.md') },
  second: { run: () => node('-e', '0') },
});
