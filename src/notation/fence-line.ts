/** The words after the backticks: ` ```figures on lathe, mill `, ` ```machine NAME `. */
import type { LineFinding } from '../quantity/finding';
import { isBlank, nameEnd, skipBlanks } from './characters';
import { parseableName } from './near';
import type { FenceWord, Word } from './syntax';

export interface FenceLine {
  readonly word: FenceWord;
  readonly name: Word | null;
  readonly on: readonly Word[];
  readonly findings: readonly LineFinding[];
}

const WORDS: ReadonlySet<string> = new Set<FenceWord>(['figures', 'machine', 'material', 'signed']);

/** What the fence line says; null when the fence is not ours. `column` is where `info` begins in the note's line. */
export function readFenceLine(info: string, column: number): FenceLine | null {
  const start = skipBlanks(info, 0);
  let end = start;
  while (end < info.length && !isBlank(info.charCodeAt(end))) end++;
  const word = info.slice(start, end);
  if (!isFenceWord(word)) return null;
  const findings: LineFinding[] = [];
  const refuse = (code: string, from: number, to: number, offers: readonly string[]): void => {
    findings.push({ code, start: column + from, end: column + to, data: { word, offers } });
  };
  let last = info.length;
  while (isBlank(info.charCodeAt(last - 1))) last--;
  const from = Math.min(skipBlanks(info, end), last);
  const line = { word, name: null, on: [], findings };
  if (word === 'figures') return { ...line, on: machinesOn(info, from, last, column, refuse) };
  if (word === 'signed') {
    if (from < last) refuse('fence-word-unknown', end, last, ['']);
    return line;
  }
  return { ...line, name: cardName(info, word, end, from, last, column, refuse) };
}

/** Our words in other letters, as telephones write them, or with a sign behind. */
const ALMOST = /^\s*((figures?|machine|material|signed)[:,]?)(?!\S)/i;

/** What is said of a fence that is not ours but nearly has our word; null of any other. */
export function almostFence(info: string, column: number): LineFinding | null {
  const [whole = '', written = '', word = ''] = ALMOST.exec(info) ?? [];
  if (whole === '') return null;
  const end = column + whole.length;
  const offers = [word.toLowerCase().replace(/^figure$/, 'figures')];
  return { code: 'fence-ignored', start: end - written.length, end, data: { written, offers } };
}

function isFenceWord(word: string): word is FenceWord {
  return WORDS.has(word);
}

type Refuse = (code: string, from: number, to: number, offers: readonly string[]) => void;

function machinesOn(info: string, from: number, last: number, column: number, refuse: Refuse): Word[] {
  if (from === last) return [];
  const wordEnd = nameEnd(info, from);
  const saysOn = info.slice(from, wordEnd) === 'on';
  const names = info
    .slice(saysOn ? wordEnd : from, last)
    .split(/[\s,;]+|\band\b/)
    .filter((name) => name !== '');
  const made = names.map(parseableName).filter((name) => name !== null);
  const offers = [made.length > 0 ? `on ${made.join(', ')}` : ''];
  if (!saysOn) {
    refuse('fence-word-unknown', from, last, offers);
    return [];
  }
  const on: Word[] = [];
  let at = skipBlanks(info, wordEnd);
  for (;;) {
    const end = nameEnd(info, at);
    if (end === at) break;
    on.push({ start: column + at, end: column + end, text: info.slice(at, end) });
    at = skipBlanks(info, end);
    if (at >= last) return on;
    if (info[at] !== ',') break;
    at = skipBlanks(info, at + 1);
  }
  refuse('fence-machine-missing', from, last, offers);
  return on;
}

function cardName(
  info: string,
  word: string,
  wordEnd: number,
  from: number,
  last: number,
  column: number,
  refuse: Refuse,
): Word | null {
  const end = nameEnd(info, from);
  if (end > from && end === last)
    return { start: column + from, end: column + end, text: info.slice(from, end) };
  if (from >= last) {
    refuse('card-name-missing', wordEnd - word.length, wordEnd, [`${word} my_${word}`]);
    return null;
  }
  const made = parseableName(info.slice(from, last));
  refuse('card-name-odd', from, last, made === null ? [] : [made]);
  return null;
}
