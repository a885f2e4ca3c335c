/** Notes for tests: `‸` marks the place that is asked about. */
import { type Sheet, calculate } from '../../src/engine/index';
import type { Shop } from '../../src/engine/index';

const MARK = '‸';

export interface Marked {
  readonly sheet: Sheet;
  readonly line: number;
  readonly column: number;
}

/** The sheet of a note and the place of the mark in it. */
export function marked(text: string, shops: readonly Shop[] = []): Marked {
  const at = text.indexOf(MARK);
  if (at < 0) throw new Error(`no ${MARK} in the note`);
  const before = text.slice(0, at).split('\n');
  const sheet = calculate(before.join('\n') + text.slice(at + MARK.length), shops);
  return { sheet, line: before.length - 1, column: before.at(-1)?.length ?? 0 };
}

/** A note of one block with these lines. */
export function figures(...lines: readonly string[]): string {
  return `\`\`\`figures\n${lines.join('\n')}\n\`\`\`\n`;
}
