/** What formulas and their workings say in words, where it depends on what they were given. */
import { describe, expect, it } from 'vitest';
import { formulaNamed } from '../../src/trade';
import { isRefusal } from '../../src/trade/formula';
import { answer, broken, callOf, card, given } from './given';

/** The words of one step of a call's working. */
const words = (call: string, name: string): string => {
  const { formula, args } = callOf(call);
  return formula.working(given(args)).find((step) => step.name === name)?.words ?? '';
};
const errors = (call: string): string => {
  const { formula, args } = callOf(call);
  return broken(formula, args, 'error').join();
};

describe('a working says', () => {
  it.each([
    ['tool_facing(hole, usual)', 'pointing', 'outwards, as the bar is made'],
    ['tool_facing(boss, usual)', 'pointing', 'inwards: the bar turned half round'],
    ['bolt_circle(60 mm, 6)', 'x', 'half the diameter times the cosine of each angle, from the centre'],
    ['bolt_circle(60 mm, 6)', 'y', 'half the diameter times the sine of each angle, from the centre'],
    ['screw_limits(M12)', 'crest_tolerance', 'width for the outside'],
    ['nut_limits(M12)', 'crest_tolerance', 'width for the bore'],
    ['thread_sizes(M12)', 'pitch', 'pitch of M12'],
    ['thread_sizes(3/8-16 UNC)', 'pitch', 'an inch over the threads per inch'],
    ['size_at_reference(100 mm, 35 °C, steel_C60)', 'true_size', 'without the growth of the work'],
    [
      'size_at_reference(100 mm, 35 °C, steel_C60, steel_C45)',
      'true_size',
      'a warm gauge shows too little; then without the growth of the work',
    ],
  ])('%s, %s: %s', (call, name, said) => {
    expect(words(call, name)).toContain(said);
  });
});

describe('a formula says', () => {
  it('what does instead of a reamer out of the custom', () => {
    expect(errors('reaming_allowance(0.5 mm)')).toContain('0.5 mm is broached or lapped');
    expect(errors('reaming_allowance(60 mm)')).toContain('60 mm is bored');
  });

  it('that standing still is no way down', () => {
    const { args } = callOf('screw_move(10 mm, 10 mm, knee, knee)');
    expect(answer('screw_move', args)).toMatchObject({ turns: 0, divisions: 0, way: 'up', turn_at: 10 });
  });

  it('whether a worn part is over or under a size', () => {
    expect(answer('likely_size', { measured: 29.93 })['ranking']).toContain('30 mm (M30): 0.07 mm under');
    expect(answer('likely_size', { measured: 30.05, part: 'hole' })['ranking']).toContain(
      '30 mm: 0.05 mm over',
    );
  });
});

it('a dial of a boring head counts by its own screw', () => {
  // 3 mm on diameter at 2 mm a turn of 40 divisions is a turn and a half: 60 divisions of 0.05 mm.
  const head = card('head', { diameter_per_turn: 2, head_divisions: 40 });
  expect(answer('boring_head_dial', { measured: 20, wanted: 23, head })).toMatchObject({
    divisions: 60,
    one_division: 0.05,
  });
  for (const fields of [
    { head_divisions: 40 },
    { diameter_per_turn: 0, head_divisions: 40 },
    { diameter_per_turn: 2 },
    { diameter_per_turn: 2, head_divisions: 0 },
    { diameter_per_turn: 2, head_divisions: [40, 50] },
    { diameter_per_turn: [2, 3], head_divisions: 40 },
  ]) {
    const made = formulaNamed('boring_head_dial')?.compute(
      given({ measured: 20, wanted: 23, head: card('odd', fields) }),
    );
    expect([fields, typeof made === 'object' && isRefusal(made)]).toEqual([fields, true]);
  }
});

it('where a grid turns round does not depend on where it stands', () => {
  const turns = (first_x: number, first_y: number): readonly number[] =>
    formulaNamed('hole_grid')?.extremes?.['turned']?.(
      given({ columns: 2, rows: 2, pitch_x: 30, pitch_y: -10, turned: 20, first_x, first_y }),
    ) ?? [];
  expect(turns(0, 0).length).toBeGreaterThan(0);
  expect(turns(100, -40)).toEqual(turns(0, 0).map((turn) => expect.closeTo(turn, 9) as number));
});
