/** Results that come item by item (moves, raises, holes) as a table of their own, to be ticked off at the machine. */
import type { RecordValue, Value } from '../quantity/value';
import type { Field } from '../trade/formula';
import { formulaNamed } from '../trade/index';
import { element, escape } from './html';
import { type How, inUnits } from './how';
import { shown } from './words';

/** A longer list is folded away in the preview. */
const LONG = 12;

interface Column {
  readonly name: string;
  readonly meaning: string;
  readonly cells: readonly string[];
}

/** The fields that make the table; the others are shown one under the other as ever. */
export function listedFields(value: Value | null): ReadonlySet<string> {
  if (value?.kind !== 'record') return new Set();
  const length = longest(value);
  if (length < 2) return new Set();
  return new Set(
    [...value.fields].flatMap(([name, part]) => (itemsOf(value, name, part, length) ? [name] : [])),
  );
}

function longest({ fields }: RecordValue): number {
  return Math.max(
    ...[...fields.values()].flatMap((part) => (part.kind === 'list' ? [part.items.length] : [])),
  );
}

/** One text for each item: of a list, and of words that the formula gives item by item. */
function itemsOf(value: RecordValue, name: string, part: Value, length: number): readonly string[] | null {
  if (part.kind === 'list') return part.items.length === length ? part.items.map(shown) : null;
  if (part.kind !== 'text' || fieldOf(value, name)?.perItem !== true) return null;
  return part.text.split(', ');
}

function fieldOf({ of }: RecordValue, name: string): Field | undefined {
  return formulaNamed(of)?.result.find((field) => field.name === name);
}

/** Empty where the value has no lists. */
export function listHtml(value: Value | null, how: How): string {
  if (value?.kind !== 'record') return '';
  if (listedFields(value).size === 0) return '';
  const length = longest(value);
  const columns = [...value.fields].flatMap(([name, part]): readonly Column[] => {
    const cells = itemsOf(value, name, inUnits(part, how), length);
    return cells ? [{ name, meaning: fieldOf(value, name)?.meaning ?? '', cells }] : [];
  });
  const table = listTable(value, columns, length, how);
  if (how.paper || length <= LONG) return table;
  return element(
    'details',
    { class: 'scribeline-fold' },
    element('summary', {}, `${escape(formulaNamed(value.of)?.title ?? value.of)}: ${length} lines`),
    table,
  );
}

function listTable(value: RecordValue, columns: readonly Column[], length: number, how: How): string {
  const counted = columns.find(({ name }) => fieldOf(value, name)?.counts === true);
  const rest = columns.filter((column) => column !== counted);
  // Lines with prices are read, not worked down.
  const ticked = how.paper && !rest.some(({ name }) => fieldOf(value, name)?.unit === '¤');
  const head = [
    element('th', { scope: 'col' }, escape(counted?.name.replace(/s$/, '') ?? 'no.')),
    ...rest.map(({ name, meaning }) =>
      element('th', { scope: 'col', title: meaning }, escape(name.replaceAll('_', ' '))),
    ),
    ticked ? element('th', { scope: 'col' }, 'done') : '',
  ];
  const rows = Array.from({ length }, (_, i) =>
    element(
      'tr',
      {},
      element('th', { scope: 'row' }, String(i + 1)),
      ...rest.map(({ cells }) => element('td', {}, escape(together(cells[i] ?? '')))),
      ticked ? element('td', {}, tickBox(false)) : '',
    ),
  );
  const end = value.fields.get('end_check');
  const last =
    end?.kind === 'text'
      ? element(
          'p',
          { class: 'scribeline-end' },
          how.paper ? `${tickBox(false)} ` : '',
          escape(`End check: ${end.text}.`),
        )
      : '';
  const legend = rest.map(({ name, meaning }) => `${name.replaceAll('_', ' ')}: ${meaning}`).join('; ');
  const parts = inParts(rows, how);
  return element(
    'div',
    { class: `scribeline-list${parts.length > 1 ? ' scribeline-long' : ''}` },
    element('p', {}, escape(legend)),
    element('div', { class: 'scribeline-parts' }, ...parts.map((part) => table(head, part))),
    last,
  );
}

/** A figure and its unit stay on one line. */
function together(words: string): string {
  return words.length < 16 ? words.replaceAll(' ', '\u00a0') : words;
}

function table(head: readonly string[], rows: readonly string[]): string {
  return element(
    'table',
    {},
    element('thead', {}, element('tr', {}, ...head)),
    element('tbody', {}, ...rows),
  );
}

/** Rows of a list that stay together; a ruled line stands under every fifth. */
const SHORT = 20;
const MOST = 30;

/** On paper a long list stands in parts side by side, three where they fit, so that it stays on one page. */
function inParts(rows: readonly string[], { paper }: How): readonly (readonly string[])[] {
  if (!paper || rows.length <= SHORT) return [rows];
  const size = Math.min(MOST, Math.ceil(rows.length / 15) * 5);
  return Array.from({ length: Math.ceil(rows.length / size) }, (_, i) =>
    rows.slice(i * size, (i + 1) * size),
  );
}

export function tickBox(ticked: boolean): string {
  return element(
    'span',
    { class: 'scribeline-box', role: 'img', 'aria-label': ticked ? 'done' : 'to do' },
    ticked ? '✓' : '',
  );
}
