/** What the notation refuses: one entry per code. */
import type { FindingKind } from '../quantity/finding';

export const notationFindings: Record<string, FindingKind> = {
  'not-understood': {
    severity: 'error',
    say: () => 'This is not understood.',
    why: 'A line that is not understood has no value.',
  },
};
