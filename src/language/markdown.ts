/** An explanation as markdown for a hover or a tooltip. Whatever came from a note is escaped. */
import { isolated } from '../engine/direction';
import { capital } from '../engine/wording';
import type { Explanation, Part, Step } from './explanation';

export function markdown(explanation: Explanation): string {
  return markdownSections(explanation).join('\n\n');
}

/** The same in two texts, the result and what it comes from, so that a picture can stand between them. */
export function markdownInTwo(explanation: Explanation): readonly [result: string, rest: string] {
  const { parts } = explanation;
  const found = parts.findIndex(({ kind }) => kind === 'working' || kind === 'note' || kind === 'source');
  const first = parts.findIndex(({ kind }) => kind === 'table');
  const end = found < 0 ? parts.length : found;
  const split = first >= 0 && first < end ? first + 1 : end;
  const result = markdown({ ...explanation, parts: parts.slice(0, split) });
  return [result, markdown({ name: '', shown: null, parts: parts.slice(split) })];
}

function markdownSections({ name, shown, parts }: Explanation): readonly string[] {
  const heading = [name === '' ? '' : `**${escape(name)}**`, shown === null ? '' : escape(shown)];
  return [heading.filter((text) => text !== '').join(' = '), ...parts.map(section)].filter(
    (text) => text !== '',
  );
}

function section(part: Part): string {
  switch (part.kind) {
    case 'words':
      return escape(part.text);
    case 'also':
      return part.texts.map(escape).join(' · ');
    case 'table':
      return table(part.rows);
    case 'working':
      return part.steps.map(step).join('\n\n');
    case 'limits':
      return [`**Limits** ${escape(part.text)}`, ...part.shares.map((share) => `- ${escape(share)}`)].join(
        '\n',
      );
    case 'source':
      return `**Source** ${escape(part.text)}`;
    case 'mind':
      return ['**Mind**', ...part.texts.map((text) => `- ${escape(text)}`)].join('\n');
    case 'note':
      return `**${escape(part.title)}** ${escape(part.text)}`;
  }
}

function step({ words, name, expression, figures, result }: Step): string {
  const left = name === '' ? '' : `${name} `;
  const lines = [`${left}= ${expression}`];
  const indent = ' '.repeat([...left].length);
  if (figures !== expression) lines.push(`${indent}= ${figures}`);
  if (result !== figures) lines.push(`${indent}= ${result}`);
  return `${words === null ? '' : `${escape(capital(words))}:\n`}${block(lines.join('\n'))}`;
}

/** A code block whose fence is longer than any run of marks within it. */
function block(text: string): string {
  const longest = Math.max(2, ...[...text.matchAll(/`+/g)].map(([run]) => run.length));
  const fence = '`'.repeat(longest + 1);
  return `${fence}text\n${text}\n${fence}`;
}

/** Columns need air: a hover draws tables without any. */
const AIR = '&nbsp;&nbsp;';

function table(rows: readonly (readonly [string, string, string])[]): string {
  const line = ([name, shown, meaning]: readonly [string, string, string]): string =>
    `| ${escape(name)}${AIR} | ${together(escape(shown))}${AIR} | ${escape(meaning)} |`;
  return ['| | | |', '|:--|:--|:--|', ...rows.map(line)].join('\n');
}

/** A figure and its unit stay on one line where the column is narrow. */
function together(shown: string): string {
  return shown.length > LONG ? shown : shown.replaceAll(' ', '&nbsp;');
}

const LONG = 40;

/** Text that markdown shows as it is: every mark that could mean something is escaped, line ends become blanks. */
export function escape(text: string): string {
  return isolated(text.replace(/\s+/g, ' ')).replace(/[\\`*_{}[\]()#+\-.!|<>~$&:@/=^"']/g, '\\$&');
}
