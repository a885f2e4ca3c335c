/** Asks every room everything it can be asked about a note. Whoever asks sees what is thrown, and what each part costs. */
import MarkdownIt from 'markdown-it';
import { compareJobs, comparisonPage } from '../../src/archive/compare';
import { entryOfSheet } from '../../src/archive/entry';
import { find } from '../../src/archive/find';
import { GROUPINGS, grouped } from '../../src/archive/grouped';
import { JobIndex } from '../../src/archive/job-index';
import { headOf, lineOf, readBack } from '../../src/archive/store';
import { pastUse } from '../../src/archive/past-use';
import { readQuery } from '../../src/archive/query';
import { repeatOf } from '../../src/archive/repeat';
import { signedNote } from '../../src/archive/sign';
import { type Sheet, calculate } from '../../src/engine/index';
import { figuresPlugin } from '../../src/hosts/preview/plugin';
import { completions } from '../../src/language/completion';
import { definition } from '../../src/language/definition';
import { marks } from '../../src/language/diagnostics';
import { edited } from '../../src/language/edits';
import { explainAt, explainRow } from '../../src/language/explain';
import { alignment } from '../../src/language/format';
import { hint } from '../../src/language/hints';
import { markdown } from '../../src/language/markdown';
import { occurrencesOf, symbolAt } from '../../src/language/names-in';
import { parameterHints } from '../../src/language/parameter-hints';
import { fixes } from '../../src/language/quick-fixes';
import { judged, readables } from '../../src/language/record-reading';
import { keepsMeaning, refusal, renamable, renamed } from '../../src/language/rename';
import { signature } from '../../src/language/signature-help';
import { blockSymbols } from '../../src/language/symbols';
import { jobSheet } from '../../src/sheet/job-sheet';
import { picturesOf, sharesOf } from '../../src/sheet/picture/of-row';
import { type NoteReport, report } from '../../src/sheet/report';
import { termAt } from '../../src/trade/glossary';

export interface Place {
  readonly line: number;
  readonly column: number;
}

/** Lines as an editor counts them: NUL and all. */
export function linesOf(text: string): readonly string[] {
  return text.split(/\r\n?|\n/);
}

/** Numbers from 0 to 1 that are the same in every run. */
export function chance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** Places all over a note, half of them at lines that calculate where there are any. */
export function places(
  sheet: Sheet,
  lines: readonly string[],
  count: number,
  random = chance(1),
): readonly Place[] {
  const rows = sheet.rows();
  return Array.from({ length: count }, (_, i) => {
    const row = i % 2 === 0 ? rows[Math.floor(random() * rows.length)] : undefined;
    const line = row?.line ?? Math.floor(random() * lines.length);
    return { line, column: Math.floor(random() * ((lines[line] ?? '').length + 1)) };
  });
}

/** Lines whose hints and explanations are asked for at once: more than any screen shows. */
const SCREEN = 200;

/** What an editor asks for by itself as a note is opened and looked at. */
export function look(text: string, sheet: Sheet): void {
  marks(sheet);
  blockSymbols(sheet);
  const rows = sheet.rows();
  const step = Math.max(1, Math.floor(rows.length / SCREEN));
  for (let i = 0; i < rows.length; i += step) {
    const row = rows[i];
    if (!row) continue;
    hint(sheet, row);
    parameterHints(row);
    const explained = explainRow(sheet, row);
    if (explained) markdown(explained);
    picturesOf(sheet, row);
    sharesOf(sheet, row);
  }
  alignment(sheet.note, text);
}

type Asking = (text: string, sheet: Sheet, place: Place, line: string) => void;

