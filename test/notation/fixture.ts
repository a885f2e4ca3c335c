/**
 * Fixture notes: markdown in which what is expected stands below each line of code, as comments.
 *
 *       x = 1-3/8 in
 *     #     ^^^^^^^^ mixed-number-with-sign
 *     # write `1 3/8 in` or `1in - 3/8 in`
 *       x = 1 3/8 in
 *     # reads x: 1.375 in
 *     # near mixed-number-with-sign
 *
 * `^` marks the range and names the finding, `write` lists its offers, `reads` tells what a good line means, and `near`
 * names the findings that the good line only just avoids. `‹200B›` stands for the character U+200B.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { readNote } from '../../src/notation/note';
import type { FenceWord } from '../../src/notation/syntax';

export interface Expected {
  readonly file: string;
  readonly line: number;
  readonly word: FenceWord;
  /** The code with its characters put in. */
  readonly code: string;
  readonly reads: string | null;
  readonly finding: { readonly code: string; readonly start: number; readonly end: number } | null;
  readonly offers: readonly string[];
  readonly near: readonly string[];
}

const ESCAPE = /‹([0-9A-F]{2,6})›/g;

export function unescape(text: string): string {
  return text.replace(ESCAPE, (_, hex: string) => String.fromCodePoint(Number.parseInt(hex, 16)));
}

export function readFixtures(folder: URL): Expected[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.md'))
    .sort()
    .flatMap((file) => readFixture(file, readFileSync(new URL(file, folder), 'utf8')));
}

function readFixture(file: string, text: string): Expected[] {
  const out: Expected[] = [];
  for (const block of readNote(text).blocks) {
    const lines = block.content.split('\n').slice(0, -1);
    for (let i = 0; i < lines.length; i++) {
      const raw = lines[i] ?? '';
      if (raw.trim() === '' || raw.startsWith('#')) continue;
      const notes: string[] = [];
      while ((lines[i + 1] ?? '').startsWith('#')) notes.push(lines[++i] ?? '');
      out.push(expected(file, block.firstLine + i - notes.length + 1, block.word, raw, notes));
    }
  }
  return out;
}

function expected(
  file: string,
  line: number,
  word: FenceWord,
  raw: string,
  notes: readonly string[],
): Expected {
  let reads: string | null = null;
  let finding: Expected['finding'] = null;
  let offers: string[] = [];
  const near: string[] = [];
  for (const note of notes) {
    const said = note.slice(1).trim();
    const carets = /\^+/.exec(note);
    if (said.startsWith('reads ')) reads = unescape(said.slice(6));
    else if (said.startsWith('near ')) near.push(...said.slice(5).split(/, */));
    else if (said.startsWith('write '))
      offers = [...said.matchAll(/`([^`]*)`/g)].map(([, offer]) => offer ?? '');
    else if (carets) {
      const end = carets.index + carets[0].length;
      const at = (column: number): number => unescape(raw.slice(0, column)).length;
      finding = { code: note.slice(end).trim(), start: at(carets.index), end: at(end) };
    } else throw new Error(`${file}:${line}: not understood: ${note}`);
  }
  if (reads === null && finding === null) throw new Error(`${file}:${line}: nothing is expected of ${raw}`);
  return { file, line, word, code: unescape(raw), reads, finding, offers, near };
}
