/**
 * Expressions to values. An evaluation never throws: whatever has no value becomes a problem with its range and the
 * likely meaning, or a name the line waits for, and the answer is null.
 */
import { add, divide, multiply, negate, plain, power, quantity, subtract } from '../quantity/arithmetic';
import { dimensionName } from '../quantity/dimension';
import { shownUnit } from '../quantity/display';
import { type Unit, ONE, fromBase, toBase } from '../quantity/unit';
import { PERCENT, unitNamed } from '../quantity/units';
import {
  type Fault,
  type FaultData,
  type List,
  type Quantity,
  type Value,
  fault,
  isFault,
} from '../quantity/value';
import type {
  BinaryNode,
  Expression,
  FieldNode,
  ListNode,
  NameNode,
  QuantityNode,
  Span,
} from '../notation/syntax';
import type { Filled } from '../notation/used-nodes';
import { chainOf, isRecordField } from './bind';
import { callFormula } from './call';
import { appended } from './few';
import type { Entry, Problem } from './graph';
import { alike } from './near-names';
import { recordOf } from './readings';
import type { Asked } from './results';

/** What an evaluation may look at. */
export interface Scope {
  /** What a name has beside the value of its one figure; undefined where it has nothing else. */
  entry(name: string): Entry | undefined;
  /** What a name stands for; null when what gives it has no value, undefined when nothing gives it anything. */
  standsFor(name: string): Value | null | undefined;
  hasFigure(name: string): boolean;
  /** Unit system for results whose unit the formula chooses; null leaves the formula's own. */
  readonly system: 'mm' | 'in' | null;
}

/** What one line says at most: who has mended so much sees the rest. */
const MAX_PROBLEMS = 20;

/** Most lines have nothing to say; never added to, see `appended`. */
const NOTHING: never[] = [];

export class Evaluation {
  problems: Problem[] = NOTHING;
  waitsFor: string[] = NOTHING;
  /** The limits that the line asks for. */
  asked: Asked | null = null;

  constructor(
    readonly scope: Scope,
    /** The line's code, for offers. */
    public text: string,
  ) {}

  /** Makes it the evaluation of another line: one is enough for all of them, one after the other. */
  begin(text: string): void {
    this.text = text;
    this.problems = this.waitsFor = NOTHING;
    this.asked = null;
  }

  value(e: Expression): Value | null {
    switch (e.kind) {
      case 'quantity':
        return this.literal(e);
      case 'name':
        return this.named(e);
      case 'field':
        return this.field(e);
      case 'call':
        return callFormula(this, e);
      case 'negate':
        return this.negated(e.of, e);
      case 'group':
        return this.value(e.of);
      case 'binary':
        return this.binary(e);
      case 'list':
        return this.list(e);
    }
  }

  /** The value as a figure that calculates; anything else is a problem at the expression. */
  number(e: Expression): Quantity | null {
    const value = this.value(e);
    if (value === null || value.kind === 'number') return value;
    return this.refuse(e, notANumber(value, this.slice(e)));
  }

  refuse(span: Span, why: Fault): null {
    this.say({ code: why.code, start: span.start, end: span.end, data: why.data });
    return null;
  }

  say(problem: Problem): void {
    if (this.problems.length < MAX_PROBLEMS) this.problems = appended(this.problems, problem);
  }

  slice(span: Span): string {
    return this.text.slice(span.start, span.end);
  }

  private settle(span: Span, result: Quantity | Fault): Quantity | null {
    return isFault(result) ? this.refuse(span, result) : result;
  }

  private literal(e: QuantityNode): Quantity | null {
    for (const word of e.tail) {
      if (!this.scope.hasFigure(word.text)) continue;
      const [above, below] = [this.text.slice(e.start, word.start - 1), this.text.slice(word.start, e.end)];
      const sign = this.text.charAt(word.start - 1) === '/' ? '/' : '*';
      const data = {
        name: word.text,
        offers: [`${above} ${sign} ${below}`, `${above} ${sign} (1 ${below})`],
      };
      return this.refuse(e, fault('unit-or-figure', data));
    }
    return quantity(e.value, e.unit);
  }

