import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { Io } from '../../src/hosts/cli/io';

/** A folder with these files, removed when the test is over. */
export function folder(files: Readonly<Record<string, string>>): string {
  const root = realpathSync(mkdtempSync(join(tmpdir(), 'scribeline-')));
  onTestFinished(() => rmSync(root, { recursive: true, force: true }));
  for (const [name, text] of Object.entries(files)) {
    const path = join(root, name);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
  }
  return root;
}

/** A world that remembers what was printed. */
export function world(current: string): Io & { readonly printed: { out: string; err: string } } {
  const printed = { out: '', err: '' };
  return {
    current,
    colour: false,
    version: () => '1.2.3',
    out: (text) => void (printed.out += text),
    err: (text) => void (printed.err += text),
    taken: null,
    printed,
  };
}
