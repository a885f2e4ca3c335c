/** Text that runs from right to left within sentences of ours, which run from left to right. */

/** Letters of scripts from right to left, with their marks and digits: Hebrew to Arabic Extended-A, and their presentation forms. */
const RIGHT = '\\u0590-\\u08ff\\ufb1d-\\ufdff\\ufe70-\\ufefc';
/** From the first such letter to the last before a letter of another script, and brackets that belong to it. */
const RUN = new RegExp(`[([{«"]*[${RIGHT}](?:[^\\p{L}]*[${RIGHT}])*[)\\]}»"!?…]*`, 'gu');

const CLOSING = new Map([
  [')', '('],
  [']', '['],
  ['}', '{'],
  ['»', '«'],
]);

/**
 * The text with each run from right to left set apart, so that figures and signs beside it stay where they were written:
 * without that, `כדור = 3 mm` is drawn as if 3 were set equal to the word. By invisible marks where no other are named.
 */
export function isolated(text: string, open = '\u2067', close = '\u2069'): string {
  return text.replace(RUN, (run) => {
    const [before, inner, after] = whole(run);
    return `${before}${open}${inner}${close}${after}`;
  });
}

/** A run without the brackets at its ends that have no other half in it. */
function whole(run: string): readonly [before: string, inner: string, after: string] {
  let [start, end] = [0, run.length];
  const pieces = (mark: string): number => run.slice(start, end).split(mark).length;
  for (const [closing, opening] of CLOSING) {
    while (run[start] === opening && pieces(opening) > pieces(closing)) start++;
    while (run[end - 1] === closing && pieces(closing) > pieces(opening)) end--;
  }
  return [run.slice(0, start), run.slice(start, end), run.slice(end)];
}
