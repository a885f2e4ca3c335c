/** A sheet sorted by where things stand, made once and asked for each block. */
import type { Finding, Row, Sheet } from '../engine/index';
import type { Block } from '../notation/syntax';
import { cautionsByFence } from './cautions';
import { type How, PREVIEW } from './how';

export interface View {
  readonly sheet: Sheet;
  readonly how: How;
  /** The lines of a block, by the line of its fence. */
  readonly rows: ReadonlyMap<number, readonly Row[]>;
  /** How many of its lines are not among them, since a page of that length could not be read anyway. */
  readonly left: ReadonlyMap<number, number>;
  /** Findings in the note itself, by line. */
  readonly findings: ReadonlyMap<number, readonly Finding[]>;
  /** What to mind, by the line of the fence under which it is said. */
  readonly cautions: ReadonlyMap<number, readonly string[]>;
  /** The first line whose working no longer unfolds: making them all would take too long between two keys. */
  readonly unfoldsBefore: number;
  /** Lines before this one belong to no block of ours: their findings are shown with the first. */
  readonly firstFence: number | undefined;
}

/** Lines of a note that are drawn. A browser needs seconds for a table of many more. */
const MOST_LINES = 10_000;

const MOST_UNFOLDING = 300;

export function view(sheet: Sheet, how: How = PREVIEW): View {
  const all = sheet.rows();
  const rows = grouped(all.slice(0, MOST_LINES), (row) => row.block.fenceLine);
  const left = new Map<number, number>();
  for (const { block } of all.slice(MOST_LINES))
    left.set(block.fenceLine, (left.get(block.fenceLine) ?? 0) + 1);
  return {
    sheet,
    how,
    rows,
    left,
    findings: grouped(sheet.findings(), (finding) => finding.line),
    cautions: cautionsByFence(sheet, all),
    unfoldsBefore: all[MOST_UNFOLDING]?.line ?? Infinity,
    firstFence: sheet.note.blocks.find((block) => block.word !== 'signed')?.fenceLine,
  };
}

/** What is wrong with the fence line itself and, for the first block, with all that stands before it. */
export function findingsAbove({ findings, firstFence }: View, { fenceLine }: Block): readonly Finding[] {
  if (fenceLine !== firstFence) return findings.get(fenceLine) ?? [];
  return [...findings].filter(([line]) => line <= fenceLine).flatMap(([, found]) => found);
}

function grouped<T>(items: readonly T[], by: (item: T) => number): Map<number, T[]> {
  const groups = new Map<number, T[]>();
  for (const item of items) {
    const group = groups.get(by(item));
    if (group) group.push(item);
    else groups.set(by(item), [item]);
  }
  return groups;
}
