/** What could be written in the place of a finding: the likely meanings it offers. */
import type { Sheet } from '../engine/index';
import { type Mark, type Range, mark, overlaps } from './diagnostics';

export interface Fix {
  readonly title: string;
  readonly mark: Mark;
  readonly range: Range;
  readonly text: string;
  /** True when it is the only meaning on offer, so that the editor may take it by one key. */
  readonly preferred: boolean;
}

/** The fixes for all findings that touch the range. They depend on code and data, never on a message's words. */
export function fixes(sheet: Sheet, range: Range): readonly Fix[] {
  return sheet.findings().flatMap((finding) => {
    const marked = mark(finding);
    if (finding.file !== null || !overlaps(marked.range, range)) return [];
    const texts = offered(finding.data['offers']);
    return texts.map((text) => ({
      title: `Write ${text}`,
      mark: marked,
      range: marked.range,
      text,
      preferred: texts.length === 1,
    }));
  });
}

function offered(offers: unknown): readonly string[] {
  return Array.isArray(offers) ? offers.filter((text): text is string => typeof text === 'string') : [];
}
