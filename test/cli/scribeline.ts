/** The command line as it ships: the file that package.json's `bin` names, as `npm run build` left it. */
import { execFile } from 'node:child_process';
import { join } from 'node:path';
import manifest from '../../package.json';

export const ROOT = join(import.meta.dirname, '../..');
export const BIN = join(ROOT, manifest.bin.scribeline);

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

export interface Around {
  readonly env?: NodeJS.ProcessEnv;
  /** Another user, for whom permissions count where the tests run as root. */
  readonly uid?: number;
}

export function scribeline(words: readonly string[], cwd: string, { env, uid }: Around = {}): Promise<Ran> {
  return new Promise((done) => {
    const options = {
      cwd,
      env: { ...process.env, ...env },
      maxBuffer: 1e8,
      ...(uid === undefined ? {} : { uid }),
    };
    execFile(process.execPath, [BIN, ...words], options, (error, out, err) => {
      done({ code: typeof error?.code === 'number' ? error.code : 0, out, err });
    });
  });
}

/** The user's cache folder, wherever the tests run. */
export const cacheIn = (cache: string): NodeJS.ProcessEnv => ({ XDG_CACHE_HOME: cache, LOCALAPPDATA: cache });
