/** What hangs on a line of figures: its working, the list it gives, its pictures; folded away where answers are hidden. */
import type { Row } from '../engine/index';
import { expression } from './cells';
import { element, escape, prose } from './html';
import { inUnits } from './how';
import { listHtml } from './lists';
import { figure, picturesOf, sharesOf } from './picture/of-row';
import { COLUMNS } from './rows';
import type { View } from './view';
import { code, limits, pair, shown } from './words';
import { stepsOf, workingHtml } from './working-html';

/** What a result comes from; in the preview it unfolds to its working. */
export function fromHtml(row: Row, from: string, view: View): string {
  const typed = expression(from);
  const { how } = view;
  if (how.paper || how.workings) return typed;
  const working = row.line < view.unfoldsBefore ? workingHtml(row, stepsOf(row, view), false) : '';
  if (working === '') return typed;
  const shared = sharesHtml(row, view);
  return element(
    'details',
    { class: 'scribeline-unfold' },
    element('summary', { title: 'the working' }, typed),
    working,
    shared,
  );
}

function sharesHtml(row: Row, { sheet }: View): string {
  const bars = sharesOf(sheet, row);
  return bars === null ? '' : figure(bars);
}

/** A row of its own under a line, empty where nothing hangs on it. `hidden` folds the answer and all that tells it. */
export function belowRow(row: Row, view: View, hidden: boolean): string {
  const { how } = view;
  const working = how.workings || hidden ? workingHtml(row, stepsOf(row, view), true) : '';
  const asked = how.workings && row.check ? whyAsked(row) : '';
  const shared = how.workings ? sharesHtml(row, view) : '';
  const inner = [besideHtml(row, view), working, shared];
  const told = hidden
    ? [
        element(
          'details',
          { class: 'scribeline-answer' },
          element('summary', {}, 'Answer'),
          element('p', {}, answer(row, view)),
          ...inner,
        ),
      ]
    : inner;
  const all = [asked, ...told].join('');
  if (all === '') return '';
  return element(
    'tr',
    { role: 'row', class: 'scribeline-below' },
    element('td', { role: 'cell', colspan: COLUMNS }, all),
  );
}

/** Pictures with the list to work down beside them, where the page is wide enough. */
function besideHtml(row: Row, { sheet, how }: View): string {
  const parts = [...picturesOf(sheet, row, how).map(figure), listHtml(row.value, how)].join('');
  return parts === '' ? '' : element('div', { class: 'scribeline-beside' }, parts);
}

function answer(row: Row, view: View): string {
  if (row.check) return escape(`${pair(row.check)}: ${row.check.holds ? 'it holds' : 'it fails'}.`);
  if (row.value?.kind === 'record')
    return [...row.value.fields]
      .filter(([, part]) => part.kind !== 'list')
      .map(([name, part]) => escape(`${name}: ${shown(inUnits(part, view.how))}`))
      .join('<br>');
  if (row.value === null) return '';
  const value = inUnits(row.value, view.how);
  const limit = limits(value, row.asked, view.sheet);
  return escape(`${shown(value)}${limit ? ` (${limit.ends})` : ''}`);
}

/** The reason that the note gives for a check, or what a check without one means. */
function whyAsked(row: Row): string {
  const said = row.statement.comment?.text;
  const words =
    said === undefined || said === ''
      ? `The job goes on only while \`${code(row.text)}\` is true; the note does not say why.`
      : `Asked because: ${said}.`;
  return element('p', { class: 'scribeline-why' }, prose(words));
}
