/** Units as they follow a number, a list or `to`: `mm`, `m/min`, `kg/m^3`, `µm/°C`, without blanks. */
import type { Unit, UnitPart } from '../quantity/unit';
import { compound, isReserved, unitNamed } from '../quantity/units';
import { codeAt, isDigit, isDivide, isMicro, isMinus, isNamePart, isTimes } from './characters';

export interface Tail {
  readonly unit: Unit;
  /** UTF-16 units it takes. */
  readonly length: number;
  /** Names after an operator that a figure could have too, by their offset in the tail. */
  readonly free: readonly { readonly offset: number; readonly text: string }[];
}

interface Known {
  readonly text: string;
  /** What the text holds at its beginning, null for no unit. */
  readonly tail: Tail | null;
}

/**
 * Tails met before, each in the slot its characters lead to; a newcomer takes the place of the one before, so a note
 * can name any number of units and non-units. Looking one up makes no string.
 */
const SLOTS = 1024;
const known: (Known | undefined)[] = new Array<undefined>(SLOTS).fill(undefined);

/** The unit that begins at `pos`; null when what stands there is none. */
export function tailAt(text: string, pos: number): Tail | null {
  const first = pieceEnd(text, pos);
  if (first === pos || codeAt(text, first) === 0x28) return null;
  const end = extent(text, first);
  let slot = end - pos;
  for (let i = pos; i < end; i++) slot = (slot * 31 + codeAt(text, i)) & (SLOTS - 1);
  const found = known[slot];
  if (found !== undefined && found.text.length === end - pos && text.startsWith(found.text, pos))
    return found.tail;
  const written = text.slice(pos, end);
  const tail = read(written);
  known[slot] = { text: written, tail };
  return tail;
}

/** Where the characters that could be a unit end; the unit may be shorter, when a figure follows the operator. */
function extent(text: string, piece: number): number {
  for (;;) {
    const pos = powerEnd(text, piece);
    const c = codeAt(text, pos);
    if (!isTimes(c) && !isDivide(c)) return pos;
    const next = pieceEnd(text, pos + 1);
    // `min(` is the formula.
    if (next === pos + 1 || codeAt(text, next) === 0x28) return pos;
    piece = next;
  }
}

/** Where one unit's name ends: a word, `µm`, `°`, `°C`, an inch mark, a prime. */
function pieceEnd(text: string, pos: number): number {
  let c = codeAt(text, pos);
  if (c === 0x22 || c === 0x2032 || c === 0x2033) return pos + 1;
  if (c === 0xb0) {
    c = codeAt(text, pos + 1);
    const scale = (c === 0x43 || c === 0x46) && !isNamePart(codeAt(text, pos + 2));
    return scale ? pos + 2 : pos + 1;
  }
  if (isMicro(c)) pos++;
  while (isNamePart(codeAt(text, pos))) pos++;
  return pos;
}

function powerEnd(text: string, pos: number): number {
  let c = codeAt(text, pos);
  if (c === 0xb2 || c === 0xb3) return pos + 1;
  if (c !== 0x5e) return pos;
  let end = pos + 1;
  if (isMinus(codeAt(text, end))) end++;
  if (!isDigit(codeAt(text, end))) return pos;
  do c = codeAt(text, ++end);
  while (isDigit(c));
  return end;
}

function read(written: string): Tail | null {
  const parts: UnitPart[] = [];
  const free: { offset: number; text: string }[] = [];
  let taken: Tail | null = null;
  let pos = 0;
  let sign = 1;
  for (;;) {
    const end = pieceEnd(written, pos);
    const name = written.slice(pos, end);
    const unit = unitNamed(name);
    if (!unit) return taken;
    const power = powerEnd(written, end);
    const exponent = exponentOf(written, end, power);
    if (exponent === 0) return taken;
    parts.push({ unit, exponent: sign * exponent });
    if (parts.length > 1 && !isReserved(name)) free.push({ offset: pos, text: name });
    const made = compound(parts);
    if (!made) return taken;
    taken = { unit: made, length: power, free: [...free] };
    sign = isDivide(codeAt(written, power)) ? -1 : 1;
    pos = power + 1;
  }
}

function exponentOf(text: string, start: number, end: number): number {
  if (start === end) return 1;
  const c = codeAt(text, start);
  if (c === 0xb2) return 2;
  if (c === 0xb3) return 3;
  return Number(text.slice(start + 1, end).replace('−', '-'));
}
