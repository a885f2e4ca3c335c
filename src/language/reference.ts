/** The reference page of all formulas, as markdown: grouped as one looks for them at work, made from their own data. */
import { parameterDimension } from '../engine/index';
import { dimensionName } from '../quantity/dimension';
import type { Family, Field, Formula, Parameter, WorkedCheck } from '../trade/formula';
import { cautionsFor } from '../trade/cautions';

/** Families in the order of a job, with what each is called on the page. A test fails when one is missing. */
export const GROUPS: ReadonlyMap<Family, string> = new Map<Family, string>([
  ['worn', 'Knowing a worn part'],
  ['stock', 'Stock and saw'],
  ['price', 'Time and price'],
  ['support', 'Holding long work'],
  ['cutting', 'Speeds, feeds and forces'],
  ['taper', 'Tapers and alignment'],
  ['fits', 'Limits, fits and warmth'],
  ['holes', 'Holes and drills'],
  ['threads', 'Threads'],
  ['probing', 'Touching off and hole patterns'],
  ['setup', 'Setting angles'],
  ['boring', 'Boring head'],
  ['ball', 'Balls and seats'],
  ['indexing', 'Dividing head'],
  ['geometry', 'Shop geometry'],
  ['mechanics', 'Power and weight'],
  ['hardness', 'Hardness'],
]);

/** A page that names each formula once, its group first; `GROUPS` gives the order. */
export function referencePage(formulas: readonly Formula[]): string {
  const lines = [
    '# Formulas',
    '',
    'What figures blocks can work out, in the order of a job. Arguments are given in the order shown or by name; those with a',
    '`?` may be left out. Lengths, angles and all else may be given in any unit of their kind. This page is made from the',
    'formulas themselves; figures are starting points to be checked, and the manual of the machine, local rules and qualified',
    'practice come first.',
    '',
    ...[...GROUPS].flatMap(([family, title]) => {
      const own = formulas.filter((formula) => formula.family === family);
      return own.length === 0 ? [] : [`- [${title}](#${anchor(title)}): ${own.map(link).join(', ')}`];
    }),
    '',
  ];
  for (const [family, title] of GROUPS) {
    const own = formulas.filter((formula) => formula.family === family);
    if (own.length > 0) lines.push(`## ${title}`, '', ...cautionsOf(own), ...own.flatMap(section));
  }
  return `${lines.join('\n').trimEnd()}\n`;
}

const anchor = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}_ -]/gu, '')
    .replaceAll(' ', '-');

const link = ({ name }: Formula): string => `[\`${name}\`](#${name})`;

/** What to mind in a group, each caution once however many of its formulas call for it. */
function cautionsOf(formulas: readonly Formula[]): readonly string[] {
  const told = new Set(formulas.flatMap(({ cautions }) => cautionsFor(cautions)));
  return told.size === 0 ? [] : ['Mind:', '', ...[...told].map((it) => `- ${text(it)}`), ''];
}

function section(formula: Formula): readonly string[] {
  const { name, title, parameters, result, why, conditions, source, checks } = formula;
  const list = parameters.map((it) => it.name + (it.optional === true ? '?' : '')).join(', ');
  return [
    `### ${name}`,
    '',
    `**${text(title)}**`,
    '',
    `\`${name}(${list})\``,
    '',
    '| takes | | |',
    '| --- | --- | --- |',
    ...parameters.map(
      (it) =>
        `| \`${it.name}\`${it.optional === true ? ' ?' : ''} | ${text(kindOf(it))} | ${text(it.meaning)} |`,
    ),
    '',
    '| gives | | |',
    '| --- | --- | --- |',
    ...result.map(
      (it) =>
        `| ${it.name === '' ? 'the result' : `\`.${it.name}\``} | ${text(unitOf(it))} | ${text(it.meaning)} |`,
    ),
    '',
    text(why),
    '',
    ...(conditions.length === 0
      ? []
      : [`Holds while ${conditions.map(({ range }) => text(range)).join('; ')}.`, '']),
    `Source: ${text(source)}.`.replace(/\.\.$/, '.'),
    '',
    'Checked:',
    '',
    ...checks.map(
      (check) => `- \`${check.call}\` → ${text(expected(check, formula))} (${text(check.source)})`,
    ),
    '',
  ];
}

function kindOf(parameter: Parameter): string {
  const { kind, unit, words } = parameter;
  if (words) return words.join(' or ');
  if (kind === 'machine' || kind === 'material') return `${kind} card`;
  if (kind === 'code') return 'ISO 286 code';
  if (kind === 'count') return 'whole number';
  const dimension = parameterDimension(parameter);
  const what = dimension ? dimensionName(dimension) : 'number';
  const usual = unit === '' || unit === '¤' ? what : `${what}, usually ${unit}`;
  return kind === 'list' ? `list: ${usual}` : usual;
}

function unitOf({ unit, words, list }: Field): string {
  const one = words === true ? 'words' : unit === '' ? 'number' : unit === '¤' ? 'money' : unit;
  return list === true ? `list: ${one}` : one;
}

/** As many items of a list as show how it goes on. */
const SHOWN = 8;

function expected({ expect }: WorkedCheck, { result }: Formula): string {
  return Object.entries(expect)
    .map(([name, outcome]) => {
      const unit = result.find((field) => field.name === name)?.unit ?? '';
      const items = typeof outcome === 'object' ? outcome : [outcome];
      const shown = items.slice(0, SHOWN).join(', ') + (items.length > SHOWN ? ', …' : '');
      const value = typeof outcome === 'object' ? `[${shown}]` : shown;
      return `${name === '' ? '' : `${name} `}${value}${unit === '' || unit === '¤' ? '' : unit === '°' ? unit : ` ${unit}`}`;
    })
    .join(', ');
}

/** Words of ours in a cell or a line; outside code, what markdown could take for marks is kept as it is. */
const text = (words: string): string =>
  words
    .replace(/\s+/g, ' ')
    .split('`')
    .map((part, i) => (i % 2 === 1 ? part.replaceAll('|', '\\|') : part.replace(/[|<>*_[\]\\]/g, '\\$&')))
    .join('`');
