/**
 * One block of a note as an HTML table: figure, what it comes from, result, how it stands; findings under the line they
 * concern. Everything from the note is escaped; there is no style and no script in it. Looks are in media/preview.css.
 */
import type { Row } from '../engine/index';
import type { Block } from '../notation/syntax';
import type { Value } from '../quantity/value';
import { formulaNamed } from '../trade/index';
import { findingRow } from './finding-row';
import { type Attributes, element, escape } from './html';
import { type View, findingsAbove } from './view';
import {
  type LimitWords,
  type Outcome,
  SIGNS,
  code,
  limits,
  measured,
  otherwise,
  outcome,
  pair,
  shown,
  written,
} from './words';

export interface TableOptions {
  /** Of the outermost element; `class` is added to our own. */
  readonly attributes?: Attributes;
  /** Class of an element that carries its line in `data-line`, for a preview that scrolls with the text; null for none. */
  readonly lineClass?: string | null;
}

const COLUMNS = 4;

export function blockTable(block: Block, view: View, options: TableOptions = {}): string {
  const rows = view.rows.get(block.fenceLine) ?? [];
  const card = block.word !== 'figures';
  const mark: Mark = (row, kind) => lineAttributes(row, kind, options.lineClass ?? null);
  const cells = (row: Row): string => (card ? cardRow(row, mark) : figureRow(row, view, mark));
  let gap = false;
  const body = rows.map((row) => {
    const comment = row.statement.comment?.text ?? '';
    const blank = row.statement.kind === 'empty' && comment === '';
    const html = blank ? '' : (gap ? GAP : '') + cells(row) + below(row, view);
    gap = blank;
    return html;
  });
  const above = findingsAbove(view, block).map((finding) => findingRow(finding, COLUMNS, block.fenceLine));
  const { class: more, ...rest } = options.attributes ?? {};
  return `${element(
    'section',
    { class: `scribeline-block scribeline-${block.word}${more ? ` ${more}` : ''}`, ...rest },
    element(
      'table',
      { class: 'scribeline-table', role: 'table' },
      caption(block),
      card ? '' : HEAD,
      element('tbody', { role: 'rowgroup' }, ...above, ...body),
    ),
  )}\n`;
}

/** A block whose machines and materials are still being read: its lines, and nothing worked out from half of the cards. */
export function blockWaiting(block: Block, attributes: Attributes = {}): string {
  const { class: more, ...rest } = attributes;
  return `${element(
    'section',
    { class: `scribeline-block scribeline-waiting${more ? ` ${more}` : ''}`, ...rest, 'aria-busy': 'true' },
    element('p', { class: 'scribeline-remark' }, 'Reading the cards of the shop …'),
    element('pre', {}, element('code', {}, escape(block.content))),
  )}\n`;
}

type Mark = (row: Row, kind: string) => Attributes;

function lineAttributes(row: Row, kind: string, lineClass: string | null): Attributes {
  return {
    role: 'row',
    class: `scribeline-${kind}${lineClass === null ? '' : ` ${lineClass}`}`,
    'data-line': lineClass === null ? null : row.line,
  };
}

const GAP = element(
  'tr',
  { class: 'scribeline-gap', 'aria-hidden': 'true' },
  element('td', { colspan: COLUMNS }),
);

const HEAD = element(
  'thead',
  { role: 'rowgroup', class: 'scribeline-head' },
  element(
    'tr',
    { role: 'row' },
    ...['Figure', 'From', 'Result', 'Stands'].map((word) =>
      element('th', { scope: 'col', role: 'columnheader' }, word),
    ),
  ),
);

function caption({ word, name, on }: Block): string {
  if (word === 'figures') {
    if (on.length === 0) return element('caption', { class: 'scribeline-hidden' }, 'Figures');
    const machines = on.map((machine) => element('b', {}, escape(machine.text))).join(', ');
    const cards = on.length === 1 ? 'its card' : 'their cards';
    return element('caption', {}, `On ${machines}, held to ${cards}`);
  }
  const kind = word === 'machine' ? 'Machine' : word === 'material' ? 'Material' : 'Signed';
  return element('caption', {}, `${kind} ${element('b', {}, escape(name?.text ?? ''))}`);
}

function below(row: Row, view: View): string {
  return (view.findings.get(row.line) ?? [])
    .map((finding) => findingRow(finding, COLUMNS, row.line))
    .join('');
}

function figureRow(row: Row, view: View, mark: Mark): string {
  const { statement } = row;
  const typed = code(row.text);
  const stands = outcome(row);
  switch (statement.kind) {
    case 'empty':
      return remarkRow(row, mark);
    case 'figure': {
      const from = typed.slice(typed.indexOf('=') + 1).trim();
      const cells = [
        header(escape(statement.name.text)),
        cell('from', expression(from), remark(row) || title(row.value)),
        cell('result', result(row.value, limits(row.value, row.asked, view.sheet))),
        cell('stands', stamp(stands)),
      ];
      return line(mark(row, 'line'), cells) + fieldRows(row.value, view);
    }
    case 'show':
    case 'check':
    case 'broken': {
      const cells = [
        header(expression(typed) + remark(row), 2),
        cell(
          'result',
          row.check ? escape(pair(row.check)) : result(row.value, limits(row.value, null, view.sheet)),
        ),
        cell('stands', stamp(stands)),
      ];
      const kind = statement.kind === 'show' ? 'line' : statement.kind;
      return line(mark(row, kind), cells) + fieldRows(row.value, view);
    }
    case 'reading': {
      const mean = row.reading && measured(row.reading);
      const several = statement.readings.length > 1 ? 'mean ' : '';
      return recordLine(
        row,
        mark,
        statement.how,
        mean ? several + result(mean, null) : result(null, null),
        stands,
      );
    }
    case 'used':
      return recordLine(row, mark, 'used', result(written(statement.value), null), stands);
    case 'words':
      return line(mark(row, 'line'), [header(escape(typed), COLUMNS)]);
  }
}

