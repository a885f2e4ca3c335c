/** The parts of a job sheet around the note's own text. */
import type { Finding } from '../engine/index';
import { wordsUsed } from '../trade/glossary';
import { lineId } from './block-table';
import { element, escape, prose } from './html';
import { type SheetFinding, sentence } from './sheet-findings';
import type { View } from './view';

/** Always there, to be filled in by hand where the note is silent. */
const ASKED = ['job', 'customer', 'part', 'drawing', 'revision', 'quantity', 'material', 'due'] as const;

/** As a drawing has it: who, what, how many, which issue of the drawing, and when. */
export function titleBlock(
  job: ReadonlyMap<string, string>,
  { date, file }: { readonly date: string; readonly file: string },
): string {
  const cell = (name: string, words: string): string =>
    element(
      'div',
      { class: `sheet-${name}` },
      element('dt', {}, escape(name)),
      element('dd', { dir: 'auto' }, words === '' ? '&nbsp;' : escape(words)),
    );
  const cells = ASKED.map((name) => cell(name, job.get(name)?.trim() ?? ''));
  return element(
    'header',
    { class: 'sheet-head' },
    element('dl', {}, ...cells, cell('date', date), cell('note', file)),
  );
}

/** What is wrong, where nobody can miss it. */
export function alert(findings: readonly Finding[], own: readonly SheetFinding[]): string {
  const errors = findings.filter(({ severity }) => severity === 'error');
  const warnings = findings.filter(({ severity }) => severity === 'warning').length;
  const parts: string[] = [];
  if (errors.length > 0) {
    const head = `${number(errors.length, 'error')}: do not work from this sheet until they are put right.`;
    parts.push(element('p', { class: 'sheet-errors' }, element('b', {}, `✗ ${head}`)));
    parts.push(
      element(
        'ul',
        {},
        ...errors.map(({ line, message }) =>
          element('li', {}, `<a href="#${lineId(line)}">Line ${line + 1}</a>: `, prose(message)),
        ),
      ),
    );
  }
  if (warnings > 0)
    parts.push(
      element(
        'p',
        {},
        element('b', {}, `△ ${number(warnings, 'warning')}`),
        ': see the lines marked △ below.',
      ),
    );
  if (own.length > 0)
    parts.push(
      element(
        'ul',
        {},
        ...own.map((it) => element('li', {}, `△ Line ${it.line + 1}: ${prose(sentence(it))}`)),
      ),
    );
  if (parts.length === 0) return '';
  const kind = errors.length > 0 ? 'sheet-alert sheet-bad' : 'sheet-alert';
  return element('section', { class: kind, 'aria-label': 'What is wrong' }, ...parts);
}

function number(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? '' : 's'}`;
}

/** Trade words that the note uses, in the order of the alphabet. */
export function glossary(body: string, { sheet }: View): string {
  const calls = sheet.rows().map((row) => row.text);
  const words = wordsUsed(`${body}\n${calls.join('\n')}`);
  if (words.length === 0) return '';
  return element(
    'section',
    { class: 'sheet-glossary', 'aria-labelledby': 'sheet-words' },
    element('h2', { id: 'sheet-words' }, 'Words of the trade on this sheet'),
    element(
      'dl',
      {},
      ...words.map(({ word, means }) =>
        element('div', {}, element('dt', {}, escape(word)), element('dd', {}, escape(means))),
      ),
    ),
  );
}

const SIGNED = ['made by', 'measured by', 'released by'];

export function signOff(): string {
  const line = (words: string): string =>
    element('div', { class: 'sheet-sign' }, element('span', {}, words), element('span', {}, 'date'));
  return element(
    'footer',
    { class: 'sheet-foot' },
    element('div', { class: 'sheet-signs' }, ...SIGNED.map(line)),
    element(
      'p',
      {},
      "Figures are a starting point to be checked, not an instruction. The machine's manual, local rules and the practice of qualified people come first; where they differ from this sheet, follow them.",
    ),
  );
}
