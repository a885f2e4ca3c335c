/** What a kind of finding means and why the notebook asks, as a page of markdown. */
import { CATALOGUE } from '../engine/index';
import { capital } from '../engine/wording';

/** How each severity is met. */
const MEANS = new Map([
  ['error', 'An error: the line has no value, or what it asks does not hold.'],
  ['warning', 'A warning: the value stands, but it deserves a second look.'],
  ['info', 'A remark: nothing is wrong.'],
]);

/** Null for a code that no room knows. */
export function findingPage(code: string): string | null {
  const kind = CATALOGUE.get(code);
  if (!kind) return null;
  const title = capital(code.replaceAll('-', ' '));
  return `# ${title}\n\n${kind.why}\n\n${MEANS.get(kind.severity) ?? ''}\n\nCode: \`${code}\`\n`;
}

/** All codes in order, for a list to choose from. */
export function findingCodes(): readonly string[] {
  return [...CATALOGUE.keys()].sort();
}
