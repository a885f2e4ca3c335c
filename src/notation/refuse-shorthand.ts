/** Refusals of what shops write in short and the notation writes out: `450 r/min`, `11 tpi`, `25 H7/g6`, `34.9 mm max`. */
import { LENGTH } from '../quantity/dimension';
import { ONE } from '../quantity/unit';
import { mixedPairs } from '../quantity/unit-names';
import { unitNamed } from '../quantity/units';
import { isIsoCode } from './iso-code';
import type { Where } from './refuse-neighbours';
import type { Scanner } from './scanner';
import type { Expression, QuantityNode } from './syntax';

const BRACKET = 0x28;

/** The unit in which what is left over is counted: minutes after hours, inches after feet. */
export function nextSmaller({ unit }: QuantityNode): string | undefined {
  const chain = mixedPairs.find((pair) => pair.includes(unit.symbol)) ?? [];
  return chain[chain.indexOf(unit.symbol) + 1];
}

/** `r/min`, `tr/min`, `U/min`: revolutions as plates of machines have them. */
const TURNS = /(?:t?r|u)\/min(?!\w)/iy;
/** `H7/g6`, `h 7`: one code or two. */
const CODES = /([a-z]{1,2})(\s*)(\d{1,2})(?:\s*\/\s*([a-z]{1,2})\s*(\d{1,2}))?(?![\w.])/iy;

/** True when the word after the quantity `last`, at `s.pos`, is such a short form. */
export function refuseShorthand(
  s: Scanner,
  left: Expression,
  last: QuantityNode,
  word: string,
  where: Where,
): boolean {
  const start = s.pos;
  const end = start + word.length;
  const number = s.slice(last.start, last.end);
  const bare = last.unit === ONE;
  const refuse = (code: string, to: number, ...offers: string[]): true => {
    s.refuse(code, last.start, to, {
      written: s.slice(code === 'unit-unknown' ? start : last.start, to),
      offers,
    });
    return true;
  };
  if (bare) {
    TURNS.lastIndex = start;
    if (TURNS.test(s.text)) return refuse('unit-unknown', TURNS.lastIndex, `${number} rpm`);
    const pitch = `1 in / ${number}`;
    if (/^tpi$/i.test(word)) return refuse('unit-unknown', end, left === last ? pitch : `(${pitch})`);
    // A diametral pitch is a plain number to the formulas.
    if (word === 'DP') return refuse('unit-unknown', end, number);
  }
  if (left !== last || (where !== 'figure' && where !== 'show')) return false;
  const length = last.unit.dimension === LENGTH;
  if ((length ? /^m(?:ax|in)$/i : /^max$/i).test(word) && s.at(end) !== BRACKET)
    return refuse('limit-one-sided', end, ...(unitNamed(word) ? [`${number}/${word}`] : []));
  if (!bare && !length) return false;
  CODES.lastIndex = start;
  const [, letters = '', blank, grade = '', others = '', other = ''] = CODES.exec(s.text) ?? [];
  const stop = CODES.lastIndex;
  const size = bare ? `${number} mm` : number;
  const [hole, shaft] = [letters + grade, others + other];
  if (!isIsoCode(hole)) return false;
  if (isIsoCode(shaft))
    return refuse(
      'fit-not-a-size',
      stop,
      `fit(${size}, ${hole}, ${shaft})`,
      `${size} ${hole}`,
      `${size} ${shaft}`,
    );
  return blank !== '' && refuse('side-by-side', stop, `${size} ${hole}`, `size = ${size} ${hole}`);
}
