/** Limits of a result: how far its toleranced inputs can move it, and which of them matters. */
import type { Quantity, Reach } from './value';

/** All in base units. */
export interface Band {
  readonly low: number;
  readonly high: number;
  readonly rssLow: number;
  readonly rssHigh: number;
}

export interface Share {
  readonly input: number;
  /** Part of the worst-case width, 0 to 1. */
  readonly share: number;
  /** The shift it causes for certain, and the most it takes off and adds beyond that (both zero or more), base units. */
  readonly shift: number;
  readonly below: number;
  readonly above: number;
}

/**
 * One input's effect: a shift it causes for certain (only when its nominal lies outside its own limits) and how much
 * further it can take the result either way, both zero or more.
 */
function effect(value: number, { at, inside }: Reach): { shift: number; below: number; above: number } {
  let [low, high] = inside ? [value, value] : [Infinity, -Infinity];
  for (const x of at) {
    low = Math.min(low, x);
    high = Math.max(high, x);
  }
  const from = Math.min(Math.max(value, low), high);
  return { shift: from - value, below: from - low, above: high - from };
}

/** Worst case adds each input's deviation per side; the root-sum-square band likewise. Null without limits. */
export function band(q: Quantity): Band | null {
  if (q.spread === null) return null;
  let [from, below, above, below2, above2] = [q.value, 0, 0, 0, 0];
  for (const reach of q.spread) {
    const e = effect(q.value, reach);
    from += e.shift;
    below += e.below;
    above += e.above;
    below2 += e.below * e.below;
    above2 += e.above * e.above;
  }
  return {
    low: from - below,
    high: from + above,
    rssLow: from - Math.sqrt(below2),
    rssHigh: from + Math.sqrt(above2),
  };
}

/** Each input's part of the worst-case width, the biggest first; of equal ones the earlier input. */
export function shares(q: Quantity): readonly Share[] {
  const parts = (q.spread ?? []).map((reach) => ({ input: reach.input, ...effect(q.value, reach) }));
  const width = parts.reduce((total, part) => total + part.below + part.above, 0);
  return parts
    .map((part) => ({ ...part, share: width === 0 ? 0 : (part.below + part.above) / width }))
    .sort((a, b) => b.share - a.share);
}

/** The quantity as an independent input of its own, with these ends (base units). */
export function asInput(q: Quantity, input: number, low: number, high: number): Quantity {
  if (low === q.value && high === q.value) return { ...q, spread: null };
  return { ...q, spread: [{ input, at: [low, high], inside: low <= q.value && q.value <= high }] };
}
