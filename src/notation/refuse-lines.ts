import type { LineFinding } from '../quantity/finding';
import type { Scanner } from './scanner';
import type { Comparison, FenceWord, Statement, Word } from './syntax';
const here = (s: Scanner): null => s.refuse('not-understood', Math.min(s.pos, s.end), s.end, { offers: [] });
export const badComparison = (_s: Scanner): boolean => false;
const NONE: readonly LineFinding[] = [];
export const hiddenMarks = (_comment: Word): readonly LineFinding[] => NONE;
export const lineTooLong = (text: string): Statement => ({
  kind: 'broken',
  name: null,
  comment: null,
  findings: [{ code: 'line-too-long', start: 0, end: text.length, data: {} }],
});
export const refuseChain = (s: Scanner, _at: number, _c: Comparison): null => here(s);
export const refuseFieldAssigned = (s: Scanner, _name: Word): null => here(s);
export const refuseInCard = (s: Scanner, _word: FenceWord): null => here(s);
export const refuseReserved = (s: Scanner, _name: Word): null => here(s);
export const refuseWordsInFigures = (s: Scanner, _key: Word, _colon: number): null => here(s);
