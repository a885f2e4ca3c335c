/** A finding as a row under the line it concerns: sign, word, sentence, and where else to look. */
import type { Finding, Related } from '../engine/index';
import type { Severity } from '../quantity/finding';
import { element, escape, prose } from './html';

const SIGNS: Readonly<Record<Severity, string>> = { error: '✗', warning: '△', info: '•' };
const WORDS: Readonly<Record<Severity, string>> = { error: 'Error', warning: 'Warning', info: 'Note' };

/** `line` is the line that it stands under: only a finding about another line says which. */
export function findingRow(finding: Finding, columns: number, line: number): string {
  const { severity, message, related } = finding;
  const elsewhere = finding.line === line ? '' : ` Line ${finding.line + 1}:`;
  return element(
    'tr',
    { role: 'row', class: `scribeline-finding scribeline-${severity}` },
    element(
      'td',
      { role: 'cell', colspan: columns },
      element('span', { class: 'scribeline-sign', 'aria-hidden': 'true' }, SIGNS[severity]),
      element('b', {}, `${WORDS[severity]}.`),
      elsewhere,
      ` ${prose(message)}`,
      ...related.map(also),
    ),
  );
}

function also(related: Related): string {
  const where = related.file === null ? '' : `${shortName(related.file)}, `;
  return element(
    'span',
    { class: 'scribeline-related' },
    escape(`${where}line ${related.line + 1}: `),
    prose(related.message),
  );
}

/** The last part of a path or address. */
export function shortName(file: string): string {
  const last = file.replace(/.*[\\/]/s, '');
  try {
    return decodeURIComponent(last);
  } catch {
    return last;
  }
}
