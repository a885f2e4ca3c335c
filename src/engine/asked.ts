/** Limits as a line asks for them. Those of a figure that was given its value at once are not kept, and filled anew. */
import type { Sense } from '../notation/syntax';
import type { Filled } from '../notation/used-nodes';
import type { Asked } from './results';

let spare: Filled<Asked> | null = null;

/** In base units, and not asked for by a code. */
export function askedOf(low: number, high: number, sense: Sense | null): Asked {
  const asked = spare;
  if (!asked) return { low, high, sense, code: null, codeFor: null };
  spare = null;
  asked.low = low;
  asked.high = high;
  asked.sense = sense;
  asked.code = asked.codeFor = null;
  return asked;
}

/** Whoever calls it is the last that holds them. */
export function letGoAsked(asked: Asked): void {
  spare = asked;
}
