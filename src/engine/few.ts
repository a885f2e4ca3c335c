/** Small collections: nearly all of a sheet's hold nothing or one thing, and there is one for every line. */

/** A set that takes no memory of its own while it holds nothing or one thing. */
export type Few<T extends object> = T | Set<T> | null;

export function withOne<T extends object>(few: Few<T>, item: T): Few<T> {
  if (few === null || few === item) return item;
  return few instanceof Set ? few.add(item) : new Set([few, item]);
}

export function withoutOne<T extends object>(few: Few<T>, item: T): Few<T> {
  if (!(few instanceof Set)) return few === item ? null : few;
  few.delete(item);
  if (few.size > 1) return few;
  const [last = null] = few;
  return last;
}

export function forEachOf<T extends object>(few: Few<T>, visit: (item: T) => void): void {
  if (few instanceof Set) few.forEach(visit);
  else if (few !== null) visit(few);
}

/** A list with one item more. The first makes a list of just that length, since most stay at one. */
export function appended<T>(list: T[], item: T): T[] {
  if (list.length === 0) return [item];
  list.push(item);
  return list;
}
