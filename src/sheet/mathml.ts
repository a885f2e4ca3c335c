/**
 * An expression of the notation as MathML: fractions stacked, roots drawn, names and figures with their units upright.
 * Browsers draw it by themselves. A library that sets TeX would be five times the size of everything else that a sheet
 * needs, for a grammar that holds seven kinds of things.
 */
import { parseLine } from '../notation/line';
import type { Expression } from '../notation/syntax';
import { element, escape } from './html';

/** Equations one under the other, `=` below `=`: the name, then each side that says something new. */
export function equations(name: string, sides: readonly string[]): string {
  const rows = sides.map((side, i) =>
    element(
      'mtr',
      {},
      element('mtd', { class: 'scribeline-left-side' }, i === 0 && name !== '' ? word(name) : ''),
      element('mtd', { class: 'scribeline-right-side' }, '<mo>=</mo>', mathOf(side) ?? upright(side)),
    ),
  );
  return element('math', {}, element('mtable', { displaystyle: 'true' }, ...rows));
}

/** A text of the notation as MathML; null where it is no expression. */
export function mathOf(text: string): string | null {
  const statement = parseLine(text, 'figures');
  if (statement.kind !== 'show' || statement.comment !== null) return null;
  const to = statement.to ? upright(text.slice(statement.expression.end)) : '';
  return element('mrow', {}, math(statement.expression, text), to);
}

const LEVEL = '-0123456789';
const RAISED = '⁻⁰¹²³⁴⁵⁶⁷⁸⁹';

/** Figures and units as they are written on drawings. */
function upright(text: string): string {
  const raised = text.replace(/\^(-?\d+)/g, (_, power: string) =>
    power.replace(/./g, (sign) => RAISED.charAt(LEVEL.indexOf(sign))),
  );
  // Blanks at its ends would be dropped.
  const kept = raised.replace(/^-/, '−').replace(/^ | $/g, '\u00a0');
  return element('mn', {}, escape(kept));
}

/** Names are words, not letters set side by side. */
function word(name: string): string {
  return element('mi', { mathvariant: 'normal' }, escape(name));
}

function math(node: Expression, text: string): string {
  const written = (): string => text.slice(node.start, node.end);
  const inner = (part: Expression): string => math(part, text);
  switch (node.kind) {
    case 'quantity':
      return upright(written());
    case 'name':
      return word(node.name === 'pi' ? 'π' : written());
    case 'field':
      return node.of.kind === 'name' || node.of.kind === 'field'
        ? word(written())
        : element('mrow', {}, inner(node.of), word(`.${node.field}`));
    case 'negate':
      return element('mrow', {}, '<mo>−</mo>', inner(node.of));
    case 'group':
      return bracketed(inner(node.of));
    case 'list':
      return element(
        'mrow',
        {},
        fenced('[', listed(node.items.map(inner)), ']'),
        node.unit ? upright(` ${text.slice(node.unit.start, node.unit.end)}`) : '',
      );
    case 'binary':
      return binary(node, text);
    case 'call':
      return called(
        node.name.text,
        node.arguments.map(({ value }) => value),
        text,
      );
  }
}

/** Brackets are as high as what they hold: a font without high ones would draw them higher than a line of text. */
function fenced(open: string, inner: string, close: string): string {
  const high = /<m(?:frac|sqrt|sup)\b/.test(inner) ? '' : ' stretchy="false"';
  return element(
    'mrow',
    {},
    `<mo fence="true" form="prefix"${high}>${open}</mo>`,
    inner,
    `<mo fence="true" form="postfix"${high}>${close}</mo>`,
  );
}

function bracketed(inner: string): string {
  return fenced('(', inner, ')');
}

function listed(parts: readonly string[]): string {
  return element('mrow', {}, parts.join('<mo separator="true">,</mo>'));
}

/** Brackets that only kept a fraction's parts together say nothing once a stroke does. */
function bare(node: Expression): Expression {
  return node.kind === 'group' ? bare(node.of) : node;
}

const SIGNS: ReadonlyMap<string, string> = new Map([
  ['*', '⋅'],
  ['+', '+'],
  ['-', '−'],
]);

function binary(node: Extract<Expression, { kind: 'binary' }>, text: string): string {
  const { operator, left, right } = node;
  if (operator === '/') return element('mfrac', {}, math(bare(left), text), math(bare(right), text));
  if (operator === '^') return element('msup', {}, math(left, text), math(bare(right), text));
  return element('mrow', {}, math(left, text), `<mo>${SIGNS.get(operator) ?? ''}</mo>`, math(right, text));
}

const INVERSE: ReadonlyMap<string, string> = new Map([
  ['asin', 'arcsin'],
  ['acos', 'arccos'],
  ['atan', 'arctan'],
]);

function called(name: string, parts: readonly Expression[], text: string): string {
  const set = parts.map((part) => math(part, text));
  const [first = '', second = ''] = set;
  if (name === 'sqrt') return element('msqrt', {}, first);
  if (name === 'abs') return fenced('|', first, '|');
  if (name === 'hypot' && set.length === 2)
    return element('msqrt', {}, square(parts[0], first), '<mo>+</mo>', square(parts[1], second));
  return element('mrow', {}, word(INVERSE.get(name) ?? name), '<mo>&#x2061;</mo>', bracketed(listed(set)));
}

function square(part: Expression | undefined, inner: string): string {
  const single = part?.kind === 'name' || part?.kind === 'field' || part?.kind === 'group';
  return element('msup', {}, single ? inner : bracketed(inner), '<mn>2</mn>');
}
