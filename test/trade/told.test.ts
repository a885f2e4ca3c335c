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
const refused = (call: string): string => {
  const { formula, args } = callOf(call);
  const made = formula.compute(given(args));
  return typeof made === 'object' && isRefusal(made) ? made.refused : '';
};
const warnings = (call: string): string => {
  const { formula, args } = callOf(call);
  return broken(formula, args, 'warning').join();
};
/** Everything that is told of a call. */
const all = (call: string): string[] => {
  const { formula, args } = callOf(call);
  return [...broken(formula, args, 'error'), ...broken(formula, args, 'warning')];
};
const errors = (call: string): string => {
  const { formula, args } = callOf(call);
  return broken(formula, args, 'error').join();
};

describe('a working says', () => {
  it.each([
    ['tool_facing(hole, usual)', 'pointing', 'outwards, as the bar is made'],
    ['tool_facing(boss, usual)', 'pointing', 'inwards: the bar turned half round'],
    ['tool_facing(boss, usual)', 'ground', 'ground to cut forwards when it points outwards'],
    ['tool_facing(boss, mirrored)', 'ground', 'ground the other way'],
    ['boring_head_setting(29.3 mm, 29.12 mm)', 'slide', 'half the difference'],
    [
      'boring_head_setting(20 mm, 26 mm, tip_offset: 5 mm)',
      'slide',
      'the tip moves along the slide, not from',
    ],
    ['boring_bar_setting(40 mm, 8.5 mm, hole)', '', 'half the hole, less what the tip reaches outwards'],
    ['boring_bar_setting(24.4 mm, 8.5 mm, boss)', '', 'half the boss, and what the tip reaches inwards'],
    ['bolt_circle(60 mm, 6)', 'x', 'half the diameter times the cosine of each angle, from the centre'],
    ['bolt_circle(60 mm, 6)', 'y', 'half the diameter times the sine of each angle, from the centre'],
    ['screw_limits(M12)', 'crest_tolerance', 'width for the outside'],
    ['nut_limits(M12)', 'crest_tolerance', 'width for the bore'],
    ['thread_sizes(M12)', 'pitch', 'pitch of M12'],
    [
      'circle_from_touches([5, 0, -5] mm, [0, 5, 0] mm, 1 mm, hole)',
      'diameter',
      'twice that, and the stylus',
    ],
    [
      'circle_from_touches([5, 0, -5] mm, [0, 5, 0] mm, 1 mm, boss)',
      'diameter',
      'twice that, less the stylus',
    ],
    ['middle_of_touches(0 mm, 9 mm, 1 mm, inside)', 'width', 'the stylus stood inside at both ends'],
    ['middle_of_touches(0 mm, 9 mm, 1 mm, outside)', 'width', 'the stylus stood outside at both ends'],
    [
      'thread_infeed(M10)',
      'swung',
      'half a degree less than the flank: 29.5° from square; a scale that reads zero along the bed shows 60.5°',
    ],
    ['thread_infeed(M10, compound_angle: 25°)', 'swung', 'as given, from square'],
    ['likely_size(29.93 mm)', 'best', 'the likeliest: 30 mm (M30)'],
    ['taper_found([20, 20.02] mm, [0, 100] mm)', 'per_metre', 'difference of the sizes over the distance'],
    [
      'taper_found([20, 20.01, 20.02] mm, [0, 50, 100] mm)',
      'per_metre',
      'the slope that misses all readings least',
    ],
    ['heat_to_assemble(50 mm, 0.059 mm, 0.05 mm, steel_C45)', 'hub_temperature', 'hotter than the shop'],
    ['cool_to_assemble(60 mm, 0.02 mm, 0.0214 mm, steel_C45)', 'shaft_temperature', 'colder than the shop'],
    ['blank_size(1 in, 4 in, 1/8 in, 1/16 in)', 'bar', 'no rack given: just that'],
    ['blank_size(44 mm, 120 mm, 2 mm, 1.5 mm, bars: [40, 50] mm)', 'bar', 'the thinnest bar on the rack'],
    ['thread_sizes(3/8-16 UNC)', 'pitch', 'an inch over the threads per inch'],
    ['size_at_reference(100 mm, 35 °C, steel_C60)', 'true_size', 'without the growth of the work'],
    [
      'size_at_reference(100 mm, 35 °C, steel_C60, steel_C45)',
      'true_size',
      'a warm gauge shows too little; then without the growth of the work',
    ],
  ])('%s, %s: %s', (call, name, said) => {
    expect(words(call, name).startsWith(said), words(call, name)).toBe(true);
  });
});

