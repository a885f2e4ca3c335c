/** Where the ball formulas stop to hold, each broken once and just missed once, and what they say of doubtful set-ups. */
import { describe, expect, it } from 'vitest';
import { calculate, calculateLines } from '../../src/engine/index';
import { band } from '../../src/quantity/limits';
import { formulaNamed } from '../../src/trade';
import { isRefusal } from '../../src/trade/formula';
import { answer, broken, callOf, card, given, list, number, SHOP } from './given';

function says(call: string, severity: 'error' | 'warning' = 'error'): string[] {
  const { formula, args } = callOf(call);
  return broken(formula, args, severity);
}

const TOUCH = '30 mm, 29 mm, 11.789°, 32 mm, 16 mm';

describe('errors', () => {
  it.each([
    [
      'first_touch(30 mm, 30.01 mm, 10°, 32 mm, 16 mm)',
      'first_touch(30 mm, 30 mm, 10°, 32 mm, 16 mm)',
      'one of 30 mm or less',
    ],
    [
      'first_touch(30 mm, 29 mm, 45.01°, 32 mm, 16 mm)',
      'first_touch(30 mm, 29 mm, 45°, 32 mm, 16 mm)',
      'from 0° to 45°',
    ],
    [
      'first_touch(30 mm, 29 mm, -0.01°, 32 mm, 16 mm)',
      'first_touch(30 mm, 29 mm, 0°, 32 mm, 16 mm)',
      'from 0° to 45°',
    ],
    [
      'first_touch(30 mm, 29 mm, 10°, 29.99 mm, 16 mm)',
      'first_touch(30 mm, 29 mm, 10°, 30 mm, 16 mm)',
      'at least 30 mm',
    ],
    [
      `first_touch(${TOUCH}, chamfer: 16 mm)`,
      `first_touch(${TOUCH}, chamfer: 15.99 mm)`,
      'give one below 16 mm',
    ],
    [
      `first_touch(${TOUCH}, shoulder: 0 mm)`,
      `first_touch(${TOUCH}, shoulder: 0.01 mm)`,
      '`shoulder` is 0 mm',
    ],
    [
      'knee_schedule(30 mm, 29 mm, 11.789°, 32 mm, 16 mm, 0.0679 mm)',
      'knee_schedule(30 mm, 29 mm, 11.789°, 32 mm, 16 mm, 0.068 mm)',
      'more than 200 raises',
    ],
    ['half_raise(24.99 mm, 25 mm, 24 mm)', 'half_raise(25 mm, 25 mm, 24 mm)', '0.01 mm under size already'],
    [
      'half_raise(25 mm, 24.5 mm, 24.6 mm)',
      'half_raise(25 mm, 24.6 mm, 24.6 mm)',
      'no ball smaller than itself',
    ],
    ['knee_dial(1000.1 mm, knee)', 'knee_dial(1000 mm, knee)', '1000 mm or less'],
    ['knee_dial(-0.1 mm, knee)', 'knee_dial(0 mm, knee)', 'give zero or more'],
    ['chamfer_steps(22 mm, 0 mm, 31)', 'chamfer_steps(22 mm, 0 mm, 30)', 'give 30 or fewer'],
    ['ball_stock(30 mm, 30 mm, 32 mm)', 'ball_stock(30 mm, 29.9 mm, 32 mm)', "below the ball's 30 mm"],
    ['ball_stock(30 mm, 12 mm, 29.9 mm)', 'ball_stock(30 mm, 12 mm, 30 mm)', 'at least 30 mm'],
    [
      'ball_blank_length(30 mm, 30 mm, 40 mm, 25 mm)',
      'ball_blank_length(30 mm, 29 mm, 0 mm, 25 mm)',
      "below the ball's 30 mm",
    ],
    ['ball_sensitivity(30 mm, 30 mm)', 'ball_sensitivity(30 mm, 29.9 mm)', "below the ball's 30 mm"],
    [
      'end_left_at(22 mm, 0 mm, 15.5°, 10.59 mm)',
      'end_left_at(22 mm, 0 mm, 15.5°, 10.61 mm)',
      'Within 10.6 mm',
    ],
    ['end_left_at(22 mm, 0 mm, 0°, 12 mm)', 'end_left_at(22 mm, 0 mm, 0.0005°, 12 mm)', 'between 0° and 90°'],
    [
      'clearance_under_ring(3 mm, 0°, 40 mm, 20 mm)',
      'clearance_under_ring(3 mm, 0.0005°, 40 mm, 20 mm)',
      'between 0° and 90°',
    ],
    [
      'hollow_depth(15 mm, 12°, 30 mm, 30 mm, 15 mm)',
      'hollow_depth(14.9 mm, 12°, 30 mm, 30 mm, 15 mm)',
      'a height below 15 mm',
    ],
    [
      'hollow_depth(3 mm, 12°, 30 mm, 30 mm, 15 mm, chamfer: 15 mm)',
      'hollow_depth(3 mm, 12°, 30 mm, 30 mm, 15 mm, chamfer: 14.9 mm)',
      'chamfer below 15 mm',
    ],
    [
      'cone_behind_neck(10 mm, 5 mm, 45.01°, 20 mm)',
      'cone_behind_neck(10 mm, 5 mm, 44.99°, 20 mm)',
      'the tilt below 45°',
    ],
    [
      'cone_behind_neck(24.2 mm, 3 mm, 14°, 11.6 mm)',
      'cone_behind_neck(24.2 mm, 3 mm, 14°, 11.7 mm)',
      'leaves a neck of 11.676 mm',
    ],
    ['ball_seat(30 mm, 30.1 mm)', 'ball_seat(30 mm, 30 mm)', 'a mouth of 30 mm or less'],
    [
      'ball_seat(30 mm, 20 mm, hole: 20 mm)',
      'ball_seat(30 mm, 20 mm, hole: 19.9 mm)',
      'give one below 20 mm',
    ],
    ['ball_steps_by_angle(22 mm, 45.1°)', 'ball_steps_by_angle(22 mm, 45°)', 'from 0.5° to 45°'],
    ['ball_steps_by_angle(22 mm, 0.49°)', 'ball_steps_by_angle(22 mm, 0.5°)', 'from 0.5° to 45°'],
    [
      'ball_steps_by_angle(22 mm, 28.96°, nose_radius: 3.6666667 mm)',
      'ball_steps_by_angle(22 mm, 28.95°, nose_radius: 3.6666667 mm)',
      'below 28.955°',
    ],
    [
      'ball_steps_by_travel(22 mm, 5.51 mm)',
      'ball_steps_by_travel(22 mm, 5.5 mm)',
      'between 0.061 mm and 5.5 mm',
    ],
    [
      'ball_steps_by_travel(22 mm, 0.061 mm)',
      'ball_steps_by_travel(22 mm, 0.0612 mm)',
      'between 0.061 mm and 5.5 mm',
    ],
    [
      'ball_steps_by_travel(30 mm, 1.01 mm, nose_radius: 3 mm)',
      'ball_steps_by_travel(30 mm, 0.99 mm, nose_radius: 3 mm)',
      'below 1 mm',
    ],
    [
      'ball_work_feed(22 mm, 45.1°, 600 rpm, 20 rev/min, head)',
      'ball_work_feed(22 mm, 45°, 600 rpm, 20 rev/min, head)',
      'from 0° to 45°',
    ],
    [
      'ball_work_feed(22 mm, 12°, 600 rpm, 20 rev/min, head, nose_radius: 0 mm)',
      'ball_work_feed(22 mm, 12°, 600 rpm, 20 rev/min, head, nose_radius: 0.01 mm)',
      'Leave out `nose_radius`',
    ],
    [
      'ball_centre_from_end(15 mm, 45.1°, 30 mm, 6 mm)',
      'ball_centre_from_end(15 mm, 45°, 30 mm, 0 mm)',
      'from 0° to 45°',
    ],
    [
      'ball_centre_from_end(15 mm, 12°, 30 mm, 6 mm, chamfer: 15 mm)',
      'ball_centre_from_end(15 mm, 12°, 30 mm, 6 mm, chamfer: 14.9 mm)',
      'half of the blank, 15 mm',
    ],
    [
      'ball_over_reach(25 mm, 10 mm, 5.01 mm)',
      'ball_over_reach(25 mm, 10 mm, 5 mm)',
      'Beyond 5 mm, half the neck',
    ],
    [
      'fillet_from_neck(30 mm, 12 mm, 11.9 mm)',
      'fillet_from_neck(30 mm, 12 mm, 12 mm)',
      'give one of 12 mm or more',
    ],
    [
      'fillet_from_neck(30 mm, 12 mm, 30 mm)',
      'fillet_from_neck(30 mm, 12 mm, 29.9 mm)',
      "below the ball's 30 mm",
    ],
    [
      'explain_tilt(22 mm, 9.525 mm, 45°, 22 mm)',
      'explain_tilt(22 mm, 9.525 mm, 44.9°, 22 mm)',
      'between 0° and 45°',
    ],
    [
      'explain_tilt(22 mm, 22 mm, 15°, 22 mm)',
      'explain_tilt(22 mm, 21.9 mm, 15°, 22 mm)',
      "below the ball's 22 mm",
    ],
    [
      'trial_boss(22.1 mm, 22 mm, 9.525 mm)',
      'trial_boss(22 mm, 22 mm, 9.525 mm)',
      'bring the tool in by 0.325 mm on its slide, for a boss of 21.451 mm',
    ],
    // atan(20 / 40) is 26.565°; half of 20 over tan 30° is 17.321.
    [
      'ball_setup_result(20 mm, 20 mm, 30°, 8 mm)',
      'ball_setup_result(20 mm, 17 mm, 30°, 8 mm)',
      'keep the tilt below 26.565°, or the height below 17.321 mm.',
    ],
    [
      'cone_behind_neck(20 mm, 20 mm, 30°, 45 mm)',
      'cone_behind_neck(20 mm, 17 mm, 30°, 45 mm)',
      'keep the tilt below 26.565°, or the height below 17.321 mm.',
    ],
    ['trial_boss(21.4 mm, 22 mm, 22 mm)', 'trial_boss(21.4 mm, 22 mm, 21.9 mm)', "below the ball's 22 mm"],
  ])('%s, but not %s', (call, near, words) => {
    expect(says(call).join(' ')).toContain(words);
    expect(says(near)).toEqual([]);
  });
});

