/** A speed or feed that the machine has, in the place of one that it has not. */
import type { Finding } from '../engine/results';
import type { Expression } from '../notation/syntax';
import type { FaultData } from '../quantity/value';
import { rangeOf } from './diagnostics';
import { type Noted, lineBelow, textIn } from './edits';
import type { FixSettings, Proposal } from './quick-fixes';
import { type Said, said } from './said';

export function machineFixes(
  { sheet, text }: Noted,
  finding: Finding,
  { speedChoice }: FixSettings,
): readonly Proposal[] {
  const row = sheet.rowAt(finding.line);
  if (!row) return [];
  const range = rangeOf(finding);
  const { data } = finding;
  const put = (title: Said, by: string): Proposal => ({ title, edits: [{ range, text: by }] });
  const stated = row.statement.kind === 'figure' && isLiteral(row.statement.expression);
  const machine = String(data['machine']);
  if (typeof data['limit'] === 'number') {
    const limit = size(data['limit'], data);
    if (stated) return [put(said('Write {0}, the limit of {1}', limit, machine), limit)];
    const bound = data['over'] === false ? 'max' : 'min';
    return [
      put(
        said('Keep it within {0}, the limit of {1}', limit, machine),
        `${bound}(${textIn(text, range)}, ${limit})`,
      ),
    ];
  }
  const steps = ordered(data, speedChoice);
  if (stated) return steps.map((step) => put(said('Write {0}, a step of {1}', step, machine), step));
  // Of a feed it would not do, so it is not offered.
  const wrapped = put(
    said('Take the step of {0} below', machine),
    `speed_step(${textIn(text, range)}, ${machine})`,
  );
  // A result with parts has its speed in one of them; which, the finding does not say.
  if (row.statement.kind !== 'figure' || row.value?.kind !== 'number') return [wrapped];
  const name = row.statement.name.text;
  const used = steps.map((step) => ({
    title: said('Note that {0} is run', step),
    edits: [lineBelow(text, row, `${name} used ${step}`)],
  }));
  return [wrapped, ...used];
}

/** The steps around a value: the one below first, or the nearer one first. */
function ordered(data: FaultData, choice: FixSettings['speedChoice']): readonly string[] {
  const [value, below, above] = [Number(data['value']), Number(data['below']), Number(data['above'])];
  const nearerAbove = choice === 'nearest' && above - value < value - below;
  return (nearerAbove ? [above, below] : [below, above]).map((step) => size(step, data));
}

/** Digits that survive the way to base units and back. */
const DIGITS = 12;

function size(value: number, { unit }: FaultData): string {
  return `${Number(value.toPrecision(DIGITS))} ${String(unit)}`;
}

function isLiteral(e: Expression): boolean {
  return e.kind === 'group' ? isLiteral(e.of) : e.kind === 'quantity';
}
