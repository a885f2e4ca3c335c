/** What a name that nobody knows was likely meant to be. */

/** Letters of a word that may have two slips; a shorter one may have one. */
const LONG_WORD = 6;
/** Among so many that are near the nearest are found; a note may have thousands. */
const MOST_NEAR = 50;

/** Known words that `word` may be a slip for, nearest first; case counts little. */
export function alike(word: string, known: Iterable<string>): string[] {
  const most = word.length < LONG_WORD ? 1 : 2;
  const near: [string, number][] = [];
  for (const candidate of known) {
    const far = distance(word.toLowerCase(), candidate.toLowerCase(), most);
    if (far <= most) near.push([candidate, far]);
    if (near.length >= MOST_NEAR) break;
  }
  return nearest(near);
}

/** Three of them, those that are least far away. */
function nearest(near: readonly (readonly [name: string, far: number])[]): string[] {
  return [...near]
    .sort((a, b) => a[1] - b[1] || (a[0] < b[0] ? -1 : 1))
    .slice(0, 3)
    .map(([name]) => name);
}

/** Less than a third in common is chance. */
const LEAST_SHARED = 1 / 3;
const LAST_WORD = 0.01;

/**
 * Names that have most of their words in common with `name`, such as `thread_gears` for `change_gears`; best first. The last
 * word says what is wanted, so of equals one that shares it comes first.
 */
export function sharingWords(name: string, known: readonly string[]): string[] {
  const wanted = wordsOf(name);
  const shared = (candidate: string): number => {
    const words = wordsOf(candidate);
    const both = words.filter((word) => wanted.includes(word)).length;
    const part = both / Math.max(words.length, wanted.length);
    return words.at(-1) === wanted.at(-1) ? part + LAST_WORD : part;
  };
  const near = known.map((candidate) => [candidate, -shared(candidate)] as const);
  return nearest(near.filter(([, far]) => -far >= LEAST_SHARED));
}

/** Words of a name that mean something, in the singular. */
function wordsOf(name: string): string[] {
  return name
    .toLowerCase()
    .split('_')
    .filter((word) => word.length > 2)
    .map((word) => word.replace(/s$/, ''));
}

/** Letters to change to make one word of the other, given up past `most`. */
function distance(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most || a.length > 64 || b.length > 64) return most + 1;
  let slips = 0;
  while (slips <= most && !areWithin(slips, a, 0, b, 0)) slips++;
  return slips;
}

/** Whether `a` from `i` on becomes `b` from `j` on by changing, leaving out or putting in that many letters at most. */
function areWithin(slips: number, a: string, i: number, b: string, j: number): boolean {
  while (i < a.length && a[i] === b[j]) {
    i++;
    j++;
  }
  const [m, n] = [a.length - i, b.length - j];
  if (m === 0 || n === 0 || slips === 0) return Math.max(m, n) <= slips;
  const left = slips - 1;
  return (
    areWithin(left, a, i + 1, b, j + 1) || areWithin(left, a, i + 1, b, j) || areWithin(left, a, i, b, j + 1)
  );
}
