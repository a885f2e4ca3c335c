/** How far a value can be off and which input matters, in words. */
import type { Asked, Sheet } from '../engine/index';
import { band, shares } from '../quantity/limits';
import type { Quantity } from '../quantity/value';
import type { Part } from './explanation';
import { deviations, limitsOfSize, shown } from '../engine/wording';

/** Shares below this are told together. */
const TELLING = 0.005;
const MOST_SHARES = 6;

/** The limits that a value's inputs give it; null when none has any. */
export function resultingLimits(sheet: Sheet, q: Quantity): Part | null {
  const limits = band(q);
  if (!limits) return null;
  const { low, high, rssLow, rssHigh } = limits;
  const parts = shares(q);
  const worst = `${deviations(q, low, high)} at worst: ${limitsOfSize(q, low, high)}`;
  const text = parts.length > 1 ? `${worst}; root-sum-square ${deviations(q, rssLow, rssHigh)}` : worst;
  const telling = parts.filter(({ share }, i) => share >= TELLING && i < MOST_SHARES);
  const texts = telling.map(({ input, share }) => `${inputText(sheet, input)}: ${Math.round(share * 100)} %`);
  const rest = parts.length - telling.length;
  return { kind: 'limits', text, shares: rest > 0 ? [...texts, `${rest} more: little`] : texts };
}

/** An input with the limits its own line asks for: `ring ±0.05`. */
function inputText(sheet: Sheet, input: number): string {
  const name = sheet.inputName(input);
  const row = sheet.figure(name);
  if (row?.value?.kind !== 'number' || !row.asked) return name;
  return `${name} ${deviations(row.value, row.asked.low, row.asked.high)}`;
}

/** The limits a line asks for. */
export function askedLimits(q: Quantity, { low, high, sense, code, codeFor }: Asked): Part {
  const texts = [`${deviations(q, low, high)}: ${limitsOfSize(q, low, high)}`];
  if (code !== null) {
    const millimetres =
      q.unit.symbol !== 'mm' && codeFor !== null ? `, looked up for ${round(codeFor)} mm` : '';
    texts.push(`ISO 286 ${code}${millimetres}`);
  }
  if (sense !== null) texts.push(sense);
  return { kind: 'note', title: 'Asked', text: texts.join(', ') };
}

function round(mm: number): number {
  return Number(mm.toFixed(4));
}

/** A value with the limits its inputs give it: `29.367 mm ±0.049`. */
export function withLimits(q: Quantity): string {
  const limits = band(q);
  return limits ? `${shown(q)} ${deviations(q, limits.low, limits.high)}` : shown(q);
}
