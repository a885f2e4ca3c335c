/** What was signed off against what the note says now. Signed results are compared, never recalculated. */
import { parseLine } from '../notation/line';
import type { Block, Statement } from '../notation/syntax';
import { show } from '../quantity/display';
import type { FaultData } from '../quantity/value';
import { valueNow } from './planned';
import type { Sheet } from './sheet';
import { literalOf } from './statement';
import { pair } from './wording';

/** A signed result that no longer comes out so, with the line of the block it stands in. */
export interface Differs {
  readonly code: 'signed-differs' | 'signed-gone';
  readonly line: number;
  readonly start: number;
  readonly end: number;
  readonly data: FaultData;
}

/** Signed figures are written with nine digits; anything beyond their rounding is a change. */
const ALIKE = 2e-8;
/** What rounding leaves of a zero, base units. */
export const NOTHING = 1e-9;
/** As many lines as a signed block is looked at for. */
const MOST = 5_000;

/** Only the last record counts; those before it are kept to be read. */
export function lastSigned(blocks: readonly Block[]): Block | null {
  return blocks.filter((block) => block.word === 'signed').at(-1) ?? null;
}

export function signedLines(block: Block): readonly Statement[] {
  return block.content.split('\n', MOST).map((text) => parseLine(text, 'signed'));
}

export function differences(sheet: Sheet, block: Block): readonly Differs[] {
  const signedOn = new Map<string, string>();
  const found: Differs[] = [];
  signedLines(block).forEach((statement, line) => {
    if (statement.kind === 'words') signedOn.set(statement.key.text, statement.words.text);
    if (statement.kind !== 'figure') return;
    const then = literalOf(statement.expression);
    if (then === null) return;
    const { text: name, start } = statement.name;
    const now = valueNow(sheet, name);
    const { end } = statement.expression;
    const date = signedOn.get('date') ?? '';
    if (now === null) {
      found.push({ code: 'signed-gone', line, start, end, data: { name, then: show(then), date } });
    } else if (now.dimension !== then.dimension || !alike(now.value, then.value)) {
      const same = now.dimension === then.dimension;
      const [before, after] = same ? pair(then, now) : [show(then), show(now)];
      found.push({
        code: 'signed-differs',
        line,
        start,
        end,
        data: { name, then: before, now: after, date },
      });
    }
  });
  return found;
}

const alike = (a: number, b: number): boolean =>
  Math.abs(a - b) <= Math.max(NOTHING, ALIKE * Math.max(Math.abs(a), Math.abs(b)));
