/** Names where a value may stand: figures, formulas with places to fill in, cards, and what the argument at hand takes. */
import type { Sheet } from '../engine/index';
import { MATHEMATICS } from '../quantity/mathematics';
import type { Parameter } from '../trade/formula';
import { allFormulas, formulaNamed } from '../trade/index';
import { isoCodes } from './complete-limits';
import type { Answer } from './completion';
import { type Cursor, GIVEN, openCall } from './cursor';
import { expectedDimension, expectedParameter } from './expected';
import { valueText } from '../engine/wording';

/** Figures listed; a note with more is searched by typing. */
const MOST_NAMES = 2000;
const LONG = 48;

export function names(sheet: Sheet, cursor: Cursor): readonly Answer[] {
  const parameter = expectedParameter(cursor.before);
  if (parameter?.kind === 'machine' || parameter?.kind === 'material') return cards(sheet, parameter.kind);
  if (parameter?.kind === 'code') return isoCodes(null);
  if (parameter?.words)
    return parameter.words.map((label) => ({ label, kind: 'word', detail: parameter.name }));
  const inCard = cursor.block.word !== 'figures';
  return [
    ...figures(sheet, cursor),
    ...parametersLeft(cursor.before),
    ...(inCard ? [] : [{ label: 'job', kind: 'figure' as const, detail: 'the head of the note' }]),
    ...formulas(sheet),
    ...functions(),
    ...(inCard ? [] : cards(sheet, null)),
  ];
}

/** Figures of the kind that belongs here first, each group in the order of the note. */
function figures(sheet: Sheet, cursor: Cursor): readonly Answer[] {
  const wanted = expectedDimension(sheet, cursor);
  const own = GIVEN.exec(cursor.before)?.[1];
  const fitting: Answer[] = [];
  const others: Answer[] = [];
  for (const label of sheet.names(MOST_NAMES)) {
    if (label === own) continue;
    const value = sheet.valueOf(label);
    const fits = value?.kind === 'number' && value.dimension === wanted;
    const answer: Answer = {
      label,
      kind: 'figure',
      detail: value ? short(valueText(value)) : 'no value yet',
    };
    (fits ? fitting : others).push(answer);
  }
  return [...fitting, ...others];
}

function short(text: string): string {
  return text.length > LONG ? `${text.slice(0, LONG - 1)}…` : text;
}

/** Parameters that may be left out and were not given yet, to be named. */
function parametersLeft(before: string): readonly Answer[] {
  const call = openCall(before);
  if (!call || call.named !== null) return [];
  return (formulaNamed(call.name)?.parameters ?? []).flatMap((parameter, i): Answer[] => {
    const { name, optional, meaning } = parameter;
    if (i < call.index || call.given.includes(name) || (i === call.index && optional !== true)) return [];
    return [{ label: `${name}:`, kind: 'parameter', detail: meaning, insert: `${name}: `, typed: name }];
  });
}

function formulas(sheet: Sheet): readonly Answer[] {
  return allFormulas().map((formula) => ({
    label: formula.name,
    kind: 'formula',
    detail: formula.title,
    insert: `${formula.name}(${formula.parameters
      .filter((p) => p.optional !== true)
      .map((p, i) => toFill(sheet, p, i + 1))
      .join(', ')})`,
    snippet: true,
    formula: formula.name,
  }));
}

/** A place to fill in, by the parameter's name, which is a figure's where one is called so; cards and words are chosen from. */
function toFill(sheet: Sheet, { name, kind, words }: Parameter, place: number): string {
  const options = kind === 'machine' || kind === 'material' ? cardNames(sheet, kind) : (words ?? []);
  if (options.length > 0) return `\${${place}|${options.join(',')}|}`;
  return `\${${place}:${kind === 'code' ? 'H7' : name}}`;
}

function functions(): readonly Answer[] {
  return [...MATHEMATICS.values()].map(({ name, meaning, parameters }) => ({
    label: name,
    kind: 'formula',
    detail: meaning,
    insert: `${name}(${parameters
      .filter((p) => p.optional !== true)
      .map((p, i) => `\${${i + 1}:${p.name}}`)
      .join(', ')})`,
    snippet: true,
    formula: name,
  }));
}

/** The shop's own before the starter cards. */
function cardNames(sheet: Sheet, kind: 'machine' | 'material'): readonly string[] {
  const all = sheet.cards().filter(({ word }) => word === kind);
  return [...all].sort((a, b) => Number(a.builtIn) - Number(b.builtIn)).map(({ name }) => name);
}

function cards(sheet: Sheet, kind: 'machine' | 'material' | null): readonly Answer[] {
  const kinds = kind === null ? (['machine', 'material'] as const) : [kind];
  return kinds.flatMap((each) =>
    cardNames(sheet, each).map((label): Answer => ({ label, kind: 'card', detail: each })),
  );
}

/** The words that make a line a record of what was read or run. */
export function recordWords(): readonly Answer[] {
  return [
    { label: 'measured', kind: 'word', detail: 'readings on the way: what is left', insert: 'measured ' },
    { label: 'final', kind: 'word', detail: 'readings at inspection', insert: 'final ' },
    { label: 'used', kind: 'word', detail: 'what was really run', insert: 'used ' },
    { label: 'to', kind: 'word', detail: 'shown in another unit', insert: 'to ' },
  ];
}
