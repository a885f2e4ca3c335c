/** The usual cautions, at the block whose formulas call for them: each once in a note, where it first comes up. */
import type { Row } from '../engine/index';
import type { Expression, Statement } from '../notation/syntax';
import { CAUTIONS } from '../trade/cautions';
import { formulaNamed } from '../trade/index';
import { element, escape } from './html';

/** Cautions by the line of the fence under which they are shown. */
export function cautionsByFence(rows: readonly Row[]): ReadonlyMap<number, readonly string[]> {
  const said = new Set<string>();
  const byFence = new Map<number, string[]>();
  for (const row of rows) {
    for (const name of formulasIn(row.statement)) {
      for (const text of formulaNamed(name)?.cautions.flatMap((key) => CAUTIONS.get(key) ?? []) ?? []) {
        if (said.has(text)) continue;
        said.add(text);
        const texts = byFence.get(row.block.fenceLine);
        if (texts) texts.push(text);
        else byFence.set(row.block.fenceLine, [text]);
      }
    }
  }
  return byFence;
}

export function cautionsHtml(texts: readonly string[] | undefined): string {
  if (!texts) return '';
  const count = texts.length === 1 ? 'one caution' : `${texts.length} cautions`;
  return element(
    'details',
    { class: 'scribeline-cautions' },
    element('summary', {}, `Before the cut: ${count}`),
    element('ul', {}, ...texts.map((text) => element('li', {}, escape(text)))),
  );
}

/** Names called in a line. */
function formulasIn(statement: Statement): readonly string[] {
  if (statement.kind === 'figure' || statement.kind === 'show') return calls(statement.expression);
  return statement.kind === 'check' ? statement.terms.flatMap(calls) : [];
}

function calls(node: Expression): readonly string[] {
  switch (node.kind) {
    case 'call':
      return [node.name.text, ...node.arguments.flatMap((argument) => calls(argument.value))];
    case 'binary':
      return [...calls(node.left), ...calls(node.right)];
    case 'negate':
    case 'group':
    case 'field':
      return calls(node.of);
    case 'list':
      return node.items.flatMap(calls);
    case 'quantity':
    case 'name':
      return [];
  }
}