/** What was measured or really run: the name, what is said of it, the figure, how it stands. */
function recordLine(row: Row, mark: Mark, kind: string, value: string, stands: Outcome | null): string {
  const typed = code(row.text);
  const name = 'path' in row.statement ? row.statement.path.names.join('.') : '';
  const said = typed.startsWith(name) ? typed.slice(name.length).trim() : typed;
  return line(mark(row, kind), [
    header(escape(name)),
    cell('from', expression(said), remark(row)),
    cell('result', value),
    cell('stands', stamp(stands)),
  ]);
}

function cardRow(row: Row, mark: Mark): string {
  const { statement } = row;
  if (statement.kind === 'empty') return remarkRow(row, mark);
  const typed = code(row.text);
  if (statement.kind === 'words') {
    return line(mark(row, 'line'), [
      header(escape(statement.key.text)),
      wide('words', escape(statement.words.text)),
    ]);
  }
  if (statement.kind !== 'figure') return line(mark(row, 'broken'), [header(expression(typed), COLUMNS)]);
  const value =
    row.value === null ? expression(typed.slice(typed.indexOf('=') + 1).trim()) : result(row.value, null);
  return line(mark(row, 'line'), [header(escape(statement.name.text)), wide('result', value, remark(row))]);
}

/** The fields of a record, one under the other, each with what it means. */
function fieldRows(value: Value | null, view: View): string {
  if (value?.kind !== 'record') return '';
  const meanings = new Map(formulaNamed(value.of)?.result.map((field) => [field.name, field.meaning]) ?? []);
  return [...value.fields]
    .map(([name, part]) =>
      line({ role: 'row', class: 'scribeline-field' }, [
        header(`.${escape(name)}`),
        cell('from', element('span', { class: 'scribeline-remark' }, escape(meanings.get(name) ?? ''))),
        cell('result', result(part, limits(part, null, view.sheet))),
        cell('stands', ''),
      ]),
    )
    .join('');
}

/** What a formula with several results works out, where the line has no remark of its own. */
function title(value: Value | null): string {
  const words = value?.kind === 'record' ? formulaNamed(value.of)?.title : undefined;
  return words === undefined ? '' : ` ${element('span', { class: 'scribeline-remark' }, escape(words))}`;
}

function remarkRow(row: Row, mark: Mark): string {
  const words = escape(row.statement.comment?.text ?? '');
  return line(mark(row, 'remark'), [element('td', { role: 'cell', colspan: COLUMNS }, words)]);
}

function remark({ statement }: Row): string {
  const words = statement.comment?.text ?? '';
  return words === '' ? '' : ` ${element('span', { class: 'scribeline-remark' }, escape(words))}`;
}

function result(value: Value | null, limit: LimitWords | null): string {
  if (value === null) return element('span', { class: 'scribeline-none' }, '—');
  if (value.kind === 'record') return '';
  if (value.kind === 'text') return escape(value.text);
  const other = value.kind === 'number' ? otherwise(value) : null;
  return (
    element('span', { class: 'scribeline-value', title: other }, escape(shown(value))) +
    (limit ? limitsHtml(limit) : '')
  );
}

function limitsHtml(limit: LimitWords): string {
  if (limit.kind === 'resulting') {
    const ends = limit.mostly === null ? limit.ends : `${limit.ends}, ${limit.mostly}`;
    return ` ${element('span', { class: 'scribeline-band' }, escape(ends))}`;
  }
  const asked =
    limit.code === null ? '' : `${element('span', { class: 'scribeline-code' }, escape(limit.code))} `;
  if (limit.upper.replace('+', '−') === limit.lower)
    return ` ${asked}${element('span', { class: 'scribeline-even', title: limit.ends }, escape(limit.upper.replace('+', '±')))}`;
  return ` ${asked}${element(
    'span',
    { class: 'scribeline-deviations', title: limit.ends },
    element('span', {}, escape(limit.upper)),
    element('span', { class: 'scribeline-hidden' }, ' / '),
    element('span', {}, escape(limit.lower)),
  )}`;
}

function stamp(stands: Outcome | null): string {
  if (stands === null || (stands.word === '' && stands.more === null)) return '';
  const sign = SIGNS[stands.kind];
  return element(
    'span',
    { class: `scribeline-stamp scribeline-${stands.kind}` },
    sign === '' ? '' : element('span', { class: 'scribeline-sign', 'aria-hidden': 'true' }, sign),
    stands.word === '' ? '' : element('b', {}, escape(stands.word)),
    stands.more === null ? '' : ` ${escape(stands.more)}`,
  );
}

function expression(text: string): string {
  return element('code', { class: 'scribeline-expression', dir: 'ltr' }, escape(text));
}

function header(inner: string, span = 1): string {
  return element('th', { scope: 'row', role: 'rowheader', colspan: span === 1 ? null : span }, inner);
}

function cell(kind: string, ...inner: readonly string[]): string {
  return element('td', { role: 'cell', class: `scribeline-${kind}` }, ...inner);
}

/** A cell over all columns but the first. */
function wide(kind: string, ...inner: readonly string[]): string {
  return element('td', { role: 'cell', colspan: COLUMNS - 1, class: `scribeline-${kind}` }, ...inner);
}

function line(attributes: Attributes, cells: readonly string[]): string {
  return element('tr', attributes, ...cells);
}