describe('warnings', () => {
  it.each([
    [
      'ball_over_reach(25 mm, 10 mm, 0.5 mm)',
      'ball_over_reach(25 mm, 10 mm, 0.0049 mm)',
      'Reaching past the end does not clean it: the ring goes round it and leaves a cone 1 mm across its foot and 0.105 mm high.',
    ],
    [
      'ball_over_reach(25 mm, 10 mm, -0.5 mm)',
      'ball_over_reach(25 mm, 10 mm, -0.0049 mm)',
      'leaves a sharp pip 1 mm across its foot and 2.651 mm tall',
    ],
    [
      'clearance_under_ring(3.064645 mm, 11.789089°, 40 mm, 23 mm)',
      'clearance_under_ring(3.064645 mm, 11.789089°, 40 mm, 22.95 mm)',
      'bring its face more than 40.1 mm behind the centre, or use one below 22.958 mm across',
    ],
  ])('%s, but not %s', (call, near, words) => {
    expect(says(call, 'warning').join(' ')).toContain(words);
    expect(says(near, 'warning')).toEqual([]);
    expect(says(call)).toEqual([]);
  });
});

describe('a tilt of 15° to 16° and a ring of 22 mm for a 22 mm ball on a shank of 9.525 mm, as common practice has it', () => {
  const verdict = (ball: number, shank: number, tilt: number, ring: number): string =>
    String(answer('explain_tilt', { ball, shank, tilt, ring })['verdict']);

  it('is explained by a neck of 11 to 11.7 mm, or a fillet of 1.5 to 2.3 mm', () => {
    const sheet = calculateLines('tilt = 15.5° ± 0.5°\nx = explain_tilt(22 mm, 9.525 mm, tilt, 22 mm)\n');
    const value = sheet.valueOf('x');
    const reach = (field: string): [number, number] => {
      const part = value?.kind === 'record' ? value.fields.get(field) : null;
      const limits = part?.kind === 'number' ? band(part) : null;
      return [limits?.low ?? NaN, limits?.high ?? NaN];
    };
    const near = (field: string, low: number, high: number): void =>
      reach(field).forEach((x, i) => expect(x, field).toBeCloseTo([low, high][i] ?? NaN, 2));
    near('neck', 11, 11.658);
    near('fillet', 1.475, 2.269);
    near('too_large', 0.75, 0.852);
  });

  it('is told to have a ring too large for it, by how much, and what that would make', () => {
    expect(verdict(22, 9.525, 15.5, 22)).toBe(
      'A tilt of 15.5° is right for a neck of 11.331 mm, or for a fillet of 1.862 mm at the shank of 9.525 mm; straight on ' +
        'the shank it would be 12.828°. The ring of 22 mm is too large by 0.8 mm: lowered until the ball measures 22 mm it ' +
        'leaves a cone on the end and cuts a groove 1.823 mm deep into the shank. Stopped where the end comes clean, it makes ' +
        'a ball of 22.83 mm. Right at this tilt: ring 21.2 mm, height 2.94 mm.',
    );
  });

  it('has other words for other faults', () => {
    expect(verdict(22, 9.525, 15.5, 22.5)).toContain(
      'too large by 1.3 mm: it makes no ball smaller than itself',
    );
    expect(verdict(22, 9.525, 15.5, 21)).toContain('too small by 0.2 mm: a sharp pip is left on the end');
    expect(verdict(22, 9.525, 15.5, 21.2)).toContain(
      'The ring of 21.2 mm is right for it, at a height of 2.94 mm.',
    );
    expect(verdict(22, 9.525, 12.8276, 21.451)).toContain('is right for this ball straight on its shank.');
    expect(verdict(22, 9.525, 10, 21.6)).toContain(
      'too small for a shank of 9.525 mm: the ring would cut it down to 7.524 mm',
    );
    // Too large by little: a cone, but the neck still stands above the shank.
    expect(verdict(22, 9.525, 15.5, 21.25)).not.toContain('groove');
  });
});

