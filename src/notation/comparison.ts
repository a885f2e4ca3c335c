/** The signs of a check. */
import { refuseComparison } from './refuse-lines';
import type { Scanner } from './scanner';
import type { Comparison } from './syntax';

const EQUALS = 0x3d;

/** A comparison sign at `s.pos`, passed; null when there is none or it is written wrongly. */
export function parseComparison(s: Scanner): Comparison | null {
  const c = s.at(s.pos);
  const next = s.at(s.pos + 1);
  switch (c) {
    case 0x2264:
      return next === EQUALS ? null : passed(s, 1, '<=');
    case 0x2265:
      return next === EQUALS ? null : passed(s, 1, '>=');
    case 0x2260:
      return passed(s, 1, '!=');
    case 0x3c:
      if (next === EQUALS) return once(s, '<=');
      return refuseComparison(s) ? null : passed(s, 1, '<');
    case 0x3e:
      if (next === EQUALS) return once(s, '>=');
      return refuseComparison(s) ? null : passed(s, 1, '>');
    case EQUALS:
      return next === EQUALS ? once(s, '==') : null;
    case 0x21:
      return next === EQUALS ? once(s, '!=') : null;
    default:
      return null;
  }
}

/** A sign that ends with `=`, unless one more follows. */
function once(s: Scanner, comparison: Comparison): Comparison | null {
  return s.at(s.pos + 2) === EQUALS ? null : passed(s, 2, comparison);
}

function passed(s: Scanner, length: number, comparison: Comparison): Comparison {
  s.pos += length;
  return comparison;
}

/** A chain goes up or down all along; `==` and `!=` compare two only. */
export function oneWay(comparisons: readonly Comparison[]): boolean {
  const first = comparisons[0]?.charAt(0);
  return (
    comparisons.length === 1 ||
    ((first === '<' || first === '>') && comparisons.every((c) => c.startsWith(first)))
  );
}
