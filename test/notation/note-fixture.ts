/**
 * Whole notes with what is expected of them in a comment at their end:
 *
 *     <!-- expected
 *     3:4-9 fence-not-closed
 *     near card-name-missing
 *     -->
 *
 * Lines and columns count from 1, ends are exclusive; offers follow in backticks.
 */
import { readFileSync, readdirSync } from 'node:fs';

export interface ExpectedNote {
  readonly file: string;
  readonly text: string;
  readonly findings: readonly string[];
  readonly codes: readonly string[];
  readonly near: readonly string[];
}

export function readNotes(folder: URL): ExpectedNote[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.md'))
    .sort()
    .map((file) => readExpected(file, readFileSync(new URL(file, folder), 'utf8')));
}

function readExpected(file: string, whole: string): ExpectedNote {
  const at = whole.indexOf('<!-- expected');
  if (at === -1) throw new Error(`${file} expects nothing`);
  const lines = whole
    .slice(at)
    .split('\n')
    .slice(1, -1)
    .map((line) => line.trim())
    .filter((line) => line !== '-->' && line !== '');
  const findings = lines.filter((line) => /^\d/.test(line));
  return {
    file,
    text: whole.slice(0, at),
    findings,
    codes: findings.map((line) => line.split(' ')[1] ?? ''),
    near: lines.filter((line) => line.startsWith('near ')).flatMap((line) => line.slice(5).split(/, */)),
  };
}
