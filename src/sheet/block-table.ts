/**
 * One block of a note as an HTML table: figure, what it comes from, result, how it stands; findings under the line they
 * concern. Everything from the note is escaped; there is no style and no script in it. Looks are in media/preview.css.
 */
import type { Row } from '../engine/index';
import type { Block } from '../notation/syntax';
import { cautionsHtml } from './cautions';
import { findingRow } from './finding-row';
import { type Attributes, element, escape } from './html';
import { CARD_COLUMNS, COLUMNS, type Mark, cardRow, figureRow } from './rows';
import { type View, findingsAbove } from './view';

export interface TableOptions {
  /** Of the outermost element; `class` is added to our own. */
  readonly attributes?: Attributes;
  /** Class of an element that carries its line in `data-line`, for a preview that scrolls with the text; null for none. */
  readonly lineClass?: string | null;
}

export function blockTable(block: Block, view: View, options: TableOptions = {}): string {
  const card = block.word !== 'figures';
  const columns = card ? CARD_COLUMNS : COLUMNS;
  const mark: Mark = (row, kind) => lineAttributes(row, kind, options.lineClass ?? null, view.how.paper);
  const cells = (row: Row): string => (card ? cardRow(row, mark) : figureRow(row, view, mark));
  const below = (row: Row): readonly string[] =>
    (view.findings.get(row.line) ?? []).map((finding) => findingRow(finding, columns, row.line));
  const body: string[] = findingsAbove(view, block).map((finding) =>
    findingRow(finding, columns, block.fenceLine),
  );
  let gap = false;
  for (const row of view.rows.get(block.fenceLine) ?? []) {
    const blank = row.statement.kind === 'empty' && row.statement.comment === null;
    if (!blank) body.push(gap ? gapRow(columns) : '', cells(row));
    body.push(...below(row));
    gap = blank;
  }
  const left = view.left.get(block.fenceLine) ?? 0;
  if (left > 0) body.push(leftRow(left, columns));
  return section(
    block.word,
    options.attributes,
    element(
      'table',
      { class: 'scribeline-table', role: 'table' },
      caption(block),
      columnGroup(columns),
      card ? '' : HEAD,
      element('tbody', { role: 'rowgroup' }, body.join('')),
    ),
    cautionsHtml(view.cautions.get(block.fenceLine), view.how.paper),
  );
}

/** What a line is called within a sheet. */
export function lineId(line: number): string {
  return `line-${line + 1}`;
}

function leftRow(count: number, columns: number): string {
  const words = `${count} more ${count === 1 ? 'line is' : 'lines are'} not drawn here; the editor marks them all.`;
  const attributes = { role: 'row', class: 'scribeline-remark' };
  return element('tr', attributes, element('td', { role: 'cell', colspan: columns }, words));
}

/** A block whose machines and materials are still being read: its lines, and nothing worked out from half of the cards. */
export function blockWaiting(block: Block, attributes: Attributes = {}): string {
  return section(
    'waiting',
    { ...attributes, 'aria-busy': 'true' },
    element('p', { class: 'scribeline-remark' }, 'Reading the cards of the shop …'),
    element('pre', {}, element('code', {}, escape(block.content))),
  );
}

function section(kind: string, attributes: Attributes = {}, ...inner: readonly string[]): string {
  const { class: more, ...rest } = attributes;
  const classes = `scribeline-block scribeline-${kind}${more ? ` ${more}` : ''}`;
  return `${element('section', { class: classes, ...rest }, ...inner)}\n`;
}

function lineAttributes(row: Row, kind: string, lineClass: string | null, named: boolean): Attributes {
  return {
    role: 'row',
    class: `scribeline-${kind}${lineClass === null ? '' : ` ${lineClass}`}`,
    'data-line': lineClass === null ? null : row.line,
    id: named ? lineId(row.line) : null,
  };
}

/** The columns' widths hang on these, so that they are the same whatever the first row is. */
function columnGroup(columns: number): string {
  const names = columns === COLUMNS ? ['figure', 'from', 'result', 'check'] : ['figure', 'rest'];
  return element('colgroup', {}, ...names.map((name) => `<col class="scribeline-column-${name}">`));
}

function gapRow(columns: number): string {
  return element(
    'tr',
    { class: 'scribeline-gap', 'aria-hidden': 'true' },
    element('td', { colspan: columns }),
  );
}

const HEAD = element(
  'thead',
  { role: 'rowgroup', class: 'scribeline-head' },
  element(
    'tr',
    { role: 'row' },
    ...['Figure', 'From', 'Result', 'Check'].map((word) =>
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