describe('a formula says', () => {
  it('what does instead of a reamer out of the custom', () => {
    expect(errors('reaming_allowance(0.5 mm)')).toContain('0.5 mm is broached or lapped');
    expect(errors('reaming_allowance(60 mm)')).toContain('60 mm is bored');
  });

  it('which piece is too long for its bars, how long a move is, and which bars there are', () => {
    expect(errors('cut_list([400, 1200, 700] mm, 1000 mm, 3 mm)')).toContain('The longest piece is 1200 mm');
    expect(errors('screw_move(-100 mm, 1950 mm, knee, knee)')).toContain('A move of 2050 mm');
    expect(errors('screw_move(1000 mm, 1950 mm, knee, knee)')).toBe('');
    expect(refused('blank_size(70 mm, 120 mm, 2 mm, 1.5 mm, bars: [40, 60, 50] mm)')).toContain(
      'The thickest bar is 60 mm',
    );
  });

  it('which error is none to allow, and however small a one is', () => {
    const longest = (allowed: number): string =>
      errors(`longest_overhang(steel_C45, 60 N, 12 mm, ${allowed} mm)`);
    expect([longest(0), longest(1.2)]).toEqual(
      Array(2).fill(expect.stringContaining('is no error to allow')),
    );
    expect([longest(0.0005), longest(1.199)]).toEqual(['', '']);
  });

  it('how long a slender piece is in diameters', () => {
    expect(warnings('deflection_in_chuck(steel_C45, 50 N, 12 mm, 120 mm)')).toContain(
      'The work is 10 diameters long',
    );
  });

  it('which way a tool runs, which way it faces, and what to look at first', () => {
    const forwards = /^turn the spindle by hand: /;
    const backwards = /^turn the spindle by hand backwards: .* keyed or locked$/;
    for (const [call, check] of [
      ['tool_facing(hole, usual)', forwards],
      ['tool_facing(hole, mirrored)', backwards],
      ['tool_facing(boss, usual)', backwards],
      ['tool_facing(boss, mirrored)', forwards],
    ] as const)
      expect([call, answer('tool_facing', callOf(call).args)['check']]).toEqual([
        call,
        expect.stringMatching(check),
      ]);
  });

  it('that a bow is no taper, from half of the taper on', () => {
    // Least squares by hand: 0.02 from end to end, and the middle one third of its height off the line of the ends.
    const found = (middle: number): string =>
      warnings(`taper_found([20, ${middle}, 20.02] mm, [0, 50, 100] mm)`);
    expect(found(20.027)).toContain(
      'miss a straight line by 0.011 mm, more than half of the taper of 0.02 mm',
    );
    expect(found(20.023)).toBe('');
  });

  it('whence the hole for a tap is', () => {
    const tap = (thread: string): unknown => {
      const { called, note } = answer('tap_drill', { thread });
      return [called, note];
    };
    expect(tap('M6')).toEqual(['5 mm', 'ISO 2306, from memory']);
    expect(tap('M6x0.75')).toEqual(['5.25 mm', 'the diameter less the pitch, common practice']);
    const custom = (hole: string): string => `common practice, from memory; another open list drills ${hole}`;
    expect(tap('1 1/8-7 UNC')).toEqual(['63/64 in', custom('25 mm')]);
    expect(tap('2-64 UNF')).toEqual(['No. 50', custom('1.85 mm')]);
    const steps = (call: string): unknown => {
      const { formula, args } = callOf(call);
      return formula.working(given(args)).find(({ name }) => name === 'drill')?.expression;
    };
    expect(steps('tap_drill(1 1/8-7 UNC)')).toBe('63/64 in');
    expect(steps('tap_drill(2-64 UNF)')).toBe('0.07 in');
    expect(steps('tap_drill(M6)')).toBe('5 mm');
  });

  it('that the least likely is under one in a hundred', () => {
    const ranking = answer('likely_size', { measured: 30 })['ranking'];
    expect(ranking).toContain('30 mm (M30): exactly, 93 %');
    expect(ranking).toContain('30.2 mm: 0.2 mm under, under 1 %');
  });

  it('which threads have a diameter', () => {
    const codes = formulaNamed('thread_sizes')?.parameters.find(({ name }) => name === 'thread')?.codesOf;
    expect(codes?.(12)).toEqual(['M12']);
    expect(codes?.(9.525)).toEqual(['3/8-16 UNC', '3/8-24 UNF']);
    expect(codes?.(9.6)).toEqual([]);
  });

  it('which classes of threads it holds', () => {
    expect(refused('screw_limits(M12-6H)')).toContain(
      'for a screw write 6g or 6h, for a nut take `nut_limits`',
    );
    expect(refused('nut_limits(M12-6g)')).toContain(
      'for a nut write 6H or 6G, for a screw take `screw_limits`',
    );
    expect(refused('screw_limits(M12-4h)')).toContain('6g, 6h for screws and 6H, 6G for nuts');
    expect(refused('screw_limits(3/8-16 UNC-1A)')).toContain('2A, 3A for screws and 2B for nuts');
    // A class 3A screw has no allowance, and three quarters of the width of 2A (ASME B1.1).
    const width = (thread: string): number => {
      const found = answer('screw_limits', { thread });
      return Number(found['pitch_diameter_max']) - Number(found['pitch_diameter_min']);
    };
    expect(width('3/8-16 UNC-3A') / width('3/8-16 UNC-2A')).toBeCloseTo(0.75, 9);
  });

  it('which wires fit a thread', () => {
    // Handbook: 0.505182 and 1.010363 of the pitch, best 0.57735.
    const fitting = 'take one from 0.758 mm to 1.516 mm, best 0.866 mm';
    expect(warnings('over_wires(10 mm, 1.5 mm, 0.7 mm)')).toContain(
      `lies below the crests of this pitch: ${fitting}`,
    );
    expect(warnings('over_wires(10 mm, 1.5 mm, 1.6 mm)')).toContain(
      `rests on the crests of this pitch: ${fitting}`,
    );
  });

  it('what is no taper', () => {
    for (const taper of ['0:10', '1:0', '0:0', 'MT7'])
      expect(refused(`taper_callout(${taper})`)).toContain(`\`${taper}\` is no call-out of a taper`);
  });

  it('one thing that is wrong once', () => {
    expect(all('keyway(10 mm, 12 mm, 3 mm)')).toHaveLength(1);
    const grip = 'shrink_grip(50 mm, 40 mm, 100 mm, 0.05 mm, steel_C45, steel_C45, friction: ';
    for (const friction of [0, -0.1, 1.1]) expect(all(`${grip}${friction})`)).toHaveLength(1);
    expect(all(`${grip}0.3)`)).toEqual([expect.stringContaining('0.05 to 0.25')]);
    expect(all(`${grip}1)`)).toEqual([expect.stringContaining('0.05 to 0.25')]);
  });

  it('which metric sizes are near one that it has not, and none for a screw in inches', () => {
    const offers = (thread: string): readonly string[] => {
      const made = formulaNamed('counterbore')?.compute(given({ thread }));
      return typeof made === 'object' && isRefusal(made) ? (made.offers ?? []) : [];
    };
    expect(offers('M7x1')).toEqual(['M6', 'M8']);
    expect(offers('3/8-16 UNC')).toEqual([]);
  });

  it('that standing still is no way down or in', () => {
    const { args } = callOf('screw_move(10 mm, 10 mm, knee, knee)');
    expect(answer('screw_move', args)).toMatchObject({ turns: 0, divisions: 0, way: 'up', turn_at: 10 });
    const { args: still } = callOf('boring_head_dial(20 mm, 20 mm, ring_head)');
    expect(answer('boring_head_dial', still)).toMatchObject({ divisions: 0, way: 'out' });
  });

  it('whether a worn part is over or under a size', () => {
    expect(answer('likely_size', { measured: 29.93 })['ranking']).toContain('30 mm (M30): 0.07 mm under');
    expect(answer('likely_size', { measured: 30.0006 })['ranking']).toContain('30 mm (M30): 0.001 mm over');
    expect(answer('likely_size', { measured: 30.05, part: 'hole' })['ranking']).toContain(
      '30 mm: 0.05 mm over',
    );
  });
});

