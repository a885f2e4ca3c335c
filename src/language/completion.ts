/** What could be written where the cursor stands. Nothing of ours outside our blocks, on their comments and words. */
import type { Sheet } from '../engine/index';
import { type Cursor, NAME, type Question, cursorAt } from './cursor';
import { cardFields } from './complete-cards';
import { fieldsAfter } from './complete-fields';
import { LIMIT_SIGNS, isoCodes, sizeBefore } from './complete-limits';
import { names, recordWords } from './complete-names';
import { units } from './complete-units';

export type CompletionKind = 'figure' | 'field' | 'formula' | 'unit' | 'card' | 'parameter' | 'word' | 'code';

export interface Completion {
  readonly label: string;
  readonly kind: CompletionKind;
  /** A few words or the value, beside the label. */
  readonly detail: string;
  /** What is put in the place of what was typed. */
  readonly insert: string;
  /** True when `insert` holds places to fill in, `${1:name}`. */
  readonly snippet: boolean;
  /** Column of the note's line at which what was typed begins; it ends at the cursor. */
  readonly from: number;
  /** The order among the answers. */
  readonly sort: number;
  /** The formula or plain function to tell more of when somebody asks. */
  readonly formula: string | null;
  /** What is typed to find it, where that is not the label. */
  readonly typed?: string;
}

/** What may be left to the answers' makers: the rest has usual values. */
export type Answer = Pick<Completion, 'label' | 'kind' | 'detail'> & Partial<Completion>;

interface Answers {
  /** The part of the text before the cursor that the answer takes the place of. */
  readonly typed: string;
  readonly answers: readonly Answer[];
}

export function completions(question: Question): readonly Completion[] {
  const cursor = cursorAt(question);
  if (!cursor) return [];
  const found = answersAt(question.sheet, cursor);
  return found.answers.map((answer, i) => ({
    insert: answer.label,
    snippet: false,
    from: question.column - found.typed.length,
    sort: i,
    formula: null,
    ...answer,
  }));
}

const NONE: Answers = { typed: '', answers: [] };
const WORD = new RegExp(`${NAME}$`, 'u');
const FIELD = new RegExp(String.raw`(?:${NAME}|\))(?:\.${NAME})*\.(${NAME}|)$`, 'u');
/** A number with what may become its unit: letters, and more of them after a `/`. */
const NUMBER = /(?:^|[^\p{L}\p{N}_.])(?:\d[\d./]*|\.\d+)( ?)((?:[A-Za-zµ°][\w°^]*(?:[/*][\w°^]*)*)?)$/u;
const TO = /^(.*?\S)\s+to\s+([A-Za-zµ°]?[\w/*^°]*)$/;
const LIST_UNIT = /\[[^\][]*\]\s*([A-Za-zµ°]?[\w/*^°]*)$/;
const PLUS_MINUS = /\s(\+-?)$/;
const RECORD = /^\s*[\p{L}_][\p{L}\p{N}_.]*\s+([a-z]*)$/u;

function answersAt(sheet: Sheet, cursor: Cursor): Answers {
  const { before, block } = cursor;
  if (cursor.onFence) return machinesOn(sheet, cursor);
  if (block.word !== 'figures' && /^\s*[\p{L}\p{N}_]*$/u.test(before)) {
    const typed = WORD.exec(before)?.[0] ?? '';
    return { typed, answers: cardFields(sheet, block, typed) };
  }
  if (/^\s*[\p{L}\p{N}_]+\s*:/u.test(before)) return NONE;

  const to = TO.exec(before);
  if (to) return { typed: to[2] ?? '', answers: units(sheet, cursor, to[1] ?? '') };
  const list = LIST_UNIT.exec(before);
  if (list) return { typed: list[1] ?? '', answers: units(sheet, cursor) };
  const number = NUMBER.exec(before);
  if (number) {
    const answers = units(sheet, cursor);
    return { typed: number[2] ?? '', answers: number[1] === '' ? answers.map(apart) : answers };
  }
  const size = sizeBefore(before);
  if (size) {
    const codes = isoCodes(size.nominal);
    const begun = size.typed.startsWith('+');
    return { typed: size.typed, answers: begun ? [...LIMIT_SIGNS, ...codes] : [...codes, ...LIMIT_SIGNS] };
  }
  const sign = PLUS_MINUS.exec(before);
  if (sign) return { typed: sign[1] ?? '', answers: LIMIT_SIGNS };
  const field = FIELD.exec(before);
  if (field)
    return {
      typed: field[1] ?? '',
      answers: fieldsAfter(sheet, before.slice(0, -(field[1] ?? '').length - 1)),
    };
  const record = RECORD.exec(before);
  if (record && block.word === 'figures') return { typed: record[1] ?? '', answers: recordWords() };
  return { typed: WORD.exec(before)?.[0] ?? '', answers: names(sheet, cursor) };
}

/** A unit typed straight after its number gets the blank that drawings leave there. */
function apart(answer: Answer): Answer {
  const tight = answer.label === '°' || answer.label === '%';
  return tight ? answer : { ...answer, insert: ` ${answer.label}`, typed: answer.label };
}

function machinesOn(sheet: Sheet, { before }: Cursor): Answers {
  const typed = WORD.exec(before)?.[0] ?? '';
  if (/^figures\s+\w*$/.test(before))
    return {
      typed,
      answers: [{ label: 'on', kind: 'word', detail: 'held to a machine card', insert: 'on ' }],
    };
  if (!/^figures\s+on\s+/.test(before)) return NONE;
  const taken = new Set(before.slice(0, before.length - typed.length).split(/[\s,]+/));
  const machines = sheet.cards().filter(({ word, name }) => word === 'machine' && !taken.has(name));
  return { typed, answers: machines.map(({ name }) => ({ label: name, kind: 'card', detail: 'machine' })) };
}
