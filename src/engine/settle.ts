/**
 * Puts lines in the order in which they can be evaluated and evaluates those that need it.
 *
 * Works on the lines that might change (the seeds and everything that depends on them) and touches nothing else. Strongly
 * connected lines are found on the way (Tarjan's method, written with a stack of its own because a chain of ten thousand
 * lines would overflow the call stack): they are cycles and get no value.
 */
import type { Entry, Lookup, Node } from './graph';

let stamps = 0;

/** Seeds and all that depends on them. */
function affected(seeds: Iterable<Node>, stamp: number): Node[] {
  const found: Node[] = [];
  for (const node of seeds) {
    if (node.stamp === stamp) continue;
    node.stamp = stamp;
    node.dirty = true;
    found.push(node);
  }
  for (let i = 0; i < found.length; i++) {
    const provides = found[i]?.provides;
    // Many lines may give one name something (readings, doubled figures): its lookers are gone through once.
    if (!provides || provides.seen === stamp) continue;
    provides.seen = stamp;
    for (const looker of provides.lookers) {
      if (looker.stamp === stamp) continue;
      looker.stamp = stamp;
      looker.dirty = false;
      found.push(looker);
    }
  }
  for (const node of found) {
    node.order = -1;
    node.open = false;
    // A line that stood in a cycle carries a finding which only a fresh look can take away.
    if (node.cycle) node.dirty = true;
  }
  return found;
}

/**
 * The line a lookup waits for: the one figure of that name. A doubled name has no value, and readings look nothing up,
 * so they are evaluated beforehand.
 */
function provider({ entry, want }: Lookup): Node | undefined {
  return want === 'value' && entry.definers.length === 1 ? entry.definers[0] : undefined;
}

interface Frame {
  readonly node: Node;
  lookup: number;
}

/** Groups in an order where each comes after what it needs; a group of more than one is a cycle. */
function ordered(nodes: readonly Node[], stamp: number): Node[][] {
  const groups: Node[][] = [];
  const open: Node[] = [];
  let next = 0;
  const enter = (node: Node): Frame => {
    node.order = node.low = next++;
    node.open = true;
    open.push(node);
    return { node, lookup: 0 };
  };
  for (const start of nodes) {
    if (start.order >= 0) continue;
    const frames: Frame[] = [enter(start)];
    for (let frame = frames.at(-1); frame; frame = frames.at(-1)) {
      const { node } = frame;
      const lookup = node.lookups[frame.lookup++];
      if (lookup) {
        const needed = provider(lookup);
        if (needed?.stamp !== stamp) continue;
        if (needed.order < 0) frames.push(enter(needed));
        else if (needed.open && needed.order < node.low) node.low = needed.order;
        continue;
      }
      frames.pop();
      const parent = frames.at(-1)?.node;
      if (parent && node.low < parent.low) parent.low = node.low;
      if (node.low !== node.order) continue;
      const group: Node[] = [];
      for (let member = open.pop(); member; member = open.pop()) {
        member.open = false;
        group.push(member);
        if (member === node) break;
      }
      groups.push(group);
    }
  }
  return groups;
}

function needsItself(node: Node): boolean {
  return node.lookups.some((lookup) => provider(lookup) === node);
}

export interface Settling {
  /** Gives the node its value; answers the fields that changed, `true` for the whole value, `false` for no change. */
  evaluate(node: Node): boolean | ReadonlySet<string>;
  /** Takes the value away from the members of a cycle; answers whether it was there before. */
  refuse(node: Node, cycle: readonly Node[]): boolean;
}

/** Evaluates the seeds and whatever their changes reach. Answers every node that was evaluated. */
export function settle(seeds: Iterable<Node>, settling: Settling): readonly Node[] {
  const stamp = ++stamps;
  const nodes = affected(seeds, stamp);
  const done: Node[] = [];
  const evaluate = (node: Node): void => {
    done.push(node);
    const changed = settling.evaluate(node);
    if (changed !== false) spread(node.provides, changed, stamp);
  };
  for (const node of nodes) if (node.dirty && node.lookups.length === 0) evaluate(node);
  for (const group of ordered(nodes, stamp)) {
    const first = group[0];
    if (!first) continue;
    if (group.length > 1 || needsItself(first)) {
      for (const node of group) {
        done.push(node);
        if (settling.refuse(node, group)) spread(node.provides, true, stamp);
      }
    } else if (first.dirty && first.lookups.length > 0) evaluate(first);
  }
  return done;
}

function spread(entry: Entry | null, changed: true | ReadonlySet<string>, stamp: number): void {
  if (!entry || entry.told === stamp) return;
  if (changed === true) entry.told = stamp;
  for (const looker of entry.lookers) {
    if (looker.stamp !== stamp || looker.dirty) continue;
    looker.dirty = changed === true || looker.lookups.some((l) => l.entry === entry && concerns(l, changed));
  }
}

function concerns(lookup: Lookup, changed: ReadonlySet<string>): boolean {
  return lookup.field === null || lookup.want !== 'value' || changed.has(lookup.field);
}
