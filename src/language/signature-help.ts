/** What a formula takes, while its call is being written, with the parameter that the cursor is in. */
import { MATHEMATICS } from '../quantity/mathematics';
import { formulaNamed } from '../trade/index';
import { type OpenCall, type Question, cursorAt, openCall } from './cursor';
import { usual } from './explain-call';
import { capital } from '../engine/wording';

export interface Signature {
  readonly label: string;
  /** What it works out. */
  readonly words: string;
  readonly parameters: readonly {
    /** Its place in the label. */
    readonly start: number;
    readonly end: number;
    /** What it means, and its usual unit. */
    readonly words: string;
  }[];
  /** The parameter the cursor is in; null where the call has too many arguments. */
  readonly active: number | null;
}

interface Taken {
  readonly name: string;
  readonly optional: boolean;
  readonly words: string;
}

export function signature(question: Question): Signature | null {
  const cursor = cursorAt(question);
  const call = cursor && !cursor.onFence ? openCall(cursor.before) : null;
  if (!call) return null;
  const formula = formulaNamed(call.name);
  if (formula) {
    const taken = formula.parameters.map((parameter) => ({
      name: parameter.name,
      optional: parameter.optional === true,
      words: `${capital(parameter.meaning)}. ${capital(usual(parameter))}.`,
    }));
    return made(call, `${formula.title}.`, taken, false);
  }
  const known = MATHEMATICS.get(call.name);
  if (!known) return null;
  const taken = known.parameters.map(({ name, meaning, optional }) => ({
    name,
    optional: optional === true,
    words: `${capital(meaning)}.`,
  }));
  return made(call, `${capital(known.meaning)}.`, taken, known.parameters.at(-1)?.repeats === true);
}

function made(call: OpenCall, words: string, taken: readonly Taken[], repeats: boolean): Signature {
  let label = `${call.name}(`;
  const parameters = taken.map((each, i) => {
    if (i > 0) label += ', ';
    const start = label.length;
    label += each.optional ? `${each.name}?` : each.name;
    return { start, end: label.length, words: each.words };
  });
  label += repeats ? ', …)' : ')';
  return { label, words, parameters, active: activeOf(call, taken, repeats) };
}

function activeOf(call: OpenCall, taken: readonly Taken[], repeats: boolean): number | null {
  const index =
    call.named === null
      ? repeats
        ? Math.min(call.index, taken.length - 1)
        : call.index
      : taken.findIndex(({ name }) => name === call.named);
  return index >= 0 && index < taken.length ? index : null;
}
