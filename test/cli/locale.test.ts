/** A machine set to another language reads and writes the same notation: a point before decimals, and the same order. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import process from 'node:process';
import { expect, it } from 'vitest';
import manifest from '../../package.json';
import { folder } from './folder';

const BIN = join(import.meta.dirname, '../..', manifest.bin.scribeline);
const NOTE = [
  '---',
  'due: 2026-12-01',
  '---',
  '```figures',
  'a = 12345.678 mm ± 0.05',
  'b = 1 3/8 in to mm',
  'I_i = 1.5 h',
  'wrong = 1,5 mm',
  '```',
  '',
].join('\n');

it.each(['de_DE.UTF-8', 'fr_FR.UTF-8', 'tr_TR.UTF-8', 'ar_EG.UTF-8', 'hi_IN.UTF-8'])(
  'with the language set to %s the answers are the same',
  (locale) => {
    const at = folder({ 'ä.md': NOTE, 'z.md': NOTE, 'I.md': NOTE, 'ı.md': NOTE });
    const said = (words: readonly string[], lang: string): unknown => {
      const own = { LANG: lang, LC_ALL: lang, LC_NUMERIC: lang, LANGUAGE: lang.slice(0, 2) };
      const env = { ...process.env, ...own };
      const { status, stdout, stderr } = spawnSync(process.execPath, [BIN, ...words], {
        cwd: at,
        env,
        encoding: 'utf8',
      });
      return [status, stdout, stderr];
    };
    // What Node makes of it: the test would show nothing where the language did not arrive.
    const node = spawnSync(process.execPath, ['-p', '(1.5).toLocaleString()'], {
      env: { ...process.env, LANG: locale, LC_ALL: locale },
      encoding: 'utf8',
    });
    expect([locale, node.stdout.trim() === '1.5']).toEqual([locale, /^(?:hi)/.test(locale)]);
    for (const words of [
      ['check', '.'],
      ['check', '.', '--json'],
      ['find', 'a > 12 m', '.'],
      ['sheet', 'z.md', '--units', 'both'],
      ['formulas', '--json'],
    ])
      expect(said(words, locale)).toEqual(said(words, 'C'));
  },
);
