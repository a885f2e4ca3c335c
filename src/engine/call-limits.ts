/** Limits on their way through a formula: it is worked out again at every end of every toleranced input. */
import { MAX_INPUTS, placesAlong, sampleAt, whereIs } from '../quantity/spread';
import { toBase } from '../quantity/unit';
import { type Fault, type Quantity, type Reach, fault } from '../quantity/value';
import { type Answer, type Formula, type Given, isRefusal } from '../trade/formula';
import { type Arguments, GivenArguments, itemName, parameterUnit } from './given';

/** What a formula answers as one input moves. */
export interface Moved {
  readonly input: number;
  readonly inside: boolean;
  /** At the input's low end, at its high end, and at the places between. */
  readonly answers: readonly Answer[];
  /** Those places: 0 is the low end, 1 the high one. */
  readonly along: readonly number[];
}

/** The formula at both ends of every toleranced input, at the places its arguments were taken at, and at its own extremes. */
export function movedAnswers(formula: Formula, bound: Arguments, nominal: Given): readonly Moved[] | Fault {
  const reaching = reachesByInput(bound);
  if (reaching.size > MAX_INPUTS) return fault('too-many-inputs', { count: reaching.size });
  const out: Moved[] = [];
  for (const [input, reaches] of [...reaching].sort(([a], [b]) => a - b)) {
    const own = [...reaches].flatMap(([name, reach]) => extremesAlong(formula, nominal, name, reach));
    const along = [...new Set([...placesAlong([...reaches.values()]), ...own])];
    const answers: Answer[] = [];
    for (const place of [0, 1, ...along]) {
      const moved = new Map([...reaches].map(([name, reach]) => [name, sampleAt(reach, place)]));
      const given = new GivenArguments(formula, bound, moved);
      const broken = formula.conditions.find((c) => c.severity === 'error' && !c.holds(given));
      if (broken) return fault('fails-at-limit', { input, says: broken.says(given) });
      const result = formula.compute(given);
      if (isRefusal(result)) return fault('fails-at-limit', { input, says: result.refused });
      answers.push(result);
    }
    const inside = [...reaches.values()].every((reach) => reach.inside);
    out.push({ input, inside, answers, along });
  }
  return out;
}

/** By input: how it moves each argument that it moves. */
function reachesByInput(bound: Arguments): ReadonlyMap<number, Map<string, Reach>> {
  const reaching = new Map<number, Map<string, Reach>>();
  const enter = (name: string, { spread }: Quantity): void => {
    for (const reach of spread ?? []) {
      const found = reaching.get(reach.input);
      if (found) found.set(name, reach);
      else reaching.set(reach.input, new Map([[name, reach]]));
    }
  };
  for (const [name, value] of bound) {
    if (typeof value !== 'object' || !('kind' in value)) continue;
    if (value.kind === 'number') enter(name, value);
    else value.items.forEach((item, i) => enter(itemName(name, i), item));
  }
  return reaching;
}

/** Where along an input a parameter passes a value at which the formula's result turns round. */
function extremesAlong(formula: Formula, nominal: Given, name: string, reach: Reach): readonly number[] {
  const { extremes } = formula;
  const declared = extremes && Object.hasOwn(extremes, name) ? extremes[name] : undefined;
  return (declared?.(nominal) ?? []).flatMap((x) => {
    const base = toBase(x, parameterUnit(formula, name));
    return Math.min(...reach.at) < base && base < Math.max(...reach.at) ? [whereIs(reach, base)] : [];
  });
}
