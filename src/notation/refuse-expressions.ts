import type { Expression, QuantityNode } from './syntax';
import type { Scanner } from './scanner';
const here = (s: Scanner): null => s.refuse('not-understood', Math.min(s.pos, s.end), s.end, { offers: [] });
export const refuseCaret = (s: Scanner, _base: QuantityNode): null => here(s);
export const refuseDepth = here;
export const refuseFractionAfterDivision = (s: Scanner, _start: number): null => here(s);
export const refuseFractionAfterNumber = (
  _s: Scanner,
  _l: Expression,
  _op: number,
  _r: Expression,
): boolean => false;
export const refuseListArithmetic = (s: Scanner, _l: Expression, _r: Expression): null => here(s);
export const refuseUnitAlone = (s: Scanner, _start: number, _end: number): null => here(s);
