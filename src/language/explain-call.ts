/** A formula where it is called: what it works out, from what, why, and within which bounds. */
import type { Sheet } from '../engine/index';
import type { CallNode } from '../notation/syntax';
import { MATHEMATICS } from '../quantity/mathematics';
import { SOME_MONEY } from '../quantity/units';
import type { CardView, Value } from '../quantity/value';
import { CAUTIONS } from '../trade/cautions';
import type { Formula, Parameter } from '../trade/formula';
import { formulaNamed } from '../trade/index';
import type { Explanation, Part } from './explanation';
import { resultingLimits, withLimits } from './limits';
import { capital, otherWays, valueText } from '../engine/wording';
import { workingOf, workingOfCall } from '../engine/working';

export function explainCall(sheet: Sheet, text: string, node: CallNode): Explanation | null {
  const formula = formulaNamed(node.name.text);
  if (!formula) return explainMathematics(sheet, text, node);
  const call = sheet.call(node);
  const value = sheet.evaluateExpression(node, text);
  const parts: Part[] = [];
  if (value?.kind === 'number') {
    const also = otherWays(value);
    if (also.length > 0) parts.push({ kind: 'also', texts: also });
  }
  parts.push({ kind: 'words', text: `${formula.title}.` });
  if (value?.kind === 'record') parts.push({ kind: 'table', rows: fieldRows(formula, value.fields) });
  parts.push({ kind: 'table', rows: parameterRows(formula, call?.arguments ?? null) });
  const limits = value?.kind === 'number' ? resultingLimits(sheet, value) : null;
  if (limits) parts.push(limits);
  const steps = workingOfCall(sheet, node);
  if (steps.length > 0) parts.push({ kind: 'working', steps });
  parts.push({ kind: 'words', text: formula.why }, ...formulaParts(formula, Infinity));
  return { name: formula.name, shown: value?.kind === 'number' ? withLimits(value) : null, parts };
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
    const last = items.at(-1);
    if (items.length <= LONGEST_LIST || !last) return text;
    return `${valueText({ kind: 'list', items: items.slice(0, FIRST) })} … ${valueText(last)}, ${items.length} in all`;
  }
  if (value.kind !== 'text' || text.length <= LONGEST_WORDS) return text;
  const kept = text.slice(0, LONGEST_WORDS);
  return `${kept.replace(/[,;][^,;]*$/, '')} …`;
}

export function parameterRows(
  formula: Formula,
  given: Arguments | null,
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
  const parts: Part[] = [
    { kind: 'words', text: `${capital(parameter.meaning)}. ${capital(usual(parameter))}.` },
  ];
  if (typeof given === 'object' && 'kind' in given && given.kind === 'number') {
    const also = otherWays(given);
    if (also.length > 0) parts.push({ kind: 'also', texts: also });
  }
  return { name, shown: given === undefined ? null : argumentText(given), parts };
}

function explainMathematics(sheet: Sheet, text: string, node: CallNode): Explanation | null {
  const known = MATHEMATICS.get(node.name.text);
  if (!known) return null;
  const value = sheet.evaluateExpression(node, text);
  const parts: Part[] = [{ kind: 'words', text: `${capital(known.meaning)}.` }];
  parts.push({
    kind: 'table',
    rows: known.parameters.map(({ name, meaning }) => [name, '', meaning] as const),
  });
  if (value?.kind === 'number') {
    const also = otherWays(value);
    if (also.length > 0) parts.push({ kind: 'also', texts: also });
    const step = workingOf(sheet, text, node, '');
    if (step) parts.push({ kind: 'working', steps: [step] });
  }
  return {
    name: known.name,
    shown: value ? (value.kind === 'number' ? withLimits(value) : valueText(value)) : null,
    parts,
  };
}

/** Cautions told where a formula's result is used; the formula's own explanation has them all. */
const FEW = 3;

/** Of the part that every explanation of a formula has, and of the list of what can go wrong. */
const SOURCE = 'Source';
const MIND = 'Mind';

/** An explanation of a formula's result, with what the machines at hand call for before all else. */
export function minding(explanation: Explanation, machines: readonly string[]): Explanation {
  const { parts } = explanation;
  const tellsFormula = parts.some((part) => part.kind === 'note' && part.title === SOURCE);
  if (machines.length === 0 || !tellsFormula) return explanation;
  const isMind = (part: Part): boolean => part.kind === 'list' && part.title === MIND;
  const own = parts.flatMap((part) => (part.kind === 'list' && isMind(part) ? part.texts : []));
  const mind: Part = { kind: 'list', title: MIND, texts: [...machines, ...own] };
  return { ...explanation, parts: [...parts.filter((part) => !isMind(part)), mind] };
}

/** What belongs to a formula wherever its result is explained. */
export function formulaParts(formula: Formula, most = FEW): readonly Part[] {
  const parts: Part[] = [];
  const ranges = formula.conditions.map(({ range }) => range);
  if (ranges.length > 0)
    parts.push({ kind: 'note', title: 'Holds while', text: `${[...new Set(ranges)].join('; ')}.` });
  parts.push({ kind: 'note', title: SOURCE, text: `${capital(formula.source)}.` });
  const cautions = formula.cautions.flatMap((key) => CAUTIONS.get(key) ?? []);
  const told = cautions.slice(0, most);
  const rest = cautions.length - told.length;
  if (rest > 0) told.push(`${rest} more on ${formula.name}.`);
  if (told.length > 0) parts.push({ kind: 'list', title: MIND, texts: told });
  return parts;
}
