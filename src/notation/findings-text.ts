/** How the sentences of this room are put together. */
import { word } from '../quantity/finding';
import type { FindingKind } from '../quantity/finding';
import type { FaultData } from '../quantity/value';

/** «Write `a` or `b`.», «Leave it out.», or `otherwise` when there is nothing to offer. */
export function instead(data: FaultData, otherwise = ''): string {
  const offers = data['offers'];
  const list = Array.isArray(offers) ? (offers as readonly string[]) : [];
  const texts = list.filter((text) => text.trim() !== '').map((text) => `\`${text.trim()}\``);
  if (texts.length > 0) return ` Write ${texts.join(' or ')}.`;
  if (list.length > 0) return ' Leave it out.';
  return otherwise === '' ? '' : ` ${otherwise}`;
}

/** A field of the data as code. */
export function code(data: FaultData, key: string): string {
  return `\`${word(data, key).trim()}\``;
}

/** An error whose sentence begins with `says` and ends with what to write. */
export function error(says: (data: FaultData) => string, why: string, otherwise = ''): FindingKind {
  return { severity: 'error', say: (data) => says(data) + instead(data, otherwise), why };
}

/** The same for what the note can live with. */
export function warning(says: (data: FaultData) => string, why: string, otherwise = ''): FindingKind {
  return { severity: 'warning', say: (data) => says(data) + instead(data, otherwise), why };
}
