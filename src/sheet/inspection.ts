/** Every size with limits on one table: what is asked, and what was found or a line to write it on. */
import type { ReadingResult, Row } from '../engine/index';
import { show } from '../quantity/display';
import type { Quantity } from '../quantity/value';
import { element, escape } from './html';
import { type How, inUnits, isKeptBack } from './how';
import { tickBox } from './lists';
import type { View } from './view';
import { askedLimits, shown } from './words';

/** Lines to write on where nothing was found yet: at both ends and in the middle. */
const PLACES = 3;

const WRITE = element('span', { class: 'sheet-write' });

export function inspection(view: View): string {
  const rows = view.sheet.rows();
  const sizes = rows.filter(({ block }) => block.word === 'figures').map((row) => asSize(row, rows, view));
  if (sizes.join('') === '') return '';
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
      element('tbody', {}, ...sizes),
    ),
  );
}

/** Empty for what is no size with limits. */
function asSize(row: Row, rows: readonly Row[], { how }: View): string {
  const { statement, value, asked } = row;
  if (statement.kind !== 'figure' || value?.kind !== 'number' || !asked) return '';
  const name = statement.name.text;
  const told = inUnits(value, how);
  const { upper, lower } = askedLimits(told, asked);
  const kept = isKeptBack(row, how);
  const end = (base: number): string => (kept ? WRITE : escape(show({ ...told, value: base, spread: null })));
  const finals = rows.flatMap(({ reading }) =>
    reading?.how === 'final' && reading.path === name ? [reading] : [],
  );
  const found = finals.at(-1);
  const readings = found ? foundWords(found, how) : WRITE.repeat(PLACES);
  const deviations = upper.replace('+', '−') === lower ? upper.replace('+', '±') : `${upper}/${lower}`;
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

/** As it was read and, where that was warm or cold, what it is judged by. */
function foundWords({ readings, atReference }: ReadingResult, how: How): string {
  const words = (all: readonly Quantity[]): string =>
    all.map((q) => escape(shown(inUnits(q, how)))).join(' · ');
  return words(readings) + (atReference ? ` (${words(atReference)} at 20 °C)` : '');
}
