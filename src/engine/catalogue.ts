/** Every finding of every room by its code. */
import { notationFindings } from '../notation/findings';
import type { FindingKind } from '../quantity/finding';
import { quantityFindings } from '../quantity/findings';
import { tradeFindings } from '../trade/findings';
import { engineFindings } from './findings';

export const CATALOGUE: ReadonlyMap<string, FindingKind> = new Map(
  [quantityFindings, notationFindings, tradeFindings, engineFindings].flatMap((room) => Object.entries(room)),
);
