/** The usual cautions, at the block whose formulas and machines call for them: each once in a note, where it first comes up. */
import { type Row, type Sheet, machineCautions } from '../engine/index';
import type { Expression, Statement } from '../notation/syntax';
import { cautionsFor } from '../trade/cautions';
import { formulaNamed } from '../trade/index';
import { element, mixed } from './html';

/** Cautions by the line of the fence under which they are shown: those of the block's machines, then of its formulas. */
export function cautionsByFence(sheet: Sheet, rows: readonly Row[]): ReadonlyMap<number, readonly string[]> {
  const said = new Set<string>();
  const byFence = new Map<number, string[]>();
  const say = (line: number, text: string): void => {
    if (said.has(text)) return;
    said.add(text);
    const texts = byFence.get(line);
    if (texts) texts.push(text);
    else byFence.set(line, [text]);
  };
  for (const block of sheet.note.blocks)
    for (const caution of machineCautions(sheet, block)) say(block.fenceLine, caution);
  for (const { statement, block } of rows) {
    for (const name of formulasIn(statement))
      for (const text of cautionsFor(formulaNamed(name)?.cautions ?? [])) say(block.fenceLine, text);
  }
  return byFence;
}

/** Folded away in the preview, where it must not stand in the way of the figures; open on a sheet. */
export function cautionsHtml(texts: readonly string[] | undefined, open = false): string {
  if (!texts) return '';
  const count = texts.length === 1 ? 'one caution' : `${texts.length} cautions`;
  return element(
    'details',
    { class: 'scribeline-cautions', open: open ? '' : null },
    element('summary', {}, `Before the cut: ${count}`),
    element('ul', {}, ...texts.map((text) => element('li', {}, mixed(text)))),
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
