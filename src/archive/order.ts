/** The order of texts by UTF-16 units: the same on every machine, whatever its language. */
export function byUnits(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** The first `most` in this order, without putting the others in order: a heap of so many, its last at the top. */
export function firstOf<T>(items: Iterable<T>, most: number, order: (a: T, b: T) => number): readonly T[] {
  if (most === Infinity) return [...items].sort(order);
  const heap: T[] = [];
  if (most <= 0) return heap;
  for (const item of items) {
    if (heap.length < most) rise(heap, item, order);
    else if (order(item, heap[0] as T) < 0) sink(heap, item, order);
  }
  return heap.sort(order);
}

function rise<T>(heap: T[], item: T, order: (a: T, b: T) => number): void {
  let at = heap.push(item) - 1;
  while (at > 0) {
    const above = (at - 1) >> 1;
    if (order(heap[above] as T, item) >= 0) break;
    heap[at] = heap[above] as T;
    at = above;
  }
  heap[at] = item;
}

/** Puts it in the place of the last. */
function sink<T>(heap: T[], item: T, order: (a: T, b: T) => number): void {
  let at = 0;
  for (let below = 1; below < heap.length; below = 2 * at + 1) {
    if (below + 1 < heap.length && order(heap[below + 1] as T, heap[below] as T) > 0) below++;
    if (order(heap[below] as T, item) <= 0) break;
    heap[at] = heap[below] as T;
    at = below;
  }
  heap[at] = item;
}
