/** What the notation refuses: one entry per code. The fixtures hold a line for each, and a near miss. */
import type { FindingKind } from '../quantity/finding';
import { lineFindings } from './findings-lines';
import { noteFindings } from './findings-note';
import { numberFindings } from './findings-numbers';

export const notationFindings: Record<string, FindingKind> = {
  ...numberFindings,
  ...lineFindings,
  ...noteFindings,
};
