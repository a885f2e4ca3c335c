/** Workings as mathematics: in words, with names, with the figures put in, and what that comes to. */
import { callOf } from '../notation/walk';
import type { Row } from '../engine/index';
import { type WorkingStep, workingOfLine } from '../engine/working';
import { formulaNamed } from '../trade/index';
import { element, escape } from './html';
import { equations } from './mathml';
import type { View } from './view';

/** The steps of a line's value; empty for what is merely given. */
export function stepsOf(row: Row, { sheet }: View): readonly WorkingStep[] {
  const { statement, value, text } = row;
  if (value === null || (statement.kind !== 'figure' && statement.kind !== 'show')) return [];
  const { expression, to } = statement;
  const name = statement.kind === 'figure' ? statement.name.text : '';
  const conversion = to && value.kind === 'number' ? { to, value } : null;
  return workingOfLine(sheet, text, expression, name, conversion);
}

/** Steps as a list of equations; `why` adds what the formula says for somebody who is learning. */
export function workingHtml(row: Row, steps: readonly WorkingStep[], why: boolean): string {
  if (steps.length === 0) return '';
  const { statement } = row;
  const call = statement.kind === 'figure' || statement.kind === 'show' ? callOf(statement.expression) : null;
  const formula = call && formulaNamed(call.name.text);
  const reason =
    why && formula
      ? element(
          'p',
          { class: 'scribeline-why' },
          `${escape(formula.why)} `,
          element('small', {}, `Source: ${escape(formula.source)}.`),
        )
      : '';
  return element('div', { class: 'scribeline-working' }, reason, ...steps.map(step));
}

function step({ words, name, expression, figures, result }: WorkingStep): string {
  const sides = [expression, figures, result].filter((side, i, all) => side !== '' && side !== all[i - 1]);
  const said =
    words === null
      ? ''
      : element(
          'span',
          { class: 'scribeline-step-words' },
          escape(`${words.charAt(0).toUpperCase()}${words.slice(1)}`),
        );
  // A long one scrolls by itself, which the keyboard can only do where it can go.
  return element('div', { class: 'scribeline-step', tabindex: 0 }, said, equation(name, sides));
}

/** Equations are set once however often a preview is drawn. */
const SET = new Map<string, string>();
const MOST_SET = 2000;

function equation(name: string, sides: readonly string[]): string {
  const key = [name, ...sides].join('\n');
  const known = SET.get(key);
  if (known !== undefined) return known;
  if (SET.size >= MOST_SET) SET.clear();
  const made = equations(name, sides);
  SET.set(key, made);
  return made;
}