it('a taper found has its sums and its farthest reading in its working', () => {
  const steps = (call: string): ReadonlyMap<string, string> => {
    const { formula, args } = callOf(call);
    return new Map(formula.working(given(args)).map(({ name, expression }) => [name, expression]));
  };
  // By hand: places 50 from their middle, sizes 0.5 from their mean.
  const two = steps('taper_found([20, 21] mm, [0, 100] mm)');
  expect([two.get('lean'), two.get('spread')]).toEqual(['50 mm^2', '5000 mm^2']);
  expect(steps('taper_found([20, 20.027, 20.02] mm, [0, 50, 100] mm)').get('off_line')).toContain(
    '20.027 mm',
  );
  expect(steps('taper_found([20, 19.993, 20.02] mm, [0, 50, 100] mm)').get('off_line')).toContain(
    '19.993 mm',
  );
  expect(steps('blank_size(1 in, 4 in, 1/8 in, 1/16 in)').get('bar')).toBe('least_bar');
});

it('pieces that fit exactly fit', () => {
  const { args } = callOf('pieces_from_bar(100 mm, 18 mm, 2 mm)');
  expect(answer('pieces_from_bar', args)).toMatchObject({ pieces: 5, all_cut: 5, left: 0 });
  // 600 and its cut of 3 leave just 397, and nothing for a cut after it.
  expect(answer('cut_list', callOf('cut_list([600, 397] mm, 1000 mm, 3 mm)').args)).toMatchObject({
    bars: 1,
    left: [0],
  });
});