describe('the passes of the knee', () => {
  const args = { ball: 30, ring: 29.367189, tilt: 11.789089, blank: 30, end_to_centre: 15 };

  it('add up to the travel, end at the ball, and halve what is left at last', () => {
    for (const step of [0.3, 1, 2, 5, 20]) {
      const raised = list('knee_schedule', { ...args, step }, 'raised');
      const balls = list('knee_schedule', { ...args, step }, 'balls');
      const travel = number('first_touch', args, 'travel');
      expect(number('knee_schedule', { ...args, step }, 'raises')).toBe(raised.length);
      expect(raised.at(-1)).toBeCloseTo(travel, 9);
      expect(balls.at(-1)).toBeCloseTo(30, 9);
      const steps = raised.map((x, i) => x - (raised[i - 1] ?? 0));
      const [half, last] = steps.slice(-2);
      expect(half).toBeCloseTo(last ?? NaN, 9);
      for (const each of steps.slice(0, -2)) expect(each).toBeCloseTo(step, 9);
      expect(2 * (half ?? NaN)).toBeLessThanOrEqual(step + 1e-9);
    }
  });

  it('name what the card of the mill lacks, or that none was given', () => {
    expect(answer('knee_schedule', { ...args, step: 2 })['dial']).toContain('`machine: mill`');
    for (const fields of [
      {},
      { knee_per_turn: 2.5 },
      { knee_divisions: 125 },
      { knee_per_turn: 0, knee_divisions: 1 },
    ]) {
      const machine = card('mill', fields);
      for (const [name, more] of [
        ['knee_schedule', { ...args, step: 2 }],
        ['knee_dial', { raise: 2 }],
      ] as const) {
        const result = formulaNamed(name)?.compute(given({ ...more, machine }));
        if (typeof result !== 'object' || !isRefusal(result)) throw new Error('answered');
        expect(result).toMatchObject({ parameter: 'machine' });
        expect(result.refused).toContain('`mill` needs `knee_per_turn`');
      }
      expect(formulaNamed('knee_dial')?.working(given({ raise: 2, machine }))).toEqual([]);
    }
    const head = card('head', { plates: [15] });
    const feed = formulaNamed('ball_work_feed')?.compute(
      given({ ball: 22, tilt: 12, spindle_speed: 600, crank_speed: 20, head }),
    );
    if (typeof feed !== 'object' || !isRefusal(feed)) throw new Error('answered');
    expect(feed.refused).toContain('needs a `ratio`');
  });

  it('count a full turn of the handle as a turn', () => {
    const machine = SHOP.get('knee');
    if (!machine) throw new Error('no card');
    expect(answer('knee_dial', { raise: 7.5 * (1 - 1e-12), machine })).toMatchObject({ turns: 3 });
    expect(answer('knee_dial', { raise: 7.49, machine })).toMatchObject({ turns: 2 });
  });

  it('carry limits item by item, and say so when their number depends on them', () => {
    const lines = (blank: string): string =>
      `blank = ${blank}\nx = knee_schedule(30 mm, 29.367189 mm, 11.789089°, blank, 15 mm, 2 mm)\n`;
    const sheet = calculateLines(lines('30.1 mm ± 0.05'));
    const value = sheet.valueOf('x');
    const balls = value?.kind === 'record' ? value.fields.get('balls') : null;
    if (balls?.kind !== 'list') throw new Error('no list');
    const [first] = balls.items;
    expect(first?.spread).toHaveLength(1);
    expect(balls.items.at(-1)?.value).toBeCloseTo(30, 9);
    expect(sheet.findings()).toEqual([]);
    const other = calculateLines(lines('30.1 mm +4/-0.05 mm'));
    expect(other.findings().map(({ code }) => code)).toEqual(['choice-at-limit']);
    const alone = other.valueOf('x');
    const rest = alone?.kind === 'record' ? alone.fields.get('balls') : null;
    expect(rest?.kind === 'list' && rest.items.every(({ spread }) => spread === null)).toBe(true);
  });

  it('stand in a note as lists', () => {
    const text = '```figures\nx = ball_steps_by_angle(22 mm, 30°)\n```\n';
    const value = calculate(text, []).valueOf('x');
    const dials = value?.kind === 'record' ? value.fields.get('dials') : null;
    expect(dials?.kind === 'list' && dials.items.map((item) => Number(item.value.toFixed(6)))).toEqual([
      11, 19.052559, 22,
    ]);
  });
});

