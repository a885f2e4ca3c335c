/** Limits after a size that is written out: ISO 286 codes with what they allow, and `±` for who has no key for it. */
import { parseLine } from '../notation/line';
import { LENGTH } from '../quantity/dimension';
import { HOLE_LETTERS, SHAFT_LETTERS, isoLimits } from '../quantity/iso286';
import type { Answer } from './completion';

interface Size {
  /** In mm. */
  readonly nominal: number;
  readonly typed: string;
}

const SIZE = /^\s*[\p{L}_][\p{L}\p{N}_]*\s*=\s*(.*\S)\s+((?:[A-Za-z]{1,2}\d{0,2})?|\+-?)$/u;

/** The length that a figure's line states before the cursor, with what was typed after it; null without one. */
export function sizeBefore(before: string): Size | null {
  const [, stated = '', typed = ''] = SIZE.exec(before) ?? [];
  const statement = parseLine(`x = ${stated}`, 'figures');
  if (statement.kind !== 'figure' || statement.limits !== null || statement.to !== null) return null;
  const { expression } = statement;
  if (expression.kind !== 'quantity' || expression.unit.dimension !== LENGTH) return null;
  return { nominal: expression.value, typed };
}

/** What fits are made of most, from common practice; every other code of the table comes after. */
const COMMON = 'H7 h6 H8 h7 g6 f7 H6 H11 h9 h11 js6 k6 m6 n6 p6 s6 e8 d9 G7 F8 JS7 K7 N7 P7'.split(' ');

/** The codes that the table has for a size, each with its limits. Without a size they stand as words. */
export function isoCodes(nominal: number | null): readonly Answer[] {
  const letters = [...HOLE_LETTERS.split(' '), ...SHAFT_LETTERS.split(' ')];
  const all = letters.flatMap((letter) => Array.from({ length: 9 }, (_, i) => `${letter}${i + 5}`));
  return [...new Set([...COMMON, ...all])].flatMap((code): Answer[] => {
    if (nominal === null) return [{ label: code, kind: 'code', detail: 'ISO 286' }];
    const limits = isoLimits(nominal, code);
    if ('kind' in limits) return [];
    const detail = `${signed(limits.upper)}/${signed(limits.lower)} µm  ${limits.sense}`;
    return [{ label: code, kind: 'code', detail }];
  });
}

function signed(value: number): string {
  return value > 0 ? `+${value}` : value < 0 ? `−${-value}` : '0';
}

/** The signs that begin limits; `+-` becomes `±`. */
export const LIMIT_SIGNS: readonly Answer[] = [
  {
    label: '±',
    kind: 'word',
    detail: 'both ways alike',
    insert: '± ${1:0.05 mm}',
    snippet: true,
    typed: '+-',
  },
  {
    label: '+0.02/-0.01 mm',
    kind: 'word',
    detail: 'upper and lower',
    insert: '${1:+0.02}/${2:-0.01} mm',
    snippet: true,
    typed: '+0.02/-0.01',
  },
];
