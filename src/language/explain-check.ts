/** A check: whether it holds, and both its sides. */
import type { Row, Sheet } from '../engine/index';
import type { Explanation, Part } from './explanation';
import { withLimits } from './limits';
import { limitParts, words } from './parts';
import { otherWays, pair } from '../engine/wording';

export function explainCheck(sheet: Sheet, row: Row): Explanation | null {
  const { check, statement } = row;
  if (!check || statement.kind !== 'check') return null;
  const [left, right] = pair(check.left, check.right);
  const verdict = !check.holds
    ? `✗ Does not hold: ${left} against ${right}.`
    : check.overBand
      ? `✓ Holds: ${left} against ${right}.`
      : `△ Holds at nominal, ${left} against ${right}, but not over all limits.`;
  // Where it fails, the comment is the finding's message already.
  const comment = check.holds && statement.comment ? [words(statement.comment.text)] : [];
  const sides = statement.terms.flatMap((term): readonly Part[] => {
    if (term.kind === 'quantity') return [];
    const name = row.text.slice(term.start, term.end);
    const value = sheet.evaluateExpression(term, row.text);
    if (value?.kind !== 'number') return [];
    return [
      { kind: 'note', title: name, text: [withLimits(value), ...otherWays(value)].join(' · ') },
      ...limitParts(sheet, value),
    ];
  });
  return { name: '', shown: null, parts: [words(verdict), ...comment, ...sides] };
}