it('a ring as large as its blank touches the corner of the end before that stands highest', () => {
  // By hand: the corner is hypot(30, 20) from the centre, and a ring 20 in radius is met 30 above it; at its highest, inside
  // the ring, it stands 32.3 above. The chamfer's line along + across = 50 crosses the ring at (50 - 20 (cos - sin)) / (cos + sin).
  const touch = { ball: 40, ring: 40, tilt: 30, blank: 40 };
  expect(number('first_touch', { ...touch, end_to_centre: 30 }, 'height')).toBeCloseTo(30, 9);
  expect(number('first_touch', { ...touch, end_to_centre: 35, chamfer: 5 }, 'height')).toBeCloseTo(
    31.2436,
    4,
  );
});

describe('turning points', () => {
  const turning = (
    name: string,
    field: string,
    args: Readonly<Record<string, number>>,
  ): readonly number[] => {
    const value = (x: number): number => number(name, { ...args, tilt: x }, field);
    const places = formulaNamed(name)?.extremes?.['tilt']?.(given(args)) ?? [];
    return places
      .filter((tilt) => tilt > 0.02 && tilt < 44.98)
      .filter((tilt) => (value(tilt - 0.01) - value(tilt)) * (value(tilt + 0.01) - value(tilt)) > 0);
  };
  const at = (name: string, field: string, args: Readonly<Record<string, number>>): void =>
    expect(turning(name, field, args).length, name).toBeGreaterThan(0);

  it('lie where the formulas say', () => {
    // The chamfer of a long end rises with the tilt while the bar behind it sinks.
    const long = { blank: 32, end_to_centre: 17, chamfer: 5 };
    at('first_touch', 'height', { ball: 30, ring: 29, tilt: 8, ...long });
    at('ball_centre_from_end', '', { end_to_centre: 16, tilt: 5, blank: 12, stylus: 6, chamfer: 1 });
    at('hollow_depth', 'uncut', { height: 1, tilt: 5, ball: 30, blank: 30, end_to_centre: 9 });
  });

  it('are told to the angle for a corner that points straight up or stands on the ring', () => {
    // By hand, with a ring 25 mm in radius. The corners are at (40, 30), (30, 40) and (96, 40) along and across: 3-4-5 and
    // 5-12-13 triangles, 50 mm, 50 mm and 104 mm from the centre. Up: 90° less the slope; on the ring: acos(25/50) = 60°
    // and acos(25/104) = 76.0908° either side of the slope. The chamfer's line is 70 / √2 mm from the centre and at 45°;
    // the bar's is 40 mm from it.
    const args = { ring: 50, tilt: 5, blank: 80, end_to_centre: 40, chamfer: 10, shoulder: 96 };
    const told = formulaNamed('first_touch')?.extremes?.['tilt']?.(given({ ball: 60, ...args })) ?? [];
    for (const tilt of [53.1301, 23.1301, 36.8699, 6.8699, 67.3801, 53.4709, 14.6636, 38.6822])
      expect(told, `${tilt}`).toContainEqual(expect.closeTo(tilt, 3));
  });

  it('are told to the angle where another place is touched first', () => {
    // By hand: the corner (9, 40) is 41 mm from the centre. The bar's top over a ring of radius r is as high as the corner
    // on the ring where 41 * cos(tilt - asin(r/41)) is 40: 12.6804° either side of the arcsine, from the 9-40-41 triangle.
    const told = (ring: number): readonly number[] =>
      formulaNamed('first_touch')?.extremes?.['tilt']?.(
        given({ ball: 80, ring, tilt: 5, blank: 80, end_to_centre: 9 }),
      ) ?? [];
    for (const [ring, tilts] of [
      [32.8, [10.8978, 36.2586]],
      [43.6, [19.4405, 44.8013]],
    ] as const)
      for (const tilt of tilts) expect(told(ring), `${tilt}`).toContainEqual(expect.closeTo(tilt, 3));
  });

  it('are told to the angle where the corner of a shoulder comes to stand on the ring', () => {
    // A 28-45-53 triangle: the slope of the corner is 58.1092°, and acos(45/53) is 31.8908°.
    const args = { ball: 90, ring: 90, tilt: 5, blank: 90, end_to_centre: 48, shoulder: 28 };
    expect(formulaNamed('first_touch')?.extremes?.['tilt']?.(given(args))).toContainEqual(
      expect.closeTo(26.2185, 3),
    );
  });

  it('are told to the angle for a corner that is at its highest under a hollow cutter', () => {
    // A 3-4-5 triangle either way: the corners are at (40, 30) and (30, 40), along and across.
    const args = { height: 1, tilt: 5, ball: 30, blank: 80, end_to_centre: 40, chamfer: 10 };
    const told = formulaNamed('hollow_depth')?.extremes?.['tilt']?.(given(args)) ?? [];
    for (const tilt of [53.1301, 36.8699]) expect(told).toContainEqual(expect.closeTo(tilt, 3));
  });

  it('are where a ball with a fillet blunter than the tip has its least height', () => {
    for (const more of [
      { fillet: 2 },
      { fillet: 2, nose_radius: 0.8 },
      { neck: 6, fillet: 3, nose_radius: 0.8 },
    ]) {
      const height = (ball: number): number => number('ball_on_shank', { neck: 12, ...more, ball }, 'height');
      const told =
        formulaNamed('ball_on_shank')?.extremes?.['ball']?.(given({ neck: 12, ...more, ball: 30 })) ?? [];
      expect(told).toHaveLength(1);
      for (const ball of told) {
        expect(height(ball)).toBeLessThan(height(ball * 0.999));
        expect(height(ball)).toBeLessThan(height(ball * 1.001));
      }
    }
  });

  it('are none for a short end, whose touch does not depend on the tilt', () => {
    const args = { ball: 30, ring: 29, tilt: 10, blank: 30, end_to_centre: 15 };
    expect(turning('first_touch', 'height', args)).toEqual([]);
  });
});
