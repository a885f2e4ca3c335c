/** Cards, and the head of the note: what they hold. */
import type { CardInForce, Sheet } from '../engine/index';
import type { Explanation, Part } from './explanation';
import { words } from './parts';
import { valueText } from '../engine/wording';

/** Said wherever cutting data is told. */
export const STARTING_POINT =
  'Speeds are starting points: check them against the tool, the machine and the cut.';

export function explainCard(card: CardInForce): Explanation {
  const rows = [...card.fields].map(([name, value]) => [name, valueText(value), ''] as const);
  const whence = card.builtIn ? 'built in' : card.place.file === null ? 'in this note' : 'from a shop file';
  const parts: Part[] = [words(`Card of a ${card.word}, ${whence}.`)];
  if (rows.length > 0) parts.push({ kind: 'table', rows });
  if (card.word === 'material') parts.push(words(STARTING_POINT));
  return { name: card.name, shown: null, parts };
}

export function explainJob(sheet: Sheet): Explanation {
  const rows = [...sheet.job()].map(([name, text]) => [name, text, ''] as const);
  return {
    name: 'job',
    shown: null,
    parts: [
      words('What the head of the note says.'),
      ...(rows.length > 0 ? [{ kind: 'table', rows } as const] : []),
    ],
  };
}
