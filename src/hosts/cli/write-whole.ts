/** Writing files so that each is as it was or as it was asked to be, whatever happens in between. */
import { randomBytes } from 'node:crypto';
import {
  accessSync,
  closeSync,
  constants,
  fchmodSync,
  fsyncSync,
  openSync,
  readdirSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';

const BESIDE = /^\.scribeline-[0-9a-f]+\.tmp$/;
/** What a run that was killed left behind is swept away after this, in ms: a younger one may still be written. */
const LEFT = 3_600_000;

export interface Writing {
  /** Permissions of a new file; one that is there keeps its own. */
  readonly mode?: number;
  /** Whether the text is on the disk when this returns, so that no loss of power leaves half of it. */
  readonly sure: boolean;
}

/**
 * Written beside and renamed, so that a file is whole or not there, whoever else writes it. A link stays a link to what is
 * written; a file that may not be written is not replaced either; what is no file, such as a pipe, is written into.
 */
export function writeWhole(path: string, text: string, { mode = 0o666, sure }: Writing): void {
  const target = realPath(path);
  const is = statSync(target, { throwIfNoEntry: false });
  if (is && !is.isFile()) return writeFileSync(target, text);
  if (is) accessSync(target, constants.W_OK);
  const folder = dirname(target);
  sweep(folder);
  const beside = join(folder, `.scribeline-${randomBytes(8).toString('hex')}.tmp`);
  try {
    const file = openSync(beside, 'wx', mode);
    try {
      writeFileSync(file, text);
      if (is) fchmodSync(file, is.mode & 0o777);
      if (sure) fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(beside, target);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
}

function realPath(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return path; // not there yet
  }
}

function sweep(folder: string): void {
  try {
    for (const name of readdirSync(folder)) {
      if (!BESIDE.test(name)) continue;
      const path = join(folder, name);
      if (Date.now() - statSync(path).mtimeMs > LEFT) rmSync(path, { force: true });
    }
  } catch {
    // swept another time
  }
}