  private named(span: NameNode): Value | null {
    const { name } = span;
    const value = this.scope.standsFor(name);
    if (value) return value;
    if (value === null) this.waitsFor = appended(this.waitsFor, name);
    else if (name === 'pi') return plain(Math.PI);
    else if (span.callout)
      this.refuse(span, fault(name.includes(':') ? 'taper-not-a-figure' : 'thread-not-a-figure', { name }));
    else if (unitNamed(name))
      this.refuse(span, fault('unit-without-number', { name, offers: [`1 ${name}`] }));
    else this.refuse(span, fault('unknown-name', { name }));
    return null;
  }

  private field(e: FieldNode): Value | null {
    const chain = isRecordField(e.field) ? chainOf(e.of) : null;
    if (chain) return this.record(chain.join('.'), e);
    const whole = this.value(e.of);
    if (whole === null) return null;
    if (whole.kind !== 'record')
      return this.refuse(e.fieldSpan, fault('no-fields', { of: this.slice(e.of), field: e.field }));
    const part = whole.fields.get(e.field);
    if (part) return part;
    const known = [...whole.fields.keys()];
    if (whole.of === 'job') return this.refuse(e, fault('job-field-missing', { field: e.field, known }));
    return this.refuse(
      e.fieldSpan,
      fault('unknown-field', { of: this.slice(e.of), field: e.field, known, offers: alike(e.field, known) }),
    );
  }

  private record(path: string, e: FieldNode): Value | null {
    const entry = this.scope.entry(path);
    const found = entry && recordOf(entry, e.field);
    if (found) return found;
    if (e.field === 'positions' && entry && recordOf(entry, 'readings'))
      return this.refuse(e, fault('position-missing', { name: path }));
    // A plan may well be written before there is anything to measure: it waits, without being wrong.
    this.refuse(
      e,
      fault(e.field === 'used' ? 'not-used-yet' : 'not-measured-yet', { name: path, field: e.field }),
    );
    return null;
  }

  private negated(of: Expression, span: Span): Quantity | null {
    const value = this.number(of);
    return value && this.settle(span, negate(value));
  }

  private binary(e: BinaryNode): Quantity | null {
    // A literal is taken last: what else is worked out before it may use the same object.
    const l = operandOf(e.left);
    const r = operandOf(e.right);
    const worked = l === null ? this.number(e.left) : null;
    const right = r === null ? this.number(e.right) : taken(RIGHT, r);
    const left = l === null ? worked : taken(LEFT, l);
    if (left === null || right === null) return null;
    switch (e.operator) {
      case '+':
        return this.summed(e, left, right, add(left, right));
      case '-':
        return this.summed(e, left, right, subtract(left, right));
      case '*':
        return this.settle(e, multiply(left, right));
      case '/':
        return this.settle(e, divide(left, right));
      case '^':
        return this.settle(e, power(left, right));
    }
  }

  private summed(e: BinaryNode, left: Quantity, right: Quantity, result: Quantity | Fault): Quantity | null {
    if (!isFault(result)) return result;
    const limits = this.limitsMeant(e);
    if (limits) return this.refuse(limits, fault('limits-without-slash', { offers: [limits.offer] }));
    return this.refuse(e, {
      ...result,
      data: { ...result.data, ...this.mismatchData(e.left, e.right, left, right, e.operator) },
    });
  }

  /** `30 mm +0.02 -0.01`: limits as some drawings print them, one above the other and here without the slash. */
  private limitsMeant(e: BinaryNode): (Span & { readonly offer: string }) | null {
    if (e.left.kind !== 'quantity') return null;
    const written = this.text.slice(e.left.end);
    const found = /^\s+([+-])([\d.]+)\s+([+-])([\d.]+)(?:\s*[a-zµ]+)?/.exec(written);
    if (!found || found[1] === found[3]) return null;
    const end = e.left.end + found[0].length;
    const [first, second] = [
      this.slice({ start: e.left.start, end: e.right.end }),
      this.text.slice(e.right.end, end),
    ];
    return { start: e.left.start, end, offer: `${first}/${second.trim()}` };
  }

