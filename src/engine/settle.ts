/**
 * Evaluates lines in an order in which each comes after what it needs.
 *
 * Works on the lines that might change (the seeds and everything that depends on them) and touches nothing else. Groups of
 * lines that need each other are found on the way (Tarjan's method, written with a stack of its own because a chain of ten
 * thousand lines would overflow the call stack): they are cycles and get no value.
 */
import { type Entry, type Lookup, freshMark } from './graph';
import type { Node } from './node';

/** Values of `Node.order`; a line on the way to what it needs has its number in the order of visiting, from 1. */
const UNSEEN = 0;
const DONE = -1;

/** Seeds and all that depends on them. A line that went meanwhile is no seed any more. */
function affected(seeds: Iterable<Node>, stamp: number): Node[] {
  const found: Node[] = [];
  const take = (node: Node, dirty: boolean): void => {
    node.stamp = stamp;
    // A line that stood in a cycle carries a finding which only a fresh look can take away.
    node.dirty = dirty || node.outcome.cycle !== null;
    node.order = UNSEEN;
    found.push(node);
  };
  for (const node of seeds) if (node.stamp !== stamp && node.block) take(node, true);
  // Many lines may give one name something (readings, doubled figures): its lookers are gone through once.
  const seen = new Set<Entry>();
  for (let i = 0; i < found.length; i++) {
    const provides = found[i]?.provides;
    if (!provides?.lookers) continue;
    if (hasSeveralGivers(provides)) {
      if (seen.has(provides)) continue;
      seen.add(provides);
    }
    for (let looker: Lookup | null = provides.lookers; looker; looker = looker.next)
      if (looker.node.stamp !== stamp) take(looker.node, false);
  }
  return found;
}

/** Of any other name the one line comes by once, and need not be remembered. */
function hasSeveralGivers({ definers, records }: Entry): boolean {
  return definers instanceof Set || records !== null;
}

/**
 * The line a lookup waits for: the one figure of that name. A doubled name has no value, and readings look nothing up,
 * so they are evaluated beforehand.
 */
function provider({ entry, want }: Lookup): Node | null {
  return want === 'value' ? entry.figure : null;
}

function needsItself(node: Node): boolean {
  for (let lookup = node.lookups; lookup; lookup = lookup.nextOfNode)
    if (provider(lookup) === node) return true;
  return false;
}

export interface Settling {
  /** Gives the node its value; answers the fields that changed, `true` for the whole value, `false` for no change. */
  evaluate(node: Node): boolean | ReadonlySet<string>;
  /** Takes the value away from the members of a cycle; answers whether it was there before. */
  refuse(node: Node, cycle: readonly Node[]): boolean;
}

/** Evaluates the seeds and whatever their changes reach. Answers every node that was evaluated, each once. */
export function settle(seeds: Iterable<Node>, settling: Settling): readonly Node[] {
  const stamp = freshMark();
  const nodes = affected(seeds, stamp);
  const done: Node[] = [];
  const told = new Set<Entry>();
  const evaluate = (node: Node): void => {
    done.push(node);
    const changed = settling.evaluate(node);
    if (changed !== false) spread(node.provides, changed, told);
  };
  const refuse = (group: readonly Node[]): void => {
    for (const node of group) {
      done.push(node);
      if (settling.refuse(node, group)) spread(node.provides, true, told);
    }
  };
  for (const node of nodes) {
    // What looks nothing up depends on nothing, so that it is a seed.
    if (node.lookups) continue;
    node.order = DONE;
    evaluate(node);
  }
  const settled = (group: readonly Node[]): void => {
    for (const node of group) node.order = DONE;
    const [first] = group;
    if (group.length > 1 || (first && needsItself(first))) refuse(group);
    else if (first?.dirty) evaluate(first);
  };
  for (const node of nodes) {
    if (node.order !== UNSEEN) continue;
    if (isReady(node, stamp)) {
      node.order = DONE;
      if (node.dirty) evaluate(node);
    } else visit(node, stamp, settled);
  }
  return done;
}

/** Whether everything a line needs is there, as in a note that is written from top to bottom. */
function isReady({ lookups }: Node, stamp: number): boolean {
  for (let lookup = lookups; lookup; lookup = lookup.nextOfNode) {
    const needed = provider(lookup);
    if (needed?.stamp === stamp && needed.order !== DONE) return false;
  }
  return true;
}

/** A line on the way of a visit: the earliest open line that it reaches, and the lookup to follow next. */
interface Step {
  readonly node: Node;
  low: number;
  at: Lookup | null;
}

/** Goes from a line to all that it needs, and hands out each group of lines once what it needs has been handed out. */
function visit(start: Node, stamp: number, settled: (group: readonly Node[]) => void): void {
  /** Lines whose group is not complete, and the way from the start to where the visit has got to. */
  const open: Node[] = [];
  const path: Step[] = [];
  let visited = 0;
  const enter = (node: Node): void => {
    node.order = ++visited;
    open.push(node);
    path.push({ node, low: visited, at: node.lookups ?? null });
  };
  enter(start);
  for (let step = path.at(-1); step; step = path.at(-1)) {
    const lookup = step.at;
    if (lookup) {
      step.at = lookup.nextOfNode;
      const needed = provider(lookup);
      if (needed?.stamp !== stamp || needed.order === DONE) continue;
      if (needed.order === UNSEEN) enter(needed);
      else if (needed.order < step.low) step.low = needed.order;
      continue;
    }
    path.pop();
    const { node, low } = step;
    const parent = path.at(-1);
    if (parent && low < parent.low) parent.low = low;
    if (low === node.order) settled(open.splice(open.lastIndexOf(node)));
  }
}

/** Tells the lines that look a name up that it has changed, or some of its fields. */
function spread(entry: Entry | null, changed: true | ReadonlySet<string>, told: Set<Entry>): void {
  if (!entry?.lookers || told.has(entry)) return;
  // Readings come first and change the whole; of several figures of one name none counts.
  if (hasSeveralGivers(entry)) told.add(entry);
  for (let looker: Lookup | null = entry.lookers; looker; looker = looker.next)
    if (looker.concerns(changed)) looker.node.dirty = true;
}
