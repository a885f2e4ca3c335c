/** What could be done about a finding or with a line. Chosen by a finding's code and data, never by its words. */
import type { Finding } from '../engine/results';
import { conversions } from './convert';
import { type Mark, type Range, mark, overlaps } from './diagnostics';
import { type Noted, type TextEdit, harmless, mends } from './edits';
import { machineFixes } from './fix-machine';
import { missingFigure } from './fix-missing';
import { readingFixes, senseFixes, unitOfReading } from './fix-readings';
import { type Said, said } from './said';

export interface Fix {
  readonly title: Said;
  /** The finding it mends; null for one that is offered without any. */
  readonly mark: Mark | null;
  readonly edits: readonly TextEdit[];
  /** True when it is the only meaning on offer, so that the editor may take it by one key. */
  readonly preferred: boolean;
  /** A fix mends or adds what is missing; a rewrite says the same in another way. */
  readonly kind: 'fix' | 'rewrite';
}

/** A fix as its maker states it. */
export interface Proposal {
  readonly title: Said;
  readonly edits: readonly TextEdit[];
}

export interface FixSettings {
  /** Which step of a machine is proposed first for a speed between two. */
  readonly speedChoice: 'below' | 'nearest';
}

/** By the code of a finding; those of any code that carry likely meanings are taken besides. */
const BY_CODE: ReadonlyMap<
  string,
  (noted: Noted, finding: Finding, settings: FixSettings) => readonly Proposal[]
> = new Map([
  ['speed-between-steps', machineFixes],
  ['feed-between-steps', machineFixes],
  ['speed-outside-machine', machineFixes],
  ['feed-outside-machine', machineFixes],
  ['feed-rate-over-machine', machineFixes],
  ['unknown-name', missingFigure],
  ['reading-kind', unitOfReading],
  ['used-kind', unitOfReading],
  ['side-unknown', senseFixes],
]);

/** Findings of one line or selection that are looked into: for each the note is worked out anew several times. */
const MOST = 4;

/** The fixes for what touches the range, or else for what is marked in its line. Each has been tried: it leaves no error that was not there before. */
export function fixes(noted: Noted, range: Range, settings: FixSettings): readonly Fix[] {
  const own = noted.sheet.findings();
  const at = own.filter((finding) => overlaps(mark(finding).range, range));
  // With the cursor beside every mark, those of its line are meant: at the bench nobody aims.
  const touched = at.length > 0 ? at : own.filter(({ line }) => line === range.line);
  return [
    ...touched.slice(0, MOST).flatMap((finding) => ofFinding(noted, finding, settings)),
    ...ofAll(noted, touched, own),
    ...ofLine(noted, range),
  ];
}

function ofFinding(noted: Noted, finding: Finding, settings: FixSettings): readonly Fix[] {
  const marked = mark(finding);
  const texts = fitting(noted, finding);
  const offers = texts.map((text): Fix => ({
    title: text === '' ? said('Write nothing here') : said('Write {0}', text),
    mark: marked,
    edits: [{ range: marked.range, text }],
    preferred: texts.length === 1,
    kind: 'fix',
  }));
  const own = (BY_CODE.get(finding.code)?.(noted, finding, settings) ?? [])
    .filter(({ edits }) => mends(noted, edits, finding.code))
    .map((each, i): Fix => ({
      ...each,
      mark: marked,
      preferred: offers.length === 0 && i === 0,
      kind: 'fix',
    }));
  return [...offers, ...own];
}

/** The likely meanings that mend the line; all of them where none does yet, since the next finding then says what else. */
function fitting(noted: Noted, finding: Finding): readonly string[] {
  const texts = offered(finding);
  if (texts.length < 2) return texts;
  const { range } = mark(finding);
  const mending = texts.filter((text) => mends(noted, [{ range, text }], finding.code));
  return mending.length > 0 ? mending : texts;
}

/** All findings of one kind at once, where each has one likely meaning only. */
function ofAll(noted: Noted, touched: readonly Finding[], all: readonly Finding[]): readonly Fix[] {
  const codes = new Set(touched.map(({ code }) => code));
  return [...codes].flatMap((code): Fix[] => {
    const alike = all.filter((finding) => finding.code === code && offered(finding).length === 1);
    const here = touched.find((finding) => alike.includes(finding));
    if (!here || alike.length < 2) return [];
    const edits = alike.map((finding) => ({ range: mark(finding).range, text: offered(finding)[0] ?? '' }));
    if (!mends(noted, edits, code)) return [];
    return [
      {
        title: said('Mend all {0} of this kind', alike.length),
        mark: mark(here),
        edits,
        preferred: false,
        kind: 'fix',
      },
    ];
  });
}

/** What can be done with the line where the range begins, without anything being wrong with it. */
function ofLine(noted: Noted, range: Range): readonly Fix[] {
  const row = noted.sheet.rowAt(range.line);
  if (row?.block.word !== 'figures') return [];
  const tried = (kind: Fix['kind'], found: readonly Proposal[]): readonly Fix[] =>
    found
      .filter(({ edits }) => harmless(noted, edits))
      .map((each) => ({ ...each, mark: null, preferred: false, kind }));
  return [
    ...tried('fix', readingFixes(noted, row)),
    ...tried('rewrite', conversions(noted, row, range.column - row.column)),
  ];
}

function offered({ data }: Finding): readonly string[] {
  const offers: unknown = data['offers'];
  return Array.isArray(offers) ? offers.filter((text): text is string => typeof text === 'string') : [];
}