  /** What kinds of thing two sides are, and what was likely meant. */
  mismatchData(l: Expression, r: Expression, left: Quantity, right: Quantity, operator: string): FaultData {
    const [lt, rt] = [this.slice(l), this.slice(r)];
    const offers: string[] = [];
    if (r.kind === 'quantity' && right.unit === PERCENT && (operator === '+' || operator === '-')) {
      const percent = Number((100 + (operator === '+' ? 1 : -1) * right.value * 100).toPrecision(12));
      if (l.kind !== 'binary' || l.operator === '*' || l.operator === '/') offers.push(`${lt} * ${percent}%`);
    } else if (isBare(r) && !left.dimension.point) {
      // `450 min-1`, as plates of machines have it.
      const [, speed, blanks] = /^(.*\d)\s*min(\s*)[-−]1$/.exec(this.text.slice(l.start, r.end)) ?? [];
      if (speed !== undefined) offers.push(`${speed} rpm`);
      if (blanks !== '') offers.push(`${lt} ${operator} ${unitText(rt, left.unit)}`);
    } else if (isBare(l) && !right.dimension.point) {
      const first = unitText(lt, right.unit);
      const whole =
        /[^=<>!]=\s*$/.test(this.text.slice(0, l.start)) &&
        /^\s*(?:$|#|(?:to|hole|shaft)\b)/.test(this.text.slice(r.end));
      // `34.88-34.92 mm`: limits with a dash between.
      if (
        whole &&
        operator === '-' &&
        r.kind === 'quantity' &&
        left.value < fromBase(right.value, right.unit)
      )
        offers.push(`${first} .. ${rt}`);
      offers.push(`${first} ${operator} ${rt}`);
    }
    return {
      operator,
      left: dimensionName(left.dimension),
      right: dimensionName(right.dimension),
      leftText: lt,
      rightText: rt,
      offers,
    };
  }

  private list(e: ListNode): List | null {
    const items: Quantity[] = [];
    for (const item of e.items) {
      const value = this.number(item);
      if (value === null) return null;
      if (e.unit && value.unit !== ONE)
        return this.refuse(
          item,
          fault('list-unit-twice', { item: this.slice(item), unit: e.unit.unit.symbol }),
        );
      const made = e.unit ? inUnit(value, e.unit.unit) : value;
      const first = items[0] ?? made;
      if (made.dimension !== first.dimension) {
        const data = { left: dimensionName(first.dimension), right: dimensionName(made.dimension) };
        return this.refuse(item, fault('list-kinds-mixed', data));
      }
      items.push(made);
    }
    return { kind: 'list', items };
  }
}

/**
 * The two sides of an operation, where they are literals: no operation keeps what it works on, and most of a note's literals
 * are never anything but a side of one.
 */
const LEFT: Filled<Quantity> = quantity(0.5, ONE);
const RIGHT: Filled<Quantity> = quantity(0.5, ONE);

/** The literal that stands there, unless its value has to be found out first. */
function operandOf(e: Expression): QuantityNode | null {
  return e.kind === 'quantity' && e.tail.length === 0 ? e : null;
}

function taken(side: Filled<Quantity>, { value, unit }: QuantityNode): Quantity {
  side.value = value;
  side.unit = unit;
  side.dimension = unit.dimension;
  return side;
}

function inUnit(value: Quantity, unit: Unit): Quantity {
  return quantity(toBase(value.value, unit), unit);
}

function isBare(e: Expression): boolean {
  return e.kind === 'quantity' && e.unit === ONE;
}

/** A bare number with a unit put after it: `1 mm`, `30°`. */
export function unitText(number: string, unit: Unit): string {
  const symbol = shownUnit(unit);
  return symbol === '°' || symbol === '%' ? number + symbol : `${number} ${symbol}`;
}

function notANumber(value: Exclude<Value, Quantity>, text: string): Fault {
  if (value.kind === 'text') return fault('words-do-not-calculate', { text: value.text });
  if (value.kind === 'list') return fault('list-does-not-calculate', { text });
  const known = [...value.fields.keys()];
  return fault('field-needed', { text, known, offers: known.slice(0, 4).map((field) => `${text}.${field}`) });
}
