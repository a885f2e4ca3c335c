/** The made-up workshop's notes in memory, with a count of what was read. */
import { createHash } from 'node:crypto';
import type { Notes, Stamp } from '../../src/archive/notes';
import { jobNote } from './job-note';

export { chances, jobNote } from './job-note';

export class MemoryNotes implements Notes {
  readonly texts = new Map<string, string>();
  reads = 0;

  constructor(count = 0, seed = 1) {
    for (let i = 1; i <= count; i++)
      this.texts.set(`jobs/${String(i).padStart(5, '0')}.md`, jobNote(i, seed));
  }

  list(): Promise<readonly Stamp[]> {
    const mark = (text: string): string => createHash('sha1').update(text).digest('hex');
    return Promise.resolve([...this.texts].map(([path, text]) => ({ path, mark: mark(text) })));
  }

  read(path: string): Promise<{ readonly text: string; readonly shops: readonly never[] }> {
    this.reads++;
    const text = this.texts.get(path);
    if (text === undefined) return Promise.reject(new Error('there is no such note'));
    return Promise.resolve({ text, shops: [] });
  }
}
