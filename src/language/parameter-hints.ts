/** Names of parameters before the arguments of a call, where the argument does not say by itself what it is for. */
import type { Row } from '../engine/index';
import type { Argument, CallNode, Expression } from '../notation/syntax';
import { children, expressionsOf } from '../notation/walk';
import { formulaNamed } from '../trade/index';

export interface ParameterHint {
  /** Offset in the row's text, before which it stands. */
  readonly offset: number;
  readonly text: string;
}

/** Of the calls with more than one argument. */
export function parameterHints({ statement }: Row): readonly ParameterHint[] {
  const found: ParameterHint[] = [];
  const walk = (e: Expression): void => {
    if (e.kind === 'call') found.push(...ofCall(e));
    children(e).forEach(walk);
  };
  expressionsOf(statement).forEach(walk);
  return found.sort((a, b) => a.offset - b.offset);
}

function ofCall(call: CallNode): readonly ParameterHint[] {
  const parameters = formulaNamed(call.name.text)?.parameters;
  if (!parameters || call.arguments.length < 2) return [];
  return call.arguments.flatMap((argument, i) => {
    const name = parameters[i]?.name;
    if (argument.name !== null || name === undefined || says(argument, name)) return [];
    return [{ offset: argument.start, text: `${name}:` }];
  });
}

/** Whether the argument's own words hold the parameter's: `setup.ring`, `ring_set` for `ring`. */
function says({ value }: Argument, parameter: string): boolean {
  const words = wordsOf(value);
  const wanted = parameter.split('_');
  return words !== null && wanted.some((word) => words.includes(word));
}

function wordsOf(value: Expression): readonly string[] | null {
  if (value.kind === 'name') return value.name.split('_');
  return value.kind === 'field' ? value.field.split('_') : null;
}
