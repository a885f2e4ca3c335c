/** A speed or feed that the machine has, in the place of one that it has not. */
import type { Finding } from '../engine/results';
import type { Expression } from '../notation/syntax';
import type { FaultData } from '../quantity/value';
import { rangeOf } from './diagnostics';
import { type Noted, lineBelow } from './edits';
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
  const written = row.text.slice(range.column - row.column, range.endColumn - row.column);
  const put = (title: Said, by: string): Proposal => ({ title, edits: [{ range, text: by }] });
  const stated = row.statement.kind === 'figure' && isLiteral(row.statement.expression);
  const machine = String(data['machine']);
  const limit = size(data, 'limit');
  if (limit !== null) {
    if (stated) return [put(said('Write {0}, the limit of {1}', limit, machine), limit)];
    const bound = data['over'] === false ? 'max' : 'min';
    return [
      put(said('Keep it within {0}, the limit of {1}', limit, machine), `${bound}(${written}, ${limit})`),
    ];
  }
  const steps = ordered(data, speedChoice);
  if (stated) return steps.map((step) => put(said('Write {0}, a step of {1}', step, machine), step));
  const wrapped =
    finding.code === 'speed-between-steps'
      ? [put(said('Take the step of {0} below', machine), `speed_step(${written}, ${machine})`)]
      : [];
  const name = row.statement.kind === 'figure' ? row.statement.name.text : null;
  // A result with parts has its speed in one of them; which, the finding does not say.
  const used = row.value?.kind === 'number' && name !== null ? steps : [];
  return [
    ...wrapped,
    ...used.map((step) => ({
      title: said('Note that {0} is run', step),
      edits: [lineBelow(text, row, `${name ?? ''} used ${step}`)],
    })),
  ];
}

/** The steps around a value: the one below first, or the nearer one first. */
function ordered(data: FaultData, choice: FixSettings['speedChoice']): readonly string[] {
  const [below, above] = [size(data, 'below'), size(data, 'above')];
  if (below === null || above === null) return [];
  const [value, low, high] = [Number(data['value']), Number(data['below']), Number(data['above'])];
  return choice === 'nearest' && high - value < value - low ? [above, below] : [below, above];
}

/** Digits that survive the way to base units and back. */
const DIGITS = 12;

function size(data: FaultData, key: string): string | null {
  const value = data[key];
  const unit = String(data['unit'] ?? '');
  return typeof value === 'number' ? `${Number(value.toPrecision(DIGITS))} ${unit}` : null;
}

function isLiteral(e: Expression): boolean {
  return e.kind === 'group' ? isLiteral(e.of) : e.kind === 'quantity';
}