it('a hollow shaft of a shrink fit gives, too, in its working', () => {
  const { formula, args } = callOf(
    'shrink_grip(50 mm, 40 mm, 100 mm, 0.05 mm, steel_C45, steel_C45, shaft_bore: 20 mm)',
  );
  const steps = new Map(formula.working(given(args)).map(({ name, expression }) => [name, expression]));
  expect(steps.get('shaft_part')).toBe('(shaft_bore / size)^2');
  expect(steps.get('shaft_gives')).toContain('(1 + shaft_part) / (1 - shaft_part)');
});

describe('a dial needs what a turn does, a length, and its divisions, a number', () => {
  it.each([
    ['screw_move', { from: 0, place: 1, screw: 'knee' }, 'machine', 'knee_per_turn', 'knee_divisions'],
    ['knee_dial', { raise: 1 }, 'machine', 'knee_per_turn', 'knee_divisions'],
    ['boring_head_dial', { measured: 20, wanted: 23 }, 'head', 'diameter_per_turn', 'head_divisions'],
  ])('%s', (name, args, parameter, turn, divisions) => {
    const { fields } = card('odd', {
      lead_screw: 5,
      plain: 250,
      least: 0.0005,
      none: 0,
      less: -1,
      more: [5, 250],
    });
    const refuses = (...held: readonly (readonly [string, string])[]): boolean => {
      const own = held.flatMap(([field, like]) => {
        const value = fields.get(like);
        return value ? [[field, value] as const] : [];
      });
      const made = formulaNamed(name)?.compute(
        given({ ...args, [parameter]: { ...card('mill', {}), fields: new Map(own) } }),
      );
      return typeof made === 'object' && isRefusal(made);
    };
    expect(refuses([turn, 'lead_screw'], [divisions, 'plain'])).toBe(false);
    expect(refuses([turn, 'lead_screw'], [divisions, 'least'])).toBe(false);
    expect([refuses([turn, 'lead_screw']), refuses([divisions, 'plain'])]).toEqual([true, true]);
    for (const odd of ['plain', 'none', 'less', 'more'])
      expect([odd, refuses([turn, odd], [divisions, 'plain'])]).toEqual([odd, true]);
    for (const odd of ['lead_screw', 'none', 'less', 'more'])
      expect([odd, refuses([turn, 'lead_screw'], [divisions, odd])]).toEqual([odd, true]);
  });
});

it('a dial of a boring head counts by its own screw', () => {
  // 3 mm on diameter at 2 mm a turn of 40 divisions is a turn and a half: 60 divisions of 0.05 mm.
  const head = card('head', { diameter_per_turn: 2, head_divisions: 40 });
  expect(answer('boring_head_dial', { measured: 20, wanted: 23, head })).toMatchObject({
    divisions: 60,
    one_division: 0.05,
  });
});

it('a tip on the line of its slide moves by half of the change, for the smallest work too', () => {
  const { args } = callOf('boring_head_setting(2 mm, 20 mm)');
  expect(answer('boring_head_setting', args)['slide']).toBeCloseTo(9, 9);
});

it('the highest speed of a boring head is a speed', () => {
  const refuses = (name: string): boolean => {
    const { fields } = card('odd', { top_speed: 700, length_per_turn: 700 });
    const value = fields.get(name);
    const head = { ...card('head', {}), fields: new Map(value ? [['max_speed', value] as const] : []) };
    const made = formulaNamed('boring_head_speed')?.compute(given({ cutting_speed: 20, ring: 20, head }));
    return typeof made === 'object' && isRefusal(made);
  };
  expect([refuses('top_speed'), refuses('length_per_turn')]).toEqual([false, true]);
});

it('where a grid turns round does not depend on where it stands', () => {
  const turns = (first_x: number, first_y: number): readonly number[] =>
    formulaNamed('hole_grid')?.extremes?.['turned']?.(
      given({ columns: 2, rows: 2, pitch_x: 30, pitch_y: -10, turned: 20, first_x, first_y }),
    ) ?? [];
  expect(turns(0, 0).length).toBeGreaterThan(0);
  expect(turns(100, -40)).toEqual(turns(0, 0).map((turn) => expect.closeTo(turn, 9) as number));
});

it('a grid whose first place is left out stands at zero', () => {
  const made = formulaNamed('hole_grid')?.compute(given({ columns: 2, rows: 2, pitch_x: 30, pitch_y: -10 }));
  expect(made).toMatchObject({ x: [0, 30, 0, 30], y: [0, 0, -10, -10] });
});
