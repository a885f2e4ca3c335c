import type { Unit } from '../quantity/unit';
import type { Expression, Limits, QuantityNode } from './syntax';
import type { Scanner } from './scanner';
const here = (s: Scanner): null => s.refuse('not-understood', Math.min(s.pos, s.end), s.end, { offers: [] });
export const refuseFit = (s: Scanner, _n: QuantityNode, _start: number, _slash: number): null => here(s);
export const refuseLimitUnit = (s: Scanner, _start: number, _end: number, _unit: Unit): null => here(s);
export const refuseNominalUnit = (
  s: Scanner,
  _n: Expression,
  _start: number,
  _size: QuantityNode | null,
): null => here(s);
export const refusePercentLimit = (s: Scanner, _n: Expression, _start: number, _size: QuantityNode): null =>
  here(s);
export const refuseRangeUnit = (s: Scanner, _n: Expression, _to: QuantityNode): null => here(s);
export const refuseSense = (s: Scanner, _l: Limits, _start: number, _end: number): null => here(s);
export const refuseSignedLimit = (s: Scanner, _start: number): null => here(s);
