/** A checked note for reading at a terminal: every line's value in note order, findings under the line they concern. */
import type { Row, Sheet } from '../../engine/index';
import type { FindingEntry, NoteReport } from '../../sheet/report';
import { SIGNS, code, limits, measured, outcome, pair, shown, written } from '../../sheet/words';
import type { Value } from '../../quantity/value';
import { type Colour, type Paint, columns, harmless, painter, wrap } from './terminal';

export interface Checked {
  readonly sheet: Sheet;
  readonly report: NoteReport;
}

/** A long name or value pushes the rest of its own line along, not that of all others. */
const WIDEST = [5, 32, 18];

/** Line number, name, value, what else there is to say. */
type Cells = readonly [string, string, string, string];

export function printed({ sheet, report }: Checked, colour: boolean): string {
  const paint = painter(colour);
  const lines: { readonly line: number; readonly cells: Cells }[] = sheet
    .rows()
    .filter((row) => row.block.word === 'figures')
    .flatMap((row) => cellsOf(row, sheet).map((cells) => ({ line: row.line + 1, cells })));
  const texts = columns(
    lines.map(({ cells }) => cells.map(harmless)),
    WIDEST,
  );
  const out: string[] = [paint('bold', harmless(report.file))];
  let next = 0;
  const findingsUpTo = (line: number): void => {
    for (; next < report.findings.length; next++) {
      const finding = report.findings[next];
      if (!finding || finding.line > line) return;
      out.push(findingText(finding, report.file, paint));
    }
  };
  lines.forEach(({ line }, i) => {
    findingsUpTo(line - 1);
    out.push(`  ${texts[i] ?? ''}`);
    if (lines[i + 1]?.line !== line) findingsUpTo(line);
  });
  findingsUpTo(Infinity);
  // The note's own: all cards in force would take reading the built-in ones.
  const cards = sheet.placed.flatMap(({ card }) => card ?? []);
  for (const card of cards)
    out.push(paint('dim', harmless(`  ${card.word} ${card.name}: ${[...card.fields.keys()].join(', ')}`)));
  if (out.length === 1) out.push(paint('dim', '  no figures'));
  return `${out.join('\n')}\n\n`;
}

export function summary(notes: number, errors: number, warnings: number, colour: boolean): string {
  const paint = painter(colour);
  const counted = [
    paint(errors > 0 ? 'red' : 'dim', count(errors, 'error')),
    paint(warnings > 0 ? 'yellow' : 'dim', count(warnings, 'warning')),
  ];
  return `${count(notes, 'note')}: ${counted.join(', ')}\n`;
}

function count(n: number, what: string): string {
  return `${n === 0 ? 'no' : n} ${what}${n === 1 ? '' : 's'}`;
}

function cellsOf(row: Row, sheet: Sheet): readonly Cells[] {
  const { statement, value } = row;
  const line = String(row.line + 1).padStart(5);
  const remark = statement.comment === null ? '' : `# ${statement.comment.text}`;
  const stands = outcome(row, sheet);
  const standing = stands ? [SIGNS[stands.kind], stands.word, stands.more ?? ''].join(' ').trim() : '';
  const rest = (...parts: readonly string[]): string => parts.filter((part) => part !== '').join('  ');
  switch (statement.kind) {
    case 'empty':
    case 'words':
    case 'broken':
      return [];
    case 'figure':
    case 'show': {
      const name = statement.kind === 'figure' ? statement.name.text : code(row.text);
      if (value?.kind !== 'record') {
        const band = limitsText(value, row, sheet);
        return [[line, name, value ? shown(value) : 'no value', rest(band, standing, remark)]];
      }
      return [...value.fields].map(([field, part], i) => [
        line,
        `${name}.${field}`,
        shown(part),
        rest(limitsText(part, null, sheet), i === 0 ? remark : ''),
      ]);
    }
    case 'check': {
      const sides = row.check ? pair(row.check) : '';
      return [[line, code(row.text), standing === '' ? 'no value' : standing, rest(sides, remark)]];
    }
    case 'reading': {
      const taken = row.reading ? measured(row.reading) : null;
      const several = (row.reading?.readings.length ?? 0) > 1 ? 'mean ' : '';
      const name = `${statement.path.names.join('.')} ${statement.how}`;
      return [[line, name, taken ? several + shown(taken) : 'no value', rest(standing, remark)]];
    }
    case 'used':
      return [
        [
          line,
          `${statement.path.names.join('.')} used`,
          shown(written(statement.value)),
          rest(standing, remark),
        ],
      ];
  }
}

function limitsText(value: Value | null, row: Row | null, sheet: Sheet): string {
  const limit = limits(value, row?.asked ?? null, sheet);
  if (limit === null) return '';
  if (limit.kind === 'asked') return `${limit.code === null ? '' : `${limit.code}, `}${limit.ends} asked`;
  return limit.mostly === null ? limit.ends : `${limit.ends}, ${limit.mostly}`;
}

const COLOURS: Readonly<Record<FindingEntry['severity'], Colour>> = {
  error: 'red',
  warning: 'yellow',
  info: 'blue',
};

function findingText(finding: FindingEntry, file: string, paint: Paint): string {
  const place = `${file}:${finding.line}:${finding.column}`;
  const head = `  ${harmless(place)}: ${paint(COLOURS[finding.severity], finding.severity)}: `;
  const related = finding.related.map(
    (it) =>
      `\n      ${harmless(`${it.file}:${it.line}:${it.column}: `)}${wrap(harmless(it.message), '        ')}`,
  );
  return `${head}${wrap(harmless(finding.message), '      ')} ${paint('dim', `[${harmless(finding.code)}]`)}${related.join('')}`;
}
