/** The cells that rows are made of. What is handed in as `inner` is HTML already; everything else is text. */
import type { Row } from '../engine/index';
import { shownUnit } from '../quantity/display';
import type { Value } from '../quantity/value';
import { type Attributes, element, escape, mixed, prose } from './html';
import { type How, PREVIEW, beside } from './how';
import { type LimitWords, type Outcome, SIGNS, otherwise, shown } from './words';

/** Stands for an expression that would only repeat the result. */
export const GIVEN = element('span', { class: 'scribeline-given' }, 'given');

/** A value is in the unit that is asked for already; see `inUnits`. */
export function result(value: Value | null, limit: LimitWords | null, how: How = PREVIEW): string {
  if (value === null) return element('span', { class: 'scribeline-none' }, '—');
  if (value.kind === 'record') return '';
  if (value.kind === 'text') return prose(value.text);
  const other = value.kind === 'number' ? otherwise(value) : null;
  const also = beside(value, how);
  return (
    element('span', { class: 'scribeline-value', title: other }, escape(shown(value))) +
    (also === null ? '' : ` ${element('span', { class: 'scribeline-also' }, escape(`(${also})`))}`) +
    (limit ? limitsHtml(limit) : '')
  );
}

/** What stands in a result's place until somebody has worked it out: a line to write on, and the unit. */
export function blank(value: Value | null): string {
  const unit = value?.kind === 'number' ? shownUnit(value.unit) : '';
  return `${element('span', { class: 'scribeline-blank', role: 'img', 'aria-label': 'to fill in' })} ${escape(unit)}`;
}

function limitsHtml(limit: LimitWords): string {
  if (limit.kind === 'resulting') {
    const share =
      limit.mostly === null ? '' : element('span', { class: 'scribeline-band' }, escape(limit.mostly));
    return ` ${element('span', { class: 'scribeline-band' }, escape(limit.ends))}${share}`;
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

export function stamp(stands: Outcome | null): string {
  if (stands === null) return '';
  const head = element(
    'span',
    { class: 'scribeline-stamp' },
    element('span', { class: 'scribeline-sign', 'aria-hidden': 'true' }, SIGNS[stands.kind]),
    element('b', {}, escape(stands.word)),
  );
  const more = stands.more === null ? '' : ` ${escape(stands.more)}`;
  return element('span', { class: `scribeline-${stands.kind}` }, stands.word === '' ? '' : head, more);
}

export function expression(text: string): string {
  return element('code', { class: 'scribeline-expression', dir: 'ltr' }, mixed(text));
}

/** A name, which may break after its underscores. */
export function named(name: string): string {
  return escape(name).replaceAll('_', '_<wbr>');
}

export function remark({ statement }: Row): string {
  const words = statement.comment?.text ?? '';
  return words === ''
    ? ''
    : ` ${element('span', { class: 'scribeline-remark', dir: 'auto' }, escape(words))}`;
}

/**
 * What a line begins with, where the line is known to a preview: a way to it for whoever has no pointer to click twice
 * with. media/preview.js hears the key.
 */
export function way(inner: string, of: Attributes): string {
  if ((of['data-line'] ?? null) === null) return inner;
  const button = { role: 'button', tabindex: 0, 'aria-description': 'to its line in the note' };
  return element('span', { class: 'scribeline-way', ...button }, inner);
}

export function header(inner: string, span = 1): string {
  return element('th', { scope: 'row', role: 'rowheader', colspan: span === 1 ? null : span }, inner);
}

export function cell(kind: string, ...inner: readonly string[]): string {
  return element('td', { role: 'cell', class: `scribeline-${kind}` }, ...inner);
}

export function wideCell(kind: string, span: number, ...inner: readonly string[]): string {
  return element('td', { role: 'cell', class: `scribeline-${kind}`, colspan: span }, ...inner);
}

export function line(attributes: Attributes, cells: readonly string[]): string {
  return element('tr', attributes, ...cells);
}
