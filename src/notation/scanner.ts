/**
 * The place in a line where reading has got to. One scanner serves all lines, one after the other, so that reading a
 * line makes nothing but its nodes.
 *
 * Reading functions answer null when they refuse; the reason is then in `finding`. One finding per line is enough:
 * what follows the first mistake is guesswork.
 */
import type { LineFinding } from '../quantity/finding';
import type { FaultData } from '../quantity/value';
import { codeAt, isBlank } from './characters';

/** Brackets in brackets; more serve nobody and would let a hostile line use up the stack. */
export const MAX_DEPTH = 100;
/** UTF-16 units in one line. */
export const MAX_LINE = 2000;
/** Elements of a list, arguments of a formula, readings of one line. */
export const MAX_ITEMS = 500;

export class Scanner {
  text = '';
  /** Where reading has got to. */
  pos = 0;
  /** Where the code ends: before blanks and the comment. */
  end = 0;
  depth = 0;
  /** True while what is read stands in a figure's line outside all brackets, where limits may follow. */
  limitsMayFollow = false;
  /** True where `3/8` and `1 3/8` are whole without a unit: directly in a list, and in limits. */
  bareFractions = false;
  /** True in limits, where `30″` can only be a part of a degree. */
  inLimits = false;
  /** True in limits of the form `+0.02/-0.01`, where `1/0` and `0/5` are two of them and no fraction. */
  inPair = false;
  /** Where the mixed number without a unit that was read last began; a list must have a unit for it. */
  bareMixed = -1;
  /** The amount of the quantity read last, in its own unit. */
  amount = 0;
  /** Where the fraction read last began, to tell what stands before it. */
  fraction = -1;
  finding: LineFinding | null = null;

  begin(text: string, end: number): void {
    this.text = text;
    this.pos = 0;
    this.end = end;
    this.depth = 0;
    this.limitsMayFollow = false;
    this.bareFractions = false;
    this.inLimits = false;
    this.inPair = false;
    this.fraction = -1;
    this.bareMixed = -1;
    this.finding = null;
  }

  /** The character at `pos`, after any blanks. */
  next(): number {
    const { text } = this;
    let { pos } = this;
    let c = codeAt(text, pos);
    if (c > 0x20 && c < 0x7f) return c;
    while (isBlank(c)) c = codeAt(text, ++pos);
    this.pos = pos;
    return c;
  }

  at(pos: number): number {
    return codeAt(this.text, pos);
  }

  slice(start: number, end: number): string {
    return this.text.slice(start, end);
  }

  /** Refuses. The first reason stands. */
  refuse(code: string, start: number, end: number, data: FaultData = {}): null {
    this.finding ??= { code, start, end, data };
    return null;
  }
}
