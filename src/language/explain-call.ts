/** A formula where it is called: what it works out, from what, why, and within which bounds. */
import type { Sheet } from '../engine/index';
import type { CallNode, Expression } from '../notation/syntax';
import { callOf } from '../notation/walk';
import { MATHEMATICS } from '../quantity/mathematics';
import { SOME_MONEY } from '../quantity/units';
import type { CardView, Value } from '../quantity/value';
import { CAUTIONS } from '../trade/cautions';
import type { Formula, Parameter } from '../trade/formula';
import { formulaNamed } from '../trade/index';
import type { Explanation, Part } from './explanation';
import { withLimits } from './limits';
import { also, headline, limitParts, words, working } from './parts';
import { capital, otherWays, valueText } from '../engine/wording';
import { workingOf, workingOfCall } from '../engine/working';

export function explainCall(sheet: Sheet, text: string, node: CallNode): Explanation | null {
  const formula = formulaNamed(node.name.text);
  const value = sheet.evaluateExpression(node, text);
  if (!formula) return explainMathematics(sheet, text, node, value);
  const parts: readonly Part[] = [
    ...also(value),
    words(`${formula.title}.`),
    ...fieldParts(value),
    { kind: 'table', rows: parameterRows(formula, sheet.call(node)?.arguments) },
    ...limitParts(sheet, value),
    ...working(workingOfCall(sheet, node)),
    words(formula.why),
    ...formulaParts(formula, Infinity),
  ];
  return { name: formula.name, shown: headline(value), parts };
}

/** A record's fields with their meanings. */
export function fieldParts(value: Value | null): readonly Part[] {
  if (value?.kind !== 'record') return [];
  return [{ kind: 'table', rows: fieldRows(formulaNamed(value.of), value.fields) }];
}

/** What belongs to the formula that an expression calls. */
export function callParts(node: Expression): readonly Part[] {
  const formula = formulaNamed(callOf(node)?.name.text ?? '');
  return formula ? formulaParts(formula) : [];
}

type Arguments = ReadonlyMap<string, Value | CardView | string>;

/** A record's fields: each with its value in all ways it is said, and the formula's words for it. */
export function fieldRows(
  formula: Formula | undefined,
  fields: ReadonlyMap<string, Value>,
): readonly (readonly [string, string, string])[] {
  return [...fields].map(([name, value]) => {
    const meaning = formula?.result.find((each) => each.name === name)?.meaning ?? '';
    const ways = value.kind === 'number' ? [withLimits(value), ...otherWays(value)] : [atAGlance(value)];
    return [name, ways.join(' · '), meaning] as const;
  });
}

/** Long lists would push the working out of sight; preview and sheet have them whole. */
const LONGEST_LIST = 8;
const LONGEST_WORDS = 120;
const FIRST = 3;

function atAGlance(value: Value): string {
  const text = valueText(value);
  if (value.kind === 'list') {
    const { items } = value;
    const last = items.slice(LONGEST_LIST).at(-1);
    if (!last) return text;
    return `${valueText({ kind: 'list', items: items.slice(0, FIRST) })} … ${valueText(last)}, ${items.length} in all`;
  }
  if (text.length <= LONGEST_WORDS) return text;
  const kept = text.slice(0, LONGEST_WORDS);
  return `${kept.replace(/[,;][^,;]*$/, '')} …`;
}

export function parameterRows(
  formula: Formula,
  given?: Arguments,
): readonly (readonly [string, string, string])[] {
  return formula.parameters.map((parameter) => {
    const argument = given?.get(parameter.name);
    return [
      parameter.name,
      argument === undefined ? usual(parameter) : argumentText(argument),
      parameter.meaning,
    ] as const;
  });
}

function argumentText(argument: Value | CardView | string): string {
  if (typeof argument === 'string') return argument;
  if (!('kind' in argument)) return argument.name;
  return argument.kind === 'number' ? withLimits(argument) : valueText(argument);
}

/** What a parameter that was not given would take. */
export function usual({ kind, unit, optional, words }: Parameter): string {
  const one = unit === '' ? 'a number' : unit.startsWith(SOME_MONEY) ? `money${unit.slice(1)}` : `in ${unit}`;
  const takes = KINDS.get(kind) ?? words?.join(' or ') ?? (kind === 'list' ? `a list, ${one}` : one);
  return optional ? `${takes}, may be left out` : takes;
}

const KINDS = new Map([
  ['count', 'a whole number'],
  ['code', 'a code or call-out as drawings write it'],
  ['machine', 'a machine card'],
  ['material', 'a material card'],
]);

export function explainParameter(sheet: Sheet, node: CallNode, name: string): Explanation | null {
  const parameter = formulaNamed(node.name.text)?.parameters.find((each) => each.name === name);
  if (!parameter) return null;
  const given = sheet.call(node)?.arguments.get(name);
  const told = words(`${capital(parameter.meaning)}. ${capital(usual(parameter))}.`);
  const ways = typeof given === 'object' && 'kind' in given ? also(given) : [];
  return { name, shown: given === undefined ? null : argumentText(given), parts: [told, ...ways] };
}

function explainMathematics(
  sheet: Sheet,
  text: string,
  node: CallNode,
  value: Value | null,
): Explanation | null {
  const known = MATHEMATICS.get(node.name.text);
  if (!known) return null;
  const rows = known.parameters.map(({ name, meaning }) => [name, '', meaning] as const);
  const step = workingOf(sheet, text, node, '');
  const parts: readonly Part[] = [
    words(`${capital(known.meaning)}.`),
    { kind: 'table', rows },
    ...also(value),
    ...working(step ? [step] : []),
  ];
  return { name: known.name, shown: headline(value), parts };
}

/** Cautions told where a formula's result is used; the formula's own explanation has them all. */
const FEW = 3;

/** An explanation of a formula's result, with what the machines at hand call for before all else. */
export function minding(explanation: Explanation, machines: readonly string[]): Explanation {
  const { parts } = explanation;
  const tellsFormula = parts.some(({ kind }) => kind === 'source');
  if (machines.length === 0 || !tellsFormula) return explanation;
  const own = parts.flatMap((part) => (part.kind === 'mind' ? part.texts : []));
  const mind: Part = { kind: 'mind', texts: [...machines, ...own] };
  return { ...explanation, parts: [...parts.filter(({ kind }) => kind !== 'mind'), mind] };
}

/** What belongs to a formula wherever its result is explained. */
export function formulaParts(formula: Formula, most = FEW): readonly Part[] {
  const parts: Part[] = [];
  const ranges = formula.conditions.map(({ range }) => range);
  if (ranges.length > 0)
    parts.push({ kind: 'note', title: 'Holds while', text: `${[...new Set(ranges)].join('; ')}.` });
  parts.push({ kind: 'source', text: `${capital(formula.source)}.` });
  const cautions = formula.cautions.flatMap((key) => CAUTIONS.get(key) ?? []);
  const told = cautions.slice(0, most);
  const rest = cautions.length - told.length;
  if (rest > 0) told.push(`${rest} more on ${formula.name}.`);
  if (told.length > 0) parts.push({ kind: 'mind', texts: told });
  return parts;
}
