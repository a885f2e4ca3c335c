/** Findings a formula raises. The sentence is the formula's own, since only it knows what to change and to what. */
import { type FindingKind, word } from '../quantity/finding';
import type { FaultData } from '../quantity/value';

/**
 * Data of all of these: `says` the formula's sentence, `formula` its name, `parameter` the argument to change (null
 * for the whole call), `range` the condition in words where one was broken, `offers` texts for the argument.
 */
const own = (data: FaultData): string => word(data, 'says');

export const tradeFindings: Record<string, FindingKind> = {
  'formula-refused': {
    severity: 'error',
    say: own,
    why: 'The formula has no answer for these arguments, or the card lacks what it needs; the sentence says what to change.',
  },
  'out-of-range': {
    severity: 'error',
    say: own,
    why: 'Outside this range the formula does not hold, and a figure from it would be wrong rather than rough.',
  },
  'doubtful-range': {
    severity: 'warning',
    say: own,
    why: 'The figure is right as calculated, but the work will not come out as it says unless something is changed.',
  },
  'no-plain-indexing': {
    severity: 'error',
    say: own,
    why: 'Plain indexing needs a circle on which the part turn of the crank comes to whole holes, and this head has none.',
  },
};