/** Everything that is asked about one place. */
const QUESTIONS: readonly (readonly [name: string, ask: Asking])[] = [
  ['completing', (_, sheet, place, text) => void completions({ sheet, ...place, text })],
  ['helping with a call', (_, sheet, place, text) => void signature({ sheet, ...place, text })],
  [
    'explaining',
    (_, sheet, { line, column }, text) => {
      const explained = explainAt(sheet, sheet.note, line, column);
      if (explained) markdown(explained.explanation);
      termAt(text, column);
    },
  ],
  [
    'finding names',
    (_, sheet, { line, column }) => {
      definition(sheet, line, column);
      const symbol = symbolAt(sheet, line, column);
      if (symbol) occurrencesOf(sheet, symbol);
    },
  ],
  [
    'renaming',
    (text, sheet, { line, column }) => {
      const named = renamable(sheet, line, column);
      if (named && refusal(sheet, named, 'other_name') === null)
        keepsMeaning({ sheet, text, shops: [] }, renamed(sheet, named, 'other_name'));
    },
  ],
  [
    'mending',
    (text, sheet, { line, column }) => {
      const range = { line, column, endLine: line, endColumn: column };
      fixes({ sheet, text, shops: [] }, range, { speedChoice: 'below' });
    },
  ],
];

export function askAt(text: string, sheet: Sheet, lines: readonly string[], place: Place): void {
  for (const [, ask] of QUESTIONS) ask(text, sheet, place, lines[place.line] ?? '');
}

/** What is done to a note by commands. */
export function act(text: string, sheet: Sheet): void {
  const noted = { sheet, text, shops: [] };
  const found = readables(sheet);
  for (const { path } of found.slice(0, 2)) judged(noted, path, 'measured', '12.5, 1 3/8 in at 5 mm');
  edited(text, alignment(sheet.note, text));
  repeatOf(text, sheet, { job: '8', of: '7' });
  signedNote(text, sheet, { date: '2026-01-01', version: '1.0.0', by: 'R\n```' });
}

export function preview(text: string): string {
  const md = new MarkdownIt({ html: true });
  md.use(figuresPlugin({ cardsFor: () => ({ shops: [], loading: false }) }));
  return md.render(text);
}

export function printed(text: string, workings = false): string {
  const how = { units: 'both', answers: workings ? 'hidden' : 'shown', workings } as const;
  const order = { text, shops: [], how, date: '2026-01-01', file: 'note.md', images: new Map() };
  return jobSheet({ ...order, styles: '', styleHash: 'sha256-' }).html;
}

export function remember(sheet: Sheet, text: string): void {
  const entry = entryOfSheet(text, sheet);
  const again = new JobIndex();
  const kept = `${headOf('1')}\n${lineOf({ path: 'note.md', mark: '1', entry }, '1')}\n`;
  for (const one of readBack(kept, '1')) again.put(one);
  const [amount] = entry.amounts;
  for (const asked of [
    'a',
    '__proto__',
    'constructor = 3 mm',
    'job: 7',
    `${amount?.name ?? 'a'} 1 mm .. 1 m`,
  ]) {
    const query = readQuery(asked);
    if ('terms' in query) find(again, query.terms);
  }
  for (const by of GROUPINGS) grouped(again.entries(), by);
  pastUse(again, {
    path: 'other.md',
    name: amount?.name ?? 'constructor',
    job: entry.job,
    value: null,
    machines: ['mill'],
  });
  comparisonPage(compareJobs(entry, { ...entry, amounts: entry.amounts.slice(1) }), 'a.md', 'b.md');
}

export function reported(sheet: Sheet): NoteReport {
  return report(sheet, 'note.md');
}

/** Every part of what can be asked, by name, in the order in which one needs the other. */
export function parts(text: string, count = 20): readonly (readonly [name: string, run: () => void])[] {
  let sheet = calculate('');
  const lines = linesOf(text);
  return [
    ['calculating', () => void (sheet = calculate(text)).findings()],
    ['looking', () => look(text, sheet)],
    ...QUESTIONS.map(([name, ask]): readonly [string, () => void] => [
      name,
      () => places(sheet, lines, count).forEach((place) => ask(text, sheet, place, lines[place.line] ?? '')),
    ]),
    ['acting', () => act(text, sheet)],
    ['previewing', () => void preview(text)],
    ['printing', () => void printed(text)],
    ['printing with workings', () => void printed(text, true)],
    ['remembering', () => remember(sheet, text)],
    ['reporting', () => void JSON.stringify(reported(sheet))],
  ];
}
