/** A formula or a plain function by its name, before it is called: what it works out, from what, why, and when it holds. */
import { MATHEMATICS } from '../quantity/mathematics';
import { formulaNamed } from '../trade/index';
import { formulaParts, parameterRows } from './explain-call';
import type { Explanation } from './explanation';
import { capital } from '../engine/wording';

export function explainFormula(name: string): Explanation | null {
  const formula = formulaNamed(name);
  if (formula) {
    const results = formula.result.map(
      (field) => [field.name || 'gives', field.unit, field.meaning] as const,
    );
    return {
      name,
      shown: null,
      parts: [
        { kind: 'words', text: `${formula.title}.` },
        { kind: 'table', rows: parameterRows(formula) },
        { kind: 'table', rows: results },
        { kind: 'words', text: formula.why },
        ...formulaParts(formula),
      ],
    };
  }
  const known = MATHEMATICS.get(name);
  if (!known) return null;
  const rows = known.parameters.map((parameter) => [parameter.name, '', parameter.meaning] as const);
  const [call, gives] = known.example;
  return {
    name,
    shown: null,
    parts: [
      { kind: 'words', text: `${capital(known.meaning)}.` },
      { kind: 'table', rows },
      { kind: 'words', text: `${call} is ${gives}.` },
    ],
  };
}
