/** Every size with limits on one table: what is asked, and what was found or a line to write it on. */
import type { Row } from '../engine/index';
import { show } from '../quantity/display';
import { element, escape } from './html';
import { inUnits, isKeptBack } from './how';
import { tickBox } from './lists';
import type { View } from './view';
import { limits, shown } from './words';

/** Lines to write on where nothing was found yet: at both ends and in the middle. */
const PLACES = 3;

const WRITE = element('span', { class: 'sheet-write' });

export function inspection(view: View): string {
  const rows = view.sheet.rows();
  const asked = rows.filter(
    (row) => row.block.word === 'figures' && row.asked !== null && row.statement.kind === 'figure',
  );
  if (asked.length === 0) return '';
  return element(
    'section',
    { class: 'sheet-inspection', 'aria-labelledby': 'sheet-sizes' },
    element('h2', { id: 'sheet-sizes' }, 'Sizes with limits: asked and found'),
    element(
      'table',
      {},
      element(
        'thead',
        {},
        element(
          'tr',
          {},
          ...['size', 'asked', 'least', 'most', 'found', 'good'].map((word) =>
            element('th', { scope: 'col' }, word),
          ),
        ),
      ),
      element('tbody', {}, ...asked.map((row) => asSize(row, rows, view))),
    ),
  );
}

function asSize(row: Row, rows: readonly Row[], { sheet, how }: View): string {
  const { statement, value, asked } = row;
  if (statement.kind !== 'figure' || value?.kind !== 'number' || !asked) return '';
  const name = statement.name.text;
  const told = inUnits(value, how);
  const limit = limits(told, asked, sheet);
  const kept = isKeptBack(row, how);
  const end = (base: number): string => (kept ? WRITE : escape(show({ ...told, value: base, spread: null })));
  const finals = rows.flatMap(({ reading }) =>
    reading?.how === 'final' && reading.path === name ? [reading] : [],
  );
  const found = finals.at(-1);
  const readings = found
    ? found.readings.map((q) => escape(shown(inUnits(q, how)))).join(' · ')
    : WRITE.repeat(PLACES);
  const deviations =
    limit?.kind === 'asked'
      ? limit.upper.replace('+', '−') === limit.lower
        ? limit.upper.replace('+', '±')
        : `${limit.upper}/${limit.lower}`
      : '';
  const good = found?.inside === true ? tickBox(true) : found ? '✗' : tickBox(false);
  return element(
    'tr',
    {},
    element('th', { scope: 'row' }, escape(name)),
    element(
      'td',
      {},
      kept ? WRITE : '',
      escape(`${kept ? '' : shown(told)} ${asked.code ?? ''} ${deviations}`),
    ),
    element('td', {}, end(asked.low)),
    element('td', {}, end(asked.high)),
    element('td', { class: found ? null : 'sheet-empty' }, readings),
    element('td', {}, good),
  );
}
