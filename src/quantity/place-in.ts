/** The one search in what is in order: lines by where they begin, inputs by number, amounts by value, notes by date. */

/** Where in a list that is in order the first item stands that is not before what is looked for. */
export function placeIn(length: number, isBefore: (at: number) => boolean): number {
  let [low, high] = [0, length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (isBefore(middle)) low = middle + 1;
    else high = middle;
  }
  return low;
}
