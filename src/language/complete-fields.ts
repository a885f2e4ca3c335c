/** What may follow a point: the parts of a result, a card or the job, and what was measured or used. */
import type { Sheet } from '../engine/index';
import { KNOWN_FIELDS } from '../engine/index';
import { formulaNamed } from '../trade/index';
import type { Answer } from './completion';
import { NAME, valueOfText } from './cursor';
import { valueText } from '../engine/wording';

/** `before` ends just before the point. */
export function fieldsAfter(sheet: Sheet, before: string): readonly Answer[] {
  const text = baseOf(before);
  if (text === null) return [];
  const card = sheet.figure(text) ? undefined : sheet.card(text);
  const value = valueOfText(sheet, text);
  const fields = card?.fields ?? (value?.kind === 'record' ? value.fields : new Map<string, never>());
  const formula = value?.kind === 'record' ? formulaNamed(value.of) : undefined;
  const meaning = (name: string): string =>
    formula?.result.find((field) => field.name === name)?.meaning ??
    (card && KNOWN_FIELDS.find((field) => field.name === name)?.meaning) ??
    '';
  const own = [...fields].map(([label, part]): Answer => {
    const said = meaning(label);
    return { label, kind: 'field', detail: `${valueText(part)}${said === '' ? '' : `  ${said}`}` };
  });
  return [...own, ...records(sheet, text)];
}

/** What was read or run of this name. */
function records(sheet: Sheet, path: string): readonly Answer[] {
  const found: Answer[] = [];
  const add = (label: string, words: string): void => {
    const value = valueOfText(sheet, `${path}.${label}`);
    if (value) found.push({ label, kind: 'field', detail: `${valueText(value)}  ${words}` });
  };
  add('reading', 'the last reading');
  add('mean', 'mean of the last readings');
  add('readings', 'the last readings');
  add('positions', 'where the last readings were taken');
  add('used', 'what was really run');
  return found;
}

const PATH = new RegExp(String.raw`${NAME}(?:\.${NAME})*$`, 'u');
const LAST_NAME = new RegExp(`${NAME}$`, 'u');

/** The name, or the call or brackets, that the text ends with. */
function baseOf(before: string): string | null {
  if (!before.endsWith(')')) return PATH.exec(before)?.[0] ?? null;
  let depth = 0;
  for (let at = before.length - 1; at >= 0; at--) {
    if (before[at] === ')') depth++;
    if (before[at] === '(' && --depth === 0) {
      const name = LAST_NAME.exec(before.slice(0, at))?.[0] ?? '';
      return before.slice(at - name.length);
    }
  }
  return null;
}
