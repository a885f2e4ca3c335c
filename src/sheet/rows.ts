/** The lines of a block as rows of its table. */
import type { Row } from '../engine/index';
import type { Path } from '../notation/syntax';
import type { Value } from '../quantity/value';
import { formulaNamed } from '../trade/index';
import {
  GIVEN,
  blank,
  cell,
  expression,
  header,
  line,
  named,
  remark,
  result,
  stamp,
  way,
  wideCell,
} from './cells';
import { belowRow, fromHtml } from './below';
import { inUnits, isKeptBack } from './how';
import { type Attributes, element, escape, mixed } from './html';
import { listedFields } from './lists';
import type { View } from './view';
import { type Outcome, code, isGiven, limits, measured, outcome, pair, written } from './words';

/** Of a block of figures, and of a card. */
export const COLUMNS = 4;

export const CARD_COLUMNS = 2;

export type Mark = (row: Row, kind: string) => Attributes;

export function figureRow(row: Row, view: View, mark: Mark): string {
  const { statement } = row;
  const typed = code(row.text);
  const stands = outcome(row, view.sheet);
  switch (statement.kind) {
    case 'empty':
      return remarkRow(row, mark, COLUMNS);
    case 'figure': {
      const from = typed.slice(typed.indexOf('=') + 1).trim();
      const given = isGiven(from, row.value, limits(row.value, row.asked, view.sheet));
      const hidden = !given && isKeptBack(row, view.how);
      const comesFrom = [given ? GIVEN : fromHtml(row, from, view), remark(row) || title(row.value)];
      // What has several results has them below: its own line is free for what they come from.
      const rest =
        row.value?.kind === 'record'
          ? [wideCell('from', COLUMNS - 1, ...comesFrom)]
          : [
              cell('from', ...comesFrom),
              ...resultCells(
                row.value,
                hidden ? blank(row.value) : amount(row.value, row.asked, view),
                stands,
              ),
            ];
      const marked = mark(row, 'line');
      const cells = [header(way(named(statement.name.text), marked)), ...rest];
      return line(marked, cells) + fieldRows(row.value, view, hidden) + belowRow(row, view, hidden);
    }
    case 'show':
    case 'check':
    case 'words':
    case 'broken': {
      const hidden = isKeptBack(row, view.how);
      const stood = row.check ? escape(pair(row.check)) : amount(row.value, null, view);
      const marked = mark(row, statement.kind === 'show' ? 'line' : statement.kind);
      const cells = [
        header(way(expression(typed), marked) + remark(row), 2),
        cell('result', hidden ? blankOf(row.value) : stood),
        cell('stands', hidden ? '' : stamp(stands)),
      ];
      return line(marked, cells) + fieldRows(row.value, view, hidden) + belowRow(row, view, hidden);
    }
    case 'reading': {
      const mean = row.reading && measured(row.reading);
      const several = statement.readings.length > 1 ? 'mean ' : '';
      return recordLine(row, statement.path, mark, statement.how, several + amount(mean, null, view), stands);
    }
    case 'used':
      return recordLine(
        row,
        statement.path,
        mark,
        'used',
        amount(written(statement.value), null, view),
        stands,
      );
  }
}

/** A list takes the room of a verdict that it has not. */
function resultCells(value: Value | null, inner: string, stands: Outcome | null): readonly string[] {
  if (value?.kind === 'list') return [wideCell('result', 2, inner)];
  return [cell('result', inner), cell('stands', stamp(stands))];
}

/** A result in the units asked for, with its limits. */
export function amount(value: Value | null, asked: Row['asked'], view: View): string {
  const told = value && inUnits(value, view.how);
  return result(told, limits(told, asked, view.sheet), view.how);
}

function blankOf(value: Value | null): string {
  return value?.kind === 'record' ? '' : blank(value);
}

/** What was measured or really run: the name, what is said of it, the figure, how it stands. */
function recordLine(
  row: Row,
  path: Path,
  mark: Mark,
  kind: string,
  value: string,
  stands: Outcome | null,
): string {
  const said = code(row.text.slice(path.end));
  const marked = mark(row, kind);
  return line(marked, [
    header(way(named(path.names.join('.')), marked)),
    cell('from', expression(said), remark(row)),
    cell('result', value),
    cell('stands', stamp(stands)),
  ]);
}

export function cardRow(row: Row, mark: Mark): string {
  const { statement, value } = row;
  const typed = code(row.text);
  if (statement.kind === 'empty') return remarkRow(row, mark, CARD_COLUMNS);
  const marked = mark(row, statement.kind === 'words' || statement.kind === 'figure' ? 'line' : 'broken');
  if (statement.kind === 'words') {
    const cells = [
      header(way(named(statement.key.text), marked)),
      cell('words', mixed(statement.words.text), remark(row)),
    ];
    return line(marked, cells);
  }
  if (statement.kind !== 'figure')
    return line(marked, [header(way(expression(typed), marked), CARD_COLUMNS)]);
  const shownValue =
    value === null ? expression(typed.slice(typed.indexOf('=') + 1).trim()) : result(value, null);
  return line(marked, [
    header(way(named(statement.name.text), marked)),
    cell('result', shownValue, remark(row)),
  ]);
}

/** The fields of a record, one under the other, each with what it means. */
function fieldRows(value: Value | null, view: View, hidden: boolean): string {
  if (value?.kind !== 'record') return '';
  const meanings = new Map(formulaNamed(value.of)?.result.map((field) => [field.name, field.meaning]));
  const listed = listedFields(value);
  return [...value.fields]
    .filter(([name]) => !listed.has(name) && !(name === 'end_check' && listed.size > 0))
    .map(([name, part]) =>
      line({ role: 'row', class: 'scribeline-field' }, [
        header(`.${named(name)}`),
        cell('from', element('span', { class: 'scribeline-remark' }, escape(meanings.get(name) ?? ''))),
        wideCell('result', 2, hidden ? blank(part) : amount(part, null, view)),
      ]),
    )
    .join('');
}

/** What a formula with several results works out, where the line has no remark of its own. */
function title(value: Value | null): string {
  const words = value?.kind === 'record' ? formulaNamed(value.of)?.title : undefined;
  return words === undefined ? '' : ` ${element('span', { class: 'scribeline-remark' }, escape(words))}`;
}

function remarkRow(row: Row, mark: Mark, columns: number): string {
  const words = escape(row.statement.comment?.text ?? '');
  return words === ''
    ? ''
    : line(mark(row, 'remark'), [element('td', { role: 'cell', colspan: columns, dir: 'auto' }, words)]);
}
