/** What is wrong or worth knowing in a note, as the editor marks it. */
import type { Sheet } from '../engine/index';
import type { Finding, Range, Related } from '../engine/results';
import type { Severity } from '../quantity/finding';

export type { Range };

export interface Mark {
  readonly range: Range;
  readonly severity: Severity;
  readonly code: string;
  readonly message: string;
  readonly related: readonly Related[];
}

/** The marks of the note itself; a fault in a shop file is marked in that file. */
export function marks(sheet: Sheet): readonly Mark[] {
  return sheet.findings().map(mark);
}

export function mark({ code, severity, message, related, ...place }: Finding): Mark {
  return { range: rangeOf(place), severity, code, message, related };
}

export function rangeOf({ line, column, endLine, endColumn }: Range): Range {
  return { line, column, endLine, endColumn };
}

export function overlaps(a: Range, b: Range): boolean {
  const before = (line: number, column: number, line2: number, column2: number): boolean =>
    line < line2 || (line === line2 && column <= column2);
  return before(a.line, a.column, b.endLine, b.endColumn) && before(b.line, b.column, a.endLine, a.endColumn);
}
