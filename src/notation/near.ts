/** What was likely meant by a word that is none of ours. */
import { isReserved, nearestUnitNames } from '../quantity/units';
import { nameEnd } from './characters';

/** The nearest text that may be a figure's name: `ring dia` becomes `ring_dia`; null when nothing of it is left. */
export function parseableName(text: string): string | null {
  const joined = text
    .replace(/[µμ]/g, 'mu')
    .replace(/[Øø]/g, '')
    .replace(/[^\p{L}\p{N}]+/gu, '_')
    .replace(/^_+|_+$/g, '');
  const made = /^\d/.test(joined) ? `n${joined}` : joined;
  if (made === '' || nameEnd(made, 0) !== made.length) return null;
  return isReserved(made) ? `${made}_1` : made;
}

/** Looking through all units takes its time, and a note full of one mistake asks for the same word again and again. */
const units = new Map<string, readonly string[]>();
const MAX_UNITS = 500;

/** Units that a word which is none could have meant. */
export function nearUnits(word: string): readonly string[] {
  const known = units.get(word);
  if (known !== undefined) return known;
  if (units.size >= MAX_UNITS) units.clear();
  const near = nearestUnitNames(word);
  units.set(word, near);
  return near;
}

/** Words of the notation within two slips of `word`. */
export function nearWords(word: string, words: readonly string[]): readonly string[] {
  if (word.length > 16) return [];
  const most = word.length <= 4 ? 1 : 2;
  return words.filter((known) => slips(word.toLowerCase(), known) <= most);
}

/** Letters to change, add or leave out. */
function slips(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(change, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row.at(-1) ?? 0;
}
