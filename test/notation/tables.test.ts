/**
 * Tables: a line to each row, and after the arrow what is said of it.
 *
 *     a = 5 ⟦–⟧ 3     → odd-character: `-`
 *     a = 5 - 3       → reads a: (5 - 3)
 *
 * `⟦ ⟧` marks the range, backticks hold the offers. `‹200B›` stands for the character U+200B. A heading that names a kind
 * of fence says where the lines stand.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseLine } from '../../src/notation/line';
import type { FenceWord } from '../../src/notation/syntax';
import { unescape } from './fixture';
import { statementText } from './reading';

interface Row {
  readonly place: string;
  readonly word: FenceWord;
  readonly line: string;
  readonly said: string;
}

const FOLDER = new URL('tables/', import.meta.url);
const WORDS: readonly FenceWord[] = ['machine', 'material', 'signed'];

function rowsOf(file: string): Row[] {
  let word: FenceWord = 'figures';
  return readFileSync(new URL(file, FOLDER), 'utf8')
    .split('\n')
    .flatMap((text, index) => {
      if (text.startsWith('#')) word = WORDS.find((known) => text.includes(`\`${known}\``)) ?? 'figures';
      const [line, said] = text.split('→').map((part) => part.trim());
      return line === undefined || said === undefined ? [] : [{ place: `${index + 1}`, word, line, said }];
    });
}

/** The line with the finding's range marked, and the finding, as the tables write them. */
function readAgain(line: string, word: FenceWord): string[] {
  const statement = parseLine(line, word);
  const [finding] = statement.findings;
  if (finding === undefined) return [line, `reads ${statementText(statement)}`];
  const { code, start, end, data } = finding;
  const offers = ((data['offers'] ?? []) as readonly string[]).map((offer) => `\`${offer}\``);
  return [
    `${line.slice(0, start)}⟦${line.slice(start, end)}⟧${line.slice(end)}`,
    `${code}${offers.length > 0 ? `: ${offers.join(' ')}` : ''}`,
  ];
}

describe.each(readdirSync(FOLDER).sort())('%s', (file) => {
  it.each(rowsOf(file).map((row) => [row.place, row.line, row] as const))('%s: %s', (_, __, row) => {
    const marked = unescape(row.line);
    expect(readAgain(marked.replace(/[⟦⟧]/g, ''), row.word)).toEqual([marked, row.said]);
  });
});
