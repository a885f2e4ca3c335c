/** What can be written beside readings: the unit they lack, which side is metal, limits to judge them by, what is left. */
import { planned } from '../engine/index';
import type { Finding, Row } from '../engine/results';
import { ANGLE, LENGTH } from '../quantity/dimension';
import type { Quantity } from '../quantity/value';
import { rangeOf } from './diagnostics';
import { type Noted, type TextEdit, insertion, lineBelow, textIn } from './edits';
import type { Proposal } from './quick-fixes';
import { type Said, said } from './said';

/** A reading without a unit gets the one of its figure; on one that has another it mends nothing. */
export function unitOfReading({ text }: Noted, finding: Finding): readonly Proposal[] {
  const wanted = String(finding.data['wanted']);
  const range = rangeOf(finding);
  const put = `${textIn(text, range)}${wanted === 'deg' ? '°' : ` ${wanted}`}`;
  return [{ title: said('Write {0}', put), edits: [{ range, text: put }] }];
}

/** `shaft` or `hole` after the limits of the figure that is read. */
export function senseFixes({ sheet }: Noted, finding: Finding): readonly Proposal[] {
  const figure = sheet.figure(String(finding.data['name']));
  if (figure?.statement.kind !== 'figure' || !figure.statement.limits) return [];
  const at = figure.column + figure.statement.limits.end;
  return [
    { title: said('Say that it is a shaft'), edits: [insertion(figure.line, at, ' shaft')] },
    { title: said('Say that it is a hole'), edits: [insertion(figure.line, at, ' hole')] },
  ];
}

export function readingFixes(noted: Noted, row: Row): readonly Proposal[] {
  const { statement, reading } = row;
  if (statement.kind === 'figure') return limitsFor(noted, row);
  if (!reading) return [];
  return [...limitsFor(noted, noted.sheet.figure(reading.path)), ...whatIsLeft(noted, row, reading.path)];
}

/**
 * General tolerances for lengths, class m of ISO 2768-1 (from memory): above and up to, in mm, and the deviation either
 * way. They are a first proposal for a size that says nothing, not what a drawing asks.
 */
const GENERAL: readonly (readonly [upTo: number, deviation: number])[] = [
  [6, 0.1],
  [30, 0.2],
  [120, 0.3],
  [400, 0.5],
  [1000, 0.8],
];

/** Limits for a figure that was measured and has none to be judged by. */
function limitsFor({ sheet }: Noted, row: Row | undefined): readonly Proposal[] {
  if (row?.statement.kind !== 'figure' || row.value?.kind !== 'number') return [];
  const { statement, value } = row;
  if (statement.limits) return [];
  const name = statement.name.text;
  const read = sheet.rows().some((each) => each.reading?.path === name);
  if (!read) return [];
  const put = (limits: string, title: Said): Proposal => ({
    title,
    edits: [insertion(row.line, row.column + statement.expression.end, ` ${limits}`)],
  });
  if (value.dimension === ANGLE) return [put('± 0.5°', said('Ask for limits: {0}, to begin with', '± 0.5°'))];
  if (value.dimension !== LENGTH) return [];
  const size = Math.abs(value.value);
  const general = GENERAL.find(([upTo]) => size <= upTo);
  if (!general) return [];
  const limits = `± ${general[1]} mm`;
  return [put(limits, said('Ask for limits: {0}, general tolerance m of ISO 2768-1, from memory', limits))];
}

/** What a reading leaves to take off, as a line that calculates. */
function whatIsLeft(noted: Noted, row: Row, name: string): readonly Proposal[] {
  const { sheet, text } = noted;
  const plan = planned(sheet, name.split('.'));
  if (!plan) return [];
  const flat = name.replaceAll('.', '_');
  const sense = sheet.figure(name)?.asked?.sense;
  const difference = sense === 'hole' ? `${name} - ${name}.reading` : `${name}.reading - ${name}`;
  const below = (code: string): readonly TextEdit[] => [lineBelow(text, row, code)];
  const about = plan.dimension === LENGTH ? '   # on the diameter' : '';
  const found: Proposal[] = [];
  for (const ring of ringsFor(noted, plan))
    found.push({
      title: said('Work out how far the knee still goes up with {0}', ring.name),
      edits: below(
        `${fresh(noted, `${flat}_raise`)} = knee_raise(${name}.reading, ${ring.ball}, ${ring.name}.ring)`,
      ),
    });
  found.push({
    title: said('Write what is left as a line'),
    edits: below(`${fresh(noted, `${flat}_left`)} = ${difference}${about}`),
  });
  return found;
}

/** The set-ups of this note that cut a ball of that size. */
function ringsFor(
  { sheet }: Noted,
  ball: Quantity,
): readonly { readonly name: string; readonly ball: string }[] {
  return sheet.rows().flatMap(({ statement, text }) => {
    if (statement.kind !== 'figure' || statement.expression.kind !== 'call') return [];
    if (statement.expression.name.text !== 'ball_on_shank') return [];
    const name = statement.name.text;
    const balls = statement.expression.arguments.filter(
      (each) => each.name === null || each.name.text === 'ball',
    );
    return balls.slice(0, 1).flatMap(({ value: given }) => {
      const value = sheet.evaluateExpression(given, text);
      if (value?.kind !== 'number' || value.value !== ball.value) return [];
      return [{ name, ball: text.slice(given.start, given.end) }];
    });
  });
}

/** The name, with a number after it where the note has it already. */
function fresh({ sheet }: Noted, name: string): string {
  let free = name;
  for (let i = 2; sheet.valueOf(free) !== null || sheet.figure(free); i++) free = `${name}_${i}`;
  return free;
}
