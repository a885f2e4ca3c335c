/** A line's meaning in words, for fixtures: amounts as decimals in their unit, every operation in brackets. */
import type { Expression, Limits, QuantityNode, Statement } from '../../src/notation/syntax';
import { fromBase } from '../../src/quantity/unit';

const DIGITS = 12;

function amount(q: QuantityNode): string {
  const unit = q.unit.symbol === '' ? '' : ` ${q.unit.symbol}`;
  const ambiguous = q.tail.length === 0 ? '' : ` (${q.tail.map((word) => `${word.text}?`).join(', ')})`;
  return `${Number(fromBase(q.value, q.unit).toPrecision(DIGITS))}${unit}${ambiguous}`;
}

export function expressionText(e: Expression): string {
  switch (e.kind) {
    case 'quantity':
      return amount(e);
    case 'name':
      return e.callout ? `${e.name.includes(':') ? 'taper' : 'thread'} ${e.name}` : e.name;
    case 'field':
      return `${expressionText(e.of)}.${e.field}`;
    case 'call':
      return `${e.name.text}(${e.arguments.map((a) => (a.name ? `${a.name.text}: ` : '') + expressionText(a.value)).join('; ')})`;
    case 'negate':
      return `(-${expressionText(e.of)})`;
    case 'group':
      return expressionText(e.of);
    case 'binary':
      return `(${expressionText(e.left)} ${e.operator} ${expressionText(e.right)})`;
    case 'list':
      return `[${e.items.map(expressionText).join('; ')}]${e.unit ? ` each in ${e.unit.unit.symbol}` : ''}`;
  }
}

function limitsText(limits: Limits): string {
  switch (limits.kind) {
    case 'deviations':
      return `from ${amount(limits.lower)} to ${amount(limits.upper)}`;
    case 'code':
      return `code ${limits.code}`;
    case 'range':
      return `up to ${amount(limits.to)}`;
  }
}

function bodyText(line: Statement): string {
  switch (line.kind) {
    case 'empty':
      return 'nothing';
    case 'figure': {
      const limits = line.limits ? `, limits ${limitsText(line.limits)}` : '';
      const sense = line.sense ? `, a ${line.sense}` : '';
      return `${line.name.text}: ${expressionText(line.expression)}${limits}${sense}${line.to ? `, in ${line.to.unit.symbol}` : ''}`;
    }
    case 'show':
      return `shows ${expressionText(line.expression)}${line.to ? `, in ${line.to.unit.symbol}` : ''}`;
    case 'check': {
      const [first, ...rest] = line.terms.map(expressionText);
      return `checks ${first ?? ''}${rest.map((term, i) => ` ${line.comparisons[i] ?? ''} ${term}`).join('')}`;
    }
    case 'reading':
      return `${line.path.names.join('.')} ${line.how} ${line.readings
        .map(({ value, at }) => amount(value) + (at ? ` at ${amount(at)}` : ''))
        .join('; ')}`;
    case 'used':
      return `${line.path.names.join('.')} used ${amount(line.value)}`;
    case 'words':
      return `${line.key.text} says "${line.words.text}"`;
    case 'broken':
      return line.name ? `broken, meant as ${line.name.text}` : 'broken';
  }
}

export function statementText(line: Statement): string {
  return bodyText(line) + (line.comment ? ` # ${line.comment.text}` : '');
}
