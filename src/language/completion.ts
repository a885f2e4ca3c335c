/** What could be written where the cursor stands. Nothing of ours outside our blocks, on their comments and words. */
import type { Sheet } from '../engine/index';
import { type Cursor, type Question, cursorAt } from './cursor';
import { cardFields } from './complete-cards';
import { fieldsAfter } from './complete-fields';
import { isoCodes, limitSigns, sizeBefore } from './complete-limits';
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
const WORD = /[A-Za-z_µ]\w*$/;
const FIELD = /((?:[A-Za-z_]\w*|\))(?:\.[A-Za-z_]\w*)*)\.(\w*)$/;
/** A number with what may become its unit: letters, and more of them after a `/`. */
const NUMBER = /(?:^|[^\w.])((?:\d[\d./]*|\.\d+)|\d+ \d+\/\d+)( ?)((?:[A-Za-zµ°][\w°^]*(?:[/*][\w°^]*)*)?)$/;
const TO = /^(.*?\S)\s+to\s+([A-Za-zµ°]?[\w/*^°]*)$/;
const LIST_UNIT = /\[[^\][]*\]\s*([A-Za-zµ°]?[\w/*^°]*)$/;
const PLUS_MINUS = /\s(\+-?)$/;
const RECORD = /^\s*[A-Za-z_][\w.]*\s+([a-z]*)$/;

function answersAt(sheet: Sheet, cursor: Cursor): Answers {
  const { before, block } = cursor;
  if (cursor.onFence) return machinesOn(sheet, cursor);
  if (block.word !== 'figures' && /^\s*\w*$/.test(before)) {
    const typed = WORD.exec(before)?.[0] ?? '';
    return { typed, answers: cardFields(sheet, block, typed) };
  }
  if (block.word !== 'figures' && /^\s*\w+\s*:/.test(before)) return NONE;

  const to = TO.exec(before);
  if (to) return { typed: to[2] ?? '', answers: units(sheet, cursor, to[1] ?? '') };
  const list = LIST_UNIT.exec(before);
  if (list) return { typed: list[1] ?? '', answers: units(sheet, cursor) };
  const number = NUMBER.exec(before);
  if (number) {
    const answers = units(sheet, cursor);
    return { typed: number[3] ?? '', answers: number[2] === '' ? answers.map(apart) : answers };
  }
  const size = sizeBefore(before);
  if (size) return { typed: size.typed, answers: [...isoCodes(size.nominal), ...limitSigns(size)] };
  const sign = PLUS_MINUS.exec(before);
  if (sign) return { typed: sign[1] ?? '', answers: limitSigns(null) };
  const field = FIELD.exec(before);
  if (field)
    return {
      typed: field[2] ?? '',
      answers: fieldsAfter(sheet, before.slice(0, -(field[2] ?? '').length - 1)),
    };
  const record = RECORD.exec(before);
  if (record && block.word === 'figures') return { typed: record[1] ?? '', answers: recordWords() };
  const typed = WORD.exec(before)?.[0] ?? '';
  // A digit straight before is a number that has its unit already, or a slip.
  if (/[\d.]$/.test(before.slice(0, before.length - typed.length))) return NONE;
  return { typed, answers: names(sheet, cursor) };
}

/** A unit typed straight after its number gets the blank that drawings leave there. */
function apart(answer: Answer): Answer {
  const tight = answer.label === '°' || answer.label === '%';
  return tight ? answer : { ...answer, insert: ` ${answer.label}`, typed: answer.label };
}

function machinesOn(sheet: Sheet, { before, block }: Cursor): Answers {
  if (block.word !== 'figures') return NONE;
  const typed = WORD.exec(before)?.[0] ?? '';
  if (/^figures\s+\w*$/.test(before) && !/^figures\s+on\s*$/.test(before))
    return {
      typed,
      answers: [{ label: 'on', kind: 'word', detail: 'held to a machine card', insert: 'on ' }],
    };
  if (!/^figures\s+on\s+/.test(before)) return NONE;
  const taken = new Set(before.slice(0, before.length - typed.length).split(/[\s,]+/));
  const machines = sheet.cards().filter(({ word, name }) => word === 'machine' && !taken.has(name));
  return { typed, answers: machines.map(({ name }) => ({ label: name, kind: 'card', detail: 'machine' })) };
}
