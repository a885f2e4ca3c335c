/** Every formula, driven far out of its range in each input: it answers a figure, or says which input to change and to what. */
import { expect, it } from 'vitest';
import { allFormulas } from '../../src/trade';
import { isRefusal } from '../../src/trade/formula';
import { type Arguments, callOf, given } from './given';

/** What an input is made: nothing, less than nothing, far too little, a little more or less, far too much. */
const TIMES = [0, -1, 1e-6, 0.01, 0.5, 2, 100, 1e6];

interface Told {
  readonly call: string;
  readonly parameter: string | null;
  readonly says: string;
}

function driven(): readonly Told[] {
  const told: Told[] = [];
  for (const formula of allFormulas())
    for (const { call } of formula.checks) {
      const { args } = callOf(call);
      for (const { name, kind } of formula.parameters) {
        const usual = args[name];
        const tried: (Arguments[string] | undefined)[] =
          typeof usual === 'number'
            ? TIMES.map((times) =>
                kind === 'count' ? Math.max(1, Math.round(usual * times)) : usual * times,
              )
            : Array.isArray(usual)
              ? TIMES.map((times) => (usual as number[]).map((each) => each * times))
              : kind === 'code'
                ? ['banana', 'M0.1', 'M500', 'Z99', '1:0', 'MT9', '9-99 UNC']
                : [];
        for (const value of tried) {
          if (value === undefined) continue;
          const g = given({ ...args, [name]: value });
          const where = `${call} with ${name} ${String(value)}`;
          // As in a note, the first condition that does not hold is told.
          const broken = formula.conditions.find((c) => c.severity === 'error' && !c.holds(g));
          if (broken) {
            told.push({ call: where, parameter: broken.parameter, says: broken.says(g) });
            continue;
          }
          const result = formula.compute(g);
          if (typeof result === 'object' && isRefusal(result)) {
            told.push({ call: where, parameter: result.parameter, says: result.refused });
            continue;
          }
          const all = typeof result === 'object' ? Object.values(result).flat() : [result];
          for (const each of all)
            if (typeof each === 'number' && !Number.isFinite(each))
              told.push({ call: where, parameter: null, says: 'NOT FINITE' });
        }
      }
    }
  return told;
}

const told = driven();

it('drives formulas out of their ranges', () => {
  expect(told.length).toBeGreaterThan(1000);
});

it('answers a figure or refuses', () => {
  expect(told.filter(({ says }) => says === 'NOT FINITE').map(({ call }) => call)).toEqual([]);
});

/** A sentence that says what to do. */
const TO_DO =
  /\b(needs|keep|bring|span|nearest|was|give|take|set|write|choose|measure|allow|change|work out|leave|use|put|make|raise|lower|cut|move|turn|add|shorten|choose|pick|grind|hold|check|try|ask|fit|order|open|support|buy)\b/i;

/** Touches in one spot have no figure that would mend them: the sentence says where to touch. */
const ABOUT_TOUCHES = /take them well round|measure at two places/;

it('says what to change, with a figure or the words to write', () => {
  const dumb = told.filter(
    ({ says }) => !TO_DO.test(says) || (!/\d|`/.test(says) && !ABOUT_TOUCHES.test(says)),
  );
  expect([...new Map(dumb.map((each) => [each.says, each])).values()]).toEqual([]);
});

it('names the input to change, so that the mark stands under it', () => {
  const known = new Set(allFormulas().flatMap(({ parameters }) => parameters.map(({ name }) => name)));
  for (const { parameter, says } of told)
    if (parameter !== null) expect([says, known.has(parameter)]).toEqual([says, true]);
});
