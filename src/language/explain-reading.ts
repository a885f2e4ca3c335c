/** A line of readings or of what was used, beside its plan. */
import { type ReadingResult, type Row, type Sheet, planned } from '../engine/index';
import type { Quantity } from '../quantity/value';
import type { Explanation, Part } from './explanation';
import { hint } from './hints';
import { differenceOf, limitsOfSize, otherWays, shown } from '../engine/wording';

export function explainRecord(sheet: Sheet, row: Row): Explanation | null {
  const { statement, reading } = row;
  if (statement.kind !== 'reading' && statement.kind !== 'used') return null;
  const name = statement.path.names.join('.');
  const plan = planned(sheet, statement.path.names);
  const verdict = hint(sheet, row);
  const parts: Part[] = verdict === null ? [] : [{ kind: 'words', text: `${verdict}.` }];
  if (statement.comment) parts.push({ kind: 'words', text: statement.comment.text });
  if (plan) parts.push({ kind: 'note', title: 'Plan', text: [shown(plan), ...otherWays(plan)].join(' · ') });
  if (reading) parts.push(...readingParts(sheet, reading));
  return { name: `${name} ${statement.kind === 'used' ? 'used' : statement.how}`, shown: null, parts };
}

function readingParts(
  sheet: Sheet,
  { path, readings, positions, atReference }: ReadingResult,
): readonly Part[] {
  const parts: Part[] = [];
  const figure = sheet.figure(path);
  if (figure?.asked && figure.value?.kind === 'number') {
    const { low, high, sense } = figure.asked;
    const text = `${limitsOfSize(figure.value, low, high)}${sense === null ? '' : `, ${sense}`}`;
    parts.push({ kind: 'note', title: 'Asked', text });
  }
  if (atReference)
    parts.push({ kind: 'note', title: 'At 20 °C', text: atReference.map((q) => shown(q)).join(', ') });
  if (readings.length < 2)
    return [...parts, ...readings.map((q): Part => ({ kind: 'also', texts: [shown(q), ...otherWays(q)] }))];
  const rows = readings.map((q, i) => {
    const position = positions[i];
    return [position ? `at ${shown(position)}` : `${i + 1}`, shown(q), otherWays(q).join(' · ')] as const;
  });
  return [...parts, { kind: 'table', rows }, { kind: 'note', title: 'Apart', text: apart(readings) }];
}

/** How far the readings lie apart. */
function apart(readings: readonly Quantity[]): string {
  const first = readings[0];
  if (!first) return '';
  const values = readings.map(({ value }) => value);
  return shown(differenceOf(first, Math.max(...values) - Math.min(...values)));
}
