/** `scribeline formulas`: the trade's formulas as a list to read, or as data. */
import { dimensionName } from '../../quantity/dimension';
import { unitFrom } from '../../quantity/units';
import type { Field, Formula, Parameter, WorkedCheck } from '../../trade/formula';
import { allFormulas } from '../../trade/index';
import { type Exit, type Io, FINE } from './io';
import { type Paint, columns, painter, wrap } from './terminal';

export function formulas(json: boolean, io: Io): Exit {
  if (json) io.out(`${JSON.stringify({ version: 1, formulas: allFormulas().map(formulaEntry) }, null, 2)}\n`);
  else
    io.out(
      allFormulas()
        .map((formula) => formulaText(formula, painter(io.colour)))
        .join('\n'),
    );
  return FINE;
}

export function formulaEntry(formula: Formula): object {
  return {
    name: formula.name,
    family: formula.family,
    title: formula.title,
    parameters: formula.parameters.map((parameter) => ({
      name: parameter.name,
      kind: parameter.kind,
      dimension: parameterDimension(parameter),
      unit: orNull(parameter.unit),
      words: parameter.words ?? null,
      meaning: parameter.meaning,
      optional: parameter.optional === true,
    })),
    result: formula.result.map((field) => ({
      name: orNull(field.name),
      kind: field.words === true ? 'text' : field.list === true ? 'list' : 'number',
      dimension: field.words === true ? null : dimensionOf(field.unit),
      unit: orNull(field.unit),
      meaning: field.meaning,
    })),
    why: formula.why,
    source: formula.source,
    validity: formula.conditions.map(({ range, severity, parameter }) => ({ range, severity, parameter })),
    checks: formula.checks.map((check) => ({
      call: check.call,
      expect: Object.entries(check.expect).map(([name, value]) => ({
        name: orNull(name),
        value,
        unit: orNull(unitOfField(formula, name)),
      })),
      tolerance: check.tolerance,
      source: check.source,
    })),
  };
}

function parameterDimension({ kind, unit }: Parameter): string | null {
  return kind === 'quantity' || kind === 'list' || kind === 'count' ? dimensionOf(unit) : null;
}

function dimensionOf(unit: string): string | null {
  const known = unitFrom(unit);
  return known ? dimensionName(known.dimension) : null;
}

function orNull(text: string): string | null {
  return text === '' ? null : text;
}

function unitOfField({ result }: Formula, name: string): string {
  return result.find((field) => field.name === name)?.unit ?? '';
}

function formulaText(formula: Formula, paint: Paint): string {
  const list = formula.parameters.map((it) => it.name + (it.optional === true ? '?' : '')).join(', ');
  const part = (title: string, lines: readonly string[]): readonly string[] =>
    lines.length === 0 ? [] : [`  ${paint('dim', title)}`, ...lines.map((line) => `    ${line}`)];
  const prose = (text: string): string => wrap(text, '      ');
  return [
    `${paint('bold', formula.name)}(${list})`,
    `  ${wrap(formula.title, '  ')}`,
    ...part('takes', listed(formula.parameters.map(parameterCells))),
    ...part('gives', listed(formula.result.map(fieldCells))),
    ...part(
      'holds where',
      formula.conditions.map((it) => prose(it.range)),
    ),
    ...part('source', [prose(formula.source)]),
    ...part(
      'checked',
      formula.checks.map((check) => prose(checkText(check, formula))),
    ),
    '',
  ].join('\n');
}

/** Columns whose last is wrapped under its own beginning. */
function listed(rows: readonly Cells[]): readonly string[] {
  const fronts = columns(
    rows.map(([name, kind]) => [name, kind, '|']),
    [],
  );
  return rows.map(([, , meaning], i) => {
    const front = (fronts[i] ?? '').slice(0, -1);
    return front + wrap(meaning, ' '.repeat(front.length + 4), 110);
  });
}

type Cells = readonly [name: string, kind: string, meaning: string];

function parameterCells(parameter: Parameter): Cells {
  const unit = parameter.unit === '' ? '' : `, ${parameter.unit}`;
  return [
    parameter.name + (parameter.optional === true ? '?' : ''),
    kindOf(parameter) + unit,
    parameter.meaning,
  ];
}

function kindOf(parameter: Parameter): string {
  const dimension = parameterDimension(parameter);
  if (dimension !== null) return parameter.kind === 'list' ? `list, ${dimension}` : dimension;
  if (parameter.words) return parameter.words.join(' or ');
  return parameter.kind === 'code' ? 'code or call-out' : `${parameter.kind} card`;
}

function fieldCells(field: Field): Cells {
  const one = field.words === true ? 'words' : (dimensionOf(field.unit) ?? '');
  const kind = field.list === true ? `list, ${one}` : one;
  return [
    field.name === '' ? '=' : `.${field.name}`,
    field.unit === '' ? kind : `${kind}, ${field.unit}`,
    field.meaning,
  ];
}

function checkText(check: WorkedCheck, formula: Formula): string {
  const expected = Object.entries(check.expect).map(([name, outcome]) => {
    const value = typeof outcome === 'object' ? `[${outcome.join(', ')}]` : outcome;
    const unit = unitOfField(formula, name);
    const amount = unit === '' || unit === '°' ? `${value}${unit}` : `${value} ${unit}`;
    return name === '' ? amount : `${name} ${amount}`;
  });
  return `${check.call} = ${expected.join(', ')} (within ${check.tolerance}; ${check.source})`;
}
