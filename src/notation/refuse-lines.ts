/** Refusals of whole lines: what a line may be, and where. */
import type { LineFinding } from '../quantity/finding';
import { skipBlanks } from './characters';
import { parseableName } from './near';
import { TURNS_DIRECTION, codePoint } from './refuse-characters';
import { MAX_LINE, type Scanner } from './scanner';
import type { Comparison, Statement, Word } from './syntax';

const NONE: readonly LineFinding[] = [];

export function lineTooLong(text: string): Statement {
  const finding = {
    code: 'line-too-long',
    start: MAX_LINE,
    end: text.length,
    data: { most: MAX_LINE, offers: [] },
  };
  return { kind: 'broken', name: null, comment: null, findings: [finding] };
}

/** Marks in a comment that turn the direction of text: they can make the code before it look like other code. */
export function hiddenMarks(comment: Word): readonly LineFinding[] {
  const at = comment.text.search(TURNS_DIRECTION);
  if (at === -1) return NONE;
  const start = comment.start + at;
  const character = codePoint(comment.text.charCodeAt(at));
  return [{ code: 'direction-in-comment', start, end: start + 1, data: { character, offers: [''] } }];
}

/** The same marks in the words of a card. */
export function refuseTurned(s: Scanner, from: number): void {
  const words = s.slice(from, s.end);
  const at = words.search(TURNS_DIRECTION);
  if (at === -1) return;
  const character = codePoint(words.charCodeAt(at));
  s.refuse('hidden-character', from + at, from + at + 1, { character, offers: [''] });
}

/** `=<`, `=>`, `<>`, `< =`, `===`: refused at `s.pos`; false when the sign there is written well. */
export function refuseComparison(s: Scanner): boolean {
  const found = /^(=\s*<|=\s*>|<\s*>|<\s+=|>\s+=|=\s+=|!\s+=|={3,}|!={2,}|<{2,}|>{2,}|[<>]={2,}|≤=|≥=)/.exec(
    s.slice(s.pos, s.end),
  );
  if (!found) return false;
  const written = found[0];
  const signs = [...new Set(written.replace(/\s/g, ''))].sort().join('');
  const meant =
    new Map([
      ['<=', '<='],
      ['=>', '>='],
      ['<>', '!='],
      ['=', '=='],
      ['!=', '!='],
      ['<', '<'],
      ['>', '>'],
      ['=≤', '<='],
      ['=≥', '>='],
    ]).get(signs) ?? '';
  s.refuse('comparison-odd', s.pos, s.pos + written.length, { written, offers: [meant] });
  return true;
}

/** `a < b > c`: what holds between a and c is not said. `at` is after the sign. */
export function refuseChain(s: Scanner, at: number, comparison: Comparison): null {
  const start = at - (/[≤≥≠]/.test(s.text.charAt(at - 1)) ? 1 : comparison.length);
  return s.refuse('chain-two-ways', start, at, { written: s.slice(start, at), offers: [] });
}

/** `setup.ring = 29 mm`: a part of a result is what the formula says; what was set or measured is another line. */
export function refuseFieldAssigned(s: Scanner, name: Word): null {
  const offers = [`${name.text} used`, `${name.text.replaceAll('.', '_')} =`];
  return s.refuse('field-assigned', name.start, s.pos, { name: name.text, offers });
}

/** A check or a reading in a block of signed results. */
export function refuseUnsigned(s: Scanner): null {
  return s.refuse('not-signed', skipBlanks(s.text, 0), s.end, { offers: [] });
}

/** `mm = 5`: the name of a unit, or a word of the notation. */
export function refuseReserved(s: Scanner, name: Word): null {
  return s.refuse('name-reserved', name.start, name.end, { name: name.text, offers: [`${name.text}_1`] });
}

/** `note: as drawn`: words stand in cards; in figures they are a comment. */
export function refuseWordsInFigures(s: Scanner, key: Word, colon: number): null {
  const rest = s.slice(colon + 1, s.end).trim();
  const equals = s.text.charAt(colon + 1) === '=' ? rest.slice(1).trim() : rest;
  const whole = s.slice(key.start, s.end);
  return s.refuse('words-in-figures', key.start, s.end, {
    key: key.text,
    offers: [`${key.text} = ${equals}`, `# ${whole}`],
  });
}

/** Letters and marks that are wrong wherever they stand. */
const ANYWHERE = [
  'hidden-character',
  'broken-character',
  'foreign-letter',
  'comparison-odd',
  'chain-two-ways',
];

/** `ring-dia`, `Ø ring`: before a `=` more likely a name than a difference or a figure. */
const MEANT_AS_NAME = /^([\p{L}_][\p{L}\d_]*(-[\p{L}\d_]+)+|[Øø⌀]\s*[\p{L}_][\p{L}\d_]*)$/u;

/**
 * A line that was read as shown and refused, although it has a `=` of its own: then a figure was meant, and what stands
 * before the sign is no name.
 */
export function nameInstead(s: Scanner): void {
  const { finding } = s;
  if (finding === null) return;
  const found = /^[^#([]*?[^#([=<>!≤≥:](?==(?![=<>]))/.exec(s.slice(0, s.end));
  const equals = found?.[0].length;
  if (equals === undefined || ANYWHERE.includes(finding.code)) return;
  const before = s.slice(0, equals).trim();
  if (before === '') return;
  if (finding.code === 'equals-odd' && !MEANT_AS_NAME.test(before)) return;
  s.finding = null;
  refuseName(s, equals);
}

/** What stands before a `=` is no name: `2x = 5 mm`, `ring dia = 5 mm`, `ring-dia = 5 mm`. */
function refuseName(s: Scanner, equals: number): null {
  const start = s.slice(0, equals).search(/\S/);
  const written = s.slice(Math.max(0, start), equals).trimEnd();
  const made = parseableName(written);
  const end = start + written.length;
  return s.refuse('name-odd', Math.max(0, start), end, { written, offers: made === null ? [] : [made] });
}
