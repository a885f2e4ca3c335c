/** Stub while the common forms are proved. */
import type { Scanner } from './scanner';
import type { Expression, Span } from './syntax';

const here = (s: Scanner): null => s.refuse('not-understood', Math.min(s.pos, s.end), s.end, { offers: [] });
export const expectedOperand = here;
export const expectedArgument = (s: Scanner, _at: number): null => here(s);
export const expectedOperator = (s: Scanner, _of: Expression, _open: number): null => here(s);
export const expectedLimit = here;
export const expectedUnit = (s: Scanner, _start: number): null => here(s);
export const expectedEnd = (s: Scanner, _where: string, _last: Span): null => here(s);
